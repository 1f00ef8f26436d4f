//! The split and the way back, over random products: nothing is lost, nothing is negative, and a
//! pail brought back is on ratio.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::error::Error;
use pailwise_calc::job::Job;
use pailwise_calc::measure::poured;
use pailwise_calc::measure::steps::{JugMark, Mark, ScaleMark, StickMark};
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Figure, Length, Mass, Volume, minutes, unit};
use pailwise_calc::ratio::{Basis, Ingredient, Pour, Ratio};
use pailwise_calc::record::{AdditiveRecord, ComponentRecord, JobRecord, ProductRecord};
use pailwise_calc::rescue::{Remedy, Rescue};
use pailwise_calc::vessel::{Generic, Vessel};
use proptest::prelude::*;

/// Products of two to four parts, by volume or by weight, with additives on a part or on the mix.
fn products() -> impl Strategy<Value = ProductRecord> {
    let part = (0.2..5.0_f64, 0.8..2.8_f64);
    let additive = (0..5_usize, 0.2..20.0_f64, any::<bool>(), 0.8..2.0_f64);
    (
        proptest::collection::vec(part, 2..5),
        proptest::collection::vec(additive, 0..3),
        any::<bool>(),
    )
        .prop_map(|(parts, additives, by_mass)| {
            let by = |mass: bool| if mass { Basis::Mass } else { Basis::Volume };
            let labels = ["A", "B", "C", "D"];
            let count = parts.len();
            let components = parts.into_iter().zip(labels).map(|((parts, density), label)| {
                ComponentRecord { label: label.to_owned(), parts, density_kg_per_l: density }
            });
            let additives = additives.into_iter().map(|(onto, percent, mass, density)| {
                let onto = if onto < count { labels[onto] } else { "mix" };
                AdditiveRecord {
                    name: "tint".to_owned(),
                    onto: onto.to_owned(),
                    dose_percent: Some(percent),
                    dose_by: by(mass),
                    dose_ml_per_kit: None,
                    dose_g_per_kit: None,
                    density_kg_per_l: density,
                }
            });
            ProductRecord {
                components: components.collect(),
                additives: additives.collect(),
                ratio_by: by(by_mass),
                equivalent_weights: None,
                ..demo::record_base()
            }
        })
}

fn ratio(record: &ProductRecord) -> Ratio {
    Product::try_from(record).expect("within range").ratio().clone()
}

fn liters(x: f64) -> Volume {
    Volume::new::<unit::liter>(x)
}

fn marks() -> impl Strategy<Value = Mark> {
    prop_oneof![
        prop::sample::select(JugMark::ALL.to_vec()).prop_map(Mark::Jug),
        prop::sample::select(StickMark::ALL.to_vec()).prop_map(Mark::Stick),
        prop::sample::select(ScaleMark::ALL.to_vec()).prop_map(Mark::Scale),
    ]
}

/// Of each part, what was poured over what belongs there, least and most.
fn spread_of_parts(ratio: &Ratio, pours: &[Pour]) -> (f64, f64) {
    let parts = ratio.split(liters(1.0)).into_iter();
    let parts = parts.filter(|p| matches!(p.what, Ingredient::Component(_)));
    let shares: Vec<f64> = parts
        .map(|part| {
            let of: f64 =
                pours.iter().filter(|p| p.what == part.what).map(|p| p.volume.value).sum();
            of / part.volume.value
        })
        .collect();
    (
        shares.iter().copied().fold(f64::INFINITY, f64::min),
        shares.iter().copied().fold(0.0, f64::max),
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    #[test]
    fn the_pours_are_the_batch_and_none_is_negative(record in products(), l in 0.05..200.0_f64) {
        let ratio = ratio(&record);
        let pours = ratio.split(liters(l));
        let volume: Volume = pours.iter().map(|p| p.volume).sum();
        let mass: Mass = pours.iter().map(|p| p.mass).sum();
        prop_assert!((volume / liters(l) - 1.0.into()).value.abs() < 1e-12);
        prop_assert!((mass / (ratio.density() * volume) - 1.0.into()).value.abs() < 1e-12);
        prop_assert!(pours.iter().all(|p| p.volume.value > 0.0 && p.mass.value > 0.0));
        prop_assert!(ratio.off_by(&pours).unwrap().abs() < 1e-12);
        let shares: f64 = ratio.mass_shares().iter().sum();
        prop_assert!((shares - 1.0).abs() < 1e-12);
    }

    /// The same product written by weight splits as it does by volume.
    #[test]
    fn from_volume_to_weight_and_back(record in products(), l in 0.05..200.0_f64) {
        let there = ratio(&record).split(liters(l));
        let other = match record.ratio_by { Basis::Volume => Basis::Mass, Basis::Mass => Basis::Volume };
        let mut turned = ProductRecord { ratio_by: other, ..record.clone() };
        for (i, component) in turned.components.iter_mut().enumerate() {
            let pour = there.iter().find(|p| p.what == Ingredient::Component(i)).unwrap();
            component.parts = match other {
                Basis::Volume => pour.volume.get::<unit::liter>(),
                Basis::Mass => pour.mass.get::<unit::kilogram>(),
            };
        }
        // Parts of any size mean the same ratio; keep them within what a field takes.
        let largest = turned.components.iter().map(|c| c.parts).fold(0.0, f64::max);
        for component in &mut turned.components {
            component.parts *= 100.0 / largest;
        }
        for (a, b) in there.iter().zip(ratio(&turned).split(liters(l))) {
            prop_assert!((a.volume / b.volume - 1.0.into()).value.abs() < 1e-9);
            prop_assert!((a.mass / b.mass - 1.0.into()).value.abs() < 1e-9);
        }
    }

    #[test]
    fn marks_rise_with_what_is_poured(
        bottom in 8.0..40.0_f64, wider in 0.0..15.0_f64, height in 8.0..80.0_f64,
        low in 0.0..1.0_f64, more in 0.000_1..1.0_f64,
    ) {
        let cm = Length::new::<unit::centimeter>;
        let pail = Vessel::new(cm(bottom), cm(bottom + wider), cm(height)).unwrap();
        let (low, high) = (low, (low + more).min(1.0));
        let mark = |share: f64| pail.height_of(pail.capacity() * share).unwrap();
        prop_assert!(mark(low) <= mark(high) && mark(low).value >= 0.0);
        prop_assert!(high - low < 1e-6 || mark(low) < mark(high));
        let back = pail.volume_to(mark(high));
        prop_assert!((back - pail.capacity() * high).abs().value <= 1e-12 + 1e-9 * back.value);
    }

    /// What jug, stick or scale is asked to show is within tolerance, never more than allowed, and
    /// reads back as what was meant; or it is refused with a smallest batch that does work.
    #[test]
    fn what_is_measured_holds_the_ratio(record in products(), mark in marks(), l in 0.05..14.0_f64) {
        let ratio = ratio(&record);
        let vessel = Generic::FiveGallon.vessel();
        let measure = mark.measure(vessel);
        match measure.at_most(&ratio, liters(l), 0.05) {
            Ok(batch) => {
                prop_assert!(batch.volume <= liters(l) * (1.0 + 1e-9));
                prop_assert!(batch.is_sure(0.05) && batch.off_by.abs() <= batch.off_at_most + 1e-12);
                prop_assert!(batch.pours.iter().all(|p| p.pour.volume.value > 0.0));
                let readings: Vec<_> = batch.pours.iter().map(|p| Some(p.reading)).collect();
                let back = poured(&ratio, &vessel, &readings).unwrap();
                for (meant, back) in batch.pours.iter().zip(back) {
                    prop_assert!((meant.pour.volume - back.volume).abs() <= liters(1e-6));
                }
            }
            Err(Error::TooCoarse { smallest }) => {
                prop_assert!(smallest > liters(l) * (1.0 - 1e-9));
                let works = measure.at_most(&ratio, smallest, 0.05);
                prop_assert!(works.is_ok(), "{works:?}");
            }
            Err(Error::DoesNotFit { .. }) => {}
            // A stick's pail may be full before its marks hold the ratio; a jug is filled again.
            Err(Error::NotMeasurable) => {
                let stick = matches!(mark, Mark::Stick(_));
                prop_assert!(stick, "{mark:?}");
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }

    /// Each pour by a random slip: what is added is never negative, and brings every part to the
    /// same share of the mix.
    #[test]
    fn a_pail_brought_back_is_on_ratio(
        record in products(), mark in marks(), l in 0.5..10.0_f64,
        slips in proptest::collection::vec(prop_oneof![Just(0.0), 0.3..2.5_f64], 7),
        ago in proptest::option::of(0.0..90.0_f64),
    ) {
        let (job, rescue) = rescue(&record, mark, l, &slips, ago)?;
        let Some(rescue) = rescue else { return Ok(()) };
        let ratio = job.product.ratio();
        prop_assert!(rescue.adds.iter().all(|add| add.pour.volume.value >= 0.0));
        prop_assert!(rescue.salvage.iter().all(|late| late.rest.value >= 0.0 && late.area.value > 0.0));
        let all: Vec<Pour> =
            rescue.poured.iter().copied().chain(rescue.adds.iter().map(|add| add.pour)).collect();
        let (least, most) = spread_of_parts(ratio, &all);
        // B to A within tolerance of nominal: no part is further from A than that.
        prop_assert!(most / least <= 1.051 / 0.949, "{least} to {most}");
        prop_assert!(rescue.off_after.abs() <= job.product.tolerance() + 1e-9);
        match rescue.remedy {
            Remedy::Fine => prop_assert!(rescue.adds.is_empty()),
            Remedy::Add => prop_assert!(!rescue.adds.is_empty()),
            Remedy::AddInLarger(generic) => {
                prop_assert!(rescue.volume > job.gear.vessel.working_capacity() * 0.97);
                prop_assert!(rescue.volume <= generic.vessel().working_capacity() * 1.03);
            }
            Remedy::Overdosed => prop_assert!(rescue.overdosed.is_some()),
            Remedy::Discard(_) => {}
        }
        // Poured back, what is left of the parts is on ratio too.
        let left: Vec<Pour> = rescue
            .poured
            .iter()
            .map(|pour| {
                let back = rescue.back.iter().find(|back| back.what == pour.what);
                Pour { volume: pour.volume - back.map_or(Volume::default(), |b| b.volume), ..*pour }
            })
            .collect();
        prop_assert!(left.iter().all(|pour| pour.volume.value >= -1e-12));
        let (least, most) = spread_of_parts(ratio, &left);
        prop_assert!(rescue.back.is_empty() || most - least <= 1e-9 * most.max(1e-9));
        for step in &rescue.working {
            prop_assert!(step.named().all(|(_, figure)| figure.si().is_finite()), "{step:?}");
        }
    }

    /// The clock only takes away: a pail older by minutes is never laid further.
    #[test]
    fn an_older_pail_is_never_laid_further(
        record in products(), l in 0.5..10.0_f64,
        slips in proptest::collection::vec(0.5..1.8_f64, 7),
        ago in 0.0..40.0_f64, more in 0.1..20.0_f64,
    ) {
        let mark = Mark::Scale(ScaleMark::Gram);
        let (_, earlier) = rescue(&record, mark, l, &slips, Some(ago))?;
        let (_, later) = rescue(&record, mark, l, &slips, Some(ago + more))?;
        let area = |rescue: &Option<Rescue>| {
            rescue.as_ref().and_then(|r| r.salvage.as_ref()).map_or(0.0, |late| late.area.value)
        };
        prop_assert!(area(&later) <= area(&earlier) * 1.001);
    }

    /// Readings of any kind and size: an answer or a reason, never a panic, nothing endless.
    #[test]
    fn any_readings_give_finite_numbers_or_an_error(
        readings in proptest::collection::vec(
            proptest::option::of((0..3_u8, prop_oneof![0.0..3.0_f64, any::<f64>()])), 2),
        ago in proptest::option::of(any::<f64>()),
    ) {
        let job = Job::try_from(&demo::job()).unwrap();
        let readings: Vec<_> = readings
            .into_iter()
            .map(|reading| reading.map(|(kind, x)| match kind {
                0 => Figure::Volume(Volume::new::<unit::cubic_meter>(x * 0.01)),
                1 => Figure::Mass(Mass::new::<unit::kilogram>(x * 10.0)),
                _ => Figure::Small(Length::new::<unit::meter>(x * 0.1)),
            }))
            .collect();
        let Ok(pours) = poured(job.product.ratio(), &job.gear.vessel, &readings) else {
            return Ok(());
        };
        let Ok(rescue) = job.rescue(pours, ago.map(minutes)) else { return Ok(()) };
        prop_assert!(rescue.volume.value.is_finite() && rescue.mass.value.is_finite());
        prop_assert!(rescue.off_after.is_finite(), "{rescue:?}");
    }
}

/// A batch of a product with each pour multiplied by a slip; `None` when nothing was poured.
fn rescue(
    record: &ProductRecord,
    mark: Mark,
    liter: f64,
    slips: &[f64],
    ago: Option<f64>,
) -> Result<(Job, Option<Rescue>), TestCaseError> {
    let record = JobRecord { product: record.clone(), ..demo::job() };
    let mut job = Job::try_from(&record).expect("within range");
    job.gear.measure = mark.measure(job.gear.vessel);
    let pours: Vec<Pour> = job
        .product
        .ratio()
        .split(liters(liter))
        .into_iter()
        .zip(slips)
        .map(|(pour, slip)| Pour { volume: pour.volume * *slip, mass: pour.mass * *slip, ..pour })
        .filter(|pour| pour.volume.value > 0.0)
        .collect();
    let parts = pours.iter().any(|p| matches!(p.what, Ingredient::Component(_)));
    let rescue = job.rescue(pours, ago.map(minutes));
    if !parts {
        let missing = matches!(rescue, Err(Error::Missing { .. }));
        prop_assert!(missing, "{rescue:?}");
        return Ok((job, None));
    }
    let rescue = rescue.map_err(|error| TestCaseError::fail(error.to_string()))?;
    Ok((job, Some(rescue)))
}
