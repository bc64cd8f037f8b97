//! How long the sorts of part last, what they cost by the hour, and where the pieces in use stand.

use quantity::{Entered, Plain, Unit};
use service::band::Band;
use service::basin::{Basin, basin};
use service::cost::{Bill, Cost, Fade};
use service::horizon::{self, Kept};
use service::life::Life;
use service::posterior::{Point, Posterior, Prior};
use service::records::Record;
use service::strikes::Strikes;

use super::answer::{CostAt, Costs, InUse, Lacks, Lasts, PartSays};
use super::due::Now;
use super::{Carries, End, Mishap, Part, Piece, Trust, Usage};
use crate::entry::Key;

/// Share of what is thought likely that a band holds.
const BAND: f64 = 0.8; // not a conversion: a share
/// Ages of replacement within so much of the cheapest count as alike.
const ALIKE: f64 = 0.05; // not a conversion: a share
/// Lives a posterior is thinned to; more change no figure that is shown.
const LIVES: u32 = 400; // not a conversion: a count
/// One of a hundred.
const PERCENT: f64 = 0.01; // not a conversion: a share

/// Spreads of a guess: of the logarithms of shape and scale. Assumed, no source.
fn spreads(trust: Option<Trust>) -> (f64, f64) {
    match trust.unwrap_or(Trust::Rough) {
        Trust::Rough => (0.35, 0.7), // not a conversion: spreads
        Trust::Fair => (0.25, 0.45), // not a conversion: spreads
        Trust::Well => (0.15, 0.2),  // not a conversion: spreads
    }
}

/// A sort of part with all that was reckoned of it.
pub(super) struct Reckoned {
    pub(super) says: PartSays,
    /// Its lives, strikes among them, where a guess was said.
    pub(super) lives: Option<Posterior>,
    /// What its ends cost.
    pub(super) bill: Option<(Bill, Cost)>,
}

/// All sorts of part.
pub(super) fn parts(now: &Now<'_>, strikes: Option<f64>) -> Vec<Reckoned> {
    let usage = now.job.upkeep.usage();
    let bench = Bench {
        now,
        usage: &usage,
        strikes,
    };
    let parts = now.job.upkeep.parts_in_order().into_iter();
    parts.map(|(key, part)| bench.reckon(key, part)).collect()
}

/// Hard strikes for each second run: the guess, worth one strike, and what happened since the meter was first read.
pub(super) fn strikes(now: &Now<'_>) -> Option<f64> {
    let upkeep = &now.job.upkeep;
    let struck = upkeep.mishaps.iter();
    let struck = struck
        .filter(|what| what.what.value.what == Mishap::Strike)
        .count();
    let run = now.hours.map_or(0.0, |hours| hours.today - hours.first.0);
    let usage = upkeep.usage.as_ref();
    let between = usage.and_then(|fact| fact.value.between.as_ref());
    match between {
        Some(between) => Strikes::guess(between.value)
            .and_then(|guess| guess.seen(u32::try_from(struck).unwrap_or(u32::MAX), run))
            .map(|known| known.mean())
            .ok(),
        #[expect(clippy::cast_precision_loss, reason = "a few strikes")]
        None if struck > 0 && run > 0.0 => Some(struck as f64 / run),
        None => None,
    }
}

struct Bench<'a> {
    now: &'a Now<'a>,
    usage: &'a Usage,
    strikes: Option<f64>,
}

fn money(plain: Option<&Plain>) -> f64 {
    plain.map_or(0.0, |plain| plain.value)
}

/// Money for an hour as money for a second.
fn by_second(plain: Option<&Plain>) -> f64 {
    money(plain) * Unit::Hour.from_si(1.0)
}

/// Money for a second as money for an hour.
pub(super) fn by_hour(rate: f64) -> f64 {
    rate / Unit::Hour.from_si(1.0)
}

impl Bench<'_> {
    fn reckon(&self, key: &Key, part: &Part) -> Reckoned {
        let lives = self.lives(key, part);
        let bill = self.bill(part);
        let lasts = lives.as_ref().and_then(|lives| self.lasts(part, lives));
        let basin = lives
            .as_ref()
            .zip(bill.as_ref())
            .and_then(|(lives, (_, cost))| basin(&lives.all, cost, BAND).ok());
        let costs = basin.as_ref().zip(lives.as_ref()).zip(bill.as_ref());
        let costs = costs
            .and_then(|((basin, lives), (bill, cost))| self.costs(basin, &lives.all, (bill, cost)));
        let in_use = lives
            .as_ref()
            .and_then(|lives| self.in_use(key, &lives.all));
        let lacks = [
            (Lacks::Price, part.price.is_none()),
            (Lacks::Life, part.half.is_none()),
            (Lacks::Failure, self.usage.failure.is_none()),
            (Lacks::Season, self.usage.season.is_none()),
        ];
        let lacks = lacks
            .into_iter()
            .filter(|(_, so)| *so)
            .map(|(what, _)| what);
        Reckoned {
            says: PartSays {
                key: key.clone(),
                name: part.name.clone(),
                kind: part.kind,
                option: part.option.clone(),
                lacks: lacks.collect(),
                lasts,
                costs,
                in_use,
            },
            lives: lives.map(|lives| lives.all),
            bill,
        }
    }

    /// What an hour in some water wears, in hours of this craft's own; none where nobody said.
    fn exposure(&self, piece: &Piece) -> Option<f64> {
        let (own, its) = (self.usage.water, piece.water.or(self.usage.water));
        if own == its {
            return Some(1.0);
        }
        let weighs = |water: Option<Carries>| match water? {
            Carries::Clean => Some(1.0),
            Carries::Silt => self.usage.silt.as_ref().map(|plain| plain.value),
            Carries::Sand => self.usage.sand.as_ref().map(|plain| plain.value),
        };
        Some(weighs(its)? / weighs(own)?)
    }

    /// What is known of the pieces of a sort, and how many could not be counted.
    fn records(&self, key: &Key) -> (Vec<Record>, usize) {
        let pieces = self.now.job.upkeep.pieces_in_order().into_iter();
        let mine = pieces.filter(|(_, piece)| piece.part == *key);
        let (mut records, mut left_out) = (Vec::new(), 0);
        for (_, piece) in mine {
            match self.exposure(piece) {
                Some(by) => records.extend(record(piece, by)),
                None => left_out += 1,
            }
        }
        (records, left_out)
    }

    fn lives(&self, key: &Key, part: &Part) -> Option<Lives> {
        let (half, tenth) = (part.half.as_ref()?, part.tenth.as_ref()?);
        let (shape, scale) = spreads(part.trust);
        let prior = Prior::of_ages(half.value, tenth.value, shape, scale).ok()?;
        let (records, left_out) = self.records(key);
        let lives = |records: &[Record]| {
            let worn = Posterior::new(&prior, records).ok()?.thinned(LIVES).ok()?;
            match (self.strikes, &part.ruin) {
                (Some(rate), Some(ruin)) => worn.struck(rate, ruin.value * PERCENT).ok(),
                _ => Some(worn),
            }
        };
        Some(Lives {
            all: lives(&records)?,
            guess: if records.is_empty() { None } else { lives(&[]) },
            records: records.len(),
            left_out,
        })
    }

    fn bill(&self, part: &Part) -> Option<(Bill, Cost)> {
        let fade = part.lost.as_ref().zip(part.lost_at.as_ref());
        let fade = fade.filter(|_| self.usage.worth.is_some());
        let bill = Bill {
            part: part.price.as_ref()?.value,
            consumables: money(part.supplies.as_ref()),
            labour: part.labour.as_ref().map_or(0.0, |labour| labour.value),
            wage: by_second(self.usage.wage.as_ref()),
            failure: self.usage.failure.as_ref()?.value,
            fade: fade.map(|(lost, after)| Fade {
                share: lost.value * PERCENT,
                after: after.value,
                worth: by_second(self.usage.worth.as_ref()),
            }),
        };
        let cost = bill.cost().ok()?;
        Some((bill, cost))
    }

    fn season(&self) -> Option<f64> {
        self.usage.season.as_ref().map(|season| season.value)
    }

    fn lasts(&self, part: &Part, lives: &Lives) -> Option<Lasts> {
        let gone = |share| lives.all.gone(share).ok();
        let season = self.season();
        let through = |lives: &Posterior| season.and_then(|season| lives.survival(season).ok());
        let counted = self.strikes.is_some() && part.ruin.is_some();
        let struck = season.filter(|_| counted).and_then(|season| {
            let few = lives.all.thinned(FEW).ok()?;
            let (mut struck, mut gone) = (0.0, 0.0);
            for point in few.points() {
                let ends = point.life.ends(season).ok()?;
                struck += point.weight * ends.struck;
                gone += point.weight * (1.0 - ends.good);
            }
            Some(struck / gone)
        });
        Some(Lasts {
            gone: [gone(0.1)?, gone(0.5)?, gone(0.9)?],
            season: through(&lives.all),
            guess: lives.guess.as_ref().and_then(through),
            records: lives.records,
            left_out: lives.left_out,
            struck: struck.filter(|share| share.is_finite()),
        })
    }

    fn costs(&self, basin: &Basin, lives: &Posterior, of: (&Bill, &Cost)) -> Option<Costs> {
        let (bill, cost) = of;
        let rate = |age: &service::basin::Age| band(age.rate).map(by_hour);
        let curve = basin.ages.iter().map(|age| CostAt {
            age: age.at,
            rate: rate(age),
        });
        let best = basin.best.as_ref();
        let planned = cost.planned();
        let keep = self.usage.keep.as_ref().map(|keep| keep.value);
        let until = keep.and_then(|hours| {
            let kept = Kept { age: 0.0, hours };
            horizon::best_within(&middle(lives)?, cost, kept).ok()
        });
        let until = until.map(|within| within.at);
        let kept = keep.zip(until).and_then(|(keep, at)| {
            kept(lives, cost, (at, keep)).map(|kept| kept.map(|more| planned + more))
        });
        Some(Costs {
            curve: curve.collect(),
            best: best.map(|age| age.at),
            rate: rate(best.unwrap_or(&basin.to_failure)),
            to_failure: by_hour(basin.to_failure.rate.mean),
            flat: basin.flat(ALIKE).ok()?,
            ends: (planned, cost.failed()),
            kept,
            until: until.flatten(),
            own_time: bill.wage <= 0.0 && bill.labour > 0.0,
            fade: bill.fade.is_some(),
        })
    }

    /// The latest piece of this sort that is in this craft still.
    fn in_use(&self, key: &Key, lives: &Posterior) -> Option<InUse> {
        let pieces = self.now.job.upkeep.pieces_in_order().into_iter();
        let mut mine = pieces
            .filter(|(_, piece)| piece.part == *key && !piece.elsewhere && piece.end.is_none());
        let (piece, said) = mine.next_back()?;
        let today = self
            .now
            .hours
            .map_or(said.fitted.value, |hours| hours.today);
        let age = (today - said.fitted.value).max(0.0);
        let season = self.season();
        let seen = self.exposure(said).and_then(|by| record(said, by));
        let chance = |age: f64| {
            // An age before its last look is asked about as of any piece.
            let seen = match seen {
                Some(Record::Good(seen)) => seen.min(age),
                _ => 0.0,
            };
            lives.onward(seen, age, season?).ok()
        };
        let floor = self.usage.floor.as_ref().map(|floor| floor.value * PERCENT);
        let beyond = floor.and_then(|floor| {
            let under = |age: f64| chance(age).is_some_and(|chance| chance < floor);
            let step = lives.gone(0.9).ok()? / f64::from(STEPS); // not a conversion: a share
            // Of parts that run on and on, the good ones are left: the chance falls and may rise again.
            let first = (0..=STEPS).find(|n| under(step * f64::from(*n)))?;
            let (mut low, mut high) = (
                step * f64::from(first.checked_sub(1)?),
                step * f64::from(first),
            );
            for _ in 0..HALVINGS {
                let middle = 0.5 * (low + high);
                if under(middle) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            Some(low)
        });
        Some(InUse {
            piece: piece.clone(),
            age,
            fitted: said.fitted.value,
            season: chance(age),
            floor: beyond,
        })
    }
}

/// Ages at which the chance is looked at, until it falls under the floor; then halved.
const STEPS: u32 = 60;
const HALVINGS: usize = 10;

/// The lives of a sort, and of its guess alone.
struct Lives {
    all: Posterior,
    guess: Option<Posterior>,
    records: usize,
    left_out: usize,
}

/// What a piece tells of the life of its sort.
fn record(piece: &Piece, by: f64) -> Option<Record> {
    let age = |hours: &Entered| (hours.value - piece.fitted.value) * by;
    let good = piece.good.as_ref().map_or(0.0, age);
    match &piece.end {
        Some((End::Worn, hours)) => Some(Record::Between(good, age(hours))),
        Some((End::Failed, hours)) => Some(Record::Failed(age(hours))),
        // A strike says nothing of wear but that it was not worn out yet.
        Some((End::Struck | End::Good, hours)) => Some(Record::Good(age(hours))),
        // Nobody knows of a piece in use more than its last look told.
        None => (good > 0.0).then_some(Record::Good(good)),
    }
}

/// Low, middle and high, as an answer tells them.
fn band(of: Band) -> [f64; 3] {
    [of.low, of.mean, of.high]
}

/// Money over the hours the craft is still kept, beyond the first fitting: band over the lives.
fn kept(lives: &Posterior, cost: &Cost, of: (Option<f64>, f64)) -> Option<[f64; 3]> {
    let (at, hours) = of;
    let few = lives.thinned(FEW).ok()?;
    let new = Kept { age: 0.0, hours };
    let money = |point: &Point| {
        let money = horizon::within(&point.life, cost, at, new);
        money.map(|money| (point.weight, money))
    };
    let each = few.points().iter().map(money).collect::<Result<_, _>>();
    Band::of(each.ok()?, BAND).ok().map(band)
}

/// The one life that stands for all where many figures are tried.
pub(super) fn middle(lives: &Posterior) -> Option<Life> {
    let shape = lives.mean(|point| point.shape.ln()).exp();
    let scale = lives.mean(|point| point.scale.ln()).exp();
    let struck = lives.points().first()?.life.ruin();
    Life::new(shape, scale).ok()?.struck(struck, 1.0).ok()
}

/// Lives the hours still kept are reckoned over.
pub(super) const FEW: u32 = 100; // not a conversion: a count
