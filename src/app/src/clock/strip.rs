//! The batches under way, in a line each on every other screen: what, how long, one tap to the clock.

use leptos::prelude::*;

use super::card::{face_class, sign};
use super::count::{Count, countdown, order};
use super::watch::watch;
use super::watched::Watched;
use crate::desk::desk;
use crate::screen::{CurrentRoute, Screen};
use crate::text::{live, tr};

/// The strip; nothing where nothing is under way, and on the clock itself.
#[component]
pub(crate) fn Strip(here: CurrentRoute) -> impl IntoView {
    let watch = watch();
    let screen = here.screen();
    let ids = Memo::new(move |_| {
        if screen.get() == Screen::Clock {
            return Vec::new();
        }
        watch.batches.with(|all| all.iter().map(|w| w.run.id.clone()).collect::<Vec<_>>())
    });
    move || {
        let lines = ids.get().into_iter().map(|id| view! { <Line id=id /> }).collect_view();
        view! { <aside class="under-way" aria-label=live(Screen::Clock.name())>{lines}</aside> }
    }
}

#[component]
fn Line(id: String) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let watched = Memo::new(move |_| {
        watch.batches.with(|all| all.iter().find(|watched| watched.run.id == id).cloned())
    });
    let at = move |say: fn(&Watched, f64) -> Option<String>| {
        move || watched.with(|w| w.as_ref().and_then(|w| say(w, watch.now.get())))
    };
    let figure = at(|w, now| Count::of(w, w.running.as_ref()?, now).map(|c| countdown(c.left)));
    let says = at(|w, now| Count::of(w, w.running.as_ref()?, now).map(|c| tr(c.says())));
    let what =
        move || watched.with(|w| w.as_ref().map(|w| order(desk.reader(), w, watch.now.get())));
    let status =
        Memo::new(move |_| watched.with(|w| w.as_ref().map(|w| w.status(watch.now.get()))));
    let class = move || status.get().map(|s| format!("under-way-line {}", face_class(s)));
    view! {
        <a class=class href=Screen::Clock.fragment()>
            <span class="under-way-sign" aria-hidden="true">{move || status.get().map(sign)}</span>
            <span class="under-way-what">{what}</span>
            <span class="under-way-count"><strong>{figure}</strong>" "{says}</span>
        </a>
    }
}
