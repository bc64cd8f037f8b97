//! The forms of choosing.

use workshop::choose::OptionState;
use workshop::draft::choose::{CraftDraft, FittingDraft, SteadyDraft, WishDraft};
use workshop::entry::Key;
use workshop::job::Job;

use super::{Blank, about, choice, field, line, number};
use crate::page::choose::unit;
use crate::page::{Field, FieldKind, Form, FormName, Refused};

const ANGLES: [(&str, &str); 3] = [
    ("", "not said"),
    ("measured", "measured on this impeller"),
    ("stamped", "stamped, or told by the maker"),
];
const BREATHING: [(&str, &str); 4] = [
    ("", "not said: own breath is assumed"),
    ("own", "naturally aspirated"),
    ("blower", "a blower that turns with the engine"),
    ("turbo", "turbocharged, or torque that is level"),
];
const WANTS: [(&str, &str); 3] = [
    ("both", "pull and top speed alike"),
    ("pull", "pull off the line"),
    ("speed", "top speed"),
];
const CUPS: [(&str, &str); 3] = [("", "not said"), ("yes", "cupped"), ("no", "plain")];

/// Describe the craft and what it was run with.
pub(crate) fn craft(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let had = job.choices.craft.as_ref();
    let draft = had.map_or_else(CraftDraft::default, |fact| {
        CraftDraft::of(&fact.value, job.unit())
    });
    // What is needed first; what may stay empty behind it.
    let mut blades = impeller(&draft.fitted);
    let rest = blades.split_off(2);
    let mut fields = vec![
        number("power", "Rated power", &draft.power).unit("kW"),
        number("rated", "Rated at", &draft.rated).unit("rpm"),
    ];
    fields.extend(blades);
    fields.extend([
        number("impeller", "Impeller’s diameter", &draft.impeller)
            .unit("mm")
            .hint("Empty: as measured, or the ring’s bore less the gap."),
        number("nozzle", "Nozzle’s bore", &draft.fitted.nozzle).unit("mm"),
    ]);
    fields.extend(rest);
    fields.extend([
        number("gap", "Radial gap on that run", &draft.fitted.gap)
            .hint("Empty: as taken under Measure."),
        number("limiter", "Held back at", &draft.limiter)
            .unit("rpm")
            .hint("Empty: 3 % above the rated speed is assumed."),
        choice(
            "breathing",
            "The engine breathes",
            &draft.breathing,
            &BREATHING,
        ),
        number("wanted_from", "Manual wants at least", &draft.wanted_from)
            .unit("rpm")
            .hint("At full throttle, full speed."),
        number("wanted_to", "and at most", &draft.wanted_to).unit("rpm"),
        number("mass", "Craft, ready to go", &draft.mass).unit("kg"),
        number("riders", "On board", &draft.riders).unit("kg"),
        number("length", "Length on the water", &draft.length).unit("m"),
        number("beam", "Beam at the chines", &draft.beam).unit("m"),
        number("deadrise", "Deadrise aft", &draft.deadrise).unit("°"),
        number("balance", "Balance point from the transom", &draft.balance).unit("m"),
        line("curve", "Torque measured on a brake", &draft.curve)
            .hint("4000 rpm 150 N·m; 6000 rpm 180 N·m; 7500 rpm 170 N·m. Mostly left empty."),
        line("outing", "Outing it was run on", &draft.outing)
            .hint("Its key. Empty: the latest before the rebuild."),
        line("page", "Manual’s page", &draft.page),
    ]);
    let blank = Blank {
        name: FormName::Craft,
        heading: if had.is_some() {
            "Change what is said of the craft"
        } else {
            "Describe the craft, as it was run"
        },
        intro: "Power, rated speed, both angles, impeller and nozzle are needed. All else is \
                assumed until somebody says it.",
        submit: "Keep it",
        fields,
    };
    about(blank, ("craft", String::new()), refused, open)
}

fn impeller(draft: &FittingDraft) -> Vec<Field> {
    vec![
        number("leading", "Leading edge", &draft.leading)
            .unit("°")
            .hint("From the plane the impeller turns in, at the tip unless a radius is stated."),
        number("trailing", "Trailing edge", &draft.trailing).unit("°"),
        number("radius", "Radius the angles are taken at", &draft.radius)
            .unit("mm")
            .hint("Empty: at the tip."),
        choice("angles", "The angles are", &draft.angles, &ANGLES),
        line("maker", "Its maker, as you call them", &draft.maker)
            .hint("Stamps are compared within one maker only."),
        line("blades", "Blades", &draft.blades),
        number("hub", "Hub’s diameter", &draft.hub).unit("mm"),
        choice("cup", "Cup at the trailing edge", &draft.cup, &CUPS),
    ]
}

/// Something that could be fitted.
pub(crate) fn option(
    had: Option<(&Key, &OptionState)>,
    job: &Job,
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let draft = had.map_or_else(FittingDraft::default, |(_, state)| {
        FittingDraft::of(&state.fitting.value, job.unit())
    });
    let mut fields = vec![line("name", "Name", &draft.name).hint("the 14/20, four blades")];
    fields.extend(impeller(&draft));
    fields.extend([
        number("gap", "Radial gap with it", &draft.gap)
            .hint("Of a new ring, or with this impeller in the old one."),
        number("nozzle", "Nozzle’s bore", &draft.nozzle).unit("mm"),
        line("note", "Anything else", &draft.note),
    ]);
    let blank = Blank {
        name: FormName::Option,
        heading: match had {
            Some(_) => "Change this option",
            None => "Add an option",
        },
        intro: "Only what would be other than now: what is left empty stays as it is fitted.",
        submit: "Keep it",
        fields,
    };
    let key = had.map_or_else(String::new, |(key, _)| key.to_string());
    about(blank, ("option", key), refused, open)
}

/// What is wanted.
pub(crate) fn wish(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let had = job.choices.wish.as_ref();
    let draft = had.map_or_else(
        || WishDraft {
            want: "both".to_owned(),
            ..WishDraft::default()
        },
        |fact| WishDraft::of(&fact.value, unit(job)),
    );
    let blank = Blank {
        name: FormName::Wish,
        heading: "What is wanted",
        intro: "Options are put in order by this, and by nothing else: the share gained of top \
                speed, of the time from rest, or of both.",
        submit: "Keep it",
        fields: vec![
            choice("want", "What counts", &draft.want, &WANTS),
            number("to", "Starts are timed to", &draft.to)
                .unit(unit(job).symbol())
                .hint("Empty: 30 mph."),
        ],
    };
    about(blank, ("wish", String::new()), refused, open)
}

/// Steady readings at part throttle.
pub(crate) fn steadies(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let had = job.choices.steadies.iter().flat_map(|fact| &fact.value);
    let lines: Vec<String> = had
        .map(|steady| SteadyDraft::of(steady, unit(job)).line())
        .collect();
    let blank = Blank {
        name: FormName::Steadies,
        heading: "Steady readings at part throttle",
        intro: "Engine speed held, and the speed both ways: without a logged start that tells blades \
                and hull apart. Or tied up, the pull on the rope: that tells how much air the intake \
                draws at rest.",
        submit: "Keep them",
        fields: vec![
            field(
                "steadies",
                "One a line",
                &lines.join("\n"),
                FieldKind::Lines,
            )
            .hint("5000 rpm 28 mph, or 4000 rpm pull 900 N"),
        ],
    };
    about(blank, ("steady", String::new()), refused, open)
}
