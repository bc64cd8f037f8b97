//! Photos: taken in by a form, given out by their content.

use std::sync::Arc;

use axum::extract::multipart::{Field, MultipartError, MultipartRejection};
use axum::extract::{Multipart, Path, State};
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use picture::{Kept, MOST_BYTES, MOST_MEGAPIXELS, Photo};
use report::page::problem::Problem;
use report::page::{FormName, Page, Refused};
use store::Size;
use tokio::sync::Semaphore;
use workshop::act::{Act, Stamp};
use workshop::draft::photos::subject;
use workshop::entry::{Body, EntryId, JobId};
use workshop::photos::{self, PhotoHash, Photography, Subject};
use workshop::refusal::Refusal;

use crate::act::Sent;
use crate::handlers::{open_named, problem, redrawn, trouble};
use crate::stamp::stamp;
use crate::visitor::Visitor;
use crate::{Bench, LARGEST_FORM, route};

/// The most photos sent at once.
const MOST_AT_ONCE: usize = 20;
/// The most that a form of photos may send, in bytes; one photo of it is held at a time.
pub(crate) const LARGEST_UPLOAD: usize = MOST_AT_ONCE * MOST_BYTES + LARGEST_FORM;
/// The longest name of a file that is said back.
const LONGEST_NAME: usize = 60;

/// So many megapixels are unpacked at once: two or three photos of a phone, or one large one.
#[derive(Clone, Debug)]
pub(crate) struct Darkroom(Arc<Semaphore>);

impl Default for Darkroom {
    fn default() -> Self {
        Self(Arc::new(Semaphore::new(MOST_MEGAPIXELS as usize)))
    }
}

impl Darkroom {
    /// What is kept of a photo, worked out beside the threads that answer.
    async fn develop(&self, bytes: Vec<u8>) -> Result<Kept, Trouble> {
        let photo = Photo::open(bytes).map_err(|refused| Trouble::Refused(refused.to_string()))?;
        let room = self.0.clone().acquire_many_owned(photo.megapixels()).await;
        let room = room.map_err(|_| Trouble::Problem(Problem::Failed))?;
        let kept = tokio::task::spawn_blocking(move || {
            let kept = photo.keep();
            drop(room);
            kept
        });
        let kept = kept.await.map_err(|_| Trouble::Problem(Problem::Failed))?;
        kept.map_err(|refused| Trouble::Refused(refused.to_string()))
    }
}

/// Why a photo is not taken.
enum Trouble {
    /// It is to blame itself, and the others may be taken.
    Refused(String),
    /// Nothing can be taken.
    Problem(Problem),
}

impl From<MultipartError> for Trouble {
    fn from(error: MultipartError) -> Self {
        Self::Problem(if error.status() == StatusCode::PAYLOAD_TOO_LARGE {
            Problem::TooLarge {
                most: LARGEST_UPLOAD,
            }
        } else {
            Problem::Unreadable
        })
    }
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal.to_string())
    }
}

impl From<store::Error> for Trouble {
    fn from(error: store::Error) -> Self {
        match error {
            store::Error::Refused(refusal) => refusal.into(),
            error @ store::Error::IdTaken { .. } => Self::Refused(error.to_string()),
            error => Self::Problem(problem(&error)),
        }
    }
}

/// Takes photos into a job, each as an entry of its own. One that is refused does not keep out the
/// others, because a browser cannot choose them again.
pub(crate) async fn take(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    form: Result<Multipart, MultipartRejection>,
) -> Response {
    let Ok(form) = form else {
        return trouble(&visitor, &Problem::Unreadable);
    };
    let id = match open_named(&bench, &job).await {
        Ok((id, _)) => id,
        Err(problem) => return trouble(&visitor, &problem),
    };
    let taken = match receive(&bench, &visitor, &id, form).await {
        Ok(taken) => taken,
        Err(problem) => return trouble(&visitor, &problem),
    };
    let back = route::back(&id, &taken.sent.get("back"));
    let Some(why) = taken.why() else {
        return visitor.remember(Redirect::to(&route::link(&back)).into_response());
    };
    let mut typed = taken.sent.0;
    // The page stays at the step that the photo was for.
    let of = typed.iter().find(|(name, _)| name == "subject");
    if let Some(Ok(Subject::Step(step))) = of.map(|(_, of)| Subject::read(of)) {
        typed.push(("step".to_owned(), step.to_string()));
    }
    let refused = Refused {
        form: FormName::Photo,
        typed,
        field: Some("photo"),
        why,
    };
    redrawn(&bench, &visitor, &id, &back, &refused).await
}

/// What became of a form of photos.
#[derive(Default)]
struct Taken {
    sent: Sent,
    kept: Vec<PhotoHash>,
    refused: Vec<String>,
}

impl Taken {
    /// Why not all of it was taken.
    fn why(&self) -> Option<String> {
        match (self.kept.len(), self.refused.is_empty()) {
            (0, true) => {
                Some("No photo was chosen. Take one, or choose some, then send them.".to_owned())
            }
            (_, true) => None,
            (0, false) => Some(self.refused.join(" ")),
            (1, false) => Some(format!(
                "{} The other photo is kept.",
                self.refused.join(" ")
            )),
            (n, false) => Some(format!(
                "{} The other {n} photos are kept.",
                self.refused.join(" ")
            )),
        }
    }
}

/// Reads the form part by part; the words stand before the photos in it.
async fn receive(
    bench: &Bench,
    visitor: &Visitor,
    job: &JobId,
    mut form: Multipart,
) -> Result<Taken, Problem> {
    let mut taken = Taken::default();
    let mut files = 0;
    while let Some(field) = form.next_field().await.map_err(of_form)? {
        let name = field.name().unwrap_or_default().to_owned();
        let Some(file) = field.file_name().map(shortened) else {
            let (text, size) = held(field, LARGEST_FORM).await.map_err(of_form)?;
            if size > LARGEST_FORM {
                return Err(Problem::TooLarge { most: LARGEST_FORM });
            }
            let text = String::from_utf8(text).map_err(|_| Problem::Unreadable)?;
            taken.sent.0.push((name, text));
            continue;
        };
        let (bytes, size) = held(field, MOST_BYTES).await.map_err(of_form)?;
        // A field that nothing was chosen for comes as a file without a name.
        if file.is_empty() && size == 0 {
            continue;
        }
        files += 1;
        if files > MOST_AT_ONCE {
            let why =
                format!("More than {MOST_AT_ONCE} photos at once: send the rest after these.");
            taken.refused.push(why);
            break;
        }
        let done = if size > MOST_BYTES {
            let refused = picture::Refused::Heavy { bytes: size };
            Err(Trouble::Refused(refused.to_string()))
        } else {
            one(bench, visitor, job, (&taken, files), bytes).await
        };
        match done {
            Ok(Some(photo)) => taken.kept.push(photo),
            Ok(None) => {}
            Err(Trouble::Refused(why)) if file.is_empty() => taken.refused.push(why),
            Err(Trouble::Refused(why)) => taken.refused.push(format!("{file}: {why}")),
            Err(Trouble::Problem(problem)) => return Err(problem),
        }
    }
    Ok(taken)
}

/// Keeps one photo and says so in the journal; none when it came twice in one form. The picture is
/// kept first, so that an entry never names one that is not there.
async fn one(
    bench: &Bench,
    visitor: &Visitor,
    job: &JobId,
    (taken, number): (&Taken, usize),
    bytes: Vec<u8>,
) -> Result<Option<PhotoHash>, Trouble> {
    let sent = &taken.sent;
    let subject = subject(&sent.get("subject"))?;
    let stamp = stamp(sent, visitor)?;
    let stamp = Stamp {
        id: EntryId::new(&format!("{}-{number}", stamp.id))?,
        ..stamp
    };
    let kept = bench.darkroom.develop(bytes).await?;
    let photo = bench.store.keep_photo(&kept.picture, &kept.thumb).await?;
    if taken.kept.contains(&photo) {
        return Ok(None);
    }
    let said = photos::Photo {
        width: kept.width,
        height: kept.height,
        subject,
        words: words(&sent.get("words")),
    };
    let act = Act::Record(Body::Photographed(Photography::Taken {
        photo: photo.clone(),
        said,
    }));
    let at = Timestamp::now();
    bench.store.act(job, act, stamp, at).await?;
    Ok(Some(photo))
}

/// Words as a person typed them, with the line ends of a form made plain.
pub(crate) fn words(text: &str) -> String {
    text.replace("\r\n", "\n").trim().to_owned()
}

/// The bytes of a part as far as `most`, and how many it has.
async fn held(mut field: Field<'_>, most: usize) -> Result<(Vec<u8>, usize), MultipartError> {
    let (mut bytes, mut size) = (Vec::new(), 0);
    while let Some(piece) = field.chunk().await? {
        size += piece.len();
        if size <= most {
            bytes.extend_from_slice(&piece);
        }
    }
    Ok((bytes, size))
}

fn of_form(error: MultipartError) -> Problem {
    match error.into() {
        Trouble::Problem(problem) => problem,
        Trouble::Refused(_) => Problem::Unreadable,
    }
}

fn shortened(name: &str) -> String {
    name.chars().take(LONGEST_NAME).collect()
}

/// One photo on a page.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path((job, photo)): Path<(String, String)>,
) -> Response {
    let Ok(photo) = PhotoHash::new(&photo) else {
        return trouble(&visitor, &Problem::NoSuchPage);
    };
    let page = open_named(&bench, &job).await;
    let page = page.map(|(id, opened)| opened.photo(&id, &photo, None));
    bench.answer(&visitor, page).await
}

pub(crate) async fn full(State(bench): State<Bench>, Path(photo): Path<String>) -> Response {
    give(&bench, &photo, Size::Full).await
}

pub(crate) async fn thumb(State(bench): State<Bench>, Path(photo): Path<String>) -> Response {
    give(&bench, &photo, Size::Thumb).await
}

/// The picture of this name, which never changes.
async fn give(bench: &Bench, photo: &str, size: Size) -> Response {
    let Ok(photo) = PhotoHash::new(photo) else {
        return none();
    };
    match bench.store.photo(&photo, size).await {
        Ok(Some(bytes)) => {
            let headers = [
                (CONTENT_TYPE, "image/jpeg"),
                (CACHE_CONTROL, "private, max-age=31536000, immutable"),
            ];
            (headers, bytes).into_response()
        }
        Ok(None) => none(),
        Err(error) => {
            let _ = problem(&error);
            (StatusCode::INTERNAL_SERVER_ERROR, format!("{error}\n")).into_response()
        }
    }
}

fn none() -> Response {
    (StatusCode::NOT_FOUND, "This photo is not on this bench.\n").into_response()
}

impl Bench {
    /// The page, with every photo that is on this bench.
    pub(crate) async fn pictured(&self, mut page: Page) -> Result<Page, Problem> {
        let shots = page.shots();
        if shots.is_empty() {
            return Ok(page);
        }
        let here = self.store.photos().await;
        let here = here.map_err(|error| problem(&error))?;
        for shot in shots {
            shot.here = here.contains(&shot.photo);
        }
        Ok(page)
    }
}

#[cfg(test)]
mod tests {
    /// What is kept is never larger than what an entry may say.
    #[test]
    fn law_a_kept_picture_fits_its_entry() {
        assert_eq!(picture::LONGEST_EDGE, workshop::decide::LONGEST_EDGE);
    }
}
