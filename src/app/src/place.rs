//! Where in the app one is: the fragment of the address, so that back, reload and a link hold.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;

use crate::text::key;

/// A place of the app.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Place {
    /// The next batch.
    #[default]
    Mix,
    /// The whole floor.
    Floor,
}

impl Place {
    /// All of them, in the order of the bar.
    pub const ALL: [Self; 2] = [Self::Mix, Self::Floor];

    /// Its fragment.
    pub fn fragment(self) -> &'static str {
        match self {
            Self::Mix => "#mix",
            Self::Floor => "#floor",
        }
    }

    /// The text of its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mix => key::PLACE_MIX,
            Self::Floor => key::PLACE_FLOOR,
        }
    }

    /// The place a fragment names; what names none is the first.
    ///
    /// ```
    /// use pailwise_app::place::Place;
    /// assert_eq!(Place::of("#floor"), Place::Floor);
    /// assert_eq!(Place::of("#ask-slab"), Place::Mix);
    /// ```
    pub fn of(fragment: &str) -> Self {
        Self::ALL.into_iter().find(|place| place.fragment() == fragment).unwrap_or_default()
    }
}

/// The place one is at, following the address.
pub fn here() -> ReadSignal<Place> {
    let now = || Place::of(&window().location().hash().unwrap_or_default());
    let (place, go) = signal(now());
    let moved = Closure::<dyn FnMut()>::new(move || go.set(now()));
    // Without this the links still work after a reload.
    let _ = window().add_event_listener_with_callback("hashchange", moved.as_ref().unchecked_ref());
    moved.forget();
    place
}
