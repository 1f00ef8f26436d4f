//! The split: the pail with its marks, and the pours as numbered steps.

use leptos::prelude::*;
use pailwise_calc::measure::MeasuredPour;
use pailwise_calc::quantity::{Volume, unit};
use pailwise_calc::ratio::Ingredient;
use pailwise_calc::record::ProductRecord;

use crate::desk::desk;
use crate::mix::find::Good;
use crate::mix::say;
use crate::mix::state::Way;
use crate::parts::choice::Choice;
use crate::parts::pail::{Fill, Layer, pail};
use crate::show::Reader;
use crate::text::{key, live, tr, tr_with};

/// The split as this crew measures.
pub(super) fn split(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let mix = desk().mix;
    let way = mix.with_untracked(|mix| mix.way);
    let pours = &good.batch.measured.pours;
    let steps = pours.iter().enumerate().map(|(i, pour)| {
        let first = i == 0;
        view! { <li>{step(reader, &good.product, way, pour, first)}</li> }
    });
    let mixing = tr_with(key::STEP_MIX, &[("time", &reader.time(good.job.product.mixing()))]);
    let stand = (good.job.product.induction().value > 0.0).then(|| {
        let time = reader.time(good.job.product.induction());
        view! { <li>{tr_with(key::STEP_STAND, &[("time", &time)])}</li> }
    });
    let off_by = good.batch.measured.off_by;
    let off = (off_by.abs() >= 0.0005).then(|| {
        let share = reader.share(off_by.abs());
        let text = if off_by > 0.0 { key::SPLIT_OFF_OVER } else { key::SPLIT_OFF_UNDER };
        let tolerance = reader.share(good.job.product.tolerance());
        view! { <p class="small">{tr_with(text, &[("share", &share), ("tolerance", &tolerance)])}</p> }
    });
    view! {
        <section class="card">
            <h2>{live(key::SPLIT)}</h2>
            <WayChoice />
            <div class="split">
                {picture(reader, good)}
                <ol class="steps">
                    {steps.collect_view()}
                    <li>{mixing}</li>
                    {stand}
                </ol>
            </div>
            {off}
            <p class="caution">{live(key::CAUTION_MIXING)}</p>
        </section>
    }
}

/// How the crew measures.
#[component]
pub(super) fn WayChoice() -> impl IntoView {
    let mix = desk().mix;
    view! {
        <Choice
            name="way"
            label=key::SPLIT_WAY
            options=vec![
                (Way::Jug, key::WAY_JUG),
                (Way::Stick, key::WAY_STICK),
                (Way::Scale, key::WAY_SCALE),
            ]
            chosen=Signal::derive(move || mix.with(|mix| mix.way))
            choose=move |way| mix.update(|mix| mix.way = way)
        />
    }
}

/// One pour, as something to do.
fn step(
    reader: Reader,
    product: &ProductRecord,
    way: Way,
    pour: &MeasuredPour,
    first: bool,
) -> AnyView {
    let amount = reader.volume(pour.pour.volume);
    let reading = reading(reader, pour);
    let what = say::ingredient(reader, product, pour.pour.what);
    let text = match (pour.pour.what, way) {
        (Ingredient::Additive(_), Way::Scale) => key::STEP_ADDITIVE_SCALE,
        (Ingredient::Additive(_), _) => key::STEP_ADDITIVE,
        (_, Way::Jug) => key::STEP_JUG,
        (_, Way::Stick) => key::STEP_STICK,
        (_, Way::Scale) if first => key::STEP_SCALE_FIRST,
        (_, Way::Scale) => key::STEP_SCALE,
    };
    let mass = reader.mass(pour.pour.mass);
    let text = tr_with(text, &[("what", &what), ("amount", &amount), ("mass", &mass)]);
    let big = match (pour.pour.what, way) {
        (Ingredient::Additive(_), Way::Jug | Way::Stick) | (_, Way::Jug) => amount,
        _ => reading,
    };
    view! {
        <span class="step-figure">{big}</span>
        <span class="step-text">{text}</span>
    }
    .into_any()
}

fn reading(reader: Reader, pour: &MeasuredPour) -> String {
    reader.reading(pour.reading)
}

/// The pail, to scale, filled pour by pour.
fn picture(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let vessel = good.job.gear.vessel;
    let mut poured = Volume::default();
    let mut layers = Vec::new();
    for pour in &good.batch.measured.pours {
        let bottom = vessel.height_of(poured);
        poured += pour.pour.volume;
        let (Ok(bottom), Ok(top)) = (bottom, vessel.height_of(poured)) else { continue };
        let (fill, letter) = match pour.pour.what {
            Ingredient::Component(i) => {
                let label = good.product.name_of(pour.pour.what).to_owned();
                (if i == 0 { Fill::Hatched } else { Fill::Dotted }, label)
            }
            Ingredient::Additive(_) => (Fill::Solid, "+".to_owned()),
        };
        layers.push(Layer {
            fill,
            letter,
            bottom: bottom.get::<unit::millimeter>(),
            top: top.get::<unit::millimeter>(),
            reading: reading(reader, pour),
        });
    }
    let description = layers
        .iter()
        .map(|layer| format!("{}: {}", layer.letter, layer.reading))
        .collect::<Vec<_>>()
        .join(", ");
    let title = format!("{} {description}", tr(key::PAIL_PICTURE));
    pail(&vessel, &layers, title)
}
