//! A list of places as moves on a machine: how far on each axis, how long it takes, and where to go
//! past a place so that it is come up to from one side. Plane geometry, checked with an
//! arbitrary-precision library.

mod drawing;

use crate::arithmetic::directions::Approach;
use crate::arithmetic::travel::{AxisColumns, find_moves, find_sum};
use crate::calculators::prelude::*;

/// The calculator.
pub struct MoveList;

/// What the move list asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct MoveListInput {
    /// The places, in the order that the tool goes to them.
    #[label("Places", "place")]
    pub points: Points,
    /// Feed rate of the moves; with it the answer gives times.
    #[label("Feed rate")]
    pub feed_rate: Option<FeedRate>,
    /// Backlash of the screws; with it, a move that comes from the wrong side gets a place to go past first.
    #[label("Backlash")]
    pub backlash: Option<Extent>,
    /// Whether the reading is growing or falling on the last bit of the way to every place. Needs the backlash.
    #[label("Reading on the approach")]
    #[absent("growing", "The reading is assumed to grow on the last bit of the way to every place.")]
    pub approach: Option<Approach>,
}

/// What the move list gives.
#[derive(Debug, Gives)]
pub struct MoveListResult {
    /// The moves, one to each place.
    #[label("Moves", "move")]
    pub moves: Vec<ListedMove>,
    /// All moves together.
    #[label("")]
    pub total: MoveTotal,
}

/// One move.
#[derive(Debug, Gives)]
pub struct ListedMove {
    /// Number of the place.
    pub number: u32,
    /// Reading on X at its end.
    #[label("Reading on X")]
    pub x: FoundPlace,
    /// Reading on Y at its end.
    #[label("Reading on Y")]
    pub y: FoundPlace,
    /// Move on X from the place before; the first from zero.
    #[label("Travel on X")]
    pub dx: FoundMove,
    /// Move on Y from the place before; the first from zero.
    #[label("Travel on Y")]
    pub dy: FoundMove,
    /// Straight distance from the place before.
    #[label("Straight distance")]
    pub distance: FoundExtent,
    /// Time of that distance; needs the feed rate.
    #[label("Time")]
    pub time: Option<FoundDuration>,
    /// Reading on X to go to first, past the place, before coming back to it; absent where the move comes from the right side.
    #[label("X to go past to")]
    pub past_x: Option<FoundPlace>,
    /// Reading on Y to go to first, likewise.
    #[label("Y to go past to")]
    pub past_y: Option<FoundPlace>,
}

/// All moves together.
#[derive(Debug, Gives)]
pub struct MoveTotal {
    /// Distance of all moves.
    #[label("Total distance")]
    pub distance: FoundExtent,
    /// Time of all moves; needs the feed rate.
    #[label("Total time")]
    pub time: Option<FoundDuration>,
}

rules! { check(MoveListInput) {
    needs(approach => backlash = "0.1 mm", approach = "leave out"):
        "Give the backlash too: without backlash it does not matter from which side you approach.";
} }

impl Calculator for MoveList {
    const ID: &'static str = "datum/move-list";
    const TITLE: &'static str = "Move list";
    const ABOUT: &'static str = "A list of places as absolute readings and as moves from place to place, with \
        distance and time, and with a place to go past where backlash would come in.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Add the moves up by hand: they come to the last place less the first.";
    const WORDS: &'static str = "coordinates, incremental, absolute, positions, readout, backlash, travel, drilling \
        order, DRO";
    const EXAMPLES: &'static [Example] = examples! {
        "Four holes of a winch bracket, from the corner of the part, at a table feed of 10 in/min.":
            points = "0.5 in,0.375 in;2.25 in,0.375 in;2.25 in,1.625 in;0.5 in,1.625 in", feed_rate = "10 in/min";
        "Three holes of a pump cover on a mill whose screws have 0.15 mm of backlash, approached with the reading growing.":
            points = "12 mm,30 mm;48 mm,30 mm;30 mm,8 mm", backlash = "0.15 mm", approach = "growing";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The spindle goes to the holes at {points}, in that order. How far is it on X from the first to the second?"
            => "moves/1/dx":
            { points = "0.5 in,0.375 in;2.25 in,1.625 in" | "3.125 in,1 in;1.75 in,2.5 in" |
                  "0.875 in,2 in;4.5 in,0.5 in" }
            { points = "12 mm,30 mm;48 mm,8 mm" | "95.5 mm,20 mm;33 mm,60 mm" | "17.5 mm,40 mm;102 mm,15 mm" };
        1 "Two holes are at {points}. How far apart are they, in a straight line?" => "moves/1/distance":
            { points = "1 in,1 in;4 in,5 in" | "0.5 in,0.75 in;3 in,2.25 in" | "2 in,3 in;3.25 in,0.5 in" }
            { points = "20 mm,15 mm;80 mm,60 mm" | "12 mm,30 mm;48 mm,8 mm" | "70 mm,10 mm;40 mm,55 mm" };
        2 "From zero the table goes straight to {points}, in that order. How far does it go in all?"
            => "total/distance":
            { points = "3 in,4 in;3 in,1 in" | "0.5 in,0.5 in;2.5 in,0.5 in;2.5 in,2 in" |
                  "1 in,2 in;4 in,2 in;4 in,6 in" }
            { points = "30 mm,40 mm;90 mm,40 mm" | "20 mm,15 mm;80 mm,15 mm;80 mm,95 mm" |
                  "25 mm,60 mm;75 mm,60 mm;75 mm,20 mm" };
        2 "At a table feed of {feed_rate} the spindle goes straight from zero to {points}. How long does that take?"
            => "total/time":
            { feed_rate = "5 in/min" | "10 in/min" | "15 in/min",
              points = "3 in,4 in;9 in,4 in" | "2 in,1.5 in;7 in,1.5 in" }
            { feed_rate = "125 mm/min" | "250 mm/min" | "400 mm/min",
              points = "30 mm,40 mm;130 mm,40 mm" | "60 mm,80 mm;180 mm,80 mm" };
        3 "The screws have {backlash} of backlash. You approach every place with the reading growing, going past by \
           twice the backlash. On the way from the first to the second of the holes {points}, to which X do you go \
           past first?" => "moves/1/past_x":
            { backlash = "0.005 in" | "0.008 in" | "0.012 in",
              points = "2.5 in,1 in;0.75 in,2 in" | "4 in,0.5 in;3.125 in,1.5 in" }
            { backlash = "0.1 mm" | "0.15 mm" | "0.25 mm",
              points = "60 mm,20 mm;25 mm,45 mm" | "110 mm,15 mm;82 mm,40 mm" };
    };
    type Input = MoveListInput;
    type Output = MoveListResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "differences of places; distance by the right triangle of the two moves");
        let points = &input.points.0;
        let play = input.backlash.filter(|backlash| backlash.si() > 0.0);
        let play = play.map(|backlash| (backlash, input.approach(record)));
        let numbers: Vec<u32> = (1..).take(points.len()).collect();
        record
            .look_up("Places", "every whole number from 1, in the order given")
            .gives("moves.number", column(&numbers, |number| *number));
        let datum = (FoundPlace::stated(0.0, Unit::Metre), "zero, the datum,");
        let mut axis = |symbol, of, axis: AxisColumns, place: fn(&Point) -> Place| {
            let places: Vec<FoundPlace> = points.iter().map(|point| place(point).found()).collect();
            record
                .choose("Reading at each place", "as given, from datum zero")
                .with(symbol, of, column(points, place))
                .gives(axis.places, places.clone());
            let moves = find_moves(&places, datum, axis, record);
            places.into_iter().zip(moves)
        };
        let (on_x, on_y) = (axis("X", "points.x", X, |point| point.x), axis("Y", "points.y", Y, |point| point.y));
        let moves = numbers.into_iter().zip(on_x).zip(on_y).map(|((number, (x, dx)), (y, dy))| {
            let distance = FoundExtent::of(dx.get().hypot(dy.get()));
            let time = input.feed_rate.map(|feed| FoundDuration::of(distance.get() / feed.get()));
            ListedMove { number, x, y, dx, dy, distance, time, past_x: past(play, x, dx), past_y: past(play, y, dy) }
        });
        let moves: Vec<ListedMove> = moves.collect();
        tell!(record.step("Straight distance of each move", "s = √(a^2 + b^2)"),
            a = moves.dx, b = moves.dy => moves.distance);
        if let Some(feed) = input.feed_rate {
            record.source("kinematics", "time is distance over feed rate");
            tell!(record.step("Time of each move", "t = s / v"),
                s = moves.distance, v = feed_rate: feed => moves.time);
            notes!(record => time_at_feed: "The times are for straight moves at the full feed rate. Starting, \
                stopping, lifting the tool and going past a place take extra time.");
        }
        let distances: Vec<FoundExtent> = moves.iter().map(|listed| listed.distance).collect();
        let times: Vec<FoundDuration> = moves.iter().filter_map(|listed| listed.time).collect();
        let distance = find_sum("Total distance", &distances, "moves.distance", "total.distance", record);
        let time = input.feed_rate.map(|_| find_sum("Total time", &times, "moves.time", "total.time", record));
        match play {
            Some(play) => show_past(&moves, play, record),
            None => notes!(record => one_side: "Approach every place from the same side on each axis, so that \
                backlash does not matter."),
        }
        record.caution(cautions::OUT_OF_THE_WORK);
        Ok(MoveListResult { moves, total: MoveTotal { distance, time } })
    }
}

const X: AxisColumns = AxisColumns { symbol: "x", places: "moves.x", before: "before.x", moves: "moves.dx" };
const Y: AxisColumns = AxisColumns { symbol: "y", places: "moves.y", before: "before.y", moves: "moves.dy" };

/// Where to go past to before a place, if the move to it comes from the wrong side.
fn past(play: Option<(Extent, Approach)>, place: FoundPlace, moved: FoundMove) -> Option<FoundPlace> {
    let (backlash, approach) = play?;
    let away = if approach == Approach::Growing { -1.0 } else { 1.0 };
    (away * moved.si() > 0.0).then(|| FoundPlace::of(place.get() + away * 2.0 * backlash.get()))
}

/// A reading of a move, of those that all have or of those that some have.
type Of<T> = fn(&ListedMove) -> T;

/// The readings to go past to, on both axes.
fn show_past(moves: &[ListedMove], (backlash, approach): (Extent, Approach), record: &mut Record) {
    record.source("common_practice", "going past a place by twice the backlash before coming back to it");
    notes!(record => past_by_twice_the_play: "Going past by twice the backlash takes it up on the way back and leaves \
        as much again to settle. If two divisions of the dial are more, go past by those. Zero is assumed to have \
        been set from the same side.");
    let (rule, formula) = match approach {
        Approach::Growing => ("those where the reading falls on the way", "p = x - 2 × b"),
        Approach::Falling => ("those where the reading grows on the way", "p = x + 2 × b"),
    };
    let on_x: (Of<FoundPlace>, Of<Option<FoundPlace>>) = (|listed| listed.x, |listed| listed.past_x);
    let on_y: (Of<FoundPlace>, Of<Option<FoundPlace>>) = (|listed| listed.y, |listed| listed.past_y);
    for ((place, past), of, against_field, field) in
        [(on_x, X.places, "against.x", "moves.past_x"), (on_y, Y.places, "against.y", "moves.past_y")]
    {
        let wrong_way = moves.iter().filter(|listed| past(listed).is_some());
        let against: Vec<FoundPlace> = wrong_way.map(place).collect();
        if against.is_empty() {
            continue;
        }
        record
            .choose("Places approached from the wrong side", rule)
            .with("x", of, column(moves, place))
            .gives(against_field, against.clone());
        record
            .step("Reading to go past to", formula)
            .with("x", against_field, against)
            .with("b", "backlash", backlash)
            .gives(field, column(moves, past));
    }
}
