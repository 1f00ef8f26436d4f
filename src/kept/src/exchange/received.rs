//! What a link, a code or a file can carry, and why one is not taken.

use pailwise_calc::error::Error;
use pailwise_calc::record::{FloorRecord, ProductRecord, Unreadable};

use super::backup::BackupRecord;
use super::link::Damaged;
use crate::records::run::RunRecord;

/// What a shared link or an opened file turned out to hold.
#[derive(Clone, Debug, PartialEq)]
pub enum Received {
    /// Products, one or more.
    Products(Vec<ProductRecord>),
    /// A floor with its coats.
    Floor(Box<FloorRecord>),
    /// A batch under way on another phone.
    Run(Box<RunRecord>),
    /// Everything on some phone.
    Backup(BackupRecord),
}

/// Why something that came in is not taken.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// It is longer than anything of this tool.
    TooLong,
    /// A link that was cut off or changed on its way.
    Link(Damaged),
    /// A file that cannot be read.
    Unreadable(Unreadable),
    /// A file of this tool that is not one to hand on, by what it says it is.
    OtherFormat(String),
    /// A product that cannot be, by name.
    Product(String, Error),
    /// A floor that cannot be.
    Floor(Error),
    /// A batch whose times cannot be worked out.
    Run(Error),
    /// Two products under one id.
    Twice(String),
    /// A list of products with no product in it.
    Empty,
    /// A backup with a record that cannot be read, by key.
    Record(String),
}
