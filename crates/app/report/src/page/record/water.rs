//! What was said of water tests, a line for the journal each.

use workshop::entry::{Body, Entry, Key};
use workshop::water::{Logged, Side, Trialling};

/// One line. `entries` are those that know the outings and the logs by name.
pub(super) fn of_water(said: &Trialling, entries: &[Entry]) -> String {
    match said {
        Trialling::Outing { outing, .. } => {
            let side = match outing.side {
                Side::Before => "before the rebuild",
                Side::After => "after the rebuild",
            };
            format!("outing “{}” described, {side}", outing.name)
        }
        Trialling::Log { outing, log, .. } => format!(
            "log {} read for {}: {}",
            log.name,
            named(outing, entries),
            what_came(log)
        ),
        Trialling::LogPutAway { digest } => format!("log {} put away", file(digest, entries)),
        Trialling::Runs { digest, windows } => {
            let file = file(digest, entries);
            match windows {
                Some(all) => format!("runs of {file} set by hand: {}", all.len()),
                None => format!("runs of {file} go back to those that were found"),
            }
        }
        Trialling::Figures { outing, figures } => format!(
            "figures read off on {}: {}",
            named(outing, entries),
            figures.len()
        ),
        Trialling::Taken(shown) => format!("result of the water test taken: {}", shown.words),
    }
}

/// `5120 samples, 14 lines rejected, thinned out where it was slow`
fn what_came(log: &Logged) -> String {
    let number = |count: u64, one: &str, many: &str| {
        format!("{count} {}", if count == 1 { one } else { many })
    };
    let mut words = vec![number(log.read, "sample", "samples")];
    let rejected = log.lines_rejected();
    if rejected > 0 {
        words.push(number(rejected, "line rejected", "lines rejected"));
    }
    if log.thinned {
        words.push("thinned out where it was slow".to_owned());
    }
    words.join(", ")
}

/// The outing as it was called last, else its key.
pub(super) fn named(key: &Key, entries: &[Entry]) -> String {
    let name = entries
        .iter()
        .rev()
        .find_map(|entry| match &entry.new.body {
            Body::Trialled(Trialling::Outing { key: known, outing }) if known == key => {
                Some(&outing.name)
            }
            _ => None,
        });
    name.map_or_else(|| format!("“{key}”"), |name| format!("“{name}”"))
}

/// The file of a log, else the beginning of its digest.
fn file(digest: &Key, entries: &[Entry]) -> String {
    let name = entries
        .iter()
        .rev()
        .find_map(|entry| match &entry.new.body {
            Body::Trialled(Trialling::Log {
                digest: known, log, ..
            }) if known == digest => Some(log.name.clone()),
            _ => None,
        });
    name.unwrap_or_else(|| digest.as_str().chars().take(8).collect())
}
