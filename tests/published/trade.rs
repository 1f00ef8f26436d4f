//! What the trade knows.

use pailwise_calc::after::SheetTimes;
use pailwise_calc::demo;
use pailwise_calc::job::Job;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Volume, celsius, unit};
use pailwise_calc::ratio::Ingredient;
use pailwise_tests::checks::check;

const SOURCE: &str = "common practice, no source";

/// Crack paste is 2 A : 1 B by volume.
#[test]
fn two_to_one_paste() {
    let paste = Product::try_from(&demo::record_filler()).unwrap();
    let pours = paste.ratio().split(Volume::new::<unit::quart_liquid>(3.0));
    let quarts: Vec<_> =
        pours.iter().map(|p| (p.what, p.volume.get::<unit::quart_liquid>())).collect();
    assert_eq!(quarts.len(), 2);
    assert_eq!(quarts[0].0, Ingredient::Component(0));
    check("A in three quarts of 2 : 1 paste, qt", SOURCE).within(1e-12, 2.0, quarts[0].1);
    check("B in three quarts of 2 : 1 paste, qt", SOURCE).within(1e-12, 1.0, quarts[1].1);
}

/// High-build base coat spreads 90 to 120 sq ft a gallon; the invented base coat is of that kind,
/// so a gallon in the pail covers a little less than that.
#[test]
fn the_invented_base_coat_spreads_like_a_base_coat() {
    let job = Job::try_from(&demo::job()).unwrap();
    let covered = job.bare.coverage.area_from(Volume::new::<unit::gallon>(1.0));
    check("a gallon of high-build base coat, losses taken off, covers, sq ft", SOURCE).between(
        85.0,
        120.0,
        covered.get::<unit::square_foot>(),
    );
}

/// The invented topcoat takes feet after 24 to 36 hours and vehicles after three days.
#[test]
fn the_invented_topcoat_is_used_when_floors_are() {
    let sheet = demo::record_topcoat();
    let hours = |points| {
        let times = SheetTimes::new(points).unwrap().unwrap();
        times.ready(celsius(25.0)).get::<unit::hour>()
    };
    check("light use of a floor, h", SOURCE).between(24.0, 36.0, hours(&sheet.light_use));
    check("vehicles on a floor, h", SOURCE).within(1e-12, 72.0, hours(&sheet.vehicles));
}
