//! The field that a list is searched by.

use leptos::prelude::*;

use crate::text::live;

/// A field for words that are sought in a list.
#[component]
pub(crate) fn Search(
    /// Its name in the page.
    id: &'static str,
    /// Text that says what is sought.
    label: &'static str,
    /// What was typed into it.
    words: RwSignal<String>,
) -> impl IntoView {
    view! {
        <input
            id=id
            class="words"
            type="search"
            aria-label=live(label)
            placeholder=live(label)
            prop:value=words
            on:input:target=move |event| words.set(event.target().value())
        />
    }
}
