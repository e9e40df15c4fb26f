//! A coat on a thread: what it changes the pitch diameter by, with its steps. Derived from the angle of the flanks.

use super::GivenThread;
use crate::quantity::{Extent, FoundExtent};
use crate::refusal::{Code, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::{Record, known_steps};
use validator::ValidationError;

/// What a coat does, as a place in geometry.
pub const COAT_MOVES: &str =
    "a coat on both flanks moves the pitch line by its thickness over the sine of half the angle between them";

/// The least thickness is not above the greatest: a rule for a validator.
pub fn check_thickness(least: Extent, greatest: Extent) -> Result<(), ValidationError> {
    if least.quantity().si() <= greatest.quantity().si() {
        return Ok(());
    }
    let stated = |thickness: Extent| value(thickness.quantity().si(), thickness.quantity().unit, Way::Near);
    let fields = [("thickness_min", &*stated(greatest)), ("thickness_max", &*stated(least))];
    Err(rule_broken(Code::Conflict, "The thinnest coat is thicker than the thickest.", &fields))
}

/// What the thinnest and the thickest coat change the pitch diameter by; `does` says it of the one or the other.
pub fn coat_changes(
    given: &GivenThread,
    (thin, thick): (Extent, Extent),
    does: &str,
    record: &mut Record,
) -> (FoundExtent, FoundExtent) {
    record.source("geometry", COAT_MOVES);
    let unit = given.unit();
    let factor = 2.0 / given.half_angle.degrees().to_radians().sin();
    let change = |thickness: Extent| FoundExtent::stated(factor * thickness.quantity().in_unit(unit), unit);
    let (least, greatest) = (change(thin), change(thick));
    known_steps! { record;
        step format!("What the thinnest coat {does}"), "Δ = 2 × t / sin(α)",
            t = "thickness_min": thin, α = "half_flank_angle" => "pitch_change_min", least;
        step format!("What the thickest coat {does}"), "Δ = 2 × t / sin(α)",
            t = "thickness_max": thick, α = "half_flank_angle" => "pitch_change_max", greatest;
    }
    record.note(
        "plating_uneven",
        "A coat grows thicker on crests and edges than in roots, and thinner deep inside a hole. Ask the plater, and \
         measure a trial piece before and after.",
    );
    (least, greatest)
}
