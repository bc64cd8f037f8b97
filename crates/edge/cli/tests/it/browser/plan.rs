//! A plan by taps.

use super::desk::Desk;
use super::walk;

/// A step begun and done by one tap each, one left off, and a working time that counts down on
/// every page.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_plan_by_taps() {
    walk(390, 844, async |desk| {
        let page = |step: &str| format!("{}/assemble?step={step}", job(desk));
        let open = async |step: &str| desk.browser.goto(page(step)).await;
        open("impeller").await?;
        desk.sees("#answer h2", "May not float yet: 2 of 17 steps are done.")
            .await?;
        desk.press("Begin").await?;
        desk.sees(".question", "Is it done?").await?;
        desk.press("Done").await?;
        desk.sees("#answer h2", "3 of 17").await?;
        for (step, done) in [("ring-in", 4), ("gap-check", 5), ("degrease", 6)] {
            open(step).await?;
            desk.press("Done before").await?;
            desk.sees("#answer h2", &format!("{done} of 17")).await?;
        }
        open("spread").await?;
        desk.sees(".question", "its gate is closed").await?;
        let go_ahead = "const form = document.querySelector('form[action$=\"/act/go-ahead\"]'); \
                        form.reason.value = 'measured with the ring in'; form.requestSubmit();";
        desk.browser.execute(go_ahead, Vec::new()).await?;
        desk.sees(".card.plain", "measured with the ring in")
            .await?;
        open("spread").await?;
        desk.press("Done").await?;
        desk.sees(".clock time", "left").await?;
        desk.browser.goto(format!("{}/measure", job(desk))).await?;
        desk.sees(".clock", "Spread the sealant: “Close the joint")
            .await?;
        desk.sees(".clock time", "14:5").await
    })
    .await;
}

/// The address of the example job.
fn job(desk: &Desk) -> String {
    format!("{}/job/patrol-craft", desk.base.trim_end_matches('/'))
}
