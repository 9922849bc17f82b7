//! A small seeded generator of pseudo-random numbers, the same on every machine.

/// SplitMix64: one 64-bit state, no global state, good enough to steer a search.
#[derive(Debug, Clone)]
pub(crate) struct Chance {
    state: u64,
}

impl Chance {
    /// A generator that gives the same sequence for the same seed.
    pub(crate) fn new(seed: u64) -> Chance {
        Chance {
            state: seed ^ 0x9E37_79B9_7F4A_7C15,
        }
    }

    /// The next 64 random bits.
    pub(crate) fn draw(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number from 0 to `n - 1`; 0 when `n` is 0.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        // The high half of a 64 x 64 bit product: no division, negligible bias.
        ((u128::from(self.draw()) * n as u128) >> 64) as usize
    }

    /// A number from 0 (included) to 1 (excluded).
    pub(crate) fn unit(&mut self) -> f64 {
        (self.draw() >> 11) as f64 / (1u64 << 53) as f64
    }
}
