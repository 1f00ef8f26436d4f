//! How the answer came about: its working, step by step.

use leptos::prelude::*;

use crate::mix::find::Good;
use crate::mix::say;
use crate::show::Reader;
use crate::text::{key, live, tr};

/// The working of a batch.
pub(super) fn how(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let steps = good.batch.working.iter().map(|step| {
        let figures: Vec<(&str, String)> =
            step.named().map(|(name, figure)| (name, reader.figure(figure))).collect();
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
