//! Impellers, gaps and nozzles that cannot be. All data are invented.

use workshop::act::Act;
use workshop::draft::choose::FittingDraft;

use super::super::{fitted, nozzle, option, said_option, shop, words};
use super::{Case, accepted, bare, craft_with, option_with, refused};

const OPTION: &[Case<FittingDraft>] = &[
    (
        "leading",
        |d, t| d.leading = t,
        ["5", "20"],
        ["4.9", "41"],
        ["5", "40"],
    ),
    (
        "trailing",
        |d, t| d.trailing = t,
        ["15", "28"],
        ["4.9", "41"],
        ["5", "40"],
    ),
    (
        "radius",
        |d, t| d.radius = t,
        ["30", "69.7"],
        ["9.9", "201"],
        ["10", "200"],
    ),
    (
        "hub",
        |d, t| d.hub = t,
        ["27.9", "97.5"],
        ["15.9", "281"],
        ["16", "280"],
    ),
    (
        "gap",
        |d, t| d.gap = t,
        ["0 mm", "1.98 mm"],
        ["-1 mm", "3.01 mm"],
        ["0", "3"],
    ),
    (
        "nozzle",
        |d, t| d.nozzle = t,
        ["40", "139.4"],
        ["39", "201"],
        ["40", "200"],
    ),
];

#[test]
fn law_every_figure_of_an_option_has_its_range() {
    let journal = shop();
    for (field, set, inside, outside, limits) in OPTION {
        for text in inside {
            accepted(&journal, option_with(|d| set(d, words(text))));
        }
        for (text, limit) in outside.iter().zip(limits) {
            let (found, said) = refused(&journal, option_with(|d| set(d, words(text))));
            assert_eq!(found, Some(*field), "{said}");
            assert!(said.contains(text) && said.contains(limit), "{said}");
        }
    }
    for (field, most, set) in [
        (
            "name",
            200,
            (|d, t| d.name = t) as fn(&mut FittingDraft, String),
        ),
        ("maker", 200, |d, t| d.maker = t),
        ("note", 2000, |d, t| d.note = t),
    ] {
        accepted(&journal, option_with(|d| set(d, "x".repeat(most))));
        let (found, said) = refused(&journal, option_with(|d| set(d, "x".repeat(most + 1))));
        assert_eq!(found, Some(field), "{said}");
    }
    let blades = |text: &'static str| option_with(|d| d.blades = words(text));
    accepted(&journal, blades("2"));
    accepted(&journal, blades("8"));
    for text in ["1", "9"] {
        assert_eq!(refused(&journal, blades(text)).0, Some("blades"));
    }
    let nameless = option_with(|d| d.name = words(" "));
    assert_eq!(refused(&journal, nameless).0, Some("name"));
}

/// Angles of a tip: common practice, no source.
#[test]
fn practice_an_angle_near_the_hub_needs_its_radius() {
    let journal = shop();
    let near_hub = |radius: &'static str| {
        option_with(|d| {
            d.trailing = words("34");
            d.radius = words(radius);
        })
    };
    assert_eq!(
        refused(&journal, near_hub("")),
        (
            Some("trailing"),
            words(
                "34° is an angle near the hub: at the tip blades stand at about 8 to 28°. Give the \
                 radius it was taken at, or measure again at the tip."
            )
        )
    );
    accepted(&journal, near_hub("35"));
    accepted(&journal, option_with(|d| d.trailing = words("28")));
    let steep = option_with(|d| (d.leading, d.trailing) = (words("28.1"), String::new()));
    assert_eq!(refused(&journal, steep).0, Some("leading"));
    let (field, said) = refused(&journal, option_with(|d| d.trailing = words("14.9°")));
    assert!(
        field == Some("trailing") && said.contains("14.9°") && said.contains("swapped"),
        "{said}"
    );
    accepted(&journal, option_with(|d| d.trailing = words("15")));
}

#[test]
fn law_an_option_fits_into_the_pump() {
    let journal = shop();
    let radius = option_with(|d| d.radius = words("70"));
    assert_eq!(
        refused(&journal, radius),
        (
            Some("radius"),
            words(
                "A radius of 70\u{a0}mm is beyond the tip: of an impeller 139,4\u{a0}mm across it is at most \
                 69.70\u{a0}mm. Give the radius, not the diameter."
            )
        )
    );
    let inside = option_with(|d| d.radius = words("29.9"));
    assert_eq!(
        refused(&journal, inside),
        (
            Some("radius"),
            words(
                "At a radius of 29.9\u{a0}mm there is no blade: the hub is 60\u{a0}mm across. Give the radius \
                 from the middle of the shaft, or check the hub."
            )
        )
    );
    let said = refused(&journal, said_option("a-nozzle", &nozzle("5.5 in"))).1;
    assert_eq!(
        said,
        "A nozzle of 5.5 in is wider than the pump, whose impeller is 139,4\u{a0}mm across. Check the \
         unit, and that this is the bore at the outlet."
    );
    for hub in ["27.8", "97.6"] {
        let (field, said) = refused(&journal, option_with(|d| d.hub = words(hub)));
        assert_eq!(field, Some("hub"));
        assert!(said.contains("27.88\u{a0}mm to 97.58\u{a0}mm"), "{said}");
    }
    // A twentieth of half of 139.4 less 60.
    let gap = option_with(|d| d.gap = words("79"));
    assert_eq!(
        refused(&journal, gap),
        (
            Some("gap"),
            words(
                "A gap of 79\u{a0}thou is more than a twentieth of the blade’s height, 78.1\u{a0}thou here. \
                 Give the gap on one side, not across, and check the unit."
            )
        )
    );
    // Its own hub counts before that of what is fitted.
    let thick = option_with(|d| (d.gap, d.hub) = (words("1.5 mm"), words("90")));
    assert_eq!(refused(&journal, thick).0, Some("gap"));
    // Nobody measured the impeller: the bore of the ring is 140 mm.
    let unmeasured = bare();
    let wide = said_option("a-nozzle", &nozzle("141"));
    assert_eq!(refused(&unmeasured, wide.clone()).0, Some("nozzle"));
    accepted(&unmeasured, said_option("a-nozzle", &nozzle("139.9")));
    let mut told = unmeasured.clone();
    told.act(Act::Recount(wide, None));
    let own = craft_with(|d| d.fitted.nozzle = words("139.5"));
    assert_eq!(refused(&bare(), own).0, Some("nozzle"));
}

#[test]
fn law_an_option_changes_something() {
    let journal = shop();
    let nothing = FittingDraft {
        name: words("The same"),
        radius: words("60"),
        angles: words("measured"),
        maker: words("Another maker"),
        note: words("Polished"),
        ..FittingDraft::default()
    };
    let (field, said) = refused(&journal, said_option("same", &nothing));
    assert_eq!(field, Some("name"));
    assert!(
        said.starts_with("This option says nothing that could be fitted."),
        "{said}"
    );
    let like = "This option is what is fitted now, so it would change nothing. Say what is different \
                about it, or leave it out.";
    let same = FittingDraft {
        name: words("Spare"),
        ..fitted()
    };
    for draft in [same.clone(), option("14", "19"), nozzle("83.82")] {
        assert_eq!(
            refused(&journal, said_option("same", &draft)),
            (Some("name"), words(like))
        );
    }
    // Something else about each of them.
    for change in [
        (|d| d.trailing = words("20")) as fn(&mut FittingDraft),
        |d| d.blades = words("4"),
        |d| d.cup = words("yes"),
        |d| d.maker = words("The second maker"),
        |d| d.angles = words("measured"),
        |d| d.radius = words("65"),
        |d| d.gap = words("12"),
    ] {
        let mut draft = same.clone();
        change(&mut draft);
        accepted(&journal, said_option("same", &draft));
    }
    // Of a craft whose fitted impeller nobody knows, the same angle may be another.
    accepted(&bare(), said_option("same", &option("14", "19")));
}
