//! The water test: logs read, runs mended, figures typed, a result taken, and what is refused.

use std::path::{Path, PathBuf};

use serde_json::json;
use thirtyfour::prelude::*;

use super::desk::{Desk, fresh};
use super::hand::{Hand, Worker};
use super::pages::fits;
use super::{Walked, walk};

/// The invented logs that come with the program.
fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("example")
        .join(name)
}

/// One of them in a folder, with a speed that says no unit.
fn without_unit(folder: &Path, name: &str) -> PathBuf {
    let text = std::fs::read_to_string(example(name)).unwrap();
    assert!(text.contains(",speed mph,"));
    let file = folder.join(name);
    std::fs::write(&file, text.replace(",speed mph,", ",speed,")).unwrap();
    file
}

/// Begins a job of nothing and opens its Water test page.
async fn begin(at: &Worker<'_>) -> Walked {
    at.desk.browser.goto(format!("{}/", at.desk.base)).await?;
    at.write("//*[@id='open-title']", "Rescue sled 4: on the water")
        .await?;
    at.act("//form[.//*[@id='open-title']]//button").await?;
    at.desk.sees("h1", "Rescue sled 4").await?;
    at.stage("Water test").await
}

/// Says what a time on the water was, in the form that is open.
async fn describe(at: &Worker<'_>, name: &str) -> Walked {
    at.write("//*[@id='outing-name']", name).await?;
    at.choose("//*[@id='outing-unit']", "mph").await?;
    at.write("//*[@id='outing-note']", "2 riders 160 kg, half a tank")
        .await?;
    at.act("//form[.//*[@id='outing-name']]//button").await?;
    let log = format!("//*[@id='log-{}-log']", name.to_lowercase());
    at.there(&log).await
}

/// Chooses a file in the browser's own field and sends it.
async fn read(at: &Worker<'_>, outing: &str, file: &Path) -> Walked {
    choose_file(at, outing, file).await?;
    at.act(&format!("{}//button[@class='main']", log_form(outing)))
        .await
}

/// The form that reads a log into an outing.
fn log_form(outing: &str) -> String {
    format!("//form[.//input[@type='file'] and .//input[@name='outing' and @value='{outing}']]")
}

async fn choose_file(at: &Worker<'_>, outing: &str, file: &Path) -> Walked {
    let field = format!("{}//input[@type='file']", log_form(outing));
    at.there(&field).await?;
    if let Hand::Keys = at.hand {
        at.reach(&field).await?;
    }
    // The window in which a file is chosen belongs to the system; what it gives comes in here.
    fresh(async || {
        let field = at.desk.browser.find(By::XPath(&field)).await?;
        field.send_keys(file.display().to_string()).await
    })
    .await
}

/// Unfolds the first of what lies behind a heading, unless it is unfolded.
async fn unfold(at: &Worker<'_>, heading: &str) -> Walked {
    let fold = format!("//details[summary[normalize-space(.)='{heading}']]");
    at.there(&fold).await?;
    let open = fresh(async || {
        let fold = at.desk.browser.find(By::XPath(&fold)).await?;
        fold.prop("open").await
    });
    if open.await?.as_deref() != Some("true") {
        at.act(&format!("({fold}/summary)[1]")).await?;
    }
    Ok(())
}

/// Both outings with their logs.
async fn both_logs(at: &Worker<'_>) -> Walked {
    at.desk.sees("#answer h2", "Nothing run yet.").await?;
    describe(at, "Before").await?;
    read(at, "before", &example("before.csv")).await?;
    at.desk
        .sees("#answer h2", "Before the rebuild: 48.")
        .await?;
    unfold(at, "Describe a time on the water").await?;
    describe(at, "After").await?;
    read(at, "after", &example("after.csv")).await?;
    at.desk.sees("#answer h2", "Faster by").await
}

/// The result taken, and told on the Build sheet.
async fn take(at: &Worker<'_>) -> Walked {
    at.desk.sees(".question", "Take this as the result").await?;
    let told = at.desk.text("#answer h2").await?;
    at.answer("Take it").await?;
    at.desk.sees(".question", "This result is taken.").await?;
    at.stage("Build sheet").await?;
    at.desk.sees("main", "Told then").await?;
    at.desk.sees("main", &told).await?;
    at.desk.sees("main", "the same").await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_test_by_taps() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        both_logs(&at).await?;
        mend(&at).await?;
        put_away(&at).await?;
        take(&at).await?;
        at.stage("Water test").await?;
        unfold_all(desk).await?;
        fits(desk, "the page with two logs").await
    })
    .await;
}

async fn unfold_all(desk: &Desk) -> Walked {
    let all = "document.querySelectorAll('details').forEach(d => d.open = true)";
    desk.browser.execute(all, vec![]).await.map(drop)
}

/// A run left out, added by hand, and found again.
async fn mend(at: &Worker<'_>) -> Walked {
    let runs = "//section[h3='Runs of after.csv']";
    at.there(runs).await?;
    at.desk.sees("main", "Found by the program.").await?;
    unfold(at, "Mend the runs by hand").await?;
    let leave = "(//button[starts-with(normalize-space(.), 'Leave out')])[1]";
    at.there(leave).await?;
    let words = at.desk.browser.find(By::XPath(leave)).await?.text().await?;
    let window = words.trim_start_matches("Leave out ");
    let (from, until) = window.split_once(" to ").unwrap();
    at.act(leave).await?;
    at.desk.sees("main", "These runs are set by hand.").await?;
    at.desk.sees("#answer h2", "Faster by").await?;
    at.gone(&format!("//button[.='{words}']")).await?;
    unfold(at, "Mend the runs by hand").await?;
    let form = "(//form[.//input[@name='until']])[1]";
    // What is none is refused beside what was typed.
    at.write(
        &format!("{form}//input[@name='from' and @type='text']"),
        "soon",
    )
    .await?;
    at.act(&format!("{form}//button")).await?;
    at.desk.sees(".refusal", "such as 1:02.5").await?;
    let field = "//input[@name='from' and @value='soon']";
    at.desk
        .browser
        .find(By::XPath(field))
        .await?
        .clear()
        .await?;
    at.write(field, from).await?;
    at.write(&format!("{form}//input[@name='until']"), until)
        .await?;
    at.act(&format!("{form}//button")).await?;
    at.there(&format!("//button[.='{words}']")).await?;
    unfold(at, "Mend the runs by hand").await?;
    at.act("(//button[.='Back to the runs that were found'])[1]")
        .await?;
    at.gone("//button[.='Back to the runs that were found']")
        .await
}

/// The log of the second day put away, and brought back.
async fn put_away(at: &Worker<'_>) -> Walked {
    let told = at.desk.text("#answer h2").await?;
    unfold(at, "Mend the runs by hand").await?;
    at.act("(//button[.='Put this log away'])[1]").await?;
    at.desk.sees("#answer h2", "Before the rebuild").await?;
    at.answer("Undo").await?;
    at.desk.sees("#answer h2", &told).await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_test_by_keys() {
    walk(1280, 900, async |desk| {
        let hand = Hand::Keys;
        let at = Worker { desk, hand };
        begin(&at).await?;
        both_logs(&at).await?;
        // A letter undoes where a form is asked for, too.
        at.answer("Undo").await?;
        at.desk.sees("#answer h2", "Before the rebuild").await?;
        at.answer("Redo").await?;
        at.desk.sees("#answer h2", "Faster by").await?;
        take(&at).await
    })
    .await;
}

/// The form that takes figures of an outing.
fn figure_form(outing: &str) -> String {
    format!("//form[.//input[@name='value'] and .//input[@name='outing' and @value='{outing}']]")
}

/// Types in one figure.
async fn figure(at: &Worker<'_>, outing: &str, value: &str, choices: &[(&str, &str)]) -> Walked {
    let form = figure_form(outing);
    let button = format!("{form}//button[@class='main']");
    let fold = format!("{form}/ancestor::details");
    at.there(&form).await?;
    let open = fresh(async || {
        let fold = at.desk.browser.find(By::XPath(&fold)).await?;
        fold.prop("open").await
    });
    if open.await?.as_deref() != Some("true") {
        at.act(&format!("{fold}/summary")).await?;
    }
    for (name, words) in choices {
        at.choose(&format!("{form}//select[@name='{name}']"), words)
            .await?;
    }
    at.write(&format!("{form}//input[@name='value']"), value)
        .await?;
    at.act(&button).await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_test_without_a_log() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        for (name, outing, speeds, rpm, start) in [
            (
                "Before",
                "before",
                ["47.6", "49.2", "47.8", "49.3"],
                "7740",
                "3.4",
            ),
            (
                "After",
                "after",
                ["52.4", "51.1", "52.6", "51.0"],
                "7610",
                "2.9",
            ),
        ] {
            if name == "After" {
                unfold(&at, "Describe a time on the water").await?;
            }
            describe(&at, name).await?;
            for (speed, way) in speeds.iter().zip(["out", "back", "out", "back"]) {
                let way = format!("on the way {way}");
                figure(&at, outing, speed, &[("way", &way)]).await?;
                at.desk
                    .sees("main", &format!("top speed {way} {speed} mph"))
                    .await?;
            }
            let what = ("what", "engine speed, full throttle");
            figure(&at, outing, rpm, &[what]).await?;
            at.desk.sees("main", &format!("engine speed {rpm}")).await?;
            let what = ("what", "time from rest to a speed");
            let read = ("read", "from a video, frame by frame");
            figure(&at, outing, start, &[what, read]).await?;
            at.desk
                .sees("main", &format!("from rest to 30 mph in {start}"))
                .await?;
        }
        desk.sees("#answer h2", "Faster by").await?;
        desk.sees("#answer .detail", "From rest to 30").await?;
        desk.sees("main", "7740").await?;
        let away = "//button[starts-with(., 'Take away: from rest to 30 mph in 2.9')]";
        unfold(&at, "Read off without a log").await?;
        at.act(away).await?;
        at.gone(away).await?;
        assert!(!desk.text("#answer .detail").await?.contains("From rest"));
        // A speed that no craft has is refused, and stays where it was typed.
        figure(&at, "after", "900", &[]).await?;
        desk.sees(".refusal", "900").await?;
        at.there("//input[@name='value' and @value='900']").await?;
        take(&at).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_log_without_a_unit() {
    let folder = tempfile::tempdir().unwrap();
    let before = without_unit(folder.path(), "before.csv");
    let after = without_unit(folder.path(), "after.csv");
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        describe(&at, "Before").await?;
        read(&at, "before", &before).await?;
        desk.sees(".refusal", "say which unit the speed is in")
            .await?;
        let form = log_form("before");
        let select = |name: &str| format!("{form}//select[@name='{name}']");
        for (name, guessed) in [
            ("time", "1"),
            ("time_form", "seconds"),
            ("speed", "2"),
            ("course", "3"),
            ("engine", "4"),
        ] {
            at.holds(&select(name), guessed).await?;
        }
        fits(desk, "the page that asks about a table").await?;
        // Answered in part: asked again, with the answer.
        at.choose(&select("engine"), "none").await?;
        // The same words come again: what stands there now is not them.
        let old = "document.querySelectorAll('.refusal').forEach(p => p.dataset.old = 'yes')";
        desk.browser.execute(old, vec![]).await?;
        read(&at, "before", &before).await?;
        desk.sees(".refusal:not([data-old])", "say which unit the speed is in")
            .await?;
        at.holds(&select("engine"), "").await?;
        at.holds(&select("course"), "3").await?;
        // Sent without a file: nothing that was answered is lost.
        at.choose(&select("speed_unit"), "mph").await?;
        at.act(&format!("{form}//button[@class='main']")).await?;
        desk.sees(".refusal", "No log was chosen").await?;
        at.holds(&select("speed_unit"), "mph").await?;
        at.holds(&select("engine"), "").await?;
        read(&at, "before", &before).await?;
        desk.sees("#answer h2", "Before the rebuild: 48.").await?;
        unfold(&at, "Describe a time on the water").await?;
        describe(&at, "After").await?;
        read(&at, "after", &after).await?;
        desk.sees("#answer h2", "Faster by").await?;
        // The engine’s column was said to be none, for this log as for the one before.
        assert!(!desk.text("main").await?.contains("rpm"));
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_before_it_may_float() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        desk.browser
            .goto(format!("{}/job/patrol-craft/water", desk.base))
            .await?;
        desk.sees(".question", "may not go on the water yet")
            .await?;
        unfold(&at, "Describe a time on the water").await?;
        at.write("//*[@id='outing-name']", "After, home lake")
            .await?;
        at.choose("//*[@id='outing-side']", "after the rebuild")
            .await?;
        at.write("//*[@id='outing-wind']", "3").await?;
        at.act("//form[.//*[@id='outing-name']]//button").await?;
        desk.sees(".field .refusal", "may not go on the water yet")
            .await?;
        for (field, typed) in [("name", "After, home lake"), ("wind", "3")] {
            at.there(&format!("//*[@id='outing-{field}' and @value='{typed}']"))
                .await?;
        }
        at.holds("//*[@id='outing-side']", "after").await?;
        // What was run before the pump was opened is taken all the same.
        at.choose("//*[@id='outing-side']", "before the pump was opened")
            .await?;
        at.act("//form[.//*[@id='outing-name']]//button").await?;
        at.there(&log_form("after-home-lake")).await?;
        at.act("//section[contains(@class, 'links')]//a[span='The test card']")
            .await?;
        desk.sees("#answer h2", "It may not go on the water yet.")
            .await?;
        desk.sees("main", "2 Afloat: not yet").await?;
        assert!(!desk.text("main").await?.contains("3 Full throttle"));
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_test_without_script() {
    walk(820, 1180, async |desk| {
        let off = json!({"value": true});
        desk.cdp("Emulation.setScriptExecutionDisabled", off)
            .await?;
        plain(desk).await
    })
    .await;
}

/// By forms and links alone; every address is a whole page.
async fn plain(desk: &Desk) -> Walked {
    desk.browser.goto(&desk.base).await?;
    desk.fill("open-title", "Rescue sled 4: on the water")
        .await?;
    desk.press("Begin").await?;
    desk.sees("h1", "Rescue sled 4").await?;
    desk.tap(By::XPath("//nav[@class='stages']/a[span='Water test']"))
        .await?;
    desk.sees("#answer h2", "Nothing run yet.").await?;
    desk.fill("outing-name", "Before").await?;
    desk.choose("outing-unit", "mph").await?;
    desk.press("Keep it").await?;
    desk.sees("#next h3", "Read a log").await?;
    desk.press("Read it").await?;
    desk.sees(".refusal", "No log was chosen").await?;
    let file = example("before.csv").display().to_string();
    desk.fill("log-before-log", &file).await?;
    desk.press("Read it").await?;
    desk.sees("#answer h2", "Before the rebuild: 48.").await?;
    desk.press("Undo").await?;
    desk.sees("#answer h2", "No full-throttle run yet.").await?;
    desk.press("Redo").await?;
    desk.sees("#answer h2", "Before the rebuild: 48.").await
}
