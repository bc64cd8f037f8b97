//! The page Service, its calendar, and what its forms send.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use jiff::Timestamp;
use jiff::civil::Date;
use jobfile::calendar::{Event, calendar as write};
use report::page::problem::Problem;
use report::page::service::calendar::Entry;
use report::page::service::{View, closing};
use report::page::{self, FormName, Page, Refused};
use workshop::draft::upkeep::{
    DoneDraft, MeterDraft, MishapDraft, PieceDraft, PointDraft, RuleDraft, SortDraft, UsageDraft,
};
use workshop::entry::{JobId, Key};
use workshop::job::Job;
use workshop::refusal::Refusal;
use workshop::upkeep::answer::{Answer, answer};
use workshop::upkeep::tasks::task;
use workshop::upkeep::{Servicing, Told, evidence};

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{Opened, clock, open_named, trouble, with_clocks};
use crate::visitor::Visitor;

/// Today, in the zone of this bench.
fn today() -> Date {
    clock().date()
}

impl Bench {
    /// What lasts, what it costs and what falls due today, computed once for a day and off the async threads.
    pub(crate) async fn serviced(&self, id: &JobId, job: &Job) -> Result<Arc<Answer>, Problem> {
        let today = today();
        let basis = format!("{id} {} {today}", job.position);
        let ready = || {
            let job = job.clone();
            move || answer(&job, today)
        };
        self.upkeeps.of(&basis, ready).await
    }

    /// The page as it is now, with what was refused.
    pub(crate) async fn service(
        &self,
        opened: &Opened,
        id: &JobId,
        refused: Option<&Refused>,
    ) -> Result<Page, Problem> {
        let says = self.serviced(id, &opened.job).await?;
        let drawn = page::service::page(&View {
            id,
            job: &opened.job,
            objections: &opened.objections,
            says: &says,
            refused,
        });
        Ok(with_clocks(drawn, &opened.job))
    }
}

/// The page.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let drawn = match open_named(&bench, &job).await {
        Ok((id, opened)) => bench.service(&opened, &id, None).await,
        Err(problem) => Err(problem),
    };
    bench.answer(&visitor, drawn).await
}

/// What falls due, a day each, as a calendar file.
pub(crate) async fn calendar(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let drawn = async {
        let (id, opened) = open_named(&bench, &job).await?;
        let says = bench.serviced(&id, &opened.job).await?;
        // No page leads to a calendar without an event.
        let text = file(&id, &opened.job, (&says, Timestamp::now()));
        let text = text.ok_or(Problem::NoSuchPage)?;
        let headers = [
            (CONTENT_TYPE, "text/calendar; charset=utf-8".to_owned()),
            (
                CONTENT_DISPOSITION,
                format!("attachment; filename=\"{id}-service.ics\""),
            ),
        ];
        Ok((headers, text).into_response())
    };
    drawn
        .await
        .unwrap_or_else(|problem| trouble(&visitor, &problem))
}

/// What falls due as a calendar file, told at a time; none where nothing has a day: a calendar needs an event to be one.
pub fn file(id: &JobId, job: &Job, told: (&Answer, Timestamp)) -> Option<String> {
    let (says, at) = told;
    let events = events(id, job, says);
    let name = job.title.clone().unwrap_or_default();
    (!events.is_empty()).then(|| write(&name, at, &events))
}

/// Named by job, task and time of it, so that a later file moves what an earlier one put there.
fn events(id: &JobId, job: &Job, says: &Answer) -> Vec<Event> {
    // The greatest the format has.
    let sequence = u32::try_from(job.position).unwrap_or(u32::MAX);
    let sequence = sequence.min(i32::MAX.unsigned_abs());
    let entries = page::service::calendar::calendar(job, says).into_iter();
    let event = |entry: Entry| Event {
        uid: format!("{id}-{}@pumpwright.invalid", entry.name),
        sequence,
        date: entry.on,
        summary: entry.summary,
        description: entry.description,
        alarm_days: None,
        cancelled: false,
    };
    entries.map(event).collect()
}

impl Sent {
    /// What is said about service.
    pub(crate) fn serviced(
        &self,
        form: FormName,
        job: &Job,
        now: Option<&Answer>,
    ) -> Result<Servicing, Refusal> {
        let upkeep = &job.upkeep;
        Ok(match form {
            FormName::Usage => Servicing::Usage(Box::new(self.usage().read()?)),
            FormName::Sort => {
                let part = self.sort().read()?;
                let key = self.known_or("sort", || {
                    Key::free(&part.name, "part", |key| upkeep.parts.contains_key(key))
                })?;
                Servicing::Part {
                    key,
                    part: Some(Box::new(part)),
                }
            }
            FormName::SortOff => Servicing::Part {
                key: Key::new(&self.get("sort"))?,
                part: None,
            },
            FormName::Piece => {
                let piece = self.piece().read()?;
                let key = self.known_or("piece", || {
                    let part = piece.part.as_str();
                    Key::free(part, "piece", |key| upkeep.pieces.contains_key(key))
                })?;
                Servicing::Piece {
                    key,
                    piece: Some(Box::new(piece)),
                }
            }
            FormName::PieceOff => Servicing::Piece {
                key: Key::new(&self.get("piece"))?,
                piece: None,
            },
            FormName::Meter => {
                let (on, hours) = (self.get("on"), self.get("hours"));
                Servicing::Meter(MeterDraft { on, hours }.read()?)
            }
            FormName::Mishap => Servicing::Happened(self.mishap().read()?),
            FormName::TaskRule => self.task_rule(job)?,
            FormName::TaskRuleOff => Servicing::Rule {
                task: Key::new(&self.get("task"))?,
                rule: None,
            },
            FormName::TaskDone => Servicing::Done(self.task_done().read()?),
            FormName::Recheck => self.rechecked()?,
            _ => self.closed(job, now.ok_or(Refusal::ShownIsStale)?)?,
        })
    }

    /// The key sent along, or a new one.
    fn known_or(
        &self,
        field: &str,
        new: impl FnOnce() -> Result<Key, Refusal>,
    ) -> Result<Key, Refusal> {
        match self.get(field).as_str() {
            "" => new(),
            known => Key::new(known),
        }
    }

    fn usage(&self) -> UsageDraft {
        UsageDraft {
            currency: self.get("currency"),
            water: self.get("water"),
            silt: self.get("silt"),
            sand: self.get("sand"),
            week: self.get("week"),
            season: self.get("season"),
            from: self.get("from"),
            until: self.get("until"),
            keep: self.get("keep"),
            wage: self.get("wage"),
            failure: self.get("failure"),
            worth: self.get("worth"),
            between: self.get("between"),
            floor: self.get("floor"),
        }
    }

    fn sort(&self) -> SortDraft {
        SortDraft {
            name: self.get("name"),
            kind: self.get("kind"),
            option: self.get("option"),
            price: self.get("price"),
            supplies: self.get("supplies"),
            labour: self.get("labour"),
            tenth: self.get("tenth"),
            half: self.get("half"),
            trust: self.get("trust"),
            ruin: self.get("ruin"),
            lost: self.get("lost"),
            lost_at: self.get("lost_at"),
            note: self.get("note"),
        }
    }

    fn piece(&self) -> PieceDraft {
        PieceDraft {
            part: self.get("part"),
            elsewhere: self.get("elsewhere"),
            water: self.get("water"),
            fitted: self.get("fitted"),
            good: self.get("good"),
            end: self.get("end"),
            ended: self.get("ended"),
            note: self.get("note"),
        }
    }

    fn mishap(&self) -> MishapDraft {
        MishapDraft {
            what: self.get("what"),
            on: self.get("on"),
            hours: self.get("hours"),
            note: self.get("note"),
        }
    }

    fn task_done(&self) -> DoneDraft {
        DoneDraft {
            task: self.get("task"),
            on: self.get("on"),
            hours: self.get("hours"),
            note: self.get("note"),
        }
    }

    /// Of a rule that stands the form says which; a new one is of the task chosen, or one of its own.
    fn task_rule(&self, job: &Job) -> Result<Servicing, Refusal> {
        let draft = RuleDraft {
            name: self.get("name"),
            hours: self.get("hours"),
            months: self.get("months"),
            after: self.all("after"),
            edge: self.get("edge"),
            page: self.get("page"),
        };
        let rule = draft.read()?;
        let task = self.known_or("rule", || {
            self.known_or("task", || {
                if rule.name.is_empty() {
                    return Err(Refusal::Empty { field: "name" });
                }
                let taken =
                    |key: &Key| task(key.as_str()).is_some() || job.upkeep.rules.contains_key(key);
                Key::free(&rule.name, "task", taken)
            })
        })?;
        Ok(Servicing::Rule {
            task,
            rule: Some(Box::new(rule)),
        })
    }

    fn rechecked(&self) -> Result<Servicing, Refusal> {
        let back = self.get("found") == "back";
        let draft = PointDraft {
            point: self.get("point"),
            found: if back {
                "well".to_owned()
            } else {
                self.get("found")
            },
            note: self.get("note"),
        };
        let (point, well, note) = draft.read()?;
        Ok(Servicing::Rechecked {
            point,
            well: (!back).then_some(well),
            note: if back { String::new() } else { note },
        })
    }

    /// The job closed on what was looked at.
    fn closed(&self, job: &Job, now: &Answer) -> Result<Servicing, Refusal> {
        let evidence = evidence(job);
        if evidence != self.get("evidence") {
            return Err(Refusal::ShownIsStale);
        }
        Ok(Servicing::Closed(Box::new(Told {
            evidence,
            words: closing(now),
            program: workshop::PROGRAM.to_owned(),
        })))
    }
}
