//! Work material and tool material to cutting speed and feed, by the published tables: what a request says, which
//! point of a range is taken, the feed, and what the material itself warns of.

mod published_speed;

use super::{RangePoint, SpeedOrWork, WorkAndTool};
use crate::cautions;
use crate::quantity::{CuttingSpeed, Kind, Measure, text};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::feeds::{FeedRow, feed_for};
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::Material;
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

impl SpeedOrWork {
    /// With the operation.
    pub fn tooling(&self, operation: Operation) -> Tooling {
        self.work.tooling(self.cutting_speed, operation)
    }
}

impl WorkAndTool {
    /// With the cutting speed, where it is stated, and the operation.
    pub fn tooling(&self, cutting_speed: Option<CuttingSpeed>, operation: Operation) -> Tooling {
        Tooling { material: self.material, tool: self.tool_material, point: self.range_point, cutting_speed, operation }
    }
}

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
    /// The operation, whose rows are looked up.
    pub operation: Operation,
}

impl Tooling {
    /// Refuses a request from which neither speed nor feed can be found; `feed` is the feed's field,
    /// an example of it, and whether it is given.
    pub fn check(&self, feed: Option<(&'static str, &str, bool)>) -> Result<(), ValidationError> {
        let known = self.material.is_some() && (self.tool.is_some() || self.operation == Operation::Sawing);
        if known {
            return Ok(());
        }
        let mut missing = Vec::with_capacity(4);
        if self.cutting_speed.is_none() {
            missing.push(("cutting_speed", "70 ft/min"));
        }
        if let Some((field, example, false)) = feed {
            missing.push((field, example));
        }
        if missing.is_empty() {
            return Ok(());
        }
        let wanted: Vec<&str> = missing.iter().map(|(field, _)| *field).collect();
        let wanted = wanted.join(" and ");
        if self.material.is_none() {
            missing.push(("material", "4140-annealed"));
        }
        if self.tool.is_none() && self.operation != Operation::Sawing {
            missing.push(("tool_material", "hss"));
        }
        let says = format!("Give {wanted}, or material and tool_material to look them up.");
        let says = if self.operation == Operation::Sawing {
            format!("Give {wanted}, or material to look it up.")
        } else {
            says
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
                    let says = "The low end of a published range is where to begin: it spares tool and machine.";
                    record.assume("range_point", &RangePoint::Low, says);
                }
                RangePoint::Low
            }
        }
    }

    /// The feed: as stated, or from the tables, which is put on record as assumed.
    pub fn feed<K: Kind>(
        &self,
        given: Option<Measure<K>>,
        field: &'static str,
        operation: Operation,
        diameter: Option<f64>,
        record: &mut Record,
    ) -> Result<Measure<K>, Refusal> {
        if let Some(given) = given {
            return Ok(given);
        }
        let row = self.material.and_then(|material| feed_for(material.0, operation, self.tool, diameter));
        let Some(row) = row.filter(|row| K::ROW.units.contains(&row.unit)) else {
            let says = format!(
                "The tables have no feed for {} of this material with this tool at this size; take it from the tool \
                 maker's data.",
                operation.words()
            );
            return Err(Refusal::no_answer(&says, &[(field, K::ROW.example.to_owned())]));
        };
        let point = self.point(record);
        let value = match point {
            RangePoint::Low => row.low,
            RangePoint::Middle => text::tidy((row.low + row.high) / 2.0),
            RangePoint::High => row.high,
        };
        let feed = Measure::stated(value, row.unit);
        record.source_trusted(row.source, row.place, row.trust);
        record.assume(field, &feed, says_of(row, point));
        Ok(feed)
    }
}

/// Puts a material's own cautions on record.
pub fn tell_material(material: &Material, record: &mut Record) {
    for caution in material.cautions.iter().filter_map(|code| cautions::of_material(code)) {
        record.caution(caution);
    }
}

/// Why a feed was taken.
fn says_of(row: &FeedRow, point: RangePoint) -> String {
    let end = match point {
        RangePoint::Low => "the low end",
        RangePoint::Middle => "the middle",
        RangePoint::High => "the high end",
    };
    let band = match row.diameter {
        Some((over, up_to)) => format!(", for diameters over {} up to {} in", text::full(over), text::full(up_to)),
        None => String::new(),
    };
    let note = if row.note.is_empty() { String::new() } else { format!(" Beside it stands: {}.", row.note) };
    format!(
        "From the feed table ({}): {} to {} {}{band}; {end} is taken.{note}",
        row.place,
        text::full(row.low),
        text::full(row.high),
        row.unit.spelling()
    )
}

#[cfg(test)]
mod tests;
