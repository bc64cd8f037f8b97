//! Begins a job, with nothing or from a card.

use axum::extract::rejection::FormRejection;
use axum::extract::{Form, State};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use jobfile::By;
use report::page::problem::Problem;
use report::page::{FormName, Refused};
use workshop::draft::JobDraft;
use workshop::entry::{EntryId, JobId, Key};
use workshop::job::Job;
use workshop::refusal::Refusal;

use crate::act::{Now, Sent};
use crate::handlers::{clock, list, open_named, problem, trouble, unreadable};
use crate::stamp::stamp;
use crate::visitor::Visitor;
use crate::{Bench, route};

/// Why no job begins.
enum Trouble {
    /// What was sent is to blame: the field, and why.
    Refused(Option<&'static str>, String),
    /// There is no such job, or the store failed.
    Problem(Problem),
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal.field(), refusal.to_string())
    }
}

impl From<store::Error> for Trouble {
    fn from(error: store::Error) -> Self {
        match error {
            store::Error::Refused(refusal) => refusal.into(),
            error => Self::Problem(problem(&error)),
        }
    }
}

pub(crate) async fn open(
    State(bench): State<Bench>,
    visitor: Visitor,
    form: Result<Form<Vec<(String, String)>>, FormRejection>,
) -> Response {
    let sent = match form {
        Ok(Form(fields)) => Sent(fields),
        Err(rejection) => return trouble(&visitor, &unreadable(&rejection)),
    };
    match begin(&bench, &sent, &visitor).await {
        Ok(id) => visitor.remember(Redirect::to(&route::measure(&id)).into_response()),
        Err(Trouble::Refused(field, why)) => {
            let refused = Refused {
                form: FormName::Open,
                typed: sent.0,
                field,
                why,
            };
            list(&bench, &visitor, Some(&refused)).await
        }
        Err(Trouble::Problem(problem)) => trouble(&visitor, &problem),
    }
}

/// Begins a job, from a card where one is named.
async fn begin(bench: &Bench, sent: &Sent, visitor: &Visitor) -> Result<JobId, Trouble> {
    let stamp = stamp(sent, visitor)?;
    let id = job_id(&sent.get("title"), &stamp.id)?;
    if let Some(card) = card_of(bench, sent).await? {
        from_card(bench, &id, (&card, sent), visitor).await?;
        return Ok(id);
    }
    let act = sent.act(FormName::Open, &Job::default(), &Now::default())?;
    bench.store.act(&id, act, stamp, Timestamp::now()).await?;
    Ok(id)
}

/// The card that the form names: that of a job that is there, or the text itself.
async fn card_of(bench: &Bench, sent: &Sent) -> Result<Option<String>, Trouble> {
    let (like, card) = (sent.get("like"), sent.get("card"));
    match (like.as_str(), card.trim()) {
        ("", "") => Ok(None),
        ("", _) => Ok(Some(card)),
        (_, "") => {
            let found = open_named(bench, &like).await;
            let (id, opened) = found.map_err(Trouble::Problem)?;
            // The form asks for the same pump, so the new job is the next one of it.
            let card = JobDraft {
                follows: id.to_string(),
                ..JobDraft::card(&opened.job)
            };
            Ok(Some(jobfile::write_card(&card)))
        }
        _ => Err(Trouble::Refused(
            Some("card"),
            "One card is enough: choose a job, or paste a card.".to_owned(),
        )),
    }
}

/// Begins the job `id` from a card. Sent twice, it begins once.
async fn from_card(
    bench: &Bench,
    id: &JobId,
    (text, sent): (&str, &Sent),
    visitor: &Visitor,
) -> Result<(), Trouble> {
    let refused = |why: String| Trouble::Refused(Some("card"), why);
    let title = sent.get("title").trim().to_owned();
    if title.is_empty() {
        return Err(Refusal::Empty { field: "title" }.into());
    }
    let file = jobfile::parse("the card", text).map_err(|why| refused(why.message()))?;
    if !file.is_card() {
        return Err(refused(
            "This is a whole job, not a card. Bring it in with “pumpwright import”, or take its \
             card on its Plan page."
                .to_owned(),
        ));
    }
    let note = sent.get("note").replace("\r\n", "\n").trim().to_owned();
    let there = bench.store.entries(id).await?;
    let by = By {
        now: clock(),
        device: visitor.device.clone(),
        who: visitor.who.clone(),
    };
    let new = file.begin(&title, &note).entries(id, &there, &by);
    let new = new.map_err(|error| match error {
        jobfile::Error::Line(complaint) => refused(complaint.message()),
        jobfile::Error::Refused(refusal) => refusal.into(),
    })?;
    if !new.is_empty() {
        bench.store.append(id, &new, Timestamp::now()).await?;
    }
    Ok(())
}

/// A job's id: words of its title and a piece of its first entry's id, so that sending the form
/// twice opens one job.
fn job_id(title: &str, entry: &EntryId) -> Result<JobId, Refusal> {
    let name = Key::of_name(title).map_or_else(
        |_| "job".to_owned(),
        |key| key.as_str().chars().take(40).collect(),
    );
    let piece: String = entry.as_str().chars().take(4).collect();
    JobId::new(&format!("{name}-{piece}"))
}
