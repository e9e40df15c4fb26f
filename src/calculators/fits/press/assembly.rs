//! The temperatures at which the parts slip together.

use super::PressFitInput;
use super::interference::Joint;
use super::parts::Parts;
use crate::calculators::prelude::*;
use crate::refusal::Wrong;
use crate::working::known_steps;

/// The boiling point of liquid nitrogen, in kelvin: about the coldest that a shop can make a part.
const COLDEST: f64 = 77.4;
/// Above this, in kelvin, heat harms most hubs: 300 °C.
const TOO_HOT: f64 = 573.15;
/// Above this, in kelvin, heat harms a rolling bearing: 120 °C.
const HOT_FOR_BEARINGS: f64 = 393.15;

/// The clearance that lets parts slip together: a thousandth of the diameter.
pub fn usual_clearance(input: &PressFitInput) -> Extent {
    let size = input.fit.as_ref().map(|fit| fit.size).or(input.diameter);
    let (value, unit) = size.map_or((0.0, Unit::Millimetre), |size| (size.quantity().value, size.quantity().unit));
    Extent::stated(text::tidy(value / 1000.0), unit)
}

/// The temperatures.
pub struct Slip {
    /// Of the hub.
    pub hub: FoundTemperature,
    /// Of the shaft, if it alone is cooled and that is cold enough.
    pub shaft: Option<FoundTemperature>,
}

/// Finds the temperatures; the hub's with the shaft as cold as it is said to be.
pub fn find(input: &PressFitInput, joint: &Joint, parts: &Parts, record: &mut Record) -> Result<Slip, Refusal> {
    record.source("expansion_law", "temperatures to slip the parts together");
    let room = input.room_temperature(record);
    let clearance = input.assembly_clearance(record);
    let (of, diameter) = joint.diameter;
    let (hub, shaft) = (parts.hub.expansion, parts.shaft.expansion);
    let (measured_of, measured) = joint.measured;
    let whole = FoundFineDifference::of_si(measured.si() + clearance.si());
    known_steps! { record;
        step "Gap to open between the parts", "g = i + c", i = (measured_of): measured, c = "assembly_clearance": clearance
            => "gap", whole;
    }
    let mut left = ("gap", whole);
    if let Some(cold) = input.shaft_temperature {
        if cold.si() >= room.si() {
            let says = "The shaft must be colder than the room, or leave its temperature out.";
            return Err(Refusal::one(Wrong::new("shaft_temperature", Code::Conflict, says, "-70 degC")));
        }
        record.caution(cautions::COOLING_TO_FIT);
        let shrinks = FoundFineDifference::of_si(shaft.1 * diameter.si() * (room.si() - cold.si()));
        let rest = FoundFineDifference::of_si(whole.si() - shrinks.si());
        known_steps! { record;
            step "How much the cold shaft shrinks", "q = a * d * (R - K)", a = (shaft.0): shaft.1, d = (of): diameter,
                R = "room_temperature": room, K = "shaft_temperature": cold => "shaft_shrinks", shrinks;
            step "Gap left for the heat", "v = g - q", g = "gap": whole, q = "shaft_shrinks": shrinks => "gap_left", rest;
        }
        left = ("gap_left", rest);
    }
    let warm = left.1.si() > 0.0;
    let hot = FoundTemperature::of_si(room.si() + if warm { left.1.si() / (hub.1 * diameter.si()) } else { 0.0 });
    if warm {
        known_steps! { record;
            step "Temperature of the hub", "H = R + g / (a * d)", R = "room_temperature": room, g = (left.0): left.1,
                a = (hub.0): hub.1, d = (of): diameter => "hub_temperature", hot;
        }
    } else {
        record.note("cold_is_enough", "The cold shaft slips in without heating the hub.");
        known_steps! { record;
            choose "The hub stays as warm as the room", "the cold shaft is small enough", R = "room_temperature": room
                => "hub_temperature", hot;
        }
    }
    tell_heat(hot.si(), record);
    let alone = room.si() - whole.si() / (shaft.1 * diameter.si());
    if alone < COLDEST {
        let says =
            "Cooling the shaft alone is not enough: not even liquid nitrogen is cold enough. Heat the hub as well.";
        record.note("cooling_is_not_enough", says);
        return Ok(Slip { hub: hot, shaft: None });
    }
    let alone = FoundTemperature::of_si(alone);
    known_steps! { record;
        step "Temperature of the shaft, if it alone is cooled", "K = R - g / (a * d)", R = "room_temperature": room,
            g = "gap": whole, a = (shaft.0): shaft.1, d = (of): diameter => "shaft_temperature_alone", alone;
    }
    record.note(
        "cold_shrinks_less",
        "Metals shrink less for each degree the colder they get, steel about a tenth less in dry ice (-78 °C) and a quarter \
         less in liquid nitrogen (-196 °C). Allow for it, or heat the hub too.",
    );
    Ok(Slip { hub: hot, shaft: Some(alone) })
}

fn tell_heat(hot: f64, record: &mut Record) {
    record.note(
        "measure_before_you_join",
        "Check the bore with a gauge before you join: the parts lose their heat fast and grip at once. Have a stop for the \
         depth.",
    );
    if hot > TOO_HOT {
        record.caution_first(
            "too_hot",
            "So hot a hub scales and loses hardness and strength. Cool the shaft as well, press it, or take a lighter fit.",
        );
    } else if hot > HOT_FOR_BEARINGS {
        record.note(
            "hot_for_bearings",
            "Too hot for rolling bearings (120 °C, 250 °F). Hardened steel softens above the heat at which it was tempered, \
             aluminum alloys above about 150 °C (300 °F).",
        );
    }
}
