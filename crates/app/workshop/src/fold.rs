//! From entries to the job. Total: it never fails; what does not fit becomes an objection.

mod choose;
mod diagnose;
mod fits;
mod inspect;
mod photos;
mod seals;
mod tools;
mod upkeep;
mod water;
mod work;

use std::collections::BTreeSet;

use crate::crossing;
use crate::entry::{Body, Entry, EntryId, Key};
use crate::gap::evidence;
use crate::inspect::Inspection;
use crate::job::{Fact, Job, Spot, Step, Tried};
use crate::joints::{Joint, JointState};
use crate::tools::Fittings;

/// An entry that no longer fits the rest, kept visible until it is withdrawn or fits again.
#[derive(Clone, Debug, PartialEq)]
pub struct Objection {
    /// The entry.
    pub entry: EntryId,
    /// Its position.
    pub position: u64,
    /// What does not fit.
    pub why: Misfit,
}

/// What does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misfit {
    /// A second opening.
    OpenedTwice,
    /// Said before the job was opened.
    BeforeOpening,
    /// A leaf tried at a spot that the pump, as now described, does not have.
    NoSuchSpot,
    /// A withdrawal of an entry that is not there before it.
    NothingToWithdraw,
    /// A result taken for other readings or limits than those that count now.
    AcceptedForOtherReadings,
    /// A count of a joint that is not described.
    NoSuchJoint,
    /// A hole, a wrench or a sort said of a joint that is not described.
    NothingToFit,
    /// A wrench chosen that is not described.
    NoSuchWrench,
    /// More screws counted than the joint, as now described, has.
    TooManyScrews,
    /// Ticks of a joint that is not described.
    NoSuchFit,
    /// Ticks or a reading that the joint, as now described, does not have.
    TicksOfAnother,
    /// An impeller tightened, where its figure or its directions do not hold now.
    TightenedInError,
    /// A finding dealt with that was never noted.
    NoSuchFinding,
    /// A seal, a thread or metals of a joint that is not described.
    SealsNoJoint,
    /// A compound of the person's own that is not described.
    NoSuchCompound,
    /// Something said of a photo that is not here.
    NoSuchPhoto,
    /// A photo of something that the job, as it is now, does not have.
    PhotoOfNothing,
    /// Runs or figures of an outing that is not described.
    NoSuchOuting,
    /// Something said of a log that is not here.
    NoSuchLog,
    /// A trial taken as the result for other runs than those that count now.
    TrialTakenOfOtherRuns,
    /// Something said of an option that is not here.
    NoSuchOption,
    /// An option taken on other grounds than those that count now.
    OptionTakenOnOtherGrounds,
    /// A cause was taken, and what it rests on has changed.
    CauseTakenOnOtherGrounds,
    /// Said of a sort of part or a piece that is not here any more.
    NoSuchSort,
    /// A task that nobody knows any more.
    NoSuchTask,
    /// A job closed on a recheck that has changed since.
    ClosedOnOtherGrounds,
    /// Written by a newer program.
    Newer,
    /// A plan that makes no sense.
    SenselessPlan,
    /// Said of a step that the plan, as now laid, does not have.
    NoSuchStep,
    /// Said of a part that the plan, as now laid, does not have.
    NoSuchPart,
    /// A step begun while it was running.
    BegunTwice,
    /// A step done that was done.
    DoneTwice,
    /// A step left off after it had begun.
    DeferredTooLate,
    /// A step done before it was begun, by the clocks of those who said so.
    EndsFirst,
    /// More fasteners counted than the step, as now planned, has.
    TooManyFasteners,
    /// A thing or a tool told of that the plan, as now laid, does not have.
    NoSuchItem,
    /// More of a thing or a tool told of than the plan, as now laid, has.
    TooManyItems,
    /// A step that went through a gate which is closed now.
    GateClosed,
}

/// Folds entries, in the order of their positions, into the job and its objections.
///
/// Any subset and any interleaving of entries folds.
pub fn fold(entries: &[Entry]) -> (Job, Vec<Objection>) {
    let mut ordered: Vec<&Entry> = entries.iter().collect();
    ordered.sort_by_key(|entry| entry.position);
    let counts = counting(&ordered);

    let mut folding = Folding::default();
    for (entry, counts) in ordered.iter().zip(&counts.live) {
        folding.job.position = entry.position;
        folding.job.touched = Some(entry.new.happened_at.clone());
        if *counts {
            folding.take(entry);
        }
    }
    folding.objections.extend(counts.objections);
    folding.close();
    let undo = ordered
        .iter()
        .zip(&counts.live)
        .rev()
        .find(|(entry, live)| **live && may_undo(entry));
    folding.job.undo = undo.map(|(entry, _)| step(entry));
    folding.job.redo = redo(&ordered, &counts.live);
    folding.job.crossed = crossing::of(&ordered, &counts.live);
    folding
        .objections
        .sort_by_key(|objection| objection.position);
    (folding.job, folding.objections)
}

/// Whether an entry is there and counts: nobody withdrew it, or its withdrawal was withdrawn.
pub(crate) fn counts(entries: &[Entry], id: &EntryId) -> bool {
    let mut ordered: Vec<&Entry> = entries.iter().collect();
    ordered.sort_by_key(|entry| entry.position);
    let live = counting(&ordered).live;
    let mut all = ordered.iter().zip(live);
    all.any(|(entry, live)| live && entry.new.id == *id)
}

struct Counting {
    live: Vec<bool>,
    objections: Vec<Objection>,
}

/// Which entries count. A withdrawal reaches back only, so one pass from the end decides it.
fn counting(ordered: &[&Entry]) -> Counting {
    let mut withdrawn: BTreeSet<&EntryId> = BTreeSet::new();
    let mut live = vec![true; ordered.len()];
    let mut objections = Vec::new();
    for (index, entry) in ordered.iter().enumerate().rev() {
        live[index] = !withdrawn.contains(&entry.new.id);
        let Body::Withdrawn { entry: target } = &entry.new.body else {
            continue;
        };
        let known = ordered[..index]
            .iter()
            .any(|earlier| earlier.new.id == *target);
        if live[index] && known {
            withdrawn.insert(target);
        } else if live[index] {
            objections.push(objection(entry, Misfit::NothingToWithdraw));
        }
    }
    Counting { live, objections }
}

fn objection(entry: &Entry, why: Misfit) -> Objection {
    Objection {
        entry: entry.new.id.clone(),
        position: entry.position,
        why,
    }
}

fn may_undo(entry: &Entry) -> bool {
    !matches!(
        entry.new.body,
        Body::Withdrawn { .. } | Body::JobOpened { .. } | Body::Unknown { .. }
    )
}

fn step(entry: &Entry) -> Step {
    Step {
        entry: entry.new.id.clone(),
        body: entry.new.body.clone(),
    }
}

/// The latest live withdrawal of a fact, unless something else was done since.
fn redo(ordered: &[&Entry], live: &[bool]) -> Option<Step> {
    let find = |id: &EntryId| ordered.iter().position(|entry| entry.new.id == *id);
    for (index, entry) in ordered.iter().enumerate().rev() {
        let Body::Withdrawn { entry: target } = &entry.new.body else {
            return None;
        };
        let Some(at) = find(target) else { continue };
        let of_a_fact = !matches!(ordered[at].new.body, Body::Withdrawn { .. });
        if live[index] && of_a_fact {
            let body = ordered[at].new.body.clone();
            return Some(Step {
                entry: entry.new.id.clone(),
                body,
            });
        }
    }
    None
}

#[derive(Default)]
struct Folding {
    job: Job,
    objections: Vec<Objection>,
}

impl Folding {
    fn take(&mut self, entry: &Entry) {
        let opening = matches!(entry.new.body, Body::JobOpened { .. });
        if self.job.title.is_none() && !opening {
            self.objections
                .push(objection(entry, Misfit::BeforeOpening));
        }
        match &entry.new.body {
            Body::JobOpened { .. } => self.open(entry),
            Body::PumpDescribed(pump) => self.job.pump = Some(fact(entry, pump.clone())),
            Body::LeavesDescribed(leaves) => self.job.leaves = Some(fact(entry, leaves.clone())),
            Body::LimitsStated(limits) => self.job.limits = Some(fact(entry, limits.clone())),
            Body::WalkChosen(walk) => self.job.walk = Some(fact(entry, walk.clone())),
            Body::LeavesTried {
                spot,
                tries,
                afresh,
            } => {
                if *afresh {
                    self.put_by(*spot);
                }
                self.tried(entry, *spot, tries);
            }
            Body::GapAccepted(shown) => self.job.accepted = Some(fact(entry, shown.clone())),
            Body::Work(work) => {
                let misfit = work::take(&mut self.job.bench, entry, work);
                self.objections.extend(work::objected(entry, misfit));
            }
            Body::JointDescribed { key, joint } => self.describe(entry, key, joint),
            Body::JointFastened { key, fastened } => match self.job.joints.get_mut(key) {
                Some(state) => state.fastened = Some(fact(entry, fastened.clone())),
                None => self.objections.push(objection(entry, Misfit::NoSuchJoint)),
            },
            Body::Tooled(said) => {
                let misfit = tools::take(&mut self.job, entry, said);
                self.object(entry, misfit);
            }
            Body::FitDescribed { key, fit } => fits::describe(&mut self.job, entry, key, fit),
            Body::FitChecked { key, checked } => {
                let misfit = fits::check(&mut self.job, entry, key, checked);
                self.object(entry, misfit);
            }
            Body::Inspected(said) => {
                let misfit = inspect::take(&mut self.job.inspected, entry, said);
                if let Inspection::Supply { key, supply } = said {
                    work::supply(&mut self.job.bench, entry, key, supply);
                }
                self.object(entry, misfit);
            }
            Body::Photographed(said) => {
                let misfit = photos::take(&mut self.job.photos, entry, said);
                self.object(entry, misfit);
            }
            Body::Trialled(said) => {
                let misfit = water::take(&mut self.job.trials, entry, said);
                self.object(entry, misfit);
            }
            Body::Chose(said) => {
                let misfit = choose::take(&mut self.job.choices, entry, said);
                self.object(entry, misfit);
            }
            Body::Diagnosed(said) => diagnose::take(&mut self.job.diagnosis, entry, said),
            Body::Serviced(said) => {
                let misfit = upkeep::take(&mut self.job.upkeep, entry, said);
                self.object(entry, misfit);
            }
            Body::Withdrawn { .. } => {}
            Body::Unknown { kind, version, .. } => {
                self.job.read_only = Some((kind.clone(), *version));
                self.objections.push(objection(entry, Misfit::Newer));
            }
        }
    }

    fn object(&mut self, entry: &Entry, misfit: Option<Misfit>) {
        self.objections
            .extend(misfit.map(|why| objection(entry, why)));
    }

    fn open(&mut self, entry: &Entry) {
        let Body::JobOpened {
            title,
            note,
            follows,
        } = &entry.new.body
        else {
            return;
        };
        if self.job.title.is_some() {
            self.objections.push(objection(entry, Misfit::OpenedTwice));
        } else {
            self.job.title = Some(title.clone());
            self.job.opened = Some(entry.new.happened_at.date());
            self.job.note.clone_from(note);
            self.job.follows.clone_from(follows);
        }
    }

    /// What stood at a spot that is measured anew.
    fn put_by(&mut self, spot: Spot) {
        let stood = self.job.tries.remove(&spot);
        self.job.before.extend(stood.map(|tries| (spot, tries)));
    }

    fn tried(&mut self, entry: &Entry, spot: Spot, tries: &[Tried]) {
        let there = self.job.tries.entry(spot).or_default();
        there.extend(tries.iter().map(|tried| fact(entry, tried.clone())));
        if let Some(last) = tries.last() {
            self.job.latest = Some((spot, last.clone()));
        }
    }

    fn describe(&mut self, entry: &Entry, key: &Key, joint: &Joint) {
        let joint = fact(entry, joint.clone());
        let new = || JointState {
            since: entry.position,
            joint: joint.clone(),
            fastened: None,
            fittings: Fittings::default(),
        };
        self.job.joints.entry(key.clone()).or_insert_with(new).joint = joint.clone();
    }

    /// What can only be judged when everything is known.
    fn close(&mut self) {
        let Self { job, objections } = self;
        let pump = job.pump.as_ref();
        let has = |spot: &Spot| {
            pump.as_ref().is_none_or(|pump| {
                spot.blade < pump.value.blades && spot.position < pump.value.positions
            })
        };
        let strays: Vec<Fact<Tried>> = job
            .tries
            .extract_if(.., |spot, _| !has(spot))
            .flat_map(|(_, tries)| tries)
            .collect();
        let mut named = BTreeSet::new();
        for tried in strays {
            if named.insert(tried.position) {
                objections.push(Objection {
                    entry: tried.entry,
                    position: tried.position,
                    why: Misfit::NoSuchSpot,
                });
            }
        }
        if job
            .latest
            .as_ref()
            .is_some_and(|(spot, _)| !job.tries.contains_key(spot))
        {
            job.latest = None;
        }
        objections.extend(work::close(job));
        objections.extend(seals::close(job));
        objections.extend(fits::close(job));
        objections.extend(photos::close(job));
        objections.extend(water::close(job));
        objections.extend(choose::close(job));
        objections.extend(diagnose::close(job));
        objections.extend(upkeep::close(job));
        for state in job.joints.values() {
            let Some(fastened) = &state.fastened else {
                continue;
            };
            if fastened.value.in_place > state.joint.value.count {
                objections.push(Objection {
                    entry: fastened.entry.clone(),
                    position: fastened.position,
                    why: Misfit::TooManyScrews,
                });
            }
        }
        let Some(accepted) = &job.accepted else {
            return;
        };
        if evidence(job).as_ref() != Ok(&accepted.value.evidence) {
            objections.push(Objection {
                entry: accepted.entry.clone(),
                position: accepted.position,
                why: Misfit::AcceptedForOtherReadings,
            });
        }
    }
}

fn fact<T>(entry: &Entry, value: T) -> Fact<T> {
    Fact {
        entry: entry.new.id.clone(),
        position: entry.position,
        value,
    }
}
