//! What to set a lathe's cross slide to after a trial cut was measured, and how far it still has to
//! go: a slide that counts diameters moves half of what it shows.

mod drawing;

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::declared::{FieldType, TypeFacts};
use crate::drawing::Written;
use crate::quantity::{Found, FoundCrossDiameter, FoundCrossRadius, FoundExtent, FoundMove, FoundPlace, SiValue, Size};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::tree::{IntoTree, Node};
use crate::working::{Record, Shown};
use std::borrow::Cow;
use utoipa::openapi::{RefOr, Schema};
use utoipa::{PartialSchema, ToSchema};
use validator::ValidationError;

/// The calculator.
pub struct LatheTouchOff;

crate::choice! {
    /// What the dial or readout of the cross slide counts: `radius`, as far as the slide moves, or `diameter`, twice as much.
    DialCounts {
        /// As far as the slide moves.
        Radius = "radius",
        /// Twice as far, as the diameter changes.
        Diameter = "diameter",
    }
}

crate::choice! {
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
    /// Which surface is turned: outside or inside; outside if absent.
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

/// A reading of the cross slide, which knows what it counts.
#[derive(Clone, Copy, Debug)]
pub enum CrossReading {
    /// It counts diameters.
    Diameter(FoundCrossDiameter),
    /// It counts radii.
    Radius(FoundCrossRadius),
}

impl CrossReading {
    fn of(diameter: Size, dial: DialCounts) -> Self {
        match dial {
            DialCounts::Diameter => CrossReading::Diameter(Found::of(diameter.get())),
            DialCounts::Radius => CrossReading::Radius(Found::of(diameter.get() / 2.0)),
        }
    }

    fn si(self) -> f64 {
        match self {
            CrossReading::Diameter(found) => found.get().si(),
            CrossReading::Radius(found) => found.get().si(),
        }
    }
}

impl IntoTree for CrossReading {
    fn tree(&self) -> Option<Node> {
        match self {
            CrossReading::Diameter(found) => found.tree(),
            CrossReading::Radius(found) => found.tree(),
        }
    }
}

impl From<CrossReading> for Shown {
    fn from(reading: CrossReading) -> Self {
        match reading {
            CrossReading::Diameter(found) => found.into(),
            CrossReading::Radius(found) => found.into(),
        }
    }
}

impl From<CrossReading> for Written {
    fn from(reading: CrossReading) -> Self {
        match reading {
            CrossReading::Diameter(found) => found.into(),
            CrossReading::Radius(found) => found.into(),
        }
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
    let inside = input.surface == Some(TurnedSurface::Inside);
    let gone = if inside { measured.get() > target.get() } else { measured.get() < target.get() };
    if !gone {
        return Ok(());
    }
    let says = if inside {
        "The bore is already larger than wanted; metal cannot be put back."
    } else {
        "The work is already smaller than wanted; metal cannot be put back. If this is a bore, the surface is inside."
    };
    let text = |size: &Size| {
        let quantity = size.quantity();
        format!("{} {}", crate::quantity::text::full(quantity.value), quantity.unit.row().ascii)
    };
    let surface = if inside { "outside" } else { "inside" };
    let fields = [("target_diameter", text(&measured)), ("surface", surface.to_owned())];
    Err(rule_broken(Code::NoAnswer, says, &[(fields[0].0, &fields[0].1), (fields[1].0, &fields[1].1)]))
}

impl Calculator for LatheTouchOff {
    const ID: &'static str = "datum/lathe-touch-off";
    const TITLE: &'static str = "Setting the cross slide";
    const ABOUT: &'static str = "After a trial cut is measured: what to set the cross slide's dial or readout to, what \
        it shows at the wanted diameter, and how far it still has to go.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str = "Take a light cut and measure the diameter: the cross slide must read it.";
    const WORDS: &'static [&'static str] =
        &["turning", "trial cut", "diameter", "radius dial", "infeed", "cross slide", "X zero", "boring", "test cut"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A winch shaft measures 1.2620 in after the trial cut and is to be 1.2500 in; the dial counts \
                diameters.",
            fields: &[("measured_diameter", "1.2620 in"), ("target_diameter", "1.2500 in"), ("dial", "diameter")],
        },
        Example {
            says: "The bore of a pump bush measures 39.46 mm and is to be 40 mm, on a lathe whose dial counts as far \
                as the slide moves.",
            fields: &[
                ("measured_diameter", "39.46 mm"),
                ("target_diameter", "40 mm"),
                ("dial", "radius"),
                ("surface", "inside"),
            ],
        },
    ];
    type Input = LatheTouchOffInput;
    type Output = LatheTouchOffResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a diameter changes by twice what the tool moves across the axis");
        let says = "The surface turned is taken to be the outside of the work.";
        record.or_assume(input.surface, "surface", TurnedSurface::Outside, says);
        let (measured, target) = (input.measured_diameter, input.target_diameter);
        let set_reading = CrossReading::of(measured, input.dial);
        let target_reading = CrossReading::of(target, input.dial);
        find_reading("Reading where the tool cut", measured, "measured_diameter", set_reading, "set_reading", record);
        find_reading(
            "Reading at the wanted diameter",
            target,
            "target_diameter",
            target_reading,
            "target_reading",
            record,
        );
        let infeed_left = FoundMove::of(SiValue::from_si((set_reading.si() - target_reading.si()).abs()));
        record
            .step("Change of the reading that is left", "i = abs(r - t)")
            .with("r", "set_reading", set_reading)
            .with("t", "target_reading", target_reading)
            .gives("infeed_left", infeed_left);
        let apart = measured.get() - target.get();
        let slide_travel = FoundExtent::of(apart.abs() / 2.0);
        record
            .step("Travel of the slide", "s = abs(D - d) / 2")
            .with("D", "measured_diameter", measured)
            .with("d", "target_diameter", target)
            .gives("slide_travel", slide_travel);
        record.note(
            "same_side",
            "Set the reading with the slide as it stood while cutting. If it has been drawn back, run it in again from \
             the same side before setting, so that the play of its screw is taken up.",
        );
        record.note(
            "figures_that_grow_inward",
            "A dial whose figures grow while the diameter shrinks, or the other way round, cannot show the diameter: set \
             it to 0 where the tool cut, and go on by what is left.",
        );
        record.note(
            "like_the_trial_cut",
            "The last cut takes what the trial cut took, with the same tool and feed: the work and the tool then give \
             way alike. Measure again before the last cut, and when the work is no longer warm.",
        );
        record.caution(cautions::LATHE);
        Ok(LatheTouchOffResult { set_reading, target_reading, infeed_left, slide_travel })
    }
}

fn find_reading(
    what: &'static str,
    diameter: Size,
    of: &'static str,
    reading: CrossReading,
    field: &'static str,
    record: &mut Record,
) {
    let formula = match reading {
        CrossReading::Diameter(_) => "r = D",
        CrossReading::Radius(_) => "r = D / 2",
    };
    record.step(what, formula).with("D", of, diameter).gives(field, reading);
}
