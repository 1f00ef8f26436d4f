//! Kits first: whether a whole kit or half of one goes down in one batch, and what that takes.

use leptos::prelude::*;
use pailwise_calc::batch::{Change, KitFirst, Takes};
use pailwise_calc::kit::Portions;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::desk::desk;
use crate::store::MIX;
use crate::text::{key, tr, tr_with};

/// A line a portion, for a crew that measures a product which comes in kits; with what it takes to
/// be tapped.
pub(super) fn kits_first(reader: Reader, good: &Good) -> Option<AnyView> {
    if good.job.gear.kits.is_some() {
        return None;
    }
    let portions = good.job.kits_first();
    // Where a whole one goes down nobody asks for half of one.
    let whole_goes = portions.iter().position(|first| first.takes == Takes::Nothing);
    let asked = whole_goes.map_or(portions.len(), |at| at + 1);
    let lines: Vec<_> = portions.iter().take(asked).map(|first| line(reader, first)).collect();
    (!lines.is_empty()).then(|| view! { <ul class="moves kits-first">{lines}</ul> }.into_any())
}

fn line(reader: Reader, first: &KitFirst) -> impl IntoView + use<> {
    let whole = first.kits.whole();
    let each = reader.stock(first.kits.each);
    let kit = tr_with(if whole { key::KIT_WHOLE } else { key::KIT_HALF }, &[("each", &each)]);
    let count = |text, n: u32| tr_with(text, &[("count", &n.to_string())]);
    let text = match first.takes {
        Takes::Nothing => {
            tr_with(key::KIT_GOES, &[("kit", &kit), ("area", &reader.area(first.covers))])
        }
        Takes::Change(change) => {
            tr_with(key::KIT_TAKES, &[("kit", &kit), ("what", &say::change(reader, change))])
        }
        Takes::People { rolling, flaking } => {
            let people = [(key::KIT_ROLLING, rolling), (key::KIT_FLAKING, flaking)];
            let people = people.into_iter().filter(|(_, n)| *n > 0);
            let people: Vec<String> = people.map(|(text, n)| count(text, n)).collect();
            tr_with(key::KIT_TAKES, &[("kit", &kit), ("what", &people.join(", "))])
        }
        Takes::TooMuch => tr_with(key::KIT_TOO_MUCH, &[("kit", &kit)]),
    };
    let button = match first.takes {
        Takes::Nothing => Some(take(whole, None)),
        Takes::Change(change) => Some(take(whole, Some(change))),
        Takes::People { .. } | Takes::TooMuch => None,
    };
    view! { <li><span>{text}</span>{button}</li> }
}

/// Mixes kits from now on, with the change that takes.
fn take(whole: bool, change: Option<Change>) -> impl IntoView {
    let portions = if whole { Portions::Whole } else { Portions::Half };
    let text = if whole { key::KIT_MIX_WHOLE } else { key::KIT_MIX_HALF };
    let make = move |_| {
        let desk = desk();
        let _ = desk.step(tr(text), &[MIX.to_owned()], || {
            desk.mix.update(|mix| {
                if let Some(change) = change {
                    mix.make(change);
                }
                mix.kits = Some(portions);
            });
            Ok::<(), ()>(())
        });
    };
    view! { <button class="button move-make" type="button" on:click=make>{tr(text)}</button> }
}
