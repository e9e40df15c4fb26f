//! Asking a calculator: the reserved fields read and taken out, then one calculation, a range of them, or
//! one solved backwards; and the drawing of what was found.

use super::answer::Answer;
use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use super::link::link;
use super::take_reserved::take_reserved;
use super::way_out::in_their_system;
use super::{backwards, ranges};
use crate::asking::describing::{Form, RESERVED, Reserved, describe_entry};
use crate::calculators::Entry;
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::Record;

/// Asks `entry`: reads reserved and own fields, calculates, and puts the result into the units and
/// onto the resolution asked for. All that is wrong with the request is refused at once.
pub fn ask(entry: &'static Entry, mut fields: Fields, form: Form) -> Result<(Answer, Reserved), Refusal> {
    fields.check_count()?;
    // These are taken out on the way.
    let reserved: Vec<_> = fields.0.iter().filter(|(name, _)| RESERVED.contains(&name.as_ref())).cloned().collect();
    let outcome = solved(entry, &mut fields, form);
    if !reserved.is_empty() {
        fields.0.retain(|(name, _)| !RESERVED.contains(&name.as_ref()));
        fields.0.extend(reserved);
    }
    in_their_system(entry, &fields, outcome)
}

fn solved(entry: &'static Entry, fields: &mut Fields, form: Form) -> Result<(Answer, Reserved), Refusal> {
    fields.join_lists(|name| {
        let fields = describe_entry(entry).into_iter().flat_map(|described| &described.fields);
        fields.into_iter().any(|field| field.name == name && field.form == "list")
    });
    // As it was asked, before anything is filled in.
    let link = if form == Form::Json { link(entry, fields) } else { None };
    let filled = FilledByMachine::fill(entry, fields);
    let reserved = match take_reserved(entry, fields, form) {
        Ok(reserved) => reserved,
        Err(mut refusal) => {
            match one(entry, fields, &Reserved::default(), &filled, false) {
                Err(more) if more.is_of_time() => return Err(more),
                more => refusal.0.extend(more.err().unwrap_or_default().0),
            }
            return Err(refusal);
        }
    };
    let working = match form {
        Form::Json => reserved.working.unwrap_or(true),
        // A cell can show a part of the working, by its path in the whole answer.
        Form::Cell => reserved.pick.as_ref().is_some_and(|pick| pick.starts_with('/')),
        Form::Table | Form::Sheet | Form::Drawing => false,
    };
    let mut answer = match ranges::ranges_of(fields)? {
        Some(ranges) => ranges::answer(entry, fields, ranges, &reserved, &filled),
        None => match (&reserved.solve_for, &reserved.correct) {
            (Some(field), _) => backwards::solve(entry, fields, field, &reserved, &filled),
            (None, Some(field)) => backwards::correct(entry, fields, field, &reserved, &filled),
            (None, None) => one(entry, fields, &reserved, &filled, working),
        },
    }?;
    answer.link = link;
    Ok((answer, reserved))
}

/// The drawing of an answer as SVG; `None` where the calculator has none.
pub fn drawing(
    entry: &'static Entry,
    mut fields: Fields,
    form: Form,
    stands: Stands,
) -> Option<Result<String, Refusal>> {
    let draw = entry.draw?;
    if let Ok(Some(ranges)) = ranges::ranges_of(&fields) {
        let wrong = |(at, cases): &(usize, Vec<String>)| {
            let says = "A drawing shows one answer: give one value in each field.";
            Wrong::new(&fields.0[*at].0, Code::NotOffered, says, cases.first().cloned().unwrap_or_default())
        };
        return Some(Err(Refusal(ranges.iter().map(wrong).collect())));
    }
    Some(ask(entry, fields.clone(), form).and_then(|(answer, _)| {
        FilledByMachine::fill(entry, &mut fields);
        fields.0.retain(|(name, _)| !RESERVED.contains(&name.as_ref()));
        draw(&fields, &mut Record::new(false))?.svg(answer.system, stands)
    }))
}
