//! The whole answer: the result with the inputs as understood, what was assumed, the working, the
//! sources and the cautions.

use super::sources::Sources;
use crate::calculators::Entry;
use crate::json::{Json, ToJson};
use crate::quantity::System;
use crate::refusal::Wrong;
use crate::shop;
use crate::tree::{Node, write_record};
use crate::working::{Record, StepIn};

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

impl ToJson for Answer {
    fn write(&self, json: &mut Json) {
        let Record { assumed, steps, notes, cautions, sources, .. } = &self.record;
        json.object(|json| {
            json.member("calculator", self.entry.id);
            json.member("version", crate::VERSION);
            json.member("data_version", crate::data_version());
            json.member_if_some("link", self.link.as_ref());
            if let Some(shop) = shop::installed() {
                json.name("shop").object(|json| {
                    json.member("name", &shop.name);
                    json.member("hash", &shop.hash);
                });
            }
            json.member("inputs", &self.inputs);
            json.member("assumed", assumed);
            match &self.body {
                Body::Result(result) => json.member("result", result),
                Body::Rows(rows, difference) => {
                    json.member("rows", rows);
                    json.member_if_some("difference", difference.as_ref());
                }
                Body::Roots(roots) => json.member("roots", roots),
                Body::Correction(correction) => {
                    json.member("correction", correction.as_ref());
                    json.member("result", &correction.result);
                }
            }
            json.name("working").list(steps, |json, step| StepIn(step, self.system).write(json));
            json.member("notes", notes);
            json.member("cautions", cautions);
            json.member("sources", &Sources(sources));
            json.member("trust", self.record.trust().as_str());
        });
    }
}

impl ToJson for Row {
    fn write(&self, json: &mut Json) {
        json.object(|json| match &self.outcome {
            Ok((inputs, result)) => {
                json.member("inputs", inputs);
                json.member("result", result);
            }
            Err(wrongs) => {
                write_record(&self.varied, json.name("inputs"));
                json.name("errors").serialized(wrongs);
            }
        });
    }
}

impl ToJson for Root {
    fn write(&self, json: &mut Json) {
        json.object(|json| {
            json.member("value", &self.value);
            json.member_if_some("up_to", self.up_to.as_ref());
            json.member("inputs", &self.inputs);
            json.member("result", &self.result);
        });
    }
}

impl ToJson for Correction {
    fn write(&self, json: &mut Json) {
        json.object(|json| {
            json.member("field", &self.field);
            json.member("intended", &self.intended);
            json.member("as_made", &self.as_made);
            json.member("change", &self.change);
        });
    }
}
