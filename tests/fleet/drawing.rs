//! Chance from a fixed seed, in the shapes that dimensions come in.

#[path = "../slips/dice.rs"]
#[allow(dead_code, reason = "slips are drawn by weight, dimensions are not")]
mod dice;

use dice::Dice;

/// Draws ordinary values.
pub struct Drawing(Dice);

impl Drawing {
    pub const fn new(seed: u64) -> Self {
        Self(Dice::new(seed))
    }

    /// Anything from 0 to 1.
    fn share(&mut self) -> f64 {
        f64::from(u32::try_from(self.0.roll(1 << 20)).expect("small")) / f64::from(1 << 20)
    }

    /// Evenly between two values.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    /// Evenly by ratio: as many are twice the least as half the most.
    pub fn by_ratio(&mut self, least: f64, most: f64) -> f64 {
        least * (most / least).powf(self.share())
    }

    /// True so many times in a hundred.
    pub fn chance(&mut self, percent: usize) -> bool {
        self.0.roll(100) < percent
    }

    /// One of these.
    pub fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        *self.0.pick(all).expect("there are some")
    }
}
