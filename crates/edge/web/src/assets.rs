//! The style sheet and the scripts, built into the program.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};

const STYLE: &str = include_str!("../static/bench.css");
const SCRIPT: &str = include_str!("../static/bench.js");
/// What the script imports; none of these imports anything.
const MODULES: [(&str, &str); 3] = [
    ("live.js", include_str!("../static/live.js")),
    ("outbox.js", include_str!("../static/outbox.js")),
    ("typed.js", include_str!("../static/typed.js")),
];

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
        "bench.js" => Some(("text/javascript", script())),
        file => {
            let (_, text) = MODULES.iter().find(|(name, _)| *name == file)?;
            Some(("text/javascript", (*text).to_owned()))
        }
    }
}

/// The script, importing each module by the address that carries the mark of its content.
fn script() -> String {
    MODULES.iter().fold(SCRIPT.to_owned(), |script, (name, _)| {
        script.replace(&format!("\"./{name}\""), &format!("\"{}\"", address(name)))
    })
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

#[cfg(test)]
mod tests {
    use super::*;

    /// An import without a mark would be kept for good, through every later version.
    #[test]
    fn law_every_import_carries_the_mark_of_its_content() {
        let script = script();
        for (name, text) in MODULES {
            assert!(
                script.contains(&format!("from \"/assets/{name}?")),
                "{name}"
            );
            assert!(!text.contains("import "), "{name} imports something");
        }
        assert_eq!(script.matches("from \"").count(), MODULES.len());
        assert!(!script.contains("\"./"), "{script}");
    }
}
