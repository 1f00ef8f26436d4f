//! Handing the floor over: a sheet for the client, to print, share or save, and entries for a
//! calendar.

use leptos::prelude::*;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::exchange::calendar::{Entry, calendar};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::hand_over::HandOverRecord;
use pailwise_kept::show::Reader;
use web_sys::js_sys::Date;

use super::ahead::{CoatAhead, Next, ahead, in_use};
use super::coats::refusal;
use super::days::{DateQuestion, Days, Toward};
use super::fields::form;
use super::sheet::{Block, Sheet};
use crate::desk::{Desk, desk};
use crate::files;
use crate::moments::{self, Style};
use crate::parts::choice::Choice;
use crate::parts::question::Question;
use crate::parts::words::Words;
use crate::screen::FloorTab;
use crate::text::{Language, key, live, tr};

/// Characters that a line of the sheet may have, and its notes.
const LINE: u32 = 120;
const NOTES: u32 = 1000;

type Write = fn(&mut HandOverRecord) -> &mut String;

/// Floor tab with the client's sheet to print, share or save, and calendar entries.
#[component]
pub(super) fn HandOver(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let form = form();
    let language = Signal::derive(move || {
        let own = desk.settings.with(|s| s.language);
        form.with(|form| form.hand_over.language.unwrap_or(own))
    });
    // Each of its lines: which it is, to be read and to be written.
    let words = move |id, label, most, read: fn(&HandOverRecord) -> &String, write: Write| {
        view! {
            <Words
                id=id
                label=label
                most=most
                lines=most == NOTES
                text=Signal::derive(move || form.with(|form| read(&form.hand_over).clone()))
                set=move |text| form.update(|form| *write(&mut form.hand_over) = text)
            />
        }
    };
    let client = move || form.with(|form| form.hand_over.client.clone());
    let answer = move || {
        let reader = Reader { language: language.get(), ..desk.reader() };
        found.with(|found| match found {
            Found::Plans(good) => answer(reader, desk, good).into_any(),
            other => refusal(desk.reader(), other).into_any(),
        })
    };
    view! {
        <section class="questions" aria-label=live(key::SIDE_HAND_OVER)>
            <DateQuestion />
            <Question label=key::QUESTION_SHEET now=Signal::derive(client)>
                <Choice
                    name="sheet-language"
                    label=key::SHEET_LANGUAGE
                    // No text goes by a language's own name, which is then said as it is.
                    options=Language::ALL.map(|language| (language, language.own_name())).to_vec()
                    chosen=language
                    choose=move |to| form.update(|form| form.hand_over.language = Some(to))
                />
                {words("sheet-client", key::SHEET_CLIENT, LINE, |r| &r.client, |r| &mut r.client)}
                {words("sheet-crew", key::SHEET_CREW, LINE, |r| &r.crew, |r| &mut r.crew)}
                {words("sheet-notes", key::SHEET_MORE, NOTES, |r| &r.notes, |r| &mut r.notes)}
                <div class="pick">
                    <label class="field-label" for="sheet-visit">{live(key::SHEET_VISIT)}</label>
                    <input
                        id="sheet-visit"
                        class="pick-list"
                        type="date"
                        prop:value=move || form.with(|form| form.hand_over.visit.clone())
                        on:change:target=move |event| {
                            let date = event.target().value();
                            form.update(|form| form.hand_over.visit = date);
                        }
                    />
                </div>
            </Question>
        </section>
        <section class="answer" aria-label=live(key::FLOOR_ANSWER)>{answer}</section>
    }
}

fn answer(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    let days = desk.floor.with(|form| Days::of(reader, form));
    if !days.dated() {
        return view! { <p class="no-answer" id="no-date">{live(key::SHEET_NO_DATE)}</p> }
            .into_any();
    }
    let all = ahead(good, |from, to| days.between(from, to));
    if all.len() < good.floor.coats.len() || all.is_empty() {
        return view! { <p class="no-answer">{live(key::AFTER_NO_PLAN)}</p> }.into_any();
    }
    let (record, visit) = desk.floor.with(|form| (form.hand_over.clone(), visit(form)));
    let sheet = sheet(reader, days, good, &all, (&record, visit));
    let entries = desk.floor.with(|form| entries(reader, days, good, &all, form));
    let no_night = all.iter().any(|one| !one.knows_a_night).then(|| {
        view! { <p class="caution no-print">{live(key::AFTER_NO_NIGHT)}</p> }
    });
    let missed = all.iter().any(|one| one.next.is_some_and(Next::misses)).then(|| {
        view! {
            <p class="no-answer no-print" role="alert" id="sheet-missed">
                <a href=FloorTab::After.fragment()>{live(key::SHEET_MISSED)}</a>
            </p>
        }
    });
    let early = visit.is_none() && !record.visit.is_empty();
    let early = early.then(|| view! { <p class="caution no-print">{live(key::SHEET_EARLY)}</p> });
    view! {
        {missed}
        {early}
        {no_night}
        <Deeds sheet=sheet.clone() entries=entries />
        {sheet.view()}
    }
    .into_any()
}

/// The visit, at ten in the morning of its day; one before the floor is coated is no visit.
fn visit(form: &FloorFormRecord) -> Option<f64> {
    let date = &form.hand_over.visit;
    super::days::morning(date).filter(|_| *date >= form.first_day)
}

/// What can be done with the sheet.
#[component]
fn Deeds(sheet: Sheet, entries: Vec<Entry>) -> impl IntoView {
    let form = form();
    let told = RwSignal::new(None);
    let said =
        move |ok: bool, text: &'static str| told.set(Some(if ok { text } else { key::NOT_SAVED }));
    let (to_share, to_save) = (sheet.clone(), sheet);
    let print = move |_| {
        // A phone that cannot print says so itself.
        let _ = window().print();
    };
    let share = move |_| {
        files::share(&to_share.title, &to_share.text(), move |ok| {
            if !ok {
                told.set(Some(key::NOT_SHARED));
            }
        });
    };
    let save = move |_| {
        said(files::save_as("floor.html", &to_save.page(), "text/html"), key::SAVED);
    };
    let none = entries.is_empty();
    let save_entries = move |_| {
        // The same names every time, so that a calendar replaces what it took before.
        if form.with_untracked(|form| form.hand_over.id.is_empty()) {
            let id = format!("{:.0}", Date::now());
            form.update(|form| form.hand_over.id = id);
        }
        let id = form.with_untracked(|form| form.hand_over.id.clone());
        let mut entries = entries.clone();
        for entry in &mut entries {
            entry.uid = format!("{}-{id}@pailwise.invalid", entry.uid);
        }
        let text = calendar(&entries, Date::now());
        said(files::save_as("floor.ics", &text, "text/calendar"), key::SAVED);
    };
    view! {
        <div class="deeds no-print">
            <button id="sheet-print" class="button button-deed" type="button" on:click=print>
                {live(key::SHEET_PRINT)}
            </button>
            {files::can_share().then(|| view! {
                <button id="sheet-share" class="button" type="button" on:click=share>
                    {live(key::SHEET_SHARE)}
                </button>
            })}
            <button id="sheet-save" class="button" type="button" on:click=save>
                {live(key::SHEET_SAVE)}
            </button>
            <button
                id="calendar-save"
                class="button"
                type="button"
                disabled=none
                on:click=save_entries
            >
                {live(key::CALENDAR_SAVE)}
            </button>
        </div>
        <p role="status" class="no-print">{move || told.get().map(tr)}</p>
    }
}

/// The sheet for the client.
fn sheet(
    reader: Reader,
    days: Days,
    good: &Good,
    all: &[CoatAhead],
    (record, visit): (&HandOverRecord, Option<f64>),
) -> Sheet {
    let say = |key: &str| reader.language.say(key, &[]);
    let mut blocks = Vec::new();
    let row = |label: &str, value: String| Block::Row(say(label), value);
    if !record.client.trim().is_empty() {
        blocks.push(row(key::SHEET_CLIENT, record.client.trim().to_owned()));
    }
    for one in all {
        let day = days.date(one.begins);
        blocks.push(Block::Row(good.products[one.coat].name.clone(), day));
    }
    if good.products.iter().any(|product| product.invented) {
        blocks.push(Block::Words(say(key::SHEET_INVENTED)));
    }
    blocks.push(Block::Heading(say(key::SHEET_USE)));
    let labels = [key::SHEET_LIGHT_USE, key::SHEET_VEHICLES, key::SHEET_CURED];
    for (label, time) in labels.into_iter().zip(in_use(all)) {
        let said = time.map(|at| days.said(at.begins, at.since, Toward::Later));
        blocks.push(row(label, said.unwrap_or_else(|| say(key::SHEET_UNSAID))));
    }
    let nights = all.iter().all(|one| one.knows_a_night);
    let nights = if nights { key::SHEET_NIGHTS } else { key::SHEET_NO_NIGHTS };
    blocks.push(Block::Words(say(nights)));
    if let Some(at) = visit {
        let said = moments::written(at, reader.language, Style::Date);
        blocks.push(row(key::SHEET_WE_COME, said));
    }
    blocks.push(Block::Heading(say(key::SHEET_CARE)));
    for care in [
        key::CARE_DRY,
        key::CARE_CLEANER,
        key::CARE_SPILLS,
        key::CARE_DRAG,
        key::CARE_WHEELS,
        key::CARE_WET,
    ] {
        blocks.push(Block::Item(say(care)));
    }
    blocks.push(Block::Heading(say(key::SHEET_KEEP_OFF)));
    for off in [key::OFF_WATER, key::OFF_RUBBER, key::OFF_ACID, key::OFF_SALT] {
        blocks.push(Block::Item(say(off)));
    }
    if !record.notes.trim().is_empty() {
        blocks.push(Block::Heading(say(key::SHEET_NOTES_HEADING)));
    }
    for line in record.notes.lines().filter(|line| !line.trim().is_empty()) {
        blocks.push(Block::Words(line.to_owned()));
    }
    if !record.crew.trim().is_empty() {
        blocks.push(row(key::SHEET_FROM, record.crew.trim().to_owned()));
    }
    blocks.push(Block::Words(say(key::SHEET_SHEET_FIRST)));
    Sheet { title: say(key::SHEET_TITLE), language: reader.language, blocks }
}

/// The calendar's entries: recoat windows, light use, vehicles, the visit.
fn entries(
    reader: Reader,
    days: Days,
    good: &Good,
    all: &[CoatAhead],
    form: &FloorFormRecord,
) -> Vec<Entry> {
    const HOUR: f64 = 3_600_000.0;
    let say = |key: &str, name: &str| reader.language.say(key, &[("name", name)]);
    let client = form.hand_over.client.trim();
    let entry = |uid: String, starts_ms: f64, ends_ms: f64, summary: String, reminds_min| Entry {
        uid,
        starts_ms,
        ends_ms,
        summary: if client.is_empty() { summary } else { format!("{summary} ({client})") },
        description: say(key::SHEET_SHEET_FIRST, ""),
        reminds_min,
    };
    let mut entries = Vec::new();
    // The window of a coat that another one goes on.
    for one in all.iter().filter(|one| one.next.is_some()) {
        let Some(window) = one.ahead.recoat.filter(|window| !window.shut()) else { continue };
        let Some(opens) = days.moment(one.begins, window.opens, Toward::Later) else { continue };
        let closes = window.closes.and_then(|at| days.moment(one.begins, at, Toward::Earlier));
        let summary = say(key::EVENT_RECOAT, &good.products[one.coat].name);
        let ends = closes.unwrap_or(opens + HOUR).max(opens);
        entries.push(entry(format!("recoat-{}", one.coat), opens, ends, summary, None));
    }
    let named = [
        ("light", key::EVENT_LIGHT_USE),
        ("vehicles", key::EVENT_VEHICLES),
        ("cured", key::EVENT_CURED),
    ];
    for ((uid, text), time) in named.into_iter().zip(in_use(all)) {
        let at = time.and_then(|at| days.moment(at.begins, at.since, Toward::Later));
        if let Some(at) = at {
            entries.push(entry(uid.to_owned(), at, at + HOUR, say(text, ""), None));
        }
    }
    if let Some(at) = visit(form) {
        entries.push(entry("visit".to_owned(), at, at + HOUR, say(key::EVENT_VISIT, ""), Some(60)));
    }
    entries
}
