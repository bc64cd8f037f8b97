//! The devices page: who may come in, and how another one does.

use axum::extract::rejection::FormRejection;
use axum::extract::{Extension, Form, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use report::page::devices::{self, Denied, Line, Number, Reader, View};
use report::page::problem::Problem;
use report::page::{FormName, Target};

use crate::act::Sent;
use crate::handlers::{problem, show, trouble, unreadable};
use crate::pair::{Peer, Standing, refused};
use crate::visitor::Visitor;
use crate::{Bench, route};

type Fields = Result<Form<Vec<(String, String)>>, FormRejection>;

pub(crate) async fn page(
    State(bench): State<Bench>,
    Extension(peer): Extension<Peer>,
    visitor: Visitor,
) -> Response {
    drawn(&bench, (&peer, &visitor), None).await
}

async fn drawn(
    bench: &Bench,
    (peer, visitor): (&Peer, &Visitor),
    denied: Option<(FormName, &Sent, &Denied)>,
) -> Response {
    let devices = match bench.store.devices().await {
        Ok(devices) => devices,
        Err(error) => return trouble(visitor, &problem(&error)),
    };
    let line = |device: store::Device| Line {
        id: device.id,
        name: device.name,
        paired: route::moment(device.paired_at),
        seen: route::moment(device.seen_at),
    };
    let lines: Vec<Line> = devices.into_iter().map(line).collect();
    let refusal = denied.map(|(form, sent, why)| refused(form, sent, why));
    let lan = lan(bench).await;
    let page = devices::page(&View {
        reader: match peer {
            Peer::Device(device) => Reader::Device(&device.id),
            _ => Reader::Bench,
        },
        lan: lan.as_ref(),
        devices: &lines,
        refused: refusal.as_ref(),
    });
    match denied {
        Some((_, _, why)) => {
            let status = match why {
                Denied::OnlyAtTheBench => StatusCode::FORBIDDEN,
                _ => StatusCode::UNPROCESSABLE_ENTITY,
            };
            show(visitor, &page.telling(&why.to_string()), status)
        }
        None => show(visitor, &page, StatusCode::OK),
    }
}

/// How other devices come in, as it is now.
async fn lan(bench: &Bench) -> Option<devices::Lan> {
    let lan = bench.lan.as_ref()?;
    let number = match lan.numbers.lock().await.standing(Timestamp::now()) {
        Standing::None => Number::None,
        Standing::Used => Number::Used,
        Standing::Expired => Number::Expired,
        Standing::Void => Number::Void,
        Standing::Open { digits, minutes } => Number::Open {
            links: lan.tickets(&digits),
            digits,
            minutes,
        },
    };
    Some(devices::Lan {
        addresses: lan.links(),
        secure: lan.seal.is_some(),
        plain: lan.plain_links(),
        number,
    })
}

/// Opens a pairing number: at the bench only.
pub(crate) async fn number(
    State(bench): State<Bench>,
    Extension(peer): Extension<Peer>,
    visitor: Visitor,
) -> Response {
    if !matches!(peer, Peer::Bench) {
        let denied = (
            FormName::PairingNumber,
            &Sent::default(),
            &Denied::OnlyAtTheBench,
        );
        return drawn(&bench, (&peer, &visitor), Some(denied)).await;
    }
    if let Some(lan) = &bench.lan
        && lan.ask().await.is_err()
    {
        return trouble(&visitor, &Problem::Failed);
    }
    back()
}

/// Gives a device another name: at the bench any, at a device itself.
pub(crate) async fn rename(
    State(bench): State<Bench>,
    Extension(peer): Extension<Peer>,
    visitor: Visitor,
    form: Fields,
) -> Response {
    answered(&bench, (&peer, &visitor), (FormName::RenameDevice, form)).await
}

async fn renamed(bench: &Bench, peer: &Peer, sent: &Sent) -> Result<bool, Trouble> {
    let id = theirs(peer, sent)?;
    let name = devices::name(&sent.get("name"))?;
    Ok(bench.store.rename_device(&id, &name).await?)
}

/// Removes a device: at the bench any, at a device itself.
pub(crate) async fn remove(
    State(bench): State<Bench>,
    Extension(peer): Extension<Peer>,
    visitor: Visitor,
    form: Fields,
) -> Response {
    answered(&bench, (&peer, &visitor), (FormName::RemoveDevice, form)).await
}

async fn removed(bench: &Bench, peer: &Peer, sent: &Sent) -> Result<bool, Trouble> {
    let id = theirs(peer, sent)?;
    Ok(bench.store.remove_device(&id, Timestamp::now()).await?)
}

/// Does what a form asks for, and shows what came of it.
async fn answered(
    bench: &Bench,
    who: (&Peer, &Visitor),
    (name, form): (FormName, Fields),
) -> Response {
    let sent = match form {
        Ok(Form(fields)) => Sent(fields),
        Err(rejection) => return trouble(who.1, &unreadable(&rejection)),
    };
    let done = match name {
        FormName::RenameDevice => renamed(bench, who.0, &sent).await,
        _ => removed(bench, who.0, &sent).await,
    };
    let denied = match done {
        Ok(true) => return back(),
        Ok(false) => Denied::Gone,
        Err(Trouble::Denied(denied)) => denied,
        Err(Trouble::Failed(error)) => return trouble(who.1, &problem(&error)),
    };
    drawn(bench, who, Some((name, &sent, &denied))).await
}

/// The device a form is about, if whoever asks may touch it.
fn theirs(peer: &Peer, sent: &Sent) -> Result<String, Denied> {
    let id = sent.get("device");
    match peer {
        Peer::Bench => Ok(id),
        Peer::Device(device) if device.id == id => Ok(id),
        _ => Err(Denied::OnlyAtTheBench),
    }
}

enum Trouble {
    Denied(Denied),
    Failed(store::Error),
}

impl From<Denied> for Trouble {
    fn from(denied: Denied) -> Self {
        Self::Denied(denied)
    }
}

impl From<store::Error> for Trouble {
    fn from(error: store::Error) -> Self {
        match error {
            store::Error::NameTaken { name } => Self::Denied(Denied::NameTaken { name }),
            error => Self::Failed(error),
        }
    }
}

fn back() -> Response {
    Redirect::to(&route::link(&Target::Devices)).into_response()
}
