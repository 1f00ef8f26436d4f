//! The Products screen: the owner's shelf. Profiles are written here from their data sheets, kept
//! in order, and handed on.

mod drafting;
mod edit;
mod find;
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
use crate::screen::{Here, Spot};

/// The screen.
#[component]
pub(crate) fn Products(here: Here) -> impl IntoView {
    let spot = here.spot();
    let opened = RwSignal::new(Opened::default());
    view! {
        <div class="products">
            {move || match spot.get() {
                Spot::Shelf => view! { <shelf::Shelf opened=opened /> }.into_any(),
                Spot::Edit(id) => view! { <edit::Edit id=id new=false /> }.into_any(),
                Spot::New(id) => view! { <edit::Edit id=id new=true /> }.into_any(),
                Spot::Lot(id) => view! { <lot::Lot id=id /> }.into_any(),
                Spot::Share(id) => view! { <share::Share what=share::What::Product(id) /> }.into_any(),
                Spot::ShareAll => view! { <share::Share what=share::What::Shelf /> }.into_any(),
                Spot::ShareFloor => view! { <share::Share what=share::What::Floor /> }.into_any(),
                Spot::Phone => view! { <phone::Phone opened=opened /> }.into_any(),
                Spot::Link(packed) => take::take_link(&packed),
                Spot::File => take::take_file(opened),
            }}
        </div>
    }
}
