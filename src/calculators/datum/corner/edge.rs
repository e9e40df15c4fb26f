//! An edge that was touched: its touches, its run, its direction from the crossing of the edges.

use crate::arithmetic::touching::{Pair, take};
use crate::calculators::prelude::*;

/// The names of the record, for the first edge and the second.
const FIELDS: [&str; 2] = ["first_edge", "second_edge"];
const COLUMNS: [[&str; 2]; 2] = [["first_edge.x", "first_edge.y"], ["second_edge.x", "second_edge.y"]];
const TOUCHES: [[[&str; 2]; 2]; 2] = [
    [["first_edge_1.x", "first_edge_1.y"], ["first_edge_2.x", "first_edge_2.y"]],
    [["second_edge_1.x", "second_edge_1.y"], ["second_edge_2.x", "second_edge_2.y"]],
];
const RUN: [[&str; 2]; 2] = [["first_run.x", "first_run.y"], ["second_run.x", "second_run.y"]];
const FARTHEST: [[&str; 2]; 2] = [["first_far.x", "first_far.y"], ["second_far.x", "second_far.y"]];
const FROM_CROSSING: [[&str; 2]; 2] = [["first_from.x", "first_from.y"], ["second_from.x", "second_from.y"]];
const REACH: [&str; 2] = ["first_reach", "second_reach"];
const WAY: [[&str; 2]; 2] = [["first_way.x", "first_way.y"], ["second_way.x", "second_way.y"]];

/// Touches that make a corner.
const GOOD: [&str; 2] = ["1 in,-0.1 in;5 in,-0.1 in", "-0.1 in,1 in"];

/// An edge, the first (0) or the second (1), and its touches.
pub(super) struct Edge {
    number: usize,
    pub(super) touches: Vec<Pair<Place>>,
}

impl Edge {
    pub(super) fn touched(number: usize, points: &Points, record: &mut Record) -> Self {
        let take = |at| take(&points.0, at, COLUMNS[number], TOUCHES[number][at], record);
        Self { number, touches: (0..points.0.len()).map(take).collect() }
    }

    /// The run from its first touch to its second.
    pub(super) fn find_run(&self, record: &mut Record) -> Result<Pair<FoundPlace>, Refusal> {
        let (a, b, of) = (&self.touches[0], &self.touches[1], RUN[self.number]);
        let on: [FoundPlace; 2] = [0, 1].map(|on| {
            step!(record, ["Along the edge, on X", "Along the edge, on Y"][on],
                u: (of[on]) = b - a, a = (a.of[on]): a.on[on], b = (b.of[on]): b.on[on])
        });
        if on[0].get().hypot(on[1].get()).si() < TINY {
            let says =
                "Both touches on the edge are in one place, so they give no direction. Touch it again farther along.";
            return Err(Refusal::no_answer(says, &[self.way_out()]));
        }
        Ok(Pair { of, on })
    }

    /// The run of an edge that was touched once: that of the other one, turned by a quarter.
    pub(super) fn square_run(&self, other: &Pair<FoundPlace>, record: &mut Record) -> Pair<FoundPlace> {
        let (of, [x, y]) = (RUN[self.number], other.on);
        let u: FoundPlace = step!(record, "Along the second edge, square to the first, on X",
            u: (of[0]) = -v, v = (other.of[1]): y);
        let v: FoundPlace = step!(record, "Along the second edge, square to the first, on Y",
            u: (of[1]) = v, v = (other.of[0]): x);
        Pair { of, on: [u, v] }
    }

    /// Its direction of length one from the crossing to where it was touched.
    pub(super) fn find_way(&self, crossing: &Pair<FoundPlace>, record: &mut Record) -> Result<Pair<f64>, Refusal> {
        let (far, from, reach) = (FARTHEST[self.number], FROM_CROSSING[self.number], REACH[self.number]);
        let farthest = self.touches.iter().max_by(|a, b| distance(a, crossing).total_cmp(&distance(b, crossing)));
        let farthest = farthest.unwrap_or(&self.touches[0]).on;
        for (on, axis) in ["X", "Y"].into_iter().enumerate() {
            let edge = FIELDS[self.number].replace('_', " ");
            let what = format!("{axis} of the touch on the {edge} farthest from the crossing");
            let step = record.choose(what, "the farther of its touches");
            let touches = ["a", "b"].into_iter().zip(&self.touches);
            touches
                .fold(step, |step, (symbol, touch)| step.with(symbol, touch.of[on], touch.on[on]))
                .gives(far[on], farthest[on]);
        }
        let on: [FoundPlace; 2] = [0, 1].map(|on| {
            step!(record, ["From the crossing to that touch, on X", "From the crossing to that touch, on Y"][on],
                u: (from[on]) = x - p, x = (far[on]): farthest[on], p = (crossing.of[on]): crossing.on[on])
        });
        let length = FoundExtent::of(on[0].get().hypot(on[1].get()));
        let run = Pair { of: from, on };
        record
            .step("Distance of that touch from the crossing", "r = √(u^2 + v^2)")
            .with_pair(["u", "v"], &run)
            .gives(reach, length);
        if length.get().si() < TINY {
            let says =
                "The edge was touched only at the corner itself, which gives no direction. Touch it farther along.";
            return Err(Refusal::no_answer(says, &[self.way_out()]));
        }
        let of = WAY[self.number];
        let on = [0, 1].map(|on| {
            let part = (run.on[on].get() / length.get()).si();
            record
                .step(["Direction along the edge, X part", "Direction along the edge, Y part"][on], "e = u / r")
                .with("u", from[on], run.on[on])
                .with("r", reach, length)
                .gives(of[on], part);
            part
        });
        Ok(Pair { of, on })
    }

    /// The field of its touches, and touches that make a corner.
    pub(super) fn way_out(&self) -> (&'static str, String) {
        (FIELDS[self.number], GOOD[self.number].into())
    }
}

/// How far a touch lies from the crossing, in meters.
pub(super) fn distance(touch: &Pair<Place>, crossing: &Pair<FoundPlace>) -> f64 {
    (touch.on[0].get() - crossing.on[0].get()).hypot(touch.on[1].get() - crossing.on[1].get()).si()
}
