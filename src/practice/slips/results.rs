//! Slips of what comes out: the right result in other units, with another sign or point, or another
//! result in its place.

use super::case::{Case, Slip};
use crate::practice::wanted::quantities;
use crate::practice::words::name_of;
use crate::quantity::{Dimension, Unit};

/// Results that are looked at for one taken in place of another.
const MOST: usize = 80;

/// The number in one unit, written with another.
pub fn units(case: &Case, all: &mut Vec<Slip>) {
    let wanted = &case.wanted.quantity;
    let (unit, right) = (wanted.unit, wanted.si());
    let is_angle = unit.row().dimension == Dimension::Angle;
    let written = [wanted.kind.inch.0, wanted.kind.metric.0];
    // A centimetre for a millimetre is a decimal point, and nobody measures a shaft in microinches.
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
            let says = format!("The number would be right for {number_of}; the unit written is {written}.");
            all.push(Slip { code, says, value });
        }
    }
}

/// A conversion left out on the way.
pub fn conversions(case: &Case, all: &mut Vec<Slip>) {
    let right = case.wanted.quantity.si();
    let factors: &[(f64, &str)] = match case.wanted.quantity.unit.row().dimension {
        Dimension::TurningSpeed | Dimension::Velocity | Dimension::VolumeRate | Dimension::Power => &[
            (12.0, "feet and inches"),
            (25.4, "inches and millimetres"),
            (60.0, "minutes and seconds"),
            (1000.0, "metres and millimetres"),
        ],
        Dimension::Time => {
            &[(60.0, "minutes and seconds"), (3600.0, "hours and seconds"), (25.4, "inches and millimetres")]
        }
        Dimension::Torque | Dimension::Force => {
            &[(12.0, "feet and inches"), (25.4, "inches and millimetres"), (1000.0, "metres and millimetres")]
        }
        _ => &[],
    };
    for (factor, between) in factors {
        for (value, size) in [(right * factor, "large"), (right / factor, "small")] {
            let says = format!("This is {factor} times too {size}: a conversion between {between} is missing.");
            all.push(Slip { code: "wrong_unit", says, value });
        }
    }
}

/// The other sign.
pub fn sign(case: &Case, all: &mut Vec<Slip>) {
    let says = "The amount is right, its sign is not: which way does this count?".to_owned();
    all.push(Slip { code: "sign", says, value: -case.wanted.quantity.si() });
}

/// The decimal point one to three places off.
pub fn decimal_point(case: &Case, all: &mut Vec<Slip>) {
    for (factor, places) in [(10.0, "one place"), (100.0, "two places"), (1000.0, "three places")] {
        let right = case.wanted.quantity.si();
        for value in [right * factor, right / factor] {
            let says = format!("The digits are right, but the decimal point is {places} off.");
            all.push(Slip { code: "decimal_point", says, value });
        }
    }
}

/// Another result of the same calculation.
pub fn others(case: &Case, all: &mut Vec<Slip>) {
    let Some(result) = case.answer.result() else { return };
    let wanted = &case.wanted.quantity;
    for (path, quantity) in quantities(result).into_iter().take(MOST) {
        if quantity.unit.row().dimension == wanted.unit.row().dimension && path != case.wanted.path {
            let says = format!("This is the {}; the {} is asked for.", name_of(&path), name_of(&case.wanted.path));
            all.push(Slip { code: "other_result", says, value: quantity.si() });
        }
    }
}
