//! What to buy: against every mixture there is, for few kits, and against the plan.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::floor::Floor;
use pailwise_calc::order::{Line, Sold, boxes, enough};
use pailwise_calc::quantity::{Mass, Volume, unit};
use pailwise_tests::floors::floors;
use proptest::prelude::*;

fn liters(x: f64) -> Volume {
    Volume::new::<unit::liter>(x)
}

/// The least cost, or with no prices the least left over, of all mixtures of up to three sizes.
fn best(sold: &[Sold], parts: f64) -> f64 {
    let most = |i: usize| sold.get(i).map_or(0, |kit| (parts / kit.each.value).ceil() as u32);
    let mut best = f64::INFINITY;
    for a in 0..=most(0) {
        for b in 0..=most(1) {
            for c in 0..=most(2) {
                let all = || sold.iter().zip([a, b, c]).map(|(kit, n)| (kit, f64::from(n)));
                let volume: f64 = all().map(|(kit, n)| kit.each.value * n).sum();
                if volume >= parts * (1.0 - 1e-9) {
                    let cost = all().map(|(kit, n)| kit.price.unwrap_or(kit.each.value) * n).sum();
                    best = f64::min(best, cost);
                }
            }
        }
    }
    best
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_other_mixture_is_cheaper_or_leaves_less(
        sizes in proptest::collection::vec((1.0..20.0_f64, 20.0..400.0_f64), 1..=3),
        priced in any::<bool>(),
        parts in 0.1..60.0_f64,
    ) {
        let kit = |&(size, price): &(f64, f64)| Sold { each: liters(size), price: priced.then_some(price) };
        let sold: Vec<Sold> = sizes.iter().map(kit).collect();
        let pick = enough(&sold, liters(parts)).unwrap();
        prop_assert!(pick.parts.value >= liters(parts).value * (1.0 - 1e-9));
        let got = pick.cost.unwrap_or(pick.parts.value);
        let best = best(&sold, liters(parts).value);
        prop_assert!(got <= best * (1.0 + 1e-9), "{got} for {best}: {pick:?}");
    }

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
    fn what_is_bought_lays_the_plan(floor in floors(), here in proptest::option::of(0.0..40.0_f64)) {
        let floor = Floor::try_from(&floor).unwrap();
        let coat = &floor.coats[0];
        let plan = floor.plan(coat);
        let needs = plan.needed;
        let mixed: Volume = plan.batches.iter().map(|placed| placed.batch.measured.volume).sum();
        prop_assert!(needs >= mixed && needs >= plan.needed);
        let line = Line::new(&coat.product, needs, here.map(liters));
        let share = coat.product.ratio().parts_share();
        let bought = line.kits.as_ref().map_or(line.missing, |pick| pick.parts / share);
        let all = bought + here.map_or(liters(0.0), liters);
        prop_assert!(all.value >= needs.value * (1.0 - 1e-9));
        prop_assert!((all - needs - line.left).value.abs() < 1e-9 * (1.0 + needs.value));
        let halves = line.half_kits_missing(&coat.product, coat.product.kits()[0]);
        let in_halves = coat.product.kits()[0] * 0.5 * f64::from(halves) / share;
        prop_assert!(in_halves.value >= line.missing.value * (1.0 - 1e-9));
    }
}
