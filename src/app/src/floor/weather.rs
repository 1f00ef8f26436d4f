//! How warm and how damp it is when a coat begins, and how that goes on.

use leptos::prelude::*;
use pailwise_kept::answers::floor::clock;
use pailwise_kept::records::floor::{DayPick, FloorFormRecord, HourFormRecord, Single};

use super::fields::{FormField, SingleField, TimeField, alter, of_coat};
use crate::desk::desk;
use crate::parts::choice::Choice;
use crate::parts::toggle::Toggle;
use crate::text::{key, language, live, tr, tr_with};

/// What was read of the coat at a place, in a line.
pub(super) fn read_said(at: usize) -> String {
    let units = desk().settings.with(|s| s.units);
    let said = |single: Single| {
        let entry = of_coat(at, |coat| coat.entry(single).cloned());
        let entry = entry.filter(|entry| !entry.text.trim().is_empty());
        entry.map_or_else(
            || "–".to_owned(),
            |entry| entry.text_with_unit(single.measure().kind, units, language()),
        )
    };
    let [slab, air, humidity] = [Single::Slab, Single::Air, Single::Humidity].map(said);
    tr_with(key::NOW_READ, &[("slab", &slab), ("air", &air), ("humidity", &humidity)])
}

/// How the day of the coat at a place goes on, in a line.
pub(super) fn day_said(at: usize) -> String {
    tr(match of_coat(at, |coat| coat.pick) {
        DayPick::Steady => key::DAY_STEADY,
        DayPick::Drift => key::DAY_DRIFT,
        DayPick::LowAndHigh => key::DAY_LOW_HIGH,
        DayPick::Hours => key::DAY_HOURS,
    })
}

/// The readings of the coat at a place, and the day and the night to come.
#[component]
pub(super) fn Weather(at: usize) -> impl IntoView {
    let pick = Memo::new(move |_| of_coat(at, |coat| coat.pick));
    let night = move || matches!(pick.get(), DayPick::LowAndHigh | DayPick::Hours);
    view! {
        {again_button(at)}
        <SingleField single=Single::Slab coat=at />
        <SingleField single=Single::Air coat=at />
        <SingleField single=Single::Material coat=at />
        <Toggle
            label=key::ASK_READ_MIXED
            on=Signal::derive(move || {
                desk().floor.with(|form| form.coats.get(at).is_some_and(|coat| coat.read_after_mixing))
            })
            set=move |on| alter(at, |coat| coat.read_after_mixing = on)
        />
        <SingleField single=Single::Humidity coat=at />
        <p class="field-label">{live(key::DAY_GOES_ON)}</p>
        <Choice
            name=format!("day-{at}")
            label=key::DAY_GOES_ON
            options=vec![
                (DayPick::Steady, key::DAY_STEADY),
                (DayPick::Drift, key::DAY_DRIFT),
                (DayPick::LowAndHigh, key::DAY_LOW_HIGH),
                (DayPick::Hours, key::DAY_HOURS),
            ]
            chosen=pick
            choose=move |pick| alter(at, |coat| coat.pick = pick)
        />
        <Show when=move || pick.get() == DayPick::Drift>
            <SingleField single=Single::Drift coat=at />
        </Show>
        <Show when=move || pick.get() == DayPick::LowAndHigh>
            {low_and_high(at)}
        </Show>
        <Show when=move || pick.get() == DayPick::Hours>
            <Hours at=at />
        </Show>
        <Show when=night>
            <p class="small">{live(key::TONIGHT_HINT)}</p>
            <SingleField single=Single::TonightSlab coat=at />
            <SingleField single=Single::TonightHumidity coat=at />
        </Show>
    }
}

/// Button that takes over the readings and the day of the coat before, where there is one.
fn again_button(at: usize) -> Option<impl IntoView> {
    let before = at.checked_sub(1)?;
    let again = move |_| {
        let first = of_coat(before, |coat| Some(coat.clone()));
        alter(at, |coat| {
            if let Some(first) = first {
                coat.weather_of(&first);
            }
        });
    };
    Some(view! {
        <button class="button" type="button" on:click=again>
            {move || tr_with(key::WEATHER_AGAIN, &[("n", &at.to_string())])}
        </button>
    })
}

/// How cold and how warm the air gets, and at what times of day.
fn low_and_high(at: usize) -> impl IntoView {
    view! {
        <p class="small">{live(key::LOW_HIGH_HINT)}</p>
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
    }
}

/// The air hour by hour.
#[component]
fn Hours(at: usize) -> impl IntoView {
    let desk = desk();
    let count = Memo::new(move |_| of_coat(at, |coat| coat.hours.len()));
    let row = move |i: usize| {
        let time = move || {
            of_coat(at, |coat| coat.hours.get(i).map(|row| row.at.clone()).unwrap_or_default())
        };
        let set = move |time: String| {
            alter(at, |coat| {
                if let Some(row) = coat.hours.get_mut(i) {
                    row.at = time;
                }
            });
        };
        view! {
            <div class="hour">
                <TimeField
                    id=format!("coat-hour-{at}-{i}")
                    label=key::HOUR_AT
                    time=Signal::derive(time)
                    set=set
                />
                <FormField
                    id=format!("coat-hour-air-{at}-{i}")
                    measure=Single::Air.measure()
                    get=move |form: &FloorFormRecord| {
                        Some(form.coats.get(at)?.hours.get(i)?.air.clone())
                    }
                    put=move |form: &mut FloorFormRecord, entry| {
                        let row = form.coats.get_mut(at).and_then(|coat| coat.hours.get_mut(i));
                        if let Some(row) = row {
                            row.air = entry;
                        }
                    }
                />
            </div>
        }
    };
    // The next hour is three after the last, as warm as that.
    let add = move |_| {
        let units = desk.settings.with_untracked(|s| s.units);
        alter(at, |coat| {
            let (last, air) = match coat.hours.last() {
                Some(row) => (row.at.clone(), row.air.clone()),
                None => (coat.starts.clone(), coat.air.clone()),
            };
            let next = clock(&last) + 180.0;
            let at = pailwise_kept::day::time_of_day(next);
            let air = if air.text.trim().is_empty() { Single::Air.first(units) } else { air };
            coat.hours.push(HourFormRecord { at, air });
        });
    };
    let remove = move |_| alter(at, |coat| drop(coat.hours.pop()));
    view! {
        <p class="small">{live(key::HOURS_HINT)}</p>
        {move || (0..count.get()).map(row).collect_view()}
        <button class="button" type="button" on:click=add>{live(key::HOUR_ADD)}</button>
        <Show when=move || { count.get() > 0 }>
            <button class="button button-quiet" type="button" on:click=remove>
                {live(key::HOUR_REMOVE)}
            </button>
        </Show>
    }
}
