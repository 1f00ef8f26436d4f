//! What is typed and kept: one record a thing, as it stands in storage, in files and in links.
//! Nothing here draws, stores or knows a screen.

pub mod cup;
pub mod draft;
pub mod floor;
pub mod hand_over;
pub mod load;
pub mod log;
pub mod mix;
pub mod progress;
pub mod run;
pub mod settings;
pub mod sheet;
pub mod slip;

use pailwise_calc::record::ProductRecord;
use serde::{Serialize, de::DeserializeOwned};

use cup::CupRecord;
use draft::DraftRecord;
use floor::FloorFormRecord;
use log::LogRecord;
use mix::MixRecord;
use progress::PracticeRecord;
use run::RunRecord;
use slip::SlipRecord;

/// Whether a field is as one that was never written, so that it need not be.
pub(crate) fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

/// A record that can be kept.
pub trait Record: Serialize + DeserializeOwned {
    /// What its `format` says.
    const FORMAT: &'static str;
}

impl Record for ProductRecord {
    const FORMAT: &'static str = ProductRecord::FORMAT;
}

impl Record for MixRecord {
    const FORMAT: &'static str = "pailwise-mix";
}

impl Record for SlipRecord {
    const FORMAT: &'static str = "pailwise-slip";
}

impl Record for FloorFormRecord {
    const FORMAT: &'static str = "pailwise-floor-form";
}

impl Record for RunRecord {
    const FORMAT: &'static str = "pailwise-run";
}

impl Record for CupRecord {
    const FORMAT: &'static str = "pailwise-cup";
}

impl Record for LogRecord {
    const FORMAT: &'static str = "pailwise-log";
}

impl Record for PracticeRecord {
    const FORMAT: &'static str = "pailwise-practice";
}

impl Record for DraftRecord {
    const FORMAT: &'static str = "pailwise-draft";
}
