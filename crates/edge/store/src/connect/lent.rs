//! A connection taken from the others for several statements that belong together.

use sqlx::pool::PoolConnection;
use sqlx::{Any, AnyPool};

use crate::Error;

/// Goes back to the others only after all went well. One that failed, or was given up half-way, may still stand in
/// its transaction, and whoever got it next would read an old state: a full disk does that.
pub(crate) struct Lent {
    pub(crate) connection: PoolConnection<Any>,
    well: bool,
}

impl Lent {
    pub(crate) async fn from(pool: &AnyPool) -> Result<Self, Error> {
        let connection = pool.acquire().await?;
        Ok(Self {
            connection,
            well: false,
        })
    }

    /// All went well: others may have it.
    pub(crate) fn give_back(mut self) {
        self.well = true;
    }
}

impl Drop for Lent {
    fn drop(&mut self) {
        if !self.well {
            self.connection.close_on_drop();
        }
    }
}
