//! Writing an archive: the same job at the same time gives the same bytes.

use std::collections::BTreeSet;
use std::io::{Seek, Write};

use jiff::Timestamp;
use workshop::entry::{Body, Entry, JobId};
use workshop::photos::{PhotoHash, Photography};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::line::Line;
use super::manifest::{FileSays, Manifest};
use super::read::{hashes, title};
use super::{ENTRIES, FORMAT, Limits, MANIFEST, README, Refused, VERSION, most, names};
use crate::row::Stored;
use crate::{Error, Size, Store};

/// What was written into an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Archived {
    /// Entries.
    pub entries: usize,
    /// Photos.
    pub photos: usize,
    /// Photos that entries name and that are not on this bench.
    pub absent: Vec<PhotoHash>,
}

impl Store {
    /// Writes the job whole into a file: every entry as it stands, every photo that they name and that
    /// is here. One photo at a time is held. None for a job that is not there.
    pub async fn archive<W: Write + Seek + Send>(
        &self,
        job: &JobId,
        made_at: Timestamp,
        into: W,
    ) -> Result<Option<Archived>, Error> {
        let lines = self.lines(job).await?;
        if lines.is_empty() {
            return Ok(None);
        }
        let title = title(&lines, job.as_str());
        let here = self.photos().await?;
        let (photos, absent) = named(&lines, &here);
        let mut packer = Packer::new(into);
        packer.put(README, readme(job, &title).as_bytes())?;
        packer.put(ENTRIES, &text(job, &lines)?)?;
        for photo in &photos {
            for (name, size) in names(photo).iter().zip([Size::Full, Size::Thumb]) {
                let picture = self.photo(photo, size).await?;
                let gone = || Error::PhotoDamaged {
                    photo: photo.clone(),
                };
                packer.put(name, &picture.ok_or_else(gone)?)?;
            }
        }
        let mut manifest = Manifest {
            format: FORMAT.to_owned(),
            version: VERSION,
            program: workshop::PROGRAM.to_owned(),
            job: job.to_string(),
            title,
            made_at: made_at.to_string(),
            entries: lines.len() as u64,
            photos_absent: absent.iter().map(PhotoHash::to_string).collect(),
            files: std::mem::take(&mut packer.files),
        };
        manifest.files.sort_by(|a, b| a.name.cmp(&b.name));
        let mut text = serde_json::to_vec_pretty(&manifest).map_err(|why| unwritten(why.into()))?;
        text.push(b'\n');
        packer.put(MANIFEST, &text)?;
        packer.finish()?;
        Ok(Some(Archived {
            entries: lines.len(),
            photos: photos.len(),
            absent,
        }))
    }
}

/// The photos of a job that are here, and those that its entries say were taken and are not.
fn named(
    lines: &[(Stored, Entry)],
    here: &BTreeSet<PhotoHash>,
) -> (BTreeSet<PhotoHash>, Vec<PhotoHash>) {
    let all = lines.iter().flat_map(|(line, _)| hashes(line));
    let all: BTreeSet<PhotoHash> = all.filter_map(|hash| PhotoHash::new(hash).ok()).collect();
    let taken = lines.iter().filter_map(|(_, entry)| match &entry.new.body {
        Body::Photographed(Photography::Taken { photo, .. }) => Some(photo.clone()),
        _ => None,
    });
    let taken: BTreeSet<PhotoHash> = taken.collect();
    (
        all.intersection(here).cloned().collect(),
        taken.difference(here).cloned().collect(),
    )
}

/// The entries as lines, each found to read back as it stands.
fn text(job: &JobId, lines: &[(Stored, Entry)]) -> Result<Vec<u8>, Error> {
    let mut text = Vec::new();
    for (stored, entry) in lines {
        let damaged = |why: String| Error::Damaged {
            table: "entry",
            column: "body",
            job: job.to_string(),
            position: i64::try_from(stored.position).unwrap_or(i64::MAX),
            why,
        };
        let line = serde_json::to_string(&Line::of(stored, entry));
        let line = line.map_err(|why| damaged(why.to_string()))?;
        let again: Result<Line<'_>, _> = serde_json::from_str(&line);
        let again = again.map_err(|why| damaged(why.to_string()))?;
        let (again, _) = again.stored().map_err(damaged)?;
        if again != *stored {
            return Err(damaged("it reads back as something else".to_owned()));
        }
        within("its longest entry", line.len() as u64, Limits::USUAL.line)?;
        text.extend_from_slice(line.as_bytes());
        text.push(b'\n');
    }
    let entries = lines.len() as u64;
    within("its journal, in entries,", entries, Limits::USUAL.entries)?;
    Ok(text)
}

/// What is written must be readable again.
fn within(what: &'static str, found: u64, most: u64) -> Result<(), Error> {
    if found <= most {
        return Ok(());
    }
    Err(Refused::TooLarge { what, found, most }.into())
}

struct Packer<W: Write + Seek> {
    zip: ZipWriter<W>,
    files: Vec<FileSays>,
    bytes: u64,
}

impl<W: Write + Seek> Packer<W> {
    fn new(into: W) -> Self {
        Self {
            zip: ZipWriter::new(into),
            files: Vec::new(),
            bytes: 0,
        }
    }

    fn put(&mut self, name: &str, content: &[u8]) -> Result<(), Error> {
        let found = content.len() as u64;
        within("one of its files", found, most(name, &Limits::USUAL))?;
        self.bytes += found;
        within("all of it", self.bytes, Limits::USUAL.bytes)?;
        within(
            "the number of files",
            self.files.len() as u64,
            Limits::USUAL.files,
        )?;
        // A photo is packed already.
        let method = if super::photo_of(name).is_some() {
            CompressionMethod::Stored
        } else {
            CompressionMethod::Deflated
        };
        let options = SimpleFileOptions::default()
            .compression_method(method)
            .last_modified_time(DateTime::default())
            .unix_permissions(0o644);
        let begun = self.zip.start_file(name, options);
        begun.map_err(|why| unwritten(why.into()))?;
        self.zip.write_all(content).map_err(unwritten)?;
        self.files.push(FileSays::of(name, content));
        Ok(())
    }

    fn finish(self) -> Result<(), Error> {
        let done = self.zip.finish();
        let mut done = done.map_err(|why| unwritten(why.into()))?;
        done.flush().map_err(unwritten)
    }
}

fn unwritten(why: std::io::Error) -> Error {
    Error::ArchiveUnwritten { why }
}

fn readme(job: &JobId, title: &str) -> String {
    format!(
        "One rebuild of a jet pump, whole\n\
         ================================\n\
         \n\
         {title}\n\
         Job: {job}\n\
         \n\
         {README_TEXT}"
    )
}

const README_TEXT: &str = include_str!("readme.txt");
