//! What skills and mistakes are called, and what an answer is typed in.

use pailwise_calc::field::Field;
use pailwise_calc::practice::{Mistake, Skill};
use pailwise_calc::quantity::Figure;
use pailwise_kept::entry::Kind;

use crate::text::key;

/// The name of a skill.
pub(super) fn name(skill: Skill) -> &'static str {
    match skill {
        Skill::SplitByVolume => key::SKILL_SPLIT_BY_VOLUME,
        Skill::SplitByMass => key::SKILL_SPLIT_BY_MASS,
        Skill::OneFromOther => key::SKILL_ONE_FROM_OTHER,
        Skill::ScaleReading => key::SKILL_SCALE_READING,
        Skill::StickMark => key::SKILL_STICK_MARK,
        Skill::OnRatio => key::SKILL_ON_RATIO,
        Skill::BringBack => key::SKILL_BRING_BACK,
        Skill::PotLifeElsewhere => key::SKILL_POT_LIFE,
        Skill::FirstToGo => key::SKILL_FIRST_TO_GO,
        Skill::FlakedInTime => key::SKILL_FLAKED_IN_TIME,
        Skill::NextMix => key::SKILL_NEXT_MIX,
        Skill::DewPointGo => key::SKILL_DEW_POINT,
        Skill::RecoatWindow => key::SKILL_RECOAT,
    }
}

/// What a mistake is called.
pub(super) fn mistake(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::PartsAsFraction => key::SLIP_FRACTION,
        Mistake::PartsSwapped => key::SLIP_SWAPPED,
        Mistake::VolumeOnScale => key::SLIP_VOLUME_ON_SCALE,
        Mistake::ScaleSetBack => key::SLIP_SET_BACK,
        Mistake::Straight => key::SLIP_STRAIGHT,
        Mistake::WholeMark => key::SLIP_WHOLE_MARK,
        Mistake::AllOfIt => key::SLIP_ALL_OF_IT,
        Mistake::OtherUnit => key::SLIP_OTHER_UNIT,
        Mistake::SameAgain => key::SLIP_SAME_AGAIN,
        Mistake::TemperatureIgnored => key::SLIP_TEMPERATURE,
        Mistake::WrongWay => key::SLIP_WRONG_WAY,
        Mistake::ReadyIgnored => key::SLIP_READY_IGNORED,
        Mistake::ReadyAdded => key::SLIP_READY_ADDED,
    }
}

/// What an answer is typed in: the field that judges it, and its kind.
pub(super) fn typed_in(skill: Skill, right: Figure) -> (Field, Kind) {
    match right {
        Figure::Volume(_) => (Field::PouredVolume, Kind::Volume),
        Figure::Mass(_) => (Field::PouredMass, Kind::Mass),
        Figure::Small(_) => (Field::PouredMark, Kind::Small),
        _ if skill == Skill::RecoatWindow => (Field::AfterTime, Kind::Hours),
        _ => (Field::Took, Kind::Minutes),
    }
}
