//! What was found put on record, and the parts looked over.

use thirtyfour::prelude::*;

use super::hand::{Hand, Worker};
use super::{Walked, walk};

/// The example is not fit to go back until someone says what became of what is scrapped or sent out.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_teardown_by_taps() {
    walk(390, 844, async |desk| {
        let page = format!(
            "{}/job/patrol-craft/teardown",
            desk.base.trim_end_matches('/')
        );
        desk.browser.goto(page).await?;
        desk.sees("#answer h2", "Two things are not fit to go back")
            .await?;
        let settle = |key: &str, how: &str| {
            format!(
                "const form = [...document.querySelectorAll('form[action$=\"/act/settle\"]')] \
                 .find(form => form.finding.value === '{key}'); \
                 form.how.value = '{how}'; form.requestSubmit();"
            )
        };
        let send = async |script: String| desk.browser.execute(script, Vec::new()).await;
        send(settle("vane-5", "repaired")).await?;
        desk.sees("#answer h2", "One thing is not fit to go back")
            .await?;
        send(settle("ring-scored", "accepted")).await?;
        desk.sees(".refusal", "must be filled in").await?;
        send(settle("ring-scored", "replaced")).await?;
        desk.sees("#answer h2", "once one thing is dressed").await?;
        send(settle("blade-edges", "repaired")).await?;
        desk.sees("#answer h2", "Everything inspected may go back.")
            .await?;
        desk.press("Undo").await?;
        desk.sees("#answer h2", "once one thing is dressed").await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_as_found_and_a_snapped_bolt_by_taps() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        as_found(&Worker { desk, hand }).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_as_found_and_a_snapped_bolt_by_keys() {
    walk(1280, 900, async |desk| {
        let hand = Hand::Keys;
        as_found(&Worker { desk, hand }).await
    })
    .await;
}

/// A new job: everything as found, one thing at a time, then a bolt that snapped, and its end.
async fn as_found(at: &Worker<'_>) -> Walked {
    let desk = at.desk;
    desk.browser.goto(format!("{}/", desk.base)).await?;
    let begin = "const form = document.querySelector('form[action$=\"/act/open\"]'); \
        form.title.value = 'Invented craft'; form.requestSubmit();";
    desk.browser.execute(begin, Vec::new()).await?;
    desk.sees("h1", "Invented craft").await?;
    at.stage("Teardown").await?;
    desk.sees("#answer h2", "0 of 6 things as found").await?;
    let next = |id: &str| format!("//section[@id='next']//input[@id='{id}']");
    let sheet = |field: &str| format!("//*[@id='as-found-hose-{field}']");
    desk.sees(".question", "the gap").await?;
    at.write(&next("gap"), "0.33-0.46").await?;
    desk.keys(Key::Enter).await?;
    desk.sees(".question", "witness marks").await?;
    at.answer("All in line").await?;
    desk.sees(".question", "mounts").await?;
    at.answer("None on this craft").await?;
    desk.sees(".question", "hose").await?;
    for (field, text) in [("at", "1"), ("from", "pump"), ("to", "exhaust")] {
        at.write(&sheet(field), text).await?;
    }
    at.act(&format!("{}/ancestor::form//button", sheet("at")))
        .await?;
    desk.sees(".question", "steering cable").await?;
    at.write(&next("threads"), "7").await?;
    desk.keys(Key::Enter).await?;
    desk.sees(".question", "wear ring").await?;
    at.write(&next("clock"), "4:30").await?;
    desk.keys(Key::Enter).await?;
    desk.sees("#answer h2", "it may be taken apart").await?;
    snapped(at).await
}

async fn snapped(at: &Worker<'_>) -> Walked {
    let desk = at.desk;
    at.act("//summary[starts-with(., 'Note a finding')]")
        .await?;
    let field = |name: &str| format!("//*[@id='finding-{name}']");
    at.choose(&field("area"), "bolts and studs").await?;
    at.choose(&field("flaw"), "snapped off").await?;
    at.write(&field("which"), "upper left").await?;
    at.choose(&field("todo"), "repair at the bench").await?;
    at.act(&format!("{}/ancestor::form//button", field("area")))
        .await?;
    desk.sees("#answer h2", "One thing is not fit to go back")
        .await?;
    desk.sees("main", "Screw extractor").await?;
    at.act("//summary[starts-with(., 'It is dealt')]").await?;
    let settle = "//*[@id='settle-bolts-upper-left-snapped-how']";
    at.choose(settle, "replaced").await?;
    at.act(&format!("{settle}/ancestor::form//button")).await?;
    desk.sees("#answer h2", "Everything inspected may go back.")
        .await
}
