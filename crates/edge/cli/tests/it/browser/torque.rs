//! Joints by taps and by keys.

use thirtyfour::prelude::*;

use super::walk;

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_joints_by_taps_and_by_keys() {
    walk(820, 1180, async |desk| {
        desk.tap(By::PartialLinkText("Torque and seal")).await?;
        desk.sees("#answer h2", "1 of 4 joints torqued and marked.")
            .await?;
        desk.sees(".question", "Bearing cover to stator. Pass 3 of 3 at 71")
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
        desk.sees("#answer h2", "5 of 9 joints done.").await?;
        // What is no circle of screws: tick by tick, then what is measured is asked for.
        desk.press_when(
            ".question",
            "Impeller on its shaft. Tick each",
            "Tightened to the manual’s torque",
        )
        .await?;
        desk.sees(".evidence", "Impeller on its shaft 4 of 5 ticked")
            .await?;
        desk.keys("a").await?;
        desk.sees("#answer h2", "6 of 9 joints done.").await?;
        for ticked in ["1 of 4", "2 of 4", "3 of 4", "all 4"] {
            desk.sees(".question", "Drive shaft spline. Tick each")
                .await?;
            desk.keys("a").await?;
            desk.sees(".evidence", &format!("Drive shaft spline {ticked} ticked"))
                .await?;
        }
        desk.sees(".question", "Measure it, and write what you read.")
            .await?;
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_water_is_said_and_every_card_follows() {
    walk(390, 844, async |desk| {
        desk.tap(By::PartialLinkText("Torque and seal")).await?;
        desk.sees(
            "section.card.open .mind",
            "These must not meet: grease and polyurethane",
        )
        .await?;
        desk.sees("svg.strip", "film 5.1 to 8.1 mm").await?;
        // By keys: the bar at the foot of a phone lies over what is under it.
        let fold = By::XPath("//summary[contains(., 'The water, and the air')]");
        desk.browser.find(fold).await?.send_keys(Key::Enter).await?;
        let water = By::Css("form[action$='/around'] select[name=water]");
        desk.browser.find(water).await?.send_keys("fresh").await?;
        let keep = By::Css("form[action$='/around'] button");
        desk.browser.find(keep).await?.send_keys(Key::Enter).await?;
        desk.sees(".evidence .table .caption", "In fresh water.")
            .await?;
        Ok(())
    })
    .await;
}
