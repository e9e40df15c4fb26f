//! The numbers that a seed stands for: SplitMix64, so that a seed is the same question on every
//! computer and in every version. It is ten lines of whole-number arithmetic whose results are
//! published; general libraries promise the same numbers only within a version.

/// A stream of numbers.
pub struct Draw(u64);

impl Draw {
    /// The stream of a seed for one purpose.
    pub fn new(seed: u64, purpose: &str) -> Self {
        // FNV-1a, so that one seed is not the same choice everywhere.
        let salt = purpose
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
        Self(seed ^ salt)
    }

    /// The next number.
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number below `end`; 0 where `end` is 0.
    pub fn below(&mut self, end: u64) -> u64 {
        ((u128::from(self.next()) * u128::from(end)) >> 64) as u64
    }

    /// One of several.
    pub fn pick<'l, T>(&mut self, of: &'l [T]) -> Option<&'l T> {
        let at = self.below(of.len() as u64);
        of.get(at as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_are_those_published() {
        // Outputs for the state 1234567 of S. Vigna's reference program splitmix64.c, as the task
        // "Pseudo-random numbers/Splitmix64" of Rosetta Code prints them.
        let mut draw = Draw(1_234_567);
        let wanted = [
            6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423, 4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(wanted.map(|_| draw.next()), wanted);
    }

    #[test]
    fn a_number_below_an_end_stays_below_it_and_takes_every_value() {
        let mut draw = Draw::new(7, "test");
        let seen: std::collections::BTreeSet<u64> = (0..200).map(|_| draw.below(6)).collect();
        assert_eq!(seen.into_iter().collect::<Vec<_>>(), [0, 1, 2, 3, 4, 5]);
        assert_eq!((draw.below(0), draw.pick::<u8>(&[])), (0, None));
    }
}
