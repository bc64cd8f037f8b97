//! Pages that are made to be printed.

use axum::extract::{Path, State};
use axum::response::Response;
use report::page::problem::Problem;
use report::page::{self, Page};
use tokio::task::spawn_blocking;
use workshop::entry::JobId;
use workshop::refusal::Need;

use crate::Bench;
use crate::handlers::{Seen, answer, clock, find, open_named, with_clocks};
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
    let page = match find(&bench, &job).await {
        // What falls due is reckoned anew, which takes a while.
        Ok((id, seen)) => spawn_blocking(move || drawn(&id, &seen))
            .await
            .map_err(|_| Problem::Failed),
        Err(problem) => Err(problem),
    };
    bench.answer(&visitor, page).await
}

fn drawn(id: &JobId, seen: &Seen) -> Page {
    let opened = &seen.opened;
    let page = page::sheet::page(&page::sheet::View {
        id,
        job: &opened.job,
        objections: &opened.objections,
        judgement: seen.answer(),
        entries: &opened.entries,
        now: &clock(),
    });
    with_clocks(page, &opened.job)
}
