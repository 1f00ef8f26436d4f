//! From what was typed to what is to be said: pure, without a screen and without storage.

pub mod ask;
pub mod batch;
pub mod describe;
pub mod floor;
pub mod product;
pub mod reading;
