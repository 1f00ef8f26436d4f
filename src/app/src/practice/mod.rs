//! The Practice screen: rounds made fresh from the crew's own products, each person's progress,
//! and who is ready for what.

mod ready_for;
mod round;
mod sandbox;
mod skills;

use leptos::prelude::*;
use pailwise_kept::records::progress::PracticeRecord;

use crate::desk::desk;
use crate::parts::question::Question;
use crate::parts::words::Words;
use crate::store::PRACTICE;
use crate::text::{key, live, tr, tr_with};

/// The Practice screen: a round of questions, people, their progress and a sandbox.
#[component]
pub fn Practice() -> impl IntoView {
    let desk = desk();
    // A round belongs to a person: another one gets another round.
    let who = Memo::new(move |_| desk.practice.with(|practice| practice.who));
    view! {
        <div class="mix">
            <section class="answer" aria-label=live(key::PLACE_PRACTICE)>
                {move || {
                    let _ = who.get();
                    view! { <round::Round /> }
                }}
            </section>
            <section class="questions" aria-label=live(key::PRACTICE_PEOPLE)>
                <People />
                <ready_for::ReadyFor />
                <sandbox::Sandbox />
            </section>
        </div>
    }
}

/// Characters that a name may have.
const NAME: u32 = 40;

/// Who practises on this phone.
#[component]
fn People() -> impl IntoView {
    let desk = desk();
    let practice = desk.practice;
    let now = move || practice.with(|practice| practice.name(&tr(key::PRACTICE_SOMEBODY)));
    let people = move || {
        practice.with(|practice| {
            let names = practice.people.iter().map(|person| person.name.clone());
            names.enumerate().collect::<Vec<_>>()
        })
    };
    let chip = move |(i, name): (usize, String)| {
        let chosen = move || practice.with(|practice| practice.who == i);
        view! {
            <button
                class="chip"
                type="button"
                aria-pressed=move || chosen().to_string()
                on:click=move |_| practice.update(|practice| practice.who = i)
            >
                <span class="chip-name">
                    {if name.is_empty() { tr(key::PRACTICE_SOMEBODY) } else { name }}
                </span>
            </button>
        }
    };
    let typed = RwSignal::new(String::new());
    let add = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let name: String = typed.with_untracked(|name| name.trim().to_owned());
        if !name.is_empty() {
            practice.update(|practice| practice.add(&name));
            typed.set(String::new());
        }
    };
    let remove = move |_| {
        let what = tr_with(key::DID_PERSON_REMOVE, &[("name", &now())]);
        let _ = desk.step(what, &[PRACTICE.to_owned()], || {
            practice.update(PracticeRecord::remove);
            Ok::<(), ()>(())
        });
    };
    let several = move || practice.with(|practice| practice.people.len() > 1);
    view! {
        <Question label=key::PRACTICE_PEOPLE now=Signal::derive(now)>
            {move || people().into_iter().map(chip).collect_view()}
            <form on:submit=add>
                <Words
                    id="practice-name"
                    label=key::PRACTICE_NAME
                    most=NAME
                    text=typed
                    set=move |name| typed.set(name)
                />
                <button id="practice-add" class="button" type="submit">
                    {live(key::PRACTICE_ADD)}
                </button>
            </form>
            <Show when=several>
                <button class="button button-quiet" type="button" on:click=remove>
                    {move || tr_with(key::PRACTICE_REMOVE, &[("name", &now())])}
                </button>
            </Show>
            <p class="small">
                {move || tr_with(key::PRACTICE_KEPT, &[("name", &now())])}
            </p>
        </Question>
    }
}
