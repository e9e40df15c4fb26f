//! The spindle speed for a cutting speed at a diameter, and the speed of the machine that comes
//! next to it: kinematics, checked against handbook factors and a units library.

use crate::calculators::prelude::*;
use crate::machine::{ChosenSpeed, Held, Limit, SetSpeed, SpindleLimits, Tooling, WorkAndTool, cutting_speed_at};
use crate::reference::cutting_speeds::Operation;

/// The calculator.
pub struct SpindleSpeed;

choice! {
    /// The kind of cut: `milling`, `drilling`, `reaming`, `turning`, `finish_turning` or `boring`; it decides which published speeds are used.
    SpeedOperation {
        /// Milling.
        Milling = "milling",
        /// Drilling.
        Drilling = "drilling",
        /// Reaming.
        Reaming = "reaming",
        /// Rough turning.
        Turning = "turning",
        /// Finish turning.
        FinishTurning = "finish_turning",
        /// Boring.
        Boring = "boring",
    }
}

impl SpeedOperation {
    fn rows(self) -> Operation {
        match self {
            Self::Milling => Operation::Milling,
            Self::Drilling => Operation::Drilling,
            Self::Reaming => Operation::Reaming,
            Self::Turning => Operation::TurningRough,
            Self::FinishTurning => Operation::TurningFinish,
            Self::Boring => Operation::Boring,
        }
    }
}

/// What the spindle speed calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct SpindleSpeedInput {
    /// Cutting speed wanted at the diameter; taken from the tables for the work and tool material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Diameter at the cut: of the tool in milling and drilling, of the work in turning.
    pub diameter: Size,
    /// The work and the tool.
    #[group]
    pub work: WorkAndTool,
    /// The kind of cut, for the published speeds.
    #[absent(
        "milling",
        "The published speeds for milling are used, which are between those for drilling and for turning."
    )]
    pub operation: Option<SpeedOperation>,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
}

/// A speed next to the exact one.
#[derive(Debug, Gives)]
pub struct NeighbourSpeed {
    /// The spindle speed.
    pub spindle_speed: FoundSpindleSpeed,
    /// The cutting speed that it gives.
    pub cutting_speed: FoundCuttingSpeed,
    /// How far it is from the exact speed, in percent of the exact speed; negative when slower.
    #[label("Off the exact speed by")]
    pub deviation: FoundDeviation,
}

/// What the spindle speed calculator gives.
#[derive(Debug, Gives)]
pub struct SpindleSpeedResult {
    /// The speed.
    #[group]
    pub set: SetSpeed,
    /// The speed of the machine at or below the exact one.
    #[label("Next slower speed")]
    pub below: Option<NeighbourSpeed>,
    /// The speed of the machine above the exact one; also its slowest speed where that is above it.
    #[label("Next faster speed")]
    pub above: Option<NeighbourSpeed>,
    /// The limits that rule out the exact speed.
    pub limited_by: Vec<Limit>,
}

impl SpindleSpeedInput {
    fn tooling(&self, operation: SpeedOperation) -> Tooling {
        self.work.tooling(self.cutting_speed, operation.rows())
    }

    /// A speed beside the exact one, with what it gives; `fields` are those of its three values.
    fn neighbour(
        &self,
        speed: Measure<kind::SpindleSpeed>,
        exact: FoundSpindleSpeed,
        (what, fields): (&'static str, [&'static str; 3]),
        record: &mut Record,
    ) -> NeighbourSpeed {
        let spindle_speed = speed.found();
        let step = record.choose(what, "the nearest speed on that side").with("n", "exact_speed", exact);
        let step = match (&self.spindle.available, self.spindle.slowest) {
            (None, Some(slowest)) => step.with("L", "slowest", slowest),
            (list, _) => step.with("A", "available", list.as_deref().unwrap_or_default()),
        };
        step.gives(fields[0], spindle_speed);
        let cutting_speed = cutting_speed_at(fields[1], (fields[0], spindle_speed), self.diameter.into(), record);
        let deviation = step!(record, "How far it is from the exact speed", δ: (fields[2]) = (N - n) / n,
            N = (fields[0]): spindle_speed, n = exact_speed: exact);
        NeighbourSpeed { spindle_speed, cutting_speed, deviation }
    }
}

fn check(input: &SpindleSpeedInput) -> Result<(), ValidationError> {
    input.tooling(input.operation.unwrap_or(SpeedOperation::Milling)).check()?;
    input.spindle.check()
}

impl Calculator for SpindleSpeed {
    const ID: &'static str = "speeds/spindle-speed";
    const TITLE: &'static str = "Spindle speed";
    const ABOUT: &'static str = "The spindle speed for a cutting speed at a diameter, and which speed of the machine \
        to set: the next one below the exact speed, unless you allow the next one above.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Hold a tachometer to the spindle, or count the turns of a slow one by the clock.";
    const WORDS: &'static str = "rpm, revolutions, surface speed, sfm, cutting speed, gears, pulleys, belt, steps, \
        turning";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in high-speed steel end mill is to cut a winch bracket at 70 ft/min on the bench mill with its eight speeds.":
            cutting_speed = "70 ft/min", diameter = "1/2 in",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";
        "A 40 mm pump shaft is turned at 18 m/min; a speed up to 12 % over the exact one will do, but none above the 900 rpm of the chuck.":
            cutting_speed = "18 m/min", diameter = "40 mm", slowest = "112 rpm", fastest = "900 rpm",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", may_exceed = "12 percent";
        "A 10 mm drill in a pump cover of 6061, the speed from the tables.":
            diameter = "10 mm", material = "6061", tool_material = "hss", range_point = "low", operation = "drilling";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} end mill is to cut at {cutting_speed}. How fast must the spindle turn?" => "exact_speed":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in",
              cutting_speed = "60 ft/min" | "70 ft/min" | "80 ft/min" | "100 ft/min" }
            { diameter = "6 mm" | "7 mm" | "10 mm" | "12 mm" | "16 mm",
              cutting_speed = "18 m/min" | "20 m/min" | "25 m/min" };
        1 "You turn a {diameter} winch shaft with carbide at {cutting_speed}. How fast must the lathe turn?"
            => "exact_speed":
            { diameter = "1-1/4 in" | "1-1/2 in" | "2 in" | "3 in", cutting_speed = "250 ft/min" | "300 ft/min" }
            { diameter = "30 mm" | "40 mm" | "50 mm" | "75 mm", cutting_speed = "80 m/min" | "90 m/min" };
        2 "A {diameter} cutter takes {cutting_speed}. The mill has 112, 160, 224, 315, 450, 630, 900 and 1250 rpm, and \
            you do not go over. Which do you set?" => "spindle_speed":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" | "1 in",
              cutting_speed = "60 ft/min" | "70 ft/min" | "90 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "9 mm" | "10 mm" | "12 mm" | "16 mm" | "20 mm",
              cutting_speed = "18 m/min" | "20 m/min" | "25 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        3 "A {diameter} cutter takes {cutting_speed}. You set the next slower of 112, 160, 224, 315, 450, 630, 900 and \
            1250 rpm. What cutting speed does it really get?" => "cutting_speed":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" | "1 in",
              cutting_speed = "60 ft/min" | "70 ft/min" | "90 ft/min", units = "inch",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "9 mm" | "10 mm" | "12 mm" | "16 mm" | "20 mm",
              cutting_speed = "18 m/min" | "20 m/min" | "25 m/min", units = "metric",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        3 "A {diameter} cutter takes {cutting_speed}, and {may_exceed} over is all right. The mill has 112, 160, 224, 315, \
            450, 630, 900 and 1250 rpm. Which do you set?" => "spindle_speed":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" | "1 in",
              cutting_speed = "60 ft/min" | "70 ft/min" | "90 ft/min", may_exceed = "10 percent" | "20 percent",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
    };
    type Input = SpindleSpeedInput;
    type Output = SpindleSpeedResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "the rim of diameter D runs π D in a turn");
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::SPEED_LIMIT]);
        let from_tables = input.cutting_speed.is_none();
        let operation = if from_tables { input.operation(record) } else { SpeedOperation::Milling };
        if !from_tables && input.operation.is_some() && input.work.material.is_none() {
            record.note("operation_without_effect", "The operation changes nothing without the work material.");
        }
        let tooling = input.tooling(input.operation.unwrap_or(operation));
        tooling.warn(record);
        tooling.tell_unused_point(true, record);
        let wanted = tooling.speed(record)?;
        let (set, chosen) = input.spindle.set_among(wanted, input.diameter.into(), record)?;
        let ChosenSpeed { below, above, limited_by, .. } = chosen;
        let exact = set.exact_speed;
        let below = below.map(|speed| input.neighbour(speed, exact, BELOW, record));
        let above = above.map(|speed| input.neighbour(speed, exact, ABOVE, record));
        let limited_by = Held::of(exact, limited_by).tell(None, record);
        Ok(SpindleSpeedResult { set, below, above, limited_by })
    }
}

const BELOW: (&str, [&str; 3]) = (
    "Speed of the machine at or below the exact one",
    ["below.spindle_speed", "below.cutting_speed", "below.deviation"],
);
const ABOVE: (&str, [&str; 3]) =
    ("Speed of the machine above the exact one", ["above.spindle_speed", "above.cutting_speed", "above.deviation"]);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::{Fields, Given};
    use crate::quantity::{System, Unit};
    use validator::Validate;

    const STEPS: &str = "available=112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";

    fn solved(query: &str) -> SpindleSpeedResult {
        let pair = |pair: &str| {
            let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
            (name.to_owned().into(), Given::Text(value.to_owned().into()))
        };
        let fields = Fields(query.split('&').map(pair).collect());
        let input: SpindleSpeedInput = fields.read(|_| None).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"));
        assert!(input.validate().is_ok(), "{query}");
        SpindleSpeed::solve(&input, &mut Record::new(true)).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"))
    }

    fn texts(neighbour: &NeighbourSpeed) -> [String; 3] {
        [
            neighbour.spindle_speed.quantity().text(),
            neighbour.cutting_speed.quantity().in_system(System::Inch).text(),
            neighbour.deviation.quantity().in_system(System::Inch).text(),
        ]
    }

    #[test]
    fn the_bench_mill_shows_both_neighbours_and_takes_the_lower() {
        let result = solved(&format!("cutting_speed=70 ft/min&diameter=1/2 in&{STEPS}"));
        assert_eq!(result.set.exact_speed.quantity().in_system(System::Inch).text(), "534.8 rpm");
        assert_eq!(result.set.spindle_speed.quantity().text(), "450.0 rpm");
        assert_eq!(result.below.as_ref().map(texts), Some(["450.0 rpm", "58.9 ft/min", "-15.9 %"].map(String::from)));
        assert_eq!(result.above.as_ref().map(texts), Some(["630.0 rpm", "82.5 ft/min", "17.8 %"].map(String::from)));
        assert_eq!(result.limited_by, [Limit::Available]);
    }

    #[test]
    fn below_the_slowest_the_slowest_is_given_with_how_far_it_is_off() {
        for limit in [STEPS, "slowest=112 rpm"] {
            let result = solved(&format!("cutting_speed=70 ft/min&diameter=6 in&{limit}"));
            // Nothing slower can be set; that it is too fast for the tool is the first caution.
            assert_eq!(result.set.spindle_speed.quantity().text(), "112.0 rpm");
            assert!(result.below.is_none());
            let above = result.above.as_ref().map(texts);
            assert_eq!(above, Some(["112.0 rpm", "175.9 ft/min", "151.3 %"].map(String::from)), "{limit}");
        }
    }

    #[test]
    fn without_steps_there_are_no_neighbours() {
        let result = solved("cutting_speed=100 ft/min&diameter=0.25 in&fastest=1250 rpm");
        assert!(result.below.is_none() && result.above.is_none());
        assert_eq!(result.set.spindle_speed.quantity().in_unit(Unit::Rpm), 1250.0);
        assert_eq!(result.limited_by, [Limit::Fastest]);
    }
}
