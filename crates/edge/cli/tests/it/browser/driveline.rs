//! The driveline by keys alone.

use thirtyfour::prelude::*;

use super::walk;

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_bar_that_slides_by_keys() {
    walk(820, 1180, async |desk| {
        let page = format!(
            "{}/job/patrol-craft/measure",
            desk.base.trim_end_matches('/')
        );
        desk.browser.goto(page).await?;
        // The sheet is a fold: the focus is put on it, all else is typed.
        let focus = "const form = document.querySelector('form[action$=\"/act/align-slides\"]'); \
                     const fold = form.closest('details').querySelector('summary'); \
                     fold.scrollIntoView(); fold.focus();";
        desk.browser.execute(focus, Vec::new()).await?;
        desk.keys(Key::Enter).await?;
        // Four choices begin with the same words: slides in freely.
        for _ in 0..4 {
            desk.keys(Key::Tab).await?;
            desk.keys("it s").await?;
        }
        desk.keys(Key::Tab).await?;
        desk.keys("9-3").await?;
        desk.keys(Key::Enter).await?;
        desk.sees(".evidence", "Driveline in line").await?;
        desk.sees(".evidence", "Nothing to move.").await
    })
    .await;
}
