//! The style sheet and the script, built into the program.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};

const STYLE: &str = include_str!("../static/bench.css");
const SCRIPT: &str = include_str!("../static/bench.js");

/// The address of a file, with a mark of its content, so that browsers may keep it for good.
pub(crate) fn address(file: &str) -> String {
    let text = content(file).map_or_else(String::new, |(_, text)| text);
    let mark = format!("{:x}", Sha256::digest(text))
        .split_at(8)
        .0
        .to_owned();
    format!("/assets/{file}?{mark}")
}

fn content(file: &str) -> Option<(&'static str, String)> {
    match file {
        "bench.css" => Some(("text/css", format!("{STYLE}\n{}", report::drawing::STYLE))),
        "bench.js" => Some(("text/javascript", SCRIPT.to_owned())),
        _ => None,
    }
}

pub(crate) async fn serve(Path(file): Path<String>) -> Response {
    let Some((kind, text)) = content(&file) else {
        return (StatusCode::NOT_FOUND, "There is no such file.\n").into_response();
    };
    let headers = [
        (CONTENT_TYPE, format!("{kind}; charset=utf-8")),
        (CACHE_CONTROL, "max-age=31536000, immutable".to_owned()),
    ];
    (headers, text).into_response()
}
