//! Pages that are made to be printed.

use axum::extract::{Path, State};
use axum::response::Response;
use report::page;
use workshop::refusal::Need;

use crate::Bench;
use crate::handlers::{answer, clock, find, open_named, with_clocks};
use crate::visitor::Visitor;

pub(crate) async fn record(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let page = find(&bench, &job).await;
    let page = page.map(|(id, seen)| seen.record(&id, None));
    bench.answer(&visitor, page).await
}

pub(crate) async fn blank(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let page = open_named(&bench, &job).await.map(|(id, opened)| {
        page::blank::page(&page::measure::View {
            id: &id,
            job: &opened.job,
            objections: &opened.objections,
            judgement: Err(Need::Readings),
            at: None,
            refused: None,
        })
    });
    answer(&visitor, page)
}

pub(crate) async fn sheet(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let page = find(&bench, &job).await.map(|(id, seen)| {
        let page = page::sheet::page(&page::sheet::View {
            id: &id,
            job: &seen.opened.job,
            objections: &seen.opened.objections,
            judgement: seen.answer(),
            entries: &seen.opened.entries,
            now: &clock(),
        });
        with_clocks(page, &seen.opened.job)
    });
    bench.answer(&visitor, page).await
}
