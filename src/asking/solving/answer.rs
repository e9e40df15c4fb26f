//! The whole answer: the result with the inputs as understood, what was assumed, the working, the
//! sources and the cautions.

use super::sources::Sources;
use crate::calculators::Entry;
use crate::quantity::System;
use crate::refusal::Wrong;
use crate::shop::{self, Shop};
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
    /// What was found.
    pub body: Body,
    /// How it came about.
    pub record: Record,
    /// The address that gives it again, below the service's own.
    pub link: Option<String>,
}

/// What an answer holds.
#[derive(Debug)]
pub enum Body {
    /// One result.
    Result(Node),
    /// One row for each case of a range or list of inputs; with two rows also their difference.
    Rows(Vec<Row>, Option<Node>),
    /// Every value of an input that gives the wanted result.
    Roots(Vec<Root>),
    /// What to change an input by, a result having been measured.
    Correction(Box<Correction>),
}

/// One case of a range.
#[derive(Debug)]
pub struct Row {
    /// The inputs of this case that differ from case to case.
    pub varied: Vec<(&'static str, Node)>,
    /// All its inputs and its result, or what is wrong with it.
    pub outcome: Result<(Node, Node), Vec<Wrong>>,
}

/// One value of an input that gives a wanted result.
#[derive(Debug)]
pub struct Root {
    /// The value of the input.
    pub value: Node,
    /// Where every value from that one on gives the result: the last of them.
    pub up_to: Option<Node>,
    /// All inputs, with that value.
    pub inputs: Node,
    /// The result.
    pub result: Node,
}

/// What to change an input by.
#[derive(Debug)]
pub struct Correction {
    /// The input.
    pub field: String,
    /// What it was meant to be.
    pub intended: Node,
    /// What it must have been for the result to measure as it did.
    pub as_made: Node,
    /// The change: intended less as made.
    pub change: Node,
    /// The result as it was meant to be.
    pub result: Node,
}

impl Answer {
    /// The result, if it is a single one.
    pub fn result(&self) -> Option<&Node> {
        match &self.body {
            Body::Result(result) => Some(result),
            Body::Correction(correction) => Some(&correction.result),
            _ => None,
        }
    }
}

impl Serialize for Answer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("calculator", self.entry.id)?;
        map.serialize_entry("version", crate::VERSION)?;
        map.serialize_entry("data_version", crate::data_version())?;
        if let Some(link) = &self.link {
            map.serialize_entry("link", link)?;
        }
        if let Some(shop) = shop::installed() {
            map.serialize_entry("shop", &ShopUsed(shop))?;
        }
        map.serialize_entry("inputs", &self.inputs)?;
        map.serialize_entry("assumed", &self.record.assumed)?;
        match &self.body {
            Body::Result(result) => map.serialize_entry("result", result)?,
            Body::Rows(rows, difference) => {
                map.serialize_entry("rows", rows)?;
                if let Some(difference) = difference {
                    map.serialize_entry("difference", difference)?;
                }
            }
            Body::Roots(roots) => map.serialize_entry("roots", roots)?,
            Body::Correction(correction) => {
                map.serialize_entry("correction", correction.as_ref())?;
                map.serialize_entry("result", &correction.result)?;
            }
        }
        map.serialize_entry("working", &Working(self))?;
        map.serialize_entry("notes", &self.record.notes)?;
        map.serialize_entry("cautions", &self.record.cautions)?;
        map.serialize_entry("sources", &Sources(&self.record.sources))?;
        map.serialize_entry("trust", self.record.trust().as_str())?;
        map.end()
    }
}

impl Serialize for Row {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(2))?;
        match &self.outcome {
            Ok((inputs, result)) => {
                map.serialize_entry("inputs", inputs)?;
                map.serialize_entry("result", result)?;
            }
            Err(wrongs) => {
                map.serialize_entry("inputs", &Node::Record(self.varied.clone()))?;
                map.serialize_entry("errors", wrongs)?;
            }
        }
        map.end()
    }
}

impl Serialize for Root {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("value", &self.value)?;
        if let Some(up_to) = &self.up_to {
            map.serialize_entry("up_to", up_to)?;
        }
        map.serialize_entry("inputs", &self.inputs)?;
        map.serialize_entry("result", &self.result)?;
        map.end()
    }
}

impl Serialize for Correction {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(4))?;
        map.serialize_entry("field", &self.field)?;
        map.serialize_entry("intended", &self.intended)?;
        map.serialize_entry("as_made", &self.as_made)?;
        map.serialize_entry("change", &self.change)?;
        map.end()
    }
}

/// The shop that was answered for.
struct ShopUsed<'a>(&'a Shop);

impl Serialize for ShopUsed<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(2))?;
        map.serialize_entry("name", &self.0.name)?;
        map.serialize_entry("hash", &self.0.hash)?;
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
