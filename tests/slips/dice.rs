//! Chance from a fixed seed: the same slips on every machine.

/// Xorshift.
pub struct Dice(u64);

impl Dice {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number below `sides`; 0 where there are none.
    pub fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 16).unwrap_or_default() % sides.max(1)
    }

    /// One of these.
    pub fn pick<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        let place = self.roll(all.len());
        all.get(place)
    }

    /// One of these, by weight.
    pub fn by_weight<T: Copy>(&mut self, all: &[(T, usize)]) -> T {
        let mut rest = self.roll(all.iter().map(|(_, weight)| weight).sum());
        for (one, weight) in all {
            if rest < *weight {
                return *one;
            }
            rest -= weight;
        }
        all[0].0
    }
}
