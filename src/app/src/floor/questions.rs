//! What the floor is: the flat, what stands up from it, cracks, edges; and the coats.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::record::{ProductRecord, Role};
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::floor::{
    CoatFormRecord, FloorFormRecord, Single, Thing, ThingRecord, tape_line,
};
use pailwise_kept::records::run::RunRecord;

use super::fields::{FormField, SingleField, TimeField, alter, form, of_coat, step, undoable};
use super::weather::Weather;
use crate::desk::desk;
use crate::parts::count::Count;
use crate::parts::pick::Pick;
use crate::parts::question::Question;
use crate::parts::toggle::Toggle;
use crate::text::{key, language, live, tr, tr_with};

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

/// What stands in an entry, with its unit.
fn shown(entry: &Entry, kind: Kind) -> String {
    let units = desk().settings.with(|s| s.units);
    entry.text_with_unit(kind, units, language())
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
    let now = move || {
        form.with(|form| {
            form.coats.iter().map(|coat| desk.name_of(&coat.product)).collect::<Vec<_>>().join(", ")
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
            let mut next = CoatFormRecord::first(&product, day, units);
            if let Some(last) = form.coats.last() {
                next.weather_of(last);
            }
            form.coats.push(next);
        });
    };
    view! {
        <Question label=key::QUESTION_COATS now=Signal::derive(now)>
            {move || (0..count.get()).map(|at| view! { <OneCoat at=at /> }).collect_view()}
            <button class="button" type="button" on:click=add>{live(key::COAT_ADD)}</button>
        </Question>
    }
}

#[component]
fn OneCoat(at: usize) -> impl IntoView {
    let form = form();
    let desk = desk();
    let shelf = desk.shelf;
    let product = Memo::new(move |_| {
        let id = of_coat(at, |coat| coat.product.clone());
        shelf.with(|shelf| shelf.iter().position(|product| product.id == id))
    });
    let products = move || {
        let away = desk.settings.with(|s| s.archived.clone());
        let chosen = product.get();
        let offered =
            |(i, p): &(usize, &ProductRecord)| Some(*i) == chosen || !away.contains(&p.id);
        let named = |(i, p): (usize, &ProductRecord)| (i, p.name.clone());
        let options = shelf
            .with(|shelf| shelf.iter().enumerate().filter(offered).map(named).collect::<Vec<_>>());
        view! {
            <Pick
                id=format!("coat-product-{at}")
                label=key::COAT_PRODUCT
                options=options
                chosen=product.get().unwrap_or(usize::MAX)
                choose=move |i: usize| {
                    let picked = shelf
                        .with_untracked(|shelf| shelf.get(i).map(|p| (p.id.clone(), p.role)));
                    if let Some((id, role)) = picked {
                        alter(at, |coat| coat.product = id);
                        if matches!(role, Role::Filler | Role::Primer) {
                            let later = |other: &ProductRecord| other.role as u8 > role as u8;
                            let covers = |id: &str| {
                                shelf.with_untracked(|shelf| {
                                    shelf.iter().any(|other| other.id == id && later(other))
                                })
                            };
                            form.update(|form| form.put_under(at, covers));
                        }
                    }
                }
            />
        }
    };
    // Cracks run where they run.
    let lines = Memo::new(move |_| {
        let role = product.get().and_then(|i| shelf.with(|shelf| shelf.get(i).map(|p| p.role)));
        role != Some(Role::Filler)
    });
    let stands = Memo::new(move |_| {
        let up = |thing: &ThingRecord| matches!(thing.thing, Thing::Wall | Thing::Steps);
        form.with(|form| form.things.iter().any(up))
    });
    view! {
        <fieldset class="thing">
            <legend>{format!("{}.", at + 1)}</legend>
            {products}
            <Count
                label=key::ASK_DAY
                quantity=Quantity::Day
                counted_from=1
                value=Signal::derive(move || of_coat(at, |coat| coat.day))
                set=move |day| alter(at, |coat| coat.day = day)
            />
            <TimeField
                id=format!("coat-starts-{at}")
                label=key::ASK_STARTS
                time=Signal::derive(move || of_coat(at, |coat| coat.starts.clone()))
                set=move |time| alter(at, |coat| coat.starts = time)
            />
            <Weather at=at />
            <SingleField single=Single::OnHand coat=at />
            <Show when=move || lines.get()>
                <Bays at=at />
            </Show>
            <Show when=move || stands.get()>
                <Toggle
                    label=key::ASK_VERTICALS_DONE
                    on=Signal::derive(move || of_coat(at, |coat| coat.verticals_done))
                    set=move |on| alter(at, |coat| coat.verticals_done = on)
                />
            </Show>
            <Show when=move || form.with(|form| form.may_rise(at))>
                <button
                    class="button button-quiet"
                    type="button"
                    on:click=move |_| step(tr(key::DID_COAT_UP), |form| form.raise(at))
                >
                    {live(key::COAT_UP)}
                </button>
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

/// Bays of a coat, side by side: how many, where the tape lines run, and how many crews lay them at
/// the same time.
#[component]
fn Bays(at: usize) -> impl IntoView {
    let form = form();
    let desk = desk();
    let bays = Memo::new(move |_| of_coat(at, |coat| coat.tapes.len()) as u32 + 1);
    let part = move |bays: u32| {
        let units = desk.settings.with_untracked(|s| s.units);
        let width = form.with_untracked(FloorFormRecord::width_m).unwrap_or_default();
        alter(at, |coat| coat.part(bays, width, units));
    };
    let lines = move || {
        let line = |i: usize| {
            view! {
                <FormField
                    id=format!("tape-{at}-{i}")
                    measure=tape_line()
                    get=move |form: &FloorFormRecord| form.coats.get(at)?.tapes.get(i).cloned()
                    put=move |form: &mut FloorFormRecord, entry| {
                        let line = form.coats.get_mut(at).and_then(|coat| coat.tapes.get_mut(i));
                        if let Some(line) = line {
                            *line = entry;
                        }
                    }
                />
            }
        };
        (0..bays.get() as usize - 1).map(line).collect_view()
    };
    // What is begun keeps its bays: where a batch lies is counted by them.
    let begun = Memo::new(move |_| {
        let floor = desk.floor_id();
        let under_way =
            |run: &RunRecord| run.place.is_some_and(|place| place.is_of(floor) && place.coat == at);
        of_coat(at, CoatFormRecord::begun) || desk.runs.with(|runs| runs.iter().any(under_way))
    });
    view! {
        <Show
            when=move || !begun.get()
            fallback=move || view! { <p class="small">{live(key::BAYS_BEGUN)}</p> }
        >
            <Count
                label=key::ASK_BAYS
                quantity=Quantity::TapeLines
                counted_from=1
                value=Signal::derive(move || bays.get() - 1)
                set=move |lines| part(lines + 1)
            />
        </Show>
        {lines}
        <Show when=move || { bays.get() > 1 }>
            <Count
                label=key::ASK_CREWS
                quantity=Quantity::Crews
                most=Signal::derive(move || bays.get())
                value=Signal::derive(move || of_coat(at, |coat| coat.crews))
                set=move |crews| alter(at, |coat| coat.crews = crews)
            />
            <p class="small">{live(key::BAYS_SAID)}</p>
        </Show>
    }
}

/// A fresh floor with the same coats, which can be undone.
#[component]
pub(super) fn NewFloor() -> impl IntoView {
    let desk = desk();
    let fresh = move |_| {
        let units = desk.settings.with_untracked(|s| s.units);
        let shelf = desk.shelf.get_untracked();
        let first = FloorFormRecord::first(&shelf, units);
        let floor = desk.floor.with_untracked(|form| {
            let like = form.like_this(desk.free_floor_id(), units);
            // Cracks do not go along, so neither does what fills them.
            let fills = |coat: &CoatFormRecord| {
                shelf.iter().any(|p| p.id == coat.product && p.role == Role::Filler)
            };
            let coats = like.coats.into_iter().filter(|coat| !fills(coat)).collect();
            let (load, hand_over) = (like.load, like.hand_over);
            FloorFormRecord { id: like.id, coats, load, hand_over, ..first }
        });
        // Told of where it fails; the floor in hand is then still there.
        let _ = desk.take_in_hand(tr(key::DID_FLOOR_NEW), floor);
    };
    view! {
        <button id="new-floor" class="button button-quiet" type="button" on:click=fresh>
            {live(key::NEW_FLOOR)}
        </button>
    }
}
