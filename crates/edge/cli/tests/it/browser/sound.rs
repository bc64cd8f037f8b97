//! A working time that runs short is heard, and seen where nothing can be heard.

use std::time::Duration;

use thirtyfour::prelude::*;

use super::desk::Desk;
use super::hand::{Hand, Worker};
use super::{Walked, walk};

/// Listens to what the page sends to the loudspeaker, and lets its clock be put forward.
const LISTEN: &str = "window.heard = {tones: 0, loudest: 0, context: null, forward: 0}; \
    const connect = AudioNode.prototype.connect, start = OscillatorNode.prototype.start, now = Date.now; \
    OscillatorNode.prototype.start = function (...at) { heard.tones += 1; return start.apply(this, at); }; \
    AudioNode.prototype.connect = function (to, ...more) { \
        if (to === this.context.destination) { \
            const ear = this.context.createAnalyser(), wave = new Float32Array(ear.fftSize); \
            heard.context = this.context; \
            connect.call(this, ear); \
            setInterval(() => { \
                ear.getFloatTimeDomainData(wave); \
                heard.loudest = Math.max(heard.loudest, ...wave.map(Math.abs)); \
            }, 20); \
        } \
        return connect.call(this, to, ...more); \
    }; \
    Date.now = () => now() + heard.forward;";

/// Puts the clock of the page forward until so many seconds are left.
const FORWARD: &str = "const time = document.querySelector('.clock time'); \
    heard.forward += Date.parse(time.dateTime) - Date.now() - 1000 * arguments[0];";

/// How many tones were asked for, how loud it was, and the sound's own clock while it runs.
const HEARD: &str = "const {tones, loudest, context} = heard; \
    return [tones, loudest, context?.state === 'running' ? context.currentTime : 0];";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_working_time_is_heard_after_taps() {
    heard_after(Hand::Taps).await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_working_time_is_heard_after_keys() {
    heard_after(Hand::Keys).await;
}

/// One tone at five minutes, two at one, five at the end, and on a page that was opened meanwhile too.
async fn heard_after(hand: Hand) {
    walk(1280, 900, async |desk| {
        let at = Worker { desk, hand };
        spread(&at).await?;
        desk.browser.execute(LISTEN, vec![]).await?;
        forward(desk, 310.0, "05:").await?;
        hears(desk, 0).await?;
        forward(desk, 299.5, "05:00 left").await?;
        hears(desk, 1).await?;
        at.stage("Measure").await?;
        desk.browser.execute(LISTEN, vec![]).await?;
        forward(desk, 59.5, "01:00 left").await?;
        hears(desk, 2).await?;
        forward(desk, 0.0, "run out 00:0").await?;
        hears(desk, 2 + 5).await
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_working_time_is_seen_without_sound() {
    walk(390, 844, async |desk| {
        desk.before_each_page("delete window.AudioContext").await?;
        desk.browser.refresh().await?;
        let hand = Hand::Taps;
        spread(&Worker { desk, hand }).await?;
        desk.browser.execute(LISTEN, vec![]).await?;
        forward(desk, 299.5, "05:00 left").await?;
        forward(desk, 59.5, "01:00 left").await?;
        forward(desk, 0.0, "run out 00:0").await?;
        desk.sees(".clock.over", "run out").await
    })
    .await;
}

/// The shortest way to a running clock: the sealant is on.
async fn spread(at: &Worker<'_>) -> Walked {
    at.stage("Assemble").await?;
    at.point("Degrease the flange").await?;
    at.answer("Done before").await?;
    at.point("Spread the sealant").await?;
    at.go_ahead("spread", "an invented reason").await?;
    at.desk.sees("main", "an invented reason").await?;
    at.point("Spread the sealant").await?;
    at.answer("Done").await?;
    at.desk.sees(".clock time", "14:5").await
}

async fn forward(desk: &Desk, left: f64, words: &str) -> Walked {
    desk.browser.execute(FORWARD, vec![left.into()]).await?;
    desk.sees(".clock time", words).await
}

/// Waits until so many tones were asked for; then they must be loud, and time must pass for them.
async fn hears(desk: &Desk, wanted: u32) -> Walked {
    let ask = async || -> WebDriverResult<(u32, f64, f64)> {
        desk.browser.execute(HEARD, vec![]).await?.convert()
    };
    // Longer than the page takes to look at its clock again, and than five tones sound.
    tokio::time::sleep(Duration::from_secs(3)).await;
    let before = ask().await?;
    tokio::time::sleep(Duration::from_millis(100)).await;
    let (tones, loudest, time) = ask().await?;
    if tones == wanted && (wanted == 0 || loudest > 0.1 && time > before.2) {
        return Ok(());
    }
    let why = format!(
        "{tones} tones of {wanted}, loudest {loudest}, clock {} to {time}",
        before.2
    );
    Err(WebDriverError::FatalError(why))
}
