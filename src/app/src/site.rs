//! The site on the phone: kept there whole by its worker, so that it works without signal. A newer
//! build is put to use when the person says so, and not while a batch is under way.

use leptos::prelude::*;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::Reflect;
use web_sys::{MessageEvent, ServiceWorkerContainer, ServiceWorkerRegistration};

use crate::desk::desk;
use crate::text::{key, live};

/// The worker's file, beside the page.
const WORKER: &str = "worker.js";
/// What the worker is asked: which builds it knows of.
const WHICH: &str = "which";
/// What the worker is told: to put its own build to use.
const USE: &str = "use";

/// How the site is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kept {
    /// Not, or not yet.
    Not,
    /// The whole site is kept, in the build on the screen.
    Whole,
    /// Another build than the one on the screen is to be had.
    Newer,
}

/// The site, in the context of the app.
#[derive(Clone, Copy)]
pub(crate) struct Site {
    kept: RwSignal<Kept>,
    /// The person has said to use the newer build.
    wanted: StoredValue<bool>,
}

impl Site {
    /// Has the site kept, where it was built to be and the browser can.
    pub(crate) fn follow() -> Self {
        let site = Self { kept: RwSignal::new(Kept::Not), wanted: StoredValue::new(false) };
        if let (Some(build), Some(workers)) = (own_build(), workers()) {
            site.listen(&workers, build);
            ask(&workers, WHICH);
            spawn_local(register(workers));
        }
        site
    }

    /// Hears from the worker which build it holds and which is in use.
    fn listen(self, workers: &ServiceWorkerContainer, build: String) {
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let said = |name: &str| Reflect::get(&event.data(), &name.into()).ok()?.as_string();
            let (Some(held), Some(in_use)) = (said("build"), said("inUse")) else { return };
            if self.wanted.get_value() && in_use == held {
                // Where the browser will not, the next time the app is opened does the same.
                let _ = window().location().reload();
            }
            let same = held == build && in_use == build;
            self.kept.set(if same { Kept::Whole } else { Kept::Newer });
        });
        workers.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        heard.forget();
        let again = workers.clone();
        // Another worker has come: the first one, or one with a newer build.
        let changed = Closure::<dyn FnMut()>::new(move || ask(&again, WHICH));
        workers.set_oncontrollerchange(Some(changed.as_ref().unchecked_ref()));
        changed.forget();
    }

    /// Puts the newer build to use and loads it.
    fn renew(self) {
        self.wanted.set_value(true);
        if let Some(workers) = workers() {
            ask(&workers, USE);
        }
    }
}

/// The build that this page was made by; none where it is served while it is worked on.
fn own_build() -> Option<String> {
    document().query_selector("meta[name='build']").ok()??.get_attribute("content")
}

/// The page's workers, where the browser has any.
fn workers() -> Option<ServiceWorkerContainer> {
    let navigator = window().navigator();
    let has = Reflect::has(&navigator, &"serviceWorker".into()).unwrap_or(false);
    has.then(|| navigator.service_worker())
}

fn ask(workers: &ServiceWorkerContainer, what: &str) {
    if let Some(worker) = workers.controller() {
        // A worker that is gone has nothing to say; its successor is asked again.
        let _ = worker.post_message(&JsValue::from_str(what));
    }
}

/// Has the worker notify, which some phones leave to it alone; says whether there is one.
pub(crate) fn notify(words: &str) -> bool {
    let Some(workers) = workers().filter(|workers| workers.controller().is_some()) else {
        return false;
    };
    let Ok(ready) = workers.ready() else { return false };
    let words = words.to_owned();
    spawn_local(async move {
        let Ok(registered) = JsFuture::from(ready).await else { return };
        let registered: ServiceWorkerRegistration = registered.unchecked_into();
        // A phone that says no has its reasons; the page calls all the same.
        let _ = registered.show_notification(&words);
    });
    true
}

/// Registers the worker, and has it look for a newer build whenever the app is looked at again.
/// Without signal, or where the phone keeps no site, the app works as it is.
async fn register(workers: ServiceWorkerContainer) {
    let Ok(registered) = JsFuture::from(workers.register(WORKER)).await else { return };
    let registered: ServiceWorkerRegistration = registered.unchecked_into();
    let looked = Closure::<dyn FnMut()>::new(move || {
        if !document().hidden()
            && let Ok(looking) = registered.update()
        {
            spawn_local(async move {
                // There is no signal; the next look may find some.
                let _ = JsFuture::from(looking).await;
            });
        }
    });
    let looked_at = looked.as_ref().unchecked_ref();
    // Without this a newer build is found when the app is opened anew.
    let _ = document().add_event_listener_with_callback("visibilitychange", looked_at);
    looked.forget();
}

/// Says that a newer build is here, and puts it to use.
#[component]
pub(crate) fn NewerBuild() -> impl IntoView {
    let desk = desk();
    let site = use_context::<Site>();
    let newer = move || site.is_some_and(|site| site.kept.get() == Kept::Newer);
    let running = move || desk.runs.with(|runs| !runs.is_empty());
    let renew = move |_| {
        if let Some(site) = site {
            site.renew();
        }
    };
    view! {
        <div role="status">
            <Show when=newer>
                <div class="notice" id="newer">
                    <p>{live(key::SITE_NEWER)}</p>
                    <Show
                        when=move || !running()
                        fallback=|| view! { <p>{live(key::SITE_NEWER_WAITS)}</p> }
                    >
                        <button class="button" type="button" on:click=renew>
                            {live(key::SITE_USE)}
                        </button>
                    </Show>
                </div>
            </Show>
        </div>
    }
}

/// Says that the app needs no signal from now on.
#[component]
pub(crate) fn KeptHere() -> impl IntoView {
    let site = use_context::<Site>();
    let kept = move || site.is_some_and(|site| site.kept.get() != Kept::Not);
    view! {
        <Show when=kept>
            <p class="foot-line" id="kept-here">{live(key::SITE_KEPT)}</p>
        </Show>
    }
}
