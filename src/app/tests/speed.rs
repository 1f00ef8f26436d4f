//! A grid of pot lives and the plan of a garage in a real browser. Nothing about time is asserted; `cargo xtask bench`
//! reads what is printed.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::floor::Floor;
use pailwise_calc::record::FloorRecord;
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn a_grid_of_forty_by_forty() {
    let base = demo::base().unwrap();
    let clock = web_sys::window().and_then(|window| window.performance()).unwrap();
    let mut least = f64::INFINITY;
    for _ in 0..5 {
        let start = clock.now();
        let grid = base.pot_life_grid(40).unwrap();
        least = least.min(clock.now() - start);
        assert!(grid.iter().flatten().all(|life| life.value.is_finite() && life.value > 0.0));
    }
    console_log!("grid_ms={least}");
}

/// Crack paste, base coat and topcoat of a two-car garage.
#[wasm_bindgen_test]
fn the_plan_of_a_garage() {
    let text = include_str!("../../../tests/data/floors/two-car-garage.json");
    let floor = Floor::try_from(&FloorRecord::from_json(text).unwrap()).unwrap();
    let clock = web_sys::window().and_then(|window| window.performance()).unwrap();
    let mut least = f64::INFINITY;
    for _ in 0..5 {
        let start = clock.now();
        let plans: Vec<_> = floor.coats.iter().map(|coat| floor.plan(coat)).collect();
        least = least.min(clock.now() - start);
        assert!(plans.iter().all(|plan| plan.stopped.is_none() && !plan.batches.is_empty()));
    }
    console_log!("garage_ms={least}");
}
