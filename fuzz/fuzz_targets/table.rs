//! The reader of tables.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| fuzz::swallow(b"time s;speed kn\n", data));
