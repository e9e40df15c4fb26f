//! The steps of measuring over wires: the wires that fit a thread, and the three rules by which a pitch
//! diameter and a measurement belong together.

use super::contact::Groove;
use super::{WireCorrection, WiresInput};
use crate::quantity::{EdgeAngle, FoundAngle, FoundSize, SiValue, Size, Unit};
use crate::reference::threads::ThreadSystem;
use crate::refusal::Refusal;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;
use crate::working::Record;
use std::f64::consts::PI;

/// Above this lead angle the handbook's correction no longer holds.
const STEEP: f64 = 5.0;

/// A thread and wires in it; lengths in the thread's unit.
pub struct Wires<'d> {
    /// The thread.
    pub given: GivenThread<'d>,
    /// Best wire.
    pub best: FoundSize,
    /// Smallest wire that can be used.
    pub smallest: FoundSize,
    /// Largest wire that can be used.
    pub largest: FoundSize,
    /// The wire used.
    pub used: FoundSize,
    /// Angle of the thread at the basic pitch diameter.
    pub lead_angle: FoundAngle,
    /// What is made of the lead angle.
    pub correction: WireCorrection,
    /// What the lead angle adds by the handbook's rule.
    pub share: f64,
}

/// What was measured, and what for.
pub struct Measured {
    /// The reading.
    pub over: Size,
    /// Angle of the compound slide from the cross slide.
    pub compound: EdgeAngle,
    /// Pitch diameter to aim at where there are no limits.
    pub pitch_diameter: Size,
}

impl<'d> Wires<'d> {
    /// Finds the wires that fit and takes the one asked for, else the best.
    pub fn find(given: GivenThread<'d>, input: &WiresInput, record: &mut Record) -> Result<Self, Refusal> {
        record.source("mh31", "pp. 2129-2136: measurement over three wires, best wire, range of wires, lead angle");
        let (alpha, pitch) = (given.half_angle.degrees().to_radians(), given.thread().pitch);
        let basic = given.pitch_diameter(record);
        let (cos, tan) = (alpha.cos(), alpha.tan());
        let fit = |what: &'static str, formula: &'static str, field: &'static str, size: f64, record: &mut Record| {
            let mut step = record.step(what, formula).with("P", "pitch", given.pitch).with(
                "α",
                "half_flank_angle",
                given.half_angle,
            );
            if formula.contains('D') {
                step = step.with("D", "size", given.size).with("E", "basic_pitch_diameter", basic);
            }
            step.gives(field, given.found(size));
            given.found(size)
        };
        let best = fit("Best wire", "W = P / (2 × cos(α))", "best_wire", pitch / (2.0 * cos), record);
        let above = given.basics.major - basic.quantity().value;
        let smallest = fit(
            "Smallest wire, level with the crests",
            "W = (D - E + P / (2 × tan(α))) / (1 + 1 / sin(α))",
            "smallest_wire",
            (above + pitch / (2.0 * tan)) / (1.0 + 1.0 / alpha.sin()),
            record,
        );
        let rounded = given.thread().system.flank_angle() == 55.0;
        let largest = if rounded {
            // The flank ends where the rounding of the crest begins.
            let sixth = pitch / (12.0 * tan);
            let radius = sixth * alpha.sin() / (1.0 - alpha.sin());
            let end = radius * (1.0 - alpha.sin());
            let largest = 2.0 * (pitch / 4.0 + (above / 2.0 - end) * tan) / cos;
            record
                .look_up("Largest wire", "it touches the flanks where the rounding of the crests begins")
                .with("P", "pitch", given.pitch)
                .with("α", "half_flank_angle", given.half_angle)
                .gives("largest_wire", given.found(largest));
            given.found(largest)
        } else {
            fit(
                "Largest wire, touching at the crests",
                "W = (P / 2 + (D - E) × tan(α)) / cos(α)",
                "largest_wire",
                (pitch / 2.0 + above * tan) / cos,
                record,
            )
        };
        let used = match input.wire_diameter {
            Some(stated) => {
                let used = stated.quantity();
                record
                    .step("Wire used", "w = W")
                    .with("W", "wire_diameter", stated)
                    .gives("wire", given.found(used.in_unit(given.unit())));
                FoundSize::stated(used.in_unit(given.unit()), given.unit())
            }
            None => {
                let stated = Size::stated(best.quantity().value, given.unit());
                record.assume("wire_diameter", &stated, "The best wire; state the diameter of those at hand.");
                record.step("Wire used", "w = W").with("W", "best_wire", best).gives("wire", best);
                best
            }
        };
        record.step("Wire used, as a result", "W = w").with("w", "wire", used).gives("wire_diameter", used);
        let wire = used.quantity().value;
        if wire < smallest.quantity().value * (1.0 - 1e-9) || wire > largest.quantity().value * (1.0 + 1e-9) {
            let says = format!(
                "A wire of this diameter does not measure this thread: it must be from {} to {}.",
                smallest.quantity().text(),
                largest.quantity().text()
            );
            let best =
                value(best.get().si(), input.wire_diameter.map_or(given.unit(), |w| w.quantity().unit), Way::Near);
            return Err(Refusal::no_answer(&says, &[("wire_diameter", best)]));
        }
        let lead_angle = FoundAngle::stated(
            (given.thread().lead() / (PI * basic.quantity().value)).atan().to_degrees(),
            Unit::Degree,
        );
        record
            .step("Lead angle at the pitch diameter", "λ = atan(L / (π × E))")
            .with("L", "lead", given.lead)
            .with("E", "basic_pitch_diameter", basic)
            .gives("lead_angle", lead_angle);
        let power = matches!(given.thread().system, ThreadSystem::Acme | ThreadSystem::Trapezoidal);
        let (usual, says) = match (lead_angle.degrees() > STEEP, power) {
            (true, _) => {
                (WireCorrection::Contact, "Above a lead angle of 5 degrees the simple correction is not good enough.")
            }
            (false, true) => {
                (WireCorrection::LeadAngle, "Usual for Acme and trapezoidal threads up to a lead angle of 5 degrees.")
            }
            (false, false) => {
                (WireCorrection::Off, "Usual for threads of so small a lead angle: the tables leave it out.")
            }
        };
        let correction = record.or_assume(input.correction, "correction", usual, says);
        let share = wire * lead_angle.degrees().to_radians().tan().powi(2) * cos / tan / 2.0;
        if correction != WireCorrection::Contact {
            record
                .step("Correction for the lead angle", "c = W × tan(λ)^2 × cos(α) / (2 × tan(α))")
                .with("W", "wire", used)
                .with("λ", "lead_angle", lead_angle)
                .with("α", "half_flank_angle", given.half_angle)
                .gives("correction_by_lead_angle", given.found(share));
        }
        if correction == WireCorrection::LeadAngle && lead_angle.degrees() > STEEP {
            record.note(
                "steep_thread",
                "Above a lead angle of 5 degrees this correction is off; contact is the better choice.",
            );
        }
        if correction == WireCorrection::Off {
            record.note(
                "lead_angle_left_out",
                format!(
                    "The lead angle would add {}, which tables of such threads leave out.",
                    given.found(share).quantity().text()
                ),
            );
        }
        Ok(Self { given, best, smallest, largest, used, lead_angle, correction, share })
    }

    /// The basic pitch diameter as a request would state it.
    pub fn basic_pitch_diameter(&self) -> Size {
        Size::stated(self.given.basics.pitch_diameter_exact, self.given.unit())
    }

    /// The groove with its wire.
    pub fn groove(&self) -> Groove {
        Groove {
            pitch: self.given.thread().pitch,
            lead: self.given.thread().lead(),
            slope: self.given.half_angle.degrees().to_radians().tan(),
            wire: self.used.quantity().value,
        }
    }

    /// Measurement of a groove made of rings.
    pub fn plain(&self, pitch_diameter: f64) -> f64 {
        let groove = self.groove();
        let sin = self.given.half_angle.degrees().to_radians().sin();
        pitch_diameter + groove.wire * (1.0 + 1.0 / sin) - groove.pitch / 2.0 / groove.slope
    }

    /// Measurement over the wires at a pitch diameter.
    pub fn over(&self, pitch_diameter: f64) -> Option<f64> {
        match self.correction {
            WireCorrection::Off => Some(self.plain(pitch_diameter)),
            WireCorrection::LeadAngle => Some(self.plain(pitch_diameter) + self.share),
            WireCorrection::Contact => self.groove().over(pitch_diameter),
        }
    }

    /// Pitch diameter that gives a measurement.
    pub fn back(&self, over: f64) -> Option<f64> {
        match self.correction {
            WireCorrection::Off => Some(over - self.plain(0.0)),
            WireCorrection::LeadAngle => Some(over - self.plain(0.0) - self.share),
            WireCorrection::Contact => self.groove().pitch_diameter(over),
        }
    }

    /// The formula of the measurement without contact.
    pub fn formula(&self) -> &'static str {
        match self.correction {
            WireCorrection::LeadAngle => "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α)) + c",
            _ => "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α))",
        }
    }

    /// A step that has wire, pitch and angle, and the correction where it counts.
    pub fn with_groove<'r>(
        &self,
        what: &'static str,
        formula: &'static str,
        record: &'r mut Record,
    ) -> crate::working::StepDraft<'r> {
        let step = record
            .step(what, formula)
            .with("W", "wire", self.used)
            .with("α", "half_flank_angle", self.given.half_angle)
            .with("P", "pitch", self.given.pitch);
        match self.correction {
            WireCorrection::LeadAngle => step.with("c", "correction_by_lead_angle", self.given.found(self.share)),
            _ => step,
        }
    }
}
