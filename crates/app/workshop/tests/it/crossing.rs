//! Two devices on one job: what is told of acts whose authors had not seen each other's.

use clearance::Answer;
use jiff::Timestamp;
use workshop::act::{Act, Stamp};
use workshop::crossing::{about, crossings};
use workshop::entry::{Body, Entry, Key};
use workshop::fold::fold;
use workshop::job::Walk;
use workshop::merge::{again, decide_on};
use workshop::plan::Work;
use workshop::refusal::{Apart, Refusal};

use crate::journal::{Journal, afresh, limits, pump, stamp, tried};

const FIRST: [(&str, Answer); 1] = [("13", Answer::Goes)];
const OTHER: [(&str, Answer); 1] = [("13", Answer::WontGo)];

/// A job of three entries, on which devices act.
#[derive(Clone)]
struct Shop(Vec<Entry>);

impl Shop {
    fn open() -> Self {
        Self(Journal::described().entries)
    }

    fn last(&self) -> u64 {
        self.0.last().unwrap().position
    }

    fn try_act(&mut self, device: &str, seen: u64, act: &Act) -> Result<(), Refusal> {
        let stamp = Stamp {
            device: device.into(),
            seen: Some(seen),
            ..stamp(&format!("{device}-{}", self.last()))
        };
        let decided = decide_on(&self.0, act.clone(), stamp.clone())?;
        for new in decided {
            let position = self.last() + 1;
            self.0.push(Entry {
                position,
                recorded_at: Timestamp::UNIX_EPOCH,
                new,
            });
        }
        let there = self.0.last().unwrap();
        assert!(again(&self.0, there, act, &stamp), "it is known again");
        Ok(())
    }

    fn act(&mut self, device: &str, seen: u64, act: &Act) {
        self.try_act(device, seen, act).unwrap();
    }

    fn says(&mut self, device: &str, seen: u64, body: Body) {
        self.act(device, seen, &Act::Record(body));
    }

    /// The positions of each crossing.
    fn crossed(&self) -> Vec<Vec<u64>> {
        let positions = |said: &[Entry]| said.iter().map(|entry| entry.position).collect();
        crossings(&self.0)
            .iter()
            .map(|one| positions(&one.said))
            .collect()
    }
}

#[test]
fn law_what_two_devices_say_of_one_spot_unseen_is_told_until_it_is_said_anew() {
    let mut shop = Shop::open();
    shop.says("tablet", 3, tried(0, 0, &FIRST));
    shop.says("phone", 3, tried(0, 0, &OTHER));
    assert_eq!(shop.crossed(), [[4, 5]]);
    // Of another spot, nothing is said of this one.
    shop.says("tablet", 5, tried(1, 0, &FIRST));
    assert_eq!(shop.crossed(), [[4, 5]]);
    // A third device that saw one of the two settles nothing, and joins them.
    shop.says("laptop", 4, afresh(tried(0, 0, &[("14", Answer::Goes)])));
    assert_eq!(shop.crossed(), [[4, 5, 7]]);
    shop.says("phone", 7, afresh(tried(0, 0, &FIRST)));
    assert_eq!(shop.crossed(), [[0; 0]; 0]);
}

#[test]
fn law_an_undo_settles_and_a_restore_does_not() {
    let mut shop = Shop::open();
    shop.says("tablet", 3, tried(0, 0, &FIRST));
    shop.says("phone", 3, tried(0, 0, &OTHER));
    shop.act("phone", 5, &Act::Undo);
    assert_eq!(shop.crossed(), [[0; 0]; 0]);
    shop.act("phone", 6, &Act::Redo);
    assert_eq!(shop.crossed(), [[4, 5]]);
}

#[test]
fn law_nothing_is_told_of_those_who_saw_each_other() {
    let mut shop = Shop::open();
    for n in 0..40_u8 {
        let device = ["tablet", "phone", "laptop"][usize::from(n % 3)];
        let seen = shop.last();
        let answer = if n % 2 == 0 { &FIRST } else { &OTHER };
        shop.says(device, seen, tried(n % 3, n % 2, answer));
    }
    assert_eq!(shop.crossed(), [[0; 0]; 0]);
    assert_eq!(crossings(&Journal::rich().entries), []);
}

#[test]
fn law_a_device_does_not_cross_itself_and_agreement_is_no_news() {
    let mut shop = Shop::open();
    // Two acts that waited on one device, pressed on the same page.
    shop.says("tablet", 3, tried(0, 0, &FIRST));
    shop.says("tablet", 3, tried(0, 0, &OTHER));
    assert_eq!(shop.crossed(), [[0; 0]; 0]);
    shop.says("phone", 5, tried(1, 1, &FIRST));
    shop.says("tablet", 5, tried(1, 1, &FIRST));
    assert_eq!(shop.crossed(), [[0; 0]; 0]);
}

#[test]
fn law_settings_cross_and_lists_do_not() {
    let mut shop = Shop::open();
    shop.says("tablet", 3, Body::PumpDescribed(pump()));
    let mut other = pump();
    other.blades = 4;
    shop.says("phone", 3, Body::PumpDescribed(other));
    shop.says("tablet", 3, Body::LimitsStated(limits()));
    shop.says("phone", 3, Body::WalkChosen(Walk::LeafByLeaf));
    assert_eq!(shop.crossed(), [[4, 5]]);
    let step = Key::new("clean").unwrap();
    let begun = Work::StepBegun { step: step.clone() };
    let done = Work::StepDone {
        step,
        witnessed: true,
    };
    assert_eq!(
        about(&Body::Work(begun)),
        about(&Body::Work(done)),
        "the same step"
    );
}

/// Every order in which three devices can act, each on what it saw: what is told does not rest on how
/// devices are called, and every prefix folds.
#[test]
fn law_names_do_not_matter_and_every_interleaving_folds() {
    let mut rounds = 0;
    for pattern in 0..729_u32 {
        let digits: Vec<u32> = (0..6).map(|n| pattern / 3_u32.pow(n) % 3).collect();
        let shop = |names: [&str; 3]| {
            let mut shop = Shop::open();
            let mut seen = [3_u64; 3];
            for (n, digit) in digits.iter().enumerate() {
                let who = usize::try_from(*digit).unwrap();
                let answer = if n % 2 == 0 { &FIRST } else { &OTHER };
                shop.says(
                    names[who],
                    seen[who],
                    tried(0, u8::from(n % 3 == 2), answer),
                );
                // Every other act is followed by a look.
                if n % 2 == 1 {
                    seen[who] = shop.last();
                }
            }
            shop
        };
        let (plain, turned) = (shop(["a", "b", "c"]), shop(["z", "m", "b"]));
        assert_eq!(plain.crossed(), turned.crossed(), "{digits:?}");
        rounds += usize::from(!plain.crossed().is_empty());
        for end in 0..=plain.0.len() {
            let (job, _) = fold(&plain.0[..end]);
            for one in &job.crossed {
                assert!(one.said.len() >= 2 && one.said.is_sorted_by_key(|e| e.position));
            }
        }
    }
    assert!(rounds > 100, "{rounds} of them cross");
}

#[test]
fn law_an_undo_spares_what_its_author_did_not_see() {
    let mut shop = Shop::open();
    shop.says("tablet", 3, tried(0, 0, &FIRST));
    shop.says("phone", 4, tried(0, 1, &FIRST));
    shop.act("tablet", 4, &Act::Undo);
    assert_eq!(fold(&shop.0).0.tries.len(), 1, "the phone’s stays");
    let twice = shop.try_act("laptop", 4, &Act::Undo);
    assert_eq!(twice, Err(Refusal::Apart(Apart::DoneElsewhere)));
    let ahead = shop.try_act("laptop", 9, &tried_act());
    let (seen, position) = (9, 6);
    assert_eq!(ahead, Err(Refusal::Apart(Apart::Ahead { seen, position })));
}

fn tried_act() -> Act {
    Act::Record(tried(0, 0, &FIRST))
}
