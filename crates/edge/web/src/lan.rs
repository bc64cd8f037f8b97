//! How other devices reach the bench: its addresses, and who is calling.

use std::io;
use std::net::{IpAddr, SocketAddr};

use axum::extract::ConnectInfo;
use axum::extract::connect_info::Connected;
use axum::http::{HeaderMap, Request};
use axum::serve::{IncomingStream, Listener};
use jiff::Timestamp;
use tokio::sync::Mutex;

use crate::pair::{NoRandomness, Numbers};
use crate::route;
use crate::tls::Authority;

/// How other devices reach the bench. The addresses are those of the moment it was opened.
#[derive(Debug)]
pub struct Lan {
    addresses: Vec<IpAddr>,
    port: u16,
    pub(crate) numbers: Mutex<Numbers>,
    pub(crate) seal: Option<Seal>,
}

/// What devices must know to come by HTTPS.
#[derive(Debug)]
pub(crate) struct Seal {
    port: u16,
    pub(crate) certificate: String,
    pub(crate) fingerprint: String,
}

impl Seal {
    /// The bench by HTTPS, under the name a device called it by.
    pub(crate) fn address(&self, host: &str) -> String {
        format!("https://{host}:{}/", self.port)
    }
}

/// Which door a request came through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Entrance {
    /// HTTP.
    Plain,
    /// HTTPS.
    Sealed,
}

/// A pairing number with the addresses that bring it along.
#[derive(Clone, Debug)]
pub struct Ticket {
    /// The six digits.
    pub digits: String,
    /// The pairing page with the number, one an address of the bench.
    pub links: Vec<String>,
}

impl Lan {
    /// A bench at these addresses of its machine.
    pub fn new(addresses: Vec<IpAddr>, port: u16) -> Self {
        Self {
            addresses,
            port,
            numbers: Mutex::default(),
            seal: None,
        }
    }

    /// The same, with HTTPS on this port for all but the machine itself. The plain port then only tells
    /// how to take the authority.
    #[must_use]
    pub fn sealed(self, port: u16, authority: &Authority) -> Self {
        let seal = Seal {
            port,
            certificate: authority.certificate().to_owned(),
            fingerprint: authority.fingerprint(),
        };
        Self {
            seal: Some(seal),
            ..self
        }
    }

    /// The addresses where devices work, one an address of the machine.
    pub fn links(&self) -> Vec<String> {
        match &self.seal {
            Some(seal) => self.hosts().iter().map(|host| seal.address(host)).collect(),
            None => self.plain_links(),
        }
    }

    /// The addresses by plain HTTP.
    pub fn plain_links(&self) -> Vec<String> {
        let link = |address: &IpAddr| format!("http://{}/", SocketAddr::new(*address, self.port));
        self.addresses.iter().map(link).collect()
    }

    /// The fingerprint of the authority, where devices come by HTTPS.
    pub fn fingerprint(&self) -> Option<&str> {
        self.seal.as_ref().map(|seal| seal.fingerprint.as_str())
    }

    /// Opens a pairing number; one that was open before is worth nothing any more.
    pub async fn ask(&self) -> Result<Ticket, NoRandomness> {
        let digits = self.numbers.lock().await.ask(Timestamp::now())?;
        let links = self.tickets(&digits);
        Ok(Ticket { digits, links })
    }

    /// The addresses of the pairing page with the number in them.
    pub(crate) fn tickets(&self, digits: &str) -> Vec<String> {
        let page = route::pairing(digits);
        let links = self.links();
        let links = links.iter().map(|link| link.trim_end_matches('/'));
        links.map(|link| format!("{link}{page}")).collect()
    }

    /// How the machine is named by others, as a `Host` without its port.
    pub(crate) fn hosts(&self) -> Vec<String> {
        let host = |address: &IpAddr| match address {
            IpAddr::V4(address) => address.to_string(),
            IpAddr::V6(address) => format!("[{address}]"),
        };
        self.addresses.iter().map(host).collect()
    }
}

/// Where a connection comes from, as the system says; no header can change it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Caller(pub(crate) SocketAddr);

/// A listener that hands on who calls.
#[derive(Debug)]
pub(crate) struct Door<L>(pub(crate) L);

impl<L: Listener<Addr = SocketAddr>> Listener for Door<L> {
    type Io = L::Io;
    type Addr = Caller;

    async fn accept(&mut self) -> (Self::Io, Caller) {
        let (io, address) = self.0.accept().await;
        (io, Caller(address))
    }

    fn local_addr(&self) -> io::Result<Caller> {
        self.0.local_addr().map(Caller)
    }
}

impl<L: Listener<Addr = SocketAddr>> Connected<IncomingStream<'_, Door<L>>> for Caller {
    fn connect_info(stream: IncomingStream<'_, Door<L>>) -> Self {
        *stream.remote_addr()
    }
}

/// Headers by which a proxy says for whom it asks.
const FORWARDED: [&str; 4] = ["forwarded", "x-forwarded-for", "x-real-ip", "via"];

/// Whether the connection comes from this machine. One that says of itself that it was passed on does
/// not count: such a header can take rights away, and never gives any.
pub(crate) fn is_here<B>(request: &Request<B>) -> bool {
    let caller = request.extensions().get::<ConnectInfo<Caller>>();
    let here = |caller: &ConnectInfo<Caller>| caller.0.0.ip().to_canonical().is_loopback();
    caller.is_some_and(here) && !is_forwarded(request.headers())
}

fn is_forwarded(headers: &HeaderMap) -> bool {
    FORWARDED.iter().any(|header| headers.contains_key(*header))
}
