//! A log of any length, read while it comes in: no more of it than a piece is held.

use std::io::{self, BufReader, Read};

use axum::extract::multipart::{Field, MultipartError, MultipartRejection};
use axum::extract::{Multipart, Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use report::page::problem::Problem;
use report::page::{FormName, Refused, Target};
use sha2::{Digest, Sha256};
use tokio::sync::mpsc::{Receiver, channel};
use tokio::task::spawn_blocking;
use workshop::act::Act;
use workshop::draft::LogForm;
use workshop::entry::{Body, JobId, Key};
use workshop::water::Trialling;
use workshop::water::intake::{FileSays, Taken, known, logged, take_in};

use crate::act::Sent;
use crate::handlers::{Opened, open_named, problem, redrawn, trouble};
use crate::stamp::stamp;
use crate::visitor::Visitor;
use crate::{Bench, LARGEST_FORM, route};

/// The most that a form with a log may send, in bytes.
pub(crate) const LARGEST_LOG: usize = 2 << 30;
/// Pieces of a file that wait to be read.
const WAITING: usize = 16;
/// The longest name of a file that is kept.
const LONGEST_NAME: usize = 100;

/// Why a log is not taken.
enum Trouble {
    /// It, or what was said of it, is to blame.
    Refused(Box<Refused>),
    /// Nothing can be taken.
    Problem(Problem),
}

impl From<MultipartError> for Trouble {
    fn from(error: MultipartError) -> Self {
        Self::Problem(if error.status() == StatusCode::PAYLOAD_TOO_LARGE {
            Problem::TooLarge { most: LARGEST_LOG }
        } else {
            Problem::Unreadable
        })
    }
}

/// Reads a log into an outing.
pub(crate) async fn read(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    form: Result<Multipart, MultipartRejection>,
) -> Response {
    let Ok(form) = form else {
        return trouble(&visitor, &Problem::Unreadable);
    };
    let (id, opened) = match open_named(&bench, &job).await {
        Ok(found) => found,
        Err(problem) => return trouble(&visitor, &problem),
    };
    let water = Target::Water(id.clone());
    match receive(&bench, &visitor, (&id, &opened), form).await {
        Ok(()) => visitor.remember(Redirect::to(&route::link(&water)).into_response()),
        Err(Trouble::Problem(problem)) => trouble(&visitor, &problem),
        Err(Trouble::Refused(why)) => redrawn(&bench, &visitor, &id, &water, &why).await,
    }
}

async fn receive(
    bench: &Bench,
    visitor: &Visitor,
    (id, opened): (&JobId, &Opened),
    mut form: Multipart,
) -> Result<(), Trouble> {
    let mut sent = Sent::default();
    let mut found = None;
    while let Some(mut field) = form.next_field().await? {
        let name = field.name().unwrap_or_default().to_owned();
        if name != "log" {
            sent.0.push((name, text(&mut field).await?));
            continue;
        }
        let file: String = field.file_name().unwrap_or_default().to_owned();
        if file.is_empty() {
            continue;
        }
        let file: String = file.chars().take(LONGEST_NAME).collect();
        // What is said of the file stands before it in the form.
        let asked = LogForm::read(&sent.0)
            .map_err(|refusal| refused(&sent, &refusal.to_string(), refusal.field()))?;
        found = Some((
            file,
            stream(asked, known(&opened.when(&sent.get("id"))), field).await?,
        ));
    }
    let Some((name, (taken, file))) = found else {
        return Err(refused(
            &sent,
            "No log was chosen. Choose the file, then read it.",
            Some("log"),
        ));
    };
    let taken = taken.map_err(|why| {
        let said = LogForm::asks(&why);
        let mut sent = Sent(sent.0.clone());
        sent.0
            .retain(|(name, _)| !said.iter().any(|(asked, _)| asked == name));
        // A browser cannot choose a file by itself.
        let again = if said.is_empty() {
            ""
        } else {
            " Answer above, choose the file once more, and read it."
        };
        sent.0.extend(said);
        let why = sentence(&why.to_string());
        refused(&sent, &format!("{why}{again}"), Some("log"))
    })?;
    let said = Trialling::Log {
        outing: key(&sent, &sent.get("outing"))?,
        digest: key(&sent, &file.digest)?,
        log: std::sync::Arc::new(logged(
            &taken,
            FileSays {
                name,
                bytes: file.bytes,
            },
        )),
    };
    let stamp =
        stamp(&sent, visitor).map_err(|refusal| refused(&sent, &refusal.to_string(), None))?;
    let act = Act::Record(Body::Trialled(said));
    match bench.store.act(id, act, stamp, Timestamp::now()).await {
        Ok(_) => Ok(()),
        Err(store::Error::Refused(refusal)) => {
            Err(refused(&sent, &refusal.to_string(), refusal.field()))
        }
        Err(error @ store::Error::IdTaken { .. }) => Err(refused(&sent, &error.to_string(), None)),
        Err(error) => Err(Trouble::Problem(problem(&error))),
    }
}

fn key(sent: &Sent, text: &str) -> Result<Key, Trouble> {
    Key::new(text).map_err(|refusal| refused(sent, &refusal.to_string(), None))
}

fn refused(sent: &Sent, why: &str, field: Option<&'static str>) -> Trouble {
    Trouble::Refused(Box::new(Refused {
        form: FormName::Log,
        typed: sent.0.clone(),
        field,
        why: why.to_owned(),
    }))
}

/// `The file is empty: …`
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    let first = first.map_or_else(String::new, Iterator::collect);
    format!("{first}{}.", letters.as_str())
}

async fn text(field: &mut Field<'_>) -> Result<String, Trouble> {
    let mut bytes = Vec::new();
    while let Some(piece) = field.chunk().await? {
        if bytes.len() + piece.len() > LARGEST_FORM {
            return Err(Trouble::Problem(Problem::TooLarge { most: LARGEST_FORM }));
        }
        bytes.extend_from_slice(&piece);
    }
    String::from_utf8(bytes).map_err(|_| Trouble::Problem(Problem::Unreadable))
}

/// What is known of a file once all of it has come.
struct Whole {
    digest: String,
    bytes: u64,
}

type Came = (Result<Taken, trial::read::Refused>, Whole);

/// Reads the log beside the threads that answer, piece by piece as it comes.
async fn stream(asked: LogForm, known: Vec<String>, mut field: Field<'_>) -> Result<Came, Trouble> {
    let (pieces, waiting) = channel(WAITING);
    let reading = spawn_blocking(move || {
        let mut file = BufReader::new(Counted {
            pieces: waiting,
            piece: Vec::new(),
            at: 0,
            hash: Sha256::new(),
            bytes: 0,
        });
        let taken = take_in(&mut file, &asked.options, &asked.layout, &known);
        // The digest is of the whole file, read or not.
        let _ = io::copy(&mut file, &mut io::sink());
        let file = file.into_inner();
        let whole = Whole {
            digest: format!("{:x}", file.hash.finalize()),
            bytes: file.bytes,
        };
        (taken, whole)
    });
    while let Some(piece) = field.chunk().await? {
        if pieces.send(piece.to_vec()).await.is_err() {
            break;
        }
    }
    drop(pieces);
    reading.await.map_err(|_| Trouble::Problem(Problem::Failed))
}

/// The pieces as one file, counted and digested on the way.
struct Counted {
    pieces: Receiver<Vec<u8>>,
    piece: Vec<u8>,
    at: usize,
    hash: Sha256,
    bytes: u64,
}

impl Read for Counted {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        while self.at == self.piece.len() {
            let Some(piece) = self.pieces.blocking_recv() else {
                return Ok(0);
            };
            self.hash.update(&piece);
            self.bytes += piece.len() as u64;
            self.piece = piece;
            self.at = 0;
        }
        let some = &self.piece[self.at..];
        let count = some.len().min(into.len());
        into[..count].copy_from_slice(&some[..count]);
        self.at += count;
        Ok(count)
    }
}
