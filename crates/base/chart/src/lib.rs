//! Data to SVG; the one place that rounds numbers into pictures.
//!
//! Pictures are [`maud::Markup`] and carry class names only, no colours and no `style`: the page owns
//! the colours, for daylight, for the dim shop and for paper. A class is a role and a token:
//!
//! | class | draws |
//! |---|---|
//! | `fill-…`, `stroke-…` | shapes and lines in a token's colour |
//! | `tint-…`, `wash-…` | a token's colour let through, and hardly there |
//! | `shade-1` to `shade-5` | ink let through, lighter to darker; words in ink stay readable on each |
//! | `text-…` | words in a token's colour; `text-card` stands on a filled shape, `text-dark` on `warn` |
//! | `drawing ring`, `drawing chart`, `strip`, `ranks` | the picture itself: a ring fills its width, a chart keeps its own, a strip and ranks fit a phone |
//! | `drawing qr`, `ground`, `modules` | a code for a camera, dark on light in every theme |
//! | `hair`, `fine`, `bold`, `heavy` | line widths, thin to thick |
//! | `dash-long`, `dash-short`, `dots` | broken lines |
//! | `label`, `figure`, `mark` | words beside the drawing, numbers on it, one-letter signs |
//! | `strong`, `halo` | words that weigh more, words that keep lines away |
//! | `start`, `middle`, `end` | where the words are anchored |
//! | `qr-dark`, `qr-light` | black and white in every theme, for a camera |
//!
//! Tokens: `paper`, `card`, `ink`, `soft`, `line`, `accent`, `good`, `warn`, `stop`, `steel`, `hatch`.

mod axes;
mod bars;
mod basin;
mod curves;
mod history;
mod intervals;
mod lasting;
mod plane;
mod qr;
mod ranks;
mod scale;
mod strip;
mod trace;
mod trend;
mod words;

pub use bars::{Bar, BarPlan, bars};
pub use basin::{Basin, BasinChart, basin};
pub use curves::{Curve, CurveChart, curves};
pub use history::{Found, Happening, HistoryChart, Look, Piece, When, history};
pub use intervals::{Category, Interval, IntervalChart, intervals};
pub use lasting::{Ahead, Lasting, LastingChart, lasting};
pub use plane::{Frame, Path, Point, Polar, num, px};
pub use qr::{QrTooLong, qr, qr_lines};
pub use ranks::{Rank, RankChart, ranks};
pub use scale::Scale;
pub use strip::{Strip, StripCell, StripRow, strip};
pub use trace::{Part, TraceChart, trace};
pub use trend::{Foreseen, Reading, TrendChart, trend};
