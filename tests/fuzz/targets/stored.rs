//! A text found in storage.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| pailwise_tests::hostile::stored(text));
