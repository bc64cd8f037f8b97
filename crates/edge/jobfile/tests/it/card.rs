//! A card goes from one pump to the next of its kind.

use jobfile::{By, JobFile, parse, stored, write_card};
use workshop::draft::JobDraft;
use workshop::entry::{Entry, JobId};
use workshop::fold::fold;
use workshop::job::Job;

const EXAMPLE: &str = include_str!("../../../cli/example/patrol-craft.toml");

fn by() -> By {
    By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: "Mia".to_owned(),
    }
}

fn read(text: &str) -> JobFile {
    parse("card.toml", text).unwrap_or_else(|complaint| panic!("{complaint}\n{text}"))
}

fn bring_in(file: &JobFile) -> Vec<Entry> {
    let id = JobId::new("second").unwrap();
    let new = file.entries(&id, &[], &by());
    stored(&new.unwrap_or_else(|error| panic!("{error}")), 0)
}

fn card_of(job: &Job) -> String {
    write_card(&JobDraft::card(job))
}

fn first() -> Job {
    fold(&bring_in(&read(EXAMPLE))).0
}

fn second() -> (Job, Vec<Entry>) {
    let file =
        read(&card_of(&first())).begin("Second craft: new ring", "Bought at the autumn sale");
    let entries = bring_in(&file);
    (fold(&entries).0, entries)
}

#[test]
fn law_the_second_owner_has_pump_limits_joints_and_steps_at_once() {
    let (first, (second, _)) = (first(), second());
    let value = |job: &Job| {
        let limits = job.limits.as_ref().map(|fact| &fact.value)?;
        Some((limits.least.as_ref()?.value.to_bits(), limits.page.clone()))
    };
    assert!(value(&first).is_some());
    assert_eq!(value(&second), value(&first));
    assert_eq!(
        second.pump.as_ref().map(|fact| &fact.value),
        first.pump.as_ref().map(|fact| &fact.value)
    );
    assert_eq!(second.joints.len(), first.joints.len());
    for (key, joint) in &first.joints {
        assert_eq!(second.joints[key].joint.value, joint.joint.value);
    }
    let steps = |job: &Job| job.bench.plan().unwrap().steps.clone();
    assert_eq!(steps(&second), steps(&first));
}

#[test]
fn law_nothing_of_the_first_craft_goes_along() {
    let (second, entries) = second();
    assert_eq!(second.title.as_deref(), Some("Second craft: new ring"));
    assert!(second.tries.is_empty() && second.leaves.is_none() && second.walk.is_none());
    assert!(second.bench.progress.is_empty() && second.bench.parts.is_empty());
    assert!(second.joints.values().all(|joint| joint.fastened.is_none()));
    assert!(entries.iter().all(|entry| entry.new.who == "Mia"));
}

#[test]
fn law_the_card_says_where_it_came_from() {
    assert_eq!(
        second().0.note,
        "From the card “3-blade pump, bore 155 mm: Rebuild after the gravel”.\n\
         Bought at the autumn sale"
    );
}

#[test]
fn law_a_card_leaves_and_comes_back_the_same() {
    let text = card_of(&first());
    let again = read(&text);
    assert!(again.is_card());
    assert_eq!(write_card(&again.draft), text);
    assert_eq!(card_of(&second().0), text);
}

#[test]
fn law_a_limit_keeps_its_unit_without_the_leaves() {
    let thou = EXAMPLE.replace("unit = \"mm\"", "unit = \"thou\"");
    let mut job = fold(&bring_in(&read(&thou))).0;
    let limits = job.limits.as_mut().unwrap();
    limits.value.least = Some(quantity::parse("13", quantity::Unit::Thou).unwrap());
    let text = card_of(&job);
    let file = read(&text).begin("Second", "");
    let least = fold(&bring_in(&file))
        .0
        .limits
        .unwrap()
        .value
        .least
        .unwrap();
    assert!((least.value - 13.0 * 25.4e-6).abs() < 1e-12, "{text}"); // not a conversion: 13 thou, spelled out
}

#[test]
fn law_what_is_of_one_craft_is_refused_in_a_card() {
    let card = card_of(&first());
    let refusal = |text: &str| parse("card.toml", text).unwrap_err().to_string();
    let refused = |more: &str| refusal(&format!("{card}{more}"));
    let instead = |old: &str, new: &str| refusal(&card.replacen(old, new, 1));
    insta::assert_snapshot!(
        [
            refused("\n[readings]\n\"A 12\" = \"13-14\"\n"),
            refused("\n[walk]\ngo = \"13\"\nno_go = \"15\"\n"),
            refused("\n[progress.ring]\ndone = \"2026-05-09T14:30:00+02:00[Europe/Berlin]\"\n"),
            instead(
                "count = 4",
                "count = 4\nscrews = { in = 1, torqued = 0, marked = 0 }"
            ),
            instead("[parts.sealant]", "[parts.sealant]\nstatus = \"at-hand\""),
            refused("\n[job]\nid = \"a\"\ntitle = \"b\"\n"),
            instead("[card]", "[job]\nid = \"a\""),
            instead("pumpwright card", "pumpwright job"),
        ]
        .join("\n\n")
    );
}

/// What sort of joint it is belongs to the pump; a measured hole and a wrench do not.
#[test]
fn law_the_sort_of_a_joint_goes_along_and_the_tools_stay() {
    let (text, tool) = (EXAMPLE, "tool = { wrench = \"small\" }");
    let text = text.replace(tool, &format!("{tool}\nrole = \"ordinary\""));
    let job = fold(&bring_in(&read(&text))).0;
    assert!(job.wrenches.len() == 2 && text.contains("hole_measured"));
    assert!(
        job.joints
            .values()
            .any(|state| state.fittings.tool.is_some())
    );
    let card = card_of(&job);
    assert!(card.contains("role = \"ordinary\""), "{card}");
    for gone in ["hole_measured", "wrench", "tool ="] {
        assert!(!card.contains(gone), "{gone} in {card}");
    }
    let what = "measured holes and chosen wrenches";
    for (more, what) in [
        ("tool = { wrench = \"small\" }", what),
        (
            "hole_measured = { reach = \"9\", threaded = \"13\", lost = \"1\" }",
            what,
        ),
        (
            "[wrenches.small]\nname = \"Small\"\nscale = \"N·m\"\nleast = \"5\"\nmost = \"25\"",
            "torque wrenches",
        ),
    ] {
        let with = card.replace("role = \"ordinary\"", more);
        let said = parse("card.toml", &with).unwrap_err().to_string();
        assert!(said.contains(what), "{said}");
    }
}

#[test]
fn law_a_card_that_names_its_job_begins_the_next_one_of_that_pump() {
    let mut draft = JobDraft::card(&first());
    draft.follows = "patrol-craft".into();
    let file = read(&write_card(&draft)).begin("Second winter", "");
    let job = fold(&bring_in(&file)).0;
    assert_eq!(job.follows, Some(JobId::new("patrol-craft").unwrap()));
    let text = jobfile::write(&JobId::new("second").unwrap(), &JobDraft::of(&job));
    assert!(text.contains("follows = \"patrol-craft\"\n"), "{text}");
    assert_eq!(fold(&bring_in(&read(&text))).0.follows, job.follows);
    // What is handed on joins nobody's pump to this one.
    assert_eq!(JobDraft::card(&job).follows, "");
}

#[test]
fn law_no_job_follows_itself_or_another_later_on() {
    let entries = bring_in(&read(EXAMPLE));
    let id = read(EXAMPLE).id.unwrap();
    let with = |follows: &str| {
        let title = EXAMPLE
            .lines()
            .find(|line| line.starts_with("title = "))
            .unwrap();
        EXAMPLE.replacen(title, &format!("{title}\nfollows = \"{follows}\""), 1)
    };
    let itself = parse("job.toml", &with(id.as_str()))
        .unwrap_err()
        .to_string();
    assert!(itself.contains("A job cannot follow itself."), "{itself}");
    let no_id = read(&with("No Id"))
        .entries(&id, &[], &by())
        .unwrap_err()
        .to_string();
    assert!(no_id.contains("“No Id” is no id"), "{no_id}");
    let late = read(&with("another"))
        .entries(&id, &entries, &by())
        .unwrap_err()
        .to_string();
    assert!(
        late.contains("follows no job here, not “another”"),
        "{late}"
    );
}
