//! Any file, told apart by what is in it.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| fuzz::swallow(b"", data));
