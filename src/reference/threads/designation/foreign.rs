//! Threads of other standards, recognized by their letters so that they are refused as what
//! they are and not as a spelling mistake.

use crate::reference::threads::error::{DesignationError, ErrorKind};

/// Letters that name a standard wherever they stand.
const ANYWHERE: &[(&str, &str)] = &[
    ("NPTF", "dryseal pipe thread (ASME B1.20.3)"),
    ("ANPT", "aeronautical pipe taper thread"),
    ("NPS", "National pipe straight thread (ASME B1.20.1)"),
    ("NPSC", "National pipe straight thread (ASME B1.20.1)"),
    ("NPSM", "National pipe straight thread (ASME B1.20.1)"),
    ("NPSL", "National pipe straight thread (ASME B1.20.1)"),
    ("NPSF", "dryseal pipe thread (ASME B1.20.3)"),
    ("NPTR", "National pipe taper railing thread (ASME B1.20.1)"),
    ("BUTT", "buttress thread (ASME B1.9)"),
    ("BSB", "British Standard brass thread"),
    ("BSC", "British Standard cycle thread"),
    ("BA", "British Association thread (BS 93)"),
    ("NC", "American National coarse thread, forerunner of UNC"),
    ("NF", "American National fine thread, forerunner of UNF"),
    ("NEF", "American National extra-fine thread, forerunner of UNEF"),
    ("NS", "American National special thread, forerunner of UNS"),
    ("UNJ", "Unified thread with controlled root radius (ASME B1.15)"),
    ("UNJC", "Unified thread with controlled root radius (ASME B1.15)"),
    ("UNJF", "Unified thread with controlled root radius (ASME B1.15)"),
    ("UNJEF", "Unified thread with controlled root radius (ASME B1.15)"),
    ("UNJS", "Unified thread with controlled root radius (ASME B1.15)"),
    ("UNM", "Unified miniature thread (ASME B1.10)"),
];

/// Letters that name a standard where the size stands after them.
const IN_FRONT: &[(&str, &str)] = &[
    ("MJ", "MJ thread (ISO 5855)"),
    ("S", "ISO miniature thread S (ISO 1501)"),
    ("W", "Whitworth thread by its diameter in millimeters (DIN 477)"),
    ("RD", "round thread Rd (DIN 405)"),
    ("PG", "steel conduit thread Pg (DIN 40430)"),
];

/// Refuses a designation (in capitals) that belongs to a standard not offered yet.
pub fn refuse_foreign(upper: &str) -> Result<(), DesignationError> {
    let words = || upper.split(|c: char| !c.is_ascii_alphabetic()).filter(|word| !word.is_empty());
    let starts_with_letters = upper.starts_with(|c: char| c.is_ascii_alphabetic());
    let size_follows = upper
        .trim_start_matches(|c: char| c.is_ascii_alphabetic())
        .trim_start_matches([' ', '-', '.'])
        .starts_with(|c: char| c.is_ascii_digit());
    let in_front = words()
        .next()
        .filter(|_| starts_with_letters && size_follows)
        .and_then(|word| IN_FRONT.iter().find(|(letters, _)| *letters == word));
    let anywhere = words().find_map(|word| ANYWHERE.iter().find(|(letters, _)| *letters == word));
    match anywhere.or(in_front) {
        None => Ok(()),
        Some((_, name)) => Err(DesignationError::new(
            ErrorKind::NotOffered,
            format!("`{upper}` is another kind of thread, {name}, which is not offered yet"),
            "1/4-20 UNC",
        )),
    }
}
