//! Let a device in, name it, remove it.

use super::fields::{field, line};
use super::{Blank, FieldKind, Form, FormName, Refused};

/// Pair this device, with the number and the name that are known beforehand.
pub(crate) fn pair(number: &str, name: &str, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Pair,
        heading: "Pair this device",
        intro: "",
        submit: "Pair this device",
        fields: vec![
            field("number", "Pairing number", number, FieldKind::Digits)
                .hint("Six digits, from whoever stands at the bench."),
            line("name", "Name of this device", name)
                .hint("It stands beside all that is recorded here: tablet at the press, phone of the yard."),
        ],
    };
    blank.with(refused, true)
}

/// Give a device another name.
pub(crate) fn rename(id: &str, name: &str, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::RenameDevice,
        heading: "Another name",
        intro: "What it recorded so far keeps the name it had.",
        submit: "Keep this name",
        fields: vec![line("name", "Name", name)],
    };
    Form {
        values: vec![("device", id.to_owned())],
        ..blank.with(refused.filter(|refused| about(refused, id)), false)
    }
}

/// Remove a device.
pub(crate) fn remove(id: &str, own: bool) -> Form {
    let blank = Blank {
        name: FormName::RemoveDevice,
        heading: if own { "Leave the bench" } else { "Remove it" },
        intro: if own {
            "From now on this device sees nothing of the bench until it is paired again. What it recorded stays."
        } else {
            "From its next look on it sees nothing of the bench. What it recorded stays."
        },
        submit: if own {
            "Leave the bench"
        } else {
            "Remove this device"
        },
        fields: Vec::new(),
    };
    Form {
        values: vec![("device", id.to_owned())],
        ..blank.with(None, false)
    }
}

/// Whether it is this device that was refused.
fn about(refused: &Refused, id: &str) -> bool {
    let mut typed = refused.typed.iter();
    typed.any(|(key, value)| key == "device" && value == id)
}
