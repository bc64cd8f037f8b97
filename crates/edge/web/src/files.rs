//! A job as a file to keep, and its pump as a card to hand on.

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use workshop::draft::JobDraft;

use crate::Bench;
use crate::handlers::{open_named, trouble};
use crate::visitor::Visitor;

pub(crate) async fn card(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let kept = open_named(&bench, &job).await.map(|(id, opened)| {
        let text = jobfile::write_card(&JobDraft::card(&opened.job));
        file(&format!("{id}-card"), text)
    });
    kept.unwrap_or_else(|problem| trouble(&visitor, &problem))
}

pub(crate) async fn job(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let kept = open_named(&bench, &job).await.map(|(id, opened)| {
        let text = jobfile::write(&id, &JobDraft::of(&opened.job));
        file(id.as_str(), text)
    });
    kept.unwrap_or_else(|problem| trouble(&visitor, &problem))
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
