//! The values that a refusal tries, in the system of the request: the one it asks for, else the one it is stated in.

use super::answer::{Answer, Body};
use crate::asking::describing::describe_entry;
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::{System, read};
use crate::reference::threads::Designation;
use crate::refusal::{Code, Refusal, Wrong};
use crate::suggestion::{Into, PARTS, in_system, stated};

/// What `entry` said to `fields`, with all that is tried in their system.
pub fn in_their_system<T>(
    entry: &'static Entry,
    fields: &Fields,
    outcome: Result<(Answer, T), Refusal>,
) -> Result<(Answer, T), Refusal> {
    match outcome {
        Err(mut refusal) => {
            mend(entry, fields, &mut refusal.0);
            Err(refusal)
        }
        Ok((mut answer, more)) => {
            if let Body::Rows(rows, _) = &mut answer.body {
                for wrongs in rows.iter_mut().filter_map(|row| row.outcome.as_mut().err()) {
                    mend(entry, fields, wrongs);
                }
            }
            Ok((answer, more))
        }
    }
}

fn mend(entry: &'static Entry, fields: &Fields, wrongs: &mut [Wrong]) {
    let asked = system_asked(fields);
    for wrong in wrongs {
        let Some(try_this) = &mut wrong.try_this else { continue };
        let name = wrong.field.split('/').nth(1).unwrap_or_default();
        let mut said = Vec::new();
        if let Some((_, given)) = fields.0.iter().find(|(known, _)| known == name) {
            each_part(given, &mut |part| said.push(part.trim().to_owned()));
        }
        // What the field itself is stated in goes before what the others are.
        let own = said.iter().find_map(|part| Some(stated(part)?.1));
        let Some(system) = asked.or(own).or_else(|| system_of(entry, fields)) else { continue };
        let bare = |number: f64| {
            let is = |part: &String| read(part, "").is_ok_and(|part| part.unit.is_none() && part.value == number);
            said.iter().any(is)
        };
        let follows = !said.is_empty() && matches!(wrong.code, Code::Conflict | Code::NoAnswer | Code::ValueOutOfRange);
        *try_this = in_system(try_this, system, |number| match follows {
            _ if bare(number) => Into::SameNumber,
            true => Into::SameSize,
            false => Into::RoundNumber,
        });
    }
}

/// The system that the request asks for.
fn system_asked(fields: &Fields) -> Option<System> {
    let (_, given) = fields.0.iter().find(|(name, _)| name == "units")?;
    let said = given.said().trim().to_lowercase();
    [System::Inch, System::Metric].into_iter().find(|is| said == is.as_str())
}

/// The system asked for, else that of the first value or thread that has one.
pub fn system_of(entry: &'static Entry, fields: &Fields) -> Option<System> {
    if let Some(system) = system_asked(fields) {
        return Some(system);
    }
    let mut found = None;
    for (name, given) in &fields.0 {
        each_part(given, &mut |part| {
            found =
                found.or_else(|| stated(part).filter(|(written, _)| written.value != 0.0).map(|(_, system)| system));
        });
        let declared = || describe_entry(entry)?.fields.iter().find(|field| field.name == *name);
        if found.is_none()
            && let Given::Text(text) = given
            && declared().is_some_and(|field| field.type_name() == "Designation")
        {
            found = Designation::read(text).ok().and_then(|thread| thread.unit().system());
        }
    }
    found
}

/// Every single value of what was given, as one would state it.
fn each_part(given: &Given, act: &mut impl FnMut(&str)) {
    match given {
        Given::Text(text) => text.split(PARTS).flat_map(|part| part.split("..")).for_each(act),
        Given::Number(_) => act(&given.said()),
        Given::List(items) => items.iter().for_each(|item| each_part(item, act)),
        Given::Object(members) => {
            let member = |wanted: &str| members.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.said());
            match (member("value"), member("unit")) {
                (Some(value), unit) => act(format!("{value} {}", unit.unwrap_or_default()).trim()),
                _ => members.iter().for_each(|(_, value)| each_part(value, act)),
            }
        }
        Given::Null | Given::Truth(_) => {}
    }
}
