//! The taps for a hole: what each measures, what thread it leaves, and which of them do.

use super::finished::{TIE, Zone, finished};
use super::zones::Hole;
use super::{TapLimitInput, TapRow};
use crate::quantity::{FoundExtent, FoundSize, text};
use crate::reference::threads::{
    Provenance, TapMarking, TapName, grade_5, recommended_tap, tap_class_zone, tap_classes, tap_tolerance,
};
use crate::refusal::Refusal;
use crate::sources::Trust;
use crate::threading::GivenThread;
use crate::working::Record;

/// What was found.
pub struct FoundTaps {
    /// The taps, smallest first.
    pub rows: Vec<TapRow>,
    /// Limit numbers to go up for the coat.
    pub steps_up: Option<u32>,
    /// The tap that a list names.
    pub listed: Option<String>,
    /// The tap nearest to the middle of the class.
    pub middle: Option<String>,
}

/// Limit numbers that are listed lie within these.
const NUMBERS: std::ops::RangeInclusive<i32> = -99..=200;

fn trusted(record: &mut Record, source: &'static str, place: impl Into<std::borrow::Cow<'static, str>>, trust: &str) {
    record.source_trusted(source, place, Trust::named(trust).unwrap_or(Trust::FromMemory));
}

/// The taps for the hole, with their steps.
pub fn taps(
    given: &GivenThread,
    (hole, class): (&Hole, &str),
    marking: TapMarking,
    input: &TapLimitInput,
    record: &mut Record,
) -> Result<FoundTaps, Refusal> {
    let basic = given.found(given.basics.pitch_diameter);
    record
        .look_up("Basic pitch diameter", "form of the thread in its standard, as printed")
        .with("T", "thread", given.designation.text())
        .gives("basic_pitch", basic);
    let zones = match marking {
        TapMarking::IsoClass => of_classes(given, basic, input, record)?,
        _ => of_limits(given, (basic, hole), marking, input, record)?,
    };
    let rows = finished(given, hole, &zones, record);
    let middle = middle(&rows);
    if let Some(name) = &middle {
        record
            .look_up("Tap nearest to the middle", "of those within the class, the one with the most even room")
            .gives("middle_tap", name.clone());
    } else {
        record.note(
            "none_within",
            "None of these taps is sure to leave the thread within its class: its tolerance is too narrow for the tap, the \
             oversize and the coat together.",
        );
    }
    let steps_up = steps_up(given, hole, marking, record);
    let listed = listed(given, hole, (marking, steps_up), class, record);
    Ok(FoundTaps { rows, steps_up, listed, middle })
}

/// The zones of taps marked with an H or D limit.
fn of_limits(
    given: &GivenThread,
    (basic, hole): (FoundSize, &Hole),
    marking: TapMarking,
    input: &TapLimitInput,
    record: &mut Record,
) -> Result<Vec<Zone>, Refusal> {
    let unit = given.unit();
    let (step, base) = (marking.step(), basic.quantity().value);
    let tolerance = match marking {
        TapMarking::DLimit => {
            let pitch = given.thread().pitch;
            let Some(row) = tap_tolerance(pitch) else {
                let says = format!("No tolerance of taps with a D limit is known here for a pitch of {pitch} mm.");
                let field =
                    if input.taps.is_some() { ("taps", "ISO 2".into()) } else { ("marking", "iso_class".into()) };
                return Err(Refusal::no_answer(&says, &[field, ("thread", "M8".into())]));
            };
            record.source(
                "asme_b94_9",
                "D limit: the greatest pitch diameter is 0.013 mm above the basic one for each number",
            );
            trusted(record, &row.source, format!("tolerance of a tap's pitch diameter, pitch {pitch} mm"), &row.trust);
            row.tolerance_mm
        }
        _ => {
            record.source(
                "asme_b94_9",
                "H limit: the greatest pitch diameter is half a thousandth above the basic one for each number; L: the least \
                 is so much below it; tolerance 0.0005 in",
            );
            if given.thread().diameter > 2.0 {
                record.note(
                    "large_tap",
                    "The printed tables of H limits end at 2 in; what a larger tap is made to, its maker says.",
                );
            }
            step
        }
    };
    let numbers: Vec<i32> = match &input.taps {
        Some(taps) => taps.iter().map(|tap| tap.0.number).collect(),
        None => {
            let (low, high) = hole.shifts(unit);
            let (least, greatest) = (hole.pitch_min.quantity().value, hole.pitch_max.quantity().value);
            let first = ((least - base + tolerance - low) / step - TIE / step).ceil();
            let last = ((greatest - base - high) / step + TIE / step).floor();
            let middle = (((least + greatest - low - high + tolerance) / 2.0 - base) / step).round();
            let (first, last) = if first <= last { (first, last) } else { (middle, middle) };
            let bottom = if marking == TapMarking::DLimit { 1 } else { *NUMBERS.start() };
            let bound = |number: f64| number.clamp(f64::from(bottom), f64::from(*NUMBERS.end())) as i32;
            (bound(first - 1.0)..=bound(last + 1.0)).collect()
        }
    };
    let zones: Vec<Zone> = numbers
        .iter()
        .map(|number| {
            let greatest = text::tidy(base + f64::from(*number) * step);
            Zone { name: TapName::new(marking, *number), least: text::tidy(greatest - tolerance), greatest }
        })
        .collect();
    let sizes = |of: fn(&Zone) -> f64| zones.iter().map(|zone| given.found(of(zone))).collect::<Vec<_>>();
    let extent = |value: f64| FoundExtent::stated(value, unit);
    record
        .look_up("Limit numbers", "as they are marked; L1 counts as 0, L2 as 1 below it")
        .gives("limit_numbers", numbers.iter().map(|number| f64::from(*number)).collect::<Vec<_>>());
    record
        .step("Greatest pitch diameters of the taps", "t = E + n × s")
        .with("E", "basic_pitch", basic)
        .with("n", "limit_numbers", numbers.iter().map(|number| f64::from(*number)).collect::<Vec<_>>())
        .with("s", "constant:limit_step", extent(step))
        .gives("taps.pitch_max", sizes(|zone| zone.greatest));
    record
        .look_up("Tolerance of a tap's pitch diameter", "ASME B94.9, by the pitch of metric threads")
        .with("P", "pitch", given.pitch)
        .gives("tap_tolerance", extent(tolerance));
    record
        .step("Least pitch diameters of the taps", "m = t - w")
        .with("t", "taps.pitch_max", sizes(|zone| zone.greatest))
        .with("w", "tap_tolerance", extent(tolerance))
        .gives("taps.pitch_min", sizes(|zone| zone.least));
    Ok(zones)
}

/// The zones of the classes of ISO 2857.
fn of_classes(
    given: &GivenThread,
    basic: FoundSize,
    input: &TapLimitInput,
    record: &mut Record,
) -> Result<Vec<Zone>, Refusal> {
    let Some((grade, sources)) = grade_5(given.thread()) else {
        let says = "The classes of taps are laid out by the tolerance of grade 5, which ISO 965-1 does not have for this \
                    thread.";
        return Err(Refusal::no_answer(says, &[("thread", "M8".into())]));
    };
    record.source("iso_2857", "zones of the classes as shares of the tolerance of grade 5");
    for Provenance { source, trust } in sources {
        trusted(record, source, "cells of the tolerance tables", trust);
    }
    let unit = given.unit();
    let base = basic.quantity().value;
    let rows: Vec<_> = match &input.taps {
        None => tap_classes().iter().collect(),
        Some(taps) => taps.iter().filter_map(|tap| tap_classes().get(tap.0.number as usize - 1)).collect(),
    };
    let zones: Vec<Zone> = rows
        .iter()
        .filter_map(|row| {
            let (from, to) = tap_class_zone(row, grade);
            let at = |micrometres: i64| text::tidy(base + micrometres as f64 / 1000.0);
            Some(Zone { name: TapName::read(&row.name).ok()?, least: at(from), greatest: at(to) })
        })
        .collect();
    let tolerance = FoundExtent::stated(grade as f64 / 1000.0, unit);
    record
        .look_up("Pitch diameter tolerance of grade 5", "ISO 965-1, for the internal thread")
        .with("T", "thread", given.designation.text())
        .gives("grade_5", tolerance);
    for (what, share, zone, result, at, of) in [
        (
            ["Shares at which the zones begin", "Beginnings of the zones", "Least pitch diameters of the taps"],
            "lower_shares",
            "zones_begin",
            "taps.pitch_min",
            rows.iter().map(|row| row.lower_share).collect::<Vec<_>>(),
            zones.iter().map(|zone| given.found(zone.least)).collect::<Vec<_>>(),
        ),
        (
            ["Shares at which the zones end", "Ends of the zones", "Greatest pitch diameters of the taps"],
            "upper_shares",
            "zones_end",
            "taps.pitch_max",
            rows.iter().map(|row| row.upper_share).collect::<Vec<_>>(),
            zones.iter().map(|zone| given.found(zone.greatest)).collect::<Vec<_>>(),
        ),
    ] {
        let exact: Vec<FoundExtent> =
            at.iter().map(|share| FoundExtent::stated(share * grade as f64 / 1000.0, unit)).collect();
        record.look_up(what[0], "ISO 2857, by class").gives(share, at.clone());
        record
            .step(what[1], "z = a × G")
            .with("a", share, at)
            .with("G", "grade_5", tolerance)
            .gives(zone, exact.clone());
        record
            .look_up(what[2], "E and z, z to whole micrometres, halves upward")
            .with("E", "basic_pitch", basic)
            .with("z", zone, exact)
            .gives(result, of);
    }
    Ok(zones)
}

fn middle(rows: &[TapRow]) -> Option<String> {
    let uneven = |row: &TapRow| (row.room_below.quantity().value - row.room_above.quantity().value).abs();
    rows.iter()
        .filter(|row| row.within_class)
        // The smaller of two that are equally near.
        .reduce(|best, row| if uneven(row) < uneven(best) - TIE { row } else { best })
        .map(|row| row.name.clone())
}

/// By how many limit numbers the coat lets the tap grow.
fn steps_up(given: &GivenThread, hole: &Hole, marking: TapMarking, record: &mut Record) -> Option<u32> {
    let coat = hole.coat.as_ref().filter(|_| marking != TapMarking::IsoClass)?;
    let step = marking.step();
    let steps = (coat.change_max.quantity().value / step - TIE / step).ceil().max(0.0);
    let steps = (steps <= 1000.0).then_some(steps as u32)?;
    record
        .look_up("Limit numbers to go up for the coat", "the whole number at or next above Δ / s")
        .with("Δ", "pitch_change_max", coat.change_max)
        .with("s", "constant:limit_step", FoundExtent::stated(step, given.unit()))
        .gives("steps_up", steps);
    Some(steps)
}

/// The tap that a published list names for the class.
fn listed(
    given: &GivenThread,
    hole: &Hole,
    (marking, steps_up): (TapMarking, Option<u32>),
    class: &str,
    record: &mut Record,
) -> Option<String> {
    let (name, Provenance { source, trust }) = recommended_tap(given.thread(), class, marking)?;
    trusted(record, source, format!("tap named for {}, class {class}", given.thread().designation), trust);
    record
        .look_up(
            "Tap that a list names for the class",
            format!("published lists, class {class}, for threads without a coat"),
        )
        .with("T", "thread", given.designation.text())
        .gives("listed_tap", name.text());
    if hole.coat.is_some() {
        let says = match steps_up {
            Some(up) => {
                let with = TapName::new(marking, name.number + up as i32).text();
                format!("{} is the list's tap for a thread without a coat; for this coat that is {with}.", name.text())
            }
            None => format!(
                "{} is for a thread without a coat; for the coat a tap must be ordered that is larger by what the coat takes.",
                name.text()
            ),
        };
        record.note("listed_before_coat", says);
    }
    Some(name.text())
}
