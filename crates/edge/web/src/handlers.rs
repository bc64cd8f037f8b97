//! One function an address: extract, ask, render.

use std::any::Any;
use std::borrow::Cow;
use std::sync::Arc;

use axum::extract::rejection::FormRejection;
use axum::extract::{Form, Path, Query, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};
use jiff::{Timestamp, ZonedDateTime};
use report::page::problem::Problem;
use report::page::{self, FormName, Page, Refused, Target};
use workshop::entry::{Entry, JobId, LONGEST_ID};
use workshop::fold::{Objection, fold};
use workshop::gap::{Inputs, Judgement};
use workshop::job::{Job, Spot};
use workshop::photos::PhotoHash;
use workshop::refusal::{Need, Refusal};

use crate::act::{Now, Sent};
use crate::planned::Asked;
use crate::stamp::{numbered, stamp};
use crate::visitor::{Visitor, random_id};
use crate::{Bench, LARGEST_FORM, account, render, route};

/// A job as its journal adds up, without its answer.
pub(crate) struct Opened {
    pub(crate) entries: Arc<Vec<Entry>>,
    /// Boxed: what answers a page carries it along, and a job is large.
    pub(crate) job: Box<Job>,
    pub(crate) objections: Vec<Objection>,
}

/// A job looked at, with its answer.
pub(crate) struct Seen {
    pub(crate) opened: Opened,
    judgement: Result<Arc<Judgement>, Need>,
}

impl Bench {
    async fn open(&self, id: &JobId) -> Result<Opened, Problem> {
        let entries = self.store.journal(id).await;
        let entries = entries.map_err(|error| problem(&error))?;
        if entries.is_empty() {
            return Err(Problem::NoSuchJob { id: id.to_string() });
        }
        let (job, objections) = fold(&entries);
        Ok(Opened {
            entries,
            job: Box::new(job),
            objections,
        })
    }

    async fn judge(&self, job: &Job) -> Result<Result<Arc<Judgement>, Need>, Problem> {
        match Inputs::of(job) {
            Ok(inputs) => {
                let answer = self.answers.of(inputs).await;
                Ok(Ok(answer.map_err(|_| Problem::Failed)?))
            }
            Err(need) => Ok(Err(need)),
        }
    }

    /// The page that was asked for with its photos, or why there is none.
    pub(crate) async fn answer(&self, visitor: &Visitor, page: Result<Page, Problem>) -> Response {
        let page = match page {
            Ok(page) => self.pictured(page).await,
            Err(problem) => Err(problem),
        };
        answer(visitor, page)
    }

    /// What the act of this form takes along.
    async fn now(&self, form: FormName, id: &JobId, job: &Job) -> Result<Now, Problem> {
        let mut now = Now::default();
        match form {
            FormName::Accept => now.judgement = self.judge(job).await?.ok(),
            FormName::Run | FormName::RunOff | FormName::TakeTrial => {
                now.trial = Some(self.shown(job).await?);
            }
            FormName::TakeOption => now.choice = Some(self.chosen(job).await?),
            FormName::TakeCause => now.cause = Some(self.diagnosed(job).await?),
            FormName::CloseJob => now.upkeep = Some(self.serviced(id, job).await?),
            _ => {}
        }
        Ok(now)
    }

    async fn look(&self, id: &JobId) -> Result<Seen, Problem> {
        let opened = self.open(id).await?;
        let judgement = self.judge(&opened.job).await?;
        Ok(Seen { opened, judgement })
    }
}

impl Opened {
    /// The job that a form of this id is read for: the one it was read for before, where it came
    /// already, so that the same form is the same act.
    pub(crate) fn when(&self, id: &str) -> Cow<'_, Job> {
        let came = |entry: &Entry| entry.new.id.as_str() == id;
        match self.entries.iter().position(came) {
            Some(at) => Cow::Owned(fold(&self.entries[..at]).0),
            None => Cow::Borrowed(&self.job),
        }
    }

    /// A page that is drawn from the job alone.
    fn drawn(
        &self,
        page: fn(&page::torque::View<'_>) -> Page,
        id: &JobId,
        refused: Option<&Refused>,
    ) -> Page {
        let page = page(&page::torque::View {
            id,
            job: &self.job,
            objections: &self.objections,
            now: &clock(),
            refused,
        });
        with_clocks(page, &self.job)
    }
}

impl Opened {
    /// The page of one photo.
    pub(crate) fn photo(&self, id: &JobId, photo: &PhotoHash, refused: Option<&Refused>) -> Page {
        page::photos::page(
            &page::photos::View {
                id,
                job: &self.job,
                objections: &self.objections,
                refused,
            },
            photo,
        )
    }
}

impl Seen {
    /// The measuring record, with the photos of the whole job.
    pub(crate) fn record(&self, id: &JobId, refused: Option<&Refused>) -> Page {
        let page = page::record::page(&self.view(id, None, refused), &self.opened.entries);
        with_clocks(page, &self.opened.job)
    }

    pub(crate) fn answer(&self) -> Result<&Judgement, Need> {
        self.judgement
            .as_ref()
            .map(Arc::as_ref)
            .map_err(|need| *need)
    }

    fn measure(&self, id: &JobId, at: Option<Spot>, refused: Option<&Refused>) -> Page {
        let page = page::measure::page(&self.view(id, at, refused));
        with_clocks(page, &self.opened.job)
    }

    pub(crate) fn view<'a>(
        &'a self,
        id: &'a JobId,
        at: Option<Spot>,
        refused: Option<&'a Refused>,
    ) -> page::measure::View<'a> {
        page::measure::View {
            id,
            job: &self.opened.job,
            objections: &self.opened.objections,
            judgement: self.answer(),
            at,
            refused,
        }
    }
}

pub(crate) async fn jobs(State(bench): State<Bench>, visitor: Visitor) -> Response {
    list(&bench, &visitor, None).await
}

pub(crate) async fn list(bench: &Bench, visitor: &Visitor, refused: Option<&Refused>) -> Response {
    match bench.store.jobs().await {
        Ok(jobs) => {
            let lines: Vec<_> = jobs
                .into_iter()
                .map(|line| page::jobs::Line {
                    id: line.id,
                    title: line.title,
                    entries: line.entries,
                    last: line.recorded_at.strftime("%Y-%m-%d").to_string(),
                })
                .collect();
            let page = page::jobs::page(&lines, refused);
            let page = page::devices::on_jobs(page, bench.lan.is_some());
            show(visitor, &page, status(refused))
        }
        Err(error) => trouble(visitor, &problem(&error)),
    }
}

pub(crate) async fn measure(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(query): Query<Vec<(String, String)>>,
) -> Response {
    let asked = query
        .iter()
        .find(|(key, _)| key == "at")
        .and_then(|(_, at)| spot(at));
    let page = find(&bench, &job).await.map(|(id, seen)| {
        let at = asked.filter(|spot| seen.opened.job.spots().contains(spot));
        seen.measure(&id, at, None)
    });
    visitor.remember(answer(&visitor, page))
}

/// The time, in the zone of this bench.
pub(crate) fn clock() -> ZonedDateTime {
    ZonedDateTime::now()
}

/// The working times of a job, on a page that does not tell them itself.
pub(crate) fn with_clocks(page: Page, job: &Job) -> Page {
    Page {
        clocks: page::assemble::clocks(job, &clock()),
        ..page
    }
}

pub(crate) async fn torque(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    of_job(&bench, &visitor, &job, page::torque::page).await
}

pub(crate) async fn teardown(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    of_job(&bench, &visitor, &job, page::teardown::page).await
}

async fn of_job(
    bench: &Bench,
    visitor: &Visitor,
    job: &str,
    page: fn(&page::torque::View<'_>) -> Page,
) -> Response {
    let opened = open_named(bench, job).await;
    let page = opened.map(|(id, opened)| opened.drawn(page, &id, None));
    bench.answer(visitor, page).await
}

pub(crate) async fn find(bench: &Bench, job: &str) -> Result<(JobId, Seen), Problem> {
    let id = named(job)?;
    let seen = bench.look(&id).await?;
    Ok((id, seen))
}

pub(crate) async fn open_named(bench: &Bench, job: &str) -> Result<(JobId, Opened), Problem> {
    let id = named(job)?;
    let opened = bench.open(&id).await?;
    Ok((id, opened))
}

pub(crate) fn named(job: &str) -> Result<JobId, Problem> {
    let shown: String = job.chars().take(LONGEST_ID).collect();
    JobId::new(job).map_err(|_| Problem::NoSuchJob { id: shown })
}

/// `A0`, `C11`: the blade's letter and the position counted from zero.
fn spot(text: &str) -> Option<Spot> {
    let blade = text.bytes().next().filter(u8::is_ascii_uppercase)? - b'A';
    Some(Spot {
        blade,
        position: text.get(1..)?.parse().ok()?,
    })
}

pub(crate) async fn act(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path((job, form)): Path<(String, String)>,
    fields: Result<Form<Vec<(String, String)>>, FormRejection>,
) -> Response {
    let sent = match fields {
        Ok(Form(fields)) => Sent(fields),
        Err(rejection) => return trouble(&visitor, &unreadable(&rejection)),
    };
    let Some(form) = FormName::of(&form) else {
        return trouble(&visitor, &Problem::NoSuchPage);
    };
    let (id, opened) = match open_named(&bench, &job).await {
        Ok(found) => found,
        Err(problem) => return trouble(&visitor, &problem),
    };
    let back = route::back(&id, &sent.get("back"));
    let job = opened.when(&sent.get("id"));
    let now = match bench.now(form, &id, &job).await {
        Ok(now) => now,
        Err(problem) => return trouble(&visitor, &problem),
    };
    let done = async {
        let stamp = stamp(&sent, &visitor)?;
        let acts = sent.acts(form, &job, &now)?;
        for (number, act) in acts.into_iter().enumerate() {
            let stamp = numbered(&stamp, number)?;
            bench.store.act(&id, act, stamp, Timestamp::now()).await?;
        }
        Ok(())
    };
    let why = match done.await {
        Ok(()) => {
            let next = route::after(form, back, &sent.get("step"));
            return visitor.remember(Redirect::to(&route::link(&next)).into_response());
        }
        Err(store::Error::Refused(refusal)) => refused(form, &sent, &refusal),
        Err(error @ store::Error::IdTaken { .. }) => Refused {
            form,
            typed: sent.0.clone(),
            field: None,
            why: error.to_string(),
        },
        Err(error) => return trouble(&visitor, &problem(&error)),
    };
    redrawn(&bench, &visitor, &id, &back, &why).await
}

/// The page as it is now, with the form as it was typed and the reason at its field.
pub(crate) async fn redrawn(
    bench: &Bench,
    visitor: &Visitor,
    id: &JobId,
    back: &Target,
    why: &Refused,
) -> Response {
    let page = async {
        let opened = bench.open(id).await?;
        let changed = |at| opened.planned(page::plan::page, None, Asked::refused(id, at, why));
        let page = match back {
            Target::Assemble(_) => {
                let asked = Asked::refused(id, None, why);
                opened.planned(page::assemble::page, Some(&bench.proofs), asked)
            }
            Target::Plan(_) => changed(None),
            Target::PlanStep(_, step) => changed(Some(step)),
            Target::Audit(_) => account::drawn(&opened, id, None, Some(why)),
            Target::Torque(_) => opened.drawn(page::torque::page, id, Some(why)),
            Target::Teardown(_) => opened.drawn(page::teardown::page, id, Some(why)),
            Target::Photo(_, photo) => opened.photo(id, photo, Some(why)),
            Target::Water(_) => bench.water(&opened, id, Some(why)).await?,
            Target::Choose(_) => bench.choose(&opened, id, Some(why)).await?,
            Target::Diagnose(_) => bench.diagnose(&opened, id, Some(why)).await?,
            Target::Service(_) => bench.service(&opened, id, Some(why)).await?,
            _ => {
                let seen = bench.look(id).await?;
                let at = pointed(&why.typed, &seen.opened.job);
                match back {
                    Target::Record(_) => seen.record(id, Some(why)),
                    _ => seen.measure(id, at, Some(why)),
                }
            }
        };
        bench.pictured(page).await
    };
    match page.await {
        Ok(page) => {
            let page = page.telling(&why.why);
            show(visitor, &page, StatusCode::UNPROCESSABLE_ENTITY)
        }
        Err(problem) => trouble(visitor, &problem),
    }
}

/// The spot a refused reading was meant for, so that the page stays there.
fn pointed(typed: &[(String, String)], job: &Job) -> Option<Spot> {
    let positions = job.pump.as_ref()?.value.positions;
    let (_, spot) = typed.iter().find(|(name, _)| name == "spot")?;
    let spot = workshop::reading::read_spot(spot, positions).ok()?;
    job.spots().contains(&spot).then_some(spot)
}

fn refused(form: FormName, sent: &Sent, refusal: &Refusal) -> Refused {
    Refused {
        form,
        typed: sent.0.clone(),
        field: refusal.field(),
        why: refusal.to_string(),
    }
}

fn status(refused: Option<&Refused>) -> StatusCode {
    if refused.is_some() {
        StatusCode::UNPROCESSABLE_ENTITY
    } else {
        StatusCode::OK
    }
}

pub(crate) fn show(visitor: &Visitor, page: &Page, status: StatusCode) -> Response {
    let id = || random_id(16);
    let html = render::document(page, visitor, &id).into_string();
    (status, Html(html)).into_response()
}

/// The page that was asked for, or why there is none.
pub(crate) fn answer(visitor: &Visitor, page: Result<Page, Problem>) -> Response {
    match page {
        Ok(page) => show(visitor, &page, StatusCode::OK),
        Err(problem) => trouble(visitor, &problem),
    }
}

pub(crate) fn trouble(visitor: &Visitor, problem: &Problem) -> Response {
    let status = match problem {
        Problem::NoSuchPage | Problem::NoSuchJob { .. } => StatusCode::NOT_FOUND,
        Problem::Unreadable => StatusCode::BAD_REQUEST,
        Problem::TooLarge { .. } => StatusCode::PAYLOAD_TOO_LARGE,
        Problem::Store { .. } => StatusCode::SERVICE_UNAVAILABLE,
        Problem::Failed | Problem::Damaged { .. } => StatusCode::INTERNAL_SERVER_ERROR,
    };
    show(visitor, &page::problem::page(problem), status)
}

/// What a person is told of a failure; the cause goes to the log.
#[expect(clippy::print_stderr, reason = "the log of a bench is its terminal")]
pub(crate) fn problem(error: &store::Error) -> Problem {
    eprintln!("pumpwright: {error:?}");
    match error {
        store::Error::Damaged { .. } => Problem::Damaged {
            why: error.to_string(),
        },
        store::Error::Held | store::Error::Crowded { .. } | store::Error::Database(_) => {
            Problem::Store {
                why: error.to_string(),
            }
        }
        _ => Problem::Failed,
    }
}

pub(crate) fn unreadable(rejection: &FormRejection) -> Problem {
    if rejection.status() == StatusCode::PAYLOAD_TOO_LARGE {
        Problem::TooLarge { most: LARGEST_FORM }
    } else {
        Problem::Unreadable
    }
}

pub(crate) async fn no_such_page(visitor: Visitor) -> Response {
    trouble(&visitor, &Problem::NoSuchPage)
}

/// A fault of ours: the person gets a page, the log gets the panic by the default hook.
pub(crate) fn panicked(_: Box<dyn Any + Send + 'static>) -> Response {
    trouble(&Visitor::default(), &Problem::Failed)
}
