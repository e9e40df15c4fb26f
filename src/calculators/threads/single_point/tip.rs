//! The tip of the tool: flat, sharp or rounded, and how far it comes below the pitch line.

use super::SinglePointInput;
use crate::calculators::prelude::*;
use crate::reference::threads::{ThreadSystem, acme_clearance, crest_clearance};
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;

/// Radius in the root of a Whitworth thread over the pitch, as BS 84 gives it.
const WHITWORTH_RADIUS: f64 = 0.137_329;

/// The tip of the tool.
#[derive(Clone, Copy)]
pub enum Tip {
    /// A flat of this width; 0 is sharp.
    Flat(Extent),
    /// A radius.
    Round(Size),
}

impl Tip {
    /// Whether it has a flat or a radius.
    pub fn is_blunt(self) -> bool {
        !matches!(self, Tip::Flat(flat) if flat.quantity().value == 0.0)
    }
}

/// The tip as stated, else as the form of the thread has its root.
pub fn tip_of(input: &SinglePointInput) -> Tip {
    if let Some(flat) = input.tip_flat {
        return Tip::Flat(flat);
    }
    if let Some(radius) = input.tip_radius {
        return Tip::Round(radius);
    }
    let (thread, unit) = (&input.thread.thread, input.thread.unit());
    let pitch = thread.pitch;
    // The root of a power thread lies below the mating crest by the clearance.
    let with_clearance = |clearance: f64| {
        let slope = (thread.system.flank_angle() / 2.0).to_radians().tan();
        Tip::Flat(Extent::stated(pitch / 2.0 - 2.0 * slope * (pitch / 4.0 + clearance), unit))
    };
    match thread.system {
        ThreadSystem::Whitworth | ThreadSystem::PipeParallel | ThreadSystem::PipeTaper => {
            Tip::Round(Size::stated(WHITWORTH_RADIUS * pitch, unit))
        }
        ThreadSystem::Acme => with_clearance(acme_clearance(pitch) / 2.0),
        ThreadSystem::Trapezoidal => with_clearance(crest_clearance(pitch)),
        ThreadSystem::Unified | ThreadSystem::Metric | ThreadSystem::Npt => {
            Tip::Flat(Extent::stated(pitch / 8.0, unit))
        }
    }
}

/// The tip, on record where it is assumed.
pub fn tip(given: &GivenThread, input: &SinglePointInput, record: &mut Record) -> Tip {
    let tip = tip_of(input);
    if input.tip_flat.is_some() || input.tip_radius.is_some() {
        return tip;
    }
    match tip {
        Tip::Round(radius) => {
            record.source("bs_84", "radius of 0.137329 P in the root");
            record.assume("tip_radius", &radius, "The root radius of the thread form.");
        }
        Tip::Flat(flat) => match given.thread().system {
            ThreadSystem::Acme | ThreadSystem::Trapezoidal => {
                let source = if given.unit() == Unit::Inch { "asme_b1_5" } else { "iso_2904" };
                record.source(source, "clearance in the root");
                record.assume("tip_flat", &flat, "The root flat of the thread form, with its clearance.");
            }
            _ => {
                record.source("mh27", "p. 1734: form of the thread");
                let says =
                    "An eighth of the pitch: the root flat of a nut; in a screw it stays clear of the nut's crests.";
                record.assume("tip_flat", &flat, says);
            }
        },
    }
    tip
}

/// How far the tip lies below the pitch line, where the groove is half a pitch wide.
pub fn below_pitch_line(given: &GivenThread, tip: Tip, record: &mut Record) -> Result<FoundSize, Refusal> {
    let (unit, pitch) = (given.unit(), given.thread().pitch);
    let alpha = given.half_angle.degrees().to_radians();
    let (formula, below, tip, good): (_, _, (_, _, Shown), _) = match tip {
        Tip::Flat(flat) => {
            let below = (pitch / 2.0 - flat.quantity().in_unit(unit)) / (2.0 * alpha.tan());
            ("k = (P / 2 - f) / (2 × tan(α))", below, ("f", "tip_flat", flat.into()), pitch / 8.0)
        }
        Tip::Round(radius) => {
            let r = radius.quantity().in_unit(unit);
            let below = pitch / (4.0 * alpha.tan()) - r * (1.0 / alpha.sin() - 1.0);
            let formula = "k = P / (4 × tan(α)) - r × (1 / sin(α) - 1)";
            (formula, below, ("r", "tip_radius", radius.into()), 0.1 * pitch)
        }
    };
    if below <= 0.0 {
        let says = "The tip is wider than the groove at the pitch line. Take a narrower tip.";
        return Err(Refusal::no_answer(says, &[(tip.1, value(unit.to_si(good), unit, Way::Down))]));
    }
    let found = FoundSize::stated(below, unit);
    record
        .step("Depth of the tip below the pitch line", formula)
        .with("P", "pitch", given.pitch)
        .with("α", "half_flank_angle", given.half_angle)
        .with(tip.0, tip.1, tip.2)
        .gives("below_pitch_line", found);
    Ok(found)
}
