//! Whether the surface is ready to be coated, by what was read of it.
//!
//! Each test is a published one, named with its standard; what passes is the data sheet's to say.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Figure, Time, unit};
use crate::record::{LimitsRecord, SurfaceRecord};

/// A test of the surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Test {
    /// Relative humidity in the slab, by probes (ASTM F2170).
    SlabHumidity,
    /// Moisture the slab gives off, by calcium chloride (ASTM F1869).
    VaporEmission,
    /// Whether moisture gathers under a plastic sheet (ASTM D4263).
    PlasticSheet,
    /// pH of the surface (ASTM D4262).
    SurfacePh,
    /// Roughness, by comparison with the ICRI profiles.
    Profile,
    /// How long it has dried since it was wet.
    Dried,
}

impl Test {
    /// Every surface test, in the order in which findings are listed.
    pub const ALL: [Self; 6] = [
        Self::PlasticSheet,
        Self::SlabHumidity,
        Self::VaporEmission,
        Self::SurfacePh,
        Self::Profile,
        Self::Dried,
    ];

    /// The reading it takes.
    pub fn field(self) -> Field {
        match self {
            Self::SlabHumidity => Field::SlabHumidity,
            Self::VaporEmission => Field::VaporEmission,
            Self::PlasticSheet => Field::PlasticSheet,
            Self::SurfacePh => Field::SurfacePh,
            Self::Profile => Field::Profile,
            Self::Dried => Field::Dried,
        }
    }
}

/// What came of a test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outcome {
    /// Within what the sheet allows.
    Passes,
    /// Below the least the sheet allows.
    TooLow(Figure),
    /// Above the most the sheet allows; without a figure, moisture where there may be none.
    TooHigh(Option<Figure>),
    /// The sheet sets a limit, and nothing was read.
    NotRead,
    /// It was read, and the sheet sets no limit to hold it to.
    NoLimit,
}

impl Outcome {
    /// Whether it forbids coating.
    pub fn fails(self) -> bool {
        matches!(self, Self::TooLow(_) | Self::TooHigh(_))
    }
}

/// A test with its reading and what came of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// Which surface test the finding is about.
    pub test: Test,
    /// The reading of that test; `None` where nothing was read.
    pub given: Option<Figure>,
    /// What came of it.
    pub outcome: Outcome,
}

/// The least and the most a test may show.
type Bounds = (Option<Figure>, Option<Figure>);

/// What a data sheet asks of the surface, checked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Asked {
    slab_humidity: Option<f64>,
    vapor_emission: Option<f64>,
    ph: (Option<f64>, Option<f64>),
    profile: (Option<u32>, Option<u32>),
    dried: Option<Time>,
}

impl Asked {
    fn bounds(&self, test: Test) -> Bounds {
        match test {
            Test::SlabHumidity => (None, self.slab_humidity.map(Figure::Share)),
            Test::VaporEmission => (None, self.vapor_emission.map(Figure::Number)),
            Test::PlasticSheet => (None, None),
            Test::SurfacePh => (self.ph.0.map(Figure::Number), self.ph.1.map(Figure::Number)),
            Test::Profile => (self.profile.0.map(Figure::Count), self.profile.1.map(Figure::Count)),
            Test::Dried => (self.dried.map(Figure::Time), None),
        }
    }

    /// What came of each test that was made or is asked for.
    ///
    /// A plastic sheet with moisture under it fails whatever the sheet says; one that was dry
    /// passes, though it shows less than probes do.
    ///
    /// ```
    /// use pailwise_calc::record::{LimitsRecord, SurfaceRecord};
    /// use pailwise_calc::surface::{Asked, Outcome, Readings, Test};
    /// let sheet = LimitsRecord { slab_humidity_max_percent: Some(80.0), ..Default::default() };
    /// let read = SurfaceRecord { slab_humidity_percent: Some(84.0), ..Default::default() };
    /// let found = Asked::try_from(&sheet).unwrap().judge(&Readings::try_from(&read).unwrap());
    /// assert_eq!((found.len(), found[0].test), (1, Test::SlabHumidity));
    /// assert!(found[0].outcome.fails());
    /// ```
    pub fn judge(&self, readings: &Readings) -> Vec<Finding> {
        let finding = |test: Test| {
            let (least, most) = self.bounds(test);
            let given = readings.of(test);
            let outcome = match (given, least, most) {
                (Some(Figure::Count(0)), ..) if test == Test::PlasticSheet => {
                    Outcome::TooHigh(None)
                }
                (Some(_), ..) if test == Test::PlasticSheet => Outcome::Passes,
                (None, None, None) => return None,
                (None, ..) => Outcome::NotRead,
                (Some(given), least, most) => {
                    let low = least.filter(|least| given.si() < least.si());
                    let high = most.filter(|most| given.si() > most.si());
                    match (low, high) {
                        (Some(least), _) => Outcome::TooLow(least),
                        (_, Some(most)) => Outcome::TooHigh(Some(most)),
                        _ if least.is_none() && most.is_none() => Outcome::NoLimit,
                        _ => Outcome::Passes,
                    }
                }
            };
            Some(Finding { test, given, outcome })
        };
        Test::ALL.into_iter().filter_map(finding).collect()
    }
}

impl TryFrom<&LimitsRecord> for Asked {
    type Error = Error;

    /// Checks each limit of a record.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a limit outside its range, [`Error::LeastAboveMost`] for a least
    /// above its most.
    fn try_from(record: &LimitsRecord) -> Result<Self, Error> {
        let (ph_least, ph_most) = (Field::SurfacePhLeast, Field::SurfacePhMost);
        let (csp_least, csp_most) = (Field::ProfileLeast, Field::ProfileMost);
        let asked = Self {
            slab_humidity: percent(Field::SlabHumidityMost, record.slab_humidity_max_percent)?,
            vapor_emission: number(
                Field::VaporEmissionMost,
                record.vapor_emission_max_g_per_m2_day,
            )?,
            ph: (number(ph_least, record.surface_ph_min)?, number(ph_most, record.surface_ph_max)?),
            profile: (
                count(csp_least, record.profile_min_csp)?,
                count(csp_most, record.profile_max_csp)?,
            ),
            dried: hours(Field::DryAfterWash, record.dry_after_wash_h)?,
        };
        in_order(asked.ph, ph_least, ph_most)?;
        in_order(asked.profile, csp_least, csp_most)?;
        Ok(asked)
    }
}

/// Refuses a least above its most.
pub(crate) fn in_order<T: PartialOrd + Into<Figure>>(
    (least, most): (Option<T>, Option<T>),
    field: Field,
    other: Field,
) -> Result<(), Error> {
    match least.zip(most) {
        Some((least, most)) if least > most => {
            Err(Error::LeastAboveMost { field, other, least: least.into(), most: most.into() })
        }
        _ => Ok(()),
    }
}

/// Checked readings of the surface.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Readings {
    slab_humidity: Option<f64>,
    vapor_emission: Option<f64>,
    plastic_sheet_dry: Option<bool>,
    ph: Option<f64>,
    profile: Option<u32>,
    dried: Option<Time>,
}

impl Readings {
    fn of(&self, test: Test) -> Option<Figure> {
        match test {
            Test::SlabHumidity => self.slab_humidity.map(Figure::Share),
            Test::VaporEmission => self.vapor_emission.map(Figure::Number),
            Test::PlasticSheet => self.plastic_sheet_dry.map(|dry| Figure::Count(u32::from(dry))),
            Test::SurfacePh => self.ph.map(Figure::Number),
            Test::Profile => self.profile.map(Figure::Count),
            Test::Dried => self.dried.map(Figure::Time),
        }
    }
}

impl TryFrom<&SurfaceRecord> for Readings {
    type Error = Error;

    /// Checks each reading.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the reading.
    fn try_from(record: &SurfaceRecord) -> Result<Self, Error> {
        Ok(Self {
            slab_humidity: percent(Field::SlabHumidity, record.slab_humidity_percent)?,
            vapor_emission: number(Field::VaporEmission, record.vapor_emission_g_per_m2_day)?,
            plastic_sheet_dry: record.plastic_sheet_dry,
            ph: number(Field::SurfacePh, record.surface_ph)?,
            profile: count(Field::Profile, record.profile_csp)?,
            dried: hours(Field::Dried, record.dried_h)?,
        })
    }
}

/// A percentage as a share.
pub(crate) fn percent(field: Field, value: Option<f64>) -> Result<Option<f64>, Error> {
    value.map(|percent| field.check_share(percent / 100.0)).transpose()
}

fn number(field: Field, value: Option<f64>) -> Result<Option<f64>, Error> {
    value.map(|number| field.check(number)).transpose()
}

fn count(field: Field, value: Option<u32>) -> Result<Option<u32>, Error> {
    value.map(|count| field.check(count)).transpose()
}

fn hours(field: Field, value: Option<f64>) -> Result<Option<Time>, Error> {
    value.map(|hours| field.check(Time::new::<unit::hour>(hours))).transpose()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet() -> Asked {
        let record = LimitsRecord {
            slab_humidity_max_percent: Some(80.0),
            surface_ph_min: Some(6.0),
            surface_ph_max: Some(10.0),
            profile_min_csp: Some(2),
            profile_max_csp: Some(3),
            dry_after_wash_h: Some(24.0),
            ..LimitsRecord::default()
        };
        Asked::try_from(&record).unwrap()
    }

    fn outcome(record: SurfaceRecord, test: Test) -> Option<Outcome> {
        let found = sheet().judge(&Readings::try_from(&record).unwrap());
        found.into_iter().find(|finding| finding.test == test).map(|finding| finding.outcome)
    }

    #[test]
    fn a_limit_itself_passes_and_a_hair_beyond_fails() {
        let none = SurfaceRecord::default();
        let humidity = |percent| SurfaceRecord { slab_humidity_percent: Some(percent), ..none };
        assert_eq!(outcome(humidity(80.0), Test::SlabHumidity), Some(Outcome::Passes));
        assert!(outcome(humidity(80.1), Test::SlabHumidity).unwrap().fails());
        let ph = |ph| SurfaceRecord { surface_ph: Some(ph), ..none };
        assert_eq!(outcome(ph(10.0), Test::SurfacePh), Some(Outcome::Passes));
        let low = outcome(ph(5.9), Test::SurfacePh);
        assert_eq!(low, Some(Outcome::TooLow(Figure::Number(6.0))));
        let dried = |hours| SurfaceRecord { dried_h: Some(hours), ..none };
        assert!(outcome(dried(23.0), Test::Dried).unwrap().fails());
        assert_eq!(outcome(dried(24.0), Test::Dried), Some(Outcome::Passes));
        let rough = SurfaceRecord { profile_csp: Some(5), ..none };
        assert!(outcome(rough, Test::Profile).unwrap().fails());
    }

    #[test]
    fn what_was_not_read_is_asked_for_only_where_the_sheet_sets_a_limit() {
        let none = SurfaceRecord::default();
        assert_eq!(outcome(none, Test::SlabHumidity), Some(Outcome::NotRead));
        assert_eq!(outcome(none, Test::VaporEmission), None);
        let read = SurfaceRecord { vapor_emission_g_per_m2_day: Some(9.0), ..none };
        assert_eq!(outcome(read, Test::VaporEmission), Some(Outcome::NoLimit));
    }

    #[test]
    fn moisture_under_a_plastic_sheet_fails_whatever_the_sheet_says() {
        let wet = SurfaceRecord { plastic_sheet_dry: Some(false), ..SurfaceRecord::default() };
        assert!(outcome(wet, Test::PlasticSheet).unwrap().fails());
        let dry = SurfaceRecord { plastic_sheet_dry: Some(true), ..SurfaceRecord::default() };
        assert_eq!(outcome(dry, Test::PlasticSheet), Some(Outcome::Passes));
    }

    #[test]
    fn readings_that_cannot_be_are_refused() {
        let none = SurfaceRecord::default();
        for wrong in [
            SurfaceRecord { slab_humidity_percent: Some(140.0), ..none },
            SurfaceRecord { surface_ph: Some(f64::NAN), ..none },
            SurfaceRecord { profile_csp: Some(11), ..none },
            SurfaceRecord { dried_h: Some(-1.0), ..none },
            SurfaceRecord { vapor_emission_g_per_m2_day: Some(-3.0), ..none },
        ] {
            assert!(Readings::try_from(&wrong).is_err(), "{wrong:?}");
        }
    }
}
