//! What may come a moment later: pictures, lists and workings follow once the figure that decides
//! is on the screen, and what is folded away is built when there is nothing more urgent.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::time::Duration;

use leptos::prelude::*;

/// What was found as it is shown a moment later, and whether that is still to come.
///
/// Another answer waits until the screen has been painted; what is no answer is taken at once, so
/// that no figure outlives the input it came from.
pub(crate) fn later<T>(
    found: Memo<T>,
    answers: fn(&T) -> bool,
) -> (ReadSignal<Option<T>>, Signal<bool>)
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let shown = RwSignal::new(None::<T>);
    let waits = RwSignal::new(false);
    Effect::new(move |_| {
        if !found.with(answers) {
            shown.set(Some(found.get_untracked()));
        } else if !waits.get_untracked()
            && shown.with_untracked(|now| found.with(|new| now.as_ref() != Some(new)))
        {
            waits.set(true);
            let settle = move || {
                // The screen may be gone by then.
                let Some(new) = found.try_get_untracked() else { return };
                let _ = shown.try_set(Some(new));
                let _ = waits.try_set(false);
            };
            // After the next painting: a frame is begun, and what follows it is no part of it.
            request_animation_frame(move || set_timeout(settle, Duration::ZERO));
        }
    });
    (shown.read_only(), waits.into())
}

type Act = Box<dyn FnOnce()>;

thread_local! {
    static WAITING: RefCell<VecDeque<Act>> = const { RefCell::new(VecDeque::new()) };
    static BUSY: Cell<bool> = const { Cell::new(false) };
    /// How many have been asked for since the last one was built.
    static ASKED: Cell<usize> = const { Cell::new(0) };
}

/// A part of the screen that is built in its turn: one after another, each by itself, so that a
/// tap between them is answered. Until all stand, the page says that it is busy.
pub(crate) fn in_turn(build: impl FnOnce() -> AnyView + 'static) -> impl IntoView {
    let stands = RwSignal::new(false);
    let build = StoredValue::new_local(Some(build));
    soon(Box::new(move || {
        // The screen may be gone by then.
        let _ = stands.try_set(true);
    }));
    move || {
        let build = stands.get().then(|| build.try_update_value(Option::take).flatten());
        build.flatten().map(|build| build())
    }
}

fn soon(act: Act) {
    // Before what waited already: the parts of a part are built before what stands below it.
    let place = ASKED.get();
    ASKED.set(place + 1);
    WAITING.with_borrow_mut(|waiting| waiting.insert(place.min(waiting.len()), act));
    if !BUSY.replace(true) {
        busy(true);
        request_animation_frame(|| set_timeout(one, Duration::ZERO));
    }
}

/// Does the first thing that waits, and the next one later.
fn one() {
    ASKED.set(0);
    if let Some(act) = WAITING.with_borrow_mut(VecDeque::pop_front) {
        act();
    }
    // What it leads to is built right after it, and may ask for more.
    let next = || {
        if WAITING.with_borrow(VecDeque::is_empty) {
            ASKED.set(0);
            BUSY.set(false);
            busy(false);
        } else {
            one();
        }
    };
    set_timeout(next, Duration::ZERO);
}

fn busy(yes: bool) {
    if let Some(page) = document().body() {
        // An attribute of the page itself cannot fail to be set or removed.
        let _ = if yes {
            page.set_attribute("aria-busy", "true")
        } else {
            page.remove_attribute("aria-busy")
        };
    }
}
