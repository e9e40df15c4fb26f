//! Every size near a measurement that parts are usually made to, each size once with all that has it.

use super::SizeFamily;
use crate::arithmetic::measured::HoleOrShaft;
use crate::quantity::{Size, Unit, text};
use crate::reference::drills::{DrillSystem, drills};
use crate::reference::round_bars::round_bars;
use crate::reference::threads::{metric_rows, unified_rows};
use crate::sources::source;

/// A size that parts are made to.
pub struct Known {
    /// The size, in the unit it is named in.
    pub size: Size,
    /// What has it, the plain size first.
    pub names: Vec<String>,
    /// How rarely a part is made to it: 0 everywhere, 4 hardly.
    pub rareness: u32,
    /// Source, place and trust of each table it stands in.
    pub sources: Vec<(&'static str, &'static str, &'static str)>,
}

impl Known {
    /// What has the size beside its first name.
    pub fn also(&self) -> Option<String> {
        (self.names.len() > 1).then(|| self.names[1..].join(", "))
    }
}

/// The sizes found so far, by nanometers.
struct Found {
    low: f64,
    high: f64,
    all: Vec<(i64, Known)>,
}

impl Found {
    fn add(
        &mut self,
        (value, unit): (f64, Unit),
        name: String,
        rareness: u32,
        source: Option<(&'static str, &'static str, &'static str)>,
    ) {
        let meters = unit.to_si(value);
        if meters < self.low || meters > self.high {
            return;
        }
        let key = (meters * 1e9).round() as i64;
        let place = match self.all.iter().position(|(known, _)| *known == key) {
            Some(at) => at,
            None => {
                let size = Size::stated(value, unit);
                self.all.push((key, Known { size, names: Vec::new(), rareness, sources: Vec::new() }));
                self.all.len() - 1
            }
        };
        let known = &mut self.all[place].1;
        known.rareness = known.rareness.min(rareness);
        if !known.names.contains(&name) {
            known.names.push(name);
        }
        known.sources.extend(source.filter(|source| !known.sources.contains(source)));
    }
}

/// The known sizes within `reach` of `meters`.
pub fn known_near((meters, reach): (f64, f64), families: &[SizeFamily], feature: Option<HoleOrShaft>) -> Vec<Known> {
    let mut found = Found { low: (meters - reach).max(0.0002), high: meters + reach, all: Vec::new() };
    for family in families {
        match family {
            SizeFamily::Fraction => add_fractions(&mut found),
            SizeFamily::Millimeter => add_millimeters(&mut found),
            SizeFamily::Drill => add_drills(&mut found, feature),
            SizeFamily::Bar => add_bars(&mut found),
            SizeFamily::Thread => add_threads(&mut found),
        }
    }
    found.all.into_iter().map(|(_, known)| known).collect()
}

/// `1/2`, `1-1/16`, `2`, with the parts of an inch that it is in lowest terms.
fn fraction(sixty_fourths: u32) -> (String, u32) {
    let (whole, mut part, mut of) = (sixty_fourths / 64, sixty_fourths % 64, 64);
    while part % 2 == 0 && of > 1 {
        (part, of) = (part / 2, of / 2);
    }
    let name = match (whole, part) {
        (whole, 0) => format!("{whole}"),
        (0, part) => format!("{part}/{of}"),
        (whole, part) => format!("{whole}-{part}/{of}"),
    };
    (name, of)
}

fn add_fractions(found: &mut Found) {
    let step = Unit::Inch.to_si(1.0 / 64.0);
    for at in (found.low / step).ceil() as u32..=(found.high / step).floor() as u32 {
        if at == 0 {
            continue;
        }
        let (name, of) = fraction(at);
        let rareness = match of {
            1..=8 => 0,
            16 => 1,
            32 => 2,
            _ => 3,
        };
        found.add((f64::from(at) / 64.0, Unit::Inch), format!("{name} in"), rareness, None);
    }
}

fn add_millimeters(found: &mut Found) {
    for at in (found.low * 1e4).ceil() as u32..=(found.high * 1e4).floor() as u32 {
        let rareness = match at % 10 {
            0 => 0,
            5 => 2,
            _ => 4,
        };
        let value = f64::from(at) / 10.0;
        found.add((value, Unit::Millimetre), format!("{} mm", text::full(text::tidy(value))), rareness, None);
    }
}

fn add_drills(found: &mut Found, feature: Option<HoleOrShaft>) {
    let rareness = if feature == Some(HoleOrShaft::Hole) { 2 } else { 3 };
    for drill in drills() {
        let in_letters = if drill.system == DrillSystem::Letter { "letter " } else { "" };
        let cited = (drill.source, "nominal diameters of the drills listed", drill.trust.as_str());
        found.add(
            (drill.diameter, drill.size().quantity().unit),
            format!("drill {in_letters}{}", drill.name),
            rareness,
            Some(cited),
        );
    }
}

fn add_bars(found: &mut Found) {
    for bar in round_bars() {
        let unit = if bar.unit == "in" { Unit::Inch } else { Unit::Millimetre };
        let name = match unit {
            Unit::Inch => format!("round bar {} in", fraction((bar.diameter * 64.0).round() as u32).0),
            _ => format!("round bar {} mm", text::full(bar.diameter)),
        };
        let cited = source(&bar.source).map(|source| (source.key, "stock sizes of round bar", bar.trust.as_str()));
        found.add((bar.diameter, unit), name, 1, cited);
    }
}

fn add_threads(found: &mut Found) {
    for row in unified_rows() {
        let cited =
            source(&row.source).map(|source| (source.key, "basic diameters of unified threads", row.trust.as_str()));
        found.add((row.diameter_in, Unit::Inch), format!("thread {}", row.size_text()), 2, cited);
    }
    for row in metric_rows() {
        let size = row.designation.split('x').next().unwrap_or(&row.designation);
        let cited =
            source(&row.source).map(|source| (source.key, "basic diameters of metric threads", row.trust.as_str()));
        found.add((row.diameter_mm, Unit::Millimetre), format!("thread {size}"), 1 + u32::from(row.choice), cited);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(meters: f64, reach: f64) -> Vec<String> {
        let all = known_near((meters, reach), &SizeFamily::ALL, None);
        all.into_iter().flat_map(|known| known.names).collect()
    }

    #[test]
    fn one_size_has_all_its_names() {
        let half = named(0.0127, 1e-6);
        for name in ["1/2 in", "12.7 mm", "drill 1/2", "round bar 1/2 in", "thread 1/2"] {
            assert!(half.iter().any(|one| one == name), "{name} is not in {half:?}");
        }
        assert_eq!(fraction(17 * 4), ("1-1/16".to_owned(), 16));
        assert_eq!(fraction(128), ("2".to_owned(), 1));
        assert!(named(0.012, 1e-6).contains(&"thread M12".to_owned()));
    }
}
