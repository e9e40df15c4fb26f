//! What to set a lathe's cross slide to after a trial cut was measured, and how far it still has to
//! go: a slide that counts diameters moves half of what it shows.

mod drawing;

use crate::calculators::prelude::*;
use crate::declared::{FieldType, TypeFacts};
use crate::drawing::Written;
use crate::tree::{IntoTree, Node};
use std::borrow::Cow;
use utoipa::openapi::{RefOr, Schema};
use utoipa::{PartialSchema, ToSchema};

/// The calculator.
pub struct LatheTouchOff;

choice! {
    /// What the dial or readout of the cross slide counts: `radius`, as far as the slide moves, or `diameter`, twice as much.
    DialCounts {
        /// As far as the slide moves.
        Radius = "radius",
        /// Twice as far, as the diameter changes.
        Diameter = "diameter",
    }
}

choice! {
    /// Which surface is turned: the `outside` of the work, or the `inside` of a bore.
    TurnedSurface {
        /// The diameter shrinks as metal goes.
        Outside = "outside",
        /// The diameter grows as metal goes.
        Inside = "inside",
    }
}

/// What the lathe touch-off asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct LatheTouchOffInput {
    /// Diameter measured after the trial cut, with the slide not moved since.
    #[label("Diameter measured")]
    pub measured_diameter: Size,
    /// Diameter that the work should have.
    #[label("Diameter wanted")]
    pub target_diameter: Size,
    /// What the dial or readout of the cross slide counts: radius, as far as the slide moves, or diameter, twice as far.
    #[label("Dial counts")]
    pub dial: DialCounts,
    /// Which surface is turned: outside or inside.
    #[label("Surface turned")]
    #[absent("outside", "The outside of the work is assumed to be turned.")]
    pub surface: Option<TurnedSurface>,
}

/// What the lathe touch-off gives.
#[derive(Debug, Gives)]
pub struct LatheTouchOffResult {
    /// What to set the dial or readout to now, with the slide where it cut.
    #[label("Set the dial to")]
    pub set_reading: CrossReading,
    /// What the dial or readout shows when the diameter wanted is reached.
    #[label("Dial at the diameter wanted")]
    pub target_reading: CrossReading,
    /// How much the reading still has to change, as an amount.
    #[label("Left to go on the dial")]
    pub infeed_left: FoundMove,
    /// How far the slide itself still moves: half of the change in diameter.
    #[label("Travel of the slide")]
    pub slide_travel: FoundExtent,
}

/// A reading of the cross slide: a diameter or a radius, as the dial counts.
#[derive(Clone, Copy, Debug)]
pub struct CrossReading(Quantity);

impl CrossReading {
    /// The reading at a diameter, put on record.
    fn find(
        what: &'static str,
        (diameter, of): (Size, &'static str),
        dial: DialCounts,
        field: &'static str,
        record: &mut Record,
    ) -> Self {
        Self(match dial {
            DialCounts::Diameter => {
                let found: FoundCrossDiameter = step!(record, what, r: (field) = D, D = (of): diameter);
                found.quantity()
            }
            DialCounts::Radius => {
                let found: FoundCrossRadius = step!(record, what, r: (field) = D / 2.0, D = (of): diameter);
                found.quantity()
            }
        })
    }
}

impl IntoTree for CrossReading {
    fn tree(&self) -> Option<Node> {
        Some(self.0.into())
    }
}

impl From<CrossReading> for Shown {
    fn from(reading: CrossReading) -> Self {
        Shown::Quantity(reading.0)
    }
}

impl From<CrossReading> for Written {
    fn from(reading: CrossReading) -> Self {
        reading.0.into()
    }
}

impl FieldType for CrossReading {
    const TYPE: TypeFacts = FoundPlace::TYPE;
}

// The two kinds are written alike, as every place on a machine is.
impl PartialSchema for CrossReading {
    fn schema() -> RefOr<Schema> {
        FoundPlace::schema()
    }
}

impl ToSchema for CrossReading {
    fn name() -> Cow<'static, str> {
        FoundPlace::name()
    }
}

fn check(input: &LatheTouchOffInput) -> Result<(), ValidationError> {
    let (measured, target) = (input.measured_diameter, input.target_diameter);
    let (gone, says, surface) = match input.surface {
        Some(TurnedSurface::Inside) => (
            measured.get() > target.get(),
            "The bore is already larger than the diameter wanted. Metal cannot be put back.",
            "outside",
        ),
        _ => (
            measured.get() < target.get(),
            "The work is already smaller than the diameter wanted. Metal cannot be put back. If this is a bore, \
             choose inside.",
            "inside",
        ),
    };
    if !gone {
        return Ok(());
    }
    let Quantity { value, unit, .. } = measured.quantity();
    let as_measured = format!("{} {}", text::full(value), unit.row().ascii);
    Err(rule_broken(Code::NoAnswer, says, &[("target_diameter", &as_measured), ("surface", surface)]))
}

impl Calculator for LatheTouchOff {
    const ID: &'static str = "datum/lathe-touch-off";
    const TITLE: &'static str = "Setting the cross slide";
    const ABOUT: &'static str = "What to set the cross slide's dial or readout to after measuring a trial cut, what \
        it shows at the diameter wanted, and how far it still has to go.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str = "Take a light cut and measure the diameter: the cross slide must show it.";
    const WORDS: &'static str = "turning, trial cut, diameter, radius dial, infeed, cross slide, X zero, boring, \
        test cut";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch shaft measures 1.2620 in after the trial cut and is to be 1.2500 in; the dial counts diameters.":
            measured_diameter = "1.2620 in", target_diameter = "1.2500 in", dial = "diameter";
        "The bore of a pump bush measures 39.46 mm and is to be 40 mm, on a lathe whose dial counts as far as the slide moves.":
            measured_diameter = "39.46 mm", target_diameter = "40 mm", dial = "radius", surface = "inside";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A winch shaft measures {measured_diameter} after the trial cut and is to be {target_diameter}. The dial \
           counts {dial}. How much is left to go on the dial?" => "infeed_left":
            { measured_diameter = "1.262 in" | "1.274 in" | "1.290 in", target_diameter = "1.250 in" | "1.240 in",
              dial = "diameter" | "radius" }
            { measured_diameter = "32.4 mm" | "32.85 mm" | "33.1 mm", target_diameter = "32 mm" | "31.5 mm",
              dial = "diameter" | "radius" };
        1 "The trial cut leaves a shaft of {measured_diameter}, and the slide has not moved. Its dial counts {dial}. \
           What do you set the dial to?" => "set_reading":
            { measured_diameter = "0.866 in" | "1.132 in" | "1.518 in", target_diameter = "0.750 in",
              dial = "radius" }
            { measured_diameter = "25.46 mm" | "38.7 mm" | "41.24 mm", target_diameter = "25 mm", dial = "radius" };
        2 "A shaft measures {measured_diameter} and is to be {target_diameter}. How far must the cross slide itself \
           move in?" => "slide_travel":
            { measured_diameter = "1.030 in" | "1.046 in" | "1.060 in", target_diameter = "1.000 in" | "0.984 in",
              dial = "diameter" }
            { measured_diameter = "50.6 mm" | "50.9 mm" | "51.3 mm", target_diameter = "50 mm" | "49.5 mm",
              dial = "diameter" };
        2 "The {surface} of a pump bush is turned to {measured_diameter} so far and is to be {target_diameter}. The \
           dial counts {dial}. How much is left to go on the dial?" => "infeed_left":
            { surface = "inside", measured_diameter = "1.470 in" | "1.482 in" | "1.488 in",
              target_diameter = "1.500 in" | "1.562 in", dial = "radius" | "diameter" }
            { surface = "inside", measured_diameter = "39.2 mm" | "39.46 mm" | "39.7 mm",
              target_diameter = "40 mm" | "42 mm", dial = "radius" | "diameter" };
        3 "The dial of a cross slide counts {dial} and was set right after the trial cut. What does it show when the \
           bore is {target_diameter}?" => "target_reading":
            { dial = "radius", surface = "inside", measured_diameter = "1.000 in",
              target_diameter = "1.125 in" | "1.3125 in" | "1.4375 in" }
            { dial = "radius", surface = "inside", measured_diameter = "30 mm",
              target_diameter = "35 mm" | "37.5 mm" | "42.3 mm" };
    };
    type Input = LatheTouchOffInput;
    type Output = LatheTouchOffResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a diameter changes by twice what the tool moves across the axis");
        input.surface(record);
        let (measured, target) = (input.measured_diameter, input.target_diameter);
        let mut find = |what, from, field| CrossReading::find(what, from, input.dial, field, record);
        let set_reading = find("Reading where the tool cut", (measured, "measured_diameter"), "set_reading");
        let target_reading = find("Reading at the diameter wanted", (target, "target_diameter"), "target_reading");
        let infeed_left = FoundMove::of_si((set_reading.0.si() - target_reading.0.si()).abs());
        record
            .step("Left to go on the dial", "i = abs(r - t)")
            .with("r", "set_reading", set_reading)
            .with("t", "target_reading", target_reading)
            .gives("infeed_left", infeed_left);
        let slide_travel: FoundExtent = step!(record, "Travel of the slide",
            s: slide_travel = abs(D - d) / 2.0, D = measured_diameter: measured, d = target_diameter: target);
        notes! { record =>
            same_side: "Set the reading with the slide where it cut. If you have drawn it back, run it in again from \
                the same side first, so that the backlash is taken up.";
            figures_that_grow_inward: "If the dial's figures grow while the diameter shrinks, or the other way \
                round, it cannot show the diameter. Set it to 0 where the tool cut, and go on by what is left.";
            like_the_trial_cut: "Take the last cut as deep as the trial cut, with the same tool and feed, so that \
                work and tool spring alike. Measure again before the last cut, and once the work has cooled.";
        }
        record.caution(cautions::LATHE);
        Ok(LatheTouchOffResult { set_reading, target_reading, infeed_left, slide_travel })
    }
}
