//! Which coat is looked at, and why there is nothing to see.

use leptos::prelude::*;
use pailwise_kept::answers::floor::{Fault, Found, Typed};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::desk::desk;
use crate::parts::pick::Pick;
use crate::screen::{FloorTab, Screen};
use crate::text::{key, live, tr, tr_with};

/// The coat that is looked at.
pub(super) fn shown_coat(form: &FloorFormRecord) -> usize {
    form.shown.min(form.coats.len().saturating_sub(1))
}

/// The coats by name, one of which is looked at.
#[component]
pub(super) fn CoatPick() -> impl IntoView {
    let desk = desk();
    let coats = Memo::new(move |_| {
        desk.floor.with(|form| {
            let names: Vec<String> =
                form.coats.iter().map(|coat| desk.name_of(&coat.product)).collect();
            (names, shown_coat(form))
        })
    });
    move || {
        let (names, shown) = coats.get();
        let options = names.iter().enumerate().map(|(i, name)| {
            (i, tr_with(key::COAT_OF, &[("n", &(i + 1).to_string()), ("name", name)]))
        });
        view! {
            <Pick
                id="coat-shown"
                label=key::PLAN_SHOWN
                options=options.collect()
                chosen=shown
                choose=move |i| desk.floor.update(|form| form.shown = i)
            />
        }
    }
}

/// What the screen says where there is no plan.
pub(super) fn refusal(reader: Reader, found: &Found) -> AnyView {
    match found {
        Found::CoatGone => {
            view! { <p class="no-answer" role="alert">{live(key::COAT_GONE)}</p> }.into_any()
        }
        Found::NoCoat => view! { <p class="no-answer">{live(key::NO_COAT)}</p> }.into_any(),
        Found::Faults(faults) => no_plan(reader, faults).into_any(),
        Found::Wrong(error) => {
            let text = say::error(reader, error);
            view! { <div class="no-answer" role="alert"><p>{text}</p></div> }.into_any()
        }
        Found::Plans(_) => ().into_any(),
    }
}

/// Which measures keep the plan from being there.
fn no_plan(reader: Reader, faults: &[Fault]) -> impl IntoView + use<> {
    let items = faults.iter().map(|fault| {
        let line = say::invalid(reader, &tr(fault.place.label), fault.invalid);
        let at = match fault.place.typed {
            Typed::Mix => Screen::Mix.fragment().to_owned(),
            Typed::Plan => FloorTab::Plan.fragment(),
            Typed::Ready => FloorTab::Ready.fragment(),
            Typed::Load => FloorTab::Load.fragment(),
        };
        view! { <li><a href=at>{line}</a></li> }
    });
    view! {
        <div class="no-answer" role="alert">
            <p>{live(key::NO_ANSWER)}</p>
            <ul>{items.collect_view()}</ul>
        </div>
    }
}
