//! Yes or no.

use leptos::prelude::*;

use crate::text::live;

/// A labelled check box the size of a thumb.
#[component]
pub(crate) fn Toggle(
    /// Text of its label.
    label: &'static str,
    /// Whether it is on.
    #[prop(into)]
    on: Signal<bool>,
    /// Called with what it becomes.
    set: impl Fn(bool) + 'static,
) -> impl IntoView {
    view! {
        <label class="toggle">
            <input
                type="checkbox"
                prop:checked=move || on.get()
                on:change:target=move |event| set(event.target().checked())
            />
            <span>{live(label)}</span>
        </label>
    }
}
