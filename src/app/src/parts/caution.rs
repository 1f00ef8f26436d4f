//! A caution where the hand is: it can be put away for this floor, and is back on the next.

use leptos::prelude::*;

use crate::desk::desk;
use crate::text::{key, live, tr, tr_with};

/// A caution by its text.
#[component]
pub(crate) fn Caution(
    /// Key of the text to show, which also marks it as read.
    text: &'static str,
) -> impl IntoView {
    let desk = desk();
    let read = Memo::new(move |_| {
        desk.floor.with(|form| form.cautions_read.iter().any(|read| read == text))
    });
    let put_away = move |_| desk.floor.update(|form| form.cautions_read.push(text.to_owned()));
    let said = move || {
        let figures = [("seen", &*tr(key::CAUTION_SEEN)), ("what", &*tr(text))];
        tr_with(key::CAUTION_READ, &figures)
    };
    view! {
        <Show when=move || !read.get()>
            <div class="caution caution-away">
                <p>{live(text)}</p>
                <button
                    class="caution-read"
                    type="button"
                    aria-label=said
                    on:click=put_away
                >
                    {live(key::CAUTION_SEEN)}
                </button>
            </div>
        </Show>
    }
}
