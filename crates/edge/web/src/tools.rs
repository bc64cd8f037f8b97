//! What the forms of wrenches, holes and sorts of joint send.

use report::page::FormName;
use workshop::draft::tools::{DepthDraft, ToolDraft, WrenchDraft, role};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::refusal::Refusal;
use workshop::tools::Tooling;

use crate::act::Sent;

impl Sent {
    pub(crate) fn tooled(&self, form: FormName, job: &Job) -> Result<Tooling, Refusal> {
        if form == FormName::Wrench {
            return self.wrench(job);
        }
        let joint = Key::new(&self.get("joint"))?;
        Ok(match form {
            FormName::Tool => {
                let draft = ToolDraft {
                    wrench: self.get("wrench"),
                    lever: self.get("lever"),
                    offset: self.get("offset"),
                    angle: self.get("angle"),
                };
                let tool = draft.read()?;
                Tooling::ToolChosen { joint, tool }
            }
            FormName::Hole => {
                let draft = DepthDraft {
                    reach: self.get("reach"),
                    threaded: self.get("threaded"),
                    lost: self.get("lost"),
                    insert: self.get("insert"),
                };
                let hole = draft.read()?;
                Tooling::HoleMeasured { joint, hole }
            }
            _ => {
                let role = role(&self.get("role"))?;
                Tooling::RoleSaid { joint, role }
            }
        })
    }

    /// A wrench; a new one gets a key of its name that is free.
    fn wrench(&self, job: &Job) -> Result<Tooling, Refusal> {
        let draft = WrenchDraft {
            name: self.get("name"),
            scale: self.get("scale"),
            least: self.get("least"),
            most: self.get("most"),
            step: self.get("step"),
        };
        let wrench = draft.read()?;
        let known = self.get("key");
        let key = if known.is_empty() {
            Key::free(&wrench.name, "wrench", |key| job.wrenches.contains_key(key))?
        } else {
            Key::new(&known)?
        };
        Ok(Tooling::WrenchDescribed { key, wrench })
    }
}
