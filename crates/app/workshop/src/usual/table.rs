//! From the tables to a plan: what this craft has not is left out, and what stood behind it follows
//! what stood before it.

use quantity::{Entered, Unit, parse};

use super::craft::{Counts, Craft};
use super::order::{Pair, order};
use super::{
    NAME, closing, controls, driveline, housing, impeller, intake, lists, plate, sealing, strip,
    water, wet,
};
use crate::entry::Key;
use crate::plan::{Ask, Gate, Item, ItemKind, Opens, Part, Plan, Rule, Step, Tool};
use crate::refusal::Refusal;

/// A part of the job: its name, its steps, and the times between them.
pub(super) struct Table {
    pub(super) group: &'static str,
    pub(super) rows: &'static [Row],
    pub(super) times: &'static [Time],
}

/// One step. Minutes are those of the hands.
pub(super) struct Row {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    pub(super) how: &'static str,
    pub(super) minutes: u16,
    /// The most it may take; 0 where nothing waits for it.
    pub(super) most: u16,
    pub(super) hands: u16,
    pub(super) tools: &'static [&'static str],
    pub(super) needs: &'static [&'static str],
    pub(super) gate: fn(&Craft) -> Option<Gate>,
    pub(super) opens: Opens,
    pub(super) counted: Option<fn(&Counts) -> Option<u16>>,
    pub(super) temporary: bool,
    pub(super) caution: &'static str,
    pub(super) irreversible: bool,
    /// The steps before it.
    pub(super) after: &'static [&'static str],
    /// Which craft it belongs to.
    pub(super) when: fn(&Craft) -> bool,
}

/// A row with nothing said: what a table does not name is this.
pub(super) const ROW: Row = Row {
    key: "",
    name: "",
    how: "",
    minutes: 10,
    most: 0,
    hands: 1,
    tools: &[],
    needs: &[],
    gate: |_| None,
    opens: Opens::Float,
    counted: None,
    temporary: false,
    caution: "",
    irreversible: false,
    after: &[],
    when: |_| true,
};

/// A wait or a limit between two steps, in minutes.
pub(super) struct Time {
    pub(super) kind: Kind,
    pub(super) first: &'static str,
    pub(super) then: &'static str,
    pub(super) minutes: u16,
    pub(super) why: &'static str,
}

/// What a time asks.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// At least so long between: a cure.
    Wait,
    /// Begun at most so long after.
    Begun,
    /// Done at most so long after.
    Done,
}

/// A thing with its key.
pub(super) type Named = (&'static str, &'static str);

/// Something to account for, and the step that sees to it.
#[derive(Clone, Copy)]
pub(super) struct Thing {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    pub(super) kind: ItemKind,
    pub(super) count: u16,
    pub(super) step: &'static str,
}

/// In the order the steps are listed.
static TABLES: [Table; 12] = [
    strip::TABLE,
    housing::TABLE,
    impeller::TABLE,
    sealing::TABLE,
    driveline::TABLE,
    intake::TABLE,
    wet::TABLE,
    controls::TABLE,
    plate::TABLE,
    closing::TABLE,
    water::TABLE,
    water::RECHECK,
];

pub(super) fn plan(craft: &Craft) -> Result<Plan, Refusal> {
    let all = |table: &'static Table| table.rows.iter().map(|row| (table.group, row));
    let rows: Vec<(&str, &Row)> = TABLES.iter().flat_map(all).collect();
    let there: Vec<bool> = rows.iter().map(|(_, row)| (row.when)(craft)).collect();
    let mut steps = Vec::new();
    for (group, row) in &rows {
        if (row.when)(craft) {
            steps.push(step(group, row, craft)?);
        }
    }
    let rows: Vec<&Row> = rows.into_iter().map(|(_, row)| row).collect();
    Ok(Plan {
        name: NAME.to_owned(),
        rules: rules(&rows, &there)?,
        parts: parts(&steps)?,
        tools: tools(&steps)?,
        items: items(&steps)?,
        steps,
    })
}

/// The order of the steps, then the times between them.
fn rules(rows: &[&Row], there: &[bool]) -> Result<Vec<Rule>, Refusal> {
    let place = |key: &str| rows.iter().position(|row| row.key == key);
    let named = rows.iter().map(|row| row.after.iter());
    let named: Vec<Vec<usize>> = named
        .map(|after| after.filter_map(|key| place(key)).collect())
        .collect();
    let times = TABLES.iter().flat_map(|table| table.times);
    let times: Vec<(&Time, Pair)> = times
        .filter_map(|time| Some((time, (place(time.first)?, place(time.then)?))))
        .filter(|(_, (first, then))| there[*first] && there[*then])
        .collect();
    let waits = times.iter().filter(|(time, _)| time.kind == Kind::Wait);
    let waits: Vec<Pair> = waits.map(|(_, pair)| *pair).collect();
    let order = order(&named, there, &waits).into_iter();
    let plain = order.map(|(first, then)| {
        Ok(Rule {
            ask: Ask::After {
                first: Key::new(rows[first].key)?,
                then: Key::new(rows[then].key)?,
                lag: None,
            },
            why: String::new(),
            physics: false,
        })
    });
    plain
        .chain(times.iter().map(|(time, _)| rule(time)))
        .collect()
}

fn step(group: &str, row: &Row, craft: &Craft) -> Result<Step, Refusal> {
    Ok(Step {
        key: Key::new(row.key)?,
        name: row.name.to_owned(),
        group: group.to_owned(),
        how: row.how.to_owned(),
        takes: minutes(row.minutes)?,
        most: (row.most > 0).then(|| minutes(row.most)).transpose()?,
        needs: keys(row.needs)?,
        hands: row.hands,
        tools: keys(row.tools)?,
        gate: (row.gate)(craft),
        opens: row.opens,
        fasteners: row.counted.and_then(|count| count(&craft.counts)),
        temporary: row.temporary,
        caution: row.caution.to_owned(),
        irreversible: row.irreversible,
    })
}

fn rule(time: &Time) -> Result<Rule, Refusal> {
    let (first, then) = (Key::new(time.first)?, Key::new(time.then)?);
    let most = minutes(time.minutes)?;
    Ok(Rule {
        ask: match time.kind {
            Kind::Wait => Ask::After {
                first,
                then,
                lag: Some(most),
            },
            Kind::Begun => Ask::StartWithin { first, then, most },
            Kind::Done => Ask::FinishedWithin { first, then, most },
        },
        why: time.why.to_owned(),
        physics: true,
    })
}

/// Only what a step of this craft needs.
fn parts(steps: &[Step]) -> Result<Vec<Part>, Refusal> {
    let part = |(key, name): &Named| {
        let key = Key::new(key)?;
        let needed = steps.iter().any(|step| step.needs.contains(&key));
        Ok(needed.then(|| Part {
            key,
            name: (*name).to_owned(),
        }))
    };
    let parts = lists::PARTS.iter().map(part);
    parts.filter_map(Result::transpose).collect()
}

/// Only what a step of this craft holds.
fn tools(steps: &[Step]) -> Result<Vec<Tool>, Refusal> {
    let tool = |(key, name): &Named| {
        let key = Key::new(key)?;
        let held = steps.iter().any(|step| step.tools.contains(&key));
        Ok(held.then(|| Tool {
            key,
            name: (*name).to_owned(),
            count: 1,
        }))
    };
    let tools = lists::TOOLS.iter().map(tool);
    tools.filter_map(Result::transpose).collect()
}

/// Only what a step of this craft sees to.
fn items(steps: &[Step]) -> Result<Vec<Item>, Refusal> {
    let item = |thing: &Thing| {
        let step = Key::new(thing.step)?;
        if steps.iter().all(|known| known.key != step) {
            return Ok(None);
        }
        Ok(Some(Item {
            key: Key::new(thing.key)?,
            name: thing.name.to_owned(),
            kind: thing.kind,
            count: thing.count,
            step: Some(step),
        }))
    };
    let items = lists::THINGS.iter().map(item);
    items.filter_map(Result::transpose).collect()
}

fn keys(names: &[&str]) -> Result<Vec<Key>, Refusal> {
    names.iter().map(|name| Key::new(name)).collect()
}

/// A time as a person would write it: 90 min, 24 h.
fn minutes(count: u16) -> Result<Entered, Refusal> {
    let text = match count {
        whole if whole >= 120 && whole % 60 == 0 => format!("{} h", whole / 60),
        few => format!("{few} min"),
    };
    let field = "takes";
    parse(&text, Unit::Minute).map_err(|error| Refusal::Unreadable { field, error })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_long_time_is_written_in_hours_and_is_as_long() {
        for (count, text) in [
            (45, "45 min"),
            (90, "90 min"),
            (720, "12 h"),
            (1440, "24 h"),
        ] {
            let plain = parse(&format!("{count} min"), Unit::Minute).unwrap();
            let made = minutes(count).unwrap();
            assert_eq!((made.text.as_str(), made.value), (text, plain.value));
        }
    }

    /// A name that nothing has would silently drop a rule, a part or an item.
    #[test]
    fn law_the_tables_name_nothing_that_is_not_there() {
        let rows = || TABLES.iter().flat_map(|table| table.rows);
        let is_row = |key: &str| rows().any(|row| row.key == key);
        for row in rows() {
            assert!(row.after.iter().all(|key| is_row(key)), "{}", row.key);
            let part = |key: &&str| lists::PARTS.iter().any(|(known, _)| known == key);
            assert!(row.needs.iter().all(part), "{}", row.key);
            let tool = |key: &&str| lists::TOOLS.iter().any(|(known, _)| known == key);
            assert!(row.tools.iter().all(tool), "{}", row.key);
            assert!(!row.name.is_empty() && !row.how.is_empty(), "{}", row.key);
        }
        for time in TABLES.iter().flat_map(|table| table.times) {
            assert!(is_row(time.first) && is_row(time.then), "{}", time.first);
            assert!(time.why.contains("assumed"), "{}", time.why);
        }
        for thing in lists::THINGS {
            assert!(is_row(thing.step), "{}", thing.key);
        }
    }
}
