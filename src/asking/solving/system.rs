//! The system of units of an answer: inch or metric.

use super::filled_by_machine::FilledByMachine;
use crate::quantity::System;
use crate::tree::{IntoTree, Node};
use crate::working::Record;

/// The system asked for, or that of the first input that has one, which is then put on record.
pub fn system_of(asked: Option<System>, inputs: &Node, filled: &FilledByMachine, record: &mut Record) -> System {
    if let Some(system) = asked {
        return system;
    }
    // What the machine has filled in does not decide, so that one machine serves inch and metric work.
    let stated = match inputs {
        Node::Record(members) if filled.machine().is_some() => {
            Node::Record(members.iter().filter(|(name, _)| filled.stated(name)).cloned().collect()).system()
        }
        inputs => inputs.system(),
    };
    match stated.or_else(|| inputs.system()) {
        Some(system) => {
            record.assume("units", &system, "The units of the first input that has any.");
            system
        }
        None => {
            let (system, says) = record.units_implied();
            record.assume("units", &system, says);
            system
        }
    }
}

impl IntoTree for System {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.as_str().into(), None))
    }
}
