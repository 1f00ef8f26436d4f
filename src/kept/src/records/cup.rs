//! A cup that stands aside, as it is kept.

use pailwise_calc::job::Job;
use pailwise_calc::lot::{LearntBy, site_cup};
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::record::{LearntRecord, VERSION};
use serde::{Deserialize, Serialize};

use super::Record as _;
use super::run::RunRecord;

/// A cup that stands aside, as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CupRecord {
    /// Names the kind of record, here a cup; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// The name of the batch it was taken from.
    pub id: String,
    /// The id of the product.
    pub product: String,
    /// What the crew calls the product in the cup.
    pub name: String,
    /// The number of its lot; empty where nobody wrote it down.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lot: String,
    /// When A met B, in milliseconds of the phone's clock since 1970, UTC.
    pub met_at_ms: f64,
    /// How much is in it.
    pub mass_kg: f64,
    /// How warm it was once it was mixed.
    pub mixed_c: f64,
    /// How warm the air around it is.
    pub air_c: f64,
}

impl CupRecord {
    /// A cup taken from a batch; nothing where the batch cannot be worked out.
    pub fn of(run: &RunRecord) -> Option<Self> {
        let job = Job::try_from(&run.job).ok()?;
        let mass = site_cup() * job.product.ratio().density();
        Some(Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            id: run.id.clone(),
            product: run.job.product.id.clone(),
            name: run.job.product.name.clone(),
            lot: run.job.product.lot.clone(),
            met_at_ms: run.met_at_ms,
            mass_kg: mass.get::<unit::kilogram>(),
            mixed_c: job.conditions.mixed().get::<unit::degree_celsius>(),
            air_c: run.job.conditions.air_c,
        })
    }

    /// How long ago A met B.
    pub fn since(&self, now_ms: f64) -> Time {
        Time::new::<unit::millisecond>((now_ms - self.met_at_ms).max(0.0))
    }

    /// What it says of its lot when it is gone so long after A met B, noted at a moment (RFC 3339).
    pub fn learnt(&self, since: Time, at: String) -> LearntRecord {
        LearntRecord {
            lot: self.lot.clone(),
            at,
            by: LearntBy::Cup,
            time_min: since.get::<unit::minute>(),
            mass_kg: self.mass_kg,
            mixed_c: self.mixed_c,
            air_c: self.air_c,
            read_c: None,
        }
    }

    /// The same on a clock that was set back by so much.
    #[must_use]
    pub fn set_back(mut self, by_ms: f64) -> Self {
        self.met_at_ms -= by_ms;
        self
    }
}
