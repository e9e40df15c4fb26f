//! What the teeth measure over several of them and over pins, and how much deeper to cut from what they measure now.

use super::SpurGearInput;
use super::depth::Depth;
use crate::arithmetic::involute::{angle_of_involute, involute};
use crate::calculators::prelude::*;
use crate::suggestion::{self, Way};

const USUAL_PIN: Constant = Constant {
    of: "constant:usual_pin",
    value: 1.728,
    source: "wire_tables",
    place: "pins of 1.728 over the diametral pitch for external spur gears",
};

/// The teeth over several, over pins, and what is still to cut.
#[derive(Debug, Gives)]
pub struct Measures {
    /// How much deeper to cut from here; negative if the teeth are too thin already.
    #[label("Still to cut")]
    #[needs(measured_span | measured_over_pins)]
    pub infeed: Option<FoundDifference>,
    /// How many teeth the span runs over.
    #[label("Teeth spanned")]
    pub teeth_over: u32,
    /// Span over them.
    pub span: FoundSize,
    /// Diameter of the pins.
    pub pins: FoundSize,
    /// Over two pins in opposite spaces, or those nearest to it.
    pub over_pins: FoundSize,
}

/// All of it, on record.
pub fn find(
    input: &SpurGearInput,
    alpha: EdgeAngle,
    module: FoundSize,
    depth: &Depth,
    record: &mut Record,
) -> Result<Measures, Refusal> {
    let (teeth, z) = (input.teeth.get(), f64::from(input.teeth.get()));
    let base = FoundSize::of_si(depth.pitch_diameter.si() * angle::cos(alpha.degrees()));
    record
        .step("Base diameter", "B = D × cos(α)")
        .with("D", "pitch_diameter", depth.pitch_diameter)
        .with("α", "pressure_angle", alpha)
        .gives("base_diameter", base);
    let teeth_over = find_teeth_over(input, alpha, depth, record);
    let a = alpha.degrees().to_radians();
    let span = base.si()
        * (depth.thickness.si() / depth.pitch_diameter.si() + PI * f64::from(teeth_over - 1) / z + involute(a));
    let span = FoundSize::of_si(span);
    record
        .step("Span over the teeth", "W = B × (t / D + π × (k - 1) / z + tan(α) - α)")
        .with("B", "base_diameter", base)
        .with("t", "tooth_thickness", depth.thickness)
        .with("D", "pitch_diameter", depth.pitch_diameter)
        .with("k", "teeth_over", teeth_over)
        .with("z", "teeth", teeth)
        .with("α", "pressure_angle", alpha)
        .gives("span", span);
    check_span(teeth_over, span, base, depth, record);
    let pins = match input.pin_diameter {
        Some(pin) => {
            record.choose("Pins", "as given").with("d", "pin_diameter", pin).gives("pins", pin.found());
            pin.found()
        }
        None => {
            let pin = FoundSize::of_si(USUAL_PIN.value * module.si());
            let step = record.step("Pins", "d = k × m").constant("k", &USUAL_PIN);
            step.with("m", "module", module).gives("pins", pin);
            pin
        }
    };
    let value = depth.thickness.si() / depth.pitch_diameter.si() + involute(a) + pins.si() / base.si() - PI / z;
    record
        .step("Involute of the angle at the pin's center", "v = t / D + tan(α) - α + d / B - π / z")
        .with("t", "tooth_thickness", depth.thickness)
        .with("D", "pitch_diameter", depth.pitch_diameter)
        .with("α", "pressure_angle", alpha)
        .with("d", "pins", pins)
        .with("B", "base_diameter", base)
        .with("z", "teeth", teeth)
        .gives("involute_at_pin", value);
    // Where the pin touches: its tangent to the base circle is shorter by the pin's radius.
    let touches = |phi: f64| {
        let touch = phi.tan() - pins.si() / base.si();
        touch > 0.0 && base.si() * touch.hypot(1.0) < depth.blank.si()
    };
    let Some(phi) = angle_of_involute(value).filter(|phi| touches(*phi)) else {
        // Pins that touch the flanks at the pitch circle.
        let half_space = PI / z - depth.thickness.si() / depth.pitch_diameter.si();
        let good = base.si() * ((a + half_space).tan() - a.tan());
        let unit = input.pin_diameter.map_or(input.unit(), |pin| pin.quantity().unit);
        let says = "These pins do not fit: they sink below the flanks, or touch only the tips.";
        let good = suggestion::value(good, unit, Way::Near);
        return Err(Refusal::one(Wrong::new("pin_diameter", Code::ValueOutOfRange, says, good)));
    };
    let at_pin = FoundAngle::of_si(phi);
    record
        .look_up("Angle at the pin's center", "the angle whose tangent exceeds it by the involute")
        .with("v", "involute_at_pin", value)
        .gives("angle_at_pin", at_pin);
    let odd = teeth % 2 == 1;
    let factor = if odd { (PI / (2.0 * z)).cos() } else { 1.0 };
    let over = base.si() / phi.cos() * factor + pins.si();
    let over_pins = FoundSize::of_si(over);
    let formula = if odd { "M = B / cos(φ) × cos(π / (2 × z)) + d" } else { "M = B / cos(φ) + d" };
    let step = record.step("Over the pins", formula).with("B", "base_diameter", base).with("φ", "angle_at_pin", at_pin);
    let step = if odd { step.with("z", "teeth", teeth) } else { step };
    step.with("d", "pins", pins).gives("over_pins", over_pins);
    if over <= depth.blank.si() {
        record.note("pins_below_tips", "These pins lie below the tips of the teeth; larger ones can be measured over.");
    }
    if base.si() / phi.cos() - pins.si() < depth.root.si() {
        record.note("pins_at_root", "These pins may touch the root before the flanks; look, and take larger ones.");
    }
    let infeed = find_infeed(input, alpha, (span, over_pins), (base, pins, factor), depth, record)?;
    Ok(Measures { infeed, teeth_over, span, pins, over_pins })
}

/// The teeth to span: those that touch nearest to the shifted pitch circle.
fn find_teeth_over(input: &SpurGearInput, alpha: EdgeAngle, depth: &Depth, record: &mut Record) -> u32 {
    if let Some(given) = input.span_teeth {
        record
            .choose("Teeth spanned", "as given")
            .with("k", "span_teeth", given.get())
            .gives("teeth_over", given.get());
        return given.get();
    }
    let z = f64::from(input.teeth.get());
    let (a, f) = (alpha.degrees().to_radians(), 2.0 * depth.shift / depth.pitch_diameter.si());
    let touch = ((1.0 + f).powi(2) - a.cos().powi(2)).max(0.0).sqrt() / a.cos() - involute(a) - f * a.tan();
    let most = (input.teeth.get() - 1).max(2);
    let teeth_over = ((z * touch / PI + 0.5).round().max(2.0) as u32).min(most);
    record
        .look_up("Teeth spanned", "as many as touch nearest to half way up the teeth, at least two")
        .with("z", "teeth", input.teeth.get())
        .with("α", "pressure_angle", alpha)
        .gives("teeth_over", teeth_over);
    teeth_over
}

fn check_span(teeth_over: u32, span: FoundSize, base: FoundSize, depth: &Depth, record: &mut Record) {
    // Where the jaws touch, if both touch at the same height.
    let touch = base.si().hypot(span.si());
    if touch >= depth.blank.si() {
        let fewer = if teeth_over > 2 { " Span one tooth fewer." } else { " Measure over pins." };
        record.note("span_off_tips", format!("Over so many teeth the jaws miss the flanks, past the tips.{fewer}"));
    } else if touch <= depth.root.si() {
        record.note("span_at_root", "Over so few teeth the jaws come to the root. Span one tooth more.");
    }
}

fn find_infeed(
    input: &SpurGearInput,
    alpha: EdgeAngle,
    (span, over_pins): (FoundSize, FoundSize),
    (base, pins, factor): (FoundSize, FoundSize, f64),
    depth: &Depth,
    record: &mut Record,
) -> Result<Option<FoundDifference>, Refusal> {
    let (sine, cosine) = (angle::sin(alpha.degrees()), angle::cos(alpha.degrees()));
    let infeed = if let Some(measured) = input.measured_span {
        let infeed = FoundDifference::of_si((measured.si() - span.si()) / (2.0 * sine));
        record
            .step("Still to cut", "f = (M - W) / (2 × sin(α))")
            .with("M", "measured_span", measured)
            .with("W", "span", span)
            .with("α", "pressure_angle", alpha)
            .gives("infeed", infeed);
        infeed
    } else if let Some(measured) = input.measured_over_pins {
        let odd = factor != 1.0;
        let cos_phi = base.si() * factor / (measured.si() - pins.si());
        if !(0.0..1.0).contains(&cos_phi) {
            let good = suggestion::value(over_pins.si() * 1.002, measured.quantity().unit, Way::Up);
            let says = "The pins cannot measure so little: their centers would lie inside of the base circle.";
            return Err(Refusal::one(Wrong::new("measured_over_pins", Code::ValueOutOfRange, says, good)));
        }
        let phi = FoundAngle::of_si(cos_phi.acos());
        let formula = if odd { "φ = acos(B × cos(π / (2 × z)) / (M - d))" } else { "φ = acos(B / (M - d))" };
        let step = record.step("Angle at the pin's center now", formula).with("B", "base_diameter", base);
        let step = if odd { step.with("z", "teeth", input.teeth.get()) } else { step };
        step.with("M", "measured_over_pins", measured).with("d", "pins", pins).gives("angle_at_pin_now", phi);
        let (z, a) = (f64::from(input.teeth.get()), alpha.degrees().to_radians());
        let now = depth.pitch_diameter.si() * (involute(phi.si()) - involute(a) - pins.si() / base.si() + PI / z);
        let now = FoundDifference::of_si(now);
        record
            .step("Tooth thickness now", "n = D × (tan(φ) - φ - tan(α) + α - d / B + π / z)")
            .with("D", "pitch_diameter", depth.pitch_diameter)
            .with("φ", "angle_at_pin_now", phi)
            .with("α", "pressure_angle", alpha)
            .with("d", "pins", pins)
            .with("B", "base_diameter", base)
            .with("z", "teeth", input.teeth.get())
            .gives("thickness_now", now);
        let infeed = FoundDifference::of_si((now.si() - depth.thickness.si()) * cosine / (2.0 * sine));
        record
            .step("Still to cut", "f = (n - t) / (2 × tan(α))")
            .with("n", "thickness_now", now)
            .with("t", "tooth_thickness", depth.thickness)
            .with("α", "pressure_angle", alpha)
            .gives("infeed", infeed);
        infeed
    } else {
        return Ok(None);
    };
    if infeed.si().abs() > depth.whole.si() {
        record.note(
            "measured_far_off",
            "That is more than the whole depth. Check that you measured over as many teeth, or over such pins, as the \
             answer says.",
        );
    }
    if infeed.si() < 0.0 {
        record.note("too_thin", "The teeth are thinner than wanted already: do not cut deeper.");
    } else {
        record.note(
            "cut_short_first",
            "Cut most of it, measure again on another pair of teeth, then cut the rest: cutter, blank and measure have \
             errors of their own. Go on only while the cutter is not past the depth stamped on it.",
        );
    }
    Ok(Some(infeed))
}
