//! What to buy: against every mixture there is, and against the plan.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::flake::boxes;
use pailwise_calc::floor::Floor;
use pailwise_calc::order::{Line, Rule, SIZES, Sold, enough};
use pailwise_calc::quantity::{Mass, Volume, unit};
use pailwise_tests::floors::floors;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

fn liters(x: f64) -> Volume {
    Volume::new::<unit::liter>(x)
}

/// The least cost, or with no prices the least that is held, of all mixtures,
/// each of them counted out.
fn best(sold: &[Sold], parts: f64) -> f64 {
    let Some((kit, others)) = sold.split_first() else {
        return if parts <= 1e-9 { 0.0 } else { f64::INFINITY };
    };
    let (each, price) = (kit.each.value, kit.price.unwrap_or(kit.each.value));
    let most = ((parts / each) * (1.0 - 1e-9)).ceil().max(0.0) as u32;
    // The last of them must fill up what is left.
    let counts = if others.is_empty() { most..=most } else { 0..=most };
    let of = |n: u32| price * f64::from(n) + best(others, (parts - each * f64::from(n)).max(0.0));
    counts.map(of).fold(f64::INFINITY, f64::min)
}

/// So many mixtures `best` looks at.
fn mixtures(sold: &[Sold], parts: f64) -> f64 {
    let counted = sold.iter().take(sold.len() - 1);
    counted.map(|kit| 1.0 + (parts / kit.each.value).ceil()).product()
}

/// Sizes as they are sold, in gallons and litres, and any others.
fn size() -> impl Strategy<Value = f64> {
    let gallons = prop::sample::select(vec![0.25, 0.5, 1.0, 1.25, 1.5, 2.0, 3.0, 5.0, 10.0, 15.0]);
    let round = prop::sample::select(vec![0.5, 1.0, 2.5, 5.0, 6.0, 10.0, 12.0, 20.0, 30.0]);
    prop_oneof![gallons.prop_map(|gallons| gallons * 3.785_411_784), round, 0.3..20.0_f64]
}

/// Lists of kits, each the dearer the larger, more or less; priced or not.
fn lists() -> impl Strategy<Value = Vec<Sold>> {
    let kit = (size(), 0.7..1.3_f64).prop_map(|(size, dearer)| Sold {
        each: liters(size),
        price: Some((30.0 * size.powf(0.85) * dearer * 100.0).round() / 100.0),
    });
    (prop::collection::vec(kit, 1..=SIZES), any::<bool>()).prop_map(|(mut sold, priced)| {
        for kit in &mut sold {
            kit.price = kit.price.filter(|_| priced);
        }
        sold
    })
}

#[test]
fn no_other_mixture_is_cheaper_or_leaves_less() {
    let mut runner = TestRunner::new(Config { cases: 1000, ..Config::default() });
    // Lists of six sizes or more, and those of which one is taken more than sixty times.
    let seen = Cell::new((0, 0));
    runner
        .run(&(lists(), 0.0..1.0_f64, 1.0..5.0_f64), |(sold, share, digits)| {
            // No more than can still be counted out.
            let (mut low, mut high) = (0.0, 1000.0);
            while high - low > 1e-3 {
                let mid = f64::midpoint(low, high);
                let countable = mixtures(&sold, liters(mid).value) <= 10_f64.powf(digits);
                if countable { low = mid } else { high = mid }
            }
            let parts = liters(low * share);
            let pick = enough(&sold, parts).unwrap();
            let most = pick.counts.iter().max().copied().unwrap_or(0);
            let (long, many) = seen.get();
            seen.set((long + u32::from(sold.len() >= 6), many + u32::from(most > 60)));
            prop_assert!(pick.parts.value >= parts.value * (1.0 - 1e-9));
            let counted = sold.iter().zip(&pick.counts);
            let held: f64 = counted.map(|(kit, n)| kit.each.value * f64::from(*n)).sum();
            prop_assert!((held - pick.parts.value).abs() <= 1e-12 * (1.0 + held));
            let got = pick.cost.unwrap_or(pick.parts.value);
            let best = best(&sold, parts.value);
            prop_assert!(got <= best * (1.0 + 3e-9), "{got} for {best}: {pick:?}");
            Ok(())
        })
        .unwrap();
    let (long, many) = seen.get();
    assert!(long > 200 && many > 50, "{long} of six sizes or more, {many} beyond sixty");
}

proptest! {
    #[test]
    fn boxes_hold_what_is_needed_and_no_box_is_too_many(kg in 0.01..2000.0_f64, each in 0.5..50.0_f64) {
        let (mass, each) = (Mass::new::<unit::kilogram>(kg), Mass::new::<unit::kilogram>(each));
        let n = f64::from(boxes(mass, each));
        prop_assert!((each * n).value >= kg * (1.0 - 1e-9));
        prop_assert!((each * (n - 1.0)).value < kg);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// What is bought lays every batch of the plan, and what is said to be left is left.
    #[test]
    fn what_is_bought_lays_the_plan(
        floor in floors(),
        here in proptest::option::of(0.0..40.0_f64),
        spare in 0.0..0.3_f64,
    ) {
        let floor = Floor::try_from(&floor).unwrap();
        let coat = &floor.coats[0];
        let plan = floor.plan(coat);
        let needs = plan.needed;
        let mixed: Volume = plan.batches.iter().map(|placed| placed.batch.measured.volume).sum();
        prop_assert!(needs >= mixed && needs >= plan.needed);
        let rule = Rule { spare, step: liters(0.1) };
        let line = Line::new(&coat.product, needs, here.map(liters), &rule);
        prop_assert!(line.needed >= needs * (1.0 - 1e-9) && line.needed <= needs + liters(0.1 + 1e-6));
        let share = coat.product.ratio().parts_share();
        let bought = line.kits.as_ref().map_or(line.missing, |pick| pick.parts / share);
        let all = bought + here.map_or(liters(0.0), liters);
        prop_assert!(all.value >= needs.value * (1.0 + spare) * (1.0 - 1e-9));
        prop_assert!((all - line.needed - line.left).value.abs() < 1e-9 * (1.0 + needs.value));
        let halves = line.half_kits_short(&coat.product, coat.product.kits()[0]);
        let in_halves = coat.product.kits()[0] * 0.5 * f64::from(halves) / share;
        prop_assert!(in_halves.value >= line.short.value * (1.0 - 1e-9));
    }
}
