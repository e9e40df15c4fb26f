//! The helix of the cutter's middle, and what a cutter that is no point does to the flanks.

use super::rules::defaults;
use super::{PathTravel, PathTurn, ThreadMillingInput, ThreadMillingWay, ThreadedSide};
use crate::quantity::{FoundAngle, FoundExtent, FoundSize, SiValue, Size, Unit, text};
use crate::refusal::Refusal;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;
use crate::working::Record;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// The diameters of the last cut.
pub struct Sizes {
    /// Before threading.
    pub start: Size,
    /// That the tips cut to.
    pub contour: Size,
    /// Of the circle of the cutter's middle.
    pub path: FoundSize,
    /// The largest cutter that goes into a hole.
    pub greatest_cutter: Option<FoundSize>,
}

/// The diameters, with their steps.
pub fn sizes(given: &GivenThread, input: &ThreadMillingInput, record: &mut Record) -> Sizes {
    let unit = given.unit();
    let internal = input.side == ThreadedSide::Internal;
    let (start, contour) = defaults(given.thread(), input.side);
    let (start_says, contour_says) = if internal {
        ("The hole is taken as bored to the basic minor diameter.", "A full profile reaches the basic major diameter.")
    } else {
        (
            "The stud is taken as turned to the basic major diameter.",
            "A flat of a quarter pitch reaches the basic minor diameter.",
        )
    };
    let start = record.or_assume(input.start_diameter, "start_diameter", Size::stated(start, unit), start_says);
    let contour =
        record.or_assume(input.contour_diameter, "contour_diameter", Size::stated(contour, unit), contour_says);
    let cutter = input.cutter_diameter;
    let path = FoundSize::of(if internal { contour.get() - cutter.get() } else { contour.get() + cutter.get() });
    record
        .step("Circle of the cutter's middle", if internal { "Dp = Dk - Dc" } else { "Dp = Dk + Dc" })
        .with("Dk", "contour_diameter", contour)
        .with("Dc", "cutter_diameter", cutter)
        .gives("path_diameter", path);
    let greatest_cutter = internal.then(|| start.found());
    if let Some(greatest) = greatest_cutter {
        record
            .step("Largest cutter that goes in", "g = Ds")
            .with("Ds", "start_diameter", start)
            .gives("greatest_cutter", greatest);
    }
    Sizes { start, contour, path, greatest_cutter }
}

/// The helix.
pub struct Helix {
    /// Its angle.
    pub angle: FoundAngle,
    /// Which way round.
    pub turns: PathTurn,
    /// Which way along.
    pub travels: PathTravel,
}

/// The rise, the angle and the direction.
pub fn helix(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    way: ThreadMillingWay,
    record: &mut Record,
) -> Helix {
    record
        .step("Rise in one turn of the path", "s = L")
        .with("L", "lead", given.lead)
        .gives("rise_per_turn", given.lead);
    let slope = given.lead.get().si() / (PI * sizes.path.get().si());
    let angle = FoundAngle::stated(text::tidy(slope.atan().to_degrees()), Unit::Degree);
    record
        .step("Angle of the path's helix", "λ = atan(L / (π × Dp))")
        .with("L", "lead", given.lead)
        .with("Dp", "path_diameter", sizes.path)
        .gives("path_angle", angle);
    // Seen from above a spindle that runs clockwise climbs when it goes counterclockwise round a hole and
    // clockwise round a stud; counterclockwise and up is a right-hand helix.
    let counterclockwise = (input.side == ThreadedSide::Internal) == (way == ThreadMillingWay::Climb);
    let up = counterclockwise != given.thread().left_hand;
    let turns = if counterclockwise { PathTurn::Counterclockwise } else { PathTurn::Clockwise };
    let travels = if up { PathTravel::Up } else { PathTravel::Down };
    record
        .look_up(
            "Which way round",
            "from above, the spindle running clockwise: climb milling is counterclockwise in a hole, clockwise on a stud",
        )
        .with("S", "side", input.side.as_str())
        .with("W", "way", way.as_str())
        .gives("path_turns", turns.as_str());
    record
        .look_up("Which way along the axis", "counterclockwise and up is right-hand, clockwise and up left-hand")
        .with("T", "thread", given.designation.text())
        .with("R", "path_turns", turns.as_str())
        .gives("path_travels", travels.as_str());
    Helix { angle, turns, travels }
}

/// What the cutter takes too much.
pub struct Spoilt {
    /// Off each flank, along the axis, at the pitch line.
    pub flank: FoundExtent,
    /// What it does to the pitch diameter.
    pub pitch_diameter: FoundExtent,
}

/// Before and after the point that it is to cut, the cutter's rim lies off the helix but not yet clear of the
/// flank: by how much it cuts into it at most.
pub fn overcut(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    record: &mut Record,
) -> Result<Spoilt, Refusal> {
    let internal = input.side == ThreadedSide::Internal;
    let pitch_diameter = given.pitch_diameter(record);
    let e = pitch_diameter.get().si();
    let (cutter, contour) = (input.cutter_diameter.get().si(), sizes.contour.get().si());
    let radius = if internal { (cutter - contour + e) / 2.0 } else { (cutter + contour - e) / 2.0 };
    if radius <= 0.0 {
        let says = "The cutter is smaller than its teeth are high: there is none such.";
        let larger =
            value(cutter - 2.0 * radius + contour.min(e) / 4.0, input.cutter_diameter.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("cutter_diameter", larger)]));
    }
    let at_pitch = FoundSize::of(SiValue::from_si(radius));
    record
        .step(
            "Radius of the cutter at the pitch line",
            if internal { "r = (Dc - Dk + E) / 2" } else { "r = (Dc + Dk - E) / 2" },
        )
        .with("Dc", "cutter_diameter", input.cutter_diameter)
        .with("Dk", "contour_diameter", sizes.contour)
        .with("E", "basic_pitch_diameter", pitch_diameter)
        .gives("cutter_pitch_radius", at_pitch);
    let (lead, path) = (given.lead.get().si(), sizes.path.get().si() / 2.0);
    let flank = given.half_angle.degrees().to_radians().tan();
    let short = |turned: f64| {
        let across = (radius * radius - (path * turned.sin()).powi(2)).max(0.0).sqrt();
        if internal { e / 2.0 - path * turned.cos() - across } else { path * turned.cos() - across - e / 2.0 }
    };
    let cut = |turned: f64| lead * turned / TAU - flank * short(turned);
    // Where the circle of the cutter is smaller than that of the path, a ray touches it at most at this angle.
    let most = if radius >= path { PI } else { (radius / path).asin().min(FRAC_PI_2) };
    let turned = text::tidy(highest(cut, most).to_degrees());
    let over = cut(turned.to_radians()).max(0.0);
    let contact = FoundAngle::stated(turned, Unit::Degree);
    record
        .look_up(
            "Angle before the point of contact at which it cuts in most",
            "found by trying: the o of the next step is greatest there",
        )
        .gives("contact_angle", contact);
    let flank_overcut = FoundExtent::of(SiValue::from_si(over));
    let formula = if internal {
        "o = L × φ / (2 × π) - tan(α) × (E / 2 - Dp / 2 × cos(φ) - √(r ^ 2 - (Dp / 2 × sin(φ)) ^ 2))"
    } else {
        "o = L × φ / (2 × π) - tan(α) × (Dp / 2 × cos(φ) - √(r ^ 2 - (Dp / 2 × sin(φ)) ^ 2) - E / 2)"
    };
    record
        .step("What it takes off each flank too much", formula)
        .with("L", "lead", given.lead)
        .with("φ", "contact_angle", contact)
        .with("α", "half_flank_angle", given.half_angle)
        .with("Dp", "path_diameter", sizes.path)
        .with("r", "cutter_pitch_radius", at_pitch)
        .with("E", "basic_pitch_diameter", pitch_diameter)
        .gives("flank_overcut", flank_overcut);
    let pitch_error = FoundExtent::of(SiValue::from_si(2.0 * over / flank));
    record
        .step("What that does to the pitch diameter", "e = 2 × o / tan(α)")
        .with("o", "flank_overcut", flank_overcut)
        .with("α", "half_flank_angle", given.half_angle)
        .gives("pitch_error", pitch_error);
    if pitch_error.get().si() > given.pitch.get().si() / 10.0 {
        record.note(
            "large_cutter",
            "So large a cutter spoils the flanks by more than a tenth of the pitch: take a smaller one, whose rim comes clear of \
             the flank sooner.",
        );
    }
    Ok(Spoilt { flank: flank_overcut, pitch_diameter: pitch_error })
}

/// Places that are tried before the summit is sought between two of them.
const TRIED: u32 = 720;

/// Where a function from 0 to `most` is highest: between the neighbours of the best of many places it has one summit,
/// found by golden section.
fn highest(f: impl Fn(f64) -> f64, most: f64) -> f64 {
    let place = |number: u32| most * f64::from(number) / f64::from(TRIED);
    let best = (0..=TRIED).max_by(|a, b| f(place(*a)).total_cmp(&f(place(*b)))).unwrap_or(0);
    let share = (5f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (place(best.saturating_sub(1)), place((best + 1).min(TRIED)));
    for _ in 0..100 {
        let (a, b) = (high - share * (high - low), low + share * (high - low));
        if f(a) < f(b) { low = a } else { high = b }
    }
    (low + high) / 2.0
}
