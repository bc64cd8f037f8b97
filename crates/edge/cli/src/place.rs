//! Where the store lies.

use std::path::{Path, PathBuf};

use clap::Args;
use store::Store;

use crate::error::Error;

const HELP: &str = "The store: sqlite:FILE, or postgres://NAME@HOST/DATABASE on a server; else the bench in \
                    the system's data folder";
const LONG_HELP: &str = "The store: sqlite:FILE, or postgres://NAME@HOST/DATABASE on a server; else the bench in \
                         the system's data folder. A password need not stand in the address, where others can \
                         read it: it is also taken from PGPASSWORD and from the password file (.pgpass in the \
                         home folder, or the one that PGPASSFILE names).";

/// Which store.
#[derive(Args, Debug)]
pub(crate) struct Place {
    /// Which store, as an address
    #[arg(long, value_name = "URL", help = HELP, long_help = LONG_HELP)]
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

    /// Where the store lies, for a person: no password stands in it.
    pub(crate) fn shown(&self) -> Result<String, Error> {
        let shown = store::shown(&self.url()?);
        Ok(shown.trim_start_matches("sqlite:").to_owned())
    }

    /// The file the store is, or would be; none where a server keeps it.
    pub(crate) fn file(&self) -> Result<Option<PathBuf>, Error> {
        let url = self.url()?;
        let file = url.strip_prefix("sqlite:").filter(|file| !file.is_empty());
        let Some(file) = file.map(PathBuf::from) else {
            return Ok(None);
        };
        if self.store.is_none() {
            make_folder(&file)?;
        }
        Ok(Some(file))
    }

    /// The folder for what belongs to the bench and not into the store: that of its file, or the usual
    /// one where the store is no file.
    pub(crate) fn folder(&self) -> Result<PathBuf, Error> {
        let url = self.url()?;
        let file = match url.strip_prefix("sqlite:") {
            Some(file) => PathBuf::from(file),
            None => usual()?,
        };
        make_folder(&file)?;
        Ok(file.parent().map(Path::to_owned).unwrap_or_default())
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
