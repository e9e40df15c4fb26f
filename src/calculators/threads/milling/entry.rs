//! The way onto the path and off it, which keeps step with the thread: a half circle from the center of a hole or
//! an arc from just clear of its wall, a straight line that touches the circle round a stud.

use super::path::{Helix, Sizes};
use super::{ThreadMillingEntry, ThreadMillingInput};
use crate::calculators::prelude::*;
use crate::threading::GivenThread;

/// The way in.
#[derive(Debug, Gives)]
pub struct WayIn {
    /// How far the cutter moves along the axis on the way in; on the way out it moves as far again, in the same
    /// direction.
    #[label("Rise on the way in")]
    pub entry_rise: FoundSize,
    /// Diameter of the arc that leads onto the path; holes only.
    #[label("Diameter of the entry arc")]
    pub entry_arc_diameter: Option<FoundSize>,
    /// How many degrees of that arc it follows: 180 from the center of the hole; holes only.
    #[label("Angle of the entry arc")]
    pub entry_arc_angle: Option<FoundAngle>,
    /// How far off the center of the hole the arc begins; holes only.
    #[label("Entry starts off center by")]
    pub entry_start_radius: Option<FoundExtent>,
    /// Length of the straight way from clear of the stud onto the path; studs only.
    #[label("Length of the straight entry")]
    pub entry_length: Option<FoundSize>,
}

/// The way in, with its steps.
pub fn find(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    helix: &Helix,
    record: &mut Record,
) -> WayIn {
    let (lead, path) = (given.lead, sizes.path);
    if input.internal() {
        return match input.entry(record) {
            ThreadMillingEntry::HalfCircle => half_circle(lead, path, helix, record),
            ThreadMillingEntry::Arc45 => arc_45((lead, path), input, sizes, helix, record),
        };
    }
    let length: FoundSize = step!(record, "Straight way from clear of the stud onto the path",
        s: entry_length = root(squared((Ds + Dc) / 2.0) - squared(Dp / 2.0)),
        Ds = start_diameter: sizes.start, Dc = cutter_diameter: input.cutter_diameter, Dp = path_diameter: path);
    let entry_rise: FoundSize = step!(record, "Rise along it, as steep as the helix",
        q: entry_rise = L * s / (π * Dp), L = lead, s = entry_length: length, Dp = path_diameter: path);
    notes!(record => entry_clear:
        "Where that straight way begins, the cutter just touches the stud. Begin further out along the same line and \
         slope.");
    WayIn {
        entry_rise,
        entry_arc_diameter: None,
        entry_arc_angle: None,
        entry_start_radius: None,
        entry_length: Some(length),
    }
}

/// The half circle from the center of the hole.
fn half_circle(lead: FoundSize, path: FoundSize, helix: &Helix, record: &mut Record) -> WayIn {
    let arc: FoundSize = step!(record, "Half circle from the center of the hole onto the path",
        A: entry_arc_diameter = Dp / 2.0, Dp = path_diameter: path);
    let entry_rise: FoundSize = step!(record, "Rise along the half circle", q: entry_rise = L / 4.0, L = lead);
    let half_turn = FoundAngle::stated(180.0, Unit::Degree);
    let in_the_middle = FoundExtent::stated(0.0, path.quantity().unit);
    record.look_up("Part of the circle", "a half").gives("entry_arc_angle", half_turn);
    record.look_up("Where it begins", "in the center of the hole").gives("entry_start_radius", in_the_middle);
    record.note(
        "entry_quarter",
        format!(
            "The half circle takes the cutter a quarter turn round the thread's axis, {}. Move it a quarter of the \
             lead {}wards, evenly along the way, and it joins the helix in step. The way out is the same, another \
             quarter on.",
            helix.path_turns.as_str(),
            helix.path_travels.as_str()
        ),
    );
    WayIn {
        entry_rise,
        entry_arc_diameter: Some(arc),
        entry_arc_angle: Some(half_turn),
        entry_start_radius: Some(in_the_middle),
        entry_length: None,
    }
}

/// The arc that begins just clear of the wall, 45 degrees round the thread's axis before it touches the path: of the
/// circles that touch the path there, the one through that place.
fn arc_45(
    (lead, path): (FoundSize, FoundSize),
    input: &ThreadMillingInput,
    sizes: &Sizes,
    helix: &Helix,
    record: &mut Record,
) -> WayIn {
    let start: FoundExtent = step!(record, "Center of the cutter from the axis, just clear of the wall",
        s: entry_start_radius = (Ds - Dc) / 2.0,
        Ds = start_diameter: sizes.start, Dc = cutter_diameter: input.cutter_diameter);
    let turn = FoundAngle::stated(45.0, Unit::Degree);
    let chord: FoundSize = step!(record, "Straight from there to the path",
        k: entry_chord = root(squared(Dp / 2.0) + squared(s) - Dp * s * cos(φ)),
        Dp = path_diameter: path, s = entry_start_radius: start, φ = "constant:entry_turn": turn);
    let arc: FoundSize = step!(record, "Circle that touches the path at the end of that line",
        A: entry_arc_diameter = squared(k) / (Dp / 2.0 - s * cos(φ)),
        k = entry_chord: chord, Dp = path_diameter: path, s = entry_start_radius: start,
        φ = "constant:entry_turn": turn);
    let arc_angle: FoundAngle = step!(record, "Part of that circle", β: entry_arc_angle = 2.0 * asin(k / A),
        k = entry_chord: chord, A = entry_arc_diameter: arc);
    let entry_rise: FoundSize = step!(record, "Rise along it", q: entry_rise = L / 8.0, L = lead);
    record.note(
        "entry_eighth",
        format!(
            "The arc takes the cutter an eighth of a turn round the thread's axis, {}. Move it an eighth of the lead \
             {}wards, evenly along the way, and it joins the helix in step. Where the arc begins, the cutter just \
             touches the wall: come there from the center of the hole. The way out is the same, another eighth on.",
            helix.path_turns.as_str(),
            helix.path_travels.as_str()
        ),
    );
    WayIn {
        entry_rise,
        entry_arc_diameter: Some(arc),
        entry_arc_angle: Some(arc_angle),
        entry_start_radius: Some(start),
        entry_length: None,
    }
}
