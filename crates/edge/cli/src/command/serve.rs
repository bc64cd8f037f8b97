//! `serve`: the bench in the browser.

use std::future::Future;

use clap::Args;
use store::Store;
use tokio::net::TcpListener;
use workshop::entry::JobId;

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
    /// Leave the browser closed
    #[arg(long)]
    no_open: bool,
}

impl Serve {
    pub(crate) async fn run(self) -> Result<(), Error> {
        // The port first: a bench that cannot open leaves no store behind.
        let listener = TcpListener::bind(("127.0.0.1", self.port)).await;
        let listener = listener.map_err(|why| match why.kind() {
            std::io::ErrorKind::AddrInUse => Error::PortTaken { port: self.port },
            _ => Error::Network(why),
        })?;
        let address = listener.local_addr().map_err(Error::Network)?;
        let store = self.place.open().await?;
        let page = match example(&store).await? {
            Some(job) => format!("job/{job}/measure"),
            None => String::new(),
        };
        let link = format!("http://{address}/{page}");
        let stop = stop().await;
        say::out(&format!(
            "Bench open at {link}\nThe journal lies in {}\nCtrl-C closes the bench.\n",
            self.place.url()?.trim_start_matches("sqlite:"),
        ))?;
        if !self.no_open {
            // A bench without a browser of its own is opened from the printed link.
            let _ = open::that_detached(&link);
        }
        let served = web::serve(listener, store.clone(), stop).await;
        store.close().await;
        served.map_err(Error::Network)
    }
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
