#![no_main]

#[path = "../doors.rs"]
mod doors;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| doors::merge(bytes));
