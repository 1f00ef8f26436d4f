//! The stages of a batch in lines: by when each is to be done, when it was, how late it is.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, minutes};
use pailwise_calc::running::{Due, Running, Stage};
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::show::Reader;

use super::watched::stage_name;
use crate::desk::Desk;
use crate::moments::clock;
use crate::steady::now_ms;
use crate::store::RUNS;
use crate::text::{key, live, tr, tr_with};

/// The stages in lines, the next one to be tapped, so many minutes late; what is lost is not laid
/// any more.
pub(super) fn stage_lines(
    reader: Reader,
    desk: Desk,
    run: &RunRecord,
    running: &Running,
    late_min: f64,
    lost: bool,
) -> impl IntoView + use<> {
    let next = run.due(running);
    let shown = running.stages.iter().filter(|due| {
        !lost || run.is_done(due.stage) || next.is_some_and(|next| due.stage <= next.stage)
    });
    let lines = shown.map(|due| {
        let is_next = next.is_some_and(|next| next.stage == due.stage);
        let late = minutes(late_min);
        let line = stage_line(reader, run, *due, is_next, late);
        let done = run.is_done(due.stage);
        let (stage, running, run) = (due.stage, running.clone(), run.clone());
        let tap = move |_| mark(desk, run.clone(), &running, stage);
        // Past its last pour there is nothing to be done with it but to get it out.
        let taps = is_next && !lost;
        view! {
            <li class="stage" class:stage-done=done class:stage-next=is_next>
                <span>{line}</span>
                {taps.then(|| view! {
                    <button class="button stage-tap" type="button" on:click=tap>
                        {live(key::CLOCK_DONE)}
                    </button>
                })}
            </li>
        }
    });
    lines.collect_view()
}

/// Marks a stage as done now.
pub(super) fn mark(desk: Desk, run: RunRecord, running: &Running, stage: Stage) {
    let keys = [format!("{RUNS}{}", run.id)];
    let name = tr(stage_name(stage, run.job.product.role));
    let what = tr_with(key::DID_STAGE, &[("what", &name)]);
    let run = run.with_done(running, stage, now_ms());
    // Told of where it fails; the stage is then still to be done.
    let _ = desk.step(what, &keys, || desk.put_run(run));
}

/// A stage in a line: what, and by when it must be done or when it was. What comes after a stage
/// that is late is so much later.
fn stage_line(reader: Reader, run: &RunRecord, due: Due, is_next: bool, late: Time) -> String {
    let name = tr(stage_name(due.stage, run.job.product.role));
    let by = clock(reader, run.met_at_ms, due.by);
    let name = name.as_str();
    match run.done.get(&due.stage) {
        Some(at) => {
            let late = run.since(*at) - due.by;
            let at = clock(reader, *at, Time::default());
            let figures =
                [("what", name), ("at", &at), ("by", &by), ("late", &reader.time_up(late))];
            let text = if late > minutes(1.0) { key::STAGE_WAS_LATE } else { key::STAGE_WAS };
            tr_with(text, &figures)
        }
        None if run.is_done(due.stage) => tr_with(key::STAGE_OVER, &[("what", name)]),
        None if is_next && late > Time::default() => tr_with(
            key::STAGE_IS_LATE,
            &[("what", name), ("by", &by), ("late", &reader.time_up(late))],
        ),
        None => {
            let by = clock(reader, run.met_at_ms, due.by + late);
            tr_with(key::STAGE_BY, &[("what", name), ("by", &by)])
        }
    }
}
