//! The pressure between the parts, what it holds, and the stress in both.

use super::PressFitInput;
use super::interference::Joint;
use super::parts::Parts;
use crate::calculators::prelude::*;
use crate::working::known_steps;

/// What the pressure does.
pub struct Held {
    pub pressure: FoundStress,
    pub least_pressure: Option<FoundStress>,
    pub holding_force: Option<FoundCuttingForce>,
    pub holding_torque: Option<FoundTorque>,
    pub pressing_force: Option<FoundCuttingForce>,
    pub hub_stress: FoundStress,
    pub hub_outside_stress: FoundStress,
    pub shaft_stress: FoundStress,
    pub hub_share: Option<FoundPercentage>,
    pub shaft_share: Option<FoundPercentage>,
    pub hub_grows: FoundFineDifference,
    pub bore_closes: Option<FoundFineDifference>,
}

/// Finds the pressure and what follows from it.
pub fn find(input: &PressFitInput, joint: &Joint, parts: &Parts, record: &mut Record) -> Held {
    let bore = input.shaft_bore(record);
    let (of, diameter) = joint.diameter;
    let (d, outer, inner) = (diameter.si(), input.hub_diameter.si(), bore.si());
    let (d2, outer2, inner2) = (d * d, outer * outer, inner * inner);
    let (hub, shaft) = (&parts.hub, &parts.shaft);
    let hub_factor = (outer2 + d2) / (outer2 - d2) + hub.poisson.1;
    let shaft_factor = (d2 + inner2) / (d2 - inner2) - shaft.poisson.1;
    known_steps! { record;
        step "How much the hub gives", "C = (D^2 + d^2) / (D^2 - d^2) + n", D = "hub_diameter": input.hub_diameter,
            d = (of): diameter, n = (hub.poisson.0): hub.poisson.1 => "hub_factor", hub_factor;
        step "How much the shaft gives", "S = (d^2 + b^2) / (d^2 - b^2) - n", d = (of): diameter,
            b = "shaft_bore": bore, n = (shaft.poisson.0): shaft.poisson.1 => "shaft_factor", shaft_factor;
    }
    let at = |by: FoundFineDifference, end: usize| {
        by.si() / (d * (hub_factor / hub.modulus[end].1.si() + shaft_factor / shaft.modulus[end].1.si()))
    };
    let pressure = FoundStress::of_si(at(joint.greatest, 1));
    let least_pressure = (joint.least.si() > 0.0).then(|| FoundStress::of_si(at(joint.least, 0)));
    let formula = "p = u / (d * (C / E + S / F))";
    known_steps! { record;
        step "Pressure at the greatest interference", formula, u = "greatest_interference": joint.greatest,
            d = (of): diameter, C = "hub_factor": hub_factor, E = (hub.modulus[1].0): hub.modulus[1].1,
            S = "shaft_factor": shaft_factor, F = (shaft.modulus[1].0): shaft.modulus[1].1 => "pressure", pressure;
    }
    if let Some(least) = least_pressure {
        known_steps! { record;
            step "Pressure at the least interference", formula, u = "least_interference": joint.least,
                d = (of): diameter, C = "hub_factor": hub_factor, E = (hub.modulus[0].0): hub.modulus[0].1,
                S = "shaft_factor": shaft_factor, F = (shaft.modulus[0].0): shaft.modulus[0].1 => "least_pressure", least;
        }
    }
    let (holding_force, holding_torque, pressing_force) = forces(input, joint, (pressure, least_pressure), record);

    let p = pressure.si();
    let hub_stress = FoundStress::of_si(p * (outer2 + d2) / (outer2 - d2));
    let hub_outside_stress = FoundStress::of_si(2.0 * p * d2 / (outer2 - d2));
    let hub_grows = FoundFineDifference::of_si(hub_outside_stress.si() * outer / hub.modulus[1].1.si());
    known_steps! { record;
        step "Pull around the hub at its bore", "s = p * (D^2 + d^2) / (D^2 - d^2)", p = "pressure": pressure,
            D = "hub_diameter": input.hub_diameter, d = (of): diameter => "hub_stress", hub_stress;
        step "Pull around the hub at its outside", "t = 2 * p * d^2 / (D^2 - d^2)", p = "pressure": pressure,
            D = "hub_diameter": input.hub_diameter, d = (of): diameter => "hub_outside_stress", hub_outside_stress;
        step "How much the hub grows", "g = t * D / E", t = "hub_outside_stress": hub_outside_stress,
            D = "hub_diameter": input.hub_diameter, E = (hub.modulus[1].0): hub.modulus[1].1 => "hub_grows", hub_grows;
    }
    let hollow = inner > 0.0;
    let shaft_stress = FoundStress::of_si(if hollow { -2.0 * p * d2 / (d2 - inner2) } else { -p });
    if hollow {
        known_steps! { record;
            step "Push around the shaft at its bore", "z = -2 * p * d^2 / (d^2 - b^2)", p = "pressure": pressure,
                d = (of): diameter, b = "shaft_bore": bore => "shaft_stress", shaft_stress;
        }
    } else {
        known_steps! { record;
            step "Push all through the solid shaft", "z = -p", p = "pressure": pressure => "shaft_stress", shaft_stress;
        }
    }
    let bore_closes = input.shaft_bore.is_some().then(|| {
        let closes = FoundFineDifference::of_si(-shaft_stress.si() * inner / shaft.modulus[1].1.si());
        known_steps! { record;
            step "How much the bore closes", "k = -z * b / F", z = "shaft_stress": shaft_stress, b = "shaft_bore": bore,
                F = (shaft.modulus[1].0): shaft.modulus[1].1 => "bore_closes", closes;
        }
        closes
    });
    if hollow {
        record.note("bore_closes", "The bore closes as the joint presses: bore or ream it to size afterward.");
    }
    let hub_share = input.hub_yield.map(|limit| {
        let share = FoundPercentage::of_si((hub_stress.si() + p) / limit.si());
        known_steps! { record;
            step "Pull and pressure in the hub against its yield strength", "h = (s + p) / Y",
                s = "hub_stress": hub_stress, p = "pressure": pressure, Y = "hub_yield": limit => "hub_share", share;
        }
        share
    });
    let shaft_share = input.shaft_yield.map(|limit| {
        let share = FoundPercentage::of_si(-shaft_stress.si() / limit.si());
        known_steps! { record;
            step "Push in the shaft against its yield strength", "w = -z / Y", z = "shaft_stress": shaft_stress,
                Y = "shaft_yield": limit => "shaft_share", share;
        }
        share
    });
    tell_yield(hub_share, shaft_share, record);
    Held {
        pressure,
        least_pressure,
        holding_force,
        holding_torque,
        pressing_force,
        hub_stress,
        hub_outside_stress,
        shaft_stress,
        hub_share,
        shaft_share,
        hub_grows,
        bore_closes,
    }
}

type Forces = (Option<FoundCuttingForce>, Option<FoundTorque>, Option<FoundCuttingForce>);

/// What the joint holds, and the force of the press.
fn forces(
    input: &PressFitInput,
    joint: &Joint,
    (pressure, least_pressure): (FoundStress, Option<FoundStress>),
    record: &mut Record,
) -> Forces {
    let Some(length) = input.length else { return (None, None, None) };
    let (of, diameter) = joint.diameter;
    let (friction, in_pressing) = (input.friction(record), input.pressing_friction(record));
    record.source("press_friction_practice", "coefficients of friction, where none are given");
    let area = PI * diameter.si() * length.si();
    let force =
        |friction: PlainNumber, pressure: FoundStress| FoundCuttingForce::of_si(friction.get() * pressure.si() * area);
    let pressing = force(in_pressing, pressure);
    known_steps! { record;
        step "Force to press the parts together", "P = f * p * π * d * L", f = "pressing_friction": in_pressing.get(),
            p = "pressure": pressure, d = (of): diameter, L = "length": length => "pressing_force", pressing;
    }
    record.note(
        "force_and_torque",
        "Force and torque at the same time add up: let neither come near the whole. Leave a margin of two for shocks and \
         for a shaft that bends.",
    );
    let Some(least) = least_pressure else { return (None, None, Some(pressing)) };
    let holding = force(friction, least);
    let torque = FoundTorque::of_si(holding.si() * diameter.si() / 2.0);
    known_steps! { record;
        step "Force that the joint holds", "H = f * p * π * d * L", f = "friction": friction.get(),
            p = "least_pressure": least, d = (of): diameter, L = "length": length => "holding_force", holding;
        step "Torque that the joint holds", "T = H * d / 2", H = "holding_force": holding, d = (of): diameter
            => "holding_torque", torque;
    }
    (Some(holding), Some(torque), Some(pressing))
}

fn tell_yield(hub: Option<FoundPercentage>, shaft: Option<FoundPercentage>, record: &mut Record) {
    let over = |share: Option<FoundPercentage>| share.is_some_and(|share| share.si() > 1.0);
    if over(hub) || over(shaft) {
        record.caution_first(
            "it_yields",
            "At its greatest interference a part yields: it stays deformed, can split, and holds less than found. Take a \
             lighter fit or a thicker hub.",
        );
    }
    record.note(
        "elastic_and_even",
        "For parts of one length, still, smooth inside and elastic. At the hub's ends, keyways and holes the stress is \
         higher; a brittle hub such as gray iron can crack well below its strength.",
    );
}
