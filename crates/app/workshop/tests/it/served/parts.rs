//! What lasts, what it costs, and what the craft's own records do to it.

use jiff::civil::date;
use workshop::draft::inspect::Sheet;
use workshop::draft::upkeep::{PieceDraft, SortDraft, UsageDraft};
use workshop::entry::Body;
use workshop::upkeep::Servicing;
use workshop::upkeep::answer::{By, Flip};

use super::{both, due, hours, key, meter, part, piece, say, told, usage, words};
use crate::inspect::keep;
use crate::journal::{Journal, limits};

/// One in ten by 43 h and half by 102 h are `β = 2.18, η = 120.7 h`, near those of the reference that gives 70 h.
#[test]
fn practice_what_lasts_and_what_it_costs() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| usage);
    both(&mut journal);
    let answer = told(&journal, date(2026, 5, 2));
    let [plastic, metal] = &answer.parts[..] else {
        panic!("two sorts")
    };
    let season =
        |part: &workshop::upkeep::answer::PartSays| part.lasts.as_ref().unwrap().season.unwrap();
    assert!(
        (0.75..0.90).contains(&season(plastic)),
        "{}",
        season(plastic)
    );
    assert!(season(metal) > 0.97);
    let costs = plastic.costs.as_ref().unwrap();
    assert!((50.0..100.0).contains(&hours(costs.best.unwrap())));
    assert!((1.2..1.8).contains(&costs.rate[1]), "{:?}", costs.rate);
    assert!(costs.rate[0] < costs.rate[1] && costs.rate[1] < costs.rate[2]);
    let (low, high) = costs.flat;
    assert!(low < costs.best.unwrap() && high.unwrap() > costs.best.unwrap());
    assert!(costs.own_time);
    let versus = &answer.versus[0];
    assert_eq!(versus.cheaper, key("metal"));
    assert!(versus.chance > 0.6 && versus.chance < 1.0);
    let (_, if_good, if_failed) = versus.settles.clone().unwrap();
    assert!(if_good > versus.chance || if_failed > versus.chance);
}

#[test]
fn law_own_records_move_the_estimate() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| usage);
    both(&mut journal);
    let season = |journal: &Journal| {
        let answer = told(journal, date(2026, 5, 2));
        answer.parts[0].lasts.clone().unwrap()
    };
    let before = season(&journal);
    assert_eq!((before.records, before.guess), (0, None));
    piece(&mut journal, "first", ["plastic", "0", "35", "worn", "45"]);
    piece(
        &mut journal,
        "second",
        ["plastic", "45", "75", "failed", "83"],
    );
    let after = season(&journal);
    assert_eq!(after.records, 2);
    assert!((after.guess.unwrap() - before.season.unwrap()).abs() < 1e-12);
    assert!(after.season.unwrap() < before.season.unwrap() - 0.1);
    // Two that lasted bring it back up.
    piece(
        &mut journal,
        "third",
        ["plastic", "83", "183", "good", "200"],
    );
    piece(&mut journal, "fourth", ["plastic", "200", "340", "", ""]);
    assert!(season(&journal).season.unwrap() > after.season.unwrap());
}

#[test]
fn law_records_of_other_water_count_as_somebody_said_or_not_at_all() {
    let mut journal = Journal::described();
    let said = |silt: &'static str| {
        move |usage: UsageDraft| UsageDraft {
            water: words("clean"),
            silt: words(silt),
            ..usage
        }
    };
    usage(&mut journal, said(""));
    both(&mut journal);
    let of = PieceDraft {
        part: words("plastic"),
        elsewhere: words("yes"),
        water: words("silt"),
        fitted: words("0"),
        end: words("failed"),
        ended: words("40"),
        ..PieceDraft::default()
    };
    let piece = Some(Box::new(of.read().unwrap()));
    say(
        &mut journal,
        Servicing::Piece {
            key: key("theirs"),
            piece,
        },
    );
    let lasts = |journal: &Journal| {
        let answer = told(journal, date(2026, 5, 2));
        answer.parts[0].lasts.clone().unwrap()
    };
    let untold = lasts(&journal);
    assert_eq!((untold.records, untold.left_out), (0, 1));
    usage(&mut journal, said("3"));
    let told = lasts(&journal);
    assert_eq!((told.records, told.left_out), (1, 0));
    // Forty hours of silt that wear as a hundred and twenty of clean water speak for the part.
    assert!(told.season.unwrap() > untold.season.unwrap());
}

#[test]
fn law_an_owner_who_sells_need_not_choose_what_is_cheaper_for_ever() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| UsageDraft {
        keep: words("60"),
        ..usage
    });
    both(&mut journal);
    let answer = told(&journal, date(2026, 5, 2));
    let kept = |n: usize| answer.parts[n].costs.clone().unwrap().kept.unwrap()[1];
    // A metal ring costs more than a plastic one and all its failures in sixty hours.
    assert!(kept(0) < kept(1), "{} {}", kept(0), kept(1));
    assert!(answer.versus[0].kept.unwrap() < 0.3);
    assert!(
        answer.versus[0]
            .flips
            .iter()
            .any(|flip| matches!(flip, Flip::Keep(_)))
    );
}

#[test]
fn law_a_floor_on_the_chance_renews_sooner() {
    let mut journal = Journal::described();
    let floor = |floor: &'static str| {
        move |usage: UsageDraft| UsageDraft {
            floor: words(floor),
            ..usage
        }
    };
    usage(&mut journal, floor("70"));
    both(&mut journal);
    meter(&mut journal, "2026-05-01", "100");
    piece(&mut journal, "now", ["plastic", "100", "", "", ""]);
    let at = |journal: &Journal| {
        let answer = told(journal, date(2026, 5, 2));
        let floor = answer.parts[0].in_use.clone().unwrap().floor;
        (due(&answer, "renew-plastic").first.clone(), floor)
    };
    let (_, half) = at(&journal);
    usage(&mut journal, floor("78"));
    let (first, more) = at(&journal);
    assert!(more.unwrap() < half.unwrap());
    assert!(matches!(first.by, By::Chance(_)));
    // Higher than any age reaches: there is no such age, not one of nothing.
    usage(&mut journal, floor("99"));
    assert_eq!(at(&journal).1, None);
}

#[test]
fn law_what_is_lost_while_worn_costs() {
    let mut journal = Journal::described();
    let worth = |worth: &'static str| {
        move |usage: UsageDraft| UsageDraft {
            worth: words(worth),
            ..usage
        }
    };
    usage(&mut journal, worth("20"));
    part(&mut journal, "plain", ["45", "2", "43", "102", "fair"]);
    let mut fading = SortDraft {
        name: words("A ring that opens up"),
        kind: words("ring"),
        price: words("45"),
        supplies: words("8"),
        labour: words("2"),
        tenth: words("43"),
        half: words("102"),
        trust: words("fair"),
        lost: words("10"),
        lost_at: words("80"),
        ..SortDraft::default()
    };
    fading.ruin = words("15");
    let part = Some(Box::new(fading.read().unwrap()));
    say(
        &mut journal,
        Servicing::Part {
            key: key("fading"),
            part,
        },
    );
    let answer = told(&journal, date(2026, 5, 2));
    let costs = |n: usize| answer.parts[n].costs.clone().unwrap();
    assert!(costs(1).rate[1] > costs(0).rate[1]);
    assert!(costs(1).best.unwrap() < costs(0).best.unwrap());
    assert!(costs(1).fade && !costs(0).fade);
}

/// Nothing failed yet, or one record alone: no likelihood runs away, the guess holds what the records leave open.
#[test]
fn law_all_still_good_or_one_record_is_enough_to_answer() {
    let chance = |pieces: &[[&str; 5]]| {
        let mut journal = Journal::described();
        usage(&mut journal, |usage| usage);
        both(&mut journal);
        for (n, of) in pieces.iter().enumerate() {
            piece(&mut journal, &format!("piece-{n}"), *of);
        }
        let answer = told(&journal, date(2026, 5, 2));
        answer.parts[0].lasts.clone().unwrap().season.unwrap()
    };
    let guess = chance(&[]);
    let good = ["plastic", "0", "60", "good", "80"];
    let all_good = chance(&[good, good, ["plastic", "0", "150", "", ""]]);
    assert!(all_good > guess && all_good < 1.0, "{all_good}");
    let one = chance(&[["plastic", "0", "", "failed", "20"]]);
    assert!(one < guess && one > 0.1, "{one}");
}

#[test]
fn practice_the_gap_through_the_season_is_told_from_three_visits_that_grew() {
    let visits = |gaps: &[(&str, &str)]| {
        let mut journal = Journal::described();
        usage(&mut journal, |usage| usage);
        journal.record(Body::LimitsStated(limits()));
        for (n, (hours, gap)) in gaps.iter().enumerate() {
            let renewed = if n == 0 { "yes" } else { "no" };
            let fields = [
                ("hours", *hours),
                ("gap", *gap),
                ("figure", "mean"),
                ("renewed", renewed),
            ];
            keep(&mut journal, Sheet::Visit, &format!("v-{n}"), &fields);
        }
        told(&journal, date(2026, 5, 2)).gap
    };
    assert_eq!(visits(&[("0", "12"), ("50", "14")]), None);
    let gap = visits(&[("0", "12"), ("50", "14"), ("100", "15")]).unwrap();
    assert_eq!(gap.visits, 3);
    assert!(gap.season > 0.5 && gap.season < 1.0, "{}", gap.season);
    // Wider already, and growing as it did: less sure.
    let wider = visits(&[("0", "18"), ("50", "20"), ("100", "21")]).unwrap();
    assert!(wider.margin < gap.margin && wider.season < gap.season);
    // What did not grow is no growth.
    assert_eq!(visits(&[("0", "12"), ("50", "14"), ("100", "14")]), None);
}
