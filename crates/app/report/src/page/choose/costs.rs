//! What each option costs for an hour run, and whether it gets through a season: drawn from Service.

use workshop::choose::answer::OptionSays;
use workshop::upkeep::answer::PartSays;

use super::{View, name, option};
use crate::page::service::say;
use crate::page::{Section, Table};

/// A row for every option whose part is described under Service; none where no part is.
pub(super) fn section(view: &View<'_>) -> Option<Section> {
    let options = view.says.options.iter().enumerate();
    let rows = options.flat_map(|(place, says)| {
        let mine = move |part: &&PartSays| part.option.as_ref() == Some(&says.key);
        view.parts
            .iter()
            .filter(mine)
            .map(move |part| row(view, (place, says), part))
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if rows.is_empty() {
        return None;
    }
    let head = [
        "Option",
        "For an hour run",
        "A new one through a season",
        "Replace",
    ];
    let own = view.parts.iter().filter_map(|part| part.costs.as_ref());
    let own = own.into_iter().any(|costs| costs.own_time);
    let labour = if own {
        " Your own time at nothing."
    } else {
        ""
    };
    Some(Section::Table(Table {
        heading: "What they cost".to_owned(),
        head: head.map(str::to_owned).to_vec(),
        rows,
        caption: format!("80 % band in brackets. What each rests on stands under Service.{labour}"),
    }))
}

fn row(view: &View<'_>, (place, says): (usize, &OptionSays), part: &PartSays) -> Vec<String> {
    let currency = view.job.upkeep.usage().currency;
    let costs = part.costs.as_ref();
    let unsaid = || "cannot say yet".to_owned();
    let rate = costs.map(|costs| {
        let band = say::money_band(&costs.rate, &currency);
        format!("{} ({band})", say::money(costs.rate[1], &currency))
    });
    let season = part.lasts.as_ref().and_then(|lasts| lasts.season);
    let letter = option::letter(place);
    vec![
        format!("{letter} · {}: {}", name(view.job, says), part.name),
        rate.unwrap_or_else(unsaid),
        season.map_or_else(unsaid, say::cases),
        costs.map_or_else(unsaid, |costs| match costs.best {
            Some(age) => format!("at about {}", say::age(age)),
            None => "when it is worn out".to_owned(),
        }),
    ]
}
