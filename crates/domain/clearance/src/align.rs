//! Whether the engine's shaft is in line with the pump's, and what brings it there.
//!
//! The pump stands still and the engine is moved. Seen by a person behind the craft who looks forward
//! along the pump's axis: `x` runs forward from the plane of the coupling, up is up, port is to the
//! left; 12 o'clock is up, 3 is starboard, 6 is down, 9 is port. A dial reads more when its plunger is
//! pushed in.
//!
//! 1. [`sweep`] takes four readings round the clock, tells whether they close, and parts what stays
//!    from what turns with the shaft. A swing of the dial is a [`Total`](sweep::Total), twice an offset,
//!    so that nobody halves it twice.
//! 2. [`coupling`] turns totals into where the engine's axis lies: offset and slope, up and to port.
//! 3. [`mounts`] says by how much every mount must move, and what a mount left off does at the coupling.
//! 4. [`stacks`] chooses the shims at hand that land nearest.
//! 5. [`limits`] says how probably two axes lie within a limit.
//!
//! Angles are small: sines are taken for angles, which is wrong by less than a part in a thousand up
//! to 3 degrees. The derivation is in `docs/theory/alignment.md`.

pub mod coupling;
pub mod limits;
pub mod mounts;
pub mod stacks;
pub mod sweep;
