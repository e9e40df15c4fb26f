//! What is wrong with a request, all at once: where the reading stops, the wrong field is mended with a good value and
//! all is read again.

use super::read_error::ReadError;
use super::{Fields, Given};
use crate::refusal::{Code, Refusal, Wrong};
use std::collections::HashSet;

/// All that is wrong with `fields`, which `read` refused with `first`. `good` finds a good value for a field. Not
/// generic, so that it is compiled once and not for each calculator's input.
pub(super) fn all_wrong(
    fields: &Fields,
    first: ReadError,
    read: &dyn Fn(&Fields) -> Option<ReadError>,
    good: &dyn Fn(&str) -> Option<&'static str>,
) -> Refusal {
    let mut fields = fields.clone();
    let mut wrongs: Vec<Wrong> = Vec::new();
    let mut seen = HashSet::new();
    let mut error = first;
    // Each round mends one field; more rounds than fields and faults there can be is no progress.
    for _ in 0..fields.0.len() + 64 {
        // Inside an object the whole field is mended, not the part.
        let (name, inside) = (error.field().to_owned(), error.is_inside());
        let wrong = error.wrong(good);
        let code = wrong.code;
        if !seen.insert(name.clone()) && code != Code::FieldUnknown && code != Code::FieldRepeated {
            break;
        }
        wrongs.push(wrong);
        let kept = &mut fields.0;
        match code {
            Code::FieldUnknown if !inside => kept.retain(|(key, _)| *key != name),
            Code::FieldRepeated if !inside => {
                let first = kept.iter().position(|(key, _)| *key == name).unwrap_or_default();
                let mut at = 0;
                kept.retain(|(key, _)| {
                    at += 1;
                    *key != name || at - 1 == first
                });
            }
            _ => {
                kept.retain(|(key, _)| *key != name);
                if let Some(value) = good(&name) {
                    kept.push((name.into(), Given::Text(value.into())));
                }
            }
        }
        match read(&fields) {
            None => break,
            Some(next) => error = next,
        }
    }
    Refusal::of_many(wrongs)
}
