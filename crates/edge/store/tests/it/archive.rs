//! One job whole in one file, and back: byte for byte. All data are invented.

mod damages;
mod lines;
mod merge;
mod spoilt;

use std::io::{Cursor, Read as _, Write as _};

use ::store::archive::{Archive, Archived, Merged, Refused};
use ::store::{Error, Size, Store};
use jiff::Timestamp;
use serde_json::Value;
use sha2::{Digest as _, Sha256};
use sqlx::Row as _;
use workshop::act::Act;
use workshop::entry::{Body, EntryId, JobId, NewEntry};
use workshop::photos::{Photo, PhotoHash, Photography, Subject};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::bench::{Bench, every_kind, job, later, now, opened, stamp};
use crate::both::both;

both!(
    law_a_job_comes_back_byte_for_byte,
    law_every_version_that_ever_landed_comes_back_as_it_was,
    law_a_job_that_is_not_there_is_no_archive,
    law_the_lines_are_plain_json_and_the_manifest_fits,
    law_a_photo_that_is_damaged_here_is_not_handed_on,
    law_an_archive_heals_a_photo,
);

/// Bytes that begin and end like a JPEG: the store asks no more.
pub(crate) fn jpeg(words: &str) -> Vec<u8> {
    [b"\xff\xd8\xff\xe0", words.as_bytes(), b"\xff\xd9"].concat()
}

fn sum(bytes: &[u8]) -> String {
    format!("{:x}", Sha256::digest(bytes))
}

fn made() -> Timestamp {
    later(9000)
}

/// Keeps a photo and says so in the job.
async fn shoot(store: &Store, job: &JobId, words: &str) -> PhotoHash {
    let photo = store.keep_photo(&jpeg(words), &jpeg("small")).await;
    let photo = photo.unwrap();
    let said = Photo {
        width: 12,
        height: 9,
        subject: Subject::Job,
        words: words.to_owned(),
    };
    let taken = Photography::Taken {
        photo: photo.clone(),
        said,
    };
    let act = Act::Record(Body::Photographed(taken));
    let id = format!("shot-{words}");
    store.act(job, act, stamp(&id), later(500)).await.unwrap();
    photo
}

async fn packed(store: &Store, job: &JobId) -> Vec<u8> {
    archived(store, job).await.0
}

async fn archived(store: &Store, job: &JobId) -> (Vec<u8>, Archived) {
    let mut file = Cursor::new(Vec::new());
    let archived = store.archive(job, made(), &mut file).await.unwrap();
    (file.into_inner(), archived.unwrap())
}

fn open(bytes: &[u8]) -> Result<Archive<Cursor<Vec<u8>>>, Refused> {
    Archive::open(Cursor::new(bytes.to_vec()))
}

async fn take(store: &Store, bytes: &[u8]) -> Result<Merged, Error> {
    store.take_in(&mut open(bytes)?).await
}

/// Every column of every row of a job, as it stands in the table.
async fn rows(bench: &Bench, job: &JobId) -> Vec<Vec<String>> {
    let mut aside = bench.aside().await;
    // Without the table's name a server sorts by the text.
    let rows = sqlx::query(
        "SELECT CAST(position AS TEXT), id, CAST(seen AS TEXT), recorded_at, happened_at, device, \
                who, program, kind, CAST(body_version AS TEXT), body \
         FROM entry WHERE job = $1 ORDER BY entry.position",
    )
    .bind(job.as_str())
    .fetch_all(&mut aside)
    .await
    .unwrap();
    let columns = |row: &sqlx::any::AnyRow| (0..11).map(|n| row.get::<String, _>(n)).collect();
    rows.iter().map(columns).collect()
}

async fn pictures(store: &Store) -> Vec<(PhotoHash, Vec<u8>, Vec<u8>)> {
    let mut all = Vec::new();
    for photo in store.photos().await.unwrap() {
        let large = store.photo(&photo, Size::Full).await.unwrap().unwrap();
        let small = store.photo(&photo, Size::Thumb).await.unwrap().unwrap();
        all.push((photo, large, small));
    }
    all
}

/// The files of an archive, to be changed and packed again.
#[derive(Clone)]
struct Parts(Vec<(String, Vec<u8>)>);

impl Parts {
    fn of(bytes: &[u8]) -> Self {
        let mut zip = ZipArchive::new(Cursor::new(bytes)).unwrap();
        let mut parts = Vec::new();
        for place in 0..zip.len() {
            let mut file = zip.by_index(place).unwrap();
            let mut content = Vec::new();
            file.read_to_end(&mut content).unwrap();
            parts.push((file.name().unwrap().into_owned(), content));
        }
        Self(parts)
    }

    fn part(&mut self, name: &str) -> &mut Vec<u8> {
        let part = self.0.iter_mut().find(|(there, _)| there == name);
        &mut part.unwrap().1
    }

    fn text(&mut self, name: &str) -> String {
        String::from_utf8(self.part(name).clone()).unwrap()
    }

    fn manifest(&mut self, change: impl FnOnce(&mut Value)) {
        let part = self.part("manifest.json");
        let mut manifest = serde_json::from_slice(part).unwrap();
        change(&mut manifest);
        *part = serde_json::to_vec(&manifest).unwrap();
    }

    /// Changes the entries and lets the manifest fit them, so that what they say is to blame.
    fn entries(&mut self, change: impl FnOnce(String) -> String) {
        let text = change(self.text("entries.jsonl")).into_bytes();
        *self.part("entries.jsonl") = text;
        self.seal();
    }

    /// Lets the manifest fit what is there now.
    fn seal(&mut self) {
        let files: Vec<Value> = self.0.iter().filter(|(name, _)| name != "manifest.json")
            .map(|(name, content)| {
                serde_json::json!({"name": name, "bytes": content.len(), "sha256": sum(content)})
            })
            .collect();
        let lines = self.text("entries.jsonl").lines().count();
        self.manifest(|manifest| {
            manifest["files"] = files.into();
            manifest["entries"] = lines.into();
        });
    }

    fn zip(&self) -> Vec<u8> {
        self.zip_by(CompressionMethod::Deflated)
    }

    fn zip_by(&self, method: CompressionMethod) -> Vec<u8> {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        let options = SimpleFileOptions::default().compression_method(method);
        for (name, content) in &self.0 {
            zip.start_file(name.as_str(), options).unwrap();
            zip.write_all(content).unwrap();
        }
        zip.finish().unwrap().into_inner()
    }
}

/// A job with an entry of every kind, one of a program to come, and two photos.
async fn whole(bench: &Bench, id: &JobId) -> [PhotoHash; 2] {
    every_kind(&bench.store, id).await;
    let photos = [
        shoot(&bench.store, id, "bore").await,
        shoot(&bench.store, id, "stator").await,
    ];
    for (n, json) in [
        "{ \"b\": 1.0e0,\n\"a\": \"µ\" }",
        "{ \"b\":  1.80e1, \"b2\": [ ]}",
        " {}\n",
        "null",
    ]
    .into_iter()
    .enumerate()
    {
        let body = Body::Unknown {
            kind: "future-kind".into(),
            version: 3,
            json: json.into(),
        };
        let entry = NewEntry {
            id: EntryId::new(&format!("future-{n}")).unwrap(),
            seen: 0,
            happened_at: now(),
            device: "tablet \u{1f527} “2”".into(),
            who: "line\u{2028}end".into(),
            program: "pumpwright 99.0".into(),
            body,
        };
        bench.store.append(id, &[entry], later(600)).await.unwrap();
    }
    photos
}

async fn law_a_job_comes_back_byte_for_byte(bench: Bench) {
    let id = job("whole");
    let photos = whole(&bench, &id).await;
    let (bytes, archived) = archived(&bench.store, &id).await;
    let there = rows(&bench, &id).await;
    assert_eq!((archived.entries, archived.photos), (there.len(), 2));
    assert_eq!(archived.absent.len(), 1, "“abc” was told of and never sent");

    let other = bench.beside().await;
    let merged = take(&other.store, &bytes).await.unwrap();
    assert!(merged.begun);
    assert_eq!((merged.new.len(), merged.already), (there.len(), 0));
    assert_eq!((merged.photos, merged.apart), (2, vec![]));
    assert_eq!(merged.title, "Spring rebuild");
    assert_eq!(rows(&other, &id).await, there);
    assert_eq!(pictures(&other.store).await, pictures(&bench.store).await);
    assert!(photos.iter().all(|photo| merged_has(&bytes, photo)));
    let read = bench.store.entries(&id).await.unwrap();
    assert_eq!(other.store.entries(&id).await.unwrap(), read);

    assert!(
        packed(&other.store, &id).await == bytes,
        "the same bytes again"
    );
    let again = take(&other.store, &bytes).await.unwrap();
    assert_eq!((again.new, again.already), (vec![], there.len()));
    assert_eq!((again.photos, again.begun, again.apart), (0, false, vec![]));
    assert_eq!(rows(&other, &id).await, there);
}

fn merged_has(bytes: &[u8], photo: &PhotoHash) -> bool {
    open(bytes).unwrap().photos().contains(photo)
}

/// Every body that ever landed, in every version, verbatim: also those that are written otherwise now.
async fn law_every_version_that_ever_landed_comes_back_as_it_was(bench: Bench) {
    let id = job("old");
    let act = opened("Old");
    bench
        .store
        .act(&id, act, stamp("old-0"), later(0))
        .await
        .unwrap();
    let mut aside = bench.aside().await;
    let bodies = crate::fixtures::bodies();
    for (n, body) in bodies.iter().enumerate() {
        sqlx::query(
            "INSERT INTO entry (job, position, id, seen, recorded_at, happened_at, device, who, \
                                program, kind, body_version, body) \
             VALUES ('old', $1, $2, 1, '2026-11-24T13:02:00Z', \
                     '2026-11-24T14:02:00+01:00[Europe/Berlin]', '', '', '', $3, $4, $5)",
        )
        .bind(i64::try_from(n).unwrap() + 2)
        .bind(format!("old-{}", n + 1))
        .bind(&body.kind)
        .bind(i64::from(body.version))
        .bind(&body.json)
        .execute(&mut aside)
        .await
        .unwrap();
    }
    let bytes = packed(&bench.store, &id).await;
    let other = bench.beside().await;
    take(&other.store, &bytes).await.unwrap();
    let there = rows(&bench, &id).await;
    assert_eq!(there.len(), bodies.len() + 1);
    assert_eq!(rows(&other, &id).await, there);
}

async fn law_a_job_that_is_not_there_is_no_archive(bench: Bench) {
    let mut file = Cursor::new(Vec::new());
    let none = bench.store.archive(&job("none"), made(), &mut file).await;
    assert_eq!(none.unwrap(), None);
    assert!(file.into_inner().is_empty());
}

async fn law_the_lines_are_plain_json_and_the_manifest_fits(bench: Bench) {
    let id = job("plain");
    whole(&bench, &id).await;
    let mut parts = Parts::of(&packed(&bench.store, &id).await);
    let names: Vec<String> = parts.0.iter().map(|(name, _)| name.clone()).collect();
    assert_eq!(names.len(), 7);
    let there = rows(&bench, &id).await;
    let text = parts.text("entries.jsonl");
    for (line, row) in text.lines().zip(&there) {
        let line: Value = serde_json::from_str(line).unwrap();
        assert_eq!(line["position"].to_string(), row[0]);
        assert_eq!(line["happened_at"], row[4].as_str());
        let body = match &line["body"] {
            Value::Null => serde_json::from_str(line["body_text"].as_str().unwrap()).unwrap(),
            body => body.clone(),
        };
        assert_eq!(body, serde_json::from_str::<Value>(&row[10]).unwrap());
    }
    let manifest: Value = serde_json::from_slice(parts.part("manifest.json")).unwrap();
    assert_eq!(manifest["job"], "plain");
    assert_eq!(manifest["version"], 1);
    assert_eq!(manifest["made_at"], made().to_string());
    let files = manifest["files"].as_array().unwrap();
    assert_eq!(files.len(), 6);
    for file in files {
        let content = parts.part(file["name"].as_str().unwrap());
        assert_eq!(file["bytes"], content.len());
        assert_eq!(file["sha256"], sum(content));
    }
    assert!(parts.text("README.txt").contains("Spring rebuild"));
}

/// A damaged photo is told before anything is handed on.
async fn law_a_photo_that_is_damaged_here_is_not_handed_on(bench: Bench) {
    let id = job("hurt");
    let photos = whole(&bench, &id).await;
    let mut aside = bench.aside().await;
    sqlx::query("UPDATE photo SET picture = $1 WHERE hash = $2")
        .bind(b"abc".to_vec())
        .bind(photos[0].as_str())
        .execute(&mut aside)
        .await
        .unwrap();
    let mut file = Cursor::new(Vec::new());
    let refused = bench.store.archive(&id, made(), &mut file).await;
    assert!(matches!(refused, Err(Error::PhotoDamaged { photo }) if photo == photos[0]));
}

/// A photo that came damaged to this bench is made whole by an archive that has it.
async fn law_an_archive_heals_a_photo(bench: Bench) {
    let id = job("heal");
    whole(&bench, &id).await;
    let bytes = packed(&bench.store, &id).await;
    let before = pictures(&bench.store).await;
    let mut aside = bench.aside().await;
    sqlx::query("UPDATE photo SET thumb = $1")
        .bind(b"abc".to_vec())
        .execute(&mut aside)
        .await
        .unwrap();
    assert_eq!(take(&bench.store, &bytes).await.unwrap().photos, 2);
    assert_eq!(pictures(&bench.store).await, before);
}
