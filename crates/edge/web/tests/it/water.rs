//! Water tests over HTTP: logs taken and refused, runs set by hand, a result that is stale. All data
//! are invented.

use crate::bench::Bench;
use crate::photos::{Part, Reply, form, send};

const BEFORE: &[u8] = include_bytes!("../../../cli/example/before.csv");
const AFTER: &[u8] = include_bytes!("../../../cli/example/after.csv");
const JOB: &str = "/job/sled-aaaa";

/// A bench with a job and one outing of it, `before`.
fn bench() -> Bench {
    let bench = Bench::start();
    let reply = bench.ask("POST", "/act/open", &[], "id=aaaa-1&title=Sled&note=");
    assert_eq!(reply.status, 303);
    outing(&bench, "o1", "Before", "before");
    bench
}

fn outing(bench: &Bench, id: &str, name: &str, side: &str) {
    let fields = [
        ("outing", ""),
        ("name", name),
        ("side", side),
        ("unit", "mph"),
    ];
    bench.kept((JOB, "water"), ("outing", id), &fields);
}

/// Sends a log into an outing, with what is said of it before it.
fn log(bench: &Bench, outing: &str, said: &[(&str, &str)], (name, file): (&str, &[u8])) -> Reply {
    let id = format!("log-{outing}-{}", name.replace('.', "-"));
    let mut parts: Vec<Part> = vec![
        ("id", None, id.as_bytes()),
        ("outing", None, outing.as_bytes()),
    ];
    let said = said.iter();
    parts.extend(said.map(|(key, value)| (*key, None, value.as_bytes())));
    parts.push(("log", Some(name), file));
    let kind = "content-type: multipart/form-data; boundary=bound";
    let head = format!("POST {JOB}/act/log HTTP/1.1\r\n{kind}");
    send(bench, &head, &form(&parts))
}

/// The reasons told on a page.
fn told(page: &str) -> Vec<String> {
    let parts = page.split("class=\"refusal\" role=\"alert\">").skip(1);
    parts
        .map(|rest| rest.split("</p>").next().unwrap().to_owned())
        .collect()
}

/// The one reason why something was refused, told once.
fn why(status: u16, page: &str) -> String {
    assert_eq!(status, 422, "{page}");
    let told = told(page);
    assert_eq!(told.len(), 1, "{told:?}");
    told[0].clone()
}

fn refused(bench: &Bench, outing: &str, name: &str, file: &[u8]) -> String {
    let reply = log(bench, outing, &[], (name, file));
    why(reply.status, &reply.text())
}

#[test]
fn law_a_log_is_taken_once() {
    let bench = bench();
    let reply = log(&bench, "before", &[], ("before.csv", BEFORE));
    assert_eq!(reply.status, 303, "{}", reply.text());
    // The same form sent again records once; another form with the same file is told where it is.
    let reply = log(&bench, "before", &[], ("before.csv", BEFORE));
    assert_eq!(reply.status, 303, "{}", reply.text());
    assert_eq!(
        refused(&bench, "before", "copy.csv", BEFORE),
        "This very file is in the job already, as “before.csv” of “Before”. Put it away there \
         first, or choose another."
    );
    let page = bench.get(&format!("{JOB}/water")).body;
    assert_eq!(page.matches("Runs of before.csv").count(), 1, "{page}");
}

#[test]
fn law_a_file_that_is_no_log_is_refused_beside_its_field() {
    let bench = bench();
    let packed = [&b"PK\x03\x04\x14\0\0\0"[..], &[0; 200]].concat();
    let cases: [(&str, &[u8], &str); 5] = [
        ("empty.gpx", b"", "The file is empty"),
        ("blank.csv", b" \n\n\t", "nothing but white space"),
        ("log.zip", &packed, "zip"),
        ("note.txt", b"Went well, I think.\n", "no log known here"),
        (
            "bomb.gpx",
            b"<?xml version=\"1.0\"?>\n<!DOCTYPE gpx [<!ENTITY a \"ha\">]>\n<gpx><trk/></gpx>",
            "line 2 declares",
        ),
    ];
    for (name, file, words) in cases {
        let why = refused(&bench, "before", name, file);
        assert!(
            why.to_lowercase().contains(&words.to_lowercase()),
            "{name}: {why}"
        );
    }
    let page = bench.get(&format!("{JOB}/water")).body;
    assert!(page.contains("No full-throttle run yet."), "{page}");
}

#[test]
fn law_what_no_form_shows_is_told_all_the_same() {
    let bench = bench();
    assert_eq!(
        refused(&bench, "third", "after.csv", AFTER),
        "There is no outing “third” here. Describe it first."
    );
    let act = |name: &str, id: &str, fields: &[(&str, &str)]| {
        let reply = bench.send((JOB, "water"), (name, id), fields);
        why(reply.status, &reply.body)
    };
    let all = [
        act("log-off", "a1", &[("log", "no-digest")]),
        act("log-off", "a2", &[("log", "No digest!")]),
        act("runs-found", "a3", &[("log", "0123456789abcdef")]),
        act(
            "figure",
            "a4",
            &[
                ("outing", "third"),
                ("what", "top-speed"),
                ("value", "50"),
                ("read", "display"),
            ],
        ),
        act("take-trial", "a5", &[("evidence", "none")]),
    ];
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn law_runs_set_by_hand_lie_inside_the_log_and_apart() {
    let bench = bench();
    assert_eq!(
        log(&bench, "before", &[], ("before.csv", BEFORE)).status,
        303
    );
    let page = bench.get(&format!("{JOB}/water")).body;
    let digest = page.split("name=\"log\" value=\"").nth(1).unwrap();
    let digest = &digest[..64];
    let run = |id: &str, from: &str, until: &str| {
        let fields = [("log", digest), ("from", from), ("until", until)];
        let reply = bench.send((JOB, "water"), ("run", id), &fields);
        why(reply.status, &reply.body)
    };
    insta::assert_snapshot!(
        [
            run("r1", "soon", "1:30"),
            run("r2", "", "1:30"),
            run("r3", "10:00", "10:30"),
            run("r4", "1:30", "1:00"),
            run("r5", "0:40", "0:55"),
        ]
        .join("\n")
    );
}

#[test]
fn law_figures_have_bounds_and_units() {
    let bench = bench();
    let figure = |id: &str, what: &str, value: &str, to: &str| {
        let fields = [
            ("outing", "before"),
            ("what", what),
            ("way", "there"),
            ("value", value),
            ("to", to),
            ("read", "display"),
        ];
        let reply = bench.send((JOB, "water"), ("figure", id), &fields);
        why(reply.status, &reply.body)
    };
    insta::assert_snapshot!(
        [
            figure("f1", "top-speed", "", ""),
            figure("f2", "top-speed", "fast", ""),
            figure("f3", "top-speed", "900", ""),
            figure("f4", "top-speed", "52 rpm", ""),
            figure("f5", "engine-speed", "76", ""),
            figure("f6", "start", "2.4", "30 s"),
            figure("f7", "start", "0", ""),
        ]
        .join("\n")
    );
}

#[test]
fn law_an_outing_says_what_can_be() {
    let bench = bench();
    let outing = |id: &str, more: &[(&str, &str)]| {
        let own = [("outing", ""), ("side", "before"), ("unit", "mph")];
        let reply = bench.send((JOB, "water"), ("outing", id), &[more, &own[..]].concat());
        why(reply.status, &reply.body)
    };
    insta::assert_snapshot!(
        [
            outing("o2", &[("name", " ")]),
            outing("o3", &[("name", "x"), ("wind", "90")]),
            outing("o4", &[("name", "x"), ("pressure", "30")]),
            outing("o5", &[("name", "x"), ("humidity", "120")]),
            outing("o6", &[("name", "x"), ("water_temperature", "60")]),
            outing("o7", &[("name", "x"), ("receiver", "ears")]),
        ]
        .join("\n")
    );
}

#[test]
fn law_a_result_that_changed_since_it_was_shown_is_not_taken() {
    let bench = bench();
    outing(&bench, "o2", "After", "after");
    for (outing, name, file) in [
        ("before", "before.csv", BEFORE),
        ("after", "after.csv", AFTER),
    ] {
        assert_eq!(log(&bench, outing, &[], (name, file)).status, 303);
    }
    let page = bench.get(&format!("{JOB}/water")).body;
    let evidence = page.split("name=\"evidence\" value=\"").nth(1).unwrap();
    let evidence = evidence.split('"').next().unwrap();
    let digest = page.split("name=\"log\" value=\"").nth(1).unwrap()[..64].to_owned();
    let from = page.split("name=\"from\" value=\"").nth(1).unwrap();
    let from = from.split('"').next().unwrap();
    bench.kept(
        (JOB, "water"),
        ("run-off", "r1"),
        &[("log", &digest), ("from", from)],
    );
    let take = |id: &str, evidence: &str| {
        bench.send(
            (JOB, "water"),
            ("take-trial", id),
            &[("evidence", evidence)],
        )
    };
    let stale = take("t1", evidence);
    assert_eq!(stale.status, 422);
    assert!(
        !bench
            .get(&format!("{JOB}/water"))
            .body
            .contains("This result is taken.")
    );
    bench.kept((JOB, "water"), ("runs-found", "r2"), &[("log", &digest)]);
    // Runs found again are the runs that were shown.
    assert_eq!(take("t2", evidence).status, 303);
    assert!(
        bench
            .get(&format!("{JOB}/water"))
            .body
            .contains("This result is taken.")
    );
}
