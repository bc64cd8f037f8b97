//! Where the store lies.

use std::path::{Path, PathBuf};

use clap::Args;
use store::Store;

use crate::error::Error;

/// Which store.
#[derive(Args, Debug)]
pub(crate) struct Place {
    /// The store, as sqlite:FILE; else the bench in the system's data folder
    #[arg(long, value_name = "URL")]
    store: Option<String>,
}

impl Place {
    /// The store's address.
    pub(crate) fn url(&self) -> Result<String, Error> {
        match &self.store {
            Some(url) => Ok(url.clone()),
            None => Ok(format!("sqlite:{}", usual()?.display())),
        }
    }

    /// The file the store is, or would be.
    pub(crate) fn file(&self) -> Result<PathBuf, Error> {
        let url = self.url()?;
        let file = url.strip_prefix("sqlite:").filter(|file| !file.is_empty());
        let file = file
            .map(PathBuf::from)
            .ok_or(store::Error::BadAddress { url: url.clone() })?;
        if self.store.is_none() {
            make_folder(&file)?;
        }
        Ok(file)
    }

    /// Opens the store, and makes it where there is none.
    pub(crate) async fn open(&self) -> Result<Store, Error> {
        if self.store.is_none() {
            make_folder(&usual()?)?;
        }
        Ok(Store::open(&self.url()?).await?)
    }

    /// Opens the store to look into it: none is made where there is none.
    pub(crate) async fn look(&self) -> Result<Store, Error> {
        let url = self.url()?;
        if url
            .strip_prefix("sqlite:")
            .is_some_and(|file| !Path::new(file).exists())
        {
            return Err(Error::NoStore { url });
        }
        Ok(Store::open(&url).await?)
    }
}

fn make_folder(file: &Path) -> Result<(), Error> {
    let Some(folder) = file.parent() else {
        return Ok(());
    };
    std::fs::create_dir_all(folder).map_err(|why| Error::NoFolder {
        path: folder.to_owned(),
        why,
    })
}

/// The bench of this person on this machine.
fn usual() -> Result<PathBuf, Error> {
    let data = dirs::data_dir().ok_or(Error::NoDataFolder)?;
    Ok(data.join("pumpwright").join("bench.sqlite"))
}
