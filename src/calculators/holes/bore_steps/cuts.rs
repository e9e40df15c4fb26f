//! The cuts from the bore as it is to the one wanted: roughing cuts of whole divisions, then what is left.

use super::{BoreStepsInput, HeadCounts};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// Most cuts that are listed.
const MOST: usize = 200;

/// A cut.
#[derive(Debug, Gives)]
pub struct BoreCut {
    /// Its number.
    #[label("No.")]
    pub number: u32,
    /// What it is for: rough or last.
    #[label("Cut")]
    pub kind: &'static str,
    /// Whole divisions to turn the head's screw outward for it.
    #[label("Turn on by, divisions")]
    #[needs(division)]
    pub divisions: Option<u32>,
    /// Diameter of the bore after it.
    #[label("Bore")]
    pub diameter: FoundSize,
    /// Depth of the cut, on the radius.
    #[label("Depth")]
    pub depth: FoundExtent,
    /// Passes at this setting.
    pub passes: u32,
}

/// A boring head.
pub struct Head {
    /// What one division makes the bore grow by.
    pub growth: FoundExtent,
    /// Divisions of a roughing cut.
    rough: f64,
}

impl Head {
    /// The head of a request that states a division.
    pub fn of(input: &BoreStepsInput, record: &mut Record) -> Result<Option<Self>, Refusal> {
        let Some(division) = input.division else { return Ok(None) };
        let counts = input.head_counts(record);
        let what = "What one division makes the bore grow by";
        let growth: FoundExtent = match counts {
            HeadCounts::Diameter => {
                let Quantity { value, unit, .. } = division.quantity();
                let growth = FoundExtent::stated(value, unit);
                tell!(record.choose(what, "the division, as it counts the diameter"), u = division
                    => "growth_of_division": growth);
                growth
            }
            HeadCounts::Radius => step!(record, what, v: "growth_of_division" = 2.0 * u, u = division),
        };
        let ratio = (2.0 * input.depth_of_cut.get() / growth.get()).si();
        let rough = (ratio * (1.0 + 1e-12)).floor();
        if rough < 1.0 {
            let says = "The depth of cut is less than one division of the head. Take a deeper cut.";
            let deeper = value(growth.get().si() / 2.0, input.depth_of_cut.quantity().unit, Way::Up);
            return Err(Refusal::no_answer(says, &[("depth_of_cut", deeper)]));
        }
        tell!(record.look_up("Whole divisions of a roughing cut", "twice the depth of cut over that, rounded down"),
            a = depth_of_cut: input.depth_of_cut, v = "growth_of_division": growth => rough_divisions: rough);
        Ok(Some(Self { growth, rough }))
    }
}

/// How far the bore has grown after each roughing cut, in steps of which each is at most `step`, up to `all`.
fn roughing(all: f64, step: f64) -> Option<Vec<f64>> {
    let count = (all / step * (1.0 - 1e-12)).ceil();
    if count > MOST as f64 {
        return None;
    }
    Some((1..=count.max(0.0) as usize).map(|cut| text::tidy((cut as f64 * step).min(all))).collect())
}

/// The cuts, and what whole divisions of the last would leave.
pub fn cuts(
    input: &BoreStepsInput,
    stock: FoundExtent,
    head: Option<&Head>,
    record: &mut Record,
) -> Result<(Vec<BoreCut>, Option<FoundExtent>), Refusal> {
    let unit = input.target.quantity().unit;
    let finish = input.finish(record);
    if input.finish.is_none() || input.spring_passes.is_none() {
        record.source("common_practice", "what is left for the last cut, and a pass without a new setting");
    }
    let (stock_si, finish_si, step_si) = (stock.get().si(), finish.get().si(), 2.0 * input.depth_of_cut.get().si());
    let rough_si = stock_si - finish_si;
    // With a head in whole divisions, without one in meters.
    let (all, step, grown) = match head {
        Some(Head { growth, rough }) => {
            let growth = growth.get().si();
            ((rough_si / growth * (1.0 + 1e-12) + 1e-9).floor(), *rough, growth)
        }
        None => (rough_si, step_si, 1.0),
    };
    let Some(mut ends) = roughing(all, step) else {
        let says = format!("That is more than {MOST} cuts. Take a deeper cut.");
        let deeper = value(rough_si / MOST as f64, input.depth_of_cut.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(&says, &[("depth_of_cut", deeper)]));
    };
    // A sliver before the last cut would only rub: the last takes it too, where it is not too deep for that.
    let start = ends.len().checked_sub(2).map_or(0.0, |at| ends[at]);
    if ends.last().is_some_and(|end| (end - start) * grown < finish_si) && stock_si - start * grown <= step_si {
        ends.pop();
    }
    let whole = text::tidy(stock_si / grown);
    ends.push(if head.is_some() { (whole * (1.0 + 1e-12) + 1e-9).floor() } else { whole });
    let spring = input.spring_passes(record).get();
    let now = input.now.get().si();
    let before: Vec<f64> = std::iter::once(0.0).chain(ends.iter().copied()).take(ends.len()).collect();
    let last = ends.len();
    let cut = |(at, (end, before)): (usize, (&f64, &f64))| {
        let is_last = at + 1 == last;
        // Without a head the last cut ends at the diameter as it was stated.
        let is_stated = is_last && head.is_none();
        let diameter = if is_stated { input.target.quantity().value } else { unit.of_si(now + end * grown) };
        BoreCut {
            number: at as u32 + 1,
            kind: if is_last { "last" } else { "rough" },
            divisions: head.map(|_| (end - before).round() as u32),
            diameter: FoundSize::stated(text::tidy(diameter), unit),
            depth: FoundExtent::stated(text::tidy(unit.of_si((end - before) * grown / 2.0)), unit),
            passes: if at + 2 >= last { 1 + spring } else { 1 },
        }
    };
    let cuts: Vec<BoreCut> = ends.iter().zip(&before).enumerate().map(cut).collect();
    tell(input, &cuts, (finish, head), record);
    let left_over = head.and(cuts.last()).map(|last| {
        let (target, bore) = (input.target, last.diameter);
        tell!(record.choose("Bore after the last cut", "the last of the list"), d = cuts.diameter => last_bore: bore);
        let left =
            FoundExtent::stated(text::round((target.quantity().value - bore.quantity().value).max(0.0), 13), unit);
        tell!(record.step("Left on the diameter", "w = t - d"), t = target, d = last_bore: bore => left_over: left);
        left
    });
    Ok((cuts, left_over))
}

/// The steps of the rows.
fn tell(input: &BoreStepsInput, cuts: &[BoreCut], (finish, head): (Size, Option<&Head>), record: &mut Record) {
    let column_of = |of: fn(&BoreCut) -> FoundSize| column(cuts, of);
    tell!(record.look_up("Numbers", "one after the other") => "cuts.number": column(cuts, |cut| cut.number));
    tell!(record.look_up("Kinds", "roughing cuts as long as more is left than for the last") => "cuts.kind": column(cuts, |cut| cut.kind));
    let rule = match head {
        Some(_) => {
            "each roughing cut in whole divisions, not more than the depth of cut; the last takes what is left in whole divisions, a sliver too"
        }
        None => "each roughing cut of the depth of cut; the last takes what is left, a sliver too",
    };
    tell!(record.look_up("Bore after each cut", rule), n = now: input.now, t = target: input.target,
        a = depth_of_cut: input.depth_of_cut, f = finish => "cuts.diameter": column_of(|cut| cut.diameter));
    let start = input.now.quantity().in_unit(input.target.quantity().unit);
    let start = FoundSize::stated(start, input.target.quantity().unit);
    let before: Vec<FoundSize> =
        std::iter::once(start).chain(cuts.iter().map(|cut| cut.diameter)).take(cuts.len()).collect();
    tell!(record.look_up("Bore before each cut", "that of the cut before; the bore now at first") => bore_before: before.clone());
    tell!(record.step("Depth of each, on the radius", "a = (d - b) / 2"), d = "cuts.diameter": column_of(|cut| cut.diameter),
        b = bore_before: before.clone() => "cuts.depth": column(cuts, |cut| cut.depth));
    if let Some(head) = head {
        tell!(record.step("Divisions of each", "q = (d - b) / v"), d = "cuts.diameter": column_of(|cut| cut.diameter),
            b = bore_before: before, v = "growth_of_division": head.growth
            => "cuts.divisions": column(cuts, |cut| cut.divisions));
    }
    tell!(record.look_up("Passes", "one each; the last two and their spring passes"),
        p = spring_passes: input.spring_passes.map_or(1, Count::get) => "cuts.passes": column(cuts, |cut| cut.passes));
}
