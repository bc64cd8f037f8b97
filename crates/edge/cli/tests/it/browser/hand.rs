//! Someone at the bench who only taps, or who only presses keys.

use std::time::{Duration, Instant};

use thirtyfour::prelude::*;

use super::Walked;
use super::desk::{Desk, fresh};

/// How the bench is worked.
#[derive(Clone, Copy, Debug)]
pub(super) enum Hand {
    /// By taps; a text is typed into the field that was tapped.
    Taps,
    /// By Tab, Enter and the letters on the buttons.
    Keys,
}

/// Whoever works: a hand at a desk.
pub(super) struct Worker<'a> {
    pub(super) desk: &'a Desk,
    pub(super) hand: Hand,
}

/// The most presses of Tab that may lie before anything.
const FAR: usize = 60;

/// Where the focus is, seen from an element: not there yet, elsewhere, under something, or here.
const FOCUS: &str = "const at = document.activeElement; \
    const wanted = document.evaluate(arguments[0], document, null, 9, null).singleNodeValue; \
    if (!wanted?.checkVisibility()) return 'nowhere'; \
    if (at !== wanted) return 'elsewhere'; \
    const box = at.getBoundingClientRect(); \
    const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2); \
    return top && (at.contains(top) || top.contains(at)) ? 'here' : 'hidden'";

impl Worker<'_> {
    /// Taps on something, or goes there and presses Enter.
    pub(super) async fn act(&self, path: &str) -> Walked {
        match self.hand {
            Hand::Taps => self.tap(path).await,
            Hand::Keys => {
                self.reach(path).await?;
                self.desk.keys(Key::Enter).await
            }
        }
    }

    /// Presses a button under the question, or the letter that stands on it, and waits until that is
    /// recorded.
    pub(super) async fn answer(&self, label: &str) -> Walked {
        let path =
            format!("//section[@id='next']//button[starts-with(normalize-space(.), '{label}')]");
        let before = self.position().await?;
        match self.hand {
            Hand::Taps => self.tap(&path).await?,
            Hand::Keys => {
                let key = fresh(async || self.find(&path).await?.attr("data-key").await).await?;
                self.desk.keys(key.unwrap_or_default()).await?;
            }
        }
        let begun = Instant::now();
        while self.position().await? == before {
            if begun.elapsed() > Duration::from_secs(10) {
                let why = format!("“{label}” recorded nothing");
                return Err(WebDriverError::FatalError(why));
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
        Ok(())
    }

    /// The last entry of the journal that the page knows.
    async fn position(&self) -> WebDriverResult<String> {
        let position = "return document.querySelector('main').dataset.position";
        let told = self.desk.browser.execute(position, vec![]).await?;
        told.convert()
    }

    pub(super) async fn write(&self, path: &str, text: &str) -> Walked {
        match self.hand {
            Hand::Taps => self.tap(path).await?,
            Hand::Keys => self.reach(path).await?,
        }
        self.desk.keys(text).await
    }

    /// Takes one of the choices of a field.
    pub(super) async fn choose(&self, path: &str, words: &str) -> Walked {
        match self.hand {
            Hand::Taps => self.tap(&format!("{path}/option[.='{words}']")).await,
            Hand::Keys => self.write(path, words).await,
        }
    }

    /// Opens a stage of the job.
    pub(super) async fn stage(&self, name: &str) -> Walked {
        self.act(&format!("//nav[@class='stages']/a[span='{name}']"))
            .await?;
        self.desk.sees(".stages [aria-current]", name).await
    }

    /// Asks for a step by its line in the list, unless it is asked about already.
    pub(super) async fn point(&self, step: &str) -> Walked {
        // A question may name other steps that this one waits for.
        let asked = self.desk.text(".question").await?;
        if asked.trim_start_matches("Next: ").starts_with(step) {
            return Ok(());
        }
        self.act(&format!("//section[@class='links']//a[span='{step}']"))
            .await?;
        self.desk.sees(".question", step).await
    }

    /// Sends the reason for going ahead; the form is unfolded first, unless a refusal has done so.
    pub(super) async fn go_ahead(&self, step: &str, reason: &str) -> Walked {
        let field = format!("//*[@id='go-ahead-{step}-reason']");
        if self.desk.browser.find(By::Css(".refusal")).await.is_err() {
            self.act("//summary[starts-with(., 'Go ahead')]").await?;
        }
        self.write(&field, reason).await?;
        self.act(&format!("{field}/ancestor::form//button")).await
    }

    /// Waits for an element: its page may still be on the way.
    async fn find(&self, path: &str) -> WebDriverResult<WebElement> {
        let query = self.desk.browser.query(By::XPath(path));
        let (most, pause) = (Duration::from_secs(10), Duration::from_millis(30));
        query.wait(most, pause).first().await
    }

    async fn tap(&self, path: &str) -> Walked {
        self.find(path).await?;
        self.desk.tap(By::XPath(path)).await
    }

    /// Waits until something is there.
    pub(super) async fn there(&self, path: &str) -> Walked {
        self.find(path).await.map(drop)
    }

    /// Waits until nothing of the kind is there.
    pub(super) async fn gone(&self, path: &str) -> Walked {
        let query = self.desk.browser.query(By::XPath(path));
        let (most, pause) = (Duration::from_secs(10), Duration::from_millis(30));
        if query.wait(most, pause).not_exists().await? {
            return Ok(());
        }
        Err(WebDriverError::FatalError(format!("{path} is still there")))
    }

    /// Sees that a field holds a value.
    pub(super) async fn holds(&self, path: &str, value: &str) -> Walked {
        let held = fresh(async || self.find(path).await?.prop("value").await).await?;
        if held.as_deref() == Some(value) {
            return Ok(());
        }
        let why = format!("{path} holds {held:?}, not “{value}”");
        Err(WebDriverError::FatalError(why))
    }

    pub(super) async fn reach(&self, path: &str) -> Walked {
        self.find(path).await?;
        let mut focus = String::new();
        for _ in 0..=FAR {
            let told = self.desk.browser.execute(FOCUS, vec![path.into()]).await?;
            focus = told.convert()?;
            match focus.as_str() {
                "here" => return Ok(()),
                "elsewhere" => self.desk.keys(Key::Tab).await?,
                _ => break,
            }
        }
        let why = format!("the focus does not come to {path}: it is {focus}");
        Err(WebDriverError::FatalError(why))
    }
}
