//! Throws bytes at `imported`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::imported(bytes));
