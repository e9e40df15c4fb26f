//! The limits of a class over wires, and what a measurement says against them, with their steps.

use super::steps::Wires;
use super::{WireCorrection, WireLimits, WireReading, WiresInput};
use crate::calculators::prelude::*;
use crate::reference::threads::Chosen;
use crate::suggestion::{Way, value};
use crate::threading::side_limits;
use crate::working::known_steps;

impl Wires<'_> {
    /// Limits of the class, over the wires.
    pub fn limits(&self, class: Option<&ExternalClass>, record: &mut Record) -> Result<Option<WireLimits>, Refusal> {
        let given = &self.given;
        let found = match side_limits(given, ("class", class), "limits.class", record) {
            Ok(found) => found,
            Err((Chosen::Usual, wrong)) => {
                record.note("no_limits", wrong.says);
                return Ok(None);
            }
            Err((_, wrong)) => return Err(Refusal::one(wrong)),
        };
        let (Some(over_max), Some(over_min)) = (self.over(found.pitch_max), self.over(found.pitch_min)) else {
            return Ok(None);
        };
        let limits = WireLimits {
            class: found.class.unwrap_or_default(),
            pitch_max: given.stated(found.pitch_max),
            pitch_min: given.stated(found.pitch_min),
            over_wires_max: given.stated(over_max),
            over_wires_min: given.stated(over_min),
        };
        let table = format!("{}: class {}, as printed", given.designation.standard(), limits.class);
        known_steps! { record;
            look_up "Greatest pitch diameter", table.clone() => "limits.pitch_max", limits.pitch_max;
            look_up "Least pitch diameter", table => "limits.pitch_min", limits.pitch_min;
        }
        let mut over = |what: &'static str, of: &'static str, field: &'static str, value: Shown| {
            let step = match self.correction {
                WireCorrection::Contact => record.look_up(what, "where the wire touches at this pitch diameter"),
                _ => self.step_over(what, record),
            };
            step.recall("E", of).gives(field, value);
        };
        let (max, min) = (limits.over_wires_max.into(), limits.over_wires_min.into());
        over("Greatest over the wires", "limits.pitch_max", "limits.over_wires_max", max);
        over("Least over the wires", "limits.pitch_min", "limits.over_wires_min", min);
        Ok(Some(limits))
    }

    /// What a measurement says of the thread as it stands; without limits the pitch diameter asked for is aimed at.
    pub fn reading(
        &self,
        measured: Size,
        input: &WiresInput,
        (pitch_diameter, limits): (Size, Option<&WireLimits>),
        record: &mut Record,
    ) -> Result<WireReading, Refusal> {
        let compound = input.compound_angle(record);
        let (given, unit) = (&self.given, self.given.unit());
        let over = measured.quantity().in_unit(unit);
        let back =
            self.back(over).filter(|e| (e - given.basics.pitch_diameter_exact).abs() <= 1.5 * given.thread().pitch);
        let Some(back) = back else {
            let usual = self.over(given.basics.pitch_diameter_exact).unwrap_or(over);
            let says = "These wires in this thread cannot give such a reading. Check the thread, the wires and the \
                micrometer.";
            let near = value(given.found(usual).get().si(), measured.quantity().unit, Way::Near);
            return Err(Refusal::no_answer(says, &[("measured_over_wires", near)]));
        };
        let (what, found) = ("Pitch diameter measured", given.found(back));
        let step = match self.correction {
            WireCorrection::Contact => record.look_up(what, "by trial, so that the contact gives the reading"),
            _ => self.step_back(what, record),
        };
        step.with("M", "measured_over_wires", measured).gives("reading.pitch_diameter", found);
        let (aim, against_limits) = match limits {
            Some(limits) => {
                // As sizes, since limits are rounded where they go into the other system.
                let (top, bottom) = (limits.pitch_max.quantity().value, limits.pitch_min.quantity().value);
                let aim = given.found((top + bottom) / 2.0);
                let against = match back {
                    e if e > top + 1e-9 => "above",
                    e if e < bottom - 1e-9 => "below",
                    _ => "within",
                };
                known_steps! { record;
                    look_up "Pitch diameter to aim at", "the middle of the limits as printed",
                        e1 = "limits.pitch_max", e2 = "limits.pitch_min" => "reading.aim", aim;
                    look_up "Against the limits", "above, within or below",
                        E = "reading.pitch_diameter", e1 = "limits.pitch_max", e2 = "limits.pitch_min"
                        => "reading.against_limits", against;
                }
                (aim, Some(against))
            }
            None => {
                let aim = given.found(pitch_diameter.quantity().in_unit(unit));
                known_steps! { record;
                    step "Pitch diameter to aim at", "A = E", E = "pitch_diameter": pitch_diameter
                        => "reading.aim", aim;
                }
                (aim, None)
            }
        };
        let left = (back - aim.quantity().value) / 2.0;
        let left = if left == 0.0 { 0.0 } else { left };
        let infeed_left = given.stated(left);
        let compound_infeed_left = given.stated(left / compound.degrees().to_radians().cos());
        known_steps! { record;
            step "Infeed left on the cross slide, on the radius", "f = (E - A) / 2",
                E = "reading.pitch_diameter", A = "reading.aim" => "reading.infeed_left", infeed_left;
            step "Along the compound slide", "g = f / cos(γ)", f = "reading.infeed_left", γ = "compound_angle": compound
                => "reading.compound_infeed_left", compound_infeed_left;
        }
        if against_limits == Some("below") {
            record
                .note("too_small", "The pitch diameter is already below the least limit. Another cut cannot save it.");
        }
        record.note(
            "infeed_counts",
            "The infeed is on the radius: a dial that reads diameters shows twice as much. Take spring passes first, \
             feed from one side only, and measure again.",
        );
        Ok(WireReading { pitch_diameter: found, aim, against_limits, infeed_left, compound_infeed_left })
    }
}
