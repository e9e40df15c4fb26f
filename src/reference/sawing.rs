//! By how much a band saw's speed changes with the section cut, from data/saw_section_factors.csv.

use super::rows_of;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
struct Row {
    section_in: f64,
    percent: f64,
}

static ROWS: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows_of(include_str!("../../data/saw_section_factors.csv")).collect());

/// The change in percent for a section in meters, linear between the rows of the table, and whether
/// the section lies outside them, where the nearest row is taken.
pub fn section_change(section: f64) -> (f64, bool) {
    let inches = section / 0.0254;
    let (first, last) = (&ROWS[0], &ROWS[ROWS.len() - 1]);
    if inches <= first.section_in {
        return (first.percent, inches < first.section_in * (1.0 - 1e-9));
    }
    if inches >= last.section_in {
        return (last.percent, inches > last.section_in * (1.0 + 1e-9));
    }
    let at = ROWS.partition_point(|row| row.section_in <= inches);
    let (below, above) = (&ROWS[at - 1], &ROWS[at]);
    let share = (inches - below.section_in) / (above.section_in - below.section_in);
    (below.percent + share * (above.percent - below.percent), false)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is(got: (f64, bool), percent: f64, beyond: bool) {
        assert!((got.0 - percent).abs() < 1e-9 && got.1 == beyond, "{got:?}, not {percent}");
    }

    #[test]
    fn a_thin_section_is_sawn_faster_than_a_thick_one() {
        is(section_change(0.25 * 0.0254), 15.0, false);
        is(section_change(4.0 * 0.0254), 0.0, false);
        is(section_change(6.0 * 0.0254), -6.0, false);
        is(section_change(1.0), -12.0, true);
    }
}
