//! Under which names the bench answers, and what a page may load.
//!
//! A page on the internet must not reach the bench through the person's browser: a foreign name
//! that resolves to this machine is refused by its `Host`, a foreign page's form by its `Origin`
//! (the router's layer), and no page of ours loads anything but its own files.

use axum::extract::{Request, State};
use axum::http::header::{
    CONTENT_SECURITY_POLICY, HOST, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::uri::Authority;
use axum::http::{HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::{Bench, lan};

/// The names this machine has for itself.
const HOSTS: [&str; 3] = ["localhost", "127.0.0.1", "[::1]"];

const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; \
    connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Refuses a request that was meant for another name. A name that only this machine has for itself is
/// none when somebody else calls.
pub(crate) async fn known_host(
    State(bench): State<Bench>,
    request: Request,
    next: Next,
) -> Response {
    let others = bench.lan.as_ref().map(|lan| lan.hosts());
    let ours = |host: &str| others.iter().flatten().any(|other| other == host);
    let here = others.is_none() || lan::is_here(&request);
    let known = host(&request).is_some_and(|host| ours(host) || (here && HOSTS.contains(&host)));
    if known {
        return next.run(request).await;
    }
    let words = match others {
        None => {
            "This bench answers to localhost and 127.0.0.1 only. Open the address it printed.\n"
                .to_owned()
        }
        Some(others) => format!(
            "This bench answers to {} and, on its own machine, to localhost and 127.0.0.1. Open an \
             address it printed.\n",
            others.join(", ")
        ),
    };
    (StatusCode::MISDIRECTED_REQUEST, words).into_response()
}

/// Whether a request is meant for a name that this machine has for itself.
pub(crate) fn names_loopback(request: &Request) -> bool {
    host(request).is_some_and(|host| HOSTS.contains(&host))
}

/// The name a request is meant for, without its port.
pub(crate) fn host(request: &Request) -> Option<&str> {
    let authority = request.uri().authority().map(Authority::as_str);
    let header = request.headers().get(HOST);
    let host = authority.or_else(|| header.and_then(|host| host.to_str().ok()));
    host.map(name)
}

/// A host without its port.
fn name(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) => name,
        _ => host,
    }
}

/// Says with every answer what the page may do.
pub(crate) async fn headers(mut response: Response) -> Response {
    let headers = response.headers_mut();
    headers.insert(CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(X_FRAME_OPTIONS, HeaderValue::from_static("DENY"));
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("same-origin"));
    response
}
