//! How likely one explanation is against another, as a whole number: there is no floating point here.

/// What a share of one is kept as, so that dividing it leaves enough digits.
const SCALE: u64 = 1_000_000_000_000;

/// A weight to compare explanations by; it is no probability.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub(super) struct Odds(u64);

impl Odds {
    /// A slip with this share of all slips, which could have gone any of `ways` ways.
    pub(super) fn of(share: u64, ways: usize) -> Self {
        let ways = u64::try_from(ways).unwrap_or(u64::MAX).max(1);
        Self(share.saturating_mul(SCALE) / ways)
    }

    /// As many times more or less likely.
    pub(super) fn times(self, (more, less): (u64, u64)) -> Self {
        let odds = u128::from(self.0) * u128::from(more) / u128::from(less.max(1));
        Self(u64::try_from(odds).unwrap_or(u64::MAX))
    }

    /// That either of two slips happened.
    pub(super) const fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
