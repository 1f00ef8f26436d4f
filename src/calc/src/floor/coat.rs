//! One coat of a floor from its record, checked field by field.

use super::{Bay, Coat, Cracks, Done, Team, UnderWay, bays, meters, since};
use crate::conditions::{Conditions, Course};
use crate::coverage::Coverage;
use crate::crew::Crew;
use crate::error::Error;
use crate::field::Field;
use crate::gear::Gear;
use crate::product::Product;
use crate::quantity::{Area, Figure, Length, Time, Volume, minutes, unit};
use crate::record::{CoatRecord, DoneRecord, FloorRecord, GearRecord, Role};
use crate::shape::Shape;

impl Coat {
    /// The coat of a record, with its product and the floor that it is laid on.
    pub(super) fn new(
        record: &CoatRecord,
        product: Product,
        floor: &FloorRecord,
        (shape, crew, cracks): (&Shape, &Crew, Option<Cracks>),
        first: bool,
    ) -> Result<Self, Error> {
        let (bays, teams) = bays_and_teams(record, product.role(), shape, crew)?;
        let Hours { starts, begins, resumes } = Hours::new(record)?;
        let coverage = coverage(&product, floor, cracks, first)?;
        let (brushed, used_otherwise) = brushed_and_used(record)?;
        let bay = |given: u32| bay_index(given, bays.len());
        let done = record.done.iter().map(|done| Done::new(done, starts, bay));
        let under_way = record.under_way.iter().map(|batch| UnderWay::new(batch, starts, bay));
        Ok(Self {
            gear: gear(floor, &product)?,
            course: Course::new(Conditions::try_from(&record.conditions)?, &record.course, begins)?
                .tonight(&record.tonight)?,
            begins,
            coverage,
            on_hand: record.on_hand_l.map(|l| Field::OnHand.check(liters(l))).transpose()?,
            verticals_done: record.verticals_done,
            brushed,
            used_otherwise,
            resumes,
            done: done.collect::<Result<_, _>>()?,
            under_way: under_way.collect::<Result<_, _>>()?,
            bays,
            teams,
            product,
        })
    }
}

impl Done {
    /// The batch of a record, for a coat that starts at a time of day and has such bays.
    fn new(
        record: &DoneRecord,
        starts: Time,
        bay: impl Fn(u32) -> Result<usize, Error>,
    ) -> Result<Self, Error> {
        let mixed = Field::OnHand.check(liters(record.mixed_l))?;
        let rolled_in = record.rolled_in_min.map(minutes);
        Ok(Self {
            bay: bay(record.bay)?,
            ended_at: Field::EndedAt.check(meters(record.ended_at_m))?,
            mixed,
            rolled_in: rolled_in.map(|time| Field::Took.check(time)).transpose()?,
            begun: match record.begun_min {
                Some(at) => Some(since(starts, Field::StartsAt.check(minutes(at))?)),
                None => None,
            },
        })
    }
}

/// When a coat begins and when it goes on.
struct Hours {
    /// The time of day at which it begins.
    starts: Time,
    /// The same moment, from midnight of the first day.
    begins: Time,
    /// How long after that the next batch is mixed.
    resumes: Time,
}

impl Hours {
    /// The hours of a record, each within its range.
    fn new(record: &CoatRecord) -> Result<Self, Error> {
        let starts = Field::StartsAt.check(minutes(record.start_min))?;
        let resumes = match record.resumes_min {
            Some(at) => since(starts, Field::StartsAt.check(minutes(at))?),
            None => Time::default(),
        };
        Field::Day.check(Figure::Count(record.day))?;
        let begins = starts + minutes(24.0 * 60.0) * f64::from(record.day);
        Ok(Self { starts, begins, resumes: resumes.max(Time::default()) })
    }
}

/// A volume from a number of liters.
fn liters(value: f64) -> Volume {
    Volume::new::<unit::liter>(value)
}

/// The bays between the tape lines of a coat, and the teams that lay them.
fn bays_and_teams(
    record: &CoatRecord,
    role: Role,
    shape: &Shape,
    crew: &Crew,
) -> Result<(Vec<Bay>, Vec<Team>), Error> {
    // Cracks run where they run.
    let lines: Vec<Length> = match role {
        Role::Filler => Vec::new(),
        _ => record.tape_lines_m.iter().copied().map(meters).collect(),
    };
    let crews = Field::Crews.check(record.crews)?;
    let bays = bays::bays(shape, &lines, crews as usize)?;
    let teams = bays::teams(crew, &bays)?;
    Ok((bays, teams))
}

/// The index of a bay that a record names, where a coat has so many.
fn bay_index(bay: u32, bays: usize) -> Result<usize, Error> {
    let count = u32::try_from(bays).unwrap_or(u32::MAX);
    if bay < count {
        return Ok(bay as usize);
    }
    // People count them from one.
    let [given, low, high] = [bay.saturating_add(1), 1, count].map(Figure::Count);
    Err(Error::OutOfRange { field: Field::Bay, given, low, high })
}

/// How far a product goes on this floor, with the take-up of the first coat and the loss.
fn coverage(
    product: &Product,
    floor: &FloorRecord,
    cracks: Option<Cracks>,
    first: bool,
) -> Result<Coverage, Error> {
    let loss = floor.loss_percent / 100.0;
    let take_up = if first { floor.take_up_percent / 100.0 } else { 0.0 };
    product
        .coverage(take_up, loss, cracks.map(|cracks| cracks.depth))?
        .ok_or(Error::Missing { field: Field::CrackLength })
}

/// The area of walls and steps that is down, and what was mixed for it or thrown away.
fn brushed_and_used(record: &CoatRecord) -> Result<(Area, Volume), Error> {
    let mut brushed = Area::default();
    let mut used = Field::OnHand.check(liters(record.discarded_l.unwrap_or_default()))?;
    for batch in &record.brushed {
        let area = Area::new::<unit::square_meter>(batch.area_m2);
        brushed += Field::AreaLeft.check(area)?;
        used += Field::OnHand.check(liters(batch.mixed_l))?;
    }
    Ok((brushed, used))
}

/// The gear of the floor, as the batches of a product are mixed with it.
fn gear(floor: &FloorRecord, product: &Product) -> Result<Gear, Error> {
    // A product that comes in no kits is measured, whatever the others are.
    let kits = floor.gear.kits.filter(|_| !product.kits().is_empty());
    Gear::new(&GearRecord { kits, ..floor.gear }, product.kits())
}
