//! From a sent form to an act. Text becomes quantities here, through the drafts, and nowhere later.

mod fit;
mod usual;

use std::sync::Arc;

use quantity::{Unit, parse};
use report::page::FormName;
use workshop::act::Act;
use workshop::draft::bench::{
    CrewDraft, Edit, PartDraft, RuleDraft, StepDraft, deferred, estimated, fasteners,
};
use workshop::draft::inspect::{Sheet, free_key};
use workshop::draft::photos::subject;
use workshop::draft::{
    FastenedDraft, InspectionDraft, JointDraft, LEAF_UNITS, LeavesDraft, LimitsDraft, PumpDraft,
    WalkDraft,
};
use workshop::entry::{Body, Key};
use workshop::gap::Judgement;
use workshop::job::{Job, Spot, Tried};
use workshop::photos::{PhotoHash, Photography};
use workshop::plan::{Stated, Status, Work};
use workshop::reading;
use workshop::refusal::{Need, Refusal};
use workshop::water::answer::Answer;

use crate::photo::words;

/// The answers that an act takes along as they are now; none where it takes none.
#[derive(Clone, Debug, Default)]
pub(crate) struct Now {
    pub(crate) judgement: Option<Arc<Judgement>>,
    pub(crate) trial: Option<Arc<Answer>>,
    pub(crate) choice: Option<Arc<workshop::choose::answer::Answer>>,
    pub(crate) cause: Option<workshop::diagnose::answer::Answer>,
    pub(crate) upkeep: Option<Arc<workshop::upkeep::answer::Answer>>,
}

/// The fields of a form as sent.
#[derive(Clone, Debug, Default)]
pub(crate) struct Sent(pub(crate) Vec<(String, String)>);

impl Sent {
    pub(crate) fn get(&self, key: &str) -> String {
        let named = self.0.iter().find(|(name, _)| name == key);
        named.map_or_else(String::new, |(_, value)| value.clone())
    }

    /// Every value of a field that may be sent several times.
    pub(crate) fn all(&self, key: &str) -> Vec<String> {
        let named = self.0.iter().filter(|(name, _)| name == key);
        named.map(|(_, value)| value.clone()).collect()
    }

    /// The acts it asks for: one, but for the form that says where several parts are.
    pub(crate) fn acts(&self, form: FormName, job: &Job, now: &Now) -> Result<Vec<Act>, Refusal> {
        let parts = match form {
            FormName::Parts => self.all("parts"),
            _ => Vec::new(),
        };
        if parts.is_empty() {
            return Ok(vec![self.act(form, job, now)?]);
        }
        let here = |part: &String| {
            let stated = Stated {
                status: Status::AtHand,
                expected: None,
            };
            let part = Key::new(part)?;
            Ok(Act::Record(Body::Work(Work::PartStated { part, stated })))
        };
        parts.iter().map(here).collect()
    }

    /// The act it asks for, given the job it is sent to and the answer shown for it now.
    #[expect(clippy::too_many_lines, reason = "an arm a form, read as a list")]
    pub(crate) fn act(&self, form: FormName, job: &Job, now: &Now) -> Result<Act, Refusal> {
        let unit = job.unit();
        let body = match form {
            FormName::Undo => return Ok(Act::Undo),
            FormName::Redo => return Ok(Act::Redo),
            // These are no acts of a job.
            FormName::Pair
            | FormName::PairingNumber
            | FormName::RenameDevice
            | FormName::RemoveDevice => return Err(Refusal::Empty { field: "device" }),
            FormName::Open => Body::JobOpened {
                title: self.get("title").trim().to_owned(),
                note: self.get("note").replace("\r\n", "\n").trim().to_owned(),
                follows: None,
            },
            FormName::Pump => Body::PumpDescribed(self.pump().read()?),
            FormName::Leaves => Body::LeavesDescribed(self.leaves().read()?),
            FormName::Limits => Body::LimitsStated(self.limits().read(unit)?),
            FormName::Walk => Body::WalkChosen(self.walk().read(unit)?),
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
            FormName::Joint => {
                let joint = self.joint().read()?;
                Body::JointDescribed {
                    key: self.joint_key(job, &joint.name)?,
                    joint,
                }
            }
            FormName::Fasten => Body::JointFastened {
                key: Key::new(&self.get("joint"))?,
                fastened: self.fastened().read()?,
            },
            FormName::Wrench | FormName::Tool | FormName::Hole | FormName::Role => {
                Body::Tooled(self.tooled(form, job)?)
            }
            FormName::Fit => fit::described(self, job)?,
            FormName::FitCheck => fit::checked(self, job)?,
            FormName::Begin
            | FormName::Done
            | FormName::Before
            | FormName::Defer
            | FormName::GoAhead
            | FormName::Again
            | FormName::Estimate
            | FormName::Crew
            | FormName::Fasteners
            | FormName::Part => Body::Work(self.work(form)?),
            // It is several acts.
            FormName::Parts => return Err(Refusal::Empty { field: "parts" }),
            FormName::Usual => {
                let craft = usual::craft(self)?;
                let plan = workshop::usual::lay(job, &self.get("id"), &craft)?;
                Body::Work(Work::PlanLaid(plan))
            }
            FormName::Item | FormName::Tools => Body::Work(self.told(form)?),
            FormName::NewStep
            | FormName::PlanStep
            | FormName::StepOff
            | FormName::NewRule
            | FormName::RuleOff
            | FormName::NewPart
            | FormName::PartOff
            | FormName::NewItem
            | FormName::ItemOff
            | FormName::NewTool
            | FormName::ToolOff
            | FormName::PlanName => {
                let plan = self.edit(form).apply(job, &self.get("seen"))?;
                Body::Work(Work::PlanLaid(plan))
            }
            FormName::Rotor
            | FormName::Leak
            | FormName::AlignSlides
            | FormName::AlignBar
            | FormName::AlignDials
            | FormName::Finding
            | FormName::Settle
            | FormName::Sizes
            | FormName::Ring
            | FormName::Cone
            | FormName::Reread
            | FormName::Visit
            | FormName::Around
            | FormName::Compound
            | FormName::OnThread
            | FormName::Seal
            | FormName::Contact
            | FormName::AsFound
            | FormName::Supply
            | FormName::NewSupply => Body::Inspected(self.sheet(form, job)?.read(unit)?),
            // The form of photos has an address of its own, which reads files.
            FormName::Photo => return Err(Refusal::Empty { field: "photo" }),
            FormName::Caption => Body::Photographed(Photography::Captioned {
                photo: PhotoHash::new(&self.get("photo"))?,
                subject: subject(&self.get("subject"))?,
                words: words(&self.get("words")),
            }),
            FormName::PutAway => Body::Photographed(Photography::PutAway {
                photo: PhotoHash::new(&self.get("photo"))?,
            }),
            // The form of logs has an address of its own, which reads files.
            FormName::Archive => return Err(Refusal::Empty { field: "archive" }),
            FormName::Log => return Err(Refusal::Empty { field: "log" }),
            FormName::Outing
            | FormName::LogOff
            | FormName::Run
            | FormName::RunOff
            | FormName::RunsFound
            | FormName::Figure
            | FormName::FigureOff
            | FormName::TakeTrial => {
                Body::Trialled(self.trialled(form, job, now.trial.as_deref())?)
            }
            FormName::Craft
            | FormName::Option
            | FormName::OptionOff
            | FormName::Wish
            | FormName::Steadies
            | FormName::TakeOption => Body::Chose(self.chosen(form, job, now.choice.as_deref())?),
            FormName::Suspect
            | FormName::Symptoms
            | FormName::Checked
            | FormName::Safe
            | FormName::TakeCause => {
                Body::Diagnosed(self.diagnosed(form, job, now.cause.as_ref())?)
            }
            FormName::Usage
            | FormName::Sort
            | FormName::SortOff
            | FormName::Piece
            | FormName::PieceOff
            | FormName::Meter
            | FormName::Mishap
            | FormName::TaskRule
            | FormName::TaskRuleOff
            | FormName::TaskDone
            | FormName::Recheck
            | FormName::CloseJob => {
                Body::Serviced(self.serviced(form, job, now.upkeep.as_deref())?)
            }
            FormName::Accept => self.accepted(now.judgement.as_deref())?,
        };
        Ok(Act::Record(body))
    }

    /// The result as it is now, if it is the one that was looked at.
    fn accepted(&self, judgement: Option<&Judgement>) -> Result<Body, Refusal> {
        let shown = judgement.and_then(Judgement::shown);
        let shown = shown.ok_or(Refusal::Missing(Need::Readings))?;
        if shown.evidence != self.get("evidence") {
            return Err(Refusal::ShownIsStale);
        }
        Ok(Body::GapAccepted(shown))
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

    fn walk(&self) -> WalkDraft {
        WalkDraft {
            go: self.get("go"),
            no_go: self.get("no_go"),
            order: self.get("order"),
        }
    }

    /// What is said of a step or a part.
    fn work(&self, form: FormName) -> Result<Work, Refusal> {
        if form == FormName::Part {
            let draft = PartDraft {
                status: self.get("status"),
                expected: self.get("expected"),
                ..PartDraft::default()
            };
            let part = Key::new(&self.get("part"))?;
            let stated = draft.stated()?.ok_or(Refusal::Empty { field: "status" })?;
            return Ok(Work::PartStated { part, stated });
        }
        if form == FormName::Crew {
            let draft = CrewDraft {
                hands: self.get("hands"),
                hours: self.get("hours"),
            };
            return Ok(Work::CrewStated(draft.read()?));
        }
        let step = Key::new(&self.get("step"))?;
        let text = |key: &str| self.get(key).trim().to_owned();
        Ok(match form {
            FormName::Begin => Work::StepBegun { step },
            FormName::Defer => {
                let reason = (self.get("ready"), text("reason"));
                let release = (text("release"), self.get("until"));
                deferred(
                    step,
                    (reason.0.as_str(), reason.1.as_str()),
                    (release.0.as_str(), release.1.as_str()),
                )?
            }
            FormName::Again => Work::StepAgain {
                step,
                reason: text("reason"),
            },
            FormName::Estimate => {
                let (takes, most) = estimated(&self.get("takes"), &self.get("most"))?;
                Work::StepEstimated { step, takes, most }
            }
            FormName::GoAhead => Work::GateOverridden {
                step,
                reason: text("reason"),
            },
            FormName::Fasteners => {
                let (count, temporary) = fasteners(&self.get("count"), &self.get("temporary"))?;
                Work::FastenersIn {
                    step,
                    count,
                    temporary,
                }
            }
            _ => Work::StepDone {
                step,
                witnessed: form == FormName::Done,
            },
        })
    }

    /// A change to the plan.
    fn edit(&self, form: FormName) -> Edit {
        if let Some(edit) = self.things(form) {
            return edit;
        }
        match form {
            FormName::NewStep => Edit::NewStep {
                step: self.step(),
                follows: self.get("follows"),
                plan: self.get("plan"),
            },
            FormName::PlanStep => Edit::Step(self.step()),
            FormName::StepOff => Edit::StepOff(self.get("step")),
            FormName::NewRule => Edit::NewRule(self.rule()),
            FormName::RuleOff => Edit::RuleOff(self.get("rule")),
            FormName::NewPart => Edit::NewPart(self.get("part")),
            FormName::PartOff => Edit::PartOff(self.get("part")),
            _ => Edit::Name(self.get("plan")),
        }
    }

    fn step(&self) -> StepDraft {
        StepDraft {
            key: self.get("step"),
            name: self.get("name").trim().to_owned(),
            takes: self.get("takes"),
            most: self.get("most"),
            needs: self.all("needs"),
            hands: self.get("hands"),
            tools: self.all("tools"),
            group: self.get("group").trim().to_owned(),
            how: self.get("how").replace("\r\n", "\n").trim().to_owned(),
            gate: self.get("gate"),
            opens: self.get("opens"),
            fasteners: self.get("fasteners"),
            temporary: !self.get("temporary").is_empty(),
            caution: self.get("caution").trim().to_owned(),
            irreversible: !self.get("irreversible").is_empty(),
        }
    }

    fn rule(&self) -> RuleDraft {
        RuleDraft {
            kind: self.get("kind"),
            first: self.get("first"),
            then: self.get("then"),
            time: self.get("time"),
            why: self.get("why").trim().to_owned(),
            physics: !self.get("physics").is_empty(),
        }
    }

    fn joint(&self) -> JointDraft {
        JointDraft {
            name: self.get("name"),
            thread: self.get("thread"),
            head: self.get("head"),
            count: self.get("count"),
            class: self.get("class"),
            hole: self.get("hole"),
            engagement: self.get("engagement"),
            torque: self.get("torque"),
            second: self.get("second"),
            stated_for: self.get("stated_for"),
            turn: self.get("turn"),
            seat: self.get("seat"),
            grip: self.get("grip"),
            condition: self.get("condition"),
            face: self.get("face"),
            page: self.get("page"),
        }
    }

    /// The key of the joint the form is about; for a new joint one of its name that is free.
    fn joint_key(&self, job: &Job, name: &str) -> Result<Key, Refusal> {
        let known = self.get("joint");
        if !known.is_empty() {
            return Key::new(&known);
        }
        Key::free(name, "joint", |key| job.joints.contains_key(key))
    }

    fn fastened(&self) -> FastenedDraft {
        FastenedDraft {
            in_place: self.get("in"),
            torqued: self.get("torqued"),
            marked: self.get("marked"),
            temporary: !self.get("temporary").is_empty(),
            pass: self.get("pass"),
            gone: self.get("gone"),
        }
    }

    /// A sheet of the teardown. Of several the form names which; a new one gets a key of its words.
    fn sheet(&self, form: FormName, job: &Job) -> Result<InspectionDraft, Refusal> {
        let sheet = form.sheet().unwrap_or(Sheet::Finding);
        let key = match sheet {
            Sheet::Visit => self.get("visit"),
            Sheet::Compound => self.get("compound"),
            Sheet::AsFound => self.get("found"),
            // What is added has no key yet; of what is on the list one is chosen.
            Sheet::Supply if form == FormName::NewSupply => String::new(),
            Sheet::Supply if self.get("supply").is_empty() => {
                return Err(Refusal::Empty { field: "supply" });
            }
            Sheet::Supply => self.get("supply"),
            Sheet::Thread | Sheet::Seal | Sheet::Contact => {
                return Ok(InspectionDraft::new(sheet, self.get("joint"), |field| {
                    self.get(field)
                }));
            }
            _ if sheet.keyed() => self.get("finding"),
            _ => String::new(),
        };
        let mut draft = InspectionDraft::new(sheet, key, |field| self.get(field));
        if sheet.keyed() && draft.key.is_empty() {
            draft.key = free_key(job, &draft)?.to_string();
        }
        Ok(draft)
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
