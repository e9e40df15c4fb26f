//! The reserved fields of a request: taken out from among the calculator's own, read, and held against
//! each other.

use super::filled_by_machine::machine_named;
use super::goal::good_goal;
use super::target::{no_target, targets};
use crate::asking::describing::{Form, RESERVED, Reserved, good};
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::refusal::{Code, Refusal, Wrong};

/// Takes the reserved fields out of a request and reads them.
pub fn take_reserved(entry: &'static Entry, fields: &mut Fields, form: Form) -> Result<Reserved, Refusal> {
    let mut own = Fields::default();
    fields.0.retain(|(name, value)| {
        let reserved = RESERVED.contains(&name.as_ref());
        if reserved {
            own.0.push((name.clone(), value.clone()));
        }
        !reserved
    });
    if own.0.is_empty() {
        return Ok(Reserved::default());
    }
    let mut wrongs = Vec::new();
    own.0.retain(|(name, _)| {
        if form.names().contains(&name.as_ref()) {
            return true;
        }
        let forms = [
            (Form::Json, "the plain address"),
            (Form::Cell, ".txt"),
            (Form::Table, ".csv"),
            (Form::Sheet, "a table sent to .csv"),
            (Form::Drawing, ".svg"),
        ];
        let homes: Vec<&str> =
            forms.iter().filter(|(form, _)| form.names().contains(&name.as_ref())).map(|(_, is)| *is).collect();
        let says = format!("{name} is read only in {}.", homes.join(" and "));
        wrongs.push(Wrong::new(name, Code::NotOffered, says, "leave out"));
        false
    });
    let read = match own.read::<Reserved>(good) {
        Ok(read) => read,
        Err(refusal) => {
            wrongs.extend(refusal.0);
            return Err(Refusal(wrongs));
        }
    };
    let machine = read.machine.as_deref().map(machine_named).transpose().unwrap_or_else(|wrong| {
        wrongs.push(wrong);
        None
    });
    let has_resolution = read.resolution.is_some() || machine.is_some_and(|m| m.field("resolution").is_some());
    let counting = [("z_plus", read.z_plus.is_some()), ("x_reads", read.x_reads.is_some())];
    if let (Some((name, _)), false) = (counting.iter().find(|(_, given)| *given), has_resolution) {
        let says = format!("{name} says how a readout counts; give the resolution of the readout too.");
        wrongs.push(Wrong::new("resolution", Code::FieldMissing, says, "0.0005 in"));
    }
    for (one, is, other, also) in
        [("solve_for", &read.solve_for, "wanted", &read.wanted), ("correct", &read.correct, "measured", &read.measured)]
    {
        let (missing, there) = match (is, also) {
            (Some(_), None) => (other, one),
            (None, Some(_)) => (one, other),
            _ => continue,
        };
        if targets(entry).next().is_none() {
            wrongs.push(no_target(there));
            continue;
        }
        let says = format!("Give {missing} too: {there} needs it.");
        let good = match missing {
            "wanted" | "measured" => good_goal(entry),
            _ => targets(entry).next().map(str::to_owned),
        };
        wrongs.push(Wrong::new(missing, Code::FieldMissing, says, good.unwrap_or_default()));
    }
    if read.solve_for.is_some() && read.correct.is_some() {
        let says = "Solve backwards or correct from a measurement, not both.";
        wrongs.push(Wrong::new("correct", Code::Conflict, says, "leave out"));
    }
    if !wrongs.is_empty() {
        return Err(Refusal(wrongs));
    }
    Ok(read)
}
