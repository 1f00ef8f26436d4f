//! A whole floor: its shape, what stands up from it, and one coat after another.
//!
//! A coat is laid in the order people work: cracks for a filler, else walls and steps by brush,
//! then the flat from the back wall to the door. Each batch meets its bounds ([`crate::batch`]) at its
//! own hour, on the floor as it is there; as few as will do, and shared evenly among them. Tape lines
//! part the flat into bays, which one crew lays after the other, or several at the same time.

mod bare;
mod bays;
mod coat;
mod explain;
mod lanes;
mod lay;
mod learn;
mod plan;
mod share;
mod under_way;
mod ways;

use crate::conditions::Course;
use crate::coverage::Coverage;
use crate::crew::Crew;
use crate::error::Error;
use crate::field::Field;
use crate::gear::Gear;
use crate::product::Product;
use crate::quantity::{Area, Figure, Length, Time, Volume, minutes, unit};
use crate::record::{
    CoatRecord, CrackRecord, FloorRecord, ProductRecord, RectangleRecord, Role, StemWallRecord,
    StepsRecord, check_date,
};
use crate::shape::{Rectangle, Shape};
use crate::surface::Readings;

pub use bays::{Bay, Team};
pub use learn::Learnt;
pub use plan::{CoatPlan, Place, Placed, Stopped};
pub use under_way::UnderWay;
pub use ways::{Way, WayOut};

/// A checked floor with its coats.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// The flat part of the floor as rectangles seen from above.
    pub shape: Shape,
    /// Walls and steps, if there are any.
    pub verticals: Option<Verticals>,
    /// Cracks, if there are any.
    pub cracks: Option<Cracks>,
    /// Width of the edge that is cut in by brush.
    pub cut_in: Length,
    /// Each batch may end at a joint or a tape line.
    pub ends_at_joint: bool,
    /// Everybody who is here to lay it, and how fast they work.
    pub crew: Crew,
    /// What was read of the surface.
    pub surface: Readings,
    /// The coats, in order.
    pub coats: Vec<Coat>,
}

/// What stands up from the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verticals {
    /// Walls, treads, risers and open sides together.
    pub area: Area,
    /// Their length together: of walls, and of treads.
    pub length: Length,
}

/// Cracks together, as one of the same length and volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cracks {
    /// Length of all cracks together, end to end.
    pub length: Length,
    /// Width, weighed by length.
    pub width: Length,
    /// Depth that gives the volume.
    pub depth: Length,
}

/// One layer of one product over the floor, with its figures checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Coat {
    /// The product that this coat is made of.
    pub product: Product,
    /// The pail and the measures that its batches are mixed with.
    pub gear: Gear,
    /// How warm it is, and how that goes on.
    pub course: Course,
    /// When it begins, from midnight of the first day.
    pub begins: Time,
    /// Film thickness with take-up and loss, which turns area into volume.
    pub coverage: Coverage,
    /// Parts of the flat that are laid by themselves, from the left.
    pub bays: Vec<Bay>,
    /// The crews that lay them at the same time.
    pub teams: Vec<Team>,
    /// How much of it is here.
    pub on_hand: Option<Volume>,
    /// Walls and steps are done.
    pub verticals_done: bool,
    /// What of them is down already.
    pub brushed: Area,
    /// What was mixed for that, or thrown away.
    pub used_otherwise: Volume,
    /// How long after that the next batch is mixed, where some are down.
    pub resumes: Time,
    /// Batches that are down, in order.
    pub done: Vec<Done>,
    /// Batches that are under way.
    pub under_way: Vec<UnderWay>,
}

/// A batch that is down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Done {
    /// Index of the bay it lies in, from the left, counted from 0.
    pub bay: usize,
    /// Where it really ended: distance from the back wall, or along the cracks.
    pub ended_at: Length,
    /// How much was mixed for it.
    pub mixed: Volume,
    /// How long rolling it took, where that was seen.
    pub rolled_in: Option<Time>,
    /// When A met B, from when the coat begins, where that is known.
    pub begun: Option<Time>,
}

/// How long after a coat begins it is at a time of day. One that is more than half a day before that
/// is after midnight: a coat is begun early, but not by so much.
fn since(begins: Time, at: Time) -> Time {
    let half_a_day = minutes(12.0 * 60.0);
    let since = at - begins;
    if since < -half_a_day { since + half_a_day * 2.0 } else { since }
}

fn meters(value: f64) -> Length {
    Length::new::<unit::meter>(value)
}

impl Verticals {
    /// Walls and steps, by their surfaces.
    ///
    /// A wall has length × height. A flight of `n` steps has `n` treads and `n` risers, and each
    /// open side the stairs of its profile, `tread · riser · n(n + 1)/2`. `None` when there is
    /// nothing.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the measure.
    ///
    /// ```
    /// use pailwise_calc::floor::Verticals;
    /// use pailwise_calc::record::StepsRecord;
    /// let flight =
    ///     StepsRecord { count: 3, width_m: 1.0, tread_m: 0.3, riser_m: 0.2, open_sides: 1 };
    /// // 3 × 0.3 + 3 × 0.2 + 0.06 × (1 + 2 + 3) m².
    /// let steps = Verticals::new(&[], &[flight]).unwrap().unwrap();
    /// assert!((steps.area.value - 1.86).abs() < 1e-12);
    /// ```
    pub fn new(walls: &[StemWallRecord], steps: &[StepsRecord]) -> Result<Option<Self>, Error> {
        let (mut area, mut length) = (0.0, 0.0);
        for wall in walls {
            let long = Field::WallLength.check(meters(wall.length_m))?;
            let high = Field::WallHeight.check(meters(wall.height_m))?;
            area += (long * high).value;
            length += long.value;
        }
        for flight in steps {
            let count = f64::from(Field::StepCount.check(flight.count)?);
            let width = Field::StepWidth.check(meters(flight.width_m))?.value;
            let tread = Field::StepTread.check(meters(flight.tread_m))?.value;
            let riser = Field::StepRiser.check(meters(flight.riser_m))?.value;
            let sides = f64::from(Field::OpenSides.check(flight.open_sides)?);
            area += count * width * (tread + riser);
            area += sides * tread * riser * count * (count + 1.0) / 2.0;
            length += count * width;
        }
        let area = Area::new::<unit::square_meter>(area);
        Ok((length > 0.0).then(|| Self { area, length: meters(length) }))
    }
}

impl Cracks {
    fn new(cracks: &[CrackRecord]) -> Result<Option<Self>, Error> {
        let mm = Length::new::<unit::millimeter>;
        let (mut length, mut area, mut volume) = (0.0, 0.0, 0.0);
        for crack in cracks {
            let long = Field::CrackLength.check(meters(crack.length_m))?.value;
            let wide = Field::CrackWidth.check(mm(crack.width_mm))?.value;
            let deep = Field::CrackDepth.check(mm(crack.depth_mm))?.value;
            length += long;
            area += long * wide;
            volume += long * wide * deep;
        }
        let of = |length: f64| Self {
            length: meters(length),
            width: meters(area / length),
            depth: meters(volume / area),
        };
        Ok((length > 0.0).then(|| of(length)))
    }
}

impl TryFrom<&FloorRecord> for Floor {
    type Error = Error;

    /// Checks a record field by field.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{demo, error::Error, floor::Floor};
    /// let mut record = demo::floor();
    /// record.flat.clear();
    /// assert_eq!(Floor::try_from(&record), Err(Error::Missing {
    ///     field: pailwise_calc::field::Field::Rectangles,
    /// }));
    /// ```
    fn try_from(record: &FloorRecord) -> Result<Self, Error> {
        Self::of(record, |product| Product::try_from(product))
    }
}

impl Floor {
    /// The floor of a record whose products somebody else checks, who may have done so before: to check
    /// one takes longer than all the rest.
    ///
    /// # Errors
    /// As from the record alone, and what the check of a product finds.
    ///
    /// ```
    /// use pailwise_calc::{demo, floor::Floor, product::Product};
    /// let record = demo::floor();
    /// let floor = Floor::of(&record, |product| Product::try_from(product));
    /// assert_eq!(floor, Floor::try_from(&record));
    /// ```
    pub fn of(
        record: &FloorRecord,
        mut product: impl FnMut(&ProductRecord) -> Result<Product, Error>,
    ) -> Result<Self, Error> {
        let rectangle = |r: &RectangleRecord| Rectangle {
            left: meters(r.left_m),
            back: meters(r.back_m),
            width: meters(r.width_m),
            depth: meters(r.depth_m),
        };
        record.first_day.as_deref().map(check_date).transpose()?;
        if record.flat.is_empty() {
            return Err(Error::Missing { field: Field::Rectangles });
        }
        let many = u32::try_from(record.flat.len() + record.cut_out.len()).unwrap_or(u32::MAX);
        Field::Rectangles.check(many)?;
        let flat: Vec<_> = record.flat.iter().map(rectangle).collect();
        let cut: Vec<_> = record.cut_out.iter().map(rectangle).collect();
        let cracks = Cracks::new(&record.cracks)?;
        let coats = u32::try_from(record.coats.len()).unwrap_or(u32::MAX);
        Field::Coats.check(Figure::Count(coats))?;
        // A rough slab soaks up of the first coat only; paste in the cracks is none.
        let first = record.coats.iter().position(|coat| coat.product.role != Role::Filler);
        let (shape, crew) = (Shape::new(&flat, &cut)?, Crew::try_from(&record.crew)?);
        let of = (&shape, &crew, cracks);
        let coats = record.coats.iter().enumerate();
        let mut coat = |(i, coat): (usize, &CoatRecord)| {
            Coat::new(coat, product(&coat.product)?, record, of, Some(i) == first)
        };
        let coats = coats.map(&mut coat);
        let coats = coats.collect::<Result<_, _>>()?;
        let floor = Self {
            verticals: Verticals::new(&record.stem_walls, &record.steps)?,
            cracks,
            cut_in: Field::CutIn.check(meters(record.cut_in_m))?,
            ends_at_joint: record.ends_at_joint,
            surface: Readings::try_from(&record.surface)?,
            shape,
            crew,
            coats,
        };
        for (coat, done) in
            floor.coats.iter().flat_map(|coat| coat.done.iter().map(move |d| (coat, d)))
        {
            let ends = floor.end(coat, done.bay);
            // A hand's breadth over the threshold is no mistake.
            if done.ended_at > ends + Length::new::<unit::millimeter>(100.0) {
                let (low, high) = (Length::default().into(), ends.into());
                let given = done.ended_at.into();
                return Err(Error::OutOfRange { field: Field::EndedAt, given, low, high });
            }
        }
        Ok(floor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use approx::assert_relative_eq;

    #[test]
    fn cracks_together_keep_length_and_volume() {
        let crack = |length_m, width_mm, depth_mm| CrackRecord { length_m, width_mm, depth_mm };
        let cracks = Cracks::new(&[crack(10.0, 6.0, 10.0), crack(5.0, 12.0, 20.0)]).unwrap();
        let cracks = cracks.unwrap();
        assert_relative_eq!(cracks.length.value, 15.0, max_relative = 1e-12);
        let volume = (cracks.length * cracks.width * cracks.depth).value;
        assert_relative_eq!(volume, 10.0 * 0.006 * 0.01 + 5.0 * 0.012 * 0.02, max_relative = 1e-12);
    }

    /// Begun at eight in the evening, it goes on at half past midnight: of the next day.
    #[test]
    fn a_coat_goes_on_past_midnight() {
        let mut record = demo::floor();
        record.coats[0].start_min = 20.0 * 60.0;
        let resumes = |at: f64| {
            let mut record = record.clone();
            record.coats[0].resumes_min = Some(at);
            Floor::try_from(&record).unwrap().coats[0].resumes.get::<unit::minute>()
        };
        assert_relative_eq!(resumes(30.0), 4.5 * 60.0, max_relative = 1e-12);
        assert_relative_eq!(resumes(21.0 * 60.0), 60.0, max_relative = 1e-12);
        // Begun a little before its time it goes on at its beginning.
        assert_relative_eq!(resumes(19.0 * 60.0), 0.0);
    }

    #[test]
    fn a_filler_without_cracks_is_missing_them() {
        let mut record = demo::floor();
        record.cracks.clear();
        record.coats[0].product = demo::record_filler();
        assert_eq!(Floor::try_from(&record), Err(Error::Missing { field: Field::CrackLength }));
    }
}
