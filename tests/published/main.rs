//! Results against sources outside the project: standards, handbooks, published work, and
//! libraries that know nothing of this tool, whose figures `cargo xtask reference` makes and
//! `tests/data/reference` keeps. `cargo xtask checks` writes what is held here into a page.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

mod air;
mod chemistry;
mod data;
mod explosion;
mod film;
mod measured;
mod pail;
mod trade;
mod units;
