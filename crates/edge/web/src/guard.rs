//! Who may talk to the bench, and what a page may load.
//!
//! A page on the internet must not reach the bench through the person's browser: a foreign name
//! that resolves to this machine is refused by its `Host`, a foreign page's form by its `Origin`
//! (the router's layer), and no page of ours loads anything but its own files.

use axum::extract::Request;
use axum::http::header::{
    CONTENT_SECURITY_POLICY, HOST, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// The names this bench answers to; it listens on loopback only.
const HOSTS: [&str; 3] = ["localhost", "127.0.0.1", "[::1]"];

const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; \
    connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Refuses a request that was meant for another name.
pub(crate) async fn known_host(request: Request, next: Next) -> Response {
    let authority = request.uri().authority().map(|a| a.as_str().to_owned());
    let host = request
        .headers()
        .get(HOST)
        .and_then(|host| host.to_str().ok());
    let known = authority
        .as_deref()
        .or(host)
        .is_some_and(|host| HOSTS.contains(&name(host)));
    if known {
        return next.run(request).await;
    }
    let words =
        "This bench answers to localhost and 127.0.0.1 only. Open the address it printed.\n";
    (StatusCode::MISDIRECTED_REQUEST, words).into_response()
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
