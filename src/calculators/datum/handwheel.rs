//! A distance as turns and divisions of a handwheel, where the dial stands at its end, and how far to
//! go past where the play of the screw would enter.

use crate::arithmetic::directions::Approach;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

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
    /// What the dial shows at the start.
    #[absent("0", like = travel_per_turn, "The dial is taken to be set to 0 at the start.")]
    pub dial_now: Option<Extent>,
    /// Play of the screw; with it the answer says how far to go past.
    pub backlash: Option<Extent>,
    /// From which side places are come up to: with the dial's figures growing or falling. Needs backlash.
    #[absent("growing", "Places are taken to be come up to with the dial's figures growing.")]
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

rules! { check_play(HandwheelInput) {
    needs(approach => backlash = "0.1 mm", approach = "leave out"):
        "The side from which a place is come up to matters where the screw has play: give backlash too.";
} }

fn check(input: &HandwheelInput) -> Result<(), ValidationError> {
    check_play(input)?;
    let Some(dial) = input.dial_now.filter(|dial| dial.get() > input.travel_per_turn.get()) else { return Ok(()) };
    let longer = value(dial.si(), input.travel_per_turn.quantity().unit, Way::Up);
    let fields = [("dial_now", "0"), ("travel_per_turn", longer.as_str())];
    Err(rule_broken(Code::Conflict, "A dial shows no more than one turn's travel.", &fields))
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
    const WORDS: &'static str = "dial, graduations, backlash, leadscrew, crank, collar, turns, micrometer dial, \
        overshoot";
    const EXAMPLES: &'static [Example] = examples! {
        "The table of the mill goes 1.2345 in; one turn is 0.200 in in 200 divisions, and the dial is at 0.":
            distance = "1.2345 in", travel_per_turn = "0.2 in", divisions = "200";
        "Back by 23.75 mm on a screw of 5 mm with 0.12 mm of play, coming up to every place with the dial's figures growing; the dial shows 1.40 mm.":
            distance = "-23.75 mm", travel_per_turn = "5 mm", divisions = "100", dial_now = "1.40 mm",
            backlash = "0.12 mm", approach = "growing";
    };
    type Input = HandwheelInput;
    type Output = HandwheelResult;
    const LEADS: &'static [&'static str] = &["nearest/turns", "nearest/divisions"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "one turn of the screw is one lead; a division is its even part");
        let (distance, turn) = (input.distance, input.travel_per_turn);
        let count = f64::from(input.divisions.get());
        let all = text::tidy((distance.si().abs() / turn.si()) * count);
        if all / count > MOST_TURNS {
            let longest = value(turn.si() * 100.0, distance.quantity().unit, Way::Down);
            let steepest = value(distance.si().abs() / 100.0, turn.quantity().unit, Way::Up);
            let says = "That is more turns than anybody would count.";
            return Err(Refusal::no_answer(says, &[("distance", longest), ("travel_per_turn", steepest)]));
        }
        record
            .step("Divisions in all", "q = abs(s) × N / T")
            .with("s", "distance", distance)
            .with("N", "divisions", input.divisions.get())
            .with("T", "travel_per_turn", turn)
            .gives("all_divisions", all);
        let (turns, divisions) = split_divisions(all, ["all_divisions", "turns", "divisions_beyond"], input, record);
        let nearest = find_nearest(all, input, record);
        let way = distance.si();
        let figures = (way != 0.0).then_some(if way > 0.0 { "growing" } else { "falling" });
        if let Some(figures) = figures {
            record
                .look_up("Way of the dial's figures", "growing for a positive distance, falling for a negative one")
                .with("s", "distance", distance)
                .gives("figures", figures);
        }
        let dial_now = input.dial_now(record);
        let end: FoundDifference = step!(record, "Place of the dial at the end, turns and all",
            e: "dial.end" = d + s, d = dial_now, s = distance);
        let dial_reading = find_dial(end, ["dial.end", "dial.turns", "dial.whole_turns", "dial_reading"], turn, record);
        let (overshoot, turn_back_at) = find_overshoot(input, dial_reading, record);
        record
            .choose("Divisions beyond whole turns", "as found above")
            .with("d", "divisions_beyond", divisions)
            .gives("divisions", divisions);
        record.caution(cautions::OUT_OF_THE_WORK);
        let turns = turns as u32;
        Ok(HandwheelResult { turns, divisions, figures, nearest, dial_reading, overshoot, turn_back_at })
    }
}

/// Divisions as whole turns and divisions beyond them.
fn split_divisions(
    all: f64,
    [of, turns_of, beyond_of]: [&'static str; 3],
    input: &HandwheelInput,
    record: &mut Record,
) -> (f64, f64) {
    let divisions = input.divisions.get();
    let turns: f64 = step!(record, "Whole turns", k: (turns_of) = floor(q / N), q = (of): all, N = divisions);
    let beyond = text::tidy(all - turns * f64::from(divisions));
    record
        .step("Divisions beyond them", "d = q - k × N")
        .with("q", of, all)
        .with("k", turns_of, turns)
        .with("N", "divisions", divisions)
        .gives(beyond_of, beyond);
    (turns, beyond)
}

/// The distance to the nearest division.
fn find_nearest(all: f64, input: &HandwheelInput, record: &mut Record) -> NearestDivision {
    let (distance, turn) = (input.distance, input.travel_per_turn);
    let whole: f64 =
        step!(record, "To the nearest division", m: "nearest.all_divisions" = round(q), q = "all_divisions": all);
    let names = ["nearest.all_divisions", "nearest.turns", "nearest.divisions"];
    let (turns, divisions) = split_divisions(whole, names, input, record);
    let far = distance.si().abs();
    let left = far - whole * turn.si() / f64::from(input.divisions.get());
    let remainder = clean(left, far, distance.quantity().unit);
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
    end: FoundDifference,
    [of, turns_of, whole_of, field]: [&'static str; 4],
    turn: Size,
    record: &mut Record,
) -> FoundPlace {
    let turns = text::tidy(end.si() / turn.si());
    record.step("In turns", "m = e / T").with("e", of, end).with("T", "travel_per_turn", turn).gives(turns_of, turns);
    let whole: f64 = step!(record, "Whole turns of it", k: (whole_of) = floor(m), m = (turns_of): turns);
    let left = end.si() - whole * turn.si();
    let reading = clean(left, end.si().abs().max(turn.si()), turn.quantity().unit);
    record
        .step("What the dial shows there", "r = e - k × T")
        .with("e", of, end)
        .with("k", whole_of, whole)
        .with("T", "travel_per_turn", turn)
        .gives(field, reading);
    reading
}

/// How far to go past the place, and the dial where to turn back.
fn find_overshoot(
    input: &HandwheelInput,
    dial: FoundPlace,
    record: &mut Record,
) -> (Option<FoundExtent>, Option<FoundPlace>) {
    let Some(backlash) = input.backlash else {
        notes!(record => one_side: "Come to every place from the same side, so that the play of the screw does not \
            enter; with backlash the answer says how far to go past.");
        return (None, None);
    };
    let approach = input.approach(record);
    notes!(record => start_from_the_same_side: "The start is taken to have been come up to from the same side; if not, \
        first go past it and come back.");
    let against = match approach {
        Approach::Growing => input.distance.si() < 0.0,
        Approach::Falling => input.distance.si() > 0.0,
    };
    if !against || backlash.si() == 0.0 {
        let none = FoundExtent::stated(0.0, Unit::Metre);
        let says = "0 where the way leads up to the place from the right side, or the screw has no play";
        record
            .look_up("How far to go past", says)
            .with("s", "distance", input.distance)
            .with("b", "backlash", backlash)
            .gives("overshoot", none);
        return (Some(none), None);
    }
    record.source("common_practice", "going past a place by twice the play before coming back to it");
    let overshoot: FoundExtent = step!(record, "How far to go past", o: overshoot = 2.0 * b, b = backlash);
    let what = "Place of the dial where to turn back";
    let end: FoundDifference = match approach {
        Approach::Growing => step!(record, what, e: "back.end" = r - o, r = dial_reading: dial, o = overshoot),
        Approach::Falling => step!(record, what, e: "back.end" = r + o, r = dial_reading: dial, o = overshoot),
    };
    let names = ["back.end", "back.turns", "back.whole_turns", "turn_back_at"];
    (Some(overshoot), Some(find_dial(end, names, input.travel_per_turn, record)))
}
