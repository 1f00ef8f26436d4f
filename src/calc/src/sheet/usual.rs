//! Figures of a data sheet against what is usual.

use super::{Doubt, Why};
use crate::field::Field;
use crate::product::Product;
use crate::quantity::{Figure, Length, Mass, MassDensity, Time, celsius, minutes, unit};
use crate::record::{ProductRecord, Role};

/// Every figure outside what is usual, in the order in which doubts are listed.
pub(super) fn unusual(record: &ProductRecord, product: &Product) -> Vec<Doubt> {
    let mut doubts = ratio(record, product);
    doubts.extend(pot_life(product));
    doubts.extend(open_time(record));
    doubts.extend(after_temperatures(record));
    doubts.extend(limits(record));
    doubts.extend(mixing(record));
    doubts.extend(wet_film(record, product));
    doubts.extend(after_times(record));
    doubts
}

/// A doubt about a figure, if it lies outside what is usual.
fn outside(field: Field, row: usize, given: Figure, [low, high]: [Figure; 2]) -> Option<Doubt> {
    let is_outside = given.si() < low.si() || given.si() > high.si();
    is_outside.then_some(Doubt { field, row, given, why: Why::Unusual { low, high } })
}

/// How warm a place is usually laid, and a sample usually tried.
fn warmth() -> [Figure; 2] {
    // A sheet that prints one temperature in °F and °C is easily copied with the wrong one.
    [5.0, 40.0].map(|degrees| celsius(degrees).into())
}

/// How long a pot life or an open time usually is.
fn working_time() -> [Figure; 2] {
    [5.0, 240.0].map(|time| minutes(time).into())
}

/// Parts, densities and the tolerance of the ratio.
fn ratio(record: &ProductRecord, product: &Product) -> Vec<Doubt> {
    let density =
        |x: f64| Figure::from(MassDensity::new::<unit::kilogram_per_cubic_meter>(x * 1000.0));
    let parts = || record.components.iter().map(|part| part.parts);
    let (least, most) = (parts().fold(f64::INFINITY, f64::min), parts().fold(0.0, f64::max));
    let given = Figure::Number(most / least);
    let mut doubts = Vec::new();
    doubts.extend(outside(Field::Parts, 0, given, [1.0, 12.0].map(Figure::Number)));
    for (row, part) in record.components.iter().enumerate() {
        let given = density(part.density_kg_per_l);
        doubts.extend(outside(Field::Density, row, given, [0.85, 2.2].map(density)));
    }
    let tolerance = Figure::Share(product.tolerance());
    let usual = [0.005, 0.10].map(Figure::Share);
    doubts.extend(outside(Field::RatioTolerance, 0, tolerance, usual));
    doubts
}

/// Each pot life with its temperature and the mass of its sample.
fn pot_life(product: &Product) -> Vec<Doubt> {
    let mass = |kg: f64| Figure::from(Mass::new::<unit::kilogram>(kg));
    let points = product.pot_life().iter().enumerate();
    let doubts = points.flat_map(|(row, point)| {
        [
            outside(Field::PotLife, row, point.time.into(), working_time()),
            outside(Field::PotLifeTemperature, row, point.temperature.into(), warmth()),
            outside(Field::PotLifeMass, row, point.mass.into(), [0.05, 6.0].map(mass)),
        ]
    });
    doubts.flatten().collect()
}

/// Each open time with its temperature.
fn open_time(record: &ProductRecord) -> Vec<Doubt> {
    let doubts = record.open_time.iter().enumerate().flat_map(|(row, open)| {
        let at = celsius(open.temperature_c).into();
        [
            outside(Field::OpenTime, row, minutes(open.time_min).into(), working_time()),
            outside(Field::OpenTimeTemperature, row, at, warmth()),
        ]
    });
    doubts.flatten().collect()
}

/// The temperatures of the times after the coat is down.
fn after_temperatures(record: &ProductRecord) -> Vec<Doubt> {
    let all = [
        &record.recoat_opens,
        &record.recoat_closes,
        &record.light_use,
        &record.vehicles,
        &record.full_cure,
    ];
    let rows = all.into_iter().flat_map(|rows| rows.iter().enumerate());
    let doubts = rows.filter_map(|(row, after)| {
        outside(Field::AfterTemperature, row, celsius(after.temperature_c).into(), warmth())
    });
    doubts.collect()
}

/// The coldest and the warmest that slab and air may be.
fn limits(record: &ProductRecord) -> Vec<Doubt> {
    let limits = &record.limits;
    let all = [
        (Field::SlabLeast, limits.slab_min_c, [0.0, 20.0]),
        (Field::SlabMost, limits.slab_max_c, [24.0, 50.0]),
        (Field::AirLeast, limits.air_min_c, [0.0, 20.0]),
        (Field::AirMost, limits.air_max_c, [24.0, 50.0]),
    ];
    let figure = |degrees: f64| Figure::from(celsius(degrees));
    let doubts = all
        .into_iter()
        .filter_map(|(field, limit, usual)| outside(field, 0, figure(limit?), usual.map(figure)));
    doubts.collect()
}

/// How long it is to be mixed.
fn mixing(record: &ProductRecord) -> Option<Doubt> {
    let usual = [1.0, 8.0].map(|time| minutes(time).into());
    outside(Field::Mixing, 0, minutes(record.mixing_min).into(), usual)
}

/// The wet film, which a filler has none of.
fn wet_film(record: &ProductRecord, product: &Product) -> Option<Doubt> {
    let film = |um| Figure::Thickness(Length::new::<unit::micrometer>(um));
    let wet = product.wet_film().filter(|_| record.role != Role::Filler)?;
    outside(Field::WetFilm, 0, Figure::Thickness(wet), [60.0, 1500.0].map(film))
}

/// How long after the coat is down the next one and light use may come.
fn after_times(record: &ProductRecord) -> Vec<Doubt> {
    let hours = |x: f64| Figure::from(Time::new::<unit::hour>(x));
    let all = [(Field::RecoatOpens, &record.recoat_opens), (Field::LightUse, &record.light_use)];
    let rows = all.into_iter().flat_map(|(field, rows)| {
        rows.iter().enumerate().map(move |(row, after)| (field, row, after))
    });
    let doubts = rows.filter_map(|(field, row, after)| {
        outside(field, row, hours(after.time_h), [1.0, 96.0].map(hours))
    });
    doubts.collect()
}
