//! Reads designations of pipe threads (ASME B1.20.1, ISO 228-1, ISO 7-1) and Whitworth threads
//! (BS 84), as the standards write them and as shops do; hands power threads on.

use super::pieces::{Pieces, check_inches, no_such, thread};
use super::power::{acme_thread, trapezoidal_thread};
use super::said::refuse_coarse;
use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::other_series::{
    nearest, npt_rows, parallel_row, parallel_rows, same, taper_rows, whitworth_rows,
};
use crate::reference::threads::size::{decimal, fraction, inch_text, mixed};
use crate::reference::threads::{Provenance, Thread, ThreadSystem};

/// Reads the designation if its letters name one of these systems.
pub(super) fn read(plain: &str) -> Option<Result<Thread, DesignationError>> {
    let words: Vec<String> = plain
        .split(|c: char| !c.is_ascii_alphabetic())
        .filter(|word| !word.is_empty())
        .map(str::to_ascii_uppercase)
        .collect();
    let has = |word: &str| words.iter().any(|one| one == word);
    for (word, reader) in [
        ("NPT", npt as fn(&str, &str) -> Result<Thread, DesignationError>),
        ("ACME", acme_thread),
        ("BSW", whitworth),
        ("BSF", whitworth),
        ("WHITWORTH", whitworth),
        ("WHIT", whitworth),
        ("BSPP", parallel),
        ("BSPF", parallel),
        ("BSPT", which_pipe),
        ("BSP", which_pipe),
    ] {
        if has(word) {
            return Some(reader(plain, word));
        }
    }
    let first = words.first().filter(|_| plain.starts_with(|c: char| c.is_ascii_alphabetic()))?;
    let size_follows = plain
        .trim_start_matches(|c: char| c.is_ascii_alphabetic())
        .trim_start_matches([' ', '-', '.'])
        .starts_with(|c: char| c.is_ascii_digit());
    match (first.as_str(), size_follows) {
        ("G", true) => Some(parallel(plain, "G")),
        ("R" | "RP" | "RC", true) => Some(taper(plain, first)),
        ("TR", true) => Some(trapezoidal_thread(plain)),
        _ => None,
    }
}

/// A row's size as a number.
fn size_of(text: &str) -> f64 {
    match text.split_once(' ') {
        Some((whole, part)) => mixed(decimal(whole).unwrap_or(0.0), fraction(part).unwrap_or(0.0)),
        None => fraction(text).or_else(|| decimal(text)).unwrap_or(0.0),
    }
}

fn one_start(pieces: &Pieces, plain: &str, example: &'static str) -> Result<(), DesignationError> {
    match pieces.starts {
        None | Some(1) => Ok(()),
        Some(_) => {
            let says = format!("`{plain}`: a pipe thread has only one start");
            Err(DesignationError::new(ErrorKind::OutOfRange, says, example))
        }
    }
}

fn npt(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    let mut pieces = Pieces::of(plain, name, "1/4-18 NPT")?;
    let size = pieces.size()?;
    let written = |row: &crate::reference::threads::NptRow| format!("{}-{} NPT", row.size, row.threads_per_inch);
    let of = |row: &crate::reference::threads::NptRow| (size_of(&row.size), 1.0 / row.threads_per_inch, written(row));
    let Some(row) = npt_rows().iter().find(|row| same(size_of(&row.size), size)) else {
        return Err(no_such(plain, "there is no such pipe size", nearest(npt_rows().iter(), of, (size, 0.1))));
    };
    if let Some(count) = pieces.threads_per_inch()?
        && !same(count, row.threads_per_inch)
    {
        return Err(no_such(plain, "this pipe size has another pitch", vec![written(row)]));
    }
    pieces.done()?;
    one_start(&pieces, plain, "1/4-18 NPT")?;
    Ok(Thread {
        threads_per_inch: Some(row.threads_per_inch),
        size: row.size.clone(),
        designation: written(row),
        provenance: Some(Provenance { source: &row.source, trust: &row.trust }),
        ..thread(ThreadSystem::Npt, "NPT", row.outside_diameter_in, 1.0 / row.threads_per_inch, &pieces)
    })
}

/// `BSP` says neither parallel nor taper, `BSPT` neither external nor internal.
fn which_pipe(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    let mut pieces = Pieces::of(plain, name, "G 1/2")?;
    let size = pieces.size().map_or_else(|_| "1/2".to_owned(), inch_text);
    let known = taper_rows().iter().any(|row| row.size == size);
    let size = if known { size } else { "1/2".to_owned() };
    let mut near = vec![format!("R {size}"), format!("Rc {size}"), format!("Rp {size}")];
    if name == "BSP" {
        near.insert(0, format!("G {size}"));
    }
    let says = format!(
        "`{plain}`: say which pipe thread it is. G is parallel and seals on a face; R is taper and external, Rc taper \
         and internal, Rp parallel and internal to take R"
    );
    Err(DesignationError::new(ErrorKind::Ambiguous, says, "").with_nearest(near))
}

fn parallel(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    let mut pieces = Pieces::of(plain, name, "G 1/2")?;
    let size = pieces.size()?;
    let of =
        |row: &crate::reference::threads::ParallelRow| (size_of(&row.size), row.pitch_mm, format!("G {}", row.size));
    let Some(row) = parallel_rows().iter().find(|row| same(size_of(&row.size), size)) else {
        return Err(no_such(plain, "there is no such size", nearest(parallel_rows().iter(), of, (size, 1.8))));
    };
    check_count(&mut pieces, row, plain, &format!("G {}", row.size))?;
    let class = pieces.letter(&["A", "B"])?;
    pieces.done()?;
    one_start(&pieces, plain, "G 1/2")?;
    Ok(Thread {
        threads_per_inch: Some(row.threads_per_inch),
        size: row.size.clone(),
        designation: format!("G {}", row.size),
        external_class: class,
        provenance: Some(Provenance { source: &row.source, trust: &row.trust }),
        ..thread(ThreadSystem::PipeParallel, "G", row.major_mm, row.pitch_mm, &pieces)
    })
}

fn check_count(
    pieces: &mut Pieces,
    row: &crate::reference::threads::ParallelRow,
    plain: &str,
    right: &str,
) -> Result<(), DesignationError> {
    match pieces.threads_per_inch()? {
        Some(count) if !same(count, row.threads_per_inch) => {
            Err(no_such(plain, "this size has another pitch", vec![right.to_owned()]))
        }
        _ => Ok(()),
    }
}

fn taper(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    let series = match name {
        "RP" => "Rp",
        "RC" => "Rc",
        _ => "R",
    };
    let mut pieces = Pieces::of(plain, name, "Rc 1/2")?;
    let size = pieces.size()?;
    let of = |row: &crate::reference::threads::TaperRow| (size_of(&row.size), 1.0, format!("{series} {}", row.size));
    let lengths = taper_rows().iter().find(|row| same(size_of(&row.size), size));
    let Some((lengths, row)) = lengths.and_then(|lengths| Some((lengths, parallel_row(&lengths.size)?))) else {
        return Err(no_such(plain, "ISO 7-1 has no such size", nearest(taper_rows().iter(), of, (size, 1.0))));
    };
    check_count(&mut pieces, row, plain, &format!("{series} {}", row.size))?;
    pieces.done()?;
    one_start(&pieces, plain, "Rc 1/2")?;
    Ok(Thread {
        threads_per_inch: Some(row.threads_per_inch),
        size: row.size.clone(),
        designation: format!("{series} {}", row.size),
        provenance: Some(Provenance { source: &lengths.source, trust: &lengths.trust }),
        ..thread(ThreadSystem::PipeTaper, series, row.major_mm, row.pitch_mm, &pieces)
    })
}

fn whitworth(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    let mut pieces = Pieces::of(plain, name, "1/4-20 BSW")?;
    let size = pieces.size()?;
    let count = pieces.threads_per_inch()?;
    pieces.done()?;
    let any_series = name.starts_with("WHIT");
    let written =
        |row: &crate::reference::threads::WhitworthRow| format!("{}-{} {}", row.size, row.threads_per_inch, row.series);
    let of =
        |row: &crate::reference::threads::WhitworthRow| (row.diameter_in, 1.0 / row.threads_per_inch, written(row));
    let near = || nearest(whitworth_rows().iter(), of, (size, count.map_or(0.12 * size, |count| 1.0 / count)));
    let of_series = |row: &&crate::reference::threads::WhitworthRow| {
        same(row.diameter_in, size)
            && if any_series { count.is_some() || row.series == "BSW" } else { row.series == name }
    };
    let of_count =
        |row: &&crate::reference::threads::WhitworthRow| count.is_none_or(|count| same(row.threads_per_inch, count));
    let row = whitworth_rows().iter().filter(of_series).find(of_count);
    let (diameter, tpi) = match (row, count) {
        (Some(row), _) => (row.diameter_in, row.threads_per_inch),
        (None, Some(count)) if any_series => (size, count),
        (None, None) => return Err(no_such(plain, "the series has no such size", near())),
        (None, Some(_)) => return Err(no_such(plain, "the series has no such size and pitch", near())),
    };
    let read_as = format!("{tpi} threads per inch on {diameter} in");
    check_inches(diameter, plain, "1/4-20 BSW")?;
    refuse_coarse(diameter, 1.2 / tpi, &read_as, plain, "1/4-20 BSW")?;
    let series = row.map_or("Whitworth", |row| row.series.as_str());
    Ok(Thread {
        threads_per_inch: Some(tpi),
        size: row.map_or_else(|| inch_text(diameter), |row| row.size.clone()),
        designation: row.map_or_else(|| format!("{}-{tpi} Whitworth", inch_text(diameter)), written),
        standard: row.is_some(),
        nearest: if row.is_some() { Vec::new() } else { near() },
        provenance: row.map(|row| Provenance { source: &row.source, trust: &row.trust }),
        ..thread(ThreadSystem::Whitworth, series, diameter, 1.0 / tpi, &pieces)
    })
}
