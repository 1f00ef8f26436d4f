//! The wet film as a comb shows it, and what follows from it.
//!
//! A comb stands in the film: the film reaches the last tooth that comes out wet, and not the next.
//! So it is between the two, and of several places between the means of both (ASTM D4414 and
//! ISO 2808 read a comb so, and ask for three places; from memory).
//!
//! ```text
//! least = mean of the last wet teeth      most = mean of the next dry ones
//! went  = film asked for / film laid      spread = 1 / film laid
//! ```

use crate::coverage::Coverage;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Area, Figure, Length, Volume, unit};

/// One place where the comb stood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The last tooth that came out wet.
    pub last_wet: Length,
    /// The next, which stayed dry.
    pub next_dry: Length,
}

/// A film between two thicknesses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WetFilm {
    /// It is no thinner.
    pub least: Length,
    /// It is no thicker.
    pub most: Length,
}

impl WetFilm {
    /// The film at the places where the comb stood.
    ///
    /// # Errors
    /// [`Error::Missing`] without a place; [`Error::OutOfRange`] for a tooth that no comb has;
    /// [`Error::LeastAboveMost`] for a dry tooth below a wet one.
    ///
    /// ```
    /// use pailwise_calc::comb::{Place, WetFilm};
    /// use pailwise_calc::quantity::{Length, unit};
    /// let mil = Length::new::<unit::mil>;
    /// let place = |wet, dry| Place { last_wet: mil(wet), next_dry: mil(dry) };
    /// let film = WetFilm::read(&[place(14.0, 16.0), place(16.0, 18.0), place(12.0, 14.0)]).unwrap();
    /// assert!((film.least.get::<unit::mil>() - 14.0).abs() < 1e-9);
    /// assert!((film.most.get::<unit::mil>() - 16.0).abs() < 1e-9);
    /// ```
    pub fn read(places: &[Place]) -> Result<Self, Error> {
        if places.is_empty() {
            return Err(Error::Missing { field: Field::CombTooth });
        }
        for Place { last_wet, next_dry } in places {
            for tooth in [last_wet, next_dry] {
                Field::CombTooth.check(Figure::Thickness(*tooth))?;
            }
            if last_wet >= next_dry {
                return Err(Error::LeastAboveMost {
                    field: Field::CombTooth,
                    other: Field::CombTooth,
                    least: Figure::Thickness(*last_wet),
                    most: Figure::Thickness(*next_dry),
                });
            }
        }
        let mean = |tooth: fn(&Place) -> Length| {
            places.iter().map(tooth).sum::<Length>() / places.len() as f64
        };
        Ok(Self { least: mean(|place| place.last_wet), most: mean(|place| place.next_dry) })
    }

    /// The film that so much of a mix makes on so much floor, where a pail ends; `None` for no
    /// floor.
    ///
    /// ```
    /// use pailwise_calc::comb::WetFilm;
    /// use pailwise_calc::coverage::Coverage;
    /// use pailwise_calc::quantity::{Area, Length, unit};
    /// let asked = Coverage::new(Length::new::<unit::mil>(16.0), 0.05, 0.05).unwrap();
    /// let area = Area::new::<unit::square_foot>(200.0);
    /// let film = WetFilm::of_pail(&asked, asked.volume_for(area), area).unwrap();
    /// assert!((film.most.get::<unit::mil>() - 16.0).abs() < 1e-9);
    /// ```
    pub fn of_pail(asked: &Coverage, mixed: Volume, area: Area) -> Option<Self> {
        let film = asked.wet() * (asked.area_from(mixed) / area).value;
        (area > Area::default() && film.value.is_finite())
            .then_some(Self { least: film, most: film })
    }

    /// How far material goes of what it should, at the worst: what is left is reckoned with that.
    ///
    /// ```
    /// use pailwise_calc::comb::WetFilm;
    /// use pailwise_calc::quantity::{Length, unit};
    /// let mil = Length::new::<unit::mil>;
    /// let film = WetFilm { least: mil(14.0), most: mil(20.0) };
    /// assert!((film.goes(mil(16.0)) - 0.8).abs() < 1e-12);
    /// ```
    pub fn goes(&self, asked: Length) -> f64 {
        (asked / self.most).value
    }

    /// Whether it is what is asked for, as far as the comb can tell.
    pub fn is_as_asked(&self, asked: Length) -> bool {
        let hair = Length::new::<unit::micrometer>(1.0);
        self.least <= asked + hair && asked <= self.most + hair
    }
}

/// Depths of notches as squeegees and trowels have them, in inches (common practice, no source).
const NOTCHES: [f64; 7] =
    [1.0 / 32.0, 1.0 / 16.0, 3.0 / 32.0, 1.0 / 8.0, 3.0 / 16.0, 1.0 / 4.0, 3.0 / 8.0];

/// The shallowest notch that leaves at least a film, held upright; `None` where none does.
///
/// V-notches side by side, and square ones as wide as what is between them, are half full of what
/// they leave: `film = depth / 2`. Tilted they leave less, so what is found is read on the comb.
///
/// ```
/// use pailwise_calc::comb::notch;
/// use pailwise_calc::quantity::{Length, unit};
/// // 16 mils: a notch of 1/32 in leaves 15.6, one of 1/16 leaves 31.
/// let found = notch(Length::new::<unit::mil>(16.0)).unwrap();
/// assert!((found.get::<unit::inch>() - 1.0 / 16.0).abs() < 1e-12);
/// ```
pub fn notch(film: Length) -> Option<Length> {
    let depths = NOTCHES.into_iter().map(Length::new::<unit::inch>);
    depths.into_iter().find(|depth| *depth * 0.5 >= film * (1.0 - 1e-9))
}
