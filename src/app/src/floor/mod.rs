//! The Floor screen: the floor as measured, its coats, and the plan of each from the back wall to
//! the door.

mod answer;
mod find;
pub mod form;
mod handed;
mod questions;

use leptos::prelude::*;

pub(crate) use handed::{batch_down, describe, record, take};

use crate::place::Spot;
use crate::text::{key, live};

/// The screen.
#[component]
pub fn Floor() -> impl IntoView {
    view! {
        <div class="mix">
            <section class="questions" aria-label=live(key::FLOOR_QUESTIONS)>
                <questions::Questions />
                <a class="button button-link" href=Spot::ShareFloor.fragment()>
                    {live(key::SHARE_FLOOR)}
                </a>
            </section>
            <section class="answer" aria-label=live(key::FLOOR_ANSWER)>
                <answer::Answer />
            </section>
        </div>
    }
}
