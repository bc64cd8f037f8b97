//! Two benches on one store: two programs, one database of a server. All data are invented.

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::os::unix::fs::PermissionsExt as _;

use crate::bench::{Bench, Open};
use crate::postgres::{PASSWORD, Server, Stop};

const SPOTS: [&str; 8] = ["A 12", "A 3", "A 6", "A 9", "B 12", "B 3", "B 6", "B 9"];
const FORMS: [(&str, &str); 3] = [
    (
        "pump",
        "blades=2&positions=4&bore=140&view=looking-forward&rotation=clockwise",
    ),
    (
        "leaves",
        "unit=thou&thicknesses=12+13+14+15+16&width=12.7&lead=round-ring&posture=bench-shaft-level&tolerance=&feel=",
    ),
    ("limits", "least=12&greatest=16&measure=radial&page=5-14"),
];

/// A folder where the password stands in the password file alone, and the address without it.
fn bench_on(server: &Server) -> (Bench, String) {
    let (bench, whole) = (Bench::new(), server.database());
    let (before, place) = whole.rsplit_once('@').unwrap();
    let name = before.strip_prefix("postgres://").unwrap();
    let (name, _) = name.split_once(':').unwrap();
    let escaped = PASSWORD.replace('\\', "\\\\").replace(':', "\\:");
    let file = bench.write(".pgpass", format!("*:*:*:{name}:{escaped}\n"));
    std::fs::set_permissions(file, std::fs::Permissions::from_mode(0o600)).unwrap();
    (bench, format!("postgres://{name}@{place}"))
}

fn post(open: &Open, path: &str, body: &str) -> String {
    let host = open.host();
    let mut stream = TcpStream::connect(host).unwrap();
    write!(
        stream,
        "POST {path} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nConnection: close\r\n\
         Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
        body.len()
    )
    .unwrap();
    let mut reply = String::new();
    stream.read_to_string(&mut reply).unwrap();
    reply
}

pub(crate) fn taken(open: &Open, path: &str, body: &str) -> String {
    let reply = post(open, path, body);
    assert!(reply.starts_with("HTTP/1.1 303"), "{body}: {reply}");
    reply
}

#[test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
fn law_two_benches_on_one_job_show_all() {
    let (bench, url) = bench_on(Server::shared());
    let benches = [
        Open::new(&bench, &["--store", &url]),
        Open::new(&bench, &["--store", &url]),
    ];
    assert_eq!(benches[0].lines[1], format!("The journal lies in {url}"));
    assert!(
        !benches
            .iter()
            .any(|open| open.lines.concat().contains(PASSWORD))
    );
    let opened = taken(&benches[0], "/act/open", "id=open-1&title=Sled+9&note=");
    assert!(opened.contains("/job/sled-9-open/"), "{opened}");
    for (n, (form, fields)) in FORMS.iter().enumerate() {
        let path = format!("/job/sled-9-open/act/{form}");
        taken(
            &benches[n % 2],
            &path,
            &format!("id={form}-1&back=sled-9-open/measure&{fields}"),
        );
    }
    // Both at once, and each act sent twice, once to either.
    std::thread::scope(|scope| {
        for (n, open) in benches.iter().enumerate() {
            scope.spawn(move || {
                for turn in 0..SPOTS.len() {
                    let at = (turn + 4 * n) % SPOTS.len();
                    let spot = SPOTS[at].replace(' ', "+");
                    let body = format!("id=read-{at}&spot={spot}&reading=13-14");
                    taken(open, "/job/sled-9-open/act/reading", &body);
                }
            });
        }
    });
    for open in &benches {
        let page = open.get("job/sled-9-open/measure");
        assert!(page.contains("In tolerance all round."), "{page}");
    }
    let export = bench.answer(&["export", "sled-9-open", "--store", &url]);
    assert_eq!(
        export.matches("13 goes; 14 won’t go").count(),
        SPOTS.len(),
        "{export}"
    );
    // What one of them took back, the other shows.
    taken(&benches[1], "/job/sled-9-open/act/undo", "id=undo-1");
    let page = benches[0].get("job/sled-9-open/measure");
    assert!(page.contains("Not decided yet: 1 spot still to read."));
}

#[test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
fn law_a_bench_moves_to_a_server_and_back() {
    let (bench, url) = bench_on(Server::shared());
    bench.write("job.toml", crate::bench::EXAMPLE);
    bench.answer(&["import", "job.toml"]);
    let there = bench.answer(&["backup", "kept"]);
    let said = bench.answer(&["restore", "kept", "--store", &url]);
    let (counts, place) = said.split_once(" stand in ").unwrap();
    assert_eq!(place, format!("{url}.\n"));
    assert!(there.starts_with(counts), "{there} {said}");
    let again = bench.refusal(&["restore", "kept", "--store", &url]);
    assert!(again.contains("only an empty one is filled"), "{again}");
    bench.answer(&["backup", "second", "--store", &url]);
    bench.answer(&["restore", "second", "--store", "sqlite:back.sqlite"]);
    let first = bench.answer(&["export", "patrol-craft"]);
    for store in [url.as_str(), "sqlite:back.sqlite"] {
        let export = bench.answer(&["export", "patrol-craft", "--store", store]);
        assert_eq!(export, first, "{store}");
    }
    let mut names: Vec<String> = (bench.path().read_dir().unwrap())
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    let wanted = [
        ".pgpass",
        "back.sqlite",
        "data",
        "job.toml",
        "kept",
        "second",
    ];
    assert_eq!(names, wanted);
}

#[test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
fn law_no_password_is_printed() {
    let (bench, url) = bench_on(Server::shared());
    let (name, place) = url.split_once('@').unwrap();
    let wrong = format!("{name}:hunter2@{place}");
    for arguments in [
        ["export", "none", "--store", &wrong],
        ["backup", "kept", "--store", &wrong],
        ["serve", "--no-open", "--store", &wrong],
        ["export", "none", "--store", "postgres://bench:hunter2"],
        ["restore", "none", "--store", "postgres:bench:hunter2@host"],
    ] {
        let ended = bench.run(&arguments);
        assert_eq!(ended.code, Some(1), "{arguments:?}");
        assert!(!ended.out.contains("hunter2"), "{}", ended.out);
        assert!(!ended.err.contains("hunter2"), "{}", ended.err);
    }
}

#[test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
fn law_a_bench_outlives_a_crash_of_its_server() {
    let server = Server::start();
    let (bench, url) = bench_on(&server);
    let open = Open::new(&bench, &["--store", &url]);
    let first = "id=open-1&title=Sled+9&note=";
    taken(&open, "/act/open", first);
    server.stop(Stop::Crash);
    let (form, fields) = FORMS[0];
    let (path, pump) = (
        format!("/job/sled-9-open/act/{form}"),
        format!("id=pump-1&{fields}"),
    );
    let page = post(&open, &path, &pump);
    assert!(page.starts_with("HTTP/1.1 503"), "{page}");
    assert!(
        page.contains("The store cannot be used just now."),
        "{page}"
    );
    assert!(!page.contains("Nothing was changed"), "{page}");
    assert!(
        !page.contains(PASSWORD) && !page.contains("postgres://"),
        "{page}"
    );
    server.go_on();
    taken(&open, &path, &pump);
    // What was answered before the crash is answered the same.
    taken(&open, "/act/open", first);
    assert!(
        open.get("job/sled-9-open/measure")
            .starts_with("HTTP/1.1 200")
    );
}
