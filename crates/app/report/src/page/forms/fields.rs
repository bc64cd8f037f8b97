//! The fields of a form.

use crate::page::{Field, FieldKind};

pub(super) fn field(key: &'static str, label: &str, value: &str, kind: FieldKind) -> Field {
    Field {
        key,
        label: label.to_owned(),
        value: value.to_owned(),
        unit: "",
        hint: String::new(),
        kind,
        refusal: None,
    }
}

pub(super) fn number(key: &'static str, label: &str, value: &str) -> Field {
    field(key, label, value, FieldKind::Number)
}

pub(super) fn line(key: &'static str, label: &str, value: &str) -> Field {
    field(key, label, value, FieldKind::Line)
}

pub(super) fn choice(
    key: &'static str,
    label: &str,
    value: &str,
    of: &[(&'static str, &'static str)],
) -> Field {
    let owned = |(value, label): &(&str, &str)| ((*value).to_owned(), (*label).to_owned());
    choice_of(key, label, value, of.iter().map(owned).collect())
}

pub(super) fn choice_of(
    key: &'static str,
    label: &str,
    value: &str,
    of: Vec<(String, String)>,
) -> Field {
    field(key, label, value, FieldKind::Choice(of))
}

pub(super) fn many(
    key: &'static str,
    label: &str,
    value: &str,
    of: Vec<(String, String)>,
) -> Field {
    field(key, label, value, FieldKind::Many(of))
}

impl Field {
    pub(super) fn hint(self, hint: &str) -> Self {
        Self {
            hint: hint.to_owned(),
            ..self
        }
    }

    pub(super) fn unit(self, unit: &'static str) -> Self {
        Self { unit, ..self }
    }
}
