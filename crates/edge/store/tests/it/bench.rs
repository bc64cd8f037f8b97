//! A store in a folder of its own, and a job with an entry of every kind. All data are invented.

use crate::postgres::Server;
use crate::{choose, diagnose, fits, inspect, photos, seals, tools, upkeep, water, work};
use ::store::Store;
use clearance::Answer;
use jiff::{Timestamp, ZonedDateTime};
use quantity::{Entered, Unit, parse};
use sqlx::{AnyConnection, Connection as _};
use tempfile::TempDir;
use workshop::act::{Act, Stamp};
use workshop::draft::{FastenedDraft, JointDraft};
use workshop::entry::{Body, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::gap::Inputs;
use workshop::job::{
    Lead, LeafSet, Limits, Measure, Posture, Pump, Rotation, Spot, Tried, View, Walk,
};
use workshop::judge::judge;

pub(crate) struct Bench {
    pub(crate) store: Store,
    pub(crate) folder: TempDir,
    /// The store's address.
    pub(crate) url: String,
}

impl Bench {
    pub(crate) async fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let url = url(&folder);
        Self::at(url, folder).await
    }

    /// In a database of its own on the server that all tests share.
    pub(crate) async fn on_a_server() -> Self {
        let url = Server::shared().database();
        Self::at(url, tempfile::tempdir().unwrap()).await
    }

    async fn at(url: String, folder: TempDir) -> Self {
        let store = Store::open(&url).await.unwrap();
        Self { store, folder, url }
    }

    /// A new one of the same kind.
    pub(crate) async fn beside(&self) -> Self {
        if self.url.starts_with("sqlite:") {
            Self::new().await
        } else {
            Self::on_a_server().await
        }
    }

    /// The store closed and opened again.
    pub(crate) async fn again(self) -> Self {
        self.store.close().await;
        Self::at(self.url, self.folder).await
    }

    /// A connection beside the store, for doing what the store never does.
    pub(crate) async fn aside(&self) -> AnyConnection {
        sqlx::any::install_default_drivers();
        AnyConnection::connect(&self.url).await.unwrap()
    }
}

pub(crate) fn url(folder: &TempDir) -> String {
    format!("sqlite:{}", folder.path().join("store.sqlite").display())
}

pub(crate) fn job(id: &str) -> JobId {
    JobId::new(id).unwrap()
}

pub(crate) fn now() -> ZonedDateTime {
    "2026-11-24T14:02:00.25+01:00[Europe/Berlin]"
        .parse()
        .unwrap()
}

pub(crate) fn later(seconds: i64) -> Timestamp {
    Timestamp::from_second(1_795_525_320 + seconds).unwrap()
}

pub(crate) fn stamp(id: &str) -> Stamp {
    Stamp {
        id: EntryId::new(id).unwrap(),
        now: now(),
        device: "tablet at the bench".into(),
        who: "A. Example".into(),
        seen: None,
    }
}

pub(crate) fn opened(title: &str) -> Act {
    Act::Record(Body::JobOpened {
        title: title.into(),
        note: "Invented data.".into(),
        follows: Some(JobId::new("last-autumn").unwrap()),
    })
}

fn mm(text: &str) -> Entered {
    parse(text, Unit::Millimetre).unwrap()
}

pub(crate) fn thou(text: &str) -> Entered {
    parse(text, Unit::Thou).unwrap()
}

pub(crate) fn pump() -> Act {
    Act::Record(Body::PumpDescribed(Pump {
        blades: 3,
        positions: 4,
        bore: mm("5-5/8 in"),
        view: View::LookingForward,
        rotation: Rotation::Anticlockwise,
    }))
}

pub(crate) fn leaves() -> Act {
    let thicknesses = ["10", "0.28 mm", "12", "13 thou", "0,014\"", "15"];
    Act::Record(Body::LeavesDescribed(LeafSet {
        unit: Unit::Thou,
        thicknesses: thicknesses.map(thou).to_vec(),
        width: mm("12.7"),
        lead: Lead::AlongShaft,
        posture: Posture::BenchShaftLevel,
        tolerance: Some(mm("5 µm")),
        feel: Some(mm("0.01")),
    }))
}

pub(crate) fn tried(blade: u8, position: u8) -> Act {
    let tries = [("13", Answer::Goes), ("14", Answer::WontGo)];
    Act::Record(Body::LeavesTried {
        spot: Spot { blade, position },
        tries: tries
            .map(|(leaf, answer)| Tried {
                leaf: thou(leaf),
                answer,
            })
            .to_vec(),
        afresh: position == 3,
    })
}

/// A joint to a torque of the manual, in both units.
pub(crate) fn joint() -> JointDraft {
    let words = |text: &str| text.to_owned();
    JointDraft {
        name: words("Housing to stator"),
        thread: words("M8"),
        head: words("hex"),
        count: words("4"),
        class: words("stainless-70"),
        hole: words("aluminium"),
        torque: words("22"),
        second: words("16 lbf·ft"),
        stated_for: words("dry"),
        condition: words("threadlocker"),
        face: words("sealant"),
        page: words("5-18"),
        ..JointDraft::default()
    }
}

/// Appends one entry of every kind to the job, in an order that makes sense.
pub(crate) async fn every_kind(store: &Store, id: &JobId) {
    let limits = Limits {
        least: Some(thou("10")),
        greatest: Some(mm("0,6")),
        measure: Measure::Radial,
        page: "p. 8-14".into(),
        rub_in: false,
    };
    let walk = Walk::TwoLeaves {
        go: thou("10"),
        no_go: mm("0.6"),
    };
    let mut acts = vec![
        opened("Spring rebuild"),
        pump(),
        leaves(),
        Act::Record(Body::LimitsStated(limits)),
        Act::Record(Body::WalkChosen(walk)),
        Act::Undo,
    ];
    acts.extend((0..12).map(|n| tried(n / 4, n % 4)));
    acts.extend(work::every_kind());
    for (n, act) in acts.into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-{n}"));
        let at = later(i64::try_from(n).unwrap());
        store.act(id, act, stamp, at).await.unwrap();
    }
    for (n, body) in of_a_joint().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-joint-{n}"));
        store
            .act(id, Act::Record(body), stamp, later(90))
            .await
            .unwrap();
    }
    for (n, said) in tools::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-tool-{n}"));
        let act = Act::Record(Body::Tooled(said));
        store.act(id, act, stamp, later(94)).await.unwrap();
    }
    for (n, body) in fits::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-fit-{n}"));
        let act = Act::Record(body);
        store.act(id, act, stamp, later(95)).await.unwrap();
    }
    let folded = fold(&store.entries(id).await.unwrap()).0;
    let shown = judge(&Inputs::of(&folded).unwrap()).shown().unwrap();
    let accepted = stamp(&format!("{id}-accepted"));
    let act = Act::Record(Body::GapAccepted(shown));
    store.act(id, act, accepted, later(99)).await.unwrap();
    let said = inspect::every_kind().into_iter();
    for (n, said) in said.chain(seals::every_kind("housing")).enumerate() {
        let stamp = stamp(&format!("{id}-inspect-{n}"));
        let act = Act::Record(Body::Inspected(said));
        store.act(id, act, stamp, later(100)).await.unwrap();
    }
    for (n, said) in photos::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-photo-{n}"));
        let act = Act::Record(Body::Photographed(said));
        store.act(id, act, stamp, later(101)).await.unwrap();
    }
    Box::pin(on_the_water(store, id)).await;
    Box::pin(what_to_fit(store, id)).await;
    Box::pin(what_is_wrong(store, id)).await;
    Box::pin(opened_again(store, id)).await;
}

async fn on_the_water(store: &Store, id: &JobId) {
    for (n, said) in water::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-water-{n}"));
        let act = Act::Record(Body::Trialled(said));
        store.act(id, act, stamp, later(102)).await.unwrap();
    }
    let folded = fold(&store.entries(id).await.unwrap()).0;
    let taken = Act::Record(Body::Trialled(water::taken(&folded)));
    let stamp = stamp(&format!("{id}-trial-taken"));
    store.act(id, taken, stamp, later(103)).await.unwrap();
}

async fn what_to_fit(store: &Store, id: &JobId) {
    for (n, said) in choose::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-choose-{n}"));
        let act = Act::Record(Body::Chose(said));
        store.act(id, act, stamp, later(104)).await.unwrap();
    }
    let folded = fold(&store.entries(id).await.unwrap()).0;
    let taken = Act::Record(Body::Chose(choose::taken(&folded)));
    let stamp = stamp(&format!("{id}-option-taken"));
    store.act(id, taken, stamp, later(105)).await.unwrap();
}

async fn what_is_wrong(store: &Store, id: &JobId) {
    for (n, said) in diagnose::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-diagnose-{n}"));
        let act = Act::Record(Body::Diagnosed(said));
        store.act(id, act, stamp, later(106)).await.unwrap();
    }
    let folded = fold(&store.entries(id).await.unwrap()).0;
    let taken = Act::Record(Body::Diagnosed(diagnose::taken(&folded)));
    let stamp = stamp(&format!("{id}-cause-taken"));
    store.act(id, taken, stamp, later(107)).await.unwrap();
}

async fn opened_again(store: &Store, id: &JobId) {
    for (n, said) in upkeep::every_kind().into_iter().enumerate() {
        let stamp = stamp(&format!("{id}-service-{n}"));
        let act = Act::Record(Body::Serviced(said));
        store.act(id, act, stamp, later(108)).await.unwrap();
    }
    let folded = fold(&store.entries(id).await.unwrap()).0;
    let closed = Act::Record(Body::Serviced(upkeep::closed(&folded)));
    let stamp = stamp(&format!("{id}-job-closed"));
    store.act(id, closed, stamp, later(109)).await.unwrap();
}

/// A joint that is described, gone round in passes, and half torqued.
fn of_a_joint() -> Vec<Body> {
    let key = Key::new("housing").unwrap();
    let counted = |torqued: &str, marked: &str, (pass, gone): (&str, &str)| {
        let draft = FastenedDraft {
            in_place: "4".into(),
            torqued: torqued.into(),
            marked: marked.into(),
            temporary: false,
            pass: pass.into(),
            gone: gone.into(),
        };
        Body::JointFastened {
            key: key.clone(),
            fastened: draft.read().unwrap(),
        }
    };
    vec![
        Body::JointDescribed {
            key: key.clone(),
            joint: joint().read().unwrap(),
        },
        counted("0", "0", ("2", "3")),
        counted("2", "1", ("", "")),
    ]
}
