//! From the key to the depth of its seat and what is measured after.

use super::find::{check_room, no_room};
use super::{KeyFit, KeyseatInput, KeyseatResult};
use crate::calculators::prelude::*;
use crate::fitting::{PartLimits, Paths, iso_part, paths};
use crate::reference::fits::ToleranceClass;
use crate::reference::keys::{Key, KeyKind};

const SHAFT_SEAT: Paths = paths!("shaft_seat");
const HUB_SEAT: Paths = paths!("hub_seat");
const KEY: Paths = paths!("key_limits");

/// Room over an inch parallel key, as the formula of the handbook has it.
const ROOM_OVER_KEY: f64 = 0.005;

/// One seat that is being worked out.
pub struct Seat<'a> {
    pub input: &'a KeyseatInput,
    pub key: &'static Key,
    pub record: &'a mut Record,
}

impl Seat<'_> {
    /// Everything about the seat.
    pub fn solve(self) -> Result<KeyseatResult, Refusal> {
        let Seat { input, key, record } = self;
        let (shaft_diameter, table) = (input.shaft_diameter, format!("keys, row {}", key.name));
        record.source_of_row(key.source, format!("{} key {}", key.kind.as_str(), key.name), key.trust);
        let (key_width, key_height) = (key.width(), key.height());
        tell!(record.look_up("The key", table.clone()) => key_size: key.name);
        tell!(record.look_up("Width of the key", table.clone()) => key_width);
        tell!(record.look_up("Height of the key", table.clone()) => key_height);
        let measured_diameter = input.measured_diameter.unwrap_or_else(|| {
            let says = "The shaft is assumed to measure its nominal diameter.";
            record.assume("measured_diameter", &shaft_diameter, says);
            shaft_diameter
        });
        if key_width.si() >= measured_diameter.si().min(shaft_diameter.si()) {
            return no_room(input, key);
        }
        let (standard_depth, over_hub) = self::of_standard(key, shaft_diameter, (key_width, key_height), record);
        let undersize: FoundDifference = step!(record, "How far the top lies below that of a nominal shaft",
            u: undersize = (D - M) / 2.0, D = shaft_diameter, M = measured_diameter);
        let depth_from_top: FoundDepthSetting = step!(record, "Depth of cut from the top of the shaft as measured",
            f: depth_from_top = t - u, t = standard_depth, u = undersize);
        let chord_height: FoundExtent = step!(record, "From the top of the shaft down to the corners of the slot",
            a: chord_height = squared(w) / (2.0 * (M + root(squared(M) - squared(w)))),
            w = key_width, M = measured_diameter);
        let depth_at_side: FoundExtent = step!(record, "Depth at the side of the slot",
            b: depth_at_side = f - a, f = depth_from_top, a = chord_height);
        let to_far_side: FoundSize = step!(record, "From the bottom of the keyseat to the far side of the shaft",
            S: to_far_side = M - f, M = measured_diameter, f = depth_from_top);
        let to_far_side_least: Option<FoundSize> = key.depth_tolerance().map(|depth_tolerance| {
            tell!(record.look_up("How much deeper the seat may be", table.clone()) => depth_tolerance);
            step!(record, "The least to the far side",
                K: to_far_side_least = S - d, S = to_far_side, d = depth_tolerance)
        });
        let over_key: FoundSize = step!(record, "Over the key and the far side of the shaft",
            k: over_key = S + h, S = to_far_side, h = key_height);
        let hub_depth: FoundExtent = step!(record, "Depth of the slot in the hub from the top of its bore",
            e: hub_depth = T - D, T = over_hub, D = shaft_diameter);
        let top_clearance: FoundDifference = step!(record, "From the top of the key to the bottom of the hub's slot",
            g: top_clearance = T - D / 2.0 - k + M / 2.0,
            T = over_hub, D = shaft_diameter, k = over_key, M = measured_diameter);
        let cutter_diameter = key.cutter_diameter();
        let seat_length: Option<FoundExtent> = cutter_diameter.map(|cutter_diameter| {
            tell!(record.look_up("Diameter of the cutter", table) => cutter_diameter);
            step!(record, "Length of the seat along the top of the shaft",
                l: seat_length = 2.0 * root(f * (C - f)), f = depth_from_top, C = cutter_diameter)
        });
        let move_over: Option<FoundMove> = input.tip_diameter.map(|tip_diameter| {
            let shim = input.shim(record);
            step!(record, "From the touch on the side to the middle of the shaft",
                m: move_over = M / 2.0 + c / 2.0 + s, M = measured_diameter, c = tip_diameter, s = shim)
        });
        let [shaft_seat, hub_seat, key_limits] = widths(input, key, record)?;
        let result = KeyseatResult {
            key_size: key.name,
            key_width,
            key_height,
            depth_from_top,
            depth_at_side,
            chord_height,
            to_far_side,
            to_far_side_least,
            over_key,
            hub_depth,
            over_hub,
            top_clearance,
            cutter_diameter,
            seat_length,
            move_over,
            shaft_seat,
            hub_seat,
            key_limits,
        };
        check_room(input, key, &result, measured_diameter.si())?;
        Ok(result)
    }
}

/// The depth from the top of a shaft of nominal size, and the size over the hub's slot.
fn of_standard(
    key: &Key,
    shaft_diameter: Size,
    (key_width, key_height): (FoundSize, FoundSize),
    record: &mut Record,
) -> (FoundExtent, FoundSize) {
    let table = || format!("keys, row {}", key.name);
    let seat_depth = key.shaft_depth();
    if let Some(seat_depth) = seat_depth {
        let from = if key.counts_from_corners() { "corners of the slot" } else { "top of the shaft" };
        tell!(record.look_up(format!("Depth of the seat from the {from}"), table()) => seat_depth);
    }
    let slot_depth = key.hub_depth();
    if let Some(slot_depth) = slot_depth {
        let from = if key.counts_from_corners() { "corners of the slot" } else { "top of the bore" };
        tell!(record.look_up(format!("Depth of the slot in the hub from the {from}"), table()) => slot_depth);
    }
    if let (false, Some(seat_depth), Some(slot_depth)) = (key.counts_from_corners(), seat_depth, slot_depth) {
        tell!(record.choose("Depth of the seat from the top", "as the table has it"), t = seat_depth
            => standard_depth: FoundExtent::of(seat_depth.get()));
        let over_hub = step!(record, "From the bottom of the hub's slot to the far side of its bore",
            T: over_hub = D + s, D = shaft_diameter, s = slot_depth);
        return (FoundExtent::of(seat_depth.get()), over_hub);
    }
    let nominal_chord: FoundExtent = step!(record, "Height of the arc over the width, on a nominal shaft",
        A: nominal_chord = squared(w) / (2.0 * (D + root(squared(D) - squared(w)))),
        w = key_width, D = shaft_diameter);
    if let (Some(seat_depth), Some(slot_depth)) = (seat_depth, slot_depth) {
        let standard_depth = step!(record, "Depth of the seat from the top",
            t: standard_depth = b + A, b = seat_depth, A = nominal_chord);
        let over_hub = step!(record, "From the bottom of the hub's slot to the far side of its bore",
            T: over_hub = D - A + s, D = shaft_diameter, A = nominal_chord, s = slot_depth);
        return (standard_depth, over_hub);
    }
    record.source("mh31_keyseats", "formulas of S and T");
    let room = FoundSize::stated(ROOM_OVER_KEY, Unit::Inch);
    tell!(record.look_up("Room over an inch parallel key", "depth control formulas, C") => room);
    let standard_depth = step!(record, "Half the height at the side, and the arc",
        t: standard_depth = h / 2.0 + A, h = key_height, A = nominal_chord);
    let over_hub = step!(record, "From the bottom of the hub's slot to the far side of its bore",
        T: over_hub = D - A + h / 2.0 + c, D = shaft_diameter, A = nominal_chord, h = key_height, c = room);
    (standard_depth, over_hub)
}

/// Limits of the widths in the shaft, in the hub and of the key.
fn widths(input: &KeyseatInput, key: &Key, record: &mut Record) -> Result<[Option<PartLimits>; 3], Refusal> {
    let Some(fit) = input.fit else { return Ok([None, None, None]) };
    let (shaft, hub) = match fit {
        KeyFit::Normal => ("N9", "JS9"),
        KeyFit::Close => ("P9", "P9"),
        KeyFit::Free => ("H9", "D10"),
    };
    record
        .source("key_classes_memory", format!("{} fit: {shaft} in the shaft, {hub} in the hub, key h9", fit.as_str()));
    let size = key.width();
    tell!(record.look_up("Nominal width", "that of the key") => size);
    let mut limits = |class: &str, paths: &Paths| -> Result<Option<PartLimits>, Refusal> {
        let Some(class) = ToleranceClass::read(class) else { return Ok(None) };
        let found = iso_part(size.quantity().in_unit(Unit::Millimetre), class, paths, record);
        found.map(Some).map_err(|says| Refusal::no_answer(&says, &[("fit", "leave out".to_owned())]))
    };
    Ok([limits(shaft, &SHAFT_SEAT)?, limits(hub, &HUB_SEAT)?, limits("h9", &KEY)?])
}

/// What to know before the cut and after it.
pub fn tell_notes(input: &KeyseatInput, key: &Key, result: &KeyseatResult, record: &mut Record) {
    if key.is_for(input.shaft_diameter) == Some(false)
        && let Some((over, to)) = key.shafts
    {
        let unit = key.unit.row().ascii;
        let says = format!(
            "This is not the standard key for the shaft: the table has it for shafts over {} up to {} {unit}.",
            text::full(over),
            text::full(to)
        );
        record.note_first("not_the_standard_key", says);
    }
    if input.measured_diameter.is_some_and(|measured| measured.si() != input.shaft_diameter.si()) {
        notes!(record => hub_of_nominal_bore: "The seat keeps its distance from the axis, so that the key stands right in \
            a hub of the nominal bore. Where the hub is bored to the shaft, give the measured diameter as the shaft's.");
    }
    if input.fit.is_none() && !key.counts_from_corners() {
        notes!(record => limits_by_fit: "Give the fit, normal, close or free, for the limits of the widths.");
    }
    if key.counts_from_corners() {
        notes!(record => inch_tolerances: "The sizes are nominal. The inch standard's tolerances are not in the table: \
            take them from the drawing.");
    }
    match key.kind {
        KeyKind::Parallel => notes!(record => width_of_the_cutter: "A cutter of full width often cuts wide. Try it on \
            scrap with the key, or use a smaller cutter and finish each wall.";
            which_to_measure: "In an open slot measure from the bottom to the far side. In a closed one, measure over the \
            key; use its measured height where it differs."),
        KeyKind::Woodruff => notes!(record => woodruff_cutter: "Feed the cutter straight in, without a move along the \
            shaft. A reground cutter is smaller and leaves the seat too short: measure it.";
            over_woodruff_key: "Check over the key at its middle; use its measured height where it differs."),
    }
    if result.move_over.is_some() {
        notes!(record => raise_and_go_on: "Zero at the touch, raise the tip clear, and go on in the same direction: then \
            backlash does not count. Touch the top of the shaft only after you stand over its middle.");
    }
    record.caution(cautions::MILLING);
    record.caution(cautions::TURNING_SPINDLE);
    record.caution((
        "keyseat_weakens",
        "A keyseat weakens the shaft, most at sharp bottom corners. Where a failure could hurt someone, a qualified person \
         decides on the key. Never run a shaft with a loose key in it.",
    ));
}
