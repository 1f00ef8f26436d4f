//! The fields of the Mix screen, and which of them a product asks for.

use pailwise_calc::field::Field;
use pailwise_calc::record::Role;
use serde::{Deserialize, Serialize};

use crate::entry::{Entry, Kind};
use crate::text::key;
use crate::units::Units;

/// A field of the Mix screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the field of that name")]
pub enum Ask {
    Slab,
    Air,
    Material,
    Humidity,
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
    Reading,
    CleanPail,
    Settle,
    /// How much of the time there is may be planned; it was kept as this before it had its name.
    #[serde(rename = "reserve")]
    Usable,
    LargestMass,
    OwnBottom,
    OwnTop,
    OwnHeight,
}

impl Ask {
    /// Every field of the Mix screen that takes a typed figure.
    pub const ALL: [Self; 26] = [
        Self::Slab,
        Self::Air,
        Self::Material,
        Self::Humidity,
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
        Self::Reading,
        Self::CleanPail,
        Self::Settle,
        Self::Usable,
        Self::LargestMass,
        Self::OwnBottom,
        Self::OwnTop,
        Self::OwnHeight,
    ];

    /// The text of its label.
    pub fn label(self) -> &'static str {
        match self {
            Self::Slab => key::ASK_SLAB,
            Self::Air => key::ASK_AIR,
            Self::Material => key::ASK_MATERIAL,
            Self::Humidity => key::ASK_HUMIDITY,
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
            Self::Reading => key::ASK_READING,
            Self::CleanPail => key::ASK_CLEAN_PAIL,
            Self::Settle => key::ASK_SETTLE,
            Self::Usable => key::ASK_RESERVE,
            Self::LargestMass => key::ASK_LARGEST_MASS,
            Self::OwnBottom => key::ASK_OWN_BOTTOM,
            Self::OwnTop => key::ASK_OWN_TOP,
            Self::OwnHeight => key::ASK_OWN_HEIGHT,
        }
    }

    /// The field of the calculation it feeds, and the kind of quantity it takes.
    pub fn field(self) -> (Field, Kind) {
        match self {
            Self::Slab => (Field::Slab, Kind::Temperature),
            Self::Air => (Field::Air, Kind::Temperature),
            Self::Material => (Field::Material, Kind::Temperature),
            Self::Humidity => (Field::Humidity, Kind::Percent),
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
            Self::CrackPace => (Field::CrackPace, Kind::CrackPace),
            Self::Throw => (Field::Throw, Kind::Span),
            Self::Carry => (Field::Carry, Kind::Minutes),
            Self::Reading => (Field::Reading, Kind::Minutes),
            Self::CleanPail => (Field::CleanPail, Kind::Minutes),
            Self::Settle => (Field::Settle, Kind::Minutes),
            Self::Usable => (Field::Usable, Kind::Percent),
            Self::LargestMass => (Field::LargestMass, Kind::Mass),
            Self::OwnBottom | Self::OwnTop => (Field::VesselDiameter, Kind::Small),
            Self::OwnHeight => (Field::VesselHeight, Kind::Small),
        }
    }

    /// Whether it is about one batch, and not about who lays it and with what.
    pub fn is_of_batch(self) -> bool {
        matches!(
            self,
            Self::Slab
                | Self::Air
                | Self::Material
                | Self::Humidity
                | Self::Area
                | Self::Width
                | Self::CrackLength
                | Self::CrackWidth
                | Self::CrackDepth
        )
    }

    /// Whether it may be left empty.
    pub fn optional(self) -> bool {
        matches!(self, Self::LargestMass | Self::Humidity)
    }

    /// Whether it is asked for.
    pub fn concerns(self, wants: Wants) -> bool {
        let Wants { role, flaked, own_pail } = wants;
        let filler = role == Role::Filler;
        match self {
            Self::OwnBottom | Self::OwnTop | Self::OwnHeight => own_pail,
            Self::Area | Self::Width | Self::RollPace | Self::TakeUp => !filler,
            Self::CrackLength | Self::CrackWidth | Self::CrackDepth | Self::CrackPace => filler,
            Self::Flakers | Self::FlakePace | Self::Throw | Self::Settle => flaked && !filler,
            _ => true,
        }
    }

    /// What stands there before anybody has typed: usual figures (common practice, no source).
    pub(super) fn first(self, units: Units) -> Entry {
        let (us, metric) = match self {
            Self::Slab | Self::Air | Self::Material => ("74", "23"),
            Self::Area => ("400", "37"),
            Self::Width => ("20", "6"),
            Self::CrackLength => ("40", "12"),
            Self::CrackWidth => ("1/4", "6"),
            Self::CrackDepth => ("1/2", "12"),
            Self::TakeUp | Self::Loss => ("5", "5"),
            Self::Rollers | Self::Flakers | Self::Carry | Self::CleanPail => ("1", "1"),
            Self::Reading => ("0.5", "0.5"),
            Self::RollPace => ("12", "1.1"),
            Self::FlakePace => ("30", "2.8"),
            Self::CrackPace => ("4", "1.2"),
            Self::Throw => ("8", "2.4"),
            Self::Settle => ("0", "0"),
            Self::Usable => ("80", "80"),
            Self::LargestMass | Self::Humidity => ("", ""),
            Self::OwnBottom => ("10 1/4", "260"),
            Self::OwnTop => ("11 1/4", "285"),
            Self::OwnHeight => ("13 1/2", "340"),
        };
        let text = match units {
            Units::Us => us,
            Units::Metric => metric,
        };
        Entry::as_typed(text, units)
    }
}

/// What decides which fields are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wants {
    /// What the product is for.
    pub role: Role,
    /// Whether flake is broadcast into it.
    pub flaked: bool,
    /// Whether the pail is the crew's own.
    pub own_pail: bool,
}
