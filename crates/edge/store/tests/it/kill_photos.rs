//! The program is killed while it keeps photos, and the store is looked at afterwards.
//!
//! As in `kill`: a child keeps a picture, appends the entry that names it, and acknowledges both.

use std::env;
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};
use std::time::Duration;

use ::store::{Size, Store};
use workshop::act::Act;
use workshop::entry::Body;
use workshop::fold::fold;
use workshop::photos::{Photo, Photography, Subject};

use crate::bench::{job, later, opened, stamp, url};
use crate::postgres::Server;

/// Set in the child only: the address of the store.
const URL: &str = "PUMPWRIGHT_KILL_PHOTOS_URL";
const KILLS: u64 = 4;

/// A picture as large as a kept one, different for every number.
fn picture(n: u64) -> Vec<u8> {
    let mut bytes = n.to_le_bytes().to_vec();
    bytes.resize(700_000, u8::try_from(n % 251).unwrap());
    bytes
}

#[tokio::test]
async fn law_a_photo_that_was_acknowledged_is_whole_after_a_kill() {
    if let Ok(url) = env::var(URL) {
        return work(&url).await;
    }
    let folder = tempfile::tempdir().unwrap();
    kill(&url(&folder)).await;
}

#[tokio::test]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn law_a_photo_on_a_server_is_whole_after_a_kill() {
    kill(&Server::shared().database()).await;
}

async fn kill(url: &str) {
    let (store, id) = (Store::open(url).await.unwrap(), job("spring"));
    let opening = store.act(&id, opened("Spring"), stamp("open"), later(0));
    opening.await.unwrap();
    store.close().await;
    let mut heard = 0;
    for kill in 0..KILLS {
        let mut child = Command::new(env::current_exe().unwrap())
            .args([
                "kill_photos::law_a_photo_that_was_acknowledged_is_whole_after_a_kill",
                "--exact",
                "--nocapture",
            ])
            .env(URL, url)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut wanted = 2 + kill;
        while wanted > 0 {
            let line = lines.next().unwrap().unwrap();
            wanted -= u64::from(line.starts_with("kept "));
            heard += u64::from(line.starts_with("kept "));
        }
        // Somewhere in the next picture.
        std::thread::sleep(Duration::from_micros(700 * kill));
        child.kill().unwrap();
        child.wait().unwrap();
        let rest = lines.map_while(Result::ok);
        heard += u64::try_from(rest.filter(|line| line.starts_with("kept ")).count()).unwrap();
        look(url, heard).await;
    }
}

/// The child: keeps photos and acknowledges each until it is killed.
async fn work(url: &str) {
    let store = Store::open(url).await.unwrap();
    let id = job("spring");
    let first = store.entries(&id).await.unwrap().len();
    for n in u64::try_from(first).unwrap().. {
        let photo = store.keep_photo(&picture(n), b"small").await.unwrap();
        let said = Photo {
            width: 2560,
            height: 1920,
            subject: Subject::Job,
            words: String::new(),
        };
        let act = Act::Record(Body::Photographed(Photography::Taken { photo, said }));
        let stamp = stamp(&format!("photo-{n}"));
        store.act(&id, act, stamp, later(1)).await.unwrap();
        let mut out = std::io::stdout().lock();
        writeln!(out, "\nkept {n}").unwrap();
        out.flush().unwrap();
    }
}

/// Every entry's picture is there and whole, and none that was acknowledged is missing.
async fn look(url: &str, heard: u64) {
    let store = Store::open(url).await.unwrap();
    let (folded, objections) = fold(&store.entries(&job("spring")).await.unwrap());
    assert_eq!(objections, []);
    let photos = folded.photos.in_order();
    assert!(
        u64::try_from(photos.len()).unwrap() >= heard,
        "{heard} were acknowledged"
    );
    for (n, (photo, _)) in (1..).zip(photos) {
        let bytes = store.photo(photo, Size::Full).await.unwrap();
        assert_eq!(bytes, Some(picture(n)), "photo {n}");
    }
    store.close().await;
}
