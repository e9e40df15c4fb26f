//! How far off centre a bore or a boss runs, from an indicator's readings at its four quarters, and
//! which way to move: half the difference of opposite readings.

mod drawing;

use crate::arithmetic::touching::{Feature, Pair};
use crate::calculators::prelude::*;
use uom::si::f64::Length;

/// The calculator.
pub struct Indicate;

choice! {
    /// What turns: the indicator with the `spindle`, round work on the table; or the work in a four-jaw `chuck`, past an indicator that stands still.
    Turning {
        /// The indicator turns.
        Spindle = "spindle",
        /// The work turns.
        Chuck = "chuck",
    }
}

/// What the indicate calculator asks for. A reading grows as the indicator's tip is pressed in.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct IndicateInput {
    /// Reading at 0 deg: with the spindle, on the side toward which X readings grow; in a chuck, with jaw 1 at the indicator.
    pub reading_0: Difference,
    /// Reading at 90 deg: with the spindle, on the side toward which Y readings grow; in a chuck, with jaw 2 at the indicator.
    pub reading_90: Difference,
    /// Reading at 180 deg, opposite to that at 0 deg; in a chuck, jaw 3.
    pub reading_180: Difference,
    /// Reading at 270 deg, opposite to that at 90 deg; in a chuck, jaw 4.
    pub reading_270: Difference,
    /// What is indicated: bore or boss. A bore with the spindle and a boss in a chuck if absent.
    pub feature: Option<Feature>,
    /// What turns: spindle, the indicator round work on the table, or chuck, the work past the indicator.
    #[absent("spindle", "The indicator is taken to turn with the spindle round work on the table.")]
    pub turning: Option<Turning>,
    /// Angle between the lever of a test indicator and the surface it lies on.
    #[absent("0 deg", "The readings are taken as they are: a plunger square to the surface, or a lever flat on it.")]
    pub lever_angle: Option<Angle>,
}

/// What the indicate calculator gives.
#[derive(Debug, Gives)]
pub struct IndicateResult {
    /// With the spindle: what the readings of the axes must change by to stand over the centre. In a chuck: how far the work must go toward jaw 1 (x) and toward jaw 2 (y); negative is away from it, toward the jaw opposite.
    pub r#move: IndicateMove,
    /// Greatest reading less least, corrected for the lever: what the indicator swings through at the four places.
    pub runout: FoundExtent,
    /// Distance of the centre from the axis of turning.
    pub eccentricity: FoundExtent,
    /// Half the difference of the two diameters through the readings: what is left over when the centre is true.
    pub out_of_round: FoundExtent,
}

/// A move on two axes.
#[derive(Debug, Gives)]
pub struct IndicateMove {
    /// On X, or toward jaw 1.
    pub x: FoundMove,
    /// On Y, or toward jaw 2.
    pub y: FoundMove,
}

/// Beyond this a lever tells more about its angle than about the work.
const STEEP: f64 = 30.0;

const MOVES: [&str; 2] = ["move.x", "move.y"];

/// The readings without the lever's cosine error.
const TRUES: [&str; 4] = ["true_0", "true_90", "true_180", "true_270"];

rules! { check(IndicateInput) {
    never(|input| input.lever_angle.is_some_and(|lever| !(0.0..90.0).contains(&lever.degrees())), Code::ValueOutOfRange,
        lever_angle = "15 deg"):
        "The lever lies at 0° or more to the surface and below 90°, where it would not move at all.";
} }

impl Calculator for Indicate {
    const ID: &'static str = "datum/indicate";
    const TITLE: &'static str = "Centre by indicator";
    const ABOUT: &'static str = "Which way and how far to move to bring a bore or boss under the spindle, or work in a \
        four-jaw chuck to run true, from indicator readings at four quarters.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str = "Turn it once more after the move: the needle shows what is left.";
    const WORDS: &'static str = "dial indicator, test indicator, four jaw, runout, centre a bore, dial in, coaxial, \
        concentric, cosine error, chuck";
    const NEAR: &'static str = "collet, soft jaws, arbor";
    const EXAMPLES: &'static [Example] = examples! {
        "A test indicator in the spindle was swept round the bearing bore of a winch frame, its lever at 15°.":
            reading_0 = "0.006 in", reading_90 = "0.001 in", reading_180 = "-0.006 in", reading_270 = "-0.001 in",
            feature = "bore", turning = "spindle", lever_angle = "15 deg";
        "A pump shaft in the four-jaw chuck, a plunger indicator on its journal.":
            reading_0 = "0.22 mm", reading_90 = "0.05 mm", reading_180 = "0.02 mm", reading_270 = "0.17 mm",
            turning = "chuck";
    };
    type Input = IndicateInput;
    type Output = IndicateResult;
    const LEADS: &'static [&'static str] = &["move/x", "move/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "an eccentric circle seen from four sides; a lever moves by the cosine of its angle");
        let turning = input.turning(record);
        let (usual, says) = match turning {
            Turning::Spindle => (Feature::Bore, "The indicator is taken to sweep the inside of a bore."),
            Turning::Chuck => (Feature::Boss, "The indicator is taken to lie on the outside of the work."),
        };
        let feature = record.or_assume(input.feature, "feature", usual, says);
        let lever = input.lever_angle(record);
        if lever.degrees() > STEEP {
            record.note(
                "steep_lever",
                "At so steep a lever a small error of its angle matters: lay it flatter. A tip shaped to take the \
                 cosine out needs no angle here.",
            );
        }
        let readings = [input.reading_0, input.reading_90, input.reading_180, input.reading_270];
        let fields = ["reading_0", "reading_90", "reading_180", "reading_270"];
        let trues: [FoundDifference; 4] = [0, 1, 2, 3].map(|at| {
            step!(record, "Reading less the lever's cosine error",
                t: (TRUES[at]) = r * cos(λ), r = (fields[at]): readings[at], λ = lever_angle: lever)
        });
        // Toward the side that reads less: in a bore the metal is farther there, and so is the
        // centre. A boss is the other way round, and so is moving the work in place of the spindle.
        let toward_less = (feature == Feature::Bore) == (turning == Turning::Spindle);
        let what = match turning {
            Turning::Spindle => ["Move of the spindle on X", "Move of the spindle on Y"],
            Turning::Chuck => ["Move of the work toward jaw 1", "Move of the work toward jaw 2"],
        };
        let [x, y]: [FoundMove; 2] = [0, 1].map(|on| {
            let (of, a, b) = (MOVES[on], trues[on], trues[on + 2]);
            if toward_less {
                step!(record, what[on], m: (of) = (b - a) / 2.0, a = (TRUES[on]): a, b = (TRUES[on + 2]): b)
            } else {
                step!(record, what[on], m: (of) = (a - b) / 2.0, a = (TRUES[on]): a, b = (TRUES[on + 2]): b)
            }
        });
        let eccentricity = FoundExtent::of(x.get().hypot(y.get()));
        let both = Pair { of: MOVES, on: [x, y] };
        record
            .step("Distance of the centre from the axis", "e = √(x^2 + y^2)")
            .with_pair(["x", "y"], &both)
            .gives("eccentricity", eccentricity);
        let mut extreme = |what: &'static str, rule: &'static str, field, pick: fn(Length, Length) -> Length| {
            let found = FoundDifference::of(trues[1..].iter().map(Found::get).fold(trues[0].get(), pick));
            let shown = ["a", "b", "c", "d"].into_iter().zip(TRUES).zip(trues);
            let step = record.choose(what, rule);
            shown.fold(step, |step, ((symbol, name), value)| step.with(symbol, name, value)).gives(field, found);
            found
        };
        let greatest = extreme("Greatest reading", "the greatest", "greatest", Length::max);
        let least = extreme("Least reading", "the least", "least", Length::min);
        let runout: FoundExtent = step!(record, "Swing of the indicator", s: runout = g - l, g = greatest, l = least);
        let [a, b, c, d] = trues;
        let out_of_round: FoundExtent = step!(record, "Half the difference of the diameters",
            o: out_of_round = abs(a + c - b - d) / 2.0, a = (TRUES[0]): a, b = (TRUES[1]): b, c = (TRUES[2]): c,
            d = (TRUES[3]): d);
        notes(turning, out_of_round.get(), runout.get(), record);
        record.caution(cautions::INDICATING);
        Ok(IndicateResult { r#move: IndicateMove { x, y }, runout, eccentricity, out_of_round })
    }
}

fn notes(turning: Turning, round: Length, runout: Length, record: &mut Record) {
    match turning {
        Turning::Spindle => record.note(
            "sides",
            "0 deg is the side toward which X readings grow and 90 deg that toward which Y readings grow; change the \
             readings by the moves, coming to them from one side, and sweep again.",
        ),
        Turning::Chuck => record.note(
            "jaws",
            "Work one pair of opposite jaws at a time: slacken the jaw the work goes toward, tighten the one across, and \
             indicate again.",
        ),
    }
    record.note("zero_anywhere", "Only differences count: where the indicator's zero stands does not matter.");
    if round.si() > runout.si() / 10.0 && round.si() > TINY {
        record.note(
            "not_round",
            "Opposite readings do not agree as those of a circle do: the work is out of round, the indicator slipped, \
             or its lever lies at another angle on one side. Sweep again.",
        );
    }
}
