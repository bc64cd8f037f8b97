//! Service: nine points of the recheck, the job closed, a part with a piece, a rule, a task done.

use thirtyfour::prelude::*;

use super::hand::{Hand, Worker};
use super::pages::fits;
use super::{Walked, walk};

/// Begins a job of nothing and opens its page Service.
async fn begin(at: &Worker<'_>) -> Walked {
    at.desk.browser.goto(format!("{}/", at.desk.base)).await?;
    at.write("//*[@id='open-title']", "Rescue sled 6: new wear ring")
        .await?;
    at.act("//form[.//*[@id='open-title']]//button").await?;
    at.desk.sees("h1", "Rescue sled 6").await?;
    at.stage("Service").await?;
    at.desk
        .sees("#answer h2", "9 points, none looked at yet")
        .await?;
    at.desk
        .sees(".stages [aria-current]", "nothing told yet")
        .await
}

/// The points in the order they are asked.
const POINTS: [&str; 9] = [
    "Cone",
    "Paint marks",
    "Bolts of the ride plate",
    "Bolts of the grate",
    "Gap by leaf",
    "Shaft by hand",
    "Lubricant of the housing",
    "Hose ends",
    "Bilge",
];

/// Nine points, one of them amiss at first; then the job is closed.
async fn recheck(at: &Worker<'_>) -> Walked {
    for point in POINTS {
        at.desk.sees(".step h3", point).await?;
        at.desk
            .sees(".step", "battery off before a hand is in the pump")
            .await?;
        let answer = if point == "Hose ends" {
            "Amiss"
        } else {
            "As it should be"
        };
        at.answer(answer).await?;
    }
    at.desk.sees("#answer h2", "amiss at hose ends").await?;
    at.desk
        .sees(".step", "Cut back or renew the end, clamp it")
        .await?;
    at.gone("//section[@id='next']//button[starts-with(., 'Close the job')]")
        .await?;
    at.answer("As it should be").await?;
    at.desk.sees("#answer h2", "the job can be closed").await?;
    at.answer("Close the job").await?;
    at.desk.sees("main", "job closed on").await?;
    at.gone("//section[@id='next']//button[starts-with(., 'Close the job')]")
        .await
}

/// Unfolds a form, unless it is open.
async fn unfold(at: &Worker<'_>, heading: &str) -> Walked {
    let folded = format!("//details[not(@open)]/summary[starts-with(., '{heading}')]");
    if at.desk.browser.find(By::XPath(&folded)).await.is_ok() {
        at.act(&folded).await?;
    }
    Ok(())
}

/// Sends the form of a field.
async fn keep(at: &Worker<'_>, field: &str) -> Walked {
    at.act(&format!(
        "//form[.//*[@id='{field}']]//button[@class='main']"
    ))
    .await
}

/// How it is used, a sort of ring, and the one that is fitted.
async fn parts(at: &Worker<'_>) -> Walked {
    unfold(at, "How the craft is used").await?;
    for (field, text) in [("week", "6"), ("season", "50"), ("failure", "150")] {
        at.write(&format!("//*[@id='usage-{field}']"), text).await?;
    }
    keep(at, "usage-week").await?;
    at.there("//summary[.='Change how the craft is used']")
        .await?;
    // What comes next is open by itself.
    at.there("//section[@id='next']//*[@id='meter-hours']")
        .await?;
    unfold(at, "Describe a sort of part").await?;
    for (field, text) in [("name", "Plastic ring"), ("tenth", "60"), ("half", "110")] {
        at.write(&format!("//*[@id='sort-{field}']"), text).await?;
    }
    keep(at, "sort-name").await?;
    at.there("//section[contains(@class, 'card')]/h3[contains(., 'Plastic ring')]")
        .await?;
    // What is missing is said, where it is said.
    at.desk.sees("main", "Missing: its price").await?;
    unfold(at, "Tell of a piece of it").await?;
    at.write("//*[@id='piece-plastic-ring-plastic-ring-fitted']", "28")
        .await?;
    keep(at, "piece-plastic-ring-plastic-ring-fitted").await?;
    at.desk.sees("main", "Fitted at 28").await
}

/// What the manual says of a task, the meter, and the task done.
async fn rules(at: &Worker<'_>) -> Walked {
    unfold(at, "Read the hour meter").await?;
    at.write("//*[@id='meter-hours']", "41").await?;
    keep(at, "meter-hours").await?;
    at.desk.sees("#answer", "41").await?;
    unfold(at, "What the manual says").await?;
    at.choose(
        "//*[@id='task-rule-list-task']",
        "Steering, gate and trim cables",
    )
    .await?;
    at.write("//*[@id='task-rule-list-hours']", "20").await?;
    at.write("//*[@id='task-rule-list-page']", "3-2").await?;
    keep(at, "task-rule-list-hours").await?;
    at.there("//summary[starts-with(., 'Change when it falls due: Steering')]")
        .await?;
    at.desk.sees("main", "the craft’s manual, p. 3-2").await?;
    unfold(at, "Say that a task was done").await?;
    at.choose(
        "//*[@id='task-done-list-task']",
        "Steering, gate and trim cables",
    )
    .await?;
    at.write("//*[@id='task-done-list-hours']", "41").await?;
    keep(at, "task-done-list-hours").await?;
    at.desk.sees("main", "last done").await
}

/// A strike comes before all, until it is looked into.
async fn strike(at: &Worker<'_>) -> Walked {
    unfold(at, "Something happened").await?;
    at.choose(
        "//*[@id='mishap-what']",
        "a hard strike: pump or hull hit something",
    )
    .await?;
    keep(at, "mishap-what").await?;
    at.desk.sees("#answer h2", "A hard strike on").await?;
    at.desk.sees(".step h3", "After a strike").await?;
    at.desk
        .sees(".step", "battery off before a hand is in the pump")
        .await?;
    at.answer("Done today").await?;
    at.gone("//section[@id='answer']//h2[starts-with(., 'A hard strike')]")
        .await
}

/// Told on the Build sheet and in the journal.
async fn told(at: &Worker<'_>) -> Walked {
    at.stage("Build sheet").await?;
    at.desk
        .sees(
            "main",
            "All nine points of the recheck were as they should be.",
        )
        .await?;
    at.desk.sees(".stages", "closed").await?;
    at.stage("Measuring record").await?;
    at.desk.sees("main", "recheck, Hose ends: amiss").await?;
    at.desk.sees("main", "hour meter: 41").await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_service_by_taps() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        let all = "document.querySelectorAll('details').forEach(d => d.open = true)";
        desk.browser.execute(all, vec![]).await?;
        fits(desk, "the page with nothing told").await?;
        recheck(&at).await?;
        parts(&at).await?;
        rules(&at).await?;
        desk.browser.execute(all, vec![]).await?;
        fits(desk, "the page with all of it told").await?;
        strike(&at).await?;
        fits(desk, "the page after a strike").await?;
        told(&at).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_service_by_keys() {
    walk(1280, 900, async |desk| {
        let hand = Hand::Keys;
        let at = Worker { desk, hand };
        begin(&at).await?;
        recheck(&at).await?;
        parts(&at).await?;
        rules(&at).await?;
        strike(&at).await?;
        told(&at).await
    })
    .await;
}
