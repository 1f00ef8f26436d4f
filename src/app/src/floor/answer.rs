//! The plan: the floor from above with its bands, the day row by row, and each batch in words.

use leptos::prelude::*;
use pailwise_calc::conditions::Course;
use pailwise_calc::field::Field;
use pailwise_calc::floor::{Coat, CoatPlan, Learnt, Place, Placed, Stopped, Way, WayOut};
use pailwise_calc::measure::marks::Mark;
use pailwise_calc::quantity::{Time, Volume, minutes, unit};
use pailwise_calc::ready::Verdict;
use pailwise_calc::record::{ProductRecord, Role};

use super::ahead::{CoatAhead, Next, ahead};
use super::coats::{CoatPick, refusal, shown_coat};
use super::days::Days;
use super::fields::{FormField, TimeField};
use super::find::{Found, Good};
use super::form::{CoatFormRecord, DownRecord, FloorFormRecord, Single, down_measures};
use super::handed::time_of_day;
use crate::clock::run::PlaceRecord;
use crate::desk::{Desk, desk};
use crate::entry::Entry;
use crate::mix::state::{Ask, FromFloorRecord};
use crate::parts::day::{Row, day};
use crate::parts::plan::{Band, plan};
use crate::parts::working::how;
use crate::place::{Place as AppPlace, Side};
use crate::say;
use crate::show::Reader;
use crate::text::{key, live, tr, tr_with};

/// As many batches are written out; the rest are like the last of them.
const WRITTEN: usize = 40;

/// The plan, live.
#[component]
pub(super) fn Answer(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let over = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => overview(reader, desk, good).into_any(),
            other => refusal(reader, other).into_any(),
        })
    };
    let under = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => in_words(reader, desk, good).into_any(),
            _ => ().into_any(),
        })
    };
    // What is typed about batches that are down stands outside the plan, which every key changes.
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    view! {
        <div class="card plan-pick"><CoatPick /></div>
        {over}
        {move || downs(desk, shown.get())}
        {under}
    }
}

/// One coat of the floor with its plan.
fn coat_of(reader: Reader, desk: Desk, good: &Good) -> Option<(usize, Clock, &Coat, &CoatPlan)> {
    let shown = desk.floor.with(shown_coat);
    let (coat, plan) = (good.floor.coats.get(shown)?, good.plans.get(shown)?);
    let mark = desk.mix.with(|mix| mix.marks.mark(mix.way, reader.units));
    let clock = Clock { reader, begins: coat.begins, course: coat.course.clone(), mark };
    Some((shown, clock, coat, plan))
}

/// The plan of that coat in a line, what was learnt, and the pictures.
fn overview(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    coat_of(reader, desk, good).map(|(shown, clock, coat, plan)| {
        let overlaps =
            shown.checked_sub(1).is_some_and(|before| down_at(good, before) > coat.begins);
        let overlaps = overlaps.then(|| view! { <p class="caution">{live(key::PLAN_OVERLAP)}</p> });
        let day = (coat.begins.get::<unit::hour>() / 24.0).floor() + 1.0;
        let (name, day) = (good.products[shown].name.clone(), format!("{day:.0}"));
        let heading = tr_with(key::PLAN_OF, &[("name", &name), ("day", &day)]);
        view! {
            <h2 class="plan-heading">{heading}</h2>
            {headline(reader, plan)}
            {overlaps}
            {missed(reader, desk, good, shown)}
            {readiness(reader, good, shown)}
            {unfilled(good)}
            {learnt(reader, plan.learnt)}
            {short(reader, plan)}
            {picture(reader, good, shown)}
            {rows(&clock, plan)}
        }
    })
}

/// Whether it is ready to coat, in a line that leads there.
fn readiness(reader: Reader, good: &Good, shown: usize) -> impl IntoView + use<> {
    let found = super::ready::readiness(good, shown);
    found.map(|found| {
        let (class, word) = match found.verdict {
            Verdict::Go => ("plan-ready", key::READY_GO),
            Verdict::Unread(Field::Humidity) => ("plan-ready", key::READY_UNREAD),
            Verdict::Unread(_) => ("plan-ready", key::READY_UNTESTED),
            Verdict::Wait(_) => ("caution", key::READY_WAIT_SHORT),
            Verdict::NoGo => ("caution", key::READY_NO),
        };
        let why = found.judged.first().filter(|judged| judged.fails());
        let why = why.map(|judged| say::judged(reader, judged, found.spread_is_usual));
        view! {
            <p class=class id="plan-ready">
                <a href=Side::Ready.fragment()>{live(word)}</a>
                {why.map(|why| format!(" {why}"))}
            </p>
        }
    })
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
                <a href=Side::After.fragment()>{live(key::PLAN_MISSED)}</a>
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

/// When a coat is down, from midnight of the first day.
fn down_at(good: &Good, coat: usize) -> Time {
    let (plan, coat) = (&good.plans[coat], &good.floor.coats[coat]);
    let last = plan.batches.last();
    last.map_or(coat.begins, |last| coat.begins + last.start + last.batch.timeline.done)
}

/// Each batch of that coat in words, and why there are no more, if it stops.
fn in_words(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    coat_of(reader, desk, good).map(|(shown, clock, _, plan)| {
        view! {
            {batches(&clock, desk, &good.products[shown], plan, shown)}
            {plan.stopped.as_ref().map(|stopped| stop(&clock, stopped))}
        }
    })
}

/// Times of day of one coat, how warm it is then, and how its crew measures.
#[derive(Clone)]
struct Clock {
    reader: Reader,
    begins: Time,
    course: Course,
    mark: Mark,
}

impl Clock {
    fn minutes(&self, since: Time) -> f64 {
        (self.begins + since).get::<unit::minute>()
    }

    fn at(&self, since: Time) -> String {
        self.reader.clock(self.minutes(since))
    }
}

fn headline(reader: Reader, plan: &CoatPlan) -> impl IntoView + use<> {
    let planned: Volume = plan.batches.iter().map(|p| p.batch.measured.volume).sum();
    let volume = reader.volume_about(planned);
    let text = match plan.batches.len() {
        0 if plan.stopped.is_none() => tr(key::PLAN_COVERED),
        0 => String::new(),
        1 => tr_with(key::PLAN_ONE_BATCH, &[("volume", &volume)]),
        n => tr_with(key::PLAN_BATCHES, &[("count", &n.to_string()), ("volume", &volume)]),
    };
    let stops = plan.stopped.is_some().then(|| {
        let needs = tr_with(key::PLAN_NEEDS, &[("volume", &reader.volume_about(plan.needed))]);
        view! { <p class="no-answer">{live(key::PLAN_NOT_ALL)}" "{needs}</p> }
    });
    view! {
        <p class="headline headline-covers" id="plan-sum" aria-live="polite">{text}</p>
        {stops}
    }
}

/// What the batches that are down have told.
fn learnt(reader: Reader, learnt: Option<Learnt>) -> Option<AnyView> {
    let learnt = learnt?;
    if !learnt.believable() {
        return Some(view! { <p class="caution">{live(key::PLAN_CHECK)}</p> }.into_any());
    }
    let spread = if learnt.spread > 1.03 {
        Some((key::PLAN_THIN, learnt.spread - 1.0))
    } else if learnt.spread < 0.97 {
        Some((key::PLAN_THICK, 1.0 / learnt.spread - 1.0))
    } else {
        None
    };
    let pace = learnt.pace.filter(|pace| (pace - 1.0).abs() > 0.03);
    let lines = spread.into_iter().chain(pace.map(|pace| (key::PLAN_PACE, pace)));
    let lines = lines.map(|(text, share)| {
        let text = tr_with(text, &[("share", &reader.share(share))]);
        view! { <p class="caution">{text}</p> }
    });
    Some(lines.collect_view().into_any())
}

/// Whether what is here will do.
fn short(reader: Reader, plan: &CoatPlan) -> impl IntoView + use<> {
    plan.short.map(|short| {
        if short > Volume::default() {
            let text = tr_with(key::PLAN_SHORT, &[("short", &reader.volume_about(short))]);
            view! { <p class="no-answer" role="alert" id="plan-short">{text}</p> }.into_any()
        } else {
            view! { <p class="small">{live(key::PLAN_ENOUGH)}</p> }.into_any()
        }
    })
}

/// The floor from above.
fn picture(reader: Reader, good: &Good, shown: usize) -> impl IntoView + use<> {
    let (plan_of, coat) = (&good.plans[shown], &good.floor.coats[shown]);
    let shape = &good.floor.shape;
    let tape = |to| reader.distance(to);
    let mut bands: Vec<Band> = Vec::new();
    let mut from = shape.back();
    let cracks = plan_of.batches.iter().any(|p| matches!(p.place, Place::Cracks { .. }));
    if !cracks {
        for done in &coat.done {
            let to = done.ended_at.min(shape.front());
            let boxes = shape.boxes(from, to);
            bands.push(Band { boxes, to, number: "✓".to_owned(), tape: tape(to), down: true });
            from = to;
        }
    }
    for (i, placed) in plan_of.batches.iter().enumerate() {
        let Place::Flat { from, to } = placed.place else { continue };
        let number = (i + 1).to_string();
        bands.push(Band { boxes: shape.boxes(from, to), to, number, tape: tape(to), down: false });
    }
    let said: Vec<String> = bands
        .iter()
        .take(WRITTEN)
        .map(|band| {
            let tape = tr_with(key::PLAN_TAPE, &[("distance", &band.tape)]);
            format!("{} {tape}", band.number)
        })
        .collect();
    let title = format!("{} {}", tr(key::PLAN_PICTURE), said.join(", "));
    let sides = (tr(key::PLAN_BACK), tr(key::PLAN_FRONT));
    let floor = shape.boxes(shape.back(), shape.front());
    let walls = plan_of.batches.iter().filter(|placed| placed.place == Place::Verticals).count();
    let walls = (walls > 0).then(|| tr_with(key::PLAN_WALLS, &[("n", &walls.to_string())]));
    view! { <div class="card">{plan(&floor, &bands, (&sides.0, &sides.1), walls, title)}</div> }
}

/// A row a batch through the day.
fn rows(clock: &Clock, plan: &CoatPlan) -> impl IntoView + use<> {
    let rows: Vec<Row> = plan
        .batches
        .iter()
        .take(WRITTEN)
        .enumerate()
        .map(|(i, placed)| {
            let timeline = &placed.batch.timeline;
            let at = |time: Time| clock.minutes(placed.start + time);
            Row {
                number: (i + 1).to_string(),
                mixed: at(Time::default()),
                poured: at(timeline.pour),
                rolled: at(timeline.rolled),
                done: at(timeline.done),
                pour_out: at(placed.batch.pour_out),
                edge_until: (!placed.batch.finishes).then(|| at(placed.batch.edge_until)),
            }
        })
        .collect();
    if rows.is_empty() {
        return None;
    }
    let said: Vec<String> = rows
        .iter()
        .map(|row| format!("{} {}", row.number, clock.reader.clock(row.mixed)))
        .collect();
    let title = format!("{} {}", tr(key::DAY_PICTURE), said.join(", "));
    let clock = clock.clone();
    let under = move |minute: f64| {
        let since = minutes(minute) - clock.begins;
        (clock.reader.clock_short(minute), clock.reader.temperature(clock.course.air(since)))
    };
    Some(view! {
        <div class="card">
            {day(&rows, under, title)}
            <p class="small">{live(key::DAY_LEGEND)}</p>
        </div>
    })
}

/// What is down: walls and steps, and batches whose end can be corrected.
fn downs(desk: Desk, shown: usize) -> impl IntoView {
    let down = Memo::new(move |_| {
        desk.floor.with(|form| {
            let coat = form.coats.get(shown)?;
            (coat.verticals_done || !coat.down.is_empty())
                .then_some((coat.verticals_done, coat.down.len()))
        })
    });
    let alter = move |change: fn(&mut CoatFormRecord)| {
        desk.floor.update(|form| {
            if let Some(coat) = form.coats.get_mut(shown) {
                change(coat);
                if coat.down.is_empty() && !coat.verticals_done {
                    coat.resumes = None;
                }
            }
        });
    };
    move || {
        down.get().map(|(walls, count)| {
            let fields = (0..count).map(|i| view! { <OneDown shown=shown i=i /> });
            let resumes = move || {
                desk.floor.with(|form| {
                    form.coats.get(shown).and_then(|coat| coat.resumes.clone()).unwrap_or_default()
                })
            };
            let take_back = move |_| {
                alter(|coat| {
                    if coat.down.pop().is_none() {
                        coat.verticals_done = false;
                    }
                });
            };
            view! {
                <div class="card down">
                    <h2>{live(key::DOWN_HEADING)}</h2>
                    {walls.then(|| view! { <p>{live(key::DOWN_VERTICALS)}</p> })}
                    {fields.collect_view()}
                    <TimeField
                        id="coat-resumes"
                        label=key::ASK_RESUMES
                        time=Signal::derive(resumes)
                        set=move |time| desk.floor.update(|form| {
                            if let Some(coat) = form.coats.get_mut(shown) {
                                coat.resumes = Some(time);
                            }
                        })
                    />
                    <button class="button button-quiet" type="button" on:click=take_back>
                        {live(key::REMOVE)}
                    </button>
                </div>
            }
        })
    }
}

#[component]
fn OneDown(shown: usize, i: usize) -> impl IntoView {
    let (ended, took) = down_measures();
    let down = move |form: &FloorFormRecord| form.coats.get(shown)?.down.get(i).cloned();
    let alter = move |form: &mut FloorFormRecord, change: &dyn Fn(&mut DownRecord)| {
        if let Some(down) = form.coats.get_mut(shown).and_then(|coat| coat.down.get_mut(i)) {
            change(down);
        }
    };
    view! {
        <FormField
            id=format!("down-ended-{i}")
            measure=ended
            get=move |form: &FloorFormRecord| Some(down(form)?.ended_at)
            put=move |form: &mut FloorFormRecord, entry: Entry| {
                alter(form, &|down| down.ended_at.clone_from(&entry));
            }
        />
        <FormField
            id=format!("down-took-{i}")
            measure=took
            optional=true
            get=move |form: &FloorFormRecord| Some(down(form)?.rolled_in)
            put=move |form: &mut FloorFormRecord, entry: Entry| {
                alter(form, &|down| down.rolled_in.clone_from(&entry));
            }
        />
    }
}

/// Each batch in words.
fn batches(
    clock: &Clock,
    desk: Desk,
    product: &ProductRecord,
    plan: &CoatPlan,
    shown: usize,
) -> impl IntoView + use<> {
    let items = plan.batches.iter().take(WRITTEN).enumerate().map(|(i, placed)| {
        let next =
            plan.batches.get(i + 1).map_or(placed.start + placed.batch.timeline.done, |p| p.start);
        let down = (i == 0).then(|| down_button(clock, desk, placed, next, shown));
        let more = i + 1 < plan.batches.len();
        let over = (i == 0).then(|| to_mix(desk, placed, product, shown, more));
        view! { <li class="batch">{batch(clock, product, placed, i + 1)}{over}{down}</li> }
    });
    // Said once, of the batch that is worst.
    let off = |placed: &&Placed| placed.batch.measured.off_at_most;
    let worst = plan.batches.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
    let worst = worst.filter(|placed| off(placed) > placed.job.product.tolerance());
    let unsure = worst.map(|placed| {
        let reader = clock.reader;
        let share = reader.share(off(&placed));
        let tolerance = reader.share(placed.job.product.tolerance());
        let sure = tr(key::SPLIT_FINER);
        let figures = [("share", &*share), ("tolerance", &*tolerance), ("sure", &*sure)];
        view! { <p class="caution">{tr_with(key::SPLIT_OFF_AT_MOST, &figures)}</p> }
    });
    let more = plan.batches.len().saturating_sub(WRITTEN);
    let more = (more > 0).then(|| {
        view! { <p>{tr_with(key::MORE_BATCHES, &[("n", &more.to_string())])}</p> }
    });
    (!plan.batches.is_empty()).then(|| {
        view! { <div class="card">{unsure}<ol class="batches">{items.collect_view()}</ol>{more}</div> }
    })
}

fn batch(
    clock: &Clock,
    product: &ProductRecord,
    placed: &Placed,
    number: usize,
) -> impl IntoView + use<> {
    let reader = clock.reader;
    let (batch, timeline) = (&placed.batch, &placed.batch.timeline);
    let start = clock.at(placed.start);
    let volume = reader.volume(batch.measured.volume);
    let area = reader.area(batch.area);
    let place = match placed.place {
        Place::Verticals => tr_with(key::BATCH_VERTICALS, &[("area", &area)]),
        Place::Cracks { from, to } => {
            let (from, to) = (reader.distance(from), reader.distance(to));
            tr_with(key::BATCH_CRACKS, &[("from", &from), ("to", &to)])
        }
        Place::Flat { from, to } => {
            let (from, to) = (reader.distance(from), reader.distance(to));
            tr_with(key::BATCH_FLAT, &[("from", &from), ("to", &to), ("area", &area)])
        }
    };
    let at = |time: Time| clock.at(placed.start + time);
    let (pour, emptied) = (at(timeline.pour), at(timeline.emptied));
    let (rolled, done) = (at(timeline.rolled), at(timeline.done));
    let figures =
        [("pour", &*pour), ("emptied", &*emptied), ("rolled", &*rolled), ("done", &*done)];
    let times = match placed.place {
        Place::Verticals | Place::Cracks { .. } => key::BATCH_TIMES_BRUSHED,
        Place::Flat { .. } if product.flaked => key::BATCH_TIMES_FLAKED,
        Place::Flat { .. } => key::BATCH_TIMES,
    };
    let (pour_out, air) = (at(batch.pour_out), reader.temperature(clock.course.air(placed.start)));
    let pours = batch.measured.pours.iter().map(|poured| {
        let name = product.name_of(poured.pour.what);
        format!("{name} {}", reader.shown_by(clock.mark, poured.reading))
    });
    let pours = pours.collect::<Vec<_>>().join(", ");
    let slab = reader.temperature(placed.job.conditions.slab);
    let limit = [("pour_out", &*pour_out), ("air", &*air), ("slab", &*slab)];
    let limit = tr_with(key::BATCH_LIMIT, &limit);
    let first = number == 1;
    let number = number.to_string();
    let line = [("n", &*number), ("start", &*start), ("volume", &*volume)];
    // What would make the next one larger; of the others the floor decides.
    let moves = if first { placed.job.moves(Some(batch)) } else { Vec::new() };
    let moves = moves.into_iter().take(2).map(|m| {
        let adds = tr_with(key::HOLDS_ADDS, &[("area", &reader.area(m.adds))]);
        view! { <li><span>{say::change(reader, m.change)}</span><span class="moves-adds">{adds}</span></li> }
    });
    let evened = placed.evened.then(|| view! { <p class="small">{live(key::BATCH_EVENED)}</p> });
    view! {
        <p class="batch-mix">{tr_with(key::BATCH_LINE, &line)}</p>
        <p class="batch-place">{place}</p>
        <p class="small">{pours}</p>
        <p class="small">{tr_with(times, &figures)}" "{limit}</p>
        <p class="small">{live(say::bound(batch.bound))}</p>
        {evened}
        <ul class="moves">{moves.collect_view()}</ul>
        {how(reader, Some(product), &batch.working)}
    }
}

/// Takes the first batch over to the Mix screen, for its split and its clock.
fn to_mix(
    desk: Desk,
    placed: &Placed,
    product: &ProductRecord,
    shown: usize,
    more: bool,
) -> impl IntoView + use<> {
    let next = placed.batch.timeline.next_mix.get::<unit::minute>();
    let next_after_min = more.then_some(next);
    // The batch as it was planned, evened out perhaps: all of it, and no more.
    let (id, bare, area) = (product.id.clone(), placed.job.bare, placed.batch.area);
    let to_m = match placed.place {
        Place::Flat { to, .. } => Some(to.get::<unit::meter>()),
        _ => None,
    };
    let go = move |_| {
        let reader = desk.reader();
        let coat = desk.floor.with_untracked(|form| form.coats.get(shown).cloned());
        desk.mix.update(|mix| {
            mix.product.clone_from(&id);
            let mut set = |ask: Ask, entry: Entry| mix.entries.insert(ask, entry);
            if let Some(coat) = coat {
                set(Ask::Slab, coat.slab.clone());
                set(Ask::Air, coat.air.clone());
                set(Ask::Material, coat.material.clone());
                let humidity = coat.entry(Single::Humidity).cloned();
                set(
                    Ask::Humidity,
                    humidity.unwrap_or_else(|| Single::Humidity.first(reader.units)),
                );
            }
            let area = Entry::typed(reader.typed_area(area), reader.units);
            set(Ask::Area, area.clone());
            set(Ask::Width, Entry::typed(reader.typed_distance(bare.width), reader.units));
            mix.from_floor = to_m.map(|to_m| FromFloorRecord {
                place: PlaceRecord { coat: shown, to_m, next_after_min },
                product: id.clone(),
                area,
            });
        });
    };
    to_m.map(|_| view! {
        <a class="button button-link" href=AppPlace::Mix.fragment() on:click=go>{live(key::BATCH_TO_MIX)}</a>
    })
}

/// Says that the first batch of the list is down; where it ended is taken as planned until it is
/// typed over.
fn down_button(
    clock: &Clock,
    desk: Desk,
    placed: &Placed,
    next: Time,
    shown: usize,
) -> impl IntoView + use<> {
    let reader = clock.reader;
    let place = placed.place;
    let mixed_l = placed.batch.measured.volume.get::<unit::liter>();
    let minutes = clock.minutes(next);
    let resumes = time_of_day(minutes);
    let down = move |_| {
        let units = reader.units;
        desk.floor.update(|form| {
            let Some(coat) = form.coats.get_mut(shown) else { return };
            match place {
                Place::Verticals => coat.verticals_done = true,
                Place::Flat { to, .. } | Place::Cracks { to, .. } => coat.down.push(DownRecord {
                    ended_at: Entry::typed(reader.typed_distance(to), units),
                    rolled_in: Entry::typed("", units),
                    mixed_l,
                }),
            }
            coat.resumes = Some(resumes.clone());
        });
    };
    view! {
        <button class="button" type="button" on:click=down>{live(key::BATCH_DOWN)}</button>
    }
}

/// Why it goes no further, and what would help.
fn stop(clock: &Clock, stopped: &Stopped) -> impl IntoView + use<> {
    let reader = clock.reader;
    let at = tr_with(key::STOPPED_AT, &[("start", &clock.at(stopped.at))]);
    let why = say::no_batch(reader, &stopped.why);
    let ways = stopped.ways.iter().take(4).map(|out| {
        let covers = tr_with(key::WAY_COVERS, &[("area", &reader.area(out.covers))]);
        view! {
            <li>
                <span>{way(reader, out)}</span>
                <span class="moves-adds">{covers}</span>
            </li>
        }
    });
    let helps = (!stopped.ways.is_empty()).then(|| view! { <p>{live(key::REFUSED_HELPS)}</p> });
    view! {
        <div class="no-answer" role="alert" id="plan-stopped">
            <p class="no-answer-head">{live(key::STOPPED)}</p>
            <p>{at}" "{why}</p>
            {helps}
            <ul class="moves">{ways.collect_view()}</ul>
        </div>
    }
}

fn way(reader: Reader, out: &WayOut) -> String {
    match out.way {
        Way::Change(change) => say::change(reader, change),
        Way::MoreRollers(n) => tr_with(key::WAY_MORE_ROLLERS, &[("n", &n.to_string())]),
        Way::Strip(depth) => tr_with(key::WAY_STRIP, &[("depth", &reader.distance(depth))]),
        Way::Later(later) => tr_with(key::WAY_LATER, &[("time", &reader.time(later))]),
    }
}
