//! Throws bytes at `quantity`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| everyoven_fuzz::quantity(bytes));
