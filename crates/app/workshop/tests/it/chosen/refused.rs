//! What cannot be is refused, with its limit and the way out. All data are invented.

mod option;

use quantity::Unit;
use workshop::act::Act;
use workshop::choose::{Choosing, Wish};
use workshop::decide::{MOST_OPTIONS, MOST_POINTS, MOST_STEADIES};
use workshop::draft::choose::{CraftDraft, FittingDraft, SteadyDraft};
use workshop::entry::Body;
use workshop::refusal::Refusal;

use super::{
    craft, evidence, nozzle, option, put_away, refusal, said_craft, said_option, said_steadies,
    said_wish, shop, taken, told, words,
};
use crate::journal::Journal;

/// The field and the sentence.
fn refused(journal: &Journal, body: Body) -> (Option<&'static str>, String) {
    let refusal = refusal(journal, body);
    (refusal.field(), refusal.to_string())
}

fn accepted(journal: &Journal, body: Body) {
    let mut journal = journal.clone();
    journal.try_act(Act::Record(body)).unwrap();
}

fn craft_with(change: impl FnOnce(&mut CraftDraft)) -> Body {
    let mut draft = craft();
    change(&mut draft);
    said_craft(&draft)
}

fn option_with(change: impl FnOnce(&mut FittingDraft)) -> Body {
    let mut draft = option("15", "20");
    change(&mut draft);
    said_option("steeper", &draft)
}

/// A job with a pump of 140 mm and nothing said of what to fit.
fn bare() -> Journal {
    Journal::described()
}

/// A field, how it is set, values just inside, and values just outside with the limit they are told.
type Case<D> = (
    &'static str,
    fn(&mut D, String),
    [&'static str; 2],
    [&'static str; 2],
    [&'static str; 2],
);

const CRAFT: &[Case<CraftDraft>] = &[
    (
        "mass",
        |d, t| d.mass = t,
        ["80", "1500"],
        ["79.9", "1501"],
        ["80", "1500"],
    ),
    (
        "riders",
        |d, t| d.riders = t,
        ["0", "600"],
        ["-1", "1323 lb"],
        ["0", "1322"],
    ),
    (
        "length",
        |d, t| d.length = t,
        ["1.5", "8"],
        ["1.49", "8.1"],
        ["1.5", "8"],
    ),
    (
        "beam",
        |d, t| d.beam = t,
        [".5", "2.6"],
        [".49", "9 ft"],
        ["0.5", "8.53"],
    ),
    (
        "deadrise",
        |d, t| d.deadrise = t,
        ["0", "35"],
        ["-1", "36"],
        ["0", "35"],
    ),
    (
        "balance",
        |d, t| d.balance = t,
        [".3", "4"],
        [".29", "4.1"],
        ["0.3", "4"],
    ),
    (
        "power",
        |d, t| d.power = t,
        ["5", "400"],
        ["4.9", "401"],
        ["5", "400"],
    ),
    (
        "impeller",
        |d, t| {
            (d.impeller, d.fitted) = (t, FittingDraft::default());
        },
        ["80", "400"],
        ["79", "401"],
        ["80", "400"],
    ),
];

#[test]
fn law_every_figure_of_a_craft_has_its_range() {
    for (field, set, inside, outside, limits) in CRAFT {
        for text in inside {
            accepted(&bare(), craft_with(|d| set(d, words(text))));
        }
        for (text, limit) in outside.iter().zip(limits) {
            let (found, said) = refused(&bare(), craft_with(|d| set(d, words(text))));
            assert_eq!(found, Some(*field), "{said}");
            assert!(said.contains(text) && said.contains(limit), "{said}");
        }
    }
    let page = craft_with(|d| d.page = "x".repeat(201));
    assert_eq!(refused(&bare(), page).0, Some("page"));
}

/// Without a curve, which would have to go on to the limiter.
fn engine(rated: &str, limiter: &str) -> Body {
    craft_with(|d| {
        d.rated = words(rated);
        d.limiter = words(limiter);
        d.curve.clear();
    })
}

#[test]
fn law_rated_speed_limiter_and_wanted_speed_go_together() {
    for (rated, limiter) in [
        ("2000", "2000"),
        ("11000", "14300"),
        ("", "2000"),
        ("7500", "9750"),
    ] {
        accepted(&bare(), engine(rated, limiter));
    }
    for (rated, limiter, field) in [
        ("1999", "", "rated"),
        ("11001", "", "rated"),
        ("", "14301", "limiter"),
    ] {
        assert_eq!(refused(&bare(), engine(rated, limiter)).0, Some(field));
    }
    assert_eq!(
        refused(&bare(), engine("7500", "7499")),
        (
            Some("limiter"),
            words(
                "A limiter at 7499\u{a0}rpm is below the rated speed of 7500\u{a0}rpm, so the engine would \
                 never get there. Look whether the two were swapped."
            )
        )
    );
    let (field, said) = refused(&bare(), engine("7500", "9751"));
    assert!(
        field == Some("limiter") && said.contains("1.3 times"),
        "{said}"
    );
    let wanted = |from: &str, to: &str| {
        let (from, to) = (words(from), words(to));
        craft_with(|d| (d.wanted_from, d.wanted_to) = (from, to))
    };
    accepted(&bare(), wanted("7400", "7401"));
    for (from, to, field) in [
        ("7600", "7400", "wanted_from"),
        ("7400", "7400", "wanted_from"),
        ("1999", "7400", "wanted_from"),
        ("7400", "14301", "wanted_to"),
    ] {
        assert_eq!(refused(&bare(), wanted(from, to)).0, Some(field));
    }
    let mut half = craft();
    half.wanted_to.clear();
    assert_eq!(
        half.read(Unit::Thou),
        Err(Refusal::Empty { field: "wanted_to" })
    );
}

#[test]
fn law_a_curve_has_three_points_in_order_and_reaches_the_limiter() {
    let say = |curve: &str| {
        let (field, said) = refused(&bare(), craft_with(|d| d.curve = words(curve)));
        assert_eq!(field, Some("curve"), "{said}");
        said
    };
    assert_eq!(
        say("7500 rpm 170 N·m"),
        "One reading of torque does not say how the engine pulls above and below it, so it is no \
         curve: at least 3 are needed. Give the torque at 3 engine speeds or more up to the limiter, \
         or empty this and give the rated power and its engine speed."
    );
    assert!(say("4000 150; 8000 170").starts_with("2 readings of torque are too few"));
    assert_eq!(
        say("4000 150; 8000 170; 6000 180"),
        "In the torque curve 6000\u{a0}rpm comes after 8000\u{a0}rpm. Give the points in the order of engine \
         speed, at least 10 rpm apart."
    );
    assert!(say("4000 150; 4009 170; 8000 180").contains("at least 10 rpm"));
    accepted(
        &bare(),
        craft_with(|d| d.curve = words("4000 150; 4010 170; 8000 180")),
    );
    // 8000 over 1.025 is 7804.9.
    assert_eq!(
        say("4000 150; 6000 180; 7804 170"),
        "The torque curve goes from 4000\u{a0}rpm to 7804\u{a0}rpm, and the engine is held back at 8000 rpm. \
         Let the curve begin below that and go on to 7805\u{a0}rpm at least, or check the limiter."
    );
    accepted(
        &bare(),
        craft_with(|d| d.curve = words("4000 150; 6000 180; 7805 170")),
    );
    assert!(say("8100 150; 8200 180; 8300 170").contains("begin below"));
    let unlimited = |d: &mut CraftDraft| {
        d.limiter.clear();
        d.curve = words("4000 150; 6000 180; 7310 170");
    };
    assert!(refused(&bare(), craft_with(unlimited)).1.contains("7318"));
    for (curve, limit) in [
        ("200 150; 6000 180; 8000 170", "300"),
        ("4000 150; 6000 1001; 8000 170", "1000"),
        ("4000 150; 6000 0.9; 8000 170", "1"),
    ] {
        assert!(say(curve).contains(limit), "{}", say(curve));
    }
    let many: Vec<String> = (0..=MOST_POINTS)
        .map(|n| format!("{} 150", 2000 + 100 * n))
        .collect();
    assert!(say(&many.join("; ")).contains("60 points"));
    for (curve, told) in [
        ("4000", "“4000” is no point"),
        ("4000 rpm", "“4000 rpm” is no point"),
        ("4000 150; peak; 8000 170", "“peak” is no point"),
        ("4000 kW 150", "the unit of a power"),
        ("4000 150 rpm", "the unit of a shaft speed"),
    ] {
        let mut draft = craft();
        draft.curve = words(curve);
        let refusal = draft.read(Unit::Thou).unwrap_err();
        assert_eq!(refusal.field(), Some("curve"));
        assert!(refusal.to_string().contains(told), "{refusal}");
    }
}

#[test]
fn law_what_is_not_here_or_too_much_is_refused() {
    let journal = shop();
    let gone = "There is no option “gone” here. Name one of those listed.";
    for body in [put_away("gone"), taken(&journal, "gone")] {
        assert_eq!(refused(&journal, body), (Some("option"), words(gone)));
    }
    let outing = craft_with(|d| d.outing = words("sea"));
    assert_eq!(
        refused(&journal, outing),
        (
            Some("outing"),
            words("There is no outing “sea” here. Describe it first.")
        )
    );
    let mut full = bare();
    for n in 0..MOST_OPTIONS {
        full.record(said_option(&format!("o-{n}"), &nozzle("82")));
    }
    let more = said_option("one-more", &nozzle("82"));
    let said = "There can be 48 options here. Take one away first.";
    assert_eq!(refused(&full, more.clone()), (Some("key"), words(said)));
    accepted(&full, said_option("o-7", &nozzle("83")));
    full.record(put_away("o-7"));
    full.record(more);
    let all = vec![["3000", "8", ""]; MOST_STEADIES + 1];
    let (field, said) = refused(&journal, said_steadies(&all));
    assert_eq!(field, Some("engine"));
    assert_eq!(
        said,
        "There can be 24 steady readings here. Take one away first."
    );
    accepted(&journal, said_steadies(&all[1..]));
    accepted(&journal, said_steadies(&[]));
}

#[test]
fn law_a_wish_is_a_speed() {
    let journal = shop();
    accepted(&journal, said_wish("pull", ""));
    for text in ["2 m/s", "35 m/s"] {
        accepted(&journal, said_wish("speed", text));
    }
    for text in ["1.9 m/s", "79 mph"] {
        let (field, said) = refused(&journal, said_wish("speed", text));
        assert!(field == Some("to") && said.contains(text), "{said}");
    }
    let to = Some(quantity::parse("30", Unit::Newton).unwrap());
    let want = workshop::choose::Want::Pull;
    let no_speed = Body::Chose(Choosing::Wish(Wish { want, to }));
    let said = "This is no unit of speed: write mph, km/h, kn or m/s.";
    assert_eq!(refused(&journal, no_speed), (Some("to"), words(said)));
}

#[test]
fn law_a_steady_reading_is_at_part_throttle() {
    let journal = shop();
    for reading in [
        ["500", "1 m/s", ""],
        ["7275", "50 m/s", ""],
        ["3000", "", "20"],
        ["3000", "", "20000"],
    ] {
        accepted(&journal, said_steadies(&[["3000", "9", ""], reading]));
    }
    for (reading, field) in [
        (["499", "9", ""], "engine"),
        (["12001", "9", ""], "engine"),
        (["3000", "0.9 m/s", ""], "speed"),
        (["3000", "51 m/s", ""], "speed"),
        (["3000", "", "19"], "pull"),
        (["3000", "", "20001"], "pull"),
        (["3000", "9", "300"], "speed"),
        (["3000", "", ""], "speed"),
    ] {
        let (found, said) = refused(&journal, said_steadies(&[["3000", "9", ""], reading]));
        assert_eq!(found, Some(field), "{said}");
    }
    // 0.97 of 7500.
    assert_eq!(
        refused(&journal, said_steadies(&[["7276", "40", ""]])),
        (
            Some("engine"),
            words(
                "7276\u{a0}rpm is full throttle, or too near to it to tell: this craft’s engine is good for \
                 7500\u{a0}rpm, so a steady reading at part throttle is at most 7275\u{a0}rpm. A run at full \
                 throttle belongs to Water test."
            )
        )
    );
    // Only the limiter is known, or nothing at all.
    let mut limited = bare();
    limited.record(craft_with(|d| d.rated.clear()));
    accepted(&limited, said_steadies(&[["7999", "40", ""]]));
    let (field, said) = refused(&limited, said_steadies(&[["8000", "40", ""]]));
    assert!(field == Some("engine") && said.contains("7999"), "{said}");
    accepted(&bare(), said_steadies(&[["11000", "40", ""]]));
    let no_speed = SteadyDraft {
        engine: words("3000"),
        speed: words("9"),
        pull: String::new(),
    };
    let mut no_speed = no_speed.read(Unit::MilePerHour).unwrap();
    no_speed.speed = Some(quantity::parse("9", Unit::Newton).unwrap());
    let body = Body::Chose(Choosing::Steadies(vec![no_speed]));
    assert_eq!(refused(&journal, body).0, Some("speed"));
}

#[test]
fn law_a_craft_goes_with_what_was_said_before() {
    let mut journal = shop();
    journal.record(said_option("a-nozzle", &nozzle("120")));
    let small = |d: &mut CraftDraft| {
        d.impeller = words("119");
        d.fitted.radius = words("59");
    };
    // What is fitted goes into it, and the option does not.
    assert_eq!(
        refused(&journal, craft_with(small)),
        (
            Some("impeller"),
            words(
                "This does not go with the option “Another nozzle”, which is in the job. A nozzle of \
                 120\u{a0}mm is wider than the pump, whose impeller is 119\u{a0}mm across. Check the unit, and \
                 that this is the bore at the outlet. Mend or take away one of the two."
            )
        ),
    );
    let mut radius = shop();
    radius.record(said_steadies(&[["7200", "40", ""]]));
    let slow = engine("7400", "8000");
    let (field, said) = refused(&radius, slow);
    assert_eq!(field, Some("rated"));
    assert!(
        said.starts_with("This does not go with the steady reading at 7200\u{a0}rpm"),
        "{said}"
    );
    accepted(&radius, engine("7423", "8000"));
}

#[test]
fn law_an_answer_taken_has_a_band() {
    let journal = shop();
    let say = |change: &dyn Fn(&mut workshop::choose::Told)| {
        let mut told = told("steeper", evidence(&journal.job()));
        change(&mut told);
        refused(&journal, Body::Chose(Choosing::Taken(Box::new(told))))
    };
    for band in [
        [0.0, -1.0, 1.0],
        [f64::NAN, 0.0, 1.0],
        [0.0, 0.0, f64::INFINITY],
    ] {
        assert_eq!(say(&|told| told.engine = band).0, Some("option"));
        assert_eq!(say(&|told| told.time = Some(band)).0, Some("option"));
    }
    assert_eq!(say(&|told| told.words = "x".repeat(2001)).0, Some("words"));
    assert_eq!(
        say(&|told| told.program = "x".repeat(201)).0,
        Some("program")
    );
    let mut stale = told("steeper", words("of something else"));
    stale.time = None;
    let stale = Body::Chose(Choosing::Taken(Box::new(stale)));
    assert_eq!(refusal(&journal, stale), Refusal::ShownIsStale);
}
