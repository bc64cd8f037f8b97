//! Joints by taps and by keys.

use thirtyfour::prelude::*;

use super::walk;

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_joints_by_taps_and_by_keys() {
    walk(820, 1180, async |desk| {
        desk.browser
            .find(By::PartialLinkText("Torque and seal"))
            .await?
            .click()
            .await?;
        desk.sees("#answer h2", "1 of 4 joints torqued and marked.")
            .await?;
        desk.sees(".question", "Bearing cover to stator. Pass 3 of 3 at 8.0")
            .await?;
        desk.press("Number 2 done").await?;
        desk.press_when(".question", "now number 4", "All 4 torqued")
            .await?;
        desk.press_when(".question", "are all 4 marked?", "All 4 marked")
            .await?;
        desk.sees("#answer h2", "2 of 4 joints torqued and marked.")
            .await?;
        // The rest by keys alone: a says all, u takes back.
        desk.sees(".question", "Pump to hull plate. Are all 6 screws in")
            .await?;
        desk.keys("a").await?;
        desk.sees(".question", "Pass 1 of 3 at 13.0").await?;
        desk.keys("u").await?;
        // n goes a screw on, p the whole pass.
        for (asked, key) in [
            ("Are all 6 screws in", "a"),
            ("now number 1, that is screw 1", "n"),
            ("now number 2, that is screw 4", "p"),
            ("Pass 2 of 3 at 26.0", "p"),
            ("once round the circle: now number 1", "n"),
            ("now number 3, that is screw 2", "a"),
            ("are all 6 marked?", "a"),
        ] {
            desk.sees(".question", asked).await?;
            desk.keys(key).await?;
        }
        for asked in [
            "Are all 3 screws in",
            "then the turn one by one",
            "are all 3 marked?",
        ] {
            desk.sees(".question", asked).await?;
            desk.keys("a").await?;
        }
        desk.sees("#answer h2", "Every joint is torqued and marked.")
            .await?;
        Ok(())
    })
    .await;
}
