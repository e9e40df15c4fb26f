//! The profile with the metal behind it, the places of the cutter, and the cutter at the first and the
//! last of them.

use super::corner::Ends;
use super::shape::{Arc, Profile, Shape};
use super::{SteppedProfileInput, SteppedProfileResult};
use crate::arithmetic::directions::Sense;
use crate::calculators::prelude::Record;
use crate::drawing::{Beside, Drawing, Ink, Point, Words, direction, free_side, middle, words};

/// About so many of the places are shown.
const SHOWN: usize = 25;

/// An arc that turns less than this has its center too far off to be shown.
const FLAT: f64 = 40.0;

/// Draws an answer.
pub fn draw(input: &SteppedProfileInput, result: &SteppedProfileResult) -> Drawing {
    let mut drawing = Drawing::new("Profile in steps", about(input, result));
    let Some(ends) = Ends::of(input, &mut Record::of_result_alone()) else { return drawing };
    let Ok(profile) = super::profile(input, &ends) else { return drawing };
    let places: Vec<Point> = result.points.iter().map(|place| (place.x.si(), place.y.si())).collect();
    let contacts = profile.contacts(result.steps);

    metal(&mut drawing, &profile);
    if profile.flat {
        let corners = profile.corners(&contacts);
        let stairs = contacts.iter().zip(corners).flat_map(|(contact, corner)| [*contact, corner]);
        drawing.path(Ink::Thin, stairs.chain(contacts.last().copied()).collect()).of("corners");
    }
    match profile.shape {
        Shape::Line => drawing.line(Ink::Outline, profile.from, profile.to).of("profile"),
        Shape::Arc(arc) => drawing.arc(Ink::Outline, arc.center, arc.radius, arc.start.0, turned(&arc)).of("profile"),
    };
    let [first, last] = if ends.corner.is_some() { ["first_point", "last_point"] } else { ["from", "to"] };
    drawing.dot(profile.from).of(first);
    drawing.dot(profile.to).of(last);
    if let Some(corner) = ends.corner {
        drawing.path(Ink::Thin, vec![profile.from, corner, profile.to]);
    }
    drawing.path(Ink::Thin, places.clone());
    // So many that they would run together are thinned out.
    let dots = places.len().div_ceil(SHOWN);
    let last = places.len().saturating_sub(1);
    for (index, (place, number)) in places.iter().zip(1..).enumerate() {
        if index % dots == 0 || index == last {
            drawing.dot(*place).of("points").number(number);
        }
    }
    for end in [places.first(), places.last()].into_iter().flatten() {
        cutter(&mut drawing, &profile, *end);
    }

    let (normal, half) = (profile.normal(), profile.half_cutter);
    let (outwards, chord) = (direction((0.0, 0.0), normal), direction(profile.from, profile.to));
    if let (Shape::Arc(arc), Some(radius)) = (profile.shape, input.radius) {
        let (from, sweep) = (arc.start.0, turned(&arc));
        let words = words!("R {}": radius);
        if sweep.abs() >= FLAT {
            let directions = [0.5, 0.4, 0.6, 0.3, 0.7].map(|part| from + sweep * part).to_vec();
            drawing.cross(arc.center, 0.0);
            drawing.radius(arc.center, arc.radius, directions, words).of("radius");
        } else {
            drawing.leader(arc.point(arc.radius, from + 0.3 * sweep), outwards + 180.0, words);
        }
    }
    if let Some(first) = places.first() {
        let up = if profile.flat { normal.1 >= 0.0 } else { first.1 >= places.last().map_or(0.0, |last| last.1) };
        let (edge, by): (f64, f64) = if up { (first.1 + half, 20.0) } else { (first.1 - half, -20.0) };
        let edge = if profile.flat { first.1 + 2.4 * half * by.signum() } else { edge };
        let (a, b) = ((first.0 - half, first.1), (first.0 + half, first.1));
        drawing.across(a, b, Beside { from: edge, by }, words!("Ø {}": input.diameter)).of("diameter");
    }
    for (index, place) in result.points.iter().enumerate() {
        // Past a square cutter's end, on from the profile.
        let ends = [(0, profile.from, chord + 180.0), (last, profile.to, chord)];
        if let Some((_, end, on)) = ends.into_iter().find(|(end, ..)| *end == index) {
            let towards = if profile.flat { on } else { free_side(&[end, places[index]], 1) };
            let words = words!("{}\nX {}\nY {}": place.number, place.x, place.y);
            drawing.note_near(places[index], half, towards, words);
        } else if index % (dots * 3) == 0 {
            drawing.note_beside(places[index], 0.0, outwards, place.number);
        }
    }
    let middle = match profile.shape {
        Shape::Line => middle(&[profile.from, profile.to]),
        Shape::Arc(arc) => arc.point(arc.radius, arc.start.0 + 0.7 * turned(&arc)),
    };
    let words = words!("{} steps\nof {}\nridge {}": result.steps, result.step, result.cusp);
    drawing.leader(middle, outwards + 180.0, words);
    drawing
}

/// How far an arc turns, in degrees counter-clockwise.
fn turned(arc: &Arc) -> f64 {
    let sense = if arc.sense == Sense::Counterclockwise { 1.0 } else { -1.0 };
    sense * 2.0 * arc.half.0
}

/// What stays behind the profile, as a band.
fn metal(drawing: &mut Drawing, profile: &Profile) {
    let (normal, chord) = (profile.normal(), profile.chord());
    let band = match profile.shape {
        Shape::Line => {
            let deep = 0.25 * chord;
            let back = |(x, y): Point| (x - deep * normal.0, y - deep * normal.1);
            vec![profile.from, profile.to, back(profile.to), back(profile.from)]
        }
        Shape::Arc(arc) => {
            let deep = (0.2 * chord).min(0.5 * arc.radius);
            let other = if arc.hollow { arc.radius + deep } else { arc.radius - deep };
            let on = |radius: f64, step: i32| arc.point(radius, arc.start.0 + turned(&arc) * f64::from(step) / 36.0);
            let there = (0..=36).map(|step| on(arc.radius, step));
            there.chain((0..=36).rev().map(|step| on(other, step))).collect()
        }
    };
    drawing.closed(Ink::Tint, band);
}

/// The cutter at one of its places: round, or square with its end there.
fn cutter(drawing: &mut Drawing, profile: &Profile, (x, y): Point) {
    let half = profile.half_cutter;
    if !profile.flat {
        drawing.circle(Ink::Thin, (x, y), half).of("diameter");
        return;
    }
    let (left, right) = (x - half, x + half);
    let top = y + if profile.normal().1 >= 0.0 { 2.4 * half } else { -2.4 * half };
    drawing.path(Ink::Thin, vec![(left, top), (left, y), (right, y), (right, top)]).of("cutter");
}

fn about(input: &SteppedProfileInput, result: &SteppedProfileResult) -> Words {
    let what = match (input.corner_at, input.radius) {
        (None, Some(_)) => "An arc",
        (None, None) => "A slope",
        (_, Some(_)) => "A corner's radius",
        (_, None) => "A chamfer",
    };
    let mut about = words!("{}, {} long, in {} steps of {} with a cutter {} in diameter; the ridges left are {} high.":
        what, result.length, result.steps, result.step, input.diameter, result.cusp);
    for place in [result.points.first(), result.points.last()].into_iter().flatten() {
        about = about.then(words!(" Place {} at X {}, Y {}.": place.number, place.x, place.y));
    }
    about
}
