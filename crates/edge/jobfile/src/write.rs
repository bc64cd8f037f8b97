//! A job as the text of a job file.

mod bench;

use std::fmt::Write as _;

use workshop::draft::tools::FittingsDraft;
use workshop::draft::{
    FastenedDraft, JobDraft, JointDraft, LeavesDraft, LimitsDraft, PumpDraft, WalkDraft,
};
use workshop::entry::JobId;

use super::{CARD, JOB, VERSION};

/// Writes what [`super::parse`] reads back. What is empty is left out.
pub fn write(id: &JobId, draft: &JobDraft) -> String {
    let mut page = Page(String::new());
    page.head(JOB, "job");
    page.text("id", id.as_str());
    page.body(draft);
    page.0
}

/// Writes the card that [`super::parse`] reads back, from a draft that says nothing of one craft.
pub fn write_card(draft: &JobDraft) -> String {
    let mut page = Page(String::new());
    page.head(CARD, "card");
    page.body(draft);
    page.0
}

pub(crate) struct Page(String);

impl Page {
    fn head(&mut self, format: &str, table: &str) {
        self.text("format", format);
        self.line("version", &VERSION.to_string());
        self.table(table);
    }

    fn body(&mut self, draft: &JobDraft) {
        self.text("title", &draft.title);
        self.filled("note", &draft.note);
        self.filled("follows", &draft.follows);
        draft.pump.iter().for_each(|pump| self.pump(pump));
        draft.leaves.iter().for_each(|leaves| self.leaves(leaves));
        draft.limits.iter().for_each(|limits| self.limits(limits));
        draft.walk.iter().for_each(|walk| self.walk(walk));
        for (key, wrench) in &draft.tools.wrenches {
            self.wrench(key, wrench);
        }
        for (key, joint, screws) in &draft.joints {
            self.joint(key, joint, draft.tools.joints.get(key), screws.as_ref());
        }
        draft.fits.iter().for_each(|fit| self.fit(fit));
        self.bench(&draft.bench);
        draft.inspections.iter().for_each(|sheet| self.sheet(sheet));
        draft.photos.iter().for_each(|photo| self.photo(photo));
        draft.trials.iter().for_each(|trial| self.trial(trial));
        self.choices(&draft.choices);
        self.search(&draft.diagnosis);
        self.upkeep(&draft.upkeep);
        if !draft.readings.is_empty() {
            self.table("readings");
        }
        for (spot, text) in &draft.readings {
            self.text(&quoted(spot), text);
        }
    }

    fn pump(&mut self, pump: &PumpDraft) {
        self.table("pump");
        self.line("blades", &pump.blades);
        self.line("positions", &pump.positions);
        self.text("bore", &pump.bore);
        self.text("view", &pump.view);
        self.text("rotation", &pump.rotation);
    }

    fn leaves(&mut self, leaves: &LeavesDraft) {
        self.table("leaves");
        self.text("unit", &leaves.unit);
        let list: Vec<String> = leaves.thicknesses.split("; ").map(quoted).collect();
        self.line("thicknesses", &format!("[{}]", list.join(", ")));
        self.text("width", &leaves.width);
        self.text("lead", &leaves.lead);
        self.text("posture", &leaves.posture);
        self.filled("tolerance", &leaves.tolerance);
        self.filled("feel", &leaves.feel);
    }

    fn limits(&mut self, limits: &LimitsDraft) {
        self.table("limits");
        self.filled("least", &limits.least);
        self.filled("greatest", &limits.greatest);
        self.text("measure", &limits.measure);
        self.filled("page", &limits.page);
        if limits.rub_in {
            self.line("rub_in", "true");
        }
    }

    /// Leaf by leaf is what no walk means.
    fn walk(&mut self, walk: &WalkDraft) {
        if *walk != WalkDraft::default() {
            self.table("walk");
            self.filled("go", &walk.go);
            self.filled("no_go", &walk.no_go);
            self.filled("order", &walk.order);
        }
    }

    fn joint(
        &mut self,
        key: &str,
        joint: &JointDraft,
        said: Option<&FittingsDraft>,
        screws: Option<&FastenedDraft>,
    ) {
        self.table(&format!("joints.{key}"));
        self.text("name", &joint.name);
        self.text("thread", &joint.thread);
        self.text("head", &joint.head);
        self.line("count", &joint.count);
        self.text("class", &joint.class);
        self.text("hole", &joint.hole);
        self.filled("engagement", &joint.engagement);
        self.filled("torque", &joint.torque);
        self.filled("second", &joint.second);
        self.filled("stated_for", &joint.stated_for);
        self.filled("turn", &joint.turn);
        self.filled("seat", &joint.seat);
        self.filled("grip", &joint.grip);
        self.text("condition", &joint.condition);
        self.text("face", &joint.face);
        self.filled("page", &joint.page);
        if let Some(said) = said {
            self.fittings(said);
        }
        if let Some(FastenedDraft {
            in_place,
            torqued,
            marked,
            temporary,
            pass,
            gone,
        }) = screws
        {
            let stand_ins = if *temporary { ", temporary = true" } else { "" };
            let pass = if pass.is_empty() {
                String::new()
            } else {
                format!(", pass = {pass}, gone = {gone}")
            };
            let counts = format!("in = {in_place}, torqued = {torqued}, marked = {marked}");
            self.line("screws", &format!("{{ {counts}{stand_ins}{pass} }}"));
        }
    }

    pub(crate) fn table(&mut self, name: &str) {
        // Writing into a String cannot fail.
        let _ = writeln!(self.0, "\n[{name}]");
    }

    pub(crate) fn line(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.0, "{key} = {value}");
    }

    pub(crate) fn text(&mut self, key: &str, text: &str) {
        self.line(key, &quoted(text));
    }

    pub(crate) fn filled(&mut self, key: &str, text: &str) {
        if !text.is_empty() {
            self.text(key, text);
        }
    }
}

/// A text as TOML writes it.
pub(crate) fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}
