//! The working behind figures: each step with its figures and where they come from, and the
//! figures that lead to their step.

use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use pailwise_calc::quantity::Figure;
use pailwise_calc::record::ProductRecord;
use pailwise_calc::working::{Sentence, Step};
use pailwise_kept::say;
use pailwise_kept::show::Reader;
use web_sys::{Element, HtmlElement};

use crate::text::{key, live, tr, tr_with};

/// A working, folded away: each step with where it comes from, written out when it is opened.
/// Figures around it lead to their step ([`figure`]).
pub(crate) fn how(
    reader: Reader,
    product: Option<&ProductRecord>,
    working: &[Step],
) -> impl IntoView + use<> {
    let keys: Vec<&str> = working.iter().map(|step| step.sentence.key()).collect();
    let kept = StoredValue::new((product.cloned(), working.to_vec()));
    let open = RwSignal::new(false);
    let turned = move |event: leptos::ev::Event| {
        let fold = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        // What it stands in may have been answered anew meanwhile.
        let _ = open.try_set(fold.is_some_and(|fold| fold.has_attribute("open")));
    };
    let print = move |_| {
        // A phone that cannot print says so itself.
        let _ = window().print();
    };
    let inside = move || {
        open.get().then(|| {
            let list = kept
                .with_value(|(product, all)| steps(reader, product.as_ref(), all, Reader::figure));
            view! {
                {list}
                <button class="button button-quiet no-print" type="button" on:click=print>
                    {live(key::HOW_PRINT)}
                </button>
            }
        })
    };
    view! {
        <details class="fold how" data-steps=keys.join(" ") on:toggle=turned>
            <summary>{live(key::HOW)}</summary>
            {inside}
        </details>
    }
}

/// The steps of a working, each with where it comes from, its figures written in some way.
pub(crate) fn steps(
    reader: Reader,
    product: Option<&ProductRecord>,
    working: &[Step],
    write: fn(Reader, Figure) -> String,
) -> impl IntoView + use<> {
    let lines = working.iter().map(|step| {
        let sentence = sentence(reader, product, step, write);
        let source = tr(say::source(step.source));
        view! {
            <li data-step=step.sentence.key() tabindex="-1">
                {sentence}" "<span class="source">{source}</span>
            </li>
        }
    });
    view! { <ol class="working">{lines.collect_view()}</ol> }
}

/// A step in words, with its figures.
pub(crate) fn sentence(
    reader: Reader,
    product: Option<&ProductRecord>,
    step: &Step,
    write: fn(Reader, Figure) -> String,
) -> String {
    let mut figures: Vec<(&str, String)> =
        step.named().map(|(name, figure)| (name, write(reader, figure))).collect();
    let about = step.about.zip(product);
    figures.extend(about.map(|(what, product)| ("what", say::ingredient(reader, product, what))));
    let figures: Vec<(&str, &str)> =
        figures.iter().map(|(name, text)| (*name, text.as_str())).collect();
    reader.language.say(step.sentence.key(), &figures)
}

/// A figure that opens the working it stands beside, at the step that gave it: the nearest one
/// around it, on a card or under it.
pub(crate) fn figure(text: String, step: Sentence) -> impl IntoView {
    let label = tr_with(key::HOW_OPEN, &[("what", &text)]);
    let open = move |event| open_at(&event, step);
    view! {
        <button class="figure" type="button" title=label on:click=open>{text}</button>
    }
}

/// The same for a figure that changes while it stands there, without building it again.
pub(crate) fn live_figure(text: Memo<Option<String>>, step: Sentence) -> impl IntoView {
    let label = move || text.get().map(|text| tr_with(key::HOW_OPEN, &[("what", &text)]));
    let open = move |event| open_at(&event, step);
    view! {
        <button class="figure" type="button" title=label on:click=open>{move || text.get()}</button>
    }
}

fn open_at(event: &leptos::ev::MouseEvent, step: Sentence) {
    let from = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    if let Some(from) = from {
        show(&from, step.key());
    }
}

/// Opens the working nearest to an element, and goes to a step of it.
fn show(from: &Element, step: &'static str) -> Option<()> {
    let selector = format!(".how[data-steps~='{step}']");
    let mut around = from.parent_element()?;
    let fold = loop {
        if let Some(fold) = around.query_selector(&selector).ok()? {
            break fold;
        }
        around = around.parent_element()?;
    };
    fold.set_attribute("open", "").ok()?;
    // It is written out once the page has told it that it is open.
    let go = move || {
        let line = fold.query_selector(&format!("[data-step='{step}']")).ok()??;
        line.scroll_into_view();
        line.dyn_into::<HtmlElement>().ok()?.focus().ok()
    };
    let later = move || {
        // Without it the working stands open all the same.
        let _ = go();
    };
    set_timeout(later, Duration::from_millis(60));
    Some(())
}
