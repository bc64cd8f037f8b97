//! Photos over HTTP: taken, shown, said of, put away, and refused.

use std::fmt::Write as _;
use std::io::{Read, Write as _};
use std::net::TcpStream;

use crate::bench::Bench;

const PHOTO: &[u8] = include_bytes!("../fixtures/upright.jpg");
const RECORD: &str = "/job/spring-aaaa/record";

/// Status, head and bytes of an answer.
pub(crate) struct Reply {
    pub(crate) status: u16,
    pub(crate) head: String,
    pub(crate) bytes: Vec<u8>,
}

impl Reply {
    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }
}

pub(crate) fn send(bench: &Bench, head: &str, body: &[u8]) -> Reply {
    let mut stream = TcpStream::connect(bench.address).unwrap();
    let mut request = format!("{head}\r\nhost: {}\r\nconnection: close\r\n", bench.address);
    let _ = write!(request, "content-length: {}\r\n\r\n", body.len());
    stream.write_all(request.as_bytes()).unwrap();
    // A bench that refuses what comes may close before all of it is sent.
    let _ = stream.write_all(body);
    let mut reply = Vec::new();
    let _ = stream.read_to_end(&mut reply);
    let end = reply
        .windows(4)
        .position(|four| four == b"\r\n\r\n")
        .unwrap();
    let head = String::from_utf8(reply[..end].to_vec()).unwrap();
    let mut bytes = reply[end + 4..].to_vec();
    if head.to_lowercase().contains("transfer-encoding: chunked") {
        bytes = unchunked(&bytes);
    }
    Reply {
        status: head.split(' ').nth(1).unwrap().parse().unwrap(),
        head: head.to_lowercase(),
        bytes,
    }
}

fn unchunked(mut rest: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    while let Some(end) = rest.windows(2).position(|two| two == b"\r\n") {
        let size = std::str::from_utf8(&rest[..end]).unwrap();
        let size = usize::from_str_radix(size, 16).unwrap();
        if size == 0 {
            break;
        }
        bytes.extend(&rest[end + 2..end + 2 + size]);
        rest = &rest[end + 2 + size + 2..];
    }
    bytes
}

fn get(bench: &Bench, path: &str) -> Reply {
    send(bench, &format!("GET {path} HTTP/1.1"), b"")
}

pub(crate) type Part<'a> = (&'a str, Option<&'a str>, &'a [u8]);

/// A form as a browser sends it: each part a name, a file's name where it is one, and the bytes.
pub(crate) fn form(parts: &[Part]) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, file, bytes) in parts {
        let file = file.map_or_else(String::new, |file| {
            format!("; filename=\"{file}\"\r\ncontent-type: image/jpeg")
        });
        body.extend(
            format!("--bound\r\ncontent-disposition: form-data; name=\"{name}\"{file}\r\n\r\n")
                .as_bytes(),
        );
        body.extend(*bytes);
        body.extend(b"\r\n");
    }
    body.extend(b"--bound--\r\n");
    body
}

fn take(bench: &Bench, id: &str, subject: &str, files: &[(&str, &[u8])]) -> Reply {
    let mut parts: Vec<Part> = vec![
        ("id", None, id.as_bytes()),
        ("back", None, RECORD.as_bytes()),
        ("subject", None, subject.as_bytes()),
        ("words", None, "As it came <b>out</b>".as_bytes()),
    ];
    parts.extend(
        files
            .iter()
            .map(|(file, bytes)| ("photo", Some(*file), *bytes)),
    );
    post(bench, "", &form(&parts))
}

fn post(bench: &Bench, more: &str, body: &[u8]) -> Reply {
    let kind = "content-type: multipart/form-data; boundary=bound";
    let head = format!("POST /job/spring-aaaa/act/photo HTTP/1.1\r\n{kind}{more}");
    send(bench, &head, body)
}

/// A bench with a job.
fn bench() -> Bench {
    let bench = Bench::start();
    let reply = bench.ask("POST", "/act/open", &[], "id=aaaa-1&title=Spring&note=");
    assert_eq!(reply.status, 303);
    bench
}

/// The names of the pictures on a page.
fn shown(page: &str) -> Vec<String> {
    let links = page.split("href=\"/job/spring-aaaa/photo/").skip(1);
    links.map(|rest| rest[..64].to_owned()).collect()
}

#[test]
fn practice_a_photo_is_taken_shown_said_of_and_put_away() {
    let bench = bench();
    let reply = take(&bench, "p1", "job", &[("IMG_1.HEIC", PHOTO), ("", b"")]);
    assert_eq!(reply.status, 303, "{}", reply.text());
    assert!(reply.head.contains(&format!("location: {RECORD}")));
    let page = get(&bench, RECORD).text();
    let photos = shown(&page);
    assert_eq!(photos.len(), 1);
    let photo = &photos[0];
    assert!(page.contains("As it came &lt;b&gt;out&lt;/b&gt;"));
    assert!(page.contains(&format!("src=\"/photo/{photo}/thumb\"")));
    assert!(page.contains("loading=\"lazy\"") && page.contains("width=\"240\" height=\"320\""));
    for path in [format!("/photo/{photo}"), format!("/photo/{photo}/thumb")] {
        let picture = get(&bench, &path);
        assert_eq!(picture.status, 200);
        assert!(picture.head.contains("content-type: image/jpeg"));
        assert!(picture.head.contains("immutable"));
        assert!(picture.head.contains("x-content-type-options: nosniff"));
        assert!(picture.bytes.starts_with(&[0xff, 0xd8]));
        let holds = |word: &[u8]| picture.bytes.windows(word.len()).any(|part| part == word);
        assert!(!holds(b"Exif") && !holds(b"MM\0*"));
    }
    let large = format!("/job/spring-aaaa/photo/{photo}");
    let page = get(&bench, &large).text();
    assert!(page.contains("480 × 640 pixels") && page.contains("Take it away"));

    let said = format!("id=c1&back={large}&photo={photo}&subject=job&words=The+tail+cone");
    let reply = bench.ask("POST", "/job/spring-aaaa/act/caption", &[], &said);
    assert_eq!(reply.status, 303);
    assert!(get(&bench, &large).text().contains("The tail cone"));
    let away = format!("id=a1&back={large}&photo={photo}");
    let reply = bench.ask("POST", "/job/spring-aaaa/act/put-away", &[], &away);
    assert_eq!(reply.status, 303);
    assert!(get(&bench, &large).text().contains("is not in this job"));
    assert!(shown(&get(&bench, RECORD).text()).is_empty());
    let undo = format!("id=u1&back={large}");
    assert_eq!(
        bench
            .ask("POST", "/job/spring-aaaa/act/undo", &[], &undo)
            .status,
        303
    );
    assert!(get(&bench, &large).text().contains("The tail cone"));
    assert!(
        get(&bench, "/job/spring-aaaa/sheet")
            .text()
            .contains(&photo[..8])
    );
}

#[test]
fn law_the_same_form_sent_twice_records_once() {
    let bench = bench();
    for _ in 0..2 {
        let reply = take(&bench, "p1", "job", &[("a.jpg", PHOTO), ("b.jpg", PHOTO)]);
        assert_eq!(reply.status, 303, "{}", reply.text());
    }
    assert_eq!(shown(&get(&bench, RECORD).text()).len(), 1);
    // The same picture in another form is told apart from a new one.
    let reply = take(&bench, "p2", "job", &[("a.jpg", PHOTO)]);
    assert_eq!(reply.status, 422);
    assert!(
        reply
            .text()
            .contains("This very picture is in the job already")
    );
}

#[test]
fn law_what_is_refused_says_why_and_loses_no_word() {
    let bench = bench();
    let heavy = vec![0_u8; 25_000_001];
    let heic = [&b"\0\0\0\x18ftypheic"[..], &[0; 40]].concat();
    let cases: [(&str, &[u8], &str); 6] = [
        ("notes.jpg", b"not a photo", "notes.jpg: This is no photo"),
        ("IMG_2.jpg", &heic, "Set the camera to JPEG"),
        (
            "IMG_3.jpg",
            &PHOTO[..PHOTO.len() / 2],
            "ends before the picture does",
        ),
        ("IMG_4.jpg", b"", "IMG_4.jpg: The file is empty"),
        ("IMG_5.jpg", &heavy, "26 MB; a photo may have 25 MB"),
        (
            "<img src=x>.jpg",
            b"GIF89a",
            "&lt;img src=x&gt;.jpg: This is a GIF",
        ),
    ];
    for (name, bytes, words) in cases {
        let reply = take(&bench, "p1", "job", &[(name, bytes)]);
        let text = reply.text();
        assert_eq!(reply.status, 422, "{name}");
        assert!(text.contains(words), "{name}: {text}");
        assert!(
            text.contains("value=\"As it came &lt;b&gt;out&lt;/b&gt;\""),
            "{name}"
        );
        assert!(text.contains("Measuring record"), "{name}");
        assert!(shown(&text).is_empty(), "{name}");
    }
    let reply = take(&bench, "p1", "job", &[("", b"")]);
    assert!(reply.text().contains("No photo was chosen"));
    for subject in ["finding crack", "step x", "blob", "joint ../../x"] {
        let reply = take(&bench, "p1", subject, &[("a.jpg", PHOTO)]);
        assert_eq!(reply.status, 422, "{subject}");
        assert!(shown(&reply.text()).is_empty());
    }
    // One that is refused does not keep out the others.
    let reply = take(&bench, "p9", "job", &[("a.txt", b"x"), ("b.jpg", PHOTO)]);
    assert_eq!(reply.status, 422);
    assert!(reply.text().contains("The other photo is kept."));
    assert_eq!(shown(&reply.text()).len(), 1);
    let many: Vec<(&str, &[u8])> = (0..21).map(|_| ("a.txt", &b"x"[..])).collect();
    let reply = take(&bench, "p10", "job", &many);
    assert!(reply.text().contains("More than 20 photos at once"));
}

#[test]
fn law_only_the_bench_itself_may_send_photos() {
    let bench = bench();
    let body = form(&[("id", None, b"p1"), ("photo", Some("a.jpg"), PHOTO)]);
    let foreign = "\r\nsec-fetch-site: cross-site\r\norigin: http://evil.test";
    assert_eq!(post(&bench, foreign, &body).status, 403);
    let own = "\r\nsec-fetch-site: same-origin";
    assert_eq!(post(&bench, own, &body).status, 303);
    // What is no form of files, or stops in the middle of one, is no upload.
    let path = "/job/spring-aaaa/act/photo";
    assert_eq!(bench.ask("POST", path, &[], "id=1&photo=x").status, 400);
    assert_eq!(post(&bench, "", &body[..body.len() / 2]).status, 400);
    let endless = form(&[
        ("words", None, &vec![b'x'; 70_000]),
        ("photo", Some("a"), b"x"),
    ]);
    assert_eq!(post(&bench, "", &endless).status, 413);
}

#[test]
fn law_an_address_that_names_no_picture_is_not_found() {
    let bench = bench();
    let none = "a".repeat(64);
    for path in [
        format!("/photo/{none}"),
        format!("/photo/{none}/thumb"),
        format!("/photo/{}", none.to_uppercase()),
        "/photo/abc".to_owned(),
        "/photo/".to_owned(),
        "/photo/..%2f..%2fetc%2fpasswd".to_owned(),
        "/photo/../../etc/passwd".to_owned(),
        format!("/photo/{none}%00"),
        "/job/spring-aaaa/photo/abc".to_owned(),
        format!("/job/none/photo/{none}"),
    ] {
        assert_eq!(get(&bench, &path).status, 404, "{path}");
    }
    // A photo that the job does not have is told so, with a way on.
    let page = get(&bench, &format!("/job/spring-aaaa/photo/{none}")).text();
    assert!(page.contains("is not in this job"));
}

#[test]
fn law_a_picture_that_is_not_here_is_said_and_not_broken() {
    let bench = bench();
    bench.tell("spring-aaaa", &"ab".repeat(32));
    let page = get(&bench, RECORD).text();
    assert!(page.contains("Photo abababab: not on this bench."));
    assert!(!page.contains("<img"));
}
