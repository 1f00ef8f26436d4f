//! The floor seen from above: rectangles added and cut out.
//!
//! Distances run from the back wall towards the door, the way a crew works; `left` runs along the
//! back wall. Everything is exact for rectangles: the plane is cut into strips at every edge, and
//! in each strip the floor is the union of what is added less what is cut out.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Area, Length, unit};
use crate::sorted::sorted_by;

/// A rectangle of floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rectangle {
    /// From the left end of the back wall to its left side.
    pub left: Length,
    /// From the back wall to its back side.
    pub back: Length,
    /// Along the back wall.
    pub width: Length,
    /// Away from the back wall.
    pub depth: Length,
}

impl Rectangle {
    fn check(&self) -> Result<(), Error> {
        Field::PlanOffset.check(self.left)?;
        Field::PlanOffset.check(self.back)?;
        Field::PlanSize.check(self.width)?;
        Field::PlanSize.check(self.depth)?;
        Ok(())
    }

    fn across(&self) -> (f64, f64) {
        (self.left.value, self.left.value + self.width.value)
    }

    fn along(&self) -> (f64, f64) {
        (self.back.value, self.back.value + self.depth.value)
    }
}

/// The floor between two distances from the back wall, where its sides run straight.
#[derive(Clone, Debug, PartialEq)]
struct Strip {
    from: f64,
    to: f64,
    /// Where there is floor, from left to right.
    open: Vec<(f64, f64)>,
    /// So many of its sides are tape lines.
    taped: usize,
    /// Area of all strips before this one.
    before: f64,
}

impl Strip {
    fn width(&self) -> f64 {
        self.open.iter().map(|(left, right)| right - left).sum()
    }
}

/// A floor of one piece, or a bay of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    strips: Vec<Strip>,
}

/// Closer than this, in metres, is the same place.
const SAME: f64 = 1e-9;

impl Shape {
    /// The floor that rectangles add up to, less those that are cut out of it.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`] for a measure; [`Error::NoFloor`] when
    /// nothing is left; [`Error::CutsNothing`] for one that cuts no floor; [`Error::FloorApart`]
    /// for pieces that do not touch along a side.
    ///
    /// ```
    /// use pailwise_calc::shape::{Rectangle, Shape};
    /// use pailwise_calc::quantity::{Length, unit};
    /// let m = Length::new::<unit::meter>;
    /// let of = |left, back, width, depth| Rectangle {
    ///     left: m(left), back: m(back), width: m(width), depth: m(depth),
    /// };
    /// // An L: 6 × 4 m behind, 2 × 3 m before it. 24 + 6 m².
    /// let shop = Shape::new(&[of(0.0, 0.0, 6.0, 4.0), of(0.0, 4.0, 2.0, 3.0)], &[]).unwrap();
    /// assert!((shop.area().value - 30.0).abs() < 1e-12);
    /// // The last 2 m² lie in the leg: a metre of it.
    /// let band = shop.reach(m(6.0), shop.area_between(m(6.0), m(7.0)));
    /// assert!((band - m(7.0)).value.abs() < 1e-12);
    /// ```
    pub fn new(added: &[Rectangle], cut: &[Rectangle]) -> Result<Self, Error> {
        for rectangle in added.iter().chain(cut) {
            rectangle.check()?;
        }
        for (index, hole) in cut.iter().enumerate() {
            let meets = |(a0, a1): (f64, f64), (b0, b1): (f64, f64)| a1.min(b1) - a0.max(b0) > SAME;
            let cuts = |floor: &Rectangle| {
                meets(floor.across(), hole.across()) && meets(floor.along(), hole.along())
            };
            if !added.iter().any(cuts) {
                return Err(Error::CutsNothing { index });
            }
        }
        let edges = added.iter().chain(cut).flat_map(|r| [r.along().0, r.along().1]).collect();
        let mut edges: Vec<f64> = sorted_by(edges, |edge| *edge);
        edges.dedup_by(|b, a| *b - *a <= SAME);
        let mut strips: Vec<Strip> = Vec::with_capacity(edges.len());
        for pair in edges.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let there = |r: &&Rectangle| r.along().0 < to - SAME && r.along().1 > from + SAME;
            let floor = added.iter().filter(there).map(Rectangle::across).collect();
            let holes: Vec<_> = cut.iter().filter(there).map(Rectangle::across).collect();
            let open = less(&union(floor), &holes);
            strips.push(Strip { from, to, open, taped: 0, before: 0.0 });
        }
        Self::of(strips)
    }

    /// The part of it between two lines along the direction of work, which are tape lines where the
    /// floor goes on behind them: nothing is brushed there.
    ///
    /// # Errors
    /// [`Error::NoFloor`] where there is none between them; [`Error::FloorApart`] for pieces that do
    /// not touch along a side.
    ///
    /// ```
    /// use pailwise_calc::shape::{Rectangle, Shape};
    /// use pailwise_calc::quantity::{Length, unit};
    /// let m = Length::new::<unit::meter>;
    /// let room = Rectangle { left: m(0.0), back: m(0.0), width: m(6.0), depth: m(4.0) };
    /// let bay = Shape::new(&[room], &[]).unwrap().bay(m(0.0), m(2.0)).unwrap();
    /// assert!((bay.area().value - 8.0).abs() < 1e-12);
    /// // Back wall, door and the wall on its left; the tape line on its right is no edge.
    /// assert!((bay.edges(m(0.0), m(4.0)).value - (2.0 + 2.0 + 4.0)).abs() < 1e-12);
    /// ```
    pub fn bay(&self, left: Length, right: Length) -> Result<Self, Error> {
        let (left, right) = (left.value, right.value);
        let within = |(a, b): &(f64, f64)| (a.max(left), b.min(right));
        let goes_on = |line: f64, (a, b): &(f64, f64)| *a < line - SAME && *b > line + SAME;
        let strips = self.strips.iter().map(|strip| {
            let open = strip.open.iter().map(within).filter(|(a, b)| b - a > SAME).collect();
            let lines = [left, right].into_iter();
            let taped = lines.filter(|line| strip.open.iter().any(|open| goes_on(*line, open)));
            Strip { open, taped: taped.count(), ..strip.clone() }
        });
        Self::of(strips.collect())
    }

    /// The floor of strips in order, each behind the next.
    fn of(mut strips: Vec<Strip>) -> Result<Self, Error> {
        // Nothing stands behind the first floor or before the last.
        let some = |strip: &Strip| strip.width() > SAME;
        let first = strips.iter().position(some).ok_or(Error::NoFloor)?;
        let last = strips.iter().rposition(some).ok_or(Error::NoFloor)?;
        let mut shape = Self { strips: strips.drain(first..=last).collect() };
        let mut before = 0.0;
        for strip in &mut shape.strips {
            strip.before = before;
            before += strip.width() * (strip.to - strip.from);
        }
        match shape.apart() {
            Some((left, back)) => Err(Error::FloorApart { left, back }),
            None => Ok(shape),
        }
    }

    /// The whole of it.
    pub fn area(&self) -> Area {
        let last = self.strips.last();
        square(last.map_or(0.0, |s| s.before + s.width() * (s.to - s.from)))
    }

    /// Where it begins, as a distance from the back wall.
    pub fn back(&self) -> Length {
        meters(self.strips.first().map_or(0.0, |s| s.from))
    }

    /// How far its left side, and its right side, are from the left wall.
    pub fn sides(&self) -> (Length, Length) {
        let open = || self.strips.iter().flat_map(|strip| &strip.open);
        let left = open().map(|(left, _)| *left).fold(f64::INFINITY, f64::min);
        let right = open().map(|(_, right)| *right).fold(f64::NEG_INFINITY, f64::max);
        (meters(left), meters(right))
    }

    /// Returns how far its end towards the door is from the back wall.
    pub fn front(&self) -> Length {
        meters(self.strips.last().map_or(0.0, |s| s.to))
    }

    /// The area up to a distance from the back wall.
    fn area_to(&self, y: f64) -> f64 {
        let strip = self.strips.iter().rfind(|s| s.from <= y).or(self.strips.first());
        strip.map_or(0.0, |s| s.before + s.width() * (y.clamp(s.from, s.to) - s.from))
    }

    /// The area between two distances from the back wall.
    pub fn area_between(&self, from: Length, to: Length) -> Area {
        square((self.area_to(to.value) - self.area_to(from.value)).max(0.0))
    }

    /// Where a band of an area ends that begins at a distance from the back wall.
    ///
    /// The inverse of [`Shape::area_between`]; what is more than there is ends at the front.
    pub fn reach(&self, from: Length, area: Area) -> Length {
        let target = self.area_to(from.value) + area.value;
        let strip = self.strips.iter().rfind(|s| s.before <= target && s.width() > SAME);
        let Some(strip) = strip else { return from };
        let y = strip.from + (target - strip.before) / strip.width();
        meters(y.min(strip.to).max(from.value))
    }

    /// The widest it is between two distances from the back wall.
    pub fn widest(&self, from: Length, to: Length) -> Length {
        let within = self.strips.iter().filter(|s| s.to > from.value && s.from <= to.value);
        meters(within.map(Strip::width).fold(0.0, f64::max))
    }

    /// The boxes of floor between two distances from the back wall, for drawing.
    pub fn boxes(&self, from: Length, to: Length) -> Vec<Rectangle> {
        let mut boxes = Vec::new();
        for strip in &self.strips {
            let (low, high) = (strip.from.max(from.value), strip.to.min(to.value));
            if high - low > SAME {
                boxes.extend(strip.open.iter().map(|(left, right)| Rectangle {
                    left: meters(*left),
                    back: meters(low),
                    width: meters(right - left),
                    depth: meters(high - low),
                }));
            }
        }
        boxes
    }

    /// The length of its sides between two distances from the back wall, those across at `from`
    /// counted, those across at `to` only where the floor ends there.
    ///
    /// ```
    /// use pailwise_calc::shape::{Rectangle, Shape};
    /// use pailwise_calc::quantity::{Length, unit};
    /// let m = Length::new::<unit::meter>;
    /// let room = Rectangle { left: m(0.0), back: m(0.0), width: m(6.0), depth: m(4.0) };
    /// let shape = Shape::new(&[room], &[]).unwrap();
    /// // 2 × (6 + 4) m all round; 6 + 2 × 1 m for the first metre.
    /// assert!((shape.edges(m(0.0), m(4.0)) - m(20.0)).value.abs() < 1e-12);
    /// assert!((shape.edges(m(0.0), m(1.0)) - m(8.0)).value.abs() < 1e-12);
    /// ```
    pub fn edges(&self, from: Length, to: Length) -> Length {
        let (from, to) = (from.value, to.value);
        let mut length = 0.0;
        let mut behind: &[(f64, f64)] = &[];
        for strip in &self.strips {
            let inside = strip.to.min(to) - strip.from.max(from);
            if inside > 0.0 {
                length += (2 * strip.open.len()).saturating_sub(strip.taped) as f64 * inside;
            }
            if strip.from >= from - SAME && strip.from < to - SAME {
                length += across(behind, &strip.open);
            }
            behind = &strip.open;
        }
        if to >= self.front().value - SAME {
            length += across(behind, &[]);
        }
        meters(length)
    }

    /// Distances from the back wall at which its sides change, ends included.
    pub fn corners(&self) -> impl Iterator<Item = Length> + '_ {
        self.strips.iter().map(|s| meters(s.from)).chain([self.front()])
    }

    /// Where a piece begins that does not touch the rest along a side, from the left wall and from
    /// the back wall.
    fn apart(&self) -> Option<(Length, Length)> {
        // Boxes that touch along a side, from the first on.
        let boxes: Vec<(usize, (f64, f64))> = self
            .strips
            .iter()
            .enumerate()
            .flat_map(|(row, strip)| strip.open.iter().map(move |open| (row, *open)))
            .collect();
        let touch = |a: &(usize, (f64, f64)), b: &(usize, (f64, f64))| {
            a.0.abs_diff(b.0) == 1 && a.1.1.min(b.1.1) - a.1.0.max(b.1.0) > SAME
        };
        let mut reached = vec![false; boxes.len()];
        let mut next = vec![0];
        while let Some(i) = next.pop() {
            if std::mem::replace(&mut reached[i], true) {
                continue;
            }
            next.extend((0..boxes.len()).filter(|j| !reached[*j] && touch(&boxes[i], &boxes[*j])));
        }
        let (row, (left, _)) = boxes.get(reached.iter().position(|reached| !reached)?)?;
        Some((meters(*left), meters(self.strips.get(*row)?.from)))
    }
}

fn meters(value: f64) -> Length {
    Length::new::<unit::meter>(value)
}

fn square(value: f64) -> Area {
    Area::new::<unit::square_meter>(value)
}

/// Spans that may overlap, as spans that do not, from left to right.
fn union(spans: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    let mut joined: Vec<(f64, f64)> = Vec::with_capacity(spans.len());
    for span in sorted_by(spans, |span| span.0) {
        match joined.last_mut() {
            Some(last) if span.0 <= last.1 + SAME => last.1 = last.1.max(span.1),
            _ => joined.push(span),
        }
    }
    joined
}

/// What of some spans is not in others.
fn less(spans: &[(f64, f64)], holes: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut rest = spans.to_vec();
    for hole in holes {
        rest = rest
            .into_iter()
            .flat_map(|(left, right)| [(left, right.min(hole.0)), (left.max(hole.1), right)])
            .filter(|(left, right)| right - left > SAME)
            .collect();
    }
    sorted_by(rest, |span| span.0)
}

/// Length of what is in one of two rows of spans but not in both.
fn across(a: &[(f64, f64)], b: &[(f64, f64)]) -> f64 {
    let length = |spans: &[(f64, f64)]| spans.iter().map(|(l, r)| r - l).sum::<f64>();
    length(&less(a, b)) + length(&less(b, a))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn of(left: f64, back: f64, width: f64, depth: f64) -> Rectangle {
        Rectangle {
            left: meters(left),
            back: meters(back),
            width: meters(width),
            depth: meters(depth),
        }
    }

    #[test]
    fn a_column_is_cut_out_and_its_sides_are_edges() {
        let hall = Shape::new(&[of(0.0, 0.0, 10.0, 8.0)], &[of(4.0, 3.0, 1.0, 1.0)]).unwrap();
        assert_relative_eq!(hall.area().value, 79.0, max_relative = 1e-12);
        assert_relative_eq!(
            hall.edges(hall.back(), hall.front()).value,
            40.0,
            max_relative = 1e-12
        );
        assert_eq!(hall.boxes(meters(3.0), meters(4.0)).len(), 2);
        // 30 m² behind the column, 9 beside it.
        let reach = hall.reach(meters(0.0), square(34.5));
        assert_relative_eq!(reach.value, 3.5, max_relative = 1e-12);
    }

    #[test]
    fn overlapping_rectangles_count_once() {
        let t = Shape::new(&[of(0.0, 0.0, 6.0, 2.0), of(2.0, 1.0, 2.0, 5.0)], &[]).unwrap();
        assert_relative_eq!(t.area().value, 12.0 + 8.0, max_relative = 1e-12);
        assert_relative_eq!(t.widest(meters(2.5), meters(4.0)).value, 2.0, max_relative = 1e-12);
    }

    #[test]
    fn what_cannot_be_is_said() {
        let room = of(0.0, 0.0, 5.0, 5.0);
        assert_eq!(Shape::new(&[], &[]), Err(Error::NoFloor));
        assert_eq!(Shape::new(&[room], &[room]), Err(Error::NoFloor));
        let away = Shape::new(&[room], &[of(6.0, 0.0, 1.0, 1.0)]);
        assert_eq!(away, Err(Error::CutsNothing { index: 0 }));
        let apart = Shape::new(&[room, of(0.0, 6.0, 5.0, 5.0)], &[]);
        let at = |left, back| Err(Error::FloorApart { left: meters(left), back: meters(back) });
        assert_eq!(apart, at(0.0, 6.0));
        let corner = Shape::new(&[room, of(5.0, 5.0, 5.0, 5.0)], &[]);
        assert_eq!(corner, at(5.0, 5.0));
        let split = Shape::new(&[room], &[of(0.0, 2.0, 5.0, 1.0)]);
        assert_eq!(split, at(0.0, 3.0));
        let flat = Shape::new(&[of(0.0, 0.0, 5.0, 0.0)], &[]);
        assert!(matches!(flat, Err(Error::OutOfRange { field: Field::PlanSize, .. })));
    }
}
