//! What anybody may hand in: it is fit for use or refused, whatever it is.
//!
//! The fuzz targets in `tests/fuzz` look for what breaks this, `tests/corpus.rs` plays again what
//! they have found worth keeping, and `tests/import.rs` changes good files at random.

use pailwise_calc::demo;
use pailwise_calc::floor::Floor;
use pailwise_calc::job::Job;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::unit;
use pailwise_calc::record::ProductRecord;
use pailwise_calc::running::Stage;
use pailwise_kept::answers::ask;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::envelope::read as of_text;
use pailwise_kept::exchange::compare::compare;
use pailwise_kept::exchange::link::pack;
use pailwise_kept::exchange::{Received, from_file, from_link};
use pailwise_kept::records::Record;
use pailwise_kept::records::draft::DraftRecord;
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::log::LogRecord;
use pailwise_kept::records::mix::{Ask, MixRecord};
use pailwise_kept::records::progress::PracticeRecord;
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::records::settings::SettingsRecord;
use pailwise_kept::records::slip::SlipRecord;
use pailwise_kept::units::Units;

/// A text typed into any field, in either units: a value within the field's range or none, and
/// the same again when it is shown in the units it was typed in.
///
/// # Panics
/// When it is not so.
pub fn quantity(text: &str) {
    for units in [Units::Us, Units::Metric] {
        for ask in Ask::ALL {
            let (field, kind) = ask.field();
            let entry = Entry::as_typed(text, units);
            assert_eq!(entry.text_in(kind, units), text);
            if let Ok(value) = entry.value(kind, field) {
                assert!(value.is_finite(), "{text:?} is {value} for {ask:?}");
                let other = if units == Units::Us { Units::Metric } else { Units::Us };
                // Rounded for showing, it is still a number there.
                let shown = entry.text_in(kind, other);
                assert!(!shown.contains("NaN") && !shown.contains("inf"), "{text:?}: {shown}");
                if kind != Kind::CrackPace {
                    let stepped = entry.stepped(kind, field, units, true);
                    assert!(stepped.value(kind, field).is_ok(), "{text:?} steps to {stepped:?}");
                }
            }
        }
    }
}

/// A file taken in.
///
/// # Panics
/// When what is taken cannot be used.
pub fn file(text: &str) {
    if let Ok(received) = from_file(text) {
        assert!(usable(&received), "{text}");
    }
}

/// A link opened: the text as a link, and a link made of the text.
///
/// # Panics
/// When what is taken cannot be used.
pub fn link(text: &str) {
    for packed in [Some(text.to_owned()), pack(text)].into_iter().flatten() {
        if let Ok(received) = from_link(&packed) {
            assert!(usable(&received), "{packed}");
        }
    }
}

/// A text found in storage, under any key.
///
/// # Panics
/// When what is read from it cannot be used.
pub fn stored(text: &str) {
    if let Ok(mix) = of_text::<MixRecord>(text) {
        mixes(&mix);
        writes_back(&mix);
    }
    if let Ok(run) = of_text::<RunRecord>(text) {
        runs(&run);
        writes_back(&run);
    }
    if let Ok(product) = of_text::<ProductRecord>(text) {
        // One that cannot be is shown with what is wrong with it.
        let _ = Product::try_from(&product);
        writes_back(&product);
    }
    writes_back_if_read::<FloorFormRecord>(text);
    writes_back_if_read::<SettingsRecord>(text);
    writes_back_if_read::<SlipRecord>(text);
    writes_back_if_read::<LogRecord>(text);
    writes_back_if_read::<PracticeRecord>(text);
    writes_back_if_read::<DraftRecord>(text);
}

fn writes_back_if_read<T: Record>(text: &str) {
    if let Ok(record) = of_text::<T>(text) {
        writes_back(&record);
    }
}

/// What was read is written so that it is read again: nothing that is kept is lost by keeping it.
fn writes_back<T: Record>(record: &T) {
    let Ok(text) = serde_json::to_string(record) else { panic!("it cannot be written") };
    let again = of_text::<T>(&text).map(|again| serde_json::to_string(&again).ok());
    assert_eq!(again, Ok(Some(text)));
}

/// A batch from what was typed is one that fits its pail, or there is none.
fn mixes(mix: &MixRecord) {
    for product in demo::records() {
        for units in [Units::Us, Units::Metric] {
            let Ok(record) = ask::job(mix, &product, units) else { continue };
            let Ok(job) = Job::try_from(&record) else { continue };
            if let Ok(batch) = job.next_batch() {
                let litres = batch.measured.volume.get::<unit::liter>();
                let most = job.gear.vessel.working_capacity().get::<unit::liter>();
                assert!(litres > 0.0 && litres <= most * (1.0 + 1e-9), "{litres} L of {most}");
                let minutes = batch.timeline.done.get::<unit::minute>();
                assert!(minutes.is_finite() && minutes > 0.0, "{minutes} min");
            }
        }
    }
}

/// A batch under way counts to moments that are moments.
fn runs(run: &RunRecord) {
    let Ok(running) = run.running() else { return };
    for now_ms in [0.0, 1.8e12, f64::MAX] {
        let standing = run.status(&running, now_ms);
        let _ = run.clone().with_done(&running, Stage::Empty, now_ms);
        assert!(format!("{standing:?}").find("NaN").is_none(), "{standing:?}");
    }
}

/// Whether what was taken can be used: shown beside what is here, calculated with.
#[must_use]
pub fn usable(received: &Received) -> bool {
    let shelf = demo::records();
    match received {
        Received::Products(products) => products.iter().all(|product| {
            let compared = compare(product.clone(), &shelf, Some(&shelf[0]));
            let merged = compared.merged("2026-11-25T12:00:00Z");
            Product::try_from(product).is_ok() && !merged.id.contains('/')
        }),
        Received::Floor(floor) => Floor::try_from(floor.as_ref()).is_ok(),
        Received::Run(run) => {
            runs(run);
            run.running().is_ok() && run.id.bytes().all(|byte| byte.is_ascii_digit())
        }
        Received::Backup(backup) => backup.check().is_ok(),
    }
}
