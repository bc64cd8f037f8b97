//! Every page as it is sent.

use crate::bench::Bench;

/// The page with its ids and file marks taken out, which differ every time.
fn steady(page: &str) -> String {
    let mut steady = String::new();
    for (at, piece) in page.split("name=\"id\" value=\"").enumerate() {
        let piece = if at == 0 {
            piece
        } else {
            piece.split_once('"').unwrap().1
        };
        steady.push_str(piece);
        steady.push('\n');
    }
    for mark in ["bench.css?", "bench.js?"] {
        let (before, after) = steady.split_once(mark).unwrap();
        steady = format!("{before}{mark}{}", after.split_once('"').unwrap().1);
    }
    if let Some((before, after)) = steady.split_once("Saved ") {
        steady = format!("{before}Saved{}", after.split_at("14:02".len()).1);
    }
    if let Some((before, after)) = steady.split_once("data-printed=\"") {
        steady = format!("{before}data-printed{}", after.split_once('"').unwrap().1);
    }
    steady.replace('>', ">\n")
}

fn check(page: &str) {
    for bad in [
        "NaN", "inf ", "Some(", "None", "style=\"", "onclick", "http://", "https://",
    ] {
        assert!(!page.contains(bad), "{bad} stands in the page");
    }
    for input in page
        .split("<input ")
        .skip(1)
        .map(|rest| rest.split('>').next().unwrap())
    {
        let hidden = input.contains("type=\"hidden\"") || input.contains("type=\"checkbox\"");
        let id = input
            .split("id=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next());
        let labelled = id.is_some_and(|id| page.contains(&format!("<label for=\"{id}\">")));
        assert!(
            hidden || labelled || input.contains("name=\"who\"") || input.contains("aria-label=\""),
            "no label: {input}"
        );
    }
}

#[test]
fn regress_pages_as_sent() {
    let bench = Bench::start();
    let empty = bench.get("/").body;
    check(&empty);
    insta::assert_snapshot!("jobs_empty", steady(&empty));
    let job = bench.ready();
    let fresh = bench.get(&format!("{job}/measure")).body;
    check(&fresh);
    insta::assert_snapshot!("measure_without_a_reading", steady(&fresh));
    for (id, spot, reading) in [
        ("r-1", "A 12", "13-14"),
        ("r-2", "A 3", "18-15"),
        ("r-3", "B 6", ">15"),
    ] {
        bench.post(
            &format!("{job}/act/reading"),
            &[("id", id), ("spot", spot), ("reading", reading)],
        );
    }
    let page = bench.get(&format!("{job}/measure?at=B1")).body;
    check(&page);
    assert!(page.contains("The readings contradict each other at 1 spot."));
    check(&bench.get(&format!("{job}/record")).body);
    check(&bench.get(&format!("{job}/torque")).body);
    check(&bench.get(&format!("{job}/teardown")).body);
    check(&bench.get(&format!("{job}/sheet")).body);
    check(&bench.get("/nowhere").body);
}

#[test]
fn law_the_blank_card_has_a_box_for_every_spot() {
    let bench = Bench::start();
    let job = bench.ready();
    let card = bench.get(&format!("{job}/blank")).body;
    check(&card);
    for blade in ["A", "B"] {
        let boxes = format!("<td data-head=\"Blade {blade}\"></td>");
        assert_eq!(card.matches(&boxes).count(), 4, "{card}");
    }
    let measure = bench.get(&format!("{job}/measure")).body;
    assert!(measure.contains(&format!("href=\"{job}/blank\"")));
}
