//! Who is here, and how fast they work.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Area, Length, Pace, Time, Velocity, VolumeRate, minutes, unit};
use crate::record::CrewRecord;
use crate::sorted::sorted_by;

/// What one person usually brushes, m²/min: three square feet (common practice, no source).
pub const USUAL_CUT: f64 = 0.28;

/// How much crack one person usually fills, m/min: four feet (common practice, no source).
pub const USUAL_CRACK: f64 = 1.2;

/// What one person usually rolls, m²/min: twelve square feet (common practice, no source).
pub const USUAL_ROLL: f64 = 1.1;

/// What one person usually flakes, m²/min: thirty square feet (common practice, no source).
pub const USUAL_FLAKE: f64 = 2.8;

/// How far flake is usually thrown from a dry edge, m: eight feet (common practice, no source).
pub const USUAL_THROW: f64 = 2.4;

/// What filling a jug to its mark usually takes, or bringing a scale or a stick to one, min
/// (common practice, no source).
pub const USUAL_READING: f64 = 0.5;

/// What a clean pail usually takes, fetched and set up, min (common practice, no source).
pub const USUAL_CLEAN_PAIL: f64 = 1.0;

/// How fast a ribbon is usually poured, L/min (common practice, no source).
pub const USUAL_POUR: f64 = 8.0;

/// How material gets from the pail onto the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pouring {
    /// Emptied onto the floor at once, in a ribbon, at this rate.
    Ribbon(VolumeRate),
    /// Used from the pail as it is rolled.
    FromPail,
}

/// Who is here and how fast they work, each figure within its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crew {
    /// People rolling, at least one.
    pub rollers: u32,
    /// People throwing flake and nothing else; with none, the rollers stop to do it.
    pub flakers: u32,
    /// People who mix and nothing else, each with a drill; with none, the rollers do it.
    pub mixers: u32,
    /// People cutting in edges and nothing else; where they do not keep up, the rollers help.
    pub cutters: u32,
    /// What one person brushes.
    pub cut: Pace,
    /// How much crack one person fills in a time.
    pub crack: Velocity,
    /// What one roller lays.
    pub roll: Pace,
    /// What one person flakes.
    pub flake: Pace,
    /// How far a throw of flake reaches from a dry edge: no strip is deeper.
    pub throw: Length,
    /// Who throws walks the wet film on spikes, and reaches everything.
    pub spikes: bool,
    /// Every strip begins at the same wall, instead of turning round at the far one.
    pub same_wall: bool,
    /// From the mixing place to the floor.
    pub carry: Time,
    /// What filling a jug to its mark takes, or bringing a scale or a stick to one.
    pub reading: Time,
    /// Fetching a clean pail and setting it up.
    pub clean_pail: Time,
    /// Every batch stands measured out, A and B apart, before the first is mixed.
    pub measured_ahead: bool,
    /// How long the film settles between rolling and flake.
    pub settle: Time,
    /// How material gets onto the floor.
    pub pouring: Pouring,
    /// The share of the time there is that may be planned.
    pub usable: f64,
}

/// Depths of strips that crews mark, in feet; the first is one pass of a roller of 18 in (common
/// practice, no source).
const STRIPS: [f64; 9] = [1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 13.0, 16.0];

impl Crew {
    /// The depth of one strip: as far as a throw reaches, where flake is thrown from a dry edge; one
    /// pass of a roller where none is thrown, or from spikes.
    ///
    /// ```
    /// use pailwise_calc::{crew::Crew, demo, quantity::{Length, unit}};
    /// let crew = Crew::try_from(&demo::crew()).unwrap();
    /// assert_eq!(crew.strip(true), crew.throw);
    /// let pass = Length::new::<unit::foot>(1.5);
    /// assert_eq!(crew.strip(false), pass);
    /// assert_eq!(Crew { spikes: true, ..crew }.strip(true), pass);
    /// ```
    pub fn strip(&self, flaked: bool) -> Length {
        let pass = Length::new::<unit::foot>(STRIPS[0]);
        if flaked && !self.spikes { self.throw } else { pass }
    }

    /// Depths that strips can have, the shallowest first: up to a throw from a dry edge; any from
    /// spikes.
    pub(crate) fn depths(&self, flaked: bool) -> Vec<Length> {
        let marked = STRIPS.map(Length::new::<unit::foot>);
        if !flaked {
            return vec![marked[0]];
        }
        let reached = |depth: &Length| self.spikes || *depth < self.throw;
        let depths = marked.into_iter().filter(reached).chain([self.throw]).collect();
        sorted_by(depths, |depth| depth.value)
    }

    /// What all rollers together lay.
    pub fn all_rolling(&self) -> Pace {
        self.roll * f64::from(self.rollers)
    }

    /// How fast a floor of so much edge to be brushed goes on.
    ///
    /// Rollers do not go faster than they roll. People who only cut in keep ahead of them; where
    /// those do not keep up, or there are none, the rollers take turns at both, so that all hands
    /// are busy: `max(A/(k·r), (E/c + A/r)/(k + n))` for `k` rolling at `r` and `n` cutting in,
    /// everybody brushing at `c`.
    ///
    /// ```
    /// use pailwise_calc::{crew::Crew, demo};
    /// use pailwise_calc::quantity::{Area, unit};
    /// let m2 = Area::new::<unit::square_meter>;
    /// let alone = Crew::try_from(&demo::crew()).unwrap(); // 1.2 m²/min rolled, 0.28 brushed
    /// let pace = alone.rolling_with_edges(m2(12.0), m2(0.56));
    /// // Ten minutes of rolling and two of brushing.
    /// assert!((pace.value * 60.0 - 1.0).abs() < 1e-9);
    /// let helped = Crew { cutters: 1, ..alone };
    /// assert!((helped.rolling_with_edges(m2(12.0), m2(0.56)) / alone.roll).value == 1.0);
    /// ```
    pub fn rolling_with_edges(&self, area: Area, edges: Area) -> Pace {
        if area <= Area::default() {
            return self.all_rolling();
        }
        let people = f64::from(self.rollers + self.cutters);
        let busy = (edges / self.cut + area / self.roll) / people;
        area / busy.max(area / self.all_rolling())
    }

    /// The same people on walls and steps: all who roll and cut in brush, from the pail.
    #[must_use]
    pub fn brushing(&self) -> Self {
        Self {
            rollers: self.rollers + self.cutters,
            cutters: 0,
            roll: self.cut,
            pouring: Pouring::FromPail,
            ..*self
        }
    }

    /// The same people filling cracks of a width.
    #[must_use]
    pub fn filling(&self, width: Length) -> Self {
        Self { roll: self.crack * width, pouring: Pouring::FromPail, ..*self }
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
            mixers: Field::Mixers.check(record.mixers)?,
            cutters: Field::Cutters.check(record.cutters)?,
            cut: Field::CutPace.check(per_minute(record.cut_m2_per_min))?,
            crack: Field::CrackPace
                .check(Velocity::new::<unit::meter_per_second>(record.crack_m_per_min / 60.0))?,
            roll: Field::RollPace.check(per_minute(record.roll_m2_per_min))?,
            flake: Field::FlakePace.check(per_minute(record.flake_m2_per_min))?,
            throw: Field::Throw.check(Length::new::<unit::meter>(record.throw_m))?,
            spikes: record.spikes,
            same_wall: record.same_wall,
            carry: Field::Carry.check(minutes(record.carry_min))?,
            reading: Field::Reading.check(minutes(record.reading_min))?,
            clean_pail: Field::CleanPail.check(minutes(record.clean_pail_min))?,
            measured_ahead: record.measured_ahead,
            settle: Field::Settle.check(minutes(record.settle_min))?,
            pouring,
            usable: Field::Usable.check_share(record.reserve_percent / 100.0)?,
        })
    }
}
