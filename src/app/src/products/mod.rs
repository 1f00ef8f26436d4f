//! The Products screen: the owner's shelf. Profiles are written here from their data sheets, kept
//! in order, and handed on.

mod drafting;
mod edit;
mod lot;
mod phone;
mod preview;
mod sections;
mod share;
mod shelf;
mod take;
mod take_run;

use leptos::prelude::*;

use crate::files::Opened;
use crate::screen::{CurrentRoute, ShelfRoute};

/// The Products screen: the shelf, or the form or panel opened from it.
#[component]
pub(crate) fn Products(here: CurrentRoute) -> impl IntoView {
    let spot = here.spot();
    let opened = RwSignal::new(Opened::default());
    view! {
        <div class="products">
            {move || match spot.get() {
                ShelfRoute::Shelf => view! { <shelf::Shelf opened=opened /> }.into_any(),
                ShelfRoute::Edit(id) => view! { <edit::Edit id=id new=false /> }.into_any(),
                ShelfRoute::New(id) => view! { <edit::Edit id=id new=true /> }.into_any(),
                ShelfRoute::Lot(id) => view! { <lot::Lot id=id /> }.into_any(),
                ShelfRoute::Share(id) => view! { <share::Share what=share::What::Product(id) /> }.into_any(),
                ShelfRoute::ShareAll => view! { <share::Share what=share::What::Shelf /> }.into_any(),
                ShelfRoute::ShareFloor => view! { <share::Share what=share::What::Floor /> }.into_any(),
                ShelfRoute::Phone => view! { <phone::Phone opened=opened /> }.into_any(),
                ShelfRoute::Link(packed) => take::take_link(&packed),
                ShelfRoute::File => take::take_file(opened),
            }}
        </div>
    }
}
