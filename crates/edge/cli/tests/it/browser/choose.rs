//! Choosing: the craft described, an option told, taken, and what is refused.

use serde_json::json;
use thirtyfour::prelude::*;

use super::hand::{Hand, Worker};
use super::pages::fits;
use super::{Walked, walk};

/// Begins a job of nothing and opens its Choose page.
async fn begin(at: &Worker<'_>) -> Walked {
    at.desk.browser.goto(format!("{}/", at.desk.base)).await?;
    at.write("//*[@id='open-title']", "Rescue sled 4: another impeller")
        .await?;
    at.act("//form[.//*[@id='open-title']]//button").await?;
    at.desk.sees("h1", "Rescue sled 4").await?;
    at.stage("Choose").await?;
    at.desk
        .sees("#answer h2", "The craft is not described yet.")
        .await
}

/// The craft as it was run; edges swapped first, which is refused with all that was typed in place.
async fn describe(at: &Worker<'_>) -> Walked {
    let typed = [
        ("power", "110 kW"),
        ("rated", "7700"),
        ("limiter", "8000 rpm"),
        ("leading", "18.5"),
        ("trailing", "13.5"),
        ("impeller", "155 mm"),
        ("nozzle", "85"),
    ];
    for (field, text) in typed {
        at.write(&format!("//*[@id='craft-{field}']"), text).await?;
    }
    at.choose("//*[@id='craft-angles']", "measured on this impeller")
        .await?;
    let keep = "//form[.//*[@id='craft-power']]//button[@class='main']";
    at.act(keep).await?;
    at.desk
        .sees(".refusal", "flatter than the leading edge")
        .await?;
    for (field, text) in typed {
        at.there(&format!("//*[@id='craft-{field}' and @value='{text}']"))
            .await?;
    }
    at.holds("//*[@id='craft-angles']", "measured").await?;
    for (field, text) in [("leading", "13.5"), ("trailing", "18.5")] {
        let field = format!("//*[@id='craft-{field}']");
        at.desk
            .browser
            .find(By::XPath(&field))
            .await?
            .clear()
            .await?;
        at.write(&field, text).await?;
    }
    at.act(keep).await?;
    at.desk
        .sees("#answer h2", "Nothing to choose from yet.")
        .await
}

/// A new ring, the option that is better in every belief.
async fn option(at: &Worker<'_>) -> Walked {
    at.write("//*[@id='option-name']", "New ring").await?;
    at.write("//*[@id='option-gap']", "0.1 mm").await?;
    at.act("//form[.//*[@id='option-name']]//button[@class='main']")
        .await?;
    at.desk.sees("#answer h2", "Fit “New ring”").await?;
    at.desk
        .sees("main", "cannot say without a logged start")
        .await?;
    at.desk
        .sees("main", "assumed, until somebody says it")
        .await
}

/// From what is assumed to the field that says it is one tap.
async fn replace(at: &Worker<'_>) -> Walked {
    at.act("//a[@href='#craft-mass']").await?;
    let field = at.desk.browser.active_element().await?;
    assert_eq!(field.id().await?.as_deref(), Some("craft-mass"));
    field.send_keys("310 kg").await?;
    at.act("//form[.//*[@id='craft-power']]//button[@class='main']")
        .await?;
    at.desk.sees("main", "310 kg").await?;
    at.gone("//a[@href='#craft-mass']").await
}

/// A slider moved: what comes of it is told beside it, and nothing goes on record.
async fn slide(at: &Worker<'_>) -> Walked {
    let slider = "//section[@class='try']//input[@name='nozzle']";
    at.there(slider).await?;
    at.desk.sees(".try .told", "Move a slider.").await?;
    let slider = at.desk.browser.find(By::XPath(slider)).await?;
    for _ in 0..4 {
        slider.send_keys(Key::Right + "").await?;
    }
    at.desk.sees(".try output[data-unit$=mm]", "mm").await?;
    at.desk.sees(".try .told", "Engine, full throttle").await?;
    at.desk.sees(".try .told", "Top speed").await
}

/// The same without a script, by the button.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_sliders_without_script() {
    walk(820, 1180, async |desk| {
        let off = json!({"value": true});
        desk.cdp("Emulation.setScriptExecutionDisabled", off)
            .await?;
        let page = "/job/patrol-craft/choose?nozzle=86";
        desk.browser.goto(format!("{}{page}", desk.base)).await?;
        desk.sees(".try .told", "Engine, full throttle").await?;
        let show = By::XPath("//section[@class='try']//button[.='Show']");
        desk.browser
            .find(show)
            .await?
            .send_keys(Key::Enter + "")
            .await?;
        desk.sees(".try .told", "Engine, full throttle").await
    })
    .await;
}

/// Taken, and told on the Build sheet.
async fn take(at: &Worker<'_>) -> Walked {
    let told = at.desk.text("#answer h2").await?;
    at.answer("This one is fitted").await?;
    at.desk
        .sees(".question", "This option is on record as fitted.")
        .await?;
    at.stage("Build sheet").await?;
    at.desk.sees("main", "Chosen").await?;
    at.desk.sees("main", &told).await?;
    at.stage("Measuring record").await
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_choosing_by_taps() {
    walk(390, 844, async |desk| {
        let hand = Hand::Taps;
        let at = Worker { desk, hand };
        begin(&at).await?;
        describe(&at).await?;
        option(&at).await?;
        replace(&at).await?;
        let all = "document.querySelectorAll('details').forEach(d => d.open = true)";
        desk.browser.execute(all, vec![]).await?;
        fits(desk, "the page with an option").await?;
        take(&at).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_choosing_by_keys() {
    walk(1280, 900, async |desk| {
        let hand = Hand::Keys;
        let at = Worker { desk, hand };
        begin(&at).await?;
        describe(&at).await?;
        option(&at).await?;
        slide(&at).await?;
        at.answer("Undo").await?;
        at.desk
            .sees("#answer h2", "Nothing to choose from yet.")
            .await?;
        at.answer("Redo").await?;
        at.desk.sees("#answer h2", "Fit “New ring”").await?;
        replace(&at).await?;
        take(&at).await
    })
    .await;
}
