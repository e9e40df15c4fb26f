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
    /// Diameter as measured after the trial cut, the slide not having been moved since.
    pub measured_diameter: Size,
    /// Diameter that is wanted.
    pub target_diameter: Size,
    /// What the dial or readout of the cross slide counts: radius or diameter.
    pub dial: DialCounts,
    /// Which surface is turned: outside or inside.
    #[absent("outside", "The surface turned is taken to be the outside of the work.")]
    pub surface: Option<TurnedSurface>,
}

/// What the lathe touch-off gives.
#[derive(Debug, Gives)]
pub struct LatheTouchOffResult {
    /// What to set the dial or readout to now, with the slide where it cut.
    pub set_reading: CrossReading,
    /// What it shows when the wanted diameter is reached.
    pub target_reading: CrossReading,
    /// Change of the reading that is left to the wanted diameter, as an amount.
    pub infeed_left: FoundMove,
    /// How far the slide itself still moves: half of what the diameter changes by.
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
            "The bore is already larger than wanted; metal cannot be put back.",
            "outside",
        ),
        _ => (
            measured.get() < target.get(),
            "The work is already smaller than wanted; metal cannot be put back. If this is a bore, the surface is inside.",
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
    const ABOUT: &'static str = "After a trial cut is measured: what to set the cross slide's dial or readout to, what \
        it shows at the wanted diameter, and how far it still has to go.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str = "Take a light cut and measure the diameter: the cross slide must read it.";
    const WORDS: &'static str = "turning, trial cut, diameter, radius dial, infeed, cross slide, X zero, boring, \
        test cut";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch shaft measures 1.2620 in after the trial cut and is to be 1.2500 in; the dial counts diameters.":
            measured_diameter = "1.2620 in", target_diameter = "1.2500 in", dial = "diameter";
        "The bore of a pump bush measures 39.46 mm and is to be 40 mm, on a lathe whose dial counts as far as the slide moves.":
            measured_diameter = "39.46 mm", target_diameter = "40 mm", dial = "radius", surface = "inside";
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
        let target_reading = find("Reading at the wanted diameter", (target, "target_diameter"), "target_reading");
        let infeed_left = FoundMove::of_si((set_reading.0.si() - target_reading.0.si()).abs());
        record
            .step("Change of the reading that is left", "i = abs(r - t)")
            .with("r", "set_reading", set_reading)
            .with("t", "target_reading", target_reading)
            .gives("infeed_left", infeed_left);
        let slide_travel: FoundExtent = step!(record, "Travel of the slide",
            s: slide_travel = abs(D - d) / 2.0, D = measured_diameter: measured, d = target_diameter: target);
        notes! { record =>
            same_side: "Set the reading with the slide as it stood while cutting. If it has been drawn back, run it in \
                again from the same side before setting, so that the play of its screw is taken up.";
            figures_that_grow_inward: "A dial whose figures grow while the diameter shrinks, or the other way round, \
                cannot show the diameter: set it to 0 where the tool cut, and go on by what is left.";
            like_the_trial_cut: "The last cut takes what the trial cut took, with the same tool and feed: the work and \
                the tool then give way alike. Measure again before the last cut, and when the work is no longer warm.";
        }
        record.caution(cautions::LATHE);
        Ok(LatheTouchOffResult { set_reading, target_reading, infeed_left, slide_travel })
    }
}
