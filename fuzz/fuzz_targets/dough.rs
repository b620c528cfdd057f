//! Throws bytes at `dough`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::dough(bytes));
