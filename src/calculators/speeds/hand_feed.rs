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
    /// What the slide travels in one turn of its wheel.
    pub travel_per_turn: Size,
    /// Length of the cut; its turns and time need it.
    pub distance: Option<Size>,
}

/// What the hand feed calculator gives.
#[derive(Debug, Gives)]
pub struct HandFeedResult {
    /// Time for one turn of the wheel.
    pub time_per_turn: FoundShortTime,
    /// Turns of the wheel in a minute.
    pub turns_per_minute: FoundSpindleSpeed,
    /// Turns for the whole cut.
    #[needs(distance)]
    pub turns: Option<f64>,
    /// Time for the whole cut.
    #[needs(distance)]
    pub cutting_time: Option<FoundWorkTime>,
}

impl Calculator for HandFeed {
    const ID: &'static str = "speeds/hand-feed";
    const TITLE: &'static str = "Feed by hand";
    const ABOUT: &'static str = "How many seconds a turn of the handwheel takes so that the slide goes at a wanted feed \
        rate.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Count the turns you make in a minute by the clock: times the travel of one they are the feed.";
    const WORDS: &'static str = "handwheel, hand wheel, crank, dial, manual, seconds, feed rate";
    const EXAMPLES: &'static [Example] = examples! {
        "The table of the bench mill, 0.1 in a turn, is to go at 3.6 in/min over a 6 in winch bracket.":
            feed_rate = "3.6 in/min", travel_per_turn = "0.1 in", distance = "6 in";
        "A quill of 2.5 mm a turn at 40 mm/min.":
            feed_rate = "40 mm/min", travel_per_turn = "2.5 mm";
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
                "No hand turns a wheel evenly at this rate, between one turn a minute and three in two seconds: use the \
                 power feed, or another feed.",
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
