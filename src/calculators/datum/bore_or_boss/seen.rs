//! The circle of the tip's path, and the touches as they are seen from its centre.

use crate::arithmetic::touching::{Pair, columns};
use crate::calculators::prelude::*;

/// The names of the touches' columns.
pub(super) const POINTS: [&str; 2] = ["points.x", "points.y"];
/// The names of the directions' columns.
pub(super) const WAYS: [&str; 2] = ["ways.x", "ways.y"];

/// The touches seen from the centre.
pub(super) struct Seen {
    pub(super) distances: Vec<FoundExtent>,
    /// Directions of length one.
    pub(super) ways: [Vec<f64>; 2],
}

impl Seen {
    /// Distances and directions of the touches from the centre.
    pub(super) fn from(centre: &Pair<FoundPlace>, touches: &[Point], record: &mut Record) -> Self {
        let columns = columns(touches);
        let runs = Pair {
            of: ["from_center.x", "from_center.y"],
            on: [0, 1].map(|on| -> Vec<FoundPlace> {
                columns[on].iter().map(|place| FoundPlace::of(place.get() - centre.on[on].get())).collect()
            }),
        };
        for (on, axis) in ["X", "Y"].into_iter().enumerate() {
            record
                .step(format!("Each touch from the centre, on {axis}"), "p = x - a")
                .with("x", POINTS[on], columns[on].as_slice())
                .with("a", centre.of[on], centre.on[on])
                .gives(runs.of[on], runs.on[on].clone());
        }
        let both = runs.on[0].iter().zip(&runs.on[1]);
        let distances: Vec<FoundExtent> = both.map(|(p, q)| Found::of(p.get().hypot(q.get()))).collect();
        record
            .step("Distance of each touch from the centre", "d = √(p^2 + q^2)")
            .with_pair(["p", "q"], &runs)
            .gives("distances", distances.clone());
        let ways = [0, 1].map(|on| -> Vec<f64> {
            runs.on[on].iter().zip(&distances).map(|(p, d)| (p.get() / d.get()).si()).collect()
        });
        for (on, axis) in ["X", "Y"].into_iter().enumerate() {
            record
                .step(format!("Direction of each touch, {axis} part"), "u = p / d")
                .with("p", runs.of[on], runs.on[on].clone())
                .with("d", "distances", distances.clone())
                .gives(WAYS[on], ways[on].clone());
        }
        Self { distances, ways }
    }
}
