//! What to fit, out of a job file and into one.

mod blame;
mod write;

use std::mem::take;
use std::ops::Range;

use toml::Spanned;
use workshop::draft::ChoicesDraft;
use workshop::draft::choose::{CraftDraft, FittingDraft, SteadyDraft, WishDraft};

use crate::Fields;
use crate::complaint::{Complaint, Source};
use crate::inspect::Places;
use crate::shape::choose::{Craft, Fitting, Steady, Wish};
use crate::shape::{Field, Shape};

/// The places of all that is said of what to fit.
#[derive(Debug, Default)]
pub(crate) struct ChoicePlaces {
    craft: Places,
    options: Vec<Places>,
    wish: Places,
    steadies: Vec<Places>,
}

impl ChoicePlaces {
    /// Where the first of it stands.
    pub(crate) fn first(&self) -> Option<Range<usize>> {
        let lists = self.options.iter().chain(&self.steadies);
        let all = [&self.craft, &self.wish].into_iter().chain(lists).flatten();
        all.map(|(_, at)| at.clone()).min_by_key(|at| at.start)
    }
}

/// What is said, with the places of its values, in the order of the file.
pub(crate) fn read(
    source: &Source,
    shape: &mut Shape,
) -> Result<(ChoicesDraft, ChoicePlaces), Complaint> {
    let (mut draft, mut places) = (ChoicesDraft::default(), ChoicePlaces::default());
    if let Some(craft) = shape.craft.take() {
        // What is missing of it is missed where it begins.
        let mut fields = Fields(vec![("craft", craft.span())]);
        draft.craft = Some(described(source, craft.into_inner(), &mut fields)?);
        places.craft = fields.0;
    }
    for option in take(&mut shape.option) {
        let (key, option, here) = named(source, option)?;
        if draft.options.iter().any(|(known, _)| *known == key) {
            let at = here.first().map_or(0..0, |(_, at)| at.clone());
            let why = format!("There is an option “{key}” above already. Name this one otherwise.");
            return Err(source.complain(at, &why));
        }
        draft.options.push((key, option));
        places.options.push(here);
    }
    if let Some(wish) = shape.wish.take() {
        let mut fields = Fields(Vec::new());
        draft.wish = Some(wanted(wish, &mut fields));
        places.wish = fields.0;
    }
    for one in take(&mut shape.steady) {
        let mut fields = Fields(Vec::new());
        draft.steadies.push(steady(one, &mut fields));
        places.steadies.push(fields.0);
    }
    Ok((draft, places))
}

fn described(source: &Source, craft: Craft, fields: &mut Fields) -> Result<CraftDraft, Complaint> {
    let mut given = |name, field: Option<Field>| fields.given(name, field);
    let draft = CraftDraft {
        mass: given("mass", craft.mass),
        riders: given("riders", craft.riders),
        length: given("length", craft.length),
        beam: given("beam", craft.beam),
        deadrise: given("deadrise", craft.deadrise),
        balance: given("balance", craft.balance),
        power: given("power", craft.power),
        rated: given("rated", craft.rated),
        limiter: given("limiter", craft.limiter),
        breathing: given("breathing", craft.breathing),
        curve: given("curve", craft.curve),
        wanted_from: given("wanted_from", craft.wanted_from),
        wanted_to: given("wanted_to", craft.wanted_to),
        impeller: given("impeller", craft.impeller),
        outing: given("outing", craft.outing),
        page: given("page", craft.page),
        fitted: FittingDraft::default(),
    };
    let Some(mut fitted) = craft.fitted else {
        return Ok(draft);
    };
    if let Some(key) = fitted.key.take() {
        let why = "What is fitted has no key: only an option has one. Take it out.";
        return Err(source.complain(key.span(), why));
    }
    let fitted = fitting(fitted, fields);
    Ok(CraftDraft { fitted, ..draft })
}

/// An option with its key, which stands first among its places.
fn named(
    source: &Source,
    option: Spanned<Fitting>,
) -> Result<(String, FittingDraft, Places), Complaint> {
    let at = option.span();
    let mut option = option.into_inner();
    let Some(key) = option.key.take() else {
        let why = "This option has no key. Name it: key = \"steeper\".";
        return Err(source.complain(at, why));
    };
    let mut fields = Fields(Vec::new());
    let key = fields.take("key", key);
    let draft = fitting(option, &mut fields);
    Ok((key, draft, fields.0))
}

fn fitting(fitting: Fitting, fields: &mut Fields) -> FittingDraft {
    let mut given = |name, field: Option<Field>| fields.given(name, field);
    FittingDraft {
        name: given("name", fitting.name),
        leading: given("leading", fitting.leading),
        trailing: given("trailing", fitting.trailing),
        radius: given("radius", fitting.radius),
        angles: given("angles", fitting.angles),
        maker: given("maker", fitting.maker),
        blades: given("blades", fitting.blades),
        hub: given("hub", fitting.hub),
        cup: given("cup", fitting.cup),
        gap: given("gap", fitting.gap),
        nozzle: given("nozzle", fitting.nozzle),
        note: given("note", fitting.note),
    }
}

fn wanted(wish: Wish, fields: &mut Fields) -> WishDraft {
    WishDraft {
        want: fields.take("want", wish.want),
        to: fields.given("to", wish.to),
    }
}

fn steady(one: Steady, fields: &mut Fields) -> SteadyDraft {
    SteadyDraft {
        engine: fields.take("engine", one.engine),
        speed: fields.given("speed", one.speed),
        pull: fields.given("pull", one.pull),
    }
}
