//! A bench with a browser before it.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Mutex;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::error::WebDriverErrorInner;
use thirtyfour::prelude::*;
use thirtyfour::{ChromeCapabilities, TypingData};

use super::Walked;

/// A running bench on the example job, and a browser looking at it.
pub(super) struct Desk {
    pub(super) browser: WebDriver,
    pub(super) base: String,
    folder: TempDir,
    bench: Mutex<Child>,
    driver: Child,
}

impl Drop for Desk {
    fn drop(&mut self) {
        let bench = self.bench.get_mut().unwrap();
        for child in [bench, &mut self.driver] {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

/// The same once more where a new page came between finding an element and asking it, or where the page still moved
/// under the finger. What truly lies under something else stays refused.
pub(super) async fn fresh<T>(once: impl AsyncFn() -> WebDriverResult<T>) -> WebDriverResult<T> {
    for _ in 0..20 {
        let done = once().await;
        let moved = |error: &WebDriverError| {
            use WebDriverErrorInner::{ElementClickIntercepted, StaleElementReference};
            matches!(
                error.as_inner(),
                StaleElementReference(_) | ElementClickIntercepted(_)
            )
        };
        if !done.as_ref().is_err_and(moved) {
            return done;
        }
        tokio::time::sleep(Duration::from_millis(30)).await;
    }
    once().await
}

impl Desk {
    pub(super) async fn open(width: u32, height: u32) -> Self {
        Self::with((width, height), &[]).await.0
    }

    /// A bench opened with these options, and what it said.
    pub(super) async fn with((width, height): (u32, u32), options: &[&str]) -> (Self, Vec<String>) {
        let folder = tempfile::tempdir().unwrap();
        let (bench, said) = bench(&folder, "0", options);
        let link = said[0].rsplit(' ').next().unwrap();
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
            // A page that glides after a key is not where it was when the next tap is aimed.
            "--disable-smooth-scrolling",
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
        browser.goto(link).await.unwrap();
        let base = link.split("/job/").next().unwrap().to_owned();
        let desk = Self {
            browser,
            base,
            folder,
            bench: Mutex::new(bench),
            driver,
        };
        (desk, said)
    }

    /// Where the journal lies.
    pub(super) fn store(&self) -> String {
        store(&self.folder)
    }

    /// Ends the bench as a power cut does.
    pub(super) fn cut(&self) {
        let mut bench = self.bench.lock().unwrap();
        bench.kill().unwrap();
        bench.wait().unwrap();
    }

    /// Starts the bench again, at the same address and on the same journal.
    pub(super) fn start_again(&self) {
        let port = self.base.rsplit(':').next().unwrap();
        *self.bench.lock().unwrap() = bench(&self.folder, port, &[]).0;
    }

    /// What another device sends.
    pub(super) fn other_sends(&self, device: &str, path: &str, form: &str) {
        let host = self.base.trim_start_matches("http://");
        let mut stream = TcpStream::connect(host).unwrap();
        let head = format!(
            "POST {path} HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\ncookie: device={device}\r\n\
             content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{form}",
            form.len()
        );
        stream.write_all(head.as_bytes()).unwrap();
        let mut reply = String::new();
        stream.read_to_string(&mut reply).unwrap();
        assert!(reply.starts_with("HTTP/1.1 303"), "{reply}");
    }

    pub(super) async fn text(&self, css: &str) -> WebDriverResult<String> {
        fresh(async || self.browser.find(By::Css(css)).await?.text().await).await
    }

    /// Waits until the text of an element holds the words.
    pub(super) async fn sees(&self, css: &str, words: &str) -> Walked {
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

    /// Taps an element where nothing at the head or foot of the page lies over it.
    pub(super) async fn tap(&self, by: By) -> Walked {
        let centre = "arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})";
        fresh(async || {
            let found = self.browser.find(by.clone()).await?;
            self.browser.execute(centre, vec![found.to_json()?]).await?;
            found.click().await
        })
        .await
    }

    pub(super) async fn press(&self, label: &str) -> Walked {
        let xpath =
            format!("//section[@id='next']//button[starts-with(normalize-space(.), '{label}')]");
        self.tap(By::XPath(&xpath)).await
    }

    pub(super) async fn keys(&self, keys: impl Into<TypingData>) -> Walked {
        self.browser.action_chain().send_keys(keys).perform().await
    }

    pub(super) async fn cdp(&self, command: &str, params: Value) -> Walked {
        self.browser.cdp().send_raw(command, params).await.map(drop)
    }

    /// Runs a script at the head of every page that is loaded from now on.
    pub(super) async fn before_each_page(&self, script: &str) -> Walked {
        let script = json!({"source": script});
        self.cdp("Page.addScriptToEvaluateOnNewDocument", script)
            .await
    }

    pub(super) async fn press_when(&self, css: &str, words: &str, label: &str) -> Walked {
        self.sees(css, words).await?;
        self.press(label).await
    }

    pub(super) async fn fill(&self, id: &str, text: &str) -> Walked {
        self.browser.find(By::Id(id)).await?.send_keys(text).await
    }

    pub(super) async fn choose(&self, id: &str, value: &str) -> Walked {
        let css = format!("#{id} option[value='{value}']");
        self.browser.find(By::Css(&css)).await?.click().await
    }

    /// The page as PDF, read back as text.
    pub(super) async fn paper(&self) -> String {
        let printed = self.printed((8.27, 11.69)).await.unwrap();
        read_back(&printed, &["-layout"])
    }

    /// The page as PDF on paper of this width and height in inches; a page that says its own size keeps it.
    pub(super) async fn printed(&self, (width, height): (f64, f64)) -> WebDriverResult<PathBuf> {
        let how = json!({"paperWidth": width, "paperHeight": height, "preferCSSPageSize": true});
        let cdp = self.browser.cdp();
        let printed = cdp.send_raw("Page.printToPDF", how).await?;
        let coded = self.folder.path().join("printed.base64");
        std::fs::write(&coded, printed["data"].as_str().unwrap()).unwrap();
        let decoded = Command::new("base64").arg("-d").arg(&coded).output();
        let file = self.folder.path().join("printed.pdf");
        std::fs::write(&file, decoded.unwrap().stdout).unwrap();
        Ok(file)
    }
}

/// What `pdftotext` says of a file.
pub(super) fn read_back(file: &Path, how: &[&str]) -> String {
    let text = Command::new("pdftotext")
        .args(how)
        .args([file.as_os_str(), "-".as_ref()])
        .output()
        .unwrap();
    assert!(text.status.success());
    String::from_utf8(text.stdout).unwrap()
}

fn store(folder: &TempDir) -> String {
    format!("sqlite:{}", folder.path().join("bench.sqlite").display())
}

/// Starts the program on the journal of the folder; gives what it prints.
fn bench(folder: &TempDir, port: &str, options: &[&str]) -> (Child, Vec<String>) {
    let store = store(folder);
    let mut bench = Command::new(env!("CARGO_BIN_EXE_pumpwright"))
        .args(["serve", "--no-open", "--port", port, "--store", &store])
        .args(options)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    // All it says at first, so that it never writes to a pipe that nobody holds any more.
    let lines = BufReader::new(bench.stdout.take().unwrap()).lines();
    let last = if options.contains(&"--lan") {
        "and pair with"
    } else {
        "Ctrl-C"
    };
    let mut said = Vec::new();
    for line in lines.map(Result::unwrap) {
        let done = line.starts_with(last);
        said.push(line);
        if done {
            break;
        }
    }
    (bench, said)
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
