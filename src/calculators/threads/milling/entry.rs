//! The way onto the path and off it, which keeps step with the thread: a half circle from the middle of a
//! hole, a straight line that touches the circle round a stud.

use super::ThreadMillingInput;
use super::path::{Helix, Sizes};
use crate::quantity::{FoundSize, SiValue};
use crate::threading::GivenThread;
use crate::working::Record;
use std::f64::consts::PI;

/// The way in.
pub struct WayIn {
    /// How far it moves along the axis.
    pub rise: FoundSize,
    /// Diameter of the half circle in a hole.
    pub arc_diameter: Option<FoundSize>,
    /// Length of the straight way to a stud.
    pub length: Option<FoundSize>,
}

/// The way in, with its steps.
pub fn find(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    helix: &Helix,
    record: &mut Record,
) -> WayIn {
    let lead = given.lead.get().si();
    let path = sizes.path.get().si();
    if sizes.greatest_cutter.is_some() {
        let arc = FoundSize::of(SiValue::from_si(path / 2.0));
        record
            .step("Half circle from the middle of the hole onto the path", "A = Dp / 2")
            .with("Dp", "path_diameter", sizes.path)
            .gives("entry_arc_diameter", arc);
        let rise = FoundSize::of(SiValue::from_si(lead / 4.0));
        record.step("Rise along the half circle", "q = L / 4").with("L", "lead", given.lead).gives("entry_rise", rise);
        record.note(
            "entry_quarter",
            format!(
                "The half circle through the middle of the hole goes a quarter of the way round the thread's axis, {}: with a \
                 quarter of the lead, {}wards and evenly along it, the cutter comes onto the helix in step. Out it goes the same \
                 way, on by another quarter.",
                helix.turns.as_str(),
                helix.travels.as_str()
            ),
        );
        return WayIn { rise, arc_diameter: Some(arc), length: None };
    }
    let clear = (sizes.start.get().si() + input.cutter_diameter.get().si()) / 2.0;
    let long = (clear * clear - path * path / 4.0).max(0.0).sqrt();
    let length = FoundSize::of(SiValue::from_si(long));
    record
        .step("Straight way from clear of the stud onto the path", "s = √(((Ds + Dc) / 2) ^ 2 - (Dp / 2) ^ 2)")
        .with("Ds", "start_diameter", sizes.start)
        .with("Dc", "cutter_diameter", input.cutter_diameter)
        .with("Dp", "path_diameter", sizes.path)
        .gives("entry_length", length);
    let rise = FoundSize::of(SiValue::from_si(lead * long / (PI * path)));
    record
        .step("Rise along it, as steep as the helix", "q = L × s / (π × Dp)")
        .with("L", "lead", given.lead)
        .with("s", "entry_length", length)
        .with("Dp", "path_diameter", sizes.path)
        .gives("entry_rise", rise);
    record.note(
        "entry_clear",
        "At the beginning of that way the cutter just touches the stud: begin further out along the same line, on the same \
         slope.",
    );
    WayIn { rise, arc_diameter: None, length: Some(length) }
}
