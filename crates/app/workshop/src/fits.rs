//! Joints that are no circle of screws: what fits what, what its card says, how far it has come.
//!
//! To a person they are joints like the others. Here they are fits, because nothing about a circle
//! of screws holds for them.

pub mod card;
mod kinds;
pub(crate) mod mount;

use joint::shaft::{Drive, End, Hand, Rotation};
use quantity::{Entered, Unit};

use crate::entry::Key;
use crate::job::{Fact, Job};

pub use card::{FitCard, Line, Part, card};
pub use mount::{FitStop, Turning, turning};

/// A joint that is no circle of screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// What it joins, in the person's words.
    pub name: String,
    /// Which kind, with what changes its card.
    pub kind: FitKind,
    /// Where in the craft's manual; empty when not said.
    pub page: String,
}

/// Each kind with the facts that change its card.
#[derive(Clone, Debug, PartialEq)]
pub enum FitKind {
    /// A bearing or a bush pressed in.
    Press(Press),
    /// Lip seals, in order from the water.
    Lips(Vec<Lip>),
    /// An O-ring, with its rubber and its sizes where these are known.
    ORing {
        /// What it is made of.
        rubber: Option<Rubber>,
        /// Ring and groove.
        sizes: Option<Box<RingSizes>>,
    },
    /// Grease or oil filled in.
    Fill(Fill),
    /// A spline that slides in on assembly.
    Spline {
        /// Rubber bumpers belong in it.
        bumpers: bool,
        /// The manual's least play along the shaft.
        least: Option<Entered>,
        /// The manual's greatest.
        greatest: Option<Entered>,
    },
    /// A hose on its spigot.
    Hose {
        /// What runs in it.
        carries: Carries,
        /// It lies below the waterline.
        below: bool,
    },
    /// The end of a cable.
    Cable {
        /// Threads that showed beyond the nut as found.
        threads: Option<u8>,
    },
    /// A drain or filling plug.
    Plug {
        /// The manual's torque.
        torque: Option<Entered>,
    },
    /// A sacrificial anode.
    Anode {
        /// The manual's greatest resistance from anode to casting.
        greatest: Option<Entered>,
    },
    /// Shims, by stud: the studs with the clock, the first at the top.
    Shims(Vec<Entered>),
    /// The impeller on its shaft.
    Impeller(Box<Impeller>),
}

/// A kind without its facts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// [`FitKind::Impeller`].
    Impeller,
    /// [`FitKind::Press`].
    Press,
    /// [`FitKind::Lips`].
    Lips,
    /// [`FitKind::ORing`].
    ORing,
    /// [`FitKind::Fill`].
    Fill,
    /// [`FitKind::Spline`].
    Spline,
    /// [`FitKind::Shims`].
    Shims,
    /// [`FitKind::Hose`].
    Hose,
    /// [`FitKind::Cable`].
    Cable,
    /// [`FitKind::Plug`].
    Plug,
    /// [`FitKind::Anode`].
    Anode,
}

/// What is pressed in, and how tight it sits.
#[derive(Clone, Debug, PartialEq)]
pub struct Press {
    /// What.
    pub what: Pressed,
    /// Interference on the shaft, below zero for a clearance.
    pub shaft: Option<Entered>,
    /// Interference in the housing, below zero for a clearance.
    pub housing: Option<Entered>,
    /// Diameter of the tight seat.
    pub diameter: Option<Entered>,
    /// What about it has a front.
    pub front: Option<Faced>,
    /// Where it comes in the row of parts, in own words.
    pub place: String,
}

/// What is pressed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pressed {
    /// A bearing without rubber seals.
    Bearing,
    /// A bearing with rubber seals.
    SealedBearing,
    /// A bush or a ring.
    Bush,
}

/// What about a bearing has a front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Faced {
    /// It is sealed on one side.
    SealedSide,
    /// The outer ring has one wide shoulder.
    WideShoulder,
}

/// What a lip is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lip {
    /// It keeps water and grit out, or lets fresh grease leave.
    KeepsWaterOut,
    /// It keeps oil or grease in.
    KeepsGreaseIn,
    /// It holds a pressure.
    HoldsPressure,
}

/// What an O-ring is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rubber {
    /// Nitrile.
    Nitrile,
    /// EPDM.
    Epdm,
    /// Natural rubber.
    Natural,
    /// Something else.
    Other,
}

/// An O-ring and its groove, as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct RingSizes {
    /// Diameter of the cord.
    pub cord: Entered,
    /// Inner diameter of the free ring.
    pub inner: Entered,
    /// Diameter the ring is stretched over.
    pub seat: Entered,
    /// From the bottom of the groove to the face it seals against.
    pub depth: Entered,
    /// Width of the groove.
    pub width: Entered,
}

/// What is filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// Oil; else grease.
    pub oil: bool,
    /// Which, in the manual's words.
    pub product: String,
    /// How much, with its unit; empty where the manual says none.
    pub amount: String,
    /// Until when.
    pub until: Until,
}

/// Until when something is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Until {
    /// Until fresh grease shows.
    Shows,
    /// Up to the mark or the edge of the hole.
    Level,
    /// That amount and no more.
    Amount,
}

/// What runs in a hose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carries {
    /// Cooling water.
    Cooling,
    /// Bilge water.
    Bilge,
    /// Exhaust.
    Exhaust,
}

/// An impeller screwed on its shaft. There is no torque for it but its manual's.
#[derive(Clone, Debug, PartialEq)]
pub struct Impeller {
    /// Hand of the thread.
    pub hand: Hand,
    /// The end from which it goes on.
    pub goes_on_from: End,
    /// Which part drives which.
    pub drive: Drive,
    /// The manual's torque.
    pub torque: Option<Entered>,
    /// The same in the other unit the manual prints.
    pub second: Option<Entered>,
    /// What the manual puts on the thread, in its words.
    pub compound: String,
}

/// One thing to be ticked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Check {
    /// Clean, and looked over.
    Clean,
    /// Bare metal.
    Bare,
    /// Looks the right way.
    Facing,
    /// Greased as the card says.
    Greased,
    /// Bumpers are in.
    BumpersIn,
    /// What belongs on the thread is on it.
    Compound,
    /// The holder sits fully on the splines.
    HolderSeated,
    /// What was in it is out.
    OldOut,
    /// Filled.
    Filled,
    /// Until it showed, or to the level, or all of it.
    Reached,
    /// A new washer or ring.
    NewSeal,
    /// Not twisted.
    NotTwisted,
    /// Not pinched.
    NotPinched,
    /// Each stack on its own stud.
    ByStud,
    /// Home all round.
    Home,
    /// Clamped behind the bead.
    Clamped,
    /// As many threads showing as found.
    ThreadsSet,
    /// Tightened as the card says.
    Tightened,
    /// Locked.
    Locked,
    /// Pulled by hand, and held.
    Pulled,
    /// Nothing painted over.
    Unpainted,
    /// Lined up, measured after tightening.
    InLine,
    /// Full travel both ways.
    FullTravel,
    /// Turns free.
    TurnsFree,
    /// Dry after a look.
    Dry,
}

/// What was ticked, and what was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked {
    /// What was ticked, each once, in the order of [`Check`].
    pub ticks: Vec<Check>,
    /// Play of a spline, or ohms of an anode.
    pub reading: Option<Entered>,
    /// What was told then; put in by [`decide`](crate::decide::decide).
    pub shown: Option<FitShown>,
}

/// What a person was told when they ticked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FitShown {
    /// The torque of the manual.
    pub torque: Option<f64>,
    /// How to tighten the impeller, and from which end that is seen.
    pub tighten: Option<(Rotation, End)>,
    /// The least play of a spline; zero stands for "some".
    pub play_least: Option<f64>,
    /// The greatest.
    pub play_greatest: Option<f64>,
    /// The greatest resistance of an anode's seat.
    pub resistance: Option<f64>,
}

/// A fit of the job, with how far it has come.
#[derive(Clone, Debug, PartialEq)]
pub struct FitState {
    /// The position of its first description; fits stand in this order.
    pub since: u64,
    /// What was described last.
    pub fit: Fact<Fit>,
    /// The latest ticks.
    pub checked: Option<Fact<Checked>>,
}

/// What a reading must keep to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The least; zero stands for "some".
    pub least: Option<f64>,
    /// The most.
    pub greatest: Option<f64>,
    /// The unit a bare reading takes.
    pub unit: Unit,
    /// The figures are the manual's; else common practice without a source.
    pub manual: bool,
}

/// The most that an anode's seat may have where the manual says nothing, `ohm`: bare metal on bare
/// metal reads as the leads do. Common practice, no source.
pub const SEAT: f64 = 1.0;

impl Fit {
    /// What its reading must keep to; none where nothing is read.
    pub fn limit(&self) -> Option<Limit> {
        let value = |entered: &Option<Entered>| entered.as_ref().map(|entered| entered.value);
        match &self.kind {
            FitKind::Spline {
                least, greatest, ..
            } => Some(Limit {
                // A shaft without any play presses on its bearings as it warms.
                least: value(least).or(Some(0.0)),
                greatest: value(greatest),
                unit: Unit::Millimetre,
                manual: least.is_some() || greatest.is_some(),
            }),
            FitKind::Anode { greatest } => Some(Limit {
                least: None,
                greatest: value(greatest).or(Some(SEAT)),
                unit: Unit::Ohm,
                manual: greatest.is_some(),
            }),
            _ => None,
        }
    }

    /// The manual's torque.
    pub fn torque(&self) -> Option<&Entered> {
        match &self.kind {
            FitKind::Plug { torque } => torque.as_ref(),
            FitKind::Impeller(impeller) => impeller.torque.as_ref(),
            _ => None,
        }
    }
}

impl Limit {
    /// Whether a reading keeps to it.
    pub fn holds(&self, reading: f64) -> bool {
        let enough = match self.least {
            Some(least) if least > 0.0 => reading >= least,
            Some(_) => reading > 0.0,
            None => true,
        };
        enough && self.greatest.is_none_or(|greatest| reading <= greatest)
    }
}

impl FitState {
    /// What is still to be ticked.
    pub fn open(&self) -> Vec<Check> {
        let ticks = self.ticks();
        let all = self.fit.value.kind.checks().into_iter();
        all.filter(|check| !ticks.contains(check)).collect()
    }

    /// What is ticked.
    pub fn ticks(&self) -> &[Check] {
        self.checked.as_ref().map_or(&[], |fact| &fact.value.ticks)
    }

    /// What was read.
    pub fn reading(&self) -> Option<&Entered> {
        self.checked.as_ref()?.value.reading.as_ref()
    }

    /// Whether the reading keeps to its limit; true where none is asked for.
    pub fn reading_holds(&self) -> bool {
        let Some(limit) = self.fit.value.limit() else {
            return true;
        };
        self.reading()
            .is_some_and(|reading| limit.holds(reading.value))
    }
}

impl Job {
    /// The fits in the order they were first described.
    pub fn fits_in_order(&self) -> Vec<(&Key, &FitState)> {
        let mut fits: Vec<_> = self.fits.iter().collect();
        fits.sort_by_key(|(_, state)| state.since);
        fits
    }

    /// All ticked, what is read within its limit, and nothing that stops it.
    pub fn fit_done(&self, state: &FitState) -> bool {
        state.open().is_empty()
            && state.reading_holds()
            && mount::stop(self, &state.fit.value).is_none()
    }

    /// How many fits are done.
    pub fn fits_done(&self) -> usize {
        let fits = self.fits.values();
        fits.filter(|state| self.fit_done(state)).count()
    }

    /// The first fit that is not done.
    pub fn next_fit(&self) -> Option<(&Key, &FitState)> {
        let mut fits = self.fits_in_order().into_iter();
        fits.find(|(_, state)| !self.fit_done(state))
    }
}

/// What is put on record when a fit is ticked.
pub fn shown(job: &Job, fit: &Fit) -> FitShown {
    let of = |unit| fit.limit().filter(|limit| limit.unit == unit);
    let (play, seat) = (of(Unit::Millimetre), of(Unit::Ohm));
    FitShown {
        torque: fit.torque().map(|torque| torque.value),
        tighten: turning(job, fit).map(|turning| (turning.tighten, turning.seen_from)),
        play_least: play.and_then(|limit| limit.least),
        play_greatest: play.and_then(|limit| limit.greatest),
        resistance: seat.and_then(|limit| limit.greatest),
    }
}
