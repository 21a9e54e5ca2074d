//! What a value may be, with how exactly its ends are known: sums, products and quotients of it, in exact rationals.
//!
//! An end printed as `0.15` is anything from 0.145 to 0.155. A relation is broken only if it is broken wherever within
//! their last printed digits all ends lie, so both bounds of every end are carried along.

use num_traits::{Signed, Zero};

use crate::quantity::Exact;

/// One end: as printed, and the least and the most that print so.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct End {
    /// The least it may be.
    pub least: Exact,
    /// As printed.
    pub nominal: Exact,
    /// The most it may be.
    pub most: Exact,
}

/// Everything from one end to another; an open end is none.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Extent {
    /// The lower end.
    pub low: Option<End>,
    /// The upper end.
    pub high: Option<End>,
}

impl End {
    /// An end known exactly.
    pub fn exactly(value: Exact) -> Self {
        Self { least: value.clone(), nominal: value.clone(), most: value }
    }

    /// True if the two may be one and the same.
    pub fn meets(&self, other: &Self) -> bool {
        self.least <= other.most && other.least <= self.most
    }

    /// The end moved by so much either way.
    pub fn widened(&self, by: &Exact) -> Self {
        Self { least: &self.least - by, nominal: self.nominal.clone(), most: &self.most + by }
    }

    fn plus(&self, other: &Self) -> Self {
        Self {
            least: &self.least + &other.least,
            nominal: &self.nominal + &other.nominal,
            most: &self.most + &other.most,
        }
    }

    fn times(&self, other: &Self) -> Self {
        let corners = [
            &self.least * &other.least,
            &self.least * &other.most,
            &self.most * &other.least,
            &self.most * &other.most,
        ];
        let nominal = &self.nominal * &other.nominal;
        let least = corners.iter().min().cloned().unwrap_or_else(|| nominal.clone());
        let most = corners.into_iter().max().unwrap_or_else(|| nominal.clone());
        Self { least, nominal, most }
    }

    fn negative(&self) -> Self {
        Self { least: -&self.most, nominal: -&self.nominal, most: -&self.least }
    }

    /// One over it; none if it may be nothing.
    fn reciprocal(&self) -> Option<Self> {
        let away = self.least.is_positive() || self.most.is_negative();
        away.then(|| Self {
            least: self.most.recip(),
            nominal: self.nominal.recip(),
            most: self.least.recip(),
        })
    }
}

impl Extent {
    /// One value known exactly.
    pub fn exactly(value: Exact) -> Self {
        Self::point(End::exactly(value))
    }

    /// One value.
    pub fn point(end: End) -> Self {
        Self { low: Some(end.clone()), high: Some(end) }
    }

    /// One value, if it is one.
    pub fn as_point(&self) -> Option<&End> {
        self.low.as_ref().filter(|_| self.low == self.high)
    }

    /// Both ends, if it has both.
    pub fn ends(&self) -> Option<(&End, &End)> {
        self.low.as_ref().zip(self.high.as_ref())
    }

    /// The sum.
    pub fn plus(&self, other: &Self) -> Self {
        let sum = |one: &Option<End>, other: &Option<End>| Some(one.as_ref()?.plus(other.as_ref()?));
        Self { low: sum(&self.low, &other.low), high: sum(&self.high, &other.high) }
    }

    /// The difference.
    pub fn minus(&self, other: &Self) -> Self {
        self.plus(&other.negative())
    }

    /// The product; open where the side of an open end is not known.
    pub fn times(&self, other: &Self) -> Self {
        if let (Some(one), Some(other)) = (self.as_point(), other.as_point()) {
            return Self::point(one.times(other));
        }
        if self.is_positive() && other.is_positive() {
            return self.end_by_end(other);
        }
        let (Some((a, b)), Some((c, d))) = (self.ends(), other.ends()) else {
            return Self { low: None, high: None };
        };
        let corners = [a.times(c), a.times(d), b.times(c), b.times(d)];
        let low = corners.iter().min_by(|one, other| one.nominal.cmp(&other.nominal)).cloned();
        let high = corners.into_iter().max_by(|one, other| one.nominal.cmp(&other.nominal));
        Self { low, high }
    }

    /// The product of two extents above zero.
    fn end_by_end(&self, other: &Self) -> Self {
        let product = |one: &Option<End>, other: &Option<End>| Some(one.as_ref()?.times(other.as_ref()?));
        Self { low: product(&self.low, &other.low), high: product(&self.high, &other.high) }
    }

    /// The quotient; open where the divisor may be nothing.
    pub fn over(&self, other: &Self) -> Self {
        let one_sided =
            other.is_positive() || other.high.as_ref().is_some_and(|high| high.most.is_negative());
        if !one_sided {
            return Self { low: None, high: None };
        }
        let turned = |end: &Option<End>| end.as_ref().and_then(End::reciprocal);
        let reciprocal = Self { low: turned(&other.high), high: turned(&other.low) };
        if self.is_positive() && other.is_positive() {
            self.end_by_end(&reciprocal)
        } else {
            self.times(&reciprocal)
        }
    }

    /// Multiplied by itself.
    pub fn power(&self, exponent: u8) -> Self {
        (1..exponent).fold(self.clone(), |power, _| power.times(self))
    }

    /// The sine of an angle in degrees, for angles within a right angle either way.
    pub fn sine(&self) -> Self {
        let sine = |end: &Option<End>| {
            let End { least, nominal, most } = end.as_ref()?;
            Some(End { least: sine(least), nominal: sine(nominal), most: sine(most) })
        };
        Self { low: sine(&self.low), high: sine(&self.high) }
    }

    fn negative(&self) -> Self {
        let turned = |end: &Option<End>| end.as_ref().map(End::negative);
        Self { low: turned(&self.high), high: turned(&self.low) }
    }

    /// True if nothing of it is zero or below.
    fn is_positive(&self) -> bool {
        self.low.as_ref().is_some_and(|low| low.least.is_positive())
    }
}

/// π to twenty decimals: the error is far below any printed digit.
pub fn pi() -> Exact {
    crate::quantity::parse_exact("3.14159265358979323846").unwrap_or_else(Exact::zero)
}

/// The sine of degrees by its series: x − x³/3! + x⁵/5! …; within a right angle, good to twelve figures.
fn sine(degrees: &Exact) -> Exact {
    let x = degrees * pi() / Exact::from_integer(180.into());
    let square = &x * &x;
    let mut term = x;
    let mut sum = term.clone();
    for step in 1..8 {
        let below = Exact::from_integer((2 * step * (2 * step + 1)).into());
        term = -(&term * &square) / below;
        sum += &term;
    }
    crate::quantity::round_to(&sum, &crate::quantity::power_of_ten(-15), crate::quantity::Rounding::HalfEven)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{decimal_text, parse_exact};

    fn end(text: &str) -> End {
        let value = parse_exact(text).expect("a number");
        End::exactly(value).widened(&parse_exact("0.005").expect("a number"))
    }

    fn extent(low: Option<&str>, high: Option<&str>) -> Extent {
        Extent { low: low.map(end), high: high.map(end) }
    }

    fn shown(extent: &Extent) -> String {
        let end =
            |end: &Option<End>| end.as_ref().map_or("open".to_owned(), |end| decimal_text(&end.nominal, 3));
        format!("{}..{}", end(&extent.low), end(&extent.high))
    }

    #[test]
    fn limits_cross_in_differences_and_quotients() {
        let (bore, piston) = (extent(Some("80.00"), Some("80.02")), extent(Some("79.95"), Some("79.97")));
        assert_eq!(shown(&bore.minus(&piston)), "0.030..0.070");
        assert_eq!(shown(&piston.over(&bore)), "0.999..1.000");
    }

    #[test]
    fn an_open_end_stays_open() {
        let (most, some) = (extent(None, Some("10")), extent(Some("2"), Some("4")));
        assert_eq!(shown(&most.plus(&some)), "open..14.000");
        assert_eq!(shown(&some.minus(&most)), "-8.000..open");
        assert_eq!(shown(&some.over(&extent(Some("-1"), Some("1")))), "open..open");
        assert_eq!(shown(&some.over(&extent(Some("2"), None))), "open..2.000");
    }

    #[test]
    fn both_bounds_of_an_end_go_with_it() {
        let product = extent(Some("2"), Some("2")).times(&extent(Some("3"), Some("3")));
        let low = product.low.expect("an end");
        assert_eq!(decimal_text(&low.least, 6), "5.975025");
        assert_eq!(decimal_text(&low.most, 6), "6.025025");
    }

    /// Sine of 30°: exactly a half; of 1°: 0.017452406 (handbook tables of sines; value from memory).
    #[test]
    fn sines_are_those_of_the_tables() {
        let of = |degrees: &str| decimal_text(&sine(&parse_exact(degrees).expect("a number")), 9);
        assert_eq!(of("30"), "0.500000000");
        assert_eq!(of("1"), "0.017452406");
        assert_eq!(of("-90"), "-1.000000000");
    }
}
