//! What the form of a product asks, in the order of a data sheet.

use pailwise_calc::field::Field;
use serde::{Deserialize, Serialize};

use crate::entry::Kind;
use crate::text::key;

/// One figure of the form: its label, where a sheet has it, what it takes.
#[derive(Clone, Copy, Debug)]
pub struct Ask {
    /// Its label, as a text key.
    pub label: &'static str,
    /// A line that says what it is and where on a sheet it stands.
    pub hint: Option<&'static str>,
    /// The range that it must be in.
    pub field: Field,
    /// How it is typed.
    pub kind: Kind,
    /// A sheet may leave it out.
    pub optional: bool,
}

const fn must(label: &'static str, field: Field, kind: Kind) -> Ask {
    Ask { label, hint: None, field, kind, optional: false }
}

const fn may(label: &'static str, field: Field, kind: Kind) -> Ask {
    Ask { optional: true, ..must(label, field, kind) }
}

impl Ask {
    const fn hint(self, hint: &'static str) -> Self {
        Self { hint: Some(hint), ..self }
    }
}

/// A figure of which a sheet has one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is what its name says in the trade")]
pub enum Single {
    Tolerance,
    EquivalentA,
    EquivalentB,
    Mixing,
    Induction,
    Wet,
    Dry,
    Solids,
    Spread,
    FlakeCover,
    SlabLeast,
    SlabMost,
    AirLeast,
    AirMost,
    HumidityMost,
    DewPointSpread,
    SlabHumidity,
    VaporEmission,
    PhLeast,
    PhMost,
    ProfileLeast,
    ProfileMost,
    DryAfterWash,
    ActivationEnergy,
    Heat,
    HeatCapacity,
    Kappa,
}

impl Single {
    /// Every figure that the product form asks for just once.
    pub const ALL: [Self; 27] = [
        Self::Tolerance,
        Self::EquivalentA,
        Self::EquivalentB,
        Self::Mixing,
        Self::Induction,
        Self::Wet,
        Self::Dry,
        Self::Solids,
        Self::Spread,
        Self::FlakeCover,
        Self::SlabLeast,
        Self::SlabMost,
        Self::AirLeast,
        Self::AirMost,
        Self::HumidityMost,
        Self::DewPointSpread,
        Self::SlabHumidity,
        Self::VaporEmission,
        Self::PhLeast,
        Self::PhMost,
        Self::ProfileLeast,
        Self::ProfileMost,
        Self::DryAfterWash,
        Self::ActivationEnergy,
        Self::Heat,
        Self::HeatCapacity,
        Self::Kappa,
    ];

    /// What a product may be laid in and on.
    pub const LIMITS: [Self; 13] = [
        Self::SlabLeast,
        Self::SlabMost,
        Self::AirLeast,
        Self::AirMost,
        Self::HumidityMost,
        Self::DewPointSpread,
        Self::SlabHumidity,
        Self::VaporEmission,
        Self::PhLeast,
        Self::PhMost,
        Self::ProfileLeast,
        Self::ProfileMost,
        Self::DryAfterWash,
    ];

    /// What the maker alone may know of its heat.
    pub const THERMAL: [Self; 4] =
        [Self::ActivationEnergy, Self::Heat, Self::HeatCapacity, Self::Kappa];

    /// The name of its field in the page.
    pub fn id(self) -> String {
        format!("{}-field", self.ask().label)
    }

    /// Returns the label, hint, range and kind of its field in the form.
    #[expect(clippy::too_many_lines, reason = "a table")]
    pub fn ask(self) -> Ask {
        use Kind::{Change, Count, Hours, Minutes, Number, Percent, Temperature};
        match self {
            Self::Tolerance => must(key::SHEET_TOLERANCE, Field::RatioTolerance, Percent)
                .hint(key::SHEET_TOLERANCE_HINT),
            Self::EquivalentA => {
                may(key::SHEET_EEW, Field::EquivalentWeight, Number).hint(key::SHEET_EEW_HINT)
            }
            Self::EquivalentB => {
                may(key::SHEET_AHEW, Field::EquivalentWeight, Number).hint(key::SHEET_AHEW_HINT)
            }
            Self::Mixing => {
                must(key::SHEET_MIXING, Field::Mixing, Minutes).hint(key::SHEET_MIXING_HINT)
            }
            Self::Induction => {
                may(key::SHEET_INDUCTION, Field::Induction, Minutes).hint(key::SHEET_INDUCTION_HINT)
            }
            Self::Wet => must(key::SHEET_WET, Field::WetFilm, Kind::Film).hint(key::SHEET_WET_HINT),
            Self::Dry => must(key::SHEET_DRY, Field::DryFilm, Kind::Film).hint(key::SHEET_DRY_HINT),
            Self::Solids => {
                must(key::SHEET_SOLIDS, Field::Solids, Percent).hint(key::SHEET_SOLIDS_HINT)
            }
            Self::Spread => {
                must(key::SHEET_SPREAD, Field::Spread, Kind::Spread).hint(key::SHEET_SPREAD_HINT)
            }
            Self::FlakeCover => may(key::SHEET_FLAKE_COVER, Field::FlakeCover, Kind::Cover)
                .hint(key::SHEET_FLAKE_COVER_HINT),
            Self::SlabLeast => may(key::SHEET_SLAB_LEAST, Field::SlabLeast, Temperature)
                .hint(key::SHEET_SLAB_LEAST_HINT),
            Self::SlabMost => may(key::SHEET_SLAB_MOST, Field::SlabMost, Temperature)
                .hint(key::SHEET_SLAB_MOST_HINT),
            Self::AirLeast => {
                may(key::SHEET_AIR_LEAST, Field::AirLeast, Temperature).hint(key::SHEET_AIR_HINT)
            }
            Self::AirMost => {
                may(key::SHEET_AIR_MOST, Field::AirMost, Temperature).hint(key::SHEET_AIR_HINT)
            }
            Self::HumidityMost => may(key::SHEET_HUMIDITY, Field::HumidityMost, Percent)
                .hint(key::SHEET_HUMIDITY_HINT),
            Self::DewPointSpread => {
                may(key::SHEET_DEW, Field::DewPointSpread, Change).hint(key::SHEET_DEW_HINT)
            }
            Self::SlabHumidity => may(key::SHEET_SLAB_RH, Field::SlabHumidityMost, Percent)
                .hint(key::SHEET_SLAB_RH_HINT),
            Self::VaporEmission => {
                may(key::SHEET_EMISSION, Field::VaporEmissionMost, Kind::Emission)
                    .hint(key::SHEET_EMISSION_HINT)
            }
            Self::PhLeast => {
                may(key::SHEET_PH_LEAST, Field::SurfacePhLeast, Number).hint(key::SHEET_PH_HINT)
            }
            Self::PhMost => {
                may(key::SHEET_PH_MOST, Field::SurfacePhMost, Number).hint(key::SHEET_PH_MOST_HINT)
            }
            Self::ProfileLeast => {
                may(key::SHEET_CSP_LEAST, Field::ProfileLeast, Count).hint(key::SHEET_CSP_HINT)
            }
            Self::ProfileMost => {
                may(key::SHEET_CSP_MOST, Field::ProfileMost, Count).hint(key::SHEET_CSP_MOST_HINT)
            }
            Self::DryAfterWash => {
                may(key::SHEET_DRY_WASH, Field::DryAfterWash, Hours).hint(key::SHEET_DRY_WASH_HINT)
            }
            Self::ActivationEnergy => {
                may(key::SHEET_ENERGY, Field::ActivationEnergy, Number).hint(key::SHEET_ENERGY_HINT)
            }
            Self::Heat => {
                may(key::SHEET_HEAT, Field::HeatOfReaction, Number).hint(key::SHEET_HEAT_HINT)
            }
            Self::HeatCapacity => {
                may(key::SHEET_CP, Field::HeatCapacity, Number).hint(key::SHEET_CP_HINT)
            }
            Self::Kappa => may(key::SHEET_KAPPA, Field::Kappa, Number).hint(key::SHEET_KAPPA_HINT),
        }
    }
}

/// A kind of line of which a sheet has some.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is what its name says in the trade")]
pub enum Row {
    Part,
    Additive,
    Kit,
    PotLife,
    OpenTime,
    RecoatOpens,
    RecoatCloses,
    LightUse,
    Vehicles,
    FullCure,
}

impl Row {
    /// Every kind of row of which a data sheet may have several.
    pub const ALL: [Self; 10] = [
        Self::Part,
        Self::Additive,
        Self::Kit,
        Self::PotLife,
        Self::OpenTime,
        Self::RecoatOpens,
        Self::RecoatCloses,
        Self::LightUse,
        Self::Vehicles,
        Self::FullCure,
    ];

    /// What one is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Part => key::ROW_PART,
            Self::Additive => key::ROW_ADDITIVE,
            Self::Kit => key::ROW_KIT,
            Self::PotLife => key::ROW_POT_LIFE,
            Self::OpenTime => key::ROW_OPEN_TIME,
            Self::RecoatOpens => key::ROW_RECOAT_OPENS,
            Self::RecoatCloses => key::ROW_RECOAT_CLOSES,
            Self::LightUse => key::ROW_LIGHT_USE,
            Self::Vehicles => key::ROW_VEHICLES,
            Self::FullCure => key::ROW_FULL_CURE,
        }
    }

    /// Returns the text key of the button that adds another such row.
    pub fn add(self) -> &'static str {
        match self {
            Self::Part => key::ADD_PART,
            Self::Additive => key::ADD_ADDITIVE,
            Self::Kit => key::ADD_KIT,
            Self::PotLife => key::ADD_POT_LIFE,
            Self::OpenTime
            | Self::RecoatOpens
            | Self::RecoatCloses
            | Self::LightUse
            | Self::Vehicles
            | Self::FullCure => key::ADD_TIME,
        }
    }

    /// The name in the page of a field of the line of a number.
    pub fn id(self, n: usize, field: usize) -> String {
        format!("{}-{n}-{field}", self.name())
    }

    /// A line that says what it is and where on a sheet it stands.
    pub fn hint(self) -> &'static str {
        match self {
            Self::Part => key::ROW_PART_HINT,
            Self::Additive => key::ROW_ADDITIVE_HINT,
            Self::Kit => key::ROW_KIT_HINT,
            Self::PotLife => key::ROW_POT_LIFE_HINT,
            Self::OpenTime => key::ROW_OPEN_TIME_HINT,
            Self::RecoatOpens => key::ROW_RECOAT_OPENS_HINT,
            Self::RecoatCloses => key::ROW_RECOAT_CLOSES_HINT,
            Self::LightUse => key::ROW_LIGHT_USE_HINT,
            Self::Vehicles => key::ROW_VEHICLES_HINT,
            Self::FullCure => key::ROW_FULL_CURE_HINT,
        }
    }

    /// How few and how many of them a sheet has.
    pub fn count(self) -> (usize, usize) {
        match self {
            Self::Part => (2, 4),
            Self::PotLife => (1, 6),
            _ => (0, 6),
        }
    }

    /// Its words, where it has some: the label of a part, the name of an additive.
    pub fn words(self) -> Option<(&'static str, Field)> {
        match self {
            Self::Part => Some((key::ROW_PART_LABEL, Field::Label)),
            Self::Additive => Some((key::ROW_ADDITIVE_NAME, Field::AdditiveName)),
            _ => None,
        }
    }

    /// The ways a sheet says it, where there are several.
    pub fn ways(self) -> &'static [&'static str] {
        match self {
            Self::Additive => &[
                key::WAY_PERCENT_VOLUME,
                key::WAY_PERCENT_MASS,
                key::WAY_KIT_VOLUME,
                key::WAY_KIT_MASS,
            ],
            Self::Kit | Self::PotLife => &[key::WAY_VOLUME, key::WAY_MASS],
            _ => &[],
        }
    }

    /// What is asked of one that is said in a way.
    pub fn asks(self, way: usize) -> Vec<Ask> {
        use Kind::{
            Density, Hours, KitMass, KitVolume, Mass, Minutes, Number, Percent, Temperature,
        };
        let after = || {
            vec![
                must(key::ROW_AFTER, Field::AfterTime, Hours),
                must(key::ROW_AT, Field::AfterTemperature, Temperature),
            ]
        };
        let density = must(key::ROW_DENSITY, Field::Density, Density);
        match (self, way) {
            (Self::Part, _) => vec![
                must(key::ROW_PARTS, Field::Parts, Number).hint(key::ROW_PARTS_HINT),
                density.hint(key::ROW_DENSITY_HINT),
            ],
            (Self::Additive, 0 | 1) => {
                vec![must(key::ROW_DOSE, Field::Dose, Percent).hint(key::ROW_DOSE_HINT), density]
            }
            (Self::Additive, 2) => vec![must(key::ROW_DOSE, Field::PerKit, KitVolume), density],
            (Self::Additive, _) => vec![must(key::ROW_DOSE, Field::PerKitMass, KitMass), density],
            (Self::Kit, 0) => vec![
                must(key::ROW_KIT_SIZE, Field::Kit, Kind::Bulk),
                may(key::ROW_PRICE, Field::Price, Number),
            ],
            (Self::Kit, _) => vec![
                must(key::ROW_KIT_SIZE, Field::KitMass, Mass),
                may(key::ROW_PRICE, Field::Price, Number),
            ],
            (Self::PotLife, 0) => vec![
                must(key::ROW_TIME, Field::PotLife, Minutes),
                must(key::ROW_AT, Field::PotLifeTemperature, Temperature),
                may(key::ROW_OF, Field::PotLifeVolume, Kind::Volume).hint(key::ROW_OF_HINT),
            ],
            (Self::PotLife, _) => vec![
                must(key::ROW_TIME, Field::PotLife, Minutes),
                must(key::ROW_AT, Field::PotLifeTemperature, Temperature),
                may(key::ROW_OF, Field::PotLifeMass, Mass).hint(key::ROW_OF_HINT),
            ],
            (Self::OpenTime, _) => vec![
                must(key::ROW_TIME, Field::OpenTime, Minutes),
                must(key::ROW_AT, Field::OpenTimeTemperature, Temperature),
                may(key::ROW_HUMIDITY, Field::OpenTimeHumidity, Percent)
                    .hint(key::ROW_HUMIDITY_HINT),
            ],
            (
                Self::RecoatOpens
                | Self::RecoatCloses
                | Self::LightUse
                | Self::Vehicles
                | Self::FullCure,
                _,
            ) => after(),
        }
    }
}

/// The name in the page of what feeds a field of the calculation, if the form has it.
pub fn id_of(field: Field) -> Option<String> {
    match field {
        Field::Name => Some(key::SHEET_NAME.to_owned()),
        Field::ActivationEnergy => Some(Row::PotLife.name().to_owned()),
        _ => {
            let single = Single::ALL.into_iter().find(|single| single.ask().field == field);
            let row = Row::ALL.into_iter().find(|row| Some(row.name()) == label_of(field));
            single.map(Single::id).or(row.map(|row| row.name().to_owned()))
        }
    }
}

/// The label of the figure that feeds a field of the calculation, if the form has one.
pub fn label_of(field: Field) -> Option<&'static str> {
    let row = match field {
        Field::Components => Some(Row::Part),
        Field::RecoatOpens => Some(Row::RecoatOpens),
        Field::RecoatCloses => Some(Row::RecoatCloses),
        Field::LightUse => Some(Row::LightUse),
        Field::Vehicles => Some(Row::Vehicles),
        Field::FullCure => Some(Row::FullCure),
        Field::PotLife => Some(Row::PotLife),
        Field::OpenTime => Some(Row::OpenTime),
        Field::Kits | Field::Kit => Some(Row::Kit),
        _ => None,
    };
    let words = match field {
        Field::Name => Some(key::SHEET_NAME),
        Field::Notes => Some(key::SHEET_NOTES),
        Field::Sheet => Some(key::SHEET_SOURCE),
        Field::Currency => Some(key::SHEET_CURRENCY),
        Field::Label => Some(key::ROW_PART_LABEL),
        Field::AdditiveName => Some(key::ROW_ADDITIVE_NAME),
        _ => None,
    };
    let single = || Single::ALL.into_iter().map(Single::ask).find(|ask| ask.field == field);
    let in_rows = || {
        let asks = Row::ALL
            .into_iter()
            .flat_map(|row| (0..row.ways().len().max(1)).flat_map(move |way| row.asks(way)));
        asks.into_iter().find(|ask| ask.field == field)
    };
    words.or(row.map(Row::name)).or_else(|| single().or_else(in_rows).map(|ask| ask.label))
}
