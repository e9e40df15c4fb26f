//! Where the cutter of a stepped profile stands along a line or an arc, and the ridges it leaves.

use super::ends::{ends, metres};
use super::shape::{Arc, Plane, Profile};
use super::{ProfileCutter, ProfileSide, SteppedProfileInput};
use crate::arithmetic::directions::Sense;
use crate::quantity::kind::Place;
use crate::quantity::{FoundAngle, FoundExtent, FoundPlace, SiValue, Unit, angle};
use crate::working::{Record, Shown};

fn places(values: impl Iterator<Item = f64>) -> Vec<FoundPlace> {
    values.map(metres).collect()
}

/// The columns of X and Y, and the greatest ridge.
pub(super) type Places = (Vec<FoundPlace>, Vec<FoundPlace>, FoundExtent);

/// Places along a line, and its ridges.
pub(super) fn find_places_along_line(
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
        let (xs, ys) = find_square_cutter(input, profile, &contacts, record);
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
fn find_square_cutter(
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
pub(super) fn find_places_along_arc(
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
        let (contacts, columns) =
            find_points_of_circle(arc, circle, (&degrees, &angles), ["contact.x", "contact.y"], record);
        let (xs, ys) = find_square_cutter(input, profile, &contacts, record);
        find_ridges_of_corners(profile, arc, &contacts, columns, cusp, record);
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
    let (_, (xs, ys)) = find_points_of_circle(arc, circle, (&degrees, &angles), ["points.x", "points.y"], record);
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
fn find_points_of_circle(
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
fn find_ridges_of_corners(
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
    record.step("Greatest of them", "g = greatest(h)").with("h", "ridges", ridges).gives("ridge", cusp);
}
