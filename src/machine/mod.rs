//! What a machine can do: choosing a spindle speed and a feed that it has, when the exact one is
//! known. Every calculator that sets a machine chooses here, so that all choose alike.

mod cut_power;
mod deep_hole;
mod drive;
mod feed_step;
mod feeds;
mod force;
mod limits;
mod published;
mod reaming_stock;
mod screws;
mod speed;
mod spindle;
#[cfg(test)]
mod tests;
mod tooling;
mod turn_feeds;
mod turned_cut;
mod work_and_tool;

pub use cut_power::{CutPower, PowerTaken, cut_power};
pub use deep_hole::DeepHole;
pub use drive::{Load, Motor, Removal, unit_power};
pub use feed_step::FeedStep;
pub use feeds::{ChosenFeed, Falls, Feeds};
pub use force::{ProcessFactor, compare_methods, process_factor, specific_force};
pub use limits::{Held, Limit, fall, tell_limits};
pub use published::Published;
pub use reaming_stock::Stock;
pub use screws::Screws;
pub use speed::{CutDiameter, Wanted, WantedSpeed, cutting_speed_at, exact_speed};
pub use spindle::{ChosenSpeed, SetSpeed, SpindleLimits};
pub use tooling::{Tooling, WantedFeed, tell_material};
pub use turn_feeds::{FeedLimits, SpindleAndFeeds, SpindleAndQuill, TurnFeed, TurnSet};
pub use turned_cut::{AlongTheWork, TurnedCut};
pub use work_and_tool::{RangePoint, SpeedOrWork, WorkAndTool};

use crate::quantity::{Kind, Measure, SiValue, Unit, text};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// Two speeds nearer than this share of themselves are one: a speed computed to the last place
/// must still find the step it stands on.
const SAME: f64 = 1e-9;

pub(crate) fn at_most(value: f64, limit: f64) -> bool {
    value <= limit * (1.0 + SAME)
}

/// Which way a value to try is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// Down.
    Less,
    /// Up.
    More,
}

/// A value to try near `si`, rounded to three figures in `unit`; none if the kind does not take it.
pub fn to_try<K: Kind>(si: f64, unit: Unit, toward: Toward) -> Option<String> {
    let value = unit.of_si(si);
    let place = 10f64.powi(value.log10().floor() as i32 - 2);
    let figures = match toward {
        Toward::Less => (value / place).floor(),
        Toward::More => (value / place).ceil(),
    };
    let text = stated(text::tidy(figures * place), unit);
    Measure::<K>::read(&text).is_ok().then_some(text)
}

fn stated(value: f64, unit: Unit) -> String {
    format!("{} {}", text::full(value), unit.row().ascii)
}

/// A value as it was stated, in full.
pub fn as_stated<K: Kind>(measure: &Measure<K>) -> String {
    stated(measure.quantity().value, measure.quantity().unit)
}

fn si<K: Kind>(measure: &Measure<K>) -> f64 {
    measure.get().si()
}

/// The steps of a list that lie within limits, slowest first, each once.
fn steps_within<K: Kind>(
    list: &[Measure<K>],
    least: Option<&Measure<K>>,
    most: Option<&Measure<K>>,
) -> Vec<Measure<K>> {
    let within =
        |step: &&Measure<K>| least.is_none_or(|l| si(*step) >= si(l)) && most.is_none_or(|m| si(*step) <= si(m));
    let mut steps: Vec<Measure<K>> = list.iter().filter(within).copied().collect();
    steps.sort_by(|a, b| si(a).total_cmp(&si(b)));
    steps.dedup_by(|a, b| si(a) == si(b));
    steps
}

/// Fields of a list of steps and its limits, as a request names them, and what a step is called in words.
struct Names {
    what: &'static str,
    list: &'static str,
    least: &'static str,
    most: &'static str,
}

/// Refuses limits that are the wrong way round, and an empty list.
fn check_steps<K: Kind>(
    names: &Names,
    list: Option<&[Measure<K>]>,
    least: Option<&Measure<K>>,
    most: Option<&Measure<K>>,
) -> Result<(), ValidationError> {
    if let (Some(least), Some(most)) = (least, most)
        && si(least) > si(most)
    {
        let says = format!("The slowest {0} is above the fastest {0}.", names.what);
        return Err(rule_broken(
            Code::Conflict,
            says,
            &[(names.least, &as_stated(most)), (names.most, &as_stated(least))],
        ));
    }
    if list.is_some_and(<[Measure<K>]>::is_empty) {
        let says = format!("The list of {0}s is empty; leave it out if any {0} can be set.", names.what);
        return Err(rule_broken(Code::ValueEmpty, says, &[(names.list, K::ROW.example)]));
    }
    Ok(())
}

/// Refuses a machine none of whose steps lies within its own limits.
fn check_some_within<K: Kind>(
    names: &Names,
    list: &[Measure<K>],
    least: Option<&Measure<K>>,
    most: Option<&Measure<K>>,
) -> Result<(), ValidationError> {
    let by_size = |a: &&Measure<K>, b: &&Measure<K>| si(*a).total_cmp(&si(*b));
    let (Some(slowest), Some(fastest)) = (list.iter().min_by(by_size), list.iter().max_by(by_size)) else {
        return Ok(());
    };
    if !steps_within(list, least, most).is_empty() {
        return Ok(());
    }
    let mut ways = Vec::with_capacity(3);
    if let Some(least) = least
        && si(slowest) < si(least)
    {
        ways.push((names.list, as_stated(least)));
        ways.push((names.least, as_stated(slowest)));
    }
    if let Some(most) = most
        && si(fastest) > si(most)
    {
        if ways.is_empty() {
            ways.push((names.list, as_stated(most)));
        }
        ways.push((names.most, as_stated(fastest)));
    }
    let ways: Vec<(&'static str, &str)> = ways.iter().map(|(field, value)| (*field, value.as_str())).collect();
    Err(rule_broken(Code::Conflict, format!("No {} of the machine is within its own limits.", names.what), &ways))
}
