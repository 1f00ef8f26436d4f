//! How much two-part resin to mix next, how to split it, and how long there is.
//!
//! This crate holds every number Pailwise shows. It knows no browser, no clock, no file and no
//! global: the same inputs always give the same answer. Quantities carry their units in their
//! types, so a gram cannot meet a pound.
//!
//! Data flows one way: **product + conditions + crew + area → batch → floor**.
//!
//! | to find | look in |
//! | --- | --- |
//! | what a product is, and how it is written down | [`product`], [`record`] |
//! | figures of a data sheet that hardly can be, or are missing | [`sheet`] |
//! | parts A and B, by volume or by weight | [`ratio`], [`measure`], [`kit`] |
//! | whether the two sides react up, and what off ratio leaves | [`stoichiometry`] |
//! | a pail poured wrongly, and the way back | [`rescue`] |
//! | what a pail holds and how high it fills | [`vessel`] |
//! | how much material a floor takes | [`coverage`] |
//! | how fast resin cures, and what a data sheet says of that | [`cure`], [`calibrate`] |
//! | how the lot in hand runs against its sheet | [`lot`] |
//! | how long a pail of this mass stays usable, and how hot it gets | [`pail`] |
//! | pot life against temperature, for drawing | [`curve`] |
//! | how long the rolled film still takes flake | [`film`] |
//! | how warm it is, and the whole of what a batch is asked for | [`conditions`], [`job`] |
//! | who does what, how fast, and when each patch is reached | [`crew`], [`timeline`] |
//! | dew point and humidity | [`dew`] |
//! | what a product may be laid in and on, and whether it is so | [`limits`], [`ready`], [`surface`] |
//! | recoat, light use, vehicles: when | [`after`] |
//! | what to buy for a floor | [`order`] |
//! | the next batch, and what holds it back | [`batch`] |
//! | a batch under way: what is due, by when | [`running`] |
//! | one batch after another until the floor is down | [`floor`] |
//! | what batches that are done took | [`tally`] |
//! | a plan written down | [`report`] |
//! | rounds to learn from | [`practice`] |
//! | quantities, allowed ranges, errors, the working behind a figure | [`mod@quantity`], [`field`], [`error`], [`working`] |
//!
//! Every rounding and every doubt falls to the safe side: less material in the pail, less time on
//! the clock, later feet on the floor.
//!
//! The product's own data sheet and safety data sheet, local codes and licensed practice come
//! before anything computed here.

#[macro_use]
extern crate uom;

pub mod after;
pub mod batch;
pub mod calibrate;
pub mod comb;
pub mod conditions;
pub mod coverage;
pub mod crew;
pub mod cure;
pub mod curve;
pub mod demo;
pub mod dew;
pub mod edge_before;
pub mod error;
pub mod field;
pub mod film;
pub mod flake;
pub mod floor;
pub mod gear;
pub mod job;
pub mod kit;
pub mod limits;
pub mod lot;
pub mod measure;
pub mod mixing;
pub mod order;
pub mod pail;
pub mod practice;
pub mod product;
pub mod quantity;
pub mod ratio;
pub mod ready;
pub mod record;
pub mod report;
pub mod rescue;
pub mod running;
#[cfg(feature = "schema")]
pub mod schema;
pub mod shape;
pub mod sheet;
mod solve;
mod sorted;
pub mod stoichiometry;
pub mod surface;
pub mod tally;
pub mod timeline;
pub mod vessel;
pub mod working;
