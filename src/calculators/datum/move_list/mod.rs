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
    /// The places, in the order in which the tool goes to them.
    pub points: Points,
    /// Feed rate of the moves, for their time; no times if absent.
    pub feed_rate: Option<FeedRate>,
    /// Play of the screws; with it, moves that come from the wrong side get a place to go past first.
    pub backlash: Option<Extent>,
    /// From which side every place is come up to: growing or falling readings. Needs backlash.
    #[absent("growing", "Places are taken to be come up to with the reading growing.")]
    pub approach: Option<Approach>,
}

/// What the move list gives.
#[derive(Debug, Gives)]
pub struct MoveListResult {
    /// The moves, one to each place.
    pub moves: Vec<ListedMove>,
    /// All moves together.
    pub total: MoveTotal,
}

/// One move.
#[derive(Debug, Gives)]
pub struct ListedMove {
    /// Number of the place.
    pub number: u32,
    /// Reading on X at its end.
    pub x: FoundPlace,
    /// Reading on Y at its end.
    pub y: FoundPlace,
    /// Move on X from the place before; the first from datum zero.
    pub dx: FoundMove,
    /// Move on Y from the place before; the first from datum zero.
    pub dy: FoundMove,
    /// Straight distance from the place before.
    pub distance: FoundExtent,
    /// Time of that distance; needs feed_rate.
    pub time: Option<FoundDuration>,
    /// Reading on X to go to first, past the place, before coming back to it; absent where the move comes from the right side.
    pub past_x: Option<FoundPlace>,
    /// Reading on Y to go to first, likewise.
    pub past_y: Option<FoundPlace>,
}

/// All moves together.
#[derive(Debug, Gives)]
pub struct MoveTotal {
    /// Distance of all moves.
    pub distance: FoundExtent,
    /// Time of all moves; needs feed_rate.
    pub time: Option<FoundDuration>,
}

rules! { check(MoveListInput) {
    needs(approach => backlash = "0.1 mm", approach = "leave out"):
        "The side from which places are come up to matters where the screws have play: give backlash too.";
} }

impl Calculator for MoveList {
    const ID: &'static str = "datum/move-list";
    const TITLE: &'static str = "Move list";
    const ABOUT: &'static str = "A list of places as absolute readings and as moves from place to place, with \
        distance and time, and with a place to go past where the play of the screws would enter.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Add the moves up by hand: they come to the last place less the first.";
    const WORDS: &'static str = "coordinates, incremental, absolute, positions, readout, backlash, travel, drilling \
        order, DRO";
    const EXAMPLES: &'static [Example] = examples! {
        "Four holes of a winch bracket, from the corner of the part, at a table feed of 10 in/min.":
            points = "0.5 in,0.375 in;2.25 in,0.375 in;2.25 in,1.625 in;0.5 in,1.625 in", feed_rate = "10 in/min";
        "Three holes of a pump cover on a mill whose screws have 0.15 mm of play, come up to with the reading growing.":
            points = "12 mm,30 mm;48 mm,30 mm;30 mm,8 mm", backlash = "0.15 mm", approach = "growing";
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
        let datum = (FoundPlace::stated(0.0, Unit::Metre), "0, the datum,");
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
            notes!(record => time_at_feed: "The times are those of straight moves at the full feed rate; starting, \
                stopping, lifting the tool and going past a place come on top.");
        }
        let distances: Vec<FoundExtent> = moves.iter().map(|listed| listed.distance).collect();
        let times: Vec<FoundDuration> = moves.iter().filter_map(|listed| listed.time).collect();
        let distance = find_sum("Distance in all", &distances, "moves.distance", "total.distance", record);
        let time = input.feed_rate.map(|_| find_sum("Time in all", &times, "moves.time", "total.time", record));
        match play {
            Some(play) => show_past(&moves, play, record),
            None => notes!(record => one_side: "Come to every place from the same side on each axis, so that the play \
                of the screws does not enter."),
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
    record.source("common_practice", "going past a place by twice the play before coming back to it");
    notes!(record => past_by_twice_the_play: "Going past by twice the play takes it up once on the way back and leaves \
        as much again to settle; go at least two divisions of the dial past where that is more. Zero is taken to have \
        been set from the same side.");
    let (rule, formula) = match approach {
        Approach::Growing => ("those to which the reading falls", "p = x - 2 × b"),
        Approach::Falling => ("those to which the reading grows", "p = x + 2 × b"),
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
            .choose("Places come to from the wrong side", rule)
            .with("x", of, column(moves, place))
            .gives(against_field, against.clone());
        record
            .step("Reading to go past to", formula)
            .with("x", against_field, against)
            .with("b", "backlash", backlash)
            .gives(field, column(moves, past));
    }
}
