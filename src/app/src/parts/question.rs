//! A question on one line, which opens to be answered.

use leptos::prelude::*;

use super::later::soon;
use crate::text::live;

/// A question: its answer of last time, and what opens to change it.
#[component]
pub(crate) fn Question(
    /// Text of its label.
    label: &'static str,
    /// Its answer of last time.
    #[prop(into)]
    now: Signal<String>,
    /// It stands open at first.
    #[prop(optional)]
    open: bool,
    children: Children,
) -> impl IntoView {
    // What is folded away is built once the answer is on the screen.
    let built = RwSignal::new(open);
    let inside = StoredValue::new_local(Some(children));
    let body = move || {
        let children = built.get().then(|| inside.try_update_value(Option::take).flatten());
        children.flatten().map(|children| children())
    };
    if !open {
        soon(move || {
            // The screen may be gone by then.
            let _ = built.try_set(true);
        });
    }
    view! {
        <details class="question" open=open>
            <summary>
                <span class="question-label">{live(label)}</span>
                <span class="question-now">{now}</span>
            </summary>
            <div class="question-body" aria-busy=move || (!built.get()).then_some("true")>{body}</div>
        </details>
    }
}
