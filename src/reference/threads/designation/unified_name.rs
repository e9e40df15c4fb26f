//! Finds the name of a Unified thread: number size or inches, and the series that its diameter
//! and pitch belong to (ASME B1.1 series lists).

use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::series::{self, UnifiedRow};
use crate::reference::threads::size::{inch_text, number_size};

/// A size as it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Size {
    /// `#10`: the number and its diameter.
    Number(u32, f64),
    /// `10`: a number size or inches, by the lists and the pitch.
    Bare(u32),
    /// A fraction, a mixed number or whole inches above 12.
    Inches(f64),
    /// A decimal and its places.
    Decimal(f64, usize),
}

/// A thread with its name.
pub(super) struct Named {
    /// Basic major diameter in inches.
    pub diameter: f64,
    /// Threads in one inch.
    pub threads_per_inch: f64,
    /// Size as written in a designation.
    pub size: String,
    /// Series.
    pub series: String,
    /// Size, pitch and series.
    pub designation: String,
    /// For a bare number taken as a number size: how to write whole inches instead.
    pub in_inches: Option<String>,
    /// The row of the list, if it is in one.
    pub row: Option<&'static UnifiedRow>,
}

/// At this many threads an inch a bare number up to 12 is a number size: no listed number size
/// is coarser, and hardly any thread of whole inches is finer.
const NUMBER_SIZE_FROM: f64 = 24.0;

/// Names a size with a pitch, checking the series if one was written.
pub(super) fn with_pitch(
    size_written: &Size,
    tpi: f64,
    series: Option<&str>,
    plain: &str,
) -> Result<Named, DesignationError> {
    let (diameter, number) = match *size_written {
        Size::Number(number, diameter) => (diameter, Some(number)),
        Size::Inches(diameter) => (diameter, None),
        Size::Bare(whole) => bare(whole, tpi),
        Size::Decimal(value, places) => (listed_decimal(value, places, tpi), None),
    };
    let row = series::unified(diameter, tpi);
    if let Some(wanted) = series
        && !belongs(row, diameter, tpi, wanted)
    {
        return Err(mismatch(diameter, tpi, row, wanted, plain));
    }
    Ok(match row {
        Some(row) => listed(row),
        None => {
            let size = match number {
                Some(number) => format!("#{number}"),
                // Bare, it would read back as a number size.
                None if is_whole_to_12(diameter) && tpi >= NUMBER_SIZE_FROM => {
                    format!("{diameter:.3}")
                }
                None => inch_text(diameter),
            };
            let in_inches = match *size_written {
                Size::Bare(whole) if whole > 0 => Some(format!("{whole}.000-{tpi}")),
                _ => None,
            };
            Named {
                diameter,
                threads_per_inch: tpi,
                designation: format!("{size}-{tpi} UNS"),
                size,
                series: "UNS".to_owned(),
                in_inches,
                row: None,
            }
        }
    })
}

/// Names a size without a pitch: only a series that has one pitch for the size will do.
pub(super) fn without_pitch(size: &Size, series: Option<&str>, plain: &str) -> Result<Named, DesignationError> {
    let is_size = |row: &UnifiedRow| match *size {
        Size::Number(_, diameter) | Size::Inches(diameter) | Size::Decimal(diameter, _) => {
            (row.diameter_in - diameter).abs() < 1e-6
        }
        Size::Bare(whole) if row.is_number_size() => (row.diameter_in - number_size(whole)).abs() < 1e-6,
        Size::Bare(whole) => (row.diameter_in - f64::from(whole)).abs() < 1e-6,
    };
    let of_size: Vec<_> = series::primary_rows().filter(|row| is_size(row)).collect();
    let fitting: Vec<_> = of_size.iter().filter(|row| series.is_some_and(|wanted| row.series == wanted)).collect();
    if let [row] = fitting[..] {
        return Ok(listed(row));
    }
    let choice = if fitting.is_empty() {
        of_size.iter().map(|row| row.designation()).collect()
    } else {
        fitting.iter().map(|row| row.designation()).collect()
    };
    Err(DesignationError::new(
        ErrorKind::PitchMissing,
        format!("`{plain}` names no pitch: give the threads an inch after the size"),
        "1/4-20 UNC",
    )
    .with_nearest(choice))
}

fn listed(row: &'static UnifiedRow) -> Named {
    Named {
        diameter: row.diameter_in,
        threads_per_inch: row.threads_per_inch,
        size: row.size_text(),
        series: row.series.clone(),
        designation: row.designation(),
        in_inches: None,
        row: Some(row),
    }
}

/// A bare whole number: the lists first, then the number of threads an inch.
fn bare(whole: u32, tpi: f64) -> (f64, Option<u32>) {
    let (as_number, as_inches) = (number_size(whole), f64::from(whole));
    let is_number = match (series::unified(as_number, tpi), series::unified(as_inches, tpi)) {
        (Some(row), _) => row.is_number_size(),
        (None, Some(_)) => false,
        (None, None) => tpi >= NUMBER_SIZE_FROM,
    };
    if is_number { (as_number, Some(whole)) } else { (as_inches, None) }
}

fn is_whole_to_12(diameter: f64) -> bool {
    diameter.fract() == 0.0 && diameter <= 12.0
}

/// A decimal of three places or more stands for the listed size of that pitch that it is the
/// rounded value of (`.313` for 5/16); any other is taken as it is.
fn listed_decimal(value: f64, places: usize, tpi: f64) -> f64 {
    if places < 3 {
        return value;
    }
    let half_a_place = 0.5 * 0.1_f64.powi(places.min(9) as i32) + 1e-9;
    series::primary_rows()
        .filter(|row| (row.threads_per_inch - tpi).abs() < 1e-6)
        .map(|row| row.diameter_in)
        .find(|listed| (listed - value).abs() <= half_a_place)
        .unwrap_or(value)
}

/// True if the written series is a right name for the combination.
fn belongs(row: Option<&UnifiedRow>, diameter: f64, tpi: f64, wanted: &str) -> bool {
    match (row, wanted) {
        (Some(_), "UN") => series::is_also_constant_pitch(diameter, tpi),
        (Some(row), _) => row.series == wanted,
        // UNS is any combination outside the series.
        (None, _) => wanted == "UNS",
    }
}

fn mismatch(diameter: f64, tpi: f64, row: Option<&UnifiedRow>, wanted: &str, plain: &str) -> DesignationError {
    let in_series = |row: &&UnifiedRow| match wanted {
        "UN" => row.series.ends_with("-UN"),
        _ => row.series == wanted,
    };
    let mut nearest: Vec<String> = series::primary_rows()
        .filter(|row| (row.diameter_in - diameter).abs() < 1e-6)
        .filter(in_series)
        .map(UnifiedRow::designation)
        .take(2)
        .collect();
    let neighbours = series::nearest_unified(diameter, tpi, 2);
    for name in row.map(UnifiedRow::designation).into_iter().chain(neighbours) {
        if nearest.len() < 2 && !nearest.contains(&name) {
            nearest.push(name);
        }
    }
    let instead = match row {
        Some(row) => format!("it is {}", row.series),
        None => "it is in no series, and such a thread is written UNS".to_owned(),
    };
    DesignationError::new(
        ErrorKind::SeriesMismatch,
        format!("`{plain}`: {wanted} has no such thread ({instead}); there are {}", nearest.join(", ")),
        "1/4-20 UNC",
    )
    .with_nearest(nearest)
}
