//! To play with: temperature and pail size on the pot-life curve, the heat of that pail beside it,
//! and what the rule of thumb would have said.

use leptos::prelude::*;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{ThermodynamicTemperature, Volume, celsius, unit};
use pailwise_calc::vessel::Generic;
use pailwise_calc::working::Step;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::desk::desk;
use crate::parts::heat_curve::heat_curve;
use crate::parts::pot_life::{Dot, pot_life};
use crate::parts::question::Question;
use crate::parts::working::how;
use crate::text::{key, live, tr_with};

/// The sliders and what they show.
#[component]
pub(super) fn Sandbox() -> impl IntoView {
    let desk = desk();
    let (at, size) = (RwSignal::new(24.0), RwSignal::new(6.0));
    let product =
        Memo::new(move |_| desk.product().and_then(|record| Product::try_from(&record).ok()));
    let name = move || desk.product().map_or_else(String::new, |product| product.name);
    let shown = move || {
        let reader = desk.reader();
        product.with(|product| pictures(reader, product.as_ref()?, at.get(), size.get()))
    };
    let warm = move || desk.reader().temperature(celsius(at.get()));
    let large = move || desk.reader().volume_about(Volume::new::<unit::liter>(size.get()));
    view! {
        <Question label=key::SANDBOX now=Signal::derive(name)>
            <Slider id="sandbox-at" label=key::SANDBOX_AT low=5.0 high=40.0 value=at said=warm />
            <Slider id="sandbox-size" label=key::SANDBOX_SIZE low=0.5 high=14.0 value=size said=large />
            {shown}
        </Question>
    }
}

/// A slider with what stands on it.
#[component]
fn Slider(
    id: &'static str,
    label: &'static str,
    low: f64,
    high: f64,
    value: RwSignal<f64>,
    said: impl Fn() -> String + Copy + Send + Sync + 'static,
) -> impl IntoView {
    view! {
        <div class="slider">
            <label class="field-label" for=id>{live(label)}" "<strong>{said}</strong></label>
            <input
                id=id
                type="range"
                min=low.to_string()
                max=high.to_string()
                step="0.5"
                aria-valuetext=said
                prop:value=move || value.get().to_string()
                on:input:target=move |event| {
                    if let Ok(to) = event.target().value().parse::<f64>() {
                        value.set(to.clamp(low, high));
                    }
                }
            />
        </div>
    }
}

/// What the size of a pail does to its pot life, in a sentence.
fn sizes(reader: Reader, product: &Product, at: ThermodynamicTemperature) -> impl IntoView + use<> {
    let said = say::sizes(reader, product, at);
    view! { <p id="sandbox-sizes">{said}</p> }
}

fn pictures(reader: Reader, product: &Product, at_c: f64, liters: f64) -> Option<AnyView> {
    let at = celsius(at_c);
    let volume = Volume::new::<unit::liter>(liters);
    let mass = volume * product.ratio().density();
    let pail = product.pail(mass, &Generic::FiveGallon.vessel(), at, at).ok()?;
    let life = pail.pot_life().ok()?;
    let said = reader.time(life);
    let span = say::span(reader, life, product.pot_life_at_longest(&pail, life));
    let now =
        Dot { temperature: at, time: life, label: tr_with(key::HEAT_NOW, &[("time", &said)]) };
    let title = tr_with(
        key::HEAT_POT_LIFE_PICTURE,
        &[
            ("time", &said),
            ("volume", &reader.volume_about(volume)),
            ("temperature", &reader.temperature(at)),
        ],
    );
    let curve = pot_life(reader, product, &[now], title)?;
    let gels = product.gel().and_then(|gel| pail.time_to(gel).ok());
    let moments = [(Some(life), key::SANDBOX_USABLE), (gels, key::HEAT_GELS)];
    let (heat, hot) = heat_curve(reader, &pail, product.can_pass(&pail, mass).ok()?, at, &moments)?;
    let mut steps = product.explain_heat(&pail, mass).ok()?;
    steps.push(Step::pot_life(mass, at, at, life));
    let rule = product.rule_of_thumb(at).map(|rule| {
        let said = tr_with(key::SANDBOX_RULE, &[("rule", &reader.time(rule))]);
        view! { <p id="sandbox-rule">{said}</p> }
    });
    Some(
        view! {
            <p class="headline-covers" id="sandbox-life">
                {tr_with(key::SANDBOX_LASTS, &[("time", &span)])}
            </p>
            {sizes(reader, product, at)}
            {rule}
            {curve}
            {heat}
            <p class="caution">{hot}</p>
            {how(reader, None, &steps)}
        }
        .into_any(),
    )
}
