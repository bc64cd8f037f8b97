//! A photo through the browser's own picker: sent, seen, said of, undone.

use std::path::Path;

use thirtyfour::prelude::*;

use super::desk::Desk;
use super::{Walked, walk};

/// What the small picture of the first strip with one is: loaded, and how wide and high.
const SEEN: &str = "const img = document.querySelector('.photos img, figure.photo img'); \
    if (img) img.loading = 'eager'; \
    return img && img.complete ? [img.naturalWidth, img.naturalHeight] : [0, 0];";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_photo_on_a_desk() {
    walk(1280, 900, photographed).await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_photo_on_a_phone() {
    walk(390, 844, photographed).await;
}

async fn photographed(desk: &Desk) -> Walked {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/tests/fixtures/upright.jpg");
    let file = file.canonicalize().unwrap().display().to_string();
    desk.browser
        .goto(&format!("{}/job/patrol-craft/teardown", desk.base))
        .await?;
    let strip = desk.browser.find(By::Css(".card + .photos")).await?;
    press(&strip.find(By::Css("summary")).await?).await?;
    let button = strip.find(By::Css("label.main")).await?;
    let size = button.rect().await?;
    assert!(size.width >= 64.0 && size.height >= 64.0, "{size:?}");
    let words = strip.find(By::Css("input[name=words]")).await?;
    words.send_keys("Blade A, from behind").await?;
    // What is no photo is refused beside the words.
    let no_photo = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    let camera = strip.find(By::Css("input[capture]")).await?;
    camera.send_keys(no_photo.display().to_string()).await?;
    desk.sees(".photos .refusal", "Cargo.toml: This is no photo")
        .await?;
    let words = desk
        .browser
        .find(By::Css(".photos input[name=words]"))
        .await?;
    assert_eq!(
        words.prop("value").await?.as_deref(),
        Some("Blade A, from behind")
    );
    // The very same form, with a photo.
    let camera = desk.browser.find(By::Css(".photos input[capture]")).await?;
    camera.send_keys(&file).await?;
    desk.sees(".photos figcaption", "Blade A, from behind")
        .await?;
    // Held upright, it is shown upright.
    loads(desk, (240, 320)).await?;

    press(&desk.browser.find(By::Css(".photos li a")).await?).await?;
    desk.sees("#answer", "Blade A, from behind").await?;
    loads(desk, (480, 640)).await?;
    let words = desk
        .browser
        .find(By::Css("form[action$=caption] textarea"))
        .await?;
    words.clear().await?;
    words.send_keys("Nick, 3 mm from the tip").await?;
    let keep = desk
        .browser
        .find(By::Css("form[action$=caption] button"))
        .await?;
    press(&keep).await?;
    desk.sees("#answer", "Nick, 3 mm from the tip").await?;
    desk.press("Undo").await?;
    desk.sees("#answer", "Blade A, from behind").await?;
    desk.press("Take it away").await?;
    desk.sees("#answer", "is not in this job").await?;
    desk.press("Undo").await?;
    desk.sees("#answer", "Blade A, from behind").await?;
    desk.press("Undo").await?;
    desk.sees("#answer", "is not in this job").await?;
    desk.browser
        .goto(&format!("{}/job/patrol-craft/teardown", desk.base))
        .await?;
    assert!(desk.browser.find(By::Css(".photos img")).await.is_err());
    Ok(())
}

/// Presses what may lie under the bar of the next step.
async fn press(element: &WebElement) -> Walked {
    element.scroll_into_view().await?;
    element.click().await
}

async fn loads(desk: &Desk, wanted: (u64, u64)) -> Walked {
    let mut seen = (0, 0);
    for _ in 0..200 {
        seen = desk.browser.execute(SEEN, vec![]).await?.convert()?;
        if seen == wanted {
            return Ok(());
        }
        tokio::time::sleep(std::time::Duration::from_millis(30)).await;
    }
    Err(WebDriverError::FatalError(format!(
        "a picture of {seen:?}, not {wanted:?}"
    )))
}
