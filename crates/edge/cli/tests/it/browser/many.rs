//! A job with two hundred photos: all there, looked at large, and back to the same place.

use thirtyfour::prelude::*;

use super::desk::Desk;
use super::{Walked, walk};

/// Draws and sends photos, twenty in a form as a person may choose them, none like another.
const SEND: &str = "const [done] = [arguments[arguments.length - 1]]; (async () => { \
    const of = ['job', 'finding blade-edges', 'finding vane-5', 'finding ring-scored', 'finding seal-grit']; \
    const canvas = new OffscreenCanvas(480, 360); const pen = canvas.getContext('2d'); \
    for (let n = 0; n < 200; n += 20) { const form = new FormData(); \
      form.append('id', `many-${n}`); form.append('subject', of[n / 20 % 5]); form.append('words', `Row ${n}`); \
      form.append('back', '/job/patrol-craft/record'); \
      for (let k = n; k < n + 20; k++) { \
        pen.fillStyle = `hsl(${k} 60% 50%)`; pen.fillRect(0, 0, 480, 360); \
        pen.fillStyle = '#fff'; pen.fillRect(k, k, 40, 40); \
        form.append('photo', await canvas.convertToBlob({ type: 'image/jpeg' }), `p${k}.jpg`); } \
      const sent = await fetch('/job/patrol-craft/act/photo', { method: 'POST', body: form }); \
      if (!sent.ok) return done(`${sent.status}`); } \
    done('sent'); })().catch((why) => done(String(why)));";

/// How many small pictures there are, how many lie in sight, and how many of those are loaded at their size.
const SEEN: &str = "const all = [...document.querySelectorAll('.photos img')]; \
    const sight = all.filter((one) => { const box = one.getBoundingClientRect(); \
      return box.height > 0 && box.bottom > 0 && box.top < innerHeight; }); \
    return [all.length, sight.length, sight.filter((one) => one.complete && one.naturalWidth === 320).length];";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_two_hundred_photos() {
    walk(820, 1180, looked_through).await;
}

async fn looked_through(desk: &Desk) -> Walked {
    desk.browser
        .set_script_timeout(std::time::Duration::from_mins(4))
        .await?;
    let sent = desk.browser.execute_async(SEND, vec![]).await?;
    assert_eq!(sent.json().as_str(), Some("sent"));
    for (page, all) in [("teardown", 160), ("record", 40)] {
        let address = format!("{}/job/patrol-craft/{page}", desk.base);
        desk.browser.goto(&address).await?;
        let photos = desk.browser.find_all(By::Css(".photos li a")).await?;
        assert_eq!(photos.len(), all, "{page}");
        // The page is as high before its pictures come as after: nothing jumps under the finger.
        let height = "return document.documentElement.scrollHeight";
        let before: f64 = desk.browser.execute(height, vec![]).await?.convert()?;
        for at in [0, all / 2, all - 1] {
            let centre = "arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})";
            desk.browser
                .execute(centre, vec![photos[at].to_json()?])
                .await?;
            loaded(desk, page).await?;
        }
        let after: f64 = desk.browser.execute(height, vec![]).await?.convert()?;
        assert!(
            (before - after).abs() < 1.0,
            "{page}: {before} and then {after} high"
        );
        let at = "return Math.round(scrollY)";
        let stood: i64 = desk.browser.execute(at, vec![]).await?.convert()?;
        assert!(stood > 0, "{page} was never scrolled");
        photos[all - 1].click().await?;
        desk.sees("#answer", "Row ").await?;
        desk.browser.back().await?;
        let mut back = -1;
        for _ in 0..100 {
            back = desk.browser.execute(at, vec![]).await?.convert()?;
            if (back - stood).abs() <= 2 {
                break;
            }
            tokio::time::sleep(std::time::Duration::from_millis(30)).await;
        }
        assert!(
            (back - stood).abs() <= 2,
            "{page}: came back to {back}, not {stood}"
        );
    }
    Ok(())
}

/// Waits until every small picture in sight is loaded.
async fn loaded(desk: &Desk, page: &str) -> Walked {
    let mut seen = (0_usize, 0_usize, 0_usize);
    for _ in 0..200 {
        seen = desk.browser.execute(SEEN, vec![]).await?.convert()?;
        if seen.1 > 0 && seen.1 == seen.2 {
            return Ok(());
        }
        tokio::time::sleep(std::time::Duration::from_millis(30)).await;
    }
    panic!("{page}: all, in sight, loaded: {seen:?}");
}
