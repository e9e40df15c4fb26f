//! The blank and its teeth: diameters, depths, and the thickness of a tooth along the arc and straight across.

use super::{SpurGearInput, ToothDepth};
use crate::arithmetic::involute::involute;
use crate::calculators::prelude::*;

const OLDER: Constant = Constant {
    of: "constant:older_whole_depth",
    value: 2.157,
    source: "ansi_b6_1",
    place: "whole depth of the older full-depth tooth, in modules",
};

/// Teeth and blank, all on record.
pub struct Depth {
    pub blank: FoundSize,
    pub whole: FoundDepthSetting,
    pub diametral_pitch: f64,
    pub pitch_diameter: FoundSize,
    pub root: FoundSize,
    pub circular_pitch: FoundSize,
    pub thickness: FoundSize,
    pub chordal_thickness: FoundSize,
    pub chordal_addendum: FoundExtent,
    /// The addendum without the shift, in meters.
    pub addendum_alone: f64,
    /// The profile shift, in meters.
    pub shift: f64,
}

impl Depth {
    /// Whether the flanks meet inside of the blank's diameter.
    pub fn is_pointed(&self, alpha: EdgeAngle) -> bool {
        let at_tip = self.pitch_diameter.si() * angle::cos(alpha.degrees()) / self.blank.si();
        let half = self.thickness.si() / self.pitch_diameter.si();
        at_tip < 1.0 && half + involute(alpha.degrees().to_radians()) <= involute(at_tip.acos())
    }
}

fn form(input: &SpurGearInput, alpha: EdgeAngle, record: &mut Record) -> ToothDepth {
    let (usual, says) = if text::tidy(alpha.degrees()) < 18.0 {
        (ToothDepth::Older, "Gears of 14.5° mostly have the older whole depth of 2.157 modules.")
    } else if input.diametral_pitch.is_some_and(|pitch| pitch.get() >= 20.0) {
        (ToothDepth::Fine, "The fine pitches from 20 up have a whole depth of 2.2 modules and 0.002 in.")
    } else {
        (ToothDepth::FullDepth, "Full-depth teeth are assumed, 2.25 modules deep.")
    };
    record.or_assume(input.depth, "depth", usual, says)
}

/// Everything that hangs on the module and the depth.
pub fn find(input: &SpurGearInput, alpha: EdgeAngle, module: FoundSize, record: &mut Record) -> Result<Depth, Refusal> {
    let form = form(input, alpha, record);
    let (shift, thinning, teeth) = (input.shift(record), input.thinning(record), input.teeth.get());
    let (m, z, x) = (module.si(), f64::from(teeth), shift.si());
    let inch = FoundSize::stated(1.0, Unit::Inch);
    let diametral_pitch = text::tidy(0.0254 / m);
    let step = record.step("Diametral pitch", "P = i / m").with("i", "constant:one_inch", inch);
    step.with("m", "module", module).gives("diametral_pitch", diametral_pitch);
    let pitch_diameter: FoundSize =
        step!(record, "Pitch diameter", D: pitch_diameter = z * m, z = teeth: f64::from(teeth), m = module: module);
    let circular_pitch = FoundSize::of_si(PI * m);
    record.step("Circular pitch", "p = π × m").with("m", "module", module).gives("circular_pitch", circular_pitch);
    let (addendum_alone, formula) =
        if form == ToothDepth::Stub { (0.8 * m, "a = 4 × m / 5 + x") } else { (m, "a = m + x") };
    let addendum = addendum_alone + x;
    let refuse = |says| Refusal::one(Wrong::new("shift", Code::ValueOutOfRange, says, "0 mm"));
    if addendum <= 0.0 {
        return Err(refuse("With this shift inward nothing is left of the teeth outside of the pitch circle."));
    }
    let addendum = FoundExtent::of_si(addendum);
    record.step("Addendum", formula).with("m", "module", module).with("x", "shift", shift).gives("addendum", addendum);
    let blank: FoundSize = step!(record, "Blank diameter", O: blank_diameter = D + 2.0 * a,
        D = pitch_diameter, a = addendum);
    let whole = find_whole_depth(form, module, record);
    let root = blank.si() - 2.0 * whole.si();
    if root <= 0.0 {
        return Err(refuse("With this shift inward nothing is left below the teeth."));
    }
    let root = FoundSize::of_si(root);
    record
        .step("Root diameter", "R = O - 2 × w")
        .with("O", "blank_diameter", blank)
        .with("w", "whole_depth", whole)
        .gives("root_diameter", root);
    let tangent = angle::sin(alpha.degrees()) / angle::cos(alpha.degrees());
    let thickness = PI * m / 2.0 + 2.0 * x * tangent - thinning.si();
    if thickness <= 0.0 || thickness >= PI * m {
        let says = "With this shift and this thinning no tooth or no space is left at the pitch circle.";
        let wrong = |field: &str, good: &str| Wrong::new(field, Code::ValueOutOfRange, says, good);
        return Err(Refusal(vec![wrong("shift", "0 mm"), wrong("thinning", "0 mm")]));
    }
    let thickness = FoundSize::of_si(thickness);
    record
        .step("Tooth thickness along the arc", "t = π × m / 2 + 2 × x × tan(α) - j")
        .with("m", "module", module)
        .with("x", "shift", shift)
        .with("α", "pressure_angle", alpha)
        .with("j", "thinning", thinning)
        .gives("tooth_thickness", thickness);
    let half = thickness.si() / pitch_diameter.si();
    let chordal_thickness = FoundSize::of_si(z * m * half.sin());
    record
        .step("Chordal thickness", "c = D × sin(t / D)")
        .with("D", "pitch_diameter", pitch_diameter)
        .with("t", "tooth_thickness", thickness)
        .gives("chordal_thickness", chordal_thickness);
    let chordal_addendum = FoundExtent::of_si(addendum.si() + z * m * (half / 2.0).sin().powi(2));
    record
        .step("Chordal addendum", "h = a + D × (sin(t / (2 × D)))^2")
        .with("a", "addendum", addendum)
        .with("D", "pitch_diameter", pitch_diameter)
        .with("t", "tooth_thickness", thickness)
        .gives("chordal_addendum", chordal_addendum);
    Ok(Depth {
        blank,
        whole,
        diametral_pitch,
        pitch_diameter,
        root,
        circular_pitch,
        thickness,
        chordal_thickness,
        chordal_addendum,
        addendum_alone,
        shift: x,
    })
}

fn find_whole_depth(form: ToothDepth, module: FoundSize, record: &mut Record) -> FoundDepthSetting {
    let m = module.si();
    let clearance = FoundExtent::stated(0.002, Unit::Inch);
    let (depth, formula) = match form {
        ToothDepth::FullDepth => (2.25 * m, "w = 9 × m / 4"),
        ToothDepth::Older => (OLDER.value * m, "w = k × m"),
        ToothDepth::Fine => (2.2 * m + clearance.si(), "w = 11 × m / 5 + c"),
        ToothDepth::Stub => (1.8 * m, "w = 9 × m / 5"),
    };
    let depth = FoundDepthSetting::of_si(depth);
    let mut step = record.step("Whole depth", formula).with("m", "module", module);
    if form == ToothDepth::Older {
        step = step.constant("k", &OLDER);
    }
    if form == ToothDepth::Fine {
        step = step.with("c", "constant:fine_pitch_clearance", clearance);
    }
    step.gives("whole_depth", depth);
    depth
}
