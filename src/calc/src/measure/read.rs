//! Back from what jug, stick or scale showed to what was really poured.

use super::pails::Pails;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Figure, Length, Volume};
use crate::ratio::{Pour, Ratio};
use crate::vessel::Vessel;

/// What was really poured, from the reading after each pour in the order of pouring; `None` for
/// what has not been poured yet.
///
/// A volume is the amount itself, a mass the scale's running total, a length the height on a
/// stick in the pail; each way may be mixed with the others. A part measured apart is read from
/// an empty pail.
///
/// # Errors
/// [`Error::NotANumber`] or [`Error::OutOfRange`] for a reading; [`Error::ReadingFalls`] for one
/// below the one before.
///
/// ```
/// use pailwise_calc::{demo, measure::poured, vessel::Generic};
/// use pailwise_calc::quantity::{Mass, unit};
/// let base = demo::base().unwrap(); // A 1.38 kg/L, B 1.02 kg/L
/// let total = |kg| Some(Mass::new::<unit::kilogram>(kg).into());
/// let pours =
///     poured(base.ratio(), &Generic::FiveGallon.vessel(), &[total(2.76), total(3.78)]).unwrap();
/// assert!((pours[0].volume.get::<unit::liter>() - 2.0).abs() < 1e-12);
/// assert!((pours[1].volume.get::<unit::liter>() - 1.0).abs() < 1e-12);
/// ```
pub fn poured(
    ratio: &Ratio,
    vessel: &Vessel,
    readings: &[Option<Figure>],
) -> Result<Vec<Pour>, Error> {
    let mut pours = Vec::with_capacity(readings.len());
    let mut pails = Pails::default();
    for (portion, reading) in ratio.order().iter().zip(readings) {
        let Some(reading) = *reading else { continue };
        let on = pails.next(portion);
        let before = match reading {
            Figure::Mass(_) => on.mass.into(),
            Figure::Small(_) => Figure::Small(vessel.height_of(on.volume)?),
            _ => Volume::default().into(),
        };
        // A hair of slack: a mark that was worked out from a volume may come back a hair lower.
        if reading.si() < before.si() * (1.0 - 1e-9) {
            return Err(Error::ReadingFalls { given: reading, before });
        }
        let volume = match reading {
            Figure::Volume(amount) => Field::PouredVolume.check(amount)?,
            Figure::Mass(total) => (Field::PouredMass.check(total)? - on.mass) / portion.density,
            Figure::Small(mark) => {
                let high = Figure::Small(vessel.height());
                if Field::PouredMark.check(mark)? > vessel.height() {
                    let low = Figure::Small(Length::default());
                    let field = Field::PouredMark;
                    return Err(Error::OutOfRange { field, given: reading, low, high });
                }
                vessel.volume_to(mark) - on.volume
            }
            _ => return Err(Error::NotANumber { field: Field::PouredVolume }),
        };
        let pour = portion.pour(volume.max(Volume::default()));
        on.volume += pour.volume;
        on.mass += pour.mass;
        pails.joined(&pour);
        pours.push(pour);
    }
    Ok(pours)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::measure::steps::{JugMark, Mark, ScaleMark, StickMark};
    use crate::quantity::{Mass, unit};
    use crate::vessel::Generic;

    #[test]
    fn what_was_measured_reads_back_as_it_was_poured() {
        let topcoat = crate::product::Product::try_from(&demo::record_topcoat()).unwrap();
        let vessel = Generic::TwoGallon.vessel();
        for mark in [
            Mark::Jug(JugMark::FluidOunce),
            Mark::Stick(StickMark::EighthInch),
            Mark::Scale(ScaleMark::FiveGrams),
        ] {
            let most = Volume::new::<unit::liter>(3.0);
            let batch = mark.measure(vessel).nearest(topcoat.ratio(), most).unwrap();
            let readings: Vec<_> = batch.pours.iter().map(|p| Some(p.reading)).collect();
            let back = poured(topcoat.ratio(), &vessel, &readings).unwrap();
            for (there, back) in batch.pours.iter().zip(back) {
                assert!((there.pour.volume - back.volume).value.abs() < 1e-12, "{mark:?}");
            }
        }
    }

    #[test]
    fn a_total_that_falls_and_a_mark_above_the_rim_are_refused() {
        let base = demo::base().unwrap();
        let vessel = Generic::FiveQuart.vessel();
        let kg = |kg| Some(Figure::from(Mass::new::<unit::kilogram>(kg)));
        let wrong = poured(base.ratio(), &vessel, &[kg(2.0), kg(1.0)]);
        assert!(matches!(wrong, Err(Error::ReadingFalls { .. })), "{wrong:?}");
        let inches = |x| Some(Figure::Small(Length::new::<unit::inch>(x)));
        let wrong = poured(base.ratio(), &vessel, &[inches(9.0), None]);
        assert!(matches!(wrong, Err(Error::OutOfRange { field: Field::PouredMark, .. })));
        assert_eq!(poured(base.ratio(), &vessel, &[None, None]), Ok(vec![]));
    }
}
