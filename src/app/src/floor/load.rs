//! What to buy and load: kits of each product, what is stirred in, flake, and a list to tick off.

use leptos::prelude::*;
use pailwise_calc::order::{Line, Rule};
use pailwise_calc::quantity::{Mass, Volume, unit};
use pailwise_calc::record::ProductRecord;
use pailwise_calc::working::Sentence;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::floor::{FloorFormRecord, Single};
use pailwise_kept::records::load::CoverPick;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use super::checklist::Checklist;
use super::coats::refusal;
use super::fields::{SingleField, alter, form};
use super::flake;
use crate::desk::{Desk, desk};
use crate::parts::caution::Caution;
use crate::parts::choice::Choice;
use crate::parts::question::Question;
use crate::parts::working::{figure, how};
use crate::text::{key, language, live, tr, tr_with};

/// One product with every coat of it together.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Order {
    pub(super) record: ProductRecord,
    /// The first coat of it, whose field says what is here.
    pub(super) coat: usize,
    pub(super) line: Line,
    /// Half kits that are missing, with the size of the kit, where it was said what is here.
    pub(super) short: Option<(u32, Volume)>,
}

/// What the floor takes of each product, in the order of the coats.
pub(super) fn orders(reader: Reader, spare: f64, good: &Good) -> Vec<Order> {
    let mut orders: Vec<Order> = Vec::new();
    for (i, record) in good.products.iter().enumerate() {
        if orders.iter().any(|order| order.record.id == record.id) {
            continue;
        }
        let of_it = || {
            let all = good.products.iter().zip(good.floor.coats.iter().zip(&good.plans));
            all.filter(|(other, _)| other.id == record.id).map(|(_, coat)| coat)
        };
        let needed: Volume = of_it().map(|(_, plan)| plan.needed).sum();
        let here = of_it().filter_map(|(_, plan)| plan.left).reduce(|a, b| a + b);
        let Some((coat, _)) = of_it().next() else { continue };
        let rule = Rule { spare, step: reader.stock_step(needed) };
        let line = Line::new(&coat.product, needed, here, &rule);
        let kit = coat.product.kits().first();
        let short = kit
            .filter(|_| here.is_some())
            .map(|each| (line.half_kits_short(&coat.product, *each), *each));
        let short = short.filter(|(halves, _)| *halves > 0);
        orders.push(Order { record: record.clone(), coat: i, line, short });
    }
    orders
}

/// Whether anything that was said to be here is too little.
pub(super) fn falls_short(found: &Found) -> bool {
    match found {
        Found::Plans(good) => {
            let short =
                |order: &Order| order.line.here.is_some() && order.line.short > Volume::default();
            orders(desk().reader(), 0.0, good).iter().any(short)
        }
        _ => false,
    }
}

/// Floor tab with what to buy and load for each product, and a checklist.
#[component]
pub(super) fn Load(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let form = form();
    // The fields of what is here stand outside the answer, which every key changes.
    let products = Memo::new(move |_| form.with(first_coats));
    let here = move || {
        let fields =
            products.get().into_iter().map(|(coat, id)| view! { <OnSite coat=coat id=id /> });
        fields.collect_view()
    };
    let flaked = Memo::new(move |_| {
        let flaked = |id: &str| desk.product_of(id).is_some_and(|product| product.flaked);
        form.with(|form| form.coats.iter().any(|coat| flaked(&coat.product)))
    });
    let answer = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => answer(reader, desk, good).into_any(),
            other => refusal(reader, other).into_any(),
        })
    };
    view! {
        <section class="questions" aria-label=live(key::SIDE_LOAD)>
            <Question label=key::QUESTION_HERE now=Signal::derive(move || here_said(desk))>
                <p class="small">{live(key::HERE_HINT)}</p>
                {here}
            </Question>
            <Question label=key::QUESTION_SPARE now=Signal::derive(move || spare_said(desk))>
                <SingleField single=Single::Spare />
                <p class="small">{live(key::SPARE_HINT)}</p>
            </Question>
            <Show when=move || flaked.get()>
                {flake_question(form)}
            </Show>
        </section>
        <section class="answer" aria-label=live(key::FLOOR_ANSWER)>
            {answer}
            <Checklist found=found />
            <Caution text=key::CAUTION_SKIN />
        </section>
    }
}

/// The first coat of each product of a floor, with the id of that product.
fn first_coats(form: &FloorFormRecord) -> Vec<(usize, String)> {
    let first = |at: usize| {
        let id = &form.coats.get(at)?.product;
        let before = form.coats.iter().take(at).any(|coat| coat.product == *id);
        (!before).then(|| (at, id.clone()))
    };
    (0..form.coats.len()).filter_map(first).collect()
}

/// What was said to be here, coat by coat.
fn here_said(desk: Desk) -> String {
    let units = desk.settings.with(|s| s.units);
    let said = desk.floor.with(|form| {
        let here = form.coats.iter().map(|coat| &coat.on_hand);
        let here = here.filter(|entry| !entry.text.trim().is_empty());
        here.map(|entry| entry.text_with_unit(Kind::Volume, units, language()))
            .collect::<Vec<_>>()
            .join(", ")
    });
    if said.is_empty() { tr(key::NOT_SAID) } else { said }
}

/// What is to be spare, as it was typed or as it is at first.
fn spare_said(desk: Desk) -> String {
    let units = desk.settings.with(|s| s.units);
    let first = Single::Spare.first(units);
    desk.floor.with(|form| {
        form.entry(0, Single::Spare).unwrap_or(&first).text_with_unit(
            Kind::Percent,
            units,
            language(),
        )
    })
}

/// The question how thickly flake is thrown, and how much of it is here.
fn flake_question(form: RwSignal<FloorFormRecord>) -> impl IntoView {
    let cover = Signal::derive(move || form.with(|form| form.load.cover));
    let cover_said = move || tr(cover.get().name());
    view! {
        <Question label=key::QUESTION_FLAKE now=Signal::derive(cover_said)>
            <Choice
                name="flake-cover"
                label=key::QUESTION_FLAKE
                options=CoverPick::ALL.map(|cover| (cover, cover.name())).to_vec()
                chosen=cover
                choose=move |cover| form.update(|form| form.load.cover = cover)
            />
            <Show when=move || cover.get() == CoverPick::Sheet>
                <SingleField single=Single::FlakeCover />
            </Show>
            <SingleField single=Single::FlakeBox />
            <SingleField single=Single::FlakeHere />
        </Question>
    }
}

/// How much of a product is here: a field, and half kits by a tap.
#[component]
fn OnSite(coat: usize, id: String) -> impl IntoView {
    let desk = desk();
    let product = desk.product_of(&id);
    let name = product.as_ref().map_or_else(String::new, |product| product.name.clone());
    let half = product.and_then(|record| {
        let product = pailwise_calc::product::Product::try_from(&record).ok()?;
        let each = *product.kits().first()?;
        let half = each * 0.5 / product.ratio().parts_share();
        Some(half.get::<unit::liter>())
    });
    let add = move |halves: f64| {
        let units = desk.settings.with_untracked(|s| s.units);
        alter(coat, |coat| {
            let Some(half) = half else { return };
            let measure = Single::OnHand.measure();
            let now = coat.on_hand.value(measure.kind, measure.field).unwrap_or(0.0);
            // To whole halves, from wherever it stands.
            let count = ((now / half + halves) * 100.0).round() / 100.0;
            let whole = if halves > 0.0 { (count + 1e-6).floor() } else { (count - 1e-6).ceil() };
            coat.on_hand = Entry::from_value(Kind::Volume, whole.max(0.0) * half, units);
        });
    };
    view! {
        <fieldset class="thing here">
            <legend>{name}</legend>
            <SingleField single=Single::OnHand coat=coat />
            {half.map(|_| view! {
                <div class="deeds">
                    <button class="button" type="button" on:click=move |_| add(-1.0)>
                        {live(key::HERE_HALF_LESS)}
                    </button>
                    <button class="button" type="button" on:click=move |_| add(1.0)>
                        {live(key::HERE_HALF_MORE)}
                    </button>
                </div>
            })}
        </fieldset>
    }
}

fn answer(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    // What is typed and cannot be is told at its field.
    let spare = desk.floor.with(|form| form.value(Single::Spare, reader.units));
    let spare = spare.ok().flatten().unwrap_or(0.0) / 100.0;
    let orders = orders(reader, spare, good);
    let stops = good.plans.iter().any(|plan| plan.stopped.is_some());
    let cards: Vec<_> = orders.iter().map(|order| one(reader, order)).collect();
    let costs: Vec<(String, f64)> = orders.iter().filter_map(cost).collect();
    let mut currencies: Vec<String> = costs.iter().map(|(currency, _)| currency.clone()).collect();
    currencies.sort();
    currencies.dedup();
    let totals = currencies.into_iter().map(|currency| {
        let sum = costs.iter().filter(|(other, _)| *other == currency).map(|(_, cost)| cost).sum();
        tr_with(key::LOAD_COST, &[("cost", &reader.money(sum, &currency))])
    });
    let totals = totals.collect::<Vec<_>>();
    let unpriced = (!totals.is_empty() && costs.len() < orders.len())
        .then(|| view! { <p class="small">{live(key::LOAD_COST_PART)}</p> });
    view! {
        {stops.then(|| view! { <p class="caution">{live(key::LOAD_STOPS)}</p> })}
        {cards}
        {flake::card(reader, desk, good)}
        {totals.into_iter().map(|total| view! {
            <p class="headline headline-covers">{total}</p>
        }).collect_view()}
        {unpriced}
    }
}

/// What an order costs, with its currency; nothing where a kit is not priced.
fn cost(order: &Order) -> Option<(String, f64)> {
    let cost = order.line.kits.as_ref()?.cost?;
    Some((order.record.currency.clone().unwrap_or_default(), cost))
}

/// So many half kits as people say it: "½", "1", "1½".
fn in_kits(halves: u32) -> String {
    match (halves / 2, halves % 2) {
        (0, 1) => "½".to_owned(),
        (whole, 1) => format!("{whole}½"),
        (whole, _) => whole.to_string(),
    }
}

/// What is short of what is needed, where it was said what is here.
fn short_said(reader: Reader, order: &Order) -> Option<String> {
    let line = &order.line;
    (line.here.is_some() && line.short > Volume::default()).then(|| {
        let volume = reader.stock(line.short);
        match order.short {
            Some((halves, each)) => tr_with(
                key::LOAD_SHORT_KITS,
                &[("kits", &in_kits(halves)), ("each", &reader.stock(each)), ("volume", &volume)],
            ),
            None => tr_with(key::LOAD_SHORT, &[("volume", &volume)]),
        }
    })
}

/// How many kits of which size to buy; nothing where none is to be bought.
fn kits_said(reader: Reader, order: &Order) -> Option<String> {
    let kits = order.line.kits.as_ref();
    let pick = kits.filter(|pick| pick.counts.iter().any(|n| *n > 0))?;
    let each = order.record.kits.iter().zip(&pick.counts).filter(|(_, n)| **n > 0);
    let said: Vec<String> = each
        .map(|(kit, n)| {
            let size = match (kit.volume_l, kit.mass_kg) {
                (Some(l), _) => reader.stock(Volume::new::<unit::liter>(l)),
                (_, Some(kg)) => reader.mass(Mass::new::<unit::kilogram>(kg)),
                _ => String::new(),
            };
            tr_with(key::LOAD_KITS, &[("n", &n.to_string()), ("size", &size)])
        })
        .collect();
    Some(tr_with(key::LOAD_BUY, &[("kits", &said.join(" + "))]))
}

fn one(reader: Reader, order: &Order) -> impl IntoView + use<> {
    let line = &order.line;
    let needs = figure(reader.stock(line.needed), Sentence::OrderNeeds);
    let needs = view! { {live(key::LOAD_NEEDS)}" "{needs} };
    let short = short_said(reader, order)
        .map(|text| view! { <p class="load-short" role="alert">{text}</p> });
    let enough = line.here.is_some() && line.missing == Volume::default();
    let enough = enough.then(|| view! { <p class="load-enough">{live(key::LOAD_ENOUGH)}</p> });
    let kits = kits_said(reader, order).map(|said| {
        view! { <p class="load-buy"><strong>{figure(said, Sentence::OrderKits)}</strong></p> }
    });
    let in_parts = (line.kits.is_none() && line.missing > Volume::default()).then(|| {
        let parts = line.parts.iter().map(|pour| {
            let what = say::ingredient(reader, &order.record, pour.what);
            format!("{what}: {}", reader.volume_needed(pour.volume))
        });
        view! { <p class="load-buy"><strong>{parts.collect::<Vec<_>>().join(", ")}</strong></p> }
    });
    let left = (line.left > Volume::default()).then(|| {
        let here = line.here.is_some();
        let step = if here { Sentence::OrderLeftHere } else { Sentence::OrderLeft };
        let left = figure(reader.stock(line.left), step);
        view! { <p class="small">{live(key::LOAD_LEFT)}" "{left}</p> }
    });
    let additives = line.additives.iter().filter(|pour| pour.volume > Volume::default());
    let additives = additives.map(|pour| {
        let what = say::ingredient(reader, &order.record, pour.what);
        let text =
            format!("{what}: {} ({})", reader.volume_needed(pour.volume), reader.mass(pour.mass));
        view! { <p>{text}</p> }
    });
    let additives = additives.collect_view();
    let cost = cost(order).map(|(currency, cost)| {
        view! { <p class="small">{reader.money(cost, &currency)}</p> }
    });
    view! {
        <section class="card load" data-product=order.record.id.clone()>
            <h2>{order.record.name.clone()}</h2>
            {short}
            {enough}
            <p>{needs}</p>
            {kits}
            {in_parts}
            {additives}
            {left}
            {cost}
            {how(reader, Some(&order.record), &line.working)}
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Language;
    use pailwise_kept::units::Units;

    #[test]
    fn halves_are_said_as_people_say_them() {
        assert_eq!([1, 2, 3, 4].map(in_kits), ["½", "1", "1½", "2"]);
    }

    /// What is needed, bought and left, as it is written, in either system of units.
    #[test]
    fn an_order_adds_up_as_it_is_written() {
        let base = pailwise_calc::demo::base().unwrap();
        let number = |text: String| -> f64 {
            let number: String = text.chars().filter(|c| c.is_ascii_digit() || *c == '.').collect();
            (number.parse::<f64>().unwrap() * 100.0).round()
        };
        for units in Units::ALL {
            let reader = Reader { language: Language::En, units };
            let unit = reader.stock_step(Volume::new::<unit::liter>(100.0)) * 10.0;
            for i in 1..400 {
                let needed = unit * (0.037 * f64::from(i * i).sqrt() * 1.7);
                let here = unit * (f64::from(i % 9) * 0.25);
                let rule = Rule { spare: f64::from(i % 3) * 0.05, step: reader.stock_step(needed) };
                let line = Line::new(&base, needed, Some(here), &rule);
                let bought = line.kits.as_ref().unwrap().parts;
                let said = |volume| number(reader.stock(volume));
                // A kit of gallons in litres has more digits than are shown.
                let slack = if units == Units::Us { 0.0 } else { 2.0 };
                let left = said(here) + said(bought) - said(line.needed);
                assert!((said(line.left) - left).abs() <= slack, "{line:?}");
                let short = (said(line.needed) - said(here)).max(0.0);
                assert_eq!(said(line.short), short, "{line:?}");
            }
        }
    }
}
