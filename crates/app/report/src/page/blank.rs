//! The blank card: the grid on paper, for pencil at the bench, to be typed in later.

use workshop::job::{LeafSet, Pump, blade_name, clock_name};

use super::measure::{CAUTION, View};
use super::{Answer, Next, Page, Section, Table, Target, Tone, frame, plain, row};

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let pump = view.job.pump.as_ref().map(|fact| &fact.value);
    let leaves = view.job.leaves.as_ref().map(|fact| &fact.value);
    let here = Target::Blank(view.id.clone());
    let measure = Target::Measure(view.id.clone());
    Page {
        title: "Blank card".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &measure),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(pump),
        evidence: pump.map_or_else(Vec::new, |pump| vec![grid(pump), about(pump, leaves)]),
        next: Next::Print {
            words: vec![plain("Type the pencil in later: 13-14 at each spot.")],
            links: vec![(measure, "Back to Measure".to_owned())],
        },
        cautions: vec![CAUTION],
    }
}

fn answer(pump: Option<&Pump>) -> Answer {
    let (headline, detail) = match pump {
        Some(_) => (
            "For pencil: the largest leaf that goes, the smallest that won’t.",
            "Turn the impeller so that the blade of the column stands at the clock of the row. \
             Write 13-14 where 13 goes and 14 won’t, 13 d where 13 drags.",
        ),
        None => (
            "First the pump.",
            "Describe blades and clock positions; then the card has its rows and columns.",
        ),
    };
    Answer {
        tone: Tone::Plain,
        headline: headline.to_owned(),
        detail: vec![plain(detail)],
        origin: String::new(),
    }
}

fn grid(pump: &Pump) -> Section {
    let blades = (0..pump.blades).map(|blade| format!("Blade {}", blade_name(blade)));
    let row = |position| {
        let name = clock_name(position, pump.positions);
        let open = (0..pump.blades).map(|_| String::new());
        std::iter::once(name).chain(open).collect()
    };
    Section::Table(Table {
        heading: "Readings".to_owned(),
        head: std::iter::once("Clock".to_owned()).chain(blades).collect(),
        rows: (0..pump.positions).map(row).collect(),
        caption: String::new(),
    })
}

fn about(pump: &Pump, leaves: Option<&LeafSet>) -> Section {
    let row = |name: &str, value: String| row(name, vec![plain(value)], "");
    let set = leaves.map_or_else(String::new, |leaves| {
        let each = leaves.thicknesses.iter().map(|leaf| leaf.text.trim());
        format!(
            "{}, in {}",
            each.collect::<Vec<_>>().join(" "),
            leaves.unit.symbol()
        )
    });
    let line = "_".repeat(24);
    let rows = vec![
        row("Pump", super::measure::pump_words(pump)),
        row("Leaves", set),
        row("Rotor pushed", line.clone()),
        row("Read by", line.clone()),
        row("When", line),
    ];
    Section::Facts {
        heading: "About the readings".to_owned(),
        rows,
    }
}
