//! Asking a calculator: the fields that every request may carry, the reading and solving, the
//! system of the answer, the readout's resolution, and the answer as JSON, a cell or a table.
//! Each is a loop over the register's untyped entry; nothing here knows a calculator.

mod answer;
mod cell;
mod describe;
mod reserved;
mod resolution;
mod table;

pub use answer::Answer;
pub use cell::cell;
pub use describe::{Described, Field, ResultField, describe_entry, described, reserved_fields, without_null};
pub use reserved::{Digits, Form, RESERVED, RefusalsAs, Reserved, Separator, ZPlus};
pub use table::table;

use crate::calculators::Entry;
use crate::fields::Fields;
use crate::quantity::System;
use crate::refusal::Refusal;
use crate::tree::{IntoTree, Node};
use crate::working::Record;

/// Asks `entry`: reads reserved and own fields, calculates, and puts the result into the units and
/// onto the resolution asked for. All that is wrong with the request is refused at once.
pub fn ask(entry: &'static Entry, mut fields: Fields, form: Form) -> Result<(Answer, Reserved), Refusal> {
    let reserved = Reserved::take(&mut fields, form);
    let working = match &reserved {
        Ok(reserved) => form == Form::Json && reserved.working.unwrap_or(true) || form == Form::Cell,
        Err(_) => false,
    };
    let mut record = Record::new(working);
    let solved = (entry.solve)(&fields, &mut record);
    let (reserved, solved) = match (reserved, solved) {
        (Ok(reserved), Ok(solved)) => (reserved, solved),
        (Err(mut refusal), Err(more)) => {
            refusal.0.extend(more.0);
            return Err(refusal);
        }
        (Err(refusal), _) | (_, Err(refusal)) => return Err(refusal),
    };
    let (inputs, mut result) = (solved.inputs, solved.result);
    let system = system_of(reserved.units, &inputs, &mut record);
    result.each_quantity(&mut |leaf| leaf.quantity = leaf.quantity.in_system(system));
    for assumed in &mut record.assumed {
        assumed.value.each_quantity(&mut |leaf| {
            if leaf.quantity.value == 0.0 {
                leaf.quantity = leaf.quantity.in_system(system);
            }
        });
    }
    resolution::apply(&reserved, &mut result, &mut record);
    Ok((Answer { entry, system, inputs, result, record }, reserved))
}

/// The system asked for, or that of the first input that has one, which is then put on record.
fn system_of(asked: Option<System>, inputs: &Node, record: &mut Record) -> System {
    if let Some(system) = asked {
        return system;
    }
    match inputs.system() {
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
