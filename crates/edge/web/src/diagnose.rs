//! The page What is wrong, and what its forms send.

use axum::extract::{Path, State};
use axum::response::Response;
use report::page::diagnose::{View, headline};
use report::page::problem::Problem;
use report::page::{self, FormName, Page, Refused};
use workshop::diagnose::answer::{Answer, answer_by, inputs};
use workshop::diagnose::expected::reckon;
use workshop::diagnose::{Diagnosing, basis};
use workshop::draft::diagnose::{CheckDraft, SYMPTOMS, SearchDraft};
use workshop::entry::{JobId, Key};
use workshop::job::Job;
use workshop::refusal::Refusal;

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{Opened, open_named, with_clocks};
use crate::visitor::Visitor;

impl Bench {
    /// How the causes stand; what runs and craft say is computed once and off the async threads.
    pub(crate) async fn diagnosed(&self, job: &Job) -> Result<Answer, Problem> {
        let ready = || {
            let inputs = inputs(job);
            move || reckon(&inputs)
        };
        let reckoned = self.signatures.of(&basis(job), ready).await?;
        Ok(answer_by(job, &reckoned))
    }

    /// The page as it is now, with what was refused.
    pub(crate) async fn diagnose(
        &self,
        opened: &Opened,
        id: &JobId,
        refused: Option<&Refused>,
    ) -> Result<Page, Problem> {
        let says = self.diagnosed(&opened.job).await?;
        let drawn = page::diagnose::page(&View {
            id,
            job: &opened.job,
            objections: &opened.objections,
            says: &says,
            refused,
        });
        Ok(with_clocks(drawn, &opened.job))
    }
}

/// The page.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
) -> Response {
    let drawn = match open_named(&bench, &job).await {
        Ok((id, opened)) => bench.diagnose(&opened, &id, None).await,
        Err(problem) => Err(problem),
    };
    bench.answer(&visitor, drawn).await
}

impl Sent {
    /// What is said about what is wrong.
    pub(crate) fn diagnosed(
        &self,
        form: FormName,
        job: &Job,
        now: Option<&Answer>,
    ) -> Result<Diagnosing, Refusal> {
        Ok(match form {
            FormName::Suspect => Diagnosing::Suspect {
                outing: match self.get("outing").as_str() {
                    "" => None,
                    key => Some(Key::new(key)?),
                },
            },
            FormName::Symptoms => self.signs()?,
            FormName::Checked => self.check()?,
            FormName::Safe => Diagnosing::MadeSafe(self.get("safe") == "yes"),
            _ => self.cause_taken(job, now.ok_or(Refusal::ShownIsStale)?)?,
        })
    }

    /// Every question that was answered; what nobody looked for is sent empty.
    fn signs(&self) -> Result<Diagnosing, Refusal> {
        let answered = |answer: &str| {
            let words = SYMPTOMS.iter().map(|(word, _)| *word);
            words
                .filter(|word| self.get(word) == answer)
                .map(str::to_owned)
                .collect()
        };
        let draft = SearchDraft {
            yes: answered("yes"),
            no: answered("no"),
            ..SearchDraft::default()
        };
        Ok(Diagnosing::Symptoms(draft.symptoms()?))
    }

    fn check(&self) -> Result<Diagnosing, Refusal> {
        let back = self.get("found") == "back";
        let draft = CheckDraft {
            check: self.get("check"),
            found: if back {
                "nothing".to_owned()
            } else {
                self.get("found")
            },
            note: self.get("note"),
        };
        let (check, found, note) = draft.read()?;
        Ok(Diagnosing::Checked {
            check,
            found: (!back).then_some(found),
            note: if back { String::new() } else { note },
        })
    }

    /// The likeliest cause with what is told of it now, if that is what was looked at.
    fn cause_taken(&self, job: &Job, now: &Answer) -> Result<Diagnosing, Refusal> {
        if now.evidence != self.get("evidence") {
            return Err(Refusal::ShownIsStale);
        }
        let [(first, _), _] = now.leaders();
        Ok(Diagnosing::Taken(Box::new(
            now.told(first, headline(job, now)),
        )))
    }
}
