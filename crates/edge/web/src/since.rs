//! What others did in a job since a page was drawn, as a piece of a page.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::http::header::CACHE_CONTROL;
use axum::response::{Html, IntoResponse, Response};
use maud::html;
use report::page::problem::Problem;
use report::page::since::{Asks, Since, since};

use crate::Bench;
use crate::handlers::{clock, open_named};
use crate::visitor::Visitor;

pub(crate) async fn piece(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path((job, position)): Path<(String, String)>,
) -> Response {
    let Ok(position) = position.parse() else {
        return none();
    };
    let opened = match open_named(&bench, &job).await {
        Ok((_, opened)) => opened,
        Err(Problem::NoSuchJob { .. }) => return none(),
        Err(_) => return StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    };
    let asks = Asks {
        position,
        device: &visitor.device,
        now: &clock(),
    };
    let found = since(&opened.job, &opened.entries, &asks);
    let fresh = [(CACHE_CONTROL, "no-store")];
    (fresh, Html(drawn(&found).into_string())).into_response()
}

fn drawn(since: &Since) -> maud::Markup {
    html! {
        section.news data-position=(since.position) data-count=(since.count) aria-label="What others did" {
            @if since.count > 0 {
                p { (since.words) }
                ul { @for line in &since.lines { li { (line) } } }
            }
        }
    }
}

fn none() -> Response {
    let words = "There is nothing to tell: no such job, or no such place in it.\n";
    (StatusCode::NOT_FOUND, words).into_response()
}
