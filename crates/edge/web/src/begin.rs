//! Begins a job, with nothing or from a card.

use axum::extract::rejection::FormRejection;
use axum::extract::{Form, State};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::Timestamp;
use report::page::{FormName, Refused};
use workshop::entry::{EntryId, JobId, Key};
use workshop::job::Job;
use workshop::refusal::Refusal;

use crate::act::Sent;
use crate::files::{self, Trouble};
use crate::handlers::{list, problem, stamp, trouble, unreadable};
use crate::visitor::Visitor;
use crate::{Bench, route};

pub(crate) async fn open(
    State(bench): State<Bench>,
    visitor: Visitor,
    form: Result<Form<Vec<(String, String)>>, FormRejection>,
) -> Response {
    let sent = match form {
        Ok(Form(fields)) => Sent(fields),
        Err(rejection) => return trouble(&visitor, &unreadable(&rejection)),
    };
    let refused = |field, why| Refused {
        form: FormName::Open,
        typed: sent.0.clone(),
        field,
        why,
    };
    match begin(&bench, &sent, &visitor).await {
        Ok(id) => visitor.remember(Redirect::to(&route::measure(&id)).into_response()),
        Err(Trouble::Refused(field, why)) => {
            list(&bench, &visitor, Some(&refused(field, why))).await
        }
        Err(Trouble::Store(store::Error::Refused(refusal))) => {
            let refused = refused(refusal.field(), refusal.to_string());
            list(&bench, &visitor, Some(&refused)).await
        }
        Err(Trouble::Store(error)) => trouble(&visitor, &problem(&error)),
        Err(Trouble::Problem(problem)) => trouble(&visitor, &problem),
    }
}

/// Begins a job, from a card where one is named.
async fn begin(bench: &Bench, sent: &Sent, visitor: &Visitor) -> Result<JobId, Trouble> {
    let refused = |refusal| Trouble::Store(store::Error::Refused(refusal));
    let stamp = stamp(sent, visitor).map_err(refused)?;
    let id = job_id(&sent.get("title"), &stamp.id).map_err(refused)?;
    if let Some(card) = files::card_of(bench, sent).await? {
        files::begin(bench, &id, (&card, sent), visitor).await?;
        return Ok(id);
    }
    let act = sent.act(FormName::Open, &Job::default(), None);
    let act = act.map_err(refused)?;
    let done = bench.store.act(&id, act, stamp, Timestamp::now()).await;
    done.map(|_| id).map_err(Trouble::Store)
}

/// A job's id: words of its title and a piece of its first entry's id, so that sending the form
/// twice opens one job.
fn job_id(title: &str, entry: &EntryId) -> Result<JobId, Refusal> {
    let name = Key::of_name(title).map_or_else(
        |_| "job".to_owned(),
        |key| key.as_str().chars().take(40).collect(),
    );
    let piece: String = entry.as_str().chars().take(4).collect();
    JobId::new(&format!("{name}-{piece}"))
}
