//! How a job begins, in every shape that ever landed.

use ::store::body::decode;
use workshop::entry::Body;

const FIRST: &str = include_str!("../fixtures/job-opened-v1.json");
const SECOND: &str = include_str!("../fixtures/job-opened-v2.json");

fn follows(version: u32, json: &str) -> Option<String> {
    match decode("job-opened", version, json).unwrap() {
        Body::JobOpened { follows, .. } => follows.map(|id| id.to_string()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn law_a_job_opened_before_it_could_follow_another_follows_none() {
    assert_eq!(follows(1, FIRST), None);
    assert_eq!(follows(2, SECOND).as_deref(), Some("last-autumn"));
}

#[test]
fn law_an_id_that_is_none_is_damage() {
    assert!(decode("job-opened", 2, &SECOND.replace("last-autumn", "No Id")).is_err());
    assert!(decode("job-opened", 1, SECOND).is_err());
}
