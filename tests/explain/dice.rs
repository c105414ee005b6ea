//! Random numbers from a seed, so that the same lines come in every run.

/// A small generator: the shifts of a xorshift of 64 bits.
pub(crate) struct Dice(u64);

impl Dice {
    /// Seeds that are near one another give numbers that are not.
    pub(crate) fn seeded(seed: u64) -> Dice {
        let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
        for _ in 0..8 {
            dice.next();
        }
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::try_from((self.next() >> 11) % count as u64).unwrap()
    }

    /// Does it happen, so many times of a hundred?
    pub(crate) fn happens(&mut self, of_a_hundred: usize) -> bool {
        self.below(100) < of_a_hundred
    }

    pub(crate) fn one_of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}
