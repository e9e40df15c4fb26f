//! An edge that was touched: its touches, its run, its direction from the crossing of the edges, and the names
//! under which the record has them.

use crate::arithmetic::touching::{Pair, take};
use crate::calculators::prelude::*;

/// The names under which the record has what belongs to one edge.
pub(super) struct Names {
    /// The field of its touches.
    pub(super) field: &'static str,
    columns: [&'static str; 2],
    touches: [[&'static str; 2]; 2],
    pub(super) run: [&'static str; 2],
    far: [&'static str; 2],
    from_crossing: [&'static str; 2],
    reach: &'static str,
    way: [&'static str; 2],
    /// Touches that make a corner.
    pub(super) good: &'static str,
}

pub(super) const FIRST: Names = Names {
    field: "first_edge",
    columns: ["first_edge.x", "first_edge.y"],
    touches: [["first_edge_1.x", "first_edge_1.y"], ["first_edge_2.x", "first_edge_2.y"]],
    run: ["first_run.x", "first_run.y"],
    far: ["first_far.x", "first_far.y"],
    from_crossing: ["first_from.x", "first_from.y"],
    reach: "first_reach",
    way: ["first_way.x", "first_way.y"],
    good: "1 in,-0.1 in;5 in,-0.1 in",
};

pub(super) const SECOND: Names = Names {
    field: "second_edge",
    columns: ["second_edge.x", "second_edge.y"],
    touches: [["second_edge_1.x", "second_edge_1.y"], ["second_edge_2.x", "second_edge_2.y"]],
    run: ["second_run.x", "second_run.y"],
    far: ["second_far.x", "second_far.y"],
    from_crossing: ["second_from.x", "second_from.y"],
    reach: "second_reach",
    way: ["second_way.x", "second_way.y"],
    good: "-0.1 in,1 in",
};

/// An edge and its touches.
pub(super) struct Edge {
    pub(super) names: Names,
    pub(super) touches: Vec<Pair<Place>>,
}

impl Edge {
    pub(super) fn touched(names: Names, points: &[Point], record: &mut Record) -> Self {
        let touches = (0..points.len()).map(|at| take(points, at, names.columns, names.touches[at], record)).collect();
        Self { names, touches }
    }

    /// The run from its first touch to its second.
    pub(super) fn find_run(&self, record: &mut Record) -> Result<Pair<FoundPlace>, Refusal> {
        let (a, b, of) = (&self.touches[0], &self.touches[1], self.names.run);
        let on: [FoundPlace; 2] = [0, 1].map(|on| {
            step!(record, ["Along the edge, on X", "Along the edge, on Y"][on],
                u: (of[on]) = b - a, a = (a.of[on]): a.on[on], b = (b.of[on]): b.on[on])
        });
        if on[0].get().hypot(on[1].get()).si() < TINY {
            let says = "Both touches of the edge are in one place, so they give it no direction.";
            return Err(self.no_direction(says));
        }
        Ok(Pair { of, on })
    }

    /// Its direction of length one from the crossing to where it was touched.
    pub(super) fn find_way(&self, crossing: &Pair<FoundPlace>, record: &mut Record) -> Result<Pair<f64>, Refusal> {
        let Names { far, from_crossing, reach, way, .. } = self.names;
        let farthest = self.touches.iter().max_by(|a, b| distance(a, crossing).total_cmp(&distance(b, crossing)));
        let farthest = farthest.unwrap_or(&self.touches[0]).on;
        for (on, axis) in ["X", "Y"].into_iter().enumerate() {
            let edge = self.names.field.replace('_', " ");
            let what = format!("{axis} of the touch of {edge} farthest from the crossing");
            let step = record.choose(what, "the farther of its touches");
            let touches = ["a", "b"].into_iter().zip(&self.touches);
            touches
                .fold(step, |step, (symbol, touch)| step.with(symbol, touch.of[on], touch.on[on]))
                .gives(far[on], farthest[on]);
        }
        let [u, v]: [FoundPlace; 2] = [0, 1].map(|on| {
            step!(record, ["From the crossing to it, on X", "From the crossing to it, on Y"][on],
                u: (from_crossing[on]) = x - p, x = (far[on]): farthest[on], p = (crossing.of[on]): crossing.on[on])
        });
        let length: FoundExtent = step!(record, "How far that is",
            r: (reach) = root(squared(u) + squared(v)), u = (from_crossing[0]): u, v = (from_crossing[1]): v);
        if length.get().si() < TINY {
            return Err(
                self.no_direction("The edge was touched only in the corner itself, which gives it no direction.")
            );
        }
        let on = [u, v].map(|part| (part.get() / length.get()).si());
        for (axis, what) in
            ["Direction along the edge, X part", "Direction along the edge, Y part"].into_iter().enumerate()
        {
            record
                .step(what, "e = u / r")
                .with("u", from_crossing[axis], [u, v][axis])
                .with("r", reach, length)
                .gives(way[axis], on[axis]);
        }
        Ok(Pair { of: way, on })
    }

    fn no_direction(&self, says: &'static str) -> Refusal {
        Refusal::no_answer(says, &[(self.names.field, self.names.good.into())])
    }
}

/// How far a touch lies from the crossing, in metres.
pub(super) fn distance(touch: &Pair<Place>, crossing: &Pair<FoundPlace>) -> f64 {
    (touch.on[0].get() - crossing.on[0].get()).hypot(touch.on[1].get() - crossing.on[1].get()).si()
}
