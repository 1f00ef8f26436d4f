//! Any input at all: an answer of finite numbers or an error, never a panic; and sheets made from
//! known constants lead back to them.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::calibrate::{Assumed, PotLifePoint, Sample, calibrate};
use pailwise_calc::cure::{Beyond, Kinetics, Rate};
use pailwise_calc::demo;
use pailwise_calc::job::Job;
use pailwise_calc::pail::Pail;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Frequency, Mass, MolarEnergy, celsius, unit};
use pailwise_calc::record::{JobRecord, PotLifeRecord};
use pailwise_calc::vessel::{Generic, Vessel};
use proptest::prelude::*;

/// Numbers as a broken file or a slipped finger has them.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -10.0..200.0_f64,
        1 => any::<f64>(),
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(-1.0), Just(f64::NAN), Just(f64::INFINITY),
            Just(f64::NEG_INFINITY), Just(f64::MIN_POSITIVE), Just(f64::MAX), Just(1e-9), Just(1e9),
        ],
    ]
}

/// One of the numbers of a job.
fn place(record: &mut JobRecord, which: usize) -> &mut f64 {
    match which {
        0 => &mut record.conditions.slab_c,
        1 => &mut record.conditions.air_c,
        2 => &mut record.conditions.material_c,
        3 => &mut record.crew.roll_m2_per_min,
        4 => &mut record.crew.flake_m2_per_min,
        5 => &mut record.crew.throw_m,
        6 => &mut record.crew.carry_min,
        7 => &mut record.crew.settle_min,
        8 => &mut record.crew.pour_l_per_min,
        9 => &mut record.crew.reserve_percent,
        10 => &mut record.bare.area_m2,
        11 => &mut record.bare.width_m,
        12 => &mut record.bare.take_up_percent,
        13 => &mut record.bare.loss_percent,
        14 => &mut record.product.components[0].parts,
        15 => &mut record.product.components[1].parts,
        16 => &mut record.product.components[0].density_kg_per_l,
        17 => &mut record.product.components[1].density_kg_per_l,
        18 => &mut record.product.ratio_tolerance_percent,
        19 => &mut record.product.pot_life[0].time_min,
        20 => &mut record.product.pot_life[0].temperature_c,
        21 => &mut record.product.open_time[0].time_min,
        22 => &mut record.product.mixing_min,
        _ => &mut record.product.induction_min,
    }
}

/// A good job with a few of its numbers made wild.
fn wild_jobs() -> impl Strategy<Value = JobRecord> {
    proptest::collection::vec((0..24_usize, wild()), 1..4).prop_map(|changes| {
        let mut job = demo::job();
        for (which, x) in changes {
            *place(&mut job, which) = x;
        }
        job
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    #[test]
    fn any_job_gives_finite_numbers_or_an_error(record in wild_jobs()) {
        let Ok(job) = Job::try_from(&record) else { return Ok(()) };
        let Ok(batch) = job.next_batch() else { return Ok(()) };
        let t = &batch.timeline;
        for number in [
            batch.area.value, batch.reach.value, batch.measured.volume.value,
            batch.measured.mass.value, batch.measured.off_by, batch.pot_life.value,
            batch.pour_out.value, t.emptied.value, t.rolled.value, t.done.value,
            t.next_mix.value, batch.open_until.value,
        ] {
            prop_assert!(number.is_finite(), "{batch:?}");
        }
        for step in &job.explain_batch(&batch) {
            for (name, figure) in step.named() {
                prop_assert!(figure.si().is_finite(), "{name} of {step:?}");
            }
        }
        prop_assert!(job.moves(Some(&batch)).iter().all(|m| m.adds.value.is_finite()));
    }

    #[test]
    fn a_pail_anywhere_in_the_domain_has_a_pot_life_and_a_peak(
        kg in prop_oneof![Just(0.01), Just(200.0), 0.01..200.0_f64],
        material in prop_oneof![Just(-5.0), Just(50.0), -5.0..50.0_f64],
        air in prop_oneof![Just(-5.0), Just(50.0), -5.0..50.0_f64],
        minutes in prop_oneof![Just(1.0), Just(1440.0), 1.0..1440.0_f64],
        sheet in prop_oneof![Just(-5.0), Just(50.0), -5.0..50.0_f64],
        which in 0..3_usize,
    ) {
        let mut record = demo::records()[which].clone();
        record.pot_life =
            vec![PotLifeRecord { time_min: minutes, temperature_c: sheet, ..PotLifeRecord::default() }];
        let product = Product::try_from(&record).unwrap();
        let mass = Mass::new::<unit::kilogram>(kg);
        let drum = Vessel::compact(mass / product.ratio().density() * 1.01);
        let pail = product.pail(mass, &drum, celsius(material), celsius(air)).unwrap();
        let life = pail.pot_life().unwrap().value;
        prop_assert!(life.is_finite() && life > 0.0);
        let peak = pail.peak().unwrap();
        prop_assert!(peak.temperature.value.is_finite() && peak.after.value.is_finite());
        prop_assert!(peak.temperature.value >= pail.material.value - 1e-9);
    }

    /// Kits made up from a law of two temperatures lead back to it: as they are printed, no more
    /// and no less.
    #[test]
    fn a_sheet_made_from_known_constants_leads_back_to_them(
        log_k in -10.0..-6.5_f64, ea in 38_000.0..75_000.0_f64, kg in 0.05..2.0_f64,
        first in 10.0..25.0_f64, apart in 5.0..15.0_f64, kappa in 0.03..1.0_f64,
    ) {
        let thermal = demo::base().unwrap().thermal();
        let hertz = Frequency::new::<unit::hertz>;
        let energy = MolarEnergy::new::<unit::joule_per_mole>;
        let own = |c: f64| {
            let single = Rate::single(hertz(log_k.exp()), energy(ea));
            (celsius(c), single.at(celsius(c)))
        };
        let beyond = Beyond { cold: energy(30_000.0), warm: energy(60_000.0) };
        let rate = Rate::through([own(first), own(first + apart)], beyond);
        let truth = Kinetics { rate, kappa, balance: 1.0, end: 0.55 };
        let mass = Mass::new::<unit::kilogram>(kg);
        // As a kit's sample stands: its own surface, and no cup to hold it to.
        let cup = Vessel::compact(mass / thermal.density);
        let surface = cup.outside_surface(mass / thermal.density).unwrap();
        let cooling = thermal.heat_loss * surface / (mass * thermal.heat_capacity);
        let sheet: Vec<_> = [first, first + apart]
            .into_iter()
            .map(|degrees| {
                let temperature = celsius(degrees);
                let mut pail =
                    Pail::new(truth, &thermal, mass, &cup, temperature, temperature).unwrap();
                pail.cooling = cooling;
                let sample = Some(Sample::Kit);
                PotLifePoint { time: pail.pot_life().unwrap(), temperature, mass, sample }
            })
            .collect();
        let assumed = Assumed { beyond, kappa, balance: 1.0, end: 0.55, gel: 0.577 };
        // A sheet whose times are outside what the tool takes is refused, and rightly.
        let Ok(found) = calibrate(&sheet, assumed, &thermal) else {
            let minutes = sheet.iter().map(|p| p.time.get::<unit::minute>());
            prop_assert!(minutes.into_iter().any(|m| !(1.0..=1440.0).contains(&m)));
            return Ok(());
        };
        for c in [first - 8.0, first, first + 0.5 * apart, first + apart, first + apart + 20.0] {
            let share = (found.kinetics.k(celsius(c)) / truth.k(celsius(c))).value;
            prop_assert!(share.ln().abs() < 1e-4, "{share} at {c} °C");
        }
    }

    /// Whatever a sheet prints is taken, and none of it is promised longer than it is printed.
    #[test]
    fn nothing_that_can_be_printed_is_refused_or_promised_longer(
        rows in proptest::collection::vec(
            (1.0..1440.0_f64, -5.0..50.0_f64, proptest::option::of(0.01..200.0_f64), 0..5_usize),
            1..5,
        ),
        which in 0..3_usize,
    ) {
        let mut record = demo::records()[which].clone();
        let row = |&(time_min, temperature_c, mass_kg, how): &(f64, f64, Option<f64>, usize)| {
            let measured = Sample::ALL.get(how).copied();
            PotLifeRecord { time_min, temperature_c, mass_kg, measured, volume_l: None }
        };
        record.pot_life = rows.iter().map(row).collect();
        let product = Product::try_from(&record).unwrap();
        for off in &product.calibration().residuals {
            prop_assert!(*off < 1e-6, "{off}");
        }
    }
}

/// The edges of the pails themselves.
#[test]
fn a_full_pail_and_a_drop_are_answered() {
    let base = demo::base().unwrap();
    for generic in Generic::ALL {
        let vessel = generic.vessel();
        for mass in [Mass::new::<unit::kilogram>(0.01), vessel.capacity() * base.ratio().density()]
        {
            let pail = base.pail(mass, &vessel, celsius(25.0), celsius(25.0)).unwrap();
            assert!(pail.pot_life().unwrap().value > 0.0);
        }
    }
}
