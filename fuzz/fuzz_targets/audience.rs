//! Throws bytes at `audiences`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::audiences(bytes));
