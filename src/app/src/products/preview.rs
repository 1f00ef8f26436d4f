//! What a product would do: its pot life, a split, and when the next coat may go on tonight.

use leptos::prelude::*;
use pailwise_calc::after::{SheetTimes, Window};
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::quantity::{Volume, celsius, unit};
use pailwise_kept::answers::product::Good;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::say;
use pailwise_kept::show::Reader;
use pailwise_kept::units::Units;

use crate::parts::pot_life::{Dot, pot_life};
use crate::parts::printed::Printed;
use crate::parts::working::how;
use crate::text::{key, live, tr_with};

/// Tonight's temperature, as long as the form is open: in its context.
#[derive(Clone, Copy)]
pub(super) struct Tonight(pub(super) RwSignal<Entry>);

impl Tonight {
    /// A usual one (common practice, no source).
    pub(super) fn first(units: Units) -> Self {
        let text = if units == Units::Us { "60" } else { "15" };
        Self(RwSignal::new(Entry::as_typed(text, units)))
    }
}

/// Gives a product's pot life curve, a sample split and its times for tonight.
pub(super) fn preview(reader: Reader, good: &Good) -> AnyView {
    view! {
        {curve(reader, good)}
        {split(reader, good)}
        {after(reader, good)}
    }
    .into_any()
}

/// The curves, with the sheet's own points on them.
fn curve(reader: Reader, good: &Good) -> Option<AnyView> {
    let marks: Vec<Dot> = good
        .product
        .pot_life()
        .iter()
        .map(|point| Dot {
            temperature: point.temperature,
            time: point.time,
            label: tr_with(key::PREVIEW_POINT, &[("mass", &reader.mass(point.mass))]),
        })
        .collect();
    let title = tr_with(key::PREVIEW_CURVE_PICTURE, &[("name", &good.record.name)]);
    let picture = pot_life(reader, &good.product, &marks, title)?;
    Some(
        view! {
            <section class="card" id="preview-curve">
                <h2>{live(key::HEAT_POT_LIFE)}</h2>
                {picture}
                <p id="preview-sizes">{say::sizes(reader, &good.product, celsius(24.0))}</p>
                {how(reader, Some(&good.record), &good.product.explain_pot_life())}
            </section>
        }
        .into_any(),
    )
}

/// One gallon, or four litres, split.
fn split(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let us = reader.units == Units::Us;
    let whole = if us { Volume::new::<unit::gallon>(1.0) } else { Volume::new::<unit::liter>(4.0) };
    let rows = good.product.ratio().split(whole).into_iter().map(|pour| {
        let volume = if us {
            let ounces = format!("{:.1}", pour.volume.get::<unit::fluid_ounce>());
            tr_with(key::UNIT_FL_OZ, &[("n", &ounces)])
        } else {
            reader.volume(pour.volume)
        };
        view! {
            <tr>
                <th scope="row">{say::ingredient(reader, &good.record, pour.what)}</th>
                <td>{volume}</td>
                <td>{reader.mass(pour.mass)}</td>
            </tr>
        }
    });
    let title = tr_with(key::PREVIEW_SPLIT, &[("volume", &reader.volume(whole))]);
    view! {
        <section class="card" id="preview-split">
            <h2>{title}</h2>
            <table class="split-table">
                <thead>
                    <tr>
                        <td></td>
                        <th scope="col">{live(key::PREVIEW_BY_VOLUME)}</th>
                        <th scope="col">{live(key::PREVIEW_BY_MASS)}</th>
                    </tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
            {how(reader, Some(&good.record), &good.product.explain_split(whole))}
        </section>
    }
}

/// Recoat, light use and vehicles with the slab at tonight's temperature.
fn after(reader: Reader, good: &Good) -> Option<AnyView> {
    let after = good.product.after().clone();
    let recoat = after.clone();
    let times = [
        (key::ROW_RECOAT_OPENS, after.recoat_opens),
        (key::ROW_RECOAT_CLOSES, after.recoat_closes),
        (key::ROW_LIGHT_USE, after.light_use),
        (key::ROW_VEHICLES, after.vehicles),
        (key::ROW_FULL_CURE, after.full_cure),
    ];
    if times.iter().all(|(_, times)| times.is_none()) {
        return None;
    }
    let Tonight(entry) = use_context::<Tonight>()?;
    let lines = move || {
        let at = entry.with(|e| e.value(Kind::Temperature, Quantity::AfterTemperature)).ok();
        let line = |label: &'static str, sheet: &SheetTimes| {
            let (said, steps) = match at.map(celsius) {
                None => ("–".to_owned(), Vec::new()),
                Some(at) if label == key::ROW_RECOAT_CLOSES => {
                    (reader.hours(sheet.over(at)), sheet.explain_over(at))
                }
                Some(at) => (reader.hours_up(sheet.ready(at)), sheet.explain_ready(at)),
            };
            view! {
                <tr><th scope="row">{live(label)}</th><td>{said}</td></tr>
                <tr><td colspan="2">{how(reader, None, &steps)}</td></tr>
            }
        };
        times
            .iter()
            .filter_map(|(label, sheet)| sheet.as_ref().map(|sheet| line(label, sheet)))
            .collect_view()
    };
    let shut = move || {
        let at = entry.with(|e| e.value(Kind::Temperature, Quantity::AfterTemperature)).ok();
        let window = at.and_then(|at| recoat.recoat(celsius(at)));
        window.as_ref().is_some_and(Window::shut)
    };
    Some(
        view! {
            <section class="card" id="preview-after">
                <h2>{live(key::PREVIEW_AFTER)}</h2>
                <Printed
                    id="preview-tonight"
                    label=key::PREVIEW_TONIGHT
                    hint=Some(key::PREVIEW_TONIGHT_HINT)
                    quantity=Quantity::AfterTemperature
                    kind=Kind::Temperature
                    optional=false
                    entry=entry
                    set=move |new| entry.set(new)
                />
                {move || shut().then(|| view! {
                    <p class="caution" role="alert">{live(key::PREVIEW_SHUT)}</p>
                })}
                <table class="split-table"><tbody>{lines}</tbody></table>
            </section>
        }
        .into_any(),
    )
}
