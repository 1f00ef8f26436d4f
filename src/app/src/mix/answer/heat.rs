//! Pot life against temperature, and what the pail does if it is left standing.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, unit};

use crate::mix::find::Good;
use crate::parts::chart::{Axis, Curve, Point, chart};
use crate::parts::pot_life::{self, Mark};
use crate::show::Reader;
use crate::text::{key, live, tr, tr_with};

/// Both pictures.
pub(super) fn heat(reader: Reader, good: &Good) -> impl IntoView + use<> {
    view! {
        <section class="card">
            <h2>{live(key::HEAT)}</h2>
            {pot_life(reader, good)}
            {left_standing(reader, good)}
        </section>
    }
}

fn minutes(time: Time) -> f64 {
    time.get::<unit::minute>()
}

/// Time against temperature for three pails, with today's batch on it.
fn pot_life(reader: Reader, good: &Good) -> Option<AnyView> {
    let material = good.job.conditions.material;
    let life = reader.time(good.batch.pot_life);
    let now = Mark {
        temperature: material,
        time: good.batch.pot_life,
        label: tr_with(key::HEAT_NOW, &[("time", &life)]),
    };
    let title = tr_with(
        key::HEAT_POT_LIFE_PICTURE,
        &[
            ("time", &life),
            ("volume", &reader.volume(good.batch.measured.volume)),
            ("temperature", &reader.temperature(material)),
        ],
    );
    let picture = pot_life::pot_life(reader, &good.job.product, &[now], title)?;
    Some(
        view! {
            <h3>{live(key::HEAT_POT_LIFE)}</h3>
            {picture}
            <p class="small">{live(key::HEAT_POT_LIFE_NOTE)}</p>
        }
        .into_any(),
    )
}

/// Temperature of this batch against time, if it is left in the pail.
fn left_standing(reader: Reader, good: &Good) -> Option<AnyView> {
    let job = &good.job;
    let mass = good.batch.measured.mass;
    let (material, air) = (job.conditions.material, job.conditions.air);
    let pail = job.product.pail(mass, &job.gear.vessel, material, air).ok()?;
    let (peak, curve) = (pail.peak().ok()?, pail.heat_curve().ok()?);
    let points: Vec<(f64, f64)> =
        curve.iter().map(|(t, heat)| (minutes(*t), reader.degrees(*heat))).collect();
    let last = points.last()?.0;
    let (coldest, hottest) =
        points.iter().fold((f64::MAX, f64::MIN), |(low, high), (_, t)| (low.min(*t), high.max(*t)));
    let x = Axis::round(0.0, last, 6.0, tr(key::BAR_MINUTES));
    let y = Axis::round(
        coldest.min(reader.degrees(air)),
        hottest.max(coldest + 5.0),
        5.0,
        reader.degree_unit(),
    );
    // The last point at or before a moment: never later than the curve.
    let on_curve = |time: Time, label: &str| {
        let at = points.iter().rev().find(|(t, _)| *t <= minutes(time))?;
        let label = tr_with(label, &[("time", &reader.time(time))]);
        Some(Point { at: (minutes(time), at.1), rising: true, label })
    };
    let sets = job.product.gel().and_then(|gel| pail.time_to(gel).ok());
    let marks: Vec<Point> = [
        on_curve(good.batch.pour_out, key::HEAT_OUT_BY),
        sets.and_then(|time| on_curve(time, key::HEAT_GELS)),
    ]
    .into_iter()
    .flatten()
    .collect();
    let figures = [
        ("peak", &*reader.temperature_up(peak.temperature)),
        ("after", &*reader.time(peak.after)),
        ("core", &*reader.temperature_up(pail.adiabatic_bound())),
    ];
    let said = tr_with(key::HEAT_LEFT_STANDING, &figures);
    let picture = chart(&x, &y, &[Curve { label: String::new(), points }], &marks, said.clone());
    Some(
        view! {
            <h3>{live(key::HEAT_STANDING)}</h3>
            {picture}
            <p class="caution" id="mix-peak">{said}</p>
        }
        .into_any(),
    )
}
