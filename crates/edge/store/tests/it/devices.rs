//! Devices that were let in.

use ::store::{Device, Error, Store};
use jiff::Timestamp;
use tempfile::TempDir;

fn at(second: i64) -> Timestamp {
    Timestamp::from_second(1_700_000_000 + second).unwrap()
}

fn device(id: &str, name: &str) -> Device {
    Device {
        id: id.to_owned(),
        name: name.to_owned(),
        paired_at: at(0),
        seen_at: at(0),
        removed_at: None,
    }
}

async fn fresh() -> (TempDir, String, Store) {
    let folder = tempfile::tempdir().unwrap();
    let url = format!("sqlite:{}", folder.path().join("bench").display());
    let store = Store::open(&url).await.unwrap();
    (folder, url, store)
}

#[tokio::test]
async fn law_a_device_is_known_by_its_token_after_a_restart() {
    let (_folder, url, store) = fresh().await;
    let phone = device("d-1", "Phone at the bench");
    store.let_in("secret", &phone).await.unwrap();
    store.close().await;
    let store = Store::open(&url).await.unwrap();
    assert_eq!(
        store.device_of("secret").await.unwrap(),
        Some(phone.clone())
    );
    for other in ["", "Secret", "secret ", "d-1", "Phone at the bench"] {
        assert_eq!(store.device_of(other).await.unwrap(), None, "{other}");
    }
    assert_eq!(store.devices().await.unwrap(), [phone]);
}

/// The hash itself, read off a backup, is no token.
#[tokio::test]
async fn law_no_file_of_the_store_holds_a_token() {
    let (folder, _url, store) = fresh().await;
    let token = "5d2f0e7a9b3c4d1e8f60718293a4b5c6d7e8f90112233445566778899aabbccd";
    store.let_in(token, &device("d-1", "Phone")).await.unwrap();
    store.backup(&folder.path().join("backup")).await.unwrap();
    store.close().await;
    // SHA-256 of the token, by Python's hashlib.
    let hash = "127888399475a04dfe6f6cc8ebeccd9a78a2dc1f69fef8ce77ac2986d5311e9e";
    let mut looked = 0;
    for file in folder.path().read_dir().unwrap() {
        let bytes = std::fs::read(file.unwrap().path()).unwrap();
        let holds = |text: &str| {
            bytes
                .windows(text.len())
                .any(|piece| piece == text.as_bytes())
        };
        assert!(!holds(token));
        looked += usize::from(holds(hash));
    }
    assert!(looked >= 2, "the store and its backup were looked through");
    let store = Store::open(&format!(
        "sqlite:{}",
        folder.path().join("backup").display()
    ))
    .await
    .unwrap();
    assert_eq!(store.device_of(hash).await.unwrap(), None);
    assert!(store.device_of(token).await.unwrap().is_some());
}

#[tokio::test]
async fn law_a_removed_device_stays_removed_and_frees_its_name() {
    let (_folder, _url, store) = fresh().await;
    store.let_in("one", &device("d-1", "Tablet")).await.unwrap();
    let again = store.let_in("two", &device("d-2", "Tablet")).await;
    assert!(matches!(again, Err(Error::NameTaken { name }) if name == "Tablet"));
    assert_eq!(store.device_of("two").await.unwrap(), None);

    assert!(store.remove_device("d-1", at(60)).await.unwrap());
    assert!(!store.remove_device("d-1", at(90)).await.unwrap());
    let gone = store.device_of("one").await.unwrap().unwrap();
    assert_eq!(gone.removed_at, Some(at(60)));
    assert_eq!(store.devices().await.unwrap(), []);
    assert!(!store.rename_device("d-1", "Back again").await.unwrap());

    store.let_in("two", &device("d-2", "Tablet")).await.unwrap();
    assert_eq!(store.devices().await.unwrap().len(), 1);
}

#[tokio::test]
async fn law_names_are_told_apart_when_they_change_too() {
    let (_folder, _url, store) = fresh().await;
    store.let_in("one", &device("d-1", "Tablet")).await.unwrap();
    store.let_in("two", &device("d-2", "Phone")).await.unwrap();
    let taken = store.rename_device("d-2", "Tablet").await.unwrap_err();
    assert_eq!(
        taken.to_string(),
        "Another device here is named “Tablet”. Give this one another name, so that the journal can \
         tell them apart."
    );
    assert!(
        store
            .rename_device("d-2", "Phone of the yard")
            .await
            .unwrap()
    );
    assert!(
        store
            .rename_device("d-2", "Phone of the yard")
            .await
            .unwrap()
    );
    store.see_device("d-2", at(600)).await.unwrap();
    let phone = store.device_of("two").await.unwrap().unwrap();
    assert_eq!(phone.name, "Phone of the yard");
    assert_eq!((phone.paired_at, phone.seen_at), (at(0), at(600)));
    assert!(!store.rename_device("none", "x").await.unwrap());
}
