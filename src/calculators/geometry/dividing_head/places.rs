//! Where the crank stands at each place, counted from zero and set to the nearest hole, so that errors do not add up: the
//! circle is to the crank what its dial is to the handwheel of a rotary table.

use super::moves::{IndexMethod, Move, Wanted};
use crate::calculators::prelude::*;
use crate::hole_pattern::{RotaryTable, TableSetting, settings_of};

/// Most places of one list of divisions, and of one list of angles.
const MOST: (u32, u32) = (400, 100);

/// The places of an angle, or of divisions where the step is not exact.
pub fn places(moves: &[Move], wanted: &Wanted, record: &mut Record) -> Option<Vec<TableSetting>> {
    let is_off = moves.first().is_some_and(|way| way.worm != wanted.turns());
    let all = wanted.share.bottom / wanted.share.top + i128::from(wanted.divisions.is_none());
    let most = if wanted.divisions.is_some() { MOST.0 } else { MOST.1 };
    let count = u32::try_from(all).unwrap_or(most).min(most);
    let way = moves.iter().find(|way| way.method == IndexMethod::Simple)?;
    if wanted.divisions.is_some() && !is_off {
        return None;
    }
    let circle = way.first.as_ref().map_or(1, |first| first.circle);
    record.look_up("Circle of the list", "of the first way of simple indexing").gives("dial_divisions", circle);
    let numbers: Vec<u32> = (1..=count).collect();
    let counted: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    let angle = |steps: i128| FoundAngle::stated(text::tidy(wanted.share.times(steps).get() * 360.0), Unit::Degree);
    let turned: Vec<FoundAngle> = (0..i128::from(count)).map(angle).collect();
    record.look_up("Numbers of the places", "from 1, which is at zero").gives("place", counted.clone());
    let step = record.step("Turned from zero", "α = (i - 1) × θ").with("i", "place", counted);
    step.with("θ", "step_angle", angle(1)).gives("table.turned", turned.clone());
    let ratio = f64::from(wanted.ratio);
    let dial =
        RotaryTable { worm_ratio: Some(PlainNumber::stated(ratio)), dial_divisions: Count::of(circle), vernier: None };
    let table = settings_of(&numbers, turned, &dial, None, record)?;
    let greatest = table.iter().filter_map(|place| place.off_seconds).fold(0.0, |most: f64, off| most.max(off.abs()));
    if greatest > 0.0 {
        let greatest = text::fixed(greatest, 1);
        let says = format!(
            "The list counts every place from zero to the nearest hole of the circle of {circle}; none is more than \
             {greatest} seconds of arc off."
        );
        record.note("set_from_zero", says);
    }
    if all > i128::from(count) {
        record.note("list_ends", format!("The list ends after {count} of {all} places."));
    }
    Some(table)
}
