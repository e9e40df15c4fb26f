//! A distance as turns and divisions of a handwheel, where the dial stands at its end, and how far to
//! go past where the play of the screw would enter.

mod dial;
mod questions;

use crate::arithmetic::directions::Approach;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use dial::{Dial, Named, check_dial};

/// The calculator.
pub struct Handwheel;

/// Most turns of a handwheel that anybody would count.
const MOST_TURNS: f64 = 100_000.0;

/// What the handwheel asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct HandwheelInput {
    /// How far the slide should go; negative the way the dial's figures fall.
    #[label("Distance to go")]
    pub distance: Move,
    /// Travel of the slide for one turn of the handwheel; give this, the threads per inch of the screw, or the travel of one division.
    #[label("Travel of one turn")]
    pub travel_per_turn: Option<Size>,
    /// How many divisions the dial has, 1 to 10000; not needed with the travel of one division.
    #[label("Divisions on the dial")]
    pub divisions: Option<Count<1, 10_000>>,
    /// Threads per inch of the screw, with one start, in place of the travel of one turn.
    #[label("Screw, threads per inch")]
    pub threads_per_inch: Option<PlainNumber>,
    /// Travel of the slide for one division, as dials are marked; turns are counted too if the travel of one turn, the threads per inch or the divisions on the dial are given.
    #[label("Travel of one division")]
    pub travel_per_division: Option<Size>,
    /// What the dial shows at the start.
    #[label("Dial at the start")]
    #[absent("0", value = Extent::stated(0.0, self.dial_unit()), "The dial is assumed to be set to 0 at the start.")]
    pub dial_now: Option<Extent>,
    /// Backlash of the screw; with it the answer says how far to go past.
    #[label("Backlash")]
    pub backlash: Option<Extent>,
    /// Whether the dial's figures are growing or falling as you come to every place. Needs the backlash.
    #[label("Figures on the approach")]
    #[absent("growing", "The dial's figures are assumed to grow as you come to every place.")]
    pub approach: Option<Approach>,
}

/// What the handwheel gives.
#[derive(Debug, Gives)]
pub struct HandwheelResult {
    /// Whole turns; absent where only the travel of a division is known.
    #[label("Whole turns")]
    pub turns: Option<u32>,
    /// Divisions beyond the whole turns, or in all where turns are not known, with a part of a division to judge by eye.
    #[label("Divisions beyond them")]
    pub divisions: f64,
    /// Which way the dial's figures go while you turn: growing or falling; absent for no distance.
    #[label("Dial's figures are")]
    pub figures: Option<&'static str>,
    /// The same to the nearest division.
    #[label("Rounded")]
    pub nearest: NearestDivision,
    /// What the dial shows at the end; absent where only the travel of a division is known.
    #[label("Dial at the end")]
    pub dial_reading: Option<FoundPlace>,
    /// How far to go past the place before coming back to it; 0 where the way leads up to it from the right side. It needs the backlash.
    #[label("Go past by")]
    pub overshoot: Option<FoundExtent>,
    /// What the dial shows where you turn the handwheel back; absent where you do not.
    #[label("Turn back at")]
    pub turn_back_at: Option<FoundPlace>,
}

/// A distance in whole divisions.
#[derive(Debug, Gives)]
pub struct NearestDivision {
    /// Whole turns; absent where only the travel of a division is known.
    #[label("Whole turns")]
    pub turns: Option<u32>,
    /// Whole divisions beyond the turns, or in all where turns are not known.
    #[label("Divisions")]
    pub divisions: u32,
    /// What is left of the distance; negative where it goes beyond.
    #[label("Left over")]
    pub remainder: FoundDifference,
}

rules! { check_play(HandwheelInput) {
    needs(approach => backlash = "0.1 mm", approach = "leave out"):
        "Give the backlash too: without backlash it does not matter from which side you approach.";
} }

fn check(input: &HandwheelInput) -> Result<(), ValidationError> {
    check_play(input)?;
    check_dial(input)?;
    let turn = input.turn().unwrap_or(f64::INFINITY);
    let Some(dial) = input.dial_now.filter(|dial| dial.si() > turn) else { return Ok(()) };
    let longer = value(dial.si(), input.dial_unit(), Way::Up);
    let fields = [("dial_now", "0"), ("travel_per_turn", longer.as_str())];
    let fields = if input.travel_per_turn.is_some() { &fields[..] } else { &fields[..1] };
    Err(rule_broken(Code::Conflict, "A dial shows at most the travel of one turn. Give a smaller reading.", fields))
}

/// A difference of lengths that are `size` large, without the noise below their last digit.
fn clean<K: Kind>(difference: f64, size: f64, unit: Unit) -> Found<K> {
    let digits = unit.of_si(size.abs()).max(1e-6).log10().ceil() as i32;
    Found::stated(text::round(unit.of_si(difference), (14 - digits).clamp(0, 20) as usize), unit)
}

impl Calculator for Handwheel {
    const ID: &'static str = "datum/handwheel";
    const TITLE: &'static str = "Turns of a handwheel";
    const ABOUT: &'static str = "A distance as turns and divisions of a handwheel, what the dial shows at the end, \
        and how far to go past a place to take up the backlash.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Set an indicator against the table and turn as counted: it moves by the distance.";
    const WORDS: &'static str = "dial, graduations, backlash, leadscrew, crank, collar, turns, micrometer dial, \
        overshoot";
    const EXAMPLES: &'static [Example] = examples! {
        "The table of the mill goes 1.2345 in; one turn is 0.200 in in 200 divisions, and the dial is at 0.":
            distance = "1.2345 in", travel_per_turn = "0.2 in", divisions = "200";
        "Back by 23.75 mm on a screw of 5 mm with 0.12 mm of backlash, approaching every place with the dial's figures growing; the dial shows 1.40 mm.":
            distance = "-23.75 mm", travel_per_turn = "5 mm", divisions = "100", dial_now = "1.40 mm",
            backlash = "0.12 mm", approach = "growing";
        "The cross slide of the lathe has a screw of 8 threads an inch and a dial of 125 divisions; 0.3 in inwards.":
            distance = "0.3 in", threads_per_inch = "8", divisions = "125";
        "A slide in the mill gear shed moves 0.02 mm a division, and nobody knows its screw: how many are 1.5 mm?":
            distance = "1.5 mm", travel_per_division = "0.02 mm";
    };
    type Input = HandwheelInput;
    type Output = HandwheelResult;
    const EXERCISES: &'static [Exercise] = questions::QUESTIONS;
    const LEADS: &'static [&'static str] = &["nearest/turns", "nearest/divisions"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "one turn of the screw is one lead; a division is its even part");
        let distance = input.distance;
        let missing = || Refusal::no_answer("Give the travel of one turn.", &[("travel_per_turn", "0.2 in".into())]);
        let dial = Dial::find(input, record).ok_or_else(missing)?;
        let all = find_all(input, &dial, record)?;
        let names = ["all_divisions", "turns", "divisions_beyond"];
        let (turns, divisions) = split_divisions(all, names, &dial, record);
        let nearest = find_nearest(all, input, &dial, record);
        let way = distance.si();
        let figures = (way != 0.0).then_some(if way > 0.0 { "growing" } else { "falling" });
        if let Some(figures) = figures {
            record
                .look_up("Way of the dial's figures", "growing for a positive distance, falling for a negative one")
                .with("s", "distance", distance)
                .gives("figures", figures);
        }
        let dial_reading = dial.turn_and_divisions().map(|(turn, _)| {
            let dial_now = input.dial_now(record);
            let end: FoundDifference = step!(record, "Place of the dial at the end, counted over whole turns",
                e: "dial.end" = d + s, d = dial_now, s = distance);
            let names = ["dial.end", "dial.turns", "dial.whole_turns", "dial_reading"];
            find_dial(end, names, (turn, input.dial_unit()), record)
        });
        let turn = dial.turn_and_divisions().map(|(turn, _)| turn);
        let (overshoot, turn_back_at) = find_overshoot(input, dial_reading.zip(turn), record);
        record
            .choose("Divisions beyond whole turns", "as found above")
            .with("d", "divisions_beyond", divisions)
            .gives("divisions", divisions);
        record.caution(cautions::OUT_OF_THE_WORK);
        let turns = turns.map(|turns| turns as u32);
        Ok(HandwheelResult { turns, divisions, figures, nearest, dial_reading, overshoot, turn_back_at })
    }
}

/// The distance in divisions, unless nobody would count so many.
fn find_all(input: &HandwheelInput, dial: &Dial, record: &mut Record) -> Result<f64, Refusal> {
    let distance = input.distance;
    let far = distance.si().abs();
    let (all, count) = match dial {
        Dial::Turning { turn, divisions } => (text::tidy((far / turn.si) * divisions.si), divisions.si),
        // Where turns are not known, as if the dial had a hundred.
        Dial::Divided { division } => (text::tidy(far / division.si), 100.0),
    };
    if all / count > MOST_TURNS {
        let longest = value(dial.division() * count * 100.0, distance.quantity().unit, Way::Down);
        let mut fields = vec![("distance", longest)];
        let coarser = |measure: Size, part: f64| value(far / part, measure.quantity().unit, Way::Up);
        fields.extend(input.travel_per_turn.map(|turn| ("travel_per_turn", coarser(turn, 100.0))));
        if input.travel_per_turn.is_none() {
            let division = |division| ("travel_per_division", coarser(division, 100.0 * count));
            fields.extend(input.travel_per_division.map(division));
        }
        return Err(Refusal::no_answer("That is too many turns to count. Give a shorter distance.", &fields));
    }
    match dial {
        Dial::Turning { turn, divisions } => record
            .step("Divisions in all", "q = abs(s) × N / T")
            .with("s", "distance", distance)
            .with("N", divisions.of, divisions.shown.clone())
            .with("T", turn.of, turn.shown.clone())
            .gives("all_divisions", all),
        Dial::Divided { division } => record
            .step("Divisions in all", "q = abs(s) / v")
            .with("s", "distance", distance)
            .with("v", division.of, division.shown.clone())
            .gives("all_divisions", all),
    }
    Ok(all)
}

/// Divisions as whole turns and divisions beyond them; all of them where turns are not known.
fn split_divisions(
    all: f64,
    [of, turns_of, beyond_of]: [&'static str; 3],
    dial: &Dial,
    record: &mut Record,
) -> (Option<f64>, f64) {
    let Some((_, divisions)) = dial.turn_and_divisions() else {
        record
            .choose("Divisions, as the travel of a turn is not known", "all")
            .with("q", of, all)
            .gives(beyond_of, all);
        return (None, all);
    };
    let turns = (all / divisions.si).floor();
    record
        .step("Whole turns", "k = floor(q / N)")
        .with("q", of, all)
        .with("N", divisions.of, divisions.shown.clone())
        .gives(turns_of, turns);
    let beyond = text::tidy(all - turns * divisions.si);
    record
        .step("Divisions beyond them", "d = q - k × N")
        .with("q", of, all)
        .with("k", turns_of, turns)
        .with("N", divisions.of, divisions.shown.clone())
        .gives(beyond_of, beyond);
    (Some(turns), beyond)
}

/// The distance to the nearest division.
fn find_nearest(all: f64, input: &HandwheelInput, dial: &Dial, record: &mut Record) -> NearestDivision {
    let distance = input.distance;
    let whole: f64 =
        step!(record, "To the nearest division", m: "nearest.all_divisions" = round(q), q = "all_divisions": all);
    let names = ["nearest.all_divisions", "nearest.turns", "nearest.divisions"];
    let (turns, divisions) = split_divisions(whole, names, dial, record);
    let far = distance.si().abs();
    let left = match dial {
        Dial::Turning { turn, divisions } => far - whole * turn.si / divisions.si,
        Dial::Divided { division } => far - whole * division.si,
    };
    let remainder = clean(left, far, distance.quantity().unit);
    let (formula, parts) = match dial {
        Dial::Turning { turn, divisions } => ("l = abs(s) - m × T / N", vec![("T", turn), ("N", divisions)]),
        Dial::Divided { division } => ("l = abs(s) - m × v", vec![("v", division)]),
    };
    let mut step =
        record.step("Left over", formula).with("s", "distance", distance).with("m", "nearest.all_divisions", whole);
    for (symbol, part) in parts {
        step = step.with(symbol, part.of, part.shown.clone());
    }
    step.gives("nearest.remainder", remainder);
    NearestDivision { turns: turns.map(|turns| turns as u32), divisions: divisions as u32, remainder }
}

/// What a dial shows that has gone to `end` from its zero.
fn find_dial(
    end: FoundDifference,
    [of, turns_of, whole_of, field]: [&'static str; 4],
    (turn, unit): (&Named, Unit),
    record: &mut Record,
) -> FoundPlace {
    let turns = text::tidy(end.si() / turn.si);
    let step = record.step("That place in turns", "m = e / T").with("e", of, end);
    step.with("T", turn.of, turn.shown.clone()).gives(turns_of, turns);
    let whole: f64 = step!(record, "Whole turns in it", k: (whole_of) = floor(m), m = (turns_of): turns);
    let left = end.si() - whole * turn.si;
    let reading = clean(left, end.si().abs().max(turn.si), unit);
    record
        .step("What the dial shows there", "r = e - k × T")
        .with("e", of, end)
        .with("k", whole_of, whole)
        .with("T", turn.of, turn.shown.clone())
        .gives(field, reading);
    reading
}

/// How far to go past the place, and the dial where to turn back.
fn find_overshoot(
    input: &HandwheelInput,
    dial: Option<(FoundPlace, &Named)>,
    record: &mut Record,
) -> (Option<FoundExtent>, Option<FoundPlace>) {
    let Some(backlash) = input.backlash else {
        notes!(record => one_side: "Approach every place from the same side, so that backlash does not matter. Give \
            the backlash, and the answer says how far to go past.");
        return (None, None);
    };
    let approach = input.approach(record);
    notes!(record => start_from_the_same_side: "The start is assumed to be approached from the same side. If not, go \
        past it and come back first.");
    let against = match approach {
        Approach::Growing => input.distance.si() < 0.0,
        Approach::Falling => input.distance.si() > 0.0,
    };
    if !against || backlash.si() == 0.0 {
        let none = FoundExtent::stated(0.0, Unit::Metre);
        let says = "0 where the way leads up to the place from the right side, or there is no backlash";
        record
            .look_up("How far to go past", says)
            .with("s", "distance", input.distance)
            .with("b", "backlash", backlash)
            .gives("overshoot", none);
        return (Some(none), None);
    }
    record.source("common_practice", "going past a place by twice the backlash before coming back to it");
    let overshoot: FoundExtent = step!(record, "How far to go past", o: overshoot = 2.0 * b, b = backlash);
    let Some((dial, turn)) = dial else { return (Some(overshoot), None) };
    let what = "Place of the dial where to turn back";
    let end: FoundDifference = match approach {
        Approach::Growing => step!(record, what, e: "back.end" = r - o, r = dial_reading: dial, o = overshoot),
        Approach::Falling => step!(record, what, e: "back.end" = r + o, r = dial_reading: dial, o = overshoot),
    };
    let names = ["back.end", "back.turns", "back.whole_turns", "turn_back_at"];
    (Some(overshoot), Some(find_dial(end, names, (turn, input.dial_unit()), record)))
}
