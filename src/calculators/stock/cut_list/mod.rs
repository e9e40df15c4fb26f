//! Which pieces to saw from which bars: cutting stock in one dimension, with kerf, facing and what stays in the vise;
//! checked against an integer program on random lists.

mod bound;
mod drawing;
mod plan;
mod rows;

use crate::calculators::prelude::*;
use rows::{CutBar, PieceCut, plan_of};

/// The calculator.
pub struct CutList;

/// Most pieces of one list.
const MOST_PIECES: u32 = 1000;

/// Pieces of one length.
#[derive(Clone, Debug, Asks)]
pub struct PieceWanted {
    /// Finished length.
    #[label("Finished length")]
    pub length: Size,
    /// How many, 1 to 1000.
    #[label("How many")]
    pub number: Count<1, MOST_PIECES>,
}

/// Bars of one length.
#[derive(Clone, Debug, Asks)]
pub struct BarOnHand {
    /// Length of the bar.
    #[label("Length")]
    pub length: Size,
    /// How many there are; as many as it takes if absent.
    #[label("Bars there are")]
    pub number: Option<Count<1, 1_000_000>>,
}

/// The pieces, in the order given.
pub type PiecesWanted = Rows<PieceWanted>;

/// The bars, in the order given.
pub type BarsOnHand = Rows<BarOnHand>;

/// What the cut list asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = rows::check_pieces)]
pub struct CutListInput {
    /// The pieces: length and how many of it.
    #[label("Pieces", "piece")]
    pub pieces: PiecesWanted,
    /// The bars: length, and how many there are; without a number as many as it takes.
    #[label("Bars on hand", "bar")]
    pub bars: BarsOnHand,
    /// What the saw turns to chips at each cut. Measure a slot that it cut.
    #[label("Width of the cut")]
    pub kerf: Extent,
    /// What is left on each end of a piece for facing.
    #[label("Left on each end for facing")]
    #[absent("0", like = kerf, "The pieces are sawn to their finished length.")]
    pub facing: Option<Extent>,
    /// What is cut off the end of each bar first to make it square, with the cut.
    #[label("Cut off each bar first")]
    #[absent("0", like = kerf, "The ends of the bars are assumed to be square and sound.")]
    pub trim: Option<Extent>,
    /// What the vise must hold of each bar to the end, and cannot be cut.
    #[label("Left in the vise")]
    #[absent("0", like = kerf, "The saw is assumed to cut a bar to its very end.")]
    pub vise: Option<Extent>,
    /// The least remnant that goes back to the rack.
    #[label("Keep remnants from")]
    pub keep_from: Option<Size>,
}

/// What the cut list gives.
#[derive(Debug, Gives)]
pub struct CutListResult {
    /// How many bars are begun.
    #[label("Bars to begin")]
    pub bar_count: u32,
    /// Length of all the bars begun.
    #[label("Length of bar begun")]
    pub bar_length: FoundExtent,
    /// No way to cut begins less length of bar than this.
    #[label("At the very least")]
    pub least_length: FoundExtent,
    /// Whether it is proven that no way to cut begins less length of bar.
    #[label("Proven the best")]
    pub proven: bool,
    /// Length of the finished pieces, together.
    #[label("Length of the finished pieces")]
    pub finished_length: FoundExtent,
    /// What is left of the bars begun besides the finished pieces: chips, ends and remnants.
    #[label("Left besides the pieces")]
    pub left_length: FoundExtent,
    /// What the finished pieces are of the length of bar begun.
    #[label("Share used")]
    pub share_used: FoundPercentage,
    /// How to cut the bars: bars that are cut alike are one row.
    #[label("Bars cut alike", "row")]
    pub cut_bars: Vec<CutBar>,
    /// The length to saw each piece to, in the order given.
    #[label("Lengths to saw", "piece")]
    pub cuts: Vec<PieceCut>,
}

rules! { check(CutListInput) {
    never(|input| input.pieces.0.iter().map(|piece| piece.number.get()).sum::<u32>() > MOST_PIECES,
        Code::ValueOutOfRange, pieces = "12 in,4;7.5 in,6"): "At most 1000 pieces are laid out at once.";
} }

impl Calculator for CutList {
    const ID: &'static str = "stock/cut-list";
    const TITLE: &'static str = "Cut list";
    const ABOUT: &'static str = "Which pieces to saw from which bars so that the least bar is begun: with the saw's cut, \
        facing, the end in the vise, and the remnants worth keeping.";
    const TASK: Task = Task::LayOut;
    // The saw is set by the lengths, not by a readout.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Add up one bar by hand: its pieces, a cut for each and the end in the vise come \
        to no more than the bar. Measure the first piece before you saw the rest.";
    const WORDS: &'static str = "cutting list, saw, kerf, bar stock, nesting, cut to length, remnant, offcut, drops, \
        yield, material list, waste";
    const EXAMPLES: &'static [Example] = examples! {
        "Six winch shafts and eight spacers from 12 ft bars, sawn with a 1/16 in blade.":
            pieces = "30 in,6;17.5 in,8", bars = "144 in", kerf = "1/16 in";
        "Pump rods faced on both ends, from two full bars and three remnants of the rack; the vise needs 60 mm.":
            pieces = "420 mm,5;310 mm,4;150 mm,6", bars = "3000 mm,2;1250 mm,1;900 mm,2", kerf = "1.6 mm",
            facing = "1 mm", trim = "10 mm", vise = "60 mm", keep_from = "150 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The pieces are {pieces} and the rack has 12 ft bars, {bars} each. The saw cuts {kerf} wide. How many bars do \
            you begin?" => "bar_count":
            { pieces = "30 in,6" | "35 in,8" | "47 in,6" | "28 in,12", bars = "144 in", kerf = "1/16 in" | "1/8 in" };
        1 "You saw {pieces} and leave {facing} on each end for facing. How long is a piece as sawn?" => "cuts/0/saw_to":
            { pieces = "120 mm,4" | "85 mm,10" | "62.5 mm,6", facing = "0.5 mm" | "1 mm" | "1.5 mm",
              bars = "3000 mm", kerf = "2 mm" };
        2 "{pieces}: length and number. From bars of {bars}, with a cut of {kerf}, what is left of the bar after them?"
            => "cut_bars/0/remnant":
            { pieces = "20 in,3" | "25 in,2" | "15 in,4", bars = "72 in" | "96 in", kerf = "1/16 in" | "1/8 in" }
            { pieces = "400 mm,3" | "350 mm,4" | "275 mm,5", bars = "2000 mm" | "3000 mm", kerf = "1.5 mm" | "2 mm" };
        3 "You need {pieces}, length and number, from {bars} bars. The vise must hold {vise} of each bar, and the cut is \
            {kerf} wide. How many bars?" => "bar_count":
            { pieces = "28.5 in,8" | "23.5 in,10" | "35 in,7", bars = "144 in", vise = "3 in" | "4 in", kerf = "1/16 in" }
            { pieces = "740 mm,8" | "590 mm,9" | "490 mm,12", bars = "3000 mm", vise = "60 mm" | "80 mm",
              kerf = "2 mm" };
    };
    type Input = CutListInput;
    type Output = CutListResult;
    const LEADS: &'static [&'static str] = &["bar_count", "cut_bars/0/cuts"];
    const CONTEXT: &'static [&'static str] =
        &["first bar: {cut_bars/0/cuts}", "{bar_length} of bar", "{share_used} used"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "the pieces with a cut each are no longer than the bar");
        record.caution(cautions::SAWING);
        let facing = input.facing(record);
        let lengths: Vec<Size> = input.pieces.0.iter().map(|piece| piece.length).collect();
        let numbers: Vec<f64> = input.pieces.0.iter().map(|piece| f64::from(piece.number.get())).collect();
        let cuts: Vec<PieceCut> = lengths
            .iter()
            .zip(1..)
            .map(|(length, number)| PieceCut { number, saw_to: FoundSize::of_si(length.si() + 2.0 * facing.si()) })
            .collect();
        tell!(record.look_up("Pieces as they are numbered", "in the order given") => cuts.number);
        tell!(record.step("Length to saw", "c = l + 2 × f"), l = "pieces.length": lengths.as_slice(), f = facing
            => cuts.saw_to);
        let (cut_bars, best) = plan_of(input, &cuts, record)?;
        let rule =
            "the largest pieces first; then every way to fill whole bars is tried, as far as the limit of the search";
        tell!(record.look_up("Ways to cut the bars, those alike in one row", rule)
            => "cut_bars.cuts": column(&cut_bars, |row| row.cuts.text()));
        tell!(record.look_up("Numbers of the rows", "the fullest first") => cut_bars.number);
        tell!(record.look_up("How many bars are cut so", rule) => cut_bars.alike);
        tell!(record.look_up("Lengths of these bars", "the bars on hand") => cut_bars.length);
        tell!(record.look_up("Taken off each: what is cut off first, and each piece with its cut", "sums over the pieces")
            => cut_bars.taken_off);
        tell!(record.step("Remnant, with the end in the vise", "r = max(B - t, 0)"),
            B = cut_bars.length, t = cut_bars.taken_off => cut_bars.remnant);
        if input.keep_from.is_some() {
            tell!(record.look_up("Whether it is kept", "no shorter than the least remnant") => cut_bars.keep);
        }
        let alike: Vec<f64> = cut_bars.iter().map(|row| f64::from(row.alike)).collect();
        let bar_count: u32 = cut_bars.iter().map(|row| row.alike).sum();
        tell!(record.step("Bars begun", "N = sum(n)"), n = cut_bars.alike => bar_count: f64::from(bar_count));
        let bar_length = FoundExtent::of_si(cut_bars.iter().zip(&alike).map(|(row, n)| row.length.si() * n).sum());
        tell!(record.step("Length of bar begun", "T = sum(B × n)"), B = cut_bars.length, n = cut_bars.alike => bar_length);
        let finished_length = FoundExtent::of_si(lengths.iter().zip(&numbers).map(|(length, n)| length.si() * n).sum());
        tell!(record.step("Length of the pieces", "P = sum(l × n)"), l = "pieces.length": lengths.as_slice(),
            n = "pieces.number": numbers => finished_length);
        let left_length: FoundExtent = step!(record, "What is left besides them",
            w: left_length = T - P, T = bar_length, P = finished_length);
        let share_used: FoundPercentage = step!(record, "Share used", s: share_used = P / T,
            P = finished_length, T = bar_length);
        let least_length = FoundExtent::of_si(best.least as f64 / rows::PICOMETERS);
        tell!(record.look_up("What no way to cut can do without",
            "the sum of the pieces over what bars hold, pieces that cannot share a bar, and the search where it was whole")
            => least_length);
        let proven = best.proven;
        tell!(record.look_up("Whether the way found is proven the best", "no way to cut begins less bar") => proven: column(&[proven], |p| *p));
        if !proven {
            record.note(
                "not_proven",
                "This is the best way found in the time allowed, but there may be one that begins less bar.",
            );
        }
        if input.vise.is_none() {
            record.note("vise_end", "Most saws cannot cut the last inches of a bar. Give what the vise must hold.");
        }
        Ok(CutListResult {
            bar_count,
            bar_length,
            least_length,
            proven,
            finished_length,
            left_length,
            share_used,
            cut_bars,
            cuts,
        })
    }
}
