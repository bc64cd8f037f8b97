//! What a job leaves to the next pump of its kind.

use super::bench::{BenchDraft, PartDraft, RULES, RuleKind};
use super::{ChoicesDraft, FitDraft, JobDraft, LimitsDraft, SearchDraft, word};
use crate::job::Job;

impl JobDraft {
    /// The job without what belongs to one craft: readings, leaves, counts, progress, where the
    /// parts are, and rules that name a day.
    pub fn card(job: &Job) -> Self {
        // The leaves stay behind, and with them the unit that a bare limit took.
        let bare = Job::default().unit();
        let limits = job.limits.as_ref();
        let draft = Self::of(job);
        let dated = [RuleKind::NotBefore, RuleKind::FinishedBy].map(|kind| word(&RULES, kind));
        let part = |part: PartDraft| PartDraft {
            status: String::new(),
            expected: String::new(),
            ..part
        };
        Self {
            title: title(job, &draft),
            note: String::new(),
            follows: String::new(),
            leaves: None,
            limits: limits.map(|fact| LimitsDraft::of(&fact.value, bare)),
            walk: None,
            joints: (draft.joints.into_iter())
                .map(|(key, joint, _)| (key, joint, None))
                .collect(),
            tools: draft.tools.card(),
            fits: (draft.fits.into_iter())
                .filter_map(FitDraft::of_any_craft)
                .collect(),
            readings: Vec::new(),
            inspections: Vec::new(),
            photos: Vec::new(),
            trials: Vec::new(),
            choices: ChoicesDraft::default(),
            diagnosis: SearchDraft::default(),
            upkeep: draft.upkeep.card(job),
            bench: BenchDraft {
                rules: (draft.bench.rules.into_iter())
                    .filter(|rule| !dated.contains(&rule.kind.as_str()))
                    .collect(),
                parts: draft.bench.parts.into_iter().map(part).collect(),
                crew: None,
                progress: Vec::new(),
                accounts: Vec::new(),
                returned: Vec::new(),
                ..draft.bench
            },
            pump: draft.pump,
        }
    }
}

/// What the pump is, as far as the job says; a job's own title is of one craft.
fn title(job: &Job, draft: &JobDraft) -> String {
    let pump = draft.pump.as_ref();
    let pump =
        pump.map(|pump| format!("{}-blade pump, bore {}", pump.blades, with_unit(&pump.bore)));
    let plan = job.bench.plan().map(|plan| plan.name.clone());
    let words = [pump, plan].into_iter().flatten().collect::<Vec<_>>();
    if words.is_empty() {
        draft.title.clone()
    } else {
        words.join(": ")
    }
}

/// A bare bore is millimetres.
fn with_unit(bore: &str) -> String {
    let bare = bore
        .bytes()
        .all(|b| b.is_ascii_digit() || b".,".contains(&b));
    if bare {
        format!("{bore} mm")
    } else {
        bore.to_owned()
    }
}
