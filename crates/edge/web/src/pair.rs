//! Letting devices in: the pairing number, the session, and what a stranger sees.
//!
//! Whoever calls from this machine is the bench itself. Everybody else shows the token of a paired
//! device with each request, or sees the pairing page and nothing else.

use std::hint::black_box;

use axum::body::to_bytes;
use axum::extract::rejection::FormRejection;
use axum::extract::{Extension, Form, Query, Request, State};
use axum::http::header::{CONTENT_TYPE, SET_COOKIE, USER_AGENT};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::{SignedDuration, Timestamp};
use report::page::devices::{self, Denied, Kept, MINUTES, PairView, TRIES};
use report::page::{FormName, Refused};
use store::Device;

use crate::act::Sent;
use crate::handlers::{problem, show, trouble, unreadable};
use crate::lan::Entrance;
use crate::visitor::{Visitor, cookie, random_id};
use crate::{Bench, LARGEST_FORM, assets, guard, lan, route, trust};

/// The system gives no random numbers; without them nobody can be let in safely.
#[derive(Debug)]
pub struct NoRandomness;

/// The pairing number: one at most, for one device, for a while, for a few tries.
#[derive(Debug, Default)]
pub(crate) struct Numbers {
    last: Option<Asked>,
}

#[derive(Debug)]
struct Asked {
    digits: String,
    until: Timestamp,
    wrong: u32,
    used: bool,
}

/// The largest multiple of a million that 32 bits hold: above it digits would not be equally likely.
const FAIR: u32 = 4_294_000_000;

impl Numbers {
    /// Draws a number, which takes the place of the one before.
    pub(crate) fn ask(&mut self, now: Timestamp) -> Result<String, NoRandomness> {
        let drawn = loop {
            let drawn = getrandom::u32().map_err(|_| NoRandomness)?;
            if drawn < FAIR {
                break drawn;
            }
        };
        let digits = format!("{:06}", drawn % 1_000_000);
        self.last = Some(Asked {
            digits: digits.clone(),
            until: now + SignedDuration::from_mins(MINUTES),
            wrong: 0,
            used: false,
        });
        Ok(digits)
    }

    /// Whether these are the digits. A wrong try is counted; a right one is not spent yet.
    fn check(&mut self, digits: &str, now: Timestamp) -> Result<(), Denied> {
        let asked = self.last.as_mut().filter(|asked| !asked.used);
        let asked = asked.ok_or(Denied::NoneOpen)?;
        if asked.wrong >= TRIES {
            return Err(Denied::Void);
        }
        if now >= asked.until {
            return Err(Denied::NoneOpen);
        }
        if same(&asked.digits, digits) {
            return Ok(());
        }
        asked.wrong += 1;
        match TRIES - asked.wrong {
            0 => Err(Denied::Void),
            left => Err(Denied::Wrong { left }),
        }
    }

    fn spend(&mut self) {
        if let Some(asked) = &mut self.last {
            asked.used = true;
        }
    }

    /// How the number stands, for the page at the bench: its digits and whole minutes left.
    pub(crate) fn standing(&self, now: Timestamp) -> Standing {
        match &self.last {
            None => Standing::None,
            Some(asked) if asked.used => Standing::Used,
            Some(asked) if asked.wrong >= TRIES => Standing::Void,
            Some(asked) if now >= asked.until => Standing::Expired,
            Some(asked) => Standing::Open {
                digits: asked.digits.clone(),
                minutes: (asked.until.duration_since(now).as_secs() / 60).max(1),
            },
        }
    }
}

/// How the number stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Standing {
    None,
    Open { digits: String, minutes: i64 },
    Used,
    Expired,
    Void,
}

/// Compares every digit whatever the first ones were, so that time tells nothing.
fn same(a: &str, b: &str) -> bool {
    let pairs = a.bytes().zip(b.bytes());
    a.len() == b.len() && pairs.fold(0, |unlike, (a, b)| black_box(unlike | (a ^ b))) == 0
}

/// Who asks.
#[derive(Clone, Debug)]
pub(crate) enum Peer {
    /// The machine the bench runs on.
    Bench,
    /// A paired device.
    Device(Device),
    /// Nobody known; a device that was removed brings along when.
    Stranger { removed: Option<Timestamp> },
}

/// All that a stranger may ask for: the pairing page with the files it needs, and to be let in.
fn for_strangers(method: &Method, path: &str) -> bool {
    match *method {
        Method::GET => path == route::PAIR || assets::is_one(path),
        Method::POST => path == "/act/pair",
        _ => false,
    }
}

/// How coarsely the store knows when a device was seen, so that not every request is a write.
const COARSE: SignedDuration = SignedDuration::from_mins(10);

/// Lets pass who may pass, and tells the handlers who it is. Strangers see the pairing page, whatever
/// they ask for, and cannot tell what is there from what is not.
pub(crate) async fn admit(
    State(bench): State<Bench>,
    mut request: Request,
    next: Next,
) -> Response {
    let here = lan::is_here(&request) && guard::names_loopback(&request);
    let seal = bench.lan.as_ref().and_then(|lan| lan.seal.as_ref());
    if let (Some(seal), Entrance::Plain, false) = (seal, bench.entrance, here) {
        let host = guard::host(&request).unwrap_or_default();
        let told = trust::answer(seal, host, (request.method(), request.uri()));
        return match told {
            Some(response) => response,
            None => next.run(request).await,
        };
    }
    let token = cookie(request.headers(), session(bench.entrance));
    let peer = match who(&bench, here, token).await {
        Ok(peer) => peer,
        Err(error) => return trouble(&Visitor::stranger(), &problem(&error)),
    };
    if let Peer::Stranger { removed } = peer
        && !for_strangers(request.method(), request.uri().path())
    {
        let kept = match removed {
            Some(_) => typed(request).await,
            None => Vec::new(),
        };
        let view = PairView {
            removed: removed.map(route::moment),
            kept,
            ..PairView::default()
        };
        return shown(&view, StatusCode::FORBIDDEN);
    }
    request.extensions_mut().insert(peer);
    next.run(request).await
}

async fn who(bench: &Bench, here: bool, token: Option<String>) -> Result<Peer, store::Error> {
    // Without other devices nothing but this machine can call.
    if bench.lan.is_none() || here {
        return Ok(Peer::Bench);
    }
    let Some(token) = token.filter(|token| token.len() == TOKEN) else {
        return Ok(Peer::Stranger { removed: None });
    };
    let token = marked(bench.entrance, &token);
    let Some(device) = bench.store.device_of(&token).await? else {
        return Ok(Peer::Stranger { removed: None });
    };
    if let Some(removed) = device.removed_at {
        return Ok(Peer::Stranger {
            removed: Some(removed),
        });
    }
    let now = Timestamp::now();
    if now.duration_since(device.seen_at) >= COARSE {
        bench.store.see_device(&device.id, now).await?;
    }
    Ok(Peer::Device(device))
}

/// What a removed device had typed into a form of text.
async fn typed(request: Request) -> Vec<Kept> {
    let kind = request.headers().get(CONTENT_TYPE);
    let form = kind.is_some_and(|kind| {
        kind.as_bytes()
            .starts_with(b"application/x-www-form-urlencoded")
    });
    if request.method() != Method::POST || !form {
        return Vec::new();
    }
    let (parts, body) = request.into_parts();
    let Ok(bytes) = to_bytes(body, LARGEST_FORM).await else {
        return Vec::new();
    };
    let request = Request::from_parts(parts, bytes.into());
    let fields =
        <Form<Vec<(String, String)>> as axum::extract::FromRequest<()>>::from_request(request, &());
    let Ok(Form(fields)) = fields.await else {
        return Vec::new();
    };
    let told = |(field, typed): (String, String)| {
        let unseen = ["id", "back"].contains(&field.as_str()) || typed.trim().is_empty();
        (!unseen).then_some(Kept { field, typed })
    };
    fields.into_iter().filter_map(told).collect()
}

/// The pairing page.
pub(crate) async fn page(
    Extension(peer): Extension<Peer>,
    Query(query): Query<Vec<(String, String)>>,
    headers: HeaderMap,
) -> Response {
    let Peer::Stranger { removed } = peer else {
        return Redirect::to("/").into_response();
    };
    let number = query.into_iter().find(|(key, _)| key == "number");
    let number = number.map(|(_, number)| number.chars().take(LONGEST_NUMBER).collect());
    let view = PairView {
        number: number.unwrap_or_default(),
        name: guess(&headers).to_owned(),
        removed: removed.map(route::moment),
        ..PairView::default()
    };
    shown(&view, StatusCode::OK)
}

const LONGEST_NUMBER: usize = 20;

/// A name to begin with, so that scanning a code needs only a tap.
fn guess(headers: &HeaderMap) -> &'static str {
    let agent = headers
        .get(USER_AGENT)
        .and_then(|agent| agent.to_str().ok());
    let agent = agent.unwrap_or_default();
    match agent {
        agent if agent.contains("Mobile") && !agent.contains("iPad") => "phone",
        agent if agent.contains("Android") || agent.contains("iPad") => "tablet",
        _ => "",
    }
}

/// Lets a device in that knows the number.
pub(crate) async fn take(
    State(bench): State<Bench>,
    Extension(peer): Extension<Peer>,
    form: Result<Form<Vec<(String, String)>>, FormRejection>,
) -> Response {
    let (Peer::Stranger { removed }, Some(lan)) = (peer, &bench.lan) else {
        return Redirect::to("/").into_response();
    };
    let sent = match form {
        Ok(Form(fields)) => Sent(fields),
        Err(rejection) => return trouble(&Visitor::stranger(), &unreadable(&rejection)),
    };
    let why = match let_in(&bench, lan, &sent).await {
        Ok(token) => return seated(bench.entrance, &token),
        Err(NotIn::Denied(why)) => why,
        Err(NotIn::Failed(error)) => return trouble(&Visitor::stranger(), &problem(&error)),
        Err(NotIn::NoRandomness) => {
            return trouble(
                &Visitor::stranger(),
                &report::page::problem::Problem::Failed,
            );
        }
    };
    let refused = refused(FormName::Pair, &sent, &why);
    let view = PairView {
        removed: removed.map(route::moment),
        refused: Some(&refused),
        ..PairView::default()
    };
    shown(&view, StatusCode::UNPROCESSABLE_ENTITY)
}

pub(crate) fn refused(form: FormName, sent: &Sent, why: &Denied) -> Refused {
    Refused {
        form,
        typed: sent.0.clone(),
        field: why.field(),
        why: why.to_string(),
    }
}

enum NotIn {
    Denied(Denied),
    Failed(store::Error),
    NoRandomness,
}

impl From<Denied> for NotIn {
    fn from(denied: Denied) -> Self {
        Self::Denied(denied)
    }
}

/// The token of the device that is now let in. The number is held until the device is in the store, so
/// that two devices cannot use it at once, and it is not spent on a name that is taken.
async fn let_in(bench: &Bench, lan: &lan::Lan, sent: &Sent) -> Result<String, NotIn> {
    let name = devices::name(&sent.get("name"))?;
    let digits = devices::digits(&sent.get("number"))?;
    let token = token()?;
    let now = Timestamp::now();
    let mut numbers = lan.numbers.lock().await;
    numbers.check(&digits, now)?;
    let device = Device {
        id: random_id(8),
        name,
        paired_at: now,
        seen_at: now,
        removed_at: None,
    };
    let marked = marked(bench.entrance, &token);
    match bench.store.let_in(&marked, &device).await {
        Ok(()) => numbers.spend(),
        Err(store::Error::NameTaken { name }) => return Err(Denied::NameTaken { name }.into()),
        Err(error) => return Err(NotIn::Failed(error)),
    }
    Ok(token)
}

/// The cookie of a session. By HTTPS its name says that only HTTPS could set it.
fn session(entrance: Entrance) -> &'static str {
    match entrance {
        Entrance::Plain => "session",
        Entrance::Sealed => "__Host-session",
    }
}

/// What the store knows a token by: one that went in the open once is worth nothing by HTTPS.
fn marked(entrance: Entrance, token: &str) -> String {
    match entrance {
        Entrance::Plain => token.to_owned(),
        Entrance::Sealed => format!("sealed {token}"),
    }
}

/// Hexadecimal digits of its token: 256 bits.
const TOKEN: usize = 64;

/// A fresh token. It is never taken from a request, so that nobody can give a device theirs beforehand.
fn token() -> Result<String, NotIn> {
    let draw = || getrandom::u64().map_err(|_| NotIn::NoRandomness);
    let (a, b, c, d) = (draw()?, draw()?, draw()?, draw()?);
    Ok(format!("{a:016x}{b:016x}{c:016x}{d:016x}"))
}

/// To the jobs, with the cookie that opens them: for 400 days, the longest that browsers keep one.
fn seated(entrance: Entrance, token: &str) -> Response {
    let mut response = Redirect::to("/").into_response();
    let name = session(entrance);
    let secure = match entrance {
        Entrance::Plain => "",
        Entrance::Sealed => "; Secure",
    };
    let cookie =
        format!("{name}={token}; Path=/; Max-Age=34560000; HttpOnly; SameSite=Lax{secure}");
    if let Ok(cookie) = HeaderValue::from_str(&cookie) {
        response.headers_mut().append(SET_COOKIE, cookie);
    }
    response
}

fn shown(view: &PairView<'_>, status: StatusCode) -> Response {
    show(&Visitor::stranger(), &devices::pair(view), status)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(minutes: i64) -> Timestamp {
        Timestamp::UNIX_EPOCH + SignedDuration::from_mins(minutes)
    }

    fn asked(now: Timestamp) -> (Numbers, String) {
        let mut numbers = Numbers::default();
        let digits = numbers.ask(now).unwrap();
        (numbers, digits)
    }

    #[test]
    fn law_a_number_lives_ten_minutes() {
        let (mut numbers, digits) = asked(at(0));
        let last = at(MINUTES) - SignedDuration::from_millis(1);
        assert_eq!(numbers.check(&digits, at(0)), Ok(()));
        assert_eq!(numbers.check(&digits, last), Ok(()));
        assert_eq!(numbers.check(&digits, at(MINUTES)), Err(Denied::NoneOpen));
        assert_eq!(numbers.check("none", at(MINUTES)), Err(Denied::NoneOpen));
        assert_eq!(numbers.standing(at(MINUTES)), Standing::Expired);
        assert!(matches!(
            numbers.standing(at(3)),
            Standing::Open { minutes: 7, .. }
        ));
        assert!(matches!(
            numbers.standing(last),
            Standing::Open { minutes: 1, .. }
        ));
    }

    #[test]
    fn law_wrong_tries_count_over_the_whole_life() {
        let (mut numbers, digits) = asked(at(0));
        for left in (1..TRIES).rev() {
            let minute = i64::from(TRIES - left);
            assert_eq!(
                numbers.check("wrong!", at(minute)),
                Err(Denied::Wrong { left })
            );
            assert_eq!(
                numbers.check(&digits, at(minute)),
                Ok(()),
                "a right one is not counted"
            );
        }
        assert_eq!(numbers.check("wrong!", at(6)), Err(Denied::Void));
        assert_eq!(numbers.check(&digits, at(6)), Err(Denied::Void));
        assert_eq!(numbers.standing(at(6)), Standing::Void);
    }

    #[test]
    fn law_a_spent_number_is_none() {
        let (mut numbers, digits) = asked(at(0));
        numbers.spend();
        assert_eq!(numbers.check(&digits, at(1)), Err(Denied::NoneOpen));
        assert_eq!(numbers.standing(at(1)), Standing::Used);
        assert_eq!(Numbers::default().standing(at(0)), Standing::None);
    }

    /// Six digits each, and each digit at each place about a tenth of the time: of 6000 numbers a count
    /// is binomial with mean 600 and deviation 23.2, so 6 deviations bound all 60 of them (2e-9 each).
    #[test]
    fn law_every_digit_is_as_likely_at_every_place() {
        let mut counts = [[0_u32; 10]; 6];
        for _ in 0..6000 {
            let (_, digits) = asked(at(0));
            assert_eq!(digits.len(), 6);
            for (place, digit) in digits.bytes().enumerate() {
                counts[place][usize::from(digit - b'0')] += 1;
            }
        }
        for count in counts.iter().flatten() {
            assert!((460..=740).contains(count), "{counts:?}");
        }
    }
}
