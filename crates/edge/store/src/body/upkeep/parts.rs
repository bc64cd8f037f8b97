//! Sorts of part, and the pieces that were fitted.

use serde::{Deserialize, Serialize};
use workshop::draft::upkeep::{CARRIED, ENDINGS, SORTS, TRUSTS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::upkeep::{self, Servicing};

use super::super::typed::Duration;
use super::super::{key, may, of};
use super::{Plain, entered, plain, said, typed};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sort {
    name: String,
    kind: Option<String>,
    option: Option<String>,
    price: Option<Plain>,
    supplies: Option<Plain>,
    labour: Option<Duration>,
    tenth: Option<Duration>,
    half: Option<Duration>,
    trust: Option<String>,
    ruin_percent: Option<Plain>,
    lost_percent: Option<Plain>,
    lost_at: Option<Duration>,
    note: String,
}

impl From<&upkeep::Part> for Sort {
    fn from(part: &upkeep::Part) -> Self {
        Self {
            name: part.name.clone(),
            kind: part.kind.map(|kind| word(&SORTS, kind).to_owned()),
            option: part.option.as_ref().map(Key::to_string),
            price: plain(part.price.as_ref()),
            supplies: plain(part.supplies.as_ref()),
            labour: typed(part.labour.as_ref()),
            tenth: typed(part.tenth.as_ref()),
            half: typed(part.half.as_ref()),
            trust: part.trust.map(|trust| word(&TRUSTS, trust).to_owned()),
            ruin_percent: plain(part.ruin.as_ref()),
            lost_percent: plain(part.lost.as_ref()),
            lost_at: typed(part.lost_at.as_ref()),
            note: part.note.clone(),
        }
    }
}

impl TryFrom<Sort> for upkeep::Part {
    type Error = String;

    fn try_from(stored: Sort) -> Result<Self, String> {
        Ok(Self {
            name: stored.name,
            kind: may(&SORTS, stored.kind.as_ref())?,
            option: stored.option.as_deref().map(key).transpose()?,
            price: said(stored.price),
            supplies: said(stored.supplies),
            labour: entered(stored.labour),
            tenth: entered(stored.tenth),
            half: entered(stored.half),
            trust: may(&TRUSTS, stored.trust.as_ref())?,
            ruin: said(stored.ruin_percent),
            lost: said(stored.lost_percent),
            lost_at: entered(stored.lost_at),
            note: stored.note,
        })
    }
}

/// None puts it away.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Described {
    pub(super) sort: String,
    pub(super) said: Option<Sort>,
}

impl TryFrom<Described> for Servicing {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        let part = stored.said.map(upkeep::Part::try_from).transpose()?;
        Ok(Self::Part {
            key: key(&stored.sort)?,
            part: part.map(Box::new),
        })
    }
}

/// How it ended, and at how many engine hours.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct End {
    how: String,
    at: Duration,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Piece {
    sort: String,
    elsewhere: bool,
    water: Option<String>,
    fitted: Duration,
    good: Option<Duration>,
    end: Option<End>,
    note: String,
}

impl From<&upkeep::Piece> for Piece {
    fn from(piece: &upkeep::Piece) -> Self {
        Self {
            sort: piece.part.to_string(),
            elsewhere: piece.elsewhere,
            water: piece.water.map(|water| word(&CARRIED, water).to_owned()),
            fitted: (&piece.fitted).into(),
            good: typed(piece.good.as_ref()),
            end: piece.end.as_ref().map(|(how, at)| End {
                how: word(&ENDINGS, *how).to_owned(),
                at: at.into(),
            }),
            note: piece.note.clone(),
        }
    }
}

impl TryFrom<Piece> for upkeep::Piece {
    type Error = String;

    fn try_from(stored: Piece) -> Result<Self, String> {
        let end = stored.end.map(|end| {
            let how = of(&ENDINGS, &end.how)?;
            Ok::<_, String>((how, end.at.into()))
        });
        Ok(Self {
            part: key(&stored.sort)?,
            elsewhere: stored.elsewhere,
            water: may(&CARRIED, stored.water.as_ref())?,
            fitted: stored.fitted.into(),
            good: entered(stored.good),
            end: end.transpose()?,
            note: stored.note,
        })
    }
}

/// None puts it away.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PieceDescribed {
    pub(super) piece: String,
    pub(super) said: Option<Piece>,
}

impl TryFrom<PieceDescribed> for Servicing {
    type Error = String;

    fn try_from(stored: PieceDescribed) -> Result<Self, String> {
        let piece = stored.said.map(upkeep::Piece::try_from).transpose()?;
        Ok(Self::Piece {
            key: key(&stored.piece)?,
            piece: piece.map(Box::new),
        })
    }
}
