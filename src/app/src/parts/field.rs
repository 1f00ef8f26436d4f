//! A quantity: a field to type into between two steps, its unit, and what it takes.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_kept::entry::{Entry, Invalid, Kind, limits};
use pailwise_kept::units::Units;

use crate::desk::desk;
use crate::text::{key, tr_with};

/// The keypad that has every sign the field takes: feet, inches and fractions need the full one.
fn keypad(kind: Kind, units: Units) -> &'static str {
    match (kind, units) {
        (Kind::Count, _) => "numeric",
        (Kind::Span | Kind::Small | Kind::Volume | Kind::Dose | Kind::Mass, Units::Us) => "text",
        _ => "decimal",
    }
}

/// What is wrong with what was given, and the range that a quantity may have in these units.
fn problem_said(
    invalid: Invalid,
    given: &str,
    (quantity, kind, units): (Quantity, Kind, Units),
) -> String {
    let (low, high) = limits(kind, quantity, units);
    let most = tr_with(kind.unit(units), &[("n", &high)]);
    let text = match invalid {
        Invalid::Empty => key::FIELD_EMPTY,
        Invalid::Unreadable if kind == Kind::Count => key::FIELD_UNREADABLE_WHOLE,
        Invalid::Unreadable => key::FIELD_UNREADABLE,
        Invalid::OutOfRange { .. } => key::FIELD_OUT_OF_RANGE,
    };
    tr_with(text, &[("given", given.trim()), ("low", &low), ("high", &most)])
}

/// A stepper and field for one entry.
#[component]
pub(crate) fn Field(
    /// Its name in the page.
    #[prop(into)]
    id: String,
    /// Label above the field, in the person's language.
    #[prop(into)]
    label: Signal<String>,
    /// The quantity that is typed, which sets the range allowed.
    quantity: Quantity,
    /// The kind of quantity.
    kind: Kind,
    /// It may be left empty.
    optional: bool,
    /// What stands in it.
    #[prop(into)]
    entry: Signal<Entry>,
    /// Called with what it becomes.
    set: impl Fn(Entry) + Copy + 'static,
    /// The units it is read in, where they are not the person's own.
    #[prop(optional)]
    read_in: Option<Units>,
) -> impl IntoView {
    let settings = desk().settings;
    let units = move || read_in.unwrap_or_else(|| settings.with(|s| s.units));
    let invalid = Memo::new(move |_| {
        entry.with(|entry| {
            let empty = optional && entry.text.trim().is_empty();
            if empty { None } else { entry.value(kind, quantity).err() }
        })
    });
    let problem = move || {
        invalid.get().map(|invalid| {
            let given = entry.with(|entry| entry.text_in(kind, units()));
            problem_said(invalid, &given, (quantity, kind, units()))
        })
    };
    let step = move |up: bool| set(entry.with(|entry| entry.stepped(kind, quantity, units(), up)));
    let suffix = move || tr_with(kind.unit(units()), &[("n", "")]);
    let error_id = format!("{id}-problem");
    let described = error_id.clone();
    view! {
        <div class="field" class:field-unfit=move || invalid.with(Option::is_some)>
            <label class="field-label" for=id.clone()>{label}</label>
            <div class="field-row">
                <button
                    class="field-step"
                    type="button"
                    aria-label=move || tr_with(key::FIELD_LESS, &[("what", &label.get())])
                    on:click=move |_| step(false)
                >
                    "−"
                </button>
                <input
                    id=id
                    class="field-input"
                    type="text"
                    inputmode=move || keypad(kind, units())
                    autocomplete="off"
                    enterkeyhint="done"
                    aria-invalid=move || invalid.with(|u| u.is_some().to_string())
                    aria-describedby=described
                    prop:value=move || entry.with(|entry| entry.text_in(kind, units()))
                    on:input:target=move |event| set(Entry::as_typed(event.target().value(), units()))
                    on:focus:target=move |event| event.target().select()
                />
                <button
                    class="field-step"
                    type="button"
                    aria-label=move || tr_with(key::FIELD_MORE, &[("what", &label.get())])
                    on:click=move |_| step(true)
                >
                    "+"
                </button>
                <span>{suffix}</span>
            </div>
            <p id=error_id class="field-problem">{problem}</p>
        </div>
    }
}
