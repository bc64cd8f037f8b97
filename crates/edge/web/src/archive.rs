//! A job whole in one file: given out, and taken in.
//!
//! Both ways the file lies on disk without a name while it is made or checked, and one photo of it is
//! in memory. So a damaged photo is told on a page instead of breaking a download off in its middle,
//! and nothing of an archive is believed before its last byte was read.

use std::fs::File;
use std::io::{self, BufReader, BufWriter, Read as _, Seek as _, Write as _};
use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::multipart::{Field, MultipartError, MultipartRejection};
use axum::extract::{Multipart, Path, State};
use axum::http::StatusCode;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_LENGTH, CONTENT_TYPE};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use report::page::archived::Came;
use report::page::problem::Problem;
use report::page::{FormName, Refused, Target, archived};
use store::archive::{Archive, Limits, Merged, Refused as Unfit, Told};
use tokio::sync::mpsc::{Receiver, Sender, channel};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::task::spawn_blocking;
use tokio_stream::wrappers::ReceiverStream;
use workshop::entry::JobId;

use crate::handlers::{answer, list, named, problem, trouble};
use crate::visitor::Visitor;
use crate::{Bench, LARGEST_FORM, route};

/// The most that a form with an archive may send, in bytes: a whole one, and the rest of the form.
pub(crate) const LARGEST_ARCHIVE: usize = (1 << 30) + LARGEST_FORM;
/// So many archives lie on the disk at once; who comes then waits.
const AT_ONCE: usize = 4;
/// Pieces of a file that wait to be written or sent.
const WAITING: usize = 16;
/// Bytes of a piece that is sent.
const PIECE: u64 = 64 * 1024;

/// Room for the archives that are under way.
#[derive(Clone, Debug)]
pub(crate) struct Shelf(Arc<Semaphore>);

impl Default for Shelf {
    fn default() -> Self {
        Self(Arc::new(Semaphore::new(AT_ONCE)))
    }
}

impl Shelf {
    async fn room(&self) -> Result<OwnedSemaphorePermit, Trouble> {
        let room = self.0.clone().acquire_owned().await;
        room.map_err(|_| Trouble::Problem(Problem::Failed))
    }
}

/// Why an archive is not given or taken.
enum Trouble {
    /// The archive is to blame, or the job is: in sentences, one a line.
    Refused(String),
    /// Nothing can be done.
    Problem(Problem),
}

impl From<store::Error> for Trouble {
    fn from(error: store::Error) -> Self {
        match error {
            store::Error::Archive(refused) => Self::Refused(refused.to_string()),
            store::Error::Crowded { .. } | store::Error::IdTaken { .. } => {
                Self::Refused(error.to_string())
            }
            store::Error::PhotoDamaged { .. } => Self::Problem(Problem::Damaged {
                why: error.to_string(),
            }),
            error => Self::Problem(problem(&error)),
        }
    }
}

impl From<Unfit> for Trouble {
    fn from(refused: Unfit) -> Self {
        store::Error::from(refused).into()
    }
}

impl From<Problem> for Trouble {
    fn from(problem: Problem) -> Self {
        Self::Problem(problem)
    }
}

/// The disk failed us.
impl From<io::Error> for Trouble {
    fn from(why: io::Error) -> Self {
        store::Error::ArchiveUnwritten { why }.into()
    }
}

impl From<MultipartError> for Trouble {
    fn from(error: MultipartError) -> Self {
        if error.status() == StatusCode::PAYLOAD_TOO_LARGE {
            return Self::Refused(format!(
                "The file has more than {} bytes, the most that an archive may have, so it was not \
                 taken in, and nothing was changed. Choose the archive of one job.",
                Limits::USUAL.bytes
            ));
        }
        Self::Problem(Problem::Unreadable)
    }
}

impl Trouble {
    /// The list of jobs, with the reason at the form for archives.
    async fn shown(self, bench: &Bench, visitor: &Visitor) -> Response {
        match self {
            Self::Problem(problem) => trouble(visitor, &problem),
            Self::Refused(why) => {
                let refused = Refused {
                    form: FormName::Archive,
                    typed: Vec::new(),
                    field: Some("archive"),
                    why,
                };
                list(bench, visitor, Some(&refused)).await
            }
        }
    }
}

/// Gives a job out whole.
pub(crate) async fn give(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    match packed(&bench, &job).await {
        Ok(given) => given,
        Err(trouble) => trouble.shown(&bench, &visitor).await,
    }
}

async fn packed(bench: &Bench, job: &str) -> Result<Response, Trouble> {
    let id = named(job)?;
    let room = bench.shelf.room().await?;
    let mut file = tempfile::tempfile()?;
    let into = BufWriter::new(&mut file);
    let archived = bench.store.archive(&id, Timestamp::now(), into).await?;
    if archived.is_none() {
        return Err(Problem::NoSuchJob { id: id.to_string() }.into());
    }
    let size = file.metadata()?.len();
    file.rewind()?;
    let (pieces, sent) = channel(WAITING);
    spawn_blocking(move || {
        send(&mut file, &pieces);
        drop(room);
    });
    // An id has no sign that a header could stumble over.
    let name = format!("attachment; filename=\"{id}.zip\"");
    let headers = [
        (CONTENT_TYPE, "application/zip".to_owned()),
        (CONTENT_LENGTH, size.to_string()),
        (CONTENT_DISPOSITION, name),
    ];
    Ok((headers, Body::from_stream(ReceiverStream::new(sent))).into_response())
}

/// Sends the file piece by piece, until it ends or nobody takes it any more.
fn send(file: &mut File, pieces: &Sender<io::Result<Bytes>>) {
    loop {
        let mut piece = Vec::new();
        let piece = match file.take(PIECE).read_to_end(&mut piece) {
            Ok(0) => return,
            Ok(_) => Ok(Bytes::from(piece)),
            Err(why) => Err(why),
        };
        let failed = piece.is_err();
        if pieces.blocking_send(piece).is_err() || failed {
            return;
        }
    }
}

/// Takes a job in, and answers with what that changed.
pub(crate) async fn take(
    State(bench): State<Bench>,
    visitor: Visitor,
    form: Result<Multipart, MultipartRejection>,
) -> Response {
    let Ok(form) = form else {
        return trouble(&visitor, &Problem::Unreadable);
    };
    match taken(&bench, form).await {
        Ok((job, came)) => visitor.remember(answer(&visitor, Ok(archived::page(&job, &came)))),
        Err(trouble) => trouble.shown(&bench, &visitor).await,
    }
}

/// The answer is no page of its own: whoever loads it again stands before the list.
pub(crate) async fn again() -> Redirect {
    Redirect::to(&route::link(&Target::Jobs))
}

async fn taken(bench: &Bench, mut form: Multipart) -> Result<(JobId, Came), Trouble> {
    let _room = bench.shelf.room().await?;
    while let Some(mut field) = form.next_field().await? {
        if field.file_name().is_none_or(str::is_empty) {
            pass(&mut field).await?;
            continue;
        }
        let mut archive = opened(field).await??;
        let merged = bench.store.take_in(&mut archive).await?;
        return Ok((merged.job.clone(), came(&merged)));
    }
    Err(Trouble::Refused(
        "No archive was chosen. Choose the file, then bring it in.".to_owned(),
    ))
}

/// Passes over what else a form sends.
async fn pass(field: &mut Field<'_>) -> Result<(), Trouble> {
    let mut size = 0;
    while let Some(piece) = field.chunk().await? {
        size += piece.len();
        if size > LARGEST_FORM {
            let most = LARGEST_FORM;
            return Err(Problem::TooLarge { most }.into());
        }
    }
    Ok(())
}

type Opened = Result<Archive<BufReader<File>>, Trouble>;

/// Puts what comes on the disk and checks it, beside the threads that answer.
async fn opened(mut field: Field<'_>) -> Result<Opened, Trouble> {
    let (pieces, waiting) = channel(WAITING);
    let reading = spawn_blocking(move || open(waiting));
    while let Some(piece) = field.chunk().await? {
        if pieces.send(piece).await.is_err() {
            break;
        }
    }
    drop(pieces);
    reading.await.map_err(|_| Problem::Failed.into())
}

fn open(mut pieces: Receiver<Bytes>) -> Opened {
    let mut file = tempfile::tempfile()?;
    while let Some(piece) = pieces.blocking_recv() {
        file.write_all(&piece)?;
    }
    Ok(Archive::open(BufReader::new(file))?)
}

/// What an archive brought in, as it is told.
pub fn came(merged: &Merged) -> Came {
    let told = |told: &[Told]| {
        let told = told.iter();
        told.map(|told| (told.position, told.kind.clone()))
            .collect()
    };
    Came {
        title: merged.title.clone(),
        begun: merged.begun,
        new: told(&merged.new),
        already: merged.already,
        apart: told(&merged.apart),
        photos: merged.photos,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is given out can be brought in.
    #[test]
    fn law_a_form_holds_the_largest_archive() {
        let most = usize::try_from(Limits::USUAL.bytes).unwrap();
        assert_eq!(LARGEST_ARCHIVE, most + LARGEST_FORM);
    }
}
