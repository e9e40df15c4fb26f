//! The basic profile of a thread over two pitches, with the lines of its three basic diameters; y is
//! the distance from the thread's axis, which lies below the sheet. Crests that a standard rounds
//! are drawn flat.

use super::{ThreadInput, ThreadResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::{FoundSize, SiValue, angle};

/// Draws an answer.
pub fn draw(input: &ThreadInput, result: &ThreadResult) -> Drawing {
    let flanks = input.designation.thread.system.flank_angle();
    let about = Words::of(format!("The basic profile of {} in section: pitch ", result.designation))
        .value(result.pitch)
        .then(", major diameter ")
        .value(result.major_diameter)
        .then(", pitch diameter ")
        .value(result.pitch_diameter)
        .then(", minor diameter ")
        .value(result.minor_diameter)
        .then(format!(", flanks at {flanks}°."));
    let mut drawing = Drawing::new("Thread profile", about);
    let radius = |diameter: FoundSize| diameter.get().si() / 2.0;
    let (major, minor) = (radius(result.major_diameter), radius(result.minor_diameter));
    let (middle, pitch) = (radius(result.pitch_diameter), result.pitch.get().si());
    let slope = angle::tan(flanks / 2.0);
    // Half the thickness of a ridge at a distance from the axis: a quarter pitch on the pitch line.
    let half = |y: f64| pitch / 4.0 - (y - middle) * slope;
    let (crest, root) = (half(major), half(minor));
    let mut profile: Vec<Point> = Vec::new();
    for ridge in [-0.5, 0.5] {
        let x = ridge * pitch;
        profile.extend([(x - root, minor), (x - crest, major), (x + crest, major), (x + root, minor)]);
    }
    profile.insert(0, (-pitch, minor));
    profile.push((pitch, minor));
    let below = minor - 0.35 * pitch;
    drawing.closed(Ink::Tint, [profile.clone(), vec![(pitch, below), (-pitch, below)]].concat());
    drawing.path(Ink::Outline, profile).of("profile");
    let lines = [
        ("major_diameter", "major Ø ", major, result.major_diameter),
        ("pitch_diameter", "pitch Ø ", middle, result.pitch_diameter),
        ("minor_diameter", "minor Ø ", minor, result.minor_diameter),
    ];
    for (field, _, y, _) in lines {
        let ink = if field == "pitch_diameter" { Ink::Centre } else { Ink::Thin };
        drawing.line(ink, (-pitch, y), (pitch * 1.1, y)).of(field);
    }
    for (_, name, y, diameter) in lines {
        drawing.note_kept((pitch * 1.1, y), 0.0, 0.0, Words::of(name).value(diameter));
    }
    let over = Beside { from: major, by: 26.0 };
    drawing
        .across((-pitch / 2.0, major), (pitch / 2.0, major), over, Words::of("pitch ").value(result.pitch))
        .of("pitch");
    // The flanks of the groove meet below it.
    let apex = (0.0, middle - pitch / 4.0 / slope);
    // So that the arc lies in the groove however steep its flanks are.
    let reach = 1.155 * pitch / 4.0 / slope;
    drawing.angle(apex, 90.0 - flanks / 2.0, flanks, Reach::Model(reach), Words::of(format!("{flanks}°"))).of("flanks");
    drawing
}
