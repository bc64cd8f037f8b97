//! What may not meet what.

use joint::Error;
use joint::compound::Compound;
use joint::meets::{Harm, Severity, Thing, check, clashes, meet};

const BESIDE: [Thing; 13] = [
    Thing::Aluminium,
    Thing::BareMetal,
    Thing::AnodeSeat,
    Thing::SaltWater,
    Thing::NaturalRubber,
    Thing::Epdm,
    Thing::Nitrile,
    Thing::Abs,
    Thing::Polycarbonate,
    Thing::Acrylic,
    Thing::Nylon,
    Thing::PaintToCome,
    Thing::OxygenSensor,
];

fn every_thing() -> Vec<Thing> {
    let compounds = Compound::ALL.into_iter().map(Thing::Compound);
    compounds.chain(BESIDE).collect()
}

#[test]
fn law_meetings_are_symmetric_and_nothing_clashes_with_itself() {
    for one in every_thing() {
        assert_eq!(meet(one, one), None, "{one}");
        for other in every_thing() {
            assert_eq!(meet(one, other), meet(other, one), "{one}, {other}");
            if let Some(rule) = meet(one, other) {
                assert!(!rule.source.is_empty());
                assert!(rule.pair.contains(&one) && rule.pair.contains(&other));
            }
        }
    }
}

#[test]
fn practice_the_pairs_of_the_bench() {
    use Compound::{
        AcetoxySilicone, AntiSeize, FlangeSealant, Grease, NeutralSilicone, Polyurethane,
        PtfePaste, ThreadlockerMedium,
    };
    let of = Thing::Compound;
    for (one, other, harm) in [
        (of(PtfePaste), of(ThreadlockerMedium), Harm::StopsCure),
        (of(Grease), of(ThreadlockerMedium), Harm::StopsCure),
        (of(AntiSeize), of(ThreadlockerMedium), Harm::StopsCure),
        (of(Grease), of(FlangeSealant), Harm::StopsCure),
        (of(NeutralSilicone), Thing::PaintToCome, Harm::Contaminates),
        (of(NeutralSilicone), of(Polyurethane), Harm::Contaminates),
        (of(AcetoxySilicone), Thing::BareMetal, Harm::Corrodes),
        (of(AcetoxySilicone), Thing::Aluminium, Harm::Corrodes),
        (of(AcetoxySilicone), Thing::OxygenSensor, Harm::Poisons),
        (of(Grease), Thing::NaturalRubber, Harm::Swells),
        (of(Grease), Thing::Epdm, Harm::Swells),
        (of(ThreadlockerMedium), Thing::Abs, Harm::Cracks),
        (of(FlangeSealant), Thing::Polycarbonate, Harm::Cracks),
        (of(PtfePaste), Thing::AnodeSeat, Harm::Insulates),
        (of(Grease), Thing::AnodeSeat, Harm::Insulates),
    ] {
        let rule = meet(one, other).unwrap();
        assert_eq!(
            (rule.harm, rule.severity),
            (harm, Severity::Never),
            "{one}, {other}"
        );
        assert!(check(&[Thing::Nylon, other, one]).is_err());
    }
    for (one, other) in [
        (of(Grease), Thing::Nitrile),
        (of(Grease), Thing::Aluminium),
        (of(AntiSeize), Thing::Aluminium),
        (of(ThreadlockerMedium), Thing::Nylon),
        (of(NeutralSilicone), Thing::Aluminium),
    ] {
        assert_eq!(meet(one, other), None, "{one}, {other}");
    }
    let sensor = meet(of(NeutralSilicone), Thing::OxygenSensor).unwrap();
    assert_eq!(sensor.severity, Severity::AskTheSheet);
    assert_eq!(check(&[of(NeutralSilicone), Thing::OxygenSensor]), Ok(()));
}

#[test]
fn practice_copper_paste_is_bad_on_aluminium_where_there_is_salt() {
    let copper = Thing::Compound(Compound::CopperAntiSeize);
    assert_eq!(check(&[copper, Thing::Aluminium]), Ok(()));
    let at_sea = [copper, Thing::Aluminium, Thing::SaltWater];
    let found = clashes(&at_sea);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].harm, Harm::Corrodes);
    let refusal = check(&at_sea).unwrap_err();
    assert_eq!(refusal, Error::Clash { rule: found[0] });
    assert_eq!(
        refusal.to_string(),
        "anti-seize with copper or graphite must not meet bare aluminium where there is salt water: the metal is \
         eaten; clean one off, or take another compound"
    );
}

#[test]
fn practice_two_compounds_of_a_kind_are_for_the_sheet_to_allow() {
    let pair = [
        Thing::Compound(Compound::Grease),
        Thing::Compound(Compound::AntiSeize),
    ];
    let found = clashes(&pair);
    assert_eq!(found.len(), 1);
    assert_eq!(
        (found[0].severity, found[0].harm),
        (Severity::AskTheSheet, Harm::Mixes)
    );
    assert_eq!(check(&pair), Ok(()));
}

#[test]
fn law_a_refusal_names_the_pair_and_the_way_out() {
    let pair = [
        Thing::Compound(Compound::ThreadlockerMedium),
        Thing::Compound(Compound::PtfePaste),
    ];
    assert_eq!(
        check(&pair).unwrap_err().to_string(),
        "medium-strength threadlocker must not meet PTFE paste: it keeps the other from sticking or curing; \
         clean one off, or take another compound"
    );
    assert_eq!(check(&[]), Ok(()));
}
