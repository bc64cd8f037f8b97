//! The ZIP under an archive: what is in it, checked before it is unpacked, and unpacked within limits.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Read, Seek, SeekFrom};

use zip::read::{ArchiveOffset, Config};
use zip::{CompressionMethod, ZipArchive, ZipReadOptions};

use super::damage::shown;
use super::{BEGINS, Damage, ENTRIES, FOLDER, Limits, MANIFEST, README, Refused, most, photo_of};

/// The record at the end of a ZIP that has no words behind it.
const END: usize = 22;
const END_BEGINS: [u8; 4] = *b"PK\x05\x06";
/// The fixed part of a file's record in the directory.
const RECORD: usize = 46;

pub(super) struct Pack<R> {
    zip: ZipArchive<R>,
    limits: Limits,
    /// Where each file stands in the ZIP.
    places: BTreeMap<String, usize>,
    /// Bytes unpacked so far.
    unpacked: u64,
}

impl<R: Read + Seek> Pack<R> {
    /// Reads the directory of the ZIP. Everything strange about it is told, and nothing of such a file
    /// is to be unpacked but its manifest.
    pub(super) fn open(mut read: R, limits: &Limits) -> Result<(Self, Vec<Damage>), Refused> {
        let directory = directory(&mut read, limits)?;
        let beginning = Config {
            archive_offset: ArchiveOffset::Known(0),
        };
        let zip = ZipArchive::with_config(beginning, read).map_err(|_| Damage::NoZip)?;
        let mut pack = Self {
            zip,
            limits: *limits,
            places: BTreeMap::new(),
            unpacked: 0,
        };
        let mut damages = pack.look();
        if pack.zip.has_duplicate_names() {
            // Which of the two is meant nobody knows, so nothing of it is unpacked.
            damages.extend(twice(&directory));
            return Err(Refused::Damaged { damages });
        }
        Ok((pack, damages))
    }

    /// Finds the places of the files, and what no file of an archive is like.
    fn look(&mut self) -> Vec<Damage> {
        let mut damages = Vec::new();
        let about = self.zip.metadata();
        for place in 0..about.len() {
            let Ok(file) = about.entry(place) else {
                damages.push(Damage::NoZip);
                continue;
            };
            let name = shown(file.name_raw());
            // Some programs note the folder itself; it has no content.
            if file.name_raw() == FOLDER.as_bytes() && file.size() == 0 {
                continue;
            }
            let known = [README, MANIFEST, ENTRIES].contains(&name.as_str());
            if !known && (photo_of(&name).is_none() || name.as_bytes() != file.name_raw()) {
                damages.push(Damage::Stranger { name });
            } else if file.encrypted() {
                damages.push(Damage::Locked { name });
            } else if file.is_symlink() {
                damages.push(Damage::Link { name });
            } else if !matches!(
                file.compression(),
                CompressionMethod::Stored | CompressionMethod::Deflated
            ) {
                damages.push(Damage::Packed { name });
            } else {
                self.places.insert(name, place);
            }
        }
        damages
    }

    /// The names of the files that can be unpacked.
    pub(super) fn names(&self) -> BTreeSet<String> {
        self.places.keys().cloned().collect()
    }

    /// Unpacks a file, and no more of it than it may have.
    pub(super) fn unpack(&mut self, name: &str) -> Result<Vec<u8>, Damage> {
        let most = most(name, &self.limits);
        let left = self.limits.bytes.saturating_sub(self.unpacked);
        let bytes = self.bytes(name, most.min(left))?;
        let size = bytes.len() as u64;
        self.unpacked += size;
        if size > left {
            let most = self.limits.bytes;
            return Err(Damage::Vast { most });
        }
        if size > most {
            let name = name.to_owned();
            return Err(Damage::Large { name, most });
        }
        Ok(bytes)
    }

    /// The same once more, of a file that was found good.
    pub(super) fn again(&mut self, name: &str) -> Result<Vec<u8>, Damage> {
        self.bytes(name, most(name, &self.limits))
    }

    /// One byte more than `most` where there is more.
    fn bytes(&mut self, name: &str, most: u64) -> Result<Vec<u8>, Damage> {
        let spoilt = || Damage::Spoilt {
            name: name.to_owned(),
        };
        let place = self.places.get(name).ok_or_else(|| Damage::Missing {
            name: name.to_owned(),
        })?;
        // What stands before a file must say the same of it as the directory does.
        let options = ZipReadOptions::new().enforce_header_consistency(true);
        let file = self.zip.by_index_with_options(*place, options);
        let mut bytes = Vec::new();
        let file = file.map_err(|_| spoilt())?;
        let read = file.take(most + 1).read_to_end(&mut bytes);
        read.map_err(|_| spoilt())?;
        Ok(bytes)
    }
}

/// The directory of the ZIP, when the file is one from its first byte to its last. Looked at before the
/// library reads it, because a directory may itself be made to fill the memory.
fn directory<R: Read + Seek>(read: &mut R, limits: &Limits) -> Result<Vec<u8>, Refused> {
    let bytes = read.seek(SeekFrom::End(0))?;
    if bytes > limits.bytes {
        let (found, most) = (bytes, limits.bytes);
        return Err(Damage::Heavy { found, most }.into());
    }
    let last = bytes.checked_sub(END as u64).ok_or(Damage::NoZip)?;
    let (mut begins, mut end) = ([0; 4], [0; END]);
    read.seek(SeekFrom::Start(0))?;
    read.read_exact(&mut begins)?;
    read.seek(SeekFrom::Start(last))?;
    read.read_exact(&mut end)?;
    let short = |at: usize| u64::from(u16::from_le_bytes([end[at], end[at + 1]]));
    let long = |at: usize| short(at) | short(at + 2) << 16;
    let (files, size, offset) = (short(10), long(12), long(16));
    let one_disk = short(4) == 0 && short(6) == 0 && short(8) == files;
    let whole = end.starts_with(&END_BEGINS) && offset + size == last && short(20) == 0;
    if begins != BEGINS || !one_disk || !whole {
        return Err(Damage::NoZip.into());
    }
    if files > limits.files {
        let (found, most) = (files, limits.files);
        return Err(Damage::ManyFiles { found, most }.into());
    }
    let mut directory = Vec::new();
    read.seek(SeekFrom::Start(offset))?;
    read.take(size).read_to_end(&mut directory)?;
    Ok(directory)
}

/// The names that stand in the directory more than once.
fn twice(directory: &[u8]) -> Vec<Damage> {
    let (mut seen, mut twice, mut rest) = (BTreeSet::new(), BTreeSet::new(), directory);
    while let Some((record, behind)) = rest.split_at_checked(RECORD) {
        let length = |at: usize| usize::from(u16::from_le_bytes([record[at], record[at + 1]]));
        let Some((name, behind)) = behind.split_at_checked(length(28)) else {
            break;
        };
        if !seen.insert(name) {
            twice.insert(shown(name));
        }
        rest = behind.get(length(30) + length(32)..).unwrap_or_default();
    }
    let twice = twice.into_iter();
    twice.map(|name| Damage::Twice { name }).collect()
}
