//! Pitch diameters as bands, growing to the right: that of the class behind, and for each tap that of the
//! threads it leaves. Only the way across is to scale.

use super::{TapLimitInput, TapLimitResult};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &TapLimitInput, result: &TapLimitResult) -> Drawing {
    let class = (result.hole.pitch_min.get().si(), result.hole.pitch_max.get().si());
    let bands: Vec<(f64, f64)> =
        result.found.taps.iter().map(|tap| (tap.hole_min.get().si(), tap.hole_max.get().si())).collect();
    let least = bands.iter().fold(class.0, |least, band| least.min(band.0));
    let greatest = bands.iter().fold(class.1, |greatest, band| greatest.max(band.1));
    let row = 0.1 * (greatest - least);
    let bottom = -row * bands.len() as f64;
    let mut drawing = Drawing::new("Taps and the class of the hole", about(input, result));

    let corners = |(from, to): (f64, f64), low: f64, high: f64| vec![(from, low), (to, low), (to, high), (from, high)];
    drawing.closed(Ink::Tint, corners(class, bottom, 0.0)).of("class");
    let least_words = Words::of("least\n").value(result.hole.pitch_min);
    let greatest_words = Words::of("greatest\n").value(result.hole.pitch_max);
    for (edge, towards, words) in [(class.0, 225.0, least_words), (class.1, 315.0, greatest_words)] {
        drawing.line(Ink::Outline, (edge, bottom), (edge, 0.0));
        drawing.note_kept((edge, bottom), 0.0, towards, words);
    }
    for (at, (tap, band)) in result.found.taps.iter().zip(&bands).enumerate() {
        let number = at as u32 + 1;
        let high = -row * at as f64;
        let ink = if tap.within_class { Ink::Outline } else { Ink::Dashed };
        drawing.closed(ink, corners(*band, high - 0.8 * row, high - 0.2 * row)).of("taps").number(number);
        let is_middle = result.found.middle_tap.as_ref() == Some(&tap.name);
        let name = if is_middle { format!("{}, middle", tap.name) } else { tap.name.clone() };
        drawing.note_kept((greatest, high - 0.5 * row), 0.0, 0.0, Words::of(name));
        if is_middle || (result.found.middle_tap.is_none() && at == 0) {
            let above = Beside { from: 0.0, by: 14.0 };
            for (edge, value, field) in
                [(band.0, tap.hole_min, "taps.hole_min"), (band.1, tap.hole_max, "taps.hole_max")]
            {
                let words = Words::of(format!("{}\n", tap.name)).value(value);
                drawing.x_reading((edge, high - 0.2 * row), above, words).of(field).number(number);
            }
        }
    }
    drawing
}

fn about(input: &TapLimitInput, result: &TapLimitResult) -> Words {
    let mut about =
        Words::of(format!("Pitch diameters of the tapped hole, {}: class {} from ", input.thread.text(), result.class))
            .value(result.hole.pitch_min)
            .then(" to ")
            .value(result.hole.pitch_max);
    for tap in &result.found.taps {
        let is = if tap.within_class { ", within it" } else { ", not all within it" };
        about =
            about.then(format!("; {} leaves ", tap.name)).value(tap.hole_min).then(" to ").value(tap.hole_max).then(is);
    }
    about.then(". Only diameters are to scale.")
}
