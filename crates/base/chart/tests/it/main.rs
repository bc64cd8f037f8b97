//! What every picture must hold to, and the gallery of charts.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bars;
mod basin;
mod curves;
mod gallery;
mod history;
mod lasting;
mod paper;
mod plane;
mod qr;
mod ranks;
mod scale;
mod strip;
mod trace;
mod trend;
