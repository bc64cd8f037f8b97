//! Attacks, each with its refusal: nothing is changed, nothing inside is shown, and the bench goes on.
//!
//! The kinds are those of the OWASP testing guide as far as a bench on loopback meets them (from memory).

mod archives;

use crate::bench::{Bench, Reply};
use crate::photos::{form, send};

/// A name, the request, and the statuses that refuse it.
struct Attack {
    name: String,
    ask: [String; 2],
    headers: Vec<(&'static str, String)>,
    body: String,
    refused: &'static [u16],
}

fn attack(name: &str, ask: [&str; 2], refused: &'static [u16]) -> Attack {
    Attack {
        name: name.to_owned(),
        ask: ask.map(str::to_owned),
        headers: Vec::new(),
        body: String::new(),
        refused,
    }
}

impl Attack {
    fn with(mut self, header: &'static str, value: &str) -> Self {
        self.headers.push((header, value.to_owned()));
        self
    }

    fn sends(self, body: &str) -> Self {
        let body = body.to_owned();
        Self { body, ..self }
    }

    fn at(&self, bench: &Bench) -> Reply {
        let headers: Vec<_> = self.headers.iter().map(|(n, v)| (*n, v.as_str())).collect();
        bench.ask(&self.ask[0], &self.ask[1], &headers, &self.body)
    }
}

const ACT: &str = "/job/rescue-sled-1-open/act/limits";

/// A name that resolves to this machine, in every spelling that might slip through.
fn rebinding() -> Vec<Attack> {
    let hosts = [
        "evil.test",
        "evil.test:8157",
        "127.0.0.1.evil.test",
        "localhost.evil.test",
        "127.0.0.1@evil.test",
        "evil.test#localhost",
        "0.0.0.0",
        "127.1",
        "2130706433",
        "[::ffff:127.0.0.1]",
        "LOCALHOST.",
    ];
    let ask = |host: &&str| {
        attack(&format!("rebinding by {host}"), ["GET", "/"], &[400, 421]).with("host", host)
    };
    hosts.iter().map(ask).collect()
}

/// A page from elsewhere that sends a form through the person's browser.
fn cross_site() -> Vec<Attack> {
    let body = "id=stolen-1&title=Stolen&note=";
    let post = |name: &str| attack(name, ["POST", "/act/open"], &[403]).sends(body);
    vec![
        post("cross-site form").with("sec-fetch-site", "cross-site"),
        post("same-site form of another port")
            .with("sec-fetch-site", "same-site")
            .with("origin", "http://127.0.0.1:1"),
        post("old browser, foreign origin").with("origin", "http://evil.test"),
        post("origin of a file").with("origin", "null"),
        post("origin that begins like ours").with("origin", "http://127.0.0.1.evil.test"),
        attack("cross-site archive", ["POST", "/act/archive"], &[403])
            .with("sec-fetch-site", "cross-site")
            .with("content-type", "multipart/form-data; boundary=bound")
            .sends("--bound--\r\n"),
        post("origin by https").with("origin", "https://127.0.0.1:1"),
    ]
}

/// Ways out of the folder, and into what is no page.
fn traversal() -> Vec<Attack> {
    let paths = [
        "/assets/../Cargo.toml",
        "/assets/..%2f..%2fCargo.toml",
        "/assets/%2e%2e/%2e%2e/etc/passwd",
        "/assets/....//....//etc/passwd",
        "/assets/bench.css%00.png",
        "/assets/..\\..\\etc\\passwd",
        "/job/..%2f..%2fetc%2fpasswd/measure",
        "/job/..%2f..%2fetc%2fpasswd/archive",
        "/job/rescue-sled-1-open/photo/..%2f..%2fbench.sqlite",
        "/job/rescue-sled-1-open/../../bench.sqlite",
        "/bench.sqlite",
        "/.git/config",
        "/job/%F0%9F%98%80/measure",
        "/job/'%20OR%201=1--/measure",
    ];
    let ask = |path: &&str| attack(&format!("traversal {path}"), ["GET", path], &[400, 404]);
    paths.iter().map(ask).collect()
}

/// Forged ids, what was sent before by another hand, and methods that nobody asked for.
fn forged() -> Vec<Attack> {
    let post = |name: &str, body: &str| {
        attack(name, ["POST", ACT], &[400, 404, 409, 413, 422]).sends(body)
    };
    vec![
        post("an id with a quote", "id=x'--&least=12&measure=radial"),
        post("an id of capitals", "id=ABC&least=12&measure=radial"),
        post(
            "an id too long",
            &format!("id={}&least=12&measure=radial", "a".repeat(65)),
        ),
        post("no id", "least=12&measure=radial"),
        post(
            "an id that opened the job, again",
            "id=open-1&least=11&measure=radial",
        ),
        post("a form that is none", "{\"id\":\"x-1\"}").with("content-type", "application/json"),
        post("a bare text", "id=x-1").with("content-type", "text/plain"),
        post(
            "a form of half a megabyte",
            &format!("id=x-2&page={}", "x".repeat(500_000)),
        ),
        attack(
            "an act that is none",
            ["POST", "/job/rescue-sled-1-open/act/drop"],
            &[404],
        )
        .sends("id=x-3"),
        attack(
            "an act of a job that is none",
            ["POST", "/job/none/act/limits"],
            &[404],
        )
        .sends("id=x-4&least=12&measure=radial"),
        attack(
            "a withdrawal by name",
            ["POST", "/job/rescue-sled-1-open/act/withdraw"],
            &[404],
        )
        .sends("id=x-5&entry=open-1"),
        attack(
            "delete",
            ["DELETE", "/job/rescue-sled-1-open/measure"],
            &[405],
        ),
        attack("put", ["PUT", "/assets/bench.js"], &[405]).sends("alert(1)"),
        attack("trace", ["TRACE", "/"], &[405]),
        attack("an act by GET", ["GET", ACT], &[404, 405]),
    ]
}

/// What an act may not claim of itself, and streams that nobody may hold.
fn apart() -> Vec<Attack> {
    let claims = [
        ("a view of what is not there yet", "act_seen=99"),
        ("a view before anything", "act_seen=-1"),
        ("a view beyond all numbers", "act_seen=18446744073709551616"),
        ("a view with a quote", "act_seen=4'--"),
        (
            "an act of tomorrow",
            "act_at=2100-01-01T00:00:00%2B00:00[%2B00:00]",
        ),
        (
            "an act of long ago",
            "act_at=2001-01-01T00:00:00%2B00:00[%2B00:00]",
        ),
        ("a time without a zone", "act_at=2026-05-09T12:32:00"),
        ("a time that is none", "act_at=now"),
        (
            "a zone that is a path",
            "act_at=2026-05-09T12:32:00%2B00:00[../../etc/passwd]",
        ),
    ];
    let claim = |(name, said): &(&str, &str)| {
        let body = format!("id=apart-1&least=12&greatest=15&measure=radial&page=5&{said}");
        attack(name, ["POST", ACT], &[422]).sends(&body)
    };
    let streams = [
        ("a stream of no job", "/job/none/live"),
        ("a stream of a path", "/job/..%2f..%2fetc/live"),
        ("news of no job", "/job/none/since/1"),
        ("news since nothing", "/job/rescue-sled-1-open/since/x"),
        (
            "news since below nothing",
            "/job/rescue-sled-1-open/since/-1",
        ),
    ];
    let stream = |(name, path): &(&str, &str)| attack(name, ["GET", path], &[404]);
    let posted = attack(
        "a stream by POST",
        ["POST", "/job/rescue-sled-1-open/live"],
        &[405],
    );
    let streams = streams.iter().map(stream).chain([posted]);
    claims.iter().map(claim).chain(streams).collect()
}

/// What was shown inside would be told by one of these.
const INSIDE: [&str; 9] = [
    "panicked",
    "src/",
    ".rs:",
    "sqlx",
    "sqlite",
    "SELECT",
    "RUST_BACKTRACE",
    "thread '",
    "/tmp/",
];

fn tells_nothing(name: &str, body: &str) {
    for word in INSIDE {
        assert!(!body.contains(word), "{name} shows “{word}”: {body}");
    }
}

/// A bench with a job whose path is known.
fn ready() -> Bench {
    let bench = Bench::start();
    let job = bench.ready();
    assert_eq!(job, "/job/rescue-sled-1-open");
    bench
}

/// All that the journal holds, as the bench would hand it out.
fn journal(bench: &Bench) -> String {
    let list = bench.get("/").body;
    let file = bench.get("/job/rescue-sled-1-open/file").body;
    let jobs = list.matches("href=\"/job/").count();
    format!("{jobs}\n{file}")
}

#[test]
fn law_every_attack_is_refused_and_changes_nothing() {
    let bench = ready();
    let before = journal(&bench);
    assert!(before.contains("Rescue sled 1"), "{before}");
    let kinds = [rebinding(), cross_site(), traversal(), forged(), apart()];
    let all: Vec<Attack> = kinds.into_iter().flatten().collect();
    assert!(all.len() >= 40, "{} attacks", all.len());
    for one in all {
        let reply = one.at(&bench);
        let (name, status) = (&one.name, reply.status);
        assert!(
            one.refused.contains(&status),
            "{name}: {status} {}",
            reply.body
        );
        tells_nothing(name, &reply.body);
        assert_eq!(journal(&bench), before, "{name} changed something");
    }
}

/// The way back after a form leads to a page of this bench, whatever was asked for.
#[test]
fn law_no_form_leads_away() {
    let bench = ready();
    for (n, back) in [
        "http://evil.test/",
        "//evil.test/",
        "/\\evil.test/",
        "javascript:alert(1)",
        "/job/rescue-sled-1-open/measure\r\nset-cookie: who=x",
        "https:evil.test",
    ]
    .into_iter()
    .enumerate()
    {
        let id = format!("back-{n}");
        let fields = [
            ("id", id.as_str()),
            ("back", back),
            ("least", "12"),
            ("greatest", "16"),
            ("measure", "radial"),
            ("page", "5"),
        ];
        let reply = bench.post(ACT, &fields);
        assert_eq!(reply.status, 303, "{back}: {}", reply.body);
        let to = &reply.headers["location"];
        assert!(
            to.starts_with("/job/rescue-sled-1-open/"),
            "{back} leads to {to}"
        );
        let cookie = reply.headers.get("set-cookie");
        assert!(
            !cookie.is_some_and(|cookie| cookie.contains("who")),
            "{back}"
        );
    }
}

/// A form sent twice, by a finger that trembles or by who listened, is on record once.
#[test]
fn law_a_replay_is_no_second_entry() {
    let bench = ready();
    let fields = [("id", "once-1"), ("spot", "A 12"), ("reading", "13-14")];
    let act = "/job/rescue-sled-1-open/act/reading";
    assert_eq!(bench.post(act, &fields).status, 303);
    let before = journal(&bench);
    for _ in 0..3 {
        assert_eq!(bench.post(act, &fields).status, 303);
    }
    assert_eq!(journal(&bench), before);
    // The same id for something else is not taken for it.
    let other = [("id", "once-1"), ("spot", "A 3"), ("reading", "14-15")];
    let reply = bench.post(act, &other);
    assert_eq!(journal(&bench), before, "{} {}", reply.status, reply.body);
}

/// A PNG that says it is as large as its header can say, in a few bytes.
fn bomb(width: u32, height: u32) -> Vec<u8> {
    let mut png = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR".to_vec();
    png.extend(width.to_be_bytes());
    png.extend(height.to_be_bytes());
    png.extend(b"\x08\x06\0\0\0\0\0\0\0\0\0\0\0IDAT\0\0\0\0");
    png
}

#[test]
fn law_no_upload_is_taken_for_what_it_is_not() {
    let bench = ready();
    let (widest, wide) = (bomb(u32::MAX >> 1, u32::MAX >> 1), bomb(30_000, 30_000));
    let script: &[u8] = b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>";
    let both = [b"GIF89a/*", script].concat();
    let cases: [(&str, &[u8]); 9] = [
        ("image bomb", &wide),
        ("image bomb, widest", &widest),
        ("svg as jpeg", script),
        ("page as jpeg", b"<!doctype html><script>alert(1)</script>"),
        ("gif with a script", &both),
        ("program as jpeg", b"\x7fELF\x02\x01\x01"),
        ("archive as jpeg", b"PK\x03\x04photo.jpg"),
        ("jpeg that ends at once", b"\xff\xd8\xff\xe0"),
        ("jpeg of nothing but marks", &[0xff; 4000]),
    ];
    let before = journal(&bench);
    for (name, bytes) in cases {
        let parts = form(&[
            ("id", None, b"up-1"),
            ("back", None, b"/job/rescue-sled-1-open/record"),
            ("subject", None, b"job"),
            ("words", None, b""),
            ("photo", Some("../../a.jpg"), bytes),
        ]);
        let head = "POST /job/rescue-sled-1-open/act/photo HTTP/1.1\r\ncontent-type: multipart/form-data; \
                    boundary=bound";
        let reply = send(&bench, head, &parts);
        assert_eq!(reply.status, 422, "{name}: {}", reply.text());
        tells_nothing(name, &reply.text());
        assert!(!reply.text().contains("<svg xmlns='http"), "{name}");
        assert_eq!(journal(&bench), before, "{name} changed something");
    }
}

/// Readers that never read hold their seats, and nothing else: the bench goes on, and each is owed no more
/// than the last position.
#[test]
fn law_slow_readers_hold_up_nobody() {
    let bench = ready();
    let path = "/job/rescue-sled-1-open/live";
    let mut slow: Vec<_> = (0..256).map(|_| bench.hold(path, "")).collect();
    // Seated, and then nothing is read any more.
    for stream in &mut slow {
        crate::live::until(stream, &mut String::new(), "data: 4");
    }
    assert_eq!(bench.get(path).status, 503);
    for n in 0..50 {
        let id = format!("slow-{n}");
        let fields = [("id", id.as_str()), ("spot", "A 12"), ("reading", "13-14")];
        let reply = bench.post("/job/rescue-sled-1-open/act/reading", &fields);
        assert_eq!(reply.status, 303);
    }
    let mut said = String::new();
    crate::live::until(&mut slow[0], &mut said, "data: 54");
    assert!(said.len() < 64 * 1024, "{} bytes", said.len());
}
