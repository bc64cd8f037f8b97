//! `serve`: the bench in the browser.

mod authority;
mod invite;

use std::future::Future;
use std::net::IpAddr;
use std::sync::Arc;

use clap::Args;
use store::Store;
use tokio::net::TcpListener;
use web::Lan;
use workshop::entry::JobId;

use self::authority::Kept;
use super::import::bring_in;
use crate::error::Error;
use crate::place::Place;
use crate::say;

/// Something to look at on the first day.
const EXAMPLE: &str = include_str!("../../example/patrol-craft.toml");

#[derive(Args, Debug)]
pub(crate) struct Serve {
    #[command(flatten)]
    place: Place,
    /// The port on this machine; 0 takes any free one
    #[arg(long, value_name = "N", default_value_t = 8157)]
    port: u16,
    /// Let tablets and phones of the same network in, each once it is paired
    #[arg(long)]
    lan: bool,
    /// Let them in by HTTPS, with an authority of the bench’s own that each device takes once
    #[arg(long, requires = "lan")]
    https: bool,
    /// The port of HTTPS; 0 takes any free one
    #[arg(long, value_name = "N", default_value_t = 8158, requires = "https")]
    https_port: u16,
    /// Leave the browser closed
    #[arg(long)]
    no_open: bool,
}

impl Serve {
    pub(crate) async fn run(self) -> Result<(), Error> {
        // The port first: a bench that cannot open leaves no store behind.
        let listener = self.listen(self.port, "--port").await?;
        let port = listener.local_addr().map_err(Error::Network)?.port();
        let mut lan = None;
        let mut sealed = None;
        if self.lan {
            let addresses = addresses()?;
            let mut open = Lan::new(addresses.clone(), port);
            if self.https {
                let listener = self.listen(self.https_port, "--https-port").await?;
                let authority = Kept::of(&self.place, &addresses)?;
                let port = listener.local_addr().map_err(Error::Network)?.port();
                open = open.sealed(port, &authority.authority);
                sealed = Some(authority.seal(listener, &addresses)?);
            }
            lan = Some(Arc::new(open));
        }
        let store = self.place.open().await?;
        let page = match example(&store).await? {
            Some(job) => format!("job/{job}/measure"),
            None => String::new(),
        };
        let link = format!("http://127.0.0.1:{port}/{page}");
        let stop = stop().await;
        say::out(&format!(
            "Bench open at {link}\nThe journal lies in {}\nCtrl-C closes the bench.\n",
            self.place.shown()?,
        ))?;
        if let Some(lan) = &lan {
            let ticket = lan.ask().await.map_err(|_| Error::NoRandomness)?;
            say::out(&invite::words(lan, &ticket, say::on_terminal()))?;
        }
        if !self.no_open {
            // A bench without a browser of its own is opened from the printed link.
            let _ = open::that_detached(&link);
        }
        let served = match (sealed, lan) {
            (Some(sealed), Some(lan)) => {
                web::serve_sealed((listener, sealed), store.clone(), lan, stop).await
            }
            (_, lan) => web::serve(listener, store.clone(), lan, stop).await,
        };
        store.close().await;
        served.map_err(Error::Network)
    }

    async fn listen(&self, port: u16, option: &'static str) -> Result<TcpListener, Error> {
        let on = if self.lan { "0.0.0.0" } else { "127.0.0.1" };
        let listener = TcpListener::bind((on, port)).await;
        listener.map_err(|why| match why.kind() {
            std::io::ErrorKind::AddrInUse => Error::PortTaken { port, option },
            _ => Error::Network(why),
        })
    }
}

/// The addresses by which others in the network reach this machine: those that count for this machine
/// alone, or for one cable, are left out.
fn addresses() -> Result<Vec<IpAddr>, Error> {
    let interfaces = if_addrs::get_if_addrs().map_err(Error::Network)?;
    let outward = interfaces
        .iter()
        .filter(|one| one.is_oper_up() && !one.is_loopback() && !one.is_link_local());
    // The bench listens on IPv4, which every network of a shop has.
    let mut addresses: Vec<IpAddr> = outward.map(if_addrs::Interface::ip).collect();
    addresses.retain(IpAddr::is_ipv4);
    addresses.dedup();
    if addresses.is_empty() {
        return Err(Error::NoAddress);
    }
    Ok(addresses)
}

/// Ctrl-C, listened for from now on: whoever reads the link may press it at once.
async fn stop() -> impl Future<Output = ()> + Send + 'static {
    let mut stop = Box::pin(async {
        // Without a handler for it, Ctrl-C ends the process anyway.
        let _ = tokio::signal::ctrl_c().await;
    });
    // The first poll is what installs the handler.
    tokio::select! {
        biased;
        () = &mut stop => {}
        () = std::future::ready(()) => {}
    }
    stop
}

/// Brings the example in where there is no job at all, and names it then.
async fn example(store: &Store) -> Result<Option<JobId>, Error> {
    if !store.jobs().await?.is_empty() {
        return Ok(None);
    }
    let file = jobfile::parse("the example", EXAMPLE)?;
    let id = file.id.clone().ok_or(Error::CardForJob)?;
    bring_in(store, &file, &id).await?;
    Ok(Some(id))
}
