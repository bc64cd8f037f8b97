//! Why the gap is as it is: causes told apart by turning the impeller.
//!
//! What is the ring's stays at its clock position while every blade comes by; what is a blade's
//! travels with the blade. A [`Survey`] holds the cells felt at spots (blade, position, station),
//! and the gap they indicate is taken as
//!
//! `z(k, p) = c + gamma_k + A1 cos t + B1 sin t + A2 cos 2t + B2 sin 2t + s_p + e`
//!
//! | symbol | meaning | cause | unit |
//! |--------|---------|-------|------|
//! | c | mean of a station; chord and leaf set touch only this | [`Level`] | `m` |
//! | gamma | blade k shorter than the others | [`Cause::Blade`], [`Cause::Runout`], [`Cause::Uneven`] | `m` |
//! | A1, B1 | ring and shaft do not share a centre | [`Cause::OffCentre`] | `m` |
//! | A2, B2 | the ring is not round | [`Cause::Oval`] | `m` |
//! | s | one place swollen or gouged | [`Cause::Local`] | `m` |
//! | e | feel and roughness, normal, one a spot | | `m` |
//!
//! Angles run clockwise from 12, seen from one side throughout. [`rank`] weighs the causes,
//! [`untold`] says what the spots read cannot tell apart, [`next_readings`] which leaf to try
//! where, [`cure`] what mending one cause would do. [`fit`] and [`bounds`] are the two plainer
//! views: most likely values with errors, and what no scatter at all would allow.
//! The derivation is in `docs/theory/causes.md`.

mod bounds;
mod choose;
mod cure;
mod fit;
mod identify;
mod law;
mod leaves;
mod next;
mod survey;

pub use bounds::{Bounds, Span, bounds};
pub use choose::{Candidate, Drawn, Ranking, rank};
pub use cure::{Cured, Level, Remedy, cure, level};
pub use fit::{Column, Fit, fit, least_squares};
pub use identify::{Untold, columns_rank, untold};
pub use law::{Direction, Effect};
pub use leaves::{LeafSet, leaf_set_can_decide};
pub use next::{NextReading, Plan, next_readings, quick_plan};
pub use survey::{Cause, Frame, ROUGHNESS, Reading, Spot, Survey};
