//! What was said about what to fit, a line an entry.

use workshop::choose::Choosing;

pub(super) fn of_choosing(said: &Choosing) -> String {
    match said {
        Choosing::Craft(_) => "craft described".to_owned(),
        Choosing::Option { fitting, .. } => format!("option described: {}", fitting.name),
        Choosing::OptionPutAway { key } => format!("option {key} put away"),
        Choosing::Wish(_) => "wish stated".to_owned(),
        Choosing::Steadies(all) => format!("{} steady readings", all.len()),
        Choosing::Taken(told) => format!("option taken: {}", told.words),
    }
}
