//! The cutting speed that the tables have for work and tool: which rows, and where sources differ, which stands.

use super::{SLOW, Tooling};
use crate::machine::{Published, RangePoint, Wanted, WantedSpeed, as_stated, si};
use crate::quantity::{CuttingSpeed, kind, text};
use crate::reference::cutting_speeds::{Operation, SpeedRow, Standing, ToolMaterial, speeds_for, standing};
use crate::refusal::Refusal;
use crate::sources::source;
use crate::working::Record;

const WANTED: &str = "wanted_cutting_speed";

impl Tooling {
    /// The rows for the cutting speed, best first.
    fn rows(&self) -> Vec<&'static SpeedRow> {
        let tool = if self.operation == Operation::Sawing { None } else { self.tool };
        let rows = |operation| self.material.map_or(Vec::new(), |m| speeds_for(m.0, operation, tool));
        match self.operation {
            Operation::Sawing => rows(Operation::Sawing),
            _ if self.tool.is_none() => Vec::new(),
            // A table that does not part rough from finish turning serves both, but says nothing against one that does.
            operation @ (Operation::TurningRough | Operation::TurningFinish) => {
                let own = rows(operation);
                if own.is_empty() { rows(Operation::Turning) } else { own }
            }
            operation => rows(operation),
        }
    }

    /// The speed wanted: as stated, or from the tables by a step that gives `wanted_cutting_speed`.
    pub fn speed(&self, record: &mut Record) -> Result<Wanted, Refusal> {
        let rows = self.rows();
        let stands = standing(&rows);
        let published = stands.as_ref().map(|stands| Published { low: stands.low.low, high: stands.high.high });
        if let Some(turns) = self.turns {
            return Ok(Wanted::Turns(turns, published));
        }
        if let Some(speed) = self.cutting_speed {
            if let Some(published) = published {
                compare(&speed, &published, record);
            }
            return Ok(Wanted::Cutting(WantedSpeed { of: "cutting_speed", speed, published }));
        }
        let Some(stands) = stands else { return Err(self.no_row()) };
        let speed = self.taken(&stands, record);
        tell_difference(&stands, record);
        tell_others(speed, &stands, &rows, record);
        Ok(Wanted::Cutting(WantedSpeed { of: WANTED, speed, published }))
    }

    /// The steps from the range that stands to the speed at the point asked for.
    fn taken(&self, stands: &Standing, record: &mut Record) -> CuttingSpeed {
        for row in [stands.low, stands.high] {
            record.source_trusted(row.source, row.place, row.trust);
        }
        let name = self.material.map_or("", |material| material.0.id);
        let tool = self.tool.map_or("saw band".to_owned(), |tool| tool.as_str().replace('_', " "));
        let table = |row: &SpeedRow| {
            format!("cutting_speeds.csv, {} of {name} with {tool}: {}", self.operation.words(), row.place)
        };
        let (low, high) = (stands.low.low, stands.high.high);
        if low.get() == high.get() {
            record.look_up("Published cutting speed", table(stands.low)).gives(WANTED, low);
            record.note(
                "one_value",
                "The source prints one cutting speed and no range, so the point in the range changes nothing.",
            );
            return low;
        }
        let point = self.point(record);
        record.look_up("Lower end of the published cutting speeds", table(stands.low)).gives("lower_speed", low);
        record.look_up("Upper end of the published cutting speeds", table(stands.high)).gives("upper_speed", high);
        let (rule, speed) = match point {
            RangePoint::Low => ("the lower end", low),
            RangePoint::High => ("the upper end", high),
            RangePoint::Middle => {
                let unit = low.quantity().unit;
                let sum = low.quantity().value + high.quantity().in_unit(unit);
                let middle = CuttingSpeed::stated(text::tidy(sum / 2.0), unit);
                record
                    .step("Cutting speed in the middle of the range", "V = (V1 + V2) / 2")
                    .with("V1", "lower_speed", low)
                    .with("V2", "upper_speed", high)
                    .gives(WANTED, middle);
                return middle;
            }
        };
        record
            .choose("Cutting speed to use", rule)
            .with("V1", "lower_speed", low)
            .with("V2", "upper_speed", high)
            .gives(WANTED, speed);
        speed
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

    /// The tables have no row: what to give instead. Never another material, whose speed would not be this one's.
    fn no_row(&self) -> Refusal {
        let name = self.material.map_or("", |material| material.0.id);
        let says = format!(
            "The tables have no cutting speed for {} of {name} with that tool; use the tool maker's.",
            self.operation.words()
        );
        let mut ways = vec![("cutting_speed", SLOW.to_owned())];
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
        Refusal::no_answer(&says, &ways)
    }
}

/// A row's range and who says so, in words.
fn said(row: &SpeedRow) -> String {
    let title = source(row.source).map_or("", |source| source.title);
    format!("{} by {title} ({})", range(&row.low, &row.high), row.place)
}

fn range(low: &CuttingSpeed, high: &CuttingSpeed) -> String {
    if low.get() == high.get() { as_stated(low) } else { format!("{} to {}", as_stated(low), as_stated(high)) }
}

/// Notes that sources differ by more than a third, which they are and what each has.
fn tell_difference(stands: &Standing, record: &mut Record) {
    let Some(faster) = stands.faster else { return };
    let slower = if std::ptr::eq(stands.low, stands.high) {
        said(stands.low)
    } else {
        format!("{} at the low end, {} at the high end", said(stands.low), said(stands.high))
    };
    record.note(
        "sources_differ",
        format!(
            "Sources differ by more than a third, so the slower is used: {slower}. The faster is {}.",
            said(faster)
        ),
    );
}

/// Notes what else is published, and what the rows say beside their numbers.
fn tell_others(speed: CuttingSpeed, stands: &Standing, rows: &[&'static SpeedRow], record: &mut Record) {
    let taken = |row: &&&SpeedRow| !std::ptr::eq(**row, stands.low) && !std::ptr::eq(**row, stands.high);
    let others: Vec<_> = rows.iter().filter(taken).collect();
    let percent = |value: f64| text::full(text::round(100.0 * value / si(&speed), 0));
    let least = others.iter().map(|row| si(&row.low)).min_by(f64::total_cmp);
    let most = others.iter().map(|row| si(&row.high)).max_by(f64::total_cmp);
    if let Some((least, most)) = least.zip(most) {
        record.note(
            "other_speeds",
            format!(
                "Other published speeds for this cut run from {} to {} percent of the one used; the calculator \
                 speeds/materials lists them.",
                percent(least),
                percent(most)
            ),
        );
    }
    let notes = [stands.low.note, stands.high.note];
    let notes = if notes[0] == notes[1] { &notes[..1] } else { &notes };
    for note in notes.iter().filter(|note| !note.is_empty() && **note != "one value is printed") {
        record.note("speed_holds_for", format!("The source says of that speed: {note}."));
    }
}

/// Notes a stated speed that lies above what is published.
fn compare(stated: &CuttingSpeed, published: &Published<kind::CuttingSpeed>, record: &mut Record) {
    if published.is_below(si(stated)) {
        record.note(
            "above_published",
            format!("The cutting speed is above what is published for this material and tool, {}.", published.words()),
        );
    }
}
