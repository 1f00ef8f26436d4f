//! Handing things on, and taking in what was handed on: products, a floor, everything on a phone.
//!
//! What comes in is read and checked in full before anything is shown; nothing here writes
//! storage.

pub mod backup;
pub mod calendar;
pub mod compare;
pub mod link;
mod received;

use pailwise_calc::floor::Floor;
use pailwise_calc::product::Product;
use pailwise_calc::record::{FloorRecord, ProductRecord, ShelfRecord, open, shape};

pub use received::{Received, Refusal};

use crate::records::Record as _;
use crate::records::run::RunRecord;
use backup::BackupRecord;

/// The most characters a file may have.
const LONGEST_FILE: usize = 20_000_000;
/// The most products in one file or link.
const MOST_PRODUCTS: usize = 200;

/// What a link brought: the part of its fragment after the `=`.
///
/// # Errors
/// [`Refusal`].
pub fn from_link(packed: &str) -> Result<Received, Refusal> {
    from_file(&link::unpack(packed).map_err(Refusal::Link)?)
}

/// What the text of a file brought.
///
/// # Errors
/// [`Refusal`].
///
/// ```
/// use pailwise_kept::exchange::{Received, from_file};
/// use pailwise_calc::demo;
/// let text = serde_json::to_string(&demo::record_base()).unwrap();
/// assert_eq!(from_file(&text), Ok(Received::Products(vec![demo::record_base()])));
/// ```
pub fn from_file(text: &str) -> Result<Received, Refusal> {
    if text.len() > LONGEST_FILE {
        return Err(Refusal::TooLong);
    }
    let (format, json) = open(text).map_err(Refusal::Unreadable)?;
    match format.as_str() {
        ProductRecord::FORMAT => {
            let product = shape(&json).map_err(Refusal::Unreadable)?;
            products(vec![product]).map(Received::Products)
        }
        ShelfRecord::FORMAT => {
            let shelf: ShelfRecord = shape(&json).map_err(Refusal::Unreadable)?;
            products(shelf.products).map(Received::Products)
        }
        FloorRecord::FORMAT => {
            let floor: FloorRecord = shape(&json).map_err(Refusal::Unreadable)?;
            for coat in &floor.coats {
                check(&coat.product)?;
            }
            Floor::try_from(&floor).map_err(Refusal::Floor)?;
            Ok(Received::Floor(Box::new(floor)))
        }
        RunRecord::FORMAT => {
            let run: RunRecord = shape(&json).map_err(Refusal::Unreadable)?;
            check(&run.job.product)?;
            run.check().map_err(Refusal::Run)?;
            Ok(Received::Run(Box::new(run)))
        }
        BackupRecord::FORMAT => {
            let backup: BackupRecord = shape(&json).map_err(Refusal::Unreadable)?;
            backup.check().map_err(Refusal::Record)?;
            Ok(Received::Backup(backup))
        }
        _ => Err(Refusal::OtherFormat(format)),
    }
}

fn products(products: Vec<ProductRecord>) -> Result<Vec<ProductRecord>, Refusal> {
    if products.is_empty() {
        return Err(Refusal::Empty);
    }
    if products.len() > MOST_PRODUCTS {
        return Err(Refusal::TooLong);
    }
    for (i, product) in products.iter().enumerate() {
        check(product)?;
        if products.iter().take(i).any(|other| other.id == product.id) {
            return Err(Refusal::Twice(product.name.clone()));
        }
    }
    Ok(products)
}

fn check(product: &ProductRecord) -> Result<(), Refusal> {
    // A name that cannot be shown is not shown.
    product.check_words().map_err(|error| Refusal::Product(String::new(), error))?;
    match Product::try_from(product) {
        Ok(_) => Ok(()),
        Err(error) => Err(Refusal::Product(product.name.clone(), error)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;
    use pailwise_calc::error::Error;
    use pailwise_calc::field::Field;
    use pailwise_calc::record::Unreadable;
    use pailwise_calc::record::VERSION;
    use pailwise_calc::running::Stage;

    fn said(text: &str) -> Refusal {
        from_file(text).unwrap_err()
    }

    #[test]
    fn everything_that_is_handed_on_comes_back() {
        let shelf = ShelfRecord::of(demo::records().into());
        let text = serde_json::to_string(&shelf).unwrap();
        assert_eq!(from_file(&text), Ok(Received::Products(shelf.products)));
        let run = RunRecord::start(1.795e12, demo::job(), 4.0, Vec::new(), None);
        let text = serde_json::to_string(&run).unwrap();
        assert_eq!(from_file(&text), Ok(Received::Run(Box::new(run))));
        let floor = demo::floor();
        let text = serde_json::to_string(&floor).unwrap();
        assert_eq!(from_file(&text), Ok(Received::Floor(Box::new(floor))));
    }

    #[test]
    fn what_is_broken_or_hostile_is_refused_by_name() {
        let good = serde_json::to_string(&demo::record_base()).unwrap();
        assert!(matches!(said(""), Refusal::Unreadable(_)));
        assert!(matches!(said("{}"), Refusal::Unreadable(_)));
        assert!(matches!(said(&good[..good.len() / 2]), Refusal::Unreadable(_)));
        let newer = good.replace(&format!("\"version\":{VERSION}"), "\"version\":99");
        assert_eq!(said(&newer), Refusal::Unreadable(Unreadable::Newer { found: 99 }));
        let job = serde_json::to_string(&demo::job()).unwrap();
        assert_eq!(said(&job), Refusal::OtherFormat("pailwise-job".to_owned()));
        let wrong = good.replace("\"density_kg_per_l\":1.02", "\"density_kg_per_l\":102");
        let Refusal::Product(name, Error::OutOfRange { field, .. }) = said(&wrong) else {
            panic!("{:?}", said(&wrong))
        };
        assert_eq!((name.as_str(), field), ("Practice Base 2:1", Field::Density));
        // A key of storage is made from the id.
        let escapes = good.replace("\"id\":\"invented-base\"", "\"id\":\"../settings\"");
        assert!(matches!(said(&escapes), Refusal::Product(name, _) if name.is_empty()));
        let twice = ShelfRecord::of(vec![demo::record_base(), demo::record_base()]);
        assert!(matches!(said(&serde_json::to_string(&twice).unwrap()), Refusal::Twice(_)));
        let none = serde_json::to_string(&ShelfRecord::of(Vec::new())).unwrap();
        assert_eq!(said(&none), Refusal::Empty);
        let many = ShelfRecord::of(vec![demo::record_base(); 201]);
        assert_eq!(said(&serde_json::to_string(&many).unwrap()), Refusal::TooLong);
        assert_eq!(said(&" ".repeat(LONGEST_FILE + 1)), Refusal::TooLong);
        let run = RunRecord::start(1.795e12, demo::job(), 4.0, Vec::new(), None);
        let broken: [fn(&mut RunRecord); 5] = [
            |run| run.id = "../settings".to_owned(),
            |run| run.met_at_ms = 1e300,
            |run| run.mixed_l = -1.0,
            |run| run.poured_l = Some(1e9),
            |run| run.done = [(Stage::Mix, f64::MAX)].into(),
        ];
        for change in broken {
            let mut run = run.clone();
            change(&mut run);
            let said = said(&serde_json::to_string(&run).unwrap());
            assert!(matches!(said, Refusal::Run(_)), "{said:?}");
        }
        let deep = "[".repeat(100_000);
        assert!(matches!(said(&deep), Refusal::Unreadable(_)));
    }
}
