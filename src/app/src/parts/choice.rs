//! One of a few, side by side.

use leptos::prelude::*;

use crate::text::live;

/// A group of options of which one is chosen.
#[component]
pub(crate) fn Choice<T>(
    /// Name of the group, once on a page.
    #[prop(into)]
    name: Signal<String>,
    /// Text of its label, for a screen reader.
    label: &'static str,
    /// The options, each with the text of its label.
    options: Vec<(T, &'static str)>,
    /// The option that is chosen now, shown as selected.
    #[prop(into)]
    chosen: Signal<T>,
    /// Called with the one tapped.
    choose: impl Fn(T) + Copy + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let options = options.into_iter().map(|(option, text)| {
        view! {
            <label class="choice-option">
                <input
                    type="radio"
                    name=move || name.get()
                    prop:checked=move || chosen.get() == option
                    on:change=move |_| choose(option)
                />
                <span>{live(text)}</span>
            </label>
        }
    });
    view! {
        <fieldset class="choice">
            <legend class="unseen">{live(label)}</legend>
            {options.collect_view()}
        </fieldset>
    }
}
