//! A link opened.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| pailwise_tests::hostile::link(text));
