//! Joints: thread, friction, torque and preload, turn, pattern; metals in water, compounds, seals.
//!
//! A torque is not a preload. Of what the wrench gives, a tenth to a sixth stretches the screw; the
//! rest is rubbed away in the thread and under the head, and how much depends on what is on them.
//! This crate therefore never answers with one preload for a torque: it carries the [`Friction`] of
//! a [`Condition`] as an interval to the end, and holds the result against what the screw can bear.
//!
//! - [`Thread`] and [`Screw`] say what the screw is, [`Class`] what it is made of.
//! - [`torque()`] goes from preload to torque, [`preload`] back, [`preload_range`] with all
//!   that is not known, [`convert`] from one state of lubrication to another.
//! - [`ceiling`] and [`utilisation`] hold them against yield.
//! - [`slip`] finds a figure that was misprinted or misread, [`turn`] answers "contact, then an
//!   eighth of a turn", [`pattern`] says in which order and how often, [`strip`] when the
//!   thread gives way first.
//! - [`tool`] says what a torque wrench can measure, [`shaft`] which way an impeller comes off.
//! - [`galvanic`] says which metal suffers and what to do next, [`compound`] what cures when,
//!   [`meets`] what must not meet, [`bead`] how much sealant, [`fit`] how bearings, rings and seals
//!   go in.
//!
//! A torque from a manual holds for the condition it names. Nothing here knows a torque by heart:
//! every one comes from the caller.

pub mod bead;
mod bearing;
pub mod compound;
mod conversion;
mod error;
pub mod fit;
pub mod friction;
pub mod galvanic;
mod interval;
pub mod meets;
pub mod pattern;
pub mod scatter;
pub mod shaft;
pub mod slip;
mod strength;
pub mod strip;
mod thread;
pub mod tool;
mod torque;
pub mod turn;
mod yielding;

pub use bearing::{Bearing, Head, Screw};
pub use conversion::{Conversion, Stated, convert};
pub use error::Error;
pub use friction::{Condition, Friction, FrictionRange};
pub use interval::Interval;
pub use strength::{Class, Strength};
pub use thread::{Geometry, Thread};
pub use torque::{Applied, Parts, loosening, parts, preload, preload_range, torque, torque_factor};
pub use turn::Seat;
pub use yielding::{Ceiling, ceiling, tensile_yield, utilisation};
