//! Which requests need long enough to be worked on elsewhere.

use crate::fields::{Fields, Given};

/// Text or parts of this many bytes together can hold lists that take long.
const LONG: usize = 2_000;

/// Whether a request can take much longer than most: a table, a tolerance, solving backwards, long lists.
pub fn is_long(fields: &Fields) -> bool {
    let mut bytes = 0;
    fields.0.iter().any(|(name, value)| {
        matches!(name.as_ref(), "solve_for" | "correct") || repeats(value) || {
            bytes += size(value);
            bytes > LONG
        }
    })
}

/// Whether a value asks for the calculation more than once.
fn repeats(value: &Given) -> bool {
    match value {
        Given::Text(text) => text.contains(['|', '±']) || ["..", "+/-", "/-"].iter().any(|mark| text.contains(mark)),
        Given::Object(members) => {
            members.iter().any(|(name, _)| matches!(name.as_ref(), "plus" | "minus" | "plus_minus"))
        }
        _ => false,
    }
}

fn size(value: &Given) -> usize {
    match value {
        Given::Text(text) => text.len(),
        Given::List(items) => items.iter().map(size).sum(),
        Given::Object(members) => members.iter().map(|(_, value)| size(value)).sum(),
        _ => 8,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_requests_are_told_from_short_ones() {
        let is_long = |query: &str| is_long(&Fields::of_query(query).unwrap());
        assert!(!is_long("diameter=1/2 in&point_angle=118 deg&working=false"));
        for query in ["d=1 in..2 in step 0.1 in", "d=1 in|2 in", "d=1 %2B/-0.1 in", "d=1 %2B0.1/-0.1 in", "correct=d"] {
            assert!(is_long(query), "{query}");
        }
        assert!(is_long(&format!("points={}", "1 in,2 in;".repeat(300))));
    }
}
