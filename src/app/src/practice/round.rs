//! A round: a question, an answer, what it is worth, and the working.

use leptos::prelude::*;
use pailwise_calc::practice::{Answer, Counting, Mark, Question, Skill, ask};
use pailwise_calc::product::Product;
use pailwise_calc::record::ProductRecord;
use web_sys::js_sys::Math;

use super::progress::PracticeRecord;
use super::skills;
use crate::desk::{Desk, desk};
use crate::entry::Entry;
use crate::parts::field::Field;
use crate::parts::working::{sentence, steps};
use crate::show::{Reader, Units};
use crate::text::{key, live, tr, tr_with};

/// A question about one of the products.
#[derive(Clone, Debug, PartialEq)]
struct Asked {
    product: ProductRecord,
    question: Question,
}

/// A number made by the phone.
fn dice(most: f64) -> u64 {
    (Math::random() * most) as u64
}

/// The next question: the skill that is due, of a product that has what it needs.
fn next(desk: Desk) -> Option<Asked> {
    let away = desk.settings.with_untracked(|s| s.archived.clone());
    let units = desk.settings.with_untracked(|s| s.units);
    let counting = if units == Units::Us { Counting::Us } else { Counting::Metric };
    let products: Vec<(ProductRecord, Product)> = desk.shelf.with_untracked(|shelf| {
        let here = shelf.iter().filter(|record| !away.contains(&record.id));
        here.filter_map(|record| Some((record.clone(), Product::try_from(record).ok()?))).collect()
    });
    if products.is_empty() {
        return None;
    }
    let first = dice(products.len() as f64) as usize;
    let turns = || (0..products.len()).map(|i| (first + i) % products.len());
    let seed = dice(9e15);
    let of = |skill: Skill| {
        turns().find_map(|i| {
            let (record, product) = products.get(i)?;
            let question = ask(skill, product, counting, seed)?;
            Some(Asked { product: record.clone(), question })
        })
    };
    let person = desk.practice.with_untracked(PracticeRecord::person);
    person.next(|skill| of(skill).is_some()).and_then(of)
}

/// The round.
#[component]
pub(super) fn Round() -> impl IntoView {
    let desk = desk();
    let asked = RwSignal::new(next(desk));
    let units = Memo::new(move |_| desk.settings.with(|s| s.units));
    // Other units are other numbers.
    Effect::new(move |before: Option<Units>| {
        let now = units.get();
        if before.is_some_and(|before| before != now) {
            asked.set(next(desk));
        }
        now
    });
    let row = move || {
        let n = desk.practice.with(|practice| practice.person().in_a_row);
        (n > 1).then(|| tr_with(key::PRACTICE_IN_A_ROW, &[("n", &n.to_string())]))
    };
    view! {
        {move || match asked.get() {
            None => view! { <p class="no-answer">{live(key::NO_PRODUCT)}</p> }.into_any(),
            Some(now) => view! { <One now=now asked=asked /> }.into_any(),
        }}
        <p class="small">{row}</p>
    }
}

/// One question, from being asked to the next.
#[component]
fn One(now: Asked, asked: RwSignal<Option<Asked>>) -> impl IntoView {
    let desk = desk();
    let given: RwSignal<Option<(Answer, Mark)>> = RwSignal::new(None);
    let kept = StoredValue::new(now.clone());
    let answer = move |answer: Answer| {
        let question = kept.with_value(|now| now.question.clone());
        let mark = question.mark(answer);
        given.set(Some((answer, mark)));
        desk.practice.update(|p| p.answered(question.skill, mark == Mark::Right));
    };
    let question = now.question.clone();
    let product = now.product.clone();
    let words = move || {
        let reader = desk.reader();
        sentence(reader, Some(&product), &question.asks)
    };
    let from = tr_with(key::PRACTICE_WITH, &[("name", &now.product.name)]);
    let skill = now.question.skill;
    let input = match now.question.right {
        Answer::Figure(_) => {
            view! { <Typed now=now.clone() answer=answer given=given /> }.into_any()
        }
        Answer::Yes(_) => {
            let options =
                [(Answer::Yes(true), key::ANSWER_YES), (Answer::Yes(false), key::ANSWER_NO)];
            view! { <Choose options=options answer=answer given=given /> }.into_any()
        }
        Answer::Second(_) => {
            let options = [
                (Answer::Second(false), key::ANSWER_FIRST),
                (Answer::Second(true), key::ANSWER_SECOND),
            ];
            view! { <Choose options=options answer=answer given=given /> }.into_any()
        }
    };
    let feedback = move || {
        let reader = desk.reader();
        given.get().map(|(_, mark)| kept.with_value(|now| told(reader, now, mark)))
    };
    let on = move |_| asked.set(next(desk));
    view! {
        <section class="card round">
            <h2>{live(skills::name(skill))}</h2>
            <p class="round-asks" id="round-asks">{words}</p>
            <p class="small">{from}</p>
            {input}
            <div role="status">{feedback}</div>
            <Show when=move || given.with(Option::is_some)>
                <button id="round-next" class="button button-deed" type="button" on:click=on>
                    {live(key::PRACTICE_NEXT)}
                </button>
            </Show>
        </section>
    }
}

/// An answer that is typed.
#[component]
fn Typed(
    now: Asked,
    answer: impl Fn(Answer) + Copy + 'static,
    given: RwSignal<Option<(Answer, Mark)>>,
) -> impl IntoView {
    let desk = desk();
    let Answer::Figure(right) = now.question.right else { return ().into_any() };
    let (field, kind) = skills::typed_in(now.question.skill, right);
    let units = desk.settings.with_untracked(|s| s.units);
    let entry = RwSignal::new(Entry::typed("", units));
    let value = move || entry.with(|entry| entry.value(kind, field)).ok();
    let check = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let (Some(value), true) = (value(), given.with_untracked(Option::is_none)) {
            answer(Answer::Figure(kind.figure(value)));
        }
    };
    view! {
        <form class="round-form" on:submit=check>
            <Field
                id="round-answer"
                label=Signal::derive(|| tr(key::PRACTICE_ANSWER))
                quantity=field
                kind=kind
                optional=true
                entry=entry
                set=move |typed| {
                    if given.with_untracked(Option::is_none) {
                        entry.set(typed);
                    }
                }
            />
            <Show when=move || given.with(Option::is_none)>
                <button id="round-check" class="button button-deed" type="submit">
                    {live(key::PRACTICE_CHECK)}
                </button>
            </Show>
        </form>
    }
    .into_any()
}

/// An answer that is one of two.
#[component]
fn Choose(
    options: [(Answer, &'static str); 2],
    answer: impl Fn(Answer) + Copy + 'static,
    given: RwSignal<Option<(Answer, Mark)>>,
) -> impl IntoView {
    let buttons = options.into_iter().map(|(option, text)| {
        let pressed =
            move || given.with(|given| given.is_some_and(|(given, _)| given == option)).to_string();
        view! {
            <button
                class="button"
                type="button"
                aria-pressed=pressed
                on:click=move |_| {
                    if given.with_untracked(Option::is_none) {
                        answer(option);
                    }
                }
            >
                {live(text)}
            </button>
        }
    });
    view! { <div class="deeds round-options">{buttons.collect_view()}</div> }
}

/// What the answer is worth, and the whole working.
fn told(reader: Reader, now: &Asked, mark: Mark) -> impl IntoView + use<> {
    let right = match now.question.right {
        Answer::Figure(figure) => reader.exact(figure),
        Answer::Yes(true) => tr(key::ANSWER_YES),
        Answer::Yes(false) => tr(key::ANSWER_NO),
        Answer::Second(false) => tr(key::ANSWER_FIRST),
        Answer::Second(true) => tr(key::ANSWER_SECOND),
    };
    let (class, head, why) = match mark {
        Mark::Right => ("round-right", key::PRACTICE_RIGHT, None),
        Mark::Usual(mistake) => {
            ("round-wrong", key::PRACTICE_WRONG, Some(skills::mistake(mistake)))
        }
        Mark::Wrong => ("round-wrong", key::PRACTICE_WRONG, None),
    };
    view! {
        <div class=class>
            <p class="round-mark"><strong>{tr_with(head, &[("right", &right)])}</strong></p>
            {why.map(|why| view! { <p>{live(why)}</p> })}
            {steps(reader, Some(&now.product), &now.question.working)}
        </div>
    }
}
