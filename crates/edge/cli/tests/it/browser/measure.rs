//! Readings by finger, by caliper and by pedal.

use thirtyfour::prelude::*;

use super::hand::{Hand, Worker};
use super::walk;

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_enter_undo_reload_and_print() {
    walk(1280, 900, async |desk| {
        desk.sees("#answer h2", "Too wide at 4:30 and 6.").await?;
        desk.sees(".question", "Blade C at 7:30. Does the 15")
            .await?;
        desk.press("Goes free").await?;
        desk.sees(".question", "Blade C at 9. Does the 15").await?;
        desk.press("Drags").await?;
        desk.press_when(".question", "Blade C at 10:30", "Won’t go")
            .await?;
        desk.sees(".question", "Blade C at 7:30. Does the 16")
            .await?;
        desk.press("Won’t go").await?;
        desk.press_when(".question", "Blade C at 10:30. Does the 14", "Goes free")
            .await?;
        desk.sees(".question", "Every spot is read. Take this result?")
            .await?;
        desk.sees(".stages", "24 of 24 spots done").await?;

        desk.press("Undo").await?;
        desk.sees(".stages", "23 of 24 spots done").await?;
        desk.press("Redo").await?;
        desk.sees(".stages", "24 of 24 spots done").await?;
        desk.browser.refresh().await?;
        desk.sees(".stages", "24 of 24 spots done").await?;
        desk.press("Take it").await?;
        desk.sees(".question", "This result is taken.").await?;

        desk.tap(By::LinkText("All jobs")).await?;
        desk.sees("#answer h2", "1 job on the bench.").await?;
        desk.browser
            .goto(format!("{}/job/patrol-craft/record", desk.base))
            .await?;
        desk.sees("body", "Told then").await?;
        let paper = desk.paper().await;
        for words in [
            "Patrol craft 3",
            "Too wide at 4:30 and 6.",
            "Every leaf tried",
            "C 10:30",
            "out of tolerance",
            "UP",
            "10:30",
        ] {
            assert!(paper.contains(words), "the paper lacks “{words}”:\n{paper}");
        }
        for furniture in ["Undo", "Goes free\n", "All jobs", "Who is working"] {
            assert!(!paper.contains(furniture), "the paper has “{furniture}”");
        }
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_the_verdict_turns_when_the_ring_is_measured_anew() {
    walk(1280, 900, async |desk| {
        // Every scored spot written anew as sound, the unread ones filled in: out becomes in.
        for spot in ["A3", "B3", "C3", "A4", "B4", "C4", "C5", "C6", "C7"] {
            desk.browser
                .goto(format!("{}/job/patrol-craft/measure?at={spot}", desk.base))
                .await?;
            desk.browser
                .find(By::Id("reading"))
                .await?
                .send_keys("14-15")
                .await?;
            desk.press("Keep").await?;
            desk.sees("#saved", "Saved").await?;
        }
        desk.sees("#answer h2", "In tolerance all round.").await?;
        let hand = Hand::Taps;
        for _ in 0..4 {
            Worker { desk, hand }.answer("Undo").await?;
        }
        desk.sees("#answer h2", "Too wide at").await?;
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_caliper_and_a_pedal_walk_the_grid() {
    walk(1280, 900, async |desk| {
        // A pedal presses a key while nothing is typed.
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.keys("d").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.keys("u").await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        // A caliper types a burst and Enter, wherever the focus is.
        for (spot, burst) in [("7:30", "15.5"), ("9", "0,38 mm"), ("10:30", "13-15 thou")] {
            desk.sees(".question", &format!("Blade C at {spot}"))
                .await?;
            desk.browser
                .execute("document.activeElement.blur()", vec![])
                .await?;
            desk.keys(burst).await?;
            desk.keys(Key::Enter).await?;
        }
        desk.sees(".question", "Blade C at 10:30. Does the 14")
            .await?;
        desk.sees(".grid", "15.5").await?;
        // What cannot be is refused in place, and stays as typed.
        let field = desk.browser.find(By::Id("reading")).await?;
        field.send_keys("13 mm").await?;
        field.send_keys(Key::Enter).await?;
        desk.sees(".next .refusal", "outside 0.01").await?;
        let typed = desk
            .browser
            .find(By::Id("reading"))
            .await?
            .prop("value")
            .await?;
        assert_eq!(typed.as_deref(), Some("13 mm"));
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_page_turner_answers_and_the_question_is_spoken() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        // Until it is asked for, the keys that turn pages turn pages.
        desk.keys(Key::PageDown).await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.keys(Key::Home).await?;
        let heard = "scrollTo({ top: 0, behavior: 'instant' }); speechSynthesis.speak = (said) => document.body.dataset.said = said.text;";
        desk.browser.execute(heard, vec![]).await?;
        desk.tap(By::Css(".who summary")).await?;
        for setting in ["aloud", "turner"] {
            let button = By::Css(format!("[data-setting={setting}]"));
            desk.tap(button).await?;
        }
        let said = "return document.body.dataset.said";
        let said = desk
            .browser
            .execute(said, vec![])
            .await?
            .convert::<String>()?;
        assert!(said.contains("Blade C at 7:30. Does the 15"), "{said}");
        desk.keys(Key::PageDown).await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.keys(Key::PageUp).await?;
        desk.sees(".question", "Blade C at 10:30").await?;
        // The device remembers.
        desk.browser.refresh().await?;
        desk.keys(Key::PageDown).await?;
        desk.sees(".question", "leaf go?").await?;
        // Forward went free, back did not go.
        for said in ["≥", "<"] {
            desk.sees(".grid", said).await?;
        }
        Ok(())
    })
    .await;
}
