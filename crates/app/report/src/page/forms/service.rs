//! The forms of service: how the craft is used, sorts of part, pieces of them.

mod tell;

pub(crate) use tell::{done, listed, meter, mishap, point, rule, ruled};

use workshop::draft::upkeep::{PieceDraft, SortDraft, UsageDraft};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::upkeep::{Part, Piece};

use super::{Blank, about, choice, choice_of, field, line, number};
use crate::page::{Button, Field, FieldKind, Form, FormName, Refused, Weight};

const WATERS: [(&str, &str); 4] = [
    ("", "not said"),
    ("clean", "clean"),
    ("silt", "silt in it"),
    ("sand", "sand: shallows, beaches, bars"),
];
const KINDS: [(&str, &str); 6] = [
    ("", "not said"),
    ("ring", "wear ring"),
    ("impeller", "impeller"),
    ("seal", "shaft seal"),
    ("bearing", "bearing"),
    ("other", "something else"),
];
const TRUSTS: [(&str, &str); 4] = [
    ("", "not said: taken as heard somewhere"),
    ("rough", "heard somewhere"),
    ("fair", "from a few of one’s own"),
    ("well", "from many"),
];
const ENDS: [(&str, &str); 5] = [
    ("", "it is still in use"),
    ("worn", "found worn out when it was looked at"),
    ("failed", "failed under way"),
    ("struck", "ruined by a strike"),
    ("good", "taken out while still good"),
];
const WHOSE: [(&str, &str); 2] = [("", "this one"), ("yes", "another craft")];

/// How the craft is used, what its hours are worth.
pub(crate) fn usage(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let draft = UsageDraft::of(&job.upkeep.usage());
    let group = |label| field("", label, "", FieldKind::Group);
    let hours = |key, label, value: &str| number(key, label, value).unit("h");
    let blank = Blank {
        name: FormName::Usage,
        heading: if job.upkeep.usage.is_some() {
            "Change how the craft is used"
        } else {
            "How the craft is used"
        },
        intro: "Hours a week and the season make days of hours; the rest is for what parts cost. What \
                is left empty is not counted, and the page says so.",
        submit: "Keep it",
        fields: vec![
            hours("week", "Engine hours in a week of the season", &draft.week),
            hours("season", "Engine hours in a season", &draft.season),
            line("from", "The season begins", &draft.from)
                .hint("Month and day, such as 05-01. Empty: the whole year."),
            line("until", "and ends", &draft.until).hint("10-15"),
            choice("water", "The water it runs in", &draft.water, &WATERS),
            number("silt", "An hour in silt wears as much as", &draft.silt)
                .unit("clean hours")
                .hint("1.5 is a guess from memory. Empty: hours of other water are left out."),
            number("sand", "An hour in sand wears as much as", &draft.sand)
                .unit("clean hours")
                .hint("3 is a guess from memory."),
            group("What it costs"),
            line("currency", "Prices are in", &draft.currency).hint("EUR, USD: as you write it."),
            number("wage", "An hour of labour", &draft.wage).hint("0 for your own time."),
            number("failure", "What a failure costs on top", &draft.failure)
                .hint("The tow, other parts it takes along, a lost day."),
            number(
                "worth",
                "What an hour at full performance is worth",
                &draft.worth,
            )
            .hint("For what is lost while a part is worn. May stay empty."),
            hours("keep", "Engine hours it is still to be kept", &draft.keep)
                .hint("Empty: as long as anybody can see."),
            group("What may happen"),
            hours("between", "Hours between hard strikes", &draft.between)
                .hint("A guess; strikes that are told move it."),
            number(
                "floor",
                "Least chance to get through a season",
                &draft.floor,
            )
            .unit("%")
            .hint("Below it a part is to be replaced before. May stay empty."),
        ],
    };
    about(blank, ("usage", String::new()), refused, open)
}

/// A sort of part, new or as it was described.
pub(crate) fn sort(
    had: Option<(&Key, &Part)>,
    job: &Job,
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let draft = had.map_or_else(SortDraft::default, |(_, part)| SortDraft::of(part));
    let key = had.map_or_else(String::new, |(key, _)| key.to_string());
    let blank = Blank {
        name: FormName::Sort,
        heading: match had {
            Some(_) => "Change what is said of it",
            None => "Describe a sort of part",
        },
        intro: "What it costs and how long you think it lasts. A guess will do: pieces that are told of \
                move it.",
        submit: "Keep it",
        fields: sorted(&draft, job),
    };
    let mut form = about(blank, ("sort", key.clone()), refused, open);
    if had.is_some() {
        form.quick = vec![off(FormName::SortOff, "Put it away", ("sort", key))];
    }
    form
}

fn sorted(draft: &SortDraft, job: &Job) -> Vec<Field> {
    let mut fields = vec![
        line("name", "What it is called", &draft.name).hint("Plastic ring"),
        choice("kind", "What it is", &draft.kind, &KINDS)
            .hint("Two of a kind are held against each other."),
        number("tenth", "One in ten is worn out by", &draft.tenth)
            .unit("h")
            .hint("Engine hours in clean water."),
        number("half", "Half are worn out by", &draft.half).unit("h"),
        choice("trust", "How sure that is", &draft.trust, &TRUSTS),
        number("price", "Its price", &draft.price),
        number("supplies", "What is used up in fitting it", &draft.supplies)
            .hint("Sealant, washers, solvent."),
        number("labour", "Labour to change it", &draft.labour).unit("h"),
        number("ruin", "Of a hundred hard strikes, ruined by", &draft.ruin)
            .hint("A count from 0 to 100."),
        number("lost", "Performance lost while it is worn", &draft.lost).unit("%"),
        number("lost_at", "So much is lost by", &draft.lost_at).unit("h"),
    ];
    let options = job.choices.options.iter();
    let options = options.map(|(key, state)| {
        let name = state.fitting.value.name.clone();
        (key.to_string(), name)
    });
    let none = (String::new(), "none".to_owned());
    let options: Vec<_> = std::iter::once(none).chain(options).collect();
    if options.len() > 1 || !draft.option.is_empty() {
        fields.push(choice_of(
            "option",
            "The option under Choose it goes with",
            &draft.option,
            options,
        ));
    }
    fields.push(line("note", "Anything else", &draft.note));
    fields
}

/// A piece of one of the sorts, new or as it was told.
pub(crate) fn piece(
    (part, had): (&Key, Option<(&Key, &Piece)>),
    refused: Option<&Refused>,
) -> Form {
    let draft = had.map_or_else(PieceDraft::default, |(_, piece)| PieceDraft::of(piece));
    let about_it = had.map_or_else(
        || ("new", part.to_string()),
        |(key, _)| ("piece", key.to_string()),
    );
    let hours = |key, label, value: &str| number(key, label, value).unit("h");
    let blank = Blank {
        name: FormName::Piece,
        heading: match had {
            Some(_) => "Change what is said of this piece",
            None => "Tell of a piece of it",
        },
        intro: "The one fitted now, one that was taken out, or one of another craft. Hours are those on \
                the hour meter.",
        submit: "Keep it",
        fields: vec![
            hours("fitted", "Fitted at", &draft.fitted)
                .hint("0 for a piece of another craft, which counts its own hours."),
            hours("good", "Last seen good at", &draft.good).hint("May stay empty."),
            choice("end", "How it ended", &draft.end, &ENDS),
            hours("ended", "It ended at", &draft.ended).hint("Empty while it is in use."),
            choice("elsewhere", "The craft", &draft.elsewhere, &WHOSE),
            choice("water", "The water it ran in", &draft.water, &WATERS)
                .hint("Not said: the craft’s."),
            line("note", "Anything else", &draft.note),
        ],
    };
    let mut form = about(blank, about_it.clone(), refused, false);
    form.values.push(("part", part.to_string()));
    if had.is_some() {
        form.quick = vec![off(FormName::PieceOff, "Put it away", about_it)];
    }
    form
}

fn off(form: FormName, label: &str, value: (&'static str, String)) -> Button {
    Button {
        label: label.to_owned(),
        form,
        values: vec![value],
        weight: Weight::Quiet,
        key: None,
    }
}
