//! What is held of any bytes at all, for the fuzzer and for the cases it found.

use shop_reckoner::asking::{Form, ask};
use shop_reckoner::budget::Budget;
use shop_reckoner::calculators::{Entry, REGISTER};
use shop_reckoner::fields::Fields;
use shop_reckoner::json::ToJson;
use shop_reckoner::quantity::{self, text};
use shop_reckoner::reference::threads::Designation;
use shop_reckoner::refusal::Refusal;
use std::time::Duration;

/// Tries bytes.
pub type Target = fn(&[u8]);

/// Every target by its name.
pub const ALL: &[(&str, Target)] =
    &[("quantity", quantity), ("designation", designation), ("query", query), ("json", json)];

/// Text is read as a finite number, which reads back the same when printed in full, or refused in words.
pub fn quantity(bytes: &[u8]) {
    let Ok(said) = std::str::from_utf8(bytes) else { return };
    match quantity::read(said, "0.5 in") {
        Ok(written) => {
            assert!(written.value.is_finite());
            if let Some((plus, minus)) = written.tolerance {
                assert!(plus >= 0.0 && minus >= 0.0 && plus.is_finite() && minus.is_finite());
            }
            let unit = written.unit.map(|unit| unit.spelling()).unwrap_or_default();
            let again = format!("{} {unit}", text::full(written.value));
            match quantity::read(&again, "0.5 in") {
                Ok(read) => assert_eq!((read.value, read.unit), (written.value, written.unit), "{again}"),
                Err(unread) => panic!("{again}: {}", unread.says),
            }
        }
        Err(unread) => assert!(!unread.says.is_empty() && !unread.code.as_str().is_empty()),
    }
}

/// A designation is read as a thread of sound sizes, whose own text reads as the same thread, or refused in words.
pub fn designation(bytes: &[u8]) {
    let Ok(said) = std::str::from_utf8(bytes) else { return };
    match Designation::read(said) {
        Ok(read) => {
            let thread = &read.thread;
            assert!(thread.pitch.is_finite() && thread.pitch > 0.0 && thread.lead() > 0.0, "{said}");
            let own = read.text();
            match Designation::read(&own) {
                Ok(again) => assert_eq!((again.thread.pitch, again.text()), (thread.pitch, own), "{said}"),
                Err(unread) => panic!("{said} is {own}: {}", unread.says),
            }
        }
        Err(unread) => assert!(!unread.says.is_empty() && !unread.code.as_str().is_empty()),
    }
}

/// The calculator that the first byte picks, and the rest.
fn picked(bytes: &[u8]) -> Option<(&'static Entry, &[u8])> {
    let (first, rest) = bytes.split_first()?;
    Some((&REGISTER[usize::from(*first) % REGISTER.len()], rest))
}

fn hold(answered: Result<String, Refusal>) {
    match answered {
        // Serde writes what is no number as null, which no answer has.
        Ok(answer) => assert!(!answer.contains(":null"), "{answer}"),
        Err(refusal) => {
            assert!(!refusal.0.is_empty());
            for wrong in refusal.0 {
                assert!(!wrong.says.is_empty() && !wrong.says.contains("NaN"), "{wrong:?}");
            }
        }
    }
}

fn asked(entry: &'static Entry, fields: Fields) {
    hold(
        Budget::of(Duration::from_secs(2))
            .spend(|| ask(entry, fields, Form::Json).map(|(answer, _)| answer.value().to_string())),
    );
}

/// A query is answered with numbers or refused in words.
pub fn query(bytes: &[u8]) {
    let Some((entry, rest)) = picked(bytes) else { return };
    let Ok(said) = std::str::from_utf8(rest) else { return };
    if let Some(fields) = Fields::of_query(said) {
        asked(entry, fields);
    }
}

/// So is a JSON body.
pub fn json(bytes: &[u8]) {
    let Some((entry, rest)) = picked(bytes) else { return };
    if let Ok(fields) = serde_json::from_slice::<Fields>(rest) {
        asked(entry, fields);
    }
}
