//! Dimensions of the National pipe taper thread (ASME B1.20.1): pitch diameters and lengths by the
//! standard's formulas, to the places that its table prints; the hand-tight length alone is data.

use super::other_series::{NptRow, npt_row};
use super::rounding::half_even;
use super::{Thread, ThreadSystem};

/// Dimensions of one pipe size, in inches; diameters to five places and lengths to four, as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Npt {
    /// The row of the list.
    pub row: &'static NptRow,
    /// Pitch diameter at the small end of the external thread, E0.
    pub small_end: f64,
    /// The same before rounding.
    pub small_end_exact: f64,
    /// Pitch diameter at the large end of the internal thread, E1, where hand-tight engagement ends.
    pub hand_tight: f64,
    /// The same before rounding.
    pub hand_tight_exact: f64,
    /// Length of effective thread, L2.
    pub effective_length: f64,
    /// The same before rounding.
    pub effective_length_exact: f64,
    /// Pitch diameter at the end of the effective thread, E2.
    pub effective: f64,
    /// Length of wrench make-up, L3: three pitches.
    pub wrench_length: f64,
    /// Pitch diameter at the end of wrench make-up in the internal thread, E3.
    pub wrench: f64,
    /// Length of the vanishing thread, V.
    pub vanish_length: f64,
    /// Length of the whole external thread, L4.
    pub overall_length: f64,
    /// Length of thread with full crests, L5: two pitches less than L2.
    pub full_length: f64,
    /// Greatest height of the thread, 0.8 P.
    pub height: f64,
    /// Minor diameter at the small end, K0.
    pub small_end_minor: f64,
}

/// Dimensions of an NPT thread; `None` for a thread of another system.
pub fn npt(thread: &Thread) -> Option<Npt> {
    let row = npt_row(&thread.size).filter(|_| thread.system == ThreadSystem::Npt)?;
    let (d, n, l1) = (row.outside_diameter_in, row.threads_per_inch, row.hand_tight_length_in);
    let e0 = d - (0.05 * d + 1.1) / n;
    let l2 = (0.8 * d + 6.8) / n;
    let l3 = 3.0 / n;
    let v = 3.47 / n;
    let five = |x: f64| half_even(x * 1e5) as f64 / 1e5;
    let four = |x: f64| half_even(x * 1e4) as f64 / 1e4;
    Some(Npt {
        row,
        small_end: five(e0),
        small_end_exact: e0,
        hand_tight: five(e0 + l1 / 16.0),
        hand_tight_exact: e0 + l1 / 16.0,
        effective_length: four(l2),
        effective_length_exact: l2,
        effective: five(e0 + l2 / 16.0),
        wrench_length: four(l3),
        wrench: five(e0 - l3 / 16.0),
        vanish_length: four(v),
        overall_length: four(l2 + v),
        full_length: four(l2 - 2.0 / n),
        height: five(0.8 / n),
        small_end_minor: five(e0 - 0.8 / n),
    })
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    #[test]
    fn hard_cells_of_the_table_come_out_as_printed() {
        // ASME B1.20.1, table 2, as reprinted: E1 of 1 1/2, L2 of 3/8 and 2.
        let at = |text: &str| npt(&read(text).unwrap()).unwrap();
        assert_eq!(at("1 1/2-11.5 NPT").hand_tight, 1.82234);
        assert_eq!(at("3/8 NPT").effective_length, 0.4078);
        assert_eq!(at("2 NPT").effective_length, 0.7565);
    }

    #[test]
    fn the_pipe_grows_from_the_small_end_through_the_hand_tight_plane_to_the_effective_end() {
        for row in super::super::npt_rows() {
            let npt = npt(&read(&format!("{} NPT", row.size)).unwrap()).unwrap();
            assert!(npt.wrench < npt.small_end && npt.small_end < npt.hand_tight, "{}", row.size);
            assert!(npt.hand_tight < npt.effective && npt.effective < row.outside_diameter_in, "{}", row.size);
            assert!(npt.full_length < npt.effective_length && npt.effective_length < npt.overall_length);
        }
    }
}
