//! A round: a question, an answer, what it is worth, and the working.

use leptos::prelude::*;
use pailwise_calc::practice::{Answer, Counting, Question, Skill, Worth, ask};
use pailwise_calc::product::Product;
use pailwise_calc::record::{Aspect, ProductRecord};
use pailwise_kept::answers::describe;
use pailwise_kept::entry::Entry;
use pailwise_kept::records::progress::{AskedRecord, PracticeRecord};
use pailwise_kept::show::Reader;
use pailwise_kept::units::Units;
use web_sys::js_sys::Math;

use super::skills;
use crate::desk::{Desk, desk};
use crate::parts::field::Field;
use crate::parts::working::{sentence, steps};
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

/// What one is counted in.
fn counting(desk: Desk) -> Counting {
    let units = desk.settings.with_untracked(|s| s.units);
    if units == Units::Us { Counting::Us } else { Counting::Metric }
}

/// The question that waits for an answer, else the next one.
fn waiting_or_next(desk: Desk) -> Option<Asked> {
    let waits = desk.practice.with_untracked(PracticeRecord::person).asked;
    let again = waits.and_then(|waits| {
        let record = untrack(|| desk.product_of(&waits.product))?;
        let product = Product::try_from(&record).ok()?;
        let question = ask(waits.skill, &product, counting(desk), waits.seed)?;
        Some(Asked { product: record, question })
    });
    again.or_else(|| next(desk))
}

/// The next question: the skill that is due, of a product that has what it needs.
fn next(desk: Desk) -> Option<Asked> {
    let away = desk.settings.with_untracked(|s| s.archived.clone());
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
            let question = ask(skill, product, counting(desk), seed)?;
            Some(Asked { product: record.clone(), question })
        })
    };
    let person = desk.practice.with_untracked(PracticeRecord::person);
    let asked = person.next(|skill| of(skill).is_some()).and_then(of)?;
    let waits =
        AskedRecord { skill: asked.question.skill, product: asked.product.id.clone(), seed };
    desk.practice.update(|practice| practice.asks(waits));
    Some(asked)
}

/// The question now asked, and how many were right in a row.
#[component]
pub(super) fn Round() -> impl IntoView {
    let desk = desk();
    let asked = RwSignal::new(waiting_or_next(desk));
    let units = Memo::new(move |_| desk.settings.with(|s| s.units));
    // Other units are other numbers.
    Effect::new(move |before: Option<Units>| {
        let now = units.get();
        if before.is_some_and(|before| before != now) {
            asked.set(waiting_or_next(desk));
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
    let given: RwSignal<Option<(Answer, Worth)>> = RwSignal::new(None);
    let kept = StoredValue::new(now.clone());
    let answer = move |answer: Answer| {
        let question = kept.with_value(|now| now.question.clone());
        let worth = question.worth(answer);
        given.set(Some((answer, worth)));
        desk.practice.update(|p| p.answered(question.skill, worth == Worth::Right));
    };
    let question = now.question.clone();
    let product = now.product.clone();
    let words = move || {
        let reader = desk.reader();
        sentence(reader, Some(&product), &question.asks, Reader::figure)
    };
    let skill = now.question.skill;
    let on = move || {
        asked.set(next(desk));
        // The question stands at the top.
        window().scroll_to_with_x_and_y(0.0, 0.0);
    };
    let input = match now.question.right {
        Answer::Figure(_) => {
            view! { <Typed now=now.clone() answer=answer given=given on=on /> }.into_any()
        }
        Answer::Yes(_) | Answer::Second(_) => {
            view! { <Choose now=now.clone() answer=answer given=given on=on /> }.into_any()
        }
    };
    let feedback = move || {
        let reader = desk.reader();
        given.get().map(|(_, worth)| kept.with_value(|now| told(reader, now, worth)))
    };
    let sheet = move || {
        let reader = desk.reader();
        kept.with_value(|now| figures(reader, &now.product))
    };
    view! {
        <section class="card round">
            <h2>{live(skills::name(skill))}</h2>
            <p class="round-asks" id="round-asks">{words}</p>
            {sheet}
            {input}
            <div role="status">{feedback}</div>
        </section>
    }
}

/// The figures of the product that a question is about, folded away: what its sheet says.
fn figures(reader: Reader, product: &ProductRecord) -> impl IntoView + use<> {
    const ASPECTS: [Aspect; 7] = [
        Aspect::Ratio,
        Aspect::Tolerance,
        Aspect::PotLife,
        Aspect::OpenTime,
        Aspect::Mixing,
        Aspect::Recoat,
        Aspect::Limits,
    ];
    let lines = describe::lines(reader, product, &ASPECTS).into_iter();
    let lines = lines.map(|(name, text)| view! { <dt>{live(name)}</dt> <dd>{text}</dd> });
    view! {
        <details class="fold">
            <summary>{tr_with(key::PRACTICE_ASKED_WITH, &[("name", &product.name)])}</summary>
            <dl class="sheet-lines">{lines.collect_view()}</dl>
        </details>
    }
}

/// An answer that is typed.
#[component]
fn Typed(
    now: Asked,
    answer: impl Fn(Answer) + Copy + 'static,
    given: RwSignal<Option<(Answer, Worth)>>,
    on: impl Fn() + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let desk = desk();
    let Answer::Figure(right) = now.question.right else { return ().into_any() };
    let (field, kind) = skills::typed_in(now.question.skill, right);
    let units = desk.settings.with_untracked(|s| s.units);
    let entry = RwSignal::new(Entry::as_typed("", units));
    let missing = RwSignal::new(false);
    let open = move || given.with(Option::is_none);
    let check = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if given.with_untracked(Option::is_some) {
            on();
            return;
        }
        missing.set(entry.with_untracked(|entry| entry.text.trim().is_empty()));
        if let Ok(value) = entry.with_untracked(|entry| entry.value(kind, field)) {
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
                        missing.set(false);
                        entry.set(typed);
                    }
                }
            />
            <p class="field-problem" role="status">
                {move || missing.get().then(|| tr(key::PRACTICE_EMPTY))}
            </p>
            <button
                id=move || if open() { "round-check" } else { "round-next" }
                class="button button-deed"
                type="submit"
            >
                {move || tr(if open() { key::PRACTICE_CHECK } else { key::PRACTICE_NEXT })}
            </button>
        </form>
    }
    .into_any()
}

/// An answer that is one of two.
#[component]
fn Choose(
    now: Asked,
    answer: impl Fn(Answer) + Copy + 'static,
    given: RwSignal<Option<(Answer, Worth)>>,
    on: impl Fn() + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let desk = desk();
    let asks = StoredValue::new(now.question.asks);
    let options = match now.question.right {
        Answer::Second(_) => [Answer::Second(false), Answer::Second(true)],
        _ => [Answer::Yes(true), Answer::Yes(false)],
    };
    let buttons = options.into_iter().map(|option| {
        let pressed =
            move || given.with(|given| given.is_some_and(|(given, _)| given == option)).to_string();
        // A pail is named by what is in it.
        let text = move || {
            let reader = desk.reader();
            let name = option_name(reader, option);
            let pail = asks.with_value(|asks| match (option, asks.figures.as_slice()) {
                (Answer::Second(false), [mass, at, ..])
                | (Answer::Second(true), [.., mass, at]) => {
                    Some(format!("{name}: {}, {}", reader.figure(*mass), reader.figure(*at)))
                }
                _ => None,
            });
            pail.unwrap_or(name)
        };
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
                {text}
            </button>
        }
    });
    view! {
        <div class="deeds round-options">{buttons.collect_view()}</div>
        <Show when=move || given.with(Option::is_some)>
            <button
                id="round-next"
                class="button button-deed"
                type="button"
                on:click=move |_| on()
            >
                {live(key::PRACTICE_NEXT)}
            </button>
        </Show>
    }
}

/// An answer in words.
fn option_name(reader: Reader, answer: Answer) -> String {
    match answer {
        Answer::Figure(figure) => reader.exact(figure),
        Answer::Yes(true) => tr(key::ANSWER_YES),
        Answer::Yes(false) => tr(key::ANSWER_NO),
        Answer::Second(false) => tr(key::ANSWER_FIRST),
        Answer::Second(true) => tr(key::ANSWER_SECOND),
    }
}

/// What the answer is worth, and the whole working.
fn told(reader: Reader, now: &Asked, worth: Worth) -> impl IntoView + use<> {
    let right = option_name(reader, now.question.right);
    let (class, head, why) = match worth {
        Worth::Right => ("round-right", key::PRACTICE_RIGHT, None),
        Worth::Usual(mistake) => {
            ("round-wrong", key::PRACTICE_WRONG, Some(skills::mistake(mistake)))
        }
        Worth::Wrong => ("round-wrong", key::PRACTICE_WRONG, None),
    };
    view! {
        <div class=class>
            <p class="round-mark"><strong>{tr_with(head, &[("right", &right)])}</strong></p>
            {why.map(|why| view! { <p>{live(why)}</p> })}
            {steps(reader, Some(&now.product), &now.question.working, Reader::exact)}
        </div>
    }
}
