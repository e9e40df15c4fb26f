//! Slips of what comes out: the right result in other units, with another sign or point, or another
//! result in its place.

use super::case::Case;
use crate::practice::sentence::asked_for;
use crate::practice::wanted::{Amount, unnumbered};
use crate::quantity::{Dimension, Unit};
use crate::tree::Node;

/// Results that are looked at for one taken in place of another.
const MOST: usize = 80;

/// The number in one unit, written with another.
pub fn units(case: &mut Case) {
    let Some(wanted) = case.wanted.amount.quantity().copied() else { return };
    let (unit, right) = (wanted.unit, wanted.si());
    let is_angle = unit.row().dimension == Dimension::Angle;
    let written = [wanted.kind.inch.0, wanted.kind.metric.0];
    // A centimeter for a millimeter is a decimal point, and nobody measures a shaft in microinches.
    let is_meant = |other: &Unit| {
        *other != unit
            && (written.contains(other) || *other == Unit::Thou || other.row().dimension != Dimension::Length)
    };
    for other in wanted.kind.units.iter().copied().filter(is_meant) {
        let (asked, also) = (unit.spelling(), other.spelling());
        let code = if is_angle { "degrees_for_radians" } else { "wrong_unit" };
        for (value, number_of, written) in
            [(unit.to_si(other.of_si(right)), also, asked), (other.to_si(unit.of_si(right)), asked, also)]
        {
            case.note(
                code,
                Some(value),
                format!("The number would be right for {number_of}; the unit written is {written}."),
            );
        }
    }
}

/// A conversion left out on the way.
pub fn conversions(case: &mut Case) {
    let right = case.wanted.amount.si();
    let factors: &[(f64, &str)] = match case.wanted.amount.dimension() {
        Some(Dimension::TurningSpeed | Dimension::Velocity | Dimension::VolumeRate | Dimension::Power) => &[
            (12.0, "feet and inches"),
            (25.4, "inches and millimeters"),
            (60.0, "minutes and seconds"),
            (1000.0, "meters and millimeters"),
        ],
        Some(Dimension::Time) => {
            &[(60.0, "minutes and seconds"), (3600.0, "hours and seconds"), (25.4, "inches and millimeters")]
        }
        Some(Dimension::Torque | Dimension::Force) => {
            &[(12.0, "feet and inches"), (25.4, "inches and millimeters"), (1000.0, "meters and millimeters")]
        }
        _ => &[],
    };
    for (factor, between) in factors {
        for (value, size) in [(right * factor, "large"), (right / factor, "small")] {
            let says = format!("This is {factor} times too {size}: a conversion between {between} is missing.");
            case.note("wrong_unit", Some(value), says);
        }
    }
}

/// The other sign.
pub fn sign(case: &mut Case) {
    if case.wanted.amount.quantity().is_some() {
        let says = "The amount is right, its sign is not: which way does this count?";
        case.note("sign", Some(-case.wanted.amount.si()), says);
    }
}

/// The decimal point one to three places off.
pub fn decimal_point(case: &mut Case) {
    let right = case.wanted.amount;
    if right.quantity().is_none() {
        return;
    }
    for (factor, places) in [(10.0, "one place"), (100.0, "two places"), (1000.0, "three places")] {
        for value in [right.si() * factor, right.si() / factor] {
            let says = format!("The digits are right, but the decimal point is {places} off.");
            case.note("decimal_point", Some(value), says);
        }
    }
}

/// The same of another row of the list, and another result of the same calculation.
pub fn others(case: &mut Case) {
    let Some(result) = case.answer.result() else { return };
    let wanted = case.wanted;
    let mut all = Vec::new();
    amounts(result, "", &mut all);
    let asked = asked_for(case.entry, case.answer, &wanted.path);
    let alike = |amount: &Amount| amount.dimension() == wanted.amount.dimension();
    let others = all.iter().take(MOST).filter(|(path, amount)| alike(amount) && *path != wanted.path);
    let (rows, results): (Vec<_>, Vec<_>) = others.partition(|(path, _)| unnumbered(path) == unnumbered(&wanted.path));
    for (code, list) in [("place_in_list", rows), ("other_result", results)] {
        for (path, amount) in list {
            let says = format!("This is the {}; the {asked} is asked for.", asked_for(case.entry, case.answer, path));
            case.note(code, Some(amount.si()), says);
        }
    }
}

fn amounts(node: &Node, path: &str, all: &mut Vec<(String, Amount)>) {
    let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}/{name}") };
    match node {
        Node::List(items) => items.iter().enumerate().for_each(|(at, item)| amounts(item, &join(&at.to_string()), all)),
        Node::Record(members) => members.iter().for_each(|(name, item)| amounts(item, &join(name), all)),
        single => all.extend(Amount::of(single).map(|amount| (path.to_owned(), amount))),
    }
}
