//! Several devices on one job, and a bench that is away for a while.

use std::path::Path;
use std::time::Duration;

use serde_json::json;
use store::Store;
use thirtyfour::prelude::*;
use workshop::entry::{Body, Entry, JobId};

use super::desk::Desk;
use super::hand::{Hand, Worker};
use super::{Walked, walk};

const MEASURE: &str = "/job/patrol-craft/measure";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_reading_in_one_window_shows_in_the_other() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        let first = desk.browser.window().await?;
        let second = desk.browser.new_window().await?;
        desk.browser.switch_to_window(second).await?;
        desk.browser.goto(format!("{}{MEASURE}", desk.base)).await?;
        desk.press_when(".question", "Blade C at 7:30", "Goes free")
            .await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.browser.switch_to_window(first).await?;
        desk.sees(".question", "Blade C at 9").await?;
        // The own act of this device is no news.
        assert!(desk.browser.find(By::Id("news")).await.is_err());
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_what_another_device_did_shows_by_itself() {
    walk(390, 844, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        let form = "id=phone-1&spot=C+7:30&reading=14-15";
        desk.other_sends("phone", "/job/patrol-craft/act/reading", form);
        desk.sees("#news", "Phone: reading at C 7:30, just now")
            .await?;
        desk.sees(".question", "Blade C at 9").await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_nothing_moves_under_who_types() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.fill("reading", "14-1").await?;
        let worker = Worker {
            desk,
            hand: Hand::Taps,
        };
        for (n, spot) in ["C+9", "C+10:30"].iter().enumerate() {
            let form = format!("id=phone-{n}&spot={spot}&reading=14-15");
            desk.other_sends("phone", "/job/patrol-craft/act/reading", &form);
        }
        desk.sees("#news", "2 new acts by other devices.").await?;
        desk.sees("#news", "Phone: reading at C 10:30, just now")
            .await?;
        worker.holds("//*[@id='reading']", "14-1").await?;
        desk.sees(".stages", "21 of 24 spots done").await?;
        desk.tap(By::Css("#news button")).await?;
        desk.sees(".stages", "23 of 24 spots done").await?;
        worker.holds("//*[@id='reading']", "14-1").await?;
        worker.gone("//*[@id='news']").await?;
        // Typed on, and sent.
        desk.keys("5").await?;
        desk.keys(Key::Enter).await?;
        desk.sees(".stages", "24 of 24 spots done").await
    })
    .await;
}

/// News of others is long in coming.
const SLOW_NEWS: &str = "const asked = window.fetch; window.fetch = async (where, how) => { \
    const came = await asked(where, how); \
    if (String(where).includes('/since/')) await new Promise((done) => setTimeout(done, 1500)); return came; }; ";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_an_act_while_the_news_is_fetched_is_told_too() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.browser.execute(SLOW_NEWS, vec![]).await?;
        desk.fill("reading", "14-1").await?;
        let path = "/job/patrol-craft/act/reading";
        desk.other_sends("phone", path, "id=phone-1&spot=C+9&reading=14-15");
        tokio::time::sleep(Duration::from_millis(500)).await;
        desk.other_sends("phone", path, "id=phone-2&spot=C+10:30&reading=14-15");
        desk.sees("#news", "2 new acts by other devices.").await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_one_spot_read_on_two_devices_unseen_is_told() {
    walk(390, 844, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        let seen = "return document.querySelector('main').dataset.position";
        let seen: String = desk.browser.execute(seen, vec![]).await?.convert()?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.sees(".question", "Blade C at 9").await?;
        // The phone was shown the same question, and answers it late.
        let form = format!("id=phone-1&act_seen={seen}&spot=C+7:30&reading=13-14");
        desk.other_sends("phone", "/job/patrol-craft/act/reading", &form);
        desk.sees(".crossed", "Said without seeing each other")
            .await?;
        desk.sees(".crossed", "Phone: reading at C 7:30, 13 goes")
            .await?;
        desk.sees(".crossed", "The later one counts.").await?;
        desk.tap(By::Css(".crossed a")).await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.sees(".question", "Blade C at 9").await?;
        assert!(desk.browser.find(By::Css(".crossed")).await.is_err());
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_typed_text_outlives_a_reload() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.fill("reading", "14-15").await?;
        desk.browser.refresh().await?;
        let worker = Worker {
            desk,
            hand: Hand::Taps,
        };
        desk.sees(".question", "Blade C at 7:30").await?;
        worker.holds("//*[@id='reading']", "14-15").await?;
        desk.press("Keep").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.browser.refresh().await?;
        desk.sees(".question", "Blade C at 9").await?;
        worker.holds("//*[@id='reading']", "").await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_acts_wait_while_the_bench_is_away() {
    walk(1280, 900, away).await;
}

async fn away(desk: &Desk) -> Walked {
    let before = entries(desk).await.len();
    desk.sees(".question", "Blade C at 7:30").await?;
    let measure = desk.browser.window().await?;
    let teardown = desk.browser.new_window().await?;
    desk.browser.switch_to_window(teardown.clone()).await?;
    let page = format!("{}/job/patrol-craft/teardown", desk.base);
    desk.browser.goto(&page).await?;
    desk.cut();

    desk.browser.switch_to_window(measure.clone()).await?;
    desk.fill("reading", "14-15").await?;
    desk.keys(Key::Enter).await?;
    desk.sees(
        "#saved",
        "1 act waits on this device: the bench does not answer. It is sent when it does.",
    )
    .await?;
    // The field is ready for a correction, which waits behind it.
    desk.fill("reading", "13-14").await?;
    desk.keys(Key::Enter).await?;
    desk.sees("#saved", "2 acts wait on this device").await?;

    desk.browser.switch_to_window(teardown).await?;
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/tests/fixtures/upright.jpg");
    let file = file.canonicalize().unwrap().display().to_string();
    desk.tap(By::Css(".card + .photos summary")).await?;
    let camera = desk.browser.find(By::Css(".card + .photos input[capture]"));
    camera.await?.send_keys(file).await?;
    desk.sees("#saved", "3 acts wait on this device").await?;
    // The page is lost, what waits is not.
    let _ = desk.browser.refresh().await;

    tokio::time::sleep(Duration::from_secs(3)).await;
    desk.start_again();
    desk.browser.goto(&page).await?;
    desk.sees("#saved", "Saved").await?;
    desk.browser.switch_to_window(measure).await?;
    desk.sees("#saved", "Saved").await?;
    desk.sees(".question", "Blade C at 9").await?;

    let all = entries(desk).await;
    let new = &all[before..];
    let kinds: Vec<&str> = new.iter().map(kind).collect();
    assert_eq!(kinds, ["14-15", "13-14", "photo"], "each once, in order");
    for entry in new {
        let waited = entry
            .recorded_at
            .duration_since(entry.new.happened_at.timestamp());
        let waited = waited.as_secs_f64();
        assert!((2.5..120.0).contains(&waited), "{waited} s");
    }
    let times: Vec<_> = new
        .iter()
        .map(|entry| entry.new.happened_at.timestamp())
        .collect();
    assert!(times.is_sorted(), "{times:?}");
    Ok(())
}

/// The device itself is off the network: the bench never fails, and hears nothing.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_acts_wait_while_the_device_is_off_the_network() {
    walk(1280, 900, async |desk| {
        let before = entries(desk).await.len();
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.cdp("Network.enable", json!({})).await?;
        let network = |off: bool| json!({"offline": off, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1});
        let conditions = "Network.emulateNetworkConditions";
        desk.cdp(conditions, network(true)).await?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.sees("#saved", "1 act waits on this device").await?;
        assert_eq!(entries(desk).await.len(), before);
        desk.cdp(conditions, network(false)).await?;
        desk.sees("#saved", "Saved").await?;
        desk.sees(".question", "Blade C at 9").await?;
        let all = entries(desk).await;
        let kinds: Vec<&str> = all[before..].iter().map(kind).collect();
        assert_eq!(kinds, ["14-15"]);
        Ok(())
    })
    .await;
}

/// A browser whose disk never answers still sends, and takes the next answer as soon as its question is there.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_disk_that_never_answers_holds_nothing_up() {
    walk(1280, 900, async |desk| {
        desk.before_each_page("indexedDB.open = () => ({})").await?;
        desk.browser.refresh().await?;
        let open = "return Object.keys(indexedDB.open()).length";
        let answered: u64 = desk.browser.execute(open, vec![]).await?.convert()?;
        assert_eq!(answered, 0);
        for (question, reading) in [
            ("Blade C at 7:30", "14-15"),
            ("Blade C at 9", "13-14"),
            ("Blade C at 10:30", "14-15"),
        ] {
            desk.sees(".question", question).await?;
            desk.fill("reading", reading).await?;
            desk.keys(Key::Enter).await?;
        }
        desk.sees("#answer", "24 of 24").await
    })
    .await;
}

/// Every answer of the disk comes later than anybody waits for it.
const SLOW: &str = "Object.defineProperty(IDBTransaction.prototype, 'oncomplete', \
    { set(act) { this.addEventListener('complete', () => setTimeout(act, 2500)); } })";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_slow_disk_loses_nothing() {
    walk(1280, 900, async |desk| {
        let before = entries(desk).await.len();
        desk.before_each_page(SLOW).await?;
        desk.browser.refresh().await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.cut();
        desk.fill("reading", "13-14").await?;
        desk.keys(Key::Enter).await?;
        desk.sees("#saved", "1 act waits on this device").await?;
        // Time for the disk, then the page is lost: only the disk knows.
        tokio::time::sleep(Duration::from_secs(6)).await;
        desk.browser.goto("about:blank").await?;
        desk.start_again();
        assert_eq!(entries(desk).await.len(), before + 1);
        desk.browser.goto(format!("{}{MEASURE}", desk.base)).await?;
        desk.sees(".question", "Blade C at 10:30").await?;
        let all = entries(desk).await;
        let kinds: Vec<&str> = all[before..].iter().map(kind).collect();
        assert_eq!(kinds, ["14-15", "13-14"], "each once, in order");
        Ok(())
    })
    .await;
}

/// Whatever is sent takes a while.
const LONG: &str = "const sent = window.fetch; window.fetch = async (where, how) => { \
    if (how?.method === 'POST') await new Promise((on) => setTimeout(on, 2500)); return sent(where, how); }";

async fn slowly(desk: &Desk) -> Walked {
    desk.before_each_page(LONG).await?;
    desk.browser.refresh().await
}

/// A second photo is taken while the first is on its way, and then the page is loaded anew.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_one_photo_after_another_is_kept() {
    walk(390, 844, async |desk| {
        let before = entries(desk).await.len();
        let page = format!("{}/job/patrol-craft/teardown", desk.base);
        desk.browser.goto(&page).await?;
        slowly(desk).await?;
        desk.tap(By::Css(".card + .photos summary")).await?;
        for file in [
            "crates/edge/web/tests/fixtures/upright.jpg",
            "docs/images/measure.png",
        ] {
            let file = Path::new(env!("CARGO_MANIFEST_DIR"))
                .join("../../..")
                .join(file);
            let file = file.canonicalize().unwrap().display().to_string();
            let camera = desk.browser.find(By::Css(".card + .photos input[capture]"));
            camera.await?.send_keys(file).await?;
            desk.sees("#saved", "Sending").await?;
        }
        desk.browser.refresh().await?;
        desk.sees("#saved", "Sending").await?;
        desk.sees("#saved", "Saved").await?;
        let all = entries(desk).await;
        let kinds: Vec<&str> = all[before..].iter().map(kind).collect();
        assert_eq!(kinds, ["photo", "photo"]);
        assert_ne!(all[before].new.body, all[before + 1].new.body);
        Ok(())
    })
    .await;
}

/// What is changed in a form while it is on its way is neither lost nor taken for what was sent.
#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_change_while_it_is_sent_is_kept() {
    walk(1280, 900, async |desk| {
        slowly(desk).await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.fill("reading", "14-15").await?;
        desk.keys(Key::Enter).await?;
        desk.keys(Key::Backspace).await?;
        desk.keys("6").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.sees("#lost", "without a place on this page now: 14-16")
            .await
    })
    .await;
}

fn kind(entry: &Entry) -> &'static str {
    match &entry.new.body {
        Body::LeavesTried { tries, .. } if tries[1].leaf.text.starts_with("15") => "14-15",
        Body::LeavesTried { .. } => "13-14",
        Body::Photographed(_) => "photo",
        _ => "other",
    }
}

async fn entries(desk: &Desk) -> Vec<Entry> {
    let store = Store::open(&desk.store()).await.unwrap();
    let job = JobId::new("patrol-craft").unwrap();
    let entries = store.entries(&job).await.unwrap();
    store.close().await;
    entries
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_what_waited_and_is_refused_is_shown_with_what_was_typed() {
    walk(1280, 900, async |desk| {
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.cut();
        desk.fill("reading", "13 mm").await?;
        desk.keys(Key::Enter).await?;
        desk.sees("#saved", "1 act waits on this device").await?;
        desk.start_again();
        desk.sees(".next .refusal", "outside 0.01").await?;
        let worker = Worker {
            desk,
            hand: Hand::Taps,
        };
        worker.holds("//*[@id='reading']", "13 mm").await?;
        let focus = "return document.activeElement.id || document.activeElement.outerHTML";
        let focus: String = desk.browser.execute(focus, vec![]).await?.convert()?;
        assert_eq!(focus, "reading");
        desk.keys(Key::End + Key::Backspace).await?;
        worker.holds("//*[@id='reading']", "13 m").await?;
        desk.keys("m").await?;
        desk.browser.refresh().await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        worker.holds("//*[@id='reading']", "13 mm").await
    })
    .await;
}
