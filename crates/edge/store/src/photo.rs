//! Pictures by their content.

use std::collections::BTreeSet;

use sqlx::Row as _;
use workshop::photos::PhotoHash;

use crate::connect::in_time;
use crate::digest::sha256;
use crate::{Error, Store};

/// Which of the two pictures of a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// The picture itself.
    Full,
    /// The small one.
    Thumb,
}

impl Store {
    /// Keeps a picture with its small one, and tells its name. Kept again, it is written again: the
    /// same bytes, whole if they were damaged.
    pub async fn keep_photo(&self, picture: &[u8], thumb: &[u8]) -> Result<PhotoHash, Error> {
        let hash = sha256(picture);
        let name = PhotoHash::new(&hash)?;
        let keep = sqlx::query(
            "INSERT INTO photo (hash, thumb_hash, thumb, picture) VALUES ($1, $2, $3, $4) \
             ON CONFLICT (hash) DO UPDATE SET thumb_hash = excluded.thumb_hash, \
             thumb = excluded.thumb, picture = excluded.picture",
        )
        .bind(hash)
        .bind(sha256(thumb))
        .bind(thumb)
        .bind(picture);
        in_time(async { Ok(keep.execute(self.pool()).await?) }).await?;
        Ok(name)
    }

    /// The picture of this name, checked against it; none when it is not here.
    pub async fn photo(&self, photo: &PhotoHash, size: Size) -> Result<Option<Vec<u8>>, Error> {
        let select = match size {
            Size::Full => "SELECT hash, picture FROM photo WHERE hash = $1",
            Size::Thumb => "SELECT thumb_hash, thumb FROM photo WHERE hash = $1",
        };
        let select = sqlx::query(select).bind(photo.as_str());
        let row = in_time(async { Ok(select.fetch_optional(self.pool()).await?) }).await?;
        let Some(row) = row else { return Ok(None) };
        let (wanted, bytes): (String, Vec<u8>) = (row.try_get(0)?, row.try_get(1)?);
        if sha256(&bytes) != wanted {
            return Err(Error::PhotoDamaged {
                photo: photo.clone(),
            });
        }
        Ok(Some(bytes))
    }

    /// The names of the pictures that are here.
    pub async fn photos(&self) -> Result<BTreeSet<PhotoHash>, Error> {
        let select = sqlx::query_scalar("SELECT hash FROM photo");
        let names: Vec<String> =
            in_time(async { Ok(select.fetch_all(self.pool()).await?) }).await?;
        // A name that is none names nothing that anybody could ask for.
        let names = names.iter().filter_map(|name| PhotoHash::new(name).ok());
        Ok(names.collect())
    }
}
