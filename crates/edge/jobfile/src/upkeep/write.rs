//! Service as lines of a job file.

use workshop::draft::UpkeepDraft;
use workshop::draft::upkeep::{PieceDraft, RuleDraft, SortDraft, UsageDraft};

use crate::write::Page;

impl Page {
    /// What is empty is left out.
    pub(crate) fn upkeep(&mut self, draft: &UpkeepDraft) {
        if let Some(usage) = &draft.usage {
            self.usage(usage);
        }
        for (key, sort) in &draft.parts {
            self.sort(key, sort);
        }
        for (key, piece) in &draft.pieces {
            self.piece(key, piece);
        }
        for (task, rule) in &draft.rules {
            self.due(task, rule);
        }
        for read in &draft.meter {
            self.table("[meter]");
            self.filled("on", &read.on);
            self.text("hours", &read.hours);
        }
        for what in &draft.mishaps {
            self.table("[mishap]");
            self.text("what", &what.what);
            self.filled("on", &what.on);
            self.filled("hours", &what.hours);
            self.filled("note", &what.note);
        }
        for done in &draft.done {
            self.table("[done]");
            self.text("task", &done.task);
            self.filled("on", &done.on);
            self.filled("hours", &done.hours);
            self.filled("note", &done.note);
        }
        for point in &draft.recheck {
            self.table("[recheck]");
            self.text("point", &point.point);
            self.text("found", &point.found);
            self.filled("note", &point.note);
        }
    }

    fn usage(&mut self, usage: &UsageDraft) {
        self.table("service");
        for (key, text) in [
            ("currency", &usage.currency),
            ("water", &usage.water),
            ("silt", &usage.silt),
            ("sand", &usage.sand),
            ("week", &usage.week),
            ("season", &usage.season),
            ("from", &usage.from),
            ("until", &usage.until),
            ("keep", &usage.keep),
            ("wage", &usage.wage),
            ("failure", &usage.failure),
            ("worth", &usage.worth),
            ("between", &usage.between),
            ("floor", &usage.floor),
        ] {
            self.filled(key, text);
        }
    }

    fn sort(&mut self, key: &str, sort: &SortDraft) {
        self.table("[sort]");
        self.text("key", key);
        self.text("name", &sort.name);
        for (key, text) in [
            ("kind", &sort.kind),
            ("option", &sort.option),
            ("price", &sort.price),
            ("supplies", &sort.supplies),
            ("labour", &sort.labour),
            ("tenth", &sort.tenth),
            ("half", &sort.half),
            ("trust", &sort.trust),
            ("ruin", &sort.ruin),
            ("lost", &sort.lost),
            ("lost_at", &sort.lost_at),
            ("note", &sort.note),
        ] {
            self.filled(key, text);
        }
    }

    fn piece(&mut self, key: &str, piece: &PieceDraft) {
        self.table("[piece]");
        self.text("key", key);
        self.text("sort", &piece.part);
        self.filled("elsewhere", &piece.elsewhere);
        self.filled("water", &piece.water);
        self.text("fitted", &piece.fitted);
        self.filled("good", &piece.good);
        self.filled("end", &piece.end);
        self.filled("ended", &piece.ended);
        self.filled("note", &piece.note);
    }

    fn due(&mut self, task: &str, rule: &RuleDraft) {
        self.table("[due]");
        self.text("task", task);
        self.filled("name", &rule.name);
        self.filled("hours", &rule.hours);
        self.filled("months", &rule.months);
        self.words("after", &rule.after);
        self.filled("edge", &rule.edge);
        self.filled("page", &rule.page);
    }
}
