//! What cannot be said of service is blamed on its line. All data are invented.

use super::again::{PIECE, SORT, TOLD};
use crate::blamed::check;

#[test]
fn law_a_use_that_cannot_be_is_refused_at_its_line() {
    let usage = |lines: &str| format!("[service]\ncurrency = \"EUR\"\n{lines}\n");
    let range = |lines: &str, at, words| (usage(lines), at, words);
    check([
        range("week = \"169\"", "line 8, column 9", "0.1 to 168"),
        range("week = \"6 mm\"", "line 8, column 11", "mm"),
        range("week = 6", "line 8, column 8", "text in quotes"),
        range("season = \"3001\"", "line 8, column 11", "1 to 3000"),
        range("keep = \"0\"", "line 8, column 9", "1 to 20000"),
        range("between = \"0,5 h\"", "line 8, column 12", "1 to 100000"),
        range("silt = \"51\"", "line 8, column 9", "1 to 50"),
        range(
            "water = \"sand\"\nsand = \"0.9\"",
            "line 9, column 9",
            "1 to 50",
        ),
        range("wage = \"-1\"", "line 8, column 9", "0 to 1000000"),
        range(
            "failure = \"150 EUR\"",
            "line 8, column 16",
            "write the number alone",
        ),
        range("worth = \"$12\"", "line 8, column 10", ""),
        range("floor = \"100\"", "line 8, column 10", "1 to 99"),
        range("water = \"mud\"", "line 8, column 10", "clean, silt, sand"),
        range("from = \"05-01\"", "line 8, column 8", "stands alone"),
        range("until = \"05-01\"", "line 8, column 9", "stands alone"),
        range(
            "from = \"05-01\"\nuntil = \"02-30\"",
            "line 9, column 10",
            "no day of a year",
        ),
        range(
            "from = \"W05-1\"\nuntil = \"09-30\"",
            "line 8, column 9",
            "no day of a year",
        ),
        range(
            "from = \"2026-05-01\"\nuntil = \"09-30\"",
            "line 8, column 9",
            "no day of a year",
        ),
        range("hours = \"6\"", "line 8", "hours"),
    ]);
    let long = usage(&format!("worth = \"1\"\nwater = \"{}\"", "x".repeat(201)));
    check([(long, "line 9", "none of the choices")]);
    let long = format!("[service]\ncurrency = \"{}\"\n", "x".repeat(201));
    check([(long, "line 7, column 12", "200")]);
}

#[test]
fn law_a_sort_that_cannot_be_is_refused_at_its_line() {
    let sort =
        |lines: &str| format!("{SORT}[[sort]]\nkey = \"metal\"\nname = \"Metal\"\n{lines}\n");
    let head = |lines: &str| format!("{SORT}[[sort]]\n{lines}\n");
    check([
        (
            head("key = \"soft\"\nname = \"Again\""),
            "line 14, column 7",
            "above already",
        ),
        (
            head("key = \"Soft\"\nname = \"Other\""),
            "line 14, column 8",
            "no id",
        ),
        (head("name = \"Other\""), "line 13", "key"),
        (head("key = \"metal\""), "line 13", "name"),
        (
            head("key = \"metal\"\nname = \"\""),
            "line 15, column 8",
            "filled in",
        ),
        (
            sort("kind = \"rotor\""),
            "line 16, column 9",
            "ring, impeller, seal",
        ),
        (
            sort("trust = \"much\""),
            "line 16, column 10",
            "rough, fair, well",
        ),
        (
            sort("option = \"steep\""),
            "line 16, column 10",
            "no option “steep”",
        ),
        (sort("option = \"Steep\""), "line 16, column 11", "no id"),
        (
            sort("price = \"0\""),
            "line 16, column 10",
            "0.01 to 1000000",
        ),
        (sort("ruin = \"101\""), "line 16, column 9", "0 to 100"),
        (sort("labour = \"201\""), "line 16, column 11", "0 to 200"),
        (sort("tenth = \"43\""), "line 16, column 9", "stands alone"),
        (sort("half = \"43\""), "line 16, column 8", "stands alone"),
        (sort("lost = \"4\""), "line 16, column 8", "stands alone"),
        (
            sort("lost_at = \"4\""),
            "line 16, column 11",
            "stands alone",
        ),
        (
            sort("tenth = \"102\"\nhalf = \"43\""),
            "line 16, column 10",
            "smaller",
        ),
        (
            sort("tenth = \"43\"\nhalf = \"45\""),
            "line 16, column 9",
            "no part lasts so",
        ),
        (
            sort("tenth = \"43\"\nhalf = \"20001\""),
            "line 17, column 9",
            "20000",
        ),
        (sort("life = \"43\""), "line 16", "life"),
    ]);
}

#[test]
fn law_a_piece_that_cannot_be_is_refused_at_its_line() {
    let piece = |lines: &str| format!("{SORT}[[piece]]\nkey = \"first\"\n{lines}\n");
    check([
        (
            piece("sort = \"hard\"\nfitted = \"0\""),
            "line 15, column 9",
            "no sort of part “hard”",
        ),
        (
            piece("sort = \"Hard\"\nfitted = \"0\""),
            "line 15, column 9",
            "no id",
        ),
        (
            piece("sort = \"\"\nfitted = \"0\""),
            "line 15, column 8",
            "filled in",
        ),
        (piece("sort = \"soft\""), "line 13", "fitted"),
        (
            piece("sort = \"soft\"\nfitted = \"50001\""),
            "line 16, column 11",
            "0 to 50000",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nelsewhere = \"yes\""),
            "line 16, column 11",
            "its own hours",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nelsewhere = \"maybe\""),
            "line 17, column 14",
            "yes, no",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\ngood = \"4\""),
            "line 17, column 8",
            "“4\u{a0}h” is not after “5\u{a0}h”",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nend = \"worn\"\nended = \"5\""),
            "line 18, column 9",
            "not after",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\ngood = \"9\"\nend = \"worn\"\nended = \"8\""),
            "line 19, column 9",
            "not after",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nend = \"worn\""),
            "line 17, column 7",
            "stands alone",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nended = \"8\""),
            "line 17, column 9",
            "stands alone",
        ),
        (
            piece("sort = \"soft\"\nfitted = \"5\"\nend = \"lost\"\nended = \"8\""),
            "line 17, column 8",
            "worn, failed, struck, good",
        ),
        (
            format!("{SORT}{PIECE}{PIECE}"),
            "line 21, column 7",
            "above already",
        ),
    ]);
}

#[test]
fn law_a_meter_that_cannot_be_is_refused_at_its_line() {
    let told = |lines: &str| format!("{TOLD}{lines}\n");
    let meter =
        |on: &str, hours: &str| told(&format!("[[meter]]\non = \"{on}\"\nhours = \"{hours}\""));
    // Sixteen lines are above.
    check([
        (
            meter("2026-04-05", "19"),
            "line 24, column 9",
            "never runs backwards",
        ),
        (
            meter("2026-03-01", "21"),
            "line 24, column 9",
            "20\u{a0}h on 2026-04-01",
        ),
        (
            meter("2026-04-05", "50001"),
            "line 24, column 10",
            "0 to 50000",
        ),
        (
            meter("2026-05-10", "30"),
            "line 23, column 6",
            "still to come",
        ),
        (meter("2026-02-30", "30"), "line 23, column 7", "2026-02-30"),
        (meter("", "30"), "line 23, column 6", "filled in"),
        (told("[[meter]]\nhours = \"30\""), "line 22", "on"),
        (
            told("[[meter]]\non = 2026-04-05\nhours = \"30\""),
            "line 23, column 6",
            "text in quotes",
        ),
    ]);
}

#[test]
fn law_a_mishap_a_task_and_a_point_that_cannot_be_are_refused_at_their_line() {
    let told = |lines: &str| format!("{TOLD}{lines}\n");
    check([
        (
            told("[[mishap]]\nwhat = \"stroke\"\non = \"2026-04-05\""),
            "line 23, column 9",
            "strike, sand, hot, thrust, milky",
        ),
        (
            told("[[mishap]]\nwhat = \"hot\"\non = \"2026-05-10\""),
            "line 24, column 6",
            "still to come",
        ),
        (
            told("[[mishap]]\nwhat = \"hot\"\non = \" \""),
            "line 24, column 6",
            "filled in",
        ),
        (
            told("[[done]]\ntask = \"paint\"\non = \"2026-04-05\""),
            "line 23, column 9",
            "no task “paint”",
        ),
        (
            told("[[done]]\ntask = \"Paint\"\non = \"2026-04-05\""),
            "line 23, column 9",
            "no id",
        ),
        (
            told("[[done]]\ntask = \"gap\"\non = \"2027-01-01\""),
            "line 24, column 6",
            "still to come",
        ),
        (
            told("[[done]]\ntask = \"gap\"\non = \"2026-04-05\"\nhours = \"-1\""),
            "line 25, column 10",
            "0 to 50000",
        ),
        (
            told("[[recheck]]\npoint = \"cone\"\nfound = \"well\""),
            "line 23, column 9",
            "above already",
        ),
        (
            told("[[recheck]]\npoint = \"keel\"\nfound = \"well\""),
            "line 23, column 10",
            "cone, marks, plate",
        ),
        (
            told("[[recheck]]\npoint = \"gap\"\nfound = \"good\""),
            "line 24, column 10",
            "well, amiss",
        ),
    ]);
}

#[test]
fn law_a_rule_that_cannot_be_is_refused_at_its_line() {
    let rule = |lines: &str| format!("[[due]]\n{lines}\n");
    check([
        (
            rule("task = \"own\"\nhours = \"40\""),
            "line 7, column 8",
            "needs a name",
        ),
        (
            rule("task = \"gap\""),
            "line 7, column 8",
            "Nothing says when",
        ),
        (
            rule("task = \"gap\"\nhours = \"0.4\""),
            "line 8, column 10",
            "0.5 to 5000",
        ),
        (
            rule("task = \"gap\"\nmonths = 121"),
            "line 8, column 10",
            "from 1 to 120",
        ),
        (
            rule("task = \"gap\"\nmonths = \"0\""),
            "line 8, column 11",
            "from 1 to 120",
        ),
        (
            rule("task = \"gap\"\nmonths = 600"),
            "line 8, column 10",
            "from 1 to 120",
        ),
        (
            rule("task = \"gap\"\nafter = [\"hot\", \"cold\"]"),
            "line 8, column 18",
            "“cold” is none",
        ),
        (
            rule("task = \"gap\"\nafter = \"hot\""),
            "line 8, column 9",
            "sequence",
        ),
        (
            rule("task = \"gap\"\nedge = \"winter\""),
            "line 8, column 9",
            "launch, lay-up",
        ),
        (
            rule("task = \"Gap\"\nhours = \"40\""),
            "line 7, column 9",
            "no id",
        ),
        (
            rule("task = \"gap\"\nhours = \"40\"\n[[due]]\ntask = \"gap\"\nhours = \"30\""),
            "line 10, column 8",
            "above already",
        ),
    ]);
}
