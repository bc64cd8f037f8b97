//! What is said of what to fit, as it is stored. All data are invented.

use ::store::body::{Encoded, decode, encode};
use quantity::Unit;
use workshop::choose::{Choosing, Told, evidence};
use workshop::draft::Choice;
use workshop::draft::choose::{
    ANGLES, BREATHING, CraftDraft, FittingDraft, SteadyDraft, WANTS, WishDraft,
};
use workshop::entry::{Body, Key};
use workshop::job::Job;

use crate::comes_back;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn words(text: &str) -> String {
    text.to_owned()
}

fn fitted() -> FittingDraft {
    FittingDraft {
        name: words("As bought"),
        leading: words("14"),
        trailing: words("19°"),
        radius: words("2-3/4 in"),
        angles: words("stamped"),
        maker: words("The “first” maker"),
        blades: words("3"),
        hub: words("60"),
        cup: words("no"),
        gap: words("13 thou"),
        nozzle: words("82,5"),
        note: words("Two nicks,\nfiled"),
    }
}

fn craft() -> CraftDraft {
    CraftDraft {
        mass: words("350"),
        riders: words("330 lb"),
        length: words("2.6"),
        beam: words("3 ft"),
        deadrise: words("20"),
        balance: words("1,1"),
        power: words("180 hp"),
        rated: words("7500"),
        limiter: words("8000 rpm"),
        breathing: words("blower"),
        curve: words("4000 rpm 150 N·m; 6000 180; 8000 120 ft-lb"),
        wanted_from: words("7400"),
        wanted_to: words("7600 rpm"),
        impeller: words("150"),
        fitted: fitted(),
        outing: words("before"),
        page: words("12-3"),
    }
}

fn said_craft(draft: &CraftDraft) -> Choosing {
    Choosing::Craft(Box::new(draft.read(Unit::Millimetre).unwrap()))
}

fn option(name: &str, draft: &FittingDraft) -> Choosing {
    let fitting = Box::new(draft.read(Unit::Millimetre).unwrap());
    let key = key(name);
    Choosing::Option { key, fitting }
}

fn wish(want: &str, to: &str) -> Choosing {
    let (want, to) = (words(want), words(to));
    let draft = WishDraft { want, to };
    Choosing::Wish(draft.read(Unit::MilePerHour).unwrap())
}

fn steadies() -> Choosing {
    let reading = |engine: &str, speed: &str, pull: &str| {
        let draft = SteadyDraft {
            engine: words(engine),
            speed: words(speed),
            pull: words(pull),
        };
        draft.read(Unit::MilePerHour).unwrap()
    };
    Choosing::Steadies(vec![
        reading("3000", "8", ""),
        reading("5000 rpm", "30 kn", ""),
        reading("4500", "", "90 kgf"),
    ])
}

/// Everything that can be said but that an option is taken, in an order that makes sense.
pub(crate) fn every_kind() -> Vec<Choosing> {
    let steeper = FittingDraft {
        leading: words("15"),
        trailing: words("20,5"),
        angles: words("measured"),
        cup: words("yes"),
        ..fitted()
    };
    let nozzle = FittingDraft {
        name: words("A wider nozzle"),
        nozzle: words("85"),
        ..FittingDraft::default()
    };
    vec![
        said_craft(&craft()),
        option("steeper", &steeper),
        option("nozzle", &nozzle),
        Choosing::OptionPutAway { key: key("nozzle") },
        wish("both", "40"),
        steadies(),
    ]
}

/// An answer as it could be told now; the numbers are invented, the evidence is the job's.
pub(crate) fn taken(job: &Job) -> Choosing {
    Choosing::Taken(Box::new(Told {
        option: key("steeper"),
        evidence: evidence(job),
        words: words("The engine turns 250 rpm slower."),
        engine: [-38.5, -26.0, -14.0],
        speed: [-0.2, 0.1 + 0.2, 0.5],
        time: Some([-0.2, -0.1, 0.0]),
        program: words("a test"),
    }))
}

fn round(said: Choosing) -> String {
    comes_back(&Body::Chose(said))
}

#[test]
fn law_what_is_said_of_what_to_fit_comes_back() {
    for said in every_kind() {
        round(said);
    }
    let mut told = taken(&Job::default());
    round(told.clone());
    if let Choosing::Taken(told) = &mut told {
        told.time = None;
    }
    round(told);
    // What nobody said.
    round(said_craft(&CraftDraft::default()));
    round(option("bare", &FittingDraft::default()));
    round(wish("pull", ""));
    round(Choosing::Steadies(Vec::new()));
}

#[test]
fn law_every_word_of_what_to_fit_comes_back() {
    fn all<T>(choices: &[Choice<T>]) -> Vec<String> {
        choices.iter().map(|(word, _)| words(word)).collect()
    }
    for breathing in all(&BREATHING) {
        let json = round(said_craft(&CraftDraft {
            breathing: breathing.clone(),
            ..craft()
        }));
        assert!(
            json.contains(&format!("\"breathing\":\"{breathing}\"")),
            "{json}"
        );
    }
    for angles in all(&ANGLES) {
        round(option("other", &FittingDraft { angles, ..fitted() }));
    }
    for want in all(&WANTS) {
        round(wish(&want, "30 kn"));
    }
}

#[test]
fn law_a_choice_with_a_word_that_is_none_is_refused() {
    let of = |said: Choosing| encode(&Body::Chose(said)).unwrap();
    let mut kinds: Vec<Encoded> = every_kind().into_iter().map(of).collect();
    kinds.push(of(taken(&Job::default())));
    for (n, from, to) in [
        (0, "mass_kg", "force_n"),
        (0, "\"unit\":\"lb\"", "\"unit\":\"lbf\""),
        (0, "power_w", "power_kw"),
        (0, "\"blower\"", "\"bellows\""),
        (0, "\"outing\":\"before\"", "\"outing\":\"Be fore\""),
        (0, "torque_n_m", "force_n"),
        (0, "\"wanted\":{\"from\"", "\"wanted\":{\"since\""),
        (1, "angle_rad", "length_m"),
        (1, "\"measured\"", "\"guessed\""),
        (1, "\"blades\":3", "\"blades\":300"),
        (1, "\"cup\":true", "\"cup\":\"yes\""),
        (1, "\"steeper\"", "\"Steeper\""),
        (3, "\"option\"", "\"choice\""),
        (4, "\"both\"", "\"neither\""),
        (4, "speed_m_s", "length_m"),
        (5, "force_n", "torque_n_m"),
        (6, "engine_rad_s", "engine_rpm"),
        (6, "[-38.5,-26.0,-14.0]", "[-38.5,-26.0]"),
    ] {
        let Encoded { kind, json, .. } = &kinds[n];
        assert!(json.contains(from), "{json}: {from}");
        let broken = json.replacen(from, to, 1);
        assert!(decode(kind, 1, &broken).is_err(), "{broken}");
    }
}
