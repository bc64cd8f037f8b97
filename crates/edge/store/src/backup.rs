//! The whole store as one file, taken while others go on writing, and whether such a file is whole.

use std::path::{Path, PathBuf};

use crate::connect::address::Kind;
use crate::{Error, Size, Store};

/// What a store was found to hold, every row of it read back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Whole {
    /// Jobs.
    pub jobs: usize,
    /// Entries of all of them.
    pub entries: usize,
    /// Photos.
    pub photos: usize,
}

impl Store {
    /// Writes all of it into a new file, as it is at one moment, while others go on writing. A file that is there
    /// already is refused, whatever it holds. The file is the same whichever database the store is in.
    pub async fn backup(&self, file: &Path) -> Result<(), Error> {
        let there = || Error::FileThere {
            path: file.to_owned(),
        };
        if file.exists() {
            return Err(there());
        }
        if self.kind() == Kind::Postgres {
            return self.backup_by_copy(file).await;
        }
        let name = file.to_str().ok_or_else(|| Error::BadAddress {
            shown: file.display().to_string(),
        })?;
        let written = sqlx::query("VACUUM INTO $1")
            .bind(name)
            .execute(self.pool())
            .await;
        if written.is_err() {
            // Half a backup must not be taken for one.
            let _ = std::fs::remove_file(file);
        }
        written?;
        Ok(())
    }

    /// A store in a file is filled beside the place, and its backup is ours.
    async fn backup_by_copy(&self, file: &Path) -> Result<(), Error> {
        let beside = beside(file, "");
        let written = async {
            let copy = Self::open(&format!("sqlite:{}", beside.display())).await?;
            let mut filled = copy.fill_from(self).await;
            if filled.is_ok() {
                filled = Box::pin(copy.backup(file)).await;
            }
            copy.close().await;
            filled
        };
        let written = written.await;
        for end in ["", "-wal", "-shm"] {
            let _ = std::fs::remove_file(self::beside(file, end));
        }
        written
    }

    /// Reads back all there is: a file's own check, every entry, every picture against its name.
    pub async fn whole(&self) -> Result<Whole, Error> {
        if self.kind() == Kind::Sqlite {
            self.sound().await?;
        }
        let mut whole = Whole::default();
        for job in self.jobs().await? {
            let entries = self.entries(&job.id).await?;
            if !(1..).zip(&entries).all(|(n, entry)| entry.position == n) {
                return Err(Error::Broken {
                    why: format!("the positions of the job {} have a gap", job.id),
                });
            }
            whole.jobs += 1;
            whole.entries += entries.len();
        }
        for photo in self.photos().await? {
            self.photo(&photo, Size::Full).await?;
            self.photo(&photo, Size::Thumb).await?;
            whole.photos += 1;
        }
        Ok(whole)
    }

    /// The check that `SQLite` has of its own. A server checks its pages as it reads them, where it was
    /// made so.
    async fn sound(&self) -> Result<(), Error> {
        let found: Vec<String> = sqlx::query_scalar("PRAGMA integrity_check")
            .fetch_all(self.pool())
            .await?;
        if found != ["ok"] {
            return Err(Error::Broken {
                why: found.join("; "),
            });
        }
        Ok(())
    }
}

fn beside(file: &Path, end: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(format!(".filling-{}{end}", std::process::id()));
    PathBuf::from(name)
}
