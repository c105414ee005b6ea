//! Choices that look like chance, and are the same every time.

/// Numbers that follow from a seed: the same ones for the same seed, on every machine.
///
/// What is chosen by them can be asked for again after a restart, and tests know it. They are those of
/// SplitMix64 (from memory), whose every seed is good.
///
/// # Example
///
/// ```
/// use fretloom::practice::Chance;
/// let mut chance = Chance::new(7);
/// let first: Vec<usize> = (0..4).map(|_| chance.below(6)).collect();
/// let mut again = Chance::new(7);
/// assert_eq!(first, [again.below(6), again.below(6), again.below(6), again.below(6)]);
/// ```
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// The numbers of this seed.
    #[must_use]
    pub const fn new(seed: u64) -> Chance {
        Chance(seed)
    }

    /// The next number below `count`, each about as often; 0 where `count` is 0.
    pub fn below(&mut self, count: usize) -> usize {
        let count = u64::try_from(count).unwrap_or(u64::MAX).max(1);
        usize::try_from(self.next() % count).unwrap_or(0)
    }

    /// The next number.
    #[expect(
        clippy::should_implement_trait,
        reason = "it never ends, so it is no iterator to walk"
    )]
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first numbers of seed 1234567 (from memory, as implementations of it are tested).
    #[test]
    fn the_numbers_are_those_of_splitmix() {
        let mut chance = Chance::new(1_234_567);
        assert_eq!(chance.next(), 6_457_827_717_110_365_317);
        assert_eq!(chance.next(), 3_203_168_211_198_807_973);
        assert_eq!(Chance::new(5).below(0), 0);
    }
}
