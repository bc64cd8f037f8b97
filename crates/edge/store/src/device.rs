//! Devices that were let in: known by the hash of a token that only the device has.

use jiff::Timestamp;
use sqlx::Row as _;

use crate::digest::sha256;
use crate::{Error, Store};

/// A device that was let in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Device {
    /// Its id, which is no secret.
    pub id: String,
    /// Its name, as the person gave it.
    pub name: String,
    /// When it was let in.
    pub paired_at: Timestamp,
    /// When it last asked for something, no finer than whoever calls [`Store::see_device`] wants it.
    pub seen_at: Timestamp,
    /// When it was removed.
    pub removed_at: Option<Timestamp>,
}

impl Store {
    /// Lets a device in. The token itself is not kept, only its hash; a name that another device has
    /// is refused.
    pub async fn let_in(&self, token: &str, device: &Device) -> Result<(), Error> {
        let inserted = sqlx::query(
            "INSERT INTO device (id, token_hash, name, paired_at, seen_at) \
             VALUES ($1, $2, $3, $4, $5)",
        )
        .bind(&device.id)
        .bind(sha256(token))
        .bind(&device.name)
        .bind(device.paired_at.to_string())
        .bind(device.seen_at.to_string())
        .execute(self.pool())
        .await;
        inserted.map_err(|error| named(error, &device.name))?;
        Ok(())
    }

    /// The device that has this token, removed or not. What is compared is the hash, so that the time it
    /// takes tells nothing of a token.
    pub async fn device_of(&self, token: &str) -> Result<Option<Device>, Error> {
        let row = sqlx::query(
            "SELECT id, name, paired_at, seen_at, removed_at FROM device WHERE token_hash = $1",
        )
        .bind(sha256(token))
        .fetch_optional(self.pool())
        .await?;
        row.as_ref().map(device).transpose()
    }

    /// The devices that may come in, the one let in first first.
    pub async fn devices(&self) -> Result<Vec<Device>, Error> {
        let rows = sqlx::query(
            "SELECT id, name, paired_at, seen_at, removed_at FROM device WHERE removed_at IS NULL",
        )
        .fetch_all(self.pool())
        .await?;
        let devices: Result<Vec<Device>, Error> = rows.iter().map(device).collect();
        let mut devices = devices?;
        devices.sort_by(|a, b| (a.paired_at, &a.id).cmp(&(b.paired_at, &b.id)));
        Ok(devices)
    }

    /// Notes that a device asked for something.
    pub async fn see_device(&self, id: &str, now: Timestamp) -> Result<(), Error> {
        sqlx::query("UPDATE device SET seen_at = $2 WHERE id = $1")
            .bind(id)
            .bind(now.to_string())
            .execute(self.pool())
            .await?;
        Ok(())
    }

    /// Gives a device another name; whether there is such a device. What it recorded keeps the old one.
    pub async fn rename_device(&self, id: &str, name: &str) -> Result<bool, Error> {
        let done = sqlx::query("UPDATE device SET name = $2 WHERE id = $1 AND removed_at IS NULL")
            .bind(id)
            .bind(name)
            .execute(self.pool())
            .await;
        let done = done.map_err(|error| named(error, name))?;
        Ok(done.rows_affected() > 0)
    }

    /// Removes a device; whether there was such a device. From now on its token lets nobody in.
    pub async fn remove_device(&self, id: &str, now: Timestamp) -> Result<bool, Error> {
        let done =
            sqlx::query("UPDATE device SET removed_at = $2 WHERE id = $1 AND removed_at IS NULL")
                .bind(id)
                .bind(now.to_string())
                .execute(self.pool())
                .await?;
        Ok(done.rows_affected() > 0)
    }
}

/// A name is the only thing of a device that a person chooses twice; ids and tokens are drawn.
fn named(error: sqlx::Error, name: &str) -> Error {
    let taken = error
        .as_database_error()
        .is_some_and(sqlx::error::DatabaseError::is_unique_violation);
    if taken {
        return Error::NameTaken {
            name: name.to_owned(),
        };
    }
    error.into()
}

fn device(row: &sqlx::any::AnyRow) -> Result<Device, Error> {
    let id: String = row.try_get("id")?;
    let time = |column: &'static str, text: &str| {
        text.parse()
            .map_err(|cause: jiff::Error| Error::DeviceDamaged {
                column,
                device: id.clone(),
                why: cause.to_string(),
            })
    };
    let (paired, seen): (String, String) = (row.try_get("paired_at")?, row.try_get("seen_at")?);
    let removed: Option<String> = row.try_get("removed_at")?;
    let removed = removed.map(|text| time("removed_at", &text)).transpose()?;
    Ok(Device {
        name: row.try_get("name")?,
        paired_at: time("paired_at", &paired)?,
        seen_at: time("seen_at", &seen)?,
        removed_at: removed,
        id,
    })
}
