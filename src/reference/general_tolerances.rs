//! General tolerances for sizes without one of their own, ISO 2768-1, from data/general_tolerances.csv.

use super::{rows_of, source_key};
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// Class of general tolerances in ISO 2768-1: `f` fine, `m` medium, `c` coarse, `v` very coarse.
    GeneralClass {
        /// Fine.
        F = "f" | "fine",
        /// Medium.
        M = "m" | "medium",
        /// Coarse.
        C = "c" | "coarse",
        /// Very coarse.
        V = "v" | "very_coarse",
    }
}

crate::choice! {
    /// What a size is of: `linear` for lengths, diameters and steps, `radius` for outside radii and the heights of chamfers.
    Toleranced {
        /// Lengths, diameters, steps, distances.
        Linear = "linear",
        /// Outside radii and heights of chamfers.
        Radius = "radius",
    }
}

/// One cell of the tables.
#[derive(Debug)]
pub struct GeneralTolerance {
    /// Whether it is of `linear`, `radius` or `angle`.
    pub of: String,
    /// The class.
    pub class: String,
    /// Sizes above this, in meters; the first range of sizes begins with it.
    pub over: f64,
    /// Up to this, in meters; without end if absent.
    pub up_to: Option<f64>,
    /// Plus or minus this: meters, or degrees of an angle.
    pub tolerance: f64,
    /// Key of the source.
    pub source: &'static str,
    /// How far the cell can be relied on.
    pub trust: String,
}

#[derive(Deserialize)]
struct Row {
    of: String,
    class: String,
    over_mm: f64,
    up_to_mm: Option<f64>,
    tolerance: f64,
    unit: String,
    source: String,
    trust: String,
}

static ROWS: LazyLock<Vec<GeneralTolerance>> = LazyLock::new(|| {
    let cell = |row: Row| GeneralTolerance {
        tolerance: if row.unit == "minute" { row.tolerance / 60.0 } else { row.tolerance / 1e3 },
        over: row.over_mm / 1e3,
        up_to: row.up_to_mm.map(|mm| mm / 1e3),
        source: source_key(&row.source),
        of: row.of,
        class: row.class,
        trust: row.trust,
    };
    rows_of(include_str!("../../data/general_tolerances.csv")).map(cell).collect()
});

/// The cells of one table and class, smallest sizes first.
pub fn cells(of: &'static str, class: GeneralClass) -> impl Iterator<Item = &'static GeneralTolerance> {
    ROWS.iter().filter(move |row| row.of == of && row.class == class.as_str())
}

/// The cell for a size in meters, if the table has one.
pub fn cell(of: &'static str, class: GeneralClass, size: f64) -> Option<&'static GeneralTolerance> {
    // Whole nanometers, so that 3 mm given in inches is still 3 mm.
    let nanometers = |meters: f64| (meters * 1e9).round();
    let size = nanometers(size);
    cells(of, class).find(|row| {
        let first = row.over == 0.0005;
        let above = size > nanometers(row.over) || (first && size == nanometers(row.over));
        above && row.up_to.is_none_or(|most| size <= nanometers(most))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_ends_with_its_greatest_size() {
        let of = |class, mm: f64| cell("linear", class, mm / 1e3).map(|row| row.tolerance * 1e3);
        assert_eq!(of(GeneralClass::M, 0.5), Some(0.1));
        assert_eq!(of(GeneralClass::M, 6.0), Some(0.1));
        assert_eq!(of(GeneralClass::M, 6.001), Some(0.2));
        assert_eq!(of(GeneralClass::F, 2000.1), None);
        assert_eq!(of(GeneralClass::V, 3.0), None);
        assert_eq!(cell("angle", GeneralClass::C, 0.01).map(|row| row.tolerance), Some(1.5));
        assert_eq!(cell("radius", GeneralClass::V, 5.0).map(|row| row.tolerance), Some(0.002));
    }
}
