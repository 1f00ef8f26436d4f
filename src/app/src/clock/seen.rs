//! What the crew sees of a pail: how warm it is while it stands, that it went off. Each is kept with
//! the product and its lot, and tells how the lot runs.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::job::Job;
use pailwise_calc::lot::{LearntBy, Seen};
use pailwise_calc::quantity::{Time, Volume, celsius, unit};
use pailwise_calc::record::LearntRecord;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::run::RunRecord;

use crate::desk::{Desk, desk};
use crate::moments;
use crate::parts::field::Field;
use crate::steady::now_ms;
use crate::store::{NotKept, PRODUCTS, RUNS};
use crate::text::{key, live, tr};

/// So much is kept of what was seen of a product; the oldest goes first.
const KEPT: usize = 60;

/// What a pail was seen to do, so long after A met B.
fn learnt(run: &RunRecord, job: &Job, since: Time, read_c: Option<f64>) -> LearntRecord {
    let mass = Volume::new::<unit::liter>(run.mixed_l) * job.product.ratio().density();
    LearntRecord {
        lot: run.job.product.lot.clone(),
        at: moments::now(),
        by: if read_c.is_some() { LearntBy::Reading } else { LearntBy::WentOff },
        time_min: since.get::<unit::minute>(),
        mass_kg: mass.get::<unit::kilogram>(),
        mixed_c: job.conditions.mixed().get::<unit::degree_celsius>(),
        air_c: run.job.conditions.air_c,
        read_c,
    }
}

/// The key of the product that a batch is of, for what is undone with it.
pub(super) fn product_key(run: &RunRecord) -> String {
    format!("{PRODUCTS}{}", run.job.product.id)
}

/// Keeps with the product on the shelf what was seen of it, where it still stands there and what
/// was seen can be: a tap in the first seconds is a slip.
pub(super) fn learn(desk: Desk, id: &str, seen: LearntRecord) -> Result<(), NotKept> {
    let Some(mut product) = untrack(|| desk.product_of(id)) else { return Ok(()) };
    if Seen::try_from(&seen).is_err() {
        return Ok(());
    }
    product.learnt.push(seen);
    let over = product.learnt.len().saturating_sub(KEPT);
    product.learnt.drain(..over);
    desk.put_product(product)
}

/// Keeps that a pail went off now.
pub(super) fn went_off(desk: Desk, run: &RunRecord) -> Result<(), NotKept> {
    let Ok(job) = Job::try_from(&run.job) else { return Ok(()) };
    learn(desk, &run.job.product.id, learnt(run, &job, run.since(now_ms()), None))
}

/// How warm the pail is now: one field, one tap.
#[component]
pub(super) fn ReadPail(run: RunRecord) -> impl IntoView {
    let desk = desk();
    let units = desk.settings.with_untracked(|s| s.units);
    let entry = RwSignal::new(Entry::as_typed("", units));
    let read = Memo::new(move |_| {
        entry.with(|entry| entry.value(Kind::Temperature, Quantity::PailReading)).ok()
    });
    let run = StoredValue::new(run);
    let accept = move |_| {
        let (Some(read_c), Some(run)) = (read.get_untracked(), run.try_get_value()) else { return };
        let now = now_ms();
        let since = run.since(now);
        let Ok(job) = Job::try_from(&run.job) else { return };
        let volume = Volume::new::<unit::liter>(run.mixed_l);
        let Ok(pace) = job.pace_by_reading(volume, since, celsius(read_c)) else { return };
        let keys = [format!("{RUNS}{}", run.id), product_key(&run)];
        let _ = desk.step(tr(key::DID_READ_PAIL), &keys, || {
            learn(desk, &run.job.product.id, learnt(&run, &job, since, Some(read_c)))?;
            desk.put_run(run.clone().at_pace(pace, now))
        });
    };
    view! {
        <Field
            id="pail-reading"
            label=Signal::derive(move || tr(key::READ_PAIL))
            quantity=Quantity::PailReading
            kind=Kind::Temperature
            optional=true
            entry=entry
            set=move |new| entry.set(new)
        />
        <button
            class="button"
            type="button"
            disabled=move || read.get().is_none()
            on:click=accept
        >
            {live(key::READ_PAIL_ACCEPT)}
        </button>
    }
}
