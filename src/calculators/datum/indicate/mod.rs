//! How far off center a bore or a boss runs, from an indicator's readings at its four quarters, and
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
    /// Reading at 0°: with the spindle, on the side of larger X readings; in a chuck, with jaw 1 at the indicator.
    #[label("Reading at 0° or jaw 1")]
    pub reading_0: Difference,
    /// Reading at 90°: with the spindle, on the side of larger Y readings; in a chuck, with jaw 2 at the indicator.
    #[label("Reading at 90° or jaw 2")]
    pub reading_90: Difference,
    /// Reading at 180°, opposite 0°; in a chuck, with jaw 3 at the indicator.
    #[label("Reading at 180° or jaw 3")]
    pub reading_180: Difference,
    /// Reading at 270°, opposite 90°; in a chuck, with jaw 4 at the indicator.
    #[label("Reading at 270° or jaw 4")]
    pub reading_270: Difference,
    /// What is indicated: a bore or a boss. A bore with the spindle and a boss in a chuck if absent.
    #[label("Bore or boss")]
    pub feature: Option<Feature>,
    /// What turns: spindle, the indicator round work on the table, or chuck, the work past an indicator that stands still.
    #[label("What turns")]
    #[absent("spindle", "The indicator is assumed to turn with the spindle round work on the table.")]
    pub turning: Option<Turning>,
    /// Angle between the lever of a test indicator and the surface it touches.
    #[label("Lever angle")]
    #[absent(
        "0 deg",
        "The readings are taken as they are, as from a plunger square to the surface or a lever flat on it."
    )]
    pub lever_angle: Option<Angle>,
}

/// What the indicate calculator gives.
#[derive(Debug, Gives)]
pub struct IndicateResult {
    /// With the spindle: how much to change the axis readings to stand over the center. In a chuck: how far to move the work toward jaw 1 (x) and toward jaw 2 (y); negative is toward the opposite jaw.
    #[label("Move")]
    pub r#move: IndicateMove,
    /// Greatest reading less the least, corrected for the lever: how far the indicator swings over the four places.
    #[label("Runout")]
    pub runout: FoundExtent,
    /// Distance of the center from the axis of turning.
    #[label("Off center by")]
    pub eccentricity: FoundExtent,
    /// Half the difference of the two diameters through the readings; it is left when the center is true.
    #[label("Out of round by")]
    pub out_of_round: FoundExtent,
}

/// A move on two axes.
#[derive(Debug, Gives)]
pub struct IndicateMove {
    /// On X, or toward jaw 1.
    #[label("X or toward jaw 1")]
    pub x: FoundMove,
    /// On Y, or toward jaw 2.
    #[label("Y or toward jaw 2")]
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
        "Give a lever angle from 0° to less than 90°; at 90° the lever would not move at all.";
} }

impl Calculator for Indicate {
    const ID: &'static str = "datum/indicate";
    const TITLE: &'static str = "Center by indicator";
    const ABOUT: &'static str = "Which way and how far to move to bring a bore or boss under the spindle, or work in \
        a four-jaw chuck to run true, from indicator readings at four quarters.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str = "Turn it once more after the move: the indicator shows what is left.";
    const WORDS: &'static str = "dial indicator, test indicator, four jaw, runout, center a bore, centre, dial in, \
        coaxial, concentric, cosine error, chuck";
    const NEAR: &'static str = "collet, soft jaws, arbor";
    const EXAMPLES: &'static [Example] = examples! {
        "A test indicator in the spindle was swept round the bearing bore of a winch frame, its lever at 15°.":
            reading_0 = "0.006 in", reading_90 = "0.001 in", reading_180 = "-0.006 in", reading_270 = "-0.001 in",
            feature = "bore", turning = "spindle", lever_angle = "15 deg";
        "A pump shaft in the four-jaw chuck, a plunger indicator on its journal.":
            reading_0 = "0.22 mm", reading_90 = "0.05 mm", reading_180 = "0.02 mm", reading_270 = "0.17 mm",
            turning = "chuck";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A shaft in the four-jaw chuck reads {reading_0}, {reading_90}, {reading_180} and {reading_270} at jaws 1 \
           to 4. How much does it run out?" => "runout":
            { reading_0 = "0.002 in", reading_90 = "0.009 in", reading_180 = "0.012 in", reading_270 = "0.005 in",
              turning = "chuck" }
            { reading_0 = "0.015 in", reading_90 = "0.004 in", reading_180 = "0.001 in", reading_270 = "0.012 in",
              turning = "chuck" }
            { reading_0 = "0.22 mm", reading_90 = "0.05 mm", reading_180 = "0.02 mm", reading_270 = "0.19 mm",
              turning = "chuck" }
            { reading_0 = "0.04 mm", reading_90 = "0.16 mm", reading_180 = "0.18 mm", reading_270 = "0.06 mm",
              turning = "chuck" };
        1 "A pump shaft in the four-jaw chuck reads {reading_0} at jaw 1 and {reading_180} at jaw 3, where it pushes \
           the plunger in farther. How far do you move it toward jaw 1?" => "move/x":
            { reading_0 = "0.002 in", reading_90 = "0.007 in", reading_180 = "0.012 in", reading_270 = "0.007 in",
              turning = "chuck" }
            { reading_0 = "0.003 in", reading_90 = "0.011 in", reading_180 = "0.019 in", reading_270 = "0.011 in",
              turning = "chuck" }
            { reading_0 = "0.001 in", reading_90 = "0.013 in", reading_180 = "0.025 in", reading_270 = "0.013 in",
              turning = "chuck" }
            { reading_0 = "0.02 mm", reading_90 = "0.12 mm", reading_180 = "0.22 mm", reading_270 = "0.12 mm",
              turning = "chuck" }
            { reading_0 = "0.05 mm", reading_90 = "0.2 mm", reading_180 = "0.35 mm", reading_270 = "0.2 mm",
              turning = "chuck" };
        2 "An indicator in the spindle sweeps a bore: {reading_0} on the side of larger X, {reading_180} across from \
           it; the reading grows as the tip is pushed in. By how much do you change X?" => "move/x":
            { reading_0 = "0.006 in", reading_90 = "0 in", reading_180 = "-0.006 in", reading_270 = "0 in",
              turning = "spindle" }
            { reading_0 = "0.002 in", reading_90 = "0.007 in", reading_180 = "0.012 in", reading_270 = "0.007 in",
              turning = "spindle" }
            { reading_0 = "0.020 in", reading_90 = "0.012 in", reading_180 = "0.004 in", reading_270 = "0.012 in",
              turning = "spindle" }
            { reading_0 = "0.04 mm", reading_90 = "0.1 mm", reading_180 = "0.16 mm", reading_270 = "0.1 mm",
              turning = "spindle" }
            { reading_0 = "0.24 mm", reading_90 = "0.14 mm", reading_180 = "0.04 mm", reading_270 = "0.14 mm",
              turning = "spindle" };
        2 "A journal reads {reading_0}, {reading_90}, {reading_180} and {reading_270} at jaws 1 to 4. How far is it \
           off center?" => "eccentricity":
            { reading_0 = "0.004 in", reading_90 = "0.002 in", reading_180 = "0.010 in", reading_270 = "0.012 in",
              turning = "chuck" }
            { reading_0 = "0.018 in", reading_90 = "0.010 in", reading_180 = "0.002 in", reading_270 = "0.010 in",
              turning = "chuck" }
            { reading_0 = "0.02 mm", reading_90 = "0.04 mm", reading_180 = "0.18 mm", reading_270 = "0.16 mm",
              turning = "chuck" }
            { reading_0 = "0.3 mm", reading_90 = "0.26 mm", reading_180 = "0.06 mm", reading_270 = "0.1 mm",
              turning = "chuck" };
        3 "The lever of a test indicator lies at {lever_angle} in a bore. It reads {reading_90} on the side of larger \
           Y and {reading_270} across from it; pushed in, it reads more. By how much do you change Y?" => "move/y":
            { lever_angle = "15°" | "20°" | "30°", reading_0 = "0 in", reading_90 = "0.008 in", reading_180 = "0 in",
              reading_270 = "-0.008 in", turning = "spindle" }
            { lever_angle = "15°" | "20°" | "30°", reading_0 = "0 mm", reading_90 = "-0.12 mm", reading_180 = "0 mm",
              reading_270 = "0.12 mm", turning = "spindle" };
        3 "A worn pump shaft reads {reading_0} at jaw 1, {reading_90} at jaw 2, {reading_180} at jaw 3 and \
           {reading_270} at jaw 4. How far is it out of round?" => "out_of_round":
            { reading_0 = "0.004 in", reading_90 = "0.001 in", reading_180 = "0.006 in", reading_270 = "0.003 in",
              turning = "chuck" }
            { reading_0 = "0.012 in", reading_90 = "0.009 in", reading_180 = "0.002 in", reading_270 = "0.001 in",
              turning = "chuck" }
            { reading_0 = "0.1 mm", reading_90 = "0.04 mm", reading_180 = "0.06 mm", reading_270 = "0.02 mm",
              turning = "chuck" };
    };
    type Input = IndicateInput;
    type Output = IndicateResult;
    const LEADS: &'static [&'static str] = &["move/x", "move/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "an eccentric circle seen from four sides; a lever moves by the cosine of its angle");
        let turning = input.turning(record);
        let (usual, says) = match turning {
            Turning::Spindle => (Feature::Bore, "The indicator is assumed to sweep the inside of a bore."),
            Turning::Chuck => (Feature::Boss, "The indicator is assumed to run on the outside of the work."),
        };
        let feature = record.or_assume(input.feature, "feature", usual, says);
        let lever = input.lever_angle(record);
        if lever.degrees() > STEEP {
            record.note(
                "steep_lever",
                "With the lever this steep a small error in its angle matters. Lay it flatter. A tip shaped to cancel \
                 the cosine error needs no lever angle here.",
            );
        }
        let readings = [input.reading_0, input.reading_90, input.reading_180, input.reading_270];
        let fields = ["reading_0", "reading_90", "reading_180", "reading_270"];
        let trues: [FoundDifference; 4] = [0, 1, 2, 3].map(|at| {
            step!(record, "Reading corrected for the angle of the lever",
                t: (TRUES[at]) = r * cos(λ), r = (fields[at]): readings[at], λ = lever_angle: lever)
        });
        // Toward the side that reads less: in a bore the metal is farther there, and so is the
        // center. A boss is the other way round, and so is moving the work in place of the spindle.
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
            .step("Distance of the center from the axis", "e = √(x^2 + y^2)")
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
            "0° is the side of larger X readings and 90° the side of larger Y readings. Change the readings by the \
             moves, approaching from one side, and sweep again.",
        ),
        Turning::Chuck => record.note(
            "jaws",
            "Work one pair of opposite jaws at a time: slacken the jaw that the work moves toward, tighten the one \
             across from it, and indicate again.",
        ),
    }
    record.note("zero_anywhere", "Only differences count, so the indicator's zero may be anywhere.");
    if round.si() > runout.si() / 10.0 && round.si() > TINY {
        record.note(
            "not_round",
            "The readings do not agree with a circle: the work is out of round, the indicator slipped, or its lever \
             lay at another angle on one side. Sweep again.",
        );
    }
}
