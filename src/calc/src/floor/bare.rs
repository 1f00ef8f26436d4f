//! What of a coat is still bare, and how that looks: its area and width, and the edges that are cut
//! in by brush.

use super::{Coat, CoatPlan, Cracks, Floor, Learnt, Place};
use crate::coverage::Coverage;
use crate::crew::Crew;
use crate::job::{Bare, CutIn};
use crate::quantity::{Area, Length, Volume, unit};
use crate::record::Role;
use crate::shape::Shape;

/// A part of a coat: where it is, how much is left, and how the bare part looks.
pub(super) struct WorkFront {
    pub(super) place: Place,
    pub(super) bare: Bare,
    pub(super) crew: Crew,
    /// The most that one batch of it is given.
    pub(super) share: Option<Volume>,
}

/// Farther than any floor goes.
fn far() -> Length {
    Length::new::<unit::meter>(1e6)
}

impl Floor {
    /// What is taken by all that no batch is planned for, of bays that have come so far.
    pub(super) fn unplanned(&self, coat: &Coat, plan: &CoatPlan, reached: &[Length]) -> Volume {
        if plan.stopped.is_none() {
            return Volume::default();
        }
        let (went, _) = plan.learnt.map_or((1.0, 1.0), |learnt| learnt.planned());
        let bays = (0..).zip(reached);
        let flat: Area = bays.map(|(bay, from)| self.between(coat, bay, (*from, far()))).sum();
        let brushed = plan.batches.iter().filter(|p| p.place == Place::Verticals);
        let brushed = coat.brushed + brushed.map(|placed| placed.batch.area).sum();
        let standing = self.verticals.filter(|_| self.stands_up(coat));
        let standing = standing.map_or(Area::default(), |verticals| verticals.area - brushed);
        coat.coverage.with_yield(went).volume_for(flat + standing.max(Area::default()))
    }

    /// Whether a coat still has walls and steps before it.
    pub(super) fn stands_up(&self, coat: &Coat) -> bool {
        self.cracks_of(coat).is_none() && !coat.verticals_done
    }

    /// The cracks, for a coat that fills them.
    fn cracks_of(&self, coat: &Coat) -> Option<Cracks> {
        self.cracks.filter(|_| coat.product.role() == Role::Filler)
    }

    /// The floor of a bay.
    fn floor_of<'a>(&'a self, coat: &'a Coat, bay: usize) -> &'a Shape {
        coat.bays.get(bay).map_or(&self.shape, |bay| &bay.shape)
    }

    /// Where a bay of a coat begins.
    pub(super) fn begin(&self, coat: &Coat, bay: usize) -> Length {
        self.cracks_of(coat).map_or(self.floor_of(coat, bay).back(), |_| Length::default())
    }

    /// Where a bay of a coat ends.
    pub(super) fn end(&self, coat: &Coat, bay: usize) -> Length {
        self.cracks_of(coat).map_or(self.floor_of(coat, bay).front(), |cracks| cracks.length)
    }

    /// How far a bay of a coat has come.
    ///
    /// ```
    /// use pailwise_calc::{demo, floor::Floor};
    /// let floor = Floor::try_from(&demo::floor()).unwrap();
    /// assert_eq!(floor.reached(&floor.coats[0], 0), floor.shape.back());
    /// ```
    pub fn reached(&self, coat: &Coat, bay: usize) -> Length {
        let begin = self.begin(coat, bay);
        let last = coat.done.iter().rfind(|done| done.bay == bay);
        last.map_or(begin, |done| done.ended_at.max(begin))
    }

    /// The people of a bay of a coat, at its own work.
    pub(super) fn hands(&self, coat: &Coat, bay: usize) -> Crew {
        let team = coat.bays.get(bay).and_then(|bay| coat.teams.get(bay.team));
        let crew = team.map_or(&self.crew, |team| &team.crew);
        self.cracks_of(coat).map_or(*crew, |cracks| crew.filling(cracks.width))
    }

    /// The area of a bay of a coat between two places.
    pub(super) fn between(&self, coat: &Coat, bay: usize, (from, to): (Length, Length)) -> Area {
        match self.cracks_of(coat) {
            Some(cracks) => (to.min(cracks.length) - from).max(Length::default()) * cracks.width,
            None => self.floor_of(coat, bay).area_between(from, to),
        }
    }

    /// Where an area of a bay of a coat ends that begins at a place.
    pub(super) fn reach(&self, coat: &Coat, bay: usize, from: Length, area: Area) -> Length {
        match self.cracks_of(coat) {
            Some(cracks) => (from + area / cracks.width).min(cracks.length),
            None => self.floor_of(coat, bay).reach(from, area),
        }
    }

    /// What of a bay is still bare from a place on; `None` when nothing is.
    pub(super) fn front(
        &self,
        coat: &Coat,
        learnt: Option<Learnt>,
        (bay, from): (usize, Length),
    ) -> Option<WorkFront> {
        let (went, quicker) = learnt.map_or((1.0, 1.0), |learnt| learnt.planned());
        let coverage = coat.coverage.with_yield(went);
        let hands = self.hands(coat, bay);
        let crew = Crew { roll: hands.roll * quicker, ..hands };
        let area = self.between(coat, bay, (from, far()));
        if area.value <= 1e-6 {
            return None;
        }
        let cracks = self.cracks_of(coat);
        let (place, width, cut_in) = if let Some(cracks) = cracks {
            (Place::Cracks { from, to: far() }, cracks.width, CutIn::default())
        } else {
            let shape = self.floor_of(coat, bay);
            let most = coat.most(&coverage);
            let to = shape.reach(from, most.min(area));
            let width = shape.widest(from, to);
            let next = shape.reach(from, (most * 2.0).min(area));
            let cut_in = cut_in(shape, self.cut_in, (from, to, next));
            (Place::Flat { bay, from, to: far() }, width, cut_in)
        };
        let ends_at_joint = self.ends_at_joint || cracks.is_some();
        let bare = Bare { area, width, coverage, ends_at_joint, cut_in, meets: None };
        Some(WorkFront { place, bare, crew, share: None })
    }
}

impl Coat {
    /// The most that any batch can cover.
    fn most(&self, coverage: &Coverage) -> Area {
        coverage.area_from(self.fullest())
    }

    /// The most that any pail can hold.
    pub(super) fn fullest(&self) -> Volume {
        let by_mass = self.gear.largest_mass() / self.product.ratio().density();
        self.gear.vessel.working_capacity().min(by_mass)
    }
}

/// Edges of a batch that begins at a place and ends no later than another: what is brushed where it
/// begins, the most that comes with each area of its sides, and the sides across, those that the
/// next batch may meet as well. Never less than there is up to any place in it.
fn cut_in(shape: &Shape, brush: Length, (from, to, next): (Length, Length, Length)) -> CutIn {
    let edges = |to: Length| shape.edges(from, to) * brush;
    let area = |to: Length| shape.area_between(from, to);
    let hair = Length::new::<unit::millimeter>(1.0);
    let first = (from + hair).min(to);
    let at_start = edges(first);
    let corners: Vec<Length> =
        shape.corners().filter(|corner| *corner > first && *corner < to).collect();
    let further = shape.corners().filter(|corner| *corner >= to && *corner < next);
    let further: Vec<Length> = further.collect();
    // Along the sides, from just past one corner to just before the next.
    let begins = [first].into_iter().chain(corners.iter().map(|corner| *corner + hair));
    let ends = corners.iter().copied().chain([to]).map(|corner| corner - hair);
    let rates = begins
        .zip(ends)
        .map(|(begin, end)| ((edges(end) - edges(begin)) / (area(end) - area(begin))).value);
    let per_area = rates.filter(|rate| rate.is_finite()).fold(0.0, f64::max);
    let mut cut_in = CutIn { at_start, per_area, ..CutIn::default() };
    let last = cut_in.corners.len() - 1;
    let met = corners.into_iter().chain([to]).chain(further).chain([next]);
    for (i, corner) in met.enumerate() {
        // At its end the floor has a side across only if it ends there.
        let beyond = area((corner - hair).max(from));
        let there = edges((corner + hair).min(next));
        let counted = at_start + beyond * per_area + cut_in.across(beyond * (1.0 + 1e-9));
        let edge = (there - counted).max(Area::default());
        let before = edges((corner - hair).max(from));
        // More of them than there is room for are met with the last.
        let place = &mut cut_in.corners[i.min(last)];
        place.edge += edge;
        place.whole += (there - before).max(Area::default());
        if i <= last {
            place.beyond = beyond;
        }
    }
    cut_in
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::demo;
    use crate::record::RectangleRecord;

    /// A room that widens by half two metres in; edges of a hand's breadth.
    pub(in crate::floor) fn widening() -> Floor {
        let part =
            |width_m, depth_m, back_m| RectangleRecord { width_m, depth_m, left_m: 0.0, back_m };
        let mut record = demo::floor();
        record.flat = vec![part(6.0, 2.0, 0.0), part(9.0, 4.0, 2.0)];
        record.cut_in_m = 0.1;
        Floor::try_from(&record).unwrap()
    }

    #[test]
    fn edges_are_never_fewer_than_there_are_and_hardly_more() {
        let floor = widening();
        let m = Length::new::<unit::meter>;
        for from in [0.0, 0.7, 1.5, 1.97, 1.9995, 2.0, 3.0] {
            for deep in [0.4, 1.0, 3.0, 10.0] {
                let (from, to) = (m(from), m(from + deep).min(floor.shape.front()));
                let cut_in = cut_in(&floor.shape, floor.cut_in, (from, to, to));
                let counted =
                    |area: Area| cut_in.at_start + area * cut_in.per_area + cut_in.across(area);
                for share in [0.05, 0.3, 0.6, 1.0] {
                    let end = from + (to - from) * share;
                    let area = floor.shape.area_between(from, end);
                    let there = floor.shape.edges(from, end) * floor.cut_in;
                    let counted = counted(area);
                    assert!(
                        counted >= there * (1.0 - 1e-9),
                        "{from:?} {end:?}: {counted:?} {there:?}"
                    );
                    // The steepest of its sides counts all along.
                    let most = there * 1.4 + Area::new::<unit::square_meter>(0.05);
                    assert!(counted <= most, "{from:?} {end:?}: {counted:?} {there:?}");
                }
            }
        }
    }
}
