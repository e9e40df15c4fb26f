//! Roughness grade numbers N1 to N12 with their Ra, and what Ra the usual processes leave, from data/surface_grades.csv
//! and data/surface_processes.csv.

use super::rows_of;
use serde::Deserialize;
use std::sync::LazyLock;

/// One grade.
#[derive(Debug, Deserialize)]
pub struct GradeRow {
    /// Its name, `N7`.
    pub grade: String,
    /// Ra in micrometers.
    pub ra_um: f64,
    /// Ra in microinches, as it is paired; not an exact conversion.
    pub ra_uin: f64,
    /// Key of the source.
    pub source: String,
    /// How far the row can be relied on.
    pub trust: String,
}

impl GradeRow {
    /// Ra in meters.
    pub fn ra(&self) -> f64 {
        self.ra_um / 1e6
    }

    /// The greater of its two paired values, in meters: a surface that has either is of the grade.
    pub fn most(&self) -> f64 {
        self.ra().max(self.ra_uin * 0.0254 / 1e6)
    }
}

/// What a process usually leaves.
#[derive(Debug, Deserialize)]
pub struct ProcessRow {
    /// The process.
    pub process: String,
    /// The finest Ra it usually leaves, in micrometers.
    pub finest_um: f64,
    /// The roughest, in micrometers.
    pub roughest_um: f64,
    /// Key of the source.
    pub source: String,
    /// How far the row can be relied on.
    pub trust: String,
}

static GRADES: LazyLock<Vec<GradeRow>> =
    LazyLock::new(|| rows_of(include_str!("../../data/surface_grades.csv")).collect());
static PROCESSES: LazyLock<Vec<ProcessRow>> =
    LazyLock::new(|| rows_of(include_str!("../../data/surface_processes.csv")).collect());

/// Every grade, finest first.
pub fn grades() -> &'static [GradeRow] {
    &GRADES
}

/// The grade nearest to an Ra in meters, by ratio; of two equally near the finer.
pub fn nearest(ra: f64) -> &'static GradeRow {
    let off = |row: &GradeRow| ((ra / row.ra()).ln().abs() * 1e9).round();
    let near = GRADES.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    near.unwrap_or(&GRADES[0])
}

/// The processes whose usual range holds an Ra in meters; the ends count, also as they are paired in the other system.
pub fn processes(ra: f64) -> impl Iterator<Item = &'static ProcessRow> {
    let um = ra * 1e6;
    PROCESSES.iter().filter(move |row| row.finest_um * 0.98 <= um && um <= row.roughest_um * 1.02)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_values_of_a_grade_are_within_two_percent() {
        assert_eq!(grades().len(), 12);
        for row in grades() {
            assert!((row.ra_uin * 0.0254 / row.ra_um - 1.0).abs() < 0.02, "{row:?}");
        }
    }

    #[test]
    fn the_nearest_is_by_ratio_and_the_finer_of_two() {
        assert_eq!(nearest(1.6e-6).grade, "N7");
        assert_eq!(nearest(63.0 * 2.54e-8).grade, "N7");
        assert_eq!(nearest((1.6f64 * 3.2).sqrt() * 1e-6).grade, "N7");
        assert!(processes(0.1e-6).any(|row| row.process == "grinding"));
        assert!(!processes(0.1e-6).any(|row| row.process == "drilling"));
    }
}
