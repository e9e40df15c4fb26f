//! The helix of the cutter's center, and what a cutter that is no point does to the flanks.

use super::{PathTravel, PathTurn, ThreadMillingInput, ThreadMillingWay};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// The diameters of the last cut.
pub struct Sizes {
    /// Before threading.
    pub start: Size,
    /// That the tips cut to.
    pub contour: Size,
    /// Of the circle of the cutter's center.
    pub path: FoundSize,
    /// The largest cutter that goes into a hole.
    pub greatest_cutter: Option<FoundSize>,
}

/// The diameters, with their steps.
pub fn sizes(input: &ThreadMillingInput, record: &mut Record) -> Sizes {
    let (start, contour) = input.diameters();
    let (start_says, contour_says) = if input.internal() {
        ("The hole is assumed bored to the basic minor diameter.", "A full profile reaches the basic major diameter.")
    } else {
        (
            "The stud is assumed turned to the basic major diameter.",
            "A flat of a quarter pitch reaches the basic minor diameter.",
        )
    };
    record.or_assume(input.start_diameter, "start_diameter", start, start_says);
    record.or_assume(input.contour_diameter, "contour_diameter", contour, contour_says);
    let cutter = input.cutter_diameter;
    if input.internal() {
        let path = step!(record, "Circle of the cutter's center",
            Dp: path_diameter = Dk - Dc, Dk = contour_diameter: contour, Dc = cutter_diameter: cutter);
        let greatest: FoundSize = step!(record, "Largest cutter that goes in",
            g: greatest_cutter = Ds, Ds = start_diameter: start);
        return Sizes { start, contour, path, greatest_cutter: Some(greatest) };
    }
    let path = step!(record, "Circle of the cutter's center",
        Dp: path_diameter = Dk + Dc, Dk = contour_diameter: contour, Dc = cutter_diameter: cutter);
    Sizes { start, contour, path, greatest_cutter: None }
}

/// The helix.
#[derive(Debug, Gives)]
pub struct Helix {
    /// How far the cutter moves along the axis in one turn of the path.
    pub rise_per_turn: FoundSize,
    /// Helix angle of the path.
    #[label("Helix angle of the path")]
    pub path_angle: FoundAngle,
    /// Which way round the cutter's center goes, seen from above with the spindle turning clockwise: counterclockwise
    /// or clockwise.
    #[label("Path runs")]
    pub path_turns: PathTurn,
    /// Which way it goes along the axis meanwhile: up or down.
    #[label("Cutter moves")]
    pub path_travels: PathTravel,
}

/// The rise, the angle and the direction.
pub fn helix(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    way: ThreadMillingWay,
    record: &mut Record,
) -> Helix {
    let lead = given.lead;
    let rise_per_turn = step!(record, "Rise in one turn of the path", s: rise_per_turn = L, L = lead);
    let path_angle = step!(record, "Helix angle of the path",
        λ: path_angle = atan(L / (π * Dp)), L = lead, Dp = path_diameter: sizes.path);
    // Seen from above a spindle that runs clockwise climbs when it goes counterclockwise round a hole and
    // clockwise round a stud; counterclockwise and up is a right-hand helix.
    let counterclockwise = input.internal() == (way == ThreadMillingWay::Climb);
    let up = counterclockwise != given.thread().left_hand;
    let path_turns = if counterclockwise { PathTurn::Counterclockwise } else { PathTurn::Clockwise };
    let path_travels = if up { PathTravel::Up } else { PathTravel::Down };
    tell!(record.look_up("Which way round",
        "from above, the spindle running clockwise: climb milling is counterclockwise in a hole, clockwise on a stud"),
        S = side: input.side.as_str(), W = way: way.as_str() => path_turns: path_turns.as_str());
    tell!(record.look_up("Which way along the axis",
        "counterclockwise and up is right-hand, clockwise and up left-hand"),
        T = thread: given.designation.text(), R = path_turns: path_turns.as_str()
        => path_travels: path_travels.as_str());
    Helix { rise_per_turn, path_angle, path_turns, path_travels }
}

/// What the cutter spoils.
#[derive(Debug, Gives)]
pub struct Spoilt {
    /// How much too much the cutter takes off each flank at the pitch line, along the axis.
    #[label("Overcut on each flank")]
    pub flank_overcut: FoundExtent,
    /// How much larger the pitch diameter of a hole comes out for that, or smaller that of a stud.
    #[label("Pitch diameter off by")]
    pub pitch_error: FoundExtent,
}

/// Before and after the point that it is to cut, the cutter's rim lies off the helix but not yet clear of the
/// flank: by how much it cuts into it at most.
pub fn overcut(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    record: &mut Record,
) -> Result<Spoilt, Refusal> {
    let internal = input.internal();
    let pitch_diameter = given.pitch_diameter(record);
    let (cutter, contour) = (input.cutter_diameter, sizes.contour);
    let at_pitch: FoundSize = if internal {
        step!(record, "Radius of the cutter at the pitch line", r: cutter_pitch_radius = (Dc - Dk + E) / 2.0,
            Dc = cutter_diameter: cutter, Dk = contour_diameter: contour, E = basic_pitch_diameter: pitch_diameter)
    } else {
        step!(record, "Radius of the cutter at the pitch line", r: cutter_pitch_radius = (Dc + Dk - E) / 2.0,
            Dc = cutter_diameter: cutter, Dk = contour_diameter: contour, E = basic_pitch_diameter: pitch_diameter)
    };
    let (e, radius) = (pitch_diameter.get().si(), at_pitch.get().si());
    if radius <= 0.0 {
        let says = "The cutter is too small: its teeth would be higher than its radius.";
        let larger = cutter.get().si() - 2.0 * radius + contour.get().si().min(e) / 4.0;
        return Err(Refusal::no_answer(says, &[("cutter_diameter", value(larger, cutter.quantity().unit, Way::Up))]));
    }
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
    tell!(record.look_up("Angle before the contact at which it cuts in most",
        "by trial, where the o of the next step is greatest")
        => contact_angle: contact);
    let flank_overcut = FoundExtent::of(SiValue::from_si(over));
    let formula = if internal {
        "o = L × φ / (2 × π) - tan(α) × (E / 2 - Dp / 2 × cos(φ) - √(r^2 - (Dp / 2 × sin(φ))^2))"
    } else {
        "o = L × φ / (2 × π) - tan(α) × (Dp / 2 × cos(φ) - √(r^2 - (Dp / 2 × sin(φ))^2) - E / 2)"
    };
    tell!(record.step("Overcut on each flank", formula), L = lead: given.lead,
        φ = contact_angle: contact, α = half_flank_angle: given.half_angle, Dp = path_diameter: sizes.path,
        r = cutter_pitch_radius: at_pitch, E = basic_pitch_diameter: pitch_diameter => flank_overcut);
    let pitch_error: FoundExtent = step!(record, "Error of the pitch diameter",
        e: pitch_error = 2.0 * o / tan(α), o = flank_overcut, α = half_flank_angle: given.half_angle);
    if pitch_error.get().si() > given.pitch.get().si() / 10.0 {
        notes!(record => large_cutter:
            "This cutter is so large that it spoils the flanks by more than a tenth of the pitch. Take a smaller one, \
             which clears the flank sooner.");
    }
    Ok(Spoilt { flank_overcut, pitch_error })
}

/// Places that are tried before the summit is sought between two of them.
const TRIED: u32 = 720;

/// Where a function from 0 to `most` is highest: between the neighbors of the best of many places it has one summit,
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
