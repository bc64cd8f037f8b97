//! The plan and how far it has come, as tables.

use workshop::draft::bench::{
    AccountDraft, BenchDraft, CrewDraft, ItemDraft, PartDraft, ProgressDraft, RuleDraft, StepDraft,
    ToolDraft,
};

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
        bench.tools.iter().for_each(|tool| self.tool(tool));
        bench.items.iter().for_each(|item| self.item(item));
        bench.crew.iter().for_each(|crew| self.crew(crew));
        bench.progress.iter().for_each(|step| self.progress(step));
        for told in &bench.accounts {
            self.account("account", told);
        }
        for told in &bench.returned {
            self.account("returned", told);
        }
    }

    fn step(&mut self, step: &StepDraft) {
        self.table(&format!("steps.{}", step.key));
        self.text("name", &step.name);
        self.filled("group", &step.group);
        self.filled("how", &step.how);
        self.text("takes", &step.takes);
        self.filled("most", &step.most);
        for (key, named) in [("needs", &step.needs), ("tools", &step.tools)] {
            if !named.is_empty() {
                let named: Vec<String> = named.iter().map(|name| quoted(name)).collect();
                self.line(key, &format!("[{}]", named.join(", ")));
            }
        }
        if !step.hands.is_empty() {
            self.line("hands", &step.hands);
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

    fn tool(&mut self, tool: &ToolDraft) {
        self.table(&format!("tools.{}", tool.key));
        self.text("name", &tool.name);
        if !tool.count.is_empty() {
            self.line("count", &tool.count);
        }
    }

    fn item(&mut self, item: &ItemDraft) {
        self.table(&format!("items.{}", item.key));
        self.text("name", &item.name);
        self.text("kind", &item.kind);
        if !item.count.is_empty() {
            self.line("count", &item.count);
        }
        self.filled("step", &item.step);
    }

    fn crew(&mut self, crew: &CrewDraft) {
        self.table("crew");
        self.line("hands", &crew.hands);
        self.filled("hours", &crew.hours);
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
        self.filled("ready", &progress.ready);
        self.filled("reason", &progress.reason);
        self.filled("release", &progress.release);
        self.filled("until", &progress.until);
        self.filled("again", &progress.again);
        self.filled("estimate", &progress.estimate);
        self.filled("estimate_most", &progress.estimate_most);
        self.filled("went_ahead", &progress.overridden);
    }

    fn account(&mut self, table: &str, told: &AccountDraft) {
        self.table(&format!("{table}.{}", told.key));
        self.line("in", &told.count);
        self.filled("ready", &told.ready);
        self.filled("reason", &told.reason);
    }

    fn flag(&mut self, key: &str, set: bool) {
        if set {
            self.line(key, "true");
        }
    }
}
