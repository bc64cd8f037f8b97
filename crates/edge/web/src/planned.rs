//! The pages of the plan: with the quick timetable, or the proved one once it is there.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::response::Response;
use report::page::{self, Page, Refused};
use workshop::assemble::timetable::timetable;
use workshop::entry::{JobId, Key};

use crate::Bench;
use crate::handlers::{Opened, clock, open_named};
use crate::proofs::Proofs;
use crate::visitor::Visitor;

/// How a page of the plan is drawn.
type Drawn = fn(&page::assemble::View<'_>) -> Page;

/// What is asked of a plan: about which step, for how many seconds, or with a form that was refused.
#[derive(Clone, Copy)]
pub(crate) struct Asked<'a> {
    id: &'a JobId,
    at: Option<&'a Key>,
    have: Option<i64>,
    refused: Option<&'a Refused>,
}

impl<'a> Asked<'a> {
    /// A page again, with the form that was refused.
    pub(crate) fn refused(id: &'a JobId, at: Option<&'a Key>, why: &'a Refused) -> Self {
        Self {
            id,
            at,
            have: None,
            refused: Some(why),
        }
    }
}

impl Opened {
    /// A page of the plan, drawn for now; with a timetable where the page tells one.
    pub(crate) fn planned(
        &self,
        page: Drawn,
        proofs: Option<&Arc<Proofs>>,
        asked: Asked<'_>,
    ) -> Page {
        let Asked {
            id,
            at,
            have,
            refused,
        } = asked;
        let now = clock();
        let quick = proofs.and_then(|_| timetable(&self.job, &now, have));
        let proved = proofs.zip(quick.as_ref()).and_then(|(proofs, quick)| {
            let quick = quick.as_ref().ok()?;
            let begins = quick.begins.as_second();
            let basis = (id.to_string(), self.job.position, begins, have);
            proofs.of(&basis, quick, &self.job, &now)
        });
        page(&page::assemble::View {
            id,
            job: &self.job,
            objections: &self.objections,
            now: &now,
            at,
            have,
            table: proved
                .as_deref()
                .map(Ok)
                .or(quick.as_ref().map(Result::as_ref)),
            refused,
        })
    }
}

pub(crate) async fn assemble(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(query): Query<Vec<(String, String)>>,
) -> Response {
    let page = (page::assemble::page as Drawn, Some(&bench.proofs));
    planned(&bench, &visitor, (&job, &query), page).await
}

pub(crate) async fn plan(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(query): Query<Vec<(String, String)>>,
) -> Response {
    let page = (page::plan::page as Drawn, None);
    planned(&bench, &visitor, (&job, &query), page).await
}

/// A day is the longest anybody has at a stretch.
fn seconds_of(minutes: &str) -> Option<i64> {
    let minutes: i64 = minutes.parse().ok()?;
    (1..=24 * 60).contains(&minutes).then_some(minutes * 60)
}

/// A page of the plan, at the step that was pointed at.
async fn planned(
    bench: &Bench,
    visitor: &Visitor,
    (job, query): (&str, &[(String, String)]),
    (page, proofs): (Drawn, Option<&Arc<Proofs>>),
) -> Response {
    let asked = query.iter().find(|(key, _)| key == "step");
    let step = asked.and_then(|(_, step)| Key::new(step).ok());
    let have = query.iter().find(|(key, _)| key == "have");
    let have = have.and_then(|(_, minutes)| seconds_of(minutes));
    let opened = open_named(bench, job).await;
    let page = opened.map(|(id, opened)| {
        let asked = Asked {
            id: &id,
            at: step.as_ref(),
            have,
            refused: None,
        };
        opened.planned(page, proofs, asked)
    });
    bench.answer(visitor, page).await
}
