//! Finding the answer to what the Mix screen asks.

use pailwise_calc::batch::{Batch, Move, NoBatch, Refusal};
use pailwise_calc::error::Error;
use pailwise_calc::job::Job;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Mass, Volume, unit};
use pailwise_calc::record::{JobRecord, ProductRecord};

use super::ask::{self, Fault};
use crate::records::mix::MixRecord;
use crate::units::Units;

/// A product of the shelf as it is calculated with, or why it cannot be.
pub type Checked = (ProductRecord, Result<Product, Error>);

/// A batch with what it was found from.
#[derive(Clone, Debug, PartialEq)]
pub struct Good {
    /// The record of the product that is mixed.
    pub product: ProductRecord,
    /// The job as it was checked.
    pub job: Job,
    /// The job as it is kept with a batch.
    pub record: JobRecord,
    /// The next batch of it.
    pub batch: Batch,
}

/// What the screen has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// There is no product on the shelf.
    NoProduct,
    /// Fields that are invalid.
    Faults(Vec<Fault>),
    /// The calculation refused an input; what would help, where a crew can do something, and the
    /// owner's limit of a pail, where that is too little to be measured.
    Wrong(Error, Vec<Move>, Option<Mass>),
    /// No batch of any size fits; what would make one possible, and the job.
    Refused(Refusal, Vec<Move>, Box<Job>),
    /// The next batch, with the product and job it was found from.
    Batch(Box<Good>),
}

impl Found {
    /// The next batch, where there is one.
    pub fn batch(&self) -> Option<&Good> {
        match self {
            Self::Batch(good) => Some(good),
            _ => None,
        }
    }
}

/// The answer to what was typed.
pub fn find(mix: &MixRecord, product: Option<Checked>, units: Units) -> Found {
    let Some((product, checked)) = product else { return Found::NoProduct };
    let record = match ask::job(mix, &product, units) {
        Ok(record) => record,
        Err(faults) => return Found::Faults(faults),
    };
    let job = match checked.and_then(|checked| Job::of(checked, &record)) {
        Ok(job) => job,
        Err(error) => return Found::Wrong(error, Vec::new(), None),
    };
    let share = mix.plan().and_then(|plan| plan.share_l).map(Volume::new::<unit::liter>);
    match share.map_or_else(|| job.next_batch(), |share| job.next_batch_within(share)) {
        Ok(batch) => Found::Batch(Box::new(Good { product, job, record, batch })),
        Err(NoBatch::Wrong(error @ Error::KitTooLarge { .. })) => {
            Found::Wrong(error, job.moves(None), None)
        }
        Err(NoBatch::Wrong(error)) => {
            let density = job.product.ratio().density();
            let limit = job.gear.largest_mass.filter(
                |most| matches!(error, Error::TooCoarse { smallest } if smallest * density > *most),
            );
            let measure = matches!(error, Error::TooCoarse { .. } | Error::NotMeasurable);
            let moves = if measure { job.moves(None) } else { Vec::new() };
            Found::Wrong(error, moves, limit)
        }
        Err(NoBatch::Refused(refusal)) => Found::Refused(refusal, job.moves(None), Box::new(job)),
    }
}
