//! Why the gap is as it is, for other programs.

use clearance::causes::{Cause, Effect, Untold};
use report::page::measure;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::job::blade_name;
use workshop::why::{Mend, blade_of, clock_of};

use super::{Figure, figure};

/// What the pattern of the readings says.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Why {
    /// The best explanation, a set of causes, is told apart from all others.
    told: bool,
    /// Its probability.
    #[schemars(range(min = 0, max = 1))]
    probability: f64,
    /// Causes worth naming, the most probable first; empty when nothing stands out.
    causes: Vec<CauseLine>,
    /// What mending the best explanation would leave.
    cures: Vec<CureLine>,
    /// What the readings cannot tell, whatever the leaves say.
    untold: Vec<UntoldName>,
    /// The reading that would tell most; null when none would.
    next: Option<Telling>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CauseLine {
    cause: CauseName,
    /// Where on the ring; null for a cause without a place.
    clock: Option<String>,
    /// Which blade; null for a cause without one.
    blade: Option<String>,
    /// The probability that it is there, alone or with others.
    #[schemars(range(min = 0, max = 1))]
    probability: f64,
    /// It belongs to the best explanation.
    in_best: bool,
    /// How much: an amplitude, or what the gap is larger by; null where each blade has its own.
    size: Option<Figure>,
    /// Where a wave is widest, clockwise from 12 or from blade A.
    towards_rad: Option<f64>,
    /// Half the 90 % interval of that.
    within_rad: Option<f64>,
    /// What the gap is larger by at each blade than their mean.
    each: Vec<Figure>,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum CauseName {
    /// Ring and shaft do not share a centre.
    OffCentre,
    /// The ring is oval.
    Oval,
    /// The ring is swollen or worn at one place.
    Local,
    /// One blade is short or long.
    Blade,
    /// The impeller runs off its own centre.
    Runout,
    /// The blades have different lengths.
    Uneven,
    /// One reading stands alone.
    Stray,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CureLine {
    /// What is mended.
    mend: MendName,
    /// The least gap it would leave.
    least: Figure,
    /// The greatest.
    greatest: Figure,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum MendName {
    Feel,
    Centre,
    Ring,
    Impeller,
    All,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum UntoldName {
    /// A diameter decides whether ring or impeller is worn.
    RingOrImpeller,
    /// The chord of a flat leaf shifts every gap.
    Chord,
    /// The leaf set shifts every gap.
    LeafSet,
    /// One blade is read.
    OneBlade,
    /// One clock position is read.
    OnePosition,
    /// The impeller was not turned enough.
    Unturned,
    /// A cause would not show.
    Invisible,
    /// A cause would show in part.
    Partial,
    /// Two causes look the same.
    Alike,
    /// One cause stands only by being simpler than another.
    Within,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Telling {
    /// The blade's letter.
    blade: String,
    /// The clock.
    clock: String,
    /// The leaf.
    leaf_m: f64,
    /// The probability that it goes.
    #[schemars(range(min = 0, max = 1))]
    probability_goes: f64,
}

pub(super) fn why(view: &measure::View<'_>) -> Option<Why> {
    let why = view.judgement.ok()?.why.as_ref()?;
    let causes = why.causes.iter().map(|one| cause(view, one));
    let cures = why.cures.iter().map(|cure| CureLine {
        mend: match cure.mend {
            Some(Mend::Feel) => MendName::Feel,
            Some(Mend::Centre) => MendName::Centre,
            Some(Mend::Ring) => MendName::Ring,
            Some(Mend::Impeller) => MendName::Impeller,
            None => MendName::All,
        },
        least: figure(&cure.cured.least),
        greatest: figure(&cure.cured.greatest),
    });
    let next = why.next.map(|next| Telling {
        blade: blade_name(next.spot.blade),
        clock: view.job.clock(next.spot),
        leaf_m: next.leaf,
        probability_goes: next.goes,
    });
    Some(Why {
        told: why.told,
        probability: why.probability,
        causes: causes.collect(),
        cures: cures.collect(),
        untold: why.untold.iter().map(untold).collect(),
        next,
    })
}

fn cause(view: &measure::View<'_>, one: &workshop::why::Explaining) -> CauseLine {
    let clock = |position| Some(clock_of(view.job, position));
    let letter = |blade| Some(blade_of(blade));
    let (name, clock, blade) = match one.cause {
        Cause::OffCentre => (CauseName::OffCentre, None, None),
        Cause::Oval => (CauseName::Oval, None, None),
        Cause::Local(position) => (CauseName::Local, clock(position), None),
        Cause::Blade(blade) => (CauseName::Blade, None, letter(blade)),
        Cause::Runout => (CauseName::Runout, None, None),
        Cause::Uneven => (CauseName::Uneven, None, None),
        Cause::Stray(spot) => (CauseName::Stray, clock(spot.position), letter(spot.blade)),
    };
    let (size, towards, each) = match &one.effect {
        Effect::Wave { size, towards } => (Some(figure(size)), Some(*towards), Vec::new()),
        Effect::Amount(amount) => (Some(figure(amount)), None, Vec::new()),
        Effect::Each(each) => (None, None, each.iter().map(figure).collect()),
    };
    CauseLine {
        cause: name,
        clock,
        blade,
        probability: one.probability,
        in_best: one.first,
        size,
        towards_rad: towards.map(|towards| towards.angle),
        within_rad: towards.map(|towards| towards.within),
        each,
    }
}

fn untold(untold: &Untold) -> UntoldName {
    match untold {
        Untold::RingOrImpeller => UntoldName::RingOrImpeller,
        Untold::Chord(_) => UntoldName::Chord,
        Untold::LeafSet(_) => UntoldName::LeafSet,
        Untold::OneBlade(_) => UntoldName::OneBlade,
        Untold::OnePosition(_) => UntoldName::OnePosition,
        Untold::Unturned { .. } => UntoldName::Unturned,
        Untold::Invisible(_) => UntoldName::Invisible,
        Untold::Partial(_) => UntoldName::Partial,
        Untold::Alike(..) => UntoldName::Alike,
        Untold::Within(..) => UntoldName::Within,
    }
}
