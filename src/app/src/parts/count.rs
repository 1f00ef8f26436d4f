//! So many: a number with a button to either side.

use leptos::ev::MouseEvent;
use leptos::prelude::*;
use pailwise_calc::field::Field;
use pailwise_calc::quantity::Figure;

use crate::text::{key, live, tr, tr_with};

/// A small whole number that is tapped up and down.
#[component]
pub(crate) fn Count(
    /// Text of its label.
    label: &'static str,
    /// What it is of: that says how few and how many there can be.
    quantity: Field,
    /// No more than this of it, where something else holds it back.
    #[prop(optional, into)]
    most: Option<Signal<u32>>,
    /// The number that stands for none: days and bays are counted from one.
    #[prop(default = 0)]
    counted_from: u32,
    /// How many it is.
    #[prop(into)]
    value: Signal<u32>,
    /// Called with what it becomes.
    set: impl Fn(u32) + Copy + 'static,
) -> impl IntoView {
    let range = move || {
        let count = |figure| if let Figure::Count(count) = figure { count } else { 0 };
        let (low, high) = quantity.range();
        let (low, high) = (count(low), count(high));
        (low, most.map_or(high, |most| most.get().min(high)).max(low))
    };
    let less =
        move |_: MouseEvent| set(value.get_untracked().saturating_sub(1).max(untrack(range).0));
    let more = move |_: MouseEvent| set((value.get_untracked() + 1).min(untrack(range).1));
    let fewest = move || value.get() <= range().0;
    let most_of_it = move || value.get() >= range().1;
    let said = move |text: &'static str| tr_with(text, &[("what", &tr(label))]);
    view! {
        <div class="pick count">
            <span class="field-label">{live(label)}</span>
            <button class="field-step" type="button" aria-label=move || said(key::FIELD_LESS)
                disabled=fewest on:click=less>
                "−"
            </button>
            <strong aria-live="polite">{move || value.get() + counted_from}</strong>
            <button class="field-step" type="button" aria-label=move || said(key::FIELD_MORE)
                disabled=most_of_it on:click=more>
                "+"
            </button>
        </div>
    }
}
