//! The order in which to go through a set of places so that the table travels little.

mod drawing;
mod route;

use crate::arithmetic::touching::metres;
use crate::arithmetic::travel::{AxisColumns, find_moves, find_sum};
use crate::calculators::prelude::*;
use route::{EXACT_UP_TO, Way};

/// The calculator.
pub struct VisitOrder;

choice! {
    /// How travel counts: `straight` from place to place, `one_axis_at_a_time` as with two handwheels, or the `longer_axis` where both run at one speed together.
    TravelCount {
        /// The straight distance.
        Straight = "straight",
        /// Both axes added.
        OneAxisAtATime = "one_axis_at_a_time",
        /// The longer of the two axes.
        LongerAxis = "longer_axis",
    }
}

/// What the visit order asks for.
#[derive(Debug, Asks)]
pub struct VisitOrderInput {
    /// The places, in any order; they are numbered as given.
    #[label("Places", "place")]
    pub points: Points,
    /// Where the tool is before the first place.
    #[label("Start")]
    #[absent("at the first place given", value = self.points.0[0], "The tool is assumed to be at the first place.")]
    pub start: Option<Point>,
    /// Where the tool should be after the last place; at the last place if absent.
    #[label("Finish")]
    pub finish: Option<Point>,
    /// How travel counts: straight, one axis at a time, or the longer axis.
    #[label("How travel counts")]
    #[absent("straight", "Travel is counted as the straight distance from place to place.")]
    pub travel: Option<TravelCount>,
}

/// What the visit order gives.
#[derive(Debug, Gives)]
pub struct VisitOrderResult {
    /// Numbers of the places in the order to visit them.
    #[label("Order of visits", "visit")]
    pub order: Vec<u32>,
    /// Travel in the order found, from the start and to the finish.
    #[label("Travel in that order")]
    pub length: FoundExtent,
    /// Travel in the order given.
    #[label("Travel in the order given")]
    pub length_as_given: FoundExtent,
    /// The places in the order to visit them.
    #[label("Places in that order", "stop")]
    pub places: Vec<VisitedPlace>,
}

/// A place to be visited.
#[derive(Debug, Gives)]
pub struct VisitedPlace {
    /// Its number in the list given.
    #[label("Number")]
    pub number: u32,
    /// Reading on X.
    #[label("Reading on X")]
    pub x: FoundPlace,
    /// Reading on Y.
    #[label("Reading on Y")]
    pub y: FoundPlace,
    /// Move on X from the place before; to the first from the start.
    #[label("Travel on X")]
    pub dx: FoundMove,
    /// Move on Y, likewise.
    #[label("Travel on Y")]
    pub dy: FoundMove,
    /// Travel from the place before; to the first from the start.
    #[label("Travel")]
    pub distance: FoundExtent,
}

impl TravelCount {
    /// The travel of a move on both axes, and its formula.
    fn counted(self) -> (fn(f64, f64) -> f64, &'static str) {
        match self {
            TravelCount::Straight => (f64::hypot, "s = √(a^2 + b^2)"),
            TravelCount::OneAxisAtATime => (|x, y| x.abs() + y.abs(), "s = abs(a) + abs(b)"),
            TravelCount::LongerAxis => (|x, y| x.abs().max(y.abs()), "s = max(abs(a), abs(b))"),
        }
    }
}

impl Calculator for VisitOrder {
    const ID: &'static str = "datum/visit-order";
    const TITLE: &'static str = "Order of visiting holes";
    const ABOUT: &'static str = "A short way through a set of holes: the order to go to them, the moves, and the \
        travel saved over the order given.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Follow the order on the drawing with a pencil: where two legs cross there is a shorter way.";
    const WORDS: &'static str = "shortest path, drilling order, travel, sequence, sort points, route, hole pattern";
    const EXAMPLES: &'static [Example] = examples! {
        "Seven holes of a gear case cover, as they stand on the drawing, from the hole at the lower left.":
            points = "0.5 in,0.5 in;4.5 in,3 in;0.5 in,3 in;4.5 in,0.5 in;2.5 in,0.5 in;2.5 in,3 in;1.25 in,1.75 in";
        "Six holes of a pump base by handwheel, one axis at a time, from the datum and back to where the next part is put in.":
            points = "20 mm,15 mm;180 mm,95 mm;100 mm,15 mm;20 mm,95 mm;180 mm,15 mm;100 mm,95 mm",
            start = "0 mm,0 mm", finish = "0 mm,120 mm", travel = "one_axis_at_a_time";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The table goes straight from hole to hole in this order: {points}. How far does it go?"
            => "length_as_given":
            { points = "0 in,0 in;3 in,0 in;3 in,4 in" | "1 in,1 in;4 in,1 in;4 in,3.5 in;1 in,3.5 in" |
                  "0.5 in,0.5 in;2.5 in,0.5 in;2.5 in,2 in" }
            { points = "0 mm,0 mm;60 mm,0 mm;60 mm,80 mm" | "20 mm,15 mm;100 mm,15 mm;100 mm,75 mm;20 mm,75 mm" |
                  "10 mm,10 mm;40 mm,50 mm;70 mm,50 mm" };
        1 "You drill the holes {points}, one axis at a time with two handwheels, in that order from the first. How \
           much travel is that?" => "length_as_given":
            { points = "0.5 in,0.5 in;3 in,2 in;1 in,4 in" | "1 in,1 in;2.5 in,3 in;4 in,0.5 in",
              travel = "one_axis_at_a_time" }
            { points = "20 mm,15 mm;80 mm,60 mm;35 mm,90 mm" | "10 mm,10 mm;55 mm,40 mm;90 mm,25 mm",
              travel = "one_axis_at_a_time" };
        2 "The drawing lists the holes {points}. Starting at the first, how far is it straight from hole to hole by \
           the shortest way?" => "length":
            { points = "0 in,0 in;6 in,0 in;2 in,0 in;4 in,0 in" | "0.5 in,0.5 in;4.5 in,3 in;0.5 in,3 in" |
                  "1 in,1 in;5 in,4 in;1 in,4 in" }
            { points = "0 mm,0 mm;90 mm,0 mm;30 mm,0 mm;60 mm,0 mm" | "20 mm,15 mm;180 mm,95 mm;20 mm,95 mm" |
                  "10 mm,10 mm;100 mm,50 mm;10 mm,50 mm" };
        2 "The holes {points} are numbered as listed. You start at the first and want the shortest way. Which number \
           do you drill second?" => "order/1":
            { points = "0 in,0 in;6 in,0 in;2 in,0 in;4 in,0 in" |
                  "0.5 in,0.5 in;4.5 in,0.5 in;3 in,0.5 in;1 in,0.5 in" | "1 in,1 in;5 in,4 in;4 in,1 in" }
            { points = "20 mm,15 mm;180 mm,95 mm;180 mm,15 mm" | "10 mm,10 mm;100 mm,50 mm;10 mm,50 mm" |
                  "0 mm,0 mm;0 mm,80 mm;0 mm,50 mm;0 mm,25 mm" };
        3 "From {start} you drill the holes {points} and go on to {finish}, straight from place to place by the \
           shortest way. How far is it in all?" => "length":
            { start = "0 in,0 in", finish = "6 in,0 in" | "0 in,6 in",
              points = "3 in,4 in;3 in,0 in" | "2 in,2 in;2 in,4 in" | "4 in,3 in;1 in,1 in" }
            { start = "0 mm,0 mm", finish = "0 mm,120 mm" | "150 mm,0 mm",
              points = "60 mm,80 mm;60 mm,20 mm" | "90 mm,40 mm;30 mm,40 mm" };
    };
    type Input = VisitOrderInput;
    type Output = VisitOrderResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "distances between places; the way through them is found by search, not by formula");
        let points = &input.points.0;
        let (start, travel) = (input.start(record), input.travel(record));
        let places: Vec<(f64, f64)> = points.iter().map(metres).collect();
        let finish = input.finish;
        let (count, _) = travel.counted();
        let way = Way::of(&places, metres(&start), finish.as_ref().map(metres), count)?;
        let order = way.shortest()?;
        let numbers: Vec<u32> = order.iter().map(|at| *at as u32 + 1).collect();
        let shown = column(&numbers, |number| *number);
        let exact = points.len() <= EXACT_UP_TO;
        let how = if exact {
            "the shortest of all orders"
        } else {
            "the nearest place next, then changes of order as long as one shortens the way (2-opt and Or-opt), from \
             that order and from the order given"
        };
        record.look_up("Order of visiting", how).gives("order", shown.clone());
        record
            .choose("Numbers of the places", "in that order")
            .with("n", "order", shown.clone())
            .gives("places.number", shown);
        let ends = Ends { start, finish, travel };
        let given: Vec<usize> = (0..points.len()).collect();
        let (_, length_as_given) = find_travel(points, &given, &ends, &AS_GIVEN, record);
        let (places, length) = find_travel(points, &order, &ends, &VISITED, record);
        if !exact {
            notes!(record => may_not_be_shortest: "This is a short way found by trying changes of order. A slightly \
                shorter one may exist.");
        }
        let saved = text::fixed(100.0 * (1.0 - length.si() / length_as_given.si()).max(0.0), 0);
        if saved == "0" || length_as_given.si() == 0.0 {
            record.note("as_good_as_given", "The order given is about as short as any found.");
        } else {
            record.note("saved", format!("This order saves {saved} percent of the travel in the order given."));
        }
        record.caution(cautions::OUT_OF_THE_WORK);
        Ok(VisitOrderResult { order: numbers, length, length_as_given, places })
    }
}

struct Ends {
    start: Point,
    finish: Option<Point>,
    travel: TravelCount,
}

/// What the steps of one order call their columns.
struct Names {
    rule: &'static str,
    x: AxisColumns,
    y: AxisColumns,
    distance: &'static str,
    /// Travel to the last place.
    to_last: &'static str,
    /// The last place on X and Y, the move from it to the finish, and its travel.
    finish: [&'static str; 5],
    /// Travel in all.
    length: &'static str,
}

const AS_GIVEN: Names = Names {
    rule: "in the order given",
    x: AxisColumns { symbol: "x", places: "given.x", before: "given.before_x", moves: "given.dx" },
    y: AxisColumns { symbol: "y", places: "given.y", before: "given.before_y", moves: "given.dy" },
    distance: "given.distance",
    to_last: "given.to_last",
    finish: ["given.last_x", "given.last_y", "given.last_dx", "given.last_dy", "given.last_distance"],
    length: "length_as_given",
};

const VISITED: Names = Names {
    rule: "in the order found",
    x: AxisColumns { symbol: "x", places: "places.x", before: "before.x", moves: "places.dx" },
    y: AxisColumns { symbol: "y", places: "places.y", before: "before.y", moves: "places.dy" },
    distance: "places.distance",
    to_last: "to_last",
    finish: ["last_x", "last_y", "last_dx", "last_dy", "last_distance"],
    length: "length",
};

/// Places and moves of one order, and its travel in all.
fn find_travel(
    points: &[Point],
    order: &[usize],
    ends: &Ends,
    names: &Names,
    record: &mut Record,
) -> (Vec<VisitedPlace>, FoundExtent) {
    let mut axis = |axis: AxisColumns, symbol, of, place: fn(&Point) -> Place| {
        let places: Vec<FoundPlace> = order.iter().map(|at| place(&points[*at]).found()).collect();
        record
            .choose("Reading at each place", names.rule)
            .with(symbol, of, column(points, place))
            .gives(axis.places, places.clone());
        let moves = find_moves(&places, (place(&ends.start).found(), "the start"), axis, record);
        (places, moves)
    };
    let (xs, dxs) = axis(names.x, "X", "points.x", |point| point.x);
    let (ys, dys) = axis(names.y, "Y", "points.y", |point| point.y);
    let (count, formula) = ends.travel.counted();
    let travel = |dx: FoundMove, dy: FoundMove| FoundExtent::of_si(count(dx.si(), dy.si()));
    let distances: Vec<FoundExtent> = dxs.iter().zip(&dys).map(|(dx, dy)| travel(*dx, *dy)).collect();
    record
        .step("Travel to each place", formula)
        .with("a", names.x.moves, dxs.clone())
        .with("b", names.y.moves, dys.clone())
        .gives(names.distance, distances.clone());
    let length = if let Some(finish) = ends.finish {
        let to_last = find_sum("Travel to the last place", &distances, names.distance, names.to_last, record);
        let mut last = |places: &[FoundPlace], to: Place, axis: AxisColumns, finish_of, last_of, move_of| {
            let last = places[places.len() - 1];
            record.choose("Last place", "the last row").with("p", axis.places, places.to_vec()).gives(last_of, last);
            step!(record, "Move from it to the finish", d: (move_of) = f - p, f = (finish_of): to, p = (last_of): last)
        };
        let [last_x, last_y, last_dx, last_dy, leg_field] = names.finish;
        let dx: FoundMove = last(&xs, finish.x, names.x, "finish.x", last_x, last_dx);
        let dy: FoundMove = last(&ys, finish.y, names.y, "finish.y", last_y, last_dy);
        let leg = travel(dx, dy);
        record
            .step("Travel from the last place to the finish", formula)
            .with("a", last_dx, dx)
            .with("b", last_dy, dy)
            .gives(leg_field, leg);
        step!(record, "Total travel", L: (names.length) = t + s, t = (names.to_last): to_last, s = (leg_field): leg)
    } else {
        find_sum("Total travel", &distances, names.distance, names.length, record)
    };
    let places = order.iter().enumerate().map(|(row, at)| VisitedPlace {
        number: *at as u32 + 1,
        x: xs[row],
        y: ys[row],
        dx: dxs[row],
        dy: dys[row],
        distance: distances[row],
    });
    (places.collect(), length)
}
