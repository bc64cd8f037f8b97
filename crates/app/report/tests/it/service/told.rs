//! Jobs in which service is told of. All of it is invented.

use report::page::service::{View, closing, page};
use report::page::{Page, Refused};
use workshop::draft::upkeep::{
    DoneDraft, MeterDraft, MishapDraft, PieceDraft, PointDraft, RuleDraft, SortDraft, UsageDraft,
};
use workshop::entry::{Body, JobId, Key};
use workshop::fold::fold;
use workshop::upkeep::answer::Answer;
use workshop::upkeep::{Servicing, Told, evidence};

use crate::choose::Journal;

impl Journal {
    pub(super) fn serve(&mut self, said: Servicing) {
        self.act(Body::Serviced(said));
    }

    pub(super) fn found(&mut self, point: &str, found: &str, note: &str) {
        let draft = PointDraft {
            point: point.into(),
            found: found.into(),
            note: note.into(),
        };
        let (point, well, note) = draft.read().unwrap();
        self.serve(Servicing::Rechecked {
            point,
            well: Some(well),
            note,
        });
    }

    pub(crate) fn all_well(&mut self) {
        for (word, _) in workshop::draft::upkeep::POINTS {
            self.found(word, "well", "");
        }
    }

    pub(crate) fn close(&mut self, says: &Answer) {
        let (job, _) = fold(&self.0);
        self.serve(Servicing::Closed(Box::new(Told {
            evidence: evidence(&job),
            words: closing(says),
            program: workshop::PROGRAM.into(),
        })));
    }

    pub(super) fn used(&mut self) {
        let draft = UsageDraft {
            currency: "EUR".into(),
            water: "silt".into(),
            week: "6".into(),
            season: "50".into(),
            from: "05-01".into(),
            until: "10-15".into(),
            keep: "400".into(),
            wage: "0".into(),
            failure: "150".into(),
            floor: "80".into(),
            ..UsageDraft::default()
        };
        self.serve(Servicing::Usage(Box::new(draft.read().unwrap())));
    }

    pub(super) fn sort(&mut self, key: &str, name: &str, [tenth, half, price]: [&str; 3]) {
        let draft = SortDraft {
            name: name.into(),
            kind: "ring".into(),
            tenth: tenth.into(),
            half: half.into(),
            price: price.into(),
            trust: "fair".into(),
            ..SortDraft::default()
        };
        self.serve(Servicing::Part {
            key: Key::new(key).unwrap(),
            part: Some(Box::new(draft.read().unwrap())),
        });
    }

    pub(super) fn piece(&mut self, key: &str, fitted: &str, end: [&str; 2]) {
        let [end, ended] = end.map(str::to_owned);
        let draft = PieceDraft {
            part: "plastic-ring".into(),
            fitted: fitted.into(),
            end,
            ended,
            ..PieceDraft::default()
        };
        self.serve(Servicing::Piece {
            key: Key::new(key).unwrap(),
            piece: Some(Box::new(draft.read().unwrap())),
        });
    }

    pub(super) fn rings(&mut self) {
        self.sort("plastic-ring", "Plastic ring", ["60", "110", "62"]);
        self.sort("metal-ring", "Metal ring", ["150", "300", "190"]);
        self.piece("plastic-1", "0", ["worn", "95"]);
        self.piece("plastic-2", "95", ["struck", "120"]);
        self.piece("plastic-3", "28", ["", ""]);
    }

    pub(crate) fn happened(&mut self, what: &str, on: &str) {
        let draft = MishapDraft {
            what: what.into(),
            on: on.into(),
            ..MishapDraft::default()
        };
        self.serve(Servicing::Happened(draft.read().unwrap()));
    }

    /// Everything there is to say.
    pub(crate) fn everything() -> Self {
        let mut journal = Self::open();
        journal.used();
        journal.rings();
        let read = MeterDraft {
            hours: "88".into(),
            on: "2026-05-02".into(),
        };
        journal.serve(Servicing::Meter(read.read().unwrap()));
        let rule = RuleDraft {
            hours: "40".into(),
            page: "3-2".into(),
            ..RuleDraft::default()
        };
        journal.serve(Servicing::Rule {
            task: Key::new("lubricant").unwrap(),
            rule: Some(Box::new(rule.read().unwrap())),
        });
        let done = DoneDraft {
            task: "gap".into(),
            on: "2026-05-02".into(),
            hours: "88".into(),
            note: String::new(),
        };
        journal.serve(Servicing::Done(done.read().unwrap()));
        journal.all_well();
        journal
    }

    pub(super) fn serviced(&self, says: &Answer) -> Page {
        self.refused(says, None)
    }

    pub(super) fn refused(&self, says: &Answer, refused: Option<&Refused>) -> Page {
        let (job, objections) = fold(&self.0);
        page(&View {
            id: &JobId::new("job").unwrap(),
            job: &job,
            objections: &objections,
            says,
            refused,
        })
    }
}
