//! Holes in a straight line: plane geometry, checked against points of the complex plane.

use crate::calculators::prelude::*;
use crate::drawing::{Drawing, words};
use crate::hole_pattern::{
    LaidRows, MOST_HOLES, RowPattern, RowsOnPart, Spaced, draw_rows, find_numbers, find_spacing, lay_out, spaced,
};

/// The calculator.
pub struct InLine;

const SPACED: Spaced = Spaced { pitch: "pitch", length: "length", count: "holes", what: "holes" };

/// What the in-line pattern asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct InLineInput {
    /// How many holes the row has, 1 to 1000.
    #[label("How many holes")]
    pub holes: Count<1, MOST_HOLES>,
    /// Center to center of neighbors; give this or the distance from the first to the last.
    #[label("Center to center")]
    pub pitch: Option<Size>,
    /// From the first hole to the last, center to center, in place of the spacing.
    #[label("First to last")]
    pub length: Option<Size>,
    /// Where the row stands on the part.
    #[group]
    pub on_part: RowsOnPart,
}

/// What the in-line pattern gives.
#[derive(Debug, Gives)]
pub struct InLineResult {
    /// Center to center of neighbors; absent for one hole.
    #[label("Center to center of neighbors")]
    pub pitch: Option<FoundSize>,
    /// From the first hole to the last, center to center; absent for one hole.
    #[label("First to last")]
    pub length: Option<FoundExtent>,
    /// The holes and their checks.
    #[group]
    pub laid: LaidRows,
}

fn check(input: &InLineInput) -> Result<(), ValidationError> {
    spaced(SPACED, input.holes.get(), input.pitch, input.length)?;
    input.on_part.check(input.holes.get())
}

impl Calculator for InLine {
    const ID: &'static str = "patterns/in-line";
    const TITLE: &'static str = "Holes in line";
    const ABOUT: &'static str = "Where evenly spaced holes in a straight line lie, as places and moves, with the metal \
        between them and what a caliper must read.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Measure from the first hole to the last: an error in the spacing shows most there.";
    const WORDS: &'static str =
        "row of holes, line of holes, linear pattern, equally spaced, spacing, pitch, rail, strip";
    const EXAMPLES: &'static [Example] = examples! {
        "Six holes for a hatch rail, 1 in apart from X 1 in, Y 1 in, in a 7 in by 5 in plate.":
            holes = "6", pitch = "1 in", start_x = "1 in", start_y = "1 in", hole_diameter = "0.5 in",
            part = "0 in,0 in;7 in,5 in";
        "Seven holes evenly over 240 mm of a keel strip, about its middle, turned 30°; hole 4 is a rivet that stays.":
            holes = "7", length = "240 mm", center_x = "200 mm", center_y = "80 mm", rotation = "30 deg", skip = "4";
        "Every second hole of a row, 35 mm apart.": holes = "7", pitch = "35 mm", only = "2,4,6";
        "Six rail holes 5 in apart on a mill that travels 24 in by 10 in: zero has 1 in of travel left and 4 in in front.":
            holes = "6", pitch = "5 in", travel_x = "24 in", travel_y = "10 in", travel_left = "1 in",
            travel_front = "4 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "{holes} holes are spread evenly, {length} from the first to the last. How far apart are neighbors?" => "pitch":
            { holes = "4" | "5" | "6" | "7" | "9", length = "12 in" | "15 in" | "18 in" | "10-1/2 in" }
            { holes = "4" | "5" | "6" | "7" | "9", length = "240 mm" | "300 mm" | "360 mm" | "420 mm" };
        1 "A hatch rail has {holes} holes {pitch} apart. How far is it from the first to the last?" => "length":
            { holes = "5" | "6" | "8" | "11", pitch = "1-1/4 in" | "2 in" | "2-1/2 in" | "0.875 in" }
            { holes = "5" | "6" | "8" | "11", pitch = "25 mm" | "32 mm" | "40 mm" | "65 mm" };
        2 "{holes} holes lie {pitch} apart along X, the middle of the row at zero. Where is hole 1 on X?"
            => "positions/0/x":
            { holes = "4" | "5" | "6" | "8", pitch = "1.5 in" | "2 in" | "2.25 in", center_x = "0 in" }
            { holes = "4" | "5" | "6" | "8", pitch = "30 mm" | "45 mm" | "50 mm", center_x = "0 mm" };
        2 "{holes} holes of {hole_diameter} lie {pitch} apart. What does a caliper read outside pins in the first two?"
            => "checks/0/over_pins":
            { holes = "4" | "6", pitch = "1-1/2 in" | "2 in", hole_diameter = "1/4 in" | "3/8 in" }
            { holes = "4" | "6", pitch = "40 mm" | "50 mm", hole_diameter = "6.6 mm" | "9 mm" };
        3 "A row of {holes} holes {pitch} apart runs at {rotation} counterclockwise from +X, hole 1 at zero. Where is \
           hole 2 on Y?" => "positions/1/y":
            { holes = "3" | "5", pitch = "2 in" | "3 in", rotation = "15°" | "30°" | "40°" }
            { holes = "3" | "5", pitch = "50 mm" | "80 mm", rotation = "15°" | "30°" | "40°" };
    };
    type Input = InLineInput;
    type Output = InLineResult;
    const LEADS: &'static [&'static str] = &["pitch"];
    const CONTEXT: &'static [&'static str] = &["{length} from the first to the last", "{gap} of metal between"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "points of a line by equal steps, turned by cosine and sine");
        let holes = input.holes.get();
        let spacing = find_spacing(SPACED, holes, (input.pitch, input.length), record);
        let numbers = find_numbers(&input.on_part.chosen, holes, record);
        let shown: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
        let pitch = spacing.map(|(pitch, _)| pitch);
        let steps = f64::from((holes - 1).max(1));
        let reach = spacing.map_or(0.0, |(_, length)| length.si());
        // Of the whole length, so that no step's rounding adds up.
        let at = |number: &u32| FoundPlace::of_si(f64::from(number - 1) * reach / steps);
        let along: Vec<FoundPlace> = numbers.iter().map(at).collect();
        match pitch {
            Some(pitch) => record
                .step("Along the row", "u = (i - 1) × p")
                .with("i", "positions.number", shown)
                .with("p", "pitch", pitch)
                .gives("pattern.along", along.clone()),
            None => record.look_up("Along the row", "a single hole begins it").gives("pattern.along", along.clone()),
        }
        let across = vec![FoundPlace::of_si(0.0); numbers.len()];
        record.look_up("Across the row", "every hole lies on its line").gives("pattern.across", across.clone());
        let neighbors = (1..holes).map(|number| (number, number + 1)).collect();
        let pattern = RowPattern {
            unit: input.pitch.or(input.length).map_or(Unit::Inch, |size| size.quantity().unit),
            across,
            along,
            length: spacing.map(|(_, length)| length),
            width: None,
            pairs: vec![neighbors, vec![(1, holes)]],
            spaced_by: [("pitch", input.pitch), ("length", input.length)]
                .into_iter()
                .filter_map(|(field, size)| Some((field, size?)))
                .collect(),
            numbers,
        };
        let laid = lay_out(&pattern, &input.on_part, record)?;
        Ok(InLineResult { pitch, length: spacing.map(|(_, length)| length), laid })
    }
}

fn draw(input: &InLineInput, result: &InLineResult) -> Drawing {
    let mut about = words!("{} holes in line": result.laid.positions.len());
    if let Some(pitch) = result.pitch {
        about = about.then(words!(", {} apart": pitch));
    }
    draw_rows("Holes in line", about.then("."), &input.on_part, &result.laid)
}
