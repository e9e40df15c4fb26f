//! Finds the name of a Unified thread: number size or inches, and the series that its diameter
//! and pitch belong to (ASME B1.1 series lists).

use crate::reference::threads::TO_MINOR_DIAMETER;
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
    /// A fraction, a mixed number or what is said to be inches.
    Inches(f64),
    /// A decimal and its places.
    Decimal(f64, usize),
}

/// A thread with its name.
pub(super) struct Named {
    /// Basic major diameter in inches.
    pub diameter: f64,
    /// Threads per inch.
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

/// The largest size in whole inches.
const LARGEST_INCHES: u32 = 24;

/// The largest number size.
const LARGEST_NUMBER: u32 = 12;

/// At this many threads per inch a bare number up to 12 is a number size: no listed number size
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
        Size::Bare(whole) => bare(whole, tpi, plain)?,
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
                // Bare, it would read back as something else, or be asked about.
                None if !reads_as_inches(diameter, tpi) => format!("{diameter:.3}"),
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
        format!("`{plain}` names no pitch: give the threads per inch after the size"),
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

/// What a bare whole number before the threads per inch can be.
enum Meant {
    /// Inches, or a number size with its number.
    One(f64, Option<u32>),
    /// One of several, each as it is written without doubt.
    Several(Vec<String>),
}

/// A bare whole number: the lists first, then what is possible, and then the number of threads per inch.
fn meant(whole: u32, tpi: f64) -> Meant {
    let (number, inches) = (number_size(whole), f64::from(whole));
    let is_number = whole <= LARGEST_NUMBER;
    if is_number && series::unified(number, tpi).is_some_and(series::UnifiedRow::is_number_size) {
        return Meant::One(number, Some(whole));
    }
    if series::unified(inches, tpi).is_some() {
        return Meant::One(inches, None);
    }
    if is_number && tpi >= NUMBER_SIZE_FROM {
        return Meant::One(number, Some(whole));
    }
    let fraction = fraction_without_bar(whole).and_then(|size| series::unified(size, tpi));
    let number_fits = is_number && TO_MINOR_DIAMETER / tpi <= number / 2.0;
    if fraction.is_none() && !number_fits {
        return Meant::One(inches, None);
    }
    let listed = fraction.map(UnifiedRow::designation);
    let number = number_fits.then(|| format!("#{whole}-{tpi}"));
    let inches = (whole <= LARGEST_INCHES).then(|| format!("{whole}.000-{tpi}"));
    Meant::Several(listed.into_iter().chain(number).chain(inches).collect())
}

/// A bare whole number, or a question where it can be more than one size.
fn bare(whole: u32, tpi: f64, plain: &str) -> Result<(f64, Option<u32>), DesignationError> {
    let several = match meant(whole, tpi) {
        Meant::One(diameter, number) => return Ok((diameter, number)),
        Meant::Several(several) => several,
    };
    let says = format!(
        "`{plain}` is not clear: no list has {whole}-{tpi}. Write {} (# before a number size, a slash in a fraction, a \
         point in whole inches)",
        several.join(" or ")
    );
    Err(DesignationError::new(ErrorKind::Ambiguous, says, "1/4-20 UNC").with_nearest(several))
}

/// A fraction of an inch whose bar was left out: 14 as 1/4, 516 as 5/16.
fn fraction_without_bar(whole: u32) -> Option<f64> {
    let digits = whole.to_string();
    (1..digits.len()).find_map(|at| {
        let (over, under) = digits.split_at(at);
        let (over, under): (u32, u32) = (over.parse().ok()?, under.parse().ok()?);
        let is_fraction = over < under && over % 2 == 1 && [2, 4, 8, 16].contains(&under);
        is_fraction.then(|| f64::from(over) / f64::from(under))
    })
}

/// Whether whole inches may be written bare: neither a number size nor asked about.
fn reads_as_inches(diameter: f64, tpi: f64) -> bool {
    diameter.fract() != 0.0 || matches!(meant(diameter as u32, tpi), Meant::One(_, None))
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
        None => "it is in no series; write UNS for such a thread".to_owned(),
    };
    DesignationError::new(
        ErrorKind::SeriesMismatch,
        format!("`{plain}`: {wanted} has no such thread ({instead}); there are {}", nearest.join(", ")),
        "1/4-20 UNC",
    )
    .with_nearest(nearest)
}
