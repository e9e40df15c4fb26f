//! Settings of a rotary table: a full turn is so many turns of its handwheel, checked against printed examples of
//! indexing and exact fractions.

mod drawing;

use crate::calculators::prelude::*;
use crate::hole_pattern::{MOST_HOLES, RotaryTable, TableSetting, find_settings};

/// The calculator.
pub struct RotaryTableSettings;

/// What the rotary table calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct RotaryTableInput {
    /// Into how many holes or stops the turn is divided, 1 to 1000; give this or the angles.
    #[label("How many holes or stops")]
    pub holes: Option<Count<1, MOST_HOLES>>,
    /// Angle from the first to the last; 360 deg if absent: all the way around, evenly. Anything less has one at each end.
    #[label("Angle first to last")]
    pub sweep: Option<ArcAngle>,
    /// Angles from zero, the way the table turns, 0 to 360 deg, in place of a number of holes.
    #[label("Angles from zero", "angle")]
    pub angles: Option<Vec<Angle>>,
    /// The table and its dial.
    #[group]
    pub table: RotaryTable,
    /// Radius of the circle that the holes or the ends of the arc lie on, for what the rounding is worth there.
    pub radius: Option<Size>,
}

/// What the rotary table calculator gives.
#[derive(Debug, Gives)]
pub struct RotaryTableResult {
    /// Angle from one to the next; absent for angles as given.
    #[label("Angle hole to hole")]
    pub step_angle: Option<FoundAngle>,
    /// Turns of the handwheel from one to the next; absent for angles as given.
    #[label("Handwheel turns hole to hole")]
    pub step_turns: Option<f64>,
    /// Angle that one turn of the handwheel turns the table.
    #[label("One turn of the handwheel")]
    pub turn_angle: FoundAngle,
    /// Seconds of arc of the finest part of the dial.
    #[label("Finest part, seconds of arc")]
    #[needs(dial_divisions)]
    pub finest_seconds: Option<f64>,
    /// The same along the arc.
    #[label("Finest part along the arc")]
    #[needs(dial_divisions, radius)]
    pub finest_at_radius: Option<FoundExtent>,
    /// The settings, each counted from zero.
    #[label("Settings", "setting")]
    pub table: Vec<TableSetting>,
}

rules! { check_fields(RotaryTableInput) {
    never(|input| input.table.worm_ratio.is_none(), Code::FieldMissing, worm_ratio = "90"):
        "Give the turns of the handwheel for one turn of the table: it is marked on the table, or count them.";
    one_of(holes = "7", angles = "15 deg,40 deg"): "Give into how many holes or stops to divide, or the angles.";
    not_both(holes, angles): "Give a number of holes or the angles, not both.";
    never(|input| input.angles.is_some() && input.sweep.is_some(), Code::Conflict, sweep = "leave out"):
        "Angles from zero need no angle from the first to the last.";
    needs(sweep => holes = "7", sweep = "leave out"): "Give how many holes or stops the angle holds too.";
    never(|input| input.sweep.is_some_and(|sweep| sweep.degrees() < 360.0)
        && input.holes.is_some_and(|holes| holes.get() < 2), Code::Conflict, holes = "2", sweep = "leave out"):
        "Part of a turn has a hole at each end, so it needs two or more.";
    never(|input| input.angles.as_ref().is_some_and(|angles| angles.is_empty() || angles.len() > MOST_HOLES as usize),
        Code::ValueOutOfRange, angles = "15 deg,40 deg"): "Give 1 to 1000 angles.";
    never(|input| input.angles.iter().flatten().any(|angle| !(0.0..=360.0).contains(&angle.degrees())),
        Code::ValueOutOfRange, angles = "15 deg,40 deg"):
        "Angles are counted from zero the way the table turns, 0 to 360 deg.";
} }

fn check(input: &RotaryTableInput) -> Result<(), ValidationError> {
    check_fields(input)?;
    input.table.check()
}

impl Calculator for RotaryTableSettings {
    const ID: &'static str = "geometry/rotary-table";
    const TITLE: &'static str = "Rotary table";
    const ABOUT: &'static str = "Settings of a rotary table for evenly divided holes or for angles: degrees, minutes and \
        seconds, turns and divisions of its handwheel, and how far off rounding puts each.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Go on past the last hole to the first: the table must come back to zero.";
    const WORDS: &'static str = "rotary table, divide a circle, degrees minutes seconds, worm, handwheel turns, \
        vernier, divisions, plain indexing";
    const EXAMPLES: &'static [Example] = examples! {
        "Seven holes in a clutch plate on a table of 90 turns, 120 divisions and a vernier of 12, on a 45 mm radius.":
            holes = "7", worm_ratio = "90", dial_divisions = "120", vernier = "12", radius = "45 mm";
        "Eleven teeth of a ratchet for the mill gear on a table of 72 turns with 300 divisions, at 2 in.":
            holes = "11", worm_ratio = "72", dial_divisions = "300", radius = "2 in";
        "Both ends of a curved slot at 15° and 102°30', on a table of 40 turns.":
            angles = "15 deg,102°30'", worm_ratio = "40";
        "Five stops over 130° of a sector.": holes = "5", sweep = "130 deg", worm_ratio = "60", dial_divisions = "180";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A rotary table takes {worm_ratio} turns of its handwheel for one of its own. What angle is one turn?"
            => "turn_angle": { holes = "6", worm_ratio = "40" | "60" | "72" | "90" | "120" };
        1 "You divide a circle into {holes}. What angle lies from one to the next?" => "step_angle":
            { worm_ratio = "90", holes = "5" | "7" | "9" | "11" | "13" | "16" | "24" };
        2 "You divide a circle into {holes} on a table of {worm_ratio} turns with {dial_divisions} divisions on its dial. \
           How many whole turns of the handwheel come from hole 1 to hole 2?" => "table/1/turns":
            { holes = "7" | "9" | "11" | "13", worm_ratio = "40" | "60" | "90" | "120", dial_divisions = "120" };
        2 "A table of {worm_ratio} turns has {dial_divisions} divisions on its dial. What is one along the arc, {radius} \
           from the center?" => "finest_at_radius":
            { holes = "6", worm_ratio = "90", dial_divisions = "120" | "240", radius = "2 in" | "3 in" | "4 in" }
            { holes = "6", worm_ratio = "72", dial_divisions = "300", radius = "50 mm" | "80 mm" | "100 mm" };
        3 "You divide a circle into {holes} on a table of {worm_ratio} turns with {dial_divisions} divisions. For hole 2, \
           how many divisions, to the nearest, come after the whole turns?" => "table/1/divisions":
            { holes = "7" | "9" | "11" | "13" | "16", worm_ratio = "90", dial_divisions = "120" | "240" }
            { holes = "7" | "11" | "14" | "18", worm_ratio = "72", dial_divisions = "300" };
    };
    type Input = RotaryTableInput;
    type Output = RotaryTableResult;
    const LEADS: &'static [&'static str] = &["step_angle", "step_turns"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record
            .source("geometry", "a turn of the table is so many turns of its worm; a division is the even part of one");
        let ratio = input.table.worm_ratio.map_or(1.0, |ratio| ratio.get());
        let turn_angle = FoundAngle::stated(text::tidy(360.0 / ratio), Unit::Degree);
        record
            .step("One turn of the handwheel", "τ = 2 × π / W")
            .with("W", "worm_ratio", ratio)
            .gives("turn_angle", turn_angle);
        let (numbers, turned, step) = find_turned(input, record);
        let step_turns = step.map(|step| {
            let turns = text::tidy(step.degrees() * ratio / 360.0);
            let draft = record.step("Turns of the handwheel hole to hole", "t = δ × W / (2 × π)");
            draft.with("δ", "step_angle", step).with("W", "worm_ratio", ratio).gives("step_turns", turns);
            turns
        });
        let finest = input.table.dial_divisions.map(|divisions| find_finest(input, ratio, divisions.get(), record));
        let radius = input.radius.map(|radius| ("radius", radius.found()));
        let table = find_settings(&numbers, turned, &input.table, radius, record).unwrap_or_default();
        record.caution(cautions::TURNING_SPINDLE);
        let finest_seconds = finest.map(|finest| finest.0);
        let finest_at_radius = finest.and_then(|finest| finest.1);
        Ok(RotaryTableResult { step_angle: step, step_turns, turn_angle, finest_seconds, finest_at_radius, table })
    }
}

/// The numbers, how far each is from zero, and the even step where there is one.
fn find_turned(input: &RotaryTableInput, record: &mut Record) -> (Vec<u32>, Vec<FoundAngle>, Option<FoundAngle>) {
    const TURNED: &str = "table.turned";
    if let Some(angles) = &input.angles {
        let turned: Vec<FoundAngle> =
            angles.iter().map(|angle| FoundAngle::stated(text::tidy(angle.degrees()), Unit::Degree)).collect();
        let step = record.choose("Turned from zero", "as given").with("θ", "angles", angles.as_slice());
        step.gives(TURNED, turned.clone());
        return ((1..=angles.len() as u32).collect(), turned, None);
    }
    let holes = input.holes.map_or(1, |holes| holes.get());
    let full = ArcAngle::stated(360.0, Unit::Degree);
    let sweep = record.or_assume(input.sweep, "sweep", full, "The holes are assumed to go all the way around.");
    let degrees = text::tidy(sweep.degrees());
    let steps = if degrees == 360.0 { holes } else { holes - 1 };
    let step = FoundAngle::stated(degrees / f64::from(steps), Unit::Degree);
    let formula = if degrees == 360.0 { "δ = S / n" } else { "δ = S / (n - 1)" };
    let draft = record.step("Angle from one to the next", formula).with("S", "sweep", sweep);
    draft.with("n", "holes", holes).gives("step_angle", step);
    let numbers: Vec<u32> = (1..=holes).collect();
    let at = |number: &u32| FoundAngle::stated(f64::from(number - 1) * degrees / f64::from(steps), Unit::Degree);
    let turned: Vec<FoundAngle> = numbers.iter().map(at).collect();
    let counted: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    record.look_up("Numbers", "from 1 to the last").gives("count", counted.clone());
    let draft = record.step("Turned from zero", "θ = (i - 1) × δ").with("i", "count", counted);
    draft.with("δ", "step_angle", step).gives(TURNED, turned.clone());
    (numbers, turned, Some(step))
}

/// The finest part of the dial in seconds of arc, and along the arc.
fn find_finest(
    input: &RotaryTableInput,
    ratio: f64,
    divisions: u32,
    record: &mut Record,
) -> (f64, Option<FoundExtent>) {
    let parts = input.table.vernier.map_or(1, |parts| parts.get());
    let finest = text::tidy(1_296_000.0 / (ratio * f64::from(divisions) * f64::from(parts)));
    let formula = if parts > 1 { "f = 360 × 60 × 60 / (W × N × V)" } else { "f = 360 × 60 × 60 / (W × N)" };
    let step = record.step("Finest part of the dial, in seconds of arc", formula).with("W", "worm_ratio", ratio);
    let step = step.with("N", "dial_divisions", divisions);
    let step = input.table.vernier.into_iter().fold(step, |step, parts| step.with("V", "vernier", parts.get()));
    step.gives("finest_seconds", finest);
    let along = input.radius.map(|radius| {
        let along = FoundExtent::of_si((finest / 3600.0).to_radians() * radius.si());
        let step = record.step("Finest part along the arc", "a = R × f × π / (180 × 60 × 60)");
        step.with("R", "radius", radius).with("f", "finest_seconds", finest).gives("finest_at_radius", along);
        along
    });
    (finest, along)
}
