//! Who is here, and how fast they work.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Length, Pace, Time, VolumeRate, minutes, unit};
use crate::record::CrewRecord;

/// How material gets from the pail onto the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pouring {
    /// Emptied onto the floor at once, in a ribbon, at this rate.
    Ribbon(VolumeRate),
    /// Used from the pail as it is rolled.
    FromPail,
}

/// A checked crew.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crew {
    /// People rolling, at least one.
    pub rollers: u32,
    /// People throwing flake and nothing else; with none, the rollers stop to do it.
    pub flakers: u32,
    /// Whether somebody is free to mix the next batch meanwhile.
    pub mixer: bool,
    /// What one roller lays.
    pub roll: Pace,
    /// What one person flakes.
    pub flake: Pace,
    /// The depth of one strip: how far a throw reaches.
    pub throw: Length,
    /// From the mixing place to the floor.
    pub carry: Time,
    /// How long the film settles between rolling and flake.
    pub settle: Time,
    /// How material gets onto the floor.
    pub pouring: Pouring,
    /// The share of the time there is that may be planned.
    pub reserve: f64,
}

impl Crew {
    /// What all rollers together lay.
    pub fn all_rolling(&self) -> Pace {
        self.roll * f64::from(self.rollers)
    }

    /// What all who flake together cover: the flakers, or the rollers where there are none.
    pub fn all_flaking(&self) -> Pace {
        self.flake * f64::from(if self.flakers > 0 { self.flakers } else { self.rollers })
    }
}

impl TryFrom<&CrewRecord> for Crew {
    type Error = Error;

    /// Checks a record field by field.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{crew::Crew, demo, error::Error, field::Field};
    /// let nobody = pailwise_calc::record::CrewRecord { rollers: 0, ..demo::crew() };
    /// let wrong = Crew::try_from(&nobody).unwrap_err();
    /// assert!(matches!(wrong, Error::OutOfRange { field: Field::Rollers, .. }));
    /// ```
    fn try_from(record: &CrewRecord) -> Result<Self, Error> {
        let per_minute = |x: f64| Pace::new::<unit::square_meter_per_second>(x / 60.0);
        let pouring = if record.ribbon {
            let rate = VolumeRate::new::<unit::liter_per_minute>(record.pour_l_per_min);
            Pouring::Ribbon(Field::PourRate.check(rate)?)
        } else {
            Pouring::FromPail
        };
        Ok(Self {
            rollers: Field::Rollers.check(record.rollers)?,
            flakers: Field::Flakers.check(record.flakers)?,
            mixer: record.mixer,
            roll: Field::RollPace.check(per_minute(record.roll_m2_per_min))?,
            flake: Field::FlakePace.check(per_minute(record.flake_m2_per_min))?,
            throw: Field::Throw.check(Length::new::<unit::meter>(record.throw_m))?,
            carry: Field::Carry.check(minutes(record.carry_min))?,
            settle: Field::Settle.check(minutes(record.settle_min))?,
            pouring,
            reserve: Field::Reserve.check_share(record.reserve_percent / 100.0)?,
        })
    }
}
