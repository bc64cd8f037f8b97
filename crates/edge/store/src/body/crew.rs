//! Who works, with which tools, and what is accounted for.

use jiff::civil::{self, Weekday};
use serde::{Deserialize, Serialize};
use workshop::plan;

use super::work::Name;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Crew {
    hands: u16,
    shifts: Vec<Shift>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shift {
    days: Vec<Day>,
    from: Clock,
    until: Clock,
}

/// A time of day as `18:00:00`.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Clock(civil::Time);

impl TryFrom<String> for Clock {
    type Error = jiff::Error;

    fn try_from(text: String) -> Result<Self, jiff::Error> {
        text.parse().map(Self)
    }
}

impl From<Clock> for String {
    fn from(clock: Clock) -> Self {
        clock.0.to_string()
    }
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Day {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

const DAYS: [(Day, Weekday); 7] = [
    (Day::Monday, Weekday::Monday),
    (Day::Tuesday, Weekday::Tuesday),
    (Day::Wednesday, Weekday::Wednesday),
    (Day::Thursday, Weekday::Thursday),
    (Day::Friday, Weekday::Friday),
    (Day::Saturday, Weekday::Saturday),
    (Day::Sunday, Weekday::Sunday),
];

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Tool {
    key: Name,
    name: String,
    count: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Item {
    key: Name,
    name: String,
    #[serde(with = "ItemKind")]
    kind: plan::ItemKind,
    count: u16,
    step: Option<Name>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "plan::ItemKind", rename_all = "kebab-case")]
enum ItemKind {
    Plug,
    Clip,
    Hose,
    Cable,
    Guard,
    Sensor,
    Temporary,
    Other,
}

impl From<&plan::Crew> for Crew {
    fn from(crew: &plan::Crew) -> Self {
        let day = |day: &Weekday| {
            DAYS.iter()
                .find(|(_, known)| known == day)
                .map(|(day, _)| *day)
        };
        let shift = |shift: &plan::Shift| Shift {
            days: shift.days.iter().filter_map(day).collect(),
            from: Clock(shift.from),
            until: Clock(shift.until),
        };
        Self {
            hands: crew.hands,
            shifts: crew.shifts.iter().map(shift).collect(),
        }
    }
}

impl From<Crew> for plan::Crew {
    fn from(crew: Crew) -> Self {
        let day = |day: Day| DAYS[day as usize].1;
        let shift = |shift: Shift| plan::Shift {
            days: shift.days.into_iter().map(day).collect(),
            from: shift.from.0,
            until: shift.until.0,
        };
        Self {
            hands: crew.hands,
            shifts: crew.shifts.into_iter().map(shift).collect(),
        }
    }
}

impl From<&plan::Tool> for Tool {
    fn from(tool: &plan::Tool) -> Self {
        Self {
            key: Name(tool.key.clone()),
            name: tool.name.clone(),
            count: tool.count,
        }
    }
}

impl From<Tool> for plan::Tool {
    fn from(tool: Tool) -> Self {
        Self {
            key: tool.key.0,
            name: tool.name,
            count: tool.count,
        }
    }
}

impl From<&plan::Item> for Item {
    fn from(item: &plan::Item) -> Self {
        Self {
            key: Name(item.key.clone()),
            name: item.name.clone(),
            kind: item.kind,
            count: item.count,
            step: item.step.clone().map(Name),
        }
    }
}

impl From<Item> for plan::Item {
    fn from(item: Item) -> Self {
        Self {
            key: item.key.0,
            name: item.name,
            kind: item.kind,
            count: item.count,
            step: item.step.map(|name| name.0),
        }
    }
}
