//! The usual plan, laid by keys alone in a job that was just begun.

use super::hand::{Hand, Worker};
use super::walk;

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_usual_plan_is_laid_by_keys() {
    walk(390, 844, async |desk| {
        let at = Worker {
            desk,
            hand: Hand::Keys,
        };
        desk.browser.goto(format!("{}/", desk.base)).await?;
        at.write("//*[@id='open-title']", "Patrol craft 3: pump out")
            .await?;
        at.act("//form[.//*[@id='open-title']]//button").await?;
        desk.sees("h1", "Patrol craft 3").await?;
        at.stage("Assemble").await?;
        desk.sees("#answer h2", "No plan yet.").await?;
        at.choose("//*[@id='usual-ring']", "a new one is bonded in")
            .await?;
        at.act("//form[contains(@action, '/act/usual')]//button")
            .await?;
        desk.sees(".question", "Record it as found").await?;
        desk.sees("#answer .origin", "from no manual: assumed")
            .await
    })
    .await;
}
