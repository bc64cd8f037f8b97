//! Joints that are no circle of screws, as described, and what was ticked of them.

use quantity::{Entered, Kind};
use serde::{Deserialize, Serialize};
use workshop::draft::{
    CARRIES, CHECKS, DRIVES, ENDS, FRONTS, HANDS, LIPS, PRESSED, RUBBERS, TURNS, UNTILS, word,
};
use workshop::entry::{Body, Key};
use workshop::fits::{self, FitKind};

use super::typed::{Length, Resistance, Torque};
use super::{key, of};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Described {
    fit: String,
    name: String,
    facts: Facts,
    page: String,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum Facts {
    PressFit {
        what: String,
        shaft: Option<Length>,
        housing: Option<Length>,
        diameter: Option<Length>,
        front: Option<String>,
        place: String,
    },
    LipSeals {
        lips: Vec<String>,
    },
    ORing {
        rubber: Option<String>,
        sizes: Option<Box<RingSizes>>,
    },
    Fill {
        oil: bool,
        product: String,
        amount: String,
        until: String,
    },
    Spline {
        bumpers: bool,
        least: Option<Length>,
        greatest: Option<Length>,
    },
    Hose {
        carries: String,
        below: bool,
    },
    Cable {
        threads: Option<u8>,
    },
    Plug {
        torque: Option<Torque>,
    },
    Anode {
        greatest: Option<Resistance>,
    },
    Shims {
        studs: Vec<Length>,
    },
    Impeller {
        hand: String,
        goes_on_from: String,
        drive: String,
        torque: Option<Torque>,
        second: Option<Torque>,
        compound: String,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RingSizes {
    cord: Length,
    inner: Length,
    seat: Length,
    depth: Length,
    width: Length,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Checked {
    fit: String,
    ticks: Vec<String>,
    play: Option<Length>,
    resistance: Option<Resistance>,
    shown: Option<Shown>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shown {
    torque_n_m: Option<f64>,
    tighten: Option<Tighten>,
    play_least_m: Option<f64>,
    play_greatest_m: Option<f64>,
    resistance_ohm: Option<f64>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Tighten {
    turn: String,
    seen_from: String,
}

fn entered<T: Into<Entered>>(typed: Option<T>) -> Option<Entered> {
    typed.map(Into::into)
}

impl Described {
    pub(super) fn new(key: &Key, fit: &fits::Fit) -> Self {
        Self {
            fit: key.to_string(),
            name: fit.name.clone(),
            facts: Facts::from(&fit.kind),
            page: fit.page.clone(),
        }
    }
}

impl From<&FitKind> for Facts {
    fn from(kind: &FitKind) -> Self {
        match kind {
            FitKind::Press(press) => Self::PressFit {
                what: word(&PRESSED, press.what).to_owned(),
                shaft: press.shaft.as_ref().map(Length::from),
                housing: press.housing.as_ref().map(Length::from),
                diameter: press.diameter.as_ref().map(Length::from),
                front: press.front.map(|front| word(&FRONTS, front).to_owned()),
                place: press.place.clone(),
            },
            FitKind::Lips(lips) => Self::LipSeals {
                lips: lips
                    .iter()
                    .map(|lip| word(&LIPS, *lip).to_owned())
                    .collect(),
            },
            FitKind::ORing { rubber, sizes } => Self::ORing {
                rubber: rubber.map(|rubber| word(&RUBBERS, rubber).to_owned()),
                sizes: sizes.as_deref().map(RingSizes::from).map(Box::new),
            },
            FitKind::Fill(fill) => Self::Fill {
                oil: fill.oil,
                product: fill.product.clone(),
                amount: fill.amount.clone(),
                until: word(&UNTILS, fill.until).to_owned(),
            },
            FitKind::Spline {
                bumpers,
                least,
                greatest,
            } => Self::Spline {
                bumpers: *bumpers,
                least: least.as_ref().map(Length::from),
                greatest: greatest.as_ref().map(Length::from),
            },
            FitKind::Hose { carries, below } => Self::Hose {
                carries: word(&CARRIES, *carries).to_owned(),
                below: *below,
            },
            FitKind::Cable { threads } => Self::Cable { threads: *threads },
            FitKind::Plug { torque } => Self::Plug {
                torque: torque.as_ref().map(Torque::from),
            },
            FitKind::Anode { greatest } => Self::Anode {
                greatest: greatest.as_ref().map(Resistance::from),
            },
            FitKind::Shims(studs) => Self::Shims {
                studs: studs.iter().map(Length::from).collect(),
            },
            FitKind::Impeller(impeller) => Self::Impeller {
                hand: word(&HANDS, impeller.hand).to_owned(),
                goes_on_from: word(&ENDS, impeller.goes_on_from).to_owned(),
                drive: word(&DRIVES, impeller.drive).to_owned(),
                torque: impeller.torque.as_ref().map(Torque::from),
                second: impeller.second.as_ref().map(Torque::from),
                compound: impeller.compound.clone(),
            },
        }
    }
}

impl From<&fits::RingSizes> for RingSizes {
    fn from(sizes: &fits::RingSizes) -> Self {
        Self {
            cord: (&sizes.cord).into(),
            inner: (&sizes.inner).into(),
            seat: (&sizes.seat).into(),
            depth: (&sizes.depth).into(),
            width: (&sizes.width).into(),
        }
    }
}

impl From<RingSizes> for fits::RingSizes {
    fn from(stored: RingSizes) -> Self {
        Self {
            cord: stored.cord.into(),
            inner: stored.inner.into(),
            seat: stored.seat.into(),
            depth: stored.depth.into(),
            width: stored.width.into(),
        }
    }
}

impl TryFrom<Facts> for FitKind {
    type Error = String;

    #[expect(clippy::too_many_lines, reason = "a shape a kind, read as a list")]
    fn try_from(stored: Facts) -> Result<Self, String> {
        Ok(match stored {
            Facts::PressFit {
                what,
                shaft,
                housing,
                diameter,
                front,
                place,
            } => Self::Press(fits::Press {
                what: of(&PRESSED, &what)?,
                shaft: entered(shaft),
                housing: entered(housing),
                diameter: entered(diameter),
                front: front.map(|front| of(&FRONTS, &front)).transpose()?,
                place,
            }),
            Facts::LipSeals { lips } => {
                let lips: Result<_, String> = lips.iter().map(|lip| of(&LIPS, lip)).collect();
                Self::Lips(lips?)
            }
            Facts::ORing { rubber, sizes } => Self::ORing {
                rubber: rubber.map(|rubber| of(&RUBBERS, &rubber)).transpose()?,
                sizes: sizes.map(|sizes| Box::new((*sizes).into())),
            },
            Facts::Fill {
                oil,
                product,
                amount,
                until,
            } => Self::Fill(fits::Fill {
                oil,
                product,
                amount,
                until: of(&UNTILS, &until)?,
            }),
            Facts::Spline {
                bumpers,
                least,
                greatest,
            } => Self::Spline {
                bumpers,
                least: entered(least),
                greatest: entered(greatest),
            },
            Facts::Hose { carries, below } => Self::Hose {
                carries: of(&CARRIES, &carries)?,
                below,
            },
            Facts::Cable { threads } => Self::Cable { threads },
            Facts::Plug { torque } => Self::Plug {
                torque: entered(torque),
            },
            Facts::Anode { greatest } => Self::Anode {
                greatest: entered(greatest),
            },
            Facts::Shims { studs } => Self::Shims(studs.into_iter().map(Into::into).collect()),
            Facts::Impeller {
                hand,
                goes_on_from,
                drive,
                torque,
                second,
                compound,
            } => Self::Impeller(Box::new(fits::Impeller {
                hand: of(&HANDS, &hand)?,
                goes_on_from: of(&ENDS, &goes_on_from)?,
                drive: of(&DRIVES, &drive)?,
                torque: entered(torque),
                second: entered(second),
                compound,
            })),
        })
    }
}

impl TryFrom<Described> for Body {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        Ok(Self::FitDescribed {
            key: key(&stored.fit)?,
            fit: fits::Fit {
                name: stored.name,
                kind: stored.facts.try_into()?,
                page: stored.page,
            },
        })
    }
}

impl Checked {
    pub(super) fn new(key: &Key, checked: &fits::Checked) -> Self {
        let reading = |kind: Kind| (checked.reading.as_ref()).filter(|r| r.unit.kind() == kind);
        Self {
            fit: key.to_string(),
            ticks: (checked.ticks.iter())
                .map(|tick| word(&CHECKS, *tick).to_owned())
                .collect(),
            play: reading(Kind::Length).map(Length::from),
            resistance: reading(Kind::Resistance).map(Resistance::from),
            shown: checked.shown.map(|shown| Shown {
                torque_n_m: shown.torque,
                tighten: shown.tighten.map(|(turn, seen_from)| Tighten {
                    turn: word(&TURNS, turn).to_owned(),
                    seen_from: word(&ENDS, seen_from).to_owned(),
                }),
                play_least_m: shown.play_least,
                play_greatest_m: shown.play_greatest,
                resistance_ohm: shown.resistance,
            }),
        }
    }
}

impl TryFrom<Checked> for Body {
    type Error = String;

    fn try_from(stored: Checked) -> Result<Self, String> {
        let ticks: Result<_, String> = (stored.ticks.iter())
            .map(|tick| of(&CHECKS, tick))
            .collect();
        let reading = match (stored.play, stored.resistance) {
            (Some(_), Some(_)) => return Err("a play and a resistance at one joint".to_owned()),
            (play, resistance) => entered(play).or(entered(resistance)),
        };
        let shown = stored.shown.map(|shown| -> Result<_, String> {
            let tighten = shown.tighten.map(|tighten| -> Result<_, String> {
                let turn = of(&TURNS, &tighten.turn)?;
                Ok((turn, of(&ENDS, &tighten.seen_from)?))
            });
            Ok(fits::FitShown {
                torque: shown.torque_n_m,
                tighten: tighten.transpose()?,
                play_least: shown.play_least_m,
                play_greatest: shown.play_greatest_m,
                resistance: shown.resistance_ohm,
            })
        });
        Ok(Self::FitChecked {
            key: key(&stored.fit)?,
            checked: fits::Checked {
                ticks: ticks?,
                reading,
                shown: shown.transpose()?,
            },
        })
    }
}
