//! What every picture must hold to, and the gallery of charts.

mod bars;
mod gallery;
mod plane;
mod scale;
mod strip;
