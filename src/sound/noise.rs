//! Noise that is the same each time.

/// Random numbers from a seed: a xorshift of 64 bits.
pub(super) struct Noise {
    state: u64,
}

impl Noise {
    pub(super) const fn new(seed: u64) -> Noise {
        // Of zero nothing would ever come.
        Noise { state: seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1 }
    }

    /// The next number, from -1 to 1.
    pub(super) fn next(&mut self) -> f32 {
        self.state ^= self.state << 13;
        self.state ^= self.state >> 7;
        self.state ^= self.state << 17;
        // The upper 24 bits, which a number of 32 bits holds exactly.
        let upper = (self.state >> 40) as f32;
        upper / 8_388_608.0 - 1.0
    }
}
