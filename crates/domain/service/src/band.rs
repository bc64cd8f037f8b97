//! A quantity over lives of different weight: its mean and its band.

use crate::Error;
use crate::error::within;

/// Mean and band of a quantity.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `low`, `high` | the share asked for lies between them, as much below as above | unit of the quantity |
/// | `mean` | over all the weight | unit of the quantity |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Lower end.
    pub low: f64,
    /// Mean over all the weight.
    pub mean: f64,
    /// Upper end.
    pub high: f64,
}

impl Band {
    /// Of values by their weight, which add up to one.
    ///
    /// `mean = sum w q`; an end is the least value at which its share of the weight is reached
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `each` | w, q | weight and value | `1` |
    /// | `share` | | of the weight within | `1` |
    ///
    /// Range: share 0.1 to 0.98; one value at least.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NoRecord`].
    pub fn of(mut each: Vec<(f64, f64)>, share: f64) -> Result<Self, Error> {
        let tail = 0.5 * (1.0 - within("share within the band", share, 0.1, 0.98)?);
        let mean = each.iter().map(|(weight, value)| weight * value).sum();
        each.sort_by(|a, b| a.1.total_cmp(&b.1));
        let end = |share: f64| {
            let mut below = 0.0;
            let found = each.iter().find(|(weight, _)| {
                below += weight;
                below >= share
            });
            let found = found.or(each.last()).map(|(_, value)| *value);
            found.ok_or(Error::NoRecord)
        };
        Ok(Self {
            low: end(tail)?,
            mean,
            high: end(1.0 - tail)?,
        })
    }
}
