//! The calculation's own words for bounds, changes and errors, in the reader's.

use pailwise_calc::batch::{Batch, Bound, Change, NoBatch, Refusal};
use pailwise_calc::calibrate::Sample;
use pailwise_calc::cure::Chemistry;
use pailwise_calc::error::Error;
use pailwise_calc::field::Field;
use pailwise_calc::lot::{LearntBy, Lot};
use pailwise_calc::product::{Gap, Product};
use pailwise_calc::quantity::{Figure, ThermodynamicTemperature, Time};
use pailwise_calc::ratio::Ingredient;
use pailwise_calc::ready::Judged;
use pailwise_calc::record::{ProductRecord, Role};
use pailwise_calc::vessel::Generic;
use pailwise_calc::working::Source;

use crate::entry::{Invalid, limits};
use crate::records::mix::{Ask, PailPick};
use crate::records::sheet::label_of;
use crate::show::Reader;
use crate::text::key;
use crate::units::Units;

/// What holds a batch back.
pub fn bound(bound: Bound) -> &'static str {
    match bound {
        Bound::Floor => key::BOUND_FLOOR,
        Bound::Vessel => key::BOUND_VESSEL,
        Bound::Mass => key::BOUND_MASS,
        Bound::PailLife => key::BOUND_PAIL_LIFE,
        Bound::OpenTime => key::BOUND_OPEN_TIME,
        Bound::WetEdge => key::BOUND_WET_EDGE,
        Bound::EdgeBefore => key::BOUND_EDGE_BEFORE,
        Bound::Kit => key::BOUND_KIT,
    }
}

/// A bound by its name alone.
fn bound_name(bound: Bound) -> &'static str {
    match bound {
        Bound::Floor => key::BOUND_NAME_FLOOR,
        Bound::Vessel => key::BOUND_NAME_VESSEL,
        Bound::Mass => key::BOUND_NAME_MASS,
        Bound::PailLife => key::BOUND_NAME_PAIL_LIFE,
        Bound::OpenTime => key::BOUND_NAME_OPEN_TIME,
        Bound::WetEdge => key::BOUND_NAME_WET_EDGE,
        Bound::EdgeBefore => key::BOUND_NAME_EDGE_BEFORE,
        Bound::Kit => key::BOUND_NAME_KIT,
    }
}

/// Where a coarse measure leaves much more in the pail than the floor needs.
pub fn left_over(reader: Reader, batch: &Batch) -> Option<String> {
    const WORTH_SAYING: f64 = 0.2;
    let (left, all) = (batch.left_over, batch.measured.volume);
    let worth = left > all * WORTH_SAYING;
    worth.then(|| reader.language.say(key::ANSWER_LEFT_OVER, &[("left", &reader.volume(left))]))
}

/// A change that would move it.
pub fn change(reader: Reader, change: Change) -> String {
    let text = match change {
        Change::OneMoreRoller => key::CHANGE_ROLLER,
        Change::OneMoreFlaker => key::CHANGE_FLAKER,
        Change::OneMoreMixer => key::CHANGE_MIXER,
        Change::PourRibbon => key::CHANGE_RIBBON,
        Change::SameWall => key::CHANGE_SAME_WALL,
        Change::Spikes => key::CHANGE_SPIKES,
        Change::EndAtJoint => key::CHANGE_JOINT,
        Change::HalfKits => key::CHANGE_HALF_KITS,
        Change::SplitKits => key::CHANGE_SPLIT_KITS,
        Change::MeasuredAhead => key::CHANGE_MEASURED_AHEAD,
        Change::OnAScale => key::CHANGE_SCALE,
        Change::MixFor(time) => {
            return reader.language.say(key::CHANGE_MIX_FOR, &[("time", &reader.time(time))]);
        }
        Change::CoolerMaterial(by) => {
            let by = reader.change(by);
            return reader.language.say(key::CHANGE_COOLER, &[("by", &by)]);
        }
    };
    reader.language.say(text, &[])
}

/// What a data sheet leaves out.
pub fn gap(gap: Gap) -> &'static str {
    match gap {
        Gap::PotLifeMass => key::GAP_MASS,
        Gap::SecondTemperature => key::GAP_TEMPERATURE,
        Gap::Measured => key::GAP_MEASURED,
        Gap::OpenTime => key::GAP_OPEN_TIME,
    }
}

/// Where pot life stands in for the open time that a sheet does not give, that may be all that holds
/// a batch back.
pub fn open_time_unsaid(product: &Product, bound: Bound) -> Option<&'static str> {
    let of_film = matches!(bound, Bound::OpenTime | Bound::WetEdge);
    (of_film && product.gaps().contains(&Gap::OpenTime)).then(|| gap(Gap::OpenTime))
}

/// How a pot life was measured.
pub fn measured(sample: Sample) -> &'static str {
    match sample {
        Sample::Kit => key::MEASURED_KIT,
        Sample::Insulated => key::MEASURED_INSULATED,
        Sample::Cup => key::MEASURED_CUP,
        Sample::Gel => key::MEASURED_GEL,
    }
}

/// How something was learnt of a lot.
pub fn learnt_by(by: LearntBy) -> &'static str {
    match by {
        LearntBy::Cup => key::LEARNT_CUP,
        LearntBy::WentOff => key::LEARNT_WENT_OFF,
        LearntBy::Reading => key::LEARNT_READING,
    }
}

/// How the lot in hand runs against its sheet; nothing where that is as it.
pub fn lot_runs(reader: Reader, lot: &Lot) -> Option<String> {
    let say = |text, times: String| {
        let count = lot.seen.len().to_string();
        reader.language.say(text, &[("times", &times), ("count", &count)])
    };
    if lot.times > 1.005 {
        Some(say(key::LOT_FASTER, reader.times_up(lot.times)))
    } else if lot.times < 0.995 {
        Some(say(key::LOT_SLOWER, reader.times_down(1.0 / lot.times)))
    } else {
        None
    }
}

/// A time, or the span from it to the longest that the sheet may mean.
pub fn span(reader: Reader, least: Time, most: Option<Time>) -> String {
    let least = reader.time(least);
    let Some(most) = most else { return least };
    reader.language.say(key::TIME_SPAN, &[("least", &least), ("most", &reader.time(most))])
}

/// What the size of a pail does to a product's pot life, pail and air so warm.
pub fn sizes(reader: Reader, product: &Product, at: ThermodynamicTemperature) -> Option<String> {
    let sizes = product.sizes(at).ok()?;
    let text = if sizes.matters { key::SIZES_MATTER } else { key::SIZES_HARDLY };
    let figures = [
        ("at", &*reader.temperature(at)),
        ("cup", &*reader.time(sizes.cup)),
        ("pail", &*reader.time(sizes.pail)),
        ("full", &*reader.volume_about(sizes.full)),
    ];
    Some(reader.language.say(text, &figures))
}

/// What a product is for.
pub fn role(role: Role) -> &'static str {
    match role {
        Role::Filler => key::ROLE_FILLER,
        Role::Primer => key::ROLE_PRIMER,
        Role::Base => key::ROLE_BASE,
        Role::Topcoat => key::ROLE_TOPCOAT,
        Role::Other => key::ROLE_OTHER,
    }
}

/// What family a product belongs to.
pub fn chemistry(chemistry: Chemistry) -> &'static str {
    match chemistry {
        Chemistry::AmineEpoxy => key::CHEMISTRY_EPOXY,
        Chemistry::Urethane => key::CHEMISTRY_URETHANE,
        Chemistry::Aspartic => key::CHEMISTRY_ASPARTIC,
    }
}

/// A generic pail, by about what it holds.
pub fn vessel(generic: Generic, units: Units) -> &'static str {
    match (generic, units) {
        (Generic::FiveQuart, Units::Us) => key::VESSEL_FIVE_QUART,
        (Generic::FiveQuart, Units::Metric) => key::VESSEL_FIVE_LITER,
        (Generic::TwoGallon, Units::Us) => key::VESSEL_TWO_GALLON,
        (Generic::TwoGallon, Units::Metric) => key::VESSEL_EIGHT_LITER,
        (Generic::FiveGallon, Units::Us) => key::VESSEL_FIVE_GALLON,
        (Generic::FiveGallon, Units::Metric) => key::VESSEL_TWENTY_LITER,
    }
}

/// The pail that was picked.
pub fn pail(pick: PailPick, units: Units) -> &'static str {
    pick.generic().map_or(key::VESSEL_OWN, |generic| vessel(generic, units))
}

/// Where a step of the working comes from.
pub fn source(source: Source) -> &'static str {
    match source {
        Source::DataSheet => key::SOURCE_DATA_SHEET,
        Source::Entered => key::SOURCE_ENTERED,
        Source::Arithmetic => key::SOURCE_ARITHMETIC,
        Source::Published => key::SOURCE_PUBLISHED,
        Source::Practice => key::SOURCE_PRACTICE,
        Source::Typical => key::SOURCE_TYPICAL,
    }
}

/// What is poured: "Part A", or the additive's name.
pub fn ingredient(reader: Reader, product: &ProductRecord, what: Ingredient) -> String {
    let name = product.name_of(what);
    match what {
        Ingredient::Component(_) => reader.language.say(key::PART, &[("label", name)]),
        Ingredient::Additive(_) => name.to_owned(),
    }
}

/// Why a figure keeps an answer from being there.
pub fn invalid(reader: Reader, what: &str, invalid: Invalid) -> String {
    let say = |key, figures: &[(&str, &str)]| reader.language.say(key, figures);
    match invalid {
        Invalid::Empty => say(key::CHECK_EMPTY, &[("what", what)]),
        Invalid::Unreadable => say(key::NO_ANSWER_UNREADABLE, &[("what", what)]),
        Invalid::OutOfRange { kind, field } => {
            let (low, high) = limits(kind, field, reader.units);
            let high = say(kind.unit(reader.units), &[("n", &high)]);
            let figures = [("what", what), ("low", &*low), ("high", &*high)];
            say(key::NO_ANSWER_OUT_OF_RANGE, &figures)
        }
    }
}

/// Why the calculation refused.
#[expect(clippy::too_many_lines, reason = "a table")]
pub fn error(reader: Reader, error: &Error) -> String {
    let say = |key, figures: &[(&str, &str)]| reader.language.say(key, figures);
    match error {
        Error::NotANumber { field } => {
            say(key::ERROR_NOT_A_NUMBER, &[("what", &name(reader, *field))])
        }
        Error::OutOfRange { field, given, low, high } => {
            out_of_range(reader, *field, [*given, *low, *high])
        }
        Error::Missing { field: Field::PouredVolume } => say(key::RESCUE_NOTHING, &[]),
        Error::ColdestAboveWarmest { low, high } => say(
            key::ERROR_COLDEST_ABOVE,
            &[("low", &reader.temperature(*low)), ("high", &reader.temperature(*high))],
        ),
        Error::Missing { field } => say(key::ERROR_MISSING, &[("what", &name(reader, *field))]),
        Error::Contradiction { field, other } => contradiction(reader, *field, *other),
        Error::LeastAboveMost { field, other, least, most } => say(
            key::ERROR_LEAST_ABOVE,
            &[
                ("what", &name(reader, *field)),
                ("least", &reader.figure(*least)),
                ("other", &name(reader, *other)),
                ("most", &reader.figure(*most)),
            ],
        ),
        Error::Unreadable { field: Field::Currency } => say(key::ERROR_CURRENCY, &[]),
        Error::NotMeasurable => say(key::ERROR_NOT_MEASURABLE, &[]),
        Error::TooCoarse { smallest } => {
            say(key::ERROR_TOO_COARSE, &[("smallest", &reader.volume(*smallest))])
        }
        Error::DoesNotFit { asked, holds } => say(
            key::ERROR_DOES_NOT_FIT,
            &[("asked", &reader.volume(*asked)), ("holds", &reader.volume(*holds))],
        ),
        Error::NarrowsUpward { top, bottom } => say(
            key::ERROR_NARROWS,
            &[("top", &reader.small(*top)), ("bottom", &reader.small(*bottom))],
        ),
        Error::NoFloor | Error::FloorApart { .. } | Error::CutsNothing { .. } => {
            no_floor(reader, error)
        }
        Error::TextLength { field, least: 0, most } => say(
            key::ERROR_TEXT_LONG,
            &[("what", &name(reader, *field)), ("most", &most.to_string())],
        ),
        Error::TextLength { field, most, .. } => say(
            key::ERROR_TEXT_LENGTH,
            &[("what", &name(reader, *field)), ("most", &most.to_string())],
        ),
        Error::TextSign { field, sign } => say(
            key::ERROR_TEXT_SIGN,
            &[("what", &name(reader, *field)), ("sign", &format!("U+{sign:04X}"))],
        ),
        Error::Unreadable { field } => {
            say(key::ERROR_UNREADABLE, &[("what", &name(reader, *field))])
        }
        Error::KitTooLarge { portion, most } => say(
            key::ERROR_KIT_TOO_LARGE,
            &[("portion", &reader.volume(*portion)), ("most", &reader.volume(*most))],
        ),
        Error::ReadingFalls { given, before } => say(
            key::ERROR_READING_FALLS,
            &[("given", &reader.figure(*given)), ("before", &reader.figure(*before))],
        ),
        _ => say(key::ERROR_NO_SOLUTION, &[]),
    }
}

/// Why measures make no floor.
fn no_floor(reader: Reader, error: &Error) -> String {
    let say = |key, figures: &[(&str, &str)]| reader.language.say(key, figures);
    match error {
        Error::FloorApart { left, back } => say(
            key::ERROR_FLOOR_APART,
            &[("left", &reader.distance(*left)), ("back", &reader.distance(*back))],
        ),
        Error::CutsNothing { index } => {
            say(key::ERROR_CUTS_NOTHING, &[("n", &(index + 1).to_string())])
        }
        _ => say(key::ERROR_NO_FLOOR, &[]),
    }
}

/// A figure that is outside what it can be.
fn out_of_range(reader: Reader, field: Field, [given, low, high]: [Figure; 3]) -> String {
    let text = match field {
        Field::Dose => key::ERROR_DOSE,
        Field::DayAir => key::ERROR_DAY_AIR,
        Field::EndedAt => key::ERROR_ENDED_AT,
        Field::Bay => key::ERROR_BAY,
        Field::Crews => key::ERROR_CREWS,
        _ => key::ERROR_OUT_OF_RANGE,
    };
    reader.language.say(
        text,
        &[
            ("what", &name(reader, field)),
            ("given", &reader.figure(given)),
            ("low", &reader.figure(low)),
            ("high", &reader.figure(high)),
        ],
    )
}

/// Two figures that cannot both be.
fn contradiction(reader: Reader, field: Field, other: Field) -> String {
    let text = match (field, other) {
        (Field::Label, _) => key::ERROR_SAME_LABEL,
        _ => key::ERROR_CONTRADICTION,
    };
    let figures = [("what", name(reader, field)), ("other", name(reader, other))];
    reader.language.say(text, &figures.each_ref().map(|(of, text)| (*of, text.as_str())))
}

/// The name of a reading of the room.
pub fn reading(field: Field, most: bool) -> &'static str {
    match (field, most) {
        (Field::Humidity, _) => key::ASK_HUMIDITY,
        (Field::DewPointSpread, _) => key::READING_SPREAD,
        (Field::Slab, false) => key::READING_SLAB_COLDEST,
        (Field::Slab, true) => key::READING_SLAB_WARMEST,
        (_, false) => key::READING_AIR_COLDEST,
        (_, true) => key::READING_AIR_WARMEST,
    }
}

/// A reading of the room beside its limit. `usual` says that the limit of the dew point is not the
/// sheet's own.
pub fn judged(reader: Reader, judged: &Judged, usual: bool) -> String {
    let text = match (judged.reading, judged.most) {
        (Field::DewPointSpread, _) if judged.given.si() < 0.0 => key::LIMIT_SPREAD_BELOW,
        (Field::DewPointSpread, _) if usual => key::LIMIT_SPREAD_USUAL,
        (Field::DewPointSpread, _) => key::LIMIT_SPREAD,
        (Field::Humidity, _) => key::LIMIT_HUMIDITY,
        (_, true) => key::LIMIT_ABOVE,
        (_, false) => key::LIMIT_BELOW,
    };
    // What is below the dew point is so far below it.
    let given = reader.beside_limit(judged.given, judged.most);
    let given = match text {
        key::LIMIT_SPREAD_BELOW => given.trim_start_matches('\u{2212}').to_owned(),
        _ => given,
    };
    reader.language.say(
        text,
        &[
            ("reading", &reader.language.say(reading(judged.reading, judged.most), &[])),
            ("given", &given),
            ("allowed", &reader.beside_limit(judged.allowed, !judged.most)),
        ],
    )
}

/// What can be done about a reading that forbids coating.
pub fn judged_help(judged: &Judged) -> &'static str {
    match (judged.reading, judged.most) {
        (Field::DewPointSpread, _) => key::HELP_SPREAD,
        (Field::Humidity, _) => key::HELP_HUMIDITY,
        (_, true) => key::HELP_WARM,
        (_, false) => key::HELP_COLD,
    }
}

/// Why there is no batch.
pub fn no_batch(reader: Reader, why: &NoBatch) -> String {
    match why {
        NoBatch::Wrong(wrong) => error(reader, wrong),
        NoBatch::Refused(refusal) => refused(reader, refusal),
    }
}

/// The bound that fails at the smallest mix, by how much.
pub fn refused(reader: Reader, refusal: &Refusal) -> String {
    reader.language.say(
        key::REFUSED_WHY,
        &[
            ("bound", &reader.language.say(bound_name(refusal.bound), &[])),
            ("smallest", &reader.volume(refusal.smallest)),
            ("needs", &reader.time_up(refusal.needs)),
            ("has", &reader.time(refusal.has)),
        ],
    )
}

/// The name of an input: its label on this screen or in a product's form; what nobody types is
/// called a figure behind the plan.
fn name(reader: Reader, field: Field) -> String {
    let asked = Ask::ALL.into_iter().find(|ask| ask.field().0 == field).map(Ask::label);
    let counted = match field {
        Field::TapeLine => Some(key::ASK_TAPE_LINE),
        Field::TapeLines => Some(key::ASK_BAYS),
        Field::Crews => Some(key::ASK_CREWS),
        Field::Mixers => Some(key::ASK_MIXERS),
        _ => None,
    };
    let label = asked.or(counted).or_else(|| label_of(field));
    reader.language.say(label.unwrap_or(key::FIELD_BEHIND), &[])
}
