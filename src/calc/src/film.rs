//! How long the rolled film still takes flake.
//!
//! A film on concrete is at the temperature of the slab and does not heat itself. Its open time
//! follows the data sheet's own, in pieces ([`crate::cure::Rate`]); beyond them by 40 kJ/mol to the
//! cold and 50 to the heat (a published chart of film gel times from 40 to 110 °F has 43 to 47).
//! A patch that stood in the pail until conversion `α_p` has used up a part of it:
//!
//! ```text
//! left = t_o(T_slab) · (1 − F(α_p)/F_o),   F_o = k(T_o)·t_o at the sheet's own temperature
//! ```
//!
//! With no open time on the sheet, pot life stands in for it: a film reacts more slowly than a
//! pail, but its surface skins over, so it is never taken to last longer. What cures by the water
//! of the air too closes sooner in damp air, by [`Damp`]; with no open time on such a sheet half
//! the pot life stands in.

use crate::cure::{Beyond, Kinetics, Rate};
use crate::dew::vapor_pressure;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Frequency, ThermodynamicTemperature, Time, celsius, unit};
use crate::sorted::sorted_by;

/// One open time as a data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenTimePoint {
    /// How long the film takes flake.
    pub time: Time,
    /// Temperature of the film.
    pub temperature: ThermodynamicTemperature,
    /// Relative humidity of the air it was measured in, as a share, where the sheet says it.
    pub humidity: Option<f64>,
}

/// How damp air shortens the time of a film that cures by its water too: `1 / ratio^n`, with
/// `ratio` the vapour pressure of the air over that of the sheet's own, and never longer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Damp {
    /// Vapour pressure of the air that the sheet's times hold in, Pa.
    sheet: f64,
    /// `n`: 1, or what two humidities of one sheet give.
    exponent: f64,
}

impl Damp {
    /// Of a sheet that says nothing of the air: 23 °C and 50 % (ISO 554), `n` = 1.
    pub fn usual() -> Self {
        Self { sheet: vapor_pressure(celsius(23.0), 0.5), exponent: 1.0 }
    }

    /// Of the sheet's open times: their driest air, and what two humidities at one temperature
    /// make of it.
    fn of(points: &[OpenTimePoint]) -> Self {
        let said: Vec<(f64, &OpenTimePoint)> = points
            .iter()
            .filter_map(|point| Some((vapor_pressure(point.temperature, point.humidity?), point)))
            .collect();
        let Some(driest) = said.iter().map(|(vapor, _)| *vapor).reduce(f64::min) else {
            return Self::usual();
        };
        let pairs = said.iter().flat_map(|dry| said.iter().map(move |damp| (dry, damp)));
        let exponents = pairs.filter_map(|((dry, long), (damp, short))| {
            let alike = (long.temperature.value - short.temperature.value).abs() < 3.0;
            let damper = damp / dry;
            (alike && damper > 1.1).then(|| (long.time.value / short.time.value).ln() / damper.ln())
        });
        let exponent = exponents.reduce(f64::max).map_or(1.0, |n| n.max(0.0));
        Self { sheet: driest, exponent }
    }

    /// So many times sooner in this air; 1 in air no damper than the sheet's. Where the humidity
    /// was not read, [`UNREAD_HUMIDITY`] is taken.
    ///
    /// ```
    /// use pailwise_calc::{film::Damp, quantity::celsius};
    /// let damp = Damp::usual();
    /// assert_eq!(damp.sooner(celsius(15.0), Some(0.5)), 1.0);
    /// // Over water, by tables: 4.82 kPa at 90 °F against 2.81 at 23 °C, both at half of it.
    /// assert!((damp.sooner(celsius(32.22), Some(0.5)) - 4.82 / 2.81).abs() < 0.01);
    /// ```
    pub fn sooner(&self, air: ThermodynamicTemperature, humidity: Option<f64>) -> f64 {
        let vapor = vapor_pressure(air, humidity.unwrap_or(UNREAD_HUMIDITY));
        (vapor / self.sheet).max(1.0).powf(self.exponent)
    }
}

/// Relative humidity that is taken where nobody read it: that of the sheet's own air, in the air's
/// own temperature. The screen says so and asks for a reading.
pub const UNREAD_HUMIDITY: f64 = 0.5;

/// The film of one product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    kinetics: Kinetics,
    /// One over the open time.
    closing: Rate,
    /// Reduced time of the pail at which it would close.
    closes: f64,
    damp: Option<Damp>,
}

/// The slopes of the open time beyond the temperatures of a sheet.
fn beyond() -> Beyond {
    Beyond::kilojoules(40.0, 50.0)
}

impl Film {
    /// The film from the sheet's open times; of several at one temperature, the shortest holds.
    /// `damp` is for what cures by the water of the air too.
    ///
    /// # Errors
    /// [`Error::Missing`] without a point, [`Error::OutOfRange`] for one outside its range.
    pub fn new(kinetics: Kinetics, points: &[OpenTimePoint], damp: bool) -> Result<Self, Error> {
        if points.is_empty() {
            return Err(Error::Missing { field: Field::OpenTime });
        }
        for point in points {
            Field::OpenTime.check(point.time)?;
            Field::OpenTimeTemperature.check(point.temperature)?;
            if let Some(humidity) = point.humidity {
                Field::OpenTimeHumidity.check_share(humidity)?;
            }
        }
        let damp = damp.then(|| Damp::of(points));
        // A time measured in damper air than the driest is longer in that.
        let in_sheet_air = |point: &OpenTimePoint| {
            let sooner = damp
                .zip(point.humidity)
                .map_or(1.0, |(damp, said)| damp.sooner(point.temperature, Some(said)));
            point.time * sooner
        };
        let times = points.iter().map(|point| (point.temperature, in_sheet_air(point))).collect();
        let mut times = sorted_by(sorted_by(times, |(_, time)| time.value), |(at, _)| at.value);
        times.dedup_by(|longer, kept| longer.0 == kept.0);
        let closes = times.iter().map(|(at, time)| kinetics.k(*at).value * time.value);
        Ok(Self {
            kinetics,
            closes: closes.fold(f64::INFINITY, f64::min),
            closing: Rate::through(
                times
                    .iter()
                    .map(|(at, time)| (*at, Frequency::new::<unit::hertz>(1.0 / time.value))),
                beyond(),
            ),
            damp,
        })
    }

    /// The same film in this air, which closes sooner where the air is damp and it minds that.
    #[must_use]
    pub fn in_air(mut self, air: ThermodynamicTemperature, humidity: Option<f64>) -> Self {
        if let Some(damp) = self.damp {
            self.closing = self.closing.times(damp.sooner(air, humidity));
        }
        self
    }

    /// The same film of material that cures so many times as fast. Slower gains it nothing.
    pub(crate) fn at_pace(mut self, times: f64) -> Self {
        self.closing = self.closing.times(times.max(1.0));
        self
    }

    /// How it minds damp air, if it does.
    pub fn damp(&self) -> Option<Damp> {
        self.damp
    }

    /// How long a patch stays open on the slab, having reached `conversion` in the pail.
    ///
    /// ```
    /// use pailwise_calc::{cure::{Kinetics, Rate}, film::*};
    /// use pailwise_calc::quantity::{celsius, minutes, Frequency, MolarEnergy, unit};
    /// let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(60.0);
    /// let rate = Rate::single(Frequency::new::<unit::hertz>(5e-4), energy);
    /// let cure = Kinetics { rate, kappa: 0.1, balance: 1.0, end: 0.55 };
    /// let sheet =
    ///     OpenTimePoint { time: minutes(40.0), temperature: celsius(25.0), humidity: None };
    /// let film = Film::new(cure, &[sheet], false).unwrap();
    /// // Poured at once: the sheet's own time at 25 °C; at 35 °C
    /// // 40 min · exp(50 000/8.314 46 × (1/308.15 − 1/298.15)) = 20.8 min.
    /// assert!((film.left(0.0, celsius(25.0)) - minutes(40.0)).value.abs() < 1e-6);
    /// assert!((film.left(0.0, celsius(35.0)) - minutes(20.8)).value.abs() < 3.0);
    /// ```
    pub fn left(&self, conversion: f64, slab: ThermodynamicTemperature) -> Time {
        self.spare(conversion, slab).max(Time::default())
    }

    /// As [`Film::left`], and below zero for what has closed already.
    pub(crate) fn spare(&self, conversion: f64, slab: ThermodynamicTemperature) -> Time {
        self.on(slab)(conversion)
    }

    /// The same on one slab, for many patches.
    pub(crate) fn on(&self, slab: ThermodynamicTemperature) -> impl Fn(f64) -> Time + use<> {
        let (kinetics, closes) = (self.kinetics, self.closes);
        let open = 1.0 / self.closing.at(slab).value;
        move |conversion| {
            let used = kinetics.progress(conversion) / closes;
            Time::new::<unit::second>((1.0 - used) * open)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{MolarEnergy, minutes};
    use approx::assert_relative_eq;

    fn film(points: &[(f64, f64, Option<f64>)]) -> Film {
        let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(60.0);
        let rate = Rate::single(Frequency::new::<unit::hertz>(5e-4), energy);
        let kinetics = Kinetics { rate, kappa: 1000.0, balance: 1.0, end: 0.3 };
        let point = |&(min, c, humidity): &(f64, f64, Option<f64>)| OpenTimePoint {
            time: minutes(min),
            temperature: celsius(c),
            humidity,
        };
        Film::new(kinetics, &points.iter().map(point).collect::<Vec<_>>(), true).unwrap()
    }

    fn open(film: &Film, c: f64, humidity: Option<f64>) -> f64 {
        film.in_air(celsius(c), humidity).left(0.0, celsius(c)).get::<unit::minute>()
    }

    #[test]
    fn dry_air_gives_no_credit_and_damp_air_takes_time() {
        let film = film(&[(20.0, 23.0, None)]);
        assert_relative_eq!(open(&film, 23.0, Some(0.3)), 20.0, max_relative = 1e-9);
        assert_relative_eq!(open(&film, 23.0, Some(0.5)), 20.0, max_relative = 1e-9);
        assert_relative_eq!(open(&film, 23.0, Some(1.0)), 10.0, max_relative = 1e-9);
        // Unread, it is as damp as the sheet's own: sooner only where it is warmer.
        assert_relative_eq!(open(&film, 23.0, None), 20.0, max_relative = 1e-9);
        let warm = film.in_air(celsius(32.0), None).left(0.0, celsius(23.0));
        assert!(warm.get::<unit::minute>() < 13.0, "{warm:?}");
    }

    #[test]
    fn two_humidities_of_a_sheet_give_their_own_exponent_and_are_both_met() {
        let film = film(&[(20.0, 25.0, Some(0.4)), (14.0, 25.0, Some(0.8))]);
        assert_relative_eq!(open(&film, 25.0, Some(0.4)), 20.0, max_relative = 1e-9);
        assert_relative_eq!(open(&film, 25.0, Some(0.8)), 14.0, max_relative = 1e-9);
        assert_relative_eq!(open(&film, 25.0, Some(0.1)), 20.0, max_relative = 1e-9);
    }

    #[test]
    fn of_two_times_at_one_temperature_the_shorter_holds() {
        let film = film(&[(30.0, 20.0, None), (18.0, 20.0, None), (25.0, 30.0, None)]);
        assert_relative_eq!(open(&film, 20.0, Some(0.2)), 18.0, max_relative = 1e-9);
        // Warmer is never longer, whatever the sheet says.
        assert_relative_eq!(open(&film, 30.0, Some(0.2)), 18.0, max_relative = 1e-9);
    }
}
