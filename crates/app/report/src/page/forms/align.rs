//! The sheets of the driveline: one for each way it is read.

use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::inspect::Inspection;
use workshop::job::Job;

use super::inspect::blank;
use super::{Blank, choice, field, line, number};
use crate::page::{Field, FieldKind, Form, FormName, Refused};

const FREE: [(&str, &str); 3] = [
    ("", "not tried"),
    ("yes", "it slides in freely"),
    ("no", "it binds, or does not go in"),
];
const CARRIERS: [(&str, &str); 2] = [
    (
        "pump",
        "the pump’s shaft; the plungers touch the engine’s coupling",
    ),
    (
        "engine",
        "the engine’s shaft; the plungers touch the pump’s coupling",
    ),
];
const LIMITS_OF: [(&str, &str); 2] = [
    ("offset", "offset of one shaft from the other"),
    ("total", "total reading of the dial, twice the offset"),
];
/// Stands beside every one of them.
const HAND: &str = "Battery and safety lanyard off; turn the shaft by hand only. The engine hangs on a \
    hoist rated for it, never on fingers under a mount. The craft’s manual decides. Stand behind \
    the craft and look forward: 3 o’clock is starboard.";

/// What was typed last, where it was read this way; else the mounts, shims and limits of it.
fn known(job: &Job, way: &'static str) -> InspectionDraft {
    let Some(had) = &job.inspected.alignment else {
        return blank(Sheet::Alignment);
    };
    let said = Inspection::Alignment(Box::new(had.value.clone()));
    let draft = InspectionDraft::of(&said, job.unit());
    if draft.get("way") == way {
        return draft;
    }
    let shared = [
        "offset_limit",
        "limit_of",
        "angle_limit",
        "page",
        "mounts",
        "shims",
    ];
    let kept = |field: &str| match field {
        "page" => draft.get(field).to_owned(),
        _ if way != "slides" && shared.contains(&field) => draft.get(field).to_owned(),
        _ => String::new(),
    };
    InspectionDraft::new(Sheet::Alignment, String::new(), kept)
}

fn finish(sheet: Blank, way: &'static str, refused: Option<&Refused>) -> Form {
    let mut form = sheet.with(refused, false);
    form.intro = format!("{} {HAND}", form.intro);
    form.values = vec![("way", way.to_owned())];
    form
}

/// All three, in the order of how much they ask.
pub(crate) fn all(job: &Job, refused: Option<&Refused>) -> Vec<Form> {
    vec![slides(job, refused), bar(job, refused), dials(job, refused)]
}

fn slides(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, "slides");
    let free = |key, label| choice(key, label, draft.get(key), &FREE);
    let sheet = Blank {
        name: FormName::AlignSlides,
        heading: "Driveline: a bar slides in",
        intro: "The alignment bar goes through the pump’s side into the engine’s coupling, and \
                again with the shaft turned a quarter each time. It says yes or no, no shims.",
        submit: "Keep the trial",
        fields: vec![
            free("free_0", "Shaft as it stands"),
            free("free_90", "turned a quarter"),
            free("free_180", "turned half round"),
            free("free_270", "turned three quarters"),
            line(
                "page",
                "Page of the manual that takes this for its test",
                draft.get("page"),
            )
            .hint("without it nothing is called in line"),
        ],
    };
    finish(sheet, "slides", refused)
}

/// What is asked of every reading in numbers.
fn common(draft: &InspectionDraft) -> Vec<Field> {
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    vec![
        mm(
            "offset_limit",
            "The manual’s greatest offset at the coupling",
        ),
        choice(
            "limit_of",
            "That figure is the",
            draft.get("limit_of"),
            &LIMITS_OF,
        ),
        number(
            "angle_limit",
            "The manual’s greatest angle",
            draft.get("angle_limit"),
        )
        .unit("°"),
        line("page", "Page of the manual", draft.get("page")).hint("9-4"),
        field(
            "mounts",
            "The engine’s mounts, one a line",
            &draft.get("mounts").replace("; ", "\n"),
            FieldKind::Lines,
        )
        .unit("mm")
        .hint(
            "name: forward of the coupling, to port of the shaft (minus to starboard), shims under \
             it now. Such as  front port: 160, 190, 1.2",
        ),
        line(
            "shims",
            "Shims at hand, those under the mounts too",
            draft.get("shims"),
        )
        .unit("mm")
        .hint("0.1; 2 x 0.5"),
    ]
}

fn bar(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, "bar");
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let four = |key, label| line(key, label, draft.get(key)).unit("mm");
    let mut fields = vec![
        mm(
            "aft_at",
            "Place along the bar, forward of the coupling (minus is aft)",
        )
        .hint("0"),
        four("aft_0", "Gaps there at 12, 3, 6, 9").hint("0.30, 0.25, 0.20, 0.25"),
        four(
            "aft_90",
            "with the shaft turned a quarter, clockwise looking forward",
        ),
        four("aft_180", "half round"),
        four("aft_270", "three quarters"),
        mm("forward_at", "A second place, farther forward")
            .hint("without it no angle and no shims"),
        four("forward_0", "Gaps there at 12, 3, 6, 9"),
        four("forward_90", "with the shaft turned a quarter"),
        four("forward_180", "half round"),
        four("forward_270", "three quarters"),
        mm("step", "From one leaf to the next").hint("0.02"),
        mm("repeat", "A reading comes back within").hint("if you know it; else one step"),
    ];
    fields.extend(common(&draft));
    let sheet = Blank {
        name: FormName::AlignBar,
        heading: "Driveline: gaps round a bar",
        intro: "The bar lies in the pump; feel the gap between it and the engine’s coupling at 12, \
                3, 6 and 9. Turned a quarter or half round, a bent bar shows itself.",
        submit: "Keep the gaps",
        fields,
    };
    finish(sheet, "bar", refused)
}

fn dials(job: &Job, refused: Option<&Refused>) -> Form {
    let draft = known(job, "dials");
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let four = |key, label| line(key, label, draft.get(key)).unit("mm");
    let mut fields = vec![
        choice(
            "carrier",
            "The dials are fixed to",
            draft.get("carrier"),
            &CARRIERS,
        ),
        four("rim_0", "Rim dial at 12, 3, 6, 9, plus is pushed in").hint("0, 0.24, 0.50, 0.26"),
        four("face_0", "Face dial at 12, 3, 6, 9").hint("0, 0.02, 0.05, 0.03"),
        mm("across", "Across the circle the face dial runs on").hint("72"),
        mm(
            "sag",
            "Bracket sag: rim dial at 6 on a straight pipe, zero at 12",
        )
        .hint("-0.04; 0 when you looked and there is none"),
        mm("step", "Smallest step of the dial").hint("0.01"),
        mm("repeat", "A reading comes back within").hint("if you know it; else one step"),
        mm("travel", "The dial’s whole travel").hint("10"),
        four(
            "rim_90",
            "Rim once more, the coupling that is read turned a quarter on its own",
        ),
        four("rim_180", "half round"),
        four("rim_270", "three quarters"),
        four("face_90", "Face once more, turned a quarter"),
        four("face_180", "half round"),
        four("face_270", "three quarters"),
    ];
    fields.extend(common(&draft));
    let sheet = Blank {
        name: FormName::AlignDials,
        heading: "Driveline: dials on rim and face",
        intro: "Turn both shafts together by hand, push them one way along before each face \
                reading, and come back to 12: the dial must read as it began.",
        submit: "Keep the readings",
        fields,
    };
    finish(sheet, "dials", refused)
}
