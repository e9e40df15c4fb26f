//! Holes on a triangular pitch, as in tube sheets and strainers: plane geometry, checked against points of the complex
//! plane.

use crate::calculators::prelude::*;
use crate::drawing::{Drawing, words};
use crate::hole_pattern::{
    LaidRows, MOST_HOLES, Numbering, RowPattern, RowsOnPart, draw_rows, find_grid, find_numbers, lay_out,
};

/// The calculator.
pub struct TriangularPitch;

choice! {
    /// How many holes every second row has: as many as the first (`same`), or `one_fewer`, between those of the first.
    SecondRow {
        /// As many as the first.
        Same = "same",
        /// One fewer.
        OneFewer = "one_fewer",
    }
}

/// What the triangular pattern asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TriangularPitchInput {
    /// Center to center of neighbors, along a row and slantwise alike.
    #[label("Pitch")]
    pub pitch: Size,
    /// How many holes the first row has, 1 to 1000.
    #[label("Holes in the first row")]
    pub columns: Count<1, MOST_HOLES>,
    /// How many rows there are, 1 to 1000.
    #[label("Rows")]
    pub rows: Count<1, MOST_HOLES>,
    /// How many holes every second row has: the same, or one fewer. Its holes lie half a pitch along.
    #[absent("same", "Every second row is assumed to have as many holes as the first, half a pitch along.")]
    pub second_row: Option<SecondRow>,
    /// How the holes are numbered: every row from the same end, or back and forth.
    #[absent("rows", "Every row is assumed to be numbered from the same end.")]
    pub numbering: Option<Numbering>,
    /// Where the pattern stands on the part.
    #[group]
    pub on_part: RowsOnPart,
}

/// What the triangular pattern gives.
#[derive(Debug, Gives)]
pub struct TriangularPitchResult {
    /// From row to row: the height of the triangle; absent for one row.
    #[label("Row to row")]
    pub row_pitch: Option<FoundSize>,
    /// How many holes the pattern has.
    #[label("Holes in all")]
    pub count: u32,
    /// From the first column to the last, the half pitch of the second row included.
    #[label("Length along the rows")]
    pub length: FoundExtent,
    /// From the first row to the last; absent for one row.
    #[label("First to last row")]
    pub width: Option<FoundExtent>,
    /// The holes and their checks.
    #[group]
    pub laid: LaidRows,
}

impl TriangularPitchInput {
    fn holes_of(&self, row: u32) -> u32 {
        let fewer = row.is_multiple_of(2) && self.second_row == Some(SecondRow::OneFewer);
        self.columns.get() - u32::from(fewer)
    }

    fn holes(&self) -> u32 {
        (1..=self.rows.get()).map(|row| self.holes_of(row)).sum()
    }
}

fn check(input: &TriangularPitchInput) -> Result<(), ValidationError> {
    let (columns, rows) = (input.columns.get(), input.rows.get());
    if columns == 1 && rows > 1 && input.second_row == Some(SecondRow::OneFewer) {
        let says = "With one hole in the first row, a second row of one fewer has none.";
        return Err(rule_broken(Code::Conflict, says, &[("columns", "2"), ("second_row", "same")]));
    }
    if columns * rows > MOST_HOLES {
        let fewer = (MOST_HOLES / columns).max(1).to_string();
        let says = format!("A pattern has at most {MOST_HOLES} holes, counted as rows times holes in the first.");
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("rows", &fewer)]));
    }
    input.on_part.check(input.holes())
}

impl Calculator for TriangularPitch {
    const ID: &'static str = "patterns/triangular-pitch";
    const TITLE: &'static str = "Holes on a triangular pitch";
    const ABOUT: &'static str = "Where the holes of staggered rows lie, each as far from all its neighbors, as places and \
        moves, with the metal between them and what a caliper must read.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Measure one pair along a row and one slantwise: they must be equal.";
    const WORDS: &'static str = "staggered, tube sheet, hexagonal pattern, strainer, perforated plate, 60 degrees, \
        triangular pitch, honeycomb";
    const EXAMPLES: &'static [Example] = examples! {
        "The tube sheet of a small cooler: 1/2 in holes on 9/16 in pitch, three rows of 4, 3 and 4.":
            pitch = "9/16 in", columns = "4", rows = "3", second_row = "one_fewer", hole_diameter = "0.5 in",
            start_x = "1 in", start_y = "1 in";
        "A strainer plate for a bilge pump: 5 rows of 6 on 8 mm pitch about the middle of a 60 mm by 50 mm plate.":
            pitch = "8 mm", columns = "6", rows = "5", center_x = "30 mm", center_y = "25 mm", hole_diameter = "5 mm",
            part = "0 mm,0 mm;60 mm,50 mm", numbering = "back_and_forth", skip = "4";
        "Three holes of a staggered pattern, turned 30°.":
            pitch = "20 mm", columns = "3", rows = "2", only = "2,4,6", rotation = "30 deg";
        "A long tube sheet on a mill that travels 600 mm by 240 mm: zero has 40 mm of travel left and 50 mm in front.":
            pitch = "60 mm", columns = "10", rows = "3", travel_x = "600 mm", travel_y = "240 mm",
            travel_left = "40 mm", travel_front = "50 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Holes lie on a triangular pitch of {pitch}. How far is it from row to row?" => "row_pitch":
            { pitch = "1/2 in" | "9/16 in" | "3/4 in" | "1 in" | "1-1/4 in", columns = "4", rows = "3" }
            { pitch = "8 mm" | "12 mm" | "15 mm" | "20 mm" | "25 mm", columns = "4", rows = "3" };
        1 "A tube sheet has {hole_diameter} holes on a triangular pitch of {pitch}. How much metal is left between two?"
            => "gap":
            { pitch = "9/16 in" | "5/8 in" | "3/4 in", hole_diameter = "3/8 in" | "7/16 in" | "1/2 in", columns = "3", rows = "3" }
            { pitch = "15 mm" | "20 mm" | "25 mm", hole_diameter = "10 mm" | "12 mm", columns = "3", rows = "3" };
        2 "A strainer has {rows} rows on a triangular pitch of {pitch}. How far is it from the first row to the last?"
            => "width":
            { pitch = "1/2 in" | "3/4 in" | "1 in", columns = "4", rows = "4" | "5" | "7" }
            { pitch = "8 mm" | "12 mm" | "15 mm", columns = "4", rows = "4" | "5" | "7" };
        2 "Staggered rows have {columns} holes and one fewer by turns, {rows} rows in all. How many holes is that?"
            => "count":
            { pitch = "1/2 in", columns = "4" | "5" | "6" | "7", rows = "3" | "4" | "5" | "6", second_row = "one_fewer" }
            { pitch = "12 mm", columns = "4" | "5" | "6" | "7", rows = "3" | "4" | "5" | "6", second_row = "one_fewer" };
        3 "Rows of {columns} on a triangular pitch of {pitch}, hole 1 at zero, every second row half a pitch along. \
           Where is the first hole of the second row on X?" => "positions/4/x":
            { pitch = "1/2 in" | "3/4 in" | "1-1/4 in", columns = "4", rows = "2" | "3" }
            { pitch = "9 mm" | "15 mm" | "25 mm", columns = "4", rows = "2" | "3" };
    };
    type Input = TriangularPitchInput;
    type Output = TriangularPitchResult;
    const LEADS: &'static [&'static str] = &["row_pitch", "count"];
    const CONTEXT: &'static [&'static str] = &["{count} holes", "{gap} of metal between"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "the equilateral triangle: its height is its side times half the root of three");
        let (columns, rows, pitch) = (input.columns.get(), input.rows.get(), input.pitch);
        let count = input.holes();
        let second_row = input.second_row(record);
        let step =
            record.look_up("Holes in all", "the rows, every second one as asked for").with("m", "columns", columns);
        step.with("r", "rows", rows).gives("count", count);
        let numbers = find_numbers(&input.on_part.chosen, count, record);
        let grid = find_grid(rows, |row| input.holes_of(row), input.numbering(record), &numbers, record);
        let (row_pitch, width) = if rows > 1 {
            let height: FoundSize = step!(record, "Row to row", q: row_pitch = p * root(3.0) / 2.0, p = pitch);
            let width: FoundExtent =
                step!(record, "First to last row", W: width = (r - 1.0) * q, r = rows, q = row_pitch: height);
            (Some(height), Some(width))
        } else {
            (None, None)
        };
        let longer = rows > 1 && second_row == SecondRow::Same;
        let length: FoundExtent = if longer {
            step!(record, "Length along the rows", L: length = (m - 1.0) * p + p / 2.0, m = columns, p = pitch)
        } else {
            step!(record, "Length along the rows", L: length = (m - 1.0) * p, m = columns, p = pitch)
        };
        let at: Vec<(u32, u32)> = numbers.iter().map(|number| grid.at(*number)).collect();
        let shown = |part: usize| -> Vec<f64> { at.iter().map(|at| f64::from(<[u32; 2]>::from(*at)[part])).collect() };
        let half = |row: u32| if row.is_multiple_of(2) { 0.5 } else { 0.0 };
        let halves: Vec<f64> = at.iter().map(|(row, _)| half(*row)).collect();
        record
            .look_up("Pitches that the row begins along", "half a pitch for every second row")
            .with("r", "row", shown(0))
            .gives("row_begins", halves.clone());
        let along: Vec<FoundPlace> =
            at.iter().map(|(row, place)| FoundPlace::of_si((f64::from(place - 1) + half(*row)) * pitch.si())).collect();
        let step = record.step("Along the rows", "u = (c - 1 + b) × p").with("c", "place", shown(1));
        step.with("b", "row_begins", halves).with("p", "pitch", pitch).gives("pattern.along", along.clone());
        let high = row_pitch.map_or(0.0, |height| height.si());
        let across: Vec<FoundPlace> = at.iter().map(|(row, _)| FoundPlace::of_si(f64::from(row - 1) * high)).collect();
        match row_pitch {
            Some(height) => record
                .step("Across the rows", "v = (r - 1) × q")
                .with("r", "row", shown(0))
                .with("q", "row_pitch", height)
                .gives("pattern.across", across.clone()),
            None => record.look_up("Across the rows", "there is only one").gives("pattern.across", across.clone()),
        }
        // Slantwise to the neighbor half a pitch along.
        let slant = |row: u32, place: u32| Some((row + 1, if row.is_multiple_of(2) { place + 1 } else { place }));
        let pairs = vec![
            grid.pairs(|row, place| Some((row, place + 1))),
            grid.pairs(slant),
            grid.number(rows, input.holes_of(rows)).map(|last| (1, last)).into_iter().collect(),
        ];
        let pattern = RowPattern {
            unit: pitch.quantity().unit,
            along,
            across,
            length: Some(length),
            width,
            pairs,
            spaced_by: vec![("pitch", pitch)],
            numbers,
        };
        let laid = lay_out(&pattern, &input.on_part, record)?;
        Ok(TriangularPitchResult { row_pitch, count, length, width, laid })
    }
}

fn draw(input: &TriangularPitchInput, result: &TriangularPitchResult) -> Drawing {
    let about = words!("{} holes on a triangular pitch of {}.": result.laid.positions.len(), input.pitch);
    draw_rows("Holes on a triangular pitch", about, &input.on_part, &result.laid)
}
