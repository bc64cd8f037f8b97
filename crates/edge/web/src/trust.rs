//! The plain door while devices come by HTTPS: the authority to take, and the way to the other door.

use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{Method, StatusCode, Uri};
use axum::response::{IntoResponse, Redirect, Response};
use report::page::{Target, trust};

use crate::handlers::show;
use crate::lan::Seal;
use crate::visitor::Visitor;
use crate::{assets, route};

/// What somebody else sees at the plain door; nothing for what the page needs beside it.
pub(crate) fn answer(seal: &Seal, host: &str, (method, uri): (&Method, &Uri)) -> Option<Response> {
    let path = uri.path();
    let asks = method == Method::GET;
    if asks && assets::is_one(path) {
        return None;
    }
    let secure = seal.address(host);
    if asks && path == route::link(&Target::Authority) {
        let headers = [
            (CONTENT_TYPE, "application/x-x509-ca-cert"),
            (CACHE_CONTROL, "no-store"),
        ];
        return Some((headers, seal.certificate.clone()).into_response());
    }
    if asks && path == "/" {
        let page = trust::page(&trust::View {
            fingerprint: &seal.fingerprint,
            secure: &secure,
        });
        return Some(show(&Visitor::stranger(), &page, StatusCode::OK));
    }
    // By GET, so that what was sent in the open is not sent again.
    let whole = uri.path_and_query().map_or("/", |whole| whole.as_str());
    let to = format!("{}{whole}", secure.trim_end_matches('/'));
    Some(Redirect::to(&to).into_response())
}
