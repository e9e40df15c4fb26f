//! Work material and tool material to cutting speed and feed, by the published tables: what a request says, which
//! point of a range is taken, and what the material itself warns of.

mod feed;
mod published_speed;

pub use feed::WantedFeed;

use super::{RangePoint, SpeedOrWork, WorkAndTool};
use crate::cautions;
use crate::quantity::{CuttingSpeed, SpindleSpeed};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::Material;
use crate::refusal::{Code, rule_broken};
use crate::working::Record;
use validator::ValidationError;

impl SpeedOrWork {
    /// With the operation.
    pub fn tooling(&self, operation: Operation) -> Tooling {
        Tooling { turns: self.spindle_speed, ..self.work.tooling(self.cutting_speed, operation) }
    }

    /// Whether the speed comes from the request, not from the tables.
    pub fn states_speed(&self) -> bool {
        self.cutting_speed.is_some() || self.spindle_speed.is_some()
    }
}

impl WorkAndTool {
    /// With the cutting speed, where it is stated, and the operation.
    pub fn tooling(&self, cutting_speed: Option<CuttingSpeed>, operation: Operation) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed,
            turns: None,
            operation,
        }
    }
}

/// A cutting speed that is slow for any metal.
const SLOW: &str = "10 ft/min";

/// What a request says of work and tool, for one operation.
#[derive(Clone, Copy, Debug)]
pub struct Tooling {
    /// The work material.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of.
    pub tool: Option<ToolMaterial>,
    /// Which point of the ranges.
    pub point: Option<RangePoint>,
    /// The cutting speed, where it is stated.
    pub cutting_speed: Option<CuttingSpeed>,
    /// The spindle speed, where it is set.
    pub turns: Option<SpindleSpeed>,
    /// The operation, whose rows are looked up.
    pub operation: Operation,
}

impl Tooling {
    /// Refuses a request from which no speed can be found, and one with two.
    pub fn check(&self) -> Result<(), ValidationError> {
        if self.cutting_speed.is_some() && self.turns.is_some() {
            let ways = [("cutting_speed", "leave out"), ("spindle_speed", "leave out")];
            let says = "Give the cutting speed or the spindle speed already set, not both; one follows from the other.";
            return Err(rule_broken(Code::Conflict, says, &ways));
        }
        let saw = self.operation == Operation::Sawing;
        let known = self.material.is_some() && (self.tool.is_some() || saw);
        if known || self.cutting_speed.is_some() || self.turns.is_some() {
            return Ok(());
        }
        // Of a material that is not named nothing is known: a speed slow for any metal, and no metal.
        let mut missing = vec![("cutting_speed", SLOW)];
        if self.material.is_some() && self.tool.is_none() && !saw {
            missing.push(("tool_material", "hss"));
        }
        let says = if saw {
            "Give the cutting speed, or the work material to look it up."
        } else {
            "Give the cutting speed, or the work material and the tool material to look it up."
        };
        Err(rule_broken(Code::FieldMissing, says, &missing))
    }

    /// The material's own cautions.
    pub fn warn(&self, record: &mut Record) {
        if let Some(material) = self.material {
            tell_material(material.0, record);
        }
    }

    /// The point of the range, put on record as assumed where it is not stated.
    fn point(&self, record: &mut Record) -> RangePoint {
        match self.point {
            Some(point) => point,
            None => {
                if !record.assumed.iter().any(|assumed| assumed.field == "range_point") {
                    let says = "The low end of the published range is used, which is where to start: it is easier on tool and machine.";
                    record.assume("range_point", &RangePoint::Low, says);
                }
                RangePoint::Low
            }
        }
    }

    /// Notes a point of the ranges that changes nothing, speed and feed being stated.
    pub fn tell_unused_point(&self, states_feed: bool, record: &mut Record) {
        if self.point.is_some() && states_feed && (self.cutting_speed.is_some() || self.turns.is_some()) {
            record.note(
                "range_point_without_effect",
                "The point in the published range changes nothing here, because speed and feed are given.",
            );
        }
    }
}

/// Puts a material's own cautions on record.
pub fn tell_material(material: &Material, record: &mut Record) {
    for caution in material.cautions.iter().filter_map(|code| cautions::of_material(code)) {
        record.caution(caution);
    }
}

#[cfg(test)]
mod tests;
