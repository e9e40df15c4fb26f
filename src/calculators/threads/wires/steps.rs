//! The steps of measuring over wires: the wires that fit a thread, and the three rules by which a pitch
//! diameter and a measurement belong together.

use super::contact::Groove;
use super::{WireCorrection, WiresInput};
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::suggestion::{Way, value};
use crate::threading::{GivenThread, lead_angle};
use crate::working::{StepDraft, known_steps};

/// Above this lead angle the handbook's correction no longer holds.
const STEEP: f64 = 5.0;

/// The wires that fit a thread, the one used, and the lead angle that it lies at.
#[derive(Clone, Copy, Debug, Gives)]
pub struct FittingWires {
    /// The best wire: it touches the flanks on the pitch line.
    pub best_wire: FoundSize,
    /// Smallest wire that still stands above the crests.
    pub smallest_wire: FoundSize,
    /// Largest wire that still touches the flanks.
    pub largest_wire: FoundSize,
    /// Diameter of the wires used.
    #[label("Wires used")]
    pub wire_diameter: FoundSize,
    /// Angle of the thread at the basic pitch diameter.
    pub lead_angle: FoundAngle,
}

/// A thread and wires in it; lengths in the thread's unit.
pub struct Wires<'d> {
    /// The thread.
    pub given: GivenThread<'d>,
    /// The wires.
    pub fit: FittingWires,
    /// What is made of the lead angle.
    pub correction: WireCorrection,
    /// What the lead angle adds by the handbook's rule.
    share: f64,
    groove: Groove,
}

impl<'d> Wires<'d> {
    /// Finds the wires that fit and takes the one asked for, else the best.
    pub fn find(given: GivenThread<'d>, input: &WiresInput, record: &mut Record) -> Result<Self, Refusal> {
        record.source("mh31", "pp. 2129-2136: measurement over three wires, best wire, range of wires, lead angle");
        let fit = fitting(&given, input, record);
        let wire = fit.wire_diameter.quantity().value;
        let (least, greatest) = (fit.smallest_wire.quantity(), fit.largest_wire.quantity());
        if wire < least.value * (1.0 - 1e-9) || wire > greatest.value * (1.0 + 1e-9) {
            let says = format!(
                "Wires of this diameter do not fit this thread. Give one from {} to {}.",
                least.text(),
                greatest.text()
            );
            let unit = input.wire_diameter.map_or(given.unit(), |wire| wire.quantity().unit);
            let best = value(fit.best_wire.get().si(), unit, Way::Near);
            return Err(Refusal::no_answer(&says, &[("wire_diameter", best)]));
        }
        let lead_angle = fit.lead_angle;
        let steep = lead_angle.degrees() > STEEP;
        let power = matches!(given.thread().system, ThreadSystem::Acme | ThreadSystem::Trapezoidal);
        let (usual, says) = match (steep, power) {
            (true, _) => (
                WireCorrection::Contact,
                "Above a lead angle of 5 degrees the handbook's correction is not good enough.",
            ),
            (false, true) => {
                (WireCorrection::LeadAngle, "Usual for Acme and trapezoidal threads up to a lead angle of 5 degrees.")
            }
            (false, false) => (WireCorrection::Off, "The lead angle is small; tables for such threads leave it out."),
        };
        let correction = record.or_assume(input.correction, "correction", usual, says);
        let (alpha, thread) = (given.half_angle.degrees().to_radians(), given.thread());
        let groove = Groove { pitch: thread.pitch, lead: thread.lead(), slope: alpha.tan(), wire };
        let share = wire * lead_angle.degrees().to_radians().tan().powi(2) * alpha.cos() / alpha.tan() / 2.0;
        if correction != WireCorrection::Contact {
            known_steps! { record;
                step "Correction for the lead angle", "c = W × tan(λ)^2 × cos(α) / (2 × tan(α))",
                    W = "wire", λ = "lead_angle", α = "half_flank_angle"
                    => "correction_by_lead_angle", given.found(share);
            }
        }
        if correction == WireCorrection::LeadAngle && steep {
            record.note(
                "steep_thread",
                "Above a lead angle of 5 degrees this correction is off. Choose contact instead.",
            );
        }
        if correction == WireCorrection::Off {
            let share = given.found(share).quantity().text();
            record.note(
                "lead_angle_left_out",
                format!("The lead angle would add {share}; tables for such threads leave that out."),
            );
        }
        Ok(Self { given, fit, correction, share, groove })
    }

    /// The groove with its wire.
    pub fn groove(&self) -> Groove {
        self.groove
    }

    /// Measurement of a groove made of rings.
    pub fn plain(&self, pitch_diameter: f64) -> f64 {
        let sin = self.given.half_angle.degrees().to_radians().sin();
        pitch_diameter + self.groove.wire * (1.0 + 1.0 / sin) - self.groove.pitch / 2.0 / self.groove.slope
    }

    /// Measurement over the wires at a pitch diameter.
    pub fn over(&self, pitch_diameter: f64) -> Option<f64> {
        match self.correction {
            WireCorrection::Off => Some(self.plain(pitch_diameter)),
            WireCorrection::LeadAngle => Some(self.plain(pitch_diameter) + self.share),
            WireCorrection::Contact => self.groove.over(pitch_diameter),
        }
    }

    /// Pitch diameter that gives a measurement.
    pub fn back(&self, over: f64) -> Option<f64> {
        match self.correction {
            WireCorrection::Off => Some(over - self.plain(0.0)),
            WireCorrection::LeadAngle => Some(over - self.plain(0.0) - self.share),
            WireCorrection::Contact => self.groove.pitch_diameter(over),
        }
    }

    /// A step to the measurement without contact; the pitch diameter E is still to be said.
    pub fn step_over<'r>(&self, what: &'static str, record: &'r mut Record) -> StepDraft<'r> {
        let formula = match self.correction {
            WireCorrection::LeadAngle => "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α)) + c",
            _ => "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α))",
        };
        self.with_groove(record.step(what, formula))
    }

    /// A step back to the pitch diameter without contact; the measurement M is still to be said.
    pub fn step_back<'r>(&self, what: &'static str, record: &'r mut Record) -> StepDraft<'r> {
        let formula = match self.correction {
            WireCorrection::LeadAngle => "E = M - W × (1 + 1 / sin(α)) + P / (2 × tan(α)) - c",
            _ => "E = M - W × (1 + 1 / sin(α)) + P / (2 × tan(α))",
        };
        self.with_groove(record.step(what, formula))
    }

    /// Wire, pitch and angle, and the correction where it counts.
    fn with_groove<'r>(&self, step: StepDraft<'r>) -> StepDraft<'r> {
        let step = step.recall("W", "wire").recall("α", "half_flank_angle").recall("P", "pitch");
        match self.correction {
            WireCorrection::LeadAngle => step.recall("c", "correction_by_lead_angle"),
            _ => step,
        }
    }
}

/// The wires that fit, with their steps, and the lead angle.
fn fitting(given: &GivenThread, input: &WiresInput, record: &mut Record) -> FittingWires {
    let (alpha, pitch) = (given.half_angle.degrees().to_radians(), given.thread().pitch);
    let (sin, cos, tan) = (alpha.sin(), alpha.cos(), alpha.tan());
    let basic_pitch_diameter = given.pitch_diameter(record);
    let basic = basic_pitch_diameter.quantity().value;
    let above = given.basics.major - basic;
    let best_wire = given.found(pitch / (2.0 * cos));
    let smallest_wire = given.found((above + pitch / (2.0 * tan)) / (1.0 + 1.0 / sin));
    known_steps! { record;
        step "Best wire", "W = P / (2 × cos(α))", P = "pitch", α = "half_flank_angle" => "best_wire", best_wire;
        step "Smallest wire, level with the crests", "W = (D - E + P / (2 × tan(α))) / (1 + 1 / sin(α))",
            P = "pitch", α = "half_flank_angle", D = "size", E = "basic_pitch_diameter"
            => "smallest_wire", smallest_wire;
    }
    let largest_wire = if given.thread().system.flank_angle() == 55.0 {
        // The flank ends where the rounding of the crest begins.
        let sixth = pitch / (12.0 * tan);
        let radius = sixth * sin / (1.0 - sin);
        let end = radius * (1.0 - sin);
        let largest = given.found(2.0 * (pitch / 4.0 + (above / 2.0 - end) * tan) / cos);
        known_steps! { record;
            look_up "Largest wire", "it touches the flanks where the rounding of the crests begins",
                P = "pitch", α = "half_flank_angle" => "largest_wire", largest;
        }
        largest
    } else {
        let largest = given.found((pitch / 2.0 + above * tan) / cos);
        known_steps! { record;
            step "Largest wire, touching at the crests", "W = (P / 2 + (D - E) × tan(α)) / cos(α)",
                P = "pitch", α = "half_flank_angle", D = "size", E = "basic_pitch_diameter" => "largest_wire", largest;
        }
        largest
    };
    let wire_diameter = match input.wire_diameter {
        Some(stated) => {
            let used = given.found(stated.quantity().in_unit(given.unit()));
            known_steps! { record; step "Wire used", "w = W", W = "wire_diameter": stated => "wire", used; }
            used
        }
        None => {
            let stated = Size::stated(best_wire.quantity().value, given.unit());
            record.assume("wire_diameter", &stated, "The best wire; give the diameter of the wires you have.");
            known_steps! { record; step "Wire used", "w = W", W = "best_wire" => "wire", best_wire; }
            best_wire
        }
    };
    known_steps! { record; step "Wire used, as a result", "W = w", w = "wire" => "wire_diameter", wire_diameter; }
    let lead_angle = lead_angle(given.lead, ("basic_pitch_diameter", basic_pitch_diameter), record);
    FittingWires { best_wire, smallest_wire, largest_wire, wire_diameter, lead_angle }
}
