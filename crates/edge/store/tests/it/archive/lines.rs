//! What the entries of an archive say, how much of it there may be, and which job it is of.
#![expect(clippy::too_many_lines, reason = "tables of damages, a row each")]

use std::io::{Cursor, Write as _};

use ::store::archive::{Archive, Limits};
use ::store::{Error, Store};
use zip::CompressionMethod;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

use super::damages::{small, wrong};
use super::{Parts, jpeg, open, sum};
use crate::bench::{Bench, job, later, opened, stamp};
use crate::both::both;

both!(
    law_a_refused_archive_brings_nothing_in,
    law_what_is_no_copy_of_the_job_is_refused,
);

fn line(number: u64, why: &str) -> String {
    format!("“entries.jsonl”, line {number}: {why}.")
}

/// The entries, line by line.
#[tokio::test]
async fn law_a_damaged_line_is_refused_by_its_number() {
    let (bytes, _) = small().await;
    let told = |change: &dyn Fn(&str) -> String| {
        let mut parts = Parts::of(&bytes);
        parts.entries(|text| change(&text));
        wrong(&parts.zip())
    };
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<Vec<String>>();
    assert_eq!(
        told(&|text| lines(text)[1..].join("\n") + "\n"),
        [
            line(1, "its position is 2 and must be 1"),
            line(2, "its position is 3 and must be 2")
        ]
    );
    assert_eq!(
        told(&|text| text.replace("\"position\":2", "\"position\":3")),
        [line(2, "its position is 3 and must be 2")]
    );
    assert_eq!(
        told(&|text| text.trim_end().to_owned()),
        [line(3, "the line has no end")]
    );
    assert_eq!(
        told(&|text| text.replace("\"small-1\"", "\"small-0\"")),
        [line(3, "its id is that of line 1 too")]
    );
    assert_eq!(
        told(&|text| text.replace("\"seen\":2", "\"seen\":3")),
        [line(
            3,
            "its author cannot have seen position 3 before this one"
        )]
    );
    for (from, to, why) in [
        (
            "\"small-1\"",
            "\"Small 1\"",
            "“Small 1” is no id: 1 to 64 lower-case letters, digits and hyphens.",
        ),
        (
            "\"kind\":\"pump",
            "\"kind\":\"<pump",
            "“<pump-described” is no kind of entry",
        ),
        ("\"body_version\":1", "\"body_version\":-1", "invalid value"),
        (
            "\"body_version\":1",
            "\"body_version\":0",
            "there never was a version 0",
        ),
        (
            "\"blades\":3",
            "\"blades\":\"3\"",
            "its “body” cannot be read: invalid type",
        ),
        (
            "\"blades\":3",
            "\"blades\":3,\"x\":3",
            "its “body” cannot be read: unknown field `x`",
        ),
        (
            "\"body\":",
            "\"body_text\":\"{}\",\"body\":",
            "its “body” must be one object, without",
        ),
        ("\"body\":{", "\"body\":1,\"x\":{", "unknown field `x`"),
        ("\"who\":", "\"who\":\"\",\"who\":", "duplicate field `who`"),
        (
            "2026-11-24T14:02",
            "2026-13-24T14:02",
            "its “happened_at” cannot be read",
        ),
        (
            "+01:00[Europe",
            "+01:00[Atlantis",
            "its “happened_at” cannot be read",
        ),
        (
            "\"recorded_at\":\"2026",
            "\"recorded_at\":\"x",
            "its “recorded_at” cannot be read",
        ),
    ] {
        let told = told(&|text| {
            let (head, last) = text.trim_end().rsplit_once('\n').unwrap();
            assert!(last.contains(from), "{from} in {last}");
            format!("{head}\n{}\n", last.replacen(from, to, 1))
        });
        assert_eq!(told.len(), 1, "{told:?}");
        let begins = told[0].starts_with("“entries.jsonl”, line 3: ");
        assert!(begins && told[0].contains(why), "{from}: {told:?}");
    }
    assert_eq!(
        told(&|text| text.replacen('\n', "\n\n", 1))[0],
        line(2, "EOF while parsing a value at line 1 column 0")
    );
    let mut parts = Parts::of(&bytes);
    let text = parts.part("entries.jsonl");
    let at = text.iter().position(|byte| *byte == b'\n').unwrap() + 5;
    text[at] = 0xff;
    parts.seal_bytes();
    assert_eq!(wrong(&parts.zip()), [line(2, "byte 5 is no UTF-8")]);
    let mut parts = Parts::of(&bytes);
    parts.entries(|_| String::new());
    assert_eq!(
        wrong(&parts.zip()),
        ["“entries.jsonl” has 0 entries and must have 1."]
    );
}

impl Parts {
    /// As `seal`, where the entries are no text.
    fn seal_bytes(&mut self) {
        let (size, sum) = {
            let text = self.part("entries.jsonl");
            (text.len(), sum(text))
        };
        self.manifest(|manifest| {
            for file in manifest["files"].as_array_mut().unwrap() {
                if file["name"] == "entries.jsonl" {
                    file["bytes"] = size.into();
                    file["sha256"] = sum.clone().into();
                }
            }
        });
    }
}

/// A few bytes that unpack to many are not unpacked further than they may.
#[tokio::test]
async fn law_what_is_too_large_is_refused_while_it_is_unpacked() {
    let (bytes, photo) = small().await;
    let within = |parts: &Parts, limits: &Limits| {
        let refused = Archive::open_within(Cursor::new(parts.zip()), limits);
        let mut sentences = refused.err().unwrap().sentences();
        sentences.remove(0);
        sentences.pop();
        sentences
    };
    let mut bomb = Parts::of(&bytes);
    *bomb.part("README.txt") = vec![0; 300_000_000];
    let packed = bomb.zip();
    assert!(packed.len() < 400_000, "{} bytes", packed.len());
    assert_eq!(
        wrong(&packed),
        [
            "“README.txt” unpacks to more than the 65536 bytes that it may have; it was not unpacked \
          further."
        ]
    );
    let parts = Parts::of(&bytes);
    let few = Limits {
        photo: 5,
        ..Limits::USUAL
    };
    let large = |name: String| {
        format!(
            "“{name}” unpacks to more than the 5 bytes that it may have; it was not unpacked further."
        )
    };
    assert_eq!(
        within(&parts, &few),
        [
            large(format!("photos/{photo}-small.jpg")),
            large(format!("photos/{photo}.jpg"))
        ]
    );
    // Two photos that unpack to less than each may, and together to more than all may.
    let mut parts = Parts::of(&bytes);
    for letter in ["x", "y"] {
        let photo = jpeg(&letter.repeat(500_000));
        parts.0.push((format!("photos/{}.jpg", sum(&photo)), photo));
    }
    parts.seal();
    let all = Limits {
        bytes: 600_000,
        ..Limits::USUAL
    };
    assert_eq!(
        within(&parts, &all),
        [
            "All its files together unpack to more than the 600000 bytes that they may have; they were \
          not unpacked further."
        ]
    );
    let parts = Parts::of(&bytes);
    let all = Limits {
        bytes: 100,
        ..Limits::USUAL
    };
    let size = parts.zip().len();
    assert_eq!(
        within(&parts, &all),
        [format!("It has {size} bytes, and an archive may have 100.")]
    );
    let few = Limits {
        files: 4,
        ..Limits::USUAL
    };
    assert_eq!(
        within(&parts, &few),
        ["It has 5 files, and an archive may have 4."]
    );
    let few = Limits {
        entries: 2,
        ..Limits::USUAL
    };
    assert_eq!(
        within(&parts, &few),
        [line(3, "an archive may have 2 entries")]
    );
    let short = Limits {
        line: 400,
        ..Limits::USUAL
    };
    let told = within(&parts, &short);
    assert!(told[0].contains("and an entry may have 400"), "{told:?}");
}

/// Whatever packs a ZIP, deflated or stored, with the folder noted or not.
#[tokio::test]
async fn law_an_archive_packed_again_is_taken_in() {
    let (bytes, _) = small().await;
    let parts = Parts::of(&bytes);
    for method in [CompressionMethod::Stored, CompressionMethod::Deflated] {
        assert_eq!(open(&parts.zip_by(method)).unwrap().entries(), 3);
    }
    let mut parts = parts;
    parts.0.reverse();
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.add_directory("photos/", SimpleFileOptions::default())
        .unwrap();
    for (name, content) in &parts.0 {
        zip.start_file(name.as_str(), SimpleFileOptions::default())
            .unwrap();
        zip.write_all(content).unwrap();
    }
    let bytes = zip.finish().unwrap().into_inner();
    assert_eq!(open(&bytes).unwrap().entries(), 3);
}

/// What was refused left nothing behind: no job, no photo.
async fn law_a_refused_archive_brings_nothing_in(bench: Bench) {
    let (bytes, photo) = small().await;
    let mut parts = Parts::of(&bytes);
    parts
        .0
        .retain(|(name, _)| *name != format!("photos/{photo}-small.jpg"));
    assert!(open(&parts.zip()).is_err());
    nothing(&bench.store).await;
    // The file changes after it was found whole: a byte of the photo, which stands behind its name.
    let path = bench.folder.path().join("archive.zip");
    std::fs::write(&path, &bytes).unwrap();
    let mut archive = Archive::open(std::fs::File::open(&path).unwrap()).unwrap();
    let name = format!("photos/{photo}.jpg").into_bytes();
    let at = bytes.windows(name.len()).position(|part| part == name);
    let mut spoilt = bytes.clone();
    spoilt[at.unwrap() + name.len() + 2] ^= 1;
    std::fs::write(&path, &spoilt).unwrap();
    let refused = bench.store.take_in(&mut archive).await.unwrap_err();
    assert!(matches!(refused, Error::Archive(_)), "{refused}");
    nothing(&bench.store).await;

    let mut archive = Archive::open(Cursor::new(bytes)).unwrap();
    assert_eq!(archive.job(), &job("small"));
    let taken = bench.store.take_in(&mut archive).await.unwrap();
    assert_eq!((taken.new.len(), taken.photos), (3, 1));
}

async fn nothing(store: &Store) {
    assert_eq!(store.jobs().await.unwrap(), []);
    assert!(store.photos().await.unwrap().is_empty());
}

/// Two jobs of one id, and an entry that says something else, leave everything as it was.
async fn law_what_is_no_copy_of_the_job_is_refused(bench: Bench) {
    let (bytes, _) = small().await;
    let refused = async |store: &Store, bytes: &[u8]| {
        let refused = store.take_in(&mut open(bytes).unwrap()).await;
        let Err(Error::Archive(refused)) = refused else {
            panic!("{refused:?}");
        };
        assert!(
            store.photos().await.unwrap().is_empty(),
            "no photo was kept"
        );
        refused.to_string()
    };
    let act = opened("Another");
    let id = job("small");
    bench
        .store
        .act(&id, act, stamp("another-0"), later(0))
        .await
        .unwrap();
    let before = bench.store.entries(&id).await.unwrap();
    assert_eq!(
        refused(&bench.store, &bytes).await,
        "Another job of that name is here: “small” began with another entry than the one in the \
         archive, so they are not two copies of one job. Nothing was changed; take the archive in \
         on a bench without that job."
    );
    assert_eq!(bench.store.entries(&id).await.unwrap(), before);

    let bench = bench.beside().await;
    let act = opened("Sister");
    bench
        .store
        .act(&job("sister"), act, stamp("small-1"), later(0))
        .await
        .unwrap();
    assert_eq!(
        refused(&bench.store, &bytes).await,
        "This archive was not taken in, and nothing was changed: its entry “small-1” is here in \
         another job, “sister”. An entry belongs to one job; take the archive in on a bench without \
         that job."
    );
    assert_eq!(bench.store.jobs().await.unwrap().len(), 1);

    let bench = bench.beside().await;
    bench
        .store
        .act(&id, opened("Small"), stamp("small-0"), later(0))
        .await
        .unwrap();
    let act = crate::bench::leaves();
    bench
        .store
        .act(&id, crate::bench::pump(), stamp("x"), later(0))
        .await
        .unwrap();
    bench
        .store
        .act(&id, act, stamp("small-1"), later(0))
        .await
        .unwrap();
    let before = bench.store.entries(&id).await.unwrap();
    assert_eq!(
        refused(&bench.store, &bytes).await,
        "This archive was not taken in, and nothing was changed: the job “small” is here, and the \
         two copies say different things under the same id, which no bench writes.\n\
         “small-1” is entry 3 here and entry 3 in the archive.\n\
         One of the two copies was changed by hand. Find out which, and keep the other."
    );
    assert_eq!(bench.store.entries(&id).await.unwrap(), before);
}
