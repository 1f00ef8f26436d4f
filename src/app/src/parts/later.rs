//! What may be shown a moment later than a key press: pictures, lists and workings follow once the
//! figure that decides is on the screen.

use std::time::Duration;

use leptos::prelude::*;

/// What was found as it is shown a moment later, and whether that is still to come.
///
/// While it is only another answer, it waits until the screen has been painted; what is no answer
/// is taken at once, so that no figure outlives the input it came from.
pub(crate) fn later<T>(found: Memo<T>, answers: fn(&T) -> bool) -> (Memo<T>, Signal<bool>)
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let shown = RwSignal::new(found.get_untracked());
    let waits = RwSignal::new(false);
    Effect::new(move |_| {
        let both = found.with(answers) && shown.with_untracked(answers);
        if !both {
            shown.set(found.get_untracked());
        } else if !waits.get_untracked() && shown.with_untracked(|now| found.with(|new| now != new))
        {
            waits.set(true);
            let settle = move || {
                // The screen may be gone by then.
                let Some(new) = found.try_get_untracked() else { return };
                let _ = shown.try_set(new);
                let _ = waits.try_set(false);
            };
            // After the next painting: a frame is begun, and what follows it is no part of it.
            request_animation_frame(move || set_timeout(settle, Duration::ZERO));
        }
    });
    (Memo::new(move |_| shown.get()), waits.into())
}
