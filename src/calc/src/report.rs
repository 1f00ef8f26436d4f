//! A plan written down: JSON with the unit in every key, like the records it answers.

use serde::{Deserialize, Serialize};

use crate::batch::{Batch, Bound};
use crate::floor::Plan;
use crate::job::Job;
use crate::quantity::{Figure, Length, Mass, Time, Volume, unit};
use crate::record::{JobRecord, VERSION};

/// A plan as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanRecord {
    /// Always [`PlanRecord::FORMAT`].
    pub format: String,
    /// See [`VERSION`].
    pub version: u32,
    /// The batches, in order.
    pub batches: Vec<BatchRecord>,
}

/// One batch as it is written down. Times count from when A meets B in it, except `start_min`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BatchRecord {
    /// When A meets B, counted from the first batch.
    pub start_min: f64,
    /// How much.
    pub volume_l: f64,
    /// How much, by weight.
    pub mass_kg: f64,
    /// The pours, in order.
    pub pours: Vec<PourRecord>,
    /// The ratio error left by rounding.
    pub off_by_percent: f64,
    /// The floor it covers.
    pub area_m2: f64,
    /// How far along that reaches.
    pub reach_m: f64,
    /// What holds it back.
    pub bound: Bound,
    /// How long this mass stays usable.
    pub pot_life_min: f64,
    /// When it must have left the pail.
    pub pour_out_min: f64,
    /// When the pail is empty.
    pub emptied_min: f64,
    /// When the last patch is rolled.
    pub rolled_min: f64,
    /// When the last patch is finished.
    pub done_min: f64,
    /// When A meets B in the next pail; none after the last.
    pub next_mix_min: Option<f64>,
    /// The working, a line a step.
    pub working: Vec<String>,
}

/// One pour as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PourRecord {
    /// The label of the part, or the name of the additive.
    pub what: String,
    /// How much.
    pub volume_l: f64,
    /// How much, by weight.
    pub mass_kg: f64,
    /// What jug, scale or stick shows, with its unit.
    pub reading: String,
}

impl PlanRecord {
    /// What `format` says in a plan.
    pub const FORMAT: &'static str = "pailwise-plan";

    /// Writes a plan down, with the labels of the job it answers.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, report::PlanRecord};
    /// let record = demo::job();
    /// let plan = Job::try_from(&record).unwrap().plan().unwrap();
    /// let report = PlanRecord::new(&record, &plan);
    /// assert_eq!(report.batches[0].pours[1].what, "B");
    /// ```
    pub fn new(job: &JobRecord, plan: &Plan) -> Self {
        let batches = plan
            .batches
            .iter()
            .map(|placed| BatchRecord::new(job, placed.start, &placed.batch))
            .collect();
        Self { format: Self::FORMAT.to_owned(), version: VERSION, batches }
    }

    /// Plans a job written as JSON.
    ///
    /// # Errors
    /// One line that says what is wrong and where.
    pub fn from_job_json(text: &str) -> Result<Self, String> {
        let record = JobRecord::from_json(text).map_err(|error| error.to_string())?;
        let job = Job::try_from(&record).map_err(|error| error.to_string())?;
        let plan = job.plan().map_err(|error| error.to_string())?;
        Ok(Self::new(&record, &plan))
    }
}

impl BatchRecord {
    fn new(job: &JobRecord, start: Time, batch: &Batch) -> Self {
        let pours = batch.measured.pours.iter().map(|measured| PourRecord {
            what: job.product.name_of(measured.pour.what).to_owned(),
            volume_l: liters(measured.pour.volume),
            mass_kg: kilograms(measured.pour.mass),
            reading: reading(measured.reading),
        });
        let timeline = &batch.timeline;
        Self {
            start_min: minutes(start),
            volume_l: liters(batch.measured.volume),
            mass_kg: kilograms(batch.measured.mass),
            pours: pours.collect(),
            off_by_percent: tidy(batch.measured.off_by * 100.0),
            area_m2: tidy(batch.area.value),
            reach_m: tidy(batch.reach.get::<unit::meter>()),
            bound: batch.bound,
            pot_life_min: minutes(batch.pot_life),
            pour_out_min: minutes(batch.pour_out),
            emptied_min: minutes(timeline.emptied),
            rolled_min: minutes(timeline.rolled),
            done_min: minutes(timeline.done),
            next_mix_min: (!batch.finishes).then(|| minutes(timeline.next_mix)),
            working: batch.working.iter().map(line).collect(),
        }
    }
}

fn line(step: &crate::working::Step) -> String {
    let figures: Vec<String> =
        step.named().map(|(name, figure)| format!("{name} {figure}")).collect();
    format!("{}: {}", step.sentence.key(), figures.join(", "))
}

fn reading(figure: Figure) -> String {
    match figure {
        // A mark on a stick is read in millimetres, not metres.
        Figure::Length(mark) => mm(mark),
        other => other.to_string(),
    }
}

fn mm(mark: Length) -> String {
    format!("{} mm", tidy(mark.get::<unit::millimeter>()))
}

fn liters(volume: Volume) -> f64 {
    tidy(volume.get::<unit::liter>())
}

fn kilograms(mass: Mass) -> f64 {
    tidy(mass.get::<unit::kilogram>())
}

fn minutes(time: Time) -> f64 {
    tidy(time.get::<unit::minute>())
}

/// Drops digits no instrument has, so that a report can be read and compared.
fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
