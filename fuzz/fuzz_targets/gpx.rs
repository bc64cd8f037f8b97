//! The reader of GPX.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| fuzz::swallow(b"<gpx>", data));
