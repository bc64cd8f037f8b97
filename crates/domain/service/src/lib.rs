//! How long a part lasts, what it costs by the hour, when to replace it, and what records say of that.
//!
//! 1. [`life`] is the law of a part that wears out and may be ruined by a strike.
//! 2. [`strikes`] is how often that is, learnt from what was seen.
//! 3. [`cost`] is what a policy of replacing costs for every hour run, and the cheapest age to replace at.
//! 4. [`horizon`] is the same for an owner who keeps the craft for so many hours more.
//! 5. [`basin`](mod@basin) is that cost over all ages, where the life itself is not surely known.
//! 6. [`records`] is what was seen of parts: failed, still good, found worn; never a middle of an interval.
//! 7. [`posterior`](mod@posterior) joins a prior and the records, where the records are few.
//! 8. [`known`] is the same where the shape is known, without a grid.
//! 9. [`compare`] holds two choices against each other, and says which record would settle it most.
//! 10. [`wear`] is clearance that grows towards a limit, once it has been measured.
//!
//! [`band`] is how any of it is told where the life is not surely known.
//!
//! Every formula holds in any unit of time and of money, the same throughout; nothing here knows a clock
//! or a currency. Running time may be weighted by exposure before it comes here.

pub mod band;
pub mod basin;
pub mod compare;
pub mod cost;
mod error;
pub mod horizon;
pub mod known;
pub mod life;
pub mod posterior;
pub mod records;
mod renewal;
mod search;
pub mod strikes;
mod thin;
pub mod wear;

pub use error::Error;

/// A count as a number to compute with.
#[expect(clippy::cast_precision_loss, reason = "counts stay far below 2^52")]
pub(crate) fn real(count: usize) -> f64 {
    count as f64
}
