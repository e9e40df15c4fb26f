//! The module: as given, by the diametral pitch, or the standard pitch nearest to a measured outside diameter.

use super::{SpurGearInput, ToothDepth};
use crate::calculators::prelude::*;
use crate::reference::gears::{GearPitch, gear_pitches};

/// A standard pitch that a gear may have.
#[derive(Clone, Debug, Gives)]
pub struct PitchCandidate {
    /// What the trade calls it.
    #[label("")]
    pub name: String,
    /// How much the gear measures more than one of it; negative where less.
    #[label("measured larger by")]
    pub off: FoundDifference,
}

/// How many standard pitches of each system are named.
const NAMED: usize = 2;

/// Teeth by which the outside diameter is larger than the pitch diameter, in modules.
fn beyond(input: &SpurGearInput) -> (f64, &'static str) {
    if input.depth == Some(ToothDepth::Stub) {
        (1.6, "O = m × (z + 8 / 5) + 2 × x")
    } else {
        (2.0, "O = m × (z + 2) + 2 × x")
    }
}

/// The module, on record, with the standard pitches near a measured outside diameter.
pub fn find(input: &SpurGearInput, record: &mut Record) -> Result<(FoundSize, Option<Vec<PitchCandidate>>), Refusal> {
    if let Some(module) = input.module {
        record.choose("Module", "as given").with("m", "module", module).gives("module", module.found());
        return Ok((module.found(), None));
    }
    if let Some(pitch) = input.diametral_pitch {
        let module = FoundSize::of_si(0.0254 / pitch.get());
        let inch = FoundSize::stated(1.0, Unit::Inch);
        let step = record.step("Module", "m = i / P").with("i", "constant:one_inch", inch);
        step.with("P", "diametral_pitch", pitch.get()).gives("module", module);
        return Ok((module, None));
    }
    if let Some(pitch) = input.circular_pitch {
        let module: FoundSize = step!(record, "Module", m: module = p / π, p = circular_pitch: pitch);
        return Ok((module, None));
    }
    let Some(measured) = input.outside_diameter else {
        return Err(Refusal::one(Wrong::new("module", Code::FieldMissing, super::ONE_PITCH, "2 mm")));
    };
    let shift = input.shift(record);
    let (beyond, formula) = beyond(input);
    let teeth = f64::from(input.teeth.get());
    let outside = |row: &GearPitch| row.module() * (teeth + beyond) + 2.0 * shift.si();
    let off = |row: &GearPitch| measured.si() - outside(row);
    let mut rows: Vec<&'static GearPitch> = Vec::new();
    for of_modules in [true, false] {
        let mut all: Vec<&'static GearPitch> =
            gear_pitches().iter().filter(|row| row.is_module() == of_modules).collect();
        all.sort_by(|a, b| off(a).abs().total_cmp(&off(b).abs()));
        rows.extend(all.into_iter().take(NAMED));
    }
    rows.sort_by(|a, b| off(a).abs().total_cmp(&off(b).abs()));
    for row in &rows {
        record.source_of_row(row.source(), row.name(), &row.trust);
    }
    let candidates: Vec<PitchCandidate> =
        rows.iter().map(|row| PitchCandidate { name: row.name(), off: FoundDifference::of_si(off(row)) }).collect();
    record
        .look_up("Standard pitches nearest to the outside diameter", "two of each system, the nearest first")
        .gives("candidates.name", column(&candidates, |row| row.name.clone()));
    let modules: Vec<FoundSize> = rows.iter().map(|row| FoundSize::of_si(row.module())).collect();
    record.look_up("Their modules", "the same rows").gives("candidate_module", modules.clone());
    let step =
        record.step("Outside diameter that each would have", formula).with("m", "candidate_module", modules.clone());
    let step = step.with("z", "teeth", input.teeth.get()).with("x", "shift", shift);
    let outsides: Vec<FoundSize> = rows.iter().map(|row| FoundSize::of_si(outside(row))).collect();
    step.gives("candidate_outside", outsides.clone());
    let step = record.step("Measured larger by", "e = M - O").with("M", "outside_diameter", measured);
    step.with("O", "candidate_outside", outsides).gives("candidates.off", column(&candidates, |row| row.off));
    let module = modules[0];
    record.choose("Module", "that of the nearest").with("m", "candidate_module", modules).gives("module", module);
    record.note(
        "pitch_is_likely",
        "The pitch is the likely one, not a certain one. Tips wear and gears are corrected: lay the gear on a known gear or \
         rack of that pitch, and measure the span too.",
    );
    if off(rows[0]).abs() > 0.02 * measured.si() {
        record.note(
            "pitch_far_off",
            "No standard pitch comes within 2 percent. Count the teeth again; the gear may be corrected, or made to a \
             circular pitch.",
        );
    } else if off(rows[1]).abs() < 0.01 * measured.si() {
        record.note(
            "pitch_close_call",
            "The next standard pitch is within 1 percent as well. Decide by laying on a known gear.",
        );
    }
    Ok((module, Some(candidates)))
}
