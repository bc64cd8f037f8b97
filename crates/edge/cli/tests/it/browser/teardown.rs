//! The parts looked over by taps.

use super::walk;

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
