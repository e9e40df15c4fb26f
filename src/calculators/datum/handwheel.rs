//! A distance as turns and divisions of a handwheel, where the dial stands at its end, and how far to
//! go past where the play of the screw would enter.

use crate::arithmetic::directions::Approach;
use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::fields::Count;
use crate::quantity::{Extent, Found, FoundDifference, FoundExtent, FoundPlace, Kind, Move, SiValue, Size, Unit, text};
use crate::refusal::{Code, Refusal, Wrong, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct Handwheel;

/// Most turns of a handwheel that anybody would count.
const MOST_TURNS: f64 = 100_000.0;

/// What the handwheel asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct HandwheelInput {
    /// How far the slide is to go; negative the way in which the dial's figures fall.
    pub distance: Move,
    /// Travel of the slide for one turn of the handwheel.
    pub travel_per_turn: Size,
    /// How many divisions the dial has, 1 to 10000.
    pub divisions: Count<1, 10_000>,
    /// What the dial shows at the start; 0 if absent.
    pub dial_now: Option<Extent>,
    /// Play of the screw; with it the answer says how far to go past.
    pub backlash: Option<Extent>,
    /// From which side places are come up to: with the dial's figures growing or falling; growing if absent. Needs backlash.
    pub approach: Option<Approach>,
}

/// What the handwheel gives.
#[derive(Debug, Gives)]
pub struct HandwheelResult {
    /// Whole turns.
    pub turns: u32,
    /// Divisions beyond them, with the part of a division that is to be judged by eye.
    pub divisions: f64,
    /// Which way the dial's figures go while turning: growing or falling; absent for no distance.
    pub figures: Option<&'static str>,
    /// The same to the nearest division.
    pub nearest: NearestDivision,
    /// What the dial shows at the end.
    pub dial_reading: FoundPlace,
    /// How far to go past the place before coming back to it, 0 where the way leads up to it from the right side; needs backlash.
    pub overshoot: Option<FoundExtent>,
    /// What the dial shows where the handwheel is turned back; absent where it is not.
    pub turn_back_at: Option<FoundPlace>,
}

/// A distance in whole divisions.
#[derive(Debug, Gives)]
pub struct NearestDivision {
    /// Whole turns.
    pub turns: u32,
    /// Whole divisions beyond them.
    pub divisions: u32,
    /// What is left of the distance, negative where it goes beyond.
    pub remainder: FoundDifference,
}

fn check(input: &HandwheelInput) -> Result<(), ValidationError> {
    if input.approach.is_some() && input.backlash.is_none() {
        let says = "The side from which a place is come up to matters where the screw has play: give backlash too.";
        return Err(rule_broken(Code::Conflict, says, &[("backlash", "0.1 mm"), ("approach", "leave out")]));
    }
    let turn = input.travel_per_turn;
    match input.dial_now {
        Some(dial) if dial.get() > turn.get() => {
            let says = "A dial shows no more than one turn's travel.";
            let longer = value(dial.get().si(), turn.quantity().unit, Way::Up);
            Err(rule_broken(Code::Conflict, says, &[("dial_now", "0"), ("travel_per_turn", &longer)]))
        }
        _ => Ok(()),
    }
}

/// A difference of lengths that are `size` large, without the noise below their last digit.
fn clean<K: Kind>(difference: f64, size: f64, unit: Unit) -> Found<K> {
    let digits = unit.of_si(size.abs()).max(1e-6).log10().ceil() as i32;
    Found::stated(text::round(unit.of_si(difference), (14 - digits).clamp(0, 20) as usize), unit)
}

impl Calculator for Handwheel {
    const ID: &'static str = "datum/handwheel";
    const TITLE: &'static str = "Turns of a handwheel";
    const ABOUT: &'static str = "A distance as turns and divisions of a handwheel, where its dial stands at the end, \
        and how far to go past a place so that the play of the screw does not enter.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Set an indicator against the table and turn as counted: it moves by the distance.";
    const WORDS: &'static [&'static str] =
        &["dial", "graduations", "backlash", "leadscrew", "crank", "collar", "turns", "micrometer dial", "overshoot"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "The table of the mill goes 1.2345 in; one turn is 0.200 in in 200 divisions, and the dial is at 0.",
            fields: &[("distance", "1.2345 in"), ("travel_per_turn", "0.2 in"), ("divisions", "200")],
        },
        Example {
            says: "Back by 23.75 mm on a screw of 5 mm with 0.12 mm of play, coming up to every place with the dial's \
                figures growing; the dial shows 1.40 mm.",
            fields: &[
                ("distance", "-23.75 mm"),
                ("travel_per_turn", "5 mm"),
                ("divisions", "100"),
                ("dial_now", "1.40 mm"),
                ("backlash", "0.12 mm"),
                ("approach", "growing"),
            ],
        },
    ];
    type Input = HandwheelInput;
    type Output = HandwheelResult;
    const LEADS: &'static [&'static str] = &["nearest/turns", "nearest/divisions"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "one turn of the screw is one lead; a division is its even part");
        let (distance, turn) = (input.distance, input.travel_per_turn);
        let count = f64::from(input.divisions.get());
        let all = text::tidy((distance.get().si().abs() / turn.get().si()) * count);
        if all / count > MOST_TURNS {
            let unit = turn.quantity().unit;
            let longest = value(turn.get().si() * 100.0, distance.quantity().unit, Way::Down);
            let steepest = value(distance.get().si().abs() / 100.0, unit, Way::Up);
            let says = "That is more turns than anybody would count.";
            return Err(Refusal(vec![
                Wrong::new("distance", Code::NoAnswer, says, longest),
                Wrong::new("travel_per_turn", Code::NoAnswer, says, steepest),
            ]));
        }
        record
            .step("Divisions in all", "q = abs(s) × N / T")
            .with("s", "distance", distance)
            .with("N", "divisions", input.divisions.get())
            .with("T", "travel_per_turn", turn)
            .gives("all_divisions", all);
        let (turns, divisions) = split_divisions(all, ["all_divisions", "turns", "divisions_beyond"], input, record);
        let nearest = find_nearest(all, input, record);
        let way = distance.get().si();
        let figures = (way != 0.0).then_some(if way > 0.0 { "growing" } else { "falling" });
        if let Some(figures) = figures {
            record
                .look_up("Way of the dial's figures", "growing for a positive distance, falling for a negative one")
                .with("s", "distance", distance)
                .gives("figures", figures);
        }
        let says = "The dial is taken to be set to 0 at the start.";
        let start = record.or_assume(input.dial_now, "dial_now", Extent::stated(0.0, turn.quantity().unit), says);
        let end = distance.get().si() + start.get().si();
        record
            .step("Place of the dial at the end, turns and all", "e = d + s")
            .with("d", "dial_now", start)
            .with("s", "distance", distance)
            .gives("dial.end", FoundDifference::stated(end, Unit::Metre));
        let names = ["dial.end", "dial.turns", "dial.whole_turns", "dial_reading"];
        let dial_reading = find_dial(end, names, turn, record);
        let past = find_overshoot(input, dial_reading, record);
        record
            .choose("Divisions beyond whole turns", "as found above")
            .with("d", "divisions_beyond", divisions)
            .gives("divisions", divisions);
        record.caution(cautions::OUT_OF_THE_WORK);
        Ok(HandwheelResult {
            turns: turns as u32,
            divisions,
            figures,
            nearest,
            dial_reading,
            overshoot: past.map(|(overshoot, _)| overshoot),
            turn_back_at: past.and_then(|(_, at)| at),
        })
    }
}

/// Divisions as whole turns and divisions beyond them.
fn split_divisions(
    all: f64,
    [of, turns_of, beyond_of]: [&'static str; 3],
    input: &HandwheelInput,
    record: &mut Record,
) -> (f64, f64) {
    let count = f64::from(input.divisions.get());
    let turns = (all / count).floor();
    let beyond = text::tidy(all - turns * count);
    record
        .step("Whole turns", "k = floor(q / N)")
        .with("q", of, all)
        .with("N", "divisions", input.divisions.get())
        .gives(turns_of, turns);
    record
        .step("Divisions beyond them", "d = q - k × N")
        .with("q", of, all)
        .with("k", turns_of, turns)
        .with("N", "divisions", input.divisions.get())
        .gives(beyond_of, beyond);
    (turns, beyond)
}

/// The distance to the nearest division.
fn find_nearest(all: f64, input: &HandwheelInput, record: &mut Record) -> NearestDivision {
    let (distance, turn) = (input.distance, input.travel_per_turn);
    let whole = all.round();
    record
        .step("To the nearest division", "m = round(q)")
        .with("q", "all_divisions", all)
        .gives("nearest.all_divisions", whole);
    let names = ["nearest.all_divisions", "nearest.turns", "nearest.divisions"];
    let (turns, divisions) = split_divisions(whole, names, input, record);
    let count = f64::from(input.divisions.get());
    let far = distance.get().si().abs();
    let remainder = clean(far - whole * turn.get().si() / count, far, distance.quantity().unit);
    record
        .step("What that leaves over", "l = abs(s) - m × T / N")
        .with("s", "distance", distance)
        .with("m", "nearest.all_divisions", whole)
        .with("T", "travel_per_turn", turn)
        .with("N", "divisions", input.divisions.get())
        .gives("nearest.remainder", remainder);
    NearestDivision { turns: turns as u32, divisions: divisions as u32, remainder }
}

/// What a dial shows that has gone to `end` from its zero.
fn find_dial(
    end: f64,
    [of, turns_of, whole_of, field]: [&'static str; 4],
    turn: Size,
    record: &mut Record,
) -> FoundPlace {
    let shown = FoundDifference::stated(end, Unit::Metre);
    let turns = text::tidy(end / turn.get().si());
    record.step("In turns", "m = e / T").with("e", of, shown).with("T", "travel_per_turn", turn).gives(turns_of, turns);
    record.step("Whole turns of it", "k = floor(m)").with("m", turns_of, turns).gives(whole_of, turns.floor());
    let left = end - turns.floor() * turn.get().si();
    let reading = clean(left, end.abs().max(turn.get().si()), turn.quantity().unit);
    record
        .step("What the dial shows there", "r = e - k × T")
        .with("e", of, shown)
        .with("k", whole_of, turns.floor())
        .with("T", "travel_per_turn", turn)
        .gives(field, reading);
    reading
}

/// How far to go past the place, and the dial where to turn back.
fn find_overshoot(
    input: &HandwheelInput,
    dial: FoundPlace,
    record: &mut Record,
) -> Option<(FoundExtent, Option<FoundPlace>)> {
    let Some(backlash) = input.backlash else {
        record.note(
            "one_side",
            "Come to every place from the same side, so that the play of the screw does not enter; with backlash the \
             answer says how far to go past.",
        );
        return None;
    };
    let says = "Places are taken to be come up to with the dial's figures growing.";
    let approach = record.or_assume(input.approach, "approach", Approach::Growing, says);
    record.note(
        "start_from_the_same_side",
        "The start is taken to have been come up to from the same side; if not, first go past it and come back.",
    );
    let distance = input.distance.get().si();
    let (against, formula, sign) = match approach {
        Approach::Growing => (distance < 0.0, "e = r - o", -1.0),
        Approach::Falling => (distance > 0.0, "e = r + o", 1.0),
    };
    if !against || backlash.get().si() == 0.0 {
        let none = FoundExtent::stated(0.0, Unit::Metre);
        record
            .look_up(
                "How far to go past",
                "0 where the way leads up to the place from the right side, or the screw has no play",
            )
            .with("s", "distance", input.distance)
            .with("b", "backlash", backlash)
            .gives("overshoot", none);
        return Some((none, None));
    }
    record.source("common_practice", "going past a place by twice the play before coming back to it");
    let overshoot = FoundExtent::of(2.0 * backlash.get());
    record.step("How far to go past", "o = 2 × b").with("b", "backlash", backlash).gives("overshoot", overshoot);
    let end = dial.get().si() + sign * overshoot.get().si();
    record
        .step("Place of the dial where to turn back", formula)
        .with("r", "dial_reading", dial)
        .with("o", "overshoot", overshoot)
        .gives("back.end", FoundDifference::stated(end, Unit::Metre));
    let names = ["back.end", "back.turns", "back.whole_turns", "turn_back_at"];
    Some((overshoot, Some(find_dial(end, names, input.travel_per_turn, record))))
}
