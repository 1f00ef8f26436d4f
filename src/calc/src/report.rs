//! A plan written down: JSON with the unit in every key, like the records it answers.

use serde::{Deserialize, Serialize};

use crate::batch::Bound;
use crate::error::Error;
use crate::floor::{CoatPlan, Floor, Place, Placed, Way, WayOut};
use crate::quantity::{Figure, Length, Mass, Time, Volume, unit};
use crate::record::{CoatRecord, FloorRecord, ProductRecord, VERSION};

/// A plan as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanRecord {
    /// The kind of record, always [`PlanRecord::FORMAT`].
    pub format: String,
    /// Version of the format it is written in; the newest is [`VERSION`].
    pub version: u32,
    /// Area of the flat floor, without cut-outs, in m².
    pub area_m2: f64,
    /// Area of the coated walls and steps together, in m².
    pub verticals_m2: f64,
    /// The coats, in order.
    pub coats: Vec<CoatPlanRecord>,
}

/// The batches of a coat as they are written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CoatPlanRecord {
    /// Name of the product this coat is laid with.
    pub product: String,
    /// The batches, in order.
    pub batches: Vec<BatchRecord>,
    /// What they take together.
    pub needed_l: f64,
    /// How much of that is not here, where it was said what is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub short_l: Option<f64>,
    /// Why it goes no further, if it does not, and what would help.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stopped: Option<StoppedRecord>,
}

/// Why a plan stops, as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoppedRecord {
    /// When, counted from the first batch.
    pub at_min: f64,
    /// Why there is no batch.
    pub why: String,
    /// What would make one possible, with what one batch then covers.
    pub ways: Vec<String>,
}

/// One batch as it is written down. Times count from when A meets B in it, except `start_min`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BatchRecord {
    /// When A meets B, counted from the first batch.
    pub start_min: f64,
    /// The walls, cracks or stretch of floor that the batch is for.
    pub place: PlaceRecord,
    /// Volume of the whole mixed batch, in litres.
    pub volume_l: f64,
    /// How much, by weight.
    pub mass_kg: f64,
    /// The pours, in order.
    pub pours: Vec<PourRecord>,
    /// The ratio error left by rounding.
    pub off_by_percent: f64,
    /// The floor it covers.
    pub area_m2: f64,
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

/// Where a batch goes, as it is written down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PlaceRecord {
    /// Brushed on the walls and steps.
    Verticals,
    /// In the cracks, between two lengths along them.
    Cracks {
        /// Length along the cracks where the batch begins, in metres.
        from_m: f64,
        /// Length along the cracks where the batch ends, in metres.
        to_m: f64,
    },
    /// On the flat, between two distances from the back wall.
    Flat {
        /// In which bay, from the left.
        bay: u32,
        /// Distance from the back wall where the batch begins, in metres.
        from_m: f64,
        /// To: where to tape.
        to_m: f64,
    },
}

impl From<Place> for PlaceRecord {
    fn from(place: Place) -> Self {
        match place {
            Place::Verticals => Self::Verticals,
            Place::Cracks { from, to } => Self::Cracks { from_m: meters(from), to_m: meters(to) },
            Place::Flat { bay, from, to } => Self::Flat {
                bay: u32::try_from(bay).unwrap_or(u32::MAX),
                from_m: meters(from),
                to_m: meters(to),
            },
        }
    }
}

/// One pour as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PourRecord {
    /// The label of the part, or the name of the additive.
    pub what: String,
    /// Volume of this part or additive to pour, in litres.
    pub volume_l: f64,
    /// How much, by weight.
    pub mass_kg: f64,
    /// What jug, scale or stick shows, with its unit.
    pub reading: String,
}

impl PlanRecord {
    /// What `format` says in a plan.
    pub const FORMAT: &'static str = "pailwise-plan";

    /// Plans a floor and writes that down.
    ///
    /// # Errors
    /// The first thing that is wrong with the floor, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{demo, report::PlanRecord};
    /// let plan = PlanRecord::new(&demo::floor()).unwrap();
    /// assert_eq!(plan.coats[0].batches[0].pours[1].what, "B");
    /// ```
    pub fn new(record: &FloorRecord) -> Result<Self, Error> {
        let floor = Floor::try_from(record)?;
        let coats = record.coats.iter().zip(&floor.coats);
        let coats = coats.map(|(record, coat)| CoatPlanRecord::new(record, &floor.plan(coat)));
        Ok(Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            area_m2: tidy(floor.shape.area().value),
            verticals_m2: tidy(floor.verticals.map_or(0.0, |verticals| verticals.area.value)),
            coats: coats.collect(),
        })
    }

    /// Plans a floor written as JSON.
    ///
    /// # Errors
    /// One line that says what is wrong and where.
    pub fn from_floor_json(text: &str) -> Result<Self, String> {
        let record = FloorRecord::from_json(text).map_err(|error| error.to_string())?;
        Self::new(&record).map_err(|error| error.to_string())
    }
}

impl CoatPlanRecord {
    fn new(coat: &CoatRecord, plan: &CoatPlan) -> Self {
        let batches = plan.batches.iter().map(|placed| BatchRecord::new(&coat.product, placed));
        let stopped = plan.stopped.as_ref().map(|stopped| StoppedRecord {
            at_min: minutes(stopped.at),
            why: stopped.why.to_string(),
            ways: stopped.ways.iter().map(way).collect(),
        });
        Self {
            product: coat.product.name.clone(),
            batches: batches.collect(),
            needed_l: liters(plan.needed),
            short_l: plan.short.map(liters),
            stopped,
        }
    }
}

/// A way out on one line.
fn way(out: &WayOut) -> String {
    let what = match out.way {
        Way::Change(change) => format!("{change:?}"),
        Way::MoreRollers(more) => format!("{more} more rolling"),
        Way::InBays(bays) => format!("in {bays} bays"),
        Way::Later(later) => format!("{} later", Figure::from(later)),
    };
    format!("{what}: {}", Figure::from(out.covers))
}

impl BatchRecord {
    fn new(product: &ProductRecord, placed: &Placed) -> Self {
        let batch = &placed.batch;
        let pours = batch.measured.pours.iter().map(|measured| PourRecord {
            what: product.name_of(measured.pour.what).to_owned(),
            volume_l: liters(measured.pour.volume),
            mass_kg: kilograms(measured.pour.mass),
            reading: measured.reading.to_string(),
        });
        let timeline = &batch.timeline;
        Self {
            start_min: minutes(placed.start),
            place: placed.place.into(),
            volume_l: liters(batch.measured.volume),
            mass_kg: kilograms(batch.measured.mass),
            pours: pours.collect(),
            off_by_percent: tidy(batch.measured.off_by * 100.0),
            area_m2: tidy(batch.area.value),
            bound: batch.bound,
            pot_life_min: minutes(batch.pot_life),
            pour_out_min: minutes(batch.pour_out),
            emptied_min: minutes(timeline.emptied),
            rolled_min: minutes(timeline.rolled),
            done_min: minutes(timeline.done),
            next_mix_min: (!batch.finishes).then(|| minutes(timeline.next_mix)),
            working: placed.job.explain_batch(batch).iter().map(line).collect(),
        }
    }
}

fn line(step: &crate::working::Step) -> String {
    let figures: Vec<String> =
        step.named().map(|(name, figure)| format!("{name} {figure}")).collect();
    format!("{}: {}", step.sentence.key(), figures.join(", "))
}

fn meters(length: Length) -> f64 {
    tidy(length.get::<unit::meter>())
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
    // Adding zero turns a negative zero into a plain one.
    (value * 1e6).round() / 1e6 + 0.0
}
