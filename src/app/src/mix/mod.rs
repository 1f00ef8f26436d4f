//! The Mix screen: how much to mix next, how to split it, how long there is.
//!
//! Four questions, each already answered with what was true last time, and the answer, which
//! follows every tap.

mod answer;
mod questions;
pub mod slip;

use leptos::prelude::*;

use crate::parts::later::in_turn;
use crate::text::{key, live};

/// The Mix screen: questions about the job, and the next batch worked out.
#[component]
pub fn Mix() -> impl IntoView {
    // Before the questions' own fields, which are folded away.
    let answer = in_turn(|| view! { <answer::Answer /> }.into_any());
    view! {
        <div class="mix">
            <section class="questions" aria-label=live(key::MIX_QUESTIONS)>
                <questions::Questions />
            </section>
            <section class="answer" aria-label=live(key::MIX_ANSWER)>
                {answer}
            </section>
        </div>
    }
}
