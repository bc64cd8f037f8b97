//! What is looked at and measured around the gap: the rotor, the leak test, the findings.

mod align;
mod around;
mod finding;

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::{HOWS, PUSHES, SPINS};
use workshop::draft::word;
use workshop::entry::Body;
use workshop::inspect::{self, Inspection};

use super::shown::Verdict;
use super::typed::{Duration, Length, Pressure, Temperature};
use super::{Encoded, Fault, may, of, read, whole, write};
use quantity::Entered;

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Inspection) -> Result<Encoded, Fault> {
    match said {
        Inspection::Rotor(rotor) => write("rotor-checked", &Rotor::from(rotor.as_ref())),
        Inspection::Leak(test) => write("leak-tested", &LeakTest::from(test)),
        Inspection::Alignment(read) => {
            write("driveline-read", &align::Alignment::from(read.as_ref()))
        }
        Inspection::Found { key, finding } => {
            write("finding-noted", &finding::Finding::new(key, finding))
        }
        Inspection::AsFound { key, found } => {
            write("as-found-noted", &super::found::AsFound::new(key, found))
        }
        Inspection::Supply { key, supply } => {
            write("supply-stated", &super::supply::Supply::new(key, supply))
        }
        Inspection::Settled { finding, settled } => {
            let settled = finding::Settled {
                finding: finding.to_string(),
                how: word(&HOWS, settled.how).to_owned(),
                reason: settled.reason.clone(),
            };
            write("finding-settled", &settled)
        }
        Inspection::Sizes(sizes) => write("sizes-measured", &around::Sizes::from(sizes)),
        Inspection::Ring(ring) => write("ring-described", &around::Ring::from(ring)),
        Inspection::Cone(cone) => write("cone-described", &around::Cone::from(cone)),
        Inspection::Reread(again) => write("gap-reread", &around::Reread::from(again)),
        Inspection::Sealing(said) => super::seals::encode(said),
        Inspection::Visit { key, visit } => write("visit-told", &around::Visit::new(key, visit)),
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("rotor-checked", 1) => of_json::<Rotor>(json),
        ("leak-tested", 1) => of_json::<LeakTest>(json),
        ("driveline-read", 1) => of_json::<align::Alignment>(json),
        ("finding-noted", 1) => of_json::<finding::FindingV1>(json),
        ("finding-noted", 2) => of_json::<finding::Finding>(json),
        ("as-found-noted", 1) => of_json::<super::found::AsFound>(json),
        ("supply-stated", 1) => of_json::<super::supply::Supply>(json),
        ("finding-settled", 1) => of_json::<finding::Settled>(json),
        ("sizes-measured", 1) => of_json::<around::Sizes>(json),
        ("ring-described", 1) => of_json::<around::Ring>(json),
        ("cone-described", 1) => of_json::<around::Cone>(json),
        ("gap-reread", 1) => of_json::<around::Reread>(json),
        ("visit-told", 1) => of_json::<around::Visit>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Inspection: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Inspection::try_from(said).map(Body::Inspected))
}

fn entered<T: Into<Entered>>(typed: Option<T>) -> Option<Entered> {
    typed.map(Into::into)
}

/// Two readings of one dial.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Pushed {
    one: Length,
    other: Length,
}

impl From<&(Entered, Entered)> for Pushed {
    fn from((one, other): &(Entered, Entered)) -> Self {
        Self {
            one: one.into(),
            other: other.into(),
        }
    }
}

impl From<Pushed> for (Entered, Entered) {
    fn from(pushed: Pushed) -> Self {
        (pushed.one.into(), pushed.other.into())
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Runout {
    first: Length,
    second: Length,
    apart: Length,
    beyond: Length,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "felt", deny_unknown_fields)]
enum Track {
    Smooth {},
    Felt {},
    Groove { depth: Length },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rotor {
    float: Option<Pushed>,
    radial: Option<Pushed>,
    runout: Option<Runout>,
    track: Option<Track>,
    spline_step: Option<bool>,
    spin: Option<String>,
    dial: Option<Length>,
    float_limit: Option<Length>,
    radial_limit: Option<Length>,
    runout_limit: Option<Length>,
    page: String,
}

impl From<&inspect::Rotor> for Rotor {
    fn from(rotor: &inspect::Rotor) -> Self {
        Self {
            float: rotor.float.as_ref().map(Pushed::from),
            radial: rotor.radial.as_ref().map(Pushed::from),
            runout: rotor.runout.as_ref().map(|runout| Runout {
                first: (&runout.first).into(),
                second: (&runout.second).into(),
                apart: (&runout.apart).into(),
                beyond: (&runout.beyond).into(),
            }),
            track: rotor.track.as_ref().map(|track| match track {
                inspect::Track::Smooth => Track::Smooth {},
                inspect::Track::Felt => Track::Felt {},
                inspect::Track::Groove(depth) => Track::Groove {
                    depth: depth.into(),
                },
            }),
            spline_step: rotor.spline_step,
            spin: rotor.spin.map(|spin| word(&SPINS, spin).to_owned()),
            dial: rotor.dial.as_ref().map(Length::from),
            float_limit: rotor.float_limit.as_ref().map(Length::from),
            radial_limit: rotor.radial_limit.as_ref().map(Length::from),
            runout_limit: rotor.runout_limit.as_ref().map(Length::from),
            page: rotor.page.clone(),
        }
    }
}

impl TryFrom<Rotor> for Inspection {
    type Error = String;

    fn try_from(stored: Rotor) -> Result<Self, String> {
        Ok(Self::Rotor(Box::new(inspect::Rotor {
            float: stored.float.map(Into::into),
            radial: stored.radial.map(Into::into),
            runout: stored.runout.map(|runout| inspect::Runout {
                first: runout.first.into(),
                second: runout.second.into(),
                apart: runout.apart.into(),
                beyond: runout.beyond.into(),
            }),
            track: stored.track.map(|track| match track {
                Track::Smooth {} => inspect::Track::Smooth,
                Track::Felt {} => inspect::Track::Felt,
                Track::Groove { depth } => inspect::Track::Groove(depth.into()),
            }),
            spline_step: stored.spline_step,
            spin: may(&SPINS, stored.spin.as_ref())?,
            dial: entered(stored.dial),
            float_limit: entered(stored.float_limit),
            radial_limit: entered(stored.radial_limit),
            runout_limit: entered(stored.runout_limit),
            page: stored.page,
        })))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Temperatures {
    start: Temperature,
    end: Temperature,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LeakShown {
    #[serde(with = "Verdict")]
    verdict: clearance::Verdict,
    loss_pa: f64,
    uncertainty_pa: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LeakTest {
    push: String,
    start: Pressure,
    end: Pressure,
    hold: Duration,
    temperatures: Option<Temperatures>,
    turned: bool,
    step: Pressure,
    allowed: Option<Pressure>,
    page: String,
    shown: Option<LeakShown>,
}

impl From<&inspect::LeakTest> for LeakTest {
    fn from(test: &inspect::LeakTest) -> Self {
        Self {
            push: word(&PUSHES, test.push).to_owned(),
            start: (&test.start).into(),
            end: (&test.end).into(),
            hold: (&test.hold).into(),
            temperatures: (test.temperatures.as_ref()).map(|(start, end)| Temperatures {
                start: start.into(),
                end: end.into(),
            }),
            turned: test.turned,
            step: (&test.step).into(),
            allowed: test.allowed.as_ref().map(Pressure::from),
            page: test.page.clone(),
            shown: test.shown.map(|shown| LeakShown {
                verdict: shown.verdict,
                loss_pa: shown.loss,
                uncertainty_pa: shown.uncertainty,
            }),
        }
    }
}

impl TryFrom<LeakTest> for Inspection {
    type Error = String;

    fn try_from(stored: LeakTest) -> Result<Self, String> {
        Ok(Self::Leak(inspect::LeakTest {
            push: of(&PUSHES, &stored.push)?,
            start: stored.start.into(),
            end: stored.end.into(),
            hold: stored.hold.into(),
            temperatures: stored
                .temperatures
                .map(|pair| (pair.start.into(), pair.end.into())),
            turned: stored.turned,
            step: stored.step.into(),
            allowed: entered(stored.allowed),
            page: stored.page,
            shown: stored.shown.map(|shown| inspect::LeakShown {
                verdict: shown.verdict,
                loss: shown.loss_pa,
                uncertainty: shown.uncertainty_pa,
            }),
        }))
    }
}
