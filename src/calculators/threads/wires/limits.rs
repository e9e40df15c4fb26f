//! The limits of a class over wires, and what a measurement says against them, with their steps.

use super::steps::{Measured, Wires};
use super::{WireCorrection, WireLimits, WireReading};
use crate::quantity::{FoundDifference, FoundLowerLimit, FoundUpperLimit, SiValue};
use crate::reference::threads::{Chosen, ExternalClass, Lacking, default_classes, external_limits};
use crate::refusal::{Refusal, Wrong};
use crate::suggestion::{Way, value};
use crate::working::Record;

impl Wires<'_> {
    /// Limits of the class, over the wires.
    pub fn limits(&self, field: Option<&ExternalClass>, record: &mut Record) -> Result<Option<WireLimits>, Refusal> {
        let thread = self.given.thread();
        let counting = ExternalClass::counting(thread, field);
        let chosen = counting.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen);
        let found = match external_limits(thread, counting.as_ref().map(|(class, _)| class.as_str()), None) {
            Ok(found) => found,
            Err(error) => {
                let Lacking { in_class, unread } = ExternalClass::lacking(thread, chosen, error);
                if chosen == Chosen::Usual {
                    record.note("no_limits", unread.says);
                    return Ok(None);
                }
                return Err(Refusal::one(Wrong::unread(if in_class { "class" } else { "thread" }, unread)));
            }
        };
        let unit = self.given.unit();
        if chosen == Chosen::Usual {
            let says = format!("No class is named: {}.", default_classes(thread).says);
            record.assume("class", &found.class, says);
        }
        crate::threading::cite_limits(&found.tolerances, record);
        record
            .look_up("Class", "as it is named, else the usual one")
            .with("T", "thread", self.given.designation.text())
            .gives("limits.class", found.class.clone());
        let table = format!("{}: class {}, as printed", self.given.designation.standard(), found.class);
        let (Some(over_max), Some(over_min)) = (self.over(found.pitch_max), self.over(found.pitch_min)) else {
            return Ok(None);
        };
        let (pitch_max, over_max) =
            (FoundUpperLimit::stated(found.pitch_max, unit), FoundUpperLimit::stated(over_max, unit));
        let (pitch_min, over_min) =
            (FoundLowerLimit::stated(found.pitch_min, unit), FoundLowerLimit::stated(over_min, unit));
        record.look_up("Greatest pitch diameter", table.clone()).gives("limits.pitch_max", pitch_max);
        record.look_up("Least pitch diameter", table).gives("limits.pitch_min", pitch_min);
        if self.correction == WireCorrection::Contact {
            let rule = "the same contact at this pitch diameter";
            record
                .look_up("Greatest over the wires", rule)
                .with("E", "limits.pitch_max", pitch_max)
                .gives("limits.over_wires_max", over_max);
            record
                .look_up("Least over the wires", rule)
                .with("E", "limits.pitch_min", pitch_min)
                .gives("limits.over_wires_min", over_min);
        } else {
            self.with_groove("Greatest over the wires", self.formula(), record)
                .with("E", "limits.pitch_max", pitch_max)
                .gives("limits.over_wires_max", over_max);
            self.with_groove("Least over the wires", self.formula(), record)
                .with("E", "limits.pitch_min", pitch_min)
                .gives("limits.over_wires_min", over_min);
        }
        Ok(Some(WireLimits {
            class: found.class,
            pitch_max,
            pitch_min,
            over_wires_max: over_max,
            over_wires_min: over_min,
        }))
    }

    /// What a measurement says of the thread as it stands.
    pub fn reading(
        &self,
        measured: &Measured,
        limits: Option<&WireLimits>,
        record: &mut Record,
    ) -> Result<WireReading, Refusal> {
        let (given, unit) = (&self.given, self.given.unit());
        let over = measured.over.quantity().in_unit(unit);
        let back =
            self.back(over).filter(|e| (e - given.basics.pitch_diameter_exact).abs() <= 1.5 * given.thread().pitch);
        let Some(back) = back else {
            let usual = self.over(given.basics.pitch_diameter_exact).map_or(over, |usual| usual);
            let says =
                "A reading so far off is none of these wires in this thread; look at thread, wires and micrometer.";
            let near = value(given.found(usual).get().si(), measured.over.quantity().unit, Way::Near);
            return Err(Refusal::no_answer(says, &[("measured_over_wires", near)]));
        };
        let found = given.found(back);
        if self.correction == WireCorrection::Contact {
            record
                .look_up("Pitch diameter measured", "by trial, so that the same contact gives the reading")
                .with("M", "measured_over_wires", measured.over)
                .gives("reading.pitch_diameter", found);
        } else {
            let formula = match self.correction {
                WireCorrection::LeadAngle => "E = M - W × (1 + 1 / sin(α)) + P / (2 × tan(α)) - c",
                _ => "E = M - W × (1 + 1 / sin(α)) + P / (2 × tan(α))",
            };
            self.with_groove("Pitch diameter measured", formula, record)
                .with("M", "measured_over_wires", measured.over)
                .gives("reading.pitch_diameter", found);
        }
        let (aim, against) = match limits {
            Some(limits) => {
                // As sizes, since limits are rounded where they go into the other system.
                let (top, bottom) = (limits.pitch_max.quantity().value, limits.pitch_min.quantity().value);
                let aim = given.found((top + bottom) / 2.0);
                record
                    .look_up("Pitch diameter to aim at", "the middle of the limits as printed")
                    .with("e1", "limits.pitch_max", limits.pitch_max)
                    .with("e2", "limits.pitch_min", limits.pitch_min)
                    .gives("reading.aim", aim);
                let against = match back {
                    e if e > top + 1e-9 => "above",
                    e if e < bottom - 1e-9 => "below",
                    _ => "within",
                };
                record
                    .look_up("Against the limits", "above, within or below")
                    .with("E", "reading.pitch_diameter", found)
                    .with("e1", "limits.pitch_max", limits.pitch_max)
                    .with("e2", "limits.pitch_min", limits.pitch_min)
                    .gives("reading.against_limits", against);
                (aim, Some(against))
            }
            None => {
                let aim = given.found(measured.pitch_diameter.quantity().in_unit(unit));
                record
                    .step("Pitch diameter to aim at", "A = E")
                    .with("E", "pitch_diameter", measured.pitch_diameter)
                    .gives("reading.aim", aim);
                (aim, None)
            }
        };
        let left = (back - aim.quantity().value) / 2.0;
        let left = if left == 0.0 { 0.0 } else { left };
        let cross = FoundDifference::stated(left, unit);
        let along = FoundDifference::stated(left / measured.compound.degrees().to_radians().cos(), unit);
        record
            .step("Infeed left on the cross slide, on the radius", "f = (E - A) / 2")
            .with("E", "reading.pitch_diameter", found)
            .with("A", "reading.aim", aim)
            .gives("reading.infeed_left", cross);
        record
            .step("Along the compound slide", "g = f / cos(γ)")
            .with("f", "reading.infeed_left", cross)
            .with("γ", "compound_angle", measured.compound)
            .gives("reading.compound_infeed_left", along);
        if against == Some("below") {
            record.note("too_small", "The pitch diameter is already below its least limit: no further cut mends that.");
        }
        record.note(
            "infeed_counts",
            "The infeed is on the radius: a dial that reads the diameter shows twice as much. Come up to it from one \
             side, take spring passes first, and measure again.",
        );
        Ok(WireReading {
            pitch_diameter: found,
            aim,
            against_limits: against,
            infeed_left: cross,
            compound_infeed_left: along,
        })
    }
}
