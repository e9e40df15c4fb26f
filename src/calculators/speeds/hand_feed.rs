//! Feeding by hand: how long a turn of the handwheel takes at a feed rate, by kinematics of a screw.

use crate::calculators::prelude::*;

/// The calculator.
pub struct HandFeed;

/// A hand cannot turn a wheel evenly faster than this, in turns a second.
const FASTEST: f64 = 1.5;
/// Nor slower than this.
const SLOWEST: f64 = 1.0 / 60.0;

/// What the hand feed calculator asks for.
#[derive(Debug, Asks)]
pub struct HandFeedInput {
    /// Feed rate wanted.
    pub feed_rate: FeedRate,
    /// Travel of the slide in one turn of its handwheel.
    #[label("Travel per handwheel turn")]
    pub travel_per_turn: Size,
    /// Length of the cut; its turns and time need it.
    #[label("Length of cut")]
    pub distance: Option<Size>,
}

/// What the hand feed calculator gives.
#[derive(Debug, Gives)]
pub struct HandFeedResult {
    /// Time for one turn of the handwheel.
    pub time_per_turn: FoundShortTime,
    /// Turns of the handwheel in a minute.
    pub turns_per_minute: FoundSpindleSpeed,
    /// Turns of the handwheel for the whole cut.
    #[label("Turns for the cut")]
    #[needs(distance)]
    pub turns: Option<f64>,
    /// Time for the whole cut.
    #[label("Time for the cut")]
    #[needs(distance)]
    pub cutting_time: Option<FoundWorkTime>,
}

impl Calculator for HandFeed {
    const ID: &'static str = "speeds/hand-feed";
    const TITLE: &'static str = "Feed by hand";
    const ABOUT: &'static str = "How many seconds each turn of the handwheel must take to feed at a wanted rate.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Count the turns you make in a minute by the clock: multiplied by the travel of one turn, they are the feed.";
    const WORDS: &'static str = "handwheel, hand wheel, crank, dial, manual, seconds, feed rate";
    const EXAMPLES: &'static [Example] = examples! {
        "The table of the bench mill, 0.1 in a turn, is to go at 3.6 in/min over a 6 in winch bracket.":
            feed_rate = "3.6 in/min", travel_per_turn = "0.1 in", distance = "6 in";
        "A quill of 2.5 mm a turn at 40 mm/min.":
            feed_rate = "40 mm/min", travel_per_turn = "2.5 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The handwheel moves the table {travel_per_turn} a turn. You want to feed at {feed_rate}. How long must each turn \
            take?" => "time_per_turn":
            { travel_per_turn = "0.1 in" | "0.2 in", feed_rate = "2 in/min" | "3 in/min" | "4 in/min" | "5 in/min" }
            { travel_per_turn = "2.5 mm" | "5 mm", feed_rate = "40 mm/min" | "60 mm/min" | "100 mm/min" };
        2 "The handwheel moves the table {travel_per_turn} a turn, and you feed at {feed_rate}. How many turns do you make in a \
            minute?" => "turns_per_minute":
            { travel_per_turn = "0.1 in" | "0.2 in", feed_rate = "1.5 in/min" | "2.5 in/min" | "4 in/min" }
            { travel_per_turn = "2 mm" | "4 mm" | "5 mm", feed_rate = "50 mm/min" | "80 mm/min" | "120 mm/min" };
        2 "A cut over a winch bracket is {distance} long. You feed by hand at {feed_rate}. How long does it take?"
            => "cutting_time":
            { distance = "4 in" | "6 in" | "9 in", feed_rate = "2 in/min" | "3 in/min" | "4 in/min",
              travel_per_turn = "0.1 in" }
            { distance = "100 mm" | "150 mm" | "240 mm", feed_rate = "50 mm/min" | "80 mm/min" | "100 mm/min",
              travel_per_turn = "5 mm" };
        3 "Ten turns of the handwheel move the table an inch. The cutter may feed at {feed_rate}. How many seconds must each \
            turn take?" => "time_per_turn":
            { feed_rate = "2 in/min" | "2.5 in/min" | "3 in/min" | "4 in/min" | "6 in/min", travel_per_turn = "0.1 in" };
    };
    type Input = HandFeedInput;
    type Output = HandFeedResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a screw moves its slide by the travel of a turn");
        record.caution(cautions::TURNING_SPINDLE);
        let HandFeedInput { feed_rate, travel_per_turn, distance } = *input;
        let time_per_turn = step!(record, "Time for one turn", t: time_per_turn = p / vf,
            p = travel_per_turn, vf = feed_rate);
        let turns_per_minute: FoundSpindleSpeed = step!(record, "Turns in a minute", n: turns_per_minute = vf / p,
            vf = feed_rate, p = travel_per_turn);
        if !(SLOWEST..=FASTEST).contains(&turns_per_minute.si()) {
            record.note(
                "uneven_by_hand",
                "By hand you can turn a wheel evenly from one turn a minute up to three turns in two seconds, and this is \
                 outside: use the power feed, or another feed.",
            );
        }
        let turns = distance.map(
            |distance| step!(record, "Turns for the cut", z: turns = number(L / p), L = distance, p = travel_per_turn),
        );
        let cutting_time = distance
            .map(|distance| step!(record, "Time for the cut", t: cutting_time = L / vf, L = distance, vf = feed_rate));
        Ok(HandFeedResult { time_per_turn, turns_per_minute, turns, cutting_time })
    }
}
