//! A meets B: a batch begins.

use leptos::prelude::*;
use pailwise_calc::job::Job;
use pailwise_calc::record::JobRecord;
use pailwise_kept::records::run::{BandRecord, PourRecord, RunRecord};
use pailwise_kept::records::slip::SlipRecord;

use crate::attention;
use crate::desk::desk;
use crate::screen::Screen;
use crate::steady::now_ms;
use crate::text::{key, live, tr_with};

/// The button that starts the clock of a batch.
#[component]
pub(crate) fn StartButton(
    /// What it was planned from.
    job: JobRecord,
    /// How much of it there is, in litres.
    mixed_l: f64,
    /// What it is mixed of.
    pours: Vec<PourRecord>,
    /// Where in the floor's plan it belongs.
    place: Option<BandRecord>,
    /// Nothing speaks against it.
    urged: bool,
) -> impl IntoView {
    let desk = desk();
    let class = if urged { "button button-deed start" } else { "button start" };
    let text = if urged { key::START } else { key::START_ALL_THE_SAME };
    let under_way = move || {
        let count = desk.runs.with(Vec::len);
        (count > 0).then(|| {
            let said = tr_with(key::START_UNDER_WAY, &[("n", &count.to_string())]);
            view! {
                <p class="caution" id="under-way">
                    {said}" "<a href=Screen::Clock.fragment()>{live(Screen::Clock.name())}</a>
                </p>
            }
        })
    };
    let runs = Job::try_from(&job).is_ok();
    let job = StoredValue::new(job);
    let pours = StoredValue::new(pours);
    let start = move |_| {
        attention::make_ready();
        // What was typed to bring another pail back says nothing of this one.
        desk.slip.set(SlipRecord::default());
        let run = RunRecord::start(now_ms(), job.get_value(), mixed_l, pours.get_value(), place);
        // Kept before it is shown; where it cannot be kept it runs on the screen all the same, and
        // the notice says so.
        if desk.begin(&run).is_err() {
            desk.runs.update(|runs| runs.push(run));
        }
        // The address of the page itself cannot fail to be set.
        let _ = window().location().set_hash(Screen::Clock.fragment());
    };
    runs.then(|| {
        view! {
            {under_way}
            <button id="start" class=class type="button" on:click=start>{live(text)}</button>
        }
    })
}
