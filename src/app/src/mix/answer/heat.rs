//! Pot life against temperature, and what the pail does if it is left standing.

use leptos::prelude::*;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::show::Reader;

use crate::parts::heat_curve::heat_curve;
use crate::parts::pot_life::{self, Dot};
use crate::parts::working::how;
use crate::text::{key, live, tr_with};

/// Gives a card with two curves: pot life, and a pail left standing.
pub(super) fn heat(reader: Reader, good: &Good) -> impl IntoView + use<> {
    view! {
        <section class="card">
            <h2>{live(key::HEAT)}</h2>
            {pot_life(reader, good)}
            {left_standing(reader, good)}
        </section>
    }
}

/// Time against temperature for three pails, with today's batch on it.
fn pot_life(reader: Reader, good: &Good) -> Option<AnyView> {
    let material = good.job.conditions.mixed();
    let life = reader.time(good.batch.pot_life);
    let now = Dot {
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
    let (material, air) = (job.conditions.mixed(), job.conditions.air);
    let pail = job.product.pail(mass, &job.gear.vessel, material, air).ok()?;
    let sets = job.product.gel().and_then(|gel| pail.time_to(gel).ok());
    let moments = [(Some(good.batch.pour_out), key::HEAT_OUT_BY), (sets, key::HEAT_GELS)];
    let (picture, said) =
        heat_curve(reader, &pail, job.product.can_pass(&pail, mass).ok()?, air, &moments)?;
    let steps = job.product.explain_heat(&pail, mass).ok()?;
    Some(
        view! {
            <h3>{live(key::HEAT_STANDING)}</h3>
            {picture}
            <p class="caution" id="mix-peak">{said}</p>
            {how(reader, Some(&good.product), &steps)}
        }
        .into_any(),
    )
}
