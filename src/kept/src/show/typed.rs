//! Figures as one would type them, rounded to the safe side.

use pailwise_calc::quantity::{Area, Length, ThermodynamicTemperature, unit};

use super::Reader;
use super::number::{NOISE, Rounding, decimal};

impl Reader {
    /// A temperature as one would type it, rounded up to a tenth.
    pub fn typed_warmest(self, warmest: ThermodynamicTemperature) -> String {
        let degrees = if self.us() {
            warmest.get::<unit::degree_fahrenheit>()
        } else {
            warmest.get::<unit::degree_celsius>()
        };
        decimal(degrees, 1, Rounding::Up)
    }

    /// A distance as one would type it.
    pub fn typed_distance(self, length: Length) -> String {
        if !self.us() {
            return decimal(length.get::<unit::meter>(), 2, Rounding::Down);
        }
        let inches = (length.get::<unit::inch>() + NOISE).floor();
        format!("{:.0}'{:.0}\"", (inches / 12.0).floor(), inches.rem_euclid(12.0))
    }

    /// A floor area as one would type it, rounded up: no bare strip is left out.
    pub fn typed_area(self, area: Area) -> String {
        if self.us() {
            format!("{:.0}", (area.get::<unit::square_foot>() - NOISE).max(1.0).ceil())
        } else {
            format!(
                "{:.1}",
                (area.get::<unit::square_meter>() * 10.0 - NOISE).max(1.0).ceil() / 10.0
            )
        }
    }
}
