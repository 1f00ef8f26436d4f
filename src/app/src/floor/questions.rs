//! What the floor is: the flat, what stands up from it, cracks, edges; and the coats.

use leptos::prelude::*;
use pailwise_calc::record::ProductRecord;

use super::form::{CoatFormRecord, DayPick, FloorFormRecord, Measure, Single, Thing};
use crate::desk::desk;
use crate::entry::{Entry, Kind};
use crate::parts::choice::Choice;
use crate::parts::field::Field;
use crate::parts::pick::Pick;
use crate::parts::question::Question;
use crate::parts::toggle::Toggle;
use crate::store::FLOOR;
use crate::text::{key, live, tr, tr_with};

/// All of them, each a line that opens.
#[component]
pub(super) fn Questions() -> impl IntoView {
    view! {
        <Things label=key::QUESTION_FLAT kinds=&[Thing::Room, Thing::Hole] open=true />
        <Things label=key::QUESTION_STANDING kinds=&[Thing::Wall, Thing::Steps] open=false />
        <Things label=key::QUESTION_CRACKS kinds=&[Thing::Crack] open=false />
        <Edges />
        <Coats />
    }
}

fn form() -> RwSignal<FloorFormRecord> {
    desk().floor
}

/// Takes something away from the form, so that it can be undone.
fn undoable(what: &'static str, change: impl FnOnce(&mut FloorFormRecord)) {
    let desk = desk();
    let what = tr_with(key::DID_REMOVE, &[("what", &tr(what))]);
    let _ = desk.step(what, &[FLOOR.to_owned()], || {
        desk.floor.update(change);
        Ok::<(), ()>(())
    });
}

/// What stands in an entry, with its unit.
fn shown(entry: &Entry, kind: Kind) -> String {
    let units = desk().settings.with(|s| s.units);
    entry.said(kind, units)
}

/// The things of some kinds, with what adds another.
#[component]
fn Things(label: &'static str, kinds: &'static [Thing], open: bool) -> impl IntoView {
    let form = form();
    let desk = desk();
    let now = move || {
        form.with(|form| {
            let things = form.things.iter().filter(|thing| kinds.contains(&thing.thing));
            let said: Vec<String> = things
                .map(|thing| {
                    let measures = thing.thing.measures().iter().zip(&thing.entries).take(2);
                    let figures = measures.map(|(m, entry)| shown(entry, m.kind));
                    figures.collect::<Vec<_>>().join(" × ")
                })
                .collect();
            if said.is_empty() { tr(key::NOW_NONE) } else { said.join(", ") }
        })
    };
    // Rebuilt only when things come and go, so that typing keeps its field.
    let places = Memo::new(move |_| {
        form.with(|form| {
            let things = form.things.iter().enumerate();
            let ours = things.filter(|(_, thing)| kinds.contains(&thing.thing));
            ours.map(|(place, thing)| (place, thing.thing)).collect::<Vec<_>>()
        })
    });
    let add = kinds.iter().map(move |thing| {
        view! {
            <button
                class="button"
                type="button"
                on:click=move |_| {
                    let units = desk.settings.with_untracked(|s| s.units);
                    form.update(|form| {
                        let next = form.next(*thing, units);
                        form.things.push(next);
                    });
                }
            >
                {live(thing.add())}
            </button>
        }
    });
    view! {
        <Question label=label now=Signal::derive(now) open=open>
            {move || places.get().into_iter().map(|(place, thing)| {
                view! { <OneThing place=place thing=thing /> }
            }).collect_view()}
            {add.collect_view()}
        </Question>
    }
}

#[component]
fn OneThing(place: usize, thing: Thing) -> impl IntoView {
    let fields = thing.measures().iter().enumerate().map(|(i, measure)| {
        view! {
            <FormField
                id=format!("thing-{place}-{i}")
                measure=*measure
                get=move |form: &FloorFormRecord| form.things.get(place)?.entries.get(i).cloned()
                put=move |form: &mut FloorFormRecord, entry| {
                    let at = form.things.get_mut(place).and_then(|t| t.entries.get_mut(i));
                    if let Some(at) = at {
                        *at = entry;
                    }
                }
            />
        }
    });
    view! {
        <fieldset class="thing">
            <legend>{live(thing.name())}</legend>
            {fields.collect_view()}
            <button
                class="button button-quiet"
                type="button"
                on:click=move |_| undoable(thing.name(), |form| {
                    if place < form.things.len() {
                        form.things.remove(place);
                    }
                })
            >
                {live(key::REMOVE)}
            </button>
        </fieldset>
    }
}

/// One measure of the floor, or of the coat at a place.
#[component]
fn SingleField(single: Single, #[prop(default = 0)] coat: usize) -> impl IntoView {
    let measure = single.measure();
    view! {
        <FormField
            id=format!("{}-{coat}", measure.label)
            measure=measure
            optional=single == Single::OnHand
            get=move |form: &FloorFormRecord| form.entry(coat, single).cloned()
            put=move |form: &mut FloorFormRecord, entry| {
                if let Some(at) = form.entry_mut(coat, single) {
                    *at = entry;
                }
            }
        />
    }
}

/// A field of the form, wherever in it its entry stands.
#[component]
pub(super) fn FormField(
    /// Its name in the page.
    id: String,
    /// What it takes.
    measure: Measure,
    /// It may be left empty.
    #[prop(optional)]
    optional: bool,
    /// Its entry; nothing once what it belongs to is gone.
    get: impl Fn(&FloorFormRecord) -> Option<Entry> + Send + Sync + 'static,
    /// Writes its entry.
    put: impl Fn(&mut FloorFormRecord, Entry) + Copy + 'static,
) -> impl IntoView {
    let desk = desk();
    let entry = move || {
        let units = desk.settings.with(|s| s.units);
        desk.floor.with(&get).unwrap_or_else(|| Entry::typed("", units))
    };
    view! {
        <Field
            id=id
            label=Signal::derive(move || tr(measure.label))
            quantity=measure.field
            kind=measure.kind
            optional=optional
            entry=Signal::derive(entry)
            set=move |entry| desk.floor.update(|form| put(form, entry))
        />
    }
}

#[component]
fn Edges() -> impl IntoView {
    let form = form();
    let now = move || {
        let width = form.with(|form| shown(&form.cut_in, Single::CutIn.measure().kind));
        tr_with(key::NOW_EDGES, &[("width", &width)])
    };
    view! {
        <Question label=key::QUESTION_EDGES now=Signal::derive(now)>
            <SingleField single=Single::CutIn />
            <SingleField single=Single::Cutters />
            <SingleField single=Single::CutPace />
            <Toggle
                label=key::ASK_ANY_JOINT
                on=Signal::derive(move || form.with(|form| form.ends_at_joint))
                set=move |on| form.update(|form| form.ends_at_joint = on)
            />
            <p class="small">{live(key::FLOOR_FROM_MIX)}</p>
        </Question>
    }
}

#[component]
fn Coats() -> impl IntoView {
    let form = form();
    let desk = desk();
    let name = move |id: &str| {
        let shelf = desk.shelf.get();
        shelf.iter().find(|p| p.id == id).map_or_else(String::new, |p| p.name.clone())
    };
    let now = move || {
        form.with(|form| {
            form.coats.iter().map(|coat| name(&coat.product)).collect::<Vec<_>>().join(", ")
        })
    };
    let count = Memo::new(move |_| form.with(|form| form.coats.len()));
    let add = move |_| {
        let units = desk.settings.with_untracked(|s| s.units);
        form.update(|form| {
            let (product, day) = match (form.coats.last(), desk.shelf.get_untracked().first()) {
                (Some(last), _) => (last.product.clone(), last.day),
                (None, Some(first)) => (first.id.clone(), 0),
                (None, None) => return,
            };
            form.coats.push(CoatFormRecord::first(&product, day, units));
        });
    };
    view! {
        <Question label=key::QUESTION_COATS now=Signal::derive(now)>
            {move || (0..count.get()).map(|at| view! { <OneCoat at=at /> }).collect_view()}
            <button class="button" type="button" on:click=add>{live(key::COAT_ADD)}</button>
        </Question>
    }
}

/// A part of the coat at a place, or what stands for it when it is gone.
fn of_coat<T: Default>(at: usize, part: impl FnOnce(&CoatFormRecord) -> T) -> T {
    form().with(|form| form.coats.get(at).map(part)).unwrap_or_default()
}

/// Changes the coat at a place.
fn alter(at: usize, change: impl FnOnce(&mut CoatFormRecord)) {
    form().update(|form| {
        if let Some(coat) = form.coats.get_mut(at) {
            change(coat);
        }
    });
}

#[component]
fn OneCoat(at: usize) -> impl IntoView {
    let form = form();
    let shelf = desk().shelf;
    let product = Memo::new(move |_| {
        let id = of_coat(at, |coat| coat.product.clone());
        shelf.with(|shelf| shelf.iter().position(|product| product.id == id))
    });
    let products = move || {
        let named = |(i, p): (usize, &ProductRecord)| (i, p.name.clone());
        let options = shelf.with(|shelf| shelf.iter().enumerate().map(named).collect::<Vec<_>>());
        view! {
            <Pick
                id=format!("coat-product-{at}")
                label=key::COAT_PRODUCT
                options=options
                chosen=product.get().unwrap_or(usize::MAX)
                choose=move |i: usize| {
                    let id = shelf.with_untracked(|shelf| shelf.get(i).map(|p| p.id.clone()));
                    if let Some(id) = id {
                        alter(at, |coat| coat.product = id);
                    }
                }
            />
        }
    };
    let pick = Memo::new(move |_| of_coat(at, |coat| coat.pick));
    let stands = Memo::new(move |_| {
        let up =
            |thing: &super::form::ThingRecord| matches!(thing.thing, Thing::Wall | Thing::Steps);
        form.with(|form| form.things.iter().any(up))
    });
    view! {
        <fieldset class="thing">
            <legend>{format!("{}.", at + 1)}</legend>
            {products}
            <div class="pick">
                <span class="field-label">{live(key::ASK_DAY)}</span>
                <button class="field-step" type="button"
                    aria-label=move || tr_with(key::FIELD_LESS, &[("what", &tr(key::ASK_DAY))])
                    on:click=move |_| alter(at, |coat| coat.day = coat.day.saturating_sub(1))>
                    "−"
                </button>
                <strong>{move || (of_coat(at, |coat| coat.day) + 1).to_string()}</strong>
                <button class="field-step" type="button"
                    aria-label=move || tr_with(key::FIELD_MORE, &[("what", &tr(key::ASK_DAY))])
                    on:click=move |_| alter(at, |coat| coat.day = (coat.day + 1).min(30))>
                    "+"
                </button>
            </div>
            <TimeField
                id=format!("coat-starts-{at}")
                label=key::ASK_STARTS
                time=Signal::derive(move || of_coat(at, |coat| coat.starts.clone()))
                set=move |time| alter(at, |coat| coat.starts = time)
            />
            <SingleField single=Single::Slab coat=at />
            <SingleField single=Single::Air coat=at />
            <SingleField single=Single::Material coat=at />
            <p class="field-label">{live(key::DAY_GOES_ON)}</p>
            <Choice
                name=["day-0", "day-1", "day-2", "day-3"].get(at).copied().unwrap_or("day-n")
                label=key::DAY_GOES_ON
                options=vec![
                    (DayPick::Steady, key::DAY_STEADY),
                    (DayPick::Drift, key::DAY_DRIFT),
                    (DayPick::LowAndHigh, key::DAY_LOW_HIGH),
                ]
                chosen=pick
                choose=move |pick| alter(at, |coat| coat.pick = pick)
            />
            <Show when=move || pick.get() == DayPick::Drift>
                <SingleField single=Single::Drift coat=at />
            </Show>
            <Show when=move || pick.get() == DayPick::LowAndHigh>
                <SingleField single=Single::Low coat=at />
                <TimeField
                    id=format!("coat-low-{at}")
                    label=key::ASK_LOW_AT
                    time=Signal::derive(move || of_coat(at, |coat| coat.low_at.clone()))
                    set=move |time| alter(at, |coat| coat.low_at = time)
                />
                <SingleField single=Single::High coat=at />
                <TimeField
                    id=format!("coat-high-{at}")
                    label=key::ASK_HIGH_AT
                    time=Signal::derive(move || of_coat(at, |coat| coat.high_at.clone()))
                    set=move |time| alter(at, |coat| coat.high_at = time)
                />
            </Show>
            <SingleField single=Single::OnHand coat=at />
            <Show when=move || stands.get()>
                <Toggle
                    label=key::ASK_VERTICALS_DONE
                    on=Signal::derive(move || of_coat(at, |coat| coat.verticals_done))
                    set=move |on| alter(at, |coat| coat.verticals_done = on)
                />
            </Show>
            <button
                class="button button-quiet"
                type="button"
                on:click=move |_| undoable(key::QUESTION_COATS, |form| {
                    if at < form.coats.len() {
                        form.coats.remove(at);
                    }
                })
            >
                {live(key::REMOVE)}
            </button>
        </fieldset>
    }
}

/// A time of day, by the phone's own field for one.
#[component]
pub(super) fn TimeField(
    #[prop(into)] id: String,
    label: &'static str,
    time: Signal<String>,
    set: impl Fn(String) + 'static,
) -> impl IntoView {
    view! {
        <div class="pick">
            <label class="field-label" for=id.clone()>{live(label)}</label>
            <input
                id=id
                class="pick-list"
                type="time"
                required=true
                prop:value=time
                on:change:target=move |event| {
                    let time = event.target().value();
                    // An emptied field says nothing new.
                    if !time.is_empty() {
                        set(time);
                    }
                }
            />
        </div>
    }
}
