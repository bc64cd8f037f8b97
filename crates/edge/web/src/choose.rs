//! The Choose page, and what its forms send.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::response::{Html, IntoResponse, Response};
use report::page::choose::{Stand, View, headline, tried};
use report::page::problem::Problem;
use report::page::{self, FormName, Page, Refused};
use tokio::task::spawn_blocking;
use workshop::choose::answer::{Answer, answer, inputs};
use workshop::choose::{Choosing, evidence};
use workshop::draft::choose::{CraftDraft, FittingDraft, WishDraft, steadies};
use workshop::entry::{JobId, Key};
use workshop::job::Job;
use workshop::refusal::Refusal;

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{Opened, open_named, trouble, with_clocks};
use crate::render;
use crate::visitor::Visitor;

impl Bench {
    /// What the options of a job do, computed once and off the async threads.
    pub(crate) async fn chosen(&self, job: &Job) -> Result<Arc<Answer>, Problem> {
        let ready = || {
            let inputs = inputs(job);
            move || answer(&inputs)
        };
        self.choices.of(&evidence(job), ready).await
    }

    /// The page as it is now, with what was refused.
    pub(crate) async fn choose(
        &self,
        opened: &Opened,
        id: &JobId,
        refused: Option<&Refused>,
    ) -> Result<Page, Problem> {
        self.choose_at(opened, id, (refused, &Stand::default()))
            .await
    }

    /// The same with the sliders where they stand.
    async fn choose_at(
        &self,
        opened: &Opened,
        id: &JobId,
        (refused, stand): (Option<&Refused>, &Stand),
    ) -> Result<Page, Problem> {
        let says = self.chosen(&opened.job).await?;
        let kept = self.serviced(id, &opened.job).await?;
        let drawn = page::choose::page(&View {
            id,
            job: &opened.job,
            objections: &opened.objections,
            says: &says,
            refused,
            stand,
            parts: &kept.parts,
        });
        Ok(with_clocks(drawn, &opened.job))
    }
}

/// The Choose page.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(fields): Query<Vec<(String, String)>>,
) -> Response {
    let stand = stand(fields);
    let drawn = match open_named(&bench, &job).await {
        Ok((id, opened)) => bench.choose_at(&opened, &id, (None, &stand)).await,
        Err(problem) => Err(problem),
    };
    bench.answer(&visitor, drawn).await
}

/// What comes of where the sliders stand, as a piece of the page.
pub(crate) async fn piece(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(fields): Query<Vec<(String, String)>>,
) -> Response {
    let drawn = async {
        let (id, opened) = open_named(&bench, &job).await?;
        let says = bench.chosen(&opened.job).await?;
        let stand = stand(fields);
        let moved = spawn_blocking(move || {
            let view = View {
                id: &id,
                job: &opened.job,
                objections: &opened.objections,
                says: &says,
                refused: None,
                stand: &stand,
                // What a slider does has no price.
                parts: &[],
            };
            tried(&view).map(|tried| render::section::told(&tried))
        });
        moved
            .await
            .map_err(|_| Problem::Failed)?
            .ok_or(Problem::NoSuchPage)
    };
    match drawn.await {
        Ok(piece) => Html(piece.into_string()).into_response(),
        Err(problem) => trouble(&visitor, &problem),
    }
}

fn stand(fields: Vec<(String, String)>) -> Stand {
    let sent = Sent(fields);
    Stand {
        leading: sent.get("leading"),
        trailing: sent.get("trailing"),
        nozzle: sent.get("nozzle"),
        gap: sent.get("gap"),
    }
}

impl Sent {
    /// What is said about what to fit.
    pub(crate) fn chosen(
        &self,
        form: FormName,
        job: &Job,
        now: Option<&Answer>,
    ) -> Result<Choosing, Refusal> {
        Ok(match form {
            FormName::Craft => Choosing::Craft(Box::new(self.craft().read(job.unit())?)),
            FormName::Option => {
                let fitting = self.fitting().read(job.unit())?;
                Choosing::Option {
                    key: self.option_key(job, &fitting.name)?,
                    fitting: Box::new(fitting),
                }
            }
            FormName::OptionOff => Choosing::OptionPutAway {
                key: Key::new(&self.get("option"))?,
            },
            FormName::Wish => {
                let wish = WishDraft {
                    want: self.get("want"),
                    to: self.get("to"),
                };
                Choosing::Wish(wish.read(page::choose::unit(job))?)
            }
            FormName::Steadies => {
                let unit = page::choose::unit(job);
                Choosing::Steadies(steadies(&self.get("steadies"), unit)?)
            }
            _ => self.option_taken(job, now.ok_or(Refusal::ShownIsStale)?)?,
        })
    }

    fn fitting(&self) -> FittingDraft {
        FittingDraft {
            name: self.get("name"),
            leading: self.get("leading"),
            trailing: self.get("trailing"),
            radius: self.get("radius"),
            angles: self.get("angles"),
            maker: self.get("maker"),
            blades: self.get("blades"),
            hub: self.get("hub"),
            cup: self.get("cup"),
            gap: self.get("gap"),
            nozzle: self.get("nozzle"),
            note: self.get("note"),
        }
    }

    fn craft(&self) -> CraftDraft {
        CraftDraft {
            mass: self.get("mass"),
            riders: self.get("riders"),
            length: self.get("length"),
            beam: self.get("beam"),
            deadrise: self.get("deadrise"),
            balance: self.get("balance"),
            power: self.get("power"),
            rated: self.get("rated"),
            limiter: self.get("limiter"),
            breathing: self.get("breathing"),
            curve: self.get("curve"),
            wanted_from: self.get("wanted_from"),
            wanted_to: self.get("wanted_to"),
            impeller: self.get("impeller"),
            fitted: self.fitting(),
            outing: self.get("outing"),
            page: self.get("page"),
        }
    }

    /// The key sent along, or a new one of the name's words.
    fn option_key(&self, job: &Job, name: &str) -> Result<Key, Refusal> {
        match self.get("option").as_str() {
            "" => Key::free(name, "option", |key| job.choices.options.contains_key(key)),
            key => Key::new(key),
        }
    }

    /// The option with what is told of it now, if that is what was looked at.
    fn option_taken(&self, job: &Job, now: &Answer) -> Result<Choosing, Refusal> {
        if now.evidence != self.get("evidence") {
            return Err(Refusal::ShownIsStale);
        }
        let option = Key::new(&self.get("option"))?;
        let told = now.told(&option, headline(job, now));
        told.map(|told| Choosing::Taken(Box::new(told)))
            .ok_or(Refusal::ShownIsStale)
    }
}
