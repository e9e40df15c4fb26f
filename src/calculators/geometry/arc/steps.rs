//! The working of an arc: how its angle was found, then radius, chord, height, length and area by
//! formula. Where the angle is the root of an equation, the formula of a given size gives it back,
//! which proves the root.

use super::angle;
use super::{ArcSizes, ArcSolution, column};
use crate::calculators::prelude::*;
use uom::si::f64::Length;

/// Degrees below which θ - sin θ in a formula would lose its digits.
const SERIES_BELOW: f64 = 3.0;

const ANGLE: &str = "solutions.angle";

/// The arcs of the angles found, with their steps.
pub fn find_arcs(input: &ArcSizes, degrees: &[f64], record: &mut Record) -> Vec<ArcSolution> {
    let ArcSizes { radius, chord, height, arc_length, angle, segment_area } = *input;
    let angles: Vec<FoundArcAngle> = match angle {
        Some(angle) => column(&angle, degrees.len()),
        None => degrees.iter().map(|degrees| FoundArcAngle::stated(*degrees, Unit::Degree)).collect(),
    };
    prove_angles(input, &angles, record);
    let radii = find_radii(input, degrees, &angles, record);
    // A given size that the radius did not come from is proved by its formula.
    let proved = angle.is_none() && radius.is_none() && !(chord.is_some() && height.is_some());
    let chord_proved = proved && (arc_length.is_some() || !chord_gives_radius(degrees));
    let height_proved = proved && arc_length.is_some();
    let area_proved = angle.is_none() && (chord.is_none() || chord_gives_radius(degrees));
    let (area, area_formula) = if by_series(degrees) {
        ("Area of the segment, by the series of θ - sin θ", "A = r^2 × θ^3 / 12 × (1 - θ^2 / 20 × (1 - θ^2 / 42))")
    } else {
        ("Area of the segment", "A = r^2 × (θ - sin(θ)) / 2")
    };
    let mut arcs = Arcs { degrees, radii: &radii, angles: &angles, record };
    let chords = arcs.column(
        ("Chord", "c = 2 × r × sin(θ / 2)", "solutions.chord"),
        (chord, chord_proved),
        |radius, degrees| radius * angle::chord(degrees),
    );
    let heights = arcs.column(
        ("Height", "h = 2 × r × (sin(θ / 4))^2", "solutions.height"),
        (height, height_proved),
        |radius, degrees| radius * angle::height(degrees),
    );
    let lengths = arcs.column(
        ("Length of the arc", "l = r × θ", "solutions.arc_length"),
        (arc_length, false),
        |radius, degrees| radius * degrees.to_radians(),
    );
    let areas =
        arcs.column((area, area_formula, "solutions.segment_area"), (segment_area, area_proved), |radius, degrees| {
            radius * radius * angle::area(degrees)
        });
    let rows = radii.into_iter().zip(chords).zip(heights).zip(lengths).zip(angles).zip(areas);
    rows.map(|(((((radius, chord), height), arc_length), angle), segment_area)| ArcSolution {
        radius,
        chord,
        height,
        arc_length,
        angle,
        segment_area,
    })
    .collect()
}

/// What every other column is computed from.
struct Arcs<'a> {
    degrees: &'a [f64],
    radii: &'a [FoundSize],
    angles: &'a [FoundArcAngle],
    record: &'a mut Record,
}

impl Arcs<'_> {
    /// The column of one size: as given, which its formula may have to give back, or computed.
    fn column<K: Kind>(
        &mut self,
        (what, formula, field): (&'static str, &'static str, &'static str),
        (given, proved): (Option<Measure<K>>, bool),
        computed: fn(Length, f64) -> K::Si,
    ) -> Vec<Found<K>> {
        let rows = self.radii.iter().zip(self.degrees);
        let found = match given {
            Some(given) => column(&given, rows.len()),
            None => rows.map(|(radius, degrees)| Found::of(computed(radius.get(), *degrees))).collect(),
        };
        let step = match given {
            Some(given) if !proved => {
                let (symbol, of) = (&formula[..1], field.trim_start_matches("solutions."));
                self.record.choose(what, "as given").with(symbol, of, given)
            }
            _ => {
                let proving = if given.is_some() { ": the size given, which proves the angle" } else { "" };
                let step = self.record.step(format!("{what}{proving}"), formula);
                step.with("r", "solutions.radius", self.radii.to_vec()).with("θ", ANGLE, self.angles.to_vec())
            }
        };
        step.gives(field, found.clone());
        found
    }
}

fn by_series(degrees: &[f64]) -> bool {
    degrees.iter().all(|degrees| *degrees < SERIES_BELOW)
}

/// From chord and area: past half a circle the chord says less and less about the radius.
fn chord_gives_radius(degrees: &[f64]) -> bool {
    degrees.iter().all(|degrees| *degrees <= 180.0)
}

fn find_radii(input: &ArcSizes, degrees: &[f64], angles: &[FoundArcAngle], record: &mut Record) -> Vec<FoundSize> {
    const FIELD: &str = "solutions.radius";
    const WHAT: &str = "Radius";
    let ArcSizes { radius, chord, height, arc_length, segment_area, .. } = *input;
    if let Some(radius) = radius {
        let radii = column(&radius, degrees.len());
        record.choose(WHAT, "as given").with("r", "radius", radius).gives(FIELD, radii.clone());
        return radii;
    }
    if let (Some(chord), Some(height)) = (chord, height) {
        let radius = chord.get() * (chord.get() / (8.0 * height.get())) + height.get() / 2.0;
        let radii = vec![FoundSize::of(radius)];
        let step = record.step(WHAT, "r = c^2 / (8 × h) + h / 2").with("c", "chord", chord).with("h", "height", height);
        step.gives(FIELD, radii.clone());
        return radii;
    }
    let each = |radius: &dyn Fn(f64) -> Length| -> Vec<FoundSize> {
        degrees.iter().map(|degrees| FoundSize::of(radius(*degrees))).collect()
    };
    let (radii, formula, (symbol, of, given)): (_, _, (_, _, Shown)) = if let Some(length) = arc_length {
        let radii = each(&|degrees| length.get() / degrees.to_radians());
        (radii, "r = l / θ", ("l", "arc_length", length.into()))
    } else if let Some(height) = height {
        let radii = each(&|degrees| height.get() / angle::height(degrees));
        (radii, "r = h / (2 × (sin(θ / 4))^2)", ("h", "height", height.into()))
    } else if let Some(chord) = chord.filter(|_| segment_area.is_none() || chord_gives_radius(degrees)) {
        let radii = each(&|degrees| chord.get() / angle::chord(degrees));
        (radii, "r = c / (2 × sin(θ / 2))", ("c", "chord", chord.into()))
    } else if let Some(area) = segment_area {
        let formula = if by_series(degrees) {
            "r = √(12 × A / (θ^3 × (1 - θ^2 / 20 × (1 - θ^2 / 42))))"
        } else {
            "r = √(2 × A / (θ - sin(θ)))"
        };
        let radii = each(&|degrees| (area.get() / angle::area(degrees)).sqrt());
        (radii, formula, ("A", "segment_area", area.into()))
    } else {
        return Vec::new();
    };
    let step = record.step(WHAT, formula).with(symbol, of, given);
    step.with("θ", ANGLE, angles.to_vec()).gives(FIELD, radii.clone());
    radii
}

fn prove_angles(input: &ArcSizes, angles: &[FoundArcAngle], record: &mut Record) {
    const WHAT: &str = "Central angle";
    let found = angles.to_vec();
    let ArcSizes { radius, chord, height, arc_length, angle, segment_area } = *input;
    match (radius, chord, height, arc_length, angle, segment_area) {
        (.., Some(angle), _) => record.choose(WHAT, "as given").with("θ", "angle", angle).gives(ANGLE, found),
        (Some(r), Some(c), ..) => prove_two_angles((r, c), found, record),
        (Some(r), _, Some(h), ..) => {
            let step = record.step(WHAT, "θ = 4 × atan(√(h / (2 × r - h)))").with("h", "height", h);
            step.with("r", "radius", r).gives(ANGLE, found);
        }
        (Some(r), _, _, Some(l), ..) => {
            record.step(WHAT, "θ = l / r").with("l", "arc_length", l).with("r", "radius", r).gives(ANGLE, found);
        }
        (_, Some(c), Some(h), ..) => {
            let step = record.step(WHAT, "θ = 4 × atan(2 × h / c)").with("h", "height", h);
            step.with("c", "chord", c).gives(ANGLE, found);
        }
        _ => {
            let equation = match (radius.is_some(), chord.is_some(), height.is_some(), arc_length.is_some()) {
                (true, ..) => "(θ - sin(θ)) / 2 = A / r^2",
                (_, true, _, true) => "sin(θ / 2) / (θ / 2) = c / l",
                (_, true, ..) => "(θ - sin(θ)) / (8 × (sin(θ / 2))^2) = A / c^2",
                (_, _, true, true) => "θ / (2 × (sin(θ / 4))^2) = l / h",
                (_, _, true, _) => "(θ - sin(θ)) / (8 × (sin(θ / 4))^4) = A / h^2",
                _ => "(θ - sin(θ)) / (2 × θ^2) = A / l^2",
            };
            let rule = format!("every root above 0 and below 360 deg of {equation}, found from both sides");
            let mut step = record.look_up(WHAT, rule);
            step = radius.into_iter().fold(step, |step, r| step.with("r", "radius", r));
            step = chord.into_iter().fold(step, |step, c| step.with("c", "chord", c));
            step = height.into_iter().fold(step, |step, h| step.with("h", "height", h));
            step = arc_length.into_iter().fold(step, |step, l| step.with("l", "arc_length", l));
            step = segment_area.into_iter().fold(step, |step, area| step.with("A", "segment_area", area));
            step.gives(ANGLE, found);
        }
    }
}

/// From radius and chord: the minor arc, and the major arc that makes up the circle with it.
fn prove_two_angles((radius, chord): (Size, Size), found: Vec<FoundArcAngle>, record: &mut Record) {
    let Some(minor) = found.first().copied() else { return };
    // The arc sine is steep near 1, where the arc cosine is not.
    let formula = if text::tidy(minor.degrees()) < 90.0 {
        "μ = 2 × asin(c / (2 × r))"
    } else {
        "μ = 2 × acos(√((2 × r - c) × (2 × r + c)) / (2 × r))"
    };
    let step = record.step("Angle of the minor arc", formula).with("c", "chord", chord);
    step.with("r", "radius", radius).gives("minor_angle", minor);
    match found.get(1) {
        Some(&major) => {
            let step = record.step("Angle of the major arc", "ω = 2 × π - μ").with("μ", "minor_angle", minor);
            step.gives("major_angle", major);
            record
                .choose("Central angle", "both arcs end on the chord; the minor one first")
                .with("μ", "minor_angle", minor)
                .with("ω", "major_angle", major)
                .gives(ANGLE, found);
        }
        None => {
            let rule = if minor.degrees() == 180.0 {
                "the chord is a diameter, so both arcs are half a circle"
            } else {
                "the other arc is so nearly the full circle that its angle cannot be told from 360 deg"
            };
            record.choose("Central angle", rule).with("μ", "minor_angle", minor).gives(ANGLE, found);
        }
    }
}
