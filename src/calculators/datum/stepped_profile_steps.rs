//! The working of a stepped profile: its length and steps, where it is touched, where the cutter
//! stands, and the ridges.

use super::stepped_profile::{ProfileCutter, ProfilePlace, ProfileSide, SteppedProfileInput, SteppedProfileResult};
use super::stepped_profile_shape::{Arc, Plane, Profile, Shape};
use crate::directions::Sense;
use crate::quantity::kind::{Extent, Place};
use crate::quantity::{
    Found, FoundAngle, FoundDifference, FoundExtent, FoundMove, FoundPlace, Kind, SiValue, Unit, angle, text,
};
use crate::travel::{Axis, write_moves};
use crate::working::{Record, Shown, StepDraft};

const X: Axis = Axis { symbol: "x", places: "points.x", before: "before.x", moves: "points.dx" };
const Y: Axis = Axis { symbol: "y", places: "points.y", before: "before.y", moves: "points.dy" };

fn metres<K: Kind>(value: f64) -> Found<K> {
    Found::stated(value, Unit::Metre)
}

fn places(values: impl Iterator<Item = f64>) -> Vec<FoundPlace> {
    values.map(metres).collect()
}

/// The ends of the profile as the symbols of a step.
fn ends<'r>(draft: StepDraft<'r>, input: &SteppedProfileInput) -> StepDraft<'r> {
    draft
        .with("X", "from.x", input.from.x)
        .with("Y", "from.y", input.from.y)
        .with("x", "to.x", input.to.x)
        .with("y", "to.y", input.to.y)
}

/// Writes the steps and gives the result.
pub fn write(input: &SteppedProfileInput, profile: &Profile, steps: u32, record: &mut Record) -> SteppedProfileResult {
    let chord: FoundExtent = metres(profile.chord());
    let chord_field = if matches!(profile.shape, Shape::Line) { "length" } else { "chord" };
    ends(record.step("Straight distance between the ends", "c = √((x - X)^2 + (y - Y)^2)"), input)
        .gives(chord_field, chord);
    if let Shape::Arc(arc) = &profile.shape {
        write_arc(input, profile, arc, record);
    }
    let length: FoundExtent = metres(profile.length());
    let step = write_count(input, length, steps, record);
    let numbers: Vec<u32> = (1..=steps + 1).collect();
    let shown: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    record
        .look_up("Places", "every whole number from 1 to one more than the steps")
        .with("n", "steps", steps)
        .gives("points.number", shown.clone());
    let (xs, ys, cusp) = match &profile.shape {
        Shape::Line => write_line(input, profile, steps, &shown, record),
        Shape::Arc(arc) => write_along_arc(input, profile, arc, steps, &shown, record),
    };
    let datum = (metres(0.0), "0, the datum,");
    let dxs: Vec<FoundMove> = write_moves(&xs, datum, X, record);
    let dys: Vec<FoundMove> = write_moves(&ys, datum, Y, record);
    let rows = numbers.into_iter().zip(xs).zip(ys).zip(dxs).zip(dys);
    let points = rows.map(|((((number, x), y), dx), dy)| ProfilePlace { number, x, y, dx, dy }).collect();
    // Last, since the fields of that name asked for are used above.
    record.choose("Length of a step", "as found above").with("s", "step_made", step).gives("step", step);
    record.choose("Greatest ridge", "as found above").with("h", "ridge", cusp).gives("cusp", cusp);
    SteppedProfileResult { points, cusp, steps, step, length }
}

/// How many steps, and how long each is.
fn write_count(input: &SteppedProfileInput, length: FoundExtent, steps: u32, record: &mut Record) -> FoundExtent {
    match (input.step, input.cusp) {
        (Some(step), _) => {
            let ratio = text::tidy(length.get().si() / step.get().si());
            record
                .step("Steps of the length asked for", "m = L / s")
                .with("L", "length", length)
                .with("s", "step", step)
                .gives("exact_steps", ratio);
            record
                .step("Whole steps, none longer", "n = max(1, -floor(-m))")
                .with("m", "exact_steps", ratio)
                .gives("steps", steps);
        }
        (None, cusp) => {
            let draft = record.look_up("Steps", "the fewest even steps that leave no ridge higher than h");
            let draft = match cusp {
                Some(cusp) => draft.with("h", "cusp", cusp),
                None => draft,
            };
            draft.gives("steps", steps);
        }
    }
    let step: FoundExtent = metres(length.get().si() / f64::from(steps));
    record
        .step("Length of an even step", "s = L / n")
        .with("L", "length", length)
        .with("n", "steps", steps)
        .gives("step_made", step);
    step
}

/// Centre, first angle and turn of the arc.
fn write_arc(input: &SteppedProfileInput, profile: &Profile, arc: &Arc, record: &mut Record) {
    let Some(radius) = input.radius else { return };
    let chord: FoundExtent = metres(profile.chord());
    let apothem: FoundExtent = metres(arc.apothem);
    if arc.apothem == 0.0 {
        record
            .look_up("Centre from the middle of the chord", "0, the chord being a diameter")
            .with("c", "chord", chord)
            .gives("apothem", apothem);
    } else {
        record
            .step("Centre from the middle of the chord", "a = √((R - c / 2) × (R + c / 2))")
            .with("R", "radius", radius)
            .with("c", "chord", chord)
            .gives("apothem", apothem);
    }
    let (for_x, for_y) = match arc.sense {
        Sense::Counterclockwise => ("u = (X + x) / 2 - a × (y - Y) / c", "v = (Y + y) / 2 + a × (x - X) / c"),
        Sense::Clockwise => ("u = (X + x) / 2 + a × (y - Y) / c", "v = (Y + y) / 2 - a × (x - X) / c"),
    };
    let center: (FoundPlace, FoundPlace) = (metres(arc.center.0), metres(arc.center.1));
    for (what, formula, field, found) in
        [("Centre on X", for_x, "center.x", center.0), ("Centre on Y", for_y, "center.y", center.1)]
    {
        ends(record.step(what, formula), input)
            .with("a", "apothem", apothem)
            .with("c", "chord", chord)
            .gives(field, found);
    }
    let arm: (FoundDifference, FoundDifference) =
        (metres(profile.from.0 - arc.center.0), metres(profile.from.1 - arc.center.1));
    record
        .step("First point from the centre, on X", "u = X - x")
        .with("X", "from.x", input.from.x)
        .with("x", "center.x", center.0)
        .gives("arm.x", arm.0);
    record
        .step("First point from the centre, on Y", "v = Y - y")
        .with("Y", "from.y", input.from.y)
        .with("y", "center.y", center.1)
        .gives("arm.y", arm.1);
    record
        .step("Angle of the first point", arc.start.1)
        .with("u", "arm.x", arm.0)
        .with("v", "arm.y", arm.1)
        .gives("first_angle", FoundAngle::stated(arc.start.0, Unit::Degree));
    let half_chord: FoundExtent = metres(profile.chord() / 2.0);
    record.step("Half of the chord", "v = c / 2").with("c", "chord", chord).gives("half_chord", half_chord);
    let half = FoundAngle::stated(arc.half.0, Unit::Degree);
    record
        .step("Half of the angle that the arc turns through", arc.half.1)
        .with("u", "apothem", apothem)
        .with("v", "half_chord", half_chord)
        .gives("half_angle", half);
    record
        .step("Length of the arc", "L = 2 × R × α")
        .with("R", "radius", radius)
        .with("α", "half_angle", half)
        .gives("length", metres::<Extent>(profile.length()));
}

type Places = (Vec<FoundPlace>, Vec<FoundPlace>, FoundExtent);

/// Places along a line, and its ridges.
fn write_line(
    input: &SteppedProfileInput,
    profile: &Profile,
    steps: u32,
    numbers: &[f64],
    record: &mut Record,
) -> Places {
    let contacts = profile.contacts(steps);
    let columns = (places(contacts.iter().map(|at| at.0)), places(contacts.iter().map(|at| at.1)));
    for (what, formula, field, column) in [
        ("Profile on X", "p = X + (i - 1) × (x - X) / n", "contact.x", &columns.0),
        ("Profile on Y", "p = Y + (i - 1) × (y - Y) / n", "contact.y", &columns.1),
    ] {
        ends(record.step(what, formula), input)
            .with("i", "points.number", numbers.to_vec())
            .with("n", "steps", steps)
            .gives(field, column.clone());
    }
    let length: FoundExtent = metres(profile.length());
    let cusp: FoundExtent = metres(profile.cusp(steps).unwrap_or_default());
    if profile.flat {
        let (xs, ys) = write_square(input, profile, &contacts, record);
        ends(
            record.step("Ridge: height of the right triangle of one step", "h = abs((x - X) × (y - Y)) / (n × L)"),
            input,
        )
        .with("n", "steps", steps)
        .with("L", "length", length)
        .gives("ridge", cusp);
        return (xs, ys, cusp);
    }
    let normal = profile.normal();
    let formulas = match input.side {
        ProfileSide::Left => ("u = (Y - y) / L", "v = (x - X) / L"),
        ProfileSide::Right => ("u = (y - Y) / L", "v = (X - x) / L"),
    };
    for (what, formula, field, part) in [
        ("Square to the line towards the cutter, on X", formulas.0, "square.x", normal.0 + 0.0),
        ("Square to the line towards the cutter, on Y", formulas.1, "square.y", normal.1 + 0.0),
    ] {
        ends(record.step(what, formula), input).with("L", "length", length).gives(field, part);
    }
    let off = |from: &[FoundPlace], part: f64| -> Vec<FoundPlace> {
        places(from.iter().map(|at| at.get().si() + part * profile.half_cutter))
    };
    let (xs, ys) = (off(&columns.0, normal.0), off(&columns.1, normal.1));
    for (what, symbol, square, part, contact, from, field, column) in [
        ("X of the cutter", "u", "square.x", normal.0, "contact.x", &columns.0, "points.x", &xs),
        ("Y of the cutter", "u", "square.y", normal.1, "contact.y", &columns.1, "points.y", &ys),
    ] {
        record
            .step(what, "q = p + u × D / 2")
            .with("p", contact, from.clone())
            .with(symbol, square, part + 0.0)
            .with("D", "diameter", input.diameter)
            .gives(field, column.clone());
    }
    let half: FoundExtent = metres(profile.length() / f64::from(steps) / 2.0);
    record
        .step("Half of a step", "m = L / (2 × n)")
        .with("L", "length", length)
        .with("n", "steps", steps)
        .gives("half_step", half);
    record
        .step("Ridge between two round cuts", "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0)))")
        .with("m", "half_step", half)
        .with("D", "diameter", input.diameter)
        .gives("ridge", cusp);
    (xs, ys, cusp)
}

/// The middle of a square cutter's end: half the cutter aside of where its corner touches.
fn write_square(
    input: &SteppedProfileInput,
    profile: &Profile,
    contacts: &[Plane],
    record: &mut Record,
) -> (Vec<FoundPlace>, Vec<FoundPlace>) {
    // What rounding leaves of a level line's slope is no side.
    let aside = if profile.normal().0.abs() < 1e-12 { 0.0 } else { profile.normal().0.signum() };
    record
        .look_up(
            "Which way the cutter lies aside of its corner",
            "1 towards larger X, -1 towards smaller X, 0 on a level line",
        )
        .with("s", "side", input.side.as_str())
        .gives("aside", aside);
    let columns = (places(contacts.iter().map(|at| at.0)), places(contacts.iter().map(|at| at.1)));
    let xs = places(contacts.iter().map(|at| at.0 + aside * profile.half_cutter));
    record
        .step("X of the cutter", "q = p + k × D / 2")
        .with("p", "contact.x", columns.0)
        .with("k", "aside", aside)
        .with("D", "diameter", input.diameter)
        .gives("points.x", xs.clone());
    record
        .step("Y of the cutter's end", "q = p")
        .with("p", "contact.y", columns.1.clone())
        .gives("points.y", columns.1.clone());
    (xs, columns.1)
}

/// Places along an arc, and its ridges.
fn write_along_arc(
    input: &SteppedProfileInput,
    profile: &Profile,
    arc: &Arc,
    steps: u32,
    numbers: &[f64],
    record: &mut Record,
) -> Places {
    let half = FoundAngle::stated(arc.half.0, Unit::Degree);
    let step_angle = FoundAngle::stated(2.0 * arc.half.0 / f64::from(steps), Unit::Degree);
    record
        .step("Angle of one step", "δ = 2 × α / n")
        .with("α", "half_angle", half)
        .with("n", "steps", steps)
        .gives("step_angle", step_angle);
    let degrees: Vec<f64> = (0..=steps).map(|step| arc.degrees(step, steps)).collect();
    let angles: Vec<FoundAngle> = degrees.iter().map(|degrees| FoundAngle::stated(*degrees, Unit::Degree)).collect();
    let formula =
        if arc.sense == Sense::Counterclockwise { "θ = α + (i - 1) × δ" } else { "θ = α - (i - 1) × δ" };
    record
        .step("Angle of each place", formula)
        .with("α", "first_angle", FoundAngle::stated(arc.start.0, Unit::Degree))
        .with("i", "points.number", numbers.to_vec())
        .with("δ", "step_angle", step_angle)
        .gives("direction", angles.clone());
    let cusp: FoundExtent = metres(profile.cusp(steps).unwrap_or_default());
    let Some(radius) = input.radius else { return (Vec::new(), Vec::new(), cusp) };
    if input.cutter == ProfileCutter::Flat {
        let circle = Circle { radius: arc.radius, of: "radius", shown: radius.into() };
        let (contacts, columns) = write_circle(arc, circle, (&degrees, &angles), ["contact.x", "contact.y"], record);
        let (xs, ys) = write_square(input, profile, &contacts, record);
        write_corners(profile, arc, &contacts, columns, cusp, record);
        return (xs, ys, cusp);
    }
    let q: FoundExtent = metres(profile.tool_radius(arc));
    record
        .step(
            "Radius on which the middle of the cutter goes",
            if arc.hollow { "q = R - D / 2" } else { "q = R + D / 2" },
        )
        .with("R", "radius", radius)
        .with("D", "diameter", input.diameter)
        .gives("tool_radius", q);
    let circle = Circle { radius: profile.tool_radius(arc), of: "tool_radius", shown: q.into() };
    let (_, (xs, ys)) = write_circle(arc, circle, (&degrees, &angles), ["points.x", "points.y"], record);
    let half_step: FoundExtent = metres(profile.tool_radius(arc) * angle::sin(arc.half.0 / f64::from(steps)));
    record
        .step("Half the distance of two neighbouring places", "m = q × sin(δ / 2)")
        .with("q", "tool_radius", q)
        .with("δ", "step_angle", step_angle)
        .gives("half_step", half_step);
    let formula = if arc.hollow {
        "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0))) + 2 × q × (sin(δ / 4))^2"
    } else {
        "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0))) - 2 × q × (sin(δ / 4))^2"
    };
    record
        .step("Ridge between two round cuts, off the arc", formula)
        .with("m", "half_step", half_step)
        .with("D", "diameter", input.diameter)
        .with("q", "tool_radius", q)
        .with("δ", "step_angle", step_angle)
        .gives("ridge", cusp);
    (xs, ys, cusp)
}

/// A circle about an arc's centre, and what the steps call its radius.
struct Circle {
    radius: f64,
    of: &'static str,
    shown: Shown,
}

/// Points of a circle in the directions of the places.
fn write_circle(
    arc: &Arc,
    circle: Circle,
    (degrees, angles): (&[f64], &[FoundAngle]),
    fields: [&'static str; 2],
    record: &mut Record,
) -> (Vec<Plane>, (Vec<FoundPlace>, Vec<FoundPlace>)) {
    // What rounding leaves of a place at zero is zero.
    let reach = circle.radius + arc.center.0.abs() + arc.center.1.abs();
    let near = |value: f64| if value.abs() < 1e-15 * reach { 0.0 } else { value };
    let points = degrees.iter().map(|degrees| arc.point(circle.radius, *degrees));
    let points: Vec<Plane> = points.map(|(x, y)| (near(x), near(y))).collect();
    let columns = (places(points.iter().map(|at| at.0)), places(points.iter().map(|at| at.1)));
    for (what, formula, symbol, of, center, field, column) in [
        ("Place on X", "p = x + R × cos(θ)", "x", "center.x", arc.center.0, fields[0], &columns.0),
        ("Place on Y", "p = y + R × sin(θ)", "y", "center.y", arc.center.1, fields[1], &columns.1),
    ] {
        record
            .step(what, formula)
            .with(symbol, of, metres::<Place>(center))
            .with("R", circle.of, circle.shown.clone())
            .with("θ", "direction", angles.to_vec())
            .gives(field, column.clone());
    }
    (points, columns)
}

/// The ridges that a square corner leaves on an arc.
fn write_corners(
    profile: &Profile,
    arc: &Arc,
    contacts: &[Plane],
    (contact_x, contact_y): (Vec<FoundPlace>, Vec<FoundPlace>),
    cusp: FoundExtent,
    record: &mut Record,
) {
    let corners = profile.corners(contacts);
    let columns = (places(corners.iter().map(|at| at.0)), places(corners.iter().map(|at| at.1)));
    for (what, contact, from, field, column) in [
        ("Corner left in each step, X", "contact.x", contact_x, "corner.x", &columns.0),
        ("Corner left in each step, Y", "contact.y", contact_y, "corner.y", &columns.1),
    ] {
        record
            .choose(what, "X of one and Y of the other of two neighbours, on the cutter's side of the profile")
            .with("p", contact, from)
            .gives(field, column.clone());
    }
    let off: Vec<FoundExtent> =
        corners.iter().map(|at| metres((at.0 - arc.center.0).hypot(at.1 - arc.center.1))).collect();
    record
        .step("Corner from the centre of the arc", "r = √((x - u)^2 + (y - v)^2)")
        .with("x", "corner.x", columns.0)
        .with("y", "corner.y", columns.1)
        .with("u", "center.x", metres::<Place>(arc.center.0))
        .with("v", "center.y", metres::<Place>(arc.center.1))
        .gives("corner.radius", off.clone());
    let ridges: Vec<FoundExtent> =
        off.iter().map(|radius| metres((SiValue::si(radius.get()) - arc.radius).abs())).collect();
    let radius: FoundExtent = metres(arc.radius);
    record
        .step("Ridge of each step", "h = abs(r - R)")
        .with("r", "corner.radius", off)
        .with("R", "radius", radius)
        .gives("ridges", ridges.clone());
    record.choose("Greatest of them", "the greatest").with("h", "ridges", ridges).gives("ridge", cusp);
}
