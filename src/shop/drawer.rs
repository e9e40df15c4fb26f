//! The drills in the drawer: single ones by name or size, or runs of them as sets are sold, each a
//! row of the drill tables.

use super::reader::{Reader, Text, Value, quoted};
use crate::fields::nearest;
use crate::quantity::shown;
use crate::reference::drill_diameter::DrillDiameter;
use crate::reference::drills::{Drill, DrillSystem, drills, named};
use crate::refusal::{Code, Unread};

const GOOD: &str = "[drills]";

/// Reads `drills`.
pub fn read(reader: &mut Reader, value: &Value) -> Vec<&'static Drill> {
    let Some(table) = reader.table("drills", value, GOOD) else { return Vec::new() };
    let systems = DrillSystem::ALL.map(DrillSystem::as_str);
    let mut owned: Vec<&'static Drill> = Vec::new();
    for (key, value) in table {
        let full = format!("drills.{}", key.get_ref());
        let Some(system) = DrillSystem::ALL.into_iter().find(|system| system.as_str() == key.get_ref()) else {
            reader.unknown(key.span(), &full, key.get_ref(), &systems);
            continue;
        };
        for text in reader.texts(&full, value, &format!("[{}]", quoted(good(system)))) {
            match run(system, &text) {
                Ok(drills) => {
                    for drill in drills {
                        if owned.iter().any(|before| std::ptr::eq(*before, drill)) {
                            let says = format!("The drill {} is listed twice.", drill.name);
                            reader.fault(text.span.clone(), &full, says, "leaving one of them out");
                        } else {
                            owned.push(drill);
                        }
                    }
                }
                Err(unread) => reader.fault(text.span.clone(), &full, unread.says, quoted(&unread.try_this)),
            }
        }
    }
    drills().iter().filter(|drill| owned.iter().any(|one| std::ptr::eq(*one, *drill))).collect()
}

const fn good(system: DrillSystem) -> &'static str {
    match system {
        DrillSystem::Fraction => "1/16 to 1/2 by 1/64",
        DrillSystem::Number => "#1 to #60",
        DrillSystem::Letter => "A to Z",
        DrillSystem::Metric => "1 mm to 13 mm by 0.5 mm",
    }
}

/// One drill, or a run of them: `A to Z`, `1 mm to 13 mm by 0.5 mm`.
fn run(system: DrillSystem, text: &Text) -> Result<Vec<&'static Drill>, Unread> {
    let refuse = |says: String| Err(Unread { code: Code::ValueUnreadable, says, try_this: good(system).into() });
    let Some((from, rest)) = text.text.split_once(" to ") else { return Ok(vec![drill(system, text.text)?]) };
    let (to, by) = rest.split_once(" by ").map_or((rest, None), |(to, by)| (to, Some(by)));
    let (from, to) = (drill(system, from)?, drill(system, to)?);
    // Number drills are counted from the large end; a run may be written either way.
    let (small, large) = if nanometres(from) <= nanometres(to) { (from, to) } else { (to, from) };
    let step = match by {
        Some(by) if matches!(system, DrillSystem::Fraction | DrillSystem::Metric) => {
            (DrillDiameter::read(by)?.size.quantity().si() * 1e9).round() as i64
        }
        Some(_) => {
            return refuse(format!(
                "\"{}\": only fraction and metric drills can be listed by a step.",
                shown(text.text)
            ));
        }
        None => 1,
    };
    let on_step = |drill: &Drill| step > 0 && (nanometres(drill) - nanometres(small)) % step == 0;
    if !on_step(large) {
        return refuse(format!("The steps of \"{}\" do not end at {}.", shown(text.text), large.name));
    }
    let within = |drill: &&Drill| {
        drill.system == system && (nanometres(small)..=nanometres(large)).contains(&nanometres(drill)) && on_step(drill)
    };
    Ok(drills().iter().filter(within).collect())
}

/// Every size of the tables is a whole number of nanometres.
fn nanometres(drill: &Drill) -> i64 {
    (drill.millimetres() * 1e6).round() as i64
}

/// The drill of `system` that `text` names, or whose size it is.
fn drill(system: DrillSystem, text: &str) -> Result<&'static Drill, Unread> {
    let text = text.trim();
    let drill = named(text).or_else(|| {
        let size = DrillDiameter::read(text).ok()?.size.quantity().si();
        drills().iter().find(|drill| drill.system == system && nanometres(drill) == (size * 1e9).round() as i64)
    });
    match drill {
        Some(drill) if drill.system == system => Ok(drill),
        Some(other) => Err(Unread {
            code: Code::KindWrong,
            says: format!("\"{}\" is a {1} drill; list it under {1}.", shown(text), other.system.as_str()),
            try_this: good(system).into(),
        }),
        None => Err(Unread {
            code: Code::NotFound,
            says: format!("There is no {} drill \"{}\" in the tables.", system.as_str(), shown(text)),
            try_this: near(system, text).unwrap_or_else(|| good(system).into()),
        }),
    }
}

/// The drill of `system` that is most likely meant.
fn near(system: DrillSystem, text: &str) -> Option<String> {
    let of_system = || drills().iter().filter(move |drill| drill.system == system);
    let meant = [format!("#{text}"), format!("{text} mm")];
    if let Some(drill) = meant.iter().filter_map(|text| named(text)).find(|drill| drill.system == system) {
        return Some(drill.name.into());
    }
    if let Ok(diameter) = DrillDiameter::read(text) {
        let size = diameter.size.quantity().si() * 1000.0;
        let off = |drill: &&Drill| (drill.millimetres() - size).abs();
        return of_system().min_by(|a, b| off(a).total_cmp(&off(b))).map(|drill| drill.name.into());
    }
    nearest(text, of_system().map(|drill| drill.name)).map(str::to_owned)
}

/// The good value of every system, for the tests.
#[cfg(test)]
pub fn good_values() -> impl Iterator<Item = (&'static str, &'static str)> {
    DrillSystem::ALL.into_iter().map(|system| (system.as_str(), good(system)))
}
