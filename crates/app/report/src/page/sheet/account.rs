//! The account on the build sheet: the result, and every reason with who said it and when.

use workshop::audit::{About, Audit, State};

use super::{View, when};
use crate::page::audit::{say, verdict};
use crate::page::record::{by, find};
use crate::page::{Section, Table};

/// The result in a sentence, and a row for everything left out, left off or passed with a reason.
pub(super) fn account(view: &View<'_>, account: &Audit) -> Section {
    let rows = account.reasons().map(|(line, reason)| {
        let entry = find(view.entries, &reason.entry);
        vec![
            say::name(view.job, line),
            say::reason(line, reason),
            entry.map_or_else(
                || "–".to_owned(),
                |entry| format!("{}, {}", by(entry), when(view, entry)),
            ),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let (_, headline) = verdict(account);
    if rows.is_empty() {
        return Section::Notes {
            heading: "Account".to_owned(),
            notes: vec![headline, "Nothing is left out with a reason.".to_owned()],
        };
    }
    Section::Table(Table {
        heading: "Account".to_owned(),
        head: ["Left out", "Why", "Who, when"].map(str::to_owned).to_vec(),
        rows,
        caption: format!("{headline} Computed: what the job names, less what is done."),
    })
}

/// Things and tools that are open; the rest of the account is open elsewhere on the sheet.
pub(super) fn open(view: &View<'_>, account: &Audit) -> Vec<String> {
    let open = account.lines.iter().filter(|line| {
        line.state() == State::Open && matches!(line.about, About::Item(..) | About::Tool(..))
    });
    open.map(|line| {
        let state = say::state(line, view.now);
        format!(
            "{}: {}.",
            say::name(view.job, line),
            state.trim_start_matches("○ ")
        )
    })
    .collect()
}
