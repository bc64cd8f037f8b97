//! The bench in a real browser: by finger, by keyboard, by caliper, and on paper.
//!
//! Each test has its own bench, driver and browser. A walk that fails still closes the browser.

mod account;
mod choose;
mod desk;
mod devices;
mod diagnose;
mod driveline;
mod hand;
mod lan;
mod many;
mod measure;
mod pages;
mod paper;
mod photos;
mod plan;
mod service;
mod sound;
mod teardown;
mod torque;
mod usual;
mod water;
mod whole;

use std::time::Duration;

use thirtyfour::prelude::WebDriverError;

use desk::Desk;

type Walked = Result<(), WebDriverError>;

/// The same on a bench that other devices reach; the walk is told what the bench said.
async fn walk_from_afar(width: u32, height: u32, steps: impl AsyncFn(&Desk, &[String]) -> Walked) {
    let (desk, said) = Desk::with((width, height), &["--lan"]).await;
    let walked = steps(&desk, &said).await;
    let browser = desk.browser.clone();
    let _ = tokio::time::timeout(Duration::from_secs(5), browser.quit()).await;
    drop(desk);
    walked.unwrap();
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
