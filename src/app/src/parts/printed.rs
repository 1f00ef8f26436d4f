//! A figure as a data sheet prints it: a field, and the unit it is printed in.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_kept::entry::{Entry, Invalid, Kind, limits};
use pailwise_kept::units::Units;

use crate::text::{key, tr, tr_with};

/// A field for one figure. Another unit is another reading of the same digits.
#[component]
pub(crate) fn Printed(
    /// Its name in the page.
    #[prop(into)]
    id: String,
    /// Text of its label.
    label: &'static str,
    /// Text of a line that says what it is.
    hint: Option<&'static str>,
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
) -> impl IntoView {
    let units = Memo::new(move |_| entry.with(|entry| entry.units));
    // Nothing is wrong with a figure that nobody has come to yet; the list of what is missing
    // names it.
    let problem = Memo::new(move |_| problem_said(&entry.get(), quantity, kind));
    let choose = move |units: Units| {
        let text = entry.with_untracked(|entry| entry.text.clone());
        set(Entry { text, units });
    };
    let unit = unit_choice(format!("{id}-unit"), label, kind, units, choose);
    let problem_id = format!("{id}-problem");
    let described = problem_id.clone();
    view! {
        <div class="field" class:field-unfit=move || problem.with(Option::is_some)>
            <label class="field-label" for=id.clone()>
                {move || tr(label)}
                {move || optional.then(|| view! { <span class="optional">" "{tr(key::OPTIONAL)}</span> })}
            </label>
            {hint.map(|hint| view! { <p class="hint">{move || tr(hint)}</p> })}
            <div class="printed-row">
                <input
                    id=id
                    class="field-input"
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    enterkeyhint="next"
                    aria-invalid=move || problem.with(|p| p.is_some().to_string())
                    aria-describedby=described
                    prop:value=move || entry.with(|entry| entry.text.clone())
                    on:input:target=move |event| {
                        set(Entry::as_typed(event.target().value(), units.get_untracked()));
                    }
                />
                {unit}
            </div>
            <p id=problem_id class="field-problem">{move || problem.get()}</p>
        </div>
    }
}

/// What is wrong with a figure that was given, and whether another unit would make it right.
fn problem_said(given: &Entry, quantity: Quantity, kind: Kind) -> Option<String> {
    let invalid = given.value(kind, quantity).err()?;
    let (low, high) = limits(kind, quantity, given.units);
    let most = tr_with(kind.unit(given.units), &[("n", &high)]);
    let other = given.units.other();
    let would = Entry::as_typed(given.text.clone(), other).value(kind, quantity).is_ok();
    let text = match invalid {
        Invalid::Empty => return None,
        Invalid::Unreadable => key::FIELD_UNREADABLE_PRINTED,
        Invalid::OutOfRange { .. } if would => key::FIELD_OTHER_UNIT,
        Invalid::OutOfRange { .. } => key::FIELD_OUT_OF_RANGE,
    };
    let unit = tr_with(kind.unit(other), &[("n", "")]);
    let figures =
        [("given", given.text.trim()), ("low", &low), ("high", &most), ("unit", unit.trim())];
    Some(tr_with(text, &figures))
}

/// The unit that a figure is printed in, with a choice where its kind has two.
fn unit_choice(
    id: String,
    label: &'static str,
    kind: Kind,
    units: Memo<Units>,
    choose: impl Fn(Units) + 'static,
) -> AnyView {
    let said = move |units: Units| tr_with(kind.unit(units), &[("n", "")]).trim().to_owned();
    if kind.unit(Units::Us) == kind.unit(Units::Metric) {
        return view! { <span>{move || said(units.get())}</span> }.into_any();
    }
    let chosen = move |text: String| {
        choose(if text == "us" { Units::Us } else { Units::Metric });
    };
    view! {
        <select
            id=id
            class="printed-unit"
            aria-label=move || tr_with(key::UNIT_OF, &[("what", &tr(label))])
            on:change:target=move |event| chosen(event.target().value())
        >
            <option value="us" selected=move || units.get() == Units::Us>
                {move || said(Units::Us)}
            </option>
            <option value="metric" selected=move || units.get() == Units::Metric>
                {move || said(Units::Metric)}
            </option>
        </select>
    }
    .into_any()
}
