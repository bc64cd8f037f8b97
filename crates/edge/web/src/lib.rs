//! The bench app: the pages of `report` over HTTP.
//!
//! This crate knows HTML and HTTP and nothing of pumps. A request becomes one act of the store or
//! one look at a job; a page of `report` becomes HTML. It works without script; `bench.js` only
//! saves the reload.

mod account;
mod act;
mod answers;
mod archive;
mod assets;
mod begin;
mod choose;
mod devices;
mod diagnose;
mod files;
mod guard;
mod handlers;
mod label;
mod lan;
mod live;
mod pair;
mod paper;
mod photo;
mod planned;
mod proofs;
mod render;
mod route;
mod service;
mod since;
mod stamp;
mod tls;
mod tools;
mod trust;
mod visitor;
mod water;

use std::future::Future;
use std::io;
use std::net::SocketAddr;
use std::sync::Arc;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::{from_fn_with_state, map_response};
use axum::routing::{get, post};
use axum::serve::Listener;
use store::Store;
use tokio::sync::watch;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::csrf::CsrfLayer;

pub use crate::archive::came;
pub use crate::lan::{Lan, Ticket};
pub use crate::pair::NoRandomness;
pub use crate::service::file as calendar;
pub use crate::tls::{Authority, Sealed, Unsealed};

use crate::answers::Answers;
use crate::proofs::Proofs;

/// The most a form may send, in bytes.
const LARGEST_FORM: usize = 64 * 1024;

/// What every handler works with.
#[derive(Clone, Debug)]
struct Bench {
    store: Store,
    lan: Option<Arc<Lan>>,
    entrance: lan::Entrance,
    answers: Arc<Answers>,
    proofs: Arc<Proofs>,
    darkroom: photo::Darkroom,
    shelf: archive::Shelf,
    trials: Arc<answers::Kept<workshop::water::answer::Answer>>,
    choices: Arc<answers::Kept<workshop::choose::answer::Answer>>,
    signatures: Arc<answers::Kept<workshop::diagnose::expected::Reckoned>>,
    upkeeps: Arc<answers::Kept<workshop::upkeep::answer::Answer>>,
    live: live::Live,
}

impl Bench {
    fn new(store: Store, lan: Option<Arc<Lan>>) -> Self {
        Self {
            store,
            lan,
            entrance: lan::Entrance::Plain,
            answers: Arc::default(),
            proofs: Arc::default(),
            darkroom: photo::Darkroom::default(),
            shelf: archive::Shelf::default(),
            trials: Arc::default(),
            choices: Arc::default(),
            signatures: Arc::default(),
            upkeeps: Arc::default(),
            live: live::Live::default(),
        }
    }
}

/// The whole table of addresses. Guards run before any handler: first the host, then the origin, then
/// who asks.
fn router(bench: Bench) -> Router {
    Router::new()
        .route("/", get(handlers::jobs))
        .route("/act/open", post(begin::open))
        .route("/devices", get(devices::page))
        .route("/act/pairing-number", post(devices::number))
        .route("/act/rename-device", post(devices::rename))
        .route("/act/remove-device", post(devices::remove))
        .route(route::PAIR, get(pair::page))
        .route("/act/pair", post(pair::take))
        .route(
            "/act/archive",
            post(archive::take)
                .get(archive::again)
                .layer(DefaultBodyLimit::max(archive::LARGEST_ARCHIVE)),
        )
        .route("/job/{job}/archive", get(archive::give))
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
        .route("/job/{job}/label", get(label::page))
        .route("/job/{job}/history", get(label::history))
        .route("/job/{job}/live", get(live::stream))
        .route("/job/{job}/since/{position}", get(since::piece))
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
        .layer(from_fn_with_state(bench.clone(), pair::admit))
        .layer(CsrfLayer::new())
        .layer(from_fn_with_state(bench.clone(), guard::known_host))
        .layer(CatchPanicLayer::custom(handlers::panicked))
        .layer(map_response(guard::headers))
        .with_state(bench)
}

/// Serves the bench until `stop` comes; what is under way is answered first. With a `lan` it serves other
/// devices too, once they are paired; who calls is what the listener says.
pub async fn serve<L: Listener<Addr = SocketAddr>>(
    listener: L,
    store: Store,
    lan: Option<Arc<Lan>>,
    stop: impl Future<Output = ()> + Send + 'static,
) -> io::Result<()> {
    let bench = Bench::new(store, lan);
    let stop = quiet(bench.live.clone(), stop);
    open(listener, bench, stop).await
}

/// The same through two doors: a plain one and one for HTTPS, for a `lan` that is sealed.
pub async fn serve_sealed<L, S>(
    (plain, sealed): (L, S),
    store: Store,
    lan: Arc<Lan>,
    stop: impl Future<Output = ()> + Send + 'static,
) -> io::Result<()>
where
    L: Listener<Addr = SocketAddr>,
    S: Listener<Addr = SocketAddr>,
{
    let bench = Bench::new(store, Some(lan));
    let inner = Bench {
        entrance: lan::Entrance::Sealed,
        ..bench.clone()
    };
    let (tell, told) = watch::channel(());
    let closing = |mut told: watch::Receiver<()>| async move {
        // An error says that the sender is gone, which it is once the stop has come.
        let _ = told.changed().await;
    };
    let stop = quiet(bench.live.clone(), stop);
    let stopping = async {
        stop.await;
        drop(tell);
    };
    let (served, inner, ()) = tokio::join!(
        open(plain, bench, closing(told.clone())),
        open(sealed, inner, closing(told)),
        stopping,
    );
    served.and(inner)
}

/// Pages that listen would hold the bench open for as long as they do.
async fn quiet(live: live::Live, stop: impl Future<Output = ()> + Send) {
    stop.await;
    live.close();
}

async fn open<L: Listener<Addr = SocketAddr>>(
    listener: L,
    bench: Bench,
    stop: impl Future<Output = ()> + Send + 'static,
) -> io::Result<()> {
    let router = router(bench).into_make_service_with_connect_info::<lan::Caller>();
    axum::serve(lan::Door(listener), router)
        .with_graceful_shutdown(stop)
        .await
}
