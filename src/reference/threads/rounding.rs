//! Rounding as thread tables do it, in whole units of the last printed place, so that sums of
//! rounded parts are exact. ASME B1.1 tables settle ties to the even digit, ISO tables upward.

/// How near to a half still counts as a tie: far above the error of a few products, far below
/// any part of a printed digit that matters.
const TIE: f64 = 1e-7;

/// Nearest whole number, a tie going to the even neighbor.
pub fn half_even(x: f64) -> i64 {
    let low = x.floor();
    let above = x - low;
    let low = low as i64;
    if (above - 0.5).abs() < TIE {
        low + (low & 1)
    } else if above < 0.5 {
        low
    } else {
        low + 1
    }
}

/// Nearest whole number, a tie going up (values here are never negative).
pub fn half_up(x: f64) -> i64 {
    (x + 0.5 + TIE).floor() as i64
}

/// `n / d` to the nearest whole number, a tie going to the even neighbor; exact.
pub fn divide_half_even(n: i64, d: i64) -> i64 {
    let low = n.div_euclid(d);
    let twice = 2 * n.rem_euclid(d);
    match twice.cmp(&d) {
        std::cmp::Ordering::Less => low,
        std::cmp::Ordering::Greater => low + 1,
        std::cmp::Ordering::Equal => low + (low & 1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tie_goes_to_the_even_digit() {
        assert_eq!(half_even(42.5), 42);
        assert_eq!(half_even(47.5), 48);
        assert_eq!(half_even(0.1155e3), 116);
        assert_eq!(divide_half_even(15_335, 10), 1534);
        assert_eq!(divide_half_even(15_345, 10), 1534);
    }

    #[test]
    fn a_tie_of_a_metric_basic_diameter_goes_up() {
        assert_eq!(half_up(2.5), 3);
        assert_eq!(half_up(2.4999), 2);
    }

    #[test]
    fn what_is_no_tie_goes_to_the_nearest() {
        assert_eq!(half_even(2.4999), 2);
        assert_eq!(half_even(2.5001), 3);
        assert_eq!(divide_half_even(14_999, 10_000), 1);
    }
}
