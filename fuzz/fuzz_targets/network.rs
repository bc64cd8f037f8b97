//! The reader of NMEA 2000 text.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| fuzz::swallow(b"2026-06-15T12:00:00.1Z,2,129026,1,255,8,ff,fc,00,00,f4,01,ff,ff\n", data));
