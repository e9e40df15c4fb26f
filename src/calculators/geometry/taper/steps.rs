//! From the statement of a taper to its growth over the length, and from that to all else.

use super::{TaperInput, TaperResult};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const FOOT: FoundSize = FoundSize::stated(12.0, Unit::Inch);

/// All of a taper.
pub fn find(input: &TaperInput, record: &mut Record) -> Result<TaperResult, Refusal> {
    tell!(record.look_up("One foot", "12 in") => foot: FOOT);
    let growth = find_growth(input, record);
    let half: FoundCornerAngle = match input.half_angle {
        Some(half) => {
            tell!(record.choose("Angle to the axis", "as given"), α = half_angle: half => slide_angle: half.found());
            half.found()
        }
        None => step!(record, "Angle to the axis", α: slide_angle = atan(q / 2.0), q = growth),
    };
    let slide_angle = half;
    let from_cross_slide: FoundCornerAngle = step!(record, "The same from the cross slide",
        β: from_cross_slide = radians(π / 2.0) - α, α = slide_angle);
    let full_angle: FoundCornerAngle = step!(record, "Included angle", θ: full_angle = 2.0 * α, α = slide_angle);
    let taper_per_foot: FoundGaugeSize = step!(record, "Taper per foot",
        T: taper_per_foot = q * F, q = growth, F = foot: FOOT);
    let one_in: f64 = step!(record, "One in", n: one_in = 1.0 / q, q = growth);
    let (large_end, small_end, taper_length) = find_ends(input, growth, record)?;
    let set_over: Option<FoundSize> = input.between_centers.map(|between_centers| {
        step!(record, "Offset of the tailstock", o: set_over = L * sin(α), L = between_centers, α = slide_angle)
    });
    let slide_dial: Option<FoundGaugeSize> = input.bar_travel.map(
        |bar_travel| step!(record, "Dial on the slide", e: slide_dial = s * sin(α), s = bar_travel, α = slide_angle),
    );
    let carriage_dial: Option<FoundGaugeSize> = input.bar_travel.map(|bar_travel| {
        step!(record, "Dial on the carriage", d: carriage_dial = s * tan(α), s = bar_travel, α = slide_angle)
    });
    Ok(TaperResult {
        slide_angle,
        from_cross_slide,
        full_angle,
        taper_per_foot,
        one_in,
        large_end,
        small_end,
        taper_length,
        set_over,
        slide_dial,
        carriage_dial,
    })
}

/// Growth of the diameter over the length.
fn find_growth(input: &TaperInput, record: &mut Record) -> f64 {
    let what = "Growth of the diameter over the length";
    if let Some(standard) = input.standard {
        let taper = standard.0;
        record.source_of_row(taper.source, format!("taper of {}", taper.name), taper.trust);
        if !taper.note.is_empty() {
            record.note("of_the_standard", format!("{}: {}.", taper.name, taper.note));
        }
        let listed = FoundGaugeSize::stated(taper.per_foot, Unit::Inch);
        tell!(record.look_up("Taper per foot", format!("tapers, row {}", taper.name)) => listed_per_foot: listed);
        return step!(record, what, q: growth = number(T / F), T = listed_per_foot: listed, F = foot: FOOT);
    }
    if let Some(per_foot) = input.per_foot {
        return step!(record, what, q: growth = number(T / F), T = per_foot, F = foot: FOOT);
    }
    if let Some(ratio) = input.ratio {
        return step!(record, what, q: growth = 1.0 / n, n = ratio: ratio.get());
    }
    if let Some(included_angle) = input.included_angle {
        return step!(record, what, q: growth = 2.0 * tan(θ / 2.0), θ = included_angle);
    }
    if let Some(half_angle) = input.half_angle {
        return step!(record, what, q: growth = 2.0 * tan(α), α = half_angle);
    }
    let one = Size::stated(1.0, Unit::Inch);
    let (large_diameter, small_diameter) = (input.large_diameter.unwrap_or(one), input.small_diameter.unwrap_or(one));
    let length = input.length.unwrap_or(one);
    step!(record, what, q: growth = number((D - d) / l), D = large_diameter, d = small_diameter, l = length)
}

/// The two ends and the length between them.
type Ends = (Option<FoundSize>, Option<FoundSize>, Option<FoundSize>);

fn find_ends(input: &TaperInput, growth: f64, record: &mut Record) -> Result<Ends, Refusal> {
    let TaperInput { large_diameter, small_diameter, length, .. } = *input;
    if large_diameter.is_none() && small_diameter.is_none() && length.is_none() {
        return Ok(ends_of_standard(input, record));
    }
    for (given, what, of, field) in [
        (large_diameter, "Large end", "large_diameter", "large_end"),
        (small_diameter, "Small end", "small_diameter", "small_end"),
        (length, "Length", "length", "taper_length"),
    ] {
        if let Some(size) = given {
            record.choose(what, "as given").with("x", of, size).gives(field, size.found());
        }
    }
    let found = |given: Option<Size>| given.map(|size| size.found());
    let (mut large, mut small, mut long) = (found(large_diameter), found(small_diameter), found(length));
    match (large_diameter, small_diameter, length) {
        (Some(large_diameter), None, Some(length)) => {
            let rest = large_diameter.si() - growth * length.si();
            if rest <= 0.0 {
                return Err(past_the_point(large_diameter, growth, length));
            }
            let end: FoundSize = step!(record, "Small end",
                d: small_end = D - q * l, D = large_diameter, q = growth, l = length);
            small = Some(end);
        }
        (None, Some(small_diameter), Some(length)) => {
            let end: FoundSize = step!(record, "Large end",
                D: large_end = d + q * l, d = small_diameter, q = growth, l = length);
            large = Some(end);
        }
        (Some(large_diameter), Some(small_diameter), None) => {
            let end: FoundSize = step!(record, "Length between the ends",
                l: taper_length = (D - d) / q, D = large_diameter, d = small_diameter, q = growth);
            long = Some(end);
        }
        _ => {}
    }
    Ok((large, small, long))
}

/// What the table has of a standard taper's ends.
fn ends_of_standard(input: &TaperInput, record: &mut Record) -> Ends {
    let Some(taper) = input.standard.map(|standard| standard.0) else { return (None, None, None) };
    let ends = (taper.gauge_diameter, taper.small_diameter, taper.length);
    for (end, what, field) in [
        (ends.0, "Diameter at the gauge line", "large_end"),
        (ends.1, "Small end", "small_end"),
        (ends.2, "Length between them", "taper_length"),
    ] {
        if let Some(size) = end {
            record.look_up(what, format!("tapers, row {}", taper.name)).gives(field, size);
        }
    }
    ends
}

/// The taper comes to a point before its length is over.
fn past_the_point(large: Size, growth: f64, length: Size) -> Refusal {
    let says = "The taper comes to a point before this length is over.";
    Refusal::no_answer(
        says,
        &[
            ("length", value(large.si() / growth * 0.8, length.quantity().unit, Way::Down)),
            ("large_diameter", value(growth * length.si() * 1.2, large.quantity().unit, Way::Up)),
        ],
    )
}
