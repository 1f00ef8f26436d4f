//! A question on one line, which opens to be answered.

use leptos::prelude::*;

use super::later::in_turn;
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
    let body = if open { children() } else { in_turn(children).into_any() };
    view! {
        <details class="question" open=open>
            <summary>
                <span class="question-label">{live(label)}</span>
                <span class="question-now">{now}</span>
            </summary>
            <div class="question-body">{body}</div>
        </details>
    }
}
