//! Throws bytes at `scenes`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::scenes(bytes));
