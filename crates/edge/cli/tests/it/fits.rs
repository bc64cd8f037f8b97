//! Joints that are no circle of screws, at the command line. All data are invented.

use crate::bench::Bench;

#[test]
fn law_what_can_hurt_stands_on_the_page_and_on_the_sheet() {
    let bench = Bench::new();
    bench.write("job.toml", include_str!("../../example/patrol-craft.toml"));
    for command in ["torque", "sheet"] {
        let said = bench.answer(&[command, "job.toml"]);
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        for caution in [
            "No impact wrench",
            "Never a bar between blade and vane",
            "dust and chips of zinc",
            "Steering and gate hang on it",
            "Support the pump",
        ] {
            // The sheet holds what can hurt, not what to do.
            let there = command == "torque" || caution != "Support the pump";
            assert_eq!(said.contains(caution), there, "{command}: {caution}");
        }
    }
    let json = bench.answer(&["torque", "job.toml", "--json"]);
    assert!(json.contains("No impact wrench"));
    assert!(json.contains("\"tighten\": \"clockwise\""));
}
