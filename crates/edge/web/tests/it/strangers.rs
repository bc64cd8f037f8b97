//! Devices that are not paired, and those that pretend to be: each attack with its refusal.
//!
//! The bench runs on loopback; its listener says that callers come from elsewhere.

use std::collections::BTreeSet;
use std::sync::Arc;

use web::Lan;

use crate::bench::{Bench, Reply};

const HOST: &str = "192.168.1.20:8157";
const PHONE: &str = "192.168.1.50";

/// A bench with a job, open to the network, and called from a phone.
pub(crate) fn open() -> (Bench, Arc<Lan>) {
    let (bench, lan) = Bench::start_for(Lan::new(vec!["192.168.1.20".parse().unwrap()], 8157));
    bench.ready();
    bench.calls_from(PHONE);
    (bench, lan)
}

pub(crate) fn number(lan: &Lan) -> String {
    let runtime = tokio::runtime::Runtime::new().unwrap();
    runtime.block_on(lan.ask()).unwrap().digits
}

pub(crate) fn get(bench: &Bench, path: &str, cookie: &str) -> Reply {
    bench.ask("GET", path, &[("host", HOST), ("cookie", cookie)], "")
}

pub(crate) fn post(bench: &Bench, path: &str, cookie: &str, body: &str) -> Reply {
    let origin = format!("http://{HOST}");
    let headers = [("host", HOST), ("cookie", cookie), ("origin", &origin)];
    bench.ask("POST", path, &headers, body)
}

pub(crate) fn pairs(bench: &Bench, digits: &str, name: &str) -> Reply {
    let body = format!("number={digits}&name={}", name.replace(' ', "+"));
    post(bench, "/act/pair", "", &body)
}

/// Pairs, and gives the cookie.
pub(crate) fn paired(bench: &Bench, lan: &Lan, name: &str) -> String {
    let reply = pairs(bench, &number(lan), name);
    assert_eq!(reply.status, 303, "{}", reply.body);
    let cookie = reply.headers["set-cookie"].split(';').next();
    cookie.unwrap().to_owned()
}

/// What the machine itself is shown.
pub(crate) fn here(bench: &Bench, method: &str, path: &str, body: &str) -> Reply {
    bench.calls_from("127.0.0.1");
    let reply = bench.ask(method, path, &[], body);
    bench.calls_from(PHONE);
    reply
}

/// A page without the ids of its forms, which differ every time.
fn steady(page: &str) -> String {
    let mut pieces = page.split("name=\"id\" value=\"");
    let first = pieces.next().unwrap_or_default().to_owned();
    pieces.fold(first, |steady, piece| {
        steady + piece.split_once('"').map_or(piece, |(_, rest)| rest)
    })
}

/// The router's table, read where it is written, with names that are there for the parts that vary.
fn table() -> BTreeSet<String> {
    let source = include_str!("../../src/lib.rs");
    let routes = source.split(".route(").skip(1);
    let mut table: BTreeSet<String> = routes
        .filter_map(|route| {
            let (before, rest) = route.split_once('"')?;
            before
                .trim()
                .is_empty()
                .then(|| rest.split_once('"'))??
                .0
                .into()
        })
        .map(|path: &str| {
            path.replace("{job}", "rescue-sled-1-open")
                .replace("{form}", "limits")
                .replace("{photo}", &"a".repeat(64))
                .replace("{file}", "bench.css")
        })
        .collect();
    table.insert("/job/rescue-sled-1-open/act/reading".to_owned());
    table.insert("/assets/bench.js".to_owned());
    table.insert("/nowhere".to_owned());
    table
}

const OPEN: [(&str, &str); 3] = [
    ("GET", "/assets/bench.css"),
    ("GET", "/assets/bench.js"),
    ("POST", "/act/pair"),
];

#[test]
fn law_a_stranger_is_shown_the_pairing_page_whatever_is_asked_for() {
    let (bench, _lan) = open();
    let page = steady(&get(&bench, "/pair", "").body);
    assert!(page.contains("This device is not paired yet."));
    assert!(!page.contains("Rescue sled"), "{page}");
    let table = table();
    assert!(table.len() > 30, "{table:?}");
    for path in &table {
        for method in ["GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS"] {
            if OPEN.contains(&(method, path)) {
                continue;
            }
            let reply = bench.ask(method, path, &[("host", HOST)], "id=x-1&least=12");
            assert_eq!(reply.status, 403, "{method} {path}: {}", reply.body);
            assert!(!reply.headers.contains_key("set-cookie"), "{method} {path}");
            if method != "HEAD" {
                assert_eq!(steady(&reply.body), page, "{method} {path}");
            }
        }
    }
    for (_, path) in &OPEN[..2] {
        assert_eq!(get(&bench, path, "").status, 200);
    }
    // What its script imports, it gets.
    let script = get(&bench, "/assets/bench.js", "").body;
    let imports: Vec<&str> = script.split("from \"").skip(1).collect();
    assert_eq!(imports.len(), 4);
    for import in imports {
        let path = import.split('"').next().unwrap();
        assert_eq!(get(&bench, path, "").status, 200, "{path}");
    }
    // By another spelling an asset is none of those that are open.
    for path in ["/assets/%62ench.css", "/assets//bench.css", "//", "/pair/"] {
        assert_eq!(get(&bench, path, "").status, 403, "{path}");
    }
}

#[test]
fn law_a_paired_device_works_under_its_own_name() {
    let (bench, lan) = open();
    let cookie = paired(&bench, &lan, "tablet at the press");
    assert!(get(&bench, "/", &cookie).body.contains("Rescue sled 1"));
    // A cookie cannot rename it: the store knows it.
    let lies = format!("{cookie}; device=the+boss");
    let act = "/job/rescue-sled-1-open/act/limits";
    let sent = post(
        &bench,
        act,
        &lies,
        "id=r-1&least=11&greatest=15&measure=radial&page=5-15",
    );
    assert_eq!(sent.status, 303, "{}", sent.body);
    assert!(!sent.headers.contains_key("set-cookie"));
    let record = get(&bench, "/job/rescue-sled-1-open/record", &cookie).body;
    assert!(
        record.contains("tablet at the press") && !record.contains("the boss"),
        "{record}"
    );
    // Paired already, it needs no pairing page.
    assert_eq!(get(&bench, "/pair", &cookie).status, 303);
}

#[test]
fn law_a_session_is_made_at_pairing_and_cannot_be_forged() {
    let (bench, lan) = open();
    // A token given to the device beforehand is not taken over.
    let fixed = "a".repeat(64);
    let body = format!("number={}&name=phone", number(&lan));
    let reply = post(&bench, "/act/pair", &format!("session={fixed}"), &body);
    assert_eq!(reply.status, 303);
    let set = &reply.headers["set-cookie"];
    assert!(
        set.ends_with("; Path=/; Max-Age=34560000; HttpOnly; SameSite=Lax"),
        "{set}"
    );
    let token = set
        .strip_prefix("session=")
        .unwrap()
        .split(';')
        .next()
        .unwrap();
    assert_eq!(token.len(), 64);
    assert_ne!(token, fixed);
    assert_eq!(get(&bench, "/", &format!("session={token}")).status, 200);
    let mut last = token.to_owned();
    let changed = if last.pop() == Some('0') { '1' } else { '0' };
    let forged = [
        fixed.clone(),
        String::new(),
        "0".repeat(64),
        format!("{last}{changed}"),
        token[..63].to_owned(),
        format!("{token}0"),
        format!("{token}%00"),
        token
            .to_uppercase()
            .replace(|c: char| c.is_ascii_digit(), "G"),
        "' OR '1'='1".to_owned(),
        "%27%20OR%201%3D1--".to_owned(),
        "\u{fffd}".repeat(30),
        "x".repeat(7000),
    ];
    for token in forged {
        let reply = get(&bench, "/", &format!("session={token}"));
        assert_eq!(reply.status, 403, "{token}");
        assert!(!reply.body.contains("Rescue sled"), "{token}");
    }
}

#[test]
fn law_a_removed_device_is_told_and_what_it_typed_is_shown() {
    let (bench, lan) = open();
    let cookie = paired(&bench, &lan, "lost phone");
    let before = here(&bench, "GET", "/job/rescue-sled-1-open/file", "").body;
    let page = here(&bench, "GET", "/devices", "").body;
    let (_, id) = page.split_once("name=\"device\" value=\"").unwrap();
    let (id, _) = id.split_once('"').unwrap();
    assert_eq!(
        here(
            &bench,
            "POST",
            "/act/remove-device",
            &format!("device={id}")
        )
        .status,
        303
    );
    let act = "/job/rescue-sled-1-open/act/reading";
    let reply = post(
        &bench,
        act,
        &cookie,
        "id=r-9&spot=A+12&reading=13-14+%3Cb%3E",
    );
    assert_eq!(reply.status, 403);
    assert!(
        reply
            .body
            .contains("This device was removed from the bench.")
    );
    assert!(
        reply.body.contains("13-14") && reply.body.contains("&lt;b&gt;"),
        "{}",
        reply.body
    );
    assert!(!reply.body.contains("Rescue sled"));
    assert_eq!(get(&bench, "/", &cookie).status, 403);
    let after = here(&bench, "GET", "/job/rescue-sled-1-open/file", "").body;
    assert_eq!(after, before);
    // Removed once is removed; its name is free for the next.
    let again = here(
        &bench,
        "POST",
        "/act/remove-device",
        &format!("device={id}"),
    );
    assert_eq!(again.status, 422);
    assert_eq!(
        get(&bench, "/", &paired(&bench, &lan, "lost phone")).status,
        200
    );
}

#[test]
fn law_a_device_looks_after_itself_only() {
    let (bench, lan) = open();
    let (one, two) = (paired(&bench, &lan, "one"), paired(&bench, &lan, "two"));
    let page = get(&bench, "/devices", &one).body;
    let ids: Vec<&str> = page.split("name=\"device\" value=\"").skip(1).collect();
    let ids: BTreeSet<&str> = ids
        .iter()
        .map(|rest| rest.split('"').next().unwrap())
        .collect();
    assert_eq!(ids.len(), 1, "forms for itself alone");
    let own = ids.first().unwrap();
    assert!(
        !page.contains("Pairing number") && !page.contains("pairing-number"),
        "{page}"
    );
    // What the other may not do to it, nor ask for.
    for (path, body) in [
        ("/act/remove-device", format!("device={own}")),
        ("/act/rename-device", format!("device={own}&name=mine")),
        ("/act/pairing-number", String::new()),
    ] {
        let reply = post(&bench, path, &two, &body);
        assert_eq!(reply.status, 403, "{path}");
        assert!(
            reply.body.contains("looked after at the bench itself"),
            "{path}"
        );
    }
    assert!(
        pairs(&bench, "123456", "x")
            .body
            .contains("No pairing number is open now")
    );
    let rename = format!("device={own}&name=");
    assert!(
        post(&bench, "/act/rename-device", &one, &format!("{rename}two"))
            .body
            .contains("Another device here is named “two”.")
    );
    assert_eq!(
        post(
            &bench,
            "/act/rename-device",
            &one,
            &format!("{rename}first")
        )
        .status,
        303
    );
    assert!(get(&bench, "/devices", &two).body.contains("first"));
    assert_eq!(
        post(&bench, "/act/remove-device", &one, &format!("device={own}")).status,
        303
    );
    assert_eq!(get(&bench, "/", &one).status, 403);
    assert_eq!(get(&bench, "/", &two).status, 200);
}

#[test]
fn law_a_foreign_page_cannot_use_a_session_or_pair() {
    let (bench, lan) = open();
    let cookie = paired(&bench, &lan, "phone");
    let digits = number(&lan);
    let pair = format!("number={digits}&name=evil");
    let act = "/job/rescue-sled-1-open/act/limits";
    let before = here(&bench, "GET", "/job/rescue-sled-1-open/file", "").body;
    for (path, body) in [
        (act, "id=x-1&least=1&greatest=2&measure=radial&page=1"),
        ("/act/pair", &pair),
        ("/act/pairing-number", ""),
        ("/act/remove-device", "device=x"),
    ] {
        for (header, value) in [
            ("sec-fetch-site", "cross-site"),
            ("origin", "http://evil.test"),
            ("origin", "null"),
            ("origin", "http://192.168.1.20:9999"),
        ] {
            let headers = [("host", HOST), ("cookie", &cookie), (header, value)];
            let reply = bench.ask("POST", path, &headers, body);
            assert_eq!(reply.status, 403, "{path} {header}: {value}");
            assert!(!reply.headers.contains_key("set-cookie"));
        }
    }
    assert_eq!(
        here(&bench, "GET", "/job/rescue-sled-1-open/file", "").body,
        before
    );
    // The number was not tried by any of them.
    assert_eq!(pairs(&bench, &digits, "tablet").status, 303);
}

/// The connection decides who calls, and no header.
#[test]
fn law_where_a_call_comes_from_is_not_what_it_says() {
    let (bench, _lan) = open();
    for (header, value) in [
        ("x-forwarded-for", "127.0.0.1"),
        ("forwarded", "for=127.0.0.1;host=localhost"),
        ("x-real-ip", "127.0.0.1"),
        ("x-forwarded-host", "localhost"),
        ("via", "1.1 localhost"),
    ] {
        let reply = bench.ask("GET", "/", &[("host", HOST), (header, value)], "");
        assert_eq!(reply.status, 403, "{header}");
    }
    for host in [
        "localhost",
        "127.0.0.1:8157",
        "[::1]",
        "evil.test",
        "192.168.1.21",
    ] {
        let reply = bench.ask("GET", "/", &[("host", host)], "");
        assert_eq!(reply.status, 421, "{host}");
        assert_eq!(
            reply.body,
            "This bench answers to 192.168.1.20 and, on its own machine, to localhost and 127.0.0.1. \
             Open an address it printed.\n"
        );
    }
    for caller in ["::1", "::ffff:127.0.0.1", "127.9.9.9"] {
        bench.calls_from(caller);
        assert_eq!(bench.get("/").status, 200, "{caller}");
    }
    for caller in ["::ffff:192.168.1.50", "fe80::1", "192.168.1.20", "0.0.0.0"] {
        bench.calls_from(caller);
        assert_eq!(get(&bench, "/", "").status, 403, "{caller}");
    }
}

/// What comes through a proxy or a tunnel of this machine is not the bench itself, where it can be seen.
#[test]
fn law_what_is_passed_on_here_is_a_stranger() {
    let (bench, _lan) = open();
    bench.calls_from("127.0.0.1");
    assert_eq!(bench.get("/").status, 200);
    assert_eq!(
        get(&bench, "/", "").status,
        403,
        "asked for by the name of the network"
    );
    for header in ["x-forwarded-for", "forwarded", "x-real-ip", "via"] {
        let reply = bench.ask(
            "GET",
            "/devices",
            &[("host", "127.0.0.1"), (header, "x")],
            "",
        );
        assert_eq!(reply.status, 421, "{header}");
    }
}
