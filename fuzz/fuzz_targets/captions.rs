//! Throws bytes at `captions`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::captions(bytes));
