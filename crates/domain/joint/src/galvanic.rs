//! Metals that touch in water: which one suffers, which joint of a pump first, and what to do next.
//!
//! On a pump of stainless steel in cast aluminium every pair is a bad one by its voltage, so the
//! voltage says little. What tells the joints apart is the water and how much bare noble metal draws
//! on how little bare base metal; [`rank`] goes by these.

use crate::error::{not_negative, positive};
use crate::{Error, Interval};

/// A metal as it stands in the water.
///
/// Stainless steel keeps its passive skin where oxygen reaches it, and loses it in a crevice, under
/// a seal or in still water; then it is active.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Metal {
    /// Graphite, or plastic filled with carbon fibre.
    Carbon,
    /// Titanium.
    Titanium,
    /// Stainless steel 316 (A4), also as a casting, passive.
    Stainless316,
    /// Stainless steel 304 (A2), passive.
    Stainless304,
    /// Stainless steel 17-4 PH, passive.
    Stainless17_4,
    /// Nickel-aluminium bronze.
    NickelAluminiumBronze,
    /// Tin bronze.
    TinBronze,
    /// Copper.
    Copper,
    /// Aluminium bronze.
    AluminiumBronze,
    /// Brass, yellow, red or naval.
    Brass,
    /// Stainless steel 316, active.
    Active316,
    /// Stainless steel 304 or 17-4 PH, active.
    Active304,
    /// Mild steel or cast iron.
    Steel,
    /// Aluminium, cast or wrought.
    Aluminium,
    /// Zinc.
    Zinc,
    /// Aluminium alloyed with zinc and indium, as anodes are made of it.
    AnodeAluminium,
    /// Magnesium.
    Magnesium,
}

/// Keys of the bibliography a row rests on; none where it is from memory.
type Keys = &'static [&'static str];

const SERIES: Keys = &["aca-potentials"];
/// A second printing, where it is the wider one.
const WIDER: Keys = &["boatbuilder-2006"];
/// Spans two printings that disagree.
const BOTH: Keys = &["aca-potentials", "boatbuilder-2006"];
const FROM_MEMORY: Keys = &[];

impl Metal {
    /// Every metal, the noblest first.
    pub const ALL: [Self; 17] = [
        Self::Carbon,
        Self::Titanium,
        Self::Stainless316,
        Self::Stainless304,
        Self::Stainless17_4,
        Self::NickelAluminiumBronze,
        Self::TinBronze,
        Self::Copper,
        Self::AluminiumBronze,
        Self::Brass,
        Self::Active316,
        Self::Active304,
        Self::Steel,
        Self::Aluminium,
        Self::Zinc,
        Self::AnodeAluminium,
        Self::Magnesium,
    ];

    /// Its potential in flowing sea water against saturated calomel, `V`, and what it rests on.
    ///
    /// In fresh water the order mostly stands and the figures do not.
    const fn row(self) -> (f64, f64, Keys) {
        match self {
            Self::Carbon => (0.20, 0.30, SERIES),
            Self::Titanium => (0.04, 0.06, SERIES),
            Self::Stainless316 => (-0.10, 0.00, SERIES),
            Self::Stainless304 => (-0.10, -0.04, SERIES),
            // Not in the series; reckoned like 304.
            Self::Stainless17_4 => (-0.10, -0.04, FROM_MEMORY),
            Self::NickelAluminiumBronze => (-0.22, -0.14, SERIES),
            Self::TinBronze => (-0.32, -0.24, SERIES),
            Self::Copper => (-0.37, -0.30, SERIES),
            Self::AluminiumBronze => (-0.42, -0.31, WIDER),
            Self::Brass => (-0.40, -0.30, WIDER),
            Self::Active316 => (-0.54, -0.33, BOTH),
            Self::Active304 => (-0.58, -0.44, SERIES),
            Self::Steel => (-0.72, -0.60, SERIES),
            Self::Aluminium => (-1.00, -0.76, SERIES),
            Self::Zinc => (-1.03, -0.98, SERIES),
            Self::AnodeAluminium => (-1.10, -1.05, FROM_MEMORY),
            Self::Magnesium => (-1.65, -1.60, WIDER),
        }
    }

    /// Its potential in flowing sea water against a saturated calomel electrode, in volts.
    ///
    /// Source: `aca-potentials`, `boatbuilder-2006`; row by row in [`Metal::keys`].
    pub const fn potential(self) -> Interval {
        let (low, high, _) = self.row();
        Interval { low, high }
    }

    /// The keys of the bibliography its potential rests on, none where it is from memory.
    pub const fn keys(self) -> &'static [&'static str] {
        self.row().2
    }

    /// Whether it is there to be eaten.
    pub const fn is_anode(self) -> bool {
        matches!(self, Self::Zinc | Self::AnodeAluminium | Self::Magnesium)
    }
}

/// The water a pump runs in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Water {
    /// Lakes and rivers: it conducts badly, so that the attack stays close to the joint.
    Fresh,
    /// Where rivers meet the sea.
    Brackish,
    /// The sea.
    Salt,
}

impl Water {
    /// The metals of which an anode works in it, the best first.
    ///
    /// Zinc covers itself with a hard skin in fresh water, and magnesium in salt water drives so
    /// hard that paint lifts. A craft that changes waters goes by the saltier one.
    ///
    /// Source: `anode-choice`; that aluminium does in fresh water is from memory.
    pub const fn anodes(self) -> &'static [Metal] {
        match self {
            Self::Fresh => &[Metal::Magnesium, Metal::AnodeAluminium],
            Self::Brackish => &[Metal::AnodeAluminium],
            Self::Salt => &[Metal::Zinc, Metal::AnodeAluminium],
        }
    }
}

/// Which of two metals suffers, and how hard they drive one another.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `driving` | U | potential of the noble metal over the base one, sea water | `V` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Couple {
    /// The noble one: it stays whole, and drives.
    pub cathode: Metal,
    /// The base one: it is eaten.
    pub anode: Metal,
    /// Potential of the noble metal over the base one. Below zero at its lower end, the two may
    /// change parts.
    pub driving: Interval,
}

impl Couple {
    /// The couple two metals make, the middle of their potentials deciding which is which.
    pub fn of(one: Metal, other: Metal) -> Self {
        let middle = |metal: Metal| metal.potential().low + metal.potential().high;
        let nobler = middle(one).total_cmp(&middle(other));
        // Of two that are alike, the one that stands first in the list is the noble one.
        let (cathode, anode) = if nobler.then(other.cmp(&one)).is_lt() {
            (other, one)
        } else {
            (one, other)
        };
        let (high, low) = (cathode.potential(), anode.potential());
        let driving = if cathode == anode {
            Interval::point(0.0)
        } else {
            Interval {
                low: high.low - low.high,
                high: high.high - low.low,
            }
        };
        Self {
            cathode,
            anode,
            driving,
        }
    }

    /// Whether it is certain which of the two suffers.
    pub fn is_certain(&self) -> bool {
        self.driving.low > 0.0
    }
}

/// How many times faster the base metal goes than alone, where oxygen sets the pace.
///
/// `p / p0 = 1 + Ac / Aa`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cathode` | Ac | bare wetted area of the noble metal | `m^2` |
/// | `anode` | Aa | bare wetted area of the base metal | `m^2` |
/// | returns | p/p0 | attack over attack without the noble metal | `1` |
///
/// Range: `Ac >= 0`, `Aa > 0`.
/// Source: `mansfeld-1971`, its case 3; the form from memory.
///
/// # Errors
/// [`Error::Negative`] or [`Error::NotPositive`] outside the range.
pub fn attack(cathode: f64, anode: f64) -> Result<f64, Error> {
    let cathode = not_negative("the bare area of the noble metal", cathode)?;
    let anode = positive("the bare area of the base metal", anode)?;
    Ok(1.0 + cathode / anode)
}

/// What may lie between two parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Between {
    /// A washer under the head and a sleeve round the shank, of nylon, acetal or glass fibre.
    WasherAndSleeve,
    /// A washer alone: the shank still touches.
    WasherAlone,
    /// A gasket, the screws through it sleeved.
    Gasket,
    /// A film of cured sealant: the faces still touch through it where they are clamped.
    Sealant,
    /// Grease or paste: it is pressed out where they touch, and washes off.
    Grease,
    /// Paint: it creeps and cracks under a head.
    Paint,
    /// A hard-anodised face, whole: a scratch undoes it.
    HardAnodised,
    /// A chromate or phosphate film.
    Conversion,
    /// Plastic filled with carbon fibre.
    CarbonPlastic,
}

impl Between {
    /// Whether no current flows through it for years to come.
    ///
    /// Source: `mil-dtl-14072` for anodised, chromate and phosphate films; the rest is common
    /// practice.
    pub const fn insulates(self) -> bool {
        matches!(
            self,
            Self::WasherAndSleeve | Self::Gasket | Self::HardAnodised
        )
    }
}

/// A measure against the attack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Measure {
    /// It is taken.
    Taken,
    /// It could be taken.
    Open,
    /// It cannot be taken here: an impeller cannot be insulated from its bearings.
    Shut,
}

/// One of the two parts of a joint.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `bare` | A | wetted metal without a whole coat | `m^2` |
///
/// Only what the current reaches counts: in salt water all of the pump, in fresh water what lies next
/// to the joint. It is never zero: a whole coat has a scratch that nobody sees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// What it is made of.
    pub metal: Metal,
    /// Wetted metal without a whole coat.
    pub bare: f64,
}

/// Two parts that touch, in their water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// The two parts, in whatever order.
    pub parts: [Part; 2],
    /// The water.
    pub water: Water,
    /// Something [`Between`] them that insulates.
    pub insulation: Measure,
    /// A seal that keeps water from where they touch and from all bare metal nearby.
    pub seal: Measure,
    /// A coat on the noble part. Painting only the base one drives the attack into its scratches.
    pub coat: Measure,
    /// An anode in metallic contact with both.
    pub anode: Measure,
}

/// How bad a contact is, and what to do about it.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `attack` | p/p0 | attack over attack without the noble metal | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risk {
    /// Which metal suffers.
    pub couple: Couple,
    /// Attack over attack without the noble metal, while current flows.
    pub attack: f64,
    /// Whether a part is being eaten that should last: current flows, and what suffers is no anode.
    pub threatens: bool,
    /// The next thing to do.
    pub next: Step,
}

/// What to do next about a contact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    /// Nothing: the metals do not drive one another, or no current can flow.
    Nothing,
    /// Put something between them that insulates.
    Insulate,
    /// Keep the water away.
    Seal,
    /// Paint the noble part.
    CoatCathode,
    /// Fit an anode of this metal, bare metal to bare metal.
    Anode(Metal),
    /// Keep it bare and connected: this contact is the anode at work.
    KeepBare,
    /// Every measure is taken or shut: look at it each season.
    Inspect,
}

/// Up to this the two need no measure, `V`.
///
/// Source: `galvanic-chart`.
const QUIET: f64 = 0.2;

impl Contact {
    /// How bad the contact is, and the next thing to do about it, the surest measure first.
    ///
    /// # Errors
    /// [`Error::NotPositive`] without bare metal on both parts.
    pub fn risk(&self) -> Result<Risk, Error> {
        let [one, other] = self.parts;
        let couple = Couple::of(one.metal, other.metal);
        let (cathode, anode) = if couple.cathode == one.metal {
            (one, other)
        } else {
            (other, one)
        };
        positive("the bare area of the noble metal", cathode.bare)?;
        let attack = attack(cathode.bare, anode.bare)?;
        let live = self.insulation != Measure::Taken && self.seal != Measure::Taken;
        let driven = couple.driving.high > QUIET;
        let sacrificed = anode.metal.is_anode() && cathode.metal != anode.metal;
        Ok(Risk {
            couple,
            attack,
            threatens: live && driven && !sacrificed,
            next: if sacrificed {
                self.at_the_anode(anode.metal, live)
            } else if live && driven {
                self.ladder()
            } else {
                Step::Nothing
            },
        })
    }

    /// An anode works where its metal suits the water and nothing cuts it off.
    fn at_the_anode(&self, metal: Metal, live: bool) -> Step {
        let fit = self.water.anodes();
        match fit.contains(&metal) {
            true if live => Step::KeepBare,
            true => Step::Anode(metal),
            false => Step::Anode(fit[0]),
        }
    }

    fn ladder(&self) -> Step {
        let ladder = [
            (self.insulation, Step::Insulate),
            (self.seal, Step::Seal),
            (self.coat, Step::CoatCathode),
            (self.anode, Step::Anode(self.water.anodes()[0])),
        ];
        ladder
            .into_iter()
            .find(|(measure, _)| *measure == Measure::Open)
            .map_or(Step::Inspect, |(_, step)| step)
    }
}

/// The contacts of one pump, the worst first: each with its place in the list given.
///
/// What threatens a part goes before what does not, salt water before fresh, much noble metal on
/// little base metal before the reverse, and only then the greater voltage.
///
/// # Errors
/// [`Error::NotPositive`] where a part has no bare metal, [`Error::Empty`] without a contact.
pub fn rank(contacts: &[Contact]) -> Result<Vec<(usize, Risk)>, Error> {
    if contacts.is_empty() {
        return Err(Error::Empty { what: "contact" });
    }
    let risks = contacts.iter().map(Contact::risk);
    let mut ranked: Vec<_> = risks
        .enumerate()
        .map(|(place, risk)| Ok((place, risk?)))
        .collect::<Result<_, Error>>()?;
    let first = |(place, risk): &(usize, Risk)| (risk.threatens, contacts[*place].water);
    let voltage = |risk: &Risk| risk.couple.driving.low + risk.couple.driving.high;
    ranked.sort_by(|a, b| {
        first(b)
            .cmp(&first(a))
            .then(b.1.attack.total_cmp(&a.1.attack))
            .then(voltage(&b.1).total_cmp(&voltage(&a.1)))
    });
    Ok(ranked)
}
