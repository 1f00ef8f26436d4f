//! After a coat is down: when the next may go on and until when, when the floor may be used.
//!
//! A data sheet gives a time at a temperature, sometimes at several. At another temperature the
//! film needs as long as its reaction does, which Arrhenius says: `t(T) = t_s · exp(Ea/R ·
//! (1/T − 1/T_s))`, the equivalent age of ASTM C1074. What the sheet says is never bettered:
//! warmer than the sheet's own temperature a floor is not ready sooner, colder than it a recoat
//! window does not stay open longer.

use crate::cure::arrhenius;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{MolarEnergy, ThermodynamicTemperature, Time, celsius, unit};
use crate::record::AfterRecord;

/// A time at a temperature, as the data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetTime {
    /// How long after the coat is down.
    pub time: Time,
    /// At what temperature of the floor.
    pub temperature: ThermodynamicTemperature,
}

/// The times of one thing, coldest first; at least one.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetTimes(Vec<SheetTime>);

impl SheetTimes {
    /// Times from a record; `None` where the sheet gives none.
    ///
    /// Range: each within [`Field::AfterTime`] and [`Field::AfterTemperature`].
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for one that is not; [`Error::Contradiction`] naming `field` when it
    /// is said to take longer where it is warmer.
    pub fn new(field: Field, records: &[AfterRecord]) -> Result<Option<Self>, Error> {
        let mut times = Vec::new();
        for record in records {
            let time = Field::AfterTime.check(Time::new::<unit::hour>(record.time_h))?;
            let temperature = Field::AfterTemperature.check(celsius(record.temperature_c))?;
            times.push(SheetTime { time, temperature });
        }
        times.sort_by(|a, b| a.temperature.value.total_cmp(&b.temperature.value));
        let slower = times.windows(2).any(|pair| match pair {
            [colder, warmer] => {
                colder.time < warmer.time
                    || (colder.temperature == warmer.temperature && colder.time != warmer.time)
            }
            _ => false,
        });
        if slower {
            return Err(Error::Contradiction { field, other: Field::AfterTemperature });
        }
        Ok((!times.is_empty()).then_some(Self(times)))
    }

    /// The sheet's own times, coldest first.
    pub fn times(&self) -> &[SheetTime] {
        &self.0
    }

    /// How long it takes at a steady temperature until the floor is surely ready for it.
    ///
    /// Of the sheet's times at `T` or colder the nearest counts as it stands; colder than all of
    /// them, the coldest is lengthened to `T`.
    ///
    /// ```
    /// use pailwise_calc::{after::SheetTimes, field::Field, record::AfterRecord};
    /// use pailwise_calc::quantity::{celsius, MolarEnergy, unit};
    /// let sheet = [AfterRecord { time_h: 12.0, temperature_c: 25.0 }];
    /// let light = SheetTimes::new(Field::LightUse, &sheet).unwrap().unwrap();
    /// let ea = MolarEnergy::new::<unit::kilojoule_per_mole>(52.95);
    /// let hours = |c| light.ready(celsius(c), ea).get::<unit::hour>();
    /// // exp(52 950/8.314 46 × (1/288.15 − 1/298.15)) = 2.098 6 times as long 10 °C colder…
    /// assert!((hours(15.0) / 12.0 - 2.0986).abs() < 1e-4);
    /// // … and no sooner where it is warmer.
    /// assert_eq!(hours(35.0), 12.0);
    /// ```
    pub fn ready(&self, at: ThermodynamicTemperature, activation_energy: MolarEnergy) -> Time {
        let not_warmer = self.0.iter().rfind(|point| point.temperature <= at);
        let lengthened = || {
            let coldest = self.0.first()?;
            Some(coldest.time * arrhenius(activation_energy, coldest.temperature, at))
        };
        not_warmer.map(|point| point.time).or_else(lengthened).unwrap_or_default()
    }

    /// Until when it surely still holds at a steady temperature.
    ///
    /// Of the sheet's times at `T` or warmer the nearest counts as it stands; warmer than all of
    /// them, the warmest is shortened to `T`.
    ///
    /// ```
    /// use pailwise_calc::{after::SheetTimes, field::Field, record::AfterRecord};
    /// use pailwise_calc::quantity::{celsius, MolarEnergy, unit};
    /// let sheet = [AfterRecord { time_h: 24.0, temperature_c: 25.0 }];
    /// let closes = SheetTimes::new(Field::RecoatCloses, &sheet).unwrap().unwrap();
    /// let ea = MolarEnergy::new::<unit::kilojoule_per_mole>(52.95);
    /// assert!((closes.over(celsius(35.0), ea).get::<unit::hour>() - 12.0).abs() < 0.02);
    /// assert_eq!(closes.over(celsius(10.0), ea).get::<unit::hour>(), 24.0);
    /// ```
    pub fn over(&self, at: ThermodynamicTemperature, activation_energy: MolarEnergy) -> Time {
        let not_colder = self.0.iter().find(|point| point.temperature >= at);
        let shortened = || {
            let warmest = self.0.last()?;
            Some(warmest.time * arrhenius(activation_energy, warmest.temperature, at))
        };
        not_colder.map(|point| point.time).or_else(shortened).unwrap_or_default()
    }
}

/// What a data sheet says about the time after a coat is down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct After {
    /// When the next coat may go on.
    pub recoat_opens: Option<SheetTimes>,
    /// Until when it may.
    pub recoat_closes: Option<SheetTimes>,
    /// When it may be walked on and light things stand on it.
    pub light_use: Option<SheetTimes>,
    /// When vehicles may.
    pub vehicles: Option<SheetTimes>,
    /// When it has cured.
    pub full_cure: Option<SheetTimes>,
}

/// A recoat window on a slab at a steady temperature, counted from when the coat is down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// From then on the next coat may go on.
    pub opens: Time,
    /// Until then, where the sheet gives an end.
    pub closes: Option<Time>,
}

impl Window {
    /// Whether it is closed by the time it would open. At the edge of what a sheet covers, both
    /// ends taken to the safe side can leave nothing between them.
    pub fn shut(&self) -> bool {
        self.closes.is_some_and(|closes| closes <= self.opens)
    }
}

impl After {
    /// The recoat window at a steady temperature; `None` where the sheet does not say when it opens.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::celsius};
    /// let base = demo::base().unwrap();
    /// let energy = base.calibration().kinetics.activation_energy;
    /// let window = |c| base.after().recoat(celsius(c), energy).unwrap();
    /// assert!(!window(25.0).shut());
    /// // In the cold it opens late and closes no later.
    /// assert!(window(8.0).shut());
    /// ```
    pub fn recoat(&self, at: ThermodynamicTemperature, energy: MolarEnergy) -> Option<Window> {
        let opens = self.recoat_opens.as_ref()?.ready(at, energy);
        let closes = self.recoat_closes.as_ref().map(|times| times.over(at, energy));
        Some(Window { opens, closes })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn times(points: &[(f64, f64)]) -> SheetTimes {
        let record = |&(time_h, temperature_c)| AfterRecord { time_h, temperature_c };
        let records: Vec<_> = points.iter().map(record).collect();
        SheetTimes::new(Field::LightUse, &records).unwrap().unwrap()
    }

    #[test]
    fn between_two_of_the_sheet_s_times_the_safer_one_holds() {
        let ea = MolarEnergy::new::<unit::kilojoule_per_mole>(53.0);
        let sheet = times(&[(8.0, 30.0), (24.0, 10.0), (12.0, 20.0)]);
        let ready = |c| sheet.ready(celsius(c), ea).get::<unit::hour>();
        assert_eq!((ready(10.0), ready(20.0), ready(30.0), ready(45.0)), (24.0, 12.0, 8.0, 8.0));
        assert_eq!(ready(25.0), 12.0);
        // 24 h × exp(53 000/8.314 46 × (1/278.15 − 1/283.15)) = 35.972 h, by hand.
        assert!((ready(5.0) - 35.97).abs() < 0.02, "{}", ready(5.0));
    }

    #[test]
    fn a_sheet_that_takes_longer_where_it_is_warmer_is_refused() {
        let records = [(8.0, 10.0), (12.0, 20.0)]
            .map(|(time_h, temperature_c)| AfterRecord { time_h, temperature_c });
        let wrong = SheetTimes::new(Field::Vehicles, &records).unwrap_err();
        assert!(matches!(wrong, Error::Contradiction { field: Field::Vehicles, .. }));
    }
}
