//! Pictures by their content, and what is said of them.

use ::store::{Error, Size, Store};
use workshop::act::Act;
use workshop::entry::Body;
use workshop::photos::{Photo, PhotoHash, Photography, Subject};

use crate::bench::{Bench, job, later, opened, stamp};
use crate::both::both;

both!(
    published_a_picture_is_named_by_its_content,
    law_a_picture_kept_twice_is_there_once,
    law_eight_may_keep_the_same_picture_at_once,
    law_a_picture_that_is_not_here_is_none,
    law_a_damaged_picture_is_named_and_can_be_kept_anew,
    law_a_picture_without_an_entry_does_no_harm,
);

/// The SHA-256 of `abc`, as FIPS 180-4's examples print it.
const ABC: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

/// A photo of the whole job that is taken, said in other words, and put away.
pub(crate) fn every_kind() -> Vec<Photography> {
    let photo = PhotoHash::new(ABC).unwrap();
    vec![
        Photography::Taken {
            photo: photo.clone(),
            said: Photo {
                width: 2560,
                height: 1920,
                subject: Subject::Job,
                words: String::new(),
            },
        },
        Photography::Captioned {
            photo: photo.clone(),
            subject: Subject::Joint(workshop::entry::Key::new("housing").unwrap()),
            words: "The old sealant, before it came off".to_owned(),
        },
        Photography::PutAway { photo },
    ]
}

async fn both(store: &Store, photo: &PhotoHash) -> [Option<Vec<u8>>; 2] {
    let full = store.photo(photo, Size::Full).await.unwrap();
    [full, store.photo(photo, Size::Thumb).await.unwrap()]
}

fn bytes(text: &str) -> Vec<u8> {
    text.as_bytes().to_vec()
}

async fn published_a_picture_is_named_by_its_content(bench: Bench) {
    let photo = bench.store.keep_photo(b"abc", b"small").await.unwrap();
    assert_eq!(photo.as_str(), ABC);
    assert_eq!(
        both(&bench.store, &photo).await,
        [Some(bytes("abc")), Some(bytes("small"))]
    );
}

async fn law_a_picture_kept_twice_is_there_once(bench: Bench) {
    let one = bench.store.keep_photo(b"abc", b"small").await.unwrap();
    let two = bench.store.keep_photo(b"abc", b"small").await.unwrap();
    assert_eq!(one, two);
    assert_eq!(bench.store.photos().await.unwrap().len(), 1);
    let other = bench.store.keep_photo(b"abd", b"small").await.unwrap();
    assert_ne!(one, other);
    let all = bench.store.photos().await.unwrap();
    assert_eq!(all.into_iter().collect::<Vec<_>>(), {
        let mut both = vec![one, other];
        both.sort();
        both
    });
}

async fn law_eight_may_keep_the_same_picture_at_once(bench: Bench) {
    let tasks: Vec<_> = (0..8)
        .map(|_| {
            let store = bench.store.clone();
            tokio::spawn(async move { store.keep_photo(&vec![7; 900_000], b"small").await })
        })
        .collect();
    let mut names = Vec::new();
    for task in tasks {
        names.push(task.await.unwrap().unwrap());
    }
    names.dedup();
    assert_eq!(names.len(), 1);
    assert_eq!(
        both(&bench.store, &names[0]).await[0],
        Some(vec![7; 900_000])
    );
}

async fn law_a_picture_that_is_not_here_is_none(bench: Bench) {
    let photo = PhotoHash::new(ABC).unwrap();
    assert_eq!(both(&bench.store, &photo).await, [None, None]);
    assert!(bench.store.photos().await.unwrap().is_empty());
}

async fn law_a_damaged_picture_is_named_and_can_be_kept_anew(bench: Bench) {
    let photo = bench.store.keep_photo(b"abc", b"small").await.unwrap();
    let mut aside = bench.aside().await;
    for (size, damage) in [
        (Size::Full, "UPDATE photo SET picture = $1"),
        (Size::Thumb, "UPDATE photo SET thumb = $1"),
    ] {
        let damage = sqlx::query(damage).bind(b"abd".as_slice());
        damage.execute(&mut aside).await.unwrap();
        let refused = bench.store.photo(&photo, size).await.unwrap_err();
        assert!(matches!(refused, Error::PhotoDamaged { .. }));
        assert_eq!(
            refused.to_string(),
            "The photo ba7816bf is damaged in the store. Send it again, or restore the store from \
             a backup."
        );
    }
    bench.store.keep_photo(b"abc", b"small").await.unwrap();
    assert_eq!(
        both(&bench.store, &photo).await,
        [Some(bytes("abc")), Some(bytes("small"))]
    );
}

async fn law_a_picture_without_an_entry_does_no_harm(bench: Bench) {
    let spring = job("spring");
    let sent = |store: Store, act, id: &'static str| {
        let job = spring.clone();
        async move { store.act(&job, act, stamp(id), later(0)).await.unwrap() }
    };
    sent(bench.store.clone(), opened("Spring"), "one").await;
    // As after a crash between the picture and its entry.
    let photo = bench.store.keep_photo(b"abc", b"small").await.unwrap();
    let bench = bench.again().await;
    assert_eq!(both(&bench.store, &photo).await[0], Some(bytes("abc")));
    let taken = Act::Record(Body::Photographed(every_kind().remove(0)));
    assert_eq!(sent(bench.store, taken, "two").await.positions, [2]);
}
