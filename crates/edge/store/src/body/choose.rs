//! What is said of what to fit.

use quantity::Entered;
use serde::{Deserialize, Serialize};
use workshop::choose::{self, Choosing};
use workshop::draft::choose::{ANGLES, BREATHING, WANTS};
use workshop::draft::word;
use workshop::entry::{Body, Key};

use super::typed::{Angle, Force, Length, Mass, Power, ShaftSpeed, Speed, Torque};
use super::{Encoded, Fault, key, may, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Choosing) -> Result<Encoded, Fault> {
    match said {
        Choosing::Craft(facts) => write("craft-described", &Craft::from(&**facts)),
        Choosing::Option { key, fitting } => {
            let described = Described {
                option: key.to_string(),
                fitting: Fitting::from(&**fitting),
            };
            write("option-described", &described)
        }
        Choosing::OptionPutAway { key } => {
            let option = key.to_string();
            write("option-put-away", &PutAway { option })
        }
        Choosing::Wish(wish) => {
            let wish = Wish {
                want: word(&WANTS, wish.want).to_owned(),
                to: typed(wish.to.as_ref()),
            };
            write("wish-stated", &wish)
        }
        Choosing::Steadies(all) => {
            let readings = all.iter().map(Steady::from).collect();
            write("steadies-read", &Steadies { readings })
        }
        Choosing::Taken(told) => write("option-taken", &Taken::from(&**told)),
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("craft-described", 1) => of_json::<Craft>(json),
        ("option-described", 1) => of_json::<Described>(json),
        ("option-put-away", 1) => of_json::<PutAway>(json),
        ("wish-stated", 1) => of_json::<Wish>(json),
        ("steadies-read", 1) => of_json::<Steadies>(json),
        ("option-taken", 1) => of_json::<Taken>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Choosing: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Choosing::try_from(said).map(Body::Chose))
}

fn typed<'a, T: From<&'a Entered>>(entered: Option<&'a Entered>) -> Option<T> {
    entered.map(Into::into)
}

fn entered<T: Into<Entered>>(typed: Option<T>) -> Option<Entered> {
    typed.map(Into::into)
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Fitting {
    name: String,
    leading: Option<Angle>,
    trailing: Option<Angle>,
    radius: Option<Length>,
    angles: Option<String>,
    maker: String,
    blades: Option<u8>,
    hub: Option<Length>,
    cup: Option<bool>,
    gap: Option<Length>,
    nozzle: Option<Length>,
    note: String,
}

impl From<&choose::Fitting> for Fitting {
    fn from(fitting: &choose::Fitting) -> Self {
        Self {
            name: fitting.name.clone(),
            leading: typed(fitting.leading.as_ref()),
            trailing: typed(fitting.trailing.as_ref()),
            radius: typed(fitting.radius.as_ref()),
            angles: (fitting.angles).map(|angles| word(&ANGLES, angles).to_owned()),
            maker: fitting.maker.clone(),
            blades: fitting.blades,
            hub: typed(fitting.hub.as_ref()),
            cup: fitting.cup,
            gap: typed(fitting.gap.as_ref()),
            nozzle: typed(fitting.nozzle.as_ref()),
            note: fitting.note.clone(),
        }
    }
}

impl TryFrom<Fitting> for choose::Fitting {
    type Error = String;

    fn try_from(stored: Fitting) -> Result<Self, String> {
        Ok(Self {
            name: stored.name,
            leading: entered(stored.leading),
            trailing: entered(stored.trailing),
            radius: entered(stored.radius),
            angles: may(&ANGLES, stored.angles.as_ref())?,
            maker: stored.maker,
            blades: stored.blades,
            hub: entered(stored.hub),
            cup: stored.cup,
            gap: entered(stored.gap),
            nozzle: entered(stored.nozzle),
            note: stored.note,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Point {
    speed: ShaftSpeed,
    torque: Torque,
}

/// From an engine speed to another.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Between {
    from: ShaftSpeed,
    to: ShaftSpeed,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Craft {
    mass: Option<Mass>,
    riders: Option<Mass>,
    length: Option<Length>,
    beam: Option<Length>,
    deadrise: Option<Angle>,
    balance: Option<Length>,
    power: Option<Power>,
    rated: Option<ShaftSpeed>,
    limiter: Option<ShaftSpeed>,
    breathing: Option<String>,
    curve: Vec<Point>,
    wanted: Option<Between>,
    impeller: Option<Length>,
    fitted: Fitting,
    outing: Option<String>,
    page: String,
}

impl From<&choose::CraftFacts> for Craft {
    fn from(facts: &choose::CraftFacts) -> Self {
        let curve = facts.curve.iter().map(|(speed, torque)| Point {
            speed: speed.into(),
            torque: torque.into(),
        });
        let wanted = facts.wanted.as_ref().map(|(from, to)| Between {
            from: from.into(),
            to: to.into(),
        });
        Self {
            mass: typed(facts.mass.as_ref()),
            riders: typed(facts.riders.as_ref()),
            length: typed(facts.length.as_ref()),
            beam: typed(facts.beam.as_ref()),
            deadrise: typed(facts.deadrise.as_ref()),
            balance: typed(facts.balance.as_ref()),
            power: typed(facts.power.as_ref()),
            rated: typed(facts.rated.as_ref()),
            limiter: typed(facts.limiter.as_ref()),
            breathing: (facts.breathing).map(|breathing| word(&BREATHING, breathing).to_owned()),
            curve: curve.collect(),
            wanted,
            impeller: typed(facts.impeller.as_ref()),
            fitted: Fitting::from(&facts.fitted),
            outing: facts.outing.as_ref().map(Key::to_string),
            page: facts.page.clone(),
        }
    }
}

impl TryFrom<Craft> for Choosing {
    type Error = String;

    fn try_from(stored: Craft) -> Result<Self, String> {
        let point = |point: Point| (point.speed.into(), point.torque.into());
        let wanted = stored.wanted.map(|ends| (ends.from.into(), ends.to.into()));
        let outing = stored.outing.map(|outing| key(&outing)).transpose()?;
        Ok(Self::Craft(Box::new(choose::CraftFacts {
            mass: entered(stored.mass),
            riders: entered(stored.riders),
            length: entered(stored.length),
            beam: entered(stored.beam),
            deadrise: entered(stored.deadrise),
            balance: entered(stored.balance),
            power: entered(stored.power),
            rated: entered(stored.rated),
            limiter: entered(stored.limiter),
            breathing: may(&BREATHING, stored.breathing.as_ref())?,
            curve: stored.curve.into_iter().map(point).collect(),
            wanted,
            impeller: entered(stored.impeller),
            fitted: stored.fitted.try_into()?,
            outing,
            page: stored.page,
        })))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Described {
    option: String,
    fitting: Fitting,
}

impl TryFrom<Described> for Choosing {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        Ok(Self::Option {
            key: key(&stored.option)?,
            fitting: Box::new(stored.fitting.try_into()?),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PutAway {
    option: String,
}

impl TryFrom<PutAway> for Choosing {
    type Error = String;

    fn try_from(stored: PutAway) -> Result<Self, String> {
        let key = key(&stored.option)?;
        Ok(Self::OptionPutAway { key })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Wish {
    want: String,
    to: Option<Speed>,
}

impl TryFrom<Wish> for Choosing {
    type Error = String;

    fn try_from(stored: Wish) -> Result<Self, String> {
        Ok(Self::Wish(choose::Wish {
            want: of(&WANTS, &stored.want)?,
            to: entered(stored.to),
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Steadies {
    readings: Vec<Steady>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Steady {
    engine: ShaftSpeed,
    speed: Option<Speed>,
    pull: Option<Force>,
}

impl From<&choose::Steady> for Steady {
    fn from(steady: &choose::Steady) -> Self {
        Self {
            engine: (&steady.engine).into(),
            speed: typed(steady.speed.as_ref()),
            pull: typed(steady.pull.as_ref()),
        }
    }
}

impl TryFrom<Steadies> for Choosing {
    type Error = String;

    fn try_from(stored: Steadies) -> Result<Self, String> {
        let steady = |one: Steady| choose::Steady {
            engine: one.engine.into(),
            speed: entered(one.speed),
            pull: entered(one.pull),
        };
        let all = stored.readings.into_iter().map(steady);
        Ok(Self::Steadies(all.collect()))
    }
}

/// Each change as the low end, the middle and the high end of its band.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Taken {
    option: String,
    evidence: String,
    words: String,
    engine_rad_s: [f64; 3],
    speed_m_s: [f64; 3],
    time_s: Option<[f64; 3]>,
    program: String,
}

impl From<&choose::Told> for Taken {
    fn from(told: &choose::Told) -> Self {
        Self {
            option: told.option.to_string(),
            evidence: told.evidence.clone(),
            words: told.words.clone(),
            engine_rad_s: told.engine,
            speed_m_s: told.speed,
            time_s: told.time,
            program: told.program.clone(),
        }
    }
}

impl TryFrom<Taken> for Choosing {
    type Error = String;

    fn try_from(stored: Taken) -> Result<Self, String> {
        Ok(Self::Taken(Box::new(choose::Told {
            option: key(&stored.option)?,
            evidence: stored.evidence,
            words: stored.words,
            engine: stored.engine_rad_s,
            speed: stored.speed_m_s,
            time: stored.time_s,
            program: stored.program,
        })))
    }
}
