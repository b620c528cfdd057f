//! Throws bytes at `kitchens`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::kitchens(bytes));
