//! The whole store as one file, taken while others go on writing, and whether such a file is whole.

use std::path::Path;

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
    /// already is refused, whatever it holds.
    pub async fn backup(&self, file: &Path) -> Result<(), Error> {
        let there = || Error::FileThere {
            path: file.to_owned(),
        };
        if file.exists() {
            return Err(there());
        }
        let name = file.to_str().ok_or_else(|| Error::BadAddress {
            url: file.display().to_string(),
        })?;
        sqlx::query("VACUUM INTO $1")
            .bind(name)
            .execute(self.pool())
            .await?;
        Ok(())
    }

    /// Reads back all there is: the database's own check, every entry, every picture against its name.
    pub async fn whole(&self) -> Result<Whole, Error> {
        let found: Vec<String> = sqlx::query_scalar("PRAGMA integrity_check")
            .fetch_all(self.pool())
            .await?;
        if found != ["ok"] {
            return Err(Error::Broken {
                why: found.join("; "),
            });
        }
        let mut whole = Whole::default();
        for job in self.jobs().await? {
            whole.jobs += 1;
            whole.entries += self.entries(&job.id).await?.len();
        }
        for photo in self.photos().await? {
            self.photo(&photo, Size::Full).await?;
            self.photo(&photo, Size::Thumb).await?;
            whole.photos += 1;
        }
        Ok(whole)
    }
}
