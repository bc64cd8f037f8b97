//! The Measure answer: how wide the gap is, how sure that is, and whether it is in tolerance.

use std::collections::BTreeMap;

use clearance::causes;
use clearance::{Bracket, Budget, Conformity, Contradiction, Estimate, Feel, Model, Try, Verdict};
use quantity::Entered;
use sha2::{Digest, Sha256};

use crate::draft::{LEADS, MEASURES, word};
use crate::job::{Fact, Job, Lead, LeafSet, Measure, Pump, Spot};
use crate::reading::answer_word;
use crate::refusal::Need;
use crate::sourced::Sourced;
use crate::why::{Round, Why};

/// The probability asked for before a verdict is given: the default of `iso-14253-1`.
pub const REQUIRED: f64 = 0.95;
/// One seed for all: the same readings give the same words on every device.
pub(crate) const SEED: u64 = 1;
/// Half width of the leaves' thickness error when nobody measured them, `m`. Assumed, no source.
pub const LEAF_TOLERANCE: f64 = 0.000_005;
/// How much the gap may vary from spot to spot before readings say so, `m`. Assumed, no source.
pub const SPREAD: f64 = 0.000_05;

/// All that the answer depends on, drawn from the job. Equal inputs give equal answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Inputs {
    pub(crate) evidence: String,
    pub(crate) positions: u8,
    pub(crate) spots: Vec<(Spot, Vec<Try>)>,
    pub(crate) model: Model,
    /// Radius of the ring as described, `m`.
    pub(crate) radius: f64,
    /// The leaves there are, `m`.
    pub(crate) leaves: Vec<f64>,
    pub(crate) limits: Option<Allowed>,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Allowed {
    pub(crate) least: Option<f64>,
    pub(crate) greatest: Option<f64>,
    pub(crate) measure: Measure,
    pub(crate) rub_in: bool,
}

/// In, out on a side, or why neither can be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Standing {
    /// Within the manual's limits, at [`REQUIRED`].
    In,
    /// Beyond a limit, at [`REQUIRED`].
    Out(Side),
    /// Neither.
    Undecided(Doubt),
}

/// Which limit is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Tighter than the least.
    Tight,
    /// Wider than the greatest.
    Wide,
    /// Both, at different spots.
    Both,
}

/// Why nothing can be said yet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doubt {
    /// No limit is stated.
    NoLimits,
    /// All that is stated is waived: a least figure where a new ring may rub itself in.
    NothingAsked,
    /// No reading can be used.
    NoReadings,
    /// Readings contradict each other at this many spots.
    Contradiction(usize),
    /// This many spots have no reading.
    Unread(usize),
    /// This many spots lack the leaf that goes, or the one that won't, which the limits ask for.
    OneSided(usize),
    /// Every leaf goes everywhere: no upper end.
    NoUpperEnd,
    /// The readings are complete and the limit lies inside the uncertainty.
    TooClose,
}

/// The numbers behind the verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The least radial gap of all spots read.
    pub least: Sourced<f64>,
    /// Their mean.
    pub mean: Sourced<f64>,
    /// The greatest.
    pub greatest: Sourced<f64>,
    /// The spot with the smallest estimate.
    pub tightest: Spot,
    /// The spot with the largest estimate.
    pub widest: Spot,
    /// Every spot read.
    pub spots: BTreeMap<Spot, Estimate>,
    /// Both gaps of one blade at opposite positions, taken together; only where the limits ask for
    /// that and a blade is read at both.
    pub across: Option<Across>,
    /// Per clock position, the blade nearest to a limit, or beyond it, of those read there; the
    /// tightest one without limits.
    pub positions: Vec<Option<Estimate>>,
}

/// The least and the greatest sum of two opposite gaps, each with the earlier of its two spots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// The least.
    pub least: (Spot, Estimate),
    /// The greatest.
    pub greatest: (Spot, Estimate),
}

/// What the leaves say at one spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// No leaf tried.
    Unread,
    /// Largest that goes, smallest that won't.
    Bracket(Bracket),
    /// This leaf drags, and no thicker one was tried: it bounds the gap from both sides.
    Drags(f64),
    /// A thicker leaf goes where a thinner one won't.
    Contradiction(Contradiction),
}

/// The answer of the Measure stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// In, out or undecided.
    pub standing: Standing,
    /// Where the thickest leaf goes that is thicker than the limit allows, and that leaf.
    pub beyond: Option<(Spot, f64)>,
    /// The numbers; none without a usable reading or an upper end.
    pub gap: Option<Gap>,
    /// The probabilities; none without numbers or limits.
    pub conformity: Option<Conformity>,
    /// What each spot's leaves say.
    pub readings: BTreeMap<Spot, Reading>,
    /// Spots whose interval lies beyond a limit, or straddles one.
    pub marks: BTreeMap<Spot, Mark>,
    /// The spot the verdict turns on and where its uncertainty comes from; none without an upper end
    /// there.
    pub budget: Option<(Spot, Budget)>,
    /// Why the gap is as it is; none while too little is read.
    pub why: Option<Why>,
    /// The ring's form, where one blade was carried far enough round it.
    pub round: Option<Round>,
    /// Whether these leaves can decide these limits at all; none without radial limits, and once the
    /// round has begun.
    pub leaves: Option<causes::LeafSet>,
    /// The model used.
    pub model: Model,
    /// Digest of the inputs: equal for equal answers by this program.
    pub digest: String,
    /// Digest of what the person measured and stated: see [`evidence`].
    pub evidence: String,
}

/// How one spot stands against the limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Its whole interval is allowed.
    In,
    /// Its interval straddles a limit.
    Near,
    /// Its whole interval is beyond a limit.
    Out,
}

/// What a person was shown when they took the result.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Digest of what was measured and stated: see [`evidence`].
    pub evidence: String,
    /// The verdict.
    pub verdict: Verdict,
    /// Probability of being within the limits, where limits were stated.
    pub within: Option<f64>,
    /// The probability asked for.
    pub required: f64,
    /// Least gap.
    pub least: Estimate,
    /// Mean gap.
    pub mean: Estimate,
    /// Greatest gap.
    pub greatest: Estimate,
}

impl Inputs {
    /// Draws the inputs from the job, or says what must be described first.
    pub fn of(job: &Job) -> Result<Self, Need> {
        let pump = &job.pump.as_ref().ok_or(Need::Pump)?.value;
        let leaves = &job.leaves.as_ref().ok_or(Need::Leaves)?.value;
        let spots = job
            .spots()
            .into_iter()
            .map(|spot| (spot, job.tries_at(spot)))
            .collect();
        let limits = job
            .limits
            .as_ref()
            .map(|Fact { value: limits, .. }| Allowed {
                least: limits.least.as_ref().map(|l| l.value),
                greatest: limits.greatest.as_ref().map(|l| l.value),
                measure: limits.measure,
                rub_in: limits.rub_in,
            });
        Ok(Self {
            evidence: evidence(job)?,
            positions: pump.positions,
            spots,
            model: model(pump, leaves),
            radius: pump.bore.value / 2.0,
            leaves: leaves.thicknesses.iter().map(|leaf| leaf.value).collect(),
            limits,
        })
    }

    /// A short name for exactly these inputs.
    pub fn digest(&self) -> String {
        short_digest(&format!("{self:?}"))
    }
}

/// Names what was measured and stated, so that a result taken once is known to rest on it or not.
///
/// Written out field by field and versioned, apart from any formula or default of ours: a later
/// program with another model still recognises the readings.
pub fn evidence(job: &Job) -> Result<String, Need> {
    let pump = &job.pump.as_ref().ok_or(Need::Pump)?.value;
    let leaves = &job.leaves.as_ref().ok_or(Need::Leaves)?.value;
    let bits = |entered: &Entered| entered.value.to_bits();
    let maybe = |entered: &Option<Entered>| entered.as_ref().map_or(0, bits);
    let mut words = vec![format!(
        "1 {} {} {} {} {} {} {}",
        pump.blades,
        pump.positions,
        bits(&pump.bore),
        bits(&leaves.width),
        word(&LEADS, leaves.lead),
        maybe(&leaves.tolerance),
        maybe(&leaves.feel),
    )];
    if let Some(Fact { value: limits, .. }) = &job.limits {
        let (least, greatest) = (maybe(&limits.least), maybe(&limits.greatest));
        let measure = word(&MEASURES, limits.measure);
        words.push(format!("{least} {greatest} {measure} {}", limits.rub_in));
    }
    for (spot, tries) in &job.tries {
        for Fact { value: tried, .. } in tries {
            let (leaf, answer) = (bits(&tried.leaf), answer_word(tried.answer));
            words.push(format!("{} {} {leaf} {answer}", spot.blade, spot.position));
        }
    }
    Ok(short_digest(&words.join(" ")))
}

/// The first 24 digits of the SHA-256 of a text.
pub(crate) fn short_digest(text: &str) -> String {
    format!("{:x}", Sha256::digest(text))[..24].to_owned()
}

/// How the leaves are felt on this pump.
fn model(pump: &Pump, leaves: &LeafSet) -> Model {
    let chord = match leaves.lead {
        // Refused only for a leaf wider than the bore, which `decide` has ruled out.
        Lead::AlongShaft => {
            clearance::sagitta(pump.bore.value / 2.0, leaves.width.value).unwrap_or(0.0)
        }
        Lead::RoundRing | Lead::UnderEdge => 0.0,
    };
    let given = |entered: &Option<Entered>| entered.as_ref().map(|e| e.value);
    Model {
        feel: given(&leaves.feel).map_or_else(Feel::default, Feel::from_allowance),
        leaf_tolerance: given(&leaves.tolerance).unwrap_or(LEAF_TOLERANCE),
        chord,
        spread: SPREAD,
    }
}

impl Judgement {
    /// What a person takes when they take this result; none without numbers.
    pub fn shown(&self) -> Option<Shown> {
        let gap = self.gap.as_ref()?;
        Some(Shown {
            evidence: self.evidence.clone(),
            verdict: match self.standing {
                Standing::In => Verdict::In,
                Standing::Out(_) => Verdict::Out,
                Standing::Undecided(_) => Verdict::Undecided,
            },
            within: self.conformity.as_ref().map(|c| c.within),
            required: REQUIRED,
            least: gap.least.estimate(),
            mean: gap.mean.estimate(),
            greatest: gap.greatest.estimate(),
        })
    }
}
