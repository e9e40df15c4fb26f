//! What parts the columns of a table that is sent, and the reader of its records.

use crate::asking::describing::Separator;
use crate::fields::Fields;

/// The separator that an address asks for, before anything else of it is read.
pub fn separator(query: &Fields) -> Separator {
    let said = query.0.iter().find(|(name, _)| name == "separator").map(|(_, value)| value.said());
    if said.is_some_and(|said| said.trim().eq_ignore_ascii_case("semicolon")) {
        Separator::Semicolon
    } else {
        Separator::Comma
    }
}

/// The byte that parts the columns.
pub fn delimiter(separator: Separator) -> u8 {
    if separator == Separator::Semicolon { b';' } else { b',' }
}

/// A reader of the records in `bytes`, which has none of them for a header.
pub fn records(bytes: &[u8], separator: Separator) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new().delimiter(delimiter(separator)).has_headers(false).flexible(true).from_reader(bytes)
}
