//! The measurement over wires for a pitch diameter, by the handbook's formula or by contact, with its steps.

use super::WireCorrection;
use super::steps::Wires;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

impl Wires<'_> {
    fn off_the_thread(&self, pitch_diameter: Size) -> Refusal {
        let says = "At this pitch diameter the wires do not lie in the groove of this thread.";
        let basic = value(
            self.given.found(self.given.basics.pitch_diameter_exact).get().si(),
            pitch_diameter.quantity().unit,
            Way::Near,
        );
        Refusal::no_answer(says, &[("pitch_diameter", basic)])
    }

    /// Measurement for a pitch diameter, and what the lead angle adds to it.
    pub fn over_wires(
        &self,
        pitch_diameter: Size,
        record: &mut Record,
    ) -> Result<(FoundSize, FoundDifference), Refusal> {
        let given = &self.given;
        let e = pitch_diameter.quantity().in_unit(given.unit());
        // Farther off than the thread is deep, the wires lie on no flank.
        if (e - given.basics.pitch_diameter_exact).abs() > given.thread().pitch {
            return Err(self.off_the_thread(pitch_diameter));
        }
        let over = self.over(e).filter(|over| *over > 0.0).ok_or_else(|| self.off_the_thread(pitch_diameter))?;
        let (over, plain) = (given.found(over), given.found(self.plain(e)));
        if self.correction == WireCorrection::Contact {
            self.contact_steps(pitch_diameter, e, over, record)?;
        } else {
            self.with_groove("Measurement over the wires", self.formula(), record)
                .with("E", "pitch_diameter", pitch_diameter)
                .gives("over_wires", over);
        }
        record
            .step("Measurement if the groove were rings", "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α))")
            .with("E", "pitch_diameter", pitch_diameter)
            .with("W", "wire", self.used)
            .with("α", "half_flank_angle", given.half_angle)
            .with("P", "pitch", given.pitch)
            .gives("over_wires_plain", plain);
        let share = over.quantity().value - plain.quantity().value;
        let share = FoundDifference::stated(if share.abs() < 1e-15 { 0.0 } else { share }, given.unit());
        record
            .step("What the lead angle adds", "s = M - m")
            .with("M", "over_wires", over)
            .with("m", "over_wires_plain", plain)
            .gives("lead_share", share);
        Ok((over, share))
    }

    fn contact_steps(&self, pitch_diameter: Size, e: f64, over: FoundSize, record: &mut Record) -> Result<(), Refusal> {
        let given = &self.given;
        let seat = self.groove().at(e).ok_or_else(|| self.off_the_thread(pitch_diameter))?;
        record.source("geometry", "contact of a straight wire, free to tilt, with both flanks of a thread");
        let (radius, center) = (given.found(seat.radius), given.found(seat.center));
        let turn = FoundAngle::stated(seat.turn.to_degrees(), Unit::Degree);
        record
            .look_up(
                "Radius at which the wire touches",
                "by trial, so that W / (2 × N) = L × θ / (2 × π) + P / 4 + (r - E / 2) × tan(α)",
            )
            .with("E", "pitch_diameter", pitch_diameter)
            .with("W", "wire", self.used)
            .gives("contact_radius", radius);
        record
            .step("Advance of the flank there", "k = L / (2 × π × r)")
            .with("L", "lead", given.lead)
            .with("r", "contact_radius", radius)
            .gives("contact_advance", seat.advance);
        record
            .step("Length of the line square to the flank", "N = √(1 + k^2 + tan(α)^2)")
            .with("α", "half_flank_angle", given.half_angle)
            .with("k", "contact_advance", seat.advance)
            .gives("contact_norm", seat.norm);
        record
            .step("Turn to the contact", "θ = atan((0 - W / 2 × k) / (N × r + W / 2 × tan(α)))")
            .with("W", "wire", self.used)
            .with("k", "contact_advance", seat.advance)
            .with("N", "contact_norm", seat.norm)
            .with("r", "contact_radius", radius)
            .with("α", "half_flank_angle", given.half_angle)
            .gives("contact_turn", turn);
        record
            .step(
                "Axis of the wire from that of the screw",
                "R = r × cos(θ) + W / 2 × (tan(α) × cos(θ) - k × sin(θ)) / N",
            )
            .with("r", "contact_radius", radius)
            .with("θ", "contact_turn", turn)
            .with("W", "wire", self.used)
            .with("α", "half_flank_angle", given.half_angle)
            .with("k", "contact_advance", seat.advance)
            .with("N", "contact_norm", seat.norm)
            .gives("wire_center", center);
        record
            .step("Measurement over the wires", "M = 2 × R + W")
            .with("R", "wire_center", center)
            .with("W", "wire", self.used)
            .gives("over_wires", over);
        Ok(())
    }
}
