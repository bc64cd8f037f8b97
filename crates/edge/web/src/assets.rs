//! The style sheet and the scripts, built into the program.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use axum::extract::Path;
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};

/// Where they stand for a browser.
const FOLDER: &str = "/assets/";
const SCRIPTED: &str = "text/javascript";

const STYLE: &str = include_str!("../static/bench.css");
const SCRIPT: &str = include_str!("../static/bench.js");
/// What the script imports; none of these imports anything.
const MODULES: [(&str, &str); 4] = [
    ("clock.js", include_str!("../static/clock.js")),
    ("live.js", include_str!("../static/live.js")),
    ("outbox.js", include_str!("../static/outbox.js")),
    ("typed.js", include_str!("../static/typed.js")),
];

/// What is sent for a name, and where pages find it.
struct File {
    kind: &'static str,
    text: String,
    address: String,
}

impl File {
    fn new(name: &str, kind: &'static str, text: String) -> Self {
        let address = marked(name, &text);
        Self {
            kind,
            text,
            address,
        }
    }
}

/// Every file, put together once: a page names two of them each time it is drawn.
static FILES: LazyLock<BTreeMap<&str, File>> = LazyLock::new(|| {
    let style = format!("{STYLE}\n{}", report::drawing::STYLE);
    let modules = MODULES.map(|(name, text)| (name, File::new(name, SCRIPTED, text.to_owned())));
    let own = [
        ("bench.css", File::new("bench.css", "text/css", style)),
        ("bench.js", File::new("bench.js", SCRIPTED, script())),
    ];
    own.into_iter().chain(modules).collect()
});

/// The address of a file, with a mark of its content, so that browsers may keep it for good.
pub(crate) fn address(name: &str) -> &'static str {
    FILES.get(name).map_or("", |file| &file.address)
}

/// Whether a path is that of a file: the same for everybody, so that strangers may have it too.
pub(crate) fn is_one(path: &str) -> bool {
    path.strip_prefix(FOLDER)
        .is_some_and(|name| FILES.contains_key(name))
}

fn marked(name: &str, text: &str) -> String {
    let mark = format!("{:x}", Sha256::digest(text));
    format!("{FOLDER}{name}?{}", &mark[..8])
}

/// The script, importing each module by the address that carries the mark of its content.
fn script() -> String {
    MODULES
        .iter()
        .fold(SCRIPT.to_owned(), |script, (name, text)| {
            script.replace(
                &format!("\"./{name}\""),
                &format!("\"{}\"", marked(name, text)),
            )
        })
}

pub(crate) async fn serve(Path(file): Path<String>) -> Response {
    let Some(file) = FILES.get(file.as_str()) else {
        return (StatusCode::NOT_FOUND, "There is no such file.\n").into_response();
    };
    let headers = [
        (CONTENT_TYPE, format!("{}; charset=utf-8", file.kind)),
        (CACHE_CONTROL, "max-age=31536000, immutable".to_owned()),
    ];
    (headers, file.text.as_str()).into_response()
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
