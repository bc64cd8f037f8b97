//! What must hold of any file whatever: it is read or refused, in words, and what is read is a log.

use trial::read::{Options, read};

/// Reads `start` followed by `rest`, as is and with everything allowed, and checks what comes out.
pub fn swallow(start: &[u8], rest: &[u8]) {
    let file = [start, rest].concat();
    let lax = Options {
        unsigned: true,
        now: Some(1.8e9),
        weeks: 1024,
        ..Options::default()
    };
    for options in [Options::default(), lax] {
        match read(&file[..], &options) {
            Ok(reading) => {
                assert!(!reading.log.stretches.is_empty());
                for stretch in &reading.log.stretches {
                    assert!(!stretch.is_empty());
                    assert!(stretch.windows(2).all(|two| two[0].time < two[1].time));
                    assert!(stretch.iter().all(|s| s.time.is_finite()
                        && s.speed.is_finite()
                        && s.speed >= 0.0
                        && s.course.is_none_or(f64::is_finite)
                        && s.engine.is_none_or(f64::is_finite)));
                }
            }
            Err(refused) => assert!(!refused.to_string().is_empty()),
        }
    }
}
