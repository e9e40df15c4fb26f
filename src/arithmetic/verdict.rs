//! Whether what was measured meets its limits when the measurement itself is not exact: decided only where the limit
//! is farther off than the uncertainty.

use crate::quantity::{Found, Kind};
use crate::working::{Record, Shown};

crate::choice! {
    /// `within` or `outside` the limits, or `undecided` where the uncertainty reaches across one.
    Verdict {
        /// Within the limits, by more than the uncertainty.
        Within = "within",
        /// Outside the limits, by more than the uncertainty.
        Outside = "outside",
        /// Too near a limit to say.
        Undecided = "undecided",
    }
}

/// The verdict on what is `left` to the nearest limit, both in SI units; on the limit itself is within.
pub fn verdict(left: f64, uncertainty: f64) -> Verdict {
    // Whole picometers, so that the last bits of a difference decide nothing.
    let (left, uncertainty) = ((left * 1e12).round(), (uncertainty * 1e12).round());
    if left >= uncertainty {
        Verdict::Within
    } else if left < -uncertainty {
        Verdict::Outside
    } else {
        Verdict::Undecided
    }
}

/// The verdict with its step, from a result named `left` and an uncertainty under its own name.
pub fn tell_verdict<K: Kind>(
    record: &mut Record,
    fields: [&'static str; 2],
    left: Found<K>,
    (name, uncertainty): (&'static str, impl Into<Shown>),
) -> Verdict {
    let uncertainty: Shown = uncertainty.into();
    let off = uncertainty.numbers().and_then(|all| all.first().copied()).unwrap_or_default();
    let is = verdict(left.si(), off);
    record
        .look_up("Verdict", "within if l is U or more, outside if l is below -U, undecided in between")
        .with("l", fields[0], left)
        .with("U", name, uncertainty)
        .gives(fields[1], is.as_str());
    if off > 0.0 {
        record.source("iso_14253_1", "limits are narrowed by the uncertainty to accept, and widened by it to reject");
    }
    if is == Verdict::Undecided {
        record.note(
            "undecided",
            "The limit lies inside the uncertainty of the measurement, so this measurement proves neither. Measure again \
             with something better before you pass or scrap the part.",
        );
    }
    is
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_a_limit_nothing_is_decided() {
        assert_eq!(verdict(2e-5, 1e-5), Verdict::Within);
        assert_eq!(verdict(1e-5, 1e-5), Verdict::Within);
        assert_eq!(verdict(0.9e-5, 1e-5), Verdict::Undecided);
        assert_eq!(verdict(-1e-5, 1e-5), Verdict::Undecided);
        assert_eq!(verdict(-1.1e-5, 1e-5), Verdict::Outside);
        assert_eq!(verdict(0.1 + 0.2 - 0.3, 0.0), Verdict::Within);
    }
}
