//! What this phone keeps: all of it in a file, all of it back, and what was set aside as damaged.

use std::collections::BTreeMap;

use leptos::prelude::*;
use pailwise_kept::exchange::backup::BackupRecord;

use super::shelf::OpenFile;
use crate::desk::desk;
use crate::files::{self, Opened};
use crate::moments;
use crate::screen::ShelfRoute;
use crate::store::{self, ASIDE};
use crate::text::{key, live, tr, tr_with};

/// Panel to save or open a backup, and to deal with damaged records.
#[component]
pub(super) fn Phone(opened: RwSignal<Opened>) -> impl IntoView {
    let persists = RwSignal::new(None);
    view! {
        <section class="card">
            <h2>{live(key::PHONE)}</h2>
            <p class="hint">{live(key::PHONE_HINT)}</p>
            <SaveBackup />
            <OpenFile opened=opened />
            <button
                class="button"
                type="button"
                on:click=move |_| files::ask_to_persist(move |granted| persists.set(Some(granted)))
            >
                {live(key::PERSIST)}
            </button>
            <p role="status">
                {move || persists.get().map(|granted| {
                    tr(if granted { key::PERSIST_GRANTED } else { key::PERSIST_REFUSED })
                })}
            </p>
            <a class="button button-link" href=ShelfRoute::Shelf.fragment()>{live(key::BACK)}</a>
        </section>
        <Aside />
    }
}

/// A button that saves everything in a file.
#[component]
pub(super) fn SaveBackup() -> impl IntoView {
    let saved = RwSignal::new(None);
    let save = move |_| {
        let texts = store::keys(store::ALL).into_iter().filter_map(|key| {
            let text = store::raw(&key)?;
            Some((key, text))
        });
        let made = moments::now();
        let backup = BackupRecord::of(&made, texts.collect::<BTreeMap<_, _>>());
        let day = made.split('T').next().unwrap_or_default();
        let name = files::file_name(&format!("pailwise-{day}"));
        let text = serde_json::to_string(&backup).ok();
        saved.set(Some(text.is_some_and(|text| files::save(&name, &text))));
    };
    view! {
        <button id="backup-save" class="button button-deed" type="button" on:click=save>
            {live(key::BACKUP)}
        </button>
        <p role="status">
            {move || saved.get().map(|ok| tr(if ok { key::SAVED } else { key::NOT_SAVED }))}
        </p>
    }
}

/// Records that were damaged, each with a way to save it, to try it again, and to let it go.
#[component]
fn Aside() -> impl IntoView {
    let desk = desk();
    let looked = RwSignal::new(0);
    let found = move || {
        looked.track();
        desk.rereads.track();
        store::keys(ASIDE)
    };
    let line = move |at: String| {
        let name = at.trim_start_matches(ASIDE).to_owned();
        let (to_save, to_drop) = (at.clone(), at.clone());
        let file = files::file_name(&name);
        let save = move |_| {
            if let Some(text) = store::raw(&to_save) {
                files::save(&file, &text);
            }
        };
        let what = tr_with(key::DID_DROP_ASIDE, &[("name", &name)]);
        let remove = move |_| {
            let keys = [to_drop.clone()];
            let _ = desk.step(what.clone(), &keys, || {
                store::remove(&to_drop);
                Ok::<(), ()>(())
            });
            looked.update(|n| *n += 1);
        };
        view! {
            <li class="card-row">
                <span class="card-main">{name}</span>
                <div class="card-deeds">
                    <button class="button" type="button" on:click=save>{live(key::ASIDE_SAVE)}</button>
                    <button class="button button-quiet" type="button" on:click=remove>
                        {live(key::DELETE)}
                    </button>
                </div>
            </li>
        }
    };
    view! {
        <Show when=move || !found().is_empty()>
            <section class="card" id="aside">
                <h2>{live(key::ASIDE_TITLE)}</h2>
                <p class="hint">{live(key::ASIDE_HINT)}</p>
                <ul class="cards">{move || found().into_iter().map(line).collect_view()}</ul>
            </section>
        </Show>
    }
}
