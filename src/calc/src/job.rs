//! The whole of what a batch is asked for, checked.

use crate::conditions::Conditions;
use crate::coverage::Coverage;
use crate::crew::Crew;
use crate::edge_before::EdgeBefore;
use crate::error::Error;
use crate::field::Field;
use crate::gear::Gear;
use crate::mixing::Mixing;
use crate::product::Product;
use crate::quantity::{Area, Figure, Length, unit};
use crate::record::{BareRecord, InPlanRecord, JobRecord, Role, SideAcrossRecord};

/// A product, how warm it is, who lays it, where, and with what.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The resin to be mixed and laid, with its checked data sheet.
    pub product: Product,
    /// How warm it is.
    pub conditions: Conditions,
    /// The people who lay it, and how fast they work.
    pub crew: Crew,
    /// The bare floor or open cracks that the batch can be laid on.
    pub bare: Bare,
    /// The pail, the measure and the kit rule the crew works with.
    pub gear: Gear,
    /// What else the people who mix are wanted for.
    pub mixing: Mixing,
}

/// Floor that is still bare, or cracks still open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bare {
    /// Area; for cracks, length times width.
    pub area: Area,
    /// Width across the direction of work.
    pub width: Length,
    /// The film to be laid, with take-up and loss, that sets the volume needed.
    pub coverage: Coverage,
    /// The edge need not stay wet.
    pub ends_at_joint: bool,
    /// Edges that are cut in by brush.
    pub cut_in: CutIn,
    /// The wet edge that the batch before left here.
    pub meets: Option<EdgeBefore>,
}

/// Edges to be cut in by brush: so much where a batch begins, so much more as it goes on, and a
/// side across where the floor widens, narrows or ends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CutIn {
    /// Where it begins, by area of the brushed edge.
    pub at_start: Area,
    /// For each area of floor.
    pub per_area: f64,
    /// What comes all at once further on, nearest first.
    pub corners: [Corner; 4],
    /// What the next batch meets in its first strip in any case, by area of the brushed edge.
    pub ahead: Area,
}

/// A side across that a batch meets once it is so large.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Corner {
    /// A batch larger than this.
    pub beyond: Area,
    /// By area of the brushed edge: as much as is not counted with the floor before it.
    pub edge: Area,
    /// All of it, as the next batch brushes it.
    pub whole: Area,
}

impl CutIn {
    /// What a batch of an area brushes where it begins, and as it goes on. People who only cut in
    /// brush a side across as it comes; without them it is brushed before it is reached, so that no
    /// patch waits longer than that.
    pub(crate) fn brushed(&self, area: Area, helped: bool) -> (Area, Area) {
        let (beside, across) = (area * self.per_area, self.across(area));
        if helped { (self.at_start, beside + across) } else { (self.at_start + across, beside) }
    }

    /// The sides across that the next batch meets in its first strip of an area, after one of another.
    /// It brushes them before it rolls along the edge of that; what it meets further on comes later.
    pub(crate) fn next_meets(&self, area: Area, strip: Area) -> Area {
        let next = |corner: &&Corner| corner.beyond >= area && corner.beyond < area + strip;
        let met: Area = self.corners.iter().filter(next).map(|corner| corner.whole).sum();
        self.ahead + met
    }

    /// The sides across that a batch of an area meets, by area of the brushed edge.
    ///
    /// ```
    /// use pailwise_calc::{job::{Corner, CutIn}, quantity::{Area, unit}};
    /// let m2 = Area::new::<unit::square_meter>;
    /// let mut cut_in = CutIn::default();
    /// cut_in.corners[0] = Corner { beyond: m2(4.0), edge: m2(0.2), whole: m2(0.2) };
    /// assert_eq!((cut_in.across(m2(4.0)), cut_in.across(m2(5.0))), (m2(0.0), m2(0.2)));
    /// ```
    pub fn across(&self, area: Area) -> Area {
        self.corners.iter().filter(|corner| area > corner.beyond).map(|corner| corner.edge).sum()
    }
}

impl CutIn {
    /// The sides across that a plan knows of; of an earlier version no more than their sums.
    fn take_sides(&mut self, plan: &InPlanRecord) -> Result<(), Error> {
        let edge = |m2: f64| Field::EdgeAcross.check(Area::new::<unit::square_meter>(m2));
        self.corners[0].edge = edge(plan.edge_across_m2)?;
        self.ahead = edge(plan.edge_ahead_m2)?;
        for (corner, side) in self.corners.iter_mut().zip(plan.sides_across.iter().flatten()) {
            let [beyond, counted, whole] = [side.beyond_m2, side.edge_m2, side.whole_m2];
            let beyond = Field::SideBeyond.check(Area::new::<unit::square_meter>(beyond))?;
            *corner = Corner { beyond, edge: edge(counted)?, whole: edge(whole)? };
        }
        Ok(())
    }

    /// As a plan hands it on.
    pub(crate) fn sides(&self) -> [SideAcrossRecord; 4] {
        let m2 = |area: Area| area.get::<unit::square_meter>();
        self.corners.map(|corner| SideAcrossRecord {
            beyond_m2: m2(corner.beyond),
            edge_m2: m2(corner.edge),
            whole_m2: m2(corner.whole),
        })
    }
}

impl Bare {
    /// One of so many bays of it, side by side: as wide and as large as its share.
    pub(crate) fn parted(&self, bays: u32) -> Self {
        let share = 1.0 / f64::from(bays);
        let corner = |c: Corner| Corner {
            beyond: c.beyond * share,
            edge: c.edge * share,
            whole: c.whole * share,
        };
        let cut_in = CutIn {
            at_start: self.cut_in.at_start * share,
            corners: self.cut_in.corners.map(corner),
            ahead: self.cut_in.ahead * share,
            ..self.cut_in
        };
        Self { area: self.area * share, width: self.width * share, cut_in, meets: None, ..*self }
    }
}

impl Job {
    fn bare(record: &BareRecord, product: &Product) -> Result<Bare, Error> {
        let millimeters = Length::new::<unit::millimeter>;
        let loss = record.loss_percent / 100.0;
        let width = Length::new::<unit::meter>(record.width_m);
        let filler = product.role() == Role::Filler;
        let coverage = product
            .coverage(record.take_up_percent / 100.0, loss, record.crack_depth_mm.map(millimeters))?
            .ok_or(Error::Missing { field: Field::CrackDepth })?;
        let (mut went, mut cut_in, mut meets) = (1.0, CutIn::default(), None);
        if let Some(plan) = &record.in_plan {
            went = Field::WentSoFar.check_share(plan.went)?;
            let at_start = Area::new::<unit::square_meter>(plan.edge_at_start_m2);
            Field::EdgePerArea.check(Figure::Number(plan.edge_per_m2))?;
            cut_in.at_start = Field::EdgeAtStart.check(at_start)?;
            cut_in.per_area = plan.edge_per_m2;
            cut_in.take_sides(plan)?;
            meets = plan.edge_before.as_ref().map(EdgeBefore::try_from).transpose()?;
        }
        Ok(Bare {
            area: Field::AreaLeft.check(Area::new::<unit::square_meter>(record.area_m2))?,
            width: if filler { Field::CrackWidth } else { Field::Width }.check(width)?,
            coverage: coverage.with_yield(went),
            // Cracks have no edge to keep wet.
            ends_at_joint: record.ends_at_joint || filler,
            cut_in,
            meets,
        })
    }
}

impl TryFrom<&JobRecord> for Job {
    type Error = Error;

    /// Checks a record field by field.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let mut record = demo::job();
    /// record.bare.area_m2 = -3.0;
    /// let wrong = Job::try_from(&record).unwrap_err();
    /// assert_eq!(wrong.to_string(), "area_m2: -3 m² is outside 0.0001 m² to 100000 m²");
    /// ```
    fn try_from(record: &JobRecord) -> Result<Self, Error> {
        Self::of(Product::try_from(&record.product)?, record)
    }
}

impl Job {
    /// The job of a record whose product is checked already: to check that takes longer than all
    /// the rest.
    ///
    /// # Errors
    /// As from the record alone, but for its product.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let record = demo::job();
    /// assert_eq!(Job::of(demo::base().unwrap(), &record), Job::try_from(&record));
    /// ```
    pub fn of(product: Product, record: &JobRecord) -> Result<Self, Error> {
        let crew = Crew::try_from(&record.crew)?;
        let pace = record.bare.in_plan.map_or(1.0, |plan| plan.pace);
        let roll = crew.roll * Field::PaceSoFar.check_share(pace)?;
        Ok(Self {
            conditions: Conditions::try_from(&record.conditions)?,
            crew: Crew { roll, ..crew },
            bare: Self::bare(&record.bare, &product)?,
            gear: Gear::new(&record.gear, product.kits())?,
            mixing: record.bare.in_plan.as_ref().map_or(Ok(Mixing::default()), Mixing::try_from)?,
            product,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn a_filler_asks_for_the_depth_of_the_crack() {
        let mut record = demo::job();
        record.product = demo::record_filler();
        record.bare.width_m = 0.006;
        assert_eq!(Job::try_from(&record), Err(Error::Missing { field: Field::CrackDepth }));
        record.bare.crack_depth_mm = Some(12.0);
        let job = Job::try_from(&record).unwrap();
        assert!(job.bare.ends_at_joint);
        record.product = demo::record_base();
        assert!(matches!(
            Job::try_from(&record),
            Err(Error::OutOfRange { field: Field::Width, .. })
        ));
    }
}
