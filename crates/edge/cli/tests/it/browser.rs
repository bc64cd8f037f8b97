//! The bench in a real browser: by finger, by keyboard, by caliper, and on paper.
//! Each test has its own bench, driver and browser. A walk that fails still closes the browser.

mod plan;
mod teardown;
use std::io::{BufRead, BufReader};
use std::net::TcpListener;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::common::print::PrintParameters;
use thirtyfour::prelude::*;
use thirtyfour::{ChromeCapabilities, TypingData};

type Walked = Result<(), WebDriverError>;

/// A running bench on the example job, and a browser looking at it.
struct Desk {
    browser: WebDriver,
    base: String,
    folder: TempDir,
    bench: Child,
    driver: Child,
}

impl Drop for Desk {
    fn drop(&mut self) {
        for child in [&mut self.bench, &mut self.driver] {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

impl Desk {
    async fn open(width: u32, height: u32) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (bench, link) = bench(&folder);
        let (driver, port) = driver();
        let mut options = DesiredCapabilities::chrome();
        for flag in [
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            &format!("--window-size={width},{height}"),
            &format!(
                "--user-data-dir={}",
                folder.path().join("browser").display()
            ),
        ] {
            options.add_arg(flag).unwrap();
        }
        let browser = connect(&format!("http://127.0.0.1:{port}"), options).await;
        let metrics = json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500});
        let cdp = browser.cdp();
        cdp.send_raw("Emulation.setDeviceMetricsOverride", metrics)
            .await
            .unwrap();
        browser.goto(&link).await.unwrap();
        let base = link.split("/job/").next().unwrap().to_owned();
        Self {
            browser,
            base,
            folder,
            bench,
            driver,
        }
    }

    async fn text(&self, css: &str) -> WebDriverResult<String> {
        self.browser.find(By::Css(css)).await?.text().await
    }

    /// Waits until the text of an element holds the words.
    async fn sees(&self, css: &str, words: &str) -> Walked {
        let begun = Instant::now();
        loop {
            let text = self.text(css).await.unwrap_or_default();
            if text.contains(words) {
                return Ok(());
            }
            // Returned, not panicked: the walk then still closes the browser.
            if begun.elapsed() > Duration::from_secs(10) {
                let why = format!("{css} never said “{words}” but “{text}”");
                return Err(WebDriverError::FatalError(why));
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
    }

    async fn press(&self, label: &str) -> Walked {
        let xpath =
            format!("//section[@id='next']//button[starts-with(normalize-space(.), '{label}')]");
        self.browser.find(By::XPath(&xpath)).await?.click().await
    }

    async fn keys(&self, keys: impl Into<TypingData>) -> Walked {
        self.browser.action_chain().send_keys(keys).perform().await
    }

    async fn cdp(&self, command: &str, params: Value) -> Walked {
        self.browser.cdp().send_raw(command, params).await.map(drop)
    }

    /// The page as PDF, read back as text.
    async fn paper(&self) -> String {
        let bytes = self
            .browser
            .print_page(PrintParameters::default())
            .await
            .unwrap();
        let file = self.folder.path().join("record.pdf");
        std::fs::write(&file, bytes).unwrap();
        let text = Command::new("pdftotext")
            .args(["-layout".as_ref(), file.as_os_str(), "-".as_ref()])
            .output()
            .unwrap();
        assert!(text.status.success());
        String::from_utf8(text.stdout).unwrap()
    }
}

/// Starts the program on a fresh journal; gives the link it prints.
fn bench(folder: &TempDir) -> (Child, String) {
    let store = format!("sqlite:{}", folder.path().join("bench.sqlite").display());
    let mut bench = Command::new(env!("CARGO_BIN_EXE_pumpwright"))
        .args(["serve", "--no-open", "--port", "0", "--store", &store])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(bench.stdout.take().unwrap())
        .read_line(&mut line)
        .unwrap();
    let link = line.trim().rsplit(' ').next().unwrap().to_owned();
    (bench, link)
}

fn driver() -> (Child, u16) {
    let free = TcpListener::bind("127.0.0.1:0")
        .unwrap()
        .local_addr()
        .unwrap()
        .port();
    let driver = Command::new("chromedriver")
        .arg(format!("--port={free}"))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|why| {
            panic!("chromedriver does not start: {why}; cargo xtask setup brings it")
        });
    (driver, free)
}

async fn connect(url: &str, options: ChromeCapabilities) -> WebDriver {
    let begun = Instant::now();
    loop {
        match WebDriver::new(url, options.clone()).await {
            Ok(browser) => return browser,
            Err(why) => assert!(
                begun.elapsed() < Duration::from_secs(30),
                "no browser: {why}"
            ),
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
}

/// Runs a walk and closes the browser whatever came of it.
async fn walk(width: u32, height: u32, steps: impl AsyncFn(&Desk) -> Walked) {
    let desk = Desk::open(width, height).await;
    let walked = steps(&desk).await;
    let browser = desk.browser.clone();
    let _ = tokio::time::timeout(Duration::from_secs(5), browser.quit()).await;
    drop(desk);
    walked.unwrap();
}

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

        desk.browser
            .find(By::LinkText("All jobs"))
            .await?
            .click()
            .await?;
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
        for _ in 0..4 {
            desk.press("Undo").await?;
            tokio::time::sleep(Duration::from_millis(150)).await;
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

/// How wide the page is when its title is one long word.
const LONG_TITLE: &str = "document.querySelector('h1').append('W'.repeat(120));return document.documentElement.scrollWidth;";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_fits_a_phone_and_a_finger() {
    walk(390, 844, async |desk| {
        for page in [
            "/",
            "/job/patrol-craft/measure",
            "/job/patrol-craft/torque",
            "/job/patrol-craft/record",
            "/job/patrol-craft/sheet",
        ] {
            desk.browser.goto(format!("{}{page}", desk.base)).await?;
            let wide = desk.browser.execute(LONG_TITLE, vec![]).await?;
            assert!(
                wide.convert::<u32>()? <= 390,
                "{page} is wider than the phone"
            );
            let small = desk
                .browser
                .execute(SMALL, vec![])
                .await?
                .convert::<Vec<String>>()?;
            assert!(
                small.is_empty(),
                "{page}: too small for a finger: {small:?}"
            );
        }
        Ok(())
    })
    .await;
}

/// Visible controls under 48 px either way, links in running text apart.
const SMALL: &str = "return [...document.querySelectorAll('button,select,summary,input:not([type=hidden]):not([type=checkbox]),.grid a,.stages a,.links a')]\
    .filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()])\
    .filter(([e, r]) => r.height < 48 || r.width < 44)\
    .map(([e, r]) => e.tagName + ' ' + e.textContent.slice(0, 20) + ' ' + r.width + 'x' + r.height)";

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_works_without_script_and_keeps_to_itself() {
    walk(820, 1180, async |desk| {
        desk.cdp(
            "Emulation.setScriptExecutionDisabled",
            json!({"value": true}),
        )
        .await?;
        desk.browser.refresh().await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.press("Won’t go").await?;
        desk.sees(".question", "Blade C at 9").await?;
        desk.press("Undo").await?;
        desk.sees(".question", "Blade C at 7:30").await?;
        desk.cdp(
            "Emulation.setScriptExecutionDisabled",
            json!({"value": false}),
        )
        .await?;
        desk.browser.refresh().await?;
        let loaded = "return performance.getEntriesByType('resource').map(e => e.name)";
        let loaded = desk
            .browser
            .execute(loaded, vec![])
            .await?
            .convert::<Vec<String>>()?;
        assert!(
            !loaded.is_empty() && loaded.iter().all(|name| name.starts_with(&desk.base)),
            "{loaded:?}"
        );
        Ok(())
    })
    .await;
}

#[tokio::test]
#[ignore = "needs Chromium: cargo xtask check runs it"]
async fn browser_a_new_job_from_nothing() {
    walk(820, 1180, async |desk| {
        desk.browser.goto(&desk.base).await?;
        desk.fill("open-title", "Rescue sled 2: ring worn").await?;
        desk.press("Begin").await?;
        desk.sees("#answer h2", "First the pump.").await?;
        desk.fill("pump-blades", "3").await?;
        desk.fill("pump-bore", "25 N·m").await?;
        desk.choose("pump-rotation", "clockwise").await?;
        desk.press("Keep the pump").await?;
        desk.sees(".refusal", "torque").await?;
        assert_eq!(
            desk.browser
                .find(By::Id("pump-blades"))
                .await?
                .prop("value")
                .await?
                .as_deref(),
            Some("3")
        );
        let bore = desk.browser.find(By::Id("pump-bore")).await?;
        bore.clear().await?;
        bore.send_keys("6-1/8 in").await?;
        desk.press("Keep the pump").await?;
        desk.sees("#answer h2", "Now the leaves.").await?;
        desk.fill("leaves-thicknesses", "0,30 0,33 0,36 0,38 0,41 mm")
            .await?;
        desk.choose("leaves-unit", "mm").await?;
        desk.fill("leaves-width", "1/2 in").await?;
        desk.choose("leaves-lead", "along-shaft").await?;
        desk.choose("leaves-posture", "craft-upright").await?;
        desk.press("Keep the leaves").await?;
        desk.sees("#answer h2", "No leaf tried yet.").await?;
        desk.sees(".question", "Blade A at 12. Does the 0,36")
            .await?;
        desk.press("Goes free").await?;
        desk.sees("#answer .detail", "Every leaf tried so far goes.")
            .await?;
        desk.sees("#answer h2", "23 spots still to read").await?;
        Ok(())
    })
    .await;
}

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
        desk.sees(".question", "Bearing cover to stator. Order 1, 3, 2, 4")
            .await?;
        desk.press("All 4 torqued").await?;
        desk.press_when(".question", "are all 4 marked?", "All 4 marked")
            .await?;
        desk.sees("#answer h2", "2 of 4 joints torqued and marked.")
            .await?;
        // The rest by keys alone: a says all, u takes back.
        desk.sees(".question", "Pump to hull plate. Are all 6 screws in")
            .await?;
        desk.keys("a").await?;
        desk.sees(".question", "Are all 6 torqued?").await?;
        desk.keys("u").await?;
        desk.sees(".question", "Are all 6 screws in").await?;
        for asked in [
            "Are all 6 screws in",
            "Are all 6 torqued?",
            "are all 6 marked?",
        ] {
            desk.sees(".question", asked).await?;
            desk.keys("a").await?;
        }
        for asked in [
            "Are all 3 screws in",
            "Are all 3 torqued?",
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

impl Desk {
    async fn press_when(&self, css: &str, words: &str, label: &str) -> Walked {
        self.sees(css, words).await?;
        self.press(label).await
    }

    async fn fill(&self, id: &str, text: &str) -> Walked {
        self.browser.find(By::Id(id)).await?.send_keys(text).await
    }

    async fn choose(&self, id: &str, value: &str) -> Walked {
        let css = format!("#{id} option[value='{value}']");
        self.browser.find(By::Css(&css)).await?.click().await
    }
}
