//! The account, one thing at a time, by taps and by keys.

use super::hand::{Hand, Worker};
use super::walk;

/// A plug is in its place, a hose is left out for a ready-made reason, and the text is written later.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_account_by_taps_and_by_keys() {
    for hand in [Hand::Taps, Hand::Keys] {
        walk(390, 844, async |desk| {
            let worker = Worker { desk, hand };
            let job = format!("{}/job/patrol-craft/audit", desk.base.trim_end_matches('/'));
            desk.browser.goto(&job).await?;
            desk.sees("#answer h2", "things are open").await?;
            desk.sees(".question", "Stern drain plug").await?;
            worker.answer("All 2 in place").await?;
            desk.sees(".links", "all 2 in its place").await?;
            desk.sees(".question", "Cooling water hose").await?;
            worker.answer("Part on order").await?;
            desk.browser.goto(format!("{job}?item=water-hose")).await?;
            desk.sees("main", "write the text of the reason above")
                .await?;
            let write = "const form = document.querySelector('details[open] form.fields'); \
                         form.reason.value = 'due on Friday'; form.requestSubmit();";
            desk.browser.execute(write, Vec::new()).await?;
            desk.sees("main", "part on order: due on Friday").await?;
            desk.browser.goto(&job).await?;
            desk.sees("main", "part on order: due on Friday").await
        })
        .await;
    }
}
