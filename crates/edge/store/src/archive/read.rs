//! Reading an archive: everything is checked before anything of it is believed.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Read, Seek};

use jiff::Timestamp;
use workshop::entry::{Body, Entry, JobId};
use workshop::photos::PhotoHash;

use super::line::{Line, clause};
use super::manifest::{FileSays, Head, Manifest};
use super::unpack::Pack;
use super::{Damage, ENTRIES, FORMAT, Limits, MANIFEST, README, Refused, VERSION, names, photo_of};
use crate::digest::sha256;
use crate::row::Stored;

/// How a JPEG begins and ends.
const JPEG: ([u8; 3], [u8; 2]) = ([0xff, 0xd8, 0xff], [0xff, 0xd9]);

/// An archive that was found whole: one job with its photos.
pub struct Archive<R> {
    pack: Pack<R>,
    pub(super) job: JobId,
    pub(super) title: String,
    pub(super) lines: Vec<Stored>,
    pub(super) photos: Vec<PhotoHash>,
    files: BTreeMap<String, FileSays>,
}

impl<R: Read + Seek> Archive<R> {
    /// Reads the whole file, and refuses it with all that is wrong with it. Takes a second for some
    /// hundred photos, of which one at a time is held.
    pub fn open(read: R) -> Result<Self, Refused> {
        Self::open_within(read, &Limits::USUAL)
    }

    /// The same within other limits.
    pub fn open_within(read: R, limits: &Limits) -> Result<Self, Refused> {
        let (mut pack, strange) = Pack::open(read, limits)?;
        let manifest = match manifest(&mut pack) {
            Err(Refused::Damaged { mut damages }) => {
                damages.splice(0..0, strange);
                return Err(Refused::Damaged { damages });
            }
            manifest => manifest?,
        };
        if !strange.is_empty() {
            return Err(Refused::Damaged { damages: strange });
        }
        let mut found = Found::default();
        found.says(&manifest);
        found.files(&mut pack, &manifest);
        let lines = found.entries(limits);
        found.fits(&manifest, &lines);
        let job = JobId::new(&manifest.job);
        match (job, found.damages) {
            (Ok(job), damages) if damages.is_empty() => Ok(Self {
                pack,
                job,
                title: manifest.title,
                lines: lines.into_iter().map(|(stored, _)| stored).collect(),
                photos: found.photos.into_iter().collect(),
                files: found.wanted,
            }),
            (_, damages) => Err(Refused::Damaged { damages }),
        }
    }

    /// The job.
    pub fn job(&self) -> &JobId {
        &self.job
    }

    /// Craft and reason.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// How many entries the job has.
    pub fn entries(&self) -> usize {
        self.lines.len()
    }

    /// Its photos, by name.
    pub fn photos(&self) -> &[PhotoHash] {
        &self.photos
    }

    /// A photo of it, large and small, checked once more: the file may have changed meanwhile.
    pub(super) fn photo(&mut self, photo: &PhotoHash) -> Result<[Vec<u8>; 2], Refused> {
        let [large, small] = names(photo);
        Ok([self.again(&large)?, self.again(&small)?])
    }

    fn again(&mut self, name: &str) -> Result<Vec<u8>, Damage> {
        let bytes = self.pack.again(name)?;
        match self.files.get(name) {
            Some(wanted) if wanted.sha256 == sha256(&bytes) => Ok(bytes),
            _ => Err(Damage::Spoilt {
                name: name.to_owned(),
            }),
        }
    }
}

/// The manifest, when it is one of a version that is known here.
fn manifest<R: Read + Seek>(pack: &mut Pack<R>) -> Result<Manifest, Refused> {
    if !pack.names().contains(MANIFEST) {
        return Err(Damage::NoArchive.into());
    }
    let text = pack.unpack(MANIFEST)?;
    let unread = |why: serde_json::Error| Damage::Manifest {
        why: why.to_string(),
    };
    let head: Head = serde_json::from_slice(&text).map_err(unread)?;
    if head.format != FORMAT {
        let found = super::damage::shown(head.format.as_bytes());
        return Err(Damage::OtherFormat { found }.into());
    }
    if head.version > VERSION {
        return Err(Refused::Newer {
            found: head.version,
            known: VERSION,
        });
    }
    if head.version == 0 {
        let why = "there never was a version 0".to_owned();
        return Err(Damage::Manifest { why }.into());
    }
    Ok(serde_json::from_slice(&text).map_err(unread)?)
}

/// What was found while the files are gone through, and all that is wrong.
#[derive(Default)]
struct Found {
    damages: Vec<Damage>,
    wanted: BTreeMap<String, FileSays>,
    text: Vec<u8>,
    photos: BTreeSet<PhotoHash>,
}

impl Found {
    fn manifest(&mut self, why: impl Into<String>) {
        let why = why.into();
        self.damages.push(Damage::Manifest { why });
    }

    fn missing(&mut self, name: &str) {
        let name = name.to_owned();
        self.damages.push(Damage::Missing { name });
    }

    /// What the manifest says for itself.
    fn says(&mut self, manifest: &Manifest) {
        if let Err(why) = JobId::new(&manifest.job) {
            self.manifest(clause(&why));
        }
        if manifest.made_at.parse::<Timestamp>().is_err() {
            self.manifest("“made_at” is no time");
        }
        for photo in &manifest.photos_absent {
            if PhotoHash::new(photo).is_err() {
                self.manifest("“photos_absent” names what is no photo");
            }
        }
        for file in &manifest.files {
            let known = [README, ENTRIES].contains(&file.name.as_str());
            if !known && photo_of(&file.name).is_none() {
                let name = super::damage::shown(file.name.as_bytes());
                self.damages.push(Damage::Stranger { name });
            } else if self.wanted.contains_key(&file.name) {
                self.manifest(format!("it names “{}” twice", file.name));
            } else {
                self.wanted.insert(file.name.clone(), file.clone());
            }
        }
        for name in [README, ENTRIES] {
            if !self.wanted.contains_key(name) {
                self.manifest(format!("it does not name “{name}”"));
            }
        }
    }

    /// Every file against the manifest, and the manifest against the files.
    fn files<R: Read + Seek>(&mut self, pack: &mut Pack<R>, manifest: &Manifest) {
        let there = pack.names();
        for name in there.iter().filter(|name| *name != MANIFEST) {
            if !self.wanted.contains_key(name) {
                let name = name.clone();
                self.damages.push(Damage::Extra { name });
            }
        }
        for wanted in self.wanted.clone().into_values() {
            if !there.contains(&wanted.name) {
                self.missing(&wanted.name);
                continue;
            }
            match pack.unpack(&wanted.name) {
                Ok(content) => self.content(&wanted, content),
                Err(damage @ Damage::Vast { .. }) => {
                    self.damages.push(damage);
                    return;
                }
                Err(damage) => self.damages.push(damage),
            }
        }
        for photo in self.photos.clone() {
            for name in names(&photo) {
                if !self.wanted.contains_key(&name) {
                    self.missing(&name);
                }
            }
        }
        let absent = |photo: &&PhotoHash| {
            let mut absent = manifest.photos_absent.iter();
            absent.any(|absent| absent == photo.as_str())
        };
        if let Some(photo) = self.photos.iter().find(absent) {
            self.manifest(format!("it calls the photo {photo} absent, which is there"));
        }
    }

    /// One file against what the manifest says of it.
    fn content(&mut self, wanted: &FileSays, content: Vec<u8>) {
        let found = FileSays::of(&wanted.name, &content);
        let name = wanted.name.clone();
        if found.bytes != wanted.bytes {
            self.damages.push(Damage::Size {
                name,
                wanted: wanted.bytes,
                found: found.bytes,
            });
        } else if found.sha256 != wanted.sha256 {
            self.damages.push(Damage::Sum {
                name,
                wanted: wanted.sha256.clone(),
                found: found.sha256,
            });
        } else if let Some(photo) = photo_of(&name) {
            let large = names(&photo)[0] == name;
            if large && found.sha256 != photo.as_str() {
                self.damages.push(Damage::Sum {
                    name,
                    wanted: photo.to_string(),
                    found: found.sha256,
                });
            } else if !(content.starts_with(&JPEG.0) && content.ends_with(&JPEG.1)) {
                self.damages.push(Damage::NoPhoto { name });
            }
            self.photos.insert(photo);
        } else if name == ENTRIES {
            self.text = content;
        }
    }

    /// The entries, each line read through. None where the file itself is damaged.
    fn entries(&mut self, limits: &Limits) -> Vec<(Stored, Entry)> {
        let text = std::mem::take(&mut self.text);
        let (mut lines, mut ids) = (Vec::new(), BTreeMap::new());
        let mut rest = text.as_slice();
        let mut number = 0;
        while !rest.is_empty() {
            number += 1;
            let end = rest.iter().position(|byte| *byte == b'\n');
            let (line, behind) = rest.split_at(end.map_or(rest.len(), |end| end + 1));
            rest = behind;
            match read(line, number, limits) {
                Ok(read) => {
                    if let Some(earlier) = ids.insert(read.1.new.id.clone(), number) {
                        let why = format!("its id is that of line {earlier} too");
                        self.damages.push(Damage::Line { number, why });
                    }
                    lines.push(read);
                }
                Err(why) => self.damages.push(Damage::Line { number, why }),
            }
            if number > limits.entries {
                return lines;
            }
        }
        lines
    }

    /// The entries against the manifest and the photos.
    fn fits(&mut self, manifest: &Manifest, lines: &[(Stored, Entry)]) {
        if !self.damages.is_empty() {
            return;
        }
        let found = lines.len() as u64;
        if found != manifest.entries || found == 0 {
            let wanted = manifest.entries.max(1);
            self.damages.push(Damage::Entries { wanted, found });
            return;
        }
        if title(lines, &manifest.job) != manifest.title {
            self.manifest("its title is not that of the job");
        }
        let spoken: BTreeSet<&str> = lines.iter().flat_map(|(line, _)| hashes(line)).collect();
        for photo in &self.photos {
            if !spoken.contains(photo.as_str()) {
                let [name, _] = names(photo);
                self.damages.push(Damage::Unspoken { name });
            }
        }
    }
}

/// One line of the entries, or why it says nothing.
fn read(line: &[u8], number: u64, limits: &Limits) -> Result<(Stored, Entry), String> {
    if number > limits.entries {
        return Err(format!("an archive may have {} entries", limits.entries));
    }
    let line = line.strip_suffix(b"\n").ok_or("the line has no end")?;
    if line.len() as u64 > limits.line {
        let (found, most) = (line.len(), limits.line);
        return Err(format!(
            "it has {found} bytes, and an entry may have {most}"
        ));
    }
    let text = std::str::from_utf8(line)
        .map_err(|why| format!("byte {} is no UTF-8", why.valid_up_to() + 1))?;
    let line: Line<'_> = serde_json::from_str(text).map_err(|why| why.to_string())?;
    if line.position != number {
        return Err(format!(
            "its position is {} and must be {number}",
            line.position
        ));
    }
    line.stored()
}

/// The title the job was opened with; its id where none can be read.
pub(super) fn title(lines: &[(Stored, Entry)], job: &str) -> String {
    let title = lines.iter().find_map(|(_, entry)| match &entry.new.body {
        Body::JobOpened { title, .. } => Some(title.clone()),
        _ => None,
    });
    title.unwrap_or_else(|| job.to_owned())
}

/// What in a body may be the name of a photo, whichever kind of entry it is.
pub(super) fn hashes(line: &Stored) -> impl Iterator<Item = &str> {
    let digit = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
    let body = line.row.body.split(move |c| !digit(c));
    body.filter(|part| PhotoHash::new(part).is_ok())
}
