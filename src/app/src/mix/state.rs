//! What the Mix screen was told, as it is kept.

use std::collections::BTreeMap;

use pailwise_calc::field::Field;
use pailwise_calc::record::Role;
use pailwise_calc::vessel::Generic;
use serde::{Deserialize, Serialize};

use crate::entry::{Entry, Kind};
use crate::show::Units;
use crate::store::{self, Record as _};
use crate::text::key;

/// A field of the Mix screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the field of that name")]
pub enum Ask {
    Slab,
    Air,
    Material,
    Area,
    Width,
    CrackLength,
    CrackWidth,
    CrackDepth,
    TakeUp,
    Loss,
    Rollers,
    Flakers,
    RollPace,
    FlakePace,
    CrackPace,
    Throw,
    Carry,
    Reserve,
    LargestMass,
}

/// How the crew measures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// In a jug.
    #[default]
    Jug,
    /// To marks on a stick.
    Stick,
    /// On a scale.
    Scale,
}

impl Ask {
    /// Every field.
    pub const ALL: [Self; 19] = [
        Self::Slab,
        Self::Air,
        Self::Material,
        Self::Area,
        Self::Width,
        Self::CrackLength,
        Self::CrackWidth,
        Self::CrackDepth,
        Self::TakeUp,
        Self::Loss,
        Self::Rollers,
        Self::Flakers,
        Self::RollPace,
        Self::FlakePace,
        Self::CrackPace,
        Self::Throw,
        Self::Carry,
        Self::Reserve,
        Self::LargestMass,
    ];

    /// The text of its label.
    pub fn label(self) -> &'static str {
        match self {
            Self::Slab => key::ASK_SLAB,
            Self::Air => key::ASK_AIR,
            Self::Material => key::ASK_MATERIAL,
            Self::Area => key::ASK_AREA,
            Self::Width => key::ASK_WIDTH,
            Self::CrackLength => key::ASK_CRACK_LENGTH,
            Self::CrackWidth => key::ASK_CRACK_WIDTH,
            Self::CrackDepth => key::ASK_CRACK_DEPTH,
            Self::TakeUp => key::ASK_TAKE_UP,
            Self::Loss => key::ASK_LOSS,
            Self::Rollers => key::ASK_ROLLERS,
            Self::Flakers => key::ASK_FLAKERS,
            Self::RollPace => key::ASK_ROLL_PACE,
            Self::FlakePace => key::ASK_FLAKE_PACE,
            Self::CrackPace => key::ASK_CRACK_PACE,
            Self::Throw => key::ASK_THROW,
            Self::Carry => key::ASK_CARRY,
            Self::Reserve => key::ASK_RESERVE,
            Self::LargestMass => key::ASK_LARGEST_MASS,
        }
    }

    /// The field of the calculation it feeds, and the kind of quantity it takes.
    pub fn field(self) -> (Field, Kind) {
        match self {
            Self::Slab => (Field::Slab, Kind::Temperature),
            Self::Air => (Field::Air, Kind::Temperature),
            Self::Material => (Field::Material, Kind::Temperature),
            Self::Area => (Field::AreaLeft, Kind::Area),
            Self::Width => (Field::Width, Kind::Span),
            Self::CrackLength => (Field::CrackLength, Kind::Span),
            Self::CrackWidth => (Field::CrackWidth, Kind::Small),
            Self::CrackDepth => (Field::CrackDepth, Kind::Small),
            Self::TakeUp => (Field::TakeUp, Kind::Percent),
            Self::Loss => (Field::Loss, Kind::Percent),
            Self::Rollers => (Field::Rollers, Kind::Count),
            Self::Flakers => (Field::Flakers, Kind::Count),
            Self::RollPace => (Field::RollPace, Kind::Pace),
            Self::FlakePace => (Field::FlakePace, Kind::Pace),
            Self::CrackPace => (Field::RollPace, Kind::CrackPace),
            Self::Throw => (Field::Throw, Kind::Span),
            Self::Carry => (Field::Carry, Kind::Minutes),
            Self::Reserve => (Field::Reserve, Kind::Percent),
            Self::LargestMass => (Field::LargestMass, Kind::Mass),
        }
    }

    /// Whether it may be left empty.
    pub fn optional(self) -> bool {
        self == Self::LargestMass
    }

    /// Whether a product asks for it.
    pub fn concerns(self, role: Role, flaked: bool) -> bool {
        let filler = role == Role::Filler;
        match self {
            Self::Area | Self::Width | Self::RollPace | Self::TakeUp => !filler,
            Self::CrackLength | Self::CrackWidth | Self::CrackDepth | Self::CrackPace => filler,
            Self::Flakers | Self::FlakePace | Self::Throw => flaked && !filler,
            _ => true,
        }
    }

    /// What stands there before anybody has typed: usual figures (common practice, no source).
    fn first(self, units: Units) -> Entry {
        let us = units == Units::Us;
        let text = match self {
            Self::Slab | Self::Air | Self::Material => {
                if us {
                    "74"
                } else {
                    "23"
                }
            }
            Self::Area => {
                if us {
                    "400"
                } else {
                    "37"
                }
            }
            Self::Width => {
                if us {
                    "20"
                } else {
                    "6"
                }
            }
            Self::CrackLength => {
                if us {
                    "40"
                } else {
                    "12"
                }
            }
            Self::CrackWidth => {
                if us {
                    "1/4"
                } else {
                    "6"
                }
            }
            Self::CrackDepth => {
                if us {
                    "1/2"
                } else {
                    "12"
                }
            }
            Self::TakeUp | Self::Loss => "5",
            Self::Rollers | Self::Flakers | Self::Carry => "1",
            Self::RollPace => {
                if us {
                    "12"
                } else {
                    "1.1"
                }
            }
            Self::FlakePace => {
                if us {
                    "30"
                } else {
                    "2.8"
                }
            }
            Self::CrackPace => {
                if us {
                    "4"
                } else {
                    "1.2"
                }
            }
            Self::Throw => {
                if us {
                    "8"
                } else {
                    "2.4"
                }
            }
            Self::Reserve => "80",
            Self::LargestMass => "",
        };
        Entry::typed(text, units)
    }
}

/// The inputs of the Mix screen as they are kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MixRecord {
    /// Always its format.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// The product, by id.
    pub product: String,
    /// What was typed. A field that is not here has not been touched.
    pub entries: BTreeMap<Ask, Entry>,
    /// Somebody is free to mix the next batch meanwhile.
    pub mixer: bool,
    /// Poured out in a ribbon at once.
    pub ribbon: bool,
    /// The batch may end at a joint or a tape line.
    pub ends_at_joint: bool,
    /// The pail mixed in.
    pub vessel: Generic,
    /// How the crew measures.
    pub way: Way,
}

impl MixRecord {
    /// Usual figures for a product.
    pub fn first(product: &str, units: Units) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: store::version(),
            product: product.to_owned(),
            entries: Ask::ALL.into_iter().map(|ask| (ask, ask.first(units))).collect(),
            mixer: false,
            ribbon: true,
            ends_at_joint: false,
            vessel: Generic::FiveGallon,
            way: Way::Jug,
        }
    }

    /// The entry of a field.
    pub fn entry(&self, ask: Ask) -> Entry {
        self.entries.get(&ask).cloned().unwrap_or_else(|| ask.first(Units::Us))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_there_first_is_fit_in_both_units() {
        for units in Units::ALL {
            let record = MixRecord::first("x", units);
            for ask in Ask::ALL.into_iter().filter(|ask| !ask.optional()) {
                let (field, kind) = ask.field();
                let value = record.entry(ask).value(kind, field);
                assert!(value.is_ok(), "{ask:?} in {units:?}: {value:?}");
            }
        }
    }

    #[test]
    fn it_is_kept_and_read_back() {
        let record = MixRecord::first("x", Units::Metric);
        let text = serde_json::to_string(&record).unwrap();
        let back: MixRecord = pailwise_calc::record::read(&text, MixRecord::FORMAT).unwrap();
        assert_eq!(back, record);
    }
}
