//! What is typed, kept and handed on, without a screen.
//!
//! | what | where |
//! | --- | --- |
//! | the texts of every language | [`text`] |
//! | units a person reads in, and reading a number as it is typed | [`units`], [`read`] |
//! | times of day | [`day`] |
//! | what was typed into a field, with its kind of figure | [`entry`] |
//! | figures for a person, rounded to the safe side | [`show`] |
//! | errors and moves in words | [`say`] |
//! | what is kept: one record a thing | [`records`] |
//! | how a record stands in storage, and under which key | [`envelope`], [`keys`] |
//! | from what was typed to what is to be said | [`answers`] |
//! | records in files and links, checked and compared | [`exchange`] |
//!
//! Each knows only those above it in this table (held by `tests/layers.rs`); every number comes from
//! `pailwise-calc`, and nothing here draws or stores.

pub mod answers;
pub mod day;
pub mod entry;
pub mod envelope;
pub mod exchange;
pub mod keys;
pub mod read;
pub mod records;
pub mod say;
pub mod show;
pub mod text;
pub mod units;
