//! The answer: how much, the split, how long, what holds it back, and how that came about.

mod heat;
mod kits;
mod rescue;
mod split;
mod time;

use leptos::prelude::*;
use pailwise_calc::batch::{Change, Move, Refusal};
use pailwise_calc::conditions::Course;
use pailwise_calc::error::Error;
use pailwise_calc::job::Job;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Length, Mass, Time, unit};
use pailwise_calc::ready::{Judged, Readiness, ready};
use pailwise_calc::record::Role;
use pailwise_calc::working::{Sentence, Step};
use pailwise_kept::answers::ask::Fault;
use pailwise_kept::answers::batch::{Found, Good, find};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::mix::{Ask, MixRecord};
use pailwise_kept::records::run::PourRecord;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::desk::{Desk, desk};
use crate::parts::jump::jump;
use crate::parts::later::{in_turn, later};
use crate::parts::start::StartButton;
use crate::parts::verdict::verdict;
use crate::parts::working::{figure, how, live_figure};
use crate::screen::{FloorTab, Screen};
use crate::store::MIX;
use crate::text::{key, live, tr, tr_with};

/// Shows the next batch, or why there is none, updated with every entry.
#[component]
pub(super) fn Answer() -> impl IntoView {
    let desk = desk();
    // Checked once, and not with every key.
    let shelved = Memo::new(move |_| desk.product());
    let product = Memo::new(move |_| {
        let product = shelved.get()?;
        let checked = Product::try_from(&product);
        Some((product, checked))
    });
    let found = Memo::new(move |_| {
        let units = desk.settings.with(|s| s.units);
        desk.mix.with(|mix| find(mix, product.get(), units))
    });
    let (settled, waits) = later(found, |found| found.batch().is_some());
    let answers = Memo::new(move |_| found.with(|found| found.batch().is_some()));
    let other = move || {
        let reader = desk.reader();
        found.with(|found| no_batch(reader, found))
    };
    // What more than one part shows.
    let shared = Memo::new(move |_| {
        settled.with(|found| {
            let good = found.as_ref().and_then(Found::batch)?;
            let found = judged(&good.job, good.batch.timeline.done);
            Some((good.job.moves(Some(&good.batch)), found))
        })
    });
    // The rest is asked for when the first answer is there: built before, its parts would all be
    // filled at once.
    let begins = Memo::new(move |_| settled.with(Option::is_some));
    view! {
        {move || answers.get().then(|| view! { <Headline found=found /> })}
        {other}
        <div class="answer-rest" aria-busy=move || waits.get().then_some("true")>
            {move || begins.get().then(|| rest(desk, settled, shared))}
        </div>
    }
}

/// Why there is no batch; nothing where there is one.
fn no_batch(reader: Reader, found: &Found) -> Option<AnyView> {
    match found {
        Found::NoProduct => {
            Some(view! { <p class="no-answer">{live(key::NO_PRODUCT)}</p> }.into_any())
        }
        Found::Faults(faults) => Some(no_answer(reader, faults).into_any()),
        Found::Wrong(error, moves, limit) => Some(wrong(reader, error, moves, *limit).into_any()),
        Found::Refused(refusal, moves, job) => {
            let found = judged(job, Time::default());
            Some(
                view! {
                    {forbids(&found).then(|| readiness(reader, &found))}
                    {refused(reader, refusal, moves, &job.product)}
                }
                .into_any(),
            )
        }
        Found::Batch(_) => None,
    }
}

/// What follows the headline: the split, the times, what holds the batch back, and the workings.
fn rest(
    desk: Desk,
    settled: ReadSignal<Option<Found>>,
    shared: Memo<Option<(Vec<Move>, Readiness)>>,
) -> impl IntoView {
    // A part of what goes with the answer, anew with each answer.
    let part = move |show: fn(Reader, &Good, &[Move], &Readiness) -> AnyView| {
        in_turn(move || {
            let shown = move || {
                let reader = desk.reader();
                let (moves, ready) = shared.get()?;
                settled.with(|found| {
                    let good = found.as_ref().and_then(Found::batch)?;
                    Some(show(reader, good, &moves, &ready))
                })
            };
            shown.into_any()
        })
    };
    view! {
        // What forbids coating stands first.
        {part(|reader, good, _, ready| view! {
            {forbids(ready).then(|| readiness(reader, ready))}
            {say::left_over(reader, &good.batch).map(|text| view! { <p class="caution">{text}</p> })}
            {kits::kits_first(reader, good)}
            {split::split(reader, good)}
            {start(good, ready)}
        }.into_any())}
        {part(|reader, good, _, _| view! {
            {rescue::rescue(reader, good)}
            {time::time(reader, good)}
        }.into_any())}
        {part(|reader, good, moves, ready| view! {
            {holds(reader, good, moves)}
            {(!forbids(ready)).then(|| readiness(reader, ready))}
        }.into_any())}
        {part(|reader, good, _, _| heat::heat(reader, good).into_any())}
        {part(|reader, good, moves, _| working(reader, good, moves).into_any())}
    }
}

/// Whether the batch that was taken from the floor's plan is down already.
fn is_down(desk: Desk) -> bool {
    let from = desk.mix.with(|mix| {
        let from = mix.from_floor.as_ref()?;
        mix.place().map(|place| (place, from.downs))
    });
    let Some((place, Some(then))) = from.filter(|(place, _)| place.is_of(desk.floor_id())) else {
        return false;
    };
    let down = |form: &FloorFormRecord| Some(form.coats.get(place.coat)?.downs_of(place.bay));
    desk.floor.with(|form| down(form).is_some_and(|down| down > then))
}

/// How much, and how far it goes; only its figures change with the answer.
#[component]
fn Headline(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let said = move |say: fn(Reader, &Good) -> String| {
        // It is gone with the answer, so there is one.
        Memo::new(move |_| found.with(|found| found.batch().map(|good| say(desk.reader(), good))))
    };
    let amount = said(|reader, good| reader.volume(good.batch.measured.volume));
    let covers = said(covers);
    // As long as what is typed here changes nothing about it.
    let to = Memo::new(move |_| {
        let area = found.with(|found| found.batch().map(|good| good.batch.area.value))?;
        desk.mix.with(|mix| {
            let planned = mix.plan()?.area_m2;
            let same = (area - planned).abs() < 1e-3 * planned;
            mix.place().filter(|_| same).map(|place| place.to_m)
        })
    });
    let down = Memo::new(move |_| is_down(desk));
    view! {
        {move || down.get().then(|| view! {
            <p class="caution" id="mix-is-down">
                <a href=Screen::Floor.fragment()>{live(key::ANSWER_IS_DOWN)}</a>
            </p>
        })}
        <div class="headline" aria-live="polite">
            <p class="headline-mix">
                <span class="headline-word">{live(key::ANSWER_MIX)}</span>
                " "
                <strong class="headline-amount" id="mix-amount">
                    {live_figure(amount, Sentence::Measured)}
                </strong>
            </p>
            <p class="headline-covers" id="mix-covers">{live_figure(covers, Sentence::Area)}</p>
            {move || to.get().map(|to| {
                let to = to.map(|to| desk.reader().distance(Length::new::<unit::meter>(to)));
                let crack = desk.mix.with(|mix| {
                    mix.from_floor.as_ref().is_some_and(|from| from.left == Ask::CrackLength)
                });
                let text = match to {
                    None => tr(key::ANSWER_WALLS),
                    Some(to) if crack => tr_with(key::ANSWER_CRACK_TO, &[("to", &to)]),
                    Some(to) => tr_with(key::ANSWER_TAPE, &[("to", &to)]),
                };
                view! { <p class="small" id="mix-tape">{text}</p> }
            })}
        </div>
    }
}

fn covers(reader: Reader, good: &Good) -> String {
    let batch = &good.batch;
    if good.product.role == Role::Filler {
        return tr_with(key::ANSWER_FILLS, &[("length", &reader.distance(batch.reach))]);
    }
    let area = reader.area(batch.area);
    if batch.finishes {
        return tr_with(key::ANSWER_FINISHES, &[("area", &area)]);
    }
    tr_with(key::ANSWER_COVERS, &[("area", &area), ("reach", &reader.distance(batch.reach))])
}

/// As many moves are offered.
const MOVES: usize = 3;

/// What its sheet leaves open, and how the figures came about.
fn working(reader: Reader, good: &Good, moves: &[Move]) -> impl IntoView + use<> {
    let gaps = good.job.product.gaps().iter().map(|gap| view! { <li>{live(say::gap(*gap))}</li> });
    let explained = moves.iter().take(MOVES).map(Move::explain);
    let steps: Vec<Step> =
        good.job.explain_batch(&good.batch).into_iter().chain(explained).collect();
    view! {
        <ul class="gaps">{gaps.collect_view()}</ul>
        {how(reader, Some(&good.product), &steps)}
    }
}

/// Starting the clock of this batch; not urged where coating is forbidden.
fn start(good: &Good, found: &Readiness) -> impl IntoView + use<> {
    let down = untrack(|| is_down(desk()));
    let urged = !forbids(found) && !down;
    let measured = &good.batch.measured;
    let pours = measured.pours.iter();
    let pours = pours.map(|pour| PourRecord::of(&good.product, &pour.pour)).collect();
    let mixed_l = measured.volume.get::<unit::liter>();
    let place = desk().mix.with_untracked(MixRecord::place).filter(|_| !down);
    view! {
        <StartButton
            job=good.record.clone()
            mixed_l=mixed_l
            pours=pours
            place=place
            urged=urged
        />
    }
}

/// The readings now, for laying that takes so long.
fn judged(job: &Job, laying: Time) -> Readiness {
    ready(&job.product, &Course::steady(job.conditions), laying)
}

fn forbids(found: &Readiness) -> bool {
    found.judged.iter().any(Judged::fails)
}

/// Go, wait or not, by the readings now; the evening is the Floor screen's.
fn readiness(reader: Reader, found: &Readiness) -> AnyView {
    view! {
        {verdict(reader, found, "mix-verdict", key::READY_GO_NOW, |_| String::new())}
        <p class="small verdict-more">
            <a href=FloorTab::Ready.fragment()>{live(key::READY_TONIGHT)}</a>
        </p>
    }
    .into_any()
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
    let desk = desk();
    let items = moves.iter().take(MOVES).map(|m| {
        let adds = match crack {
            Some(width) => reader.distance(m.adds / width),
            None => reader.area(m.adds),
        };
        let adds = tr_with(key::HOLDS_ADDS, &[("area", &adds)]);
        let (change, text) = (m.change, say::change(reader, m.change));
        let taps = !matches!(change, Change::CoolerMaterial(_) | Change::MixFor(_));
        let make = move |_| {
            let what = say::change(untrack(|| desk.reader()), change);
            let _ = desk.step(what, &[MIX.to_owned()], || {
                desk.mix.update(|mix| {
                    mix.make(change);
                });
                Ok::<(), ()>(())
            });
        };
        let said = if taps {
            view! {
                <button class="button move-make" type="button" on:click=make>{text}</button>
            }
            .into_any()
        } else {
            view! { <span>{text}</span> }.into_any()
        };
        view! {
            <li>
                {said}
                <span class="moves-adds">{adds}</span>
            </li>
        }
    });
    view! { <ul class="moves">{items.collect_view()}</ul> }
}

/// Why there is no answer: which fields are invalid.
fn no_answer(reader: Reader, faults: &[Fault]) -> impl IntoView + use<> {
    let items = faults.iter().map(|fault| {
        let line = say::invalid(reader, &tr(fault.place.label()), fault.invalid);
        view! { <li>{jump(fault.place.label(), line)}</li> }
    });
    view! {
        <div class="no-answer" role="alert">
            <p>{live(key::NO_ANSWER)}</p>
            <ul>{items.collect_view()}</ul>
        </div>
    }
}

/// Why the calculation refused; with the way out where measuring is what is too coarse.
fn wrong(
    reader: Reader,
    error: &Error,
    moves: &[Move],
    limit: Option<Mass>,
) -> impl IntoView + use<> {
    let too_coarse =
        matches!(error, Error::TooCoarse { .. } | Error::NotMeasurable | Error::DoesNotFit { .. });
    view! {
        <div class="no-answer" role="alert">
            <p>{say::error(reader, error)}</p>
            {limit.map(|most| view! {
                <p>{tr_with(key::ERROR_OWN_LIMIT, &[("most", &reader.mass(most))])}</p>
            })}
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

fn refused(
    reader: Reader,
    refusal: &Refusal,
    moves: &[Move],
    product: &Product,
) -> impl IntoView + use<> {
    let why = say::refused(reader, refusal);
    // What the figures of the product have to do with it.
    let id = desk().mix.with_untracked(|mix| mix.product.clone());
    let lot = time::lot_line(reader, product, &id);
    let unsaid = say::open_time_unsaid(product, refusal.bound);
    let unsaid = unsaid.map(|text| view! { <p>{live(text)}</p> });
    view! {
        <div class="no-answer" role="alert">
            <p class="no-answer-head">{live(key::REFUSED)}</p>
            <p>{why}</p>
            {unsaid}
            {lot}
            {helps(reader, moves)}
        </div>
    }
}
