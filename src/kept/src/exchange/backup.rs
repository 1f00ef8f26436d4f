//! Everything on a phone in one file.

use std::collections::BTreeMap;

use pailwise_calc::record::{ProductRecord, VERSION, open, read};
use serde::{Deserialize, Serialize};

use crate::records::Record;
use crate::records::cup::CupRecord;
use crate::records::draft::DraftRecord;
use crate::records::floor::FloorFormRecord;
use crate::records::log::LogRecord;
use crate::records::mix::MixRecord;
use crate::records::progress::PracticeRecord;
use crate::records::run::RunRecord;
use crate::records::settings::SettingsRecord;
use crate::records::slip::SlipRecord;
use crate::{envelope, keys};

/// Everything on a phone: under each key of storage the text that stood there.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BackupRecord {
    /// Names the kind of record, here a backup; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// When: RFC 3339, in UTC, to the second.
    pub made: String,
    /// The texts by key.
    pub records: BTreeMap<String, String>,
}

impl BackupRecord {
    /// What `format` says in a backup.
    pub const FORMAT: &'static str = "pailwise-backup";

    /// A backup of these texts.
    pub fn of(made: &str, records: BTreeMap<String, String>) -> Self {
        Self { format: Self::FORMAT.to_owned(), version: VERSION, made: made.to_owned(), records }
    }

    /// How many products it has.
    pub fn products(&self) -> usize {
        self.records.keys().filter(|key| key.starts_with(keys::PRODUCTS)).count()
    }

    /// Whether every record in it can be read; of those that were set aside as damaged, nothing
    /// is asked.
    ///
    /// # Errors
    /// The key of the first that cannot.
    pub fn check(&self) -> Result<(), String> {
        for (key, text) in &self.records {
            let fits = match key.as_str() {
                keys::SETTINGS => is::<SettingsRecord>(text),
                keys::MIX => is::<MixRecord>(text),
                keys::SLIP => is::<SlipRecord>(text),
                keys::FLOOR => is::<FloorFormRecord>(text),
                key if key.starts_with(keys::FLOORS) => is::<FloorFormRecord>(text),
                keys::PRACTICE => is::<PracticeRecord>(text),
                key if key.starts_with(keys::DRAFTS) => is::<DraftRecord>(text),
                key if key.starts_with(keys::RUNS) => is::<RunRecord>(text),
                key if key.starts_with(keys::CUPS) => is::<CupRecord>(text),
                key if key.starts_with(keys::LOG) => is::<LogRecord>(text),
                key if key.starts_with(keys::VERSIONS) => is::<ProductRecord>(text),
                key if key.starts_with(keys::PRODUCTS) || key.starts_with(keys::RECEIVED) => {
                    let said = |product: &ProductRecord| key.ends_with(&format!("/{}", product.id));
                    record::<ProductRecord>(text)
                        .is_some_and(|p| said(&p) && p.check_words().is_ok())
                }
                key if key.starts_with(keys::ASIDE) => true,
                // Of a later version of the app, perhaps: kept as long as it is a record at all.
                key if key.starts_with(keys::ALL) => {
                    envelope::unwrap(text).is_ok_and(|record| open(record).is_ok())
                }
                _ => false,
            };
            if !fits {
                return Err(key.chars().filter(|sign| !sign.is_control()).take(80).collect());
            }
        }
        Ok(())
    }
}

fn record<T: Record>(text: &str) -> Option<T> {
    read(envelope::unwrap(text).ok()?, T::FORMAT).ok()
}

fn is<T: Record>(text: &str) -> bool {
    record::<T>(text).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;
    use pailwise_calc::demo;

    fn backup() -> BackupRecord {
        let wrapped = |text: serde_json::Result<String>| envelope::wrap(&text.unwrap());
        let product = demo::record_base();
        let texts = [
            (format!("{}{}", keys::PRODUCTS, product.id), wrapped(serde_json::to_string(&product))),
            (
                keys::MIX.to_owned(),
                wrapped(serde_json::to_string(&MixRecord::first("x", Units::Us))),
            ),
            (
                keys::SETTINGS.to_owned(),
                wrapped(serde_json::to_string(&SettingsRecord::first(&[]))),
            ),
            (format!("{}mix-1", keys::ASIDE), "{broken".to_owned()),
        ];
        BackupRecord::of("2026-11-25T12:00:00Z", texts.into())
    }

    #[test]
    fn a_backup_is_checked_record_by_record() {
        assert_eq!(backup().check(), Ok(()));
        assert_eq!(backup().products(), 1);
        let change = |key: &str, text: &str| {
            let mut backup = backup();
            backup.records.insert(key.to_owned(), text.to_owned());
            backup.check()
        };
        assert_eq!(change(keys::MIX, "{"), Err(keys::MIX.to_owned()));
        assert_eq!(change("elsewhere", "{}"), Err("elsewhere".to_owned()));
        // A product under another's key would take its place.
        let product = serde_json::to_string(&demo::record_base()).unwrap();
        let key = format!("{}other", keys::PRODUCTS);
        assert_eq!(change(&key, &product), Err(key.clone()));
    }
}
