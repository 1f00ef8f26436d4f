//! The answer: how much, the split, how long, what holds it back, and how that came about.

mod heat;
mod rescue;
mod split;
mod time;

use leptos::prelude::*;
use pailwise_calc::batch::{Move, Refusal};
use pailwise_calc::conditions::Course;
use pailwise_calc::error::Error;
use pailwise_calc::quantity::{Length, unit};
use pailwise_calc::ready::{Judged, ready};
use pailwise_calc::record::Role;
use pailwise_calc::working::{Sentence, Step};

use super::ask::Fault;
use super::find::{Found, Good, find};
use super::state::MixRecord;
use crate::clock::StartButton;
use crate::clock::run::PourRecord;
use crate::desk::desk;
use crate::parts::jump::jump;
use crate::parts::later::later;
use crate::parts::verdict::verdict;
use crate::parts::working::{figure, how};
use crate::place::Side;
use crate::say;
use crate::show::Reader;
use crate::text::{key, live, tr, tr_with};

/// The answer, live.
#[component]
pub(super) fn Answer() -> impl IntoView {
    let desk = desk();
    let found = Memo::new(move |_| {
        let units = desk.settings.with(|s| s.units);
        let product = desk.product();
        desk.mix.with(|mix| find(mix, product, units))
    });
    let (settled, waits) = later(found, |found| matches!(found, Found::Batch(_)));
    let answer = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::NoProduct => {
                view! { <p class="no-answer">{live(key::NO_PRODUCT)}</p> }.into_any()
            }
            Found::Faults(faults) => no_answer(faults).into_any(),
            Found::Wrong(error, moves) => wrong(reader, error, moves).into_any(),
            Found::Refused(refusal, moves) => refused(reader, refusal, moves).into_any(),
            Found::Batch(good) => headline(reader, good).into_any(),
        })
    };
    let rest = move || {
        let reader = desk.reader();
        settled.with(|found| match found {
            Some(Found::Batch(good)) => Some(batch(reader, good)),
            _ => None,
        })
    };
    view! {
        {answer}
        <div class="answer-rest" aria-busy=move || waits.get().then_some("true")>{rest}</div>
    }
}

/// How much, and how far it goes.
fn headline(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let batch = &good.batch;
    let covers = if good.product.role == Role::Filler {
        tr_with(key::ANSWER_FILLS, &[("length", &reader.distance(batch.reach))])
    } else if batch.finishes {
        tr_with(key::ANSWER_FINISHES, &[("area", &reader.area(batch.area))])
    } else {
        tr_with(
            key::ANSWER_COVERS,
            &[("area", &reader.area(batch.area)), ("reach", &reader.distance(batch.reach))],
        )
    };
    view! {
        <div class="headline" aria-live="polite">
            <p class="headline-mix">
                <span class="headline-word">{live(key::ANSWER_MIX)}</span>
                " "
                <strong class="headline-amount" id="mix-amount">
                    {figure(reader.volume(batch.measured.volume), Sentence::Measured)}
                </strong>
            </p>
            <p class="headline-covers" id="mix-covers">{figure(covers, Sentence::Area)}</p>
        </div>
    }
}

/// As many moves are offered.
const MOVES: usize = 3;

/// All that goes with it.
fn batch(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let batch = &good.batch;
    let (forbidden, allowed) = go(reader, good);
    let moves = good.job.moves(Some(batch));
    let explained = moves.iter().take(MOVES).map(Move::explain);
    let working: Vec<Step> = batch.working.iter().cloned().chain(explained).collect();
    let gaps = good.job.product.gaps().iter().map(|gap| view! { <li>{live(say::gap(*gap))}</li> });
    view! {
        {forbidden}
        {left_over(reader, good)}
        {split::split(reader, good)}
        {start(good)}
        {rescue::rescue(reader, good)}
        {time::time(reader, good)}
        {holds(reader, good, &moves)}
        {allowed}
        {heat::heat(reader, good)}
        <ul class="gaps">{gaps.collect_view()}</ul>
        {how(reader, Some(&good.product), &working)}
    }
}

/// Starting the clock of this batch.
fn start(good: &Good) -> impl IntoView + use<> {
    let measured = &good.batch.measured;
    let pours = measured.pours.iter();
    let pours = pours.map(|pour| PourRecord::of(&good.product, &pour.pour)).collect();
    let mixed_l = measured.volume.get::<unit::liter>();
    let place = desk().mix.with_untracked(MixRecord::place);
    view! {
        <StartButton
            job=good.record.clone()
            mixed_l=mixed_l
            pours=pours
            place=place
        />
    }
}

/// Go, wait or not, by the readings now; the evening is the Floor screen's. What forbids coating
/// stands first, the rest in its turn.
fn go(reader: Reader, good: &Good) -> (Option<AnyView>, Option<AnyView>) {
    let course = Course::steady(good.job.conditions);
    let found = ready(&good.job.product, &course, good.batch.timeline.done);
    let forbids = found.judged.iter().any(Judged::fails);
    let card = view! {
        {verdict(reader, &found, "mix-verdict", |_| String::new())}
        <p class="small verdict-more">
            <a href=Side::Ready.fragment()>{live(key::READY_TONIGHT)}</a>
        </p>
    }
    .into_any();
    if forbids { (Some(card), None) } else { (None, Some(card)) }
}

/// Says so when a coarse measure leaves much more in the pail than the floor needs.
fn left_over(reader: Reader, good: &Good) -> Option<AnyView> {
    const WORTH_SAYING: f64 = 0.2;
    let (left, all) = (good.batch.left_over, good.batch.measured.volume);
    (left > all * WORTH_SAYING).then(|| {
        let text = tr_with(key::ANSWER_LEFT_OVER, &[("left", &reader.volume(left))]);
        view! { <p class="caution">{text}</p> }.into_any()
    })
}

/// What holds the batch back, and what would move it.
fn holds(reader: Reader, good: &Good, moves: &[Move]) -> impl IntoView + use<> {
    let bound = good.batch.bound;
    // Paste is counted in feet of crack.
    let crack = (good.product.role == Role::Filler).then_some(good.job.bare.width);
    view! {
        <section class="card">
            <h2>{live(key::HOLDS)}</h2>
            <p class="holds-bound" id="mix-bound">
                {figure(tr(say::bound(bound)), Sentence::Area)}
            </p>
            {move_list(reader, moves, crack)}
        </section>
    }
}

fn move_list(reader: Reader, moves: &[Move], crack: Option<Length>) -> impl IntoView + use<> {
    let items = moves.iter().take(MOVES).map(|m| {
        let adds = match crack {
            Some(width) => reader.distance(m.adds / width),
            None => reader.area(m.adds),
        };
        let adds = tr_with(key::HOLDS_ADDS, &[("area", &adds)]);
        view! {
            <li>
                <span>{say::change(reader, m.change)}</span>
                <span class="moves-adds">{adds}</span>
            </li>
        }
    });
    view! { <ul class="moves">{items.collect_view()}</ul> }
}

/// Why there is no answer: which fields are unfit.
fn no_answer(faults: &[Fault]) -> impl IntoView + use<> {
    let items = faults.iter().map(|fault| {
        let line = tr_with(say::unfit(&fault.unfit), &[("what", &tr(fault.ask.label()))]);
        view! { <li>{jump(fault.ask.label(), line)}</li> }
    });
    view! {
        <div class="no-answer" role="alert">
            <p>{live(key::NO_ANSWER)}</p>
            <ul>{items.collect_view()}</ul>
        </div>
    }
}

/// Why the calculation refused; with the way out where measuring is what is too coarse.
fn wrong(reader: Reader, error: &Error, moves: &[Move]) -> impl IntoView + use<> {
    let too_coarse = matches!(error, Error::TooCoarse { .. } | Error::DoesNotFit { .. });
    view! {
        <div class="no-answer" role="alert">
            <p>{say::error(reader, error)}</p>
            {too_coarse.then(|| view! { <split::WayChoice /> })}
            {helps(reader, moves)}
        </div>
    }
}

/// What would make a batch possible.
fn helps(reader: Reader, moves: &[Move]) -> impl IntoView + use<> {
    let list = move_list(reader, moves, None);
    (!moves.is_empty()).then(|| view! { <p>{live(key::REFUSED_HELPS)}</p> {list} })
}

fn refused(reader: Reader, refusal: &Refusal, moves: &[Move]) -> impl IntoView + use<> {
    let why = say::refused(reader, refusal);
    view! {
        <div class="no-answer" role="alert">
            <p class="no-answer-head">{live(key::REFUSED)}</p>
            <p>{why}</p>
            {helps(reader, moves)}
        </div>
    }
}
