//! What was found at a joint before it was taken apart, on its card.

use super::{Cards, Part};
use crate::fits::FitKind;
use crate::inspect::found::{AsFound, Seen, Sort, beside, of, total};
use crate::job::{Fact, Job};
use crate::sourced::Origin;

impl Cards<'_> {
    /// A line each, and a word where what is set now is not what was found.
    pub(super) fn as_found(&mut self, job: &Job) {
        let fit = &self.state.fit.value;
        let found = match &fit.kind {
            FitKind::Cable { .. } => of(job, Sort::Cable, &fit.name),
            FitKind::Hose { .. } => of(job, Sort::Hose, &fit.name),
            FitKind::Shims(_) => of(job, Sort::Shims, &fit.name),
            _ => beside(job, &fit.name),
        };
        for fact in &found {
            let at = match fact.value.at.as_str() {
                "" => String::new(),
                at => format!(", {at}"),
            };
            let words = format!("As found{at}: {}.", fact.value);
            self.line(Part::Do, Origin::Measured(fact.entry.clone()), words);
        }
        // Of several nobody knows which is meant, so nothing is held against anything.
        if let [one] = found.as_slice() {
            self.mind.extend(differs(&fit.kind, one));
        }
    }
}

fn differs(now: &FitKind, found: &Fact<AsFound>) -> Option<String> {
    match (now, &found.value.seen) {
        (
            FitKind::Cable {
                threads: Some(threads),
            },
            Seen::Cable(was),
        ) if threads != was => Some(format!(
            "As found {was} threads showed, and {threads} are said here. Set it as found, or know why \
             not: the far end no longer stands where it stood."
        )),
        (FitKind::Shims(now), Seen::Shims(was)) if now.len() != was.len() => Some(format!(
            "As found there were shims at {} studs, and {} are said here. Look again before it is \
             tightened.",
            was.len(),
            now.len()
        )),
        (FitKind::Shims(now), Seen::Shims(was)) => {
            let off = now.iter().zip(was).filter(|(now, was)| {
                // Within what a caliper tells of a stack.
                (now.value - was.total()).abs() > 0.000_02
            });
            let off: Vec<String> = off
                .map(|(now, was)| {
                    format!(
                        "stud {}: {} as found, now {}",
                        was.stud,
                        total(was.total()),
                        now.worded()
                    )
                })
                .collect();
            (!off.is_empty()).then(|| {
                format!(
                    "The shims are not as found, {}. Where it was in line as found, put them back so.",
                    off.join("; ")
                )
            })
        }
        _ => None,
    }
}
