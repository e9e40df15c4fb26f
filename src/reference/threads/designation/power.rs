//! Reads designations of power threads: Acme (ASME B1.5) and metric trapezoidal (ISO 2904), as the
//! standards write them and as shops do.

use super::pieces::{Pieces, check_inches, no_such, thread};
use super::said::{refuse_coarse, said_twice, starts};
use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::other_series::{acme_rows, nearest, same, trapezoidal_rows};
use crate::reference::threads::size::{inch_text, mixed};
use crate::reference::threads::{Provenance, Thread, ThreadSystem, acme, trapezoidal};

pub(super) fn acme_thread(plain: &str, name: &str) -> Result<Thread, DesignationError> {
    const EXAMPLE: &str = "1-5 Acme";
    let mut pieces = Pieces::of(plain, name, EXAMPLE)?;
    let size = pieces.size()?;
    let from_pitch = pieces.number_before("P").map(|pitch| mixed(0.0, 1.0 / pitch.max(1e-3)));
    let lead = pieces.number_before("L");
    let count = match from_pitch {
        Some(count) => Some(count),
        None => pieces.threads_per_inch()?,
    };
    let mut classes = Vec::new();
    for said in pieces.classes() {
        match acme::read_class(&said) {
            Some(class) => classes.push(class.to_owned()),
            None => {
                let says = format!(
                    "`{plain}`: `{said}` is not a class of general purpose Acme threads; those are 2G, 3G and 4G. \
                     Centralizing threads are not offered"
                );
                return Err(DesignationError::new(ErrorKind::ClassUnknown, says, "1-5 Acme-2G"));
            }
        }
    }
    pieces.done()?;
    let written = |row: &crate::reference::threads::AcmeRow| format!("{}-{} Acme", row.size, row.threads_per_inch);
    let of = |row: &crate::reference::threads::AcmeRow| (row.diameter_in, 1.0 / row.threads_per_inch, written(row));
    let row = acme_rows()
        .iter()
        .find(|row| same(row.diameter_in, size) && count.is_none_or(|count| same(row.threads_per_inch, count)));
    let tpi = match (row, count) {
        (Some(row), _) => row.threads_per_inch,
        (None, Some(count)) => count,
        (None, None) => {
            let near = nearest(acme_rows().iter(), of, (size, 0.2 * size));
            return Err(no_such(plain, "no standard Acme thread has this size", near));
        }
    };
    check_inches(size, plain, EXAMPLE)?;
    let pitch = 1.0 / tpi;
    refuse_coarse(size, pitch, &format!("{tpi} threads per inch on {size} in"), plain, EXAMPLE)?;
    let starts = match lead {
        None => pieces.starts.unwrap_or(1),
        Some(lead) => starts_of(lead, pitch, pieces.starts, plain, EXAMPLE)?,
    };
    let (internal, external) = match classes.as_slice() {
        [] => (None, None),
        [both] => (Some(both.clone()), Some(both.clone())),
        [internal, external] => (Some(internal.clone()), Some(external.clone())),
        _ => return Err(said_twice("a class", plain, EXAMPLE)),
    };
    Ok(Thread {
        threads_per_inch: Some(tpi),
        size: row.map_or_else(|| inch_text(size), |row| row.size.clone()),
        designation: row.map_or_else(|| format!("{}-{tpi} Acme", inch_text(size)), written),
        external_class: external,
        internal_class: internal,
        starts,
        standard: row.is_some(),
        nearest: if row.is_some() { Vec::new() } else { nearest(acme_rows().iter(), of, (size, pitch)) },
        provenance: row.map(|row| Provenance { source: &row.source, trust: &row.trust }),
        ..thread(ThreadSystem::Acme, "Acme", size, pitch, &pieces)
    })
}

fn starts_of(
    lead: f64,
    pitch: f64,
    said: Option<u32>,
    plain: &str,
    example: &'static str,
) -> Result<u32, DesignationError> {
    let count = starts((lead / pitch).round(), plain, example)?;
    if (lead / pitch - f64::from(count)).abs() > 1e-6 || said.is_some_and(|said| said != count) {
        let says = format!("`{plain}`: the lead is the pitch times the number of starts");
        return Err(DesignationError::new(ErrorKind::Ambiguous, says, example));
    }
    Ok(count)
}

pub(super) fn trapezoidal_thread(plain: &str) -> Result<Thread, DesignationError> {
    const EXAMPLE: &str = "Tr20x4";
    let mut pieces = Pieces::of(plain, "Tr", EXAMPLE)?;
    let size = pieces.size()?;
    let rows = || trapezoidal_rows().iter();
    let of = |row: &crate::reference::threads::TrapezoidalRow| (row.diameter_mm, row.pitch_mm, row.designation.clone());
    let said = if pieces.word("x") { pieces.number().filter(|pitch| *pitch > 0.0) } else { None };
    let Some(said) = said else {
        let mut near: Vec<String> =
            rows().filter(|row| same(row.diameter_mm, size)).map(|row| row.designation.clone()).collect();
        if near.is_empty() {
            near = nearest(rows(), of, (size, 0.2 * size));
        }
        let says = format!("`{plain}` names no pitch: give Tr with diameter and pitch");
        return Err(DesignationError::new(ErrorKind::PitchMissing, says, EXAMPLE).with_nearest(near));
    };
    let (pitch, starts) = if pieces.word("P") {
        let pitch = pieces.size()?;
        (pitch, starts_of(said, pitch, pieces.starts, plain, "Tr40x14P7")?)
    } else {
        (said, pieces.starts.unwrap_or(1))
    };
    let (mut external, mut internal) = (None, None);
    for class in pieces.classes() {
        let Some(class) = trapezoidal::read_class(&class) else {
            let says = format!(
                "`{plain}`: `{class}` is not a class of ISO 2903; screws have {}, nuts {}",
                trapezoidal::EXTERNAL.join(", "),
                trapezoidal::INTERNAL.join(", ")
            );
            return Err(DesignationError::new(ErrorKind::ClassUnknown, says, "Tr20x4-7e"));
        };
        let place = if trapezoidal::INTERNAL.contains(&class) { &mut internal } else { &mut external };
        if place.replace(class.to_owned()).is_some() {
            return Err(said_twice("a class", plain, EXAMPLE));
        }
    }
    pieces.done()?;
    if !(2.0..=1000.0).contains(&size) || !(0.5..=50.0).contains(&pitch) {
        let says = format!("`{plain}`: give a diameter from 2 to 1000 mm and a pitch from 0.5 to 50 mm");
        return Err(DesignationError::new(ErrorKind::OutOfRange, says, EXAMPLE));
    }
    refuse_coarse(size, pitch, &format!("pitch {pitch} mm on {size} mm"), plain, EXAMPLE)?;
    let row = rows().find(|row| same(row.diameter_mm, size) && same(row.pitch_mm, pitch));
    Ok(Thread {
        size: format!("Tr{size}"),
        designation: row.map_or_else(|| format!("Tr{size}x{pitch}"), |row| row.designation.clone()),
        external_class: external,
        internal_class: internal,
        starts,
        standard: row.is_some(),
        nearest: if row.is_some() { Vec::new() } else { nearest(rows(), of, (size, pitch)) },
        provenance: row.map(|row| Provenance { source: &row.source, trust: &row.trust }),
        ..thread(ThreadSystem::Trapezoidal, "Tr", size, pitch, &pieces)
    })
}
