//! Other temperatures for a batch under way.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::record::ConditionsRecord;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::run::RunRecord;

use crate::desk::desk;
use crate::parts::field::Field;
use crate::steady::now_ms;
use crate::store::RUNS;
use crate::text::{key, live, tr};

/// The three temperatures, as they were planned with until typed over.
#[component]
pub(super) fn Correct(run: RunRecord, done: Callback<()>) -> impl IntoView {
    let desk = desk();
    let units = desk.settings.with_untracked(|s| s.units);
    let entry = |celsius| RwSignal::new(Entry::from_value(Kind::Temperature, celsius, units));
    let now = run.job.conditions;
    let fields = [
        (key::ASK_SLAB, Quantity::Slab, entry(now.slab_c)),
        (key::ASK_AIR, Quantity::Air, entry(now.air_c)),
        (key::ASK_MATERIAL, Quantity::Material, entry(now.material_c)),
    ];
    let value = move |i: usize| {
        let (_, field, entry): (_, Quantity, RwSignal<Entry>) = fields[i];
        entry.with(|entry| entry.value(Kind::Temperature, field)).ok()
    };
    let corrected = Memo::new(move |_| {
        Some(ConditionsRecord { slab_c: value(0)?, air_c: value(1)?, material_c: value(2)?, ..now })
    });
    let run = StoredValue::new(run);
    let accept = move |_| {
        let Some(conditions) = corrected.get_untracked() else { return };
        let id = run.with_value(|run| run.id.clone());
        let Some(now) = desk.run_of(&id) else { return };
        let keys = [format!("{RUNS}{id}")];
        let kept = desk.step(tr(key::DID_CORRECT), &keys, || {
            desk.put_run(now.corrected(conditions, now_ms()))
        });
        if kept.is_ok() {
            done.run(());
        }
    };
    let fields = fields.map(|(label, field, entry)| {
        view! {
            <Field
                id=format!("correct-{label}")
                label=Signal::derive(move || tr(label))
                quantity=field
                kind=Kind::Temperature
                optional=false
                entry=entry
                set=move |new| entry.set(new)
            />
        }
    });
    view! {
        {fields.into_iter().collect_view()}
        <button
            class="button button-deed"
            type="button"
            disabled=move || corrected.get().is_none()
            on:click=accept
        >
            {live(key::CLOCK_CORRECT_ACCEPT)}
        </button>
    }
}
