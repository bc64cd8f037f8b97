//! Whether an impeller, a ring and a nozzle may be so, by themselves and in this pump.

use quantity::{Entered, Unit};

use super::super::span::{Span, all_in_span, in_span};
use super::{LONGEST_NOTE, LONGEST_TEXT, text};
use crate::choose::{CraftFacts, Fitting};
use crate::job::Job;
use crate::refusal::{Misfitting, Refusal};

const ANGLE: Span = ("5", "40", Unit::Degree);
/// Of a tip; a steeper one is one near the hub. Common practice, no source.
const TIP: Span = ("5", "28", Unit::Degree);
const RADIUS: Span = ("10", "200", Unit::Millimetre);
const HUB: Span = ("16", "280", Unit::Millimetre);
const GAP: Span = ("0", "3", Unit::Millimetre);
const NOZZLE: Span = ("40", "200", Unit::Millimetre);
/// The hub, of the impeller's diameter.
const HUB_SHARE: [f64; 2] = [0.2, 0.7];
/// The gap, of the height of a blade.
const GAP_SHARE: f64 = 0.05; // not a conversion: a share

/// What is known of the pump an impeller goes into.
pub(super) struct Pump<'a> {
    /// Diameter of the impeller.
    across: Option<&'a Entered>,
    /// The hub of the impeller that is fitted.
    hub: Option<&'a Entered>,
}

impl<'a> Pump<'a> {
    /// From what was said of the craft, or is being said.
    pub(super) fn of(facts: Option<&'a CraftFacts>) -> Self {
        Self {
            across: facts.and_then(|facts| facts.impeller.as_ref()),
            hub: facts.and_then(|facts| facts.fitted.hub.as_ref()),
        }
    }

    /// The bore of the ring stands in for an impeller that nobody measured across.
    pub(super) fn or_bore(self, job: &'a Job) -> Self {
        let bore = job.pump.as_ref().map(|pump| &pump.value.bore);
        Self {
            across: self.across.or(bore),
            ..self
        }
    }
}

/// Refuses what cannot be so.
pub(super) fn check(fitting: &Fitting, pump: &Pump) -> Result<(), Refusal> {
    text("name", &fitting.name, LONGEST_TEXT)?;
    text("maker", &fitting.maker, LONGEST_TEXT)?;
    text("note", &fitting.note, LONGEST_NOTE)?;
    if let Some(blades) = fitting.blades
        && !(2..=8).contains(&blades)
    {
        return Err(Refusal::NotACount {
            field: "blades",
            text: blades.to_string(),
            allowed: "a number of blades from 2 to 8",
        });
    }
    all_in_span([
        ("leading", fitting.leading.as_ref(), ANGLE),
        ("trailing", fitting.trailing.as_ref(), ANGLE),
        ("radius", fitting.radius.as_ref(), RADIUS),
        ("hub", fitting.hub.as_ref(), HUB),
        ("gap", fitting.gap.as_ref(), GAP),
        ("nozzle", fitting.nozzle.as_ref(), NOZZLE),
    ])?;
    angles(fitting)?;
    let hub = fitting.hub.as_ref().or(pump.hub);
    if let Some((radius, hub)) = fitting.radius.as_ref().zip(hub)
        && radius.value < hub.value / 2.0
    {
        return Err(Refusal::Choice(Misfitting::RadiusInHub {
            radius: radius.worded(),
            hub: hub.worded(),
        }));
    }
    pump.across
        .map_or(Ok(()), |across| sizes(fitting, hub, across))
}

fn angles(fitting: &Fitting) -> Result<(), Refusal> {
    if let (Some(leading), Some(trailing)) = (&fitting.leading, &fitting.trailing)
        && trailing.value < leading.value
    {
        return Err(Refusal::Choice(Misfitting::TrailingUnderLeading {
            leading: leading.worded(),
            trailing: trailing.worded(),
        }));
    }
    if fitting.radius.is_some() {
        return Ok(());
    }
    for (field, angle) in [
        ("leading", &fitting.leading),
        ("trailing", &fitting.trailing),
    ] {
        if let Some(angle) = angle
            && in_span(field, Some(angle), TIP).is_err()
        {
            let angle = angle.worded();
            return Err(Refusal::Choice(Misfitting::HubAngle { field, angle }));
        }
    }
    Ok(())
}

/// What the diameter of the impeller leaves room for.
fn sizes(fitting: &Fitting, hub: Option<&Entered>, across: &Entered) -> Result<(), Refusal> {
    let wide = |field, part: &Entered, most: f64| Misfitting::Wider {
        field,
        part: part.worded(),
        most: shown(most, part.unit),
        impeller: across.worded(),
    };
    if let Some(radius) = &fitting.radius
        && radius.value > across.value / 2.0
    {
        let wide = wide("radius", radius, across.value / 2.0);
        return Err(Refusal::Choice(wide));
    }
    if let Some(nozzle) = &fitting.nozzle
        && nozzle.value > across.value
    {
        return Err(Refusal::Choice(wide("nozzle", nozzle, across.value)));
    }
    let [least, most] = HUB_SHARE.map(|share| share * across.value);
    if let Some(hub) = &fitting.hub
        && !(least..=most).contains(&hub.value)
    {
        return Err(Refusal::Choice(Misfitting::HubShare {
            hub: hub.worded(),
            least: shown(least, hub.unit),
            most: shown(most, hub.unit),
            impeller: across.worded(),
        }));
    }
    if let (Some(gap), Some(hub)) = (&fitting.gap, hub) {
        let most = GAP_SHARE * (across.value - hub.value) / 2.0;
        if gap.value > most {
            let most = shown(most, gap.unit);
            let gap = gap.worded();
            return Err(Refusal::Choice(Misfitting::GapOverHeight { gap, most }));
        }
    }
    Ok(())
}

/// A limit with the decimals its unit needs.
fn shown(value: f64, unit: Unit) -> String {
    let decimals = match unit {
        Unit::Metre => 4,
        Unit::Inch | Unit::Foot => 3,
        Unit::Centimetre | Unit::Millimetre => 2,
        _ => 1,
    };
    quantity::format(value, unit, decimals)
}

/// Refuses an option that names nothing to fit.
pub(super) fn changes(option: &Fitting) -> Result<(), Refusal> {
    let parts = [
        option.leading.is_some(),
        option.trailing.is_some(),
        option.blades.is_some(),
        option.hub.is_some(),
        option.cup.is_some(),
        option.gap.is_some(),
        option.nozzle.is_some(),
    ];
    if !parts.contains(&true) {
        return Err(Refusal::Choice(Misfitting::NothingChanged));
    }
    Ok(())
}

/// Refuses an option that is nothing else than what is fitted.
pub(super) fn unlike(option: &Fitting, fitted: Option<&Fitting>) -> Result<(), Refusal> {
    match fitted {
        Some(fitted) if like(option, fitted) => Err(Refusal::Choice(Misfitting::LikeFitted)),
        _ => Ok(()),
    }
}

/// Whether all that is said of an option is what is fitted. The same stamp of another maker, or at
/// another radius, is another blade.
fn like(option: &Fitting, fitted: &Fitting) -> bool {
    let alike = |one: &Option<Entered>, other: &Option<Entered>| match (one, other) {
        (None, _) => true,
        (Some(one), Some(other)) => one.value.total_cmp(&other.value).is_eq(),
        (Some(_), None) => false,
    };
    let sizes = [
        (&option.leading, &fitted.leading),
        (&option.trailing, &fitted.trailing),
        (&option.radius, &fitted.radius),
        (&option.hub, &fitted.hub),
        (&option.gap, &fitted.gap),
        (&option.nozzle, &fitted.nozzle),
    ];
    sizes.iter().all(|(one, other)| alike(one, other))
        && (option.blades.is_none() || option.blades == fitted.blades)
        && (option.cup.is_none() || option.cup == fitted.cup)
        && (option.angles.is_none() || option.angles == fitted.angles)
        && (option.maker.trim().is_empty() || option.maker.trim() == fitted.maker.trim())
}
