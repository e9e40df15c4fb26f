//! What a wrong answer comes from. Each slip is found by asking the same calculator again with an input
//! misunderstood, by going through its working again with a formula misunderstood, or by changing
//! the result; an answer that is what a slip would have given is told which. Nothing here knows a
//! calculator: what a slip fits is seen by the kinds and names of its fields.

mod angles;
mod case;
mod inputs;
mod results;
mod sizes;

pub use case::{Case, Slip};

use super::marking::{Answered, agree, half_place};
use super::wanted::Amount;
use crate::budget::go_on;
use crate::quantity::{Quantity, Unit};
use crate::refusal::Refusal;

/// What kinds of slips there are, with what each is.
pub const CODES: &[(&str, &str)] = &[
    ("wrong_unit", "a value in the wrong unit or system, or a conversion that is missing"),
    ("degrees_for_radians", "degrees taken for radians or radians for degrees"),
    ("drill_point_forgotten", "the point of the drill left out, or counted where it does not count"),
    ("feed_per_tooth", "a feed a tooth taken for a feed a turn, or the other way round"),
    ("included_angle", "an included angle taken for its half, or the half for the whole"),
    ("radius_for_diameter", "a radius taken for a diameter, or the other way round"),
    ("angle_zero", "an angle counted from another zero or the other way round"),
    ("sign", "the right amount on the other side of zero"),
    ("decimal_point", "the decimal point in another place"),
    ("other_result", "another result of the same calculation"),
    ("tool_diameter", "the diameter of the tool or the tip left out, or moved the wrong way"),
    ("wrong_side", "the other side, face or direction taken"),
    ("left_out", "a size, an allowance or a clearance left out"),
    ("spaces_for_holes", "spaces counted for holes, or holes for spaces"),
    ("cosine_for_sine", "the cosine taken for the sine, or a tangent turned over"),
    ("minutes_as_decimals", "minutes written as decimals of a degree or of an hour"),
    ("threads_for_pitch", "threads per inch taken for a pitch, or the other way round"),
    ("thread_percent", "the percentage of full thread misread"),
    ("other_choice", "another way of working than was asked for"),
    ("place_in_list", "the same size of another place in the list"),
];

/// Every slip that the question allows, the likeliest first; none gives what is right, within `room`, and none nothing.
pub fn slips(mut case: Case, room: f64) -> Result<Vec<Slip>, Refusal> {
    // What is misunderstood of the trade comes before what is only written wrong, and what is misread of a stated
    // value before what any result may be taken for.
    sizes::drill_point(&mut case);
    inputs::feed(&mut case);
    angles::included(&mut case);
    sizes::tool(&mut case);
    sizes::radius(&mut case);
    inputs::sides(&mut case);
    angles::zero(&mut case);
    inputs::holes(&mut case);
    inputs::thread_percent(&mut case);
    angles::radians(&mut case);
    angles::minutes(&mut case);
    angles::cosine(&mut case);
    sizes::pitch(&mut case);
    results::sign(&mut case);
    results::units(&mut case);
    inputs::systems(&mut case);
    inputs::left_out(&mut case);
    results::others(&mut case);
    inputs::choices(&mut case);
    results::conversions(&mut case);
    results::decimal_point(&mut case);
    // A slip that was not found for want of time would pass for none.
    go_on()?;
    let right = case.wanted.amount;
    let mut all = case.found;
    all.retain(|slip| {
        let far = room + last_place(&right);
        slip.value != 0.0 && !agree(slip.value, right.si(), far)
    });
    Ok(all)
}

/// The slip of a unit that measures something else.
pub fn of_unit(unit: Unit, answered: f64, right: &Quantity) -> Slip {
    use crate::quantity::Dimension::{FeedPerRev, FeedPerTooth};
    let (is, wanted) = (unit.row().dimension, right.unit.row().dimension);
    let feeds = [FeedPerRev, FeedPerTooth];
    let code = if feeds.contains(&is) && feeds.contains(&wanted) { "feed_per_tooth" } else { "wrong_unit" };
    let says = format!("{} measures {}; {} is asked for.", unit.spelling(), is.words(), wanted.words());
    Slip { code, says, value: answered }
}

/// Half of the last place that a result is written to, in SI units.
fn last_place(right: &Amount) -> f64 {
    right.quantity().map_or(0.0, half_place)
}

/// The slips that give what was answered, at most two of different codes, the likeliest first: those that give just what
/// was written, or else those that give what is within a thousandth of it.
pub fn found(slips: &[Slip], right: &Amount, answered: &Answered) -> Vec<Slip> {
    let si = answered.si();
    let within = |share: f64, place: f64| {
        let fits = |slip: &&Slip| {
            // Near nothing is not taken for nothing.
            agree(si, slip.value, (share * slip.value.abs()).max(place).min(0.02 * slip.value.abs()))
        };
        let mut told: Vec<Slip> = Vec::new();
        for slip in slips.iter().filter(fits) {
            if told.len() < 2 && told.iter().all(|known| known.code != slip.code) {
                told.push(slip.clone());
            }
        }
        told
    };
    let written = last_place(right).max(answered.half_place());
    [within(1e-6, last_place(right)), within(1e-3, written)]
        .into_iter()
        .find(|told| !told.is_empty())
        .unwrap_or_default()
}
