//! The cutting speed of boring, and how slender the bar is.

use super::BoringInput;
use crate::calculators::prelude::*;
use crate::machine::WantedSpeed;

/// The share of the turning speed where no boring speed is published.
const SHARE: Constant = Constant {
    of: "constant:share_of_turning_speed",
    value: 0.75,
    source: "common_practice",
    place: "boring at 70 to 80 percent of the turning speed",
};

/// Beyond this many diameters a steel bar chatters.
const LONGEST: f64 = 4.0;

/// The cutting speed where it is published for turning only.
pub fn share_of_turning(turning: WantedSpeed, record: &mut Record) -> WantedSpeed {
    let wanted = turning.times(SHARE.value, "boring_cutting_speed");
    record
        .step("Cutting speed of boring", "V = k × Vt")
        .constant("k", &SHARE)
        .with("Vt", turning.of, turning.speed)
        .gives(wanted.of, wanted.speed);
    record.note(
        "share_of_turning",
        "No boring speed is published for this material and tool, so three quarters of the turning speed is used. Go \
         slower with a slender bar.",
    );
    wanted
}

/// Overhang over diameter of the bar.
pub fn overhang_ratio(input: &BoringInput, record: &mut Record) -> Option<f64> {
    let (overhang, bar) = input.overhang.zip(input.bar_diameter)?;
    let ratio = (overhang.get() / bar.get()).si();
    record
        .step("Overhang in diameters of the bar", "l = L / d")
        .with("L", "overhang", overhang)
        .with("d", "bar_diameter", bar)
        .gives("overhang_ratio", ratio);
    if ratio > LONGEST {
        record.source("common_practice", "steel boring bars up to four diameters of overhang");
        record.note(
            "slender_bar",
            "The bar sticks out more than four times its diameter: it will chatter and spring. Use a shorter or thicker \
             bar, or cut slower and lighter.",
        );
    }
    Some(ratio)
}
