//! Words: a name, a label, notes.

use leptos::prelude::*;

use crate::text::tr;

/// A field for a line of words, or for several lines.
#[component]
pub(crate) fn Words(
    /// Its name in the page.
    #[prop(into)]
    id: String,
    /// Text of its label.
    label: &'static str,
    /// Text of a line that says what it is.
    #[prop(default = None)]
    hint: Option<&'static str>,
    /// The most characters that can be typed into it.
    most: u32,
    /// It has room for several lines.
    #[prop(optional)]
    lines: bool,
    /// What stands in it.
    #[prop(into)]
    text: Signal<String>,
    /// Called with what it becomes.
    set: impl Fn(String) + Copy + 'static,
) -> impl IntoView {
    let input = if lines {
        view! {
            <textarea
                id=id.clone()
                class="words words-lines"
                rows="4"
                maxlength=most.to_string()
                prop:value=text
                on:input:target=move |event| set(event.target().value())
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                id=id.clone()
                class="words"
                type="text"
                autocomplete="off"
                maxlength=most.to_string()
                prop:value=text
                on:input:target=move |event| set(event.target().value())
            />
        }
        .into_any()
    };
    view! {
        <div class="field">
            <label class="field-label" for=id>{move || tr(label)}</label>
            {hint.map(|hint| view! { <p class="hint">{move || tr(hint)}</p> })}
            {input}
        </div>
    }
}
