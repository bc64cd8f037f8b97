//! Archives that are none, or more than they say.

use std::collections::BTreeMap;
use std::io::{Cursor, Read as _, Write as _};

use super::{journal, tells_nothing};
use crate::archive;
use crate::bench::Bench;
use crate::photos::send;

/// The archive again, with these files besides or instead.
fn repacked(archive: &[u8], more: &[(&str, &[u8])]) -> Vec<u8> {
    let mut files = BTreeMap::new();
    let mut zip = zip::ZipArchive::new(Cursor::new(archive)).unwrap();
    for place in 0..zip.len() {
        let mut file = zip.by_index(place).unwrap();
        let mut content = Vec::new();
        file.read_to_end(&mut content).unwrap();
        files.insert(file.name().unwrap().into_owned(), content);
    }
    for (name, content) in more {
        files.insert((*name).to_owned(), content.to_vec());
    }
    let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let options = zip::write::SimpleFileOptions::default();
    for (name, content) in files {
        zip.start_file(name, options).unwrap();
        zip.write_all(&content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// A few hundred kilobytes that unpack to a gigabyte.
fn zip_bomb(archive: &[u8]) -> Vec<u8> {
    repacked(archive, &[("entries.jsonl", &vec![b' '; 1 << 28])])
}

#[test]
fn law_no_archive_is_taken_for_what_it_is_not() {
    let bench = archive::with_photo();
    let good = archive::given(&bench).bytes;
    let with = |name: &str, content: &[u8]| repacked(&good, &[(name, content)]);
    let script: &[u8] = b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>";
    let mut locked = good.clone();
    for (at, place) in [(&b"PK\x03\x04"[..], 6), (&b"PK\x01\x02"[..], 8)] {
        let at = good.windows(4).position(|four| four == at).unwrap();
        locked[at + place] |= 1;
    }
    let cases: [(&str, Vec<u8>); 18] = [
        ("a way up", with("../../bench.db", b"x")),
        (
            "a way up in photos",
            with("photos/../../../etc/cron.d/x", b"x"),
        ),
        ("an absolute name", with("/etc/passwd", b"x")),
        ("a drive", with("C:\\Windows\\x.dll", b"x")),
        (
            "a script as a name",
            with("<script>alert(1)</script>.jpg", b"x"),
        ),
        (
            "an escape as a name",
            with("\u{1b}[2J\r\nset-cookie: who=x", b"x"),
        ),
        ("a bomb", zip_bomb(&good)),
        ("a bomb of a text", with("README.txt", &vec![b'a'; 1 << 27])),
        ("a script as the manifest", with("manifest.json", script)),
        (
            "a manifest of brackets",
            with("manifest.json", &b"[".repeat(200_000)),
        ),
        (
            "entries of brackets",
            with("entries.jsonl", &b"[".repeat(200_000)),
        ),
        ("one file more", with("photos/bench.js", b"alert(1)")),
        ("truncated", good[..good.len() - 100].to_vec()),
        ("its end alone", good[good.len() - 22..].to_vec()),
        ("locked", locked),
        (
            "a page",
            b"<!doctype html><script>alert(1)</script>".to_vec(),
        ),
        ("a program", b"\x7fELF\x02\x01\x01".repeat(40)),
        ("a database", b"SQLite format 3\0".repeat(40)),
    ];
    let before = journal(&bench);
    for (name, bytes) in cases {
        let reply = archive::brought(&bench, &bytes);
        assert_eq!(reply.status, 422, "{name}: {}", reply.text());
        tells_nothing(name, &reply.text());
        assert!(!reply.text().contains("<script>alert"), "{name}");
        assert!(!reply.head.contains("set-cookie: who"), "{name}");
        assert_eq!(journal(&bench), before, "{name} changed something");
    }
    let head = "POST /act/archive HTTP/1.1\r\ncontent-type: multipart/form-data; boundary=bound";
    assert_eq!(send(&bench, head, b"no form at all").status, 400);
    assert_eq!(journal(&bench), before);
    assert_eq!(
        archive::brought(&bench, &good).status,
        200,
        "and the good one is taken"
    );
}

/// What people typed elsewhere is text here, whatever it looks like.
#[test]
fn law_a_script_in_an_archive_is_text() {
    let (there, here) = (Bench::start(), Bench::start());
    let fields = [
        ("id", "open-1"),
        ("title", "<script>alert(1)</script> & “x”"),
        ("note", "<img src=x onerror=alert(1)>"),
    ];
    let opened = there.post("/act/open", &fields);
    let job = opened.headers["location"]
        .trim_end_matches("/measure")
        .to_owned();
    let file = send(&there, &format!("GET {job}/archive HTTP/1.1"), b"").bytes;
    let answer = archive::brought(&here, &file).text();
    let list = here.get("/").body;
    for page in [answer, list, here.get(&format!("{job}/sheet")).body] {
        assert!(page.contains("&lt;script&gt;alert(1)"), "{page}");
        assert!(
            !page.contains("<script>alert") && !page.contains("<img src=x"),
            "{page}"
        );
    }
}
