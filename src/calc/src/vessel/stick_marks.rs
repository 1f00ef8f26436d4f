//! Where a volume stands in a pail that widens: the mark to pour to on a stick.

use std::f64::consts::PI;

use super::Vessel;
use crate::error::Error;
use crate::quantity::{Length, Volume, unit};

impl Vessel {
    /// The height at which a volume stands: the inverse of [`Vessel::volume_to`].
    ///
    /// Solved from `r³ = r0³ + 3 s V/π` with `s` the slope of the side, then polished on the
    /// volume itself, so that a nearly straight pail loses no accuracy.
    ///
    /// # Errors
    /// [`Error::DoesNotFit`] when it is more than the vessel holds.
    ///
    /// ```
    /// use pailwise_calc::{vessel::Generic, quantity::{Length, unit}};
    /// let pail = Generic::FiveGallon.vessel();
    /// let mark = Length::new::<unit::inch>(4.0);
    /// let back = pail.height_of(pail.volume_to(mark)).unwrap();
    /// assert!((back - mark).abs().get::<unit::millimeter>() < 1e-6);
    /// ```
    pub fn height_of(&self, volume: Volume) -> Result<Length, Error> {
        let holds = self.capacity();
        if volume.value.is_nan() || volume > holds * (1.0 + 1e-9) {
            return Err(Error::DoesNotFit { asked: volume, holds });
        }
        let target = volume.value.max(0.0);
        let r0 = self.radius(0.0);
        let mut z = target / (PI * r0 * r0);
        for _ in 0..30 {
            let here = z.clamp(0.0, self.height.value);
            let r = self.radius(here);
            let off = self.volume_to(Length::new::<unit::meter>(here)).value - target;
            z = here - off / (PI * r * r);
            if (z - here).abs() < 1e-12 {
                break;
            }
        }
        Ok(Length::new::<unit::meter>(z.clamp(0.0, self.height.value)))
    }
}
