//! How likely each fault is by all that is known.

use statrs::distribution::{ChiSquared, ContinuousCDF};

use crate::Error;
use crate::check::{Check, Found};
use crate::fault::{ByFault, FAULTS, Fault, normalised};
use crate::signature::{Seen, Signature};
use crate::symptom::{Answered, Symptom, likelihoods, log};

/// What is not on the list changes anything, by so many times what the model may be off.
const WIDE: f64 = 4.0;
/// Below this chance of what was seen, no single fault explains it.
const UNFIT: f64 = 0.01;

/// All that speaks for one fault or another.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// Quantities seen, as the signatures have them.
    pub seen: Vec<Option<Seen>>,
    /// Symptoms asked for.
    pub answers: Vec<Answered>,
    /// Checks done; of the same check the last counts.
    pub found: Vec<Found>,
}

/// One piece of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Item {
    /// The quantity at this place.
    Seen(usize),
    /// A symptom.
    Answer(Symptom),
    /// A check.
    Check(Check),
}

impl Evidence {
    /// Every piece of it once.
    pub fn items(&self) -> Vec<Item> {
        let seen = self.seen.iter().enumerate();
        let seen = seen.filter_map(|(at, seen)| seen.map(|_| Item::Seen(at)));
        let answers = self.answers.iter().map(|one| Item::Answer(one.symptom));
        let found = self.found.iter().map(|one| Item::Check(one.check));
        let mut items = Vec::new();
        for item in seen.chain(answers).chain(found) {
            if !items.contains(&item) {
                items.push(item);
            }
        }
        items
    }

    /// The same without one piece.
    #[must_use]
    pub fn without(&self, item: Item) -> Self {
        let mut rest = self.clone();
        match item {
            Item::Seen(at) => rest.seen[at] = None,
            Item::Answer(symptom) => rest.answers.retain(|one| one.symptom != symptom),
            Item::Check(check) => rest.found.retain(|one| one.check != check),
        }
        rest
    }

    /// What answers and checks say of each fault.
    fn told(&self) -> ByFault {
        let mut told = likelihoods(&self.answers);
        for (at, one) in self.found.iter().enumerate() {
            let later = &self.found[at + 1..];
            if later.iter().any(|other| other.check == one.check) {
                continue;
            }
            let logs = log(&one.check.chances(), one.something);
            for (sum, log) in told.iter_mut().zip(logs) {
                *sum += log;
            }
        }
        told
    }
}

/// Signatures of faults: what is seen of them. Empty where the craft cannot be reckoned, else with nothing wrong
/// among them once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// One of nothing wrong, and those of every fault and severity.
    pub signatures: Vec<Signature>,
}

impl Table {
    fn of(&self, fault: Fault) -> impl Iterator<Item = &Signature> {
        self.signatures.iter().filter(move |one| one.fault == fault)
    }

    /// What is seen where nothing is wrong; none of an empty table.
    fn nothing(&self) -> Result<Option<&Signature>, Error> {
        if self.signatures.is_empty() {
            return Ok(None);
        }
        let count = self.of(Fault::Nothing).count();
        crate::error::as_long("signatures of nothing wrong", count, 1)?;
        Ok(self.of(Fault::Nothing).next())
    }
}

/// How a fault stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// The fault.
    pub fault: Fault,
    /// Its probability.
    pub chance: f64,
    /// Mean severity if it is this one; none where it has no sizes, or nothing seen tells of them.
    pub severity: Option<f64>,
}

/// How all faults stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The faults, most likely first.
    pub causes: Vec<Cause>,
    /// The same in the order of [`Fault::ALL`].
    pub chances: ByFault,
    /// Log evidence of each, without its prior.
    pub evidence: ByFault,
    /// Chance that what was seen lies so far off under the fault that explains it best.
    pub fit: f64,
    /// Where no single fault explains it: pairs that do, each with its share among all pairs.
    pub pairs: Vec<(Fault, Fault, f64)>,
}

/// Weighs all faults by all evidence.
///
/// `p(f | y) = pi_f L_f / sum_g pi_g L_g`, `L_f = prod_i p(a_i | f) · sum_s w_fs N(y; m_fs, S_fs + U)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `prior` | `pi`, by fault; need not add up to one | `1` |
/// | `table` | `m`, `S`, shares `w`, by fault and severity `s` |  |
/// | `evidence` | quantities seen `y` with uncertainties `U`, answers and checks `a` |  |
/// | `returns` | every fault's chance |  |
///
/// Range: evidence that depends on the fault alone, not on other evidence.
/// Source: `breese-1996` for troubleshooting by such inference.
///
/// # Errors
/// A prior below nought, or nought for all that could have been seen so; a table without one signature of nothing
/// wrong; what [`Signature::density`] refuses.
pub fn weigh(prior: &ByFault, table: &Table, evidence: &Evidence) -> Result<Weighed, Error> {
    for share in prior {
        crate::error::within("prior", *share, 0.0, f64::MAX)?;
    }
    let told = evidence.told();
    let (logs, severities) = by_fault(table, evidence)?;
    let all: ByFault = std::array::from_fn(|at| told[at] + logs[at]);
    let chances = posterior(prior, &all);
    if chances.iter().any(|chance| chance.is_nan()) {
        return Err(Error::Degenerate);
    }
    let fit = fit(prior, table, evidence)?;
    let pairs = if fit < UNFIT {
        pairs(prior, table, evidence)?
    } else {
        Vec::new()
    };
    Ok(Weighed {
        causes: ranked(&chances, &severities),
        chances,
        evidence: all,
        fit,
        pairs,
    })
}

/// How faults stand before anything is known.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `prior` | by fault; need not add up to one | `1` |
/// | `returns` | the same as chances |  |
///
/// Range: not all nought.
/// Source: definition.
pub fn beforehand(prior: &ByFault) -> Weighed {
    let chances = normalised(prior);
    Weighed {
        causes: ranked(&chances, &[None; FAULTS]),
        chances,
        evidence: [0.0; FAULTS],
        fit: 1.0,
        pairs: Vec::new(),
    }
}

fn ranked(chances: &ByFault, severities: &[Option<f64>; FAULTS]) -> Vec<Cause> {
    let mut causes = Fault::ALL.map(|fault| Cause {
        fault,
        chance: chances[fault as usize],
        severity: severities[fault as usize],
    });
    causes.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    causes.into()
}

/// What each piece of evidence carried for one fault against another: the log of how many times less the
/// one would be ahead of the other without it.
///
/// `w_i = ln (L_f / L_g) − ln (L_f / L_g without i)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `table` | as [`weigh`] |  |
/// | `evidence` | as [`weigh`] |  |
/// | `for_` | `f` |  |
/// | `against` | `g` |  |
/// | `returns` | every piece with its weight; they need not add up | `1` |
///
/// Range: as [`weigh`].
/// Source: definition.
///
/// # Errors
/// As [`weigh`].
pub fn weights(
    table: &Table,
    evidence: &Evidence,
    (for_, against): (Fault, Fault),
) -> Result<Vec<(Item, f64)>, Error> {
    let ahead = |evidence: &Evidence| -> Result<f64, Error> {
        let told = evidence.told();
        let (logs, _) = by_fault(table, evidence)?;
        let of = |fault: Fault| told[fault as usize] + logs[fault as usize];
        Ok(of(for_) - of(against))
    };
    let with = ahead(evidence)?;
    let items = evidence.items().into_iter();
    items
        .map(|item| Ok((item, with - ahead(&evidence.without(item))?)))
        .collect()
}

/// Shares by log likelihoods.
pub(crate) fn posterior(prior: &ByFault, logs: &ByFault) -> ByFault {
    let most = (logs.iter().zip(prior))
        .filter(|(_, prior)| **prior > 0.0)
        .map(|(log, _)| *log)
        .fold(f64::NEG_INFINITY, f64::max);
    normalised(&std::array::from_fn(|at| {
        prior[at] * (logs[at] - most).exp()
    }))
}

/// Log evidence of every fault by what was seen, and its mean severity.
fn by_fault(table: &Table, evidence: &Evidence) -> Result<(ByFault, [Option<f64>; FAULTS]), Error> {
    let mut logs = [0.0; FAULTS];
    let mut severities = [None; FAULTS];
    let Some(nothing) = table.nothing()? else {
        return Ok((logs, severities));
    };
    if evidence.seen.iter().all(Option::is_none) {
        return Ok((logs, severities));
    }
    let wide = nothing.widened(Fault::Unlisted, WIDE);
    for fault in Fault::ALL {
        let own: Vec<&Signature> = if fault == Fault::Unlisted {
            vec![&wide]
        } else {
            table.of(fault).collect()
        };
        if own.is_empty() {
            logs[fault as usize] = f64::NEG_INFINITY;
            continue;
        }
        let densities = own.iter().map(|one| {
            let [density, _] = one.density(&evidence.seen)?;
            Ok(density + one.share.ln())
        });
        let densities = densities.collect::<Result<Vec<f64>, Error>>()?;
        let most = densities.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let shares: Vec<f64> = densities.iter().map(|one| (one - most).exp()).collect();
        let all: f64 = shares.iter().sum();
        // Shares need not add up: a severity that no belief gets over its hump with is not what was seen.
        logs[fault as usize] = most + all.ln();
        let mean = own
            .iter()
            .zip(&shares)
            .map(|(one, share)| one.severity * share);
        let mean = mean.sum::<f64>() / all;
        severities[fault as usize] = fault.has_severity().then_some(mean);
    }
    Ok((logs, severities))
}

/// The greatest chance, over all single faults that can be, of lying so far off.
fn fit(prior: &ByFault, table: &Table, evidence: &Evidence) -> Result<f64, Error> {
    let count = evidence.seen.iter().flatten().count();
    let Ok(law) = ChiSquared::new(crate::real(count)) else {
        return Ok(1.0);
    };
    let mut best = if table.signatures.is_empty() {
        1.0
    } else {
        0.0
    };
    let can_be = |one: &&Signature| prior[one.fault as usize] > 0.0;
    for signature in table.signatures.iter().filter(can_be) {
        let [_, distance] = signature.density(&evidence.seen)?;
        best = f64::max(best, law.sf(distance));
    }
    Ok(best)
}

/// No nozzle is both.
const APART: (Fault, Fault) = (Fault::NozzleWide, Fault::NozzleNarrow);

/// Two faults at once, their effects added up, most likely first.
fn pairs(
    prior: &ByFault,
    table: &Table,
    evidence: &Evidence,
) -> Result<Vec<(Fault, Fault, f64)>, Error> {
    let told = evidence.told();
    let listed = || Fault::ALL.into_iter().filter(|fault| fault.has_severity());
    let mut found = Vec::new();
    for first in listed() {
        for second in listed().filter(|second| *second > first) {
            let mut best = f64::NEG_INFINITY;
            for one in table.of(first) {
                for other in table.of(second) {
                    let [density, _] = one.with(other).density(&evidence.seen)?;
                    best = best.max(density + (one.share * other.share).ln());
                }
            }
            let together = prior[first as usize] * prior[second as usize];
            let said = told[first as usize].max(told[second as usize]);
            found.push((first, second, together.ln() + best + said));
        }
    }
    found.retain(|one| one.2.is_finite() && (one.0, one.1) != APART);
    let most = found
        .iter()
        .map(|one| one.2)
        .fold(f64::NEG_INFINITY, f64::max);
    let all: f64 = found.iter().map(|one| (one.2 - most).exp()).sum();
    for one in &mut found {
        one.2 = (one.2 - most).exp() / all;
    }
    found.sort_by(|a, b| b.2.total_cmp(&a.2));
    Ok(found)
}
