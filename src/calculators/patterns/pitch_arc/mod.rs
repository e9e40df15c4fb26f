//! Holes along a part of a circle, a stated spacing apart: plane geometry of the circle, checked against points of the
//! complex plane and printed chord factors.

mod spacing;

use crate::calculators::prelude::*;
use crate::drawing::Drawing;
use crate::hole_pattern::{
    ChosenHoles, CircleView, CircleWords, Distances, HoleCircle, MOST_HOLES, PatternHole, RotaryTable, TableReach,
    TableSetting, TableTravel, draw_circle, find_distances, find_numbers,
};
use spacing::{find_start, find_step, fits};

/// The calculator.
pub struct PitchArc;

/// What the pitch arc asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct PitchArcInput {
    /// Diameter of the circle through the centers of the holes.
    #[label("Circle diameter")]
    pub diameter: Size,
    /// How many holes there are, 2 to 1000.
    #[label("How many holes")]
    pub holes: Count<2, MOST_HOLES>,
    /// Straight distance between the centers of neighbors; give this, the distance along the arc, or the angle.
    #[label("Center to center, straight")]
    pub chord: Option<Size>,
    /// Distance between the centers of neighbors along the arc.
    #[label("Center to center along the arc")]
    pub arc_pitch: Option<Size>,
    /// Angle from one hole to the next.
    #[label("Angle hole to hole")]
    pub step_angle: Option<ArcAngle>,
    /// X of the circle's center.
    #[absent("0", like = diameter, "The center is assumed at zero.")]
    #[label("Center, X")]
    pub center_x: Option<Place>,
    /// Y of the circle's center.
    #[absent("0", like = diameter, "The center is assumed at zero.")]
    #[label("Center, Y")]
    pub center_y: Option<Place>,
    /// Angle of hole 1.
    #[label("Angle of hole 1")]
    pub start_angle: Option<Angle>,
    /// Angle of the middle of the row of holes, in place of that of hole 1.
    #[label("Angle of the middle")]
    pub middle_angle: Option<Angle>,
    /// Which holes are drilled.
    #[group]
    pub chosen: ChosenHoles,
    /// Diameter of the holes, for the gap between them and the check over pins.
    pub hole_diameter: Option<Size>,
    /// Which way angles are measured and holes counted.
    #[group]
    pub words: CircleWords,
    /// A rotary table, for its settings.
    #[group]
    pub table: RotaryTable,
    /// The travel of the machine's table.
    #[group]
    pub travel: TableTravel,
}

/// What the pitch arc gives.
#[derive(Debug, Gives)]
pub struct PitchArcResult {
    /// The holes, in the order of their numbers, or as listed.
    #[label("Holes", "hole")]
    pub positions: Vec<PatternHole>,
    /// Angle from one hole to the next.
    #[label("Angle hole to hole")]
    pub step_angle: FoundAngle,
    /// Angle from the first hole to the last.
    #[label("Angle first to last hole")]
    pub sweep: FoundAngle,
    /// Distance between neighbors along the arc.
    #[label("Center to center along the arc")]
    pub arc_pitch: FoundSize,
    /// Straight distance from the first hole to the last.
    #[label("First to last, straight")]
    pub ends_chord: FoundExtent,
    /// The distances between neighbors.
    #[group]
    pub distances: Distances,
    /// Settings of a rotary table under hole 1 at zero, one for each hole listed; needs the turns of its handwheel for one turn.
    #[label("Settings of the rotary table", "setting")]
    pub table: Option<Vec<TableSetting>>,
    /// Whether the machine's table reaches the holes; needs its travel.
    #[label("Table")]
    pub reach: Option<TableReach>,
}

rules! { check_fields(PitchArcInput) {
    one_of(chord = "1 in", arc_pitch = "1 in", step_angle = "20 deg"):
        "Give how far apart the holes are: straight, along the arc, or as an angle.";
    not_both(chord, arc_pitch): ONE_SPACING;
    not_both(chord, step_angle): ONE_SPACING;
    not_both(arc_pitch, step_angle): ONE_SPACING;
    not_both(start_angle, middle_angle): "Give the angle of hole 1 or that of the middle, not both.";
} }

const ONE_SPACING: &str = "Give how far apart the holes are in one way only.";

fn check(input: &PitchArcInput) -> Result<(), ValidationError> {
    check_fields(input)?;
    input.chosen.check(input.holes.get())?;
    input.table.check()?;
    input.travel.check()
}

impl Calculator for PitchArc {
    const ID: &'static str = "patterns/pitch-arc";
    const TITLE: &'static str = "Holes along an arc";
    const ABOUT: &'static str = "Where holes along a part of a circle lie when their spacing is stated: straight, along \
        the arc or as an angle; as places, moves and settings of a rotary table.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Measure straight from the first hole to the last: an error in the spacing adds up there.";
    const WORDS: &'static str = "arc of holes, partial circle, curved row, arc spacing, chord spacing, sector, slot ends, \
        rotary table";
    const EXAMPLES: &'static [Example] = examples! {
        "Five holes 1-1/4 in apart, straight, along the rim of a 14 in hand wheel, from +X on.":
            diameter = "14 in", holes = "5", chord = "1.25 in", start_angle = "0 deg", hole_diameter = "0.5 in";
        "Four holes 30 mm apart along the arc of a 220 mm brake band, about twelve o'clock, clockwise; a table of 90 turns.":
            diameter = "220 mm", holes = "4", arc_pitch = "30 mm", middle_angle = "0 deg", angle_from = "y_axis",
            angle_sense = "clockwise", hole_order = "clockwise", center_x = "10 mm", center_y = "20 mm",
            worm_ratio = "90", dial_divisions = "120", vernier = "12";
        "Stops every 12°30' on a sector of the mill gear; number 4 is there already.":
            diameter = "9 in", holes = "6", step_angle = "12°30'", skip = "4";
        "Every second of seven stops.": diameter = "90 mm", holes = "7", step_angle = "20 deg", only = "2,4,6";
        "Six holes along the rim of a large sheave, on a mill that travels 24 in by 10 in; zero has 3 in left and 2 in in front.":
            diameter = "30 in", holes = "6", chord = "3 in", travel_x = "24 in", travel_y = "10 in",
            travel_left = "3 in", travel_front = "2 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "{holes} holes lie every {step_angle} on part of a circle of {diameter}. What angle lies from the first to the \
           last?" => "sweep":
            { diameter = "9 in" | "12 in", holes = "4" | "5" | "6", step_angle = "10°" | "12.5°" | "15°" | "22.5°" }
            { diameter = "200 mm" | "300 mm", holes = "4" | "5" | "6", step_angle = "10°" | "12.5°" | "15°" | "22.5°" };
        2 "Holes are to lie {arc_pitch} apart along the arc of a {diameter} circle. What angle is that?" => "step_angle":
            { diameter = "8 in" | "10 in" | "14 in", arc_pitch = "1 in" | "1-1/2 in" | "2 in", holes = "4" }
            { diameter = "200 mm" | "220 mm" | "300 mm", arc_pitch = "30 mm" | "40 mm" | "50 mm", holes = "4" };
        2 "Holes are to lie {chord} apart, straight, on a {diameter} circle. What angle does the table turn from one to \
           the next?" => "step_angle":
            { diameter = "8 in" | "10 in" | "14 in", chord = "1 in" | "1-1/4 in" | "2 in", holes = "4" }
            { diameter = "200 mm" | "220 mm" | "300 mm", chord = "25 mm" | "40 mm" | "50 mm", holes = "4" };
        3 "{holes} holes lie every {step_angle} on a {diameter} circle. What is it straight from the first to the last?"
            => "ends_chord":
            { diameter = "9 in" | "12 in", holes = "4" | "5", step_angle = "15°" | "20°" | "25°" }
            { diameter = "200 mm" | "300 mm", holes = "4" | "5", step_angle = "15°" | "20°" | "25°" };
        3 "{holes} holes lie every {step_angle} on a {diameter} circle about zero, their middle at {middle_angle} from +X. \
           Where is hole 1 on X?" => "positions/0/x":
            { diameter = "9 in" | "12 in", holes = "3" | "4", step_angle = "15°" | "20°", middle_angle = "90°" | "45°" }
            { diameter = "200 mm" | "300 mm", holes = "3" | "4", step_angle = "15°" | "20°", middle_angle = "90°" | "45°" };
    };
    type Input = PitchArcInput;
    type Output = PitchArcResult;
    const LEADS: &'static [&'static str] = &["step_angle"];
    const CONTEXT: &'static [&'static str] = &["{sweep} in all", "{adjacent_chord} center to center"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "points of a circle by their angle; chord by the sine of half the angle");
        let holes = input.holes.get();
        let radius: FoundSize = step!(record, "Radius", R: radius = D / 2.0, D = diameter: input.diameter);
        let step = find_step(input, radius, record)?;
        let sweep: FoundAngle = step!(record, "Angle from the first hole to the last", S: sweep = (n - 1.0) * δ, n = holes, δ = step_angle: step);
        fits(input, step)?;
        let arc_pitch: FoundSize = match input.arc_pitch {
            Some(given) => {
                record
                    .choose("Along the arc", "as given")
                    .with("l", "arc_pitch", given)
                    .gives("arc_pitch", given.found());
                given.found()
            }
            None => {
                let found = FoundSize::of_si(radius.si() * step.degrees().to_radians());
                record
                    .step("Along the arc", "l = R × δ")
                    .with("R", "radius", radius)
                    .with("δ", "step_angle", step)
                    .gives("arc_pitch", found);
                found
            }
        };
        let ends_chord: FoundExtent = step!(record, "Straight from the first hole to the last",
            e: ends_chord = 2.0 * R * abs(sin(S / 2.0)), R = radius, S = sweep);
        let center = (input.center_x(record), input.center_y(record));
        let convention = input.words.convention(record);
        let order = input.words.order(convention, holes, record);
        let start = find_start(input, sweep, order == convention.sense, record);
        let numbers = find_numbers(&input.chosen, holes, record);
        let (degrees, steps) = (step.degrees(), 1);
        let step_angle = Some(step);
        let circle = HoleCircle { radius, center, convention, order, numbers, sweep: degrees, steps, step_angle };
        let positions = circle.lay_out(start, record);
        let distances = find_distances(input.hole_diameter, sweep.degrees(), radius, step_angle, record);
        let table = circle.find_settings(&input.table, record);
        let reach = input.travel.find_reach(&positions, record);
        record.caution(cautions::DRILLING);
        record.note(
            "one_side",
            "Come up to every place from the same side on each axis, so that backlash does not matter.",
        );
        Ok(PitchArcResult { positions, step_angle: step, sweep, arc_pitch, ends_chord, distances, table, reach })
    }
}

fn draw(input: &PitchArcInput, result: &PitchArcResult) -> Drawing {
    draw_circle(&CircleView {
        title: "Holes along an arc",
        diameter: input.diameter,
        holes: input.holes.get(),
        center: (input.center_x, input.center_y),
        start_angle: input.start_angle,
        hole_diameter: input.hole_diameter,
        words: input.words,
        positions: &result.positions,
        step_angle: Some(result.step_angle),
        adjacent_chord: result.distances.adjacent_chord,
    })
}
