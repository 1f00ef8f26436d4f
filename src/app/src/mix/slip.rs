//! What becomes of a pail that was poured wrongly.

use pailwise_calc::error::Error;
use pailwise_calc::field::Field;
use pailwise_calc::measure::steps::Mark;
use pailwise_calc::measure::{MeasuredPour, poured};
use pailwise_calc::quantity::{Figure, Length, Mass, Time, Volume, unit};
use pailwise_calc::ratio::{Ingredient, Pour};
use pailwise_calc::rescue::Rescue;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::entry::{Entry, Invalid, Kind};
use pailwise_kept::records::mix::Way;
use pailwise_kept::records::slip::SlipRecord;

/// The name of a reading: its product, the way it was measured, its place in the pouring.
pub(super) fn name(product: &str, way: Way, place: usize) -> String {
    let way = match way {
        Way::Jug => "jug",
        Way::Stick => "stick",
        Way::Scale => "scale",
    };
    format!("{product}/{way}/{place}")
}

/// The kind of quantity a reading is, and the field that judges it.
pub(super) fn takes(planned: &MeasuredPour) -> (Field, Kind) {
    let dose = matches!(planned.pour.what, Ingredient::Additive(_));
    match planned.reading {
        Figure::Mass(_) => (Field::PouredMass, Kind::Mass),
        Figure::Small(_) => (Field::PouredMark, Kind::Small),
        _ if dose => (Field::PouredVolume, Kind::Dose),
        _ => (Field::PouredVolume, Kind::Volume),
    }
}

/// What became of the pail.
pub(super) enum Outcome {
    /// Everything came out as planned.
    AsPlanned,
    /// Something typed cannot be read; its field says so.
    Invalid,
    /// The calculation refused a reading.
    Wrong(Error),
    /// Something was typed: what was poured and what to do with it.
    Rescue(Box<Rescue>),
}

/// What becomes of the pail as it was typed, at a moment of the phone's clock.
pub(super) fn outcome(
    slip: &SlipRecord,
    good: &Good,
    mark: Mark,
    way: Way,
    now_ms: f64,
) -> Outcome {
    let mut touched = slip.met.is_some() || slip.apart;
    let mut readings = Vec::new();
    for (place, planned) in good.batch.measured.pours.iter().enumerate() {
        let entry = slip.poured.get(&name(&good.product.id, way, place));
        touched |= entry.is_some();
        match entry.map(|entry| typed(entry, planned)) {
            None => readings.push(Some(planned.reading)),
            Some(Ok(reading)) => readings.push(reading),
            Some(Err(_)) => return Outcome::Invalid,
        }
    }
    if !touched {
        return Outcome::AsPlanned;
    }
    let Ok(met) = slip.met.as_ref().map(|met| met.since(now_ms)).transpose() else {
        return Outcome::Invalid;
    };
    let job = &good.job;
    let rescue = poured(job.product.ratio(), &job.gear.vessel, &readings).and_then(|pours| {
        // In one pail they have met, whether that was said or not; unsaid, they may have.
        let may = parts_in(&pours) > 1 && !slip.apart;
        let met = met.or_else(|| (may || in_one_pail(mark, &pours)).then(Time::default));
        job.rescue(pours, met)
    });
    match rescue {
        Ok(rescue) => Outcome::Rescue(Box::new(rescue)),
        Err(error) => Outcome::Wrong(error),
    }
}

/// Whether parts stand in one pail: on a scale and by marks on a stick, each on the one before.
pub(super) fn in_one_pail(mark: Mark, pours: &[Pour]) -> bool {
    !matches!(mark, Mark::Jug(_)) && parts_in(pours) > 1
}

/// How many of the parts are poured at all.
pub(super) fn parts_in(pours: &[Pour]) -> usize {
    let parts = pours.iter().filter(|pour| matches!(pour.what, Ingredient::Component(_)));
    parts.filter(|part| part.volume.value > 0.0).count()
}

/// A reading as it was typed; `None` where the field was emptied, for what is not poured yet.
fn typed(entry: &Entry, planned: &MeasuredPour) -> Result<Option<Figure>, Invalid> {
    if entry.text.trim().is_empty() {
        return Ok(None);
    }
    let (field, kind) = takes(planned);
    let value = entry.value(kind, field)?;
    Ok(Some(match kind {
        Kind::Mass => Mass::new::<unit::kilogram>(value).into(),
        Kind::Small => Figure::Small(Length::new::<unit::millimeter>(value)),
        _ => Volume::new::<unit::liter>(value).into(),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_kept::records::slip::MetRecord;
    use pailwise_kept::units::Units;

    #[test]
    fn the_time_since_a_met_b_runs_on_and_never_back() {
        let met = MetRecord { ago: Entry::as_typed("3", Units::Us), typed_at_ms: 1_000_000.0 };
        let at = |ms: f64| met.since(ms).map(|time| time.get::<unit::minute>());
        assert_eq!(at(1_000_000.0), Ok(3.0));
        assert_eq!(at(1_120_000.0), Ok(5.0));
        assert_eq!(at(0.0), Ok(3.0));
        assert_eq!(at(1e12), Ok(1440.0));
        let unread = MetRecord { ago: Entry::as_typed("soon", Units::Us), typed_at_ms: 0.0 };
        assert_eq!(unread.since(0.0), Err(Invalid::Unreadable));
    }
}
