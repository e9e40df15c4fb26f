//! How the depth of a thread grows from pass to pass: the law, into how many parts it divides the groove, and
//! the depth below which no pass falls. Lengths in the thread's unit.

use super::groove::Groove;
use super::rules::FLAT_ONLY;
use super::tip::Tip;
use super::{PassLaw, SinglePointInput};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;

/// Most passes that anyone takes.
const MOST: usize = 200;

/// How the depth is to grow.
pub struct Plan {
    /// The law.
    pub law: PassLaw,
    /// Passes that the law divides the groove into.
    pub parts: u32,
    /// What no pass but the last falls below.
    pub least: Option<Size>,
    /// The whole depth.
    pub depth: f64,
    flat: f64,
    slope: f64,
}

impl Plan {
    /// Depth after `n` of the parts.
    pub fn at(&self, n: u32) -> f64 {
        let share = f64::from(n) / f64::from(self.parts);
        match self.law {
            _ if n >= self.parts => self.depth,
            PassLaw::SquareRoot => self.depth * share.sqrt(),
            PassLaw::EqualArea => {
                let area = self.area(self.depth) * share;
                ((self.flat * self.flat + 4.0 * self.slope * area).sqrt() - self.flat) / (2.0 * self.slope)
            }
        }
    }

    /// Section of the groove down to a depth.
    pub fn area(&self, depth: f64) -> f64 {
        self.flat * depth + self.slope * depth * depth
    }

    /// Depths of the passes, with the floor of the least one; no more than one beyond the most.
    pub fn depths(&self, unit: Unit) -> Vec<f64> {
        let least = self.least.map_or(0.0, |least| least.quantity().in_unit(unit));
        let mut depths: Vec<f64> = Vec::new();
        for n in 1..=self.parts {
            if depths.len() > MOST {
                break;
            }
            let before = depths.last().copied().unwrap_or(0.0);
            let next = before + (self.at(n) - self.at(n - 1)).max(least);
            // The law's own depths, so that no noise adds up, as long as the floor has not bitten.
            let next = if (next - self.at(n)).abs() < 1e-12 * self.depth { self.at(n) } else { next };
            if next >= self.depth * (1.0 - 1e-12) {
                depths.push(self.depth);
                break;
            }
            depths.push(next);
        }
        depths
    }
}

/// The plan that a request asks for, its assumptions on record.
pub fn plan(
    given: &GivenThread,
    groove: &Groove,
    input: &SinglePointInput,
    record: &mut Record,
) -> Result<Plan, Refusal> {
    let law = input.law(record);
    if law == PassLaw::SquareRoot && groove.tip.is_blunt() {
        notes!(record => chips_with_a_blunt_tip:
            "With a tip that is not sharp the square root makes the first chips the heaviest. Choose equal areas for a \
             tip with a flat.");
    }
    let unit = groove.unit;
    let depth = groove.sizes.depth.quantity().in_unit(unit);
    let flat = match groove.tip {
        Tip::Flat(flat) => flat.quantity().in_unit(unit),
        Tip::Round(_) if law == PassLaw::EqualArea => {
            return Err(Refusal(vec![
                Wrong::new("law", Code::NotOffered, FLAT_ONLY, "square_root"),
                Wrong::new("tip_flat", Code::FieldMissing, FLAT_ONLY, "0 in"),
            ]));
        }
        Tip::Round(_) => 0.0,
    };
    let mut plan = Plan { law, parts: 1, least: None, depth, flat, slope: groove.slope };
    if let Some(passes) = input.passes {
        plan.parts = passes.get();
        return Ok(plan);
    }
    let inch = unit.system() == Some(System::Inch);
    let stated =
        |inches: f64, mm: f64| if inch { Size::stated(inches, Unit::Inch) } else { Size::stated(mm, Unit::Millimetre) };
    if input.first_depth.is_none() {
        record.source("common_practice", "depth of the first pass, and what is too thin to cut");
    }
    let coarse = unit.to_si(given.thread().pitch) >= if inch { Unit::Inch.to_si(0.1) } else { 0.0025 } - 1e-9;
    let first = record.or_assume(
        input.first_depth,
        "first_depth",
        if coarse { stated(0.012, 0.3) } else { stated(0.010, 0.25) },
        "A starting point for steel and a stiff tool; less for slender work and a boring bar.",
    );
    plan.least = input.least_depth;
    if input.first_depth.is_none() && input.least_depth.is_none() {
        let least = stated(0.002, 0.05);
        record.assume("least_depth", &least, "Common practice: a thinner chip rubs rather than cuts.");
        plan.least = Some(least);
    }
    let first_depth = first.quantity().in_unit(unit);
    let (parts, rule) = match law {
        PassLaw::SquareRoot => {
            let rule = "(h / f)^2, rounded up, so that the first pass is no deeper than f";
            ((depth / first_depth).powi(2), rule)
        }
        PassLaw::EqualArea => {
            let rule = "area of the whole groove over that of the first pass, rounded up";
            (plan.area(depth) / plan.area(first_depth), rule)
        }
    };
    plan.parts = (parts - 1e-9).ceil().clamp(1.0, 1e6) as u32;
    tell!(record.look_up("Parts the groove is divided into", rule), h = depth: groove.sizes.depth,
        f = first_depth: first => parts: plan.parts);
    if plan.depths(unit).len() > MOST {
        let good = value(unit.to_si(depth / 5.0), unit, Way::Near);
        let says = "That makes more than 200 passes. Give a deeper first pass or a deeper least pass.";
        let fields = [("first_depth", good), ("least_depth", value(unit.to_si(depth / 50.0), unit, Way::Up))];
        return Err(Refusal::no_answer(says, &fields));
    }
    Ok(plan)
}
