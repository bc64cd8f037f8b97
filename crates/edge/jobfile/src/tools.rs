//! Torque wrenches, and what was found or chosen at a joint, out of a job file and into one.

use std::ops::Range;

use toml::Spanned;
use workshop::draft::tools::{DepthDraft, FittingsDraft, ToolDraft, WrenchDraft};
use workshop::refusal::Refusal;
use workshop::tools::Tooling;

use crate::shape;
use crate::write::{Page, quoted};
use crate::{Fields, JobFile};

/// The name of the place where a wrench has its key.
const KEY: &str = "";

/// The places of a wrench's values, and of its key.
type Places = Vec<(&'static str, Range<usize>)>;

/// The wrenches by key, and the places of their values.
pub(crate) fn wrenches(
    rows: Vec<(Spanned<String>, shape::tools::Wrench)>,
) -> (Vec<(String, WrenchDraft)>, Vec<Places>) {
    let read = |(key, wrench): (Spanned<String>, _)| {
        let mut fields = Fields(vec![(KEY, key.span())]);
        let wrench = fields.wrench(wrench);
        ((key.into_inner(), wrench), fields.0)
    };
    rows.into_iter().map(read).unzip()
}

impl Fields {
    fn wrench(&mut self, wrench: shape::tools::Wrench) -> WrenchDraft {
        WrenchDraft {
            name: self.take("name", wrench.name),
            scale: self.take("scale", wrench.scale),
            least: self.take("least", wrench.least),
            most: self.take("most", wrench.most),
            step: self.given("step", wrench.step),
        }
    }

    /// What is said of a joint beyond its description; it is taken out of the joint.
    pub(crate) fn fittings(&mut self, joint: &mut shape::Joint) -> FittingsDraft {
        FittingsDraft {
            role: self.given("role", joint.role.take()),
            hole: joint.hole_measured.take().map(|hole| DepthDraft {
                reach: self.take("reach", hole.reach),
                threaded: self.take("threaded", hole.threaded),
                lost: self.take("lost", hole.lost),
                insert: self.given("insert", hole.insert),
            }),
            tool: joint.tool.take().map(|tool| ToolDraft {
                wrench: self.take("wrench", tool.wrench),
                lever: self.given("lever", tool.lever),
                offset: self.given("offset", tool.offset),
                angle: self.given("angle", tool.angle),
            }),
        }
    }
}

impl Page {
    pub(crate) fn wrench(&mut self, key: &str, wrench: &WrenchDraft) {
        self.table(&format!("wrenches.{key}"));
        self.text("name", &wrench.name);
        self.text("scale", &wrench.scale);
        self.text("least", &wrench.least);
        self.text("most", &wrench.most);
        self.filled("step", &wrench.step);
    }

    /// The lines of a joint that say more of it.
    pub(crate) fn fittings(&mut self, said: &FittingsDraft) {
        self.filled("role", &said.role);
        if let Some(hole) = &said.hole {
            let pairs = [
                ("reach", &hole.reach),
                ("threaded", &hole.threaded),
                ("lost", &hole.lost),
                ("insert", &hole.insert),
            ];
            self.inline("hole_measured", &pairs);
        }
        if let Some(tool) = &said.tool {
            let pairs = [
                ("wrench", &tool.wrench),
                ("lever", &tool.lever),
                ("offset", &tool.offset),
                ("angle", &tool.angle),
            ];
            self.inline("tool", &pairs);
        }
    }

    /// A table on one line, without what is empty.
    fn inline(&mut self, key: &str, pairs: &[(&str, &String)]) {
        let filled = pairs.iter().filter(|(_, text)| !text.is_empty());
        let pairs: Vec<String> = filled
            .map(|(name, text)| format!("{name} = {}", quoted(text)))
            .collect();
        self.line(key, &format!("{{ {} }}", pairs.join(", ")));
    }
}

impl JobFile {
    /// The field that is to blame for what was refused of the tools.
    pub(crate) fn of_tooling(&self, said: &Tooling, field: Option<&str>) -> Option<Range<usize>> {
        match said {
            Tooling::WrenchDescribed { key, .. } => {
                let mut wrenches = self.draft.tools.wrenches.iter();
                let wrench = wrenches.position(|(known, _)| known == key.as_str())?;
                self.in_wrench(wrench, field)
            }
            Tooling::ToolChosen { joint, .. }
            | Tooling::HoleMeasured { joint, .. }
            | Tooling::RoleSaid { joint, .. } => self.of_joint(joint, field),
        }
    }

    /// The field of a wrench, or its key.
    pub(crate) fn in_wrench(&self, wrench: usize, field: Option<&str>) -> Option<Range<usize>> {
        let fields = self.wrenches.get(wrench)?;
        let named = |name: &str| fields.iter().find(|(known, _)| *known == name);
        let at = field.and_then(named).or_else(|| named(KEY));
        at.map(|(_, at)| at.clone())
    }

    /// The wrench that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_wrench(&self, refusal: &Refusal) -> Option<usize> {
        let mut wrenches = self.draft.tools.wrenches.iter();
        wrenches.position(|(key, wrench)| {
            workshop::entry::Key::new(key).as_ref() == Err(refusal)
                || wrench.read().as_ref() == Err(refusal)
        })
    }
}
