//! The Account page, and what its forms send.

use std::collections::BTreeMap;

use axum::extract::{Path, Query, State};
use axum::response::Response;
use report::page::audit::{At, View};
use report::page::{self, FormName, Page, Refused};
use workshop::draft::bench::{AccountDraft, Edit, ItemDraft, ToolDraft};
use workshop::entry::{JobId, Key};
use workshop::plan::Work;
use workshop::refusal::Refusal;

use crate::Bench;
use crate::act::Sent;
use crate::handlers::{Opened, clock, open_named};
use crate::visitor::Visitor;

/// The account, at the thing or the tool that was pointed at.
pub(crate) async fn page(
    State(bench): State<Bench>,
    visitor: Visitor,
    Path(job): Path<String>,
    Query(query): Query<Vec<(String, String)>>,
) -> Response {
    let at = query.iter().find_map(|(name, key)| {
        let key = Key::new(key).ok()?;
        match name.as_str() {
            "item" => Some(At::Item(key)),
            "tool" => Some(At::Tool(key)),
            _ => None,
        }
    });
    let opened = open_named(&bench, &job).await;
    let page = opened.map(|(id, opened)| drawn(&opened, &id, at.as_ref(), None));
    bench.answer(&visitor, page).await
}

/// The page as it is now, with what was refused.
pub(crate) fn drawn(
    opened: &Opened,
    id: &JobId,
    at: Option<&At>,
    refused: Option<&Refused>,
) -> Page {
    page::audit::page(&View {
        id,
        job: &opened.job,
        objections: &opened.objections,
        now: &clock(),
        at,
        refused,
    })
}

impl Sent {
    /// What is told of a thing, or of tools: several where none of them needs a reason.
    pub(crate) fn told(&self, form: FormName) -> Result<Work, Refusal> {
        if form == FormName::Item {
            let (item, account) = self.account(self.get("item"), self.get("count")).read()?;
            return Ok(Work::ItemTold { item, account });
        }
        let tools = self.all("tool").into_iter().zip(self.all("count"));
        let counted = tools.map(|(tool, count)| self.account(tool, count).read());
        let counted = counted.collect::<Result<BTreeMap<_, _>, _>>()?;
        Ok(Work::ToolsCounted(counted))
    }

    fn account(&self, key: String, count: String) -> AccountDraft {
        AccountDraft {
            key,
            count,
            ready: self.get("ready"),
            reason: self.get("reason"),
        }
    }

    /// A thing or a tool more or less in the plan.
    pub(crate) fn things(&self, form: FormName) -> Option<Edit> {
        let name = self.get("name").trim().to_owned();
        Some(match form {
            FormName::NewItem => Edit::NewItem(ItemDraft {
                key: String::new(),
                name,
                kind: self.get("kind"),
                count: self.get("count"),
                step: self.get("step"),
            }),
            FormName::ItemOff => Edit::ItemOff(self.get("item")),
            FormName::NewTool => Edit::NewTool(ToolDraft {
                key: String::new(),
                name,
                count: self.get("count"),
            }),
            FormName::ToolOff => Edit::ToolOff(self.get("tool")),
            _ => return None,
        })
    }
}
