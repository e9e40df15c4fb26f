//! The taps for a hole: what each measures, what thread it leaves, and which of them do.

use super::finished::{TIE, Zone, finished};
use super::zones::Hole;
use super::{TapLimitInput, TapRow};
use crate::calculators::prelude::*;
use crate::reference::threads::{
    Provenance, TapMarking, TapName, grade_5, recommended_tap, tap_class_zone, tap_classes, tap_tolerance,
};
use crate::threading::{GivenThread, cite_row};
use crate::working::{column, known_steps};

/// The taps for a hole.
#[derive(Debug, Gives)]
pub struct FoundTaps {
    /// How many limit numbers larger the tap must be for the coat; with a coat and H or D limits only.
    #[label("Limit numbers to go up")]
    pub steps_up: Option<u32>,
    /// The tap that a published list names for this class, without coat or oversize; absent where no list names one.
    #[label("Tap by the published list")]
    pub listed_tap: Option<String>,
    /// Of these taps, the one whose thread lies nearest the middle of the class; absent where none is within it.
    #[label("Tap nearest the middle")]
    pub middle_tap: Option<String>,
    /// The taps, smallest first.
    #[label("Taps", "tap")]
    pub taps: Vec<TapRow>,
}

/// Limit numbers that are listed lie within these.
const NUMBERS: std::ops::RangeInclusive<i32> = -99..=200;

/// The taps for the hole, with their steps.
pub fn taps(
    given: &GivenThread,
    (hole, class): (&Hole, &str),
    marking: TapMarking,
    input: &TapLimitInput,
    record: &mut Record,
) -> Result<FoundTaps, Refusal> {
    let basic = given.found(given.basics.pitch_diameter);
    known_steps! { record;
        look_up "Basic pitch diameter", "form of the thread in its standard, as printed",
            T = "thread": given.designation.text() => "basic_pitch", basic;
    }
    let zones = match marking {
        TapMarking::IsoClass => of_classes(given, basic, input, record)?,
        _ => of_limits(given, (basic, hole), marking, input, record)?,
    };
    let taps = finished(given, hole, &zones, record);
    let middle_tap = middle(&taps);
    if let Some(name) = &middle_tap {
        known_steps! { record;
            look_up "Tap nearest to the middle", "of the taps within the class, the one with the most even room above \
                and below"
                => "middle_tap", name.clone();
        }
    } else {
        record.note(
            "none_within",
            "None of these taps is sure to leave the thread within its class: the tolerance is too small for the tap, \
             the oversize and the coat together.",
        );
    }
    let steps_up = steps_up(given, hole, marking, record);
    let listed_tap = listed(given, hole, (marking, steps_up), class, record);
    Ok(FoundTaps { steps_up, listed_tap, middle_tap, taps })
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
                let says = format!("There is no tolerance for taps with a D limit at a pitch of {pitch} mm.");
                let field =
                    if input.taps.is_some() { ("taps", "ISO 2".into()) } else { ("marking", "iso_class".into()) };
                return Err(Refusal::no_answer(&says, &[field, ("thread", "M8".into())]));
            };
            record.source(
                "asme_b94_9",
                "D limit: the greatest pitch diameter is 0.013 mm above the basic one for each number",
            );
            let from = Provenance { source: &row.source, trust: &row.trust };
            cite_row(from, format!("tolerance of a tap's pitch diameter, pitch {pitch} mm"), record);
            row.tolerance_mm
        }
        _ => {
            record.source(
                "asme_b94_9",
                "H limit: the greatest pitch diameter is 0.0005 in above the basic one for each number; L limit: the \
                 least is 0.0005 in below it for each number; tolerance 0.0005 in",
            );
            if given.thread().diameter > 2.0 {
                record.note(
                    "large_tap",
                    "The printed tables of H limits end at 2 in. Ask the maker for the limits of a larger tap.",
                );
            }
            step
        }
    };
    let numbers: Vec<i32> = match &input.taps {
        Some(taps) => taps.iter().map(|tap| tap.0.number).collect(),
        None => {
            let (low, high) = hole.shifts(unit);
            let (least, greatest) = (hole.limits.pitch_min.quantity().value, hole.limits.pitch_max.quantity().value);
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
    let extent = |value: f64| FoundExtent::stated(value, unit);
    known_steps! { record;
        look_up "Limit numbers", "as they are marked; L1 counts as 0, L2 as 1 below it"
            => "limit_numbers", column(&numbers, |number| f64::from(*number));
        step "Greatest pitch diameters of the taps", "t = E + n × s",
            E = "basic_pitch", n = "limit_numbers", s = "constant:limit_step": extent(step)
            => "taps.pitch_max", column(&zones, |zone| given.found(zone.greatest));
        look_up "Tolerance of a tap's pitch diameter", "ASME B94.9, by the pitch of metric threads", P = "pitch"
            => "tap_tolerance", extent(tolerance);
        step "Least pitch diameters of the taps", "m = t - w", t = "taps.pitch_max", w = "tap_tolerance"
            => "taps.pitch_min", column(&zones, |zone| given.found(zone.least));
    }
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
        let says = "The ISO classes of taps go by the grade 5 tolerance of ISO 965-1, which has none for this thread.";
        return Err(Refusal::no_answer(says, &[("thread", "M8".into())]));
    };
    record.source("iso_2857", "zones of the classes as shares of the tolerance of grade 5");
    for row in sources {
        cite_row(row, "cells of the tolerance tables", record);
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
    let exact = |share: f64| FoundExtent::stated(share * grade as f64 / 1000.0, unit);
    let rule = "E plus z, with z rounded to whole micrometers, halves up";
    known_steps! { record;
        look_up "Pitch diameter tolerance of grade 5", "ISO 965-1, for the internal thread",
            T = "thread": given.designation.text() => "grade_5", exact(1.0);
        look_up "Shares at which the zones begin", "ISO 2857, by class"
            => "lower_shares", column(&rows, |row| row.lower_share);
        step "Beginnings of the zones", "z = a × G", a = "lower_shares", G = "grade_5"
            => "zones_begin", column(&rows, |row| exact(row.lower_share));
        look_up "Least pitch diameters of the taps", rule, E = "basic_pitch", z = "zones_begin"
            => "taps.pitch_min", column(&zones, |zone| given.found(zone.least));
        look_up "Shares at which the zones end", "ISO 2857, by class"
            => "upper_shares", column(&rows, |row| row.upper_share);
        step "Ends of the zones", "z = a × G", a = "upper_shares", G = "grade_5"
            => "zones_end", column(&rows, |row| exact(row.upper_share));
        look_up "Greatest pitch diameters of the taps", rule, E = "basic_pitch", z = "zones_end"
            => "taps.pitch_max", column(&zones, |zone| given.found(zone.greatest));
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
    let change = hole.limits.pitch_change_max.filter(|_| marking != TapMarking::IsoClass)?;
    let step = marking.step();
    let steps = (change.quantity().value / step - TIE / step).ceil().max(0.0);
    let steps = (steps <= 1000.0).then_some(steps as u32)?;
    known_steps! { record;
        look_up "Limit numbers to go up for the coat", "Δ / s, rounded up to a whole number",
            Δ = "pitch_change_max", s = "constant:limit_step": FoundExtent::stated(step, given.unit())
            => "steps_up", steps;
    }
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
    let (name, row) = recommended_tap(given.thread(), class, marking)?;
    cite_row(row, format!("tap named for {}, class {class}", given.thread().designation), record);
    known_steps! { record;
        look_up "Tap that a list names for the class",
            format!("published lists, class {class}, threads without a coat"),
            T = "thread": given.designation.text() => "listed_tap", name.text();
    }
    if hole.is_coated() {
        let says = match steps_up {
            Some(up) => {
                let with = TapName::new(marking, name.number + up as i32).text();
                format!("The list names {} for a thread without a coat; for this coat that makes {with}.", name.text())
            }
            None => format!(
                "The list names {} for a thread without a coat. For this coat order a tap that is larger by what the \
                 coat takes.",
                name.text()
            ),
        };
        record.note("listed_before_coat", says);
    }
    Some(name.text())
}
