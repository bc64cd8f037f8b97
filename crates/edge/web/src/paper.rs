//! Pages that are made to be printed.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use report::page;
use workshop::refusal::Need;

use crate::Bench;
use crate::handlers::{clock, find, open_named, show, trouble, with_clocks};
use crate::visitor::Visitor;

pub(crate) async fn record(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match find(&bench, &job).await {
        Ok((id, seen)) => {
            let page = page::record::page(&seen.view(&id, None, None), &seen.opened.entries);
            let page = with_clocks(page, &seen.opened.job);
            show(&visitor, &page, StatusCode::OK)
        }
        Err(problem) => trouble(&visitor, &problem),
    }
}

pub(crate) async fn blank(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match open_named(&bench, &job).await {
        Ok((id, opened)) => {
            let view = page::measure::View {
                id: &id,
                job: &opened.job,
                objections: &opened.objections,
                judgement: Err(Need::Readings),
                at: None,
                refused: None,
            };
            show(&visitor, &page::blank::page(&view), StatusCode::OK)
        }
        Err(problem) => trouble(&visitor, &problem),
    }
}

pub(crate) async fn sheet(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match find(&bench, &job).await {
        Ok((id, seen)) => {
            let page = page::sheet::page(&page::sheet::View {
                id: &id,
                job: &seen.opened.job,
                objections: &seen.opened.objections,
                judgement: seen.answer(),
                entries: &seen.opened.entries,
                now: &clock(),
            });
            let page = with_clocks(page, &seen.opened.job);
            show(&visitor, &page, StatusCode::OK)
        }
        Err(problem) => trouble(&visitor, &problem),
    }
}
