//! What is refused of a file, and where it is blamed.

use jobfile::{By, JobFile, parse};
use workshop::entry::JobId;

/// Before every body: five lines.
pub(crate) const HEAD: &str =
    "format = \"pumpwright job\"\nversion = 1\n[job]\nid = \"a\"\ntitle = \"A\"\n";

pub(crate) fn id() -> JobId {
    JobId::new("a").unwrap()
}

pub(crate) fn by() -> By {
    By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: String::new(),
    }
}

pub(crate) fn of(body: &str) -> Result<JobFile, String> {
    parse("job.toml", &format!("{HEAD}{body}")).map_err(|complaint| complaint.to_string())
}

pub(crate) fn refused(body: &str) -> String {
    let file = match of(body) {
        Ok(file) => file,
        Err(complaint) => return complaint,
    };
    let new = file.entries(&id(), &[], &by());
    new.unwrap_err().to_string()
}

/// The body, the place that is blamed, and what is said of it.
pub(crate) type Case = (String, &'static str, &'static str);

pub(crate) fn check(cases: impl IntoIterator<Item = Case>) {
    let mut wrong = Vec::new();
    for (body, at, words) in cases {
        let said = refused(&body);
        if !said.contains(at) || !said.contains(words) {
            wrong.push(format!("{at}, {words}:\n{said}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
