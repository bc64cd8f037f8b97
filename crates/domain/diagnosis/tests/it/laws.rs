//! What must hold of any evidence.

use diagnosis::check::{Check, Found, Reach};
use diagnosis::fault::{ByFault, FAULTS, Fault, PRIOR, SEVERITIES};
use diagnosis::next::{gain, offers};
use diagnosis::signature::{Seen, Signature};
use diagnosis::symptom::{Answered, Symptom, likelihoods};
use diagnosis::weigh::{Evidence, Item, Table, weigh, weights};
use proptest::prelude::*;

use crate::near;

/// How many quantities are seen.
const SIZE: usize = 3;

fn sized() -> impl Iterator<Item = Fault> {
    Fault::ALL.into_iter().filter(|fault| fault.has_severity())
}

/// A table out of one direction a fault; two beliefs, one of them with effects half as large again.
fn table_of(directions: &[Vec<f64>], off: &[f64]) -> Table {
    let mut signatures = vec![one(Fault::Nothing, 0.0, &vec![0.0; off.len()], off)];
    for (fault, direction) in sized().zip(directions) {
        for severity in SEVERITIES {
            let effect: Vec<f64> = direction.iter().map(|one| severity * one).collect();
            signatures.push(one(fault, severity, &effect, off));
        }
    }
    Table { signatures }
}

fn one(fault: Fault, severity: f64, effect: &[f64], off: &[f64]) -> Signature {
    let larger = effect.iter().map(|one| 1.5 * one).collect();
    Signature::new((fault, severity), &[effect.to_vec(), larger], off).unwrap()
}

fn directions(size: usize) -> impl Strategy<Value = Vec<Vec<f64>>> {
    prop::collection::vec(prop::collection::vec(-4.0..4.0, size), FAULTS - 2)
}

fn seen(size: usize) -> impl Strategy<Value = Vec<Option<Seen>>> {
    let one = (-5.0..5.0, 0.0..1.0).prop_map(|(change, uncertainty)| Seen {
        change,
        uncertainty,
    });
    prop::collection::vec(prop::option::weighted(0.8, one), size)
}

fn answers() -> impl Strategy<Value = Vec<Answered>> {
    let each = prop::collection::vec(prop::option::of(any::<bool>()), Symptom::ALL.len());
    each.prop_map(|given| {
        let told = Symptom::ALL.into_iter().zip(given);
        told.filter_map(|(symptom, yes)| Some(Answered { symptom, yes: yes? }))
            .collect()
    })
}

fn found() -> impl Strategy<Value = Vec<Found>> {
    let each = prop::collection::vec(prop::option::weighted(0.3, any::<bool>()), Check::ALL.len());
    each.prop_map(|given| {
        let told = Check::ALL.into_iter().zip(given);
        told.filter_map(|(check, something)| {
            let something = something?;
            Some(Found { check, something })
        })
        .collect()
    })
}

fn evidence() -> impl Strategy<Value = Evidence> {
    (seen(SIZE), answers(), found()).prop_map(|(seen, answers, found)| Evidence {
        seen,
        answers,
        found,
    })
}

fn table() -> impl Strategy<Value = Table> {
    (directions(SIZE), prop::collection::vec(0.3..2.0, SIZE))
        .prop_map(|(directions, off)| table_of(&directions, &off))
}

fn shares() -> impl Strategy<Value = ByFault> {
    prop::collection::vec(0.001..1.0, FAULTS).prop_map(|drawn| {
        let all: f64 = drawn.iter().sum();
        std::array::from_fn(|at| drawn[at] / all)
    })
}

/// Shares among all faults but the one that is on no list.
fn listed(shares: &ByFault) -> Vec<f64> {
    let all: f64 = shares[..FAULTS - 1].iter().sum();
    shares[..FAULTS - 1].iter().map(|one| one / all).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn law_chances_are_shares(table in table(), evidence in evidence(), prior in shares()) {
        let weighed = weigh(&prior, &table, &evidence).unwrap();
        near(weighed.chances.iter().sum(), 1.0, 1e-12);
        prop_assert!(weighed.chances.iter().all(|one| (0.0..=1.0).contains(one)));
        prop_assert!((0.0..=1.0).contains(&weighed.fit));
        prop_assert_eq!(weighed.causes.len(), FAULTS);
        for pair in weighed.causes.windows(2) {
            prop_assert!(pair[0].chance >= pair[1].chance);
        }
        let pairs: f64 = weighed.pairs.iter().map(|one| one.2).sum();
        prop_assert!(weighed.pairs.is_empty() || (pairs - 1.0).abs() < 1e-12);
        let nozzles = |one: &(Fault, Fault, f64)| [one.0, one.1] == [Fault::NozzleWide, Fault::NozzleNarrow];
        prop_assert!(!weighed.pairs.iter().any(nozzles));
        for severity in weighed.causes.iter().filter_map(|cause| cause.severity) {
            prop_assert!((0.2 - 1e-12..=1.0 + 1e-12).contains(&severity));
        }
    }

    /// Only how priors stand to each other counts.
    #[test]
    fn law_priors_need_not_add_up(table in table(), evidence in evidence(), times in 0.01..100.0) {
        let plain = weigh(&PRIOR, &table, &evidence).unwrap();
        let more = weigh(&PRIOR.map(|one| times * one), &table, &evidence).unwrap();
        for (a, b) in plain.chances.iter().zip(more.chances) {
            near(*a, b, 1e-12);
        }
    }

    /// Where every fault says the same of a quantity, it says nothing of the faults. What is on no list says less
    /// of it, being wider, so this holds among the listed.
    #[test]
    fn law_what_all_faults_show_alike_tells_nothing(
        directions in directions(SIZE), evidence in evidence(), effect in -3.0..3.0, off in 0.3..2.0, change in -3.0..3.0,
    ) {
        let offs = [0.5; SIZE];
        let plain = weigh(&PRIOR, &table_of(&directions, &offs), &evidence).unwrap();
        let mut more = Vec::new();
        for old in &table_of(&directions, &offs).signatures {
            let mut effects: Vec<f64> = (0..SIZE).map(|at| old.effect(at) / 1.25).collect();
            let mut larger: Vec<f64> = effects.iter().map(|one| 1.5 * one).collect();
            effects.push(effect);
            larger.push(effect);
            let off = [offs.as_slice(), &[off]].concat();
            more.push(Signature::new((old.fault, old.severity), &[effects, larger], &off).unwrap());
        }
        let mut wider = evidence.clone();
        wider.seen.push(Some(Seen { change, uncertainty: 0.1 }));
        let found = weigh(&PRIOR, &Table { signatures: more }, &wider).unwrap();
        for (a, b) in listed(&plain.chances).iter().zip(listed(&found.chances)) {
            near(*a, b, 1e-9);
        }
        let mut sure = PRIOR;
        sure[Fault::Unlisted as usize] = 0.0;
        let plain = weigh(&sure, &table_of(&directions, &offs), &evidence).unwrap();
        near(listed(&found.chances)[1], plain.chances[1], 1e-9);
    }

    #[test]
    fn law_order_does_not_matter(
        table in table(),
        (evidence, answers, found) in evidence().prop_flat_map(|evidence| {
            let answers = Just(evidence.answers.clone()).prop_shuffle();
            let found = Just(evidence.found.clone()).prop_shuffle();
            (Just(evidence), answers, found)
        }),
        turned in 1_usize..80,
    ) {
        let plain = weigh(&PRIOR, &table, &evidence).unwrap();
        let mut other = table.clone();
        other.signatures.rotate_left(turned);
        let turned = Evidence { answers, found, ..evidence };
        let found = weigh(&PRIOR, &other, &turned).unwrap();
        for (a, b) in plain.chances.iter().zip(found.chances) {
            near(*a, b, 1e-9);
        }
        near(plain.fit, found.fit, 1e-12);
    }

    /// Of several answers to one question, and of several goes at one check, the last counts, and counts once.
    #[test]
    fn law_the_last_word_counts(table in table(), evidence in evidence()) {
        let mut twice = evidence.clone();
        twice.answers = evidence.answers.iter().map(|one| Answered { yes: !one.yes, ..*one }).collect();
        twice.answers.extend(&evidence.answers);
        twice.found = evidence.found.iter().map(|one| Found { something: !one.something, ..*one }).collect();
        twice.found.extend(&evidence.found);
        let (a, b) = (weigh(&PRIOR, &table, &evidence).unwrap(), weigh(&PRIOR, &table, &twice).unwrap());
        for (a, b) in a.chances.iter().zip(b.chances) {
            near(*a, b, 1e-9);
        }
        prop_assert_eq!(evidence.items(), twice.items());
    }

    /// Nothing known, nothing changed; nor by signatures that some sizes or faults lack.
    #[test]
    fn law_without_evidence_the_prior_stays(table in table(), prior in shares(), kept in 1_usize..81) {
        let mut table = table;
        table.signatures.truncate(kept);
        let nothing = Evidence { seen: vec![None; SIZE], ..Evidence::default() };
        let weighed = weigh(&prior, &table, &nothing).unwrap();
        for (a, b) in weighed.chances.iter().zip(prior) {
            near(*a, b, 1e-12);
        }
        prop_assert!(weighed.causes.iter().all(|cause| cause.severity.is_none()));
    }

    #[test]
    fn law_what_cannot_be_stays_so(table in table(), evidence in evidence(), at in 0..FAULTS) {
        let mut prior = PRIOR;
        prior[at] = 0.0;
        let weighed = weigh(&prior, &table, &evidence).unwrap();
        near(weighed.chances[at], 0.0, 0.0);
        let gone = |one: &(Fault, Fault, f64)| one.0 as usize != at && one.1 as usize != at;
        prop_assert!(weighed.pairs.iter().all(gone));
    }

    /// What a piece of evidence weighs is by how much the two faults move apart with it.
    #[test]
    fn law_a_weight_is_a_change_of_the_log_ratio(table in table(), evidence in evidence(), f in 0..FAULTS, g in 0..FAULTS) {
        let (f, g) = (Fault::ALL[f], Fault::ALL[g]);
        let ahead = |evidence: &Evidence| {
            let logs = weigh(&PRIOR, &table, evidence).unwrap().evidence;
            logs[f as usize] - logs[g as usize]
        };
        let found = weights(&table, &evidence, (f, g)).unwrap();
        let seen = evidence.seen.iter().flatten().count();
        prop_assert_eq!(found.len(), seen + evidence.answers.len() + evidence.found.len());
        let against = weights(&table, &evidence, (g, f)).unwrap();
        for ((item, weight), (_, other)) in found.into_iter().zip(against) {
            let mut rest = evidence.clone();
            match item {
                Item::Seen(at) => rest.seen[at] = None,
                Item::Answer(symptom) => rest.answers.retain(|one| one.symptom != symptom),
                Item::Check(check) => rest.found.retain(|one| one.check != check),
            }
            near(weight, ahead(&evidence) - ahead(&rest), 1e-9);
            near(weight, -other, 1e-9);
        }
    }

    /// A check's weight is its own log ratio, whatever else is known.
    #[test]
    fn law_a_check_weighs_what_it_says(table in table(), evidence in evidence(), f in 0..FAULTS, g in 0..FAULTS) {
        for (item, weight) in weights(&table, &evidence, (Fault::ALL[f], Fault::ALL[g])).unwrap() {
            let Item::Check(check) = item else { continue };
            let done = evidence.found.iter().find(|one| one.check == check).unwrap();
            let chances = check.chances();
            let of = |at: usize| if done.something { chances[at] } else { 1.0 - chances[at] };
            near(weight, (of(f) / of(g)).ln(), 1e-9);
        }
    }
}

/// Symptoms that tell of one thing.
const RELATED: [&[Symptom]; 5] = [
    &[Symptom::Roar, Symptom::Flare, Symptom::Milky, Symptom::Chop],
    &[Symptom::Vibration, Symptom::Growl],
    &[Symptom::Telltale, Symptom::Hot],
    &[Symptom::Misfire, Symptom::Held],
    &[Symptom::Sudden, Symptom::Clears],
];

/// How far answers move any two faults apart.
fn reach(answers: &[Answered]) -> f64 {
    let logs = likelihoods(answers);
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    most - logs.iter().copied().fold(f64::INFINITY, f64::min)
}

proptest! {
    /// Related answers move no two faults further apart than the one of them that moves some furthest; those
    /// that are not related add up.
    #[test]
    fn law_related_answers_weigh_no_more_than_the_strongest(answers in answers()) {
        let mut sum = [0.0; FAULTS];
        let alone = Symptom::ALL.into_iter();
        let alone = alone.filter(|one| !RELATED.iter().any(|group| group.contains(one)));
        let alone: Vec<[Symptom; 1]> = alone.map(|one| [one]).collect();
        let groups = RELATED.into_iter().chain(alone.iter().map(<[Symptom; 1]>::as_slice));
        for group in groups {
            let of = answers.iter().filter(|one| group.contains(&one.symptom));
            let of: Vec<Answered> = of.copied().collect();
            let strongest = of.iter().map(|one| reach(&[*one])).fold(0.0, f64::max);
            prop_assert!(reach(&of) <= strongest + 1e-12);
            for (sum, log) in sum.iter_mut().zip(likelihoods(&of)) {
                *sum += log;
            }
        }
        for (a, b) in sum.iter().zip(likelihoods(&answers)) {
            near(*a, b, 1e-9);
        }
    }

    #[test]
    fn law_information_is_never_negative(shares in shares(), chances in prop::collection::vec(0.0..=1.0, FAULTS)) {
        let found = gain(&shares, &chances);
        prop_assert!((0.0..=1.0).contains(&found.bits));
        prop_assert!((0.0..=1.0 + 1e-12).contains(&found.something));
    }

    #[test]
    fn law_an_outcome_that_says_nothing_is_worth_nothing(shares in shares(), chance in 0.0..=1.0) {
        near(gain(&shares, &[chance; FAULTS]).bits, 0.0, 1e-12);
    }

    /// A check that always tells one half from the other is worth what was unknown of the halves.
    #[test]
    fn law_a_sure_check_is_worth_its_halves(shares in shares(), from in 1..FAULTS) {
        let chances: Vec<f64> = (0..FAULTS).map(|at| f64::from(u8::from(at >= from))).collect();
        let half: f64 = shares[from..].iter().sum();
        let worth = -half * half.log2() - (1.0 - half) * (1.0 - half).log2();
        near(gain(&shares, &chances).bits, worth, 1e-9);
    }

    /// What is expected after a check is what is held before it.
    #[test]
    fn law_no_check_is_expected_to_move_the_chances(shares in shares()) {
        let offers = offers(&shares, &[]);
        prop_assert_eq!(offers.len(), Check::ALL.len());
        for offer in offers {
            let something = offer.gain.something;
            for (at, before) in shares.iter().enumerate() {
                let expected = something * offer.after[1][at] + (1.0 - something) * offer.after[0][at];
                near(expected, *before, 1e-12);
            }
        }
    }

    /// What an offer foretells is what weighing says once the check is done.
    #[test]
    fn law_an_offer_foretells_the_weighing(evidence in evidence(), something in any::<bool>()) {
        let before = weigh(&PRIOR, &Table::default(), &evidence).unwrap();
        let done: Vec<Check> = evidence.found.iter().map(|one| one.check).collect();
        for offer in offers(&before.chances, &done) {
            let mut then = evidence.clone();
            then.found.push(Found { check: offer.check, something });
            let after = weigh(&PRIOR, &Table::default(), &then).unwrap();
            for (a, b) in after.chances.iter().zip(offer.after[usize::from(something)]) {
                near(*a, b, 1e-9);
            }
            let (fault, chance) = offer.leader(something);
            near(chance, after.causes[0].chance, 1e-9);
            near(after.chances[fault as usize], after.causes[0].chance, 1e-9);
        }
    }

    #[test]
    fn law_the_free_look_comes_first_and_the_rest_by_the_minute(shares in shares(), done in found()) {
        let done: Vec<Check> = done.iter().map(|one| one.check).collect();
        let offers = offers(&shares, &done);
        prop_assert_eq!(offers.len() + done.len(), Check::ALL.len());
        prop_assert!(offers.iter().all(|offer| !done.contains(&offer.check)));
        let looked = done.contains(&Check::Intake);
        prop_assert_eq!(offers.first().is_some_and(|offer| offer.check == Check::Intake), !looked);
        for pair in offers[usize::from(!looked)..].windows(2) {
            prop_assert!(pair[0].per_minute() >= pair[1].per_minute());
        }
    }
}

/// No answer and no check settles anything by itself.
#[test]
fn law_no_chance_is_out_of_bounds() {
    let symptoms = Symptom::ALL.map(Symptom::chances);
    let checks = Check::ALL.map(Check::chances);
    for row in symptoms.iter().chain(&checks) {
        assert!(row.iter().all(|chance| (0.02..=0.98).contains(chance)));
    }
}

/// What is on no list shows anything as often as all the listed together do, so that no answer alone moves it.
#[test]
fn law_no_answer_moves_what_is_on_no_list() {
    let last = FAULTS - 1;
    for row in Symptom::ALL.map(Symptom::chances) {
        let yes: f64 = row[..last].iter().zip(PRIOR).map(|(c, p)| c * p).sum();
        near(yes / PRIOR[..last].iter().sum::<f64>(), row[last], 1e-12);
    }
}

/// Common practice, no source: whoever has a hand in the pump, a tool on the shaft or lies below the craft has
/// first made sure that it cannot start.
#[test]
fn practice_nobody_reaches_in_while_it_could_start() {
    let may_start = Check::ALL
        .into_iter()
        .filter(|check| !check.reach().must_not_start());
    let apart = [Check::Weigh, Check::Compression, Check::Codes, Check::Hoses];
    assert!(may_start.eq(apart));
    for check in [Check::Intake, Check::Bottom] {
        assert_eq!(check.reach(), Reach::Under);
    }
}

/// Chance told of the truth, over all that may be true and all that may then be read of one quantity.
fn told_of_truth(table: &Table, prior: &ByFault, uncertainty: f64) -> f64 {
    let step = 0.1;
    let (mut all, mut right) = (0.0, 0.0);
    for at in -300..=300 {
        let change = f64::from(at) * step;
        let evidence = Evidence {
            seen: vec![Some(Seen {
                change,
                uncertainty,
            })],
            ..Evidence::default()
        };
        let found = weigh(prior, table, &evidence).unwrap();
        for (at, share) in prior.iter().enumerate() {
            let joint = share * found.evidence[at].exp() * step;
            all += joint;
            right += joint * found.chances[at];
        }
    }
    // Densities that are none would add up to something else.
    near(all, prior.iter().sum(), 1e-6);
    right / all
}

/// A reading blurred further tells less of any truth on average.
#[test]
fn law_finer_readings_raise_the_chance_of_the_truth() {
    let directions: Vec<Vec<f64>> = sized()
        .enumerate()
        .map(|(at, _)| vec![f64::from(u8::try_from(at).unwrap()) - 7.0])
        .collect();
    let table = table_of(&directions, &[0.4]);
    let told = [0.0, 0.3, 1.0, 3.0].map(|u| told_of_truth(&table, &PRIOR, u));
    assert!(told.is_sorted_by(|a, b| *a > b + 1e-4), "{told:?}");
    let unread: f64 = PRIOR.iter().map(|one| one * one).sum();
    assert!(told[3] > unread, "{told:?}");
}

/// Five faults, each far out along a quantity of its own.
const APART: [Fault; 5] = [
    Fault::Clearance,
    Fault::Air,
    Fault::Grate,
    Fault::Blade,
    Fault::Slip,
];

fn apart() -> Table {
    let off = [1.0; 5];
    let of = |fault: Fault, severity: f64, effects: &[f64]| {
        Signature::new((fault, severity), &[effects.to_vec()], &off).unwrap()
    };
    let mut signatures = vec![of(Fault::Nothing, 0.0, &[0.0; 5])];
    for (at, fault) in APART.into_iter().enumerate() {
        for severity in SEVERITIES {
            let mut effects = [0.0; 5];
            effects[at] = 10.0 * severity;
            signatures.push(of(fault, severity, &effects));
        }
    }
    Table { signatures }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Where two faults are strong no single one fits, and the two lead the pairs; where one is, no pair is told.
    #[test]
    fn law_two_strong_faults_are_found_as_two(
        (first, second) in (0..5_usize, 0..5_usize).prop_filter("two", |(a, b)| a != b),
        sizes in [2_usize..5, 2_usize..5],
        noise in prop::collection::vec(-1.0..1.0, 5),
    ) {
        let table = apart();
        let seen = |faults: &[(usize, usize)]| {
            let mut changes = noise.clone();
            for (at, size) in faults {
                changes[*at] += 10.0 * SEVERITIES[*size];
            }
            let seen = changes.into_iter().map(|change| Some(Seen { change, uncertainty: 0.0 }));
            Evidence { seen: seen.collect(), ..Evidence::default() }
        };
        let alone = weigh(&PRIOR, &table, &seen(&[(first, sizes[0])])).unwrap();
        prop_assert!(alone.fit >= 0.01 && alone.pairs.is_empty());
        prop_assert_eq!(alone.causes[0].fault, APART[first]);
        let both = weigh(&PRIOR, &table, &seen(&[(first, sizes[0]), (second, sizes[1])])).unwrap();
        prop_assert!(both.fit < 0.01);
        let (a, b, share) = both.pairs[0];
        prop_assert_eq!([a, b], [APART[first.min(second)], APART[first.max(second)]]);
        prop_assert!(share > 0.5);
    }
}
