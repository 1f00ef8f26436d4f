//! The screens of Pailwise.
//!
//! | what | where |
//! | --- | --- |
//! | the page around the screens, settings, cautions | `app` |
//! | the state every screen shares, and the deeds between screens | [`desk`] |
//! | how records are kept on the phone | [`store`] |
//! | how the phone calls: sound, shaking, a voice, the screen kept on | `attention` |
//! | where one is: the fragment of the address | [`screen`] |
//! | the Mix screen: the next batch | [`mix`] |
//! | the Floor screen: the whole floor | [`floor`] |
//! | the Clock screen: batches under way, the log | [`clock`] |
//! | the Products screen: the shelf, its forms, handing on | [`products`] |
//! | the Practice screen: rounds to learn from, the sandbox | `practice` |
//! | the site itself, kept on the phone, and a newer one | `site` |
//! | parts that screens are made of | `parts` |
//! | every part on one page, in builds that are not optimised | `gallery` |
//! | files, the clipboard and sharing | `files` |
//! | moments by the phone's clock | `moments` |
//! | the time, held steady while the page is open | `steady` |
//! | texts in the language now chosen | [`text`] |
//! | the language in which it starts | [`language_at_start`] |
//!
//! Each layer knows only those below it, and no screen another (DEVELOPERS.md, held by
//! `tests/layers.rs`); what is typed, kept and said is of `pailwise-kept`, every number of
//! `pailwise-calc`.

#![allow(
    unreachable_pub,
    reason = "the component macro makes the properties of every component public"
)]

mod app;
mod attention;
pub mod clock;
pub mod desk;
mod files;
pub mod floor;
#[cfg(debug_assertions)]
mod gallery;
pub mod language_at_start;
pub mod mix;
mod moments;
mod parts;
pub mod practice;
pub mod products;
pub mod screen;
mod site;
mod steady;
pub mod store;
pub mod text;

pub use app::App;
