//! The whole answer: the result with the inputs as understood, what was assumed, the working, the
//! sources and the cautions.

use crate::calculators::Entry;
use crate::quantity::System;
use crate::tree::Node;
use crate::working::{Record, StepIn};
use serde::ser::{Serialize, SerializeMap, SerializeSeq, Serializer};

/// An answer.
#[derive(Debug)]
pub struct Answer {
    /// The calculator that gave it.
    pub entry: &'static Entry,
    /// The system it is written in.
    pub system: System,
    /// The inputs as understood.
    pub inputs: Node,
    /// The result.
    pub result: Node,
    /// How it came about.
    pub record: Record,
}

impl Serialize for Answer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("calculator", self.entry.id)?;
        map.serialize_entry("version", crate::VERSION)?;
        map.serialize_entry("data_version", crate::data_version())?;
        map.serialize_entry("inputs", &self.inputs)?;
        map.serialize_entry("assumed", &self.record.assumed)?;
        map.serialize_entry("result", &self.result)?;
        map.serialize_entry("working", &Working(self))?;
        map.serialize_entry("notes", &self.record.notes)?;
        map.serialize_entry("cautions", &self.record.cautions)?;
        map.serialize_entry("sources", &self.record.sources)?;
        map.serialize_entry("trust", self.record.trust().as_str())?;
        map.end()
    }
}

/// The steps; an empty list if they are not wanted.
struct Working<'a>(&'a Answer);

impl Serialize for Working<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let steps = &self.0.record.steps;
        let mut list = serializer.serialize_seq(Some(steps.len()))?;
        for step in steps {
            list.serialize_element(&StepIn(step, self.0.system))?;
        }
        list.end()
    }
}
