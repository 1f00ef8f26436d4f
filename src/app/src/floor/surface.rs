//! The surface: what was read of it, and what to do where it is not ready.

use leptos::prelude::*;
use pailwise_calc::record::Role;
use pailwise_calc::surface::{Finding, Outcome, Test};
use pailwise_kept::answers::floor::Good;
use pailwise_kept::records::floor::{FloorFormRecord, Single};
use pailwise_kept::show::Reader;

use super::fields::{SingleField, form};
use crate::parts::choice::Choice;
use crate::parts::question::Question;
use crate::text::{key, live, tr, tr_with};

/// What is asked of the surface.
#[component]
pub(super) fn Questions() -> impl IntoView {
    let form = form();
    let now = move || form.with(|form| if read(form) { String::new() } else { tr(key::NOW_NONE) });
    view! {
        <Question label=key::READY_SURFACE now=Signal::derive(now)>
            <p class="field-label">{live(key::TEST_PLASTIC)}</p>
            <p class="small">{live(key::TEST_PLASTIC_HINT)}</p>
            <Choice
                name="plastic-sheet"
                label=key::TEST_PLASTIC
                options=vec![
                    (None, key::TEST_NOT_MADE),
                    (Some(true), key::TEST_DRY),
                    (Some(false), key::TEST_DAMP),
                ]
                chosen=Signal::derive(move || form.with(|form| form.plastic_sheet_dry))
                choose=move |dry| form.update(|form| form.plastic_sheet_dry = dry)
            />
            <SingleField single=Single::SlabHumidity />
            <SingleField single=Single::VaporEmission />
            <SingleField single=Single::SurfacePh />
            <SingleField single=Single::Profile />
            <SingleField single=Single::Dried />
        </Question>
    }
}

/// Whether anything of the surface was read.
fn read(form: &FloorFormRecord) -> bool {
    let single =
        |single: &Single| form.entry(0, *single).is_some_and(|entry| !entry.text.trim().is_empty());
    form.plastic_sheet_dry.is_some()
        || [
            Single::SlabHumidity,
            Single::VaporEmission,
            Single::SurfacePh,
            Single::Profile,
            Single::Dried,
        ]
        .iter()
        .any(single)
}

/// The coat that goes on the slab itself.
pub(super) fn on_slab(good: &Good) -> Option<usize> {
    let laid = good.products.iter().position(|product| product.role != Role::Filler);
    laid.or((!good.products.is_empty()).then_some(0))
}

/// What the readings of the surface say about that coat.
pub(super) fn found(good: &Good) -> Vec<Finding> {
    let coat = on_slab(good).and_then(|coat| good.floor.coats.get(coat));
    coat.map_or_else(Vec::new, |coat| coat.product.limits().surface.judge(&good.floor.surface))
}

/// The same in words.
pub(super) fn findings(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let product = on_slab(good).and_then(|coat| good.products.get(coat));
    product.map(|product| {
        let found = found(good);
        let fails = found.iter().any(|finding| finding.outcome.fails());
        let none = found.is_empty().then(|| {
            let text = tr_with(key::SURFACE_UNSAID, &[("name", &product.name)]);
            view! { <p>{text}</p> }
        });
        let lines = found.iter().map(|finding| line(reader, finding));
        view! {
            <section class="card" id="surface" class:card-wrong=fails>
                <h2>{live(key::READY_SURFACE)}</h2>
                {none}
                <ul class="findings">{lines.collect_view()}</ul>
                <p class="small">{live(key::SURFACE_HOW)}</p>
            </section>
        }
    })
}

fn line(reader: Reader, finding: &Finding) -> impl IntoView + use<> {
    let what = tr(name(finding.test));
    let given = finding.given.map(|given| match finding.test {
        Test::PlasticSheet => tr(match finding.outcome {
            Outcome::Passes => key::TEST_DRY,
            _ => key::TEST_DAMP,
        }),
        Test::VaporEmission => reader.emission(given),
        _ => reader.figure(given),
    });
    let figure = |limit| match finding.test {
        Test::VaporEmission => reader.emission(limit),
        _ => reader.figure(limit),
    };
    let (said, fails) = match finding.outcome {
        Outcome::Passes => (tr(key::SURFACE_PASSES), false),
        Outcome::TooLow(limit) => {
            (tr_with(key::SURFACE_TOO_LOW, &[("limit", &figure(limit))]), true)
        }
        Outcome::TooHigh(Some(limit)) => {
            (tr_with(key::SURFACE_TOO_HIGH, &[("limit", &figure(limit))]), true)
        }
        Outcome::TooHigh(None) => (tr(key::SURFACE_FAILS), true),
        Outcome::NotRead => (tr(key::SURFACE_NOT_READ), false),
        Outcome::NoLimit => (tr(key::SURFACE_NO_LIMIT), false),
    };
    let help = fails.then(|| view! { <p>{live(help(finding))}</p> });
    view! {
        <li class:finding-fails=fails>
            <span>{what}</span>
            {given.map(|given| view! { " " <strong>{given}</strong> })}
            ": "
            {said}
            {help}
        </li>
    }
}

fn name(test: Test) -> &'static str {
    match test {
        Test::SlabHumidity => key::TEST_SLAB_HUMIDITY,
        Test::VaporEmission => key::TEST_VAPOR,
        Test::PlasticSheet => key::TEST_PLASTIC,
        Test::SurfacePh => key::TEST_PH,
        Test::Profile => key::TEST_PROFILE,
        Test::Dried => key::TEST_DRIED,
    }
}

/// What to do about a test that failed.
fn help(finding: &Finding) -> &'static str {
    let low = matches!(finding.outcome, Outcome::TooLow(_));
    match finding.test {
        Test::SlabHumidity | Test::VaporEmission => key::HELP_MOISTURE,
        Test::PlasticSheet => key::HELP_PLASTIC,
        Test::SurfacePh if low => key::HELP_PH_LOW,
        Test::SurfacePh => key::HELP_PH_HIGH,
        Test::Profile if low => key::HELP_SMOOTH,
        Test::Profile => key::HELP_ROUGH,
        Test::Dried => key::HELP_DRIED,
    }
}
