//! The split: the pail with its marks, and the pours as numbered steps.

use leptos::prelude::*;
use pailwise_calc::measure::MeasuredPour;
use pailwise_calc::measure::steps::{JugMark, Mark, ScaleMark, StickMark};
use pailwise_calc::quantity::{Figure, Volume, unit};
use pailwise_calc::ratio::{Ingredient, Pour};
use pailwise_calc::record::{ProductRecord, Role};
use pailwise_calc::sheet::off_balance;
use pailwise_calc::vessel::Vessel;
use pailwise_calc::working::Sentence;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::records::mix::Way;
use pailwise_kept::say;
use pailwise_kept::show::{Reader, mark_units};

use crate::desk::desk;
use crate::parts::caution::Caution;
use crate::parts::choice::Choice;
use crate::parts::pail::{Fill, Layer, pail};
use crate::parts::pick::Pick;
use crate::parts::working::figure;
use crate::text::{key, live, tr, tr_with};

/// The step in which this crew reads a batch.
pub(super) fn mark(reader: Reader, good: &Good) -> Mark {
    desk().mix.with_untracked(|mix| mix.read_in(reader.units).of(&good.batch.measured))
}

/// The split as this crew measures.
pub(super) fn split(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let mark = mark(reader, good);
    let usual = desk().mix.with_untracked(|mix| mix.read_in(reader.units).usual);
    let finer = (mark != usual).then(|| {
        let text = tr_with(key::SPLIT_FINER, &[("step", &reader.step(mark))]);
        view! { <p class="small" id="split-finer">{text}</p> }
    });
    let pours = &good.batch.measured.pours;
    let steps = pours.iter().enumerate().map(|(i, pour)| {
        // An additive stirred in apart is the last of its pail where what follows is not.
        let last_apart = pour.pour.apart && pours.get(i + 1).is_none_or(|next| !next.pour.apart);
        view! { <li>{step(reader, good, mark, pour, i == 0, last_apart)}</li> }
    });
    let mix = if good.product.role == Role::Filler { key::STEP_MIX_PASTE } else { key::STEP_MIX };
    let mixing = tr_with(mix, &[("time", &reader.time(good.job.product.mixing()))]);
    let stand = (good.job.product.induction().value > 0.0).then(|| {
        let time = reader.time(good.job.product.induction());
        view! { <li>{tr_with(key::STEP_STAND, &[("time", &time)])}</li> }
    });
    let kits = good.batch.measured.kits.is_some_and(|kits| kits.whole());
    view! {
        <section class="card">
            <h2>{live(key::SPLIT)}</h2>
            {(!kits).then(|| view! { <WayChoice /> })}
            {finer}
            <div class="split">
                {picture(reader, good, mark)}
                <ol class="steps">
                    {steps.collect_view()}
                    <li>{mixing}</li>
                    {stand}
                </ol>
            </div>
            {doubts(reader, good)}
            <Caution text=key::CAUTION_MIXING />
        </section>
    }
}

/// How the crew measures, and in what steps.
#[component]
pub(super) fn WayChoice() -> impl IntoView {
    let desk = desk();
    let mix = desk.mix;
    let now = Memo::new(move |_| mix.with(|mix| mix.marks.mark(mix.way, desk.reader().units)));
    let steps = move || {
        let (reader, now) = (desk.reader(), now.get());
        let all: Vec<Mark> = match now {
            Mark::Jug(_) => JugMark::ALL.into_iter().map(Mark::Jug).collect(),
            Mark::Stick(_) => StickMark::ALL.into_iter().map(Mark::Stick).collect(),
            Mark::Scale(_) => ScaleMark::ALL.into_iter().map(Mark::Scale).collect(),
        };
        // Steps of the person's own units first.
        let (own, other): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|mark| mark_units(*mark) == reader.units);
        let options = own.into_iter().chain(other).map(|mark| (mark, reader.step(mark)));
        view! {
            <Pick
                id="step-size"
                label=key::STEP_SIZE
                options=options.collect()
                chosen=now
                choose=move |mark| mix.update(|mix| mix.marks.choose(mark))
            />
        }
    };
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
        {steps}
    }
}

/// One pour, as something to do.
fn step(
    reader: Reader,
    good: &Good,
    mark: Mark,
    pour: &MeasuredPour,
    first: bool,
    last_apart: bool,
) -> AnyView {
    let Pour { what, apart, .. } = pour.pour;
    let amount = reader.shown_by(mark, pour.pour.volume.into());
    let mass = reader.shown_by(mark, pour.pour.mass.into());
    let name = say::ingredient(reader, &good.product, what);
    let dose = matches!(what, Ingredient::Additive(_));
    let whole = good.batch.measured.kits.filter(|kits| kits.whole() && !dose);
    let kits = whole.map_or_else(String::new, |kits| {
        let (n, each) = ((kits.halves / 2).to_string(), reader.stock(kits.each));
        tr_with(key::KIT_COUNT, &[("n", &n), ("each", &each)])
    });
    let weighed = matches!(pour.reading, Figure::Mass(_));
    let text = match (dose, mark) {
        _ if whole.is_some() => key::STEP_WHOLE_KIT,
        (true, _) if last_apart => key::STEP_ADDITIVE_APART,
        (true, _) if weighed => key::STEP_ADDITIVE_SCALE,
        (true, _) => key::STEP_ADDITIVE,
        (false, Mark::Scale(_)) if apart => key::STEP_APART_SCALE,
        (false, Mark::Scale(_)) if first => key::STEP_SCALE_FIRST,
        (false, Mark::Scale(_)) => key::STEP_SCALE,
        (false, _) if apart => key::STEP_APART,
        (false, Mark::Jug(_)) => key::STEP_JUG,
        (false, Mark::Stick(_)) => key::STEP_STICK,
    };
    let figures = [("what", &*name), ("amount", &*amount), ("mass", &*mass), ("kits", &*kits)];
    view! {
        <span class="step-figure">
            {figure(reader.shown_by(mark, pour.reading), Sentence::Poured)}
        </span>
        <span class="step-text">{tr_with(text, &figures)}</span>
    }
    .into_any()
}

/// What rounding leaves of ratio error, and whether the product's own ratio is
/// believable.
fn doubts(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let (measured, product) = (&good.batch.measured, &good.job.product);
    let tolerance = reader.share(product.tolerance());
    let off_by = measured.off_by;
    let off = (off_by.abs() >= 0.0005).then(|| {
        let share = reader.share(off_by.abs());
        let text = if off_by > 0.0 { key::SPLIT_OFF_OVER } else { key::SPLIT_OFF_UNDER };
        view! { <p class="small">{tr_with(text, &[("share", &share), ("tolerance", &tolerance)])}</p> }
    });
    let unbalanced = off_balance(product).map(|balance| {
        let balance = reader.figure(Figure::Number(balance));
        view! { <p class="caution">{tr_with(key::SPLIT_UNBALANCED, &[("balance", &balance)])}</p> }
    });
    view! { {off}{unbalanced} }
}

/// The pail, to scale, filled pour by pour.
fn picture(reader: Reader, good: &Good, mark: Mark) -> impl IntoView + use<> {
    let vessel = good.job.gear.vessel;
    let pours = good.batch.measured.pours.iter().enumerate().map(|(i, poured)| {
        let reading = reader.shown_by(mark, poured.reading);
        // An amount of its own stands beside a mark that all pours together reach.
        let more = i > 0 && matches!(poured.reading, Figure::Volume(_));
        (poured.pour, if more { format!("+ {reading}") } else { reading })
    });
    let layers = layers(&vessel, &good.product, pours);
    let description = layers.iter().map(|layer| layer.text.as_str()).collect::<Vec<_>>().join(", ");
    let title = format!("{} {description}", tr(key::PAIL_PICTURE));
    pail(&vessel, &layers, title)
}

/// Pours as layers in a pail, each with its letter and a text.
pub(super) fn layers(
    vessel: &Vessel,
    product: &ProductRecord,
    pours: impl Iterator<Item = (Pour, String)>,
) -> Vec<Layer> {
    let mut poured = Volume::default();
    let mut layers = Vec::new();
    for (pour, text) in pours {
        let bottom = vessel.height_of(poured);
        poured += pour.volume;
        // What stands over the rim is not drawn.
        let top = vessel.height_of(poured.min(vessel.capacity()));
        let (Ok(bottom), Ok(top)) = (bottom, top) else { continue };
        let (fill, text) = match pour.what {
            Ingredient::Component(i) => {
                (Fill::Part(i), format!("{} {text}", product.name_of(pour.what)))
            }
            Ingredient::Additive(_) => (Fill::Solid, text),
        };
        layers.push(Layer {
            fill,
            bottom: bottom.get::<unit::millimeter>(),
            top: top.get::<unit::millimeter>(),
            text: text.trim_end().to_owned(),
        });
    }
    layers
}
