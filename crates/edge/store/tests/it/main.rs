//! The store through its public face.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod archive;
mod backup;
mod bench;
mod both;
mod choose;
mod cut;
mod damage;
mod devices;
mod diagnose;
mod fits;
mod fixtures;
mod full;
mod inspect;
mod journal;
mod kill;
mod kill_photos;
mod moving;
mod opened;
mod photos;
mod postgres;
mod restart;
mod schema_2;
mod seals;
mod seen;
mod server;
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
