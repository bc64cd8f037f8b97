//! What is wrong, at the command line. All of it is invented.

use serde_json::Value;

use crate::bench::Bench;

const EXAMPLE: &str = include_str!("../../example/patrol-craft.toml");
const JOB: &str = "format = \"pumpwright job\"\nversion = 1\n\n[job]\nid = \"sled-4\"\ntitle = \"Rescue sled 4\"\n";
const STORE: [&str; 2] = ["--store", "sqlite:bench.sqlite"];

/// What is told of a job to other programs.
fn told(text: &str) -> Value {
    let bench = Bench::new();
    bench.write("job.toml", text);
    serde_json::from_str(&bench.answer(&["diagnose", "job.toml", "--json"])).unwrap()
}

fn list<'a>(told: &'a Value, of: &str) -> &'a Vec<Value> {
    told[of].as_array().unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// The chance of a cause.
fn chance(told: &Value, cause: &str) -> f64 {
    let mut causes = list(told, "causes").iter();
    let found = causes.find(|one| one["cause"] == cause).unwrap();
    number(&found["chance"])
}

fn close(value: f64, wanted: f64, within: f64) {
    assert!((value - wanted).abs() < within, "{value} for {wanted}");
}

/// Falling, or as it was.
fn falls(values: impl Iterator<Item = f64>) {
    let values: Vec<f64> = values.collect();
    assert!(values.windows(2).all(|two| two[0] >= two[1]), "{values:?}");
}

#[test]
fn practice_the_example_diagnosed_for_programs() {
    let told = told(EXAMPLE);
    assert_eq!(told["document"], "pumpwright diagnose");
    assert_eq!(
        (&told["version"], &told["job"]),
        (&2.into(), &"patrol-craft".into())
    );
    assert_eq!(
        (&told["suspect"], &told["against"]),
        (&"before".into(), &"description".into())
    );
    assert_eq!(told["against_run"], Value::Null);

    // 46.5, 45.0, 46.5 and 45.5 mph there and back, by the mean of means of ISO 15016; 7750 rpm; 3.6 and 3.9 s to
    // 30 mph.
    let seen = &told["quantities"];
    close(number(&seen["top_engine_rpm"]["seen"]), 7750.0, 1e-6);
    // Speeds and times are held against another run of it, or against nothing.
    assert_eq!(list(seen, "starts").len(), 0);
    for missing in ["top_speed_m_s", "launch_engine_rpm", "gap_m"] {
        assert_eq!(seen[missing], Value::Null, "{missing}");
    }
    // A description says nothing of how it ran before.
    assert_eq!(seen["top_engine_rpm"]["before"], Value::Null);

    let causes = list(&told, "causes");
    assert_eq!(causes.len(), 18);
    close(
        causes.iter().map(|one| number(&one["chance"])).sum(),
        1.0,
        1e-9,
    );
    falls(causes.iter().map(|one| number(&one["chance"])));
    falls(
        list(&told, "evidence")
            .iter()
            .map(|one| number(&one["weight"]).abs()),
    );
    falls(
        list(&told, "changes")
            .iter()
            .map(|one| number(&one["chance"])),
    );
    falls(
        list(&told, "next")
            .iter()
            .map(|one| number(&one["bits"]) / number(&one["minutes"])),
    );

    // The engine's speed, eight signs, a check, and three that the teardown answers: blades, bearing, seal.
    let evidence = list(&told, "evidence");
    let of = |kind: &str| evidence.iter().filter(|one| one["kind"] == kind).count();
    assert_eq!((of("quantity"), of("sign"), of("check")), (1, 8, 4));
    let yes = |what: &str| evidence.iter().find(|one| one["what"] == what).unwrap()["yes"].clone();
    assert_eq!(yes("roar"), true);
    assert_eq!(yes("hot"), false);
    assert_eq!(yes("intake"), false);
    assert_eq!(yes("top-engine"), Value::Null);

    // What is done is not asked for again.
    let next = list(&told, "next");
    assert_eq!(next.len(), 11);
    assert!(next.iter().all(|one| one["check"] != "intake"));
    let safe = |check: &str| {
        next.iter().find(|one| one["check"] == check).unwrap()["must_not_start"].clone()
    };
    assert_eq!((safe("mark"), safe("bottom")), (true.into(), true.into()));
    assert_eq!((safe("codes"), safe("weigh")), (false.into(), false.into()));
    assert_eq!(
        (list(&told, "dangers").len(), &told["cannot_start"]),
        (0, &false.into())
    );
}

/// By hand: the priors are 0.03 for a slipping coupling, 0.05 for what is not listed, 1.09 together; a shifted mark is
/// found with 0.95 of the first, 0.02 of the rest, and of what is not listed as over all that is,
/// `(0.03 · 0.95 + 1.01 · 0.02) / 1.04`.
#[test]
fn law_a_shifted_mark_is_weighed_by_bayes() {
    let before = told(JOB);
    close(chance(&before, "slip"), 0.03 / 1.09, 1e-9);
    assert_eq!(
        (&before["suspect"], &before["against"]),
        (&Value::Null, &"not-run".into())
    );
    assert_eq!(
        (list(&before, "evidence").len(), list(&before, "next").len()),
        (0, 15)
    );
    // It takes no time, so it comes first.
    assert_eq!(before["next"][0]["check"], "intake");

    let told = told(&format!(
        "{JOB}[[check]]\ncheck = \"mark\"\nfound = \"something\"\n"
    ));
    let slips = 0.03 * 0.95;
    let listed = slips + 1.01 * 0.02;
    let all = listed + 0.05 * listed / 1.04;
    close(chance(&told, "slip"), slips / all, 1e-9);
    assert_eq!(told["causes"][0]["cause"], "slip");
    // Second is that nothing is wrong, and the mark is all there is.
    let piece = &told["evidence"][0];
    assert_eq!(
        (&piece["what"], &piece["yes"]),
        (&"mark".into(), &true.into())
    );
    close(number(&piece["weight"]), (0.95_f64 / 0.02).ln(), 1e-9);
}

#[test]
fn practice_an_engine_that_runs_hot_means_stop() {
    let told = told(&format!(
        "{JOB}[diagnosis]\nyes = [\"hot\", \"weak-outlet\", \"since-refit\"]\n"
    ));
    assert_eq!(told["dangers"], serde_json::json!(["hot"]));
    // Hoses that were crossed while the pump was open.
    assert_eq!(told["causes"][0]["cause"], "hoses");
    assert_eq!(told["fit"], Value::Null);
}

/// Signs and checks come out of the store as they went in, and are diagnosed there as they are in the file.
#[test]
fn practice_signs_and_checks_go_through_the_store() {
    let bench = Bench::new();
    let search = "\n[diagnosis]\nyes = [\"roar\", \"sudden\"]\nno = [\"hot\"]\n\
                  \n[[check]]\ncheck = \"intake\"\nfound = \"something\"\nnote = \"a rope, \\\"8 mm\\\"\"\n";
    bench.write("job.toml", format!("{JOB}{search}"));
    let in_file = bench.answer(&["diagnose", "job.toml", "--json"]);
    bench.answer(&[&["import", "job.toml"], &STORE[..]].concat());
    let export = bench.answer(&[&["export", "sled-4"], &STORE[..]].concat());
    assert!(
        export.contains("[[check]]\ncheck = \"intake\"\n"),
        "{export}"
    );
    bench.write("again.toml", &export);
    assert_eq!(bench.answer(&["diagnose", "again.toml", "--json"]), in_file);
    let stored = [&["diagnose", "sled-4", "--json"], &STORE[..]].concat();
    assert_eq!(bench.answer(&stored), in_file);
}

#[test]
fn practice_a_diagnosis_that_cannot_be_is_refused() {
    let bench = Bench::new();
    bench.write(
        "job.toml",
        format!("{JOB}[diagnosis]\nyes = [\"roar\", \"roaring\"]\n"),
    );
    assert_eq!(
        bench.refusal(&["diagnose", "job.toml"]),
        "job.toml, line 8, column 17:
  |
8 | yes = [\"roar\", \"roaring\"]
  |                 ^^^^^^^
“roaring” is none of the choices: since-refit, sudden, flare, roar, milky-jet, vibration, growl, weak-outlet, hot, held, misfire, smell, sits-low, pulls, chop, clears.
"
    );
    bench.write(
        "job.toml",
        format!("{JOB}[diagnosis]\nyes = [\"hot\"]\nno = [\"hot\"]\n"),
    );
    assert_eq!(
        bench.refusal(&["diagnose", "job.toml", "--json"]),
        "job.toml, line 9, column 8:
  |
9 | no = [\"hot\"]
  |        ^^^
“hot” stands under what is so and under what is not; keep one of them.
"
    );
    bench.write("job.toml", JOB);
    bench.answer(&[&["import", "job.toml"], &STORE[..]].concat());
    let nobody = bench.refusal(&[&["diagnose", "nobody"], &STORE[..]].concat());
    assert_eq!(
        nobody,
        "There is no job “nobody” in the store. It holds sled-4.\n"
    );
}

/// The example in a store, a log for each of these outings before its rebuild; how it stands then.
fn told_by_logs(text: &str, outings: &[(&str, &str)]) -> Value {
    let bench = Bench::new();
    bench.write("job.toml", text);
    bench.write("before.csv", include_str!("../../example/before.csv"));
    bench.write("after.csv", include_str!("../../example/after.csv"));
    bench.answer(&[&["import", "job.toml"], &STORE[..]].concat());
    for (outing, log) in outings {
        let read = [
            "trial",
            "patrol-craft",
            "--side",
            "before",
            "--outing",
            outing,
            "--read",
            log,
        ];
        bench.answer(&[&read, &STORE[..]].concat());
    }
    let told = ["diagnose", "patrol-craft", "--json"];
    serde_json::from_str(&bench.answer(&[&told, &STORE[..]].concat())).unwrap()
}

/// The model's shaft turns as fast as it will at once: what a log reads as the craft gathers way is held against a log.
#[test]
fn law_an_engine_that_gathers_way_is_held_against_a_reading_alone() {
    let later = ("later", "after.csv");
    let alone = told_by_logs(EXAMPLE, &[later]);
    assert_eq!(alone["against_run"], "before");
    assert!(number(&alone["quantities"]["top_speed_m_s"]["seen"]) > 20.0);
    assert_eq!(alone["quantities"]["launch_engine_rpm"], Value::Null);
    assert!(list(&alone["quantities"], "passing").is_empty());
    // Without the figures that were read off on that outing its log says all.
    let blocks = EXAMPLE.split("\n\n");
    let blocks = blocks.filter(|block| !block.contains("[[outing.figure]]"));
    let logged = blocks.collect::<Vec<_>>().join("\n\n");
    let both = told_by_logs(&logged, &[("before", "before.csv"), later]);
    assert_eq!(both["against_run"], "before");
    let passing = list(&both["quantities"], "passing").iter();
    let speeds: Vec<f64> = passing.map(|one| number(&one["at_m_s"])).collect();
    assert_eq!(speeds, [8.9408, 13.4112, 17.8816]);
    for one in list(&both["quantities"], "passing") {
        assert!(number(&one["engine_rpm"]["before"]) > 5000.0);
    }
}
