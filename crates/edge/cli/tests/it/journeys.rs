//! In and out of the store, and the bench itself.

use std::net::TcpListener;
use std::process::{Child, Stdio};

use crate::bench::{Bench, EXAMPLE, Open};

/// The example that comes with the program.
const WHOLE: &str = include_str!("../../example/patrol-craft.toml");
const STORE: [&str; 2] = ["--store", "sqlite:bench.sqlite"];

fn with_store<'a>(arguments: &[&'a str]) -> Vec<&'a str> {
    [arguments, &STORE].concat()
}

#[test]
fn law_importing_twice_changes_nothing() {
    let bench = Bench::with_example();
    let import = with_store(&["import", "job.toml"]);
    assert_eq!(
        bench.answer(&import),
        "25 entries added to the job patrol-craft.\n"
    );
    let first = bench.answer(&with_store(&["export", "patrol-craft"]));
    assert_eq!(
        bench.answer(&import),
        "Nothing new: the job patrol-craft has all of it.\n"
    );
    assert_eq!(
        bench.answer(&with_store(&["export", "patrol-craft"])),
        first
    );
}

#[test]
fn law_importing_an_export_adds_nothing() {
    let bench = Bench::with_example();
    bench.answer(&with_store(&["import", "job.toml"]));
    assert_eq!(
        bench.answer(&with_store(&["export", "patrol-craft", "--to", "out.toml"])),
        ""
    );
    assert_eq!(
        bench.answer(&with_store(&["import", "out.toml"])),
        "Nothing new: the job patrol-craft has all of it.\n"
    );
}

#[test]
fn law_a_card_begins_the_next_job_of_its_pump_once() {
    let bench = Bench::new();
    bench.write("job.toml", WHOLE);
    bench.answer(&["export", "job.toml", "--card", "--to", "pump.toml"]);
    let begin = with_store(&["import", "pump.toml", "--title", "Sled 2: new ring"]);
    let told = bench.answer(&begin);
    assert!(
        told.ends_with("added to the job sled-2-new-ring.\n"),
        "{told}"
    );
    assert_eq!(
        bench.answer(&begin),
        "Nothing new: the job sled-2-new-ring has all of it.\n"
    );
    let torque = bench.answer(&with_store(&["torque", "sled-2-new-ring"]));
    assert!(torque.contains("Stator to wear ring housing"), "{torque}");
    let plan = bench.answer(&with_store(&["plan", "sled-2-new-ring"]));
    assert!(plan.contains("0 of 17 steps"), "{plan}");
    // The leaves are the owner's own, and come first.
    let measure = bench.answer(&with_store(&["measure", "sled-2-new-ring"]));
    assert!(measure.contains("Now the leaves."), "{measure}");
}

#[test]
fn law_a_job_is_the_same_in_a_file_and_in_the_store() {
    let bench = Bench::with_example();
    bench.answer(&with_store(&["import", "job.toml"]));
    for command in ["measure", "export"] {
        let stored = bench.answer(&with_store(&[command, "patrol-craft"]));
        assert_eq!(stored, bench.answer(&[command, "job.toml"]));
    }
    let stored = bench.answer(&with_store(&["measure", "patrol-craft", "--json"]));
    assert_eq!(stored, bench.answer(&["measure", "job.toml", "--json"]));
}

#[test]
fn law_two_imports_at_once_record_once() {
    let bench = Bench::with_example();
    // The tables are there already, as on any bench in use.
    bench.answer(&with_store(&["import", "job.toml", "--as", "other"]));
    let start = |_| {
        let mut command = bench.command(&with_store(&["import", "job.toml"]));
        command.stdout(Stdio::piped()).spawn().unwrap()
    };
    let running: Vec<Child> = (0..6).map(start).collect();
    let said: Vec<String> = running
        .into_iter()
        .map(|child| String::from_utf8(child.wait_with_output().unwrap().stdout).unwrap())
        .collect();
    let added = said
        .iter()
        .filter(|said| said.starts_with("25 entries added"))
        .count();
    let nothing = said
        .iter()
        .filter(|said| said.starts_with("Nothing new"))
        .count();
    assert_eq!((added, nothing), (1, 5), "{said:?}");
    let document = bench.answer(&with_store(&["measure", "patrol-craft", "--json"]));
    assert!(document.contains("\"entries\": 25\n"), "{document}");
}

#[test]
fn practice_a_grown_file_adds_what_is_new() {
    let bench = Bench::with_example();
    bench.answer(&with_store(&["import", "job.toml"]));
    bench.write("job.toml", format!("{EXAMPLE}\"C 9\" = \"14-15\"\n"));
    assert_eq!(
        bench.answer(&with_store(&["import", "job.toml"])),
        "1 entry added to the job patrol-craft.\n"
    );
}

#[test]
fn practice_another_id_is_another_job() {
    let bench = Bench::with_example();
    bench.answer(&with_store(&["import", "job.toml"]));
    assert_eq!(
        bench.answer(&with_store(&[
            "import",
            "job.toml",
            "--as",
            "patrol-craft-4"
        ])),
        "25 entries added to the job patrol-craft-4.\n"
    );
}

#[test]
fn practice_a_title_is_kept_as_written() {
    let bench = Bench::new();
    let title = "<script>alert(1)</script> & \\\"quotes\\\" \\u00e9";
    bench.write(
        "job.toml",
        EXAMPLE.replace("Patrol craft 3: gravel through the pump", title),
    );
    bench.answer(&with_store(&["import", "job.toml"]));
    let exported = bench.answer(&with_store(&["export", "patrol-craft"]));
    assert!(
        exported.contains("title = '<script>alert(1)</script> & \"quotes\" é'\n"),
        "{exported}"
    );
}

#[test]
fn practice_a_reader_that_leaves_is_no_fault() {
    let bench = Bench::with_example();
    let mut command = bench.command(&["measure", "job.toml"]);
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let ended = command
        .stdout(writer)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!(ended.status.code(), Some(0));
    assert_eq!(String::from_utf8(ended.stderr).unwrap(), "");
}

#[test]
fn practice_the_first_start_shows_the_example() {
    let bench = Bench::new();
    let open = Open::new(&bench, &[]);
    assert!(
        open.lines[0].ends_with("/job/patrol-craft/measure"),
        "{:?}",
        open.lines
    );
    assert!(
        open.lines[1].ends_with("data/pumpwright/bench.sqlite"),
        "{:?}",
        open.lines
    );
    let page = open.page();
    assert!(page.starts_with("HTTP/1.1 200"), "{page}");
    assert!(
        page.contains("Patrol craft 3: gravel through the pump"),
        "{page}"
    );
    drop(open);
    let again = Open::new(&bench, &[]);
    assert!(again.lines[0].ends_with('/'), "{:?}", again.lines);
    assert!(again.page().starts_with("HTTP/1.1 200"));
}

#[test]
fn practice_a_bench_in_use_gets_no_example() {
    let bench = Bench::with_example();
    bench.answer(&with_store(&["import", "job.toml", "--as", "mine"]));
    let open = Open::new(&bench, &STORE);
    assert!(!open.page().contains("patrol-craft/"), "{}", open.page());
}

#[test]
fn practice_a_port_in_use_is_refused() {
    let taken = TcpListener::bind(("127.0.0.1", 0)).unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let bench = Bench::new();
    assert_eq!(
        bench.refusal(&["serve", "--no-open", "--port", &port]),
        format!(
            "Port {port} is in use, perhaps by a bench that is open already. Use that one, close \
             it, or take any free port with --port 0.\n"
        )
    );
    assert!(!bench.path().join("data").exists(), "a store was made");
}

#[cfg(unix)]
#[test]
fn practice_ctrl_c_closes_the_bench() {
    let bench = Bench::new();
    let mut open = Open::new(&bench, &[]);
    let id = open.child.id().to_string();
    let sent = std::process::Command::new("kill")
        .args(["-INT", &id])
        .status()
        .unwrap();
    assert!(sent.success());
    assert_eq!(open.child.wait().unwrap().code(), Some(0));
}
