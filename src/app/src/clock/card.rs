//! One batch under way: what is next, how long there is, what was done.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::quantity::{Time, Volume, minutes, unit};
use pailwise_calc::record::ConditionsRecord;
use pailwise_calc::running::{Due, Running, Stage, Standing};
use web_sys::js_sys::Date;

use super::cup::set_aside;
use super::log::Ended;
use super::run::RunRecord;
use super::seen::{ReadPail, product_key, went_off};
use super::watch::{self, Watched, closed, countdown, next_mix_due, stage_name, watch, words};
use crate::desk::{Desk, desk};
use crate::entry::{Entry, Kind};
use crate::floor;
use crate::moments;
use crate::parts::field::Field;
use crate::parts::working::how;
use crate::show::Reader;
use crate::store::{FLOOR, LOG, NotKept, RUNS};
use crate::text::{key, live, tr, tr_with};

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
    let corrects = RwSignal::new(false);
    view! {
        <section class="card run" id=move || format!("run-{}", id.get_value())>
            {move || watched.get().map(|watched| face(&watched))}
            <button class="button" type="button" on:click=move |_| corrects.update(|on| *on = !*on)>
                {live(key::CLOCK_CORRECT)}
            </button>
            <Show when=move || corrects.get()>
                {move || watched.with_untracked(|w| {
                    w.as_ref().map(|w| view! { <Correct run=w.run.clone() done=corrects /> })
                })}
            </Show>
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
    let body = match &watched.running {
        Some(running) => stages(reader, watched, running).into_any(),
        None => view! { <p class="no-answer" role="alert">{live(key::CLOCK_LOST)}</p> }.into_any(),
    };
    let (for_laid, for_discard, for_off) = (watched.clone(), watched.clone(), watched.clone());
    let in_pail = watched
        .running
        .as_ref()
        .is_some_and(|running| run.due(running).is_some_and(|due| due.stage <= Stage::Empty));
    let closed_late = watched.running.as_ref().is_some_and(|running| run.film_closed(running));
    let all_done = watched.running.as_ref().is_some_and(|running| run.due(running).is_none());
    view! {
        <h2 class="run-head">{heading}</h2>
        <p class="small">{met}</p>
        {body}
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
            <button
                class="button button-deed"
                type="button"
                on:click=move |_| end(desk, &for_laid, End::Laid)
            >
                {live(key::CLOCK_TO_LOG)}
            </button>
        })}
        <button
            class="button button-quiet"
            type="button"
            on:click=move |_| end(desk, &for_discard, End::Discarded)
        >
            {live(key::CLOCK_DISCARD)}
        </button>
        {in_pail.then(|| view! {
            <button
                class="button button-quiet"
                type="button"
                on:click=move |_| end(desk, &for_off, End::WentOff)
            >
                {live(key::CLOCK_WENT_OFF)}
            </button>
        })}
    }
}

/// A time of day on the phone's clock, so long after a stamp.
pub(super) fn clock(reader: Reader, stamp_ms: f64, after: Time) -> String {
    reader.clock(moments::minute_of_day(stamp_ms + after.get::<unit::millisecond>()))
}

fn stages(reader: Reader, watched: &Watched, running: &Running) -> impl IntoView + use<> {
    let desk = desk();
    let watch = watch();
    let run = &watched.run;
    let next = run.due(running);
    let of = StoredValue::new((watched.clone(), running.clone()));
    let standing =
        move || of.with_value(|(watched, running)| watched.run.standing(running, watch.now.get()));
    let past = Memo::new(move |_| standing() == Standing::PastPotLife);
    let ahead =
        move || of.with_value(|(watched, running)| CountsTo::of(watched, running, watch.now.get()));
    let count = move || ahead().map(|ahead| countdown(ahead.left));
    let of_count = move || ahead().map(|ahead| tr(ahead.says()));
    let name = run.job.product.name.clone();
    let role = run.job.product.role;
    let what = move || {
        let text = match (standing(), next) {
            (Standing::PastPotLife, _) => key::CALL_PAST,
            (Standing::PourOutNow, _) => key::CALL_POUR_OUT,
            (Standing::FilmClosed, _) => closed(role),
            // Whatever was tapped, its time in the pail is what runs out.
            (_, Some(_)) if ahead().is_some_and(|ahead| ahead.limit == Some(Limit::Pail)) => {
                key::CALL_EMPTY
            }
            (_, Some(due)) => words(due.stage, role),
            (_, None) => key::CALL_ALL_DONE,
        };
        tr_with(text, &[("name", &name)])
    };
    let class = move || match standing() {
        Standing::OnTime => "run-face",
        Standing::Late => "run-face run-late",
        Standing::FilmClosed => "run-face run-late run-closed",
        Standing::PourOutNow | Standing::PastPotLife => "run-face run-alarm",
    };
    let sign = move || match standing() {
        Standing::OnTime => "●",
        Standing::Late => "▲",
        Standing::FilmClosed => "◆",
        Standing::PourOutNow | Standing::PastPotLife => "⬣",
    };
    let at = |after| clock(reader, run.met_at_ms, after);
    let (out, life) = (at(running.pour_out), at(running.pot_life));
    let closes = at(running.closes);
    let warm = reader.temperature_down(running.out_at);
    let limit = move || {
        Some(match next?.stage {
            Stage::Mix | Stage::Stand | Stage::Empty => {
                tr_with(key::CLOCK_LIMIT, &[("out", &out), ("life", &life), ("warm", &warm)])
            }
            Stage::Roll | Stage::Flake if standing() == Standing::FilmClosed => {
                tr_with(key::CLOCK_CLOSED, &[("time", &closes)])
            }
            Stage::Roll | Stage::Flake => tr_with(key::CLOCK_CLOSES, &[("time", &closes)]),
        })
    };
    view! {
        <div class=class>
            <span class="run-sign" aria-hidden="true">{sign}</span>
            <p class="run-words" role="status">{what}</p>
            <p class="run-count" aria-hidden="true">{count}</p>
            <p class="run-of">{of_count}</p>
        </div>
        {next.map(|_| view! { <p class="small">{limit}</p> })}
        <ol class="stages">
            {move || {
                let past = past.get();
                of.with_value(|(watched, running)| {
                    stage_lines(reader, desk, &watched.run, running, past)
                })
            }}
        </ol>
        // Nobody starts another while this one must leave its pail, or is lost.
        {move || (standing() < Standing::PourOutNow).then(|| {
            of.with_value(|(watched, _)| next_mix(desk, watched, watch.now.get()))
        })}
    }
}

/// The stages in lines, the next one to be tapped; what is past its pot life is not laid any more.
fn stage_lines(
    reader: Reader,
    desk: Desk,
    run: &RunRecord,
    running: &Running,
    past: bool,
) -> impl IntoView + use<> {
    let next = run.due(running);
    let stages = running.stages.iter().filter(|due| !past || run.is_done(due.stage));
    let lines = stages.map(|due| {
        let line = stage_line(reader, run, *due);
        let done = run.is_done(due.stage);
        let is_next = next.is_some_and(|next| next.stage == due.stage);
        let (stage, running, run) = (due.stage, running.clone(), run.clone());
        let tap = move |_| mark(desk, run.clone(), &running, stage);
        view! {
            <li class="stage" class:stage-done=done class:stage-next=is_next>
                <span>{line}</span>
                {is_next.then(|| view! {
                    <button class="button stage-tap" type="button" on:click=tap>
                        {live(key::CLOCK_DONE)}
                    </button>
                })}
            </li>
        }
    });
    lines.collect_view()
}

/// What ends what can still be done with a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Limit {
    /// It must leave the pail.
    Pail,
    /// It must be finished while its film is open.
    Finish,
    /// Its film closes.
    Film,
}

/// What is counted to: the end of the stage, or the limit behind it where that is near or the
/// stage is late.
#[derive(Clone, Copy, Debug, PartialEq)]
struct CountsTo {
    limit: Option<Limit>,
    left: Time,
}

impl CountsTo {
    fn of(watched: &Watched, running: &Running, now: f64) -> Option<Self> {
        let since = watched.run.since(now);
        let due = watched.run.due(running)?;
        let (limit, by) = if due.stage <= Stage::Empty {
            (Limit::Pail, running.pour_out)
        } else if since < running.finish_by {
            (Limit::Finish, running.finish_by)
        } else {
            (Limit::Film, running.closes)
        };
        let counts = since >= due.by || by - since <= minutes(5.0);
        let (limit, by) = if counts { (Some(limit), by) } else { (None, due.by) };
        Some(Self { limit, left: by - since })
    }

    /// The words under the count.
    fn says(self) -> &'static str {
        let over = self.left < Time::default();
        match (self.limit, over) {
            (Some(Limit::Pail), false) => key::CLOCK_TO_LIMIT,
            (Some(Limit::Pail), true) => key::CLOCK_OVER_LIMIT,
            (Some(Limit::Finish), _) => key::CLOCK_TO_FINISH,
            (Some(Limit::Film), false) => key::CLOCK_TO_CLOSED,
            (Some(Limit::Film), true) => key::CLOCK_OVER_CLOSED,
            (None, _) => key::CLOCK_TO_STAGE,
        }
    }
}

/// Marks a stage as done now.
pub(super) fn mark(desk: Desk, run: RunRecord, running: &Running, stage: Stage) {
    let keys = [format!("{RUNS}{}", run.id)];
    let name = tr(stage_name(stage, run.job.product.role));
    let what = tr_with(key::DID_STAGE, &[("what", &name)]);
    let run = run.with_done(running, stage, Date::now());
    // Told of where it fails; the stage is then still to be done.
    let _ = desk.step(what, &keys, || desk.put_run(run));
}

/// A stage in a line: what, and by when it must be done or when it was.
fn stage_line(reader: Reader, run: &RunRecord, due: Due) -> String {
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
        None => tr_with(key::STAGE_BY, &[("what", name), ("by", &by)]),
    }
}

/// When the next batch is mixed, and saying that it is.
fn next_mix(desk: Desk, watched: &Watched, now: f64) -> Option<impl IntoView + use<>> {
    let run = &watched.run;
    let at = watch::next_mix(watched)?;
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
        let called = RunRecord { next_called_ms: Some(Date::now()), ..run.clone() };
        let _ = desk.step(tr(key::DID_NEXT_MIX), &keys, || desk.put_run(called));
    };
    Some(view! {
        <div class="next-mix" class:next-mix-due=due>
            <p>{text}</p>
            <button class="button" type="button" on:click=said>{live(key::CLOCK_NEXT_SAID)}</button>
        </div>
    })
}

/// How a batch ends, as it is tapped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// It is on the floor.
    Laid,
    /// It is thrown away.
    Discarded,
    /// It went off in its pail, and is thrown away.
    WentOff,
}

impl End {
    /// As it stands in the log.
    fn logged(self) -> Ended {
        match self {
            Self::Laid => Ended::Laid,
            Self::Discarded | Self::WentOff => Ended::Discarded,
        }
    }
}

/// Ends a batch: it goes from the clock into the log.
pub(super) fn end(desk: Desk, watched: &Watched, ended: End) {
    let run = &watched.run;
    let planned = watched.running.as_ref().map_or(0.0, |running| running.area.value);
    let keys = [
        format!("{RUNS}{}", run.id),
        format!("{LOG}{}", run.id),
        // The floor goes on from where this batch ended.
        FLOOR.to_owned(),
        product_key(run),
    ];
    let name = [("name", run.job.product.name.as_str())];
    let what = match ended {
        End::Laid => tr_with(key::DID_LOG, &name),
        End::Discarded | End::WentOff => tr_with(key::DID_DISCARD_BATCH, &name),
    };
    let ahead = moments::minutes_ahead(run.met_at_ms);
    // Told of where it fails; the batch then stays on the clock.
    let _ = desk.step(what, &keys, || {
        if ended == End::WentOff {
            went_off(desk, run)?;
        }
        let ended = ended.logged();
        let batch = desk.log_run(run, (ended, Date::now()), ahead, planned)?;
        let now_min = moments::minute_of_day(Date::now());
        match (run.place, ended) {
            (Some(place), Ended::Laid) => {
                floor::batch_down(desk, place, &batch, batch.rolled_in_min(), now_min);
            }
            (Some(place), Ended::Discarded) => {
                floor::batch_discarded(desk, place, batch.mixed_l, now_min);
            }
            (None, _) => {}
        }
        Ok::<(), NotKept>(())
    });
}

/// Other temperatures for a batch under way.
#[component]
fn Correct(run: RunRecord, done: RwSignal<bool>) -> impl IntoView {
    let desk = desk();
    let units = desk.settings.with_untracked(|s| s.units);
    let entry = |celsius| RwSignal::new(Entry::of(Kind::Temperature, celsius, units));
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
        let now = desk.runs.with_untracked(|runs| runs.iter().find(|r| r.id == id).cloned());
        let Some(now) = now else { return };
        let keys = [format!("{RUNS}{id}")];
        let kept = desk.step(tr(key::DID_CORRECT), &keys, || {
            desk.put_run(now.corrected(conditions, Date::now()))
        });
        if kept.is_ok() {
            done.set(false);
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
