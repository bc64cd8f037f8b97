//! What the bench refuses, each with one clear answer and nothing changed.

use crate::bench::Bench;

#[test]
fn a_foreign_host_is_refused() {
    let bench = Bench::start();
    for host in [
        "bench.example",
        "127.0.0.1.example:8157",
        "",
        "evil.test:80",
    ] {
        let reply = bench.ask("GET", "/", &[("host", host)], "");
        assert!(
            [400, 421].contains(&reply.status),
            "{host}: {}",
            reply.status
        );
    }
    let reply = bench.ask("GET", "/", &[("host", "bench.example")], "");
    assert_eq!(reply.status, 421);
    assert_eq!(
        reply.body,
        "This bench answers to localhost and 127.0.0.1 only. Open the address it printed.\n"
    );
    let port = bench.address.port();
    assert_eq!(
        bench
            .ask("GET", "/", &[("host", &format!("localhost:{port}"))], "")
            .status,
        200
    );
}

#[test]
fn a_foreign_page_may_not_post() {
    let bench = Bench::start();
    let body = "id=open-1&title=Stolen&note=";
    for headers in [
        [
            ("sec-fetch-site", "cross-site"),
            ("origin", "http://evil.test"),
        ],
        [
            ("sec-fetch-site", "same-site"),
            ("origin", "http://127.0.0.1:1"),
        ],
        [("x-none", ""), ("origin", "null")],
    ] {
        let reply = bench.ask("POST", "/act/open", &headers, body);
        assert_eq!(reply.status, 403, "{headers:?}");
    }
    assert!(bench.get("/").body.contains("No job yet."));
    let own = bench.ask(
        "POST",
        "/act/open",
        &[("sec-fetch-site", "same-origin")],
        body,
    );
    assert_eq!(own.status, 303);
}

#[test]
fn every_answer_says_what_the_page_may_do() {
    let bench = Bench::start();
    let job = bench.ready();
    for path in [
        "/",
        &format!("{job}/measure"),
        &format!("{job}/record"),
        "/assets/bench.js",
        "/no",
    ] {
        let reply = bench.get(path);
        let policy = &reply.headers["content-security-policy"];
        assert!(policy.starts_with("default-src 'none'; style-src 'self'; script-src 'self';"));
        assert!(!policy.contains("unsafe"));
        assert_eq!(reply.headers["x-content-type-options"], "nosniff");
    }
}

#[test]
fn script_in_every_text_field_is_shown_as_text() {
    let bench = Bench::start();
    let job = bench.ready();
    let script = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";
    let opened = bench.post(
        "/act/open",
        &[("id", "open-9"), ("title", script), ("note", script)],
    );
    assert_eq!(opened.status, 303);
    let who = bench.post("/who", &[("who", script)]);
    let cookie = who.headers["set-cookie"]
        .split(';')
        .next()
        .unwrap()
        .to_owned();
    let mut pages = vec![
        bench.ask("GET", "/", &[("cookie", &cookie)], "").body,
        bench
            .ask(
                "GET",
                &opened.headers["location"],
                &[("cookie", &cookie)],
                "",
            )
            .body,
        bench
            .get(&format!("/job/{}", script.replace(' ', "%20")))
            .body,
    ];
    for (form, key) in [
        ("pump", "blades"),
        ("pump", "bore"),
        ("pump", "view"),
        ("leaves", "thicknesses"),
        ("leaves", "unit"),
        ("leaves", "width"),
        ("limits", "least"),
        ("limits", "page"),
        ("walk", "go"),
        ("reading", "reading"),
        ("reading", "spot"),
        ("try", "leaf"),
        ("try", "answer"),
        ("accept", "evidence"),
        ("try", "id"),
    ] {
        let id = format!("x-{form}-{key}");
        let fields = [("id", id.as_str()), (key, script)];
        let reply = bench.post(&format!("{job}/act/{form}"), &fields);
        assert!(
            [303, 422].contains(&reply.status),
            "{form} {key}: {}",
            reply.status
        );
        pages.push(reply.body);
    }
    pages.push(bench.get(&format!("{job}/record")).body);
    for page in pages {
        assert!(!page.contains("<script>") && !page.contains("<img"));
    }
}

#[test]
fn bad_input_is_refused_at_its_field_with_the_way_out() {
    let bench = Bench::start();
    let job = bench.ready();
    let before = bench
        .get(&format!("{job}/measure"))
        .body
        .matches("data-position=\"4\"")
        .count();
    assert_eq!(before, 1);
    for (form, key, text, says) in [
        ("pump", "bore", "25 N·m", "torque"),
        ("pump", "bore", "1,234.5", "1,234.5"),
        ("pump", "bore", "NaN", "NaN"),
        ("pump", "bore", "155 thou", "outside 1969"),
        ("limits", "least", "-13 thou", "outside 1.97"),
        ("limits", "least", "0.3 furlong", "furlong"),
        ("reading", "reading", "13 mm", "outside 0.01 to 3"),
        ("reading", "reading", "", "empty"),
        ("reading", "reading", "tight", "not understood"),
        ("reading", "spot", "Z 99", "Z 99"),
    ] {
        let id = format!("bad-{form}-{key}");
        let mut fields: Vec<(&str, &str)> = match form {
            "pump" => crate::bench::PUMP.to_vec(),
            "limits" => crate::bench::LIMITS.to_vec(),
            _ => vec![("spot", "A 12"), ("reading", "13-14")],
        };
        fields.retain(|(name, _)| *name != key);
        fields.extend([("id", id.as_str()), (key, text)]);
        let reply = bench.post(&format!("{job}/act/{form}"), &fields);
        assert_eq!(reply.status, 422, "{form} {key} {text}: {}", reply.body);
        let refusal = reply
            .body
            .split("role=\"alert\"")
            .nth(1)
            .unwrap_or_default();
        let refusal = refusal.split("</p>").next().unwrap_or_default();
        assert!(refusal.contains(says), "{form} {key} {text}: {refusal}");
        let escaped = text.replace('&', "&amp;");
        assert!(
            key == "spot"
                || text.is_empty()
                || reply.body.contains(&format!("value=\"{escaped}\"")),
            "{text} is lost"
        );
    }
    assert!(
        bench
            .get(&format!("{job}/measure"))
            .body
            .contains("data-position=\"4\"")
    );
}

#[test]
fn more_than_a_form_holds_is_refused() {
    let bench = Bench::start();
    let job = bench.ready();
    let long = "x".repeat(100_000);
    let reply = bench.post(
        &format!("{job}/act/limits"),
        &[("id", "long-1"), ("page", &long)],
    );
    assert_eq!(reply.status, 413);
    assert!(reply.body.contains("65536 bytes"), "{}", reply.body);
    let page = "p".repeat(300);
    let fields = [
        ("id", "long-2"),
        ("least", "12"),
        ("measure", "radial"),
        ("page", page.as_str()),
    ];
    let reply = bench.post(&format!("{job}/act/limits"), &fields);
    assert_eq!(reply.status, 422);
    assert!(reply.body.contains("300 characters"));
}

#[test]
fn what_is_not_there_says_so_and_leads_on() {
    let bench = Bench::start();
    for path in [
        "/nowhere",
        "/job/none-such/measure",
        "/job/..%2f..%2fetc/measure",
        "/job/A/record",
    ] {
        let reply = bench.get(path);
        assert_eq!(reply.status, 404, "{path}");
        assert!(reply.body.contains("href=\"/\""), "{path}: {}", reply.body);
    }
    assert_eq!(bench.get("/assets/..%2fCargo.toml").status, 404);
    assert_eq!(
        bench
            .ask("POST", "/act/open", &[("content-type", "text/plain")], "x")
            .status,
        400
    );
}
