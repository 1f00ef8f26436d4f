//! A file taken in.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| pailwise_tests::hostile::file(text));
