//! The lists of standard threads: Unified series (ASME B1.1) and metric series (ISO 261),
//! from data/unified_series.csv and data/metric_series.csv.

use std::sync::LazyLock;

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// One row of the Unified series.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct UnifiedRow {
    /// Size as the table writes it, `No. 10` or `1 1/4`.
    pub size: String,
    /// Basic major diameter in inches.
    pub diameter_in: f64,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// `UNC`, `UNF`, `UNEF`, `UNS`, or a constant-pitch series such as `8-UN`.
    pub series: String,
    /// The series whose name and tolerances this combination takes, if it belongs to one.
    pub same_thread_as: Option<String>,
    /// `D` or `9P`: the length of engagement that the printed tolerances are for.
    pub engagement: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// One row of the metric series.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct MetricRow {
    /// Designation as ISO 261 writes it, `M8` or `M8x1`.
    pub designation: String,
    /// Basic major diameter in millimeters.
    pub diameter_mm: f64,
    /// Pitch in millimeters.
    pub pitch_mm: f64,
    /// `coarse` or `fine`.
    pub series: String,
    /// First, second or third choice of diameter.
    pub choice: u8,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

static UNIFIED: LazyLock<Vec<UnifiedRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/unified_series.csv")));
static METRIC: LazyLock<Vec<MetricRow>> = LazyLock::new(|| read_table(include_str!("../../../data/metric_series.csv")));

/// Reads a table that is compiled in; a table that does not read is a fault of the build, and
/// a test reads each of them.
pub(super) fn read_table<T: DeserializeOwned>(text: &str) -> Vec<T> {
    csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .collect::<Result<_, _>>()
        .expect("a compiled-in thread table reads")
}

/// All rows of the Unified series.
pub fn unified_rows() -> &'static [UnifiedRow] {
    &UNIFIED
}

/// All rows of the metric series.
pub fn metric_rows() -> &'static [MetricRow] {
    &METRIC
}

impl UnifiedRow {
    /// The size as a designation writes it: `#10` or `1 1/4`.
    pub fn size_text(&self) -> String {
        match number_of(&self.size) {
            Some(number) => format!("#{number}"),
            None => self.size.clone(),
        }
    }

    /// `1/4-20 UNC`; constant-pitch series are written `UN`, since the pitch stands before it.
    pub fn designation(&self) -> String {
        let series = if self.series.ends_with("-UN") { "UN" } else { &self.series };
        format!("{}-{} {series}", self.size_text(), self.threads_per_inch)
    }

    /// True for a number size, whose diameter is 0.060 in + 0.013 in for each number.
    pub fn is_number_size(&self) -> bool {
        number_of(&self.size).is_some()
    }

    fn fits(&self, diameter: f64, threads_per_inch: f64) -> bool {
        (self.diameter_in - diameter).abs() < 1e-6 && (self.threads_per_inch - threads_per_inch).abs() < 1e-6
    }
}

fn number_of(size: &str) -> Option<&str> {
    size.strip_prefix('#').or_else(|| size.strip_prefix("No.")).map(str::trim)
}

/// The row of a diameter and pitch under the name that its tolerances go by.
pub fn unified(diameter: f64, threads_per_inch: f64) -> Option<&'static UnifiedRow> {
    primary_rows().find(|row| row.fits(diameter, threads_per_inch))
}

/// The row of a metric diameter and pitch.
pub fn metric(diameter: f64, pitch: f64) -> Option<&'static MetricRow> {
    METRIC.iter().find(|row| (row.diameter_mm - diameter).abs() < 1e-6 && (row.pitch_mm - pitch).abs() < 1e-6)
}

/// Unified rows, each combination once.
pub fn primary_rows() -> impl Iterator<Item = &'static UnifiedRow> {
    UNIFIED.iter().filter(|row| row.same_thread_as.is_none())
}

/// True if a constant-pitch series of this name holds the combination, though its tolerances go
/// by another name (a 1-8 thread is both UNC and 8-UN).
pub fn is_also_constant_pitch(diameter: f64, threads_per_inch: f64) -> bool {
    UNIFIED.iter().any(|row| row.series.ends_with("-UN") && row.fits(diameter, threads_per_inch))
}

/// Designations of the Unified threads nearest to a combination that is in no list.
pub fn nearest_unified(diameter: f64, threads_per_inch: f64, count: usize) -> Vec<String> {
    let mut rows: Vec<_> = primary_rows()
        .map(|row| {
            let far = distance(row.diameter_in, diameter, row.threads_per_inch, threads_per_inch);
            (far, row)
        })
        .collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    rows.into_iter().take(count).map(|(_, row)| row.designation()).collect()
}

/// Designations of the metric threads nearest to a combination that is in no list.
pub fn nearest_metric(diameter: f64, pitch: f64, count: usize) -> Vec<String> {
    let mut rows: Vec<_> =
        METRIC.iter().map(|row| (distance(row.diameter_mm, diameter, row.pitch_mm, pitch), row)).collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    rows.into_iter().take(count).map(|(_, row)| row.designation.clone()).collect()
}

/// Designations of the coarse threads whose diameter is nearest, the nearest first.
pub fn nearest_metric_sizes(diameter: f64, count: usize) -> Vec<String> {
    let mut rows: Vec<_> = METRIC.iter().filter(|row| row.series == "coarse").collect();
    rows.sort_by(|a, b| (a.diameter_mm - diameter).abs().total_cmp(&(b.diameter_mm - diameter).abs()));
    rows.into_iter().take(count).map(|row| row.designation.clone()).collect()
}

/// A wrong diameter matters more than a wrong pitch to whoever looks for a neighbor.
fn distance(diameter: f64, wanted_diameter: f64, pitch: f64, wanted_pitch: f64) -> f64 {
    8.0 * (diameter / wanted_diameter).ln().abs() + (pitch / wanted_pitch).ln().abs()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_that_takes_another_name_has_the_row_it_names() {
        for row in unified_rows() {
            if let Some(name) = &row.same_thread_as {
                let main = unified(row.diameter_in, row.threads_per_inch).expect("a main row");
                assert_eq!(&main.series, name, "{}", row.designation());
                assert_eq!(main.engagement, row.engagement, "{}", row.designation());
            }
        }
    }

    #[test]
    fn no_combination_stands_twice_under_its_own_name() {
        let rows: Vec<_> = primary_rows().collect();
        for (i, a) in rows.iter().enumerate() {
            for b in &rows[i + 1..] {
                assert!(!a.fits(b.diameter_in, b.threads_per_inch), "{}", a.designation());
            }
        }
        for (i, a) in metric_rows().iter().enumerate() {
            for b in &metric_rows()[i + 1..] {
                assert_ne!(a.designation, b.designation);
            }
        }
    }

    #[test]
    fn a_number_size_is_sixty_thousandths_and_thirteen_for_each_number() {
        // ASME B1.1: basic major diameter of the numbered sizes.
        for row in unified_rows() {
            if let Some(number) = number_of(&row.size) {
                let number: f64 = number.parse().expect("a whole number");
                assert!((row.diameter_in - (0.060 + 0.013 * number)).abs() < 1e-9);
            }
        }
    }
}
