//! A journal in memory: what the store does, without the store.

use clearance::{Answer, Estimate, Verdict};
use jiff::Timestamp;
use quantity::{Entered, Unit, parse};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::entry::{Body, Entry, EntryId, NewEntry};
use workshop::fold::{Objection, fold};
use workshop::gap::{Shown, evidence};
use workshop::job::{
    Job, Lead, LeafSet, Limits, Measure, Posture, Pump, Rotation, Spot, Tried, View, Walk,
};
use workshop::refusal::Refusal;

#[derive(Clone, Default)]
pub(crate) struct Journal {
    pub(crate) entries: Vec<Entry>,
}

impl Journal {
    /// A job with pump and leaves.
    pub(crate) fn described() -> Self {
        let mut journal = Self::default();
        journal.act(opened());
        journal.record(Body::PumpDescribed(pump()));
        journal.record(Body::LeavesDescribed(leaves()));
        journal
    }

    /// A job with an entry of every kind, things undone and done again.
    pub(crate) fn rich() -> Self {
        let mut journal = Self::described();
        journal.record(Body::LimitsStated(limits()));
        journal.record(Body::WalkChosen(Walk::LeafByLeaf));
        for blade in 0..3 {
            for position in 0..4 {
                journal.record(tried(blade, position, &[("13", Answer::Goes)]));
            }
        }
        journal.record(tried(0, 0, &[("14", Answer::WontGo)]));
        journal.record(tried(0, 1, &[("12", Answer::WontGo)]));
        journal.act(Act::Undo);
        journal.act(Act::Undo);
        journal.act(Act::Redo);
        let fresh = [("13", Answer::Goes), ("14", Answer::WontGo)];
        for blade in 0..3 {
            for position in 0..4 {
                journal.record(afresh(tried(blade, position, &fresh)));
            }
        }
        let shown = journal.shown();
        journal.record(Body::GapAccepted(shown));
        journal.record(Body::WalkChosen(Walk::TwoLeaves {
            go: thou("12"),
            no_go: thou("15"),
        }));
        journal.act(Act::Undo);
        journal
    }

    pub(crate) fn job(&self) -> Job {
        fold(&self.entries).0
    }

    pub(crate) fn objections(&self) -> Vec<Objection> {
        fold(&self.entries).1
    }

    /// What a person could be shown now; the numbers are invented, the evidence is that of the job.
    pub(crate) fn shown(&self) -> Shown {
        let gap = Estimate {
            median: 0.000_35,
            low: 0.000_34,
            high: 0.000_36,
        };
        Shown {
            evidence: evidence(&self.job()).unwrap(),
            verdict: Verdict::In,
            within: Some(0.97),
            required: 0.95,
            least: gap,
            mean: gap,
            greatest: gap,
        }
    }

    pub(crate) fn try_act(&mut self, act: Act) -> Result<(), Refusal> {
        let next = self.entries.len() + 1;
        for new in decide(&self.job(), act, stamp(&format!("e-{next}")))? {
            self.push(new);
        }
        Ok(())
    }

    pub(crate) fn act(&mut self, act: Act) {
        self.try_act(act).unwrap();
    }

    pub(crate) fn record(&mut self, body: Body) {
        self.act(Act::Record(body));
    }

    /// Appends what `decide` may have refused, as another device could have.
    pub(crate) fn force(&mut self, body: Body) -> EntryId {
        let id = EntryId::new(&format!("e-{}", self.entries.len() + 1)).unwrap();
        let stamp = stamp(id.as_str());
        self.push(NewEntry {
            id: stamp.id,
            seen: 0,
            happened_at: stamp.now,
            device: stamp.device,
            who: stamp.who,
            program: "a test".into(),
            body,
        });
        id
    }

    fn push(&mut self, new: NewEntry) {
        self.entries.push(Entry {
            position: u64::try_from(self.entries.len()).unwrap() + 1,
            recorded_at: Timestamp::UNIX_EPOCH,
            new,
        });
    }
}

pub(crate) fn stamp(id: &str) -> Stamp {
    Stamp {
        id: EntryId::new(id).unwrap(),
        now: "2026-11-24T14:02:00+01:00[Europe/Berlin]".parse().unwrap(),
        device: "tablet".into(),
        who: "A. Example".into(),
        seen: None,
    }
}

pub(crate) fn mm(text: &str) -> Entered {
    parse(text, Unit::Millimetre).unwrap()
}

pub(crate) fn thou(text: &str) -> Entered {
    parse(text, Unit::Thou).unwrap()
}

pub(crate) fn opened() -> Act {
    Act::Record(Body::JobOpened {
        title: "Spring rebuild".into(),
        note: "Lost pull since autumn.".into(),
        follows: None,
    })
}

pub(crate) fn pump() -> Pump {
    Pump {
        blades: 3,
        positions: 4,
        bore: mm("140"),
        view: View::LookingForward,
        rotation: Rotation::Clockwise,
    }
}

pub(crate) fn leaves() -> LeafSet {
    LeafSet {
        unit: Unit::Thou,
        thicknesses: ["10", "11", "12", "13", "14", "15"].map(thou).to_vec(),
        width: mm("1/2 in"),
        lead: Lead::RoundRing,
        posture: Posture::BenchShaftUpright,
        tolerance: None,
        feel: Some(mm("0.01")),
    }
}

pub(crate) fn limits() -> Limits {
    Limits {
        least: Some(thou("10")),
        greatest: Some(mm("0,6 mm")),
        measure: Measure::Radial,
        page: "8-14".into(),
        rub_in: false,
    }
}

pub(crate) fn spot(blade: u8, position: u8) -> Spot {
    Spot { blade, position }
}

pub(crate) fn tried(blade: u8, position: u8, tries: &[(&str, Answer)]) -> Body {
    let tries = tries.iter().map(|(leaf, answer)| Tried {
        leaf: thou(leaf),
        answer: *answer,
    });
    Body::LeavesTried {
        spot: spot(blade, position),
        tries: tries.collect(),
        afresh: false,
    }
}

pub(crate) fn afresh(body: Body) -> Body {
    match body {
        Body::LeavesTried { spot, tries, .. } => Body::LeavesTried {
            spot,
            tries,
            afresh: true,
        },
        other => other,
    }
}
