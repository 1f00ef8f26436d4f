//! Writing a product from its data sheet: the form, what is wrong or missing or doubtful in it,
//! and what the product would do.

use leptos::prelude::*;
use pailwise_calc::field::Field;
use pailwise_calc::product::Gap;
use pailwise_calc::quantity::Figure;
use pailwise_calc::record::ProductRecord;
use pailwise_calc::sheet::{Absent, Doubt, Why};
use pailwise_kept::answers::product::{Fault, Found, find};
use pailwise_kept::records::draft::DraftRecord;
use pailwise_kept::records::sheet::{Single, id_of, label_of};
use pailwise_kept::say;
use pailwise_kept::show::Reader;
use pailwise_kept::units::Units;

use super::drafting::{Draft, draft};
use super::preview::{Tonight, preview};
use super::sections::Sections;
use crate::desk::{Desk, desk};
use crate::files;
use crate::moments;
use crate::parts::jump::jump;
use crate::screen::ShelfRoute;
use crate::store::{self, DRAFTS, PRODUCTS};
use crate::text::{key, live, tr, tr_with};

/// The draft as it is kept, or the form of the product of its id, untouched; and whether changes
/// may be kept.
fn read(id: &str, new: bool) -> Option<(DraftRecord, bool)> {
    let desk = desk();
    let units = desk.settings.with_untracked(|s| s.units);
    let product = untrack(|| desk.product_of(id));
    let there = product.is_some() || new || store::drafted(id);
    let first = || match &product {
        Some(product) => DraftRecord::of(product, units),
        None => DraftRecord::new(id, units),
    };
    there.then(|| desk.record_or(&format!("{DRAFTS}{id}"), first))
}

/// The form of a product, by id.
#[component]
pub(super) fn Edit(
    id: String,
    /// It may be one that is not there yet.
    new: bool,
) -> impl IntoView {
    let Some((first, keeps)) = read(&id, new) else {
        return view! {
            <section class="card">
                <p>{live(key::NO_SUCH_PRODUCT)}</p>
                <a class="button button-link" href=ShelfRoute::Shelf.fragment()>{live(key::BACK)}</a>
            </section>
        }
        .into_any();
    };
    let record = RwSignal::new(first);
    let key = StoredValue::new(format!("{DRAFTS}{id}"));
    provide_context(Draft { record, key });
    provide_context(Tonight::first(desk().settings.with_untracked(|s| s.units)));
    if keeps {
        keep(record, key, id, new);
    }
    view! {
        <div class="mix">
            <section class="questions" aria-label=live(key::SHEET)>
                <Sections />
            </section>
            <section class="answer" aria-label=live(key::CHECKS)>
                <Answer />
            </section>
        </div>
        <SaveBar />
    }
    .into_any()
}

/// Keeps the draft as long as it differs from what is on the shelf, and follows other tabs and
/// undoing.
fn keep(record: RwSignal<DraftRecord>, key: StoredValue<String>, id: String, new: bool) {
    let desk = desk();
    Effect::new(move |_| {
        let draft = record.get();
        let key = key.get_value();
        if changed(&draft) {
            // Told of; what was typed stays on the screen.
            let _ = desk.wrote(store::save(&key, &draft));
        } else {
            store::remove(&key);
        }
    });
    Effect::new(move |before: Option<u32>| {
        let now = desk.rereads.get();
        if before.is_some_and(|before| before != now)
            && let Some((kept, true)) = read(&id, new)
            && record.with_untracked(|draft| *draft != kept)
        {
            record.set(kept);
        }
        now
    });
}

/// Whether something was typed that is not on the shelf.
fn changed(draft: &DraftRecord) -> bool {
    let units = desk().settings.with_untracked(|s| s.units);
    match &draft.was {
        // The same product may be printed in two ways, by the units of the moment.
        Some(was) => {
            let untouched = |units| *draft == DraftRecord::of(was, units);
            !untouched(units) && !Units::ALL.into_iter().any(untouched)
        }
        None => Units::ALL.into_iter().all(|units| *draft != DraftRecord::new(&draft.id, units)),
    }
}

/// What the form comes to.
fn found() -> Memo<Found> {
    let draft = draft();
    Memo::new(move |_| draft.record.with(find))
}

#[component]
fn Answer() -> impl IntoView {
    let found = found();
    let desk = desk();
    view! {
        {move || {
            let reader = desk.reader();
            match found.get() {
                Found::Faults(faults) => {
                    let line = |fault: &Fault| jump(&fault.place.id, say_fault(reader, fault));
                    wrong(faults.iter().map(line).collect())
                }
                Found::Wrong(error) => {
                    let said = say::error(reader, &error);
                    let at = error.field().and_then(id_of);
                    wrong(vec![match at {
                        Some(id) => jump(&id, said),
                        None => said.into_any(),
                    }])
                }
                Found::Good(good) => {
                    let doubts = good.doubts.iter().map(|doubt| say_doubt(reader, doubt));
                    let gaps = good.product.gaps().iter().map(|gap| say_gap(*gap));
                    let absent = good.absent.iter().map(|absent| tr(say_absent(*absent)));
                    let missing = gaps.chain(absent).collect();
                    let namesake = namesake(desk, &good.record);
                    view! {
                        {namesake.then(|| view! { <p class="caution">{live(key::DOUBT_NAMESAKE)}</p> })}
                        {list(key::CHECK_DOUBTS, "caution", doubts.collect())}
                        {preview(reader, &good)}
                        {list(key::CHECK_MISSING, "small", missing)}
                    }
                    .into_any()
                }
            }
        }}
    }
}

/// Whether another product on the shelf has the same name.
fn namesake(desk: Desk, record: &ProductRecord) -> bool {
    let name = record.name.to_lowercase();
    desk.shelf.with(|shelf| {
        shelf.iter().any(|other| other.id != record.id && other.name.to_lowercase() == name)
    })
}

/// What keeps the product from being there.
fn wrong(lines: Vec<AnyView>) -> AnyView {
    view! {
        <div class="card no-answer" id="sheet-wrong">
            <h2>{live(key::CHECK_WRONG)}</h2>
            <ul>{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        </div>
    }
    .into_any()
}

fn list(title: &'static str, class: &'static str, lines: Vec<String>) -> Option<AnyView> {
    (!lines.is_empty()).then(|| {
        let lines = lines.into_iter().map(|line| view! { <li class=class>{line}</li> });
        view! {
            <section class="card">
                <h2>{live(title)}</h2>
                <ul class="checks">{lines.collect_view()}</ul>
            </section>
        }
        .into_any()
    })
}

fn say_fault(reader: Reader, fault: &Fault) -> String {
    let what = match fault.place.row {
        Some((row, n)) => {
            let (row, n) = (tr(row.name()), (n + 1).to_string());
            let label = tr(fault.place.label);
            tr_with(key::CHECK_IN_ROW, &[("row", &row), ("n", &n), ("what", &label)])
        }
        None => tr(fault.place.label),
    };
    say::invalid(reader, &what, fault.invalid)
}

fn say_doubt(reader: Reader, doubt: &Doubt) -> String {
    let label = tr(label_of(doubt.field).unwrap_or(key::FIELD_BEHIND));
    // Of several lines, which; of a single figure there is no number to say.
    let numbered = Single::ALL.into_iter().all(|single| single.ask().field != doubt.field);
    let label = if numbered && doubt.field != Field::Parts {
        format!("{label} ({})", doubt.row + 1)
    } else {
        label
    };
    let given = reader.figure(doubt.given);
    match doubt.why {
        Why::Unusual { low, high } => tr_with(
            key::DOUBT_UNUSUAL,
            &[
                ("what", &label),
                ("given", &given),
                ("low", &reader.figure(low)),
                ("high", &reader.figure(high)),
            ],
        ),
        Why::OffBalance => tr_with(key::DOUBT_BALANCE, &[("balance", &given)]),
        Why::OfFirstKit { kit } => tr_with(key::DOUBT_FIRST_KIT, &[("kit", &reader.figure(kit))]),
        Why::WindowShut { at } => tr_with(key::DOUBT_SHUT, &[("at", &reader.figure(at))]),
        Why::HardlyShorter { colder, warmer } => {
            pair(reader, key::DOUBT_HARDLY_SHORTER, &label, colder, warmer)
        }
        Why::MuchShorter { colder, warmer } => {
            pair(reader, key::DOUBT_MUCH_SHORTER, &label, colder, warmer)
        }
        Why::MassesDisagree => tr(key::DOUBT_MASSES),
        Why::StandsTooLong { pot_life } => {
            let life = reader.figure(pot_life);
            tr_with(key::DOUBT_STANDS, &[("given", &given), ("life", &life)])
        }
        Why::BeforeEarlier { earlier, at } => {
            let first = tr(label_of(earlier).unwrap_or(key::FIELD_BEHIND));
            let at = reader.figure(at);
            let figures = [("what", &*label), ("given", &*given), ("first", &*first), ("at", &*at)];
            tr_with(key::DOUBT_ORDER, &figures)
        }
    }
}

/// A doubt about two times of which one is at a warmer temperature.
fn pair(
    reader: Reader,
    text: &'static str,
    label: &str,
    colder: (Figure, Figure),
    warmer: (Figure, Figure),
) -> String {
    tr_with(
        text,
        &[
            ("what", label),
            ("cold_time", &reader.figure(colder.0)),
            ("cold", &reader.figure(colder.1)),
            ("warm_time", &reader.figure(warmer.0)),
            ("warm", &reader.figure(warmer.1)),
        ],
    )
}

fn say_gap(gap: Gap) -> String {
    tr(say::gap(gap))
}

fn say_absent(absent: Absent) -> &'static str {
    match absent {
        Absent::Kits => key::ABSENT_KITS,
        Absent::RecoatOpens => key::ABSENT_RECOAT_OPENS,
        Absent::RecoatCloses => key::ABSENT_RECOAT_CLOSES,
        Absent::LightUse => key::ABSENT_LIGHT_USE,
        Absent::Vehicles => key::ABSENT_VEHICLES,
        Absent::SlabLimits => key::ABSENT_SLAB,
        Absent::Moisture => key::ABSENT_MOISTURE,
        Absent::Sheet => key::ABSENT_SHEET,
    }
}

/// How it stands, and putting it on the shelf.
#[component]
fn SaveBar() -> impl IntoView {
    let desk = desk();
    let Draft { record, key } = draft();
    let found = found();
    let good = Memo::new(move |_| found.with(|found| matches!(found, Found::Good(_))));
    let differs = Memo::new(move |_| record.with(changed));
    // Another hand may have changed the product since the form was opened.
    let overtaken = Memo::new(move |_| {
        let (id, was) = record.with(|draft| (draft.id.clone(), draft.was.clone()));
        // What the crew has learnt since is no change of the sheet.
        let same = |now: &ProductRecord, was: &ProductRecord| {
            *now == ProductRecord {
                lot: now.lot.clone(),
                learnt: now.learnt.clone(),
                ..was.clone()
            }
        };
        let as_it_was = match (desk.product_of(&id), &was) {
            (Some(now), Some(was)) => same(&now, was),
            (now, was) => now.is_none() && was.is_none(),
        };
        differs.get() && !as_it_was
    });
    let state = move || match found.get() {
        Found::Faults(faults) => tr_with(key::SAVE_WRONG, &[("count", &faults.len().to_string())]),
        Found::Wrong(_) => tr_with(key::SAVE_WRONG, &[("count", "1")]),
        Found::Good(_) if differs.get() => tr(key::SAVE_READY),
        Found::Good(_) => tr(key::SAVE_AS_IS),
    };
    let save = move |_| {
        let Found::Good(good) = found.get_untracked() else { return };
        let mut product = good.record;
        product.revised = Some(moments::now());
        // The crew goes on learning while the owner writes.
        if let Some(shelf) = untrack(|| desk.product_of(&product.id)) {
            (product.lot, product.learnt) = (shelf.lot, shelf.learnt);
        }
        let what = tr_with(key::DID_SAVE, &[("name", &product.name)]);
        let keys = [format!("{PRODUCTS}{}", product.id), key.get_value()];
        let kept = desk.step(what, &keys, || desk.put_product(product.clone()));
        if kept.is_ok() {
            // The form is now that of the product on the shelf; its draft goes with it.
            let units = desk.settings.with_untracked(|s| s.units);
            record.set(DraftRecord::of(&product, units));
            files::ask_to_persist(|_| {});
            ShelfRoute::Shelf.go();
        }
    };
    let discard = move |_| {
        let name = record.with_untracked(|draft| draft.name.clone());
        let name = if name.trim().is_empty() { tr(key::SHEET_NO_NAME) } else { name };
        let (key, was) = (key.get_value(), record.with_untracked(|draft| draft.was.clone()));
        let _ = desk.step(
            tr_with(key::DID_DISCARD, &[("name", &name)]),
            std::slice::from_ref(&key),
            || {
                store::remove(&key);
                Ok::<(), ()>(())
            },
        );
        let units = desk.settings.with_untracked(|s| s.units);
        let shelf = record.with_untracked(|draft| untrack(|| desk.product_of(&draft.id)));
        if let Some(product) = shelf.or(was) {
            record.set(DraftRecord::of(&product, units));
        }
        ShelfRoute::Shelf.go();
    };
    view! {
        <Show when=move || overtaken.get()>
            <p class="notice" role="alert">{live(key::SAVE_OVERTAKEN)}</p>
        </Show>
        <div class="save-bar">
            <p class="save-state" role="status">{state}</p>
            <button
                id="sheet-save"
                class="button button-deed"
                type="button"
                disabled=move || !good.get() || !differs.get()
                on:click=save
            >
                {live(key::SAVE)}
            </button>
            <button class="button" type="button" on:click=discard>
                {move || tr(if differs.get() { key::DISCARD } else { key::BACK })}
            </button>
        </div>
    }
}
