//! Every input by name, with the range it may take.
//!
//! One table serves the crate's own checks, the app's fields and the error a person reads, so the
//! three cannot disagree.

use crate::error::Error;
use crate::quantity::{
    Area, Figure, Length, Mass, MassDensity, Pace, Velocity, Volume, VolumeRate, celsius, minutes,
    unit,
};
use crate::quantity::{AvailableEnergy, MolarEnergy, TemperatureInterval, Time};

/// An input, named.
///
/// ```
/// use pailwise_calc::{field::Field, quantity::celsius};
/// assert!(Field::Slab.check(celsius(23.0)).is_ok());
/// let wrong = Field::Slab.check(celsius(70.0)).unwrap_err();
/// assert_eq!(wrong.to_string(), "slab_c: 70 °C is outside -5 °C to 50 °C");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "each is the input of that name; `key` spells it out")]
pub enum Field {
    Components,
    Parts,
    Density,
    RatioTolerance,
    Dose,
    PotLife,
    PotLifeTemperature,
    PotLifeMass,
    OpenTime,
    OpenTimeTemperature,
    OpenTimeHumidity,
    ActivationEnergy,
    HeatOfReaction,
    HeatCapacity,
    Kappa,
    Mixing,
    Induction,
    WetFilm,
    DryFilm,
    Solids,
    Spread,
    TakeUp,
    Loss,
    Slab,
    Air,
    Material,
    Mixed,
    AreaLeft,
    Width,
    CrackLength,
    CrackWidth,
    CrackDepth,
    Rollers,
    Flakers,
    RollPace,
    FlakePace,
    Throw,
    Carry,
    /// What reading a measure once takes.
    Reading,
    /// What a clean pail takes.
    CleanPail,
    Settle,
    PourRate,
    Usable,
    BatchMass,
    LargestMass,
    VesselHeight,
    VesselDiameter,
    JugStep,
    ScaleStep,
    MarkStep,
    Vessel,
    Kits,
    Kit,
    KitMass,
    PerKit,
    PerKitMass,
    EquivalentWeight,
    PouredVolume,
    PouredMass,
    PouredMark,
    MetAgo,
    PlanOffset,
    PlanSize,
    WallLength,
    WallHeight,
    StepCount,
    StepWidth,
    StepTread,
    StepRiser,
    OpenSides,
    CutIn,
    Cutters,
    Mixers,
    Crews,
    TapeLines,
    TapeLine,
    Bay,
    CutPace,
    CrackPace,
    HourAt,
    DayAir,
    DriftRate,
    StartsAt,
    Day,
    OnHand,
    EndedAt,
    Took,
    WentSoFar,
    PaceSoFar,
    EdgeAtStart,
    EdgePerArea,
    EdgeAcross,
    SideBeyond,
    AnotherBack,
    MixerWait,
    EdgeBefore,
    Rectangles,
    Coats,
    Name,
    Id,
    Label,
    AdditiveName,
    Notes,
    Lot,
    LearntRows,
    LearntTime,
    PailReading,
    Sheet,
    Revised,
    Currency,
    Rows,
    Price,
    PotLifeVolume,
    AfterTime,
    AfterTemperature,
    RecoatOpens,
    RecoatCloses,
    LightUse,
    Vehicles,
    FullCure,
    FlakeCover,
    SlabLeast,
    SlabMost,
    AirLeast,
    AirMost,
    HumidityMost,
    DewPointSpread,
    SlabHumidityMost,
    VaporEmissionMost,
    SurfacePhLeast,
    SurfacePhMost,
    ProfileLeast,
    ProfileMost,
    DryAfterWash,
    Humidity,
    TonightSlab,
    SlabHumidity,
    VaporEmission,
    PlasticSheet,
    SurfacePh,
    Profile,
    Dried,
    FirstDay,
    FlakeBox,
    /// Flake that is here.
    FlakeHere,
    /// A tooth of a wet-film comb.
    CombTooth,
    /// What is bought beyond what the floor needs, as a percentage of it.
    Spare,
}

impl Field {
    /// Its name in a file: the key there, unit included.
    #[expect(clippy::too_many_lines, reason = "one table, a line an input")]
    pub fn key(self) -> &'static str {
        match self {
            Self::Components => "components",
            Self::Parts => "parts",
            Self::Density => "density_kg_per_l",
            Self::RatioTolerance => "ratio_tolerance_percent",
            Self::Dose => "dose_percent",
            Self::PotLife => "pot_life.time_min",
            Self::PotLifeTemperature => "pot_life.temperature_c",
            Self::PotLifeMass => "pot_life.mass_kg",
            Self::OpenTime => "open_time.time_min",
            Self::OpenTimeTemperature => "open_time.temperature_c",
            Self::OpenTimeHumidity => "open_time.humidity_percent",
            Self::ActivationEnergy => "activation_energy_kj_per_mol",
            Self::HeatOfReaction => "heat_of_reaction_j_per_g",
            Self::HeatCapacity => "heat_capacity_j_per_g_k",
            Self::Kappa => "kappa",
            Self::Mixing => "mixing_min",
            Self::Induction => "induction_min",
            Self::WetFilm => "wet_film_um",
            Self::DryFilm => "dry_film_um",
            Self::Solids => "solids_by_volume_percent",
            Self::Spread => "spread_m2_per_l",
            Self::TakeUp => "take_up_percent",
            Self::Loss => "loss_percent",
            Self::Slab => "slab_c",
            Self::Air => "air_c",
            Self::Material => "material_c",
            Self::Mixed => "mixed_c",
            Self::AreaLeft => "area_m2",
            Self::Width => "width_m",
            Self::CrackLength => "crack_length_m",
            Self::CrackWidth => "crack_width_mm",
            Self::CrackDepth => "crack_depth_mm",
            Self::Rollers => "rollers",
            Self::Flakers => "flakers",
            Self::RollPace => "roll_m2_per_min",
            Self::FlakePace => "flake_m2_per_min",
            Self::Throw => "throw_m",
            Self::Carry => "carry_min",
            Self::Reading => "reading_min",
            Self::CleanPail => "clean_pail_min",
            Self::Settle => "settle_min",
            Self::PourRate => "pour_l_per_min",
            Self::Usable => "reserve_percent",
            Self::BatchMass => "mass_kg",
            Self::LargestMass => "largest_mass_kg",
            Self::VesselHeight => "height_mm",
            Self::VesselDiameter => "diameter_mm",
            Self::JugStep => "jug_step_ml",
            Self::ScaleStep => "scale_step_g",
            Self::MarkStep => "mark_step_mm",
            Self::Vessel => "vessel",
            Self::Kits => "kits",
            Self::Kit => "kits.volume_l",
            Self::KitMass => "kits.mass_kg",
            Self::PerKit => "dose_ml_per_kit",
            Self::PerKitMass => "dose_g_per_kit",
            Self::EquivalentWeight => "equivalent_weights",
            Self::PouredVolume => "poured_l",
            Self::PouredMass => "poured_kg",
            Self::PouredMark => "poured_mm",
            Self::MetAgo => "met_min_ago",
            Self::PlanOffset => "flat.left_m",
            Self::PlanSize => "flat.width_m",
            Self::WallLength => "stem_walls.length_m",
            Self::WallHeight => "stem_walls.height_m",
            Self::StepCount => "steps.count",
            Self::StepWidth => "steps.width_m",
            Self::StepTread => "steps.tread_m",
            Self::StepRiser => "steps.riser_m",
            Self::OpenSides => "steps.open_sides",
            Self::CutIn => "cut_in_m",
            Self::Cutters => "cutters",
            Self::Mixers => "mixers",
            Self::Crews => "crews",
            Self::TapeLines | Self::TapeLine => "tape_lines_m",
            Self::Bay => "bay",
            Self::CutPace => "cut_m2_per_min",
            Self::CrackPace => "crack_m_per_min",
            Self::HourAt => "course.at_min",
            Self::DayAir => "course.air_c",
            Self::DriftRate => "drift_k_per_hour",
            Self::StartsAt => "start_min",
            Self::Day => "day",
            Self::OnHand => "on_hand_l",
            Self::EndedAt => "ended_at_m",
            Self::Took => "took_min",
            Self::WentSoFar => "in_plan.went",
            Self::PaceSoFar => "in_plan.pace",
            Self::EdgeAtStart => "in_plan.edge_at_start_m2",
            Self::EdgePerArea => "in_plan.edge_per_m2",
            Self::EdgeAcross => "in_plan.edge_across_m2",
            Self::SideBeyond => "in_plan.beyond_m2",
            Self::AnotherBack => "in_plan.another_back_min",
            Self::MixerWait => "in_plan.wait_min",
            Self::EdgeBefore => "in_plan.edge_before",
            Self::Rectangles => "flat",
            Self::Coats => "coats",
            Self::Name => "name",
            Self::Id => "id",
            Self::Label => "components.label",
            Self::AdditiveName => "additives.name",
            Self::Notes => "notes",
            Self::Lot => "lot",
            Self::LearntRows => "learnt",
            Self::LearntTime => "learnt.time_min",
            Self::PailReading => "learnt.read_c",
            Self::Sheet => "sheet",
            Self::Revised => "revised",
            Self::Currency => "currency",
            Self::Rows => "rows",
            Self::Price => "kits.price",
            Self::PotLifeVolume => "pot_life.volume_l",
            Self::AfterTime => "time_h",
            Self::AfterTemperature => "temperature_c",
            Self::RecoatOpens => "recoat_opens",
            Self::RecoatCloses => "recoat_closes",
            Self::LightUse => "light_use",
            Self::Vehicles => "vehicles",
            Self::FullCure => "full_cure",
            Self::FlakeCover => "flake_kg_per_m2",
            Self::SlabLeast => "limits.slab_min_c",
            Self::SlabMost => "limits.slab_max_c",
            Self::AirLeast => "limits.air_min_c",
            Self::AirMost => "limits.air_max_c",
            Self::HumidityMost => "limits.humidity_max_percent",
            Self::DewPointSpread => "limits.dew_point_spread_k",
            Self::SlabHumidityMost => "limits.slab_humidity_max_percent",
            Self::VaporEmissionMost => "limits.vapor_emission_max_g_per_m2_day",
            Self::SurfacePhLeast => "limits.surface_ph_min",
            Self::SurfacePhMost => "limits.surface_ph_max",
            Self::ProfileLeast => "limits.profile_min_csp",
            Self::ProfileMost => "limits.profile_max_csp",
            Self::DryAfterWash => "limits.dry_after_wash_h",
            Self::Humidity => "humidity_percent",
            Self::TonightSlab => "tonight.slab_c",
            Self::SlabHumidity => "surface.slab_humidity_percent",
            Self::VaporEmission => "surface.vapor_emission_g_per_m2_day",
            Self::PlasticSheet => "surface.plastic_sheet_dry",
            Self::SurfacePh => "surface.surface_ph",
            Self::Profile => "surface.profile_csp",
            Self::Dried => "surface.dried_h",
            Self::FirstDay => "first_day",
            Self::FlakeBox => "flake_box_kg",
            Self::Spare => "spare_percent",
            Self::FlakeHere => "flake_here_kg",
            Self::CombTooth => "comb_tooth_um",
        }
    }

    /// The least and the most it may be.
    #[expect(clippy::too_many_lines, reason = "one table, a line an input")]
    pub fn range(self) -> (Figure, Figure) {
        match self {
            Self::Components => count(2, 4),
            Self::Parts => (Figure::Number(0.01), Figure::Number(1000.0)),
            Self::Density => {
                span(0.5, 5.0, |x| MassDensity::new::<unit::kilogram_per_cubic_meter>(x * 1000.0))
            }
            Self::RatioTolerance => share(0.1, 20.0),
            Self::Dose => share(0.01, 50.0),
            Self::PotLife | Self::OpenTime => span(1.0, 24.0 * 60.0, minutes),
            Self::PotLifeTemperature
            | Self::OpenTimeTemperature
            | Self::AfterTemperature
            | Self::SlabLeast
            | Self::SlabMost
            | Self::AirLeast
            | Self::AirMost
            | Self::Slab
            | Self::TonightSlab
            | Self::Air
            | Self::DayAir
            | Self::Material => span(-5.0, 50.0, celsius),
            Self::PotLifeMass | Self::BatchMass | Self::LargestMass => {
                span(0.01, 200.0, Mass::new::<unit::kilogram>)
            }
            Self::ActivationEnergy => {
                span(10.0, 150.0, MolarEnergy::new::<unit::kilojoule_per_mole>)
            }
            // What was read at the top of its range, and the heat of a drill.
            Self::Mixed => span(-5.0, 55.0, celsius),
            Self::HeatOfReaction => span(10.0, 700.0, AvailableEnergy::new::<unit::joule_per_gram>),
            Self::HeatCapacity => (Figure::Number(0.5), Figure::Number(5.0)),
            Self::Kappa => (Figure::Number(0.001), Figure::Number(100_000.0)),
            Self::Mixing => span(0.5, 30.0, minutes),
            Self::Induction => span(0.0, 120.0, minutes),
            Self::WetFilm | Self::DryFilm | Self::CombTooth => {
                let film = |um| Figure::Thickness(Length::new::<unit::micrometer>(um));
                (film(10.0), film(20_000.0))
            }
            Self::Solids => share(5.0, 100.0),
            Self::Spread => (Figure::Number(0.05), Figure::Number(100.0)),
            Self::TakeUp | Self::Spare => share(0.0, 100.0),
            Self::Loss => share(0.0, 50.0),
            Self::AreaLeft => span(0.000_1, 100_000.0, Area::new::<unit::square_meter>),
            Self::Width => span(0.05, 1000.0, Length::new::<unit::meter>),
            Self::CrackLength | Self::WallLength => span(0.1, 10_000.0, Length::new::<unit::meter>),
            Self::CrackWidth | Self::CrackDepth => {
                span(1.0, 300.0, Length::new::<unit::millimeter>)
            }
            Self::Rollers | Self::Kits | Self::Coats => count(1, 20),
            Self::Flakers | Self::Cutters => count(0, 20),
            Self::Mixers => count(0, 8),
            Self::TapeLines => count(0, 7),
            Self::Crews | Self::Bay => count(1, 8),
            Self::RollPace | Self::FlakePace => {
                span(0.000_01, 20.0, |x| Pace::new::<unit::square_meter_per_second>(x / 60.0))
            }
            Self::Throw => span(0.3, 6.0, Length::new::<unit::meter>),
            Self::Carry | Self::Settle | Self::CleanPail => span(0.0, 60.0, minutes),
            Self::Reading => span(0.0, 10.0, minutes),
            Self::PourRate => span(0.5, 100.0, VolumeRate::new::<unit::liter_per_minute>),
            Self::Usable => share(30.0, 100.0),
            Self::VesselHeight | Self::VesselDiameter => {
                span(30.0, 1500.0, Length::new::<unit::millimeter>)
            }
            Self::JugStep => span(1.0, 20_000.0, Volume::new::<unit::milliliter>),
            Self::ScaleStep => span(0.1, 1000.0, Mass::new::<unit::gram>),
            Self::MarkStep => span(0.5, 50.0, Length::new::<unit::millimeter>),
            Self::Vessel => span(0.2, 400.0, Volume::new::<unit::liter>),
            Self::Kit => span(0.1, 1000.0, Volume::new::<unit::liter>),
            Self::KitMass => span(0.1, 2000.0, Mass::new::<unit::kilogram>),
            Self::PerKit => span(0.1, 20_000.0, Volume::new::<unit::milliliter>),
            Self::PerKitMass => span(0.1, 20_000.0, Mass::new::<unit::gram>),
            Self::EquivalentWeight => (Figure::Number(10.0), Figure::Number(10_000.0)),
            Self::PouredVolume => span(0.0, 400.0, Volume::new::<unit::liter>),
            Self::PouredMass => span(0.0, 1000.0, Mass::new::<unit::kilogram>),
            Self::PouredMark => span(0.0, 1500.0, Length::new::<unit::millimeter>),
            Self::MetAgo | Self::StartsAt | Self::AnotherBack | Self::MixerWait => {
                span(0.0, 24.0 * 60.0, minutes)
            }
            // What is promised may be over before the batch is begun.
            Self::EdgeBefore => span(-24.0 * 60.0, 24.0 * 60.0, minutes),
            Self::PlanOffset | Self::TapeLine => span(0.0, 2000.0, Length::new::<unit::meter>),
            Self::PlanSize => span(0.05, 2000.0, Length::new::<unit::meter>),
            Self::WallHeight => span(0.01, 5.0, Length::new::<unit::meter>),
            Self::StepCount => count(1, 50),
            Self::StepWidth => span(0.2, 50.0, Length::new::<unit::meter>),
            Self::StepTread => span(0.05, 2.0, Length::new::<unit::meter>),
            Self::StepRiser => span(0.02, 0.5, Length::new::<unit::meter>),
            Self::OpenSides => count(0, 2),
            Self::Day => count(0, 30),
            Self::CutIn => span(0.0, 0.5, Length::new::<unit::meter>),
            Self::CrackPace => {
                span(0.01, 100.0, |x| Velocity::new::<unit::meter_per_second>(x / 60.0))
            }
            Self::HourAt => span(0.0, 7.0 * 24.0 * 60.0, minutes),
            Self::CutPace => {
                span(0.01, 5.0, |x| Pace::new::<unit::square_meter_per_second>(x / 60.0))
            }
            Self::DriftRate => span(-10.0, 10.0, TemperatureInterval::new::<unit::celsius_change>),
            Self::OnHand => span(0.0, 1_000_000.0, Volume::new::<unit::liter>),
            Self::EndedAt => span(0.0, 4000.0, Length::new::<unit::meter>),
            Self::WentSoFar => share(10.0, 100.0),
            Self::PaceSoFar => share(10.0, 200.0),
            Self::EdgeAtStart | Self::EdgeAcross => {
                span(0.0, 10_000.0, Area::new::<unit::square_meter>)
            }
            Self::SideBeyond => span(0.0, 1e6, Area::new::<unit::square_meter>),
            Self::EdgePerArea => (Figure::Number(0.0), Figure::Number(1000.0)),
            Self::Took => span(0.1, 24.0 * 60.0, minutes),
            Self::Rectangles => count(1, 200),
            Self::Name
            | Self::Id
            | Self::Label
            | Self::AdditiveName
            | Self::Notes
            | Self::Lot
            | Self::Sheet
            | Self::Revised
            | Self::Currency
            | Self::FirstDay => {
                let (least, most) = crate::record::length(self);
                count(least as u32, most as u32)
            }
            Self::Rows => count(0, 12),
            Self::LearntRows => count(0, 60),
            Self::LearntTime => span(0.5, 24.0 * 60.0, minutes),
            Self::PailReading => span(-5.0, 250.0, celsius),
            Self::Price => (Figure::Number(0.0), Figure::Number(1_000_000.0)),
            Self::PotLifeVolume => span(0.01, 200.0, Volume::new::<unit::liter>),
            Self::AfterTime
            | Self::RecoatOpens
            | Self::RecoatCloses
            | Self::LightUse
            | Self::Vehicles
            | Self::FullCure => span(0.1, 60.0 * 24.0, Time::new::<unit::hour>),
            Self::FlakeCover => (Figure::Number(0.01), Figure::Number(3.0)),
            Self::HumidityMost
            | Self::SlabHumidityMost
            | Self::Humidity
            | Self::SlabHumidity
            | Self::OpenTimeHumidity => share(1.0, 100.0),
            Self::DewPointSpread => {
                span(0.0, 20.0, TemperatureInterval::new::<unit::kelvin_change>)
            }
            Self::VaporEmissionMost => (Figure::Number(0.5), Figure::Number(200.0)),
            Self::VaporEmission => (Figure::Number(0.0), Figure::Number(500.0)),
            Self::SurfacePhLeast | Self::SurfacePhMost | Self::SurfacePh => {
                (Figure::Number(0.0), Figure::Number(14.0))
            }
            Self::ProfileLeast | Self::ProfileMost | Self::Profile => count(1, 10),
            Self::DryAfterWash | Self::Dried => span(0.0, 60.0 * 24.0, Time::new::<unit::hour>),
            // Yes or no.
            Self::PlasticSheet => count(0, 1),
            Self::FlakeHere => span(0.0, 100_000.0, Mass::new::<unit::kilogram>),
            Self::FlakeBox => span(0.5, 1000.0, Mass::new::<unit::kilogram>),
        }
    }

    /// The quantity itself when it is a number within range.
    ///
    /// A hair of slack (one part in 10⁹) lets a limit that went through a unit conversion pass.
    ///
    /// # Errors
    /// [`Error::NotANumber`] or [`Error::OutOfRange`], naming this field.
    pub fn check<Q: Into<Figure> + Copy>(self, quantity: Q) -> Result<Q, Error> {
        let given = quantity.into();
        let (low, high) = self.range();
        let slack = |limit: Figure| 1e-9 * limit.si().abs();
        if !given.si().is_finite() {
            return Err(Error::NotANumber { field: self });
        }
        if given.si() < low.si() - slack(low) || given.si() > high.si() + slack(high) {
            return Err(Error::OutOfRange { field: self, given, low, high });
        }
        Ok(quantity)
    }

    /// A share of a whole (1 = all of it) when it is within range.
    ///
    /// # Errors
    /// As [`Field::check`].
    pub fn check_share(self, share: f64) -> Result<f64, Error> {
        self.check(Figure::Share(share))?;
        Ok(share)
    }
}

fn span<Q: Into<Figure>>(low: f64, high: f64, quantity: impl Fn(f64) -> Q) -> (Figure, Figure) {
    (quantity(low).into(), quantity(high).into())
}

fn share(low_percent: f64, high_percent: f64) -> (Figure, Figure) {
    (Figure::Share(low_percent / 100.0), Figure::Share(high_percent / 100.0))
}

fn count(low: u32, high: u32) -> (Figure, Figure) {
    (Figure::Count(low), Figure::Count(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn not_a_number_and_out_of_range_are_told_apart() {
        assert!(matches!(
            Field::AreaLeft.check(Area::new::<unit::square_meter>(f64::NAN)),
            Err(Error::NotANumber { field: Field::AreaLeft })
        ));
        assert!(matches!(
            Field::AreaLeft.check(Area::new::<unit::square_meter>(-3.0)),
            Err(Error::OutOfRange { field: Field::AreaLeft, .. })
        ));
        assert!(Field::AreaLeft.check(Area::default()).is_err());
    }

    #[test]
    fn a_limit_reached_through_another_unit_is_inside() {
        use crate::quantity::ThermodynamicTemperature as T;
        assert!(Field::Slab.check(T::new::<unit::degree_fahrenheit>(122.0)).is_ok());
        assert!(Field::Slab.check(T::new::<unit::degree_fahrenheit>(122.2)).is_err());
    }
}
