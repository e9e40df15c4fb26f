//! Holes in columns and rows: plane geometry, checked against points of the complex plane.

use crate::calculators::prelude::*;
use crate::drawing::{Drawing, words};
use crate::hole_pattern::{
    LaidRows, MOST_HOLES, Numbering, RowPattern, RowsOnPart, Spaced, draw_rows, find_grid, find_numbers, find_spacing,
    lay_out, spaced,
};

/// The calculator.
pub struct Rectangular;

const ALONG: Spaced = Spaced { pitch: "pitch_x", length: "length", count: "columns", what: "columns" };
const ACROSS: Spaced = Spaced { pitch: "pitch_y", length: "width", count: "rows", what: "rows" };

/// What the rectangular pattern asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct RectangularInput {
    /// How many holes a row has, 1 to 1000.
    #[label("Holes in a row")]
    pub columns: Count<1, MOST_HOLES>,
    /// How many rows there are, 1 to 1000.
    #[label("Rows")]
    pub rows: Count<1, MOST_HOLES>,
    /// Center to center along a row; give this or the distance from the first to the last.
    #[label("Center to center along a row")]
    pub pitch_x: Option<Size>,
    /// From row to row; give this or the distance from the first to the last.
    #[label("Row to row")]
    pub pitch_y: Option<Size>,
    /// From the first hole of a row to its last, in place of the spacing.
    #[label("First to last in a row")]
    pub length: Option<Size>,
    /// From the first row to the last, in place of the spacing.
    #[label("First to last row")]
    pub width: Option<Size>,
    /// How the holes are numbered: every row from the same end, or back and forth.
    #[absent("rows", "Every row is assumed to be numbered from the same end.")]
    pub numbering: Option<Numbering>,
    /// Where the pattern stands on the part.
    #[group]
    pub on_part: RowsOnPart,
}

/// What the rectangular pattern gives.
#[derive(Debug, Gives)]
pub struct RectangularResult {
    /// The holes and their checks.
    #[group]
    pub laid: LaidRows,
    /// Center to center along a row; absent for one column.
    #[label("Center to center along a row")]
    pub pitch_x: Option<FoundSize>,
    /// From row to row; absent for one row.
    #[label("Row to row")]
    pub pitch_y: Option<FoundSize>,
    /// From the first hole of a row to its last; absent for one column.
    #[label("First to last in a row")]
    pub length: Option<FoundExtent>,
    /// From the first row to the last; absent for one row.
    #[label("First to last row")]
    pub width: Option<FoundExtent>,
}

fn check(input: &RectangularInput) -> Result<(), ValidationError> {
    let (columns, rows) = (input.columns.get(), input.rows.get());
    if columns * rows > MOST_HOLES {
        let fewer = (MOST_HOLES / columns).max(1).to_string();
        let says = format!("A pattern has at most {MOST_HOLES} holes; this one has {}.", columns * rows);
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("rows", &fewer)]));
    }
    spaced(ALONG, columns, input.pitch_x, input.length)?;
    spaced(ACROSS, rows, input.pitch_y, input.width)?;
    input.on_part.check(columns * rows)
}

impl Calculator for Rectangular {
    const ID: &'static str = "patterns/rectangular";
    const TITLE: &'static str = "Holes in rows and columns";
    const ABOUT: &'static str = "Where the holes of a rectangular pattern lie, as places and moves, with the metal \
        between them and what a caliper must read, diagonals included.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Measure both diagonals: where they are equal the pattern is square.";
    const WORDS: &'static str = "grid, rectangle, square pattern, array, matrix, rows, columns, base plate, four holes";
    const EXAMPLES: &'static [Example] = examples! {
        "Four feet of a winch motor: 5 in along, 3 in across, hole 1 at X 1 in, Y 1 in on a 7 in by 5 in base.":
            columns = "2", rows = "2", pitch_x = "5 in", pitch_y = "3 in", start_x = "1 in", start_y = "1 in",
            hole_diameter = "0.5 in", part = "0 in,0 in;7 in,5 in";
        "A strainer plate of 6 by 4 holes over 125 mm by 75 mm about its middle, drilled back and forth.":
            columns = "6", rows = "4", length = "125 mm", width = "75 mm", center_x = "0 mm", center_y = "0 mm",
            numbering = "back_and_forth", hole_diameter = "8 mm";
        "A 3 by 3 pattern turned 12°, without hole 4.":
            columns = "3", rows = "3", pitch_x = "40 mm", pitch_y = "40 mm", rotation = "12 deg", skip = "4";
        "Every second hole of a 3 by 2 pattern.":
            columns = "3", rows = "2", pitch_x = "40 mm", pitch_y = "40 mm", only = "2,4,6";
        "Six feet of an engine bed on a mill that travels 600 mm by 240 mm: zero has 20 mm of travel left and 30 mm in front.":
            columns = "3", rows = "2", pitch_x = "290 mm", pitch_y = "200 mm", travel_x = "600 mm",
            travel_y = "240 mm", travel_left = "20 mm", travel_front = "30 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A base plate has {columns} columns of holes, {pitch_x} apart. How far is it from the first column to the \
           last?" => "length":
            { columns = "3" | "4" | "5" | "6", pitch_x = "1-1/2 in" | "2 in" | "2-1/4 in", rows = "3", pitch_y = "2-3/8 in" }
            { columns = "3" | "4" | "5" | "6", pitch_x = "35 mm" | "40 mm" | "60 mm", rows = "3", pitch_y = "55 mm" };
        1 "{rows} rows of holes are spread evenly, {width} from the first row to the last. How far is it from row to \
           row?" => "pitch_y":
            { columns = "3", pitch_x = "1-7/8 in", rows = "3" | "4" | "5", width = "6 in" | "9 in" | "10 in" }
            { columns = "3", pitch_x = "45 mm", rows = "3" | "4" | "5", width = "120 mm" | "180 mm" | "210 mm" };
        2 "Four motor feet: {pitch_x} along, {pitch_y} across. What must both diagonals be, center to center?"
            => "checks/2/centers":
            { columns = "2", rows = "2", pitch_x = "4 in" | "5 in" | "6 in", pitch_y = "3 in" | "3-1/2 in" }
            { columns = "2", rows = "2", pitch_x = "120 mm" | "140 mm", pitch_y = "90 mm" | "100 mm" };
        2 "{columns} by {rows} holes, {pitch_x} along and {pitch_y} across, have their middle at X {center_x}, Y {center_y}. \
           Where is hole 1 on Y?" => "positions/0/y":
            { columns = "3" | "4", rows = "3" | "4", pitch_x = "1 in", pitch_y = "1-1/4 in" | "1-1/2 in",
              center_x = "5 in", center_y = "3-1/8 in" | "4 in" }
            { columns = "3" | "4", rows = "3" | "4", pitch_x = "25 mm", pitch_y = "30 mm" | "35 mm",
              center_x = "130 mm", center_y = "80 mm" | "95 mm" };
        3 "{columns} by {rows} holes, {pitch_x} along and {pitch_y} across, are numbered back and forth from hole 1 at X \
           {start_x}, Y {start_y}. Where is the first hole of the second row on X?" => "positions/4/x":
            { columns = "4", rows = "2" | "3", pitch_x = "1-1/4 in" | "2 in", pitch_y = "1-1/2 in" | "1-3/4 in",
              start_x = "0.6 in", start_y = "0.85 in", numbering = "back_and_forth" }
            { columns = "4", rows = "2" | "3", pitch_x = "25 mm" | "40 mm", pitch_y = "30 mm" | "45 mm",
              start_x = "13 mm", start_y = "17 mm", numbering = "back_and_forth" };
    };
    type Input = RectangularInput;
    type Output = RectangularResult;
    const LEADS: &'static [&'static str] = &["length|pitch_x", "width|pitch_y"];
    const CONTEXT: &'static [&'static str] = &["{gap} of metal between"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "points of a grid by equal steps, turned by cosine and sine");
        let (columns, rows) = (input.columns.get(), input.rows.get());
        let across_columns = find_spacing(ALONG, columns, (input.pitch_x, input.length), record);
        let across_rows = find_spacing(ACROSS, rows, (input.pitch_y, input.width), record);
        let numbers = find_numbers(&input.on_part.chosen, columns * rows, record);
        let grid = find_grid(rows, |_| columns, input.numbering(record), &numbers, record);
        let mut place =
            |what, field, of, spacing: Option<(FoundSize, FoundExtent)>, pitch_of, count: u32, part: usize| {
                let steps = f64::from((count - 1).max(1));
                let reach = spacing.map_or(0.0, |(_, length)| length.si());
                let counted: Vec<f64> =
                    numbers.iter().map(|number| f64::from(<[u32; 2]>::from(grid.at(*number))[1 - part])).collect();
                let at = |count: &f64| FoundPlace::of_si((count - 1.0) * reach / steps);
                let places: Vec<FoundPlace> = counted.iter().map(at).collect();
                match spacing {
                    Some((pitch, _)) => record
                        .step(what, "u = (c - 1) × p")
                        .with("c", of, counted)
                        .with("p", pitch_of, pitch)
                        .gives(field, places.clone()),
                    None => record.look_up(what, "there is only one").gives(field, places.clone()),
                }
                places
            };
        let along = place("Along the rows", "pattern.along", "place", across_columns, "pitch_x", columns, 0);
        let across = place("Across the rows", "pattern.across", "row", across_rows, "pitch_y", rows, 1);
        let corner = |row, place| grid.number(row, place).unwrap_or(1);
        let pairs = vec![
            grid.pairs(|row, place| Some((row, place + 1))),
            grid.pairs(|row, place| Some((row + 1, place))),
            vec![(corner(1, 1), corner(rows, columns))],
            vec![(corner(1, columns), corner(rows, 1))],
        ];
        let sizes =
            [("pitch_x", input.pitch_x), ("length", input.length), ("pitch_y", input.pitch_y), ("width", input.width)];
        let spaced_by: Vec<_> = sizes.into_iter().filter_map(|(field, size)| Some((field, size?))).collect();
        let pattern = RowPattern {
            unit: spaced_by.first().map_or(Unit::Inch, |(_, size)| size.quantity().unit),
            along,
            across,
            length: across_columns.map(|(_, length)| length),
            width: across_rows.map(|(_, width)| width),
            pairs,
            spaced_by,
            numbers,
        };
        let laid = lay_out(&pattern, &input.on_part, record)?;
        Ok(RectangularResult {
            laid,
            pitch_x: across_columns.map(|(pitch, _)| pitch),
            pitch_y: across_rows.map(|(pitch, _)| pitch),
            length: across_columns.map(|(_, length)| length),
            width: across_rows.map(|(_, width)| width),
        })
    }
}

fn draw(input: &RectangularInput, result: &RectangularResult) -> Drawing {
    let about =
        words!("{} holes in {} rows of {}.": result.laid.positions.len(), input.rows.get(), input.columns.get());
    draw_rows("Holes in rows and columns", about, &input.on_part, &result.laid)
}
