//! The Mix screen: how much to mix next, how to split it, how long there is.
//!
//! Four questions, each already answered with what was true last time, and the answer, which
//! follows every tap.

mod answer;
pub mod ask;
mod find;
mod questions;
pub mod slip;
pub mod state;

use leptos::prelude::*;

use crate::text::{key, live};

/// The screen.
#[component]
pub fn Mix() -> impl IntoView {
    view! {
        <div class="mix">
            <section class="questions" aria-label=live(key::MIX_QUESTIONS)>
                <questions::Questions />
            </section>
            <section class="answer" aria-label=live(key::MIX_ANSWER)>
                <answer::Answer />
            </section>
        </div>
    }
}
