//! The working of an arc: how its angle was found, then radius, chord, height, length and area by
//! formula. Where the angle is the root of an equation, the formula of a given size gives it back,
//! which proves the root.

use super::angle;
use super::{ArcInput, ArcSolution, column};
use crate::quantity::{Found, FoundArcAngle, FoundArea, FoundSize, Kind, Measure, Size, Unit, text};
use crate::working::{Record, StepDraft};
use uom::si::f64::{Area, Length};

/// Degrees below which θ - sin θ in a formula would lose its digits.
const SERIES_BELOW: f64 = 3.0;

const CHORD: &str = "c = 2 × r × sin(θ / 2)";
const HEIGHT: &str = "h = 2 × r × (sin(θ / 4))^2";
const LENGTH: &str = "l = r × θ";
const AREA: &str = "A = r^2 × (θ - sin(θ)) / 2";
const AREA_BY_SERIES: &str = "A = r^2 × θ^3 / 12 × (1 - θ^2 / 20 × (1 - θ^2 / 42))";

/// The arcs of the angles found, with their steps.
pub fn find_arcs(input: &ArcInput, degrees: &[f64], record: &mut Record) -> Vec<ArcSolution> {
    let angles: Vec<FoundArcAngle> = match input.angle {
        Some(angle) => column(&angle, degrees.len()),
        None => degrees.iter().map(|degrees| FoundArcAngle::stated(*degrees, Unit::Degree)).collect(),
    };
    prove_angles(input, &angles, record);
    let radii = find_radii(input, degrees, &angles, record);
    let of_radius = |ratio: fn(f64) -> f64| -> Vec<Length> {
        radii.iter().zip(degrees).map(|(radius, degrees)| radius.get() * ratio(*degrees)).collect()
    };
    let mut column_of = |what, formula, given: Option<GivenSize<'_, _>>, field, computed: Vec<Length>| {
        let computed: Vec<FoundSize> = computed.into_iter().map(Found::of).collect();
        find_column(record, &radii, &angles, (what, formula), given, field, computed)
    };
    // A given size that the radius did not come from is proved by its formula.
    let proved = input.angle.is_none() && input.radius.is_none() && !(input.chord.is_some() && input.height.is_some());
    let chord_proved = proved && (input.arc_length.is_some() || !chord_gives_radius(degrees));
    let height_proved = proved && input.arc_length.is_some();
    let area_proved = input.angle.is_none() && (input.chord.is_none() || chord_gives_radius(degrees));
    let chords = column_of(
        "Chord",
        CHORD,
        input.chord.as_ref().map(|chord| GivenSize { symbol: "c", of: "chord", measure: chord, proved: chord_proved }),
        "solutions.chord",
        of_radius(angle::chord),
    );
    let heights = column_of(
        "Height",
        HEIGHT,
        input.height.as_ref().map(|height| GivenSize {
            symbol: "h",
            of: "height",
            measure: height,
            proved: height_proved,
        }),
        "solutions.height",
        of_radius(angle::height),
    );
    let lengths = column_of(
        "Length of the arc",
        LENGTH,
        input.arc_length.as_ref().map(|length| GivenSize {
            symbol: "l",
            of: "arc_length",
            measure: length,
            proved: false,
        }),
        "solutions.arc_length",
        of_radius(f64::to_radians),
    );
    let areas: Vec<FoundArea> = radii
        .iter()
        .zip(degrees)
        .map(|(radius, degrees)| {
            let area: Area = radius.get() * radius.get() * angle::area(*degrees);
            Found::of(area)
        })
        .collect();
    let area = input.segment_area.as_ref();
    let area = area.map(|area| GivenSize { symbol: "A", of: "segment_area", measure: area, proved: area_proved });
    let (what, formula) = if by_series(degrees) {
        ("Area of the segment, by the series of θ - sin θ", AREA_BY_SERIES)
    } else {
        ("Area of the segment", AREA)
    };
    let areas = find_column(record, &radii, &angles, (what, formula), area, "solutions.segment_area", areas);
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

/// A size given, and whether its formula is to give it back.
struct GivenSize<'m, K: Kind> {
    symbol: &'static str,
    of: &'static str,
    measure: &'m Measure<K>,
    proved: bool,
}

fn find_column<K: Kind>(
    record: &mut Record,
    radii: &[FoundSize],
    angles: &[FoundArcAngle],
    (what, formula): (&'static str, &'static str),
    given: Option<GivenSize<'_, K>>,
    field: &'static str,
    computed: Vec<Found<K>>,
) -> Vec<Found<K>> {
    let with = |step: StepDraft<'_>, gives: &[Found<K>]| {
        step.with("r", "solutions.radius", radii.to_vec())
            .with("θ", "solutions.angle", angles.to_vec())
            .gives(field, gives.to_vec());
    };
    match given {
        Some(GivenSize { symbol, of, measure, proved }) => {
            let found = column(measure, computed.len());
            if proved {
                with(record.step(format!("{what}: the size given, which proves the angle"), formula), &found);
            } else {
                record.choose(what, "as given").with(symbol, of, *measure).gives(field, found.clone());
            }
            found
        }
        None => {
            with(record.step(what, formula), &computed);
            computed
        }
    }
}

fn by_series(degrees: &[f64]) -> bool {
    degrees.iter().all(|degrees| *degrees < SERIES_BELOW)
}

/// From chord and area: past half a circle the chord says less and less about the radius.
fn chord_gives_radius(degrees: &[f64]) -> bool {
    degrees.iter().all(|degrees| *degrees <= 180.0)
}

fn find_radii(input: &ArcInput, degrees: &[f64], angles: &[FoundArcAngle], record: &mut Record) -> Vec<FoundSize> {
    const FIELD: &str = "solutions.radius";
    const WHAT: &str = "Radius";
    if let Some(radius) = input.radius {
        let radii = column(&radius, degrees.len());
        record.choose(WHAT, "as given").with("r", "radius", radius).gives(FIELD, radii.clone());
        return radii;
    }
    if let (Some(chord), Some(height)) = (input.chord, input.height) {
        let radius = chord.get() * (chord.get() / (8.0 * height.get())) + height.get() / 2.0;
        let radii = vec![FoundSize::of(radius)];
        record
            .step(WHAT, "r = c^2 / (8 × h) + h / 2")
            .with("c", "chord", chord)
            .with("h", "height", height)
            .gives(FIELD, radii.clone());
        return radii;
    }
    let each = |radius: &dyn Fn(f64) -> Length| {
        degrees.iter().map(|degrees| FoundSize::of(radius(*degrees))).collect::<Vec<_>>()
    };
    let angles = angles.to_vec();
    let area_gives = input.segment_area.is_some();
    if let Some(length) = input.arc_length {
        let radii = each(&|degrees| length.get() / degrees.to_radians());
        let step = record.step(WHAT, "r = l / θ").with("l", "arc_length", length);
        step.with("θ", "solutions.angle", angles).gives(FIELD, radii.clone());
        radii
    } else if let Some(height) = input.height {
        let radii = each(&|degrees| height.get() / angle::height(degrees));
        let step = record.step(WHAT, "r = h / (2 × (sin(θ / 4))^2)").with("h", "height", height);
        step.with("θ", "solutions.angle", angles).gives(FIELD, radii.clone());
        radii
    } else if let Some(chord) = input.chord.filter(|_| !area_gives || chord_gives_radius(degrees)) {
        let radii = each(&|degrees| chord.get() / angle::chord(degrees));
        let step = record.step(WHAT, "r = c / (2 × sin(θ / 2))").with("c", "chord", chord);
        step.with("θ", "solutions.angle", angles).gives(FIELD, radii.clone());
        radii
    } else if let Some(area) = input.segment_area {
        let radii = each(&|degrees| (area.get() / angle::area(degrees)).sqrt());
        let formula = if by_series(degrees) {
            "r = √(12 × A / (θ^3 × (1 - θ^2 / 20 × (1 - θ^2 / 42))))"
        } else {
            "r = √(2 × A / (θ - sin(θ)))"
        };
        let step = record.step(WHAT, formula).with("A", "segment_area", area);
        step.with("θ", "solutions.angle", angles).gives(FIELD, radii.clone());
        radii
    } else {
        Vec::new()
    }
}

fn prove_angles(input: &ArcInput, angles: &[FoundArcAngle], record: &mut Record) {
    const FIELD: &str = "solutions.angle";
    const WHAT: &str = "Central angle";
    let found = angles.to_vec();
    let ArcInput { radius, chord, height, arc_length, angle, segment_area } = *input;
    match (radius, chord, height, arc_length, angle, segment_area) {
        (.., Some(angle), _) => record.choose(WHAT, "as given").with("θ", "angle", angle).gives(FIELD, found),
        (Some(r), Some(c), ..) => prove_two_angles((r, c), found, record),
        (Some(r), _, Some(h), ..) => record
            .step(WHAT, "θ = 4 × atan(√(h / (2 × r - h)))")
            .with("h", "height", h)
            .with("r", "radius", r)
            .gives(FIELD, found),
        (Some(r), _, _, Some(l), ..) => {
            record.step(WHAT, "θ = l / r").with("l", "arc_length", l).with("r", "radius", r).gives(FIELD, found);
        }
        (_, Some(c), Some(h), ..) => record
            .step(WHAT, "θ = 4 × atan(2 × h / c)")
            .with("h", "height", h)
            .with("c", "chord", c)
            .gives(FIELD, found),
        _ => {
            let equation = match (radius.is_some(), chord.is_some(), height.is_some(), arc_length.is_some()) {
                (true, ..) => "(θ - sin(θ)) / 2 = A / r^2",
                (_, true, _, true) => "sin(θ / 2) / (θ / 2) = c / l",
                (_, true, ..) => "(θ - sin(θ)) / (8 × (sin(θ / 2))^2) = A / c^2",
                (_, _, true, true) => "θ / (2 × (sin(θ / 4))^2) = l / h",
                (_, _, true, _) => "(θ - sin(θ)) / (8 × (sin(θ / 4))^4) = A / h^2",
                _ => "(θ - sin(θ)) / (2 × θ^2) = A / l^2",
            };
            let rule = format!("every root above 0 and below 360 deg of {equation}, closed in on from both sides");
            let mut step = record.look_up(WHAT, rule);
            step = radius.into_iter().fold(step, |step, r| step.with("r", "radius", r));
            step = chord.into_iter().fold(step, |step, c| step.with("c", "chord", c));
            step = height.into_iter().fold(step, |step, h| step.with("h", "height", h));
            step = arc_length.into_iter().fold(step, |step, l| step.with("l", "arc_length", l));
            step = segment_area.into_iter().fold(step, |step, area| step.with("A", "segment_area", area));
            step.gives(FIELD, found);
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
    record
        .step("Angle of the minor arc", formula)
        .with("c", "chord", chord)
        .with("r", "radius", radius)
        .gives("minor_angle", minor);
    match found.get(1).copied() {
        Some(major) => {
            record
                .step("Angle of the major arc", "ω = 2 × π - μ")
                .with("μ", "minor_angle", minor)
                .gives("major_angle", major);
            record
                .choose("Central angle", "both arcs end on the chord; the minor one first")
                .with("μ", "minor_angle", minor)
                .with("ω", "major_angle", major)
                .gives("solutions.angle", found);
        }
        None => {
            let rule = if minor.degrees() == 180.0 {
                "the chord is a diameter, so both arcs are half a circle"
            } else {
                "the other arc is so nearly the full circle that its angle cannot be told from 360 deg"
            };
            record.choose("Central angle", rule).with("μ", "minor_angle", minor).gives("solutions.angle", found);
        }
    }
}
