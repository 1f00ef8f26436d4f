//! What may come a moment later: pictures, lists and workings follow once the figure that decides
//! is on the screen, and what is folded away is built when there is nothing more urgent.

use std::cell::RefCell;
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
}

/// Does something soon: one thing after another, each by itself, so that a tap between them is
/// answered.
pub(crate) fn soon(act: impl FnOnce() + 'static) {
    let first = WAITING.with_borrow_mut(|waiting| {
        waiting.push_back(Box::new(act));
        waiting.len() == 1
    });
    if first {
        request_animation_frame(|| set_timeout(one, Duration::ZERO));
    }
}

/// Does the first thing that waits, and the next one later.
fn one() {
    if let Some(act) = WAITING.with_borrow_mut(VecDeque::pop_front) {
        act();
    }
    if WAITING.with_borrow(|waiting| !waiting.is_empty()) {
        set_timeout(one, Duration::ZERO);
    }
}
