//! Compounds, seals and metals: what is told of them, what is refused, and what stays open. Invented.

use jiff::civil::date;
use joint::compound::Compound;
use joint::galvanic::{Metal, Step};
use workshop::act::Act;
use workshop::draft::inspect::Sheet;
use workshop::draft::{InspectionDraft, JointDraft};
use workshop::entry::{Body, Key};
use workshop::fold::Misfit;
use workshop::inspect::Inspection;
use workshop::refusal::Refusal;
use workshop::seals::hazard::{self, Hazard};
use workshop::seals::open::{self, Open};
use workshop::seals::{face, metals, thread};

use crate::journal::Journal;

fn key() -> Key {
    Key::new("hull").unwrap()
}

fn joint(hole: &str, condition: &str, face: &str) -> Body {
    let words = str::to_owned;
    let draft = JointDraft {
        name: words("Pump to hull"),
        thread: words("M8"),
        head: words("hex"),
        count: words("6"),
        class: words("stainless-70"),
        hole: words(hole),
        condition: words(condition),
        face: words(face),
        ..JointDraft::default()
    };
    Body::JointDescribed {
        key: key(),
        joint: draft.read().unwrap(),
    }
}

fn sheet(sheet: Sheet, key: &str, fields: &[(&str, &str)]) -> Result<Body, Refusal> {
    for (name, _) in fields {
        assert!(sheet.fields().contains(name), "{name}");
    }
    let text = |field: &str| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    };
    let draft = InspectionDraft::new(sheet, key.to_owned(), text);
    draft.read(quantity::Unit::Millimetre).map(Body::Inspected)
}

fn on_thread(with: &str) -> Body {
    sheet(Sheet::Thread, "hull", &[("with", with)]).unwrap()
}

/// A face of 4 mm to seal and 10 mm of room, its gap measured.
fn bead(with: &str) -> Body {
    let fields = [
        ("with", with),
        ("sealed", "4"),
        ("room", "10"),
        ("gap_low", "0.05"),
        ("gap_high", "0.08"),
        ("edges", "both"),
        ("line", "600"),
        ("passage", "6"),
    ];
    sheet(Sheet::Seal, "hull", &fields).unwrap()
}

fn around(water: &str, temperature: &str, humidity: &str) -> Body {
    let fields = [
        ("water", water),
        ("temperature", temperature),
        ("humidity", humidity),
    ];
    sheet(Sheet::Bench, "", &fields).unwrap()
}

fn journal(hole: &str, condition: &str) -> Journal {
    let mut journal = Journal::described();
    journal.record(joint(hole, condition, "sealant"));
    journal
}

fn refused(journal: &mut Journal, body: Body) -> (Option<&'static str>, String) {
    let refusal = journal.try_act(Act::Record(body)).unwrap_err();
    (refusal.field(), refusal.to_string())
}

fn open_now(journal: &Journal) -> Vec<Open> {
    open::at(&journal.job(), &key(), date(2026, 5, 9))
}

#[test]
fn practice_a_bead_seals_where_the_gap_is_wide_and_stays_clear_where_it_is_narrow() {
    let mut journal = journal("aluminium", "dry");
    journal.record(bead("neutral-silicone"));
    let job = journal.job();
    let seal = &job.seals().seals[&key()].value;
    let bead = face::of(&job, seal).unwrap();
    // By hand: sqrt(4 x 4 x 0.08 / pi) = 0.638 mm and sqrt(4 x 10 x 0.05 / pi) = 0.798 mm.
    let fits = bead.fits.unwrap();
    assert!((fits.low - 0.000_638).abs() < 1e-6, "{fits:?}");
    assert!((fits.high - 0.000_798).abs() < 1e-6, "{fits:?}");
    assert!(bead.film.low >= 0.004 && bead.film.high <= 0.010);
    assert!(bead.ridge.abs() < 1e-12 && bead.left_open == Some(1.0));
    assert!(!bead.gap.assumed);
    // pi / 4 x 0.718^2 mm^2 x 600 mm is 0.243 mL of 310.
    assert!(
        (bead.share.unwrap() - 0.000_784).abs() < 2e-6,
        "{:?}",
        bead.share
    );
    assert_eq!(open_now(&journal), Vec::new());
}

#[test]
fn practice_a_gap_that_varies_too_much_leaves_no_bead_and_stays_open() {
    let mut journal = journal("aluminium", "dry");
    let fields = [
        ("with", "neutral-silicone"),
        ("sealed", "4"),
        ("room", "10"),
        ("edges", "both"),
        ("passage", "6"),
    ];
    journal.record(sheet(Sheet::Seal, "hull", &fields).unwrap());
    let job = journal.job();
    let bead = face::of(&job, &job.seals().seals[&key()].value).unwrap();
    assert!(bead.gap.assumed);
    assert!(bead.ridge > 0.0 && bead.left_open.unwrap() < 1.0);
    assert!(matches!(open_now(&journal)[..], [Open::NoBead { .. }]));
}

#[test]
fn law_warmer_and_damper_is_sooner_and_what_is_not_said_is_assumed() {
    let mut journal = journal("aluminium", "dry");
    journal.record(bead("polyurethane"));
    let cured = |journal: &Journal| {
        let job = journal.job();
        let bead = face::of(&job, &job.seals().seals[&key()].value).unwrap();
        bead.times.unwrap().cured.unwrap()
    };
    let job = journal.job();
    assert!(job.water().assumed && job.temperature().assumed && job.humidity().assumed);
    let assumed = cured(&journal);
    journal.record(around("salt", "10", "30"));
    let cold = cured(&journal);
    journal.record(around("salt", "30", "80"));
    let damp = cured(&journal);
    assert!(damp.high < assumed.high && assumed.high < cold.high);
    let job = journal.job();
    assert!(!job.water().assumed && !job.temperature().assumed && !job.humidity().assumed);
}

#[test]
fn practice_too_cold_for_a_compound_stays_open() {
    let mut journal = journal("aluminium", "dry");
    journal.record(bead("polyurethane"));
    journal.record(around("fresh", "0", "60"));
    assert!(matches!(open_now(&journal)[..], [Open::NotHere { .. }]));
}

#[test]
fn practice_threadlocker_on_stainless_waits_or_takes_an_activator() {
    let mut journal = journal("aluminium", "threadlocker");
    let told = |journal: &Journal| {
        let job = journal.job();
        let joint = &job.joints[&key()].joint.value;
        thread::of(&job, &key(), joint).unwrap()
    };
    let assumed = told(&journal);
    assert!(assumed.assumed && assumed.wants_activator);
    assert_eq!(assumed.material.class, Compound::ThreadlockerMedium);
    let fields = [("with", "threadlocker-high"), ("primed", "yes")];
    journal.record(sheet(Sheet::Thread, "hull", &fields).unwrap());
    let primed = told(&journal);
    assert!(!primed.assumed && !primed.wants_activator);
    let full = |told: &thread::Threaded| told.times.clone().unwrap().cured.unwrap().high;
    assert!(full(&primed) < full(&assumed));
}

#[test]
fn practice_a_clash_is_refused_now_and_open_when_it_comes_later() {
    let mut greased = journal("brass-insert", "grease");
    let (field, words) = refused(&mut greased, bead("polyurethane"));
    assert_eq!(field, Some("with"));
    assert_eq!(
        words,
        "Here grease would meet polyurethane, and they must not: it keeps the other from sticking or \
         curing. Take another compound, or change first what is said of the joint."
    );
    let mut later = journal("brass-insert", "dry");
    later.record(bead("polyurethane"));
    later.record(joint("brass-insert", "grease", "sealant"));
    assert!(matches!(open_now(&later)[..], [Open::Clash(_)]));
}

#[test]
fn practice_copper_paste_meets_aluminium_in_salt_water_only() {
    let mut journal = journal("aluminium", "anti-seize");
    let (_, words) = refused(&mut journal, on_thread("copper-anti-seize"));
    assert!(words.contains("in salt water"), "{words}");
    journal.record(around("fresh", "20", "50"));
    journal.record(on_thread("copper-anti-seize"));
    assert_eq!(open_now(&journal), Vec::new());
    journal.record(around("salt", "20", "50"));
    assert!(matches!(open_now(&journal)[..], [Open::Clash(_)]));
}

#[test]
fn practice_acetoxy_silicone_is_refused_on_bare_metal() {
    let mut journal = journal("aluminium", "dry");
    let (_, words) = refused(&mut journal, bead("acetoxy-silicone"));
    assert!(words.contains("the metal is eaten"), "{words}");
}

fn compound(fields: &[(&str, &str)]) -> Result<Body, Refusal> {
    let own = [("name", "Grey, second shelf"), ("class", "polyurethane")];
    sheet(Sheet::Compound, "grey", &[&own, fields].concat())
}

#[test]
fn practice_a_compound_past_its_shelf_life_is_refused_and_later_open() {
    let mut journal = journal("aluminium", "dry");
    let now = journal.entries[0].new.happened_at.date();
    let made = now.saturating_sub(jiff::Span::new().months(13)).to_string();
    let old = compound(&[("made", &made), ("shelf", "12")]).unwrap();
    let (field, words) = refused(&mut journal, old.clone());
    assert_eq!(field, Some("made"));
    assert!(
        words.contains("surely keeps 365 days. Take a fresh one"),
        "{words}"
    );
    // Its own sheet goes before the class.
    journal.record(compound(&[("made", &made), ("shelf", "24")]).unwrap());
    journal.record(bead("grey"));
    assert_eq!(open::at(&journal.job(), &key(), now), Vec::new());
    let later = now.saturating_add(jiff::Span::new().months(12));
    let open = open::at(&journal.job(), &key(), later);
    assert!(matches!(&open[..], [Open::Stale { name, .. }] if name == "Grey, second shelf"));
    // A file tells what has been done: it is taken, and open.
    journal.act(Act::Recount(old, None));
    assert!(matches!(
        open::at(&journal.job(), &key(), now)[..],
        [Open::Stale { .. }]
    ));
}

#[test]
fn practice_a_compounds_own_sheet_goes_before_its_class() {
    let mut journal = journal("aluminium", "dry");
    journal.record(compound(&[("cure_depth", "2"), ("working", "12")]).unwrap());
    journal.record(bead("grey"));
    let job = journal.job();
    let bead = face::of(&job, &job.seals().seals[&key()].value).unwrap();
    let times = bead.times.unwrap();
    // 5 mm to cure through at 2 mm in the first day: 6.25 days, at the reference.
    let cured = times.cured.unwrap();
    assert!((cured.low - 540_000.0).abs() < 1.0 && (cured.high - 540_000.0).abs() < 1.0);
    assert!((times.working.unwrap().low - 720.0).abs() < 1e-9);
    assert_eq!(bead.material.sheet.source, "its own data sheet");
}

#[test]
fn practice_what_makes_no_sense_of_seals_is_refused_at_its_field() {
    let mut journal = journal("aluminium", "dry");
    let said = |fields: &[(&str, &str)]| compound(fields).unwrap();
    for (body, at) in [
        (said(&[("cure_time", "5 d")]), "cure_time"),
        (said(&[("working", "2 s")]), "working"),
        (said(&[("shelf", "200")]), "shelf"),
        (around("salt", "90", "50"), "temperature"),
        (around("salt", "20", "0"), "humidity"),
        (bead("grease"), "with"),
        (bead("pink"), "with"),
        (on_thread("grease"), "with"),
        (on_thread("epoxy"), "with"),
    ] {
        let shown = format!("{body:?}");
        let (field, words) = refused(&mut journal, body);
        assert_eq!(field, Some(at), "{words}\n{shown}");
        assert!(words.ends_with('.'), "{words}");
    }
    let future = said(&[("made", "2099-01-01")]);
    assert!(refused(&mut journal, future).1.contains("still to come"));
    for (field, text) in [("humidity", "damp"), ("temperature", "warm")] {
        let fields = [("water", "salt"), (field, text)];
        let refusal = sheet(Sheet::Bench, "", &fields).unwrap_err();
        assert_eq!(refusal.field(), Some(field));
    }
    let narrow = [
        ("with", "epoxy"),
        ("sealed", "8"),
        ("room", "4"),
        ("edges", "both"),
    ];
    let narrow = sheet(Sheet::Seal, "hull", &narrow).unwrap();
    assert_eq!(refused(&mut journal, narrow).0, Some("room"));
    let bare = sheet(
        Sheet::Seal,
        "lid",
        &[
            ("with", "epoxy"),
            ("sealed", "4"),
            ("room", "8"),
            ("edges", "one"),
        ],
    );
    let words = refused(&mut journal, bare.unwrap()).1;
    assert!(words.contains("There is no joint “lid”"), "{words}");
    journal.record(joint("aluminium", "dry", "bare"));
    let words = refused(&mut journal, bead("neutral-silicone")).1;
    assert!(
        words.contains("without sealant between its faces"),
        "{words}"
    );
}

#[test]
fn practice_the_next_thing_to_do_goes_down_the_ladder() {
    let mut journal = journal("aluminium", "dry");
    let next = |journal: &Journal| metals::of(&journal.job(), &key()).unwrap().risk.next;
    assert_eq!(next(&journal), Step::Seal);
    for (fields, step) in [
        (vec![("insulated", "open")], Step::Insulate),
        (vec![("sealed", "shut")], Step::CoatCathode),
        (
            vec![("sealed", "shut"), ("coated", "taken")],
            Step::Anode(Metal::Zinc),
        ),
        (vec![("sealed", "taken")], Step::Nothing),
    ] {
        journal.record(sheet(Sheet::Contact, "hull", &fields).unwrap());
        assert_eq!(next(&journal), step, "{fields:?}");
    }
    let told = metals::of(&journal.job(), &key()).unwrap();
    assert!(told.screw.assumed && told.screw.value == Metal::Stainless304);
    let stamped = sheet(
        Sheet::Contact,
        "hull",
        &[("screw", "a4"), ("sealed", "shut"), ("coated", "shut")],
    );
    journal.record(stamped.unwrap());
    journal.record(around("fresh", "20", "50"));
    let told = metals::of(&journal.job(), &key()).unwrap();
    assert!(!told.screw.assumed && told.screw.value == Metal::Stainless316);
    assert_eq!(told.risk.next, Step::Anode(Metal::Magnesium));
}

#[test]
fn law_no_two_metals_no_contact_and_little_base_metal_goes_first() {
    let mut journal = journal("plastic", "dry");
    assert!(
        metals::of(&journal.job(), &key()).is_none() && metals::rank(&journal.job()).is_empty()
    );
    journal.record(joint("aluminium", "dry", "sealant"));
    let Body::JointDescribed { joint, .. } = joint("aluminium", "dry", "bare") else {
        unreachable!()
    };
    let lid = Key::new("lid").unwrap();
    journal.record(Body::JointDescribed {
        key: lid.clone(),
        joint,
    });
    journal.record(sheet(Sheet::Contact, "lid", &[("coat", "whole")]).unwrap());
    let ranked: Vec<Key> = metals::rank(&journal.job())
        .into_iter()
        .map(|m| m.joint)
        .collect();
    assert_eq!(ranked, [lid, key()]);
}

#[test]
fn practice_every_hazard_is_told_where_it_arises() {
    let at = |journal: &Journal| hazard::at(&journal.job(), &key());
    let mut dry = journal("plastic", "dry");
    assert!(at(&dry).is_empty());
    for (with, hazards) in [
        ("polyurethane", vec![Hazard::Solvent, Hazard::Isocyanate]),
        ("epoxy", vec![Hazard::Solvent, Hazard::Skin]),
        ("acetoxy-silicone", vec![Hazard::Solvent, Hazard::Acid]),
        ("neutral-silicone", vec![Hazard::Solvent, Hazard::Vapour]),
    ] {
        dry.record(bead(with));
        assert_eq!(at(&dry).into_iter().collect::<Vec<_>>(), hazards, "{with}");
    }
    let mut locked = journal("aluminium", "threadlocker");
    locked.record(on_thread("threadlocker-high"));
    let hazards = [Hazard::Solvent, Hazard::Skin, Hazard::Heat];
    assert_eq!(at(&locked).into_iter().collect::<Vec<_>>(), hazards);
}

#[test]
fn practice_a_thread_that_is_described_otherwise_since_stays_open() {
    let mut journal = journal("aluminium", "threadlocker");
    journal.record(on_thread("threadlocker-low"));
    journal.record(joint("aluminium", "grease", "o-ring"));
    assert_eq!(open_now(&journal), [Open::ThreadDiffers]);
    journal.record(joint("aluminium", "threadlocker", "sealant"));
    journal.record(bead("neutral-silicone"));
    journal.record(joint("aluminium", "threadlocker", "bare"));
    assert_eq!(open_now(&journal), [Open::NoSealantThere]);
}

#[test]
fn law_what_is_said_of_what_is_not_there_is_objected_to() {
    let mut journal = Journal::described();
    journal.force(on_thread("grease"));
    journal.force(sheet(Sheet::Contact, "hull", &[]).unwrap());
    journal.record(joint("aluminium", "dry", "sealant"));
    assert!(journal.objections().is_empty(), "order does not matter");
    journal.force(bead("grey"));
    let why: Vec<Misfit> = journal.objections().into_iter().map(|o| o.why).collect();
    assert_eq!(why, [Misfit::NoSuchCompound]);
    assert!(journal.job().seals().seals.is_empty());
    let mut without = Journal::described();
    without.force(on_thread("grease"));
    let why: Vec<Misfit> = without.objections().into_iter().map(|o| o.why).collect();
    assert_eq!(why, [Misfit::SealsNoJoint]);
    let lost = Inspection::Sealing(workshop::seals::Sealing::Contact {
        joint: key(),
        contact: workshop::seals::Touch::default(),
    });
    assert!(
        without
            .try_act(Act::Recount(Body::Inspected(lost), None))
            .is_err()
    );
}
