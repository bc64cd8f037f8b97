//! What is wrong: signs told, the craft made safe, the intake looked at, a cause taken.

use thirtyfour::prelude::*;

use super::hand::{Hand, Worker};
use super::pages::fits;
use super::{Walked, walk};

/// What tells nobody where to reach before the craft can't start.
const HOW: &str = "along the whole length of the grate";

/// Begins a job of nothing and opens its page What is wrong.
async fn begin(at: &Worker<'_>) -> Walked {
    at.desk.browser.goto(format!("{}/", at.desk.base)).await?;
    at.write("//*[@id='open-title']", "Rescue sled 5: pulls badly")
        .await?;
    at.act("//form[.//*[@id='open-title']]//button").await?;
    at.desk.sees("h1", "Rescue sled 5").await?;
    at.stage("What is wrong").await?;
    at.desk.sees("#answer h2", "Can’t tell yet").await?;
    at.desk
        .sees(".stages [aria-current]", "nothing told yet")
        .await
}

/// Answers one of the questions.
async fn says(at: &Worker<'_>, sign: &str, answer: &str) -> Walked {
    let group = format!("//input[@type='radio'][@name='{sign}']");
    match at.hand {
        Hand::Taps => at.act(&format!("{group}[@value='{answer}']/..")).await,
        // Tab comes to what is chosen; from there the arrows go round.
        Hand::Keys => {
            at.reach(&format!("{group}[@value='']")).await?;
            let steps = if answer == "yes" { 1 } else { 2 };
            for _ in 0..steps {
                at.desk.keys(Key::Right + "").await?;
            }
            Ok(())
        }
    }
}

/// A blocked grate as one hears it.
async fn signs(at: &Worker<'_>) -> Walked {
    for (sign, answer) in [
        ("sudden", "yes"),
        ("clears", "yes"),
        ("roar", "yes"),
        ("hot", "no"),
        ("weak-outlet", "yes"),
    ] {
        says(at, sign, answer).await?;
    }
    at.act("//form[.//input[@type='radio']]//button[@class='main']")
        .await?;
    at.desk
        .sees("#answer h2", "Most likely the intake grate is blocked")
        .await?;
    at.desk.sees("main", "It is better after stopping").await?;
    // What was answered stands there still, and what nobody looked for stays so.
    for (sign, answer) in [("clears", "yes"), ("hot", "no"), ("milky-jet", "")] {
        let held = format!("//input[@name='{sign}'][@value='{answer}']");
        let held = at.desk.browser.find(By::XPath(&held)).await?;
        assert!(held.is_selected().await?, "{sign} is not “{answer}”");
    }
    Ok(())
}

/// Nothing is said of how to look up the intake, and nobody is asked what is there, before somebody says that
/// the craft can't start.
async fn safe(at: &Worker<'_>) -> Walked {
    let hidden = async || -> Walked {
        at.gone("//input[@name='check'][@value='intake']").await?;
        at.gone("//option[@value='intake']").await?;
        let main = at.desk.text("main").await?;
        assert!(!main.contains(HOW), "{main}");
        Ok(())
    };
    hidden().await?;
    at.desk
        .sees(".step", "First make sure it can’t start")
        .await?;
    at.answer("It can’t start").await?;
    at.desk.sees(".step h3", "Look up the intake.").await?;
    at.desk.sees(".step", HOW).await?;
    // And back: what was shown is gone.
    at.act("//section[contains(@class, 'step')]//button[.='It may start again']")
        .await?;
    at.desk
        .sees(".step", "First make sure it can’t start")
        .await?;
    hidden().await?;
    at.answer("It can’t start").await?;
    at.desk.sees(".step h3", "Look up the intake.").await
}

/// Something is there; undone and done again.
async fn intake(at: &Worker<'_>) -> Walked {
    at.answer("Something found").await?;
    at.desk.sees("main", "something found").await?;
    at.desk.sees("#answer h2", "9 in 10").await?;
    at.answer("Undo").await?;
    at.desk.sees(".step h3", "Look up the intake.").await?;
    at.answer("Redo").await?;
    at.desk.sees("#answer h2", "9 in 10").await?;
    at.there("//section[@id='next']//button[starts-with(., 'Take this as the cause')]")
        .await
}

/// A check that is not next, with a note.
async fn another(at: &Worker<'_>) -> Walked {
    let folded = "//details[not(@open)]/summary[.='Say what another check showed']";
    if at.desk.browser.find(By::XPath(folded)).await.is_ok() {
        at.act(folded).await?;
    }
    at.choose("//*[@id='checked-list-check']", "The cooling hoses")
        .await?;
    at.choose("//*[@id='checked-list-found']", "nothing found")
        .await?;
    at.write("//*[@id='checked-list-note']", "clear from end to end")
        .await?;
    at.act("//form[.//*[@id='checked-list-note']]//button[@class='main']")
        .await?;
    at.desk
        .sees("main", "nothing found: clear from end to end")
        .await
}

/// Taken, and told on the Build sheet and in the journal.
async fn take(at: &Worker<'_>) -> Walked {
    let told = at.desk.text("#answer h2").await?;
    at.answer("Take this as the cause").await?;
    at.desk
        .sees("#answer", "On record as the cause: a blocked grate.")
        .await?;
    at.gone("//section[@id='next']//button[starts-with(., 'Take this as the cause')]")
        .await?;
    at.stage("Build sheet").await?;
    at.desk.sees("main", "What was wrong").await?;
    at.desk.sees("main", &told).await?;
    at.desk.sees("main", "clear from end to end").await?;
    at.desk.sees(".stages", "cause taken").await?;
    at.stage("Measuring record").await?;
    at.desk.sees("main", "said: the craft can’t start").await?;
    at.desk.sees("main", "cause taken: a blocked grate").await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_what_is_wrong_by_taps() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        let all = "document.querySelectorAll('details').forEach(d => d.open = true)";
        desk.browser.execute(all, vec![]).await?;
        fits(desk, "the page with nothing told").await?;
        signs(&at).await?;
        safe(&at).await?;
        desk.browser.execute(all, vec![]).await?;
        fits(desk, "the page with a check to do").await?;
        intake(&at).await?;
        fits(desk, "the page with a check done").await?;
        another(&at).await?;
        take(&at).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_what_is_wrong_by_keys() {
    walk(1280, 900, async |desk| {
        let hand = Hand::Keys;
        let at = Worker { desk, hand };
        begin(&at).await?;
        signs(&at).await?;
        safe(&at).await?;
        intake(&at).await?;
        another(&at).await?;
        take(&at).await
    })
    .await;
}
