//! Throws bytes at `document`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::document(bytes));
