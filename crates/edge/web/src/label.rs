//! The label of a pump, and the history that its code opens.

use axum::extract::{Path, Query, State};
use axum::http::header::HOST;
use axum::http::uri::Authority;
use axum::http::{HeaderMap, Uri};
use axum::response::Response;
use jiff::Timestamp;
use report::page::history::Other;
use report::page::label::{Address, LONGEST_ADDRESS, NoAddress};
use report::page::problem::Problem;
use report::page::{self, Page, Target};
use workshop::entry::JobId;
use workshop::kin::kin;

use crate::handlers::{clock, open_named, problem, with_clocks};
use crate::route::link;
use crate::visitor::Visitor;
use crate::{Bench, Lan};

pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(query): Query<Vec<(String, String)>>,
    (uri, headers): (Uri, HeaderMap),
) -> Response {
    let asked = |key: &str| query.iter().find(|(name, _)| name == key);
    let asked = |key| asked(key).map_or("", |(_, value)| value.trim());
    let address = address(
        &base(bench.lan.as_deref(), &uri, &headers),
        asked("address"),
    );
    let drawn = bench.label(&job, (asked("size"), &address)).await;
    bench.answer(&visitor, drawn).await
}

pub(crate) async fn history(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let drawn = bench.history(&job).await;
    bench.answer(&visitor, drawn).await
}

impl Bench {
    async fn label(&self, job: &str, (size, address): (&str, &Address)) -> Result<Page, Problem> {
        let (id, opened) = open_named(self, job).await?;
        let says = self.serviced(&id, &opened.job).await?;
        Ok(page::label::page(&page::label::View {
            id: &id,
            job: &opened.job,
            entries: &opened.entries,
            says: &says,
            size,
            address,
            path: &link(&Target::History(id.clone())),
        }))
    }

    async fn history(&self, job: &str) -> Result<Page, Problem> {
        let (id, opened) = open_named(self, job).await?;
        let says = self.serviced(&id, &opened.job).await?;
        let jobs = self.store.jobs().await.map_err(|error| problem(&error))?;
        let named = jobs
            .iter()
            .map(|line| (line.id.clone(), line.follows.clone()));
        let all = kin(&id, &named.collect::<Vec<_>>());
        let now = clock();
        let day = |at: Timestamp| at.to_zoned_datetime(now.time_zone().clone()).date();
        let other = |id: JobId| {
            let here = jobs.iter().find(|line| line.id == id);
            let here = here.map(|line| (line.title.clone(), day(line.recorded_at)));
            Other { id, here }
        };
        let earlier: Vec<Other> = all.earlier.into_iter().map(other).collect();
        let later: Vec<Other> = all.later.into_iter().map(other).collect();
        let drawn = page::history::page(&page::history::View {
            id: &id,
            job: &opened.job,
            objections: &opened.objections,
            entries: &opened.entries,
            says: &says,
            earlier: &earlier,
            later: &later,
            now: &now,
        });
        Ok(with_clocks(drawn, &opened.job))
    }
}

/// The bench as other devices reach it; where it is open to none, as this request did.
fn base(lan: Option<&Lan>, uri: &Uri, headers: &HeaderMap) -> String {
    let host = headers.get(HOST).and_then(|host| host.to_str().ok());
    let host = uri.authority().map(Authority::as_str).or(host);
    let host = host.unwrap_or("localhost");
    let others = lan.map(Lan::links).unwrap_or_default();
    let mut others = others.iter().map(|link| link.trim_end_matches('/'));
    let came_by = others.clone().find(|link| {
        link.split_once("://")
            .is_some_and(|(_, named)| named == host)
    });
    let best = came_by.or_else(|| others.next());
    best.map_or_else(|| format!("http://{host}"), str::to_owned)
}

/// Where the code leads: as typed, or else to the bench as others reach it.
fn address(base: &str, typed: &str) -> Address {
    if typed.is_empty() {
        let loopback = base
            .parse()
            .is_ok_and(|uri: Uri| uri.host().is_some_and(is_loopback));
        let base = base.to_owned();
        return if loopback {
            Address::Loopback(base)
        } else {
            Address::Asked(base)
        };
    }
    match checked(typed) {
        Ok(address) => Address::Typed(address),
        Err(why) => Address::Refused {
            typed: typed.to_owned(),
            why,
            instead: base.to_owned(),
        },
    }
}

/// An address of the bench as typed: http or https, a host and perhaps a port, and nothing else.
fn checked(typed: &str) -> Result<String, NoAddress> {
    let length = typed.chars().count();
    if length > LONGEST_ADDRESS {
        return Err(NoAddress::Long(length));
    }
    let (scheme, rest) = typed.split_once("://").ok_or(NoAddress::Malformed)?;
    if !["http", "https"].contains(&scheme.to_ascii_lowercase().as_str()) {
        return Err(NoAddress::Scheme);
    }
    if rest.contains('@') {
        return Err(NoAddress::User);
    }
    let rest = rest.strip_suffix('/').unwrap_or(rest);
    if rest.contains(['/', '?', '#']) {
        return Err(NoAddress::Path);
    }
    let authority: Authority = rest.parse().map_err(|_| NoAddress::Malformed)?;
    let port = authority.as_str().len() > authority.host().len();
    if authority.host().is_empty() || port && authority.port_u16().is_none() {
        return Err(NoAddress::Malformed);
    }
    if is_loopback(authority.host()) {
        return Err(NoAddress::Loopback);
    }
    Ok(format!("{}://{authority}", scheme.to_ascii_lowercase()))
}

/// A name under which every machine finds itself.
fn is_loopback(host: &str) -> bool {
    let bare = host.trim_start_matches('[').trim_end_matches(']');
    let ip: Option<std::net::IpAddr> = bare.parse().ok();
    bare.eq_ignore_ascii_case("localhost")
        || bare.to_ascii_lowercase().ends_with(".localhost")
        || ip.is_some_and(|ip| ip.is_loopback() || ip.is_unspecified())
}
