//! Holes around a rectangle, as in a cover or a flange with straight sides: plane geometry, checked against points of
//! the complex plane.

use crate::calculators::prelude::*;
use crate::drawing::{Drawing, words};
use crate::hole_pattern::{LaidRows, RowPattern, RowsOnPart, draw_rows, find_numbers, lay_out};

/// The calculator.
pub struct AroundRectangle;

/// What the pattern around a rectangle asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct AroundRectangleInput {
    /// Corner hole to corner hole along the first side, center to center.
    #[label("Length")]
    pub length: Size,
    /// Corner hole to corner hole across, center to center.
    #[label("Width")]
    pub width: Size,
    /// How many holes lie along the length, both corners included, 2 to 250.
    #[label("Holes along the length")]
    pub columns: Count<2, 250>,
    /// How many holes lie along the width, both corners included, 2 to 250.
    #[label("Holes along the width")]
    pub rows: Count<2, 250>,
    /// Where the pattern stands on the part.
    #[group]
    pub on_part: RowsOnPart,
}

/// What the pattern around a rectangle gives.
#[derive(Debug, Gives)]
pub struct AroundRectangleResult {
    /// How many holes there are.
    #[label("Holes in all")]
    pub count: u32,
    /// Center to center along the length.
    #[label("Center to center along the length")]
    pub pitch_x: FoundSize,
    /// Center to center along the width.
    #[label("Center to center along the width")]
    pub pitch_y: FoundSize,
    /// The holes and their checks.
    #[group]
    pub laid: LaidRows,
}

impl AroundRectangleInput {
    fn holes(&self) -> u32 {
        2 * (self.columns.get() + self.rows.get()) - 4
    }

    /// How many spaces along the length and the width a hole lies from hole 1, counterclockwise from the corner.
    fn at(&self, number: u32) -> (u32, u32) {
        let (long, wide) = (self.columns.get() - 1, self.rows.get() - 1);
        let steps = number - 1;
        if steps <= long {
            (steps, 0)
        } else if steps <= long + wide {
            (long, steps - long)
        } else if steps <= 2 * long + wide {
            (2 * long + wide - steps, wide)
        } else {
            (0, 2 * (long + wide) - steps)
        }
    }
}

fn check(input: &AroundRectangleInput) -> Result<(), ValidationError> {
    input.on_part.check(input.holes())
}

impl Calculator for AroundRectangle {
    const ID: &'static str = "patterns/around-rectangle";
    const TITLE: &'static str = "Holes around a rectangle";
    const ABOUT: &'static str = "Where the holes around a rectangular cover or flange lie, as places and moves, with the \
        metal between them and what a caliper must read.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Measure both diagonals over the corner holes: where they are equal the pattern is square.";
    const WORDS: &'static str = "rectangular cover, perimeter holes, border, gasket, inspection cover, flange, frame, \
        hatch";
    const EXAMPLES: &'static [Example] = examples! {
        "An inspection cover of a gear case, 5 in by 3 in over the corner holes: 4 holes along, 3 across, on a 7 in by 5 in plate.":
            length = "5 in", width = "3 in", columns = "4", rows = "3", start_x = "1 in", start_y = "1 in",
            hole_diameter = "0.5 in", part = "0 in,0 in;7 in,5 in";
        "The gasket of a pump's valve chest, 180 mm by 120 mm about its middle, turned 90°.":
            length = "180 mm", width = "120 mm", columns = "5", rows = "4", center_x = "0 mm", center_y = "0 mm",
            rotation = "90 deg", skip = "4";
        "Three holes of a small cover.":
            length = "80 mm", width = "60 mm", columns = "3", rows = "2", only = "2,4,6";
        "A tank cover on a mill that travels 600 mm by 240 mm: zero has 60 mm of travel left and 10 mm in front.":
            length = "560 mm", width = "220 mm", columns = "5", rows = "3", travel_x = "600 mm", travel_y = "240 mm",
            travel_left = "60 mm", travel_front = "10 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A cover has {columns} holes along its {length} side, both corners included, and {rows} along the other. How \
           many holes does it have in all?" => "count":
            { length = "6 in" | "8 in", width = "4 in", columns = "4" | "5" | "6", rows = "3" | "4" }
            { length = "180 mm" | "240 mm", width = "120 mm", columns = "4" | "5" | "6", rows = "3" | "4" };
        1 "{columns} holes are spread evenly along the {length} side of a cover, a hole in each corner. How far apart \
           are they?" => "pitch_x":
            { length = "6 in" | "7-1/2 in" | "9 in", width = "4 in", columns = "4" | "5" | "6", rows = "3" }
            { length = "180 mm" | "240 mm" | "300 mm", width = "120 mm", columns = "4" | "5" | "6", rows = "3" };
        2 "A cover's corner holes stand {length} by {width}. What must both diagonals be?" => "checks/2/centers":
            { length = "6 in" | "8 in" | "10 in", width = "4 in" | "5 in", columns = "3", rows = "3" }
            { length = "180 mm" | "200 mm", width = "120 mm" | "150 mm", columns = "3", rows = "3" };
        3 "{columns} holes along {length} and {rows} along {width}, numbered counterclockwise from the corner at zero. \
           Where is the last hole on Y?" => "positions/9/y":
            { length = "6 in" | "9 in", width = "4 in" | "5 in", columns = "4", rows = "3" }
            { length = "180 mm" | "240 mm", width = "120 mm" | "150 mm", columns = "4", rows = "3" };
    };
    type Input = AroundRectangleInput;
    type Output = AroundRectangleResult;
    const LEADS: &'static [&'static str] = &["pitch_x", "pitch_y"];
    const CONTEXT: &'static [&'static str] = &["{count} holes", "{gap} of metal between"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "points of a rectangle by equal steps, turned by cosine and sine");
        let (columns, rows) = (input.columns.get(), input.rows.get());
        let count = input.holes();
        record
            .step("Holes in all", "n = 2 × (a + b) - 4")
            .with("a", "columns", columns)
            .with("b", "rows", rows)
            .gives("count", count);
        let pitch_x: FoundSize = step!(record, "Center to center along the length",
            p: pitch_x = L / (a - 1.0), L = length: input.length, a = columns);
        let pitch_y: FoundSize = step!(record, "Center to center along the width",
            q: pitch_y = W / (b - 1.0), W = width: input.width, b = rows);
        let numbers = find_numbers(&input.on_part.chosen, count, record);
        let at: Vec<(u32, u32)> = numbers.iter().map(|number| input.at(*number)).collect();
        let mut place = |what,
                         named,
                         field,
                         (symbol, pitch_of, pitch): (&'static str, &'static str, FoundSize),
                         part,
                         (size, of): (Size, u32)| {
            let steps: Vec<f64> = at.iter().map(|at| f64::from(<[u32; 2]>::from(*at)[part])).collect();
            let look_up =
                record.look_up(named, "counted counterclockwise around the rectangle from hole 1 at its corner");
            look_up
                .with("i", "positions.number", numbers.iter().copied().map(f64::from).collect::<Vec<_>>())
                .gives(["spaces.along", "spaces.across"][part], steps.clone());
            let places: Vec<FoundPlace> =
                steps.iter().map(|steps| FoundPlace::of_si(steps * size.si() / f64::from(of - 1))).collect();
            let step = record.step(what, format!("u = s × {symbol}"));
            let step = step.with("s", ["spaces.along", "spaces.across"][part], steps);
            step.with(symbol, pitch_of, pitch).gives(field, places.clone());
            places
        };
        let along = place(
            "Along the length",
            "Spaces along the length",
            "pattern.along",
            ("p", "pitch_x", pitch_x),
            0,
            (input.length, columns),
        );
        let across =
            place("Across it", "Spaces across it", "pattern.across", ("q", "pitch_y", pitch_y), 1, (input.width, rows));
        // The corners, counterclockwise.
        let corners = [1, columns, columns + rows - 1, 2 * columns + rows - 2];
        let all = |way: usize| {
            (1..=count)
                .filter_map(|one| {
                    let other = one % count + 1;
                    let (a, b) = (input.at(one), input.at(other));
                    (if way == 0 { a.1 == b.1 } else { a.0 == b.0 }).then_some((one, other))
                })
                .collect::<Vec<_>>()
        };
        let pattern = RowPattern {
            unit: input.length.quantity().unit,
            along,
            across,
            length: Some(FoundExtent::stated(input.length.quantity().value, input.length.quantity().unit)),
            width: Some(FoundExtent::stated(input.width.quantity().value, input.width.quantity().unit)),
            pairs: vec![all(0), all(1), vec![(corners[0], corners[2])], vec![(corners[1], corners[3])]],
            spaced_by: vec![("length", input.length), ("width", input.width)],
            numbers,
        };
        let laid = lay_out(&pattern, &input.on_part, record)?;
        Ok(AroundRectangleResult { count, pitch_x, pitch_y, laid })
    }
}

fn draw(input: &AroundRectangleInput, result: &AroundRectangleResult) -> Drawing {
    let about =
        words!("{} holes around a rectangle of {} by {}.": result.laid.positions.len(), input.length, input.width);
    draw_rows("Holes around a rectangle", about, &input.on_part, &result.laid)
}
