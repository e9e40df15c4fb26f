//! The limits of a hole and a shaft as bands that grow upwards, with the nominal size; only the way up is to scale.

use super::pair::{FittedPair, PartLimits};
use crate::drawing::{Beside, Drawing, Ink, Words, span};
use crate::quantity::FoundSize;

/// Draws a fit by its nominal size in meters.
pub fn draw_bands(name: String, size: f64, pair: &FittedPair) -> Drawing {
    let parts: Vec<(&str, &str, &PartLimits)> =
        [("hole", "hole.tolerance", &pair.hole), ("shaft", "shaft.tolerance", &pair.shaft)]
            .into_iter()
            .filter_map(|(what, field, part)| Some((what, field, part.as_ref()?)))
            .collect();
    let mut drawing = Drawing::new("Limits of the fit", about(&name, &parts, pair));
    let edges = parts.iter().flat_map(|(_, _, part)| [part.greatest.si(), part.least.si()]);
    let (low, high) = span(edges.chain([size]));
    let wide = 0.4 * (high - low);
    let right = wide * if parts.len() == 2 { 3.0 } else { 1.0 };

    drawing.line(Ink::Centre, (-0.2 * wide, size), (right + 0.2 * wide, size)).of("size");
    for (at, (what, field, part)) in parts.iter().enumerate() {
        let left = 2.0 * wide * at as f64;
        let (greatest, least) = (part.greatest.si(), part.least.si());
        for ink in [Ink::Tint, Ink::Outline] {
            drawing.block(ink, (left, least), (left + wide, greatest)).of(what);
        }
        let words = Words::of(format!("{what}\n")).value(part.greatest).then("\n").value(part.least);
        let (side, towards) = if at == 0 { (left, 180.0) } else { (left + wide, 0.0) };
        drawing.note_kept((side, f64::midpoint(greatest, least)), 0.0, towards, words);
        if parts.len() == 1 && greatest > least {
            let beside = Beside { from: wide, by: 22.0 };
            drawing.upright((wide, least), (wide, greatest), beside, part.tolerance).of(field);
        }
    }
    if let (Some(hole), Some(shaft)) = (&pair.hole, &pair.shaft) {
        let between = |drawing: &mut Drawing, a: f64, b: f64, beside, words: Words, field| {
            if (a - b).abs() > 1e-3 * (high - low) {
                drawing.upright((wide, a), (2.0 * wide, b), beside, words).of(field);
            }
        };
        if let (Some(least), Some(most)) = (pair.least_clearance, pair.greatest_clearance) {
            let (near, far) = (Beside { from: wide, by: 20.0 }, Beside { from: 2.0 * wide, by: -20.0 });
            let (least, most) = (Words::of("least\n").value(least), Words::of("most\n").value(most));
            between(&mut drawing, hole.least.si(), shaft.greatest.si(), near, least, "least_clearance");
            between(&mut drawing, hole.greatest.si(), shaft.least.si(), far, most, "greatest_clearance");
        }
    }
    let nominal = Words::of("nominal ").value(FoundSize::of_si(size));
    drawing.note_near((f64::midpoint(0.0, right), size), 0.0, 270.0, nominal);
    drawing
}

fn about(name: &str, parts: &[(&str, &str, &PartLimits)], pair: &FittedPair) -> Words {
    let mut about = Words::of(format!("Limits as bands for {name}"));
    for (what, _, part) in parts {
        about = about.then(format!("; {what} from ")).value(part.least).then(" to ").value(part.greatest);
    }
    if let (Some(least), Some(most)) = (pair.least_clearance, pair.greatest_clearance) {
        about = about.then("; clearance from ").value(least).then(" to ").value(most);
    }
    about.then(". Only the way up is to scale.")
}
