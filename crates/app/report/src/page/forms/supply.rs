//! The forms about parts, consumables and special tools.

use workshop::supplies::Supply;

use super::{Blank, choice, choice_of, line};
use crate::page::{Form, FormName, Refused};

pub(crate) const GROUPS: [(&str, &str); 3] = [
    ("part", "part"),
    ("consumable", "consumable"),
    ("tool", "special tool"),
];
pub(crate) const WHEREABOUTS: [(&str, &str); 4] = [
    ("at-hand", "at hand"),
    ("on-order", "on order"),
    ("missing", "missing"),
    ("not-needed", "not needed"),
];

/// Say where something on the list is; what is still open comes first.
pub(crate) fn whereabouts(supplies: &[Supply], refused: Option<&Refused>) -> Form {
    let (open, rest): (Vec<_>, Vec<_>) = supplies.iter().partition(|supply| !supply.settled());
    let of = open.into_iter().chain(rest);
    let of = of.map(|supply| (supply.key.to_string(), supply.name.clone()));
    let blank = Blank {
        name: FormName::Supply,
        heading: "Say where something is",
        intro: "A part of the plan is the same thing here and there.",
        submit: "Keep it",
        fields: vec![
            choice_of("supply", "What", "", of.collect()),
            choice("status", "It is", "", &WHEREABOUTS),
            line("expected", "Expected", "").hint("on order: the day, 2026-05-09; may stay empty"),
            line("reason", "Why", "").hint("asked for where it is not needed"),
        ],
    };
    blank.with(refused, false)
}

/// Add something by hand.
pub(crate) fn add(refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::NewSupply,
        heading: "Add something to the list",
        intro: "What is not on it by itself: a part, something used up, a tool.",
        submit: "Add it",
        fields: vec![
            line("name", "What", "").hint("grease for the reverse gate’s pin"),
            choice("group", "It is a", "", &GROUPS),
            choice(
                "status",
                "Now it is",
                "missing",
                &[
                    ("at-hand", "at hand"),
                    ("on-order", "on order"),
                    ("missing", "missing"),
                ],
            ),
            line("expected", "Expected", "").hint("on order: the day; may stay empty"),
            line("reason", "What for", "").hint("may stay empty"),
        ],
    };
    blank.with(refused, false)
}
