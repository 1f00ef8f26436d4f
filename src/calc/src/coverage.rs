//! How much material a floor takes, and how much floor a batch covers.
//!
//! ```text
//! volume in the pail = area · wet thickness · (1 + take-up) / (1 − loss)
//! wet thickness      = dry thickness / solids by volume
//! spread rate        = 1 / wet thickness
//! ```
//!
//! Take-up is what a rough slab soaks into its texture on the first coat; loss is what stays on
//! pail walls, roller and squeegee.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Area, Figure, Length, Volume, unit};

/// A film to lay, and what is lost on the way to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coverage {
    wet: Length,
    take_up: f64,
    loss: f64,
}

impl Coverage {
    /// A wet film with take-up and loss as shares of 1.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the one that is off.
    pub fn new(wet: Length, take_up: f64, loss: f64) -> Result<Self, Error> {
        Field::WetFilm.check(Figure::Thickness(wet))?;
        Field::TakeUp.check_share(take_up)?;
        Field::Loss.check_share(loss)?;
        Ok(Self { wet, take_up, loss })
    }

    /// Paste filling a crack to a depth, with loss as a share of 1.
    ///
    /// # Errors
    /// As [`Coverage::new`].
    pub fn crack(depth: Length, loss: f64) -> Result<Self, Error> {
        Field::CrackDepth.check(depth)?;
        Field::Loss.check_share(loss)?;
        Ok(Self { wet: depth, take_up: 0.0, loss })
    }

    /// The wet film aimed at, or the depth of the crack.
    pub fn wet(&self) -> Length {
        self.wet
    }

    /// The share soaked up by the texture of the slab.
    pub fn take_up(&self) -> f64 {
        self.take_up
    }

    /// The share that stays on pail and tools.
    pub fn loss(&self) -> f64 {
        self.loss
    }

    /// The volume to mix for an area.
    ///
    /// ```
    /// use pailwise_calc::{coverage::Coverage, quantity::{Area, Length, unit}};
    /// // 1 US gal = 231 in³ covers 1604.17 ft² at 1 mil, so 100.26 ft² at 16 mil (NIST SP 811).
    /// let film = Coverage::new(Length::new::<unit::mil>(16.0), 0.0, 0.0).unwrap();
    /// let gallons = film.volume_for(Area::new::<unit::square_foot>(100.260_416_667));
    /// assert!((gallons.get::<unit::gallon>() - 1.0).abs() < 1e-6);
    /// ```
    pub fn volume_for(&self, area: Area) -> Volume {
        area * self.wet * (1.0 + self.take_up) / (1.0 - self.loss)
    }

    /// The same film where the material goes so far of what it should: 0.8 takes a quarter more.
    ///
    /// ```
    /// use pailwise_calc::{coverage::Coverage, quantity::{Area, Length, unit}};
    /// let film = Coverage::new(Length::new::<unit::micrometer>(400.0), 0.0, 0.05).unwrap();
    /// let floor = Area::new::<unit::square_meter>(10.0);
    /// let more = film.with_yield(0.8).volume_for(floor) / film.volume_for(floor);
    /// assert!((more.value - 1.25).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn with_yield(&self, share: f64) -> Self {
        Self { take_up: (1.0 + self.take_up) / share - 1.0, ..*self }
    }

    /// The area a mixed volume covers: the inverse of [`Coverage::volume_for`].
    pub fn area_from(&self, volume: Volume) -> Area {
        volume * (1.0 - self.loss) / (self.wet * (1.0 + self.take_up))
    }
}

/// The wet film that dries down to a given one.
///
/// # Errors
/// [`Error::OutOfRange`] for a film or a share of solids outside its range.
///
/// ```
/// use pailwise_calc::{coverage::wet_from_dry, quantity::{Length, unit}};
/// // 8 mil dry at 80 % solids by volume is 10 mil wet.
/// let wet = wet_from_dry(Length::new::<unit::mil>(8.0), 0.8).unwrap();
/// assert!((wet.get::<unit::mil>() - 10.0).abs() < 1e-9);
/// ```
pub fn wet_from_dry(dry: Length, solids_by_volume: f64) -> Result<Length, Error> {
    Field::DryFilm.check(Figure::Thickness(dry))?;
    Field::Solids.check_share(solids_by_volume)?;
    Ok(dry / solids_by_volume)
}

/// The wet film that a spread rate, in square metres a litre, lays down.
///
/// # Errors
/// [`Error::OutOfRange`] for a rate outside [`Field::Spread`].
///
/// ```
/// use pailwise_calc::{coverage::wet_from_spread, quantity::unit};
/// // 1 L covers 1 m² at 1 mm.
/// assert!((wet_from_spread(1.0).unwrap().get::<unit::millimeter>() - 1.0).abs() < 1e-12);
/// ```
pub fn wet_from_spread(square_meters_per_liter: f64) -> Result<Length, Error> {
    Field::Spread.check(Figure::Number(square_meters_per_liter))?;
    Ok(Length::new::<unit::millimeter>(1.0 / square_meters_per_liter))
}
