//! The four questions: which product, how warm, how much floor is left, who is here.

use leptos::prelude::*;
use pailwise_calc::record::Role;
use pailwise_calc::vessel::Generic;

use super::say;
use super::state::Ask;
use crate::desk::desk;
use crate::parts::choice::Choice;
use crate::parts::field::Field;
use crate::parts::toggle::Toggle;
use crate::text::{key, live, tr, tr_with};

/// All of them, each a line that opens.
#[component]
pub(super) fn Questions() -> impl IntoView {
    let desk = desk();
    let product = Memo::new(move |_| desk.product());
    let role = move || product.with(|p| p.as_ref().map_or(Role::Other, |p| p.role));
    let flaked = move || product.with(|p| p.as_ref().is_some_and(|p| p.flaked));
    let shown = move |ask: Ask| {
        let (_, kind) = ask.field();
        let units = desk.settings.with(|s| s.units);
        let text = desk.mix.with(|mix| mix.entry(ask)).shown(kind, units);
        tr_with(kind.unit(units), &[("n", text.trim())])
    };
    let warm = move || {
        tr_with(
            key::NOW_WARM,
            &[
                ("slab", &shown(Ask::Slab)),
                ("air", &shown(Ask::Air)),
                ("material", &shown(Ask::Material)),
            ],
        )
    };
    let floor = move || {
        if role() == Role::Filler {
            let figures = [
                ("length", &*shown(Ask::CrackLength)),
                ("width", &*shown(Ask::CrackWidth)),
                ("depth", &*shown(Ask::CrackDepth)),
            ];
            return tr_with(key::NOW_CRACK, &figures);
        }
        tr_with(key::NOW_FLOOR, &[("area", &shown(Ask::Area)), ("width", &shown(Ask::Width))])
    };
    let crew = move || {
        let mixer = desk.mix.with(|mix| mix.mixer);
        let figures = [("rollers", shown(Ask::Rollers)), ("flakers", shown(Ask::Flakers))];
        let [rollers, flakers] = figures.each_ref().map(|(name, text)| (*name, text.as_str()));
        let mut line = if flaked() {
            tr_with(key::NOW_CREW_FLAKED, &[rollers, flakers])
        } else if role() == Role::Filler {
            tr_with(key::NOW_CREW_FILLING, &[rollers])
        } else {
            tr_with(key::NOW_CREW, &[rollers])
        };
        if mixer {
            line.push_str(&tr(key::NOW_CREW_MIXER));
        }
        line
    };
    let named = move || {
        product.with(|p| match p {
            Some(p) if p.invented => tr_with(key::NOW_PRODUCT_INVENTED, &[("name", &p.name)]),
            Some(p) => p.name.clone(),
            None => String::new(),
        })
    };
    let fields = move |asks: &'static [Ask]| {
        let (role, flaked) = (role(), flaked());
        asks.iter()
            .filter(|ask| ask.concerns(role, flaked))
            .map(|ask| view! { <AskField ask=*ask /> })
            .collect_view()
    };
    let filler = move || role() == Role::Filler;
    view! {
        <Question label=key::QUESTION_PRODUCT now=Signal::derive(named)>
            <Shelf />
        </Question>
        <Question label=key::QUESTION_WARM now=Signal::derive(warm)>
            {move || fields(&[Ask::Slab, Ask::Air, Ask::Material])}
        </Question>
        <Question label=key::QUESTION_FLOOR now=Signal::derive(floor)>
            {move || fields(&[
                Ask::Area, Ask::Width, Ask::CrackLength, Ask::CrackWidth, Ask::CrackDepth,
                Ask::TakeUp, Ask::Loss,
            ])}
            <Show when=move || !filler()>
                <Toggle
                    label=key::ASK_ENDS_AT_JOINT
                    on=Signal::derive(move || desk.mix.with(|mix| mix.ends_at_joint))
                    set=move |on| desk.mix.update(|mix| mix.ends_at_joint = on)
                />
            </Show>
        </Question>
        <Question label=key::QUESTION_CREW now=Signal::derive(crew)>
            {move || fields(&[Ask::Rollers, Ask::Flakers])}
            <Show when=move || !filler()>
                <Toggle
                    label=key::ASK_MIXER
                    on=Signal::derive(move || desk.mix.with(|mix| mix.mixer))
                    set=move |on| desk.mix.update(|mix| mix.mixer = on)
                />
                <Toggle
                    label=key::ASK_RIBBON
                    on=Signal::derive(move || desk.mix.with(|mix| mix.ribbon))
                    set=move |on| desk.mix.update(|mix| mix.ribbon = on)
                />
            </Show>
            {move || fields(&[
                Ask::RollPace, Ask::FlakePace, Ask::CrackPace, Ask::Throw, Ask::Carry, Ask::Reserve,
            ])}
        </Question>
        <Question
            label=key::QUESTION_PAIL
            now=Signal::derive(move || {
                tr(say::vessel(desk.mix.with(|mix| mix.vessel), desk.reader().units))
            })
        >
            {move || {
                let units = desk.reader().units;
                view! {
                    <Choice
                        name="vessel"
                        label=key::QUESTION_PAIL
                        options=Generic::ALL.map(|g| (g, say::vessel(g, units))).to_vec()
                        chosen=Signal::derive(move || desk.mix.with(|mix| mix.vessel))
                        choose=move |vessel| desk.mix.update(|mix| mix.vessel = vessel)
                    />
                }
            }}
            {move || fields(&[Ask::LargestMass])}
        </Question>
    }
}

/// A question: its answer of last time, and what opens to change it.
#[component]
fn Question(
    label: &'static str,
    #[prop(into)] now: Signal<String>,
    children: Children,
) -> impl IntoView {
    view! {
        <details class="question">
            <summary>
                <span class="question-label">{live(label)}</span>
                <span class="question-now">{now}</span>
            </summary>
            <div class="question-body">{children()}</div>
        </details>
    }
}

/// The field of one input of this screen.
#[component]
fn AskField(ask: Ask) -> impl IntoView {
    let desk = desk();
    let (quantity, kind) = ask.field();
    view! {
        <Field
            id=ask.label()
            label=ask.label()
            quantity=quantity
            kind=kind
            optional=ask.optional()
            entry=Signal::derive(move || desk.mix.with(|mix| mix.entry(ask)))
            set=move |entry| desk.mix.update(|mix| {
                mix.entries.insert(ask, entry);
            })
        />
    }
}

/// The products as chips, favourites first.
#[component]
fn Shelf() -> impl IntoView {
    let desk = desk();
    let ordered = move || {
        let favourites = desk.settings.with(|s| s.favourites.clone());
        let mut shelf = desk.shelf.get();
        shelf.sort_by_key(|product| !favourites.contains(&product.id));
        shelf
    };
    let chip = move |product: pailwise_calc::record::ProductRecord| {
        let (id, name, role) = (product.id.clone(), product.name.clone(), product.role);
        let (is, star, choose) = (id.clone(), id.clone(), id.clone());
        let chosen = move || desk.mix.with(|mix| mix.product == is);
        let favourite =
            Signal::derive(move || desk.settings.with(|s| s.favourites.contains(&star)));
        let invented = product.invented;
        view! {
            <li class="shelf-item">
                <button
                    class="chip"
                    type="button"
                    aria-pressed=move || chosen().to_string()
                    on:click=move |_| desk.mix.update(|mix| mix.product.clone_from(&choose))
                >
                    <span class="chip-name">{name.clone()}</span>
                    <span class="chip-role">
                        {live(say::role(role))}
                        {move || invented.then(|| format!(" · {}", tr(key::PRODUCT_INVENTED)))}
                    </span>
                </button>
                <button
                    class="star"
                    type="button"
                    aria-pressed=move || favourite.get().to_string()
                    aria-label=move || tr_with(key::FAVOURITE, &[("name", &name)])
                    on:click=move |_| desk.settings.update(|s| turn(&mut s.favourites, &id))
                >
                    {move || if favourite.get() { "★" } else { "☆" }}
                </button>
            </li>
        }
    };
    view! { <ul class="shelf">{move || ordered().into_iter().map(chip).collect_view()}</ul> }
}

/// Puts a name into a list, or takes it out.
fn turn(names: &mut Vec<String>, name: &str) {
    match names.iter().position(|n| n == name) {
        Some(at) => {
            names.remove(at);
        }
        None => names.push(name.to_owned()),
    }
}
