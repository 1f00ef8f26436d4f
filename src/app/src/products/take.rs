//! Taking in what came by link or file: shown first, with what differs, and taken field by field
//! or whole.

use leptos::prelude::*;
use pailwise_calc::product::Product;
use pailwise_calc::record::{FloorRecord, ProductRecord, Unreadable};
use pailwise_kept::answers::describe::{self, In};
use pailwise_kept::exchange::backup::BackupRecord;
use pailwise_kept::exchange::compare::{Case, Compared, compare};
use pailwise_kept::exchange::link::Damaged;
use pailwise_kept::exchange::{Received, Refusal, from_file, from_link};
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use super::take_run::TakeRun;
use crate::desk::handed;
use crate::desk::{Desk, desk};
use crate::files::{self, Opened};
use crate::moments;
use crate::screen::{Screen, ShelfRoute};
use crate::store::{self, FLOOR, Kept, MIX, NotKept, PRODUCTS, RECEIVED};
use crate::text::{key, live, tr, tr_with};

/// What a link brought.
pub(super) fn take_link(packed: &str) -> AnyView {
    take(from_link(packed))
}

/// What a file brought.
pub(super) fn take_file(opened: RwSignal<Opened>) -> AnyView {
    match opened.get_untracked() {
        // The page was loaded again: the file is to be opened again.
        Opened::Nothing => refused(&tr(key::FILE_GONE)),
        Opened::NoText => refused(&tr(key::REFUSED_NO_TEXT)),
        Opened::Text(text) => take(from_file(&text)),
    }
}

fn take(received: Result<Received, Refusal>) -> AnyView {
    let reader = untrack(|| desk().reader());
    match received {
        Ok(Received::Products(products)) => view! { <TakeProducts products=products /> }.into_any(),
        Ok(Received::Floor(floor)) => view! { <TakeFloor floor=*floor /> }.into_any(),
        Ok(Received::Run(run)) => view! { <TakeRun run=*run /> }.into_any(),
        Ok(Received::Backup(backup)) => view! { <TakeBackup backup=backup /> }.into_any(),
        Err(refusal) => refused(&say_refusal(reader, &refusal)),
    }
}

/// Why it is not taken; nothing has been kept of it.
fn refused(why: &str) -> AnyView {
    view! {
        <section class="card no-answer" id="take-refused" role="alert">
            <h2>{live(key::REFUSED_TITLE)}</h2>
            <p>{why.to_owned()}</p>
            <p>{live(key::REFUSED_NOTHING_KEPT)}</p>
            <a class="button button-link" href=ShelfRoute::Shelf.fragment()>{live(key::BACK)}</a>
        </section>
    }
    .into_any()
}

fn say_refusal(reader: Reader, refusal: &Refusal) -> String {
    match refusal {
        Refusal::TooLong | Refusal::Link(Damaged::TooLong) => tr(key::REFUSED_TOO_LONG),
        Refusal::Link(Damaged::Broken) => tr(key::REFUSED_LINK),
        Refusal::Link(Damaged::Newer) | Refusal::Unreadable(Unreadable::Newer { .. }) => {
            tr(key::REFUSED_NEWER)
        }
        Refusal::Unreadable(unreadable) => {
            let at = match unreadable {
                Unreadable::Malformed { at, .. } => shown(at, 80),
                _ => "format".to_owned(),
            };
            let detail = shown(&unreadable.to_string(), 200);
            let detail = tr_with(key::REFUSED_DETAIL, &[("why", &detail)]);
            format!("{} {detail}", tr_with(key::REFUSED_UNREADABLE, &[("at", &at)]))
        }
        Refusal::OtherFormat(format) => {
            tr_with(key::REFUSED_FORMAT, &[("format", &shown(format, 40))])
        }
        Refusal::Product(name, error) if name.is_empty() => {
            tr_with(key::REFUSED_WORDS, &[("why", &say::error(reader, error))])
        }
        Refusal::Product(name, error) => {
            let why = say::error(reader, error);
            tr_with(key::REFUSED_PRODUCT, &[("name", name), ("why", &why)])
        }
        Refusal::Floor(error) => {
            tr_with(key::REFUSED_FLOOR, &[("why", &say::error(reader, error))])
        }
        Refusal::Run(error) => tr_with(key::REFUSED_RUN, &[("why", &say::error(reader, error))]),
        Refusal::Twice(name) => tr_with(key::REFUSED_TWICE, &[("name", name)]),
        Refusal::Empty => tr(key::REFUSED_EMPTY),
        Refusal::Record(at) => tr_with(key::REFUSED_RECORD, &[("key", at)]),
    }
}

/// A text from a file, fit to be shown.
fn shown(text: &str, most: usize) -> String {
    text.chars().filter(|sign| !sign.is_control()).take(most).collect()
}

/// What is to become of a product that came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    /// It is merged as its lines say, or added where it is new.
    Take,
    /// It becomes another product beside those that are here.
    Beside,
    /// It is not taken in, and the shelf stays as it is.
    Leave,
}

/// A product that came in, and what is to become of it.
#[derive(Clone, Debug, PartialEq)]
struct Choice {
    compared: Compared,
    fate: Fate,
}

fn choices(desk: Desk, products: Vec<ProductRecord>) -> Vec<Choice> {
    let shelf = desk.shelf.get_untracked();
    products
        .into_iter()
        .map(|product| {
            let last = match store::load::<ProductRecord>(&format!("{RECEIVED}{}", product.id)) {
                Kept::Found(last) => Some(last),
                _ => None,
            };
            let compared = compare(product, &shelf, last.as_ref());
            let fate = match compared.case {
                Case::Same => Fate::Leave,
                Case::SameName => Fate::Beside,
                Case::New | Case::Newer | Case::Older | Case::ChangedOnBoth | Case::Different => {
                    Fate::Take
                }
            };
            Choice { compared, fate }
        })
        .collect()
}

/// The product that a choice leads to, if any.
fn outcome(desk: Desk, choice: &Choice) -> Option<ProductRecord> {
    let compared = &choice.compared;
    let product = match choice.fate {
        Fate::Leave => return None,
        Fate::Take => compared.merged(&moments::now()),
        Fate::Beside => compared.beside(&desk.shelf.get_untracked()),
    };
    (compared.mine.as_ref() != Some(&product)).then_some(product)
}

/// The keys that taking products in writes.
fn keys(products: &[ProductRecord], choices: &[Choice]) -> Vec<String> {
    let shelf = products.iter().map(|product| format!("{PRODUCTS}{}", product.id));
    let last = choices.iter().map(|choice| format!("{RECEIVED}{}", choice.compared.theirs.id));
    shelf.chain(last).collect()
}

/// Puts products on the shelf, and remembers those that came in as they came.
fn put(desk: Desk, products: Vec<ProductRecord>, choices: &[Choice]) -> Result<(), NotKept> {
    for product in products {
        desk.put_product(product)?;
    }
    for Choice { compared: Compared { theirs, .. }, fate } in choices {
        if *fate == Fate::Take {
            desk.wrote(store::save(&format!("{RECEIVED}{}", theirs.id), theirs))?;
        }
    }
    Ok(())
}

#[component]
fn TakeProducts(products: Vec<ProductRecord>) -> impl IntoView {
    let desk = desk();
    let all = RwSignal::new(choices(desk, products));
    let wrong = RwSignal::new(None);
    let accept = move |_| {
        let chosen = all.get_untracked();
        let products = match agreed(desk, &chosen) {
            Ok(outcomes) => outcomes.into_iter().flatten().collect::<Vec<_>>(),
            Err(why) => return wrong.set(Some(why)),
        };
        let count = products.len().to_string();
        let what = tr_with(key::DID_TAKE, &[("count", &count)]);
        let keys = keys(&products, &chosen);
        if desk.step(what, &keys, || put(desk, products, &chosen)).is_ok() {
            files::ask_to_persist(|_| {});
            ShelfRoute::Shelf.go();
        }
    };
    let count = all.with_untracked(Vec::len);
    let nothing = move || all.with(|all| all.iter().all(|choice| outcome(desk, choice).is_none()));
    view! {
        <section class="card">
            <h2>{live(key::TAKE_TITLE)}</h2>
            <p class="hint">{live(key::TAKE_HINT)}</p>
        </section>
        {(0..count).map(|at| view! { <OneChoice all=all at=at /> }).collect_view()}
        <p class="field-problem" role="alert">{move || wrong.get()}</p>
        <div class="save-bar">
            <p class="save-state" role="status">
                {move || nothing().then(|| tr(key::TAKE_NOTHING_CHOSEN))}
            </p>
            <button
                id="take-accept"
                class="button button-deed"
                type="button"
                disabled=nothing
                on:click=accept
            >
                {live(key::TAKE_ACCEPT)}
            </button>
            <a class="button button-link" href=ShelfRoute::Shelf.fragment()>{live(key::TAKE_NOTHING)}</a>
        </div>
    }
}

/// The product that each choice leads to, if any; or, where one of them is invalid, why: a merge of
/// two fit versions need not be fit.
fn agreed(desk: Desk, chosen: &[Choice]) -> Result<Vec<Option<ProductRecord>>, String> {
    let outcomes: Vec<_> = chosen.iter().map(|choice| outcome(desk, choice)).collect();
    for product in outcomes.iter().flatten() {
        if let Err(error) = Product::try_from(product) {
            let why = say::error(untrack(|| desk.reader()), &error);
            return Err(tr_with(key::TAKE_MERGE_UNFIT, &[("name", &product.name), ("why", &why)]));
        }
    }
    Ok(outcomes)
}

#[component]
fn OneChoice(all: RwSignal<Vec<Choice>>, at: usize) -> impl IntoView {
    let desk = desk();
    let Some(first) = all.with_untracked(|all| all.get(at).cloned()) else {
        return ().into_any();
    };
    let Compared { theirs, mine, case, lines } = first.compared;
    let alter = move |change: &dyn Fn(&mut Choice)| {
        all.update(|all| {
            if let Some(choice) = all.get_mut(at) {
                change(choice);
            }
        });
    };
    let fate = Memo::new(move |_| all.with(|all| all.get(at).map(|choice| choice.fate)));
    let said = move || {
        let text = match case {
            Case::New => key::CASE_NEW,
            Case::Same => key::CASE_SAME,
            Case::SameName => key::CASE_SAME_NAME,
            Case::Newer => key::CASE_NEWER,
            Case::Older => key::CASE_OLDER,
            Case::ChangedOnBoth => key::CASE_BOTH,
            Case::Different => key::CASE_DIFFERENT,
        };
        tr(text)
    };
    let offered: &[(Fate, &str)] = match case {
        Case::New => &[(Fate::Take, key::FATE_ADD), (Fate::Leave, key::FATE_LEAVE)],
        Case::Same => &[],
        _ => &[
            (Fate::Take, key::FATE_TAKE),
            (Fate::Beside, key::FATE_BESIDE),
            (Fate::Leave, key::FATE_LEAVE),
        ],
    };
    let fates = offered.iter().map(|(option, text)| {
        let (option, text) = (*option, *text);
        view! {
            <label class="choice-option">
                <input
                    type="radio"
                    name=format!("fate-{at}")
                    prop:checked=move || fate.get() == Some(option)
                    on:change=move |_| alter(&|choice| choice.fate = option)
                />
                <span>{live(text)}</span>
            </label>
        }
    });
    let all_lines = move |take: bool| {
        alter(&move |choice| choice.compared.lines.iter_mut().for_each(|line| line.take = take));
    };
    let of = mine.as_ref().map_or(&theirs.id, |mine| &mine.id);
    let drafted = store::drafted(of);
    let theirs = StoredValue::new(theirs);
    let differ = mine.map(|mine| {
        let rows = lines.into_iter().enumerate().map(|(i, line)| {
            let reader = untrack(|| desk.reader());
            let (here, there) =
                theirs.with_value(|theirs| describe::both(reader, (&mine, theirs), line.aspect));
            let taken = move || {
                let line = |all: &Vec<Choice>| all.get(at)?.compared.lines.get(i).copied();
                all.with(line).is_some_and(|line| line.take)
            };
            let set = move |take: bool| {
                alter(&move |choice| {
                    if let Some(line) = choice.compared.lines.get_mut(i) {
                        line.take = take;
                    }
                });
            };
            let side = move |take: bool, label: &'static str, text: String, changed: bool| {
                view! {
                    <label class="side">
                        <input
                            type="radio"
                            name=format!("line-{at}-{i}")
                            prop:checked=move || taken() == take
                            on:change=move |_| set(take)
                        />
                        <span class="side-text">
                            <span class="side-label">
                                {live(label)}
                                {changed.then(|| view! { " · " {live(key::SIDE_CHANGED)} })}
                            </span>
                            {text}
                        </span>
                    </label>
                }
            };
            view! {
                <fieldset class="difference">
                    <legend>{live(describe::name(line.aspect))}</legend>
                    {side(false, key::SIDE_HERE, here, line.changed_here)}
                    {side(true, key::SIDE_THERE, there, line.changed_there)}
                </fieldset>
            }
        });
        let rows = rows.collect_view();
        view! {
            <Show when=move || fate.get() == Some(Fate::Take) && case != Case::Same>
                <div class="deeds">
                    <button class="button" type="button" on:click=move |_| all_lines(true)>
                        {live(key::TAKE_ALL)}
                    </button>
                    <button class="button" type="button" on:click=move |_| all_lines(false)>
                        {live(key::TAKE_NONE)}
                    </button>
                </div>
            </Show>
            <div hidden=move || fate.get() != Some(Fate::Take)>{rows}</div>
        }
    });
    let is_new = case == Case::New;
    let summary = is_new.then(|| {
        let reader = untrack(|| desk.reader());
        let lines = pailwise_calc::record::Aspect::ALL.into_iter().skip(1).filter_map(|aspect| {
            let text =
                theirs.with_value(|theirs| describe::aspect(reader, theirs, aspect, In::Reader));
            (text != "–").then(|| {
                view! {
                    <dt>{live(describe::name(aspect))}</dt>
                    <dd>{text}</dd>
                }
            })
        });
        view! { <dl class="summary">{lines.collect_view()}</dl> }
    });
    view! {
        <section class="card take">
            <h3>
                {theirs.with_value(|theirs| theirs.name.clone())}
                {theirs.with_value(|t| t.invented).then(|| format!(" · {}", tr(key::PRODUCT_INVENTED)))}
            </h3>
            <p class="take-case">{said}</p>
            {drafted.then(|| view! { <p class="caution">{live(key::TAKE_DRAFT)}</p> })}
            <fieldset class="choice">
                <legend class="unseen">{live(key::TAKE_TITLE)}</legend>
                {fates.collect_view()}
            </fieldset>
            {summary}
            {differ}
        </section>
    }
    .into_any()
}

/// A floor that came in: it takes the place of the one here, with the products it needs.
#[component]
fn TakeFloor(floor: FloorRecord) -> impl IntoView {
    let desk = desk();
    let mut products: Vec<ProductRecord> = Vec::new();
    for coat in &floor.coats {
        if products.iter().all(|product| product.id != coat.product.id) {
            products.push(coat.product.clone());
        }
    }
    let all = RwSignal::new(choices(desk, products));
    let crew = RwSignal::new(false);
    let wrong = RwSignal::new(None);
    let floor = StoredValue::new(floor);
    let accept = move |_| {
        let chosen = all.get_untracked();
        let outcomes = match agreed(desk, &chosen) {
            Ok(outcomes) => outcomes,
            Err(why) => return wrong.set(Some(why)),
        };
        // A coat whose product is left, or kept beside under another id, takes what is here.
        let stands_for = |id: &str| {
            let of = |(choice, _): &(&Choice, _)| choice.compared.theirs.id == id;
            let (choice, outcome) = chosen.iter().zip(&outcomes).find(of)?;
            match (choice.fate, &choice.compared.mine) {
                (Fate::Beside, _) => outcome.as_ref().map(|product| product.id.clone()),
                (_, Some(mine)) => Some(mine.id.clone()),
                (Fate::Take, None) => Some(id.to_owned()),
                (Fate::Leave, None) => None,
            }
        };
        let products: Vec<ProductRecord> = outcomes.iter().flatten().cloned().collect();
        let mut keys = keys(&products, &chosen);
        keys.extend([FLOOR.to_owned(), MIX.to_owned()]);
        let taken = desk.step(tr(key::DID_TAKE_FLOOR), &keys, || {
            put(desk, products, &chosen)?;
            floor.with_value(|floor| handed::take(desk, floor, crew.get_untracked(), stands_for));
            Ok::<(), NotKept>(())
        });
        if taken.is_ok() {
            // The address of the page itself cannot fail to be set.
            let _ = window().location().set_hash(Screen::Floor.fragment());
        }
    };
    let count = all.with_untracked(Vec::len);
    let said = move || {
        let reader = desk.reader();
        floor.with_value(|floor| handed::describe(reader, floor))
    };
    view! {
        <section class="card">
            <h2>{live(key::TAKE_FLOOR_TITLE)}</h2>
            <p>{said}</p>
            <p class="hint">{live(key::TAKE_FLOOR_HINT)}</p>
            <crate::parts::toggle::Toggle
                label=key::TAKE_FLOOR_CREW
                on=Signal::derive(move || crew.get())
                set=move |on| crew.set(on)
            />
        </section>
        {(0..count).map(|at| view! { <OneChoice all=all at=at /> }).collect_view()}
        <p class="field-problem" role="alert">{move || wrong.get()}</p>
        <div class="save-bar">
            <button id="take-accept" class="button button-deed" type="button" on:click=accept>
                {live(key::TAKE_FLOOR_ACCEPT)}
            </button>
            <a class="button button-link" href=Screen::Floor.fragment()>{live(key::TAKE_NOTHING)}</a>
        </div>
    }
}

/// A backup that came in: everything on this phone becomes what it was there.
#[component]
fn TakeBackup(backup: BackupRecord) -> impl IntoView {
    let desk = desk();
    let products = backup.products().to_string();
    let made = backup.made.clone();
    let made = move || moments::local(&made, crate::text::language());
    let backup = StoredValue::new(backup);
    let accept = move |_| {
        let mut texts: Vec<(String, Option<String>)> = backup.with_value(|backup| {
            backup.records.iter().map(|(key, text)| (key.clone(), Some(text.clone()))).collect()
        });
        for key in store::keys(store::ALL) {
            if texts.iter().all(|(other, _)| *other != key) {
                texts.push((key, None));
            }
        }
        let keys: Vec<String> = texts.iter().map(|(key, _)| key.clone()).collect();
        if desk.step(tr(key::DID_RESTORE), &keys, || desk.write_all(&texts)).is_ok() {
            desk.reread();
            ShelfRoute::Shelf.go();
        }
    };
    view! {
        <section class="card" id="take-backup">
            <h2>{live(key::RESTORE_TITLE)}</h2>
            <p>{move || tr_with(key::RESTORE_OF, &[("made", &made()), ("count", &products)])}</p>
            <p class="caution">{live(key::RESTORE_CAUTION)}</p>
            <super::phone::SaveBackup />
            <div class="deeds">
                <button id="take-accept" class="button button-deed" type="button" on:click=accept>
                    {live(key::RESTORE_ACCEPT)}
                </button>
                <a class="button button-link" href=ShelfRoute::Shelf.fragment()>
                    {live(key::TAKE_NOTHING)}
                </a>
            </div>
        </section>
    }
}
