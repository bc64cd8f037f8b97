//! What goes on threads and faces at the command line.

use crate::bench::Bench;

const EXAMPLE: &str = include_str!("../../example/patrol-craft.toml");

/// A paragraph however it is broken into lines.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The example with other compounds on its hull joint and its stator.
fn told(command: &str, face: &str, thread: &str) -> String {
    let with = EXAMPLE.replace("with = \"polyurethane\"", &format!("with = \"{face}\""));
    let threads = format!("[threads.cover]\nwith = \"{thread}\"\n\n[contacts.cover]");
    let with = with.replace("[contacts.cover]", &threads);
    assert_ne!(with, EXAMPLE);
    let bench = Bench::new();
    bench.write("job.toml", with);
    flowing(&bench.answer(&[command, "job.toml"]))
}

#[test]
fn practice_what_can_hurt_stands_beside_the_joint_and_on_the_sheet() {
    for (face, thread, caution) in [
        (
            "polyurethane",
            "threadlocker-low",
            "It holds isocyanates until it has cured",
        ),
        (
            "acetoxy-silicone",
            "threadlocker-low",
            "It gives off acetic acid",
        ),
        (
            "neutral-silicone",
            "threadlocker-low",
            "harms eyes, skin and breath",
        ),
        (
            "epoxy",
            "threadlocker-low",
            "it sensitises the skin for good",
        ),
        ("epoxy", "threadlocker-high", "It comes off with heat only"),
        (
            "epoxy",
            "threadlocker-high",
            "doors open, no flame or heater, gloves",
        ),
    ] {
        for command in ["torque", "sheet"] {
            let said = told(command, face, thread);
            assert!(
                said.contains(caution),
                "{command} does not say “{caution}”:\n{said}"
            );
        }
    }
}

#[test]
fn practice_what_must_not_meet_is_open_on_card_and_sheet() {
    for command in ["torque", "sheet"] {
        let said = told(command, "polyurethane", "threadlocker-low");
        let open = "Pump to hull plate: These must not meet: grease and polyurethane";
        assert!(said.contains(open), "{said}");
    }
}

#[test]
fn practice_a_compound_that_has_gone_past_its_shelf_life_is_open_from_that_day() {
    let own = "[compounds.grey]\nname = \"Grey\"\nclass = \"hybrid-polymer\"\nmade = \"2026-01-31\"\n\
               shelf = \"12\"\n\n[seals.hull]";
    let job = EXAMPLE
        .replace("[seals.hull]", own)
        .replace("with = \"polyurethane\"", "with = \"grey\"");
    let bench = Bench::new();
    bench.write("job.toml", job);
    let on = |day: &str| {
        let at = format!("{day}T12:00:00+01:00[Europe/Berlin]");
        flowing(&bench.answer(&["torque", "job.toml", "--at", &at]))
    };
    let stale = "Grey is 366 days old and surely keeps 365 days. Take a fresh one.";
    assert!(!on("2027-01-31").contains("Take a fresh one"));
    assert!(on("2027-02-01").contains(stale));
}

#[test]
fn practice_a_wrong_word_is_pointed_at_in_the_file() {
    for (from, to, why) in [
        (
            "with = \"polyurethane\"",
            "with = \"chewing gum\"",
            "There is no compound “chewing gum” here",
        ),
        (
            "with = \"polyurethane\"",
            "with = \"pink\"",
            "There is no compound “pink” here",
        ),
        (
            "humidity = \"60\"",
            "humidity = \"600\"",
            "per cent from 1 to 100",
        ),
        ("sealed = \"4\"", "sealed = \"40\"", "must be smaller than"),
        (
            "coat = \"whole\"",
            "coat = \"shiny\"",
            "none of the choices",
        ),
        (
            "[contacts.cover]",
            "[contacts.lid]",
            "There is no joint “lid”",
        ),
    ] {
        let job = EXAMPLE.replace(from, to);
        assert_ne!(job, EXAMPLE);
        let bench = Bench::new();
        bench.write("job.toml", job);
        let said = bench.refusal(&["torque", "job.toml"]);
        assert!(said.contains(why) && said.contains("line "), "{said}");
    }
}
