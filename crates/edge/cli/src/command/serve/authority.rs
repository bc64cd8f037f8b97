//! The bench's own authority: made once, kept in a file that only its owner may read.

use std::fs::{File, OpenOptions};
use std::io::{ErrorKind, Read as _, Write as _};
use std::net::IpAddr;
use std::path::{Path, PathBuf};

use jiff::Timestamp;
use tokio::net::TcpListener;
use web::{Authority, Sealed};

use crate::error::{Error, Unread};
use crate::place::Place;

/// The authority and where it lies.
pub(super) struct Kept {
    pub(super) authority: Authority,
    path: PathBuf,
}

impl Kept {
    /// The one beside the store; a new one where there is none.
    pub(super) fn of(place: &Place, addresses: &[IpAddr]) -> Result<Self, Error> {
        Self::at(place.folder()?.join("authority.pem"), addresses)
    }

    fn at(path: PathBuf, addresses: &[IpAddr]) -> Result<Self, Error> {
        let bad = |why| Error::Authority {
            path: path.clone(),
            why,
        };
        let authority = match File::open(&path) {
            Ok(file) => Authority::read(&text(file, &path)?).map_err(bad)?,
            Err(error) if error.kind() == ErrorKind::NotFound => {
                let made = Authority::make(addresses).map_err(bad)?;
                write(&path, &made.write()).map_err(|why| Error::Unwritten {
                    path: path.clone(),
                    why,
                })?;
                made
            }
            Err(error) => return Err(unread(&path, error)),
        };
        Ok(Self { authority, path })
    }

    /// The listener for HTTPS at these addresses, with a certificate of today.
    pub(super) fn seal(self, listener: TcpListener, addresses: &[IpAddr]) -> Result<Sealed, Error> {
        let server = self.authority.server(addresses, Timestamp::now());
        let server = server.map_err(|why| Error::Authority {
            path: self.path,
            why,
        })?;
        Sealed::new(listener, server).map_err(Error::Network)
    }
}

fn unread(path: &Path, why: std::io::Error) -> Error {
    Error::Unread {
        path: path.to_owned(),
        why: Unread::System(why),
    }
}

fn text(mut file: File, path: &Path) -> Result<String, Error> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let about = file.metadata().map_err(|why| unread(path, why))?;
        if about.permissions().mode() & 0o077 != 0 {
            return Err(Error::Bare {
                path: path.to_owned(),
            });
        }
    }
    let mut text = String::new();
    let read = file.read_to_string(&mut text);
    read.map_err(|why| unread(path, why))?;
    Ok(text)
}

/// Writes a new file that only its owner may read. On Windows that is what a person's own folder gives.
fn write(path: &Path, text: &str) -> std::io::Result<()> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    let mut file = options.open(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_an_authority_is_made_once_and_kept_for_its_owner() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("authority.pem");
        let made = Kept::at(path.clone(), &[]).unwrap().authority;
        let again = Kept::at(path.clone(), &[]).unwrap().authority;
        assert_eq!(made.fingerprint(), again.fingerprint());
        #[cfg(unix)]
        {
            use std::fs::{Permissions, metadata, set_permissions};
            use std::os::unix::fs::PermissionsExt as _;
            assert_eq!(metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
            for mode in [0o640, 0o604, 0o666] {
                set_permissions(&path, Permissions::from_mode(mode)).unwrap();
                let refused = Kept::at(path.clone(), &[]).err().unwrap();
                assert!(matches!(refused, Error::Bare { .. }), "{mode:o}: {refused}");
            }
        }
    }

    #[test]
    fn law_a_spoilt_file_is_refused_and_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("authority.pem");
        write(&path, "no authority").unwrap();
        let refused = Kept::at(path.clone(), &[]).err().unwrap().to_string();
        assert!(
            refused.contains("it holds no authority of a bench")
                && refused.contains("Move the file away"),
            "{refused}"
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "no authority");
        assert!(write(&path, "another").is_err(), "nothing is overwritten");
    }
}
