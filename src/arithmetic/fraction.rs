//! Fractions of whole numbers, for what must come out exactly: holes of a circle, turns of a crank.

/// A fraction in its lowest terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fraction {
    /// Above the line.
    pub top: i128,
    /// Below the line; positive.
    pub bottom: i128,
}

/// The greatest number that divides both.
pub fn greatest_divisor(a: i128, b: i128) -> i128 {
    if b == 0 { a.abs() } else { greatest_divisor(b, a % b) }
}

impl Fraction {
    /// `top` over `bottom`, which is not zero.
    pub fn of(top: i128, bottom: i128) -> Self {
        let divisor = greatest_divisor(top, bottom).max(1) * bottom.signum();
        Self { top: top / divisor, bottom: bottom / divisor }
    }

    /// A share of a turn: an angle in degrees, exact to a billionth of 3.6 seconds.
    pub fn of_turn(degrees: f64) -> Self {
        const PARTS: f64 = 3.6e9;
        Self::of((degrees * PARTS).round() as i128, (360.0 * PARTS) as i128)
    }

    /// So many times this.
    pub fn times(self, by: i128) -> Self {
        Self::of(self.top * by, self.bottom)
    }

    /// This and another.
    pub fn plus(self, other: Self) -> Self {
        Self::of(self.top * other.bottom + other.top * self.bottom, self.bottom * other.bottom)
    }

    /// This less another.
    pub fn less(self, other: Self) -> Self {
        self.plus(other.times(-1))
    }

    /// The number itself, if it is whole.
    pub fn whole(self) -> Option<i128> {
        (self.bottom == 1).then_some(self.top)
    }

    /// The greatest whole number that is not above it.
    pub fn floor(self) -> i128 {
        self.top.div_euclid(self.bottom)
    }

    /// The nearest whole number; of two the greater.
    pub fn nearest(self) -> i128 {
        self.plus(Self { top: 1, bottom: 2 }).floor()
    }

    /// Without its sign.
    pub fn size(self) -> Self {
        Self { top: self.top.abs(), bottom: self.bottom }
    }

    /// As a decimal number.
    pub fn get(self) -> f64 {
        self.top as f64 / self.bottom as f64
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Fraction {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        (self.top * other.bottom).cmp(&(other.top * self.bottom))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_kept_in_lowest_terms_and_rounded_as_whole_numbers() {
        assert_eq!(Fraction::of(40, 15), Fraction { top: 8, bottom: 3 });
        assert_eq!(Fraction::of(2, -4), Fraction { top: -1, bottom: 2 });
        assert_eq!(Fraction::of(0, 7).whole(), Some(0));
        let (a, b) = (Fraction::of(21, 23), Fraction::of(11, 33));
        assert_eq!(a.less(b), Fraction::of(40, 69));
        assert!(a > b && a.less(b).whole().is_none() && a.plus(b).floor() == 1);
        let nearest = [(5, 2), (7, 3), (-5, 2), (-7, 3)].map(|(top, bottom)| Fraction::of(top, bottom).nearest());
        assert_eq!(nearest, [3, 2, -2, -2]);
    }

    #[test]
    fn an_angle_is_the_share_of_a_turn_that_it_was_written_as() {
        assert_eq!(Fraction::of_turn(35.0), Fraction::of(35, 360));
        assert_eq!(Fraction::of_turn(1.0 / 3.0), Fraction::of(20, 21600));
        assert_eq!(Fraction::of_turn(12.0 + 30.0 / 60.0 + 17.0 / 3600.0), Fraction::of(45017, 1_296_000));
    }
}
