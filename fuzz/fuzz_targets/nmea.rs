//! The reader of NMEA 0183.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| fuzz::swallow(b"$GPRMC,120000.00,A,,,,,10,90,150626,,,A*68\n", data));
