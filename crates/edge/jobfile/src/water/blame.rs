//! Which line of a water test is to blame for a refusal.

use std::ops::Range;

use workshop::draft::TrialDraft;
use workshop::draft::water::{LogDraft, SPEED_UNITS, WindowDraft};
use workshop::entry::Key;
use workshop::refusal::{Refusal, Splash};
use workshop::water::{Columns, Trialling, Window};

use super::{LogPlaces, TrialPlaces};
use crate::JobFile;
use crate::blame::{field_of, refused};
use crate::inspect::Places;

impl JobFile {
    /// The value of the water test that was to be recorded.
    pub(crate) fn of_trial(&self, said: &Trialling, refusal: &Refusal) -> Option<Range<usize>> {
        let field = refusal.field();
        match said {
            Trialling::Outing { key, .. } => field_of(&self.outing(key)?.outing, field),
            Trialling::Figures { outing, .. } => {
                let places = self.outing(outing)?;
                // Of figures that are too many the last is one.
                let here = |places: &&Places| self.holds(places, field, refusal);
                let figure = places.figures.iter().find(here);
                let figure = figure.or_else(|| places.figures.last());
                figure.and_then(|places| field_of(places, field))
            }
            Trialling::Log { digest, .. } => {
                let (_, places) = self.log(digest)?;
                match refusal {
                    Refusal::Water(Splash::BadColumns { stretch, .. }) => {
                        places.stretches.get(stretch.checked_sub(1)?).cloned()
                    }
                    _ => field_of(&places.log, field),
                }
            }
            Trialling::Runs { digest, .. } => {
                let (draft, places) = self.log(digest)?;
                let run = wrong_run(draft, refusal)?;
                field_of(places.runs.get(run)?, Some("from"))
            }
            Trialling::LogPutAway { .. } | Trialling::Taken(_) => None,
        }
    }

    /// The value that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_trial(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let trials = self.draft.trials.iter().zip(&self.trials);
        trials.into_iter().find_map(|(draft, places)| {
            let same = |refused: Option<Refusal>| refused.as_ref() == Some(refusal);
            let field = refusal.field();
            if same(Key::new(&draft.key).err()) {
                return field_of(&places.outing, Some("key"));
            }
            if same(draft.outing.read().err()) {
                return field_of(&places.outing, field);
            }
            unreadable_figure(draft, places, refusal).or_else(|| {
                let logs = draft.logs.iter().zip(&places.logs);
                logs.into_iter()
                    .find_map(|(draft, places)| unreadable_log(draft, places, refusal))
            })
        })
    }

    fn outing(&self, key: &Key) -> Option<&TrialPlaces> {
        let here = |draft: &TrialDraft| draft.key == key.as_str();
        self.trials.get(self.draft.trials.iter().position(here)?)
    }

    fn log(&self, digest: &Key) -> Option<(&LogDraft, &LogPlaces)> {
        let trials = self.draft.trials.iter().zip(&self.trials);
        let mut logs = trials.flat_map(|(draft, places)| draft.logs.iter().zip(&places.logs));
        logs.find(|(draft, _)| draft.digest == digest.as_str())
    }

    /// Whether what was refused stands in this field.
    pub(crate) fn holds(&self, places: &Places, field: Option<&str>, refusal: &Refusal) -> bool {
        let Some((field, text)) = field.zip(refused(refusal)) else {
            return false;
        };
        let here = |(known, at): &(&str, Range<usize>)| {
            *known == field && self.source.text[at.clone()].trim_matches(['"', '\'']) == text
        };
        places.iter().any(here)
    }
}

fn unreadable_figure(
    draft: &TrialDraft,
    places: &TrialPlaces,
    refusal: &Refusal,
) -> Option<Range<usize>> {
    let unit = SPEED_UNITS
        .iter()
        .find(|(word, _)| *word == draft.outing.unit);
    let (_, unit) = unit?;
    let mut figures = draft.figures.iter();
    let figure = figures.position(|figure| figure.read(*unit).as_ref() == Err(refusal))?;
    field_of(places.figures.get(figure)?, refusal.field())
}

fn unreadable_log(draft: &LogDraft, places: &LogPlaces, refusal: &Refusal) -> Option<Range<usize>> {
    if Key::new(&draft.digest).as_ref() == Err(refusal) {
        return field_of(&places.log, Some("digest"));
    }
    let mut runs = draft.runs.iter().flatten();
    let run = runs.position(|run| run.read().as_ref() == Err(refusal))?;
    field_of(places.runs.get(run)?, refusal.field())
}

/// The run that is not inside the log, or the later of two that share time; of too many the last.
fn wrong_run(draft: &LogDraft, refusal: &Refusal) -> Option<usize> {
    let runs = draft.runs.as_ref()?;
    let windows: Vec<Window> = runs
        .iter()
        .map(WindowDraft::read)
        .collect::<Result<_, _>>()
        .ok()?;
    match refusal {
        Refusal::Water(Splash::OutsideTheLog { .. }) => {
            let inside = |window: &Window| {
                let within = |some: &Columns| {
                    let ends = some.time_ms.first().zip(some.time_ms.last());
                    ends.is_some_and(|(first, last)| {
                        *first <= window.from_ms && window.until_ms <= *last
                    })
                };
                window.from_ms < window.until_ms && draft.log.stretches.iter().any(within)
            };
            windows.iter().position(|window| !inside(window))
        }
        Refusal::Water(Splash::Overlap { .. }) => {
            let mut order: Vec<usize> = (0..windows.len()).collect();
            order.sort_by_key(|run| windows[*run]);
            let shared = |two: &&[usize]| windows[two[0]].until_ms > windows[two[1]].from_ms;
            order.windows(2).find(shared).map(|two| two[1])
        }
        _ => runs.len().checked_sub(1),
    }
}
