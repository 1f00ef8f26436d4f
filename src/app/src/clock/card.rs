//! One batch under way: what is next, how long there is, what was done.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, Volume, unit};
use pailwise_calc::running::{Running, Stage, Status};
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::show::Reader;

use super::correct::Correct;
use super::count::{Count, countdown, order};
use super::cup::set_aside;
use super::end::{End, end};
use super::seen::ReadPail;
use super::stages::stage_lines;
use super::tell::Tell;
use super::watch::watch;
use super::watched::{self, Watched, next_mix_due};
use crate::desk::{Desk, desk};
use crate::moments::clock;
use crate::parts::working::how;
use crate::screen::ClockRoute;
use crate::steady::now_ms;
use crate::store::RUNS;
use crate::text::{key, live, tr, tr_with};

/// What is open under the face of a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Open {
    Nothing,
    Correct,
    Tell,
}

/// The card of a batch, by its name among them.
#[component]
pub(super) fn Card(id: String) -> impl IntoView {
    let watch = watch();
    let id = StoredValue::new(id);
    let watched = Memo::new(move |_| {
        watch.batches.with(|all| {
            id.with_value(|id| all.iter().find(|watched| watched.run.id == *id).cloned())
        })
    });
    let open = RwSignal::new(Open::Nothing);
    let turn = move |to: Open| {
        move |_| open.update(|now| *now = if *now == to { Open::Nothing } else { to })
    };
    let run = move || watched.with_untracked(|w| w.as_ref().map(|w| w.run.clone()));
    let close = Callback::new(move |()| open.set(Open::Nothing));
    view! {
        <section class="card run" id=move || format!("run-{}", id.get_value())>
            {move || watched.get().map(|watched| face(&watched))}
            <div class="deeds">
                <button class="button tell" type="button" on:click=turn(Open::Tell)>
                    {live(key::TELL)}
                </button>
                <button class="button" type="button" on:click=turn(Open::Correct)>
                    {live(key::CLOCK_CORRECT)}
                </button>
                <a class="button button-link" href=move || ClockRoute::HandOn(id.get_value()).fragment()>
                    {live(key::CLOCK_HAND_ON)}
                </a>
            </div>
            {move || match open.get() {
                Open::Nothing => ().into_any(),
                Open::Correct => run().map(|run| view! { <Correct run=run done=close /> }).into_any(),
                Open::Tell => run().map(|run| view! { <Tell run=run done=close /> }).into_any(),
            }}
        </section>
    }
}

/// What moves with the clock, and what is tapped.
fn face(watched: &Watched) -> impl IntoView + use<> {
    let desk = desk();
    let reader = desk.reader();
    let run = &watched.run;
    let volume = Volume::new::<unit::liter>(run.mixed_l);
    let heading = format!("{} · {}", run.job.product.name, reader.volume(volume));
    let met = tr_with(key::CLOCK_MET, &[("time", &clock(reader, run.met_at_ms, Time::default()))]);
    let due = watched.running.as_ref().map(|running| run.due(running));
    let in_pail = due.flatten().is_some_and(|due| due.stage <= Stage::Empty);
    let closed_late = watched.running.as_ref().is_some_and(|running| run.film_closed(running));
    let all_done = due == Some(None);
    let ends = move |watched: &Watched, how: End| {
        let watched = watched.clone();
        move |_| end(desk, &watched, how)
    };
    let part = run.poured_l.map(|liters| {
        let poured = reader.volume_at_most(Volume::new::<unit::liter>(liters));
        view! { <p class="notice">{tr_with(key::CLOCK_PART, &[("volume", &poured)])}</p> }
    });
    view! {
        <h2 class="run-head">{heading}</h2>
        <p class="small">{met}</p>
        <Face watched=watched.clone() />
        {part}
        {watched.running.as_ref().map(|running| stages(reader, watched, running))}
        {watched.running.as_ref().map(|running| {
            how(reader, Some(&run.job.product), &running.working)
        })}
        {in_pail.then(|| view! {
            <ReadPail run=run.clone() />
            {set_aside(desk, run)}
        })}
        {closed_late.then(|| view! {
            <p class="caution" id="film-was-closed">{live(key::CLOCK_WAS_CLOSED)}</p>
        })}
        {all_done.then(|| view! {
            <button class="button button-deed" type="button" on:click=ends(watched, End::Laid)>
                {live(key::CLOCK_TO_LOG)}
            </button>
        })}
        <button class="button button-quiet" type="button" on:click=ends(watched, End::Discarded)>
            {live(key::CLOCK_DISCARD)}
        </button>
        {in_pail.then(|| view! {
            <button class="button button-quiet" type="button" on:click=ends(watched, End::WentOff)>
                {live(key::CLOCK_WENT_OFF)}
            </button>
        })}
    }
}

/// The order, and the one figure that counts down.
#[component]
fn Face(watched: Watched) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let of = StoredValue::new(watched);
    let status = Memo::new(move |_| of.with_value(|w| w.status(watch.now.get())));
    let count = move || of.with_value(|w| Count::of(w, w.running.as_ref()?, watch.now.get()));
    let figure = move || count().map(|count| countdown(count.left));
    let says = move || count().map(|count| tr(count.says()));
    let what = move || of.with_value(|w| order(desk.reader(), w, watch.now.get()));
    view! {
        <div class=move || face_class(status.get())>
            <span class="run-sign" aria-hidden="true">{move || sign(status.get())}</span>
            <p class="run-words" role="status">{what}</p>
            <p class="run-count" aria-hidden="true">{figure}</p>
            <p class="run-of">{says}</p>
        </div>
    }
}

/// How a batch that stands so looks.
pub(super) fn face_class(status: Status) -> &'static str {
    match status {
        Status::OnTime => "run-face",
        Status::Late => "run-face run-late",
        Status::FilmClosed => "run-face run-late run-closed",
        Status::PartOnly | Status::PourOutNow | Status::PastPotLife => "run-face run-alarm",
    }
}

/// The sign of a batch that stands so, for who does not see colours.
pub(super) fn sign(status: Status) -> &'static str {
    match status {
        Status::OnTime => "●",
        Status::Late => "▲",
        Status::FilmClosed => "◆",
        Status::PartOnly | Status::PourOutNow | Status::PastPotLife => "⬣",
    }
}

/// The stages with their times, what limits them, and the next batch.
fn stages(reader: Reader, watched: &Watched, running: &Running) -> impl IntoView + use<> {
    let desk = desk();
    let watch = watch();
    let next = watched.run.due(running);
    let met = watched.run.met_at_ms;
    let at = move |after| clock(reader, met, after);
    let (out, life, closes) = (at(running.pour_out), at(running.pot_life), at(running.closes));
    let warm = reader.temperature_down(running.out_at);
    let of = StoredValue::new((watched.clone(), running.clone()));
    let status = Memo::new(move |_| of.with_value(|(w, _)| w.status(watch.now.get())));
    let limit = move || {
        Some(match next?.stage {
            Stage::Mix | Stage::Induction | Stage::Pour | Stage::Empty => {
                tr_with(key::CLOCK_LIMIT, &[("out", &out), ("life", &life), ("warm", &warm)])
            }
            Stage::Roll | Stage::Flake if status.get() == Status::FilmClosed => {
                tr_with(key::CLOCK_CLOSED, &[("time", &closes)])
            }
            Stage::Roll | Stage::Flake => tr_with(key::CLOCK_CLOSES, &[("time", &closes)]),
        })
    };
    // The lines move by the minute; what is past its last pour is not laid any more.
    let moved = Memo::new(move |_| {
        let late = of.with_value(|(w, running)| w.run.late(running, watch.now.get()));
        let minutes = late.get::<unit::minute>().ceil().max(0.0);
        (minutes, status.get() >= Status::PourOutNow)
    });
    // Nobody starts another while this one must leave its pail, or is lost.
    let waits = Memo::new(move |_| {
        let in_pail = next.is_some_and(|due| due.stage <= Stage::Empty);
        let must_out = in_pail && (status.get() >= Status::PartOnly || moved.get().0 > 0.0);
        must_out || status.get() >= Status::PourOutNow
    });
    view! {
        {next.map(|_| view! { <p class="small">{limit}</p> })}
        <ol class="stages">
            {move || {
                let (late, lost) = moved.get();
                of.with_value(|(w, running)| stage_lines(reader, desk, &w.run, running, late, lost))
            }}
        </ol>
        {move || (!waits.get()).then(|| {
            of.with_value(|(watched, _)| next_mix(desk, watched, watch.now.get()))
        })}
    }
}

/// When the next batch is mixed, and saying that it is.
fn next_mix(desk: Desk, watched: &Watched, now: f64) -> Option<impl IntoView + use<>> {
    let run = &watched.run;
    let at = watched::next_mix(watched)?;
    let due = next_mix_due(watched, now);
    let left = at - run.since(now);
    let text = if due {
        tr_with(key::CALL_NEXT_MIX, &[("name", &run.job.product.name)])
    } else {
        tr_with(key::CLOCK_NEXT_MIX, &[("left", &countdown(left))])
    };
    let run = run.clone();
    let said = move |_| {
        let keys = [format!("{RUNS}{}", run.id)];
        let called = RunRecord { next_called_ms: Some(now_ms()), ..run.clone() };
        let _ = desk.step(tr(key::DID_NEXT_MIX), &keys, || desk.put_run(called));
    };
    Some(view! {
        <div class="next-mix" class:next-mix-due=due>
            <p>{text}</p>
            <button class="button" type="button" on:click=said>{live(key::CLOCK_NEXT_SAID)}</button>
        </div>
    })
}
