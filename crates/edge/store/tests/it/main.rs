//! The store through its public face.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod backup;
mod bench;
mod choose;
mod diagnose;
mod fits;
mod fixtures;
mod inspect;
mod kill;
mod kill_photos;
mod photos;
mod schema_2;
mod seals;
mod sqlite;
mod store;
mod tools;
mod upkeep;
mod water;
mod work;

use ::store::body::{Encoded, decode, encode};
use workshop::entry::Body;

/// What is written is read back the same, in its first version; as it is written.
fn comes_back(body: &Body) -> String {
    let Encoded {
        kind,
        version,
        json,
    } = encode(body).unwrap();
    assert_eq!(version, 1);
    assert_eq!(decode(&kind, version, &json).unwrap(), *body, "{json}");
    json
}
