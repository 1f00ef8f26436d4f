//! Every working adds up: the sums that its sentences state are worked out again from the figures
//! they show, over random floors with batches down, walls brushed and pails thrown away.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::RefCell;
use std::collections::BTreeMap;

use pailwise_calc::flake::flake;
use pailwise_calc::floor::{Floor, Place};
use pailwise_calc::order::{Line, Rule};
use pailwise_calc::quantity::{Mass, Volume, unit};
use pailwise_calc::record::{BrushedRecord, DoneRecord, FloorRecord};
use pailwise_calc::working::{Sentence, Step};
use pailwise_tests::floors::floors;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

/// What a sentence says comes of its other figures, and what it shows for that; nothing for one that
/// states no sum.
fn sum(step: &Step) -> Option<(f64, f64)> {
    let x: Vec<f64> = step.figures.iter().map(|figure| figure.si()).collect();
    Some(match step.sentence {
        Sentence::PourOut | Sentence::OrderParts | Sentence::FlakeNeeds => (x[0] * x[1], x[2]),
        Sentence::Volume => (x[0] * x[1] * (1.0 + x[2]) / (1.0 - x[3]), x[4]),
        Sentence::Reach => (x[0] / x[1], x[2]),
        Sentence::SettingUp => (x[0] + x[1] * x[2], x[3]),
        Sentence::OpenLeft => (x[1] * x[2], x[3]),
        Sentence::Adds | Sentence::OrderLeft | Sentence::DewPointSpread => (x[0] - x[1], x[2]),
        Sentence::LearntSpread => (x[2] / x[1], x[3]),
        Sentence::LearntPace => (x[0] / x[1] / x[2], x[3]),
        Sentence::PlanShort => ((x[2] - (x[0] - x[1])).max(0.0), x[3]),
        Sentence::OrderLeftHere => (x[0] + x[1] - x[2], x[3]),
        Sentence::FlakeBoxes => ((x[0] / x[1]).ceil(), x[2]),
        _ => return None,
    })
}

/// Sums that run over two sentences.
fn sums(steps: &[Step]) -> Vec<(Sentence, f64, f64)> {
    let figure = |sentence: Sentence, i: usize| -> Option<f64> {
        Some(steps.iter().find(|step| step.sentence == sentence)?.figures[i].si())
    };
    let mut all = Vec::new();
    if let (Some(planned), Some(rest), Some(needed)) =
        (figure(Sentence::PlanSum, 1), figure(Sentence::PlanLeft, 0), figure(Sentence::PlanLeft, 1))
    {
        all.push((Sentence::PlanLeft, planned + rest, needed));
    }
    if let (Some(free), Some(ready), Some(next)) =
        (figure(Sentence::NextMix, 0), figure(Sentence::NextMix, 1), figure(Sentence::NextMix, 2))
    {
        // As soon as hands are free, or whoever mixes is back.
        let back = figure(Sentence::MixerBack, 0).unwrap();
        all.push((Sentence::NextMix, (free - ready).max(back), next));
    }
    let wanted = figure(Sentence::OrderSpare, 1).or(figure(Sentence::OrderNeeds, 0));
    if let (Some(wanted), Some(here), Some(missing)) =
        (wanted, figure(Sentence::OrderHere, 0), figure(Sentence::OrderHere, 1))
    {
        all.push((Sentence::OrderHere, (wanted - here).max(0.0), missing));
    }
    all
}

/// A floor as it may stand in the middle of a coat.
fn begun() -> impl Strategy<Value = FloorRecord> {
    let batch = (0.05..0.5_f64, 0.5..12.0_f64, proptest::option::of(1.0..30.0_f64));
    let down = proptest::collection::vec(batch, 0..3);
    let brushed = proptest::option::of((0.1..2.0_f64, 0.1..2.0_f64));
    let here = proptest::option::of(0.0..60.0_f64);
    (floors(), down, brushed, here, 0.0..5.0_f64).prop_map(
        |(mut floor, down, brushed, here, gone)| {
            let deep = floor.flat[0].depth_m;
            let coat = &mut floor.coats[0];
            let mut at = 0.0;
            coat.done = down
                .into_iter()
                .map(|(share, mixed_l, rolled_in_min)| {
                    at += share * (deep - at);
                    DoneRecord {
                        ended_at_m: at,
                        mixed_l,
                        bay: 0,
                        rolled_in_min,
                        begun_min: None,
                        film_closed: false,
                    }
                })
                .collect();
            let brushed = brushed.map(|(area_m2, mixed_l)| BrushedRecord { area_m2, mixed_l });
            coat.brushed = brushed.filter(|_| !floor.stem_walls.is_empty()).into_iter().collect();
            coat.discarded_l = (gone > 1.0).then_some(gone);
            coat.on_hand_l = here;
            floor
        },
    )
}

#[test]
fn every_working_adds_up() {
    let mut runner = TestRunner::new(Config { cases: 400, ..Config::default() });
    let seen: RefCell<BTreeMap<&'static str, usize>> = RefCell::default();
    let check = |steps: &[Step]| -> Result<(), TestCaseError> {
        let own = steps.iter().filter_map(|step| Some((step.sentence, sum(step)?)));
        let own = own.map(|(sentence, (wanted, said))| (sentence, wanted, said));
        for (sentence, wanted, said) in own.chain(sums(steps)) {
            let hair = 1e-6 * wanted.abs().max(said.abs()) + 1e-9;
            prop_assert!((wanted - said).abs() <= hair, "{sentence:?}: {wanted}, said {said}");
            *seen.borrow_mut().entry(sentence.key()).or_default() += 1;
        }
        Ok(())
    };
    runner
        .run(&begun(), |record| {
            let floor = Floor::try_from(&record).unwrap();
            let coat = &floor.coats[0];
            let plan = floor.plan(coat);
            check(&floor.explain_plan(coat, &plan))?;
            for placed in plan.batches.iter().take(2) {
                check(&placed.job.explain_batch(&placed.batch))?;
                for way in placed.job.moves(Some(&placed.batch)) {
                    check(&[way.explain()])?;
                }
            }
            let step = Volume::new::<unit::liter>(0.1);
            for spare in [0.0, 0.1] {
                let line = Line::new(&coat.product, plan.needed, plan.left, &Rule { spare, step });
                check(&line.working)?;
            }
            let each = Mass::new::<unit::kilogram>(18.0);
            let flat = plan.batches.iter().filter(|placed| placed.place != Place::Verticals);
            let area = flat.map(|placed| placed.batch.area).sum();
            check(&flake(area, 0.6, each).working)?;
            Ok(())
        })
        .unwrap();
    let seen = seen.into_inner();
    println!("{seen:?}");
    for sentence in [
        Sentence::PlanShort,
        Sentence::PlanLeft,
        Sentence::LearntSpread,
        Sentence::LearntPace,
        Sentence::OrderLeft,
        Sentence::OrderHere,
        Sentence::NextMix,
        Sentence::Adds,
        Sentence::SettingUp,
    ] {
        let count = seen.get(sentence.key()).copied().unwrap_or(0);
        assert!(count >= 20, "{sentence:?} was worked out {count} times");
    }
}
