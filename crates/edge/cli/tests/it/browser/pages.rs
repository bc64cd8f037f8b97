//! What holds of every page: it fits, works without script, keeps to itself.

use serde_json::json;
use thirtyfour::prelude::*;

use super::desk::Desk;
use super::{Walked, walk};

/// How wide the page is when its title is one long word.
const LONG_TITLE: &str = "document.querySelector('h1').append('W'.repeat(120));return document.documentElement.scrollWidth;";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_fits_a_phone_and_a_finger() {
    walk(390, 844, async |desk| {
        for page in [
            "/",
            "/job/patrol-craft/teardown",
            "/job/patrol-craft/measure",
            "/job/patrol-craft/torque",
            "/job/patrol-craft/assemble",
            "/job/patrol-craft/plan",
            "/job/patrol-craft/plan?step=spread",
            "/job/patrol-craft/blank",
            "/job/patrol-craft/record",
            "/job/patrol-craft/sheet",
            "/job/patrol-craft/choose",
            "/job/patrol-craft/wrong",
            "/job/patrol-craft/service",
            "/job/patrol-craft/water",
            "/job/patrol-craft/test-card",
        ] {
            desk.browser.goto(format!("{}{page}", desk.base)).await?;
            fits(desk, page).await?;
        }
        Ok(())
    })
    .await;
}

/// The page is no wider than the phone, and nothing on it is too small for a finger or beside the screen.
pub(super) async fn fits(desk: &Desk, page: &str) -> Walked {
    let wide = desk.browser.execute(LONG_TITLE, vec![]).await?;
    // Returned, not panicked: the walk then still closes the browser.
    if wide.convert::<u32>()? > 390 {
        let beyond = desk.browser.execute(BEYOND, vec![]).await?;
        let beyond = beyond.convert::<Vec<String>>()?;
        let why = format!("{page} is wider than the phone: {beyond:#?}");
        return Err(WebDriverError::FatalError(why));
    }
    for (what, script) in [("too small for a finger", SMALL), ("astray", ASTRAY)] {
        let found = desk.browser.execute(script, vec![]).await?;
        let found = found.convert::<Vec<String>>()?;
        if !found.is_empty() {
            let why = format!("{page}: {what}: {found:?}");
            return Err(WebDriverError::FatalError(why));
        }
    }
    Ok(())
}

/// What reaches beyond the screen and does not scroll by itself.
const BEYOND: &str = "return [...document.querySelectorAll('body *')]\
    .filter(e => e.getBoundingClientRect().right > 390 && !e.closest('.scroll > *, svg'))\
    .map(e => e.tagName + '.' + e.className + ' ' + e.textContent.slice(0, 60))";

/// Stages that are beside the screen, and dates and page numbers on two lines.
const ASTRAY: &str = "return [...document.querySelectorAll('.stages a,.whole')].map(e => [e, e.getBoundingClientRect()])\
    .filter(([e, r]) => r.left < 0 || r.right > innerWidth || e.matches('.whole') && e.getClientRects().length > 1)\
    .map(([e]) => e.textContent)";

/// Visible controls under 48 px either way, links in running text apart.
const SMALL: &str = "return [...document.querySelectorAll('button,select,summary,input:not([type=hidden]):not([type=checkbox]):not([type=radio]),.few label,.grid a,.stages a,.links a')]\
    .filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()])\
    .filter(([e, r]) => r.height < 48 || r.width < 44)\
    .map(([e, r]) => e.tagName + ' ' + e.textContent.slice(0, 20) + ' ' + r.width + 'x' + r.height)";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_works_without_script_and_keeps_to_itself() {
    walk(820, 1180, async |desk| {
        desk.cdp(
            "Emulation.setScriptExecutionDisabled",
            json!({"value": true}),
        )
        .await?;
        desk.browser.refresh().await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.press("Won’t go").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.press("Undo").await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.cdp(
            "Emulation.setScriptExecutionDisabled",
            json!({"value": false}),
        )
        .await?;
        desk.browser.refresh().await?;
        let loaded = "return performance.getEntriesByType('resource').map(e => e.name)";
        let loaded = desk
            .browser
            .execute(loaded, vec![])
            .await?
            .convert::<Vec<String>>()?;
        assert!(
            !loaded.is_empty() && loaded.iter().all(|name| name.starts_with(&desk.base)),
            "{loaded:?}"
        );
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_new_job_from_nothing() {
    walk(820, 1180, async |desk| {
        desk.browser.goto(&desk.base).await?;
        desk.fill("open-title", "Rescue sled 2: ring worn").await?;
        desk.press("Begin").await?;
        desk.sees("#answer h2", "First the pump.").await?;
        desk.fill("pump-blades", "3").await?;
        desk.fill("pump-bore", "25 N·m").await?;
        desk.choose("pump-rotation", "clockwise").await?;
        desk.press("Keep the pump").await?;
        desk.sees(".refusal", "torque").await?;
        assert_eq!(
            desk.browser
                .find(By::Id("pump-blades"))
                .await?
                .prop("value")
                .await?
                .as_deref(),
            Some("3")
        );
        let bore = desk.browser.find(By::Id("pump-bore")).await?;
        bore.clear().await?;
        bore.send_keys("6-1/8 in").await?;
        desk.press("Keep the pump").await?;
        desk.sees("#answer h2", "Now the leaves.").await?;
        desk.fill("leaves-thicknesses", "0,30 0,33 0,36 0,38 0,41 mm")
            .await?;
        desk.choose("leaves-unit", "mm").await?;
        desk.fill("leaves-width", "1/2 in").await?;
        desk.choose("leaves-lead", "along-shaft").await?;
        desk.choose("leaves-posture", "craft-upright").await?;
        desk.press("Keep the leaves").await?;
        desk.sees("#answer h2", "No leaf tried yet.").await?;
        desk.sees(".question", "Blade A at 12. Does the 0,36")
            .await?;
        desk.press("Goes free").await?;
        desk.sees("#answer .detail", "Every leaf tried so far goes.")
            .await?;
        desk.sees("#answer h2", "23 spots still to read").await?;
        Ok(())
    })
    .await;
}
