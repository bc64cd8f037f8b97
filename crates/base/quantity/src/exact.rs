//! Rational numbers, exact until they are rounded once to the nearest `f64`.

/// A rational number `over / under`, `under > 0`.
///
/// The arithmetic is plain: a typed number stays below [`Exact::LIMIT`] in both parts and the
/// factors are small, so no product in this crate leaves `i128` (a test tries the largest).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Exact {
    over: i128,
    under: i128,
}

impl Exact {
    /// Both parts of a number typed by a person stay at or below this.
    pub(crate) const LIMIT: i128 = 10_i128.pow(Self::DIGITS);
    /// As many digits as a typed number may have, so that it stays below the limit.
    pub(crate) const DIGITS: u32 = 18;
    pub(crate) const ZERO: Self = Self::new(0, 1);
    pub(crate) const ONE: Self = Self::new(1, 1);

    pub(crate) const fn new(over: i128, under: i128) -> Self {
        Self { over, under }
    }

    pub(crate) const fn plus(self, other: Self) -> Self {
        Self::new(
            self.over * other.under + other.over * self.under,
            self.under * other.under,
        )
    }

    pub(crate) const fn times(self, other: Self) -> Self {
        Self::new(self.over * other.over, self.under * other.under)
    }

    pub(crate) const fn negated(self) -> Self {
        Self::new(-self.over, self.under)
    }

    /// A positive divisor only.
    pub(crate) const fn per(self, other: Self) -> Self {
        self.times(Self::new(other.under, other.over))
    }

    /// In lowest terms.
    pub(crate) const fn reduced(self) -> Self {
        let (mut divisor, mut rest) = (self.under, self.over);
        while rest != 0 {
            (divisor, rest) = (rest, divisor % rest);
        }
        Self::new(self.over / divisor, self.under / divisor)
    }

    /// The nearest `f64`, ties to even.
    pub(crate) fn nearest(self) -> f64 {
        let under = self.under.unsigned_abs();
        let over = self.over.unsigned_abs();
        let (mut quotient, mut rest) = (over / under, over % under);
        let mut halvings = 0;
        // Long division in binary, until there are clearly more bits than an f64 holds.
        while quotient < 1 << 64 && over != 0 {
            rest *= 2;
            quotient = quotient * 2 + u128::from(rest >= under);
            if rest >= under {
                rest -= under;
            }
            halvings += 1;
        }
        // Whatever is left may only break a tie.
        quotient |= u128::from(rest != 0);
        #[expect(clippy::cast_precision_loss, reason = "this is the one rounding")]
        let size = quotient as f64 * 0.5_f64.powi(halvings);
        if self.over < 0 { -size } else { size }
    }
}

#[cfg(test)]
mod tests {
    use super::Exact;

    #[test]
    fn law_nearest_is_what_a_decimal_literal_gives() {
        assert_eq!(
            Exact::new(3302, 10_000_000).nearest().to_bits(),
            0.000_330_2_f64.to_bits()
        );
        assert_eq!(
            Exact::new(-1, 3).nearest().to_bits(),
            (-1.0_f64 / 3.0).to_bits()
        );
        assert_eq!(Exact::ZERO.negated().nearest().to_bits(), 0.0_f64.to_bits());
    }

    #[test]
    fn law_a_tie_goes_to_even_and_the_least_excess_breaks_it() {
        let tie = (1_i128 << 53) + 1;
        assert_eq!(
            Exact::new(tie, 1).nearest().to_bits(),
            9_007_199_254_740_992_f64.to_bits()
        );
        let over = Exact::new(tie, 1).plus(Exact::new(1, 1_000_000_000_000_000));
        assert_eq!(
            over.nearest().to_bits(),
            9_007_199_254_740_994_f64.to_bits()
        );
    }
}
