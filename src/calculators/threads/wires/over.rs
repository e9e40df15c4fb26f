//! The measurement over wires for a pitch diameter, by the handbook's formula or by contact, with its steps.

use super::WireCorrection;
use super::steps::Wires;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::working::known_steps;

impl Wires<'_> {
    fn off_the_thread(&self, pitch_diameter: Size) -> Refusal {
        let says = "At this pitch diameter the wires do not sit in the groove of this thread.";
        let basic = self.given.found(self.given.basics.pitch_diameter_exact).get().si();
        let basic = value(basic, pitch_diameter.quantity().unit, Way::Near);
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
            let step = self.step_over("Reading over the wires", record);
            step.with("E", "pitch_diameter", pitch_diameter).gives("over_wires", over);
        }
        let share = over.quantity().value - plain.quantity().value;
        let share = given.stated(if share.abs() < 1e-15 { 0.0 } else { share });
        known_steps! { record;
            step "Reading without the lead angle", "M = E + W × (1 + 1 / sin(α)) - P / (2 × tan(α))",
                E = "pitch_diameter": pitch_diameter, W = "wire", α = "half_flank_angle", P = "pitch"
                => "over_wires_plain", plain;
            step "What the lead angle adds", "s = M - m", M = "over_wires", m = "over_wires_plain"
                => "lead_share", share;
        }
        Ok((over, share))
    }

    fn contact_steps(&self, pitch_diameter: Size, e: f64, over: FoundSize, record: &mut Record) -> Result<(), Refusal> {
        let given = &self.given;
        let seat = self.groove().at(e).ok_or_else(|| self.off_the_thread(pitch_diameter))?;
        record.source("geometry", "contact of a straight wire, free to tilt, with both flanks of a thread");
        known_steps! { record;
            look_up "Radius at which the wire touches",
                "by trial, so that W / (2 × N) = L × θ / (2 × π) + P / 4 + (r - E / 2) × tan(α)",
                E = "pitch_diameter": pitch_diameter, W = "wire" => "contact_radius", given.found(seat.radius);
            step "Advance of the flank there", "k = L / (2 × π × r)", L = "lead", r = "contact_radius"
                => "contact_advance", seat.advance;
            step "Length of the line square to the flank", "N = √(1 + k^2 + tan(α)^2)",
                α = "half_flank_angle", k = "contact_advance" => "contact_norm", seat.norm;
            step "Angle round to the contact", "θ = atan((0 - W / 2 × k) / (N × r + W / 2 × tan(α)))",
                W = "wire", k = "contact_advance", N = "contact_norm", r = "contact_radius", α = "half_flank_angle"
                => "contact_turn", FoundAngle::stated(seat.turn.to_degrees(), Unit::Degree);
            step "Wire axis from the screw axis",
                "R = r × cos(θ) + W / 2 × (tan(α) × cos(θ) - k × sin(θ)) / N",
                r = "contact_radius", θ = "contact_turn", W = "wire", α = "half_flank_angle", k = "contact_advance",
                N = "contact_norm" => "wire_center", given.found(seat.center);
            step "Reading over the wires", "M = 2 × R + W", R = "wire_center", W = "wire" => "over_wires", over;
        }
        Ok(())
    }
}
