//! The list to tick off before the truck leaves: what a floor needs beyond resin and flake. Items
//! can be ticked, taken off and added.

use leptos::prelude::*;
use pailwise_calc::record::Role;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::records::mix::Way;

use super::fields::{form, undoable};
use crate::desk::desk;
use crate::text::{key, live, tr, tr_with};

/// Characters that an item of the crew's own may have.
const MOST: usize = 80;

/// An item: its name in the record, and how it reads.
type Item = (String, String);

/// The items of the tool's own for a floor, with how many where that follows from the plan
/// (common practice, no source).
fn items(good: &Good, way: Way) -> Vec<Item> {
    let coats = || good.floor.coats.iter().zip(&good.products);
    let laid = coats().filter(|(_, product)| product.role != Role::Filler).count();
    let flaked = coats().any(|(coat, _)| coat.product.flaked());
    let filled = coats().any(|(_, product)| product.role == Role::Filler);
    let crew = &good.floor.crew;
    let people = crew.rollers + crew.flakers + crew.cutters + crew.mixers;
    let people = people.max(1) as usize;
    let batches: usize = good.plans.iter().map(|plan| plan.batches.len()).sum();
    let measure = match way {
        Way::Jug => key::LIST_JUG,
        Way::Stick => key::LIST_STICK,
        Way::Scale => key::LIST_SCALE,
    };
    let rollers = crew.rollers as usize;
    let mut list = vec![
        (key::LIST_PAILS, Some(batches)),
        (key::LIST_SECOND_PAIL, None),
        (key::LIST_DRILL, (crew.mixers > 1).then_some(crew.mixers as usize)),
        (measure, None),
        (key::LIST_SQUEEGEE, None),
        (key::LIST_COVERS, Some(rollers * laid)),
        (key::LIST_TAPE, None),
        (key::LIST_GLOVES, Some(2 * people * laid.max(1))),
        (key::LIST_GLASSES, Some(people)),
        (key::LIST_RESPIRATORS, Some(people)),
        (key::LIST_THERMOMETER, None),
        (key::LIST_RAGS, None),
        (key::LIST_LEFTOVERS, None),
        (key::LIST_SHEETS, None),
        (key::LIST_EYEWASH, None),
    ];
    if good.floor.cut_in.value > 0.0 || good.floor.verticals.is_some() {
        list.push((key::LIST_BRUSHES, Some(people)));
    }
    if crew.spikes {
        list.push((key::LIST_SPIKES, Some(people)));
    }
    if flaked {
        list.push((key::LIST_FLAKE_TOOLS, None));
    }
    if filled {
        list.push((key::LIST_KNIVES, None));
    }
    let read = |(name, count): (&'static str, Option<usize>)| {
        let text = match count {
            Some(n) => tr_with(key::LIST_COUNTED, &[("n", &n.to_string()), ("what", &tr(name))]),
            None => tr(name),
        };
        (name.to_owned(), text)
    };
    list.into_iter().map(read).collect()
}

/// Card of tools and supplies to load, to tick off, remove and add to.
#[component]
pub(super) fn Checklist(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let form = form();
    let items = Memo::new(move |_| {
        desk.settings.with(|s| s.language);
        let way = desk.mix.with(|mix| mix.way);
        let (gone, own) =
            form.with(|form| (form.load.list.gone.clone(), form.load.list.own.clone()));
        let tools = found.with(|found| match found {
            Found::Plans(good) => items(good, way),
            _ => Vec::new(),
        });
        let own = own.into_iter().map(|text| (format!("+{text}"), text));
        tools.into_iter().filter(|(name, _)| !gone.contains(name)).chain(own).collect::<Vec<_>>()
    });
    let typed = RwSignal::new(String::new());
    let add = move || {
        let text: String = typed.with_untracked(|text| text.trim().chars().take(MOST).collect());
        if text.is_empty() {
            return;
        }
        form.update(|form| {
            if !form.load.list.own.contains(&text) {
                form.load.list.own.push(text);
            }
        });
        typed.set(String::new());
    };
    view! {
        <section class="card checklist" id="checklist">
            <h2>{live(key::LIST)}</h2>
            <ul>
                <For each=move || items.get() key=|item| item.clone() let:item>
                    <One item=item />
                </For>
            </ul>
            <form
                class="checklist-add"
                on:submit=move |event| {
                    event.prevent_default();
                    add();
                }
            >
                <label class="unseen" for="list-add">{live(key::LIST_ADD_WHAT)}</label>
                <input
                    id="list-add"
                    class="field-input"
                    type="text"
                    maxlength=MOST.to_string()
                    placeholder=live(key::LIST_ADD_WHAT)
                    prop:value=move || typed.get()
                    on:input:target=move |event| typed.set(event.target().value())
                />
                <button class="button" type="submit">{live(key::LIST_ADD)}</button>
            </form>
        </section>
    }
}

#[component]
fn One(item: Item) -> impl IntoView {
    let form = form();
    let (name, text) = item;
    let (is, turn) = (name.clone(), name.clone());
    let done = move || form.with(|form| form.load.list.done.contains(&is));
    let label = text.clone();
    let remove = move |_| {
        let name = name.clone();
        undoable(key::LIST_ITEM, move |form| {
            let list = &mut form.load.list;
            match name.strip_prefix('+') {
                Some(own) => list.own.retain(|other| other != own),
                None => list.gone.push(name),
            }
        });
    };
    view! {
        <li class="check">
            <label class="toggle">
                <input
                    type="checkbox"
                    prop:checked=done
                    on:change:target=move |event| {
                        let on = event.target().checked();
                        form.update(|form| {
                            let done = &mut form.load.list.done;
                            done.retain(|other| *other != turn);
                            if on {
                                done.push(turn.clone());
                            }
                        });
                    }
                />
                <span>{text}</span>
            </label>
            <button
                class="field-step check-remove"
                type="button"
                aria-label=move || tr_with(key::LIST_REMOVE, &[("what", &label)])
                on:click=remove
            >
                "×"
            </button>
        </li>
    }
}
