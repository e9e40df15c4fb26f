//! Asking a calculator: the fields that every request may carry, the reading and solving, the
//! system of the answer, the readout's resolution, tolerances, ranges, solving backwards, and the
//! answer as JSON, a cell, a table or a drawing. Each is a loop over the register's untyped entry; nothing here
//! knows a calculator.

mod answer;
mod backwards;
mod because;
mod cell;
mod cells;
mod describe;
mod effort;
mod field_schema;
mod layout;
mod machine;
mod ranges;
mod receipt;
mod recheck;
mod reserved;
mod resolution;
mod sheet;
mod sheet_header;
mod table;
mod tolerance;

pub use answer::{Answer, Body, Correction, Root, Row};
pub use backwards::targets;
pub use because::Because;
pub use cell::cell;
pub use describe::{
    Described, FORMS, Field, ResultField, describe_entry, described, reserved_fields, reserved_schemas, without_null,
};
pub use effort::{as_one_of_many, is_long, too_much_work, within};
pub use receipt::{LONGEST_LINK, Sources, link};
pub use recheck::{Difference, GivenBy, Rechecked, Verdict, recheck};
pub use reserved::{Digits, Form, RESERVED, RefusalsAs, Reserved, Separator, XReads, ZPlus};
pub use sheet::{Answered, Sheet, delimiter, separator};
pub use table::table;

use crate::calculators::Entry;
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::quantity::System;
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::{IntoTree, Node};
use crate::working::Record;
use machine::StoodIn;

/// Asks `entry`: reads reserved and own fields, calculates, and puts the result into the units and
/// onto the resolution asked for. All that is wrong with the request is refused at once.
pub fn ask(entry: &'static Entry, mut fields: Fields, form: Form) -> Result<(Answer, Reserved), Refusal> {
    fields.join_lists(|name| {
        let fields = describe_entry(entry).into_iter().flat_map(|described| &described.fields);
        fields.into_iter().any(|field| field.name == name && field.form == "list")
    });
    // As it was asked, before anything stands in.
    let link = if form == Form::Json { receipt::link(entry, &fields) } else { None };
    let machine = StoodIn::for_missing(entry, &mut fields);
    let reserved = match Reserved::take(entry, &mut fields, form) {
        Ok(reserved) => Reserved { stood_in: machine, ..reserved },
        Err(mut refusal) => {
            if let Err(more) = one(entry, &fields, &Reserved { stood_in: machine, ..Reserved::default() }, false) {
                refusal.0.extend(more.0);
            }
            return Err(refusal);
        }
    };
    let working = form != Form::Table && reserved.working.unwrap_or(true);
    let mut answer = match ranges::found(&fields)? {
        Some(ranges) => ranges::answer(entry, &fields, ranges, &reserved),
        None => match (&reserved.solve_for, &reserved.correct) {
            (Some(field), _) => backwards::solve(entry, &fields, field, &reserved),
            (None, Some(field)) => backwards::correct(entry, &fields, field, &reserved),
            (None, None) => one(entry, &fields, &reserved, working),
        },
    }?;
    answer.link = link;
    Ok((answer, reserved))
}

/// One calculation, in the units and on the resolution asked for.
fn one(entry: &'static Entry, fields: &Fields, reserved: &Reserved, working: bool) -> Result<Answer, Refusal> {
    on_record(entry, fields, reserved, Record::new(working))
}

/// The same, on a record begun.
fn on_record(
    entry: &'static Entry,
    fields: &Fields,
    reserved: &Reserved,
    mut record: Record,
) -> Result<Answer, Refusal> {
    effort::go_on()?;
    let solved = (entry.solve)(fields, &mut record).map_err(|refusal| reserved.stood_in.explain(refusal))?;
    let (inputs, mut result) = (solved.inputs, solved.result);
    reserved.stood_in.tell(&inputs, &mut record);
    let system = system_of(reserved.units, &inputs, &reserved.stood_in, &mut record);
    let mut inward = false;
    result.each_quantity(&mut |leaf| {
        inward |= leaf.quantity.rounds_in(system);
        leaf.quantity = leaf.quantity.in_system(system);
    });
    if inward {
        record.round_limits(system);
    }
    for assumed in &mut record.assumed {
        assumed.value.each_quantity(&mut |leaf| {
            // A zero has no unit of its own to keep.
            if leaf.quantity.value == 0.0 {
                leaf.quantity = leaf.quantity.in_system(system);
            }
        });
    }
    tolerance::apply(entry, &inputs, system, &mut result, &mut record)?;
    resolution::apply(reserved, &mut result, &mut record);
    reserved.stood_in.tell_unused(&mut record);
    Ok(Answer { entry, system, inputs, body: Body::Result(result), record, link: None })
}

/// The drawing of an answer as SVG; `None` where the calculator has none.
pub fn drawing(
    entry: &'static Entry,
    mut fields: Fields,
    form: Form,
    stands: Stands,
) -> Option<Result<String, Refusal>> {
    let draw = entry.draw?;
    if let Ok(Some(ranges)) = ranges::found(&fields) {
        let wrong = |(at, cases): &(usize, Vec<String>)| {
            let says = "A drawing shows one answer, so every field has one value.";
            Wrong::new(&fields.0[*at].0, Code::NotOffered, says, cases.first().cloned().unwrap_or_default())
        };
        return Some(Err(Refusal(ranges.iter().map(wrong).collect())));
    }
    Some(ask(entry, fields.clone(), form).and_then(|(answer, _)| {
        StoodIn::for_missing(entry, &mut fields);
        fields.0.retain(|(name, _)| !RESERVED.contains(&name.as_ref()));
        Ok(draw(&fields, &mut Record::new(false))?.svg(answer.system, stands))
    }))
}

/// The system asked for, or that of the first input that has one, which is then put on record.
fn system_of(asked: Option<System>, inputs: &Node, machine: &StoodIn, record: &mut Record) -> System {
    if let Some(system) = asked {
        return system;
    }
    // What the machine stood in for does not decide, so that one machine serves inch and metric work.
    let stated = match inputs {
        Node::Record(members) if machine.machine().is_some() => {
            Node::Record(members.iter().filter(|(name, _)| machine.stated(name)).cloned().collect()).system()
        }
        inputs => inputs.system(),
    };
    match stated.or_else(|| inputs.system()) {
        Some(system) => {
            record.assume("units", &system, "The system of the first input that has one.");
            system
        }
        None => {
            record.assume("units", &System::Metric, "No input is in inch or metric units.");
            System::Metric
        }
    }
}

impl IntoTree for System {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.as_str().into(), None))
    }
}
