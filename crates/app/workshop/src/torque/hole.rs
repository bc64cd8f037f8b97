//! How deep the thread is held, and when the hole gives way.

use joint::{Interval, Thread, strip};

use crate::joints::{Hole, Joint};
use crate::tools::Fittings;

/// How deep the thread is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// The length reckoned with.
    pub length: f64,
    /// How it is known.
    pub by: By,
}

/// How the held length is known. A measured hole counts before a typed length, because it says how
/// the length comes about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum By {
    /// Typed with the joint.
    Typed,
    /// From the hole as measured, with so much thread left beyond the screw's end.
    Hole {
        /// Thread beyond the end of the screw.
        left: f64,
    },
    /// The same, in a wire insert.
    Insert {
        /// Thread beyond the end of the screw.
        left: f64,
    },
}

/// How the thread stands against the screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Held so deep, the screw breaks before its thread strips.
    pub needed: Interval,
    /// The pull at which it strips, for the depth that is known.
    pub at: Option<Interval>,
    /// How many times over it bears the preload to expect.
    pub margin: Option<Interval>,
}

pub(super) fn held(joint: &Joint, thread: &Thread, fittings: &Fittings) -> Option<Held> {
    let Some(hole) = fittings.hole.as_ref().map(|fact| &fact.value) else {
        let length = joint.engagement.as_ref()?.value;
        return Some(Held {
            length,
            by: By::Typed,
        });
    };
    let length = strip::held(&hole.numbers()).ok()?;
    let left = hole.threaded.value - hole.reach.value;
    Some(match &hole.insert {
        None => Held {
            length,
            by: By::Hole { left },
        },
        // The screw may be held over less than the insert is long, and the other way round.
        Some(nominal) => Held {
            length: strip::wire_length(nominal.value, thread.pitch)
                .map_or(length, |sits| length.min(sits)),
            by: By::Insert { left },
        },
    })
}

pub(super) fn strip(joint: &Joint, thread: &Thread, held: Option<&Held>) -> Option<Strip> {
    if joint.hole != Hole::Aluminium {
        return None;
    }
    let insert = held.is_some_and(|held| matches!(held.by, By::Insert { .. }));
    let hole = if insert {
        strip::Hole::Wire(strip::CASTING)
    } else {
        strip::Hole::Tapped(strip::CASTING)
    };
    let at = |held: &Held| strip::strips_at(thread, joint.class, hole, held.length).ok();
    Some(Strip {
        needed: strip::needed(thread, joint.class, hole).ok()?,
        at: held.and_then(at),
        margin: None,
    })
}
