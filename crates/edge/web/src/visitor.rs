//! Who is at which device, and which theme they read: three cookies, no account. The name of a paired
//! device comes from the store instead.

use std::convert::Infallible;

use axum::extract::{Form, FromRequestParts};
use axum::http::header::{COOKIE, REFERER, SET_COOKIE};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue};
use axum::response::{IntoResponse, Redirect, Response};
use percent_encoding::percent_decode_str;
use workshop::decide::LONGEST_TEXT;

use crate::pair::Peer;
use crate::route::encode;

/// What the cookies of a request say.
#[derive(Clone, Debug, Default)]
pub(crate) struct Visitor {
    pub(crate) who: String,
    pub(crate) theme: Option<Theme>,
    pub(crate) device: String,
    /// The device has no name yet; this one is to be kept.
    pub(crate) new_device: bool,
    /// Not paired: sees nothing of the bench.
    pub(crate) stranger: bool,
}

/// Dark on light for the yard, light on dark for the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Theme {
    Sun,
    Shop,
}

impl Theme {
    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Sun => "sun",
            Self::Shop => "shop",
        }
    }

    fn from_key(key: &str) -> Option<Self> {
        [Self::Sun, Self::Shop]
            .into_iter()
            .find(|theme| theme.key() == key)
    }
}

impl<S: Sync> FromRequestParts<S> for Visitor {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Infallible> {
        let cookie = |name| cookie(&parts.headers, name);
        let peer = parts.extensions.get::<Peer>();
        let known = match peer {
            // The store knows its name, whatever a cookie says.
            Some(Peer::Device(device)) => Some(device.name.clone()),
            _ => cookie("device").filter(|device| fits(device)),
        };
        Ok(Self {
            stranger: matches!(peer, Some(Peer::Stranger { .. })),
            who: cookie("who").filter(|who| fits(who)).unwrap_or_default(),
            theme: cookie("theme").and_then(|theme| Theme::from_key(&theme)),
            new_device: known.is_none(),
            device: known.unwrap_or_else(|| format!("device {}", random_id(2))),
        })
    }
}

impl Visitor {
    /// Somebody who is not paired.
    pub(crate) fn stranger() -> Self {
        Self {
            stranger: true,
            ..Self::default()
        }
    }

    /// Gives the response the device's name to keep, if it has none yet.
    pub(crate) fn remember(&self, mut response: Response) -> Response {
        if self.new_device {
            keep(response.headers_mut(), "device", &self.device);
        }
        response
    }
}

/// A text that the journal will take, so that a mended cookie cannot block every act.
fn fits(text: &str) -> bool {
    text.chars().count() <= LONGEST_TEXT && !text.chars().any(char::is_control)
}

pub(crate) fn cookie(headers: &HeaderMap, name: &str) -> Option<String> {
    let pairs = headers
        .get_all(COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok());
    let pairs = pairs.flat_map(|value| value.split(';'));
    let mut named = pairs.filter_map(|pair| pair.trim().split_once('='));
    let (_, value) = named.find(|(key, _)| *key == name)?;
    percent_decode_str(value)
        .decode_utf8()
        .ok()
        .map(String::from)
}

fn keep(headers: &mut HeaderMap, name: &str, value: &str) {
    let value = encode(value);
    let cookie = format!("{name}={value}; Path=/; Max-Age=31536000; HttpOnly; SameSite=Lax");
    if let Ok(cookie) = HeaderValue::from_str(&cookie) {
        headers.append(SET_COOKIE, cookie);
    }
}

/// Random hexadecimal digits, `bytes` times two.
pub(crate) fn random_id(bytes: usize) -> String {
    let mut random = [0_u8; 16];
    // A system without randomness cannot serve anyone; ids then collide and are refused as taken.
    let _ = getrandom::fill(&mut random);
    format!("{:032x}", u128::from_le_bytes(random))
        .split_at(2 * bytes.min(16))
        .0
        .to_owned()
}

/// Keeps the name of the person working.
pub(crate) async fn set_who(
    headers: HeaderMap,
    Form(form): Form<Vec<(String, String)>>,
) -> Response {
    set(&headers, "who", &value(&form, "who"))
}

/// Keeps the theme.
pub(crate) async fn set_theme(
    headers: HeaderMap,
    Form(form): Form<Vec<(String, String)>>,
) -> Response {
    set(&headers, "theme", &value(&form, "theme"))
}

fn value(form: &[(String, String)], key: &str) -> String {
    let named = form.iter().find(|(name, _)| name == key);
    named.map_or_else(String::new, |(_, value)| {
        value.trim().chars().take(LONGEST_TEXT).collect()
    })
}

/// Back to the page the person came from.
fn set(headers: &HeaderMap, name: &str, value: &str) -> Response {
    let from = headers
        .get(REFERER)
        .and_then(|from| from.to_str().ok())
        .unwrap_or("/");
    let path = from
        .splitn(4, '/')
        .nth(3)
        .map_or_else(|| "/".to_owned(), |path| format!("/{path}"));
    let mut response = Redirect::to(&path).into_response();
    keep(response.headers_mut(), name, value);
    response
}
