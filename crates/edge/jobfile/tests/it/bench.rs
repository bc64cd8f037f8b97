//! A plan with something of every kind. All data are invented.

use jobfile::parse;
use workshop::draft::BenchDraft;
use workshop::draft::bench::{
    AccountDraft, CrewDraft, ItemDraft, ProgressDraft, RuleDraft, ToolDraft,
};

/// The plan of the example, with a rule of every kind and progress of every kind.
pub(crate) fn bench() -> BenchDraft {
    let mut bench = parse(
        "job.toml",
        include_str!("../../../cli/example/patrol-craft.toml"),
    )
    .unwrap_or_else(|complaint| panic!("{complaint}"))
    .draft
    .bench;
    let time = "2026-05-20T08:00:00+02:00[Europe/Berlin]";
    for (kind, then, time) in [
        ("start-within-start", "torque", "2 h"),
        ("together", "driveline", ""),
        ("not-before", "", time),
        (
            "finished-by",
            "",
            "2026-06-20T08:00:00+02:00[Europe/Berlin]",
        ),
    ] {
        bench.rules.push(RuleDraft {
            kind: kind.to_owned(),
            first: "paint".to_owned(),
            then: then.to_owned(),
            time: time.to_owned(),
            why: "a \"reason\"".to_owned(),
            physics: false,
        });
    }
    "2026-05-20".clone_into(&mut bench.parts[0].expected);
    bench.progress.push(ProgressDraft {
        step: "nozzle".to_owned(),
        count: "3".to_owned(),
        temporary: "1".to_owned(),
        ..ProgressDraft::default()
    });
    bench.progress.push(ProgressDraft {
        step: "spread".to_owned(),
        begun: "2026-05-09T14:00:00+02:00[Europe/Berlin]".to_owned(),
        overridden: "measured with the old ring".to_owned(),
        estimate: "7".to_owned(),
        estimate_most: "0,25 h".to_owned(),
        again: "skinned, wiped off".to_owned(),
        ..ProgressDraft::default()
    });
    hands_and_tools(&mut bench);
    bench
}

/// Who works with what, what is accounted for, and what a step is left off for.
fn hands_and_tools(bench: &mut BenchDraft) {
    for step in &mut bench.progress {
        if !step.reason.is_empty() {
            "hull".clone_into(&mut step.until);
        }
    }
    bench.tools.push(ToolDraft {
        key: "ram".to_owned(),
        name: "Hydraulic \"press\"".to_owned(),
        count: "2".to_owned(),
    });
    bench.steps[1].tools.push("ram".to_owned());
    "0".clone_into(&mut bench.steps[1].hands);
    "Ring".clone_into(&mut bench.steps[1].group);
    "First this.\nThen that.".clone_into(&mut bench.steps[1].how);
    for (key, step) in [("bilge", ""), ("bow", "hull")] {
        bench.items.push(ItemDraft {
            key: key.to_owned(),
            name: format!("Plug, {key}"),
            kind: "plug".to_owned(),
            count: "3".to_owned(),
            step: step.to_owned(),
        });
    }
    let told = |key: &str, count: &str, ready: &str, reason: &str| AccountDraft {
        key: key.to_owned(),
        count: count.to_owned(),
        ready: ready.to_owned(),
        reason: reason.to_owned(),
    };
    bench.accounts.push(told("bilge", "3", "", ""));
    bench.accounts.push(told("bow", "1", "on-order", ""));
    bench
        .returned
        .push(told("ram", "1", "", "lent to the \"club\""));
    bench.crew = Some(CrewDraft {
        hands: "2".to_owned(),
        hours: "mon-fri 18:00-21:00; sat 09:00-17:00".to_owned(),
    });
}
