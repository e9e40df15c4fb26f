//! The steps that patterns of rows have in common: their pitch from what the drawing states, and the row and the place
//! in it of each number.

use super::chosen::as_numbers;
use crate::quantity::{Found, FoundExtent, FoundSize, Size};
use crate::refusal::{Code, rule_broken};
use crate::working::Record;
use std::collections::HashMap;
use validator::ValidationError;

crate::choice! {
    /// How the holes are numbered: every row from the same end (`rows`), or every other row backwards (`back_and_forth`), which is less travel.
    Numbering {
        /// Every row from the same end.
        Rows = "rows",
        /// Every other row backwards.
        BackAndForth = "back_and_forth",
    }
}

/// What the fields of one direction of a pattern are called.
#[derive(Clone, Copy, Debug)]
pub struct Spaced {
    /// Center to center.
    pub pitch: &'static str,
    /// First to last.
    pub length: &'static str,
    /// How many.
    pub count: &'static str,
    /// What is counted: holes of a row, or rows.
    pub what: &'static str,
}

/// Refuses two sizes for one spacing, none where there is one, and one where there is none.
pub fn spaced(names: Spaced, count: u32, pitch: Option<Size>, length: Option<Size>) -> Result<(), ValidationError> {
    let Spaced { pitch: pitch_of, length: length_of, count: count_of, what } = names;
    match (count, pitch, length) {
        (1, None, None) | (2.., Some(_), None) | (2.., None, Some(_)) => Ok(()),
        (1, ..) => {
            let given = [(pitch_of, pitch), (length_of, length)];
            let mut ways: Vec<_> = given.iter().filter(|one| one.1.is_some()).map(|one| (one.0, "leave out")).collect();
            ways.push((count_of, "2"));
            Err(rule_broken(Code::Conflict, format!("A single {} has no spacing.", what.trim_end_matches('s')), &ways))
        }
        (_, None, None) => {
            let says = format!(
                "Give the spacing of the {what}, center to center, or the distance from the first to the last."
            );
            Err(rule_broken(Code::FieldMissing, says, &[(pitch_of, "1 in"), (length_of, "6 in")]))
        }
        _ => {
            let says = format!("Give the spacing of the {what} or the distance from the first to the last, not both.");
            Err(rule_broken(Code::Conflict, says, &[(pitch_of, "leave out"), (length_of, "leave out")]))
        }
    }
}

/// The spacing and the distance from the first to the last, each as given or found from the other; a single one has no
/// spacing and no distance.
pub fn find_spacing(
    names: Spaced,
    count: u32,
    (pitch, length): (Option<Size>, Option<Size>),
    record: &mut Record,
) -> Option<(FoundSize, FoundExtent)> {
    const PITCH: &str = "Center to center";
    const LENGTH: &str = "First to last";
    let steps = f64::from(count - 1);
    if let Some(pitch) = pitch.filter(|_| count > 1) {
        record.choose(PITCH, "as given").with("p", names.pitch, pitch).gives(names.pitch, pitch.found());
        let length = FoundExtent::of_si(steps * pitch.si());
        let step = record.step(LENGTH, "L = (n - 1) × p").with("n", names.count, count);
        step.with("p", names.pitch, pitch.found()).gives(names.length, length);
        return Some((pitch.found(), length));
    }
    let length = length.filter(|_| count > 1)?;
    let found = FoundExtent::stated(length.quantity().value, length.quantity().unit);
    record.choose(LENGTH, "as given").with("L", names.length, length).gives(names.length, found);
    let pitch: FoundSize = Found::of_si(length.si() / steps);
    let step = record.step(PITCH, "p = L / (n - 1)").with("L", names.length, found);
    step.with("n", names.count, count).gives(names.pitch, pitch);
    Some((pitch, found))
}

/// The row of each hole and its place in the row, both counted from 1.
#[derive(Clone, Debug)]
pub struct GridNumbers {
    /// Row and place of every hole of the pattern, in the order of their numbers.
    pub all: Vec<(u32, u32)>,
}

impl GridNumbers {
    /// The number of the hole at a row and a place in it.
    pub fn number(&self, row: u32, place: u32) -> Option<u32> {
        self.all.iter().position(|one| *one == (row, place)).map(|at| at as u32 + 1)
    }

    /// The pairs of holes, a step apart as `step` says of each row and place, in the order of their numbers.
    pub fn pairs(&self, step: impl Fn(u32, u32) -> Option<(u32, u32)>) -> Vec<(u32, u32)> {
        let numbers: HashMap<(u32, u32), u32> = self.all.iter().copied().zip(1..).collect();
        let other = |(row, place): &(u32, u32)| numbers.get(&step(*row, *place)?).copied();
        self.all.iter().zip(1..).filter_map(|(one, number)| Some((number, other(one)?))).collect()
    }

    /// Row and place of a hole that is in the pattern.
    pub fn at(&self, number: u32) -> (u32, u32) {
        self.all.get(number as usize - 1).copied().unwrap_or((1, 1))
    }
}

/// Counts the holes of so many rows, each of `holes_of` it, and puts row and place of those listed on record as `row`
/// and `place`.
pub fn find_grid(
    rows: u32,
    holes_of: impl Fn(u32) -> u32,
    numbering: Numbering,
    numbers: &[u32],
    record: &mut Record,
) -> GridNumbers {
    let mut all = Vec::new();
    for row in 1..=rows {
        let holes = holes_of(row);
        for at in 1..=holes {
            let backwards = numbering == Numbering::BackAndForth && row % 2 == 0;
            all.push((row, if backwards { holes + 1 - at } else { at }));
        }
    }
    let grid = GridNumbers { all };
    let listed: Vec<(u32, u32)> = numbers.iter().map(|number| grid.at(*number)).collect();
    let how = match numbering {
        Numbering::Rows => "holes counted row by row, every row from the same end",
        Numbering::BackAndForth => "holes counted row by row, every other row backwards",
    };
    for (what, field, part) in [("Row of each hole", "row", 0), ("Place of each hole in its row", "place", 1)] {
        let column: Vec<u32> = listed.iter().map(|(row, place)| [*row, *place][part]).collect();
        let step = record.look_up(what, how).with("i", "positions.number", as_numbers(numbers));
        step.gives(field, as_numbers(&column));
    }
    grid
}
