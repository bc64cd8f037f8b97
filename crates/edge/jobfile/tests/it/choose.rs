//! What to fit, in a job file. All data are invented.

use jobfile::{parse, stored, write};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use workshop::draft::choose::{CraftDraft, FittingDraft, SteadyDraft, WishDraft};
use workshop::draft::{ChoicesDraft, JobDraft, TrialDraft};
use workshop::fold::fold;

use crate::blamed::{by, check, id, of};

fn words(text: &str) -> String {
    text.to_owned()
}

fn craft(impeller: &str, gap: &str) -> CraftDraft {
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
        wanted_to: words("7600"),
        impeller: words(impeller),
        fitted: option("As bought", gap),
        outing: String::new(),
        page: words("12-3"),
    }
}

fn option(name: &str, gap: &str) -> FittingDraft {
    FittingDraft {
        name: words(name),
        leading: words("14"),
        trailing: words("19°"),
        radius: words("69"),
        angles: words("stamped"),
        maker: words("The \"first\" maker"),
        blades: words("3"),
        hub: words("60"),
        cup: words("no"),
        gap: words(gap),
        nozzle: words("3.3 in"),
        note: words("Two nicks,\nfiled"),
    }
}

/// Some options, some of them with one thing said and one like what is fitted.
fn options() -> impl Strategy<Value = Vec<(String, FittingDraft)>> {
    let nozzle = FittingDraft {
        name: words("A wider nozzle"),
        nozzle: words("85"),
        ..FittingDraft::default()
    };
    let ring = FittingDraft {
        name: words("A new ring"),
        gap: words("0.3 mm"),
        ..FittingDraft::default()
    };
    let all = vec![
        (words("like-fitted"), option("As bought", "13 thou")),
        (words("nozzle"), nozzle),
        (words("ring"), ring),
    ];
    subsequence(all, 0..=3).prop_shuffle()
}

fn steadies() -> impl Strategy<Value = Vec<SteadyDraft>> {
    let reading = |engine: &str, speed: &str, pull: &str| SteadyDraft {
        engine: words(engine),
        speed: words(speed),
        pull: words(pull),
    };
    let all = vec![
        reading("3000", "8", ""),
        reading("5000 rpm", "30 kn", ""),
        reading("4500", "", "90 kgf"),
        reading("4500", "", "900"),
    ];
    subsequence(all, 0..=4)
}

/// What may be said of what to fit.
pub(crate) fn choices() -> impl Strategy<Value = ChoicesDraft> {
    let crafts = vec![
        None,
        Some(CraftDraft::default()),
        Some(craft("139,4", "13 thou")),
        Some(craft("6 in", "")),
    ];
    let wish = |want: &str, to: &str| {
        let (want, to) = (words(want), words(to));
        Some(WishDraft { want, to })
    };
    let wishes = vec![
        None,
        wish("pull", ""),
        wish("both", "25"),
        wish("speed", "30 kn"),
    ];
    (select(crafts), options(), select(wishes), steadies()).prop_map(
        |(craft, options, wish, steadies)| ChoicesDraft {
            craft,
            options,
            wish,
            steadies,
        },
    )
}

/// The craft was run on the first outing, where there is one.
pub(crate) fn run_on(mut choices: ChoicesDraft, trials: &[TrialDraft]) -> ChoicesDraft {
    if let (Some(craft), Some(first)) = (&mut choices.craft, trials.first()) {
        craft.outing.clone_from(&first.key);
    }
    choices
}

const OUTING: &str =
    "[[outing]]\nkey = \"lake\"\nname = \"Lake\"\nside = \"before\"\nunit = \"kn\"\n";
const CRAFT: &str = "[craft]\nimpeller = \"140\"\nrated = \"7500\"\n[craft.fitted]\nhub = \"60\"\n";
const OPTION: &str = "[[option]]\nkey = \"steeper\"\nname = \"Steeper\"\n";

/// The first line of a body is line 6 of its file.
#[test]
fn law_a_craft_that_cannot_be_is_refused_at_its_line() {
    let craft = |line: &str| format!("[craft]\n{line}\n");
    check([
        (craft("mass = \"79\""), "line 7, column 9", "80 to 1500"),
        (craft("mass = \"350 lbf\""), "line 7, column 13", "a force"),
        (craft("mass = 350"), "line 7, column 8", "text in quotes"),
        (craft("weight = \"350\""), "line 7", "weight"),
        (
            craft("breathing = \"gills\""),
            "line 7, column 14",
            "own, blower, turbo",
        ),
        (
            craft("rated = \"7500\"\nlimiter = \"7400\""),
            "line 8, column 11",
            "below the rated speed",
        ),
        (
            craft("page = \"1\"\nwanted_from = \"7600\"\nwanted_to = \"7400\""),
            "line 8, column 16",
            "smaller",
        ),
        (craft("wanted_from = \"7600\""), "line 6", "filled in"),
        (
            craft("mass = \"350\"\nouting = \"sea\""),
            "line 8, column 10",
            "no outing “sea”",
        ),
        (
            craft("mass = \"350\"\nouting = \"Sea\""),
            "line 8, column 11",
            "no id",
        ),
        (
            craft("impeller = \"140\"\n[craft.fitted]\nnozzle = \"141\""),
            "line 9, column 10",
            "wider than the pump",
        ),
        (
            craft("[craft.fitted]\nleading = \"14 mm\""),
            "line 8, column 15",
            "a length",
        ),
        (
            craft("[craft.fitted]\nblades = 9"),
            "line 8, column 10",
            "2 to 8",
        ),
        (
            craft("[craft.fitted]\nkey = \"a\""),
            "line 8, column 7",
            "no key",
        ),
    ]);
}

#[test]
fn law_a_curve_that_cannot_be_is_refused_where_it_is_wrong() {
    let curve = |points: &str| format!("[craft]\nlimiter = \"8000\"\ncurve = \"{points}\"\n");
    check([
        (
            curve("7500 170"),
            "line 8, column 9",
            "One reading of torque",
        ),
        (
            curve("4000 150; 6000; 8000 170"),
            "line 8, column 20",
            "“6000” is no point",
        ),
        (
            curve("4000 150; 6000 1800; 8000 170"),
            "line 8, column 25",
            "1000",
        ),
        (
            curve("4000 150; 6000 180 kW; 8000 170"),
            "line 8, column 29",
            "a power",
        ),
        (
            curve("4000 150; 6000 180; 7000 170"),
            "line 8, column 9",
            "7805",
        ),
    ]);
}

#[test]
fn law_an_option_that_cannot_be_is_refused_at_its_line() {
    let option = |lines: &str| format!("{CRAFT}{OPTION}{lines}\n");
    check([
        (
            format!("{CRAFT}[[option]]\nname = \"A\"\n"),
            "line 11",
            "no key",
        ),
        (
            option("").replace("\"steeper\"", "\"St eeper\""),
            "line 12, column 8",
            "no id",
        ),
        (option("leading = \"41\""), "line 14, column 12", "5 to 40"),
        (
            option("leading = \"34\""),
            "line 14, column 11",
            "near the hub",
        ),
        (
            option("leading = \"20\"\ntrailing = \"19\""),
            "line 15, column 12",
            "swapped",
        ),
        (
            option("leading = \"14\"\nradius = \"71\""),
            "line 15, column 10",
            "70.00",
        ),
        (
            option("leading = \"14\"\nradius = \"29\""),
            "line 15, column 10",
            "no blade",
        ),
        (option("hub = \"99\""), "line 14, column 7", "28.00"),
        (option("gap = \"2.1\""), "line 14, column 7", "2.00"),
        (
            option("nozzle = \"5.6 in\""),
            "line 14, column 10",
            "wider than the pump",
        ),
        (option("cup = \"maybe\""), "line 14, column 8", "yes, no"),
        (option("cup = true"), "line 14, column 7", "text in quotes"),
        (
            option("radius = \"60\""),
            "line 13, column 8",
            "says nothing",
        ),
        (option("pitch = \"15\""), "line 14", "pitch"),
        (
            option(&format!("gap = \"0.3\"\n{OPTION}")),
            "line 16, column 7",
            "above already",
        ),
        (
            option(
                "gap = \"0.3\"\n[[option]]\nkey = \"other\"\nname = \"Other\"\nhub = \"60 rpm\"",
            ),
            "line 18, column 11",
            "shaft speed",
        ),
    ]);
}

#[test]
fn law_a_wish_and_a_reading_that_cannot_be_are_refused_at_their_line() {
    let steady = |lines: &str| {
        format!("{CRAFT}[[steady]]\nengine = \"3000\"\nspeed = \"9\"\n[[steady]]\n{lines}\n")
    };
    let many = "[[steady]]\nengine = \"3000\"\nspeed = \"9\"\n".repeat(25);
    check([
        (
            words("[wish]\nwant = \"luck\"\n"),
            "line 7, column 9",
            "pull, speed, both",
        ),
        (words("[wish]\nto = \"30\"\n"), "line 6", "want"),
        (
            words("[wish]\nwant = \"pull\"\nto = \"30 N\"\n"),
            "line 8, column 10",
            "a force",
        ),
        (
            words("[wish]\nwant = \"pull\"\nto = \"80\"\n"),
            "line 8, column 7",
            "78",
        ),
        (steady("speed = \"9\""), "line 14", "engine"),
        (
            steady("engine = \"300\"\nspeed = \"9\""),
            "line 15, column 11",
            "500",
        ),
        (
            steady("engine = \"7300\"\nspeed = \"40\""),
            "line 15, column 11",
            "Water test",
        ),
        (
            steady("engine = \"3000 kn\"\nspeed = \"40\""),
            "line 15, column 16",
            "a speed",
        ),
        (
            steady("engine = \"4000\"\nspeed = \"400\""),
            "line 16, column 10",
            "111",
        ),
        (
            steady("engine = \"4000\"\npull = \"19\""),
            "line 16, column 9",
            "20",
        ),
        (steady("engine = \"4000\""), "line 15, column 11", "neither"),
        (
            steady("engine = \"4000\"\nspeed = \"9\"\npull = \"300\""),
            "line 16, column 9",
            "Empty one of the two",
        ),
        (many, "line 79, column 10", "24 steady readings"),
    ]);
}

/// What the file leaves unsaid of a job stays, and what it says anew is heard.
#[test]
fn law_a_file_that_says_otherwise_is_heard() {
    let body = format!(
        "{OUTING}{CRAFT}{OPTION}gap = \"0.3\"\n[wish]\nwant = \"both\"\nto = \"25\"\n\
         [[steady]]\nengine = \"3000\"\nspeed = \"9\"\n"
    );
    let first = of(&body).unwrap();
    let new = first.entries(&id(), &[], &by()).unwrap();
    // The job itself, the outing, and each of the four.
    assert_eq!(new.len(), 6);
    let mut there = stored(&new, 0);
    assert_eq!(first.entries(&id(), &there, &by()).unwrap(), Vec::new());
    let job = fold(&there).0;
    let to = job
        .choices
        .wish
        .as_ref()
        .unwrap()
        .value
        .to
        .as_ref()
        .unwrap();
    assert_eq!(to.unit, quantity::Unit::Knot);
    // The title alone, then one option more with another speed.
    assert_eq!(
        of("").unwrap().entries(&id(), &there, &by()).unwrap(),
        Vec::new()
    );
    let more = "[[option]]\nkey = \"nozzle\"\nname = \"Nozzle\"\nnozzle = \"85\"\n\
                [[steady]]\nengine = \"3000\"\nspeed = \"9.5\"\n";
    let new = of(more).unwrap().entries(&id(), &there, &by()).unwrap();
    assert_eq!(new.len(), 2);
    there.extend(stored(&new, 6));
    let job = fold(&there).0;
    assert_eq!(job.choices.options.len(), 2);
    let steadies = &job.choices.steadies.as_ref().unwrap().value;
    assert_eq!(steadies.len(), 1);
    assert_eq!(
        steadies[0].speed.as_ref().unwrap().unit,
        quantity::Unit::Knot
    );
    let text = write(&id(), &JobDraft::of(&job));
    assert!(
        text.contains("[wish]\nwant = \"both\"\nto = \"25\"\n"),
        "{text}"
    );
    assert!(text.contains("[craft.fitted]\nhub = \"60\"\n"), "{text}");
}

#[test]
fn law_a_card_holds_nothing_of_what_to_fit() {
    let head = "format = \"pumpwright card\"\nversion = 1\n[card]\ntitle = \"A\"\n";
    for (body, line) in [
        (CRAFT, "line 5"),
        ("[craft]\n", "line 5"),
        (OPTION, "line 6"),
        ("[wish]\nwant = \"pull\"\n", "line 6"),
        ("[[steady]]\nengine = \"3000\"\n", "line 6"),
    ] {
        let said = parse("card.toml", &format!("{head}{body}")).unwrap_err();
        let said = said.to_string();
        let words = "no facts of a craft and no options";
        assert!(said.contains(line) && said.contains(words), "{said}");
    }
}
