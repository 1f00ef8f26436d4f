//! The log: what was mixed, found by day and by words, written about, added up, taken away as a
//! table or on paper.

use std::collections::BTreeSet;

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::quantity::{Area, Volume, unit};
use web_sys::js_sys::Date;

use super::log::{Ended, LogRecord, Said, csv, sums};
use super::watch::watch;
use crate::desk::desk;
use crate::entry::{Entry, Kind};
use crate::files;
use crate::show::Reader;
use crate::store::{self, Kept, LOG};
use crate::text::{key, live, tr, tr_with};

/// As many batches are shown at first, and as many more with each tap.
const SHOWN: usize = 30;

/// Every batch of the log, the last first.
fn read() -> Vec<LogRecord> {
    let mut keys = store::keys(LOG);
    keys.reverse();
    let record = |key: String| match store::load::<LogRecord>(&key) {
        Kept::Found(record) => Some(record),
        _ => None,
    };
    keys.into_iter().filter_map(record).collect()
}

/// The log.
#[component]
pub(super) fn Book() -> impl IntoView {
    let desk = desk();
    let running = watch().batches;
    let log = RwSignal::new(Vec::new());
    Effect::new(move |_| {
        desk.rereads.track();
        // A batch that ended has gone from the clock into the log.
        running.with(Vec::len);
        log.set(read());
    });
    let (words, day, shown) =
        (RwSignal::new(String::new()), RwSignal::new(String::new()), RwSignal::new(SHOWN));
    let found = Memo::new(move |_| {
        let words: Vec<String> =
            words.with(|w| w.to_lowercase().split_whitespace().map(str::to_owned).collect());
        let day = day.get();
        log.with(|log| {
            let fits = |batch: &&LogRecord| {
                (day.is_empty() || batch.day() == day) && batch.answers(&words)
            };
            log.iter().filter(fits).cloned().collect::<Vec<_>>()
        })
    });
    let count = move || found.with(Vec::len);
    let ids = Memo::new(move |_| {
        found.with(|all| all.iter().take(shown.get()).map(|b| b.id.clone()).collect::<Vec<_>>())
    });
    let days =
        Memo::new(move |_| log.with(|log| log.iter().map(LogRecord::day).collect::<BTreeSet<_>>()));
    let table = move |_| {
        if let Some(text) = found.with_untracked(|found| csv(found.iter())) {
            let now = files::now();
            let today = now.split('T').next().unwrap_or_default();
            files::save_as(&format!("pailwise-log-{today}.csv"), &text, "text/csv");
        }
    };
    let print = move |_| {
        // A phone that cannot print says so itself.
        let _ = window().print();
    };
    view! {
        <section class="card log" id="log">
            <h2>{live(key::LOG)}</h2>
            <Show
                when=move || log.with(|log| !log.is_empty())
                fallback=|| view! { <p class="small">{live(key::LOG_EMPTY)}</p> }
            >
                <div class="deeds">
                    <input
                        id="log-search"
                        class="words"
                        type="search"
                        aria-label=live(key::LOG_SEARCH)
                        placeholder=live(key::LOG_SEARCH)
                        prop:value=words
                        on:input:target=move |event| words.set(event.target().value())
                    />
                    <select
                        id="log-day"
                        class="pick-list"
                        aria-label=live(key::LOG_DAY)
                        on:change:target=move |event| day.set(event.target().value())
                    >
                        <option value="">{live(key::LOG_ALL_DAYS)}</option>
                        {move || days.get().into_iter().rev().map(|day| view! {
                            <option value=day.clone()>{day.clone()}</option>
                        }).collect_view()}
                    </select>
                </div>
                <p role="status">
                    {move || tr_with(key::LOG_COUNT, &[("count", &count().to_string())])}
                </p>
                {move || found.with(|found| summary(desk.reader(), found))}
                <ul class="cards">
                    {move || ids.get().into_iter().map(|id| view! { <Batch id=id log=log /> }).collect_view()}
                </ul>
                <Show when=move || { count() > shown.get() }>
                    <button class="button" type="button" on:click=move |_| shown.update(|n| *n += SHOWN)>
                        {live(key::LOG_MORE)}
                    </button>
                </Show>
                <div class="deeds">
                    <button id="log-csv" class="button" type="button" on:click=table>
                        {live(key::LOG_CSV)}
                    </button>
                    <button class="button" type="button" on:click=print>{live(key::LOG_PRINT)}</button>
                </div>
            </Show>
        </section>
    }
}

/// What the batches that were found took, product by product.
fn summary(reader: Reader, found: &[LogRecord]) -> impl IntoView + use<> {
    let rows = sums(found).into_iter().map(|sum| {
        let mixed = Volume::new::<unit::liter>(sum.mixed_l);
        let (covered, planned) = (
            Area::new::<unit::square_meter>(sum.covered_m2),
            Area::new::<unit::square_meter>(sum.planned_m2),
        );
        let spread = Entry::of(Kind::Spread, sum.spread_m2_per_l(), reader.units);
        let batches = if sum.discarded > 0 {
            let figures =
                [("count", &*sum.batches.to_string()), ("gone", &*sum.discarded.to_string())];
            tr_with(key::LOG_BATCHES_GONE, &figures)
        } else {
            sum.batches.to_string()
        };
        view! {
            <tr>
                <th scope="row">{sum.name}</th>
                <td>{batches}</td>
                <td>{reader.volume_about(mixed)}</td>
                <td>{reader.area(covered)} " / " {reader.area(planned)}</td>
                <td>{spread.said(Kind::Spread, reader.units)}</td>
            </tr>
        }
    });
    view! {
        <div class="wide">
            <table class="split-table">
                <thead>
                    <tr>
                        <td></td>
                        <th scope="col">{live(key::LOG_BATCHES)}</th>
                        <th scope="col">{live(key::LOG_MIXED)}</th>
                        <th scope="col">{live(key::LOG_AREAS)}</th>
                        <th scope="col">{live(key::LOG_SPREAD)}</th>
                    </tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}

fn label(said: Said) -> &'static str {
    match said {
        Said::Floor => key::LOG_FLOOR,
        Said::Crew => key::LOG_CREW,
        Said::Humidity => key::LOG_HUMIDITY,
        Said::Area => key::LOG_AREA,
        Said::Lots => key::LOG_LOTS,
        Said::Notes => key::SHEET_NOTES,
    }
}

/// One batch, which opens to be written about.
#[component]
fn Batch(id: String, log: RwSignal<Vec<LogRecord>>) -> impl IntoView {
    let desk = desk();
    let id = StoredValue::new(id);
    let record = Memo::new(move |_| {
        log.with(|log| id.with_value(|id| log.iter().find(|batch| batch.id == *id).cloned()))
    });
    let line = move || {
        let reader = desk.reader();
        record.with(|record| record.as_ref().map(|batch| line(reader, batch)))
    };
    let write = move |said: Said, text: String| {
        let Some(now) = record.get_untracked() else { return };
        let mut now = now.with(said, &text, Date::now());
        if said == Said::Area {
            let units = desk.settings.with_untracked(|s| s.units);
            now.area_m2 = Entry::typed(text, units).value(Kind::Area, Quantity::AreaLeft).ok();
        }
        // Kept before it is shown.
        if desk.wrote(store::save(&format!("{LOG}{}", now.id), &now)).is_ok() {
            log.update(|log| {
                if let Some(batch) = log.iter_mut().find(|batch| batch.id == now.id) {
                    *batch = now;
                }
            });
        }
    };
    let fields = Said::ALL.map(|said| {
        let name = format!("{}-{}", label(said), id.get_value());
        view! {
            <crate::parts::words::Words
                id=name
                label=label(said)
                most=400
                lines=said == Said::Notes
                text=Signal::derive(move || {
                    record.with(|r| r.as_ref().map_or_else(String::new, |r| r.said(said).to_owned()))
                })
                set=move |text| write(said, text)
            />
        }
    });
    let changes = move || {
        let language = desk.settings.with(|s| s.language);
        record.with(|record| {
            let changes = record.as_ref().map(|r| r.changes.clone()).unwrap_or_default();
            let lines = changes.into_iter().map(|change| {
                let at = files::local_ms(change.at_ms, language.tag());
                let what = tr(label(change.what));
                let figures = [("at", &*at), ("what", &*what), ("before", &*change.before)];
                view! { <li class="small">{tr_with(key::LOG_CHANGED, &figures)}</li> }
            });
            lines.collect_view()
        })
    };
    let remove = move |_| {
        let keys = [format!("{LOG}{}", id.get_value())];
        let _ = desk.step(tr(key::DID_LOG_DELETE), &keys, || {
            store::remove(&keys[0]);
            Ok::<(), ()>(())
        });
        log.update(|log| log.retain(|batch| id.with_value(|id| batch.id != *id)));
    };
    view! {
        <li class="log-row">
            <details class="fold">
                <summary>{line}</summary>
                <div class="question-body">
                    {fields.into_iter().collect_view()}
                    <ul>{changes}</ul>
                    <button class="button button-quiet" type="button" on:click=remove>
                        {live(key::DELETE)}
                    </button>
                </div>
            </details>
        </li>
    }
}

/// A batch in a line.
fn line(reader: Reader, batch: &LogRecord) -> String {
    let at = files::local_ms(batch.met_at_ms, reader.language.tag());
    let mixed = reader.volume(Volume::new::<unit::liter>(batch.mixed_l));
    let area = reader.area(Area::new::<unit::square_meter>(batch.covered_m2()));
    let text = match batch.ended {
        Ended::Laid => key::LOG_LINE,
        Ended::Discarded => key::LOG_LINE_GONE,
    };
    let figures = [("at", &*at), ("name", &*batch.name), ("mixed", &*mixed), ("area", &*area)];
    reader.language.say(text, &figures)
}
