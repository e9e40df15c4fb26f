//! Angles as they are set on a rotary table: in degrees, minutes and seconds, and in turns and divisions of its dial.
//! Each is counted from zero and rounded by itself, so that what is lost by rounding does not add up.

use super::chosen::as_numbers;
use crate::declared::{Asks, Gives};
use crate::fields::{Count, PlainNumber};
use crate::quantity::{FoundAngle, FoundDifference, FoundSize, text};
use crate::refusal::{Code, rule_broken};
use crate::working::{Record, StepDraft};
use validator::ValidationError;

/// A rotary table and its dial.
#[derive(Clone, Copy, Debug, Asks)]
pub struct RotaryTable {
    /// Turns of the handwheel for one turn of the rotary table, such as 40, 60, 72, 90 or 120; with it the answer has the settings of the table.
    #[label("Rotary table, turns for one turn")]
    pub worm_ratio: Option<PlainNumber>,
    /// How many divisions the dial of the rotary table has, 1 to 10000.
    #[label("Rotary table, divisions on the dial")]
    pub dial_divisions: Option<Count<1, 10_000>>,
    /// Into how many parts the vernier of the rotary table divides a division, 2 to 100.
    #[label("Rotary table, parts of the vernier")]
    pub vernier: Option<Count<2, 100>>,
}

impl RotaryTable {
    /// What can be wrong with it.
    pub fn check(&self) -> Result<(), ValidationError> {
        if self.worm_ratio.is_some_and(|ratio| !(1.0..=1000.0).contains(&ratio.get())) {
            let says = "A rotary table takes from 1 to 1000 turns of its handwheel for one of its own.";
            return Err(rule_broken(Code::ValueOutOfRange, says, &[("worm_ratio", "90")]));
        }
        if self.dial_divisions.is_some() && self.worm_ratio.is_none() {
            let says = "Give the turns of the handwheel for one turn of the rotary table too.";
            return Err(rule_broken(Code::Conflict, says, &[("worm_ratio", "90"), ("dial_divisions", "leave out")]));
        }
        if self.vernier.is_some() && self.dial_divisions.is_none() {
            let says = "Give the divisions on the dial too: the vernier divides one of them.";
            return Err(rule_broken(Code::Conflict, says, &[("dial_divisions", "120"), ("vernier", "leave out")]));
        }
        Ok(())
    }
}

/// A setting of a rotary table.
#[derive(Clone, Debug, Gives)]
pub struct TableSetting {
    /// Number of the hole or the stop.
    pub number: u32,
    /// How far the table is turned from zero.
    #[label("Turned from zero")]
    pub turned: FoundAngle,
    /// The same in whole degrees, with the minutes and seconds beyond them.
    pub degrees: u32,
    /// Minutes beyond the degrees.
    pub minutes: u32,
    /// Seconds beyond the minutes, to the nearest.
    pub seconds: u32,
    /// Turns of the handwheel from zero, with the part of a turn.
    #[label("Handwheel turns, exact")]
    pub exact_turns: f64,
    /// Whole turns of the handwheel from zero.
    #[label("Whole turns")]
    pub turns: Option<u32>,
    /// Divisions beyond the whole turns.
    #[label("Divisions beyond them")]
    pub divisions: Option<u32>,
    /// Parts of the vernier beyond the divisions.
    #[label("Vernier parts beyond them")]
    pub vernier_parts: Option<u32>,
    /// Seconds of arc that this setting is too far, or short where negative.
    #[label("Seconds of arc too far")]
    pub off_seconds: Option<f64>,
    /// The same along the arc at the radius.
    #[label("Too far along the arc")]
    pub off_at_radius: Option<FoundDifference>,
}

/// What the columns of a list of settings are called on record, since a list may have any name.
const NUMBER: &str = "table.number";
const TURNED: &str = "table.turned";
const DEGREES: &str = "table.degrees";
const MINUTES: &str = "table.minutes";
const TURNS: &str = "table.turns";
const DIVISIONS: &str = "table.divisions";
const OFF: &str = "table.off_seconds";

/// The settings of a table, where its turns for a turn are given, for holes that lie `turned` from zero. The caller has
/// put that on record as `table.turned`.
pub fn find_settings(
    numbers: &[u32],
    turned: Vec<FoundAngle>,
    table: &RotaryTable,
    radius: Option<(&'static str, FoundSize)>,
    record: &mut Record,
) -> Option<Vec<TableSetting>> {
    let settings = settings_of(numbers, turned, table, radius, record)?;
    if let (Some(ratio), Some(divisions)) = (table.worm_ratio, table.dial_divisions) {
        let parts = f64::from(divisions.get()) * table.vernier.map_or(1.0, |vernier| f64::from(vernier.get()));
        let off: Vec<f64> = settings.iter().filter_map(|setting| setting.off_seconds).collect();
        tell_fineness(ratio.get() * parts, &off, record);
    }
    Some(settings)
}

/// The same without its notes, for what has a dial but is no table.
pub fn settings_of(
    numbers: &[u32],
    turned: Vec<FoundAngle>,
    table: &RotaryTable,
    radius: Option<(&'static str, FoundSize)>,
    record: &mut Record,
) -> Option<Vec<TableSetting>> {
    let ratio = table.worm_ratio?.get();
    record.look_up("Settings of the table", "one for each").gives(NUMBER, as_numbers(numbers));
    let seconds = find_seconds(&turned, record);
    let exact: Vec<f64> = turned.iter().map(|turned| text::tidy(turned.degrees() * ratio / 360.0)).collect();
    let step = record.step("Turns of the handwheel", "t = θ × W / (2 × π)").with("θ", TURNED, turned.clone());
    step.with("W", "worm_ratio", ratio).gives("table.exact_turns", exact.clone());
    let dial = find_dial(&turned, ratio, table, radius, record);
    let rows = numbers.iter().zip(turned).zip(seconds).zip(exact).enumerate();
    let rows = rows.map(|(at, (((number, turned), [degrees, minutes, seconds]), exact_turns))| {
        let row = dial.as_ref().map(|dial| &dial[at]);
        TableSetting {
            number: *number,
            turned,
            degrees,
            minutes,
            seconds,
            exact_turns,
            turns: row.map(|row| row.turns),
            divisions: row.map(|row| row.divisions),
            vernier_parts: row.and_then(|row| row.vernier_parts),
            off_seconds: row.map(|row| row.off_seconds),
            off_at_radius: row.and_then(|row| row.off_at_radius),
        }
    });
    Some(rows.collect())
}

/// Degrees, minutes and seconds, the seconds rounded before the minutes are taken off.
fn find_seconds(turned: &[FoundAngle], record: &mut Record) -> Vec<[u32; 3]> {
    let all: Vec<f64> = turned.iter().map(|turned| text::tidy(turned.degrees() * 3600.0).round()).collect();
    let step = record.step("Seconds of arc in all", "S = round(θ / π × 180 × 60 × 60)");
    step.with("θ", TURNED, turned.to_vec()).gives("table.all_seconds", all.clone());
    let split: Vec<[u32; 3]> = all
        .iter()
        .map(|all| [(all / 3600.0).floor(), (all % 3600.0 / 60.0).floor(), all % 60.0].map(|part| part as u32))
        .collect();
    let part = |at: usize| as_numbers(&split.iter().map(|split| split[at]).collect::<Vec<u32>>());
    let step = record.step("Whole degrees", "d = floor(S / (60 × 60))").with("S", "table.all_seconds", all.clone());
    step.gives(DEGREES, part(0));
    let step = record.step("Minutes beyond them", "m = floor(S / 60) - 60 × d");
    step.with("S", "table.all_seconds", all.clone()).with("d", DEGREES, part(0)).gives(MINUTES, part(1));
    let step = record.step("Seconds beyond them", "s = S - 60 × 60 × d - 60 × m").with("S", "table.all_seconds", all);
    step.with("d", DEGREES, part(0)).with("m", MINUTES, part(1)).gives("table.seconds", part(2));
    split
}

/// A step with the divisions of the dial, and the parts of its vernier if it has one.
fn with_dial<'r>(step: StepDraft<'r>, table: &RotaryTable) -> StepDraft<'r> {
    let step = table.dial_divisions.into_iter().fold(step, |step, n| step.with("N", "dial_divisions", n.get()));
    table.vernier.into_iter().fold(step, |step, parts| step.with("V", "vernier", parts.get()))
}

struct DialRow {
    turns: u32,
    divisions: u32,
    vernier_parts: Option<u32>,
    off_seconds: f64,
    off_at_radius: Option<FoundDifference>,
}

/// Turns, divisions and vernier parts, with what rounding to them leaves.
fn find_dial(
    turned: &[FoundAngle],
    ratio: f64,
    table: &RotaryTable,
    radius: Option<(&'static str, FoundSize)>,
    record: &mut Record,
) -> Option<Vec<DialRow>> {
    let divisions = f64::from(table.dial_divisions?.get());
    let parts = table.vernier.map_or(1.0, |vernier| f64::from(vernier.get()));
    let per_turn = divisions * parts;
    // Tidied, so that what comes out even is even.
    let all: Vec<f64> = turned.iter().map(|t| text::tidy(t.degrees() * ratio * per_turn / 360.0)).collect();
    let steps: Vec<f64> = all.iter().map(|all| all.round()).collect();
    let vernier = table.vernier;
    let formula = if vernier.is_some() { "q = t × N × V" } else { "q = t × N" };
    let exact: Vec<f64> = turned.iter().map(|turned| text::tidy(turned.degrees() * ratio / 360.0)).collect();
    with_dial(record.step("Smallest parts of the dial in all", formula).with("t", "table.exact_turns", exact), table)
        .gives("table.parts", all.clone());
    let step = record.step("To the nearest", "k = round(q)").with("q", "table.parts", all.clone());
    step.gives("table.nearest", steps.clone());
    let turns: Vec<f64> = steps.iter().map(|k| (k / per_turn).floor()).collect();
    let formula = if vernier.is_some() { "w = floor(k / (N × V))" } else { "w = floor(k / N)" };
    with_dial(record.step("Whole turns", formula).with("k", "table.nearest", steps.clone()), table)
        .gives(TURNS, turns.clone());
    let beyond: Vec<f64> = steps.iter().zip(&turns).map(|(k, turns)| k - turns * per_turn).collect();
    let whole: Vec<f64> = beyond.iter().map(|beyond| (beyond / parts).floor()).collect();
    let formula = if vernier.is_some() { "n = floor(k / V) - w × N" } else { "n = k - w × N" };
    let step = record.step("Divisions beyond them", formula).with("k", "table.nearest", steps.clone());
    with_dial(step.with("w", TURNS, turns.clone()), table).gives(DIVISIONS, whole.clone());
    let left: Vec<f64> = beyond.iter().zip(&whole).map(|(beyond, whole)| beyond - whole * parts).collect();
    if vernier.is_some() {
        let step = record.step("Parts of the vernier beyond them", "v = k - (w × N + n) × V");
        let step = step.with("k", "table.nearest", steps.clone()).with("w", TURNS, turns.clone());
        with_dial(step.with("n", DIVISIONS, whole.clone()), table).gives("table.vernier_parts", left.clone());
    }
    let off: Vec<f64> =
        steps.iter().zip(&all).map(|(k, q)| text::tidy((k - q) * 1_296_000.0 / (ratio * per_turn))).collect();
    let formula = if vernier.is_some() {
        "E = (k - q) × 360 × 60 × 60 / (W × N × V)"
    } else {
        "E = (k - q) × 360 × 60 × 60 / (W × N)"
    };
    let step =
        record.step("Seconds of arc too far", formula).with("k", "table.nearest", steps).with("q", "table.parts", all);
    with_dial(step.with("W", "worm_ratio", ratio), table).gives(OFF, off.clone());
    let at_radius: Option<Vec<FoundDifference>> = radius.map(|(of, radius)| {
        let found = |off: &f64| FoundDifference::of_si((off / 3600.0).to_radians() * radius.si());
        let found: Vec<FoundDifference> = off.iter().map(found).collect();
        let step = record.step("Too far along the arc", "a = R × E × π / (180 × 60 × 60)");
        step.with("R", of, radius).with("E", OFF, off.clone()).gives("table.off_at_radius", found.clone());
        found
    });
    let rows = off.into_iter().enumerate().map(|(at, off_seconds)| DialRow {
        turns: turns[at] as u32,
        divisions: whole[at] as u32,
        vernier_parts: vernier.map(|_| left[at] as u32),
        off_seconds,
        off_at_radius: at_radius.as_ref().map(|found| found[at]),
    });
    Some(rows.collect())
}

/// How to turn the table, and how fine its dial is.
fn tell_fineness(parts: f64, off: &[f64], record: &mut Record) {
    let seconds = text::fixed(1_296_000.0 / parts, 1);
    let greatest = text::fixed(off.iter().fold(0.0, |most: f64, off| most.max(off.abs())), 1);
    record.note(
        "finest_part",
        format!(
            "The finest part of this dial is {seconds} seconds of arc. The settings here are at most {greatest} seconds \
             off, without the error of the table itself."
        ),
    );
    record.note(
        "from_zero",
        "Set every place from zero, not from the place before: each is rounded by itself, so nothing adds up.",
    );
    record.note(
        "table_turns_back",
        "Turn the table one way only, so that the play of the worm does not matter, and lock it for each cut. To bring \
         up a hole that lies counterclockwise, the table turns clockwise.",
    );
}
