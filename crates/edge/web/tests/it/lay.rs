//! A plan laid by forms, and a job begun from the card of another. All of it is invented.

use crate::bench::{Bench, Reply};

const STEP: [(&str, &str); 4] = [
    ("takes", "20"),
    ("opens", "float"),
    ("caution", "Gloves & <goggles>."),
    ("gate", ""),
];

/// The entry of the plan as the page of the plan has it.
fn seen(bench: &Bench, job: &str) -> String {
    let page = bench.get(&format!("{job}/plan")).body;
    let seen = page.split("name=\"seen\" value=\"").nth(1).unwrap();
    seen.split('"').next().unwrap().to_owned()
}

fn send(bench: &Bench, job: &str, form: &str, fields: &[(&str, &str)]) -> Reply {
    let seen = seen(bench, job);
    let id = format!(
        "{form}-{}",
        fields.iter().map(|(_, v)| v.len()).sum::<usize>()
    );
    let back = format!("{job}/plan");
    let own = [("id", id.as_str()), ("back", &back), ("seen", &seen)];
    let reply = bench.post(&format!("{job}/act/{form}"), &[&own[..], fields].concat());
    if reply.status == 303 {
        assert_eq!(reply.headers["location"], back);
    }
    reply
}

/// Two steps and a working time between them, by forms alone.
fn laid() -> (Bench, String) {
    let bench = Bench::start();
    let job = bench.ready();
    let page = bench.get(&format!("{job}/assemble")).body;
    assert!(page.contains("Lay a plan"), "{page}");
    let with = |more: &[(&'static str, &'static str)]| [&STEP[..], more].concat();
    let first = with(&[("plan", "Spring"), ("name", "Spread the sealant")]);
    assert_eq!(send(&bench, &job, "new-step", &first).status, 303);
    let second = with(&[
        ("name", "Close it"),
        ("follows", "spread-the-sealant"),
        ("fasteners", "6"),
    ]);
    assert_eq!(send(&bench, &job, "new-step", &second).status, 303);
    let rule = [
        ("kind", "finished-within"),
        ("first", "spread-the-sealant"),
        ("then", "close-it"),
        ("time", "30"),
        ("why", "working time, invented sheet p. 2"),
        ("physics", "yes"),
    ];
    assert_eq!(send(&bench, &job, "new-rule", &rule).status, 303);
    (bench, job)
}

#[test]
fn law_a_plan_is_laid_step_by_step() {
    let (bench, job) = laid();
    let page = bench.get(&format!("{job}/plan")).body;
    assert!(
        page.contains("The plan fits: 2 steps, 2 rules, 0 parts."),
        "{page}"
    );
    let page = bench.get(&format!("{job}/plan?step=close-it")).body;
    assert!(
        page.contains("“Close it” done within 30\u{a0}min of the end of “Spread the sealant”"),
        "{page}"
    );
    let page = bench.get(&format!("{job}/assemble")).body;
    assert!(page.contains("Gloves &amp; &lt;goggles&gt;."));
    // A part, and the step that needs it.
    assert_eq!(
        send(&bench, &job, "new-part", &[("part", "Wear ring")]).status,
        303
    );
    let step = [
        ("step", "close-it"),
        ("name", "Close it"),
        ("takes", "20"),
        ("opens", "float"),
        ("needs", "wear-ring"),
    ];
    assert_eq!(send(&bench, &job, "plan-step", &step).status, 303);
    let page = bench.get(&format!("{job}/assemble?step=close-it")).body;
    assert!(page.contains("Wear ring"));
    let needed = send(&bench, &job, "part-off", &[("part", "wear-ring")]);
    assert_eq!(needed.status, 422);
    assert!(needed.body.contains("“Close it” needs “Wear ring”."));
    // And back.
    assert_eq!(send(&bench, &job, "rule-off", &[("rule", "1")]).status, 303);
    assert_eq!(
        send(&bench, &job, "step-off", &[("step", "close-it")]).status,
        303
    );
    let page = bench.get(&format!("{job}/plan")).body;
    assert!(
        page.contains("The plan fits: 1 step, 0 rules, 1 part."),
        "{page}"
    );
}

#[test]
fn law_what_is_refused_stays_as_typed() {
    let (bench, job) = laid();
    let ring = [
        ("kind", "after"),
        ("first", "close-it"),
        ("then", "spread-the-sealant"),
        ("why", "by mistake"),
    ];
    let refused = send(&bench, &job, "new-rule", &ring);
    assert_eq!(refused.status, 422);
    assert!(
        refused.body.contains("wait for one another in a ring"),
        "{}",
        refused.body
    );
    assert!(refused.body.contains("value=\"by mistake\""));
    let long = [
        ("name", "Drain"),
        ("takes", "soon"),
        ("opens", "float"),
        ("follows", "close-it"),
    ];
    let refused = send(&bench, &job, "new-step", &long);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("value=\"soon\"") && refused.body.contains("value=\"Drain\""));
}

#[test]
fn law_two_devices_do_not_overwrite_one_another() {
    let (bench, job) = laid();
    let old = seen(&bench, &job);
    assert_eq!(
        send(&bench, &job, "new-part", &[("part", "Sealant")]).status,
        303
    );
    let late = [("id", "late-1"), ("seen", old.as_str()), ("part", "Gloves")];
    let back = format!("{job}/plan");
    let late = bench.post(
        &format!("{job}/act/new-part"),
        &[&late[..], &[("back", &back)]].concat(),
    );
    assert_eq!(late.status, 422);
    assert!(late.body.contains("The plan was changed meanwhile."));
    assert!(late.body.contains("value=\"Gloves\""));
}

#[test]
fn law_the_next_owner_of_the_pump_begins_from_its_card() {
    let (bench, job) = laid();
    let card = bench.get(&format!("{job}/card"));
    assert!(card.headers["content-disposition"].contains("-card.toml"));
    let begin = |more: &[(&str, &str)]| bench.post("/act/open", &[&[("note", "")], more].concat());
    let like = job.trim_start_matches("/job/");
    for (id, field, value) in [("like-1", "like", like), ("card-1", "card", &card.body)] {
        let fields = [("id", id), ("title", "Sled 2"), (field, value)];
        let reply = begin(&fields);
        assert_eq!(reply.status, 303, "{}", reply.body);
        let again = begin(&fields);
        assert_eq!(again.headers["location"], reply.headers["location"]);
        let second = reply.headers["location"].trim_end_matches("/measure");
        let page = bench.get(&format!("{second}/plan")).body;
        assert!(
            page.contains("The plan fits: 2 steps, 2 rules, 0 parts."),
            "{page}"
        );
        assert!(
            page.contains("From the card “2-blade pump, bore 140 mm: Spring”."),
            "{page}"
        );
        let page = bench.get(&format!("{second}/measure")).body;
        assert!(page.contains("Now the leaves."), "{page}");
    }
    let file = bench.get(&format!("{job}/file"));
    assert!(file.body.contains("[leaves]"));
    for (title, like, card, why) in [
        (
            "Sled 3",
            "",
            file.body.as_str(),
            "This is a whole job, not a card.",
        ),
        ("Sled 3", like, card.body.as_str(), "One card is enough"),
        ("", like, "", "This is empty and must be filled in."),
        ("Sled 3", "", "pump = 5", "This says no format."),
    ] {
        let reply = begin(&[
            ("id", "bad-1"),
            ("title", title),
            ("like", like),
            ("card", card),
        ]);
        assert_eq!(reply.status, 422, "{}", reply.body);
        assert!(reply.body.contains(why), "{why}: {}", reply.body);
    }
    let gone = begin(&[
        ("id", "bad-2"),
        ("title", "Sled 3"),
        ("like", "gone"),
        ("card", ""),
    ]);
    assert_eq!(gone.status, 404);
}

/// Things and tools join the plan by forms, are told of on the Account page, and stay once they are.
#[test]
fn practice_things_and_tools_are_added_and_told_of() {
    let (bench, job) = laid();
    let plug = [
        ("name", "Stern drain plug"),
        ("kind", "plug"),
        ("count", "2"),
        ("step", ""),
    ];
    assert_eq!(send(&bench, &job, "new-item", &plug).status, 303);
    let wrench = [("name", "Torque wrench"), ("count", "")];
    assert_eq!(send(&bench, &job, "new-tool", &wrench).status, 303);
    let back = format!("{job}/audit");
    let tell = |id: &str, form: &str, fields: &[(&str, &str)]| {
        let own = [("id", id), ("back", back.as_str())];
        bench.post(&format!("{job}/act/{form}"), &[&own[..], fields].concat())
    };
    let page = || bench.get(&back).body;
    assert!(page().contains("Stern drain plug × 2"), "{}", page());
    let many = [("item", "stern-drain-plug"), ("count", "3")];
    let refused = tell("told-1", "item", &many);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("3 of “Stern drain plug” are too many"),
        "{}",
        refused.body
    );
    let reason = [
        ("item", "stern-drain-plug"),
        ("count", "1"),
        ("ready", "broken"),
    ];
    let told = tell("told-2", "item", &reason);
    assert_eq!(
        (told.status, told.headers["location"].as_str()),
        (303, back.as_str())
    );
    assert!(
        page().contains("broken, to be replaced, text still to be written"),
        "{}",
        page()
    );
    assert_eq!(
        tell(
            "told-3",
            "tools",
            &[("tool", "torque-wrench"), ("count", "1")]
        )
        .status,
        303
    );
    assert!(page().contains("back on the wall"), "{}", page());
    for (form, field, key) in [
        ("item-off", "item", "stern-drain-plug"),
        ("tool-off", "tool", "torque-wrench"),
    ] {
        let refused = send(&bench, &job, form, &[(field, key)]);
        assert_eq!(refused.status, 422);
        assert!(
            refused.body.contains("so it stays on the list"),
            "{}",
            refused.body
        );
    }
}

/// A step is left off with one tap, and what ends it is said for it.
#[test]
fn practice_a_ready_made_reason_leaves_a_step_off() {
    let (bench, job) = laid();
    let back = format!("{job}/assemble");
    let fields = [
        ("id", "off"),
        ("back", &back),
        ("step", "close-it"),
        ("ready", "on-order"),
    ];
    assert_eq!(bench.post(&format!("{job}/act/defer"), &fields).status, 303);
    let page = bench.get(&back).body;
    let words = "Left off: part on order, text still to be written. Until: the part is here.";
    assert!(page.contains(words), "{page}");
    let fields = [
        ("id", "of"),
        ("back", &back),
        ("step", "close-it"),
        ("ready", ""),
    ];
    assert_eq!(bench.post(&format!("{job}/act/defer"), &fields).status, 422);
}
