//! Cutting speed and spindle speed at a diameter: kinematics.

use super::{Toward, si, to_try};
use crate::declared::step;
use crate::quantity::{CuttingSpeed, FoundCuttingSpeed, FoundSpindleSpeed, Kind, SiValue, Size, kind, text};
use crate::refusal::Refusal;
use crate::working::Record;
use std::f64::consts::PI;

/// A cutting speed wanted, and the field or the step that it comes from.
#[derive(Clone, Copy, Debug)]
pub struct WantedSpeed {
    /// The field or the step.
    pub of: &'static str,
    /// The speed.
    pub speed: CuttingSpeed,
}

impl WantedSpeed {
    /// A share of it in its own unit, as a step that gives `of`.
    pub fn times(&self, share: f64, of: &'static str) -> Self {
        let quantity = self.speed.quantity();
        Self { of, speed: CuttingSpeed::stated(text::tidy(quantity.value * share), quantity.unit) }
    }
}

impl From<CuttingSpeed> for WantedSpeed {
    fn from(speed: CuttingSpeed) -> Self {
        Self { of: "cutting_speed", speed }
    }
}

/// The diameter at which the cutting speed counts, and the field or the step that it comes from.
#[derive(Clone, Copy, Debug)]
pub struct CutDiameter {
    /// The field or the step.
    pub of: &'static str,
    /// The diameter.
    pub size: Size,
}

impl CutDiameter {
    /// The field to change for another diameter, if one has it.
    pub fn field(&self) -> Option<&'static str> {
        match self.of {
            // A thread is not named by its size alone, and its cutter must fit it.
            "size" | "cutter_diameter" => None,
            "outer_diameter" => Some("outer_diameter"),
            _ => Some("diameter"),
        }
    }
}

impl From<Size> for CutDiameter {
    fn from(size: Size) -> Self {
        Self { of: "diameter", size }
    }
}

/// The exact spindle speed for a cutting speed at a diameter: the step that gives `exact_speed`.
pub fn exact_speed(
    wanted: WantedSpeed,
    across: CutDiameter,
    record: &mut Record,
) -> Result<FoundSpindleSpeed, Refusal> {
    let (cutting_speed, diameter) = (wanted.speed, across.size);
    let exact: FoundSpindleSpeed = step!(record, "Exact spindle speed",
        n: exact_speed = V / (π * D), V = (wanted.of): cutting_speed, D = (across.of): diameter);
    let most = <kind::SpindleSpeed as Kind>::ROW.most;
    if exact.get().si() <= most {
        return Ok(exact);
    }
    let slower = PI * si(&diameter) * most;
    let larger = si(&cutting_speed) / (PI * most);
    let ways = [
        (Some("cutting_speed"), to_try::<kind::CuttingSpeed>(slower, cutting_speed.quantity().unit, Toward::Less)),
        (across.field(), to_try::<kind::Size>(larger, diameter.quantity().unit, Toward::More)),
    ];
    let ways: Vec<_> = ways.into_iter().filter_map(|(field, value)| field.zip(value)).collect();
    Err(Refusal::no_answer("No spindle turns as fast as this cutting speed needs at this diameter.", &ways))
}

/// The cutting speed at a diameter when the spindle turns at `speed`, a field named `of`: the step
/// that gives `field`.
pub fn cutting_speed_at(
    field: &'static str,
    (of, speed): (&'static str, FoundSpindleSpeed),
    across: CutDiameter,
    record: &mut Record,
) -> FoundCuttingSpeed {
    step!(record, "Cutting speed at that spindle speed",
        V: (field) = π * D * n, D = (across.of): across.size, n = (of): speed)
}
