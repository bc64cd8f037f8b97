//! The impeller on its shaft: which way it comes off, seen from where the mechanic stands.
//!
//! Nothing is assumed of the driveline. The hand of the thread, the end the impeller goes on from
//! and which part drives which are asked for, because they differ from craft to craft; the
//! craft's manual has the last word. Whoever knows how it turns and not the hand of its thread
//! begins with [`Mount::kept_tight`]. No torque is known here.

/// A sense of turning, of something seen from an [`End`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rotation {
    /// With the clock.
    Clockwise,
    /// Against the clock.
    Anticlockwise,
}

/// Where one stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// Behind the pump, looking forward.
    Aft,
    /// Ahead of it, looking aft.
    Ahead,
}

/// The hand of a thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hand {
    /// Goes in with the clock.
    Right,
    /// Goes in against the clock.
    Left,
}

/// Which of the two the thread joins is driven by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Drive {
    /// The thread is on the drive shaft, and the shaft drives the impeller through it.
    ShaftDrivesImpeller,
    /// The drive shaft is splined into the hub; the impeller is screwed on a stub shaft and drags it
    /// along in its bearings.
    ImpellerDragsShaft,
}

/// The part that is turned while the other is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Turned {
    /// The impeller; the shaft is held.
    Impeller,
    /// The shaft; the impeller is held.
    Shaft,
}

/// An impeller screwed on its shaft.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Mount {
    /// Hand of the thread.
    pub hand: Hand,
    /// The end from which the impeller goes on its shaft.
    pub goes_on_from: End,
    /// Which part drives which.
    pub drive: Drive,
}

/// What running does to the thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Running {
    /// The torque of the pump screws the two together; it comes off hard.
    Tightens,
    /// Only the drag of bearings and seals does; it counts for nothing.
    BarelyTightens,
    /// Only the drag of bearings and seals works against it; preload alone must hold it.
    BarelyLoosens,
    /// The torque of the pump unscrews it. Look at the hand of the thread and the sense of rotation
    /// again: one of them is probably written down wrong.
    Loosens,
}

impl Rotation {
    /// The other one.
    #[must_use]
    pub const fn reversed(self) -> Self {
        match self {
            Self::Clockwise => Self::Anticlockwise,
            Self::Anticlockwise => Self::Clockwise,
        }
    }

    /// The same turning, seen from another end.
    #[must_use]
    pub fn seen(self, from: End, then: End) -> Self {
        if from == then { self } else { self.reversed() }
    }
}

impl Mount {
    /// The mount of a maker who sees to it that running tightens the thread, where its hand is not
    /// known.
    ///
    /// Common practice, no source: an assumption, to be held against the thread itself or the
    /// craft's manual before force is put on it.
    pub fn kept_tight(drive: Drive, goes_on_from: End, rotation: Rotation, seen_from: End) -> Self {
        let with = |hand| Self {
            hand,
            goes_on_from,
            drive,
        };
        match with(Hand::Right).running(rotation, seen_from) {
            Running::Tightens | Running::BarelyTightens => with(Hand::Right),
            Running::BarelyLoosens | Running::Loosens => with(Hand::Left),
        }
    }

    /// Which way to turn a part to tighten, as one sees it from an end.
    pub fn tightening(&self, turned: Turned, seen_from: End) -> Rotation {
        // Whoever looks the way the impeller goes on sees a right-hand thread go in with the clock.
        let going_on = match self.hand {
            Hand::Right => Rotation::Clockwise,
            Hand::Left => Rotation::Anticlockwise,
        };
        let seen = going_on.seen(self.goes_on_from, seen_from);
        match turned {
            Turned::Impeller => seen,
            Turned::Shaft => seen.reversed(),
        }
    }

    /// Which way to turn a part to loosen, as one sees it from an end.
    pub fn loosening(&self, turned: Turned, seen_from: End) -> Rotation {
        self.tightening(turned, seen_from).reversed()
    }

    /// What running does to the thread, from how the impeller turns as seen from an end.
    pub fn running(&self, rotation: Rotation, seen_from: End) -> Running {
        let (driving, hard) = match self.drive {
            Drive::ShaftDrivesImpeller => (Turned::Shaft, true),
            Drive::ImpellerDragsShaft => (Turned::Impeller, false),
        };
        match (self.tightening(driving, seen_from) == rotation, hard) {
            (true, true) => Running::Tightens,
            (true, false) => Running::BarelyTightens,
            (false, false) => Running::BarelyLoosens,
            (false, true) => Running::Loosens,
        }
    }
}
