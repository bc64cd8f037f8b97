//! A job whole, given out by one bench and brought in by another.

use crate::bench::Bench;
use crate::photos::{Reply, form, send};

const PHOTO: &[u8] = include_bytes!("../fixtures/upright.jpg");
pub(crate) const JOB: &str = "/job/rescue-sled-1-open";

/// A bench with a job that has a photo.
pub(crate) fn with_photo() -> Bench {
    let bench = Bench::start();
    assert_eq!(bench.ready(), JOB);
    let parts = form(&[
        ("id", None, b"shot-1"),
        ("back", None, b"/job/rescue-sled-1-open/record"),
        ("subject", None, b"job"),
        ("words", None, b"As it came"),
        ("photo", Some("a.jpg"), PHOTO),
    ]);
    let head = format!(
        "POST {JOB}/act/photo HTTP/1.1\r\ncontent-type: multipart/form-data; boundary=bound"
    );
    assert_eq!(send(&bench, &head, &parts).status, 303);
    bench
}

pub(crate) fn given(bench: &Bench) -> Reply {
    send(bench, &format!("GET {JOB}/archive HTTP/1.1"), b"")
}

pub(crate) fn brought(bench: &Bench, archive: &[u8]) -> Reply {
    let parts = form(&[
        ("id", None, b"in-1"),
        ("archive", Some("sled.zip"), archive),
    ]);
    let head = "POST /act/archive HTTP/1.1\r\ncontent-type: multipart/form-data; boundary=bound";
    send(bench, head, &parts)
}

#[test]
fn law_what_one_bench_gives_another_takes() {
    let (here, there) = (with_photo(), Bench::start());
    let archive = given(&here);
    assert_eq!(archive.status, 200, "{}", archive.text());
    for line in [
        "content-type: application/zip",
        "content-disposition: attachment; filename=\"rescue-sled-1-open.zip\"",
        "x-content-type-options: nosniff",
    ] {
        assert!(archive.head.contains(line), "{}", archive.head);
    }
    let length = format!("content-length: {}", archive.bytes.len());
    assert!(archive.head.contains(&length), "{}", archive.head);

    let page = brought(&there, &archive.bytes);
    assert_eq!(page.status, 200, "{}", page.text());
    let told = "“Rescue sled 1” is on this bench now: 5 entries and 1 photo came in.";
    assert!(page.text().contains(told), "{}", page.text());
    assert!(
        page.text()
            .contains("href=\"/job/rescue-sled-1-open/sheet\"")
    );
    for path in ["file", "record"] {
        let at = format!("{JOB}/{path}");
        let (ours, theirs) = (here.get(&at), there.get(&at));
        assert_eq!(ours.status, 200);
        if path == "file" {
            assert_eq!(ours.body, theirs.body);
        }
    }
    let photo = here.get(&format!("{JOB}/record")).body;
    let photo = photo
        .split("/photo/")
        .find(|rest| rest.contains("/thumb"))
        .unwrap();
    let photo = format!("GET /photo/{} HTTP/1.1", &photo[..64]);
    let (ours, theirs) = (send(&here, &photo, b""), send(&there, &photo, b""));
    assert_eq!((ours.status, theirs.status), (200, 200));
    assert!(ours.bytes == theirs.bytes);

    let again = brought(&there, &archive.bytes);
    let told = "Nothing new: this bench has all of the archive’s 5 entries of “Rescue sled 1”.";
    assert!(again.text().contains(told), "{}", again.text());
    // Whoever loads the answer again stands before the list.
    let reload = there.get("/act/archive");
    assert_eq!(
        (reload.status, reload.headers["location"].as_str()),
        (303, "/")
    );
}

#[test]
fn law_copies_apart_are_told_of_both() {
    let (here, there) = (with_photo(), Bench::start());
    brought(&there, &given(&here).bytes);
    let read = |bench: &Bench, id: &str, spot: &str| {
        let fields = [("id", id), ("spot", spot), ("reading", "13-14")];
        assert_eq!(
            bench.post(&format!("{JOB}/act/reading"), &fields).status,
            303
        );
    };
    read(&here, "here-1", "A 12");
    read(&there, "there-1", "A 3");
    read(&there, "there-2", "A 6");
    let page = brought(&here, &given(&there).bytes).text();
    for told in [
        "2 entries came into “Rescue sled 1”; 5 entries of the archive were here already.",
        "While the two copies were apart, 1 entry was written here: leaves tried.",
        "2 entries were written in the other copy: leaves tried (2).",
        "Where both say something about the same thing, the later entry counts",
    ] {
        assert!(page.contains(told), "{page}");
    }
    let back = brought(&there, &given(&here).bytes).text();
    assert!(back.contains("1 entry came into"), "{back}");
    let file = |bench: &Bench| bench.get(&format!("{JOB}/file")).body;
    assert_eq!(file(&here), file(&there));
}

#[test]
fn law_every_damage_is_named_on_the_page() {
    let (here, there) = (with_photo(), Bench::start());
    let archive = given(&here).bytes;
    let mut spoilt = archive.clone();
    let text = archive
        .windows(4)
        .position(|four| four == [0xff, 0xd8, 0xff, 0xdb]);
    let photo = text.or_else(|| {
        archive
            .windows(3)
            .position(|three| three == [0xff, 0xd8, 0xff])
    });
    spoilt[photo.unwrap() + 40] ^= 1;
    let page = brought(&there, &spoilt);
    assert_eq!(page.status, 422, "{}", page.text());
    for told in [
        "This archive was not taken in, and nothing was changed.",
        "cannot be unpacked: its bytes are damaged.",
        "Copy the file once more from where it was made, or make the archive anew there.",
    ] {
        assert!(page.text().contains(told), "{}", page.text());
    }
    assert!(there.get("/").body.contains("No job yet."));
    let none = form(&[("archive", Some(""), b"")]);
    let head = "POST /act/archive HTTP/1.1\r\ncontent-type: multipart/form-data; boundary=bound";
    let page = send(&there, head, &none);
    assert_eq!(page.status, 422);
    assert!(
        page.text().contains("No archive was chosen."),
        "{}",
        page.text()
    );
}

#[test]
fn law_a_job_that_is_not_there_has_no_archive() {
    let bench = Bench::start();
    assert_eq!(bench.get("/job/none/archive").status, 404);
    assert!(bench.get("/").body.contains("Bring an archive in"));
}
