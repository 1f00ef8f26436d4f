//! The fields of the floor's form, wherever on its sides they stand.

use leptos::prelude::*;
use pailwise_kept::entry::Entry;
use pailwise_kept::records::floor::{CoatFormRecord, FloorFormRecord, Measure, Single};

use crate::desk::desk;
use crate::parts::field::Field;
use crate::store::FLOOR;
use crate::text::{key, live, tr, tr_with};

pub(super) fn form() -> RwSignal<FloorFormRecord> {
    desk().floor
}

/// Takes something away from the form, so that it can be undone.
pub(super) fn undoable(what: &'static str, change: impl FnOnce(&mut FloorFormRecord)) {
    step(tr_with(key::DID_REMOVE, &[("what", &tr(what))]), change);
}

/// Changes the form so that it can be undone, and says what was done.
pub(super) fn step(did: String, change: impl FnOnce(&mut FloorFormRecord)) {
    let desk = desk();
    let _ = desk.step(did, &[FLOOR.to_owned()], || {
        desk.floor.update(change);
        Ok::<(), ()>(())
    });
}

/// One measure of the floor, or of the coat at a place.
#[component]
pub(super) fn SingleField(single: Single, #[prop(default = 0)] coat: usize) -> impl IntoView {
    let measure = single.measure();
    view! {
        <FormField
            id=format!("{}-{coat}", measure.label)
            measure=measure
            optional=single.optional()
            get=move |form: &FloorFormRecord| {
                let units = desk().settings.with(|s| s.units);
                form.entry(coat, single).cloned().or_else(|| Some(single.first(units)))
            }
            put=move |form: &mut FloorFormRecord, entry| {
                if let Some(at) = form.entry_mut(coat, single) {
                    *at = entry;
                }
            }
        />
    }
}

/// A field of the form, wherever in it its entry stands.
#[component]
pub(super) fn FormField(
    /// Its name in the page.
    id: String,
    /// Label, allowed range and kind of the value that may be typed.
    measure: Measure,
    /// It may be left empty.
    #[prop(optional)]
    optional: bool,
    /// Its entry; nothing once what it belongs to is gone.
    get: impl Fn(&FloorFormRecord) -> Option<Entry> + Send + Sync + 'static,
    /// Called to write what was typed into its place in the form.
    put: impl Fn(&mut FloorFormRecord, Entry) + Copy + 'static,
) -> impl IntoView {
    let desk = desk();
    let entry = move || {
        let units = desk.settings.with(|s| s.units);
        desk.floor.with(&get).unwrap_or_else(|| Entry::as_typed("", units))
    };
    view! {
        <Field
            id=id
            label=Signal::derive(move || tr(measure.label))
            quantity=measure.field
            kind=measure.kind
            optional=optional
            entry=Signal::derive(entry)
            set=move |entry| desk.floor.update(|form| put(form, entry))
        />
    }
}

/// A part of the coat at a place, or what stands for it when it is gone.
pub(super) fn of_coat<T: Default>(at: usize, part: impl FnOnce(&CoatFormRecord) -> T) -> T {
    form().with(|form| form.coats.get(at).map(part)).unwrap_or_default()
}

/// Changes the coat at a place.
pub(super) fn alter(at: usize, change: impl FnOnce(&mut CoatFormRecord)) {
    form().update(|form| {
        if let Some(coat) = form.coats.get_mut(at) {
            change(coat);
        }
    });
}

/// A time of day, by the phone's own field for one.
#[component]
pub(super) fn TimeField(
    #[prop(into)] id: String,
    label: &'static str,
    time: Signal<String>,
    set: impl Fn(String) + 'static,
) -> impl IntoView {
    view! {
        <div class="pick">
            <label class="field-label" for=id.clone()>{live(label)}</label>
            <input
                id=id
                class="pick-list"
                type="time"
                required=true
                prop:value=time
                on:change:target=move |event| {
                    let time = event.target().value();
                    // An emptied field says nothing new.
                    if !time.is_empty() {
                        set(time);
                    }
                }
            />
        </div>
    }
}
