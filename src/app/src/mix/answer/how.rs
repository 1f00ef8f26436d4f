//! How the answer came about: its working, step by step.

use leptos::prelude::*;
use pailwise_calc::record::ProductRecord;
use pailwise_calc::working::Step;

use crate::say;
use crate::show::Reader;
use crate::text::{key, live, tr};

/// A working, folded away: each step with where it comes from.
pub(super) fn how(
    reader: Reader,
    product: &ProductRecord,
    working: &[Step],
) -> impl IntoView + use<> {
    let steps = working.iter().map(|step| {
        let mut figures: Vec<(&str, String)> =
            step.named().map(|(name, figure)| (name, reader.figure(figure))).collect();
        figures.extend(step.about.map(|what| ("what", say::ingredient(reader, product, what))));
        let figures: Vec<(&str, &str)> =
            figures.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let sentence = reader.language.say(step.sentence.key(), &figures);
        let source = tr(say::source(step.source));
        view! { <li>{sentence}" "<span class="source">{source}</span></li> }
    });
    view! {
        <details class="fold">
            <summary>{live(key::HOW)}</summary>
            <ol class="working">{steps.collect_view()}</ol>
        </details>
    }
}
