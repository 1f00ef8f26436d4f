//! The log as a table for a spreadsheet.

use pailwise_calc::quantity::{Volume, unit};
use pailwise_calc::running::Stage;

use super::{Ended, LogRecord, Said, local};
use crate::records::run::PourRecord;

/// How many columns the table has.
const COLUMNS: usize = 26;

/// The head of each column, in the order of [`row`].
const HEAD: [&str; COLUMNS] = [
    "met_at",
    "product",
    "product_id",
    "product_crc32",
    "ended",
    "ended_at",
    "mixed_l",
    "mixed_gal",
    "parts_l",
    "parts_kg",
    "measured",
    "lots",
    "slab_c",
    "air_c",
    "material_c",
    "humidity",
    "planned_m2",
    "covered_m2",
    "rollers",
    "mixed_at",
    "emptied_at",
    "rolled_at",
    "flaked_at",
    "floor",
    "crew",
    "notes",
];

/// Batches as a table (RFC 4180): units in the head, one row a batch, times where the phone was.
///
/// A text that a spreadsheet would take for a formula gets a blank before it.
pub fn csv<'a>(log: impl IntoIterator<Item = &'a LogRecord>) -> Option<String> {
    let mut table =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    table.write_record(HEAD).ok()?;
    for batch in log {
        table.write_record(row(batch)).ok()?;
    }
    String::from_utf8(table.into_inner().ok()?).ok()
}

/// The row of one batch, a text for each column.
fn row(batch: &LogRecord) -> [String; COLUMNS] {
    let at = |ms: f64| local(ms, batch.ahead_min);
    let done = |stage| batch.done.get(&stage).map_or_else(String::new, |ms| at(*ms));
    let gallons = Volume::new::<unit::liter>(batch.mixed_l).get::<unit::gallon>();
    let said = |what| plain(batch.said(what));
    [
        at(batch.met_at_ms),
        plain(&batch.name),
        batch.product.clone(),
        format!("{:08x}", batch.product_crc32),
        match batch.ended {
            Ended::Laid => "laid".to_owned(),
            Ended::Discarded => "discarded".to_owned(),
        },
        at(batch.ended_at_ms),
        format!("{:.3}", batch.mixed_l),
        format!("{gallons:.3}"),
        parts(batch, |pour| pour.volume_l),
        parts(batch, |pour| pour.mass_kg),
        said(Said::Measured),
        said(Said::Lots),
        format!("{:.1}", batch.conditions.slab_c),
        format!("{:.1}", batch.conditions.air_c),
        format!("{:.1}", batch.conditions.material_c),
        said(Said::Humidity),
        format!("{:.2}", batch.planned_m2),
        format!("{:.2}", batch.covered_m2()),
        batch.rollers.to_string(),
        done(Stage::Mix),
        done(Stage::Empty),
        done(Stage::Roll),
        done(Stage::Flake),
        said(Said::Floor),
        said(Said::Crew),
        said(Said::Notes),
    ]
}

/// What a batch was mixed of, with one number of each pour.
fn parts(batch: &LogRecord, number: fn(&PourRecord) -> f64) -> String {
    let parts = batch.pours.iter();
    let parts = parts.map(|pour| format!("{} {:.3}", pour.what, number(pour)));
    plain(&parts.collect::<Vec<_>>().join("; "))
}

/// A text that no spreadsheet takes for a formula.
fn plain(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if formula { format!(" {text}") } else { text.to_owned() }
}
