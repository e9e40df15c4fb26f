//! What is wrong with the sizes given for a triangle, with values to try that do make one.

use super::TriangleInput;
use super::solve::GivenSizes;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const SIDES: [&str; 3] = ["side_a", "side_b", "side_c"];
const ANGLES: [&str; 3] = ["angle_a", "angle_b", "angle_c"];

/// Refuses all but exactly three sizes, one of them a side.
pub fn unless_three(input: &TriangleInput) -> Result<(), ValidationError> {
    let (sides, angles) = input.given();
    let has = |name: &str| {
        let at = |names: [&str; 3]| names.iter().position(|one| *one == name);
        at(SIDES).is_some_and(|of| sides[of].is_some()) || at(ANGLES).is_some_and(|of| angles[of].is_some())
    };
    let given: Vec<&'static str> = SIDES.into_iter().chain(ANGLES).filter(|name| has(name)).collect();
    let number_of_sides = sides.iter().flatten().count();
    if given.len() > 3 {
        let ways: Vec<(&'static str, &str)> = given.iter().map(|name| (*name, "leave out")).collect();
        let says = format!("Give exactly three of the sides and angles; {} are given.", given.len());
        return Err(rule_broken(Code::Conflict, says, &ways));
    }
    let unit = sides.iter().flatten().next().map(|side| side.quantity());
    let like = unit.map_or_else(|| "2 in".to_owned(), |side| value(side.si(), side.unit, Way::Near));
    if given.len() == 3 {
        let flat = |of: &usize| angles[*of].is_some_and(|angle| angle.degrees() >= 180.0);
        if let Some(of) = (0..3).find(flat) {
            let says = "An angle of a triangle is less than 180°.";
            return Err(rule_broken(Code::ValueOutOfRange, says, &[(ANGLES[of], "60 deg")]));
        }
        if number_of_sides > 0 {
            return Ok(());
        }
        let says = "Three angles fix the shape and not the size: give a side in place of one angle.";
        return Err(rule_broken(Code::Conflict, says, &[("angle_c", "leave out"), ("side_a", "2 in")]));
    }
    let rest: Vec<&'static str> = SIDES.into_iter().filter(|name| !has(name)).take(3 - given.len()).collect();
    let ways: Vec<(&'static str, &str)> = rest.into_iter().map(|name| (name, like.as_str())).collect();
    let says = format!("Give three of the sides and angles, one of them a side; {} given.", counted(given.len()));
    Err(rule_broken(Code::FieldMissing, says, &ways))
}

fn counted(number: usize) -> &'static str {
    match number {
        0 => "none is",
        1 => "only one is",
        _ => "only two are",
    }
}

/// One side is as long as the other two together, or longer. The sides are in one unit, which the suggestion has not;
/// so it is said as a share of the others.
pub fn too_long(sides: [f64; 3]) -> Refusal {
    let longest = (0..3).max_by(|a, b| sides[*a].total_cmp(&sides[*b])).unwrap_or(0);
    let says = format!(
        "Side {} is as long as the other two together, or longer: they do not reach each other.",
        ["a", "b", "c"][longest]
    );
    Refusal::no_answer(&says, &[(SIDES[longest], "leave out".to_owned()), (ANGLES[longest], "60 deg".to_owned())])
}

/// Two angles that leave nothing for the third.
pub fn angles_too_wide((p, first): (usize, f64), (q, second): (usize, f64)) -> Refusal {
    let says = "The three angles of a triangle come to 180°: these two leave nothing for the third.";
    let half = |other: f64| value(((180.0 - other) / 2.0).to_radians(), Unit::Degree, Way::Down);
    Refusal::no_answer(says, &[(ANGLES[p], half(second)), (ANGLES[q], half(first))])
}

/// The side opposite the angle does not reach the third side.
pub fn does_not_reach((sides, angles): &GivenSizes, (at, other): (usize, usize)) -> Refusal {
    let (Some(opposite), Some(beside), Some(known)) = (sides[at], sides[other], angles[at]) else {
        return Refusal::default();
    };
    let letters = ["a", "b", "c"];
    let is_wide = known.degrees() >= 90.0;
    let (says, least) = if is_wide {
        let says = format!(
            "With an angle of 90° or more, the side opposite it must be the longest: side {} must be longer than side {}.",
            letters[at], letters[other]
        );
        (says, beside.si() * 1.2)
    } else {
        let height = beside.si() * crate::quantity::angle::sin(known.degrees());
        let says = format!(
            "Side {} is too short to reach: it must be at least {}.",
            letters[at],
            FoundSize::of_si(height).quantity().in_system(system_of(&opposite)).text()
        );
        (says, height * 1.05)
    };
    let share = (opposite.si() / beside.si()).min(1.0);
    let narrow = share.asin() * 0.9;
    Refusal::no_answer(
        &says,
        &[
            (SIDES[at], value(least, opposite.quantity().unit, Way::Up)),
            (ANGLES[at], value(narrow, Unit::Degree, Way::Down)),
        ],
    )
}

fn system_of(side: &Size) -> System {
    side.quantity().unit.system().unwrap_or(System::Metric)
}
