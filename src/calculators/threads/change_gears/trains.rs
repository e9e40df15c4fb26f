//! Every simple and compound train that a set of wheels makes, nearest to a ratio first.

use std::collections::HashSet;

/// A train: pairs of driver and driven wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Train {
    /// First driver and the wheel it drives.
    pub first: (u32, u32),
    /// Second driver, on the shaft of the first driven wheel, and the wheel it drives.
    pub second: Option<(u32, u32)>,
    /// Whether the wheels clear the shafts beside them.
    pub clears: bool,
}

impl Train {
    /// Turns of the last wheel for one of the first.
    pub fn ratio(&self) -> f64 {
        let (c, d) = self.second.unwrap_or((1, 1));
        f64::from(self.first.0 * c) / f64::from(self.first.1 * d)
    }

    /// How far its ratio is off, as a share.
    pub fn error_from(&self, wanted: f64) -> f64 {
        self.ratio() / wanted - 1.0
    }

    /// `40/60` or `40/60 × 50/30`.
    pub fn text(&self) -> String {
        let (a, b) = self.first;
        match self.second {
            None => format!("{a}/{b}"),
            Some((c, d)) => format!("{a}/{b} × {c}/{d}"),
        }
    }
}

/// Two wheels in mesh hold their shafts apart by half their teeth together; the wheel beside the
/// first shaft needs half its own and room for the shaft.
fn clears((a, b): (u32, u32), (c, d): (u32, u32), clearance: u32) -> bool {
    a + b >= c + clearance && c + d >= b + clearance
}

/// The ways to set up two drivers and two driven wheels; the first that clears, else the first.
fn arranged(drivers: (u32, u32), driven: (u32, u32), clearance: u32) -> Train {
    let ((a, c), (b, d)) = (drivers, driven);
    let ways = [((a, b), (c, d)), ((a, d), (c, b)), ((c, b), (a, d)), ((c, d), (a, b))];
    let clear = ways.iter().find(|(first, second)| clears(*first, *second, clearance));
    let (first, second) = *clear.unwrap_or(&ways[0]);
    Train { first, second: Some(second), clears: clear.is_some() }
}

/// The `count` trains nearest to a ratio, those that clear first; of equal ones the simple and the
/// one with fewer teeth.
pub fn trains(gears: &[u32], wanted: f64, clearance: u32, count: usize) -> Vec<Train> {
    let mut gears = gears.to_vec();
    gears.sort_unstable();
    let mut seen = HashSet::new();
    let mut all: Vec<Train> = Vec::new();
    let pairs: Vec<(usize, usize)> = (0..gears.len()).flat_map(|i| (i + 1..gears.len()).map(move |j| (i, j))).collect();
    for &(i, j) in &pairs {
        for first in [(gears[i], gears[j]), (gears[j], gears[i])] {
            if seen.insert((first.0, 0, first.1, 0)) {
                all.push(Train { first, second: None, clears: true });
            }
        }
    }
    for &(i, j) in &pairs {
        for &(k, l) in &pairs {
            if [k, l].iter().any(|at| *at == i || *at == j) {
                continue;
            }
            let (drivers, driven) = ((gears[i], gears[j]), (gears[k], gears[l]));
            // A wheel over its like is no more than an idler.
            if [driven.0, driven.1].iter().any(|teeth| *teeth == drivers.0 || *teeth == drivers.1) {
                continue;
            }
            if seen.insert((drivers.0, drivers.1, driven.0, driven.1)) {
                all.push(arranged(drivers, driven, clearance));
            }
        }
    }
    let teeth = |train: &Train| {
        let (c, d) = train.second.unwrap_or((0, 0));
        train.first.0 + train.first.1 + c + d
    };
    // Errors that differ by rounding alone are one.
    let off = |train: &Train| (train.error_from(wanted).abs() * 1e13).round();
    all.sort_by(|a, b| {
        b.clears
            .cmp(&a.clears)
            .then(off(a).total_cmp(&off(b)))
            .then(a.second.is_some().cmp(&b.second.is_some()))
            .then(teeth(a).cmp(&teeth(b)))
            .then_with(|| a.text().cmp(&b.text()))
    });
    all.retain(|train| train.first.0 != train.first.1 || train.second.is_some() || (wanted - 1.0).abs() < 1e-12);
    all.truncate(count);
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wheel_is_used_no_more_often_than_it_is_owned() {
        for train in trains(&[20, 40, 40, 60, 80], 0.5, 0, 50) {
            let mut used = vec![train.first.0, train.first.1];
            used.extend(train.second.into_iter().flat_map(|(c, d)| [c, d]));
            for teeth in [20, 40, 60, 80] {
                let owned = [20, 40, 40, 60, 80].iter().filter(|own| **own == teeth).count();
                assert!(used.iter().filter(|use_| **use_ == teeth).count() <= owned, "{}", train.text());
            }
        }
    }

    #[test]
    fn a_large_driven_wheel_that_would_sit_on_the_next_shaft_does_not_clear() {
        assert!(!clears((20, 100), (30, 20), 15));
        assert!(clears((40, 60), (50, 55), 15));
    }
}
