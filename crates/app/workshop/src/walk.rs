//! Which leaf to try next, and where.
//!
//! The default goes one leaf round all spots and then takes the next, because changing leaves costs
//! more than turning the impeller. The quick one uses two leaves.

use clearance::{Answer, Try, bracket};
use quantity::Entered;

use crate::job::{Job, Measure, Spot, Walk};

/// The next act of the measuring walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Where.
    pub spot: Spot,
    /// With which leaf.
    pub leaf: Entered,
    /// The readings here contradict each other, so this asks again.
    pub again: bool,
}

/// How far the walk has come.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Progress {
    /// Spots that need no further leaf.
    pub done: usize,
    /// All spots.
    pub all: usize,
    /// What to try next; none when every spot is done or nothing is described yet.
    pub next: Option<Question>,
}

/// Where the walk stands.
pub fn progress(job: &Job) -> Progress {
    let (Some(_), Some(leaves)) = (&job.pump, &job.leaves) else {
        return Progress::default();
    };
    let walk = job.walk();
    let set: Vec<Entered> = match &walk {
        Walk::LeafByLeaf | Walk::RoundFirst => leaves.value.thicknesses.clone(),
        Walk::TwoLeaves { go, no_go } => vec![go.clone(), no_go.clone()],
    };
    let start = match &walk {
        Walk::LeafByLeaf | Walk::RoundFirst => first_leaf(job, &set),
        Walk::TwoLeaves { .. } => 0,
    };
    let spots = job.spots();
    let wants: Vec<Want> = spots
        .iter()
        .map(|spot| want(job, *spot, &set, start))
        .collect();
    let mut asked = wants.clone();
    if walk == Walk::RoundFirst {
        only_now(job, &spots, &mut asked);
    }
    let done = wants.iter().filter(|want| want.leaf.is_none()).count();
    let next = choose(job, &spots, &asked).and_then(|at| {
        let leaf = wants[at].leaf.clone()?;
        Some(Question {
            spot: spots[at],
            leaf,
            again: wants[at].again,
        })
    });
    Progress {
        done,
        all: spots.len(),
        next,
    }
}

/// Leaves wanted only where the round has come: blade A, then every blade at A's tightest place,
/// then wherever anything is left.
fn only_now(job: &Job, spots: &[Spot], wants: &mut [Want]) {
    let open = |wants: &[Want], now: &dyn Fn(Spot) -> bool| {
        spots
            .iter()
            .zip(wants)
            .any(|(spot, want)| want.leaf.is_some() && now(*spot))
    };
    let tightest = tightest(job, spots);
    let phases: [&dyn Fn(Spot) -> bool; 2] = [&|spot| spot.blade == 0, &|spot| {
        spot.blade == 0 || Some(spot.position) == tightest
    }];
    if let Some(now) = phases.into_iter().find(|now| open(wants, now)) {
        let later = spots.iter().zip(wants).filter(|(spot, _)| !now(**spot));
        later.for_each(|(_, want)| want.leaf = None);
    }
}

/// The place where the thinnest leaf won't go under blade A, or else where the thinnest one goes.
fn tightest(job: &Job, spots: &[Spot]) -> Option<u8> {
    let felt = spots
        .iter()
        .filter(|spot| spot.blade == 0)
        .filter_map(|spot| {
            let bracket = bracket(&job.tries_at(*spot)).ok()?;
            Some((
                spot.position,
                bracket.goes.unwrap_or(0.0),
                bracket.wont.unwrap_or(f64::INFINITY),
            ))
        });
    let tighter = felt.min_by(|a, b| a.1.total_cmp(&b.1).then(a.2.total_cmp(&b.2)));
    tighter.map(|(position, ..)| position)
}

#[derive(Clone)]
struct Want {
    /// The leaf to try here next; none when the spot is done.
    leaf: Option<Entered>,
    /// The readings here contradict each other.
    again: bool,
}

impl Want {
    fn is(&self, leaf: &Entered) -> bool {
        self.leaf
            .as_ref()
            .is_some_and(|wanted| same(wanted.value, leaf.value))
    }
}

/// Leaves are the same leaf when their thickness is the same to the last bit.
fn same(a: f64, b: f64) -> bool {
    a.total_cmp(&b).is_eq()
}

/// Where most spots are known, the leaf in the middle of those that go there; before that the leaf
/// nearest to the manual's least figure, or the middle of the set.
fn first_leaf(job: &Job, set: &[Entered]) -> usize {
    let known = job
        .spots()
        .into_iter()
        .filter_map(|spot| bracket(&job.tries_at(spot)).ok()?.goes);
    let mut goes: Vec<f64> = known.collect();
    goes.sort_by(f64::total_cmp);
    let limits = job.limits.as_ref().map(|limits| &limits.value);
    let stated = limits.and_then(|l| l.least.as_ref().or(l.greatest.as_ref()));
    let sides = match limits.map(|l| l.measure) {
        Some(Measure::Diametral) => 2.0,
        _ => 1.0,
    };
    let aim = if 2 * goes.len() >= job.spots().len() {
        goes.get(goes.len() / 2).copied()
    } else {
        stated.map(|limit| limit.value / sides)
    };
    let Some(aim) = aim else { return set.len() / 2 };
    let away = |at: &usize| (set[*at].value - aim).abs();
    let nearest = (0..set.len()).min_by(|a, b| away(a).total_cmp(&away(b)));
    nearest.unwrap_or(0)
}

fn want(job: &Job, spot: Spot, set: &[Entered], start: usize) -> Want {
    let tries = job.tries_at(spot);
    let bracket = match bracket(&tries) {
        Ok(bracket) => bracket,
        // Ask the thicker leaf again: that it goes is the bolder claim.
        Err(contradiction) => {
            let there = job.tries.get(&spot).into_iter().flatten();
            let mut leaves = there.map(|tried| &tried.value.leaf);
            let leaf = leaves
                .find(|leaf| same(leaf.value, contradiction.goes))
                .cloned();
            return Want { leaf, again: true };
        }
    };
    let drags = bracket.goes.is_some_and(|goes| drags(&tries, goes));
    let above = |leaf: &Entered| bracket.goes.is_none_or(|goes| leaf.value > goes);
    let below = |leaf: &Entered| bracket.wont.is_none_or(|wont| leaf.value < wont);
    let mut open = set.iter().filter(|leaf| above(leaf) && below(leaf));
    let leaf = match (bracket.goes, bracket.wont) {
        (None, None) => set.get(start),
        _ if drags => None,
        (None, Some(_)) => open.next_back(),
        (Some(_), _) => open.next(),
    };
    Want {
        leaf: leaf.cloned(),
        again: false,
    }
}

/// Stays with the leaf in hand while a spot wants it, from the last spot onward; then takes the leaf
/// that most spots want. A contradiction comes first.
fn choose(job: &Job, spots: &[Spot], wants: &[Want]) -> Option<usize> {
    if let Some(again) = wants.iter().position(|want| want.again) {
        return Some(again);
    }
    let wanting = |leaf: &Entered| wants.iter().filter(|want| want.is(leaf)).count();
    let in_hand = job
        .latest
        .as_ref()
        .filter(|(_, tried)| wanting(&tried.leaf) > 0);
    let (leaf, after) = if let Some((spot, tried)) = in_hand {
        let at = spots.iter().position(|s| s == spot);
        (&tried.leaf, at.map_or(0, |at| at + 1))
    } else {
        let wanted = wants.iter().rev().filter_map(|want| want.leaf.as_ref());
        (wanted.max_by_key(|leaf| wanting(leaf))?, 0)
    };
    (after..wants.len())
        .chain(0..after)
        .find(|at| wants[*at].is(leaf))
}

/// Whether the thickest leaf that goes drags, by its latest answer: then no thicker one is needed.
pub(crate) fn drags(tries: &[Try], goes: f64) -> bool {
    let latest = tries.iter().rev().find(|tried| same(tried.thickness, goes));
    latest.is_some_and(|tried| tried.answer == Answer::Drags)
}
