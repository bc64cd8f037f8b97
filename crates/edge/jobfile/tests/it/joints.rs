//! What may stand under the joints of a job file: one of each, some half done.

use std::collections::BTreeMap;

use workshop::draft::tools::{DepthDraft, FittingsDraft, ToolDraft, WrenchDraft};
use workshop::draft::{FastenedDraft, FitDraft, JointDraft, ToolsDraft};

/// A joint of each way of tightening, one of them half done.
pub(crate) fn joints() -> Vec<(String, JointDraft, Option<FastenedDraft>)> {
    let words = str::to_owned;
    let torqued = JointDraft {
        name: words("Housing \"aft\""),
        thread: words("M8"),
        head: words("hex"),
        count: words("4"),
        class: words("stainless-70"),
        hole: words("aluminium"),
        engagement: words("12"),
        torque: words("22"),
        second: words("16 lbf·ft"),
        stated_for: words("dry"),
        condition: words("threadlocker"),
        face: words("sealant"),
        page: words("5-18"),
        ..JointDraft::default()
    };
    let turned = JointDraft {
        torque: String::new(),
        second: String::new(),
        stated_for: String::new(),
        turn: words("1/8"),
        seat: words("plastic"),
        grip: words("3"),
        ..torqued.clone()
    };
    let screws = FastenedDraft {
        in_place: words("4"),
        torqued: words("2"),
        marked: words("1"),
        ..FastenedDraft::default()
    };
    let going = FastenedDraft {
        in_place: words("4"),
        torqued: words("0"),
        marked: words("0"),
        pass: words("2"),
        gone: words("3"),
        ..FastenedDraft::default()
    };
    vec![
        (words("plate"), torqued.clone(), Some(going)),
        (words("housing"), torqued, Some(screws)),
        (words("cone"), turned, None),
    ]
}

/// Two wrenches, one of them chosen for the half done joint, with its hole and its sort.
pub(crate) fn tools() -> ToolsDraft {
    let words = str::to_owned;
    let wrench = |scale: &str, least: &str, most: &str, step: &str| WrenchDraft {
        name: format!("Wrench \"{scale}\""),
        scale: words(scale),
        least: words(least),
        most: words(most),
        step: words(step),
    };
    let said = FittingsDraft {
        role: words("stator"),
        hole: Some(DepthDraft {
            reach: words("12"),
            threaded: words("1/2 in"),
            lost: words("0"),
            insert: words("10 mm"),
        }),
        tool: Some(ToolDraft {
            wrench: words("large"),
            lever: words("12 in"),
            offset: words("40"),
            angle: words("90"),
        }),
    };
    ToolsDraft {
        wrenches: vec![
            (words("small"), wrench("N·m", "5", "25", "")),
            (words("large"), wrench("lbf·ft", "10", "80 lbf·ft", "1")),
        ],
        joints: BTreeMap::from([(words("housing"), said)]),
    }
}

/// A joint or two that are no circle of screws: one whole, one sparse.
pub(crate) fn fits() -> Vec<FitDraft> {
    let of = |key: &str, fields: &[(&str, &str)]| {
        FitDraft::new(key.to_owned(), |field| {
            let found = fields.iter().find(|(name, _)| *name == field);
            found.map_or_else(String::new, |(_, text)| (*text).to_owned())
        })
    };
    vec![
        of(
            "screwed",
            &[
                ("kind", "impeller"),
                ("name", "Impeller \"A\""),
                ("page", "5-16"),
                ("hand", "right"),
                ("goes_on_from", "aft"),
                ("drive", "impeller-drags-shaft"),
                ("torque", "105"),
                ("second", "77"),
                ("compound", "as the manual says"),
                ("checked", "clean holder-seated"),
            ],
        ),
        of(
            "bare",
            &[("kind", "anode"), ("name", "Anode"), ("reading", "0.3")],
        ),
    ]
}
