//! The rows of a cut list: from the lengths asked for to whole picometers and back.

use super::CutListInput;
use super::plan::{BarKind, PieceKind, plan};
use crate::calculators::prelude::*;
use crate::declared::{FieldType, TypeFacts};
use crate::suggestion::{Way, value};
use crate::tree::{IntoTree, Node};
use std::collections::BTreeMap;

/// Picometers in a meter: lengths that should fit must not fail by a rounding.
pub const PICOMETERS: f64 = 1e12;

/// What rounding can have added to the lengths of a full bar: a nanometer.
const SLACK: u64 = 1000;

/// Bars that are cut alike.
#[derive(Debug, Gives)]
pub struct CutBar {
    /// Number of the row.
    #[label("Number")]
    pub number: u32,
    /// Length of the bar.
    #[label("Length of the bar")]
    pub length: FoundSize,
    /// How many bars are cut so.
    #[label("Bars cut so")]
    pub alike: u32,
    /// The pieces that come from it, by their numbers in the list.
    #[label("Pieces from it")]
    pub cuts: FromOneBar,
    /// What is taken off the bar: what is cut off first, and each piece with its cut.
    #[label("Taken off")]
    pub taken_off: FoundExtent,
    /// What remains of the bar, with the end in the vise.
    #[label("Remnant")]
    pub remnant: FoundExtent,
    /// Whether the remnant is worth keeping; only where the least remnant to keep is given.
    #[label("Keep the remnant")]
    pub keep: Option<bool>,
}

/// A piece as it is sawn.
#[derive(Debug, Gives)]
pub struct PieceCut {
    /// Number of the piece in the list.
    #[label("Number")]
    pub number: u32,
    /// The length to saw it to, with what is left for facing.
    #[label("Saw to")]
    pub saw_to: FoundSize,
}

/// How many of each piece come from a bar, in the order of the list; written as `3 of piece 1 + 1 of piece 4`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FromOneBar(pub Vec<u32>);

impl FromOneBar {
    /// In words.
    pub fn text(&self) -> String {
        let some = self.0.iter().zip(1..).filter(|(number, _)| **number > 0);
        some.map(|(number, piece)| format!("{number} of piece {piece}")).collect::<Vec<_>>().join(" + ")
    }
}

impl FieldType for FromOneBar {
    const TYPE: TypeFacts = String::TYPE;
}

impl IntoTree for FromOneBar {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.text().into(), None))
    }
}

/// The rest of what was found.
pub struct Best {
    /// What no plan can do without, in picometers.
    pub least: u64,
    /// Whether the plan is proven the best.
    pub proven: bool,
}

fn picometers(length: f64) -> u64 {
    (length * PICOMETERS).round() as u64
}

/// What a bar has room for, in meters: between what is cut off first and what the vise holds. Where the saw can cut to
/// the very end, the last piece needs no cut after it.
fn room(input: &CutListInput, bar: f64, record: &mut Record) -> f64 {
    let (trim, vise) = (input.trim(record).si(), input.vise(record).si());
    bar - trim - vise + if vise > 0.0 { 0.0 } else { input.kerf.si() }
}

/// Each piece comes from some bar.
pub fn check_pieces(input: &CutListInput) -> Result<(), ValidationError> {
    let silent = &mut Record::of_result_alone();
    let facing = input.facing(silent).si();
    let longest = input.pieces.0.iter().map(|piece| piece.length).max_by(|a, b| a.si().total_cmp(&b.si()));
    let rooms = input.bars.0.iter().map(|bar| room(input, bar.length.si(), silent));
    let (Some(longest), most) = (longest, rooms.fold(0.0, f64::max)) else { return Ok(()) };
    let needs = longest.si() + 2.0 * facing + input.kerf.si();
    if needs <= most + SLACK as f64 / PICOMETERS {
        return Ok(());
    }
    let bar = input.bars.0.iter().map(|bar| bar.length.si()).fold(0.0, f64::max);
    let unit = longest.quantity().unit;
    let try_bar = value(bar + needs - most, unit, Way::Up);
    let says = format!(
        "No bar is long enough for a piece of {}, with its facing, its cut, what is cut off first and what the vise holds.",
        longest.quantity().text()
    );
    Err(rule_broken(Code::Conflict, says, &[("bars", &try_bar)]))
}

/// The bars to cut, those alike in one row, and how good that is.
pub fn plan_of(input: &CutListInput, cuts: &[PieceCut], record: &mut Record) -> Result<(Vec<CutBar>, Best), Refusal> {
    let kerf = input.kerf.si();
    let trim = input.trim(record).si();
    input.vise(record);
    let silent = &mut Record::of_result_alone();
    let size = |at: usize| cuts[at].saw_to.si() + kerf;
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by(|a, b| size(*b).total_cmp(&size(*a)));
    let pieces: Vec<PieceKind> = order
        .iter()
        .map(|at| PieceKind { size: picometers(size(*at)).max(1), count: input.pieces.0[*at].number.get() })
        .collect();
    let all = input.pieces.0.iter().map(|piece| piece.number.get()).sum();
    let bars: Vec<BarKind> = input
        .bars
        .0
        .iter()
        .map(|bar| BarKind {
            room: picometers(room(input, bar.length.si(), silent).max(0.0)) + SLACK,
            length: picometers(bar.length.si()),
            // More bars than pieces are never begun.
            count: bar.number.map_or(all, |number| number.get().min(all)),
        })
        .collect();
    let best = plan(&pieces, &bars)?;
    let Some(plan) = best.bars else { return Err(too_few(input, best.proven)) };
    let mut rows: BTreeMap<(usize, FromOneBar), u32> = BTreeMap::new();
    for (bar, fill) in plan {
        let mut numbers = vec![0; cuts.len()];
        order.iter().zip(fill).for_each(|(at, number)| numbers[*at] = number);
        *rows.entry((bar, FromOneBar(numbers))).or_default() += 1;
    }
    let mut rows: Vec<CutBar> = rows
        .into_iter()
        .map(|((bar, from), alike)| {
            let taken = trim + from.0.iter().enumerate().map(|(at, n)| size(at) * f64::from(*n)).sum::<f64>();
            let length = input.bars.0[bar].length;
            let remnant = text_sized(length.si() - taken);
            CutBar {
                number: 0,
                length: length.found(),
                alike,
                cuts: from,
                taken_off: FoundExtent::of_si(taken),
                remnant: FoundExtent::of_si(remnant),
                keep: input.keep_from.map(|least| remnant >= least.si()),
            }
        })
        .collect();
    rows.sort_by(|a, b| a.remnant.si().total_cmp(&b.remnant.si()));
    rows.iter_mut().zip(1..).for_each(|(row, number)| row.number = number);
    Ok((rows, Best { least: best.least, proven: best.proven }))
}

/// What is left, where rounding and the last cut can have made it less than nothing.
fn text_sized(left: f64) -> f64 {
    if left < SLACK as f64 / PICOMETERS { 0.0 } else { left }
}

/// These bars do not yield the pieces.
fn too_few(input: &CutListInput, proven: bool) -> Refusal {
    let says = if proven {
        "These bars do not yield all the pieces. Leave out how many bars there are, and the answer says how many it takes."
    } else {
        "No way was found to get all the pieces from these bars. Leave out how many bars there are, and the answer says \
         how many it takes."
    };
    let without: Vec<String> = input
        .bars
        .0
        .iter()
        .map(|bar| {
            let length = bar.length.quantity();
            format!("{} {}", text::full(length.value), length.unit.row().ascii)
        })
        .collect();
    Refusal::no_answer(says, &[("bars", without.join(";"))])
}
