//! From a sent form to an act. Text becomes quantities here, through the drafts, and nowhere later.

use quantity::{Unit, parse};
use report::page::FormName;
use workshop::act::Act;
use workshop::draft::{LEAF_UNITS, LeavesDraft, LimitsDraft, PumpDraft, WalkDraft};
use workshop::entry::Body;
use workshop::gap::Judgement;
use workshop::job::{Job, Spot, Tried};
use workshop::reading;
use workshop::refusal::{Need, Refusal};

/// The fields of a form as sent.
#[derive(Clone, Debug)]
pub(crate) struct Sent(pub(crate) Vec<(String, String)>);

impl Sent {
    pub(crate) fn get(&self, key: &str) -> String {
        let named = self.0.iter().find(|(name, _)| name == key);
        named.map_or_else(String::new, |(_, value)| value.clone())
    }

    /// The act it asks for, given the job it is sent to and the answer shown for it now.
    pub(crate) fn act(
        &self,
        form: FormName,
        job: &Job,
        judgement: Option<&Judgement>,
    ) -> Result<Act, Refusal> {
        let unit = job.unit();
        let body = match form {
            FormName::Undo => return Ok(Act::Undo),
            FormName::Redo => return Ok(Act::Redo),
            FormName::Open => Body::JobOpened {
                title: self.get("title").trim().to_owned(),
                note: self.get("note").replace("\r\n", "\n").trim().to_owned(),
            },
            FormName::Pump => Body::PumpDescribed(self.pump().read()?),
            FormName::Leaves => Body::LeavesDescribed(self.leaves().read()?),
            FormName::Limits => Body::LimitsStated(self.limits().read(unit)?),
            FormName::Walk => {
                let draft = WalkDraft {
                    go: self.get("go"),
                    no_go: self.get("no_go"),
                };
                Body::WalkChosen(draft.read(unit)?)
            }
            FormName::Try => Body::LeavesTried {
                spot: self.spot(job)?,
                tries: vec![self.tried()?],
                afresh: false,
            },
            FormName::Reading => Body::LeavesTried {
                spot: self.spot(job)?,
                tries: reading::read(&self.get("reading"), unit)?,
                afresh: true,
            },
            FormName::Accept => {
                let shown = judgement.and_then(Judgement::shown);
                let shown = shown.ok_or(Refusal::Missing(Need::Readings))?;
                if shown.evidence != self.get("evidence") {
                    return Err(Refusal::ShownIsStale);
                }
                Body::GapAccepted(shown)
            }
        };
        Ok(Act::Record(body))
    }

    fn pump(&self) -> PumpDraft {
        PumpDraft {
            blades: self.get("blades"),
            positions: self.get("positions"),
            bore: self.get("bore"),
            view: self.get("view"),
            rotation: self.get("rotation"),
        }
    }

    fn leaves(&self) -> LeavesDraft {
        LeavesDraft {
            unit: self.get("unit"),
            thicknesses: self.get("thicknesses"),
            width: self.get("width"),
            lead: self.get("lead"),
            posture: self.get("posture"),
            tolerance: self.get("tolerance"),
            feel: self.get("feel"),
        }
    }

    fn limits(&self) -> LimitsDraft {
        LimitsDraft {
            least: self.get("least"),
            greatest: self.get("greatest"),
            measure: self.get("measure"),
            page: self.get("page"),
            rub_in: !self.get("rub_in").is_empty(),
        }
    }

    fn spot(&self, job: &Job) -> Result<Spot, Refusal> {
        let pump = job.pump.as_ref().ok_or(Refusal::Missing(Need::Pump))?;
        reading::read_spot(&self.get("spot"), pump.value.positions)
    }

    fn tried(&self) -> Result<Tried, Refusal> {
        let unit = self.get("unit");
        let bare = LEAF_UNITS.iter().find(|(word, _)| *word == unit);
        let bare = bare.map_or(Unit::Millimetre, |(_, unit)| *unit);
        let leaf = parse(&self.get("leaf"), bare).map_err(|error| Refusal::Unreadable {
            field: "reading",
            error,
        })?;
        let text = self.get("answer");
        let answer = reading::answer_of(&text);
        Ok(Tried {
            leaf,
            answer: answer.ok_or(Refusal::BadReading {
                part: text.clone(),
                text,
            })?,
        })
    }
}
