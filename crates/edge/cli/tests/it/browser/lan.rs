//! A device of the network: let in by a number, on plain HTTP, where a browser keeps things from a page.
//!
//! The machine must have an address besides loopback; by that address it is a device like any other.

use thirtyfour::prelude::*;

use super::desk::Desk;
use super::pages::fits;
use super::walk_from_afar;

/// Keeps what a page throws, from its first line of script on.
const WATCH: &str = "window.thrown = [];\
    addEventListener('error', e => thrown.push(String(e.message)));\
    addEventListener('unhandledrejection', e => thrown.push(String(e.reason)))";

/// The first address for others, and the number.
fn told(said: &[String]) -> (&str, String) {
    let link = said.iter().find_map(|line| line.strip_prefix("  http://"));
    let line = said.last().unwrap();
    let (_, rest) = line.split_once("number ").unwrap();
    let digits = rest.chars().filter(char::is_ascii_digit).take(6).collect();
    (link.unwrap().trim_end_matches('/'), digits)
}

async fn pairs(desk: &Desk, said: &[String]) -> WebDriverResult<String> {
    let (host, digits) = told(said);
    let base = format!("http://{host}");
    desk.browser
        .goto(format!("{base}/pair?number={digits}"))
        .await?;
    desk.sees("h2", "This device is not paired yet.").await?;
    fits(desk, "/pair").await?;
    desk.fill("pair-name", "tablet at the press").await?;
    desk.press("Pair this device").await?;
    desk.sees("h2", "1 job on the bench.").await?;
    Ok(base)
}

/// What the page threw; an error where it is no insecure page, because then nothing is shown.
async fn thrown(desk: &Desk) -> WebDriverResult<Vec<String>> {
    let script = "return isSecureContext ? ['a secure context'] : window.thrown ?? ['not watched']";
    let thrown = desk.browser.execute(script, vec![]).await?;
    thrown.convert()
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_no_page_throws_on_plain_http() {
    walk_from_afar(390, 844, async |desk, said| {
        desk.before_each_page(WATCH).await?;
        let base = pairs(desk, said).await?;
        for page in [
            "/",
            "/devices",
            "/job/patrol-craft/teardown",
            "/job/patrol-craft/measure",
            "/job/patrol-craft/torque",
            "/job/patrol-craft/assemble",
            "/job/patrol-craft/audit",
            "/job/patrol-craft/plan",
            "/job/patrol-craft/blank",
            "/job/patrol-craft/record",
            "/job/patrol-craft/sheet",
            "/job/patrol-craft/choose",
            "/job/patrol-craft/wrong",
            "/job/patrol-craft/service",
            "/job/patrol-craft/water",
            "/job/patrol-craft/test-card",
        ] {
            desk.browser.goto(format!("{base}{page}")).await?;
            fits(desk, page).await?;
            assert_eq!(thrown(desk).await?, Vec::<String>::new(), "{page}");
        }
        // And where a hand works: an answer, its undoing, a setting.
        desk.browser
            .goto(format!("{base}/job/patrol-craft/measure"))
            .await?;
        desk.press("Won’t go").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.press("Undo").await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        assert_eq!(thrown(desk).await?, Vec::<String>::new());
        // The watch itself works.
        desk.browser
            .execute("setTimeout(() => { throw Error('seen') })", vec![])
            .await?;
        tokio::time::sleep(std::time::Duration::from_millis(200)).await;
        assert_eq!(thrown(desk).await?.len(), 1);
        Ok(())
    })
    .await;
}

/// A device that was removed while somebody typed on it: what was sent waits there, and it is told why.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_removed_device_keeps_what_was_typed() {
    walk_from_afar(390, 844, async |desk, said| {
        let base = pairs(desk, said).await?;
        let measure = format!("{base}/job/patrol-craft/measure");
        desk.browser.goto(&measure).await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        let tablet = desk.browser.window().await?;
        // At the bench itself, in a window of its own.
        let window = desk.browser.new_tab().await?;
        desk.browser.switch_to_window(window).await?;
        desk.browser.goto(format!("{}/devices", desk.base)).await?;
        desk.sees(".card", "tablet at the press").await?;
        desk.tap(By::XPath("//summary[.='Remove it']")).await?;
        desk.tap(By::Css("form[action='/act/remove-device'] button"))
            .await?;
        desk.sees("h2", "No other device is paired.").await?;
        desk.browser.switch_to_window(tablet).await?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.sees("#saved", "the bench does not let this device in")
            .await?;
        desk.browser.goto(&measure).await?;
        desk.sees("h2", "This device was removed from the bench.")
            .await
    })
    .await;
}
