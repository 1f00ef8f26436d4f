//! From what was typed to what is to be said: pure, without a screen and without storage.

pub mod ask;
pub(crate) mod batch;
pub(crate) mod describe;
pub(crate) mod floor;
