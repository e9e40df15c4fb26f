//! Metric tolerances and deviations (ISO 965-1): grade 6 from data/metric_tolerances.csv, other
//! grades a fixed number of R40 steps away, and the standard's formula for a cell in no table.

use std::sync::LazyLock;

use serde::Deserialize;

use super::Provenance;
use super::rounding::half_even;
use super::series::read_table;

#[derive(Debug, Deserialize)]
struct Row {
    quantity: String,
    diameter_over_mm: Option<f64>,
    diameter_up_to_mm: Option<f64>,
    pitch_mm: f64,
    value_um: i64,
    source: String,
    trust: String,
}

#[derive(Debug, Deserialize)]
struct R40 {
    value: i64,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| read_table(include_str!("../../../data/metric_tolerances.csv")));
/// The forty preferred numbers of one decade, 100 to 950.
static PREFERRED: LazyLock<Vec<i64>> = LazyLock::new(|| {
    read_table::<R40>(include_str!("../../../data/preferred_numbers_r40.csv"))
        .into_iter()
        .map(|row| row.value)
        .collect()
});

/// Diameter ranges of the pitch diameter tolerance, over and up to, in mm.
const RANGES: [(f64, f64); 9] = [
    (0.99, 1.4),
    (1.4, 2.8),
    (2.8, 5.6),
    (5.6, 11.2),
    (11.2, 22.4),
    (22.4, 45.0),
    (45.0, 90.0),
    (90.0, 180.0),
    (180.0, 355.0),
];

/// A value in micrometers and where it is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// The value in µm.
    pub um: i64,
    /// Where the table value is from; absent where the formula was used.
    pub provenance: Option<Provenance>,
}

/// True where ISO 965-1 has tolerances at all: over 0.99 up to 355 mm, pitch 0.2 to 8 mm.
pub fn is_covered(diameter: f64, pitch: f64) -> bool {
    diameter > 0.99 && diameter <= 355.0 && (0.2..=8.0).contains(&pitch)
}

/// Grades of the external pitch diameter at a pitch; crests take those of 4, 6 and 8.
pub fn external_grades(pitch: f64) -> &'static [u8] {
    match pitch {
        p if p < 0.35 => &[3, 4, 5, 6],
        p if p < 0.8 => &[3, 4, 5, 6, 7],
        _ => &[3, 4, 5, 6, 7, 8, 9],
    }
}

/// Grades of the internal pitch and minor diameters at a pitch.
pub fn internal_grades(pitch: f64) -> &'static [u8] {
    match pitch {
        p if p < 0.25 => &[4],
        p if p < 0.3 => &[4, 5],
        p if p < 0.5 => &[4, 5, 6],
        p if p < 0.8 => &[4, 5, 6, 7],
        _ => &[4, 5, 6, 7, 8],
    }
}

/// Pitch diameter tolerance of an external thread, grade 6.
pub fn external_pitch_grade_6(diameter: f64, pitch: f64) -> Cell {
    let (over, up_to) = RANGES.into_iter().find(|(_, up_to)| diameter <= *up_to).unwrap_or(RANGES[RANGES.len() - 1]);
    table("Td2", Some(over), Some(up_to), pitch).unwrap_or_else(|| {
        let mean = (over * up_to).sqrt();
        by_formula(90.0 * pitch.powf(0.4) * mean.powf(0.1))
    })
}

/// Minor diameter tolerance of an internal thread, grade 6.
pub fn internal_minor_grade_6(pitch: f64) -> Cell {
    table("TD1", None, None, pitch).unwrap_or_else(|| {
        by_formula(if pitch < 1.0 { 433.0 * pitch - 190.0 * pitch.powf(1.22) } else { 230.0 * pitch.powf(0.7) })
    })
}

/// Major diameter tolerance of an external thread, grade 6.
pub fn external_major_grade_6(pitch: f64) -> Cell {
    table("Td", None, None, pitch).unwrap_or_else(|| by_formula(180.0 * pitch.powf(2.0 / 3.0) - 3.15 / pitch.sqrt()))
}

/// Distance of a position's zone from the basic profile, as a positive number of µm; absent for
/// a position that has no value at this pitch.
pub fn deviation(position: char, pitch: f64) -> Option<Cell> {
    match position {
        'h' | 'H' => Some(Cell { um: 0, provenance: None }),
        'g' | 'G' => table("es_g", None, None, pitch).or_else(|| Some(by_formula(15.0 + 11.0 * pitch))),
        'f' => table("es_f", None, None, pitch),
        'e' => table("es_e", None, None, pitch),
        _ => None,
    }
}

/// R40 steps from the grade-6 cell of the external pitch diameter, also to the internal one.
pub fn pitch_steps(grade: u8, internal: bool) -> i64 {
    let from_six = 4 * (i64::from(grade) - 6);
    match (grade, internal) {
        (_, true) => from_six + 5,
        (3, false) => -12,
        (_, false) => from_six,
    }
}

/// R40 steps from the grade-6 cell of a crest diameter.
pub fn crest_steps(grade: u8) -> i64 {
    4 * (i64::from(grade) - 6)
}

/// Moves a tolerance along the R40 series and rounds it to whole µm, ties to even.
pub fn step(um: i64, steps: i64) -> i64 {
    half_even(preferred(nearest_place(um as f64) + steps))
}

fn table(quantity: &str, over: Option<f64>, up_to: Option<f64>, pitch: f64) -> Option<Cell> {
    ROWS.iter()
        .find(|row| {
            row.quantity == quantity
                && row.diameter_over_mm == over
                && row.diameter_up_to_mm == up_to
                && (row.pitch_mm - pitch).abs() < 1e-9
        })
        .map(|row| Cell { um: row.value_um, provenance: Some(Provenance { source: &row.source, trust: &row.trust }) })
}

fn by_formula(um: f64) -> Cell {
    Cell { um: half_even(preferred(nearest_place(um))), provenance: None }
}

/// The preferred number at a place; place 0 is 1 µm, 40 is 10 µm.
fn preferred(place: i64) -> f64 {
    let mantissa = PREFERRED[place.rem_euclid(40) as usize] as f64;
    mantissa * 10_f64.powi(place.div_euclid(40) as i32) / 100.0
}

/// Place of the arithmetically nearest preferred number.
fn nearest_place(um: f64) -> i64 {
    let guess = (40.0 * um.log10()).round() as i64;
    (guess - 2..=guess + 2)
        .min_by(|a, b| (preferred(*a) - um).abs().total_cmp(&(preferred(*b) - um).abs()))
        .unwrap_or(guess)
}

#[cfg(test)]
mod tests {
    use super::super::series::metric_rows;
    use super::*;

    #[test]
    fn the_preferred_numbers_are_a_rising_decade_of_forty() {
        assert_eq!(PREFERRED.len(), 40);
        assert!(PREFERRED.windows(2).all(|w| w[0] < w[1]));
        assert_eq!((PREFERRED[0], PREFERRED[39]), (100, 950));
    }

    #[test]
    fn other_grades_are_steps_and_not_products() {
        // Machinery's Handbook, 31st ed., p. 2025, external pitch diameter, over 2.8 up to
        // 5.6 mm, pitch 0.5: grades 3 to 7.
        let six = external_pitch_grade_6(4.0, 0.5).um;
        let row: Vec<i64> = [3, 4, 5, 6, 7].into_iter().map(|grade| step(six, pitch_steps(grade, false))).collect();
        assert_eq!(row, [38, 48, 60, 75, 95]);
        // The same table, over 5.6 up to 11.2 mm, pitch 1.5: grades 8 and 9.
        let six = external_pitch_grade_6(10.0, 1.5).um;
        assert_eq!(step(six, pitch_steps(8, false)), 212);
        assert_eq!(step(six, pitch_steps(9, false)), 265);
    }

    #[test]
    fn internal_pitch_tolerances_follow_from_the_external_ones() {
        // Machinery's Handbook, 31st ed., p. 2025, internal pitch diameter, over 90 up to
        // 180 mm, pitch 6: grades 4 to 8.
        let six = external_pitch_grade_6(100.0, 6.0).um;
        let row: Vec<i64> = (4..=8).map(|grade| step(six, pitch_steps(grade, true))).collect();
        assert_eq!(row, [250, 315, 400, 500, 630]);
    }

    #[test]
    fn every_listed_metric_thread_has_its_tolerances_in_the_table() {
        for row in metric_rows() {
            let (d, p) = (row.diameter_mm, row.pitch_mm);
            let cells = [
                external_pitch_grade_6(d, p),
                internal_minor_grade_6(p),
                external_major_grade_6(p),
                deviation('g', p).unwrap(),
            ];
            assert!(cells.iter().all(|c| c.provenance.is_some()), "{}", row.designation);
        }
    }
}
