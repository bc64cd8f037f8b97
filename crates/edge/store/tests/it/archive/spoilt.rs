//! An archive that lost or changed a byte: refused, or what it was.

use super::{Parts, jpeg, open, packed, pictures, rows, shoot, sum, take};
use crate::bench::{Bench, job, later, opened, stamp, url};
use proptest::prelude::*;
use sqlx::{AnyConnection, Connection as _};

/// Two entries and a photo: some three thousand bytes.
async fn tiny() -> (Bench, Vec<u8>) {
    let (bench, id) = (Bench::new().await, job("tiny"));
    let act = opened("Tiny");
    bench
        .store
        .act(&id, act, stamp("tiny-0"), later(0))
        .await
        .unwrap();
    shoot(&bench.store, &id, "bore").await;
    let bytes = packed(&bench.store, &id).await;
    (bench, bytes)
}

/// Every byte, changed in one bit and in all of them.
#[tokio::test]
async fn law_a_changed_byte_is_refused_or_changes_nothing() {
    let (bench, bytes) = tiny().await;
    let there = (
        rows(&bench, &job("tiny")).await,
        pictures(&bench.store).await,
    );
    let other = Bench::new().await;
    let mut aside = AnyConnection::connect(&url(&other.folder)).await.unwrap();
    let mut harmless = 0;
    for at in 0..bytes.len() {
        for change in [1 << (at % 8), 0xff] {
            let mut spoilt = bytes.clone();
            spoilt[at] ^= change;
            if open(&spoilt).is_err() {
                continue;
            }
            harmless += 1;
            for table in ["DELETE FROM entry", "DELETE FROM job", "DELETE FROM photo"] {
                sqlx::query(table).execute(&mut aside).await.unwrap();
            }
            take(&other.store, &spoilt).await.unwrap();
            let here = (
                rows(&other, &job("tiny")).await,
                pictures(&other.store).await,
            );
            assert!(here == there, "byte {at} by {change}");
        }
    }
    // Dates and rights that the ZIP notes are not ours; everything else counts.
    assert!(
        harmless < bytes.len() / 4,
        "{harmless} of {}",
        2 * bytes.len()
    );
}

#[tokio::test]
async fn law_a_cut_archive_is_refused() {
    let (_, bytes) = tiny().await;
    for length in 0..bytes.len() {
        assert!(open(&bytes[..length]).is_err(), "cut to {length}");
    }
    for from in 1..bytes.len() {
        assert!(open(&bytes[from..]).is_err(), "cut from {from}");
    }
}

/// A changed byte under a manifest that was made to fit: what is taken in is what it says, or refused.
fn spoil(at: usize, to: u8) -> Result<(), TestCaseError> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build();
    runtime.unwrap().block_on(async {
        let (_, bytes) = tiny().await;
        let mut parts = Parts::of(&bytes);
        let text = parts.part("entries.jsonl");
        let at = at % text.len();
        text[at] = to;
        let Ok(text) = String::from_utf8(text.clone()) else {
            return Ok(());
        };
        parts.entries(|_| text.clone());
        let Ok(mut archive) = open(&parts.zip()) else {
            return Ok(());
        };
        let other = Bench::new().await;
        other.store.take_in(&mut archive).await.unwrap();
        let entries = other.store.entries(&job("tiny")).await.unwrap();
        let _ = workshop::fold::fold(&entries);
        let again = Parts::of(&packed(&other.store, &job("tiny")).await).text("entries.jsonl");
        let value = |text: &str| -> Vec<serde_json::Value> {
            text.lines()
                .map(|line| serde_json::from_str(line).unwrap())
                .collect()
        };
        prop_assert_eq!(value(&again), value(&text));
        Ok(())
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn law_a_forged_entry_is_refused_or_taken_as_it_stands(at in any::<usize>(), to in any::<u8>()) {
        spoil(at, to)?;
    }
}

/// Any bytes at all, and any bytes between a true beginning and a true end.
#[tokio::test]
async fn law_no_bytes_bring_it_down() {
    use rand_pcg::rand_core::{Rng as _, SeedableRng as _};
    let (_, bytes) = tiny().await;
    let mut random = rand_pcg::Pcg64Mcg::seed_from_u64(11);
    for _ in 0..2000 {
        let mut spoilt = bytes.clone();
        for _ in 0..8 {
            let at = usize::try_from(random.next_u64() % bytes.len() as u64).unwrap();
            spoilt[at] = random.next_u64().to_le_bytes()[0];
        }
        let _ = open(&spoilt);
        let mut noise = vec![0; 300];
        random.fill_bytes(&mut noise);
        assert!(open(&noise).is_err());
        let end = &bytes[bytes.len() - 22..];
        assert!(open(&[&bytes[..40], &noise[..], end].concat()).is_err());
    }
    assert_ne!(sum(&bytes), sum(&jpeg("bore")));
}
