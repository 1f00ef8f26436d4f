//! The log: what was mixed, found by day and by words, written about, added up, taken away as a
//! table or on paper.

use std::collections::BTreeSet;

use leptos::prelude::*;
use pailwise_calc::quantity::{Area, Figure, Volume, unit};
use pailwise_calc::running::Stage;
use pailwise_kept::day;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::log::{Ended, LogRecord, MOMENTS, Said, csv, sums};
use pailwise_kept::records::mix::Ask;
use pailwise_kept::show::Reader;

use super::watch::watch;
use crate::desk::laid;
use crate::desk::{Desk, desk};
use crate::files;
use crate::moments;
use crate::parts::search::Search;
use crate::parts::working::how;
use crate::steady::now_ms;
use crate::store::{self, FLOOR, LOG, MIX, NotKept};
use crate::text::{key, live, tr, tr_with};

/// As many batches are shown at first, and as many more with each tap.
const SHOWN: usize = 20;

/// A batch with what a search looks through.
#[derive(Clone, Debug, PartialEq)]
struct Paged {
    record: LogRecord,
    day: String,
    text: String,
}

impl Paged {
    fn of(record: LogRecord) -> Self {
        Self { day: record.day(), text: record.words(), record }
    }
}

/// Every batch of the log, the last first.
fn read(desk: Desk) -> Vec<Paged> {
    desk.records(LOG).into_iter().rev().map(|(_, record)| Paged::of(record)).collect()
}

/// List of batches that have ended, with search by words or day, and export.
#[component]
pub(super) fn Book() -> impl IntoView {
    let desk = desk();
    let running = watch().batches;
    let log = RwSignal::new(Vec::<Paged>::new());
    Effect::new(move |_| {
        desk.rereads.track();
        // A batch that ended has gone from the clock into the log.
        running.with(Vec::len);
        log.set(read(desk));
    });
    let (words, day, shown) =
        (RwSignal::new(String::new()), RwSignal::new(String::new()), RwSignal::new(SHOWN));
    // Places in the log, so that a search copies nothing.
    let found = Memo::new(move |_| {
        let (words, day) = (words.get(), day.get());
        log.with(|log| places(log, &words, &day))
    });
    let count = move || found.with(Vec::len);
    let ids = Memo::new(move |_| {
        log.with(|log| {
            found.with(|found| {
                let shown = found.iter().take(shown.get()).filter_map(|i| log.get(*i));
                shown.map(|page| page.record.id.clone()).collect::<Vec<_>>()
            })
        })
    });
    view! {
        <section class="card log" id="log">
            <h2>{live(key::LOG)}</h2>
            <Show
                when=move || log.with(|log| !log.is_empty())
                fallback=|| view! { <p class="small">{live(key::LOG_EMPTY)}</p> }
            >
                {search(log, words, day)}
                <p role="status">
                    {move || tr_with(key::LOG_COUNT, &[("count", &count().to_string())])}
                </p>
                {move || log.with(|log| found.with(|found| {
                    let found = found.iter().filter_map(|i| log.get(*i)).map(|page| &page.record);
                    summary(desk.reader(), found)
                }))}
                <ul class="cards">
                    <For each=move || ids.get() key=Clone::clone let(id)>
                        <Batch id=id log=log />
                    </For>
                </ul>
                <Show when=move || { count() > shown.get() }>
                    <button class="button" type="button" on:click=move |_| shown.update(|n| *n += SHOWN)>
                        {live(key::LOG_MORE)}
                    </button>
                </Show>
                {export(log, found)}
            </Show>
        </section>
    }
}

/// Places in the log of the batches that have all of the words, and are of the day if one is given.
fn places(log: &[Paged], words: &str, day: &str) -> Vec<usize> {
    let words = words.to_lowercase();
    let words: Vec<&str> = words.split_whitespace().collect();
    let fits = |(_, page): &(usize, &Paged)| {
        (day.is_empty() || page.day == day) && words.iter().all(|word| page.text.contains(word))
    };
    log.iter().enumerate().filter(fits).map(|(i, _)| i).collect()
}

/// The fields for the words and the day that batches are searched by.
fn search(
    log: RwSignal<Vec<Paged>>,
    words: RwSignal<String>,
    day: RwSignal<String>,
) -> impl IntoView {
    let days = Memo::new(move |_| {
        log.with(|log| log.iter().map(|page| page.day.clone()).collect::<BTreeSet<_>>())
    });
    view! {
        <div class="deeds">
            <Search id="log-search" label=key::LOG_SEARCH words=words />
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
    }
}

/// Buttons that save the batches that were found as a table, or print them.
fn export(log: RwSignal<Vec<Paged>>, found: Memo<Vec<usize>>) -> impl IntoView {
    let table = move |_| save_table(log, found);
    let print = move |_| {
        // A phone that cannot print says so itself.
        let _ = window().print();
    };
    view! {
        <div class="deeds">
            <button id="log-csv" class="button" type="button" on:click=table>
                {live(key::LOG_CSV)}
            </button>
            <button class="button" type="button" on:click=print>{live(key::LOG_PRINT)}</button>
        </div>
    }
}

/// Saves the batches that were found as a table.
fn save_table(log: RwSignal<Vec<Paged>>, found: Memo<Vec<usize>>) {
    let text = log.with_untracked(|log| {
        found.with_untracked(|found| {
            csv(found.iter().filter_map(|i| log.get(*i)).map(|page| &page.record))
        })
    });
    if let Some(text) = text {
        let now = moments::now();
        let today = now.split('T').next().unwrap_or_default();
        files::save_as(&format!("pailwise-log-{today}.csv"), &text, "text/csv");
    }
}

/// What the batches that were found took, product by product.
fn summary<'a>(reader: Reader, found: impl Iterator<Item = &'a LogRecord>) -> AnyView {
    let sums = sums(found);
    let rows = sums.iter().map(|sum| {
        let tally = sum.tally;
        let batches = if sum.discarded > 0 {
            let figures =
                [("count", &*tally.batches().to_string()), ("gone", &*sum.discarded.to_string())];
            tr_with(key::LOG_BATCHES_GONE, &figures)
        } else {
            tally.batches().to_string()
        };
        let spread = reader.figure(Figure::SpreadRate(tally.spread().unwrap_or_default()));
        let areas = format!("{} / {}", reader.area(tally.laid()), reader.area(sum.planned));
        let rows = [
            (key::LOG_BATCHES, batches),
            (key::LOG_MIXED, reader.volume_about(tally.mixed())),
            (key::LOG_AREAS, areas),
            (key::LOG_SPREAD, spread),
        ];
        let rows = rows.map(|(label, figure)| {
            view! { <tr><th scope="row">{live(label)}</th><td>{figure}</td></tr> }
        });
        view! {
            <h3>{sum.name.clone()}</h3>
            <table class="split-table">
                <tbody>{rows.into_iter().collect_view()}</tbody>
            </table>
            {how(reader, None, &tally.explain())}
        }
    });
    rows.collect_view().into_any()
}

fn label(said: Said) -> &'static str {
    match said {
        Said::Floor => key::LOG_FLOOR,
        Said::Crew => key::LOG_CREW,
        Said::Humidity => key::LOG_HUMIDITY,
        Said::Area => key::LOG_AREA,
        Said::Measured => key::LOG_MEASURED,
        Said::Lots => key::LOG_LOTS,
        Said::Notes => key::SHEET_NOTES,
        Said::Ended => key::LOG_ENDED,
        Said::Mixed => key::STAGE_MIX,
        Said::Emptied => key::STAGE_EMPTY,
        Said::Rolled => key::STAGE_ROLL,
        Said::Flaked => key::STAGE_FLAKE,
    }
}

/// The place of a batch in the log, which stands the last first.
fn place(log: &[Paged], id: &str) -> Option<usize> {
    log.binary_search_by(|page| id.cmp(page.record.id.as_str())).ok()
}

/// One batch, which opens to be written about.
#[component]
fn Batch(id: String, log: RwSignal<Vec<Paged>>) -> impl IntoView {
    let desk = desk();
    let id = StoredValue::new(id);
    let record = Memo::new(move |_| {
        log.with(|log| {
            let page = id.with_value(|id| place(log, id)).and_then(|at| log.get(at));
            page.map(|page| page.record.clone())
        })
    });
    let line = move || {
        let reader = desk.reader();
        record.with(|record| record.as_ref().map(|batch| line(reader, batch)))
    };
    // Thousands of batches are listed, and a few of them opened.
    let opened = RwSignal::new(false);
    view! {
        <li class="log-row">
            <details class="fold" on:toggle=move |_| opened.set(true)>
                <summary>{line}</summary>
                <Show when=move || opened.get()>
                    <Page id=id log=log record=record />
                </Show>
            </details>
        </li>
    }
}

/// What is written about a batch.
#[component]
fn Page(
    id: StoredValue<String>,
    log: RwSignal<Vec<Paged>>,
    record: Memo<Option<LogRecord>>,
) -> impl IntoView {
    let desk = desk();
    let write = move |said: Said, text: String| {
        let Some(now) = record.get_untracked() else { return };
        let units = desk.settings.with_untracked(|s| s.units);
        let now = match said {
            Said::Area => now.with_area(&text, units, now_ms()),
            _ => now.with(said, &text, now_ms()),
        };
        // Kept before it is shown.
        if desk.wrote(store::save(&format!("{LOG}{}", now.id), &now)).is_ok() {
            log.update(|log| {
                if let Some(page) = place(log, &now.id).and_then(|at| log.get_mut(at)) {
                    *page = Paged::of(now);
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
                    let units = desk.settings.with(|s| s.units);
                    record.with(|r| r.as_ref().map_or_else(String::new, |r| match said {
                        Said::Area => r.area_said(units),
                        _ => r.said(said).to_owned(),
                    }))
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
                let at = moments::local_ms(change.at_ms, language);
                let what = tr(label(change.what));
                let figures = [("at", &*at), ("what", &*what), ("before", &*change.before)];
                view! { <li class="small">{tr_with(key::LOG_CHANGED, &figures)}</li> }
            });
            lines.collect_view()
        })
    };
    let pace = move || {
        let reader = desk.reader();
        let pace = record.with(|record| record.as_ref().and_then(LogRecord::pace_m2_per_min))?;
        let entry = Entry::from_value(Kind::Pace, pace, reader.units);
        let said = tr_with(
            key::LOG_PACE,
            &[("pace", &entry.text_with_unit(Kind::Pace, reader.units, reader.language))],
        );
        let take = move |_| {
            let _ = desk.step(tr(key::DID_PACE), &[MIX.to_owned()], || {
                desk.mix.update(|mix| {
                    mix.entries.insert(Ask::RollPace, entry.clone());
                });
                Ok::<(), ()>(())
            });
        };
        Some(view! {
            <p>{said}</p>
            <button class="button" type="button" on:click=take>{live(key::LOG_PACE_TAKE)}</button>
        })
    };
    let remove = move |_| {
        let keys = [format!("{LOG}{}", id.get_value())];
        let _ = desk.step(tr(key::DID_LOG_DELETE), &keys, || {
            store::remove(&keys[0]);
            Ok::<(), ()>(())
        });
        log.update(|log| log.retain(|page| id.with_value(|id| page.record.id != *id)));
    };
    view! {
        <div class="question-body">
            <Told id=id log=log record=record />
            {fields.into_iter().collect_view()}
            {pace}
            <ul>{changes}</ul>
            <button class="button button-quiet" type="button" on:click=remove>
                {live(key::DELETE)}
            </button>
        </div>
    }
}

/// What is told afterwards: when each stage was, and whether it was laid or thrown away.
#[component]
fn Told(
    id: StoredValue<String>,
    log: RwSignal<Vec<Paged>>,
    record: Memo<Option<LogRecord>>,
) -> impl IntoView {
    let desk = desk();
    let write = move |told: LogRecord| {
        let name = [("what", told.name.clone())];
        let keys = [format!("{LOG}{}", told.id), FLOOR.to_owned()];
        let what = tr_with(key::DID_TELL, &name.each_ref().map(|(of, name)| (*of, name.as_str())));
        desk.step(what, &keys, || {
            desk.wrote(store::save(&keys[0], &told))?;
            log.update(|log| {
                if let Some(page) = place(log, &told.id).and_then(|at| log.get_mut(at)) {
                    *page = Paged::of(told.clone());
                }
            });
            Ok::<(), NotKept>(())
        })
    };
    let moments = MOMENTS.map(|(stage, said)| {
        let at = move || record.with(|r| r.as_ref().and_then(|r| r.done.get(&stage).copied()));
        let value = move || {
            at().map_or_else(String::new, |at| day::time_of_day(moments::minute_of_day(at)))
        };
        let name = format!("{}-{}", label(said), id.get_value());
        let told = move |text: String| {
            let Some(batch) = record.get_untracked() else { return };
            let Some(minute) = day::minutes_of_day(&text) else { return };
            let at = moments::last_time(minute, batch.ended_at_ms);
            // Told of where it fails.
            let _ = write(batch.told((stage, said), at, now_ms()));
        };
        view! {
            <div class="pick" hidden=move || at().is_none() && stage == Stage::Flake>
                <label class="field-label" for=name.clone()>{live(label(said))}</label>
                <input
                    id=name
                    class="pick-list"
                    type="time"
                    prop:value=value
                    on:change:target=move |event| told(event.target().value())
                />
            </div>
        }
    });
    let laid =
        Memo::new(move |_| record.with(|r| r.as_ref().map(|r| r.ended) == Some(Ended::Laid)));
    let turn = move |_| {
        let Some(batch) = record.get_untracked() else { return };
        let to = if laid.get_untracked() { Ended::Discarded } else { Ended::Laid };
        let batch = batch.ended_as(to, now_ms());
        if write(batch.clone()).is_ok() {
            laid::batch_told(desk, &batch, moments::minute_of_day(now_ms()));
        }
    };
    view! {
        <p class="hint">{live(key::TELL_HINT)}</p>
        {moments.into_iter().collect_view()}
        <button class="button log-turn" type="button" on:click=turn>
            {move || tr(if laid.get() { key::LOG_WAS_THROWN } else { key::LOG_WAS_LAID })}
        </button>
    }
}

/// A batch in a line.
fn line(reader: Reader, batch: &LogRecord) -> String {
    let at = moments::local_ms(batch.met_at_ms, reader.language);
    let mixed = reader.volume(Volume::new::<unit::liter>(batch.mixed_l));
    let area = reader.area(Area::new::<unit::square_meter>(batch.covered_m2()));
    let text = match batch.ended {
        Ended::Laid => key::LOG_LINE,
        Ended::Discarded => key::LOG_LINE_GONE,
    };
    let figures = [("at", &*at), ("name", &*batch.name), ("mixed", &*mixed), ("area", &*area)];
    let said = reader.language.say(text, &figures);
    if batch.film_closed {
        return format!("{said}. {}", reader.language.say(key::LOG_FILM_CLOSED, &[]));
    }
    said
}
