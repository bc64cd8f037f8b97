//! The bench app: the pages of `report` over HTTP.
//!
//! This crate knows HTML and HTTP and nothing of pumps. A request becomes one act of the store or
//! one look at a job; a page of `report` becomes HTML. It works without script; `bench.js` only
//! saves the reload.

mod account;
mod act;
mod answers;
mod assets;
mod begin;
mod choose;
mod diagnose;
mod files;
mod guard;
mod handlers;
mod paper;
mod photo;
mod planned;
mod proofs;
mod render;
mod route;
mod service;
mod tools;
mod visitor;
mod water;

use std::future::Future;
use std::io;
use std::sync::Arc;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::{from_fn, map_response};
use axum::routing::{get, post};
use store::Store;
use tokio::net::TcpListener;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::csrf::CsrfLayer;

pub use crate::service::file as calendar;

use crate::answers::Answers;
use crate::proofs::Proofs;

/// The most a form may send, in bytes.
const LARGEST_FORM: usize = 64 * 1024;

/// What every handler works with.
#[derive(Clone, Debug)]
struct Bench {
    store: Store,
    answers: Arc<Answers>,
    proofs: Arc<Proofs>,
    darkroom: photo::Darkroom,
    trials: Arc<answers::Kept<workshop::water::answer::Answer>>,
    choices: Arc<answers::Kept<workshop::choose::answer::Answer>>,
    signatures: Arc<answers::Kept<workshop::diagnose::expected::Reckoned>>,
    upkeeps: Arc<answers::Kept<workshop::upkeep::answer::Answer>>,
}

/// The whole table of addresses. Guards run before any handler: first the host, then the origin.
fn router(store: Store) -> Router {
    let bench = Bench {
        store,
        answers: Arc::default(),
        proofs: Arc::default(),
        darkroom: photo::Darkroom::default(),
        trials: Arc::default(),
        choices: Arc::default(),
        signatures: Arc::default(),
        upkeeps: Arc::default(),
    };
    Router::new()
        .route("/", get(handlers::jobs))
        .route("/act/open", post(begin::open))
        .route("/job/{job}/teardown", get(handlers::teardown))
        .route("/job/{job}/measure", get(handlers::measure))
        .route("/job/{job}/torque", get(handlers::torque))
        .route("/job/{job}/assemble", get(planned::assemble))
        .route("/job/{job}/audit", get(account::page))
        .route("/job/{job}/plan", get(planned::plan))
        .route("/job/{job}/card", get(files::card))
        .route("/job/{job}/file", get(files::job))
        .route("/job/{job}/water", get(water::page))
        .route("/job/{job}/test-card", get(water::card))
        .route("/job/{job}/choose", get(choose::page))
        .route("/job/{job}/wrong", get(diagnose::page))
        .route("/job/{job}/service", get(service::page))
        .route("/job/{job}/service.ics", get(service::calendar))
        .route("/job/{job}/choose/try", get(choose::piece))
        .route("/job/{job}/blank", get(paper::blank))
        .route("/job/{job}/record", get(paper::record))
        .route("/job/{job}/sheet", get(paper::sheet))
        .route("/job/{job}/photo/{photo}", get(photo::page))
        .route(
            "/job/{job}/act/photo",
            post(photo::take).layer(DefaultBodyLimit::max(photo::LARGEST_UPLOAD)),
        )
        .route(
            "/job/{job}/act/log",
            post(water::read).layer(DefaultBodyLimit::max(water::LARGEST_LOG)),
        )
        .route("/job/{job}/act/{form}", post(handlers::act))
        .route("/photo/{photo}", get(photo::full))
        .route("/photo/{photo}/thumb", get(photo::thumb))
        .route("/who", post(visitor::set_who))
        .route("/theme", post(visitor::set_theme))
        .route("/assets/{file}", get(assets::serve))
        .fallback(handlers::no_such_page)
        .layer(DefaultBodyLimit::max(LARGEST_FORM))
        .layer(CsrfLayer::new())
        .layer(from_fn(guard::known_host))
        .layer(CatchPanicLayer::custom(handlers::panicked))
        .layer(map_response(guard::headers))
        .with_state(bench)
}

/// Serves the bench until `stop` comes; what is under way is answered first.
pub async fn serve(
    listener: TcpListener,
    store: Store,
    stop: impl Future<Output = ()> + Send + 'static,
) -> io::Result<()> {
    axum::serve(listener, router(store))
        .with_graceful_shutdown(stop)
        .await
}
