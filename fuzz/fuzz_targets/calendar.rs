//! Throws bytes at `calendars`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::calendars(bytes));
