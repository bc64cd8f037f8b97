//! Each damage with its sentence; a damaged archive brings nothing in.
#![expect(clippy::too_many_lines, reason = "tables of damages, a row each")]

use std::io::{Cursor, Write as _};

use ::store::archive::Refused;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

use super::{Parts, jpeg, open, packed, shoot, sum};
use crate::bench::{Bench, job, later, opened, stamp};

const FIRST: &str = "This archive was not taken in, and nothing was changed.";
const LAST: &str =
    "Copy the file once more from where it was made, or make the archive anew there.";

/// A job of three entries and one photo.
pub(super) async fn small() -> (Vec<u8>, String) {
    let (bench, id) = (Bench::new().await, job("small"));
    let act = opened("Small");
    bench
        .store
        .act(&id, act, stamp("small-0"), later(0))
        .await
        .unwrap();
    let photo = shoot(&bench.store, &id, "bore").await;
    let act = crate::bench::pump();
    bench
        .store
        .act(&id, act, stamp("small-1"), later(1))
        .await
        .unwrap();
    (packed(&bench.store, &id).await, photo.to_string())
}

/// What is wrong with it, without the sentences before and after.
pub(super) fn wrong(bytes: &[u8]) -> Vec<String> {
    let Err(refused) = open(bytes) else {
        panic!("it was taken for whole");
    };
    let mut sentences = refused.sentences();
    assert!(matches!(refused, Refused::Damaged { .. }), "{sentences:?}");
    assert_eq!(sentences.remove(0), FIRST);
    assert_eq!(sentences.pop().unwrap(), LAST);
    sentences
}

fn replaced(bytes: &[u8], from: &[u8], to: &[u8]) -> Vec<u8> {
    assert_eq!(from.len(), to.len());
    let mut bytes = bytes.to_vec();
    let mut found = 0;
    for at in 0..bytes.len() - from.len() {
        if bytes[at..].starts_with(from) {
            bytes[at..at + to.len()].copy_from_slice(to);
            found += 1;
        }
    }
    assert!(found > 0);
    bytes
}

/// Changes two bytes in what stands before a file and in its record of the directory.
fn headers(bytes: &[u8], name: &str, (local, central): (usize, usize), to: u16) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    let mut found = 0;
    for at in 0..bytes.len() - name.len() {
        for (begins, long, place) in [(b"PK\x03\x04", 30, local), (b"PK\x01\x02", 46, central)] {
            let named = bytes
                .get(at + long..)
                .is_some_and(|rest| rest.starts_with(name.as_bytes()));
            if bytes[at..].starts_with(begins) && named {
                bytes[at + place..at + place + 2].copy_from_slice(&to.to_le_bytes());
                found += 1;
            }
        }
    }
    assert_eq!(found, 2);
    bytes
}

/// What the ZIP itself is like.
#[tokio::test]
async fn law_a_strange_zip_is_refused_by_name() {
    let (bytes, _) = small().await;
    let parts = Parts::of(&bytes);
    let with = |name: &str| {
        let mut parts = parts.clone();
        parts.0.push((name.to_owned(), b"x".to_vec()));
        parts.zip()
    };
    let no_zip = "It is no whole ZIP file: its beginning or its end is missing, or something stands \
                  behind the end.";
    let stranger = |name: &str| format!("“{name}” is no name of a file in an archive.");
    let mut link = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in parts.0.iter().filter(|(name, _)| name != "README.txt") {
        link.start_file(name.as_str(), SimpleFileOptions::default())
            .unwrap();
        link.write_all(content).unwrap();
    }
    link.add_symlink("README.txt", "/etc/passwd", SimpleFileOptions::default())
        .unwrap();
    let link = link.finish().unwrap().into_inner();
    let photo = format!("photos/{}.jpg", sum(&jpeg("bore")));
    let table: Vec<(&str, Vec<u8>, String)> = vec![
        ("nothing", Vec::new(), no_zip.into()),
        ("text", b"[job]\nid = \"x\"\n".repeat(9), no_zip.into()),
        (
            "an end alone",
            bytes[bytes.len() - 22..].to_vec(),
            no_zip.into(),
        ),
        (
            "cut short",
            bytes[..bytes.len() - 1].to_vec(),
            no_zip.into(),
        ),
        ("half", bytes[..bytes.len() / 2].to_vec(), no_zip.into()),
        (
            "something behind",
            [&bytes[..], b"\n"].concat(),
            no_zip.into(),
        ),
        (
            "something before",
            [b"#!/bin/sh\n", &bytes[..]].concat(),
            no_zip.into(),
        ),
        ("up", with("../x"), stranger("../x")),
        ("absolute", with("/etc/passwd"), stranger("/etc/passwd")),
        ("drive", with("C:\\x"), stranger("C:\\x")),
        (
            "up in photos",
            with("photos/../../x.jpg"),
            stranger("photos/../../x.jpg"),
        ),
        ("a page", with("photos/a.svg"), stranger("photos/a.svg")),
        (
            "control signs",
            with("a\u{1b}[2Jb"),
            stranger("a\u{fffd}[2Jb"),
        ),
        ("a folder", with("photos/x/"), stranger("photos/x/")),
        ("capitals", with("Readme.txt"), stranger("Readme.txt")),
        (
            "twice",
            replaced(&with("RXADME.txt"), b"RXADME.txt", b"README.txt"),
            "“README.txt” is in it twice.".into(),
        ),
        (
            "a link",
            link,
            "“README.txt” is a link to another file, and no file.".into(),
        ),
        (
            "locked",
            headers(&bytes, "README.txt", (6, 8), 1),
            "“README.txt” is locked by a password, which archives never are.".into(),
        ),
        (
            "packed otherwise",
            headers(&bytes, &photo, (8, 10), 12),
            format!(
                "“{photo}” is packed in another way than the two that archives use: stored, and \
                 deflated."
            ),
        ),
        (
            "another archive",
            {
                let mut parts = parts.clone();
                parts.0.retain(|(name, _)| name != "manifest.json");
                parts.zip()
            },
            "It is a ZIP file, but no archive of a job: it has no “manifest.json”.".into(),
        ),
    ];
    for (name, bytes, sentence) in table {
        assert_eq!(wrong(&bytes), [sentence], "{name}");
    }
}

type Change = Box<dyn Fn(&mut Parts)>;

fn change(change: impl Fn(&mut Parts) + 'static) -> Change {
    Box::new(change)
}

/// The files against the manifest, both ways.
#[tokio::test]
async fn law_a_damaged_file_is_refused_by_name() {
    let (bytes, photo) = small().await;
    let (large, thumb) = (
        format!("photos/{photo}.jpg"),
        format!("photos/{photo}-small.jpg"),
    );
    let (size, other) = (jpeg("bore").len(), sum(b"x"));
    let drop = |name: &str| {
        let name = name.to_owned();
        change(move |parts| parts.0.retain(|(there, _)| *there != name))
    };
    let set = |name: &str, content: &[u8]| {
        let (name, content) = (name.to_owned(), content.to_vec());
        move |parts: &mut Parts| *parts.part(&name) = content.clone()
    };
    let sealed = |change: Box<dyn Fn(&mut Parts)>| -> Change {
        Box::new(move |parts| {
            change(parts);
            parts.seal();
        })
    };
    let mut bent = jpeg("bore");
    bent[5] ^= 1;
    let (bent_sum, extra) = (sum(&bent), format!("photos/{other}.jpg"));
    let mut unspoken = vec![(format!("photos/{}.jpg", sum(&jpeg("z"))), jpeg("z"))];
    unspoken.push((format!("photos/{}-small.jpg", sum(&jpeg("z"))), jpeg("y")));
    let stowaway = unspoken[0].0.clone();
    let no_jpeg = format!("photos/{}.jpg", sum(b"GIF89a"));
    let table: Vec<(&str, Change, Vec<String>)> = vec![
        (
            "no text",
            drop("README.txt"),
            vec!["“README.txt” is missing.".into()],
        ),
        (
            "no entries",
            drop("entries.jsonl"),
            vec!["“entries.jsonl” is missing.".into()],
        ),
        (
            "no photo",
            drop(&large),
            vec![format!("“{large}” is missing.")],
        ),
        (
            "no small photo",
            drop(&thumb),
            vec![format!("“{thumb}” is missing.")],
        ),
        (
            "no small photo, and none named",
            sealed(drop(&thumb)),
            vec![format!("“{thumb}” is missing.")],
        ),
        (
            "one more",
            change({
                let extra = extra.clone();
                move |parts| parts.0.push((extra.clone(), b"x".to_vec()))
            }),
            vec![format!(
                "“{extra}” is in it, and the manifest has none such."
            )],
        ),
        (
            "shorter",
            change(set(&large, b"x")),
            vec![format!("“{large}” has 1 bytes and must have {size}.")],
        ),
        (
            "other",
            change(set(&large, &bent)),
            vec![format!(
                "“{large}” has another content than it must: its SHA-256 is {bent_sum} and must be \
                 {photo}."
            )],
        ),
        (
            "other, and the manifest with it",
            sealed(change(set(&large, &bent))),
            vec![format!(
                "“{large}” has another content than it must: its SHA-256 is {bent_sum} and must be \
                 {photo}."
            )],
        ),
        (
            "no picture",
            sealed(change({
                let no_jpeg = no_jpeg.clone();
                let small = no_jpeg.replace(".jpg", "-small.jpg");
                move |parts| {
                    parts.0.push((no_jpeg.clone(), b"GIF89a".to_vec()));
                    parts.0.push((small.clone(), jpeg("s")));
                }
            })),
            vec![format!("“{no_jpeg}” is no JPEG.")],
        ),
        (
            "a stowaway",
            sealed(change(move |parts| parts.0.extend(unspoken.clone()))),
            vec![format!("“{stowaway}” is a photo that no entry speaks of.")],
        ),
        (
            "two at once",
            change({
                let large = large.clone();
                move |parts| {
                    parts.0.retain(|(name, _)| *name != large);
                    parts.part("README.txt").push(b'x');
                }
            }),
            vec![
                format!(
                    "“README.txt” has {} bytes and must have {}.",
                    Parts::of(&bytes).part("README.txt").len() + 1,
                    Parts::of(&bytes).part("README.txt").len()
                ),
                format!("“{large}” is missing."),
            ],
        ),
    ];
    for (name, change, sentences) in table {
        let mut parts = Parts::of(&bytes);
        change(&mut parts);
        assert_eq!(wrong(&parts.zip()), sentences, "{name}");
    }
}

/// What the manifest says.
#[tokio::test]
async fn law_a_manifest_that_says_nothing_is_refused() {
    let (bytes, photo) = small().await;
    let manifest = |change: fn(&mut serde_json::Value)| {
        let mut parts = Parts::of(&bytes);
        parts.manifest(change);
        wrong(&parts.zip())
    };
    let unread = |why: &str| vec![format!("“manifest.json” cannot be read: {why}.")];
    assert_eq!(
        manifest(|m| m["format"] = "another".into()),
        ["Its manifest is of “another”, and not of “pumpwright job archive”."]
    );
    assert_eq!(
        manifest(|m| m["version"] = 0.into()),
        unread("there never was a version 0")
    );
    assert_eq!(
        manifest(|m| m["job"] = "../x".into()),
        unread("“../x” is no id: 1 to 64 lower-case letters, digits and hyphens")
    );
    assert_eq!(
        manifest(|m| m["made_at"] = "noon".into()),
        unread("“made_at” is no time")
    );
    assert_eq!(
        manifest(|m| m["title"] = "<b>".into()),
        unread("its title is not that of the job")
    );
    assert_eq!(
        manifest(|m| m["entries"] = 4.into()),
        ["“entries.jsonl” has 3 entries and must have 4."]
    );
    assert_eq!(
        manifest(|m| m["photos_absent"] = serde_json::json!(["x"])),
        unread("“photos_absent” names what is no photo")
    );
    let mut parts = Parts::of(&bytes);
    parts.manifest(|m| m["photos_absent"] = serde_json::json!([photo]));
    assert_eq!(
        wrong(&parts.zip()),
        unread(&format!(
            "it calls the photo {photo} absent, which is there"
        ))
    );
    let twice = manifest(|m| {
        let first = m["files"][0].clone();
        m["files"].as_array_mut().unwrap().push(first);
    });
    assert_eq!(twice, unread("it names “README.txt” twice"));
    for text in ["", "[]", "{", "{\"format\":1}", "\u{feff}{}"] {
        let mut parts = Parts::of(&bytes);
        *parts.part("manifest.json") = text.into();
        let wrong = wrong(&parts.zip());
        assert!(
            wrong[0].starts_with("“manifest.json” cannot be read: "),
            "{wrong:?}"
        );
    }
    let more = manifest(|m| m["more"] = 1.into());
    assert!(more[0].contains("unknown field `more`"), "{more:?}");
}

#[tokio::test]
async fn law_a_newer_format_is_refused_with_the_way_out() {
    let (bytes, _) = small().await;
    let mut parts = Parts::of(&bytes);
    parts.manifest(|m| *m = serde_json::json!({"format": m["format"], "version": 2, "new": []}));
    parts.0.push(("sounds/a.flac".into(), b"x".to_vec()));
    let Err(refused) = open(&parts.zip()) else {
        panic!("it was taken in");
    };
    assert_eq!(
        refused.to_string(),
        "A newer program wrote this archive: its format is version 2, and this program reads up to \
         1. Nothing was changed; take it in with the newer program."
    );
}
