//! What is typed into a field.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| pailwise_tests::hostile::quantity(text));
