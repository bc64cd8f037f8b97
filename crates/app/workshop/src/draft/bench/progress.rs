//! How far a step has come, as typed.

use quantity::{Entered, Unit};

use super::{account, length, minutes, moment, number, optional};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::plan::{Progress, Step, Work};
use crate::refusal::Refusal;

/// [`Progress`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ProgressDraft {
    /// Key of the step.
    pub step: String,
    /// When it began; may be empty.
    pub begun: String,
    /// When it was done; may be empty.
    pub done: String,
    /// Nobody saw it done.
    pub unseen: bool,
    /// How many fasteners are in; may be empty.
    pub count: String,
    /// How many of these stand in; may be empty.
    pub temporary: String,
    /// Why it is left off: a word of [`READIES`](super::READIES); may be empty.
    pub ready: String,
    /// The same in own words; may be empty.
    pub reason: String,
    /// What ends that.
    pub release: String,
    /// The step whose end ends it; may be empty.
    pub until: String,
    /// Why it must be done again; may be empty.
    pub again: String,
    /// How long it will take after all; may be empty.
    pub estimate: String,
    /// And at most; may be empty.
    pub estimate_most: String,
    /// Why it may go ahead before its gate opens; may be empty.
    pub overridden: String,
}

impl ProgressDraft {
    pub(super) fn of(step: &Step, progress: &Progress) -> Self {
        let count = |number: u16| number.to_string();
        let fastened = progress.fasteners.as_ref().map(|told| told.value);
        let deferred = progress.deferred.as_ref().map(|told| &told.value);
        let estimate = progress.estimate.as_ref().map(|told| &told.value);
        let (ready, reason) =
            deferred.map_or_else(Default::default, |told| account::typed(&told.reason));
        Self {
            step: step.key.to_string(),
            begun: (progress.begun.as_ref()).map_or_else(String::new, |told| told.at.to_string()),
            done: (progress.done.as_ref()).map_or_else(String::new, |told| told.at.to_string()),
            unseen: progress.done.as_ref().is_some_and(|told| !told.value),
            count: fastened.map_or_else(String::new, |told| count(told.count)),
            temporary: fastened
                .filter(|told| told.temporary > 0)
                .map_or_else(String::new, |told| count(told.temporary)),
            ready,
            reason,
            release: deferred.map_or_else(String::new, |told| told.release.clone()),
            until: (deferred.and_then(|told| told.until.as_ref()))
                .map_or_else(String::new, Key::to_string),
            again: (progress.again.as_ref()).map_or_else(String::new, |told| told.value.clone()),
            estimate: estimate.map_or_else(String::new, |told| minutes(&told.takes)),
            estimate_most: (estimate.and_then(|told| told.most.as_ref()))
                .map_or_else(String::new, minutes),
            overridden: (progress.overridden.as_ref())
                .map_or_else(String::new, |told| told.value.clone()),
        }
    }

    /// What the job does not know yet of this step.
    pub(super) fn acts(&self, job: &Job) -> Result<Vec<Act>, Refusal> {
        let step = Key::new(&self.step)?;
        let had = job.bench.of(&step);
        let mut acts = Vec::new();
        let mut say = |work, at| acts.push(Act::Recount(Body::Work(work), at));
        if !self.overridden.is_empty() && had.overridden.is_none() {
            let (step, reason) = (step.clone(), self.overridden.clone());
            say(Work::GateOverridden { step, reason }, None);
        }
        if had.again.is_none() && !self.again.is_empty() {
            let (step, reason) = (step.clone(), self.again.clone());
            say(Work::StepAgain { step, reason }, None);
        }
        let open = had.begun.is_none() && had.done.is_none();
        if open && !self.begun.is_empty() {
            let step = step.clone();
            say(Work::StepBegun { step }, Some(moment(&self.begun)?));
        }
        if had.done.is_none() && !self.done.is_empty() {
            let (step, witnessed) = (step.clone(), !self.unseen);
            let done = Work::StepDone { step, witnessed };
            say(done, Some(moment(&self.done)?));
        }
        let blank = [&self.ready, &self.reason, &self.release];
        if open && blank.iter().any(|text| !text.is_empty()) {
            let reason = (self.ready.as_str(), self.reason.as_str());
            let release = (self.release.as_str(), self.until.as_str());
            let deferred = account::deferred(step.clone(), reason, release)?;
            let told = had.deferred.as_ref();
            if !told.is_some_and(|told| told.value.is(&deferred)) {
                say(deferred, None);
            }
        }
        if !self.estimate.trim().is_empty() {
            let (takes, most) = estimated(&self.estimate, &self.estimate_most)?;
            let same = had
                .estimate
                .is_some_and(|had| had.value.takes == takes && had.value.most == most);
            if !same {
                let step = step.clone();
                say(Work::StepEstimated { step, takes, most }, None);
            }
        }
        if !self.count.trim().is_empty() {
            let (count, temporary) = fasteners(&self.count, &self.temporary)?;
            let told = had
                .fasteners
                .map(|had| (had.value.count, had.value.temporary));
            if told != Some((count, temporary)) {
                let counted = Work::FastenersIn {
                    step,
                    count,
                    temporary,
                };
                say(counted, None);
            }
        }
        Ok(acts)
    }
}

/// How many fasteners are in, and how many of them stand in; none when that is left empty.
pub fn fasteners(count: &str, temporary: &str) -> Result<(u16, u16), Refusal> {
    let stand_in = match temporary.trim() {
        "" => 0,
        text => number("temporary", text)?,
    };
    Ok((number("count", count.trim())?, stand_in))
}

/// How long a step will take after all, and at most; a bare number is minutes.
pub fn estimated(takes: &str, most: &str) -> Result<(Entered, Option<Entered>), Refusal> {
    Ok((
        length("takes", takes, Unit::Minute)?,
        optional("most", most, Unit::Minute)?,
    ))
}
