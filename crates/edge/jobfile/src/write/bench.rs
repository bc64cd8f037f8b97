//! The plan and how far it has come, as tables.

use workshop::draft::bench::{BenchDraft, PartDraft, ProgressDraft, RuleDraft, StepDraft};

use super::{Page, quoted};

impl Page {
    pub(crate) fn bench(&mut self, bench: &BenchDraft) {
        if let Some(name) = &bench.plan {
            self.table("plan");
            self.text("name", name);
        }
        bench.steps.iter().for_each(|step| self.step(step));
        bench.rules.iter().for_each(|rule| self.rule(rule));
        bench.parts.iter().for_each(|part| self.part(part));
        bench.progress.iter().for_each(|step| self.progress(step));
    }

    fn step(&mut self, step: &StepDraft) {
        self.table(&format!("steps.{}", step.key));
        self.text("name", &step.name);
        self.text("takes", &step.takes);
        self.filled("most", &step.most);
        if !step.needs.is_empty() {
            let needs: Vec<String> = step.needs.iter().map(|part| quoted(part)).collect();
            self.line("needs", &format!("[{}]", needs.join(", ")));
        }
        self.filled("gate", &step.gate);
        self.text("opens", &step.opens);
        if !step.fasteners.is_empty() {
            self.line("fasteners", &step.fasteners);
        }
        self.flag("temporary", step.temporary);
        self.filled("caution", &step.caution);
        self.flag("irreversible", step.irreversible);
    }

    fn rule(&mut self, rule: &RuleDraft) {
        self.table("[rules]");
        self.text("kind", &rule.kind);
        self.text("first", &rule.first);
        self.filled("then", &rule.then);
        self.filled("time", &rule.time);
        self.filled("why", &rule.why);
        self.flag("physics", rule.physics);
    }

    fn part(&mut self, part: &PartDraft) {
        self.table(&format!("parts.{}", part.key));
        self.text("name", &part.name);
        self.filled("status", &part.status);
        self.filled("expected", &part.expected);
    }

    fn progress(&mut self, progress: &ProgressDraft) {
        self.table(&format!("progress.{}", progress.step));
        self.filled("begun", &progress.begun);
        self.filled("done", &progress.done);
        if progress.unseen {
            self.line("witnessed", "false");
        }
        for (key, count) in [("in", &progress.count), ("temporary", &progress.temporary)] {
            if !count.is_empty() {
                self.line(key, count);
            }
        }
        self.filled("reason", &progress.reason);
        self.filled("release", &progress.release);
        self.filled("went_ahead", &progress.overridden);
    }

    fn flag(&mut self, key: &str, set: bool) {
        if set {
            self.line(key, "true");
        }
    }
}
