//! The wrench, the hole and a figure without a manual, at the command line. All of it is invented.

use std::fmt::Write as _;

use crate::bench::Bench;

const EXAMPLE: &str = include_str!("../../example/patrol-craft.toml");

/// The example with another wrench for the bearing cover, or with something else said of it.
fn cover(more: &str) -> String {
    let chosen = "tool = { wrench = \"small\" }";
    assert!(EXAMPLE.contains(chosen));
    EXAMPLE.replace(chosen, more)
}

/// What the command says of the job, in one line, or why it says nothing.
fn torque(text: &str) -> Result<String, String> {
    let bench = Bench::new();
    bench.write("job.toml", text);
    let ended = bench.run(&["torque", "job.toml"]);
    if ended.code == Some(0) {
        let words: Vec<&str> = ended.out.split_whitespace().collect();
        return Ok(words.join(" "));
    }
    Err(ended.err)
}

#[test]
fn practice_the_wrench_is_set_in_its_own_unit() {
    let said = torque(EXAMPLE).unwrap();
    for words in [
        "4 × M6 to 71 lbf·in on “Small click wrench” (8 N·m at the screw)",
        "8 set on its lbf·in scale would give 0.9 N·m",
        "sure to within ±5 %",
        "then 35, 71 and 71 lbf·in on “Small click wrench”",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let bench = Bench::new();
    bench.write("job.toml", EXAMPLE);
    let json = bench.answer(&["torque", "job.toml", "--json"]);
    assert!(json.contains("\"scale\": \"lbf·in\""), "{json}");
}

#[test]
fn practice_a_pass_below_the_wrench_goes_by_feel() {
    let wider = EXAMPLE.replace("most = \"150\"", "most = \"200\"");
    let said = torque(&wider).unwrap();
    assert!(
        said.contains("then 35 (by feel), 71 and 71 lbf·in"),
        "{said}"
    );
    assert!(
        said.contains("The pass at 35 lbf·in is less than"),
        "{said}"
    );
}

#[test]
fn practice_a_figure_without_a_manual_is_marked_assumed_or_withheld() {
    let bracket = |more: &str| {
        let joint = format!(
            "[joints.bracket]\nname = \"Cable bracket\"\nthread = \"M6\"\nhead = \"hex\"\ncount = 2\n\
             class = \"stainless-70\"\nhole = \"aluminium\"\nengagement = \"9 mm\"\n\
             condition = \"grease\"\nface = \"bare\"\n{more}\n[joints.stator]"
        );
        torque(&EXAMPLE.replace("[joints.stator]", &joint)).unwrap()
    };
    let assumed = bracket("role = \"ordinary\"");
    assert!(assumed.contains("assumed, no manual: 75 % of yield"));
    assert!(assumed.contains("2 × M6 to 4.9 N·m, assumed, in the order"));
    for (more, why) in [
        ("", "before it is said below what sort of joint this is"),
        ("role = \"stator\"", "For the stator there is no figure but"),
        ("role = \"impeller\"", "For the impeller there is no figure"),
    ] {
        let open = bracket(more);
        assert!(open.contains(why), "{open}");
        assert!(!open.contains("assumed, no manual"), "{open}");
    }
}

#[test]
fn practice_a_refusal_points_at_the_wrench_the_hole_and_the_class() {
    let line = |text: &str, at: &str, words: &str| {
        let said = torque(text).unwrap_err();
        assert!(said.contains(at), "{at}\n{said}");
        assert!(said.contains(words), "{words}\n{said}");
    };
    line(
        &EXAMPLE.replacen("\"stainless-70\"", "\"stainless-71\"", 1),
        "class = \"stainless-71\"",
        "“stainless-71” is none of the choices: stainless-70, stainless-80,",
    );
    line(
        &cover("hole_measured = { reach = \"14 mm\", threaded = \"13 mm\", lost = \"1 mm\" }"),
        "reach = \"14 mm\"",
        "The screw goes in 14 mm and the thread only 13 mm",
    );
    line(
        &cover("tool = { wrench = \"large\" }"),
        "tool = { wrench = \"large\" }",
        "is good for 12.0 to 60.0\u{a0}N·m, and it would have to be set to 8.0\u{a0}N·m. Below a \
         fifth of its greatest torque a wrench is not used. Take “Small click wrench”.",
    );
    line(
        &cover("").replace("least = \"30\"", "least = \"2.3 N·m\""),
        "least = \"2.3 N·m\"",
        "“2.3 N·m” is in N·m, and the scale of this wrench is in lbf·in.",
    );
    line(
        &cover("").replace("scale = \"lbf·in\"", "scale = \"mm\""),
        "scale = \"mm\"",
        "“mm” is none of the choices: N·m, lbf·ft, lbf·in",
    );
    line(
        &cover("tool = { wrench = \"small\", lever = \"200 mm\" }"),
        "lever = \"200 mm\"",
        "An adapter takes three figures",
    );
    line(
        &cover("role = \"captain\""),
        "role = \"captain\"",
        "“captain” is none of the choices: ordinary, impeller, stator.",
    );
}

/// The sheet says with what a joint was torqued, and that its figure is assumed.
#[test]
fn practice_the_sheet_names_the_wrench() {
    let bench = Bench::new();
    bench.write("job.toml", EXAMPLE);
    let sheet = bench.answer(&["sheet", "job.toml"]);
    let words: Vec<&str> = sheet.split_whitespace().collect();
    assert!(words.join(" ").contains("“Small click"), "{sheet}");
}

/// The example with sixty joints more, each with its wrench, its hole and another size or class.
pub(crate) fn sixty() -> String {
    let mut joints = String::new();
    for n in 0..60 {
        let thread = ["M5", "M6", "M8", "M10"][n % 4];
        let (torque, wrench) = [
            ("5", "small"),
            ("8", "small"),
            ("20", "large"),
            ("35", "large"),
        ][n % 4];
        let class = ["stainless-70", "stainless-80", "8.8"][n % 3];
        let count = 2 + n % 12;
        // Writing into a String cannot fail.
        let _ = write!(
            joints,
            "[joints.n{n}]\nname = \"Joint {n}\"\nthread = \"{thread}\"\nhead = \"hex\"\n\
             count = {count}\nclass = \"{class}\"\nhole = \"aluminium\"\ntorque = \"{torque}\"\n\
             stated_for = \"dry\"\ncondition = \"threadlocker\"\nface = \"sealant\"\n\
             hole_measured = {{ reach = \"14\", threaded = \"18\", lost = \"1\" }}\n\
             tool = {{ wrench = \"{wrench}\", lever = \"300\", offset = \"20\", angle = \"30\" }}\n\n"
        );
    }
    EXAMPLE.replace("[joints.stator]", &format!("{joints}[joints.stator]"))
}

#[test]
fn practice_sixty_joints_are_told_together() {
    let said = torque(&sixty()).unwrap();
    assert!(said.contains("1 of 64 joints torqued and marked."));
    assert_eq!(said.matches("Set the wrench to").count(), 61);
}
