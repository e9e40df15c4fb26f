//! How long one request may work, and which requests need long enough to be worked on elsewhere.

use crate::fields::{Fields, Given};
use crate::refusal::{Code, Refusal, Wrong};
use std::cell::Cell;
use std::time::{Duration, Instant};

thread_local! {
    // The request a thread works on; asking runs from start to end on one thread.
    static UNTIL: Cell<Option<Instant>> = const { Cell::new(None) };
}

/// Text or parts of this many bytes together can hold lists that take long.
const LONG: usize = 2_000;

/// How long one of many requests sent together may work.
const ONE_OF_MANY: Duration = Duration::from_secs(5);

/// Runs the work of one of many requests sent together, which must not hold up the others for long.
pub fn as_one_of_many<T>(work: impl FnOnce() -> T) -> T {
    within(Instant::now() + ONE_OF_MANY, work)
}

/// Runs `work`, in which asking gives up after `until`.
pub fn within<T>(until: Instant, work: impl FnOnce() -> T) -> T {
    // Put back also where the work panics, since threads are used again.
    struct Before(Option<Instant>);
    impl Drop for Before {
        fn drop(&mut self) {
            UNTIL.set(self.0);
        }
    }
    let _before = Before(UNTIL.replace(Some(until)));
    work()
}

/// The refusal of a request whose time is up.
pub fn too_much_work() -> Refusal {
    let says =
        "This takes longer than a request may. Ask for fewer rows or points, a wider step, or one thing at a time.";
    Refusal::one(Wrong { field: String::new(), code: Code::TooMuchWork, says: says.into(), try_this: None })
}

/// Refuses to work on where the time is up.
pub fn check_time() -> Result<(), Refusal> {
    match UNTIL.get() {
        Some(until) if Instant::now() > until => Err(too_much_work()),
        _ => Ok(()),
    }
}

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
    fn asking_stops_when_the_time_is_up_and_only_then() {
        let now = Instant::now();
        assert_eq!(within(now - Duration::from_secs(1), check_time).unwrap_err().0[0].code, Code::TooMuchWork);
        assert!(within(now + Duration::from_secs(60), check_time).is_ok());
        assert!(check_time().is_ok(), "the time of one request is not the next one's");
    }

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
