//! The Water test page, the test card, and what their forms send.

mod upload;

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;
use report::page::problem::Problem;
use report::page::water::{View, card_page};
use report::page::{self, FormName, Page, Refused};
use workshop::draft::water::{FigureDraft, OutingDraft, WindowDraft};
use workshop::entry::{JobId, Key};
use workshop::job::Job;
use workshop::refusal::{Refusal, Splash};
use workshop::water::answer::{Answer, answer};
use workshop::water::outing::LogSays;
use workshop::water::{Figure, OutingState, Shown, Trialling, Window, evidence};

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{Opened, clock, open_named, with_clocks};
use crate::visitor::Visitor;

pub(crate) use upload::{LARGEST_LOG, read};

impl Bench {
    /// What the trials of a job show, computed once and off the async threads.
    pub(crate) async fn shown(&self, job: &Job) -> Result<Arc<Answer>, Problem> {
        let ready = || {
            let trials = Job {
                trials: job.trials.clone(),
                ..Job::default()
            };
            move || answer(&trials)
        };
        self.trials.of(&evidence(job), ready).await
    }

    /// The page as it is now, with what was refused.
    pub(crate) async fn water(
        &self,
        opened: &Opened,
        id: &JobId,
        refused: Option<&Refused>,
    ) -> Result<Page, Problem> {
        self.drawn(opened, (id, page::water::page), refused).await
    }

    async fn drawn(
        &self,
        opened: &Opened,
        (id, page): (&JobId, fn(&View<'_>) -> Page),
        refused: Option<&Refused>,
    ) -> Result<Page, Problem> {
        let says = self.shown(&opened.job).await?;
        let drawn = page(&View {
            id,
            job: &opened.job,
            objections: &opened.objections,
            now: &clock(),
            says: &says,
            refused,
        });
        Ok(with_clocks(drawn, &opened.job))
    }
}

/// The Water test page.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    look(&bench, &visitor, &job, page::water::page).await
}

/// The test card.
pub(crate) async fn card(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    look(&bench, &visitor, &job, card_page).await
}

async fn look(
    bench: &Bench,
    visitor: &Visitor,
    job: &str,
    page: fn(&View<'_>) -> Page,
) -> Response {
    let drawn = match open_named(bench, job).await {
        Ok((id, opened)) => bench.drawn(&opened, (&id, page), None).await,
        Err(problem) => Err(problem),
    };
    bench.answer(visitor, drawn).await
}

impl Sent {
    /// What is said of a water test.
    pub(crate) fn trialled(
        &self,
        form: FormName,
        job: &Job,
        now: Option<&Answer>,
    ) -> Result<Trialling, Refusal> {
        Ok(match form {
            FormName::Outing => {
                let outing = self.outing().read()?;
                Trialling::Outing {
                    key: self.outing_key(job, &outing.name)?,
                    outing,
                }
            }
            FormName::LogOff => Trialling::LogPutAway {
                digest: Key::new(&self.get("log"))?,
            },
            FormName::Run | FormName::RunOff => {
                self.runs(form, now.ok_or(Refusal::ShownIsStale)?)?
            }
            FormName::RunsFound => Trialling::Runs {
                digest: Key::new(&self.get("log"))?,
                windows: None,
            },
            FormName::Figure | FormName::FigureOff => self.figures(form, job)?,
            _ => self.taken(job, now.ok_or(Refusal::ShownIsStale)?)?,
        })
    }

    fn outing(&self) -> OutingDraft {
        OutingDraft {
            name: self.get("name"),
            side: self.get("side"),
            unit: self.get("unit"),
            receiver: self.get("receiver"),
            water: self.get("water"),
            water_temperature: self.get("water_temperature"),
            wind: self.get("wind"),
            waves: self.get("waves"),
            air_temperature: self.get("air_temperature"),
            pressure: self.get("pressure"),
            humidity: self.get("humidity"),
            charged: self.get("charged"),
            note: self.get("note").replace("\r\n", "\n"),
        }
    }

    /// The key sent along, or a new one of the name's words.
    fn outing_key(&self, job: &Job, name: &str) -> Result<Key, Refusal> {
        match self.get("outing").as_str() {
            "" => Key::free(name, "outing", |key| job.trials.outings.contains_key(key)),
            key => Key::new(key),
        }
    }

    /// The runs of a log with one more, or without one.
    fn runs(&self, form: FormName, now: &Answer) -> Result<Trialling, Refusal> {
        let digest = Key::new(&self.get("log"))?;
        let outings = now.before.outings.iter().chain(&now.after.outings);
        let mut logs = outings.flat_map(|outing| &outing.logs);
        let says = logs.find(|log| log.digest == digest);
        let mut windows: Vec<Window> = says.map_or_else(Vec::new, LogSays::windows);
        if form == FormName::Run {
            let draft = WindowDraft {
                from: self.get("from"),
                until: self.get("until"),
            };
            windows.push(draft.read()?);
            windows.sort_unstable();
        } else {
            let from = self.get("from");
            windows.retain(|window| WindowDraft::of(*window).from != from);
        }
        Ok(Trialling::Runs {
            digest,
            windows: Some(windows),
        })
    }

    /// The figures of an outing with one more, or without one.
    fn figures(&self, form: FormName, job: &Job) -> Result<Trialling, Refusal> {
        let outing = Key::new(&self.get("outing"))?;
        let state = outing_of(job, &outing)?;
        let had = state.figures.iter().flat_map(|fact| &fact.value);
        let mut figures: Vec<Figure> = had.cloned().collect();
        if form == FormName::Figure {
            let draft = FigureDraft {
                what: self.get("what"),
                way: self.get("way"),
                to: self.get("to"),
                value: self.get("value"),
                read: self.get("read"),
            };
            figures.push(draft.read(state.outing.value.unit)?);
        } else if let Ok(place) = self.get("place").parse::<usize>()
            && place < figures.len()
        {
            figures.remove(place);
        }
        Ok(Trialling::Figures { outing, figures })
    }

    /// The result as it is now, if it is the one that was looked at.
    fn taken(&self, job: &Job, now: &Answer) -> Result<Trialling, Refusal> {
        if now.evidence != self.get("evidence") {
            return Err(Refusal::ShownIsStale);
        }
        let words = page::water::headline(job, now);
        Ok(Trialling::Taken(Shown::of(now, words)))
    }
}

fn outing_of<'a>(job: &'a Job, outing: &Key) -> Result<&'a OutingState, Refusal> {
    job.trials.outings.get(outing).ok_or_else(|| {
        Refusal::Water(Splash::NoSuchOuting {
            key: outing.to_string(),
        })
    })
}
