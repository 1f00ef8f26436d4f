//! What a pail holds, how high a volume stands in it, and the surface it loses heat through.
//!
//! A pail is a frustum: round, with straight sides that widen upward or do not.
//! The filled volume to a height `z`, with `r0` and `r1` the radii at bottom and top and `h` the
//! height (solid geometry; any table of volumes):
//!
//! ```text
//! V(z) = π z/3 · (r0² + r0 r + r²),   r = r0 + (r1 − r0) z/h
//! ```

mod stick_marks;

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Area, Length, Volume, unit};

/// The share of a vessel that may be filled when a drill stirs in it (common practice, no source).
pub const FILL_FOR_DRILL: f64 = 0.75;

/// A round vessel with straight sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    bottom: Length,
    top: Length,
    height: Length,
}

/// Pails found on any site, by size. Inside measures of a generic pail, from memory; measure the
/// pail at hand where the mark on the stick matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Generic {
    /// About 5 US quarts, 5 L.
    FiveQuart,
    /// About 2 US gallons, 8 L.
    TwoGallon,
    /// About 5 US gallons, 20 L.
    FiveGallon,
}

impl Generic {
    /// Every generic pail, smallest first.
    pub const ALL: [Self; 3] = [Self::FiveQuart, Self::TwoGallon, Self::FiveGallon];

    /// Returns the inside diameters and the height of this pail.
    pub fn vessel(self) -> Vessel {
        let (bottom, top, height) = match self {
            Self::FiveQuart => (6.7, 7.6, 7.6),
            Self::TwoGallon => (8.2, 9.0, 8.4),
            Self::FiveGallon => (10.25, 11.25, 13.5),
        };
        let inches = Length::new::<unit::inch>;
        Vessel { bottom: inches(bottom), top: inches(top), height: inches(height) }
    }
}

impl Vessel {
    /// A vessel from its inside diameters and height.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a measure outside [`Field::VesselDiameter`] or
    /// [`Field::VesselHeight`]; [`Error::NarrowsUpward`] when it does.
    pub fn new(bottom: Length, top: Length, height: Length) -> Result<Self, Error> {
        Field::VesselDiameter.check(bottom)?;
        Field::VesselDiameter.check(top)?;
        Field::VesselHeight.check(height)?;
        if top < bottom {
            return Err(Error::NarrowsUpward { top, bottom });
        }
        Ok(Self { bottom, top, height })
    }

    /// A straight-sided cup in which this volume stands as high as it is wide: the shape taken
    /// for the sample of a data sheet, which names none.
    pub fn compact(volume: Volume) -> Self {
        let width = Length::new::<unit::meter>((4.0 * volume.value / PI).cbrt());
        Self { bottom: width, top: width, height: width }
    }

    /// Inside diameter at the bottom.
    pub fn bottom(&self) -> Length {
        self.bottom
    }

    /// Inside diameter at the rim.
    pub fn top(&self) -> Length {
        self.top
    }

    /// Returns the inside height of the vessel, from bottom to rim.
    pub fn height(&self) -> Length {
        self.height
    }

    /// What it holds to the brim.
    ///
    /// ```
    /// use pailwise_calc::{vessel::Vessel, quantity::{Length, unit}};
    /// let cm = Length::new::<unit::centimeter>;
    /// let cylinder = Vessel::new(cm(20.0), cm(20.0), cm(30.0)).unwrap();
    /// // π r² h = π · 10² · 30 = 9424.778 cm³.
    /// assert!((cylinder.capacity().get::<unit::milliliter>() - 9424.778).abs() < 1e-3);
    /// ```
    pub fn capacity(&self) -> Volume {
        self.volume_to(self.height)
    }

    /// The most that may be mixed in it, [`FILL_FOR_DRILL`] of what it holds.
    pub fn working_capacity(&self) -> Volume {
        self.capacity() * FILL_FOR_DRILL
    }

    /// The volume to a height, kept within the vessel.
    pub fn volume_to(&self, height: Length) -> Volume {
        let z = height.value.clamp(0.0, self.height.value);
        let (r0, r) = (self.radius(0.0), self.radius(z));
        Volume::new::<unit::cubic_meter>(PI * z / 3.0 * (r0 * r0 + r0 * r + r * r))
    }

    /// Bottom and wetted side: where the fill loses heat to the air.
    ///
    /// The open top is left out, which errs to the warm side. `π r0² + π (r0 + r)·√(z² + (r − r0)²)`.
    ///
    /// # Errors
    /// As [`Vessel::height_of`].
    pub fn outside_surface(&self, fill: Volume) -> Result<Area, Error> {
        let z = self.height_of(fill)?.value;
        let (r0, r) = (self.radius(0.0), self.radius(z));
        let side = PI * (r0 + r) * z.hypot(r - r0);
        Ok(Area::new::<unit::square_meter>(PI * r0 * r0 + side))
    }

    /// The open top: what is left of its surface where the rim is as far as it is filled.
    pub(crate) fn mouth(&self) -> Area {
        let r = self.radius(self.height.value);
        Area::new::<unit::square_meter>(PI * r * r)
    }

    fn radius(&self, z: f64) -> f64 {
        let (r0, r1) = (self.bottom.value / 2.0, self.top.value / 2.0);
        r0 + (r1 - r0) * z / self.height.value
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn generic_pails_hold_what_they_are_called() {
        let gallons = Generic::ALL.map(|g| g.vessel().capacity().get::<unit::gallon>());
        for (held, named) in gallons.into_iter().zip([1.25, 2.0, 5.0]) {
            assert!(held > named && held < 1.12 * named, "{held} for {named}");
        }
    }

    #[test]
    fn a_compact_cup_is_as_high_as_wide() {
        let liter = Volume::new::<unit::liter>(1.0);
        let cup = Vessel::compact(liter);
        assert_relative_eq!(cup.capacity().value, liter.value, max_relative = 1e-12);
        assert_eq!(cup.height, cup.top);
    }

    #[test]
    fn more_than_it_holds_is_refused() {
        let pail = Generic::FiveQuart.vessel();
        assert!(matches!(pail.height_of(pail.capacity() * 1.01), Err(Error::DoesNotFit { .. })));
    }

    #[test]
    fn the_surface_of_a_cylinder_is_the_schoolbook_one() {
        let cm = Length::new::<unit::centimeter>;
        let cup = Vessel::new(cm(20.0), cm(20.0), cm(30.0)).unwrap();
        let surface = cup.outside_surface(cup.volume_to(cm(10.0))).unwrap();
        assert_relative_eq!(surface.value, PI * 0.01 + PI * 0.2 * 0.1, max_relative = 1e-9);
    }
}
