//! What one device does shows on another: positions as they grow, and what others did since.

use std::io::Read;
use std::net::TcpStream;
use std::thread;
use std::time::{Duration, Instant};

use crate::bench::Bench;

const JOB: &str = "/job/rescue-sled-1-open";

/// Reads on until the words have come; panics when the stream ends or is silent for long.
pub(crate) fn until(stream: &mut TcpStream, said: &mut String, words: &str) {
    let mut piece = [0; 4096];
    while !said.contains(words) {
        let count = stream.read(&mut piece).unwrap();
        assert!(count > 0, "the stream ended before “{words}”: {said}");
        said.push_str(&String::from_utf8_lossy(&piece[..count]));
    }
}

fn ready() -> Bench {
    let bench = Bench::start();
    assert_eq!(bench.ready(), JOB);
    bench
}

fn reading(bench: &Bench, id: &str, spot: &str, device: &str) {
    let cookie = format!("device={device}");
    let body = format!("id={id}&spot={spot}&reading=13-14");
    let act = format!("{JOB}/act/reading");
    let reply = bench.ask("POST", &act, &[("cookie", &cookie)], &body);
    assert_eq!(reply.status, 303, "{}", reply.body);
}

#[test]
fn law_a_page_hears_at_once_what_this_bench_took() {
    let bench = ready();
    let mut stream = bench.hold(&format!("{JOB}/live"), "");
    let mut said = String::new();
    until(&mut stream, &mut said, "id: 4\ndata: 4\n\n");
    assert!(said.starts_with("HTTP/1.1 200"), "{said}");
    assert!(
        said.to_lowercase()
            .contains("content-type: text/event-stream"),
        "{said}"
    );
    let begun = Instant::now();
    reading(&bench, "live-1", "A 12", "tablet");
    until(&mut stream, &mut said, "id: 5\ndata: 5\n\n");
    assert!(
        begun.elapsed() < Duration::from_millis(1200),
        "not by the slow asking"
    );
    assert!(!said.contains("13-14"), "nothing of the content: {said}");
}

#[test]
fn law_a_page_hears_what_another_program_wrote() {
    let bench = ready();
    let mut stream = bench.hold(&format!("{JOB}/live"), "");
    let mut said = String::new();
    until(&mut stream, &mut said, "data: 4");
    let begun = Instant::now();
    bench.beside("rescue-sled-1-open", "beside-1", "A 12");
    until(&mut stream, &mut said, "data: 5");
    assert!(
        begun.elapsed() < Duration::from_secs(4),
        "{:?}",
        begun.elapsed()
    );
}

#[test]
fn law_a_page_that_comes_again_is_told_only_what_is_new() {
    let bench = ready();
    let path = format!("{JOB}/live");
    let mut stream = bench.hold(&path, "last-event-id: 4\r\n");
    let mut said = String::new();
    until(&mut stream, &mut said, "\r\n\r\n");
    reading(&bench, "again-1", "A 12", "tablet");
    until(&mut stream, &mut said, "data: 5");
    assert!(!said.contains("data: 4"), "{said}");
    // One that was away meanwhile, and one that says what cannot be.
    for last in ["4", "99", "x", "-1", ""] {
        let mut stream = bench.hold(&path, &format!("last-event-id: {last}\r\n"));
        until(&mut stream, &mut String::new(), "data: 5");
    }
}

#[test]
fn law_a_bench_with_listeners_closes() {
    let mut bench = ready();
    let mut streams: Vec<TcpStream> = (0..5)
        .map(|_| bench.hold(&format!("{JOB}/live"), ""))
        .collect();
    for stream in &mut streams {
        until(stream, &mut String::new(), "data: 4");
    }
    assert!(
        bench.closes(Duration::from_secs(5)),
        "it hangs on its listeners"
    );
    for stream in &mut streams {
        let mut rest = Vec::new();
        stream.read_to_end(&mut rest).unwrap();
    }
}

#[test]
fn law_listeners_have_a_limit_and_seats_come_free() {
    let bench = ready();
    let path = format!("{JOB}/live");
    let mut streams = Vec::new();
    for _ in 0..256 {
        let mut stream = bench.hold(&path, "");
        until(&mut stream, &mut String::new(), "data: 4");
        streams.push(stream);
    }
    let refused = bench.get(&path);
    assert_eq!(refused.status, 503);
    assert!(
        refused
            .body
            .starts_with("256 pages listen to this bench already."),
        "{}",
        refused.body
    );
    // The bench itself goes on.
    reading(&bench, "many-1", "A 12", "tablet");
    for stream in &mut streams {
        until(stream, &mut String::new(), "data: 5");
    }
    drop(streams);
    // Whoever is gone is noticed when there is something to tell.
    let begun = Instant::now();
    for n in 0.. {
        reading(&bench, &format!("free-{n}"), "A 3", "tablet");
        let mut stream = bench.hold(&path, "");
        let mut said = String::new();
        until(&mut stream, &mut said, "\r\n\r\n");
        if said.starts_with("HTTP/1.1 200") {
            break;
        }
        assert!(begun.elapsed() < Duration::from_secs(20), "{said}");
        thread::sleep(Duration::from_millis(100));
    }
}

#[test]
fn law_what_others_did_is_told_in_the_words_of_the_journal() {
    let bench = ready();
    reading(&bench, "since-1", "A 12", "tablet");
    reading(&bench, "since-2", "A 3", "phone");
    let ask = |device: &str, position: u32| {
        let cookie = format!("device={device}");
        let path = format!("{JOB}/since/{position}");
        bench.ask("GET", &path, &[("cookie", &cookie)], "")
    };
    let told = ask("phone", 4).body;
    assert!(
        told.contains("data-position=\"6\" data-count=\"1\""),
        "{told}"
    );
    assert!(told.contains("1 new act by other devices."), "{told}");
    assert!(
        told.contains("<li>Tablet: reading at A 12, just now</li>"),
        "{told}"
    );
    assert!(
        ask("tablet", 4)
            .body
            .contains("<li>Phone: reading at A 3, just now</li>")
    );
    let both = ask("laptop", 4).body;
    assert!(both.find("A 12") < both.find("A 3"), "newest last: {both}");
    for (position, count) in [(5, 1), (6, 0), (99, 0)] {
        let told = ask("laptop", position).body;
        assert!(
            told.contains(&format!("data-count=\"{count}\"")),
            "{position}: {told}"
        );
    }
}

/// The page says what it shows, its forms say it too, and the entry keeps it.
#[test]
fn law_an_act_keeps_what_its_author_saw() {
    let bench = ready();
    let page = bench.get(&format!("{JOB}/measure")).body;
    assert!(page.contains("data-position=\"4\""), "{page}");
    assert!(page.contains("data-listen=\"/job/rescue-sled-1-open/live\""));
    let forms = page.matches("<form method=\"post\" action=\"/job/").count();
    let seen = page.matches("name=\"act_seen\" value=\"4\"").count();
    assert!(seen > 0 && seen >= forms, "{forms} forms, {seen} positions");
}

/// Undo means what the page showed as the last act, not what another device put between.
#[test]
fn law_an_undo_of_an_older_page_spares_what_others_did() {
    let bench = ready();
    reading(&bench, "own-1", "A 12", "tablet");
    reading(&bench, "other-1", "A 3", "phone");
    let undo = |id: &str, device: &str, seen: &str| {
        let cookie = format!("device={device}");
        let body = format!("id={id}&act_seen={seen}&back={JOB}/record");
        bench.ask(
            "POST",
            &format!("{JOB}/act/undo"),
            &[("cookie", &cookie)],
            &body,
        )
    };
    for _ in 0..2 {
        let reply = undo("undo-1", "tablet", "5");
        assert_eq!(reply.status, 303, "{}", reply.body);
    }
    let record = bench.get(&format!("{JOB}/record")).body;
    assert!(
        record.contains("undone: entry 5, reading at A 12"),
        "{record}"
    );
    // The phone saw the same and undoes it too: that was done.
    let reply = undo("undo-2", "laptop", "5");
    assert_eq!(reply.status, 422);
    assert!(
        reply.body.contains("Another device did this already."),
        "{}",
        reply.body
    );
    let file = bench.get(&format!("{JOB}/file")).body;
    assert!(file.contains("A 3"), "{file}");
}

/// The answer to a form was lost on its way; the form comes again when the job has changed.
#[test]
fn law_a_form_that_comes_again_is_the_same_act() {
    let bench = ready();
    let send = |id: &str, name: &str| {
        let fields = [
            ("id", id),
            ("back", "/job/rescue-sled-1-open/torque"),
            ("act_seen", "4"),
            ("joint", ""),
            ("name", name),
            ("thread", "M8"),
            ("head", "hex"),
            ("count", "6"),
            ("class", "stainless-70"),
            ("hole", "aluminium"),
            ("face", "sealant"),
            ("condition", "threadlocker"),
        ];
        bench.post(&format!("{JOB}/act/joint"), &fields)
    };
    let first = send("joint-1", "Pump to hull");
    assert_eq!(first.status, 303, "{}", first.body);
    assert_eq!(
        send("joint-2", "Pump to hull").status,
        303,
        "another of the same name"
    );
    let before = bench.get(&format!("{JOB}/file")).body;
    // The name is taken now; what came first is answered as before.
    let again = send("joint-1", "Pump to hull");
    assert_eq!(again.status, 303, "{}", again.body);
    assert_eq!(bench.get(&format!("{JOB}/file")).body, before);
}

/// Neither is lost, and every page says so until somebody who saw both says it anew.
#[test]
fn law_what_crossed_is_told_on_every_page_until_it_is_settled() {
    let bench = ready();
    let say = |id: &str, device: &str, seen: &str, reading: &str| {
        let cookie = format!("device={device}");
        let body = format!("id={id}&act_seen={seen}&spot=A+12&reading={reading}");
        let act = format!("{JOB}/act/reading");
        let reply = bench.ask("POST", &act, &[("cookie", &cookie)], &body);
        assert_eq!(reply.status, 303, "{}", reply.body);
    };
    say("cross-1", "tablet", "4", "13-14");
    say("cross-2", "phone", "4", "14-15");
    let pages = [
        "measure", "teardown", "torque", "assemble", "record", "sheet", "service",
    ];
    for page in pages {
        let body = bench.get(&format!("{JOB}/{page}")).body;
        let told =
            "Said without seeing each other. Tablet: reading at A 12, 13 goes; 14 won’t go, at ";
        assert!(body.contains(told), "{page}: {body}");
        assert!(body.contains("The later one counts."), "{page}");
        assert!(
            body.contains("href=\"/job/rescue-sled-1-open/measure?at=A0\""),
            "{page}"
        );
    }
    say("cross-3", "tablet", "6", "14-15");
    let body = bench.get(&format!("{JOB}/measure")).body;
    assert!(!body.contains("without seeing"), "{body}");
}
