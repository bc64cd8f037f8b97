//! The sheets of the teardown.

use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::inspect::Inspection;
use workshop::job::Job;

use super::{Blank, about, choice, line, number};
use crate::page::{Form, FormName, Refused};

const YES: [(&str, &str); 2] = [("no", "no"), ("yes", "yes")];
const MAY_YES: [(&str, &str); 3] = [("", "not looked at"), ("no", "no"), ("yes", "yes")];
pub(crate) const SPINS: [(&str, &str); 4] = [
    ("smooth", "smooth"),
    ("rough", "rough"),
    ("gritty", "gritty"),
    ("binds", "binds somewhere"),
];
const TRACKS: [(&str, &str); 3] = [
    ("", "not looked at"),
    ("smooth", "no groove is felt"),
    ("groove", "a groove is felt"),
];
pub(crate) const PUSHES: [(&str, &str); 2] = [
    ("pressure", "pressure, above the air around"),
    ("vacuum", "vacuum, below the air around"),
];
pub(crate) const METHODS: [(&str, &str); 3] = [
    ("two-tips", "micrometer over two opposite tips"),
    ("round", "ring or tape round the tips"),
    ("other", "another way"),
];
pub(crate) const RING_SEATS: [(&str, &str); 5] = [
    ("metal-pressed", "metal sleeve, pressed in"),
    ("plastic-pressed", "plastic in one piece, pressed in"),
    ("plastic-bonded", "plastic, bonded"),
    ("plastic-loose", "plastic, loose in its seat"),
    ("cast", "cast with the housing"),
];
pub(crate) const POLYMERS: [(&str, &str); 4] = [
    ("nylon", "nylon"),
    ("acetal", "acetal"),
    ("polyethylene", "polyethylene"),
    ("polyurethane", "polyurethane"),
];
const SOAKED: [(&str, &str); 2] = [
    ("dry", "dry: new, or out of the water for long"),
    ("soaked", "in the water for weeks before"),
];
pub(crate) const METALS: [(&str, &str); 2] =
    [("stainless", "stainless steel"), ("aluminium", "aluminium")];
const STACKS: [(&str, &str); 2] = [("opens", "opens the gap"), ("closes", "closes the gap")];
const TURNS: [(&str, &str); 2] = [("free", "turns free all round"), ("rubs", "rubs somewhere")];
const FIGURES: [(&str, &str); 2] = [
    ("mean", "the mean of all spots"),
    ("least", "the least of all spots"),
];

/// A choice that need not be made.
pub(super) fn or_none(
    none: &'static str,
    of: &[(&'static str, &'static str)],
) -> Vec<(&'static str, &'static str)> {
    let mut all = vec![("", none)];
    all.extend_from_slice(of);
    all
}

/// What stands in the sheet that there is one of.
fn known(job: &Job, sheet: Sheet) -> InspectionDraft {
    let had = &job.inspected;
    let said = match sheet {
        Sheet::Rotor => had
            .rotor
            .as_ref()
            .map(|f| Inspection::Rotor(Box::new(f.value.clone()))),
        Sheet::Leak => had.leak.as_ref().map(|f| Inspection::Leak(f.value.clone())),
        Sheet::Sizes => had
            .sizes
            .as_ref()
            .map(|f| Inspection::Sizes(f.value.clone())),
        Sheet::Ring => had.ring.as_ref().map(|f| Inspection::Ring(f.value.clone())),
        Sheet::Cone => had.cone.as_ref().map(|f| Inspection::Cone(f.value.clone())),
        Sheet::Reread => (had.reread.as_ref()).map(|f| Inspection::Reread(f.value.clone())),
        _ => None,
    };
    said.map_or_else(
        || blank(sheet),
        |said| InspectionDraft::of(&said, job.unit()),
    )
}

/// The rotor on the dial and in the hand.
pub(crate) fn rotor(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let draft = known(job, Sheet::Rotor);
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let spins = or_none("not felt yet", &SPINS);
    let blank = Blank {
        name: FormName::Rotor,
        heading: "The rotor: play, runout, feel",
        intro: "Leave the dial where it stands and push the rotor both ways. Fill in what you \
                looked at; the rest may stay empty. Limits are the manual’s own: without one the \
                figure is kept to compare next time.",
        submit: "Keep the rotor",
        fields: vec![
            choice("spin", "Spun by hand it feels", draft.get("spin"), &spins),
            choice(
                "spline_step",
                "A step is felt in the splines",
                draft.get("spline_step"),
                &MAY_YES,
            ),
            choice("track", "The seal’s track", draft.get("track"), &TRACKS),
            mm("groove", "Depth of the groove, if measured"),
            mm("float_aft", "End float: dial, pushed aft").hint("0.05"),
            mm("float_forward", "and pushed forward").hint("-0.12"),
            mm("float_limit", "The manual’s greatest end float"),
            mm("radial_up", "Radial play: dial, pushed up"),
            mm("radial_down", "and pushed down"),
            mm("radial_limit", "The manual’s greatest radial play"),
            mm(
                "runout_first",
                "Runout: total reading at the station far from the impeller",
            ),
            mm("runout_second", "and at the station near it"),
            mm("runout_apart", "From one station to the other"),
            mm("runout_beyond", "and from there on to the impeller"),
            mm("runout_limit", "The manual’s greatest total reading"),
            line("page", "Page of the manual", draft.get("page")).hint("5-9"),
            mm("dial", "The dial is true within").hint("if you know it; else 0.010 mm is assumed"),
        ],
    };
    blank.with(refused, open)
}

/// The leak test.
pub(crate) fn leak(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let draft = known(job, Sheet::Leak);
    let kpa = |key, label| number(key, label, draft.get(key)).unit("kPa");
    let celsius = |key, label| number(key, label, draft.get(key)).unit("°C");
    let blank = Blank {
        name: FormName::Leak,
        heading: "Leak test of the closed housing",
        intro: "Low pressure only, as the craft’s manual says; goggles on, stand aside of plugs \
                and covers; a pump with a gauge, never the mouth. Wait until the gauge rests, then \
                begin to count. Turn the shaft slowly by hand meanwhile: a lip may hold at rest \
                and leak when turned.",
        submit: "Keep the test",
        fields: vec![
            choice("push", "Tested by", draft.get("push"), &PUSHES),
            kpa("start", "Gauge at the start")
                .hint("70, 10 psi or 0.7 bar; for a vacuum, how far below"),
            kpa("end", "Gauge at the end"),
            number("hold", "Time between", draft.get("hold")).unit("min"),
            celsius("start_temperature", "Temperature at the start")
                .hint("of the housing; air that cools looks like a leak"),
            celsius("end_temperature", "Temperature at the end"),
            choice(
                "turned",
                "The shaft was turned meanwhile",
                if draft.fields.is_empty() {
                    "no"
                } else {
                    draft.get("turned")
                },
                &YES,
            ),
            kpa("step", "Smallest step on the gauge").hint("2"),
            kpa("allowed", "The fall the manual allows in a hold as long")
                .hint("without it no housing can be called tight"),
            line("page", "Page of the manual", draft.get("page")).hint("5-11"),
        ],
    };
    blank.with(refused, open)
}

/// A sheet still blank.
pub(crate) fn blank(sheet: Sheet) -> InspectionDraft {
    InspectionDraft::new(sheet, String::new(), |_| String::new())
}

/// Diameters of ring and impeller.
pub(crate) fn sizes(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, Sheet::Sizes);
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let blank = Blank {
        name: FormName::Sizes,
        heading: "Bore and impeller, measured",
        intro: "From a bore gauge, across the ring. Two points cannot see a bore with three lobes: \
                that takes the leaves.",
        submit: "Keep the sizes",
        fields: vec![
            mm("bore_12", "Bore from 12 to 6"),
            mm("bore_130", "from 1:30 to 7:30"),
            mm("bore_3", "from 3 to 9"),
            mm("bore_430", "from 4:30 to 10:30"),
            mm("impeller", "Diameter of the impeller"),
            choice("method", "It was taken with", draft.get("method"), &METHODS),
        ],
    };
    blank.with(refused, false)
}

/// What the ring is and the water it runs in.
pub(crate) fn ring(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, Sheet::Ring);
    let of = |key: &'static str, or: &'static str| match draft.get(key) {
        "" => or.to_owned(),
        text => text.to_owned(),
    };
    let blank = Blank {
        name: FormName::Ring,
        heading: "The ring, and the water you ride in",
        intro: "Plastic grows with warmth and with water: held at its outside, it grows inwards. \
                The gap of the bench is then not the gap you ride with.",
        submit: "Keep the ring",
        fields: vec![
            choice("seat", "The ring is", &of("seat", ""), &RING_SEATS),
            choice(
                "polymer",
                "If of plastic, of which",
                &of("polymer", ""),
                &or_none("not known", &POLYMERS),
            ),
            number("wall", "Thickness of its wall", draft.get("wall")).unit("mm"),
            choice(
                "soaked",
                "Before it was measured it was",
                &of("soaked", "dry"),
                &SOAKED,
            ),
            choice(
                "turning",
                "The impeller is of",
                &of("turning", "stainless"),
                &METALS,
            ),
            number("bench", "Temperature on the bench", draft.get("bench")).unit("°C"),
            number("water", "and of the water", draft.get("water")).unit("°C"),
        ],
    };
    blank.with(refused, false)
}

/// A conical ring and its shims.
pub(crate) fn cone(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, Sheet::Cone);
    let blank = Blank {
        name: FormName::Cone,
        heading: "A conical ring: shims",
        intro: "Only where impeller and ring are conical and shims set the gap.",
        submit: "Keep the shims",
        fields: vec![
            number(
                "half_angle",
                "Half angle of the cone",
                draft.get("half_angle"),
            )
            .unit("°"),
            number(
                "fitted",
                "Shims that were in when the gap was read",
                draft.get("fitted"),
            )
            .unit("mm")
            .hint("0 for none"),
            line("shims", "Every shim at hand, those too", draft.get("shims"))
                .unit("mm")
                .hint("0.1; 0.3; 2 x 0.5"),
            choice("stack", "A thicker stack", draft.get("stack"), &STACKS),
        ],
    };
    blank.with(refused, false)
}

/// The gap once more, after the last torque.
pub(crate) fn reread(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, Sheet::Reread);
    let unit = job.unit().symbol();
    let clock = |key, label| number(key, label, draft.get(key)).unit(unit);
    let blank = Blank {
        name: FormName::Reread,
        heading: "The gap once more, after the last torque",
        intro: "Bolting up can pull the ring. Turn blade A to each clock and write what the leaves \
                say, then turn the rotor once round by hand.",
        submit: "Keep the readings",
        fields: vec![
            clock("clock_12", "Blade A at 12").hint("13-14: 13 goes, 14 won’t"),
            clock("clock_3", "at 3"),
            clock("clock_6", "at 6"),
            clock("clock_9", "at 9"),
            choice("turns", "The rotor", draft.get("turns"), &TURNS),
            line("rubs", "Where it rubs", draft.get("rubs")).hint("at 4, blade B"),
        ],
    };
    blank.with(refused, false)
}

/// A visit, which has no key yet, or one told before.
pub(crate) fn visit(job: &Job, draft: &InspectionDraft, refused: Option<&Refused>) -> Form {
    let unit = job.unit().symbol();
    let of = |key: &'static str, or: &'static str| match draft.get(key) {
        "" => or.to_owned(),
        text => text.to_owned(),
    };
    let blank = Blank {
        name: FormName::Visit,
        heading: if draft.key.is_empty() {
            "Engine hours: this visit, or an earlier one"
        } else {
            "Change this visit"
        },
        intro: "The gap as it was noted then. For this visit leave the gap empty: the result taken \
                on the Measure page counts.",
        submit: "Keep the visit",
        fields: vec![
            number("hours", "Engine hours", draft.get("hours")).unit("h"),
            number("gap", "The gap then", draft.get("gap"))
                .unit(unit)
                .hint("13.5 or 13-14"),
            choice("figure", "That is", &of("figure", "mean"), &FIGURES),
            choice(
                "renewed",
                "A new ring or impeller was fitted, and the gap is that of the new one",
                &of("renewed", "no"),
                &YES,
            ),
        ],
    };
    about(blank, ("visit", draft.key.clone()), refused, false)
}
