//! What is down: walls and steps, and batches whose end can be corrected.

use leptos::prelude::*;
use pailwise_calc::floor::{Place, Placed};
use pailwise_calc::quantity::{Area, Length, Time, Volume, unit};
use pailwise_calc::record::BrushedRecord;
use pailwise_kept::day;
use pailwise_kept::entry::Entry;
use pailwise_kept::records::floor::{DownRecord, FloorFormRecord, down_measures};

use super::fields::{FormField, TimeField};
use super::pictures::Clock;
use crate::desk::laid::log_covered;
use crate::desk::{Desk, desk};
use crate::text::{key, live, tr_with};

/// What is down: walls and steps, and batches whose end can be corrected.
pub(super) fn downs(desk: Desk, shown: usize) -> impl IntoView {
    let down = Memo::new(move |_| {
        desk.floor.with(|form| {
            let coat = form.coats.get(shown)?;
            let brushed: f64 = coat.brushed.iter().map(|batch| batch.area_m2).sum();
            let all = (coat.verticals_done, brushed, coat.discarded_l, coat.down.len());
            coat.begun().then_some(all)
        })
    });
    move || {
        down.get().map(|(walls, brushed, discarded, count)| {
            let brushed = (!walls && brushed > 0.0).then(|| {
                let area = desk.reader().area(Area::new::<unit::square_meter>(brushed));
                view! { <p>{tr_with(key::DOWN_BRUSHED, &[("area", &area)])}</p> }
            });
            let discarded = (discarded > 0.0).then(|| {
                let volume = desk.reader().volume_needed(Volume::new::<unit::liter>(discarded));
                view! { <p>{tr_with(key::DOWN_DISCARDED, &[("volume", &volume)])}</p> }
            });
            let fields = (0..count).map(|i| view! { <OneDown shown=shown i=i /> });
            view! {
                <div class="card down">
                    <h2>{live(key::DOWN_HEADING)}</h2>
                    {walls.then(|| view! { <p>{live(key::DOWN_VERTICALS)}</p> })}
                    {brushed}
                    {discarded}
                    {fields.collect_view()}
                    {resumes_field(desk, shown)}
                    <button
                        class="button button-quiet"
                        type="button"
                        on:click=move |_| take_back(desk, shown)
                    >
                        {live(key::REMOVE)}
                    </button>
                </div>
            }
        })
    }
}

/// Field for the time of day when the crew goes on with a coat.
fn resumes_field(desk: Desk, shown: usize) -> impl IntoView {
    let resumes = move || {
        desk.floor.with(|form| {
            form.coats.get(shown).and_then(|coat| coat.resumes.clone()).unwrap_or_default()
        })
    };
    view! {
        <TimeField
            id="coat-resumes"
            label=key::ASK_RESUMES
            time=Signal::derive(resumes)
            set=move |time| desk.floor.update(|form| {
                if let Some(coat) = form.coats.get_mut(shown) {
                    coat.resumes = Some(time);
                }
            })
        />
    }
}

/// Takes back the last batch that is down, or else that the walls are done or what was discarded.
fn take_back(desk: Desk, shown: usize) {
    desk.floor.update(|form| {
        let Some(coat) = form.coats.get_mut(shown) else { return };
        let batch = coat.down.pop().is_some() || coat.brushed.pop().is_some();
        if !batch && !std::mem::take(&mut coat.verticals_done) {
            coat.discarded_l = 0.0;
        }
        if !coat.begun() {
            coat.resumes = None;
        }
    });
}

#[component]
pub(super) fn OneDown(shown: usize, i: usize) -> impl IntoView {
    let (ended, took) = down_measures();
    let down = move |form: &FloorFormRecord| form.coats.get(shown)?.down.get(i).cloned();
    let alter = move |form: &mut FloorFormRecord, change: &dyn Fn(&mut DownRecord)| {
        if let Some(down) = form.coats.get_mut(shown).and_then(|coat| coat.down.get_mut(i)) {
            change(down);
        }
    };
    let desk = desk();
    // Where it ended goes into its page of the log as well, once it is typed over.
    let ended_at = Memo::new(move |_| desk.floor.with(|form| Some(down(form)?.ended_at)));
    Effect::new(move |before: Option<Option<Entry>>| {
        let now = ended_at.get();
        if before.is_some_and(|before| before != now) {
            log_covered(desk, shown, i);
        }
        now
    });
    let bay = desk.floor.with_untracked(|form| {
        let coat = form.coats.get(shown).filter(|coat| !coat.tapes.is_empty())?;
        Some(coat.down.get(i)?.bay + 1)
    });
    let closed = desk.floor.with_untracked(|form| down(form).is_some_and(|down| down.film_closed));
    view! {
        {bay.map(|n| view! { <p class="small">{tr_with(key::BATCH_BAY, &[("n", &n.to_string())])}</p> })}
        {closed.then(|| view! { <p class="caution">{live(key::DOWN_FILM_CLOSED)}</p> })}
        <FormField
            id=format!("down-ended-{i}")
            measure=ended
            get=move |form: &FloorFormRecord| Some(down(form)?.ended_at)
            put=move |form: &mut FloorFormRecord, entry: Entry| {
                alter(form, &|down| down.ended_at.clone_from(&entry));
            }
        />
        <FormField
            id=format!("down-took-{i}")
            measure=took
            optional=true
            get=move |form: &FloorFormRecord| Some(down(form)?.rolled_in)
            put=move |form: &mut FloorFormRecord, entry: Entry| {
                alter(form, &|down| down.rolled_in.clone_from(&entry));
            }
        />
    }
}

/// In which bay a batch ends, and where; nothing for one on walls and steps.
pub(super) fn end_of(place: Place) -> Option<(u32, Length)> {
    match place {
        Place::Flat { bay, to, .. } => Some((u32::try_from(bay).unwrap_or_default(), to)),
        Place::Cracks { to, .. } => Some((0, to)),
        Place::Verticals => None,
    }
}

/// Says that the first batch of the list is down; where it ended is taken as planned until it is
/// typed over.
pub(super) fn down_button(
    clock: &Clock,
    desk: Desk,
    placed: &Placed,
    next: Time,
    shown: usize,
) -> impl IntoView + use<> {
    let reader = clock.reader;
    let end = end_of(placed.place);
    let mixed_l = placed.batch.measured.volume.get::<unit::liter>();
    let area_m2 = placed.batch.area.get::<unit::square_meter>();
    let minutes = clock.minutes(next);
    let begun_min = clock.minutes(placed.start).rem_euclid(24.0 * 60.0);
    let resumes = day::time_of_day(minutes);
    let down = move |_| {
        desk.floor.update(|form| {
            let Some(coat) = form.coats.get_mut(shown) else { return };
            if let Some(end) = end {
                let down = DownRecord::planned(reader, end, mixed_l);
                coat.down.push(DownRecord { begun_min: Some(begun_min), ..down });
            } else {
                coat.brushed.push(BrushedRecord { area_m2, mixed_l });
            }
            coat.resumes = Some(resumes.clone());
        });
    };
    view! {
        <button class="button" type="button" on:click=down>{live(key::BATCH_DOWN)}</button>
    }
}
