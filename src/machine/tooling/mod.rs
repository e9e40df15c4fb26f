//! Work material and tool material to cutting speed and feed, by the published tables: which row,
//! which point of its range, and what the material itself warns of.

mod feed;

pub use feed::WantedFeed;

use super::{Published, RangePoint, SpeedOrWork, Wanted, WantedSpeed, WorkAndTool, si};
use crate::cautions;
use crate::quantity::{CuttingSpeed, SpindleSpeed, kind, text};
use crate::reference::cutting_speeds::{Operation, SpeedRow, ToolMaterial, speed_rows, speeds_for};
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::Material;
use crate::refusal::{Code, Refusal, rule_broken};
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
            let says = "The spindle speed that is set makes the cutting speed: give one of them.";
            return Err(rule_broken(Code::Conflict, says, &ways));
        }
        let saw = self.operation == Operation::Sawing;
        let known = self.material.is_some() && (self.tool.is_some() || saw);
        if known || self.cutting_speed.is_some() || self.turns.is_some() {
            return Ok(());
        }
        let mut missing = vec![("cutting_speed", "70 ft/min")];
        if self.material.is_none() {
            missing.push(("material", "4140-annealed"));
        }
        if self.tool.is_none() && !saw {
            missing.push(("tool_material", "hss"));
        }
        let says = if saw {
            "Give cutting_speed, or material to look it up."
        } else {
            "Give cutting_speed, or material and tool_material to look it up."
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

    /// The rows for the cutting speed, best first.
    fn rows(&self) -> Vec<&'static SpeedRow> {
        let tool = if self.operation == Operation::Sawing { None } else { self.tool };
        let rows = |operation| self.material.map_or(Vec::new(), |m| speeds_for(m.0, operation, tool));
        match self.operation {
            Operation::Sawing => rows(Operation::Sawing),
            _ if self.tool.is_none() => Vec::new(),
            // A table that does not part rough from finish turning serves both.
            operation @ (Operation::TurningRough | Operation::TurningFinish) => {
                let mut own = rows(operation);
                own.extend(rows(Operation::Turning));
                own.sort_by_key(|row| (row.trust, !row.named));
                own
            }
            operation => rows(operation),
        }
    }

    /// Notes a point of the ranges that changes nothing, speed and feed being stated.
    pub fn tell_unused_point(&self, states_feed: bool, record: &mut Record) {
        if self.point.is_some() && states_feed && (self.cutting_speed.is_some() || self.turns.is_some()) {
            record.note(
                "range_point_without_effect",
                "range_point matters only where something is taken from a published range; here all is stated.",
            );
        }
    }

    /// The speed wanted: as stated, or from the tables by a step that gives `wanted_cutting_speed`.
    pub fn speed(&self, record: &mut Record) -> Result<Wanted, Refusal> {
        let published = self.rows().first().map(|row| row.published());
        if let Some(turns) = self.turns {
            return Ok(Wanted::Turns(turns, published));
        }
        if let Some(speed) = self.cutting_speed {
            if let Some(published) = published {
                compare(&speed, &published, record);
            }
            return Ok(Wanted::Cutting(WantedSpeed { of: "cutting_speed", speed, published }));
        }
        self.table_speed(record).map(Wanted::Cutting)
    }

    /// The cutting speed of the tables.
    fn table_speed(&self, record: &mut Record) -> Result<WantedSpeed, Refusal> {
        let rows = self.rows();
        let Some(row) = rows.first() else { return Err(self.no_row()) };
        record.source_trusted(row.source, row.place, row.trust);
        let name = self.material.map_or("", |material| material.0.id);
        let tool = self.tool.map_or("saw band".to_owned(), |tool| tool.as_str().replace('_', " "));
        let table = format!("cutting_speeds.csv, {} of {name} with {tool}: {}", self.operation.words(), row.place);
        const WANTED: &str = "wanted_cutting_speed";
        let speed = if row.low.get() == row.high.get() {
            record.look_up("Cutting speed published for it", table).gives(WANTED, row.low);
            record.note("one_value", "The source prints one cutting speed and no range; range_point changes nothing.");
            row.low
        } else {
            let point = self.point(record);
            record
                .look_up("Lower end of the cutting speeds published for it", table.clone())
                .gives("lower_speed", row.low);
            record.look_up("Upper end of the cutting speeds published for it", table).gives("upper_speed", row.high);
            let (rule, speed) = match point {
                RangePoint::Low => ("the lower end", row.low),
                RangePoint::High => ("the upper end", row.high),
                RangePoint::Middle => {
                    let (low, high) = (row.low.quantity(), row.high.quantity());
                    let middle = CuttingSpeed::stated(text::tidy((low.value + high.value) / 2.0), low.unit);
                    record
                        .step("Cutting speed in the middle of the range", "V = (V1 + V2) / 2")
                        .with("V1", "lower_speed", row.low)
                        .with("V2", "upper_speed", row.high)
                        .gives(WANTED, middle);
                    return self.tell_others(middle, row, &rows, record);
                }
            };
            record
                .choose("Cutting speed taken", rule)
                .with("V1", "lower_speed", row.low)
                .with("V2", "upper_speed", row.high)
                .gives(WANTED, speed);
            speed
        };
        self.tell_others(speed, row, &rows, record)
    }

    /// The cutting speed wanted, or what `share` makes of that of another operation where none is published for this.
    pub fn speed_or(
        &self,
        other: Operation,
        share: impl FnOnce(WantedSpeed, &mut Record) -> WantedSpeed,
        record: &mut Record,
    ) -> Result<Wanted, Refusal> {
        self.speed(record).or_else(|refusal| {
            let other = Tooling { operation: other, ..*self }.speed(record).map_err(|_| refusal)?;
            Ok(other.map(|other| share(other, record).of_another_operation()))
        })
    }

    /// Notes what else is published, and what the row says beside its numbers.
    fn tell_others(
        &self,
        speed: CuttingSpeed,
        row: &SpeedRow,
        rows: &[&'static SpeedRow],
        record: &mut Record,
    ) -> Result<WantedSpeed, Refusal> {
        let others = rows.get(1..).unwrap_or_default();
        let percent = |value: f64| text::full(text::round(100.0 * value / si(&speed), 0));
        let least = others.iter().map(|row| si(&row.low)).min_by(f64::total_cmp);
        let most = others.iter().map(|row| si(&row.high)).max_by(f64::total_cmp);
        if let Some((least, most)) = least.zip(most) {
            record.note(
                "other_speeds",
                format!(
                    "Other published speeds for it run from {} to {} percent of the one taken; speeds/materials lists \
                     them.",
                    percent(least),
                    percent(most)
                ),
            );
        }
        if !row.note.is_empty() && row.note != "one value is printed" {
            record.note("speed_holds_for", format!("What the source says of that speed: {}.", row.note));
        }
        Ok(WantedSpeed { of: "wanted_cutting_speed", speed, published: Some(row.published()) })
    }

    /// The tables have no row: what to give instead.
    fn no_row(&self) -> Refusal {
        let name = self.material.map_or("", |material| material.0.id);
        let says = format!(
            "The tables have no cutting speed for {} of {name} with that tool; take it from the tool maker's data.",
            self.operation.words()
        );
        let mut ways = vec![("cutting_speed", "70 ft/min".to_owned())];
        let holds = |tool: &ToolMaterial| {
            let other = Tooling { tool: Some(*tool), ..*self };
            !other.rows().is_empty()
        };
        use ToolMaterial::*;
        if let Some(tool) = [Hss, Cobalt, Carbide, CoatedCarbide].iter().find(|tool| holds(tool))
            && self.operation != Operation::Sawing
        {
            ways.push(("tool_material", tool.as_str().to_owned()));
        }
        if speed_rows().iter().any(|row| row.operation == self.operation) {
            ways.push(("material", "4140-annealed".to_owned()));
        }
        Refusal::no_answer(&says, &ways)
    }
}

impl SpeedRow {
    fn published(&self) -> Published<kind::CuttingSpeed> {
        Published { low: self.low, high: self.high }
    }
}

/// Notes a stated speed that lies above what is published.
fn compare(stated: &CuttingSpeed, published: &Published<kind::CuttingSpeed>, record: &mut Record) {
    if published.is_below(si(stated)) {
        record.note(
            "above_published",
            format!("cutting_speed is above what the tables have for this material and tool, {}.", published.words()),
        );
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
