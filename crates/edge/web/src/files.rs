//! A job as a file to keep, its pump as a card to hand on, and a job begun from a card.

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use jiff::{Timestamp, ZonedDateTime};
use jobfile::By;
use report::page::problem::Problem;
use workshop::draft::JobDraft;
use workshop::entry::JobId;
use workshop::refusal::Refusal;

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{open_named, trouble};
use crate::visitor::Visitor;

/// Why no job begins from a card.
pub(crate) enum Trouble {
    /// The card or the title is to blame: the field, and why.
    Refused(Option<&'static str>, String),
    /// There is no such job, or the store failed.
    Problem(Problem),
    /// The store failed.
    Store(store::Error),
}

pub(crate) async fn card(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match open_named(&bench, &job).await {
        Ok((id, opened)) => {
            let text = jobfile::write_card(&JobDraft::card(&opened.job));
            file(&format!("{id}-card"), text)
        }
        Err(problem) => trouble(&visitor, &problem),
    }
}

pub(crate) async fn job(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match open_named(&bench, &job).await {
        Ok((id, opened)) => file(id.as_str(), jobfile::write(&id, &JobDraft::of(&opened.job))),
        Err(problem) => trouble(&visitor, &problem),
    }
}

/// A text to keep. An id has no sign that a header could stumble over.
fn file(name: &str, text: String) -> Response {
    let headers = [
        (CONTENT_TYPE, "text/plain; charset=utf-8".to_owned()),
        (
            CONTENT_DISPOSITION,
            format!("attachment; filename=\"{name}.toml\""),
        ),
    ];
    (headers, text).into_response()
}

/// The card that the form names: that of a job that is there, or the text itself.
pub(crate) async fn card_of(bench: &Bench, sent: &Sent) -> Result<Option<String>, Trouble> {
    let (like, card) = (sent.get("like"), sent.get("card"));
    match (like.as_str(), card.trim()) {
        ("", "") => Ok(None),
        ("", _) => Ok(Some(card)),
        (_, "") => {
            let found = open_named(bench, &like).await;
            let (_, opened) = found.map_err(Trouble::Problem)?;
            Ok(Some(jobfile::write_card(&JobDraft::card(&opened.job))))
        }
        _ => Err(Trouble::Refused(
            Some("card"),
            "One card is enough: choose a job, or paste a card.".to_owned(),
        )),
    }
}

/// Begins the job `id` from a card. Sent twice, it begins once.
pub(crate) async fn begin(
    bench: &Bench,
    id: &JobId,
    (text, sent): (&str, &Sent),
    visitor: &Visitor,
) -> Result<(), Trouble> {
    let refused = |why: String| Trouble::Refused(Some("card"), why);
    let title = sent.get("title").trim().to_owned();
    if title.is_empty() {
        let empty = Refusal::Empty { field: "title" };
        return Err(Trouble::Refused(empty.field(), empty.to_string()));
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
    let there = bench.store.entries(id).await.map_err(Trouble::Store)?;
    let by = By {
        now: ZonedDateTime::now(),
        device: visitor.device.clone(),
        who: visitor.who.clone(),
    };
    let new = file.begin(&title, &note).entries(id, &there, &by);
    let new = new.map_err(|error| match error {
        jobfile::Error::Line(complaint) => refused(complaint.message()),
        jobfile::Error::Refused(refusal) => Trouble::Refused(refusal.field(), refusal.to_string()),
    })?;
    if !new.is_empty() {
        let taken = bench.store.append(id, &new, Timestamp::now()).await;
        taken.map_err(Trouble::Store)?;
    }
    Ok(())
}
