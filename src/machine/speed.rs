//! Cutting speed and spindle speed at a diameter: kinematics.

use super::{Published, Toward, si, to_try};
use crate::declared::step;
use crate::quantity::{
    CuttingSpeed, FoundCuttingSpeed, FoundSpindleSpeed, Kind, SiValue, Size, SpindleSpeed, kind, text,
};
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
    /// What is published for the cut.
    pub published: Option<Published<kind::CuttingSpeed>>,
}

impl WantedSpeed {
    /// A share of it in its own unit, as a step that gives `of`; the published range is that of the whole.
    pub fn times(&self, share: f64, of: &'static str) -> Self {
        let quantity = self.speed.quantity();
        Self { of, speed: CuttingSpeed::stated(text::tidy(quantity.value * share), quantity.unit), ..*self }
    }

    /// The same for an operation that the range is not published for.
    pub fn of_another_operation(self) -> Self {
        Self { published: None, ..self }
    }
}

/// What the spindle's speed is to come from.
#[derive(Clone, Copy, Debug)]
pub enum Wanted {
    /// A cutting speed.
    Cutting(WantedSpeed),
    /// A spindle speed that is set, with what is published for the cut.
    Turns(SpindleSpeed, Option<Published<kind::CuttingSpeed>>),
}

impl Wanted {
    /// The same with another cutting speed; a spindle speed that is set stays.
    pub fn map(self, other: impl FnOnce(WantedSpeed) -> WantedSpeed) -> Self {
        match self {
            Self::Cutting(wanted) => Self::Cutting(other(wanted)),
            set => set,
        }
    }

    /// What is published for the cut.
    pub fn published(&self) -> Option<Published<kind::CuttingSpeed>> {
        match self {
            Self::Cutting(wanted) => wanted.published,
            Self::Turns(_, published) => *published,
        }
    }
}

impl From<CuttingSpeed> for Wanted {
    fn from(speed: CuttingSpeed) -> Self {
        Self::Cutting(WantedSpeed { of: "cutting_speed", speed, published: None })
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

/// The exact spindle speed for a cutting speed at a diameter, or the one that is set: the step that gives `exact_speed`.
pub fn exact_speed(wanted: Wanted, across: CutDiameter, record: &mut Record) -> Result<FoundSpindleSpeed, Refusal> {
    let wanted = match wanted {
        Wanted::Cutting(wanted) => wanted,
        Wanted::Turns(turns, _) => {
            let step = record.choose("Exact spindle speed", "the speed that is set").with("N", "spindle_speed", turns);
            step.gives("exact_speed", turns.found());
            return Ok(turns.found());
        }
    };
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
    Err(Refusal::no_answer("No spindle turns fast enough for this cutting speed at this diameter.", &ways))
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
