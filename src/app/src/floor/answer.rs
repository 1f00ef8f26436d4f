//! The plan of a coat: in a line, what was learnt, what is short, and why it stops.

use leptos::prelude::*;
use pailwise_calc::batch::{Change, NoBatch};
use pailwise_calc::comb::WetFilm;
use pailwise_calc::field::Field;
use pailwise_calc::floor::{Coat, CoatPlan, Learnt, Stopped, Way, WayOut};
use pailwise_calc::quantity::{Volume, unit};
use pailwise_calc::ready::{Readiness, Verdict};
use pailwise_calc::record::Role;
use pailwise_calc::working::Sentence;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::records::floor::CoatFormRecord;
use pailwise_kept::records::mix::MixRecord;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use super::ahead::{CoatAhead, Next, ahead, down_at};
use super::batches::{Planned, batches};
use super::coats::{CoatPick, refusal, shown_coat};
use super::days::Days;
use super::down::downs;
use super::film::Film;
use super::flake::in_bands;
use super::pictures::{Clock, picture, rows};
use super::ready::{go_beside, judged};
use crate::desk::{Desk, desk};
use crate::parts::later::later;
use crate::parts::verdict::word_of_go;
use crate::parts::working::{figure, how};
use crate::screen::FloorTab;
use crate::store::{FLOOR, MIX};
use crate::text::{key, live, tr, tr_with};

/// The plan of the chosen coat in words and pictures, kept up to date.
#[component]
pub(super) fn Answer(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let judged = judged(found);
    let (settled, waits) = later(found, |found| matches!(found, Found::Plans(_)));
    let head = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => {
                judged.with(|judged| heading(reader, desk, good, judged.as_ref())).into_any()
            }
            other => refusal(reader, other).into_any(),
        })
    };
    let over = move || {
        let reader = desk.reader();
        settled.with(|found| match found {
            // It changes with the plan, and is no reason to draw the rest sooner.
            Some(Found::Plans(good)) => judged
                .with_untracked(|judged| overview(reader, desk, good, judged.as_ref()))
                .into_any(),
            _ => ().into_any(),
        })
    };
    let under = move || {
        let reader = desk.reader();
        settled.with(|found| match found {
            Some(Found::Plans(good)) => in_words(reader, desk, good).into_any(),
            _ => ().into_any(),
        })
    };
    // What is typed about batches that are down stands outside the plan, which every key changes.
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    view! {
        <div class="card plan-pick"><CoatPick /></div>
        {head}
        <div class="answer-rest" aria-busy=move || waits.get().then_some("true")>
            {over}
            <Film found=found />
            {move || downs(desk, shown.get())}
            {under}
        </div>
    }
}

/// One coat of the floor with its plan.
fn coat_of(reader: Reader, desk: Desk, good: &Good) -> Option<(usize, Clock, &Coat, &CoatPlan)> {
    let shown = desk.floor.with(shown_coat);
    let (coat, plan) = (good.floor.coats.get(shown)?, good.plans.get(shown)?);
    let read_in = desk.mix.with(|mix| mix.read_in(reader.units));
    let clock = Clock { reader, begins: coat.begins, course: coat.course.clone(), read_in };
    Some((shown, clock, coat, plan))
}

/// How many batches of a coat are down.
fn downs_of(desk: Desk, coat: usize) -> usize {
    desk.floor.with(|form| form.coats.get(coat).map_or(0, CoatFormRecord::downs))
}

/// The plan of that coat in a line.
fn heading(
    reader: Reader,
    desk: Desk,
    good: &Good,
    judged: Option<&Readiness>,
) -> impl IntoView + use<> {
    coat_of(reader, desk, good).map(|(shown, _, coat, plan)| {
        let day = (coat.begins.get::<unit::hour>() / 24.0).floor() + 1.0;
        let (name, day) = (good.products[shown].name.clone(), format!("{day:.0}"));
        let heading = tr_with(key::PLAN_OF, &[("name", &name), ("day", &day)]);
        view! {
            <h2 class="plan-heading">{heading}</h2>
            {judged.filter(|found| forbids(found)).map(|found| readiness(reader, good, shown, found))}
            {headline(reader, plan)}
        }
    })
}

/// What goes with it: what was learnt, and the pictures.
fn overview(
    reader: Reader,
    desk: Desk,
    good: &Good,
    judged: Option<&Readiness>,
) -> impl IntoView + use<> {
    coat_of(reader, desk, good).map(|(shown, clock, coat, plan)| {
        let overlaps =
            shown.checked_sub(1).is_some_and(|before| down_at(good, before) > Some(coat.begins));
        let overlaps = overlaps.then(|| view! { <p class="caution">{live(key::PLAN_OVERLAP)}</p> });
        let flake = in_bands(reader, desk, good, shown).and_then(|flake| flake.warning(reader));
        view! {
            {overlaps}
            {missed(reader, desk, good, shown)}
            {judged.filter(|found| !forbids(found)).map(|found| readiness(reader, good, shown, found))}
            {unfilled(good)}
            {learnt(reader, coat, plan.learnt)}
            {short(reader, plan)}
            {flake.map(|text| view! { <p class="no-answer" id="flake-short">{text}</p> })}
            {how(reader, Some(&good.products[shown]), &good.floor.explain_plan(coat, plan))}
            {picture(reader, good, shown, downs_of(desk, shown))}
            {rows(&clock, plan, downs_of(desk, shown))}
        }
    })
}

/// Whether a reading forbids to coat when it begins: that stands above every amount.
fn forbids(found: &Readiness) -> bool {
    matches!(found.verdict, Verdict::NoGo | Verdict::Wait(_))
}

/// Whether it is ready to coat, in a line that leads there.
fn readiness(
    reader: Reader,
    good: &Good,
    shown: usize,
    found: &Readiness,
) -> impl IntoView + use<> {
    let (class, word) = match found.verdict {
        Verdict::Go => ("plan-ready", word_of_go(found, go_beside(good, shown))),
        Verdict::Unread(Field::Humidity) => ("plan-ready", key::READY_UNREAD),
        Verdict::Unread(_) => ("plan-ready", key::READY_UNTESTED),
        Verdict::Wait(_) => ("caution", key::READY_WAIT_SHORT),
        Verdict::NoGo => ("caution", key::READY_NO),
    };
    let why = found.judged.first().filter(|judged| judged.fails());
    let why = why.map(|judged| say::judged(reader, judged, found.spread_is_usual));
    view! {
        <p class=class id="plan-ready">
            <a href=FloorTab::Ready.fragment()>{live(word)}</a>
            {why.map(|why| format!(" {why}"))}
        </p>
    }
}

/// Says so when this coat, or the next one on it, misses the recoat window; what then is said
/// where the times are.
fn missed(reader: Reader, desk: Desk, good: &Good, shown: usize) -> Option<AnyView> {
    let days = desk.floor.with(|form| Days::of(reader, form));
    let all = ahead(good, |from, to| days.between(from, to));
    let misses = |one: &CoatAhead| {
        let concerns = one.coat == shown || one.coat + 1 == shown;
        concerns && one.next.is_some_and(Next::misses)
    };
    all.iter().any(misses).then(|| {
        view! {
            <p class="caution plan-missed">
                <a href=FloorTab::After.fragment()>{live(key::PLAN_MISSED)}</a>
            </p>
        }
        .into_any()
    })
}

/// Cracks that no coat fills.
fn unfilled(good: &Good) -> impl IntoView + use<> {
    let fills = good.products.iter().any(|product| product.role == Role::Filler);
    (good.floor.cracks.is_some() && !fills).then(|| {
        view! { <p class="caution">{live(key::PLAN_UNFILLED)}</p> }
    })
}

/// Each batch of that coat in words, and why there are no more, if it stops.
fn in_words(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    coat_of(reader, desk, good).map(|(shown, clock, coat, plan)| {
        let flake = in_bands(reader, desk, good, shown);
        let planned = Planned {
            flake: flake.as_ref(),
            plan,
            product: &good.products[shown],
            coat: shown,
            downs: downs_of(desk, shown),
            crew: &good.floor.crew,
            typed: desk.mix.with(MixRecord::people),
            of: coat,
        };
        view! {
            {batches(&clock, desk, planned)}
            {plan.stopped.as_ref().map(|stopped| stop(&clock, desk, (shown, coat), stopped))}
        }
    })
}

fn headline(reader: Reader, plan: &CoatPlan) -> impl IntoView + use<> {
    let volume = reader.volume_needed(plan.planned());
    let text = match plan.batches.len() {
        0 if plan.stopped.is_none() => tr(key::PLAN_COVERED),
        0 => String::new(),
        1 => tr_with(key::PLAN_ONE_BATCH, &[("volume", &volume)]),
        n => tr_with(key::PLAN_BATCHES, &[("count", &n.to_string()), ("volume", &volume)]),
    };
    let stops = plan.stopped.is_some().then(|| {
        let needs = if plan.learnt.is_some() { key::PLAN_LEFT_NEEDS } else { key::PLAN_NEEDS };
        let needs = tr_with(needs, &[("volume", &reader.volume_needed(plan.needed))]);
        view! { <p class="no-answer">{live(key::PLAN_NOT_ALL)}" "{needs}</p> }
    });
    view! {
        <p class="headline headline-covers" id="plan-sum" aria-live="polite">
            {(!text.is_empty()).then(|| figure(text, Sentence::PlanSum))}
        </p>
        {stops}
    }
}

/// What the batches that are down have told.
fn learnt(reader: Reader, coat: &Coat, learnt: Option<Learnt>) -> Option<AnyView> {
    let learnt = learnt?;
    if !learnt.believable() {
        return Some(view! { <p class="caution">{live(key::PLAN_CHECK)}</p> }.into_any());
    }
    let went = if learnt.yield_ratio > 1.03 {
        Some((key::PLAN_THIN, learnt.yield_ratio - 1.0))
    } else if learnt.yield_ratio < 0.97 {
        Some((key::PLAN_THICK, 1.0 / learnt.yield_ratio - 1.0))
    } else {
        None
    };
    let pace = learnt.pace.filter(|pace| (pace - 1.0).abs() > 0.03);
    let lines = went.into_iter().chain(pace.map(|pace| (key::PLAN_PACE, pace)));
    let lines = lines.map(|(text, share)| {
        let text = tr_with(text, &[("share", &reader.share(share))]);
        view! { <p class="caution">{text}</p> }
    });
    // Where the pails ended says what film they made.
    let film = WetFilm::of_pail(&coat.coverage, learnt.mixed, learnt.laid);
    let film = film.filter(|_| went.is_some() && coat.product.role() != Role::Filler);
    let film = film.map(|film| {
        let (film, asked) = (reader.thickness(film.most), reader.thickness(coat.coverage.wet()));
        let text = tr_with(key::PLAN_FILM, &[("film", &film), ("asked", &asked)]);
        view! { <p class="small" id="plan-film">{text}</p> }
    });
    Some(view! { {lines.collect_view()}{film} }.into_any())
}

/// Whether what is here will do.
fn short(reader: Reader, plan: &CoatPlan) -> impl IntoView + use<> {
    plan.short.map(|short| {
        if short > Volume::default() {
            let text = tr_with(key::PLAN_SHORT, &[("short", &reader.volume_needed(short))]);
            view! { <p class="no-answer" role="alert" id="plan-short">{text}</p> }.into_any()
        } else {
            view! { <p class="small">{live(key::PLAN_ENOUGH)}</p> }.into_any()
        }
    })
}

/// Why it goes no further, and what would help.
fn stop(
    clock: &Clock,
    desk: Desk,
    (shown, coat): (usize, &Coat),
    stopped: &Stopped,
) -> impl IntoView + use<> {
    let reader = clock.reader;
    let at = tr_with(key::STOPPED_AT, &[("start", &clock.at(stopped.at))]);
    let why = say::no_batch(reader, &stopped.why);
    let unsaid = match &stopped.why {
        NoBatch::Refused(refusal) => say::open_time_unsaid(&coat.product, refusal.bound),
        NoBatch::Wrong(_) => None,
    };
    let unsaid = unsaid.map(|text| view! { <p>{live(text)}</p> });
    let ways = stopped.ways.iter().take(4).map(|out| {
        let covers = tr_with(key::WAY_COVERS, &[("area", &reader.area(out.covers))]);
        let (text, out) = (way(reader, out), *out);
        let said = if can_be_made(out.way) {
            let go = move |_| make(desk, out, shown);
            view! { <button class="button move-make" type="button" on:click=go>{text}</button> }
                .into_any()
        } else {
            view! { <span>{text}</span> }.into_any()
        };
        view! {
            <li>
                {said}
                <span class="moves-adds">{covers}</span>
            </li>
        }
    });
    let helps = (!stopped.ways.is_empty()).then(|| view! { <p>{live(key::REFUSED_HELPS)}</p> });
    view! {
        <div class="no-answer" role="alert" id="plan-stopped">
            <p class="no-answer-head">{live(key::STOPPED)}</p>
            <p>{at}" "{why}</p>
            {unsaid}
            {helps}
            <ul class="moves">{ways.collect_view()}</ul>
        </div>
    }
}

/// Whether a way on is a matter of a tap: how warm cans are and what a sheet allows is not.
fn can_be_made(way: Way) -> bool {
    let read = matches!(way, Way::Change(Change::CoolerMaterial(_) | Change::MixFor(_)));
    !read && !matches!(way, Way::Later(_))
}

/// Goes a way on, in a step that can be undone.
fn make(desk: Desk, out: WayOut, shown: usize) {
    let what = untrack(|| way(desk.reader(), &out));
    let units = desk.settings.with_untracked(|s| s.units);
    let _ = desk.step(what, &[MIX.to_owned(), FLOOR.to_owned()], || {
        match out.way {
            Way::Change(Change::EndAtJoint) => desk.floor.update(|form| form.ends_at_joint = true),
            Way::Change(change) => desk.mix.update(|mix| mix.make(change)),
            Way::MoreRollers(more) => desk.mix.update(|mix| {
                (0..more).for_each(|_| mix.make(Change::OneMoreRoller));
            }),
            Way::InBays(bays) => desk.floor.update(|form| {
                let width = form.width_m().unwrap_or_default();
                if let Some(coat) = form.coats.get_mut(shown) {
                    coat.part(bays, width, units);
                }
            }),
            Way::Later(_) => {}
        }
        Ok::<(), ()>(())
    });
}

fn way(reader: Reader, out: &WayOut) -> String {
    match out.way {
        Way::Change(change) => say::change(reader, change),
        Way::InBays(n) => tr_with(key::WAY_BAYS, &[("n", &n.to_string())]),
        Way::MoreRollers(n) => tr_with(key::WAY_MORE_ROLLERS, &[("n", &n.to_string())]),
        Way::Later(later) => tr_with(key::WAY_LATER, &[("time", &reader.time(later))]),
    }
}
