//! The plan out of a job file.

use toml::Spanned;
use workshop::draft::bench::{
    AccountDraft, BenchDraft, CrewDraft, ItemDraft, PartDraft, ProgressDraft, RuleDraft, StepDraft,
    ToolDraft,
};

use super::Fields;
use super::shape::bench::{Account, Crew, Item, Part, Progress, Rule, Step, Tables, Tool};

impl Fields {
    pub(crate) fn bench(&mut self, tables: Tables) -> BenchDraft {
        BenchDraft {
            plan: tables.plan.map(|plan| self.take("plan", plan.name)),
            steps: (tables.steps.into_iter())
                .map(|(key, step)| self.step(key, step))
                .collect(),
            rules: tables
                .rules
                .into_iter()
                .map(|rule| self.rule(rule))
                .collect(),
            parts: (tables.parts.into_iter())
                .map(|(key, part)| self.part(key, part))
                .collect(),
            tools: (tables.tools.into_iter())
                .map(|(key, tool)| self.tool(key, tool))
                .collect(),
            items: (tables.items.into_iter())
                .map(|(key, item)| self.item(key, item))
                .collect(),
            crew: tables.crew.map(|crew| self.crew(crew)),
            progress: (tables.progress.into_iter())
                .map(|(key, progress)| self.progress(key, progress))
                .collect(),
            accounts: (tables.account.into_iter())
                .map(|(key, account)| self.account("account", key, account))
                .collect(),
            returned: (tables.returned.into_iter())
                .map(|(key, account)| self.account("returned", key, account))
                .collect(),
        }
    }

    /// A key is a value of its own to point at.
    fn key(&mut self, name: &'static str, key: Spanned<String>) -> String {
        self.0.push((name, key.span()));
        key.into_inner()
    }

    fn step(&mut self, key: Spanned<String>, step: Step) -> StepDraft {
        StepDraft {
            key: self.key("step", key),
            name: self.take("name", step.name),
            group: self.given("group", step.group),
            how: self.given("how", step.how),
            takes: self.take("takes", step.takes),
            most: self.given("most", step.most),
            needs: (step.needs.into_iter())
                .map(|part| self.take("needs", part))
                .collect(),
            hands: self.given("hands", step.hands),
            tools: (step.tools.into_iter())
                .map(|tool| self.take("tools", tool))
                .collect(),
            gate: self.given("gate", step.gate),
            opens: self.take("opens", step.opens),
            fasteners: self.given("fasteners", step.fasteners),
            temporary: step.temporary,
            caution: self.given("caution", step.caution),
            irreversible: step.irreversible,
        }
    }

    fn rule(&mut self, rule: Rule) -> RuleDraft {
        RuleDraft {
            kind: self.take("kind", rule.kind),
            first: self.take("first", rule.first),
            then: self.given("then", rule.then),
            time: self.given("time", rule.time),
            why: self.given("why", rule.why),
            physics: rule.physics,
        }
    }

    fn part(&mut self, key: Spanned<String>, part: Part) -> PartDraft {
        PartDraft {
            key: self.key("part", key),
            name: self.take("name", part.name),
            status: self.given("status", part.status),
            expected: self.given("expected", part.expected),
        }
    }

    fn tool(&mut self, key: Spanned<String>, tool: Tool) -> ToolDraft {
        ToolDraft {
            key: self.key("tool", key),
            name: self.take("name", tool.name),
            count: self.given("tools", tool.count),
        }
    }

    fn item(&mut self, key: Spanned<String>, item: Item) -> ItemDraft {
        ItemDraft {
            key: self.key("item", key),
            name: self.take("name", item.name),
            kind: self.take("kind", item.kind),
            count: self.given("items", item.count),
            step: self.given("puts", item.step),
        }
    }

    fn account(
        &mut self,
        table: &'static str,
        key: Spanned<String>,
        account: Account,
    ) -> AccountDraft {
        AccountDraft {
            key: self.key(table, key),
            count: self.take("count", account.count),
            ready: self.given("ready", account.ready),
            reason: self.given("reason", account.reason),
        }
    }

    fn crew(&mut self, crew: Crew) -> CrewDraft {
        CrewDraft {
            hands: self.take("crew", crew.hands),
            hours: self.given("hours", crew.hours),
        }
    }

    fn progress(&mut self, key: Spanned<String>, progress: Progress) -> ProgressDraft {
        ProgressDraft {
            step: self.key("step", key),
            begun: self.given("begun", progress.begun),
            done: self.given("done", progress.done),
            unseen: progress.witnessed == Some(false),
            count: self.given("count", progress.count),
            temporary: self.given("temporary", progress.temporary),
            ready: self.given("ready", progress.ready),
            reason: self.given("reason", progress.reason),
            release: self.given("release", progress.release),
            until: self.given("until", progress.until),
            again: self.given("reason", progress.again),
            estimate: self.given("takes", progress.estimate),
            estimate_most: self.given("most", progress.estimate_most),
            overridden: self.given("reason", progress.went_ahead),
        }
    }
}
