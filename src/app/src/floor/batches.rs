//! Each batch of a plan in words.

use std::collections::BTreeMap;

use leptos::prelude::*;
use pailwise_calc::batch::{Bound, Move};
use pailwise_calc::crew::Crew;
use pailwise_calc::floor::{Coat, CoatPlan, Place, Placed};
use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Length, ThermodynamicTemperature, Time, unit};
use pailwise_calc::record::ProductRecord;
use pailwise_calc::working::Step;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::floor::Single;
use pailwise_kept::records::mix::{Ask, FromFloorRecord, PlanInputsRecord, TeamRecord};
use pailwise_kept::records::run::BandRecord;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use super::down::{down_button, end_of};
use super::flake::InBands;
use super::pictures::{Clock, WRITTEN};
use crate::desk::Desk;
use crate::parts::working::how;
use crate::screen::Screen;
use crate::text::{key, live, tr_with};

/// The plan of a coat, with what its batches have to know of the floor.
#[derive(Clone, Copy)]
pub(super) struct Planned<'a> {
    pub(super) plan: &'a CoatPlan,
    pub(super) product: &'a ProductRecord,
    /// Place of this coat among those of the floor, counted from 0.
    pub(super) coat: usize,
    /// How many of its batches are down.
    pub(super) downs: usize,
    /// Everybody who is here.
    pub(super) crew: &'a Crew,
    /// People rolling, flaking and mixing, as they are typed on the Mix screen.
    pub(super) typed: [u32; 3],
    /// Its bays, and the crews that lay them.
    pub(super) of: &'a Coat,
    /// The flake of its bands, where it takes any.
    pub(super) flake: Option<&'a InBands>,
}

impl Planned<'_> {
    /// Which crew lays a batch; nobody's of the flat is everybody's.
    fn team(&self, placed: &Placed) -> Option<usize> {
        let Place::Flat { bay, .. } = placed.place else { return None };
        self.of.bays.get(bay).map(|bay| bay.team)
    }

    /// Those of its crew before a batch.
    fn before(&self, i: usize) -> impl Iterator<Item = &Placed> {
        let own = self.plan.batches.get(i).and_then(|placed| self.team(placed));
        let before = self.plan.batches.iter().take(i);
        before
            .filter(move |other| self.team(other).zip(own).is_none_or(|(other, own)| other == own))
    }

    /// Whether a batch is the next one its crew mixes.
    fn is_next(&self, i: usize) -> bool {
        let placed = self.plan.batches.get(i);
        placed.is_some_and(|placed| placed.under_way.is_none())
            && self.before(i).all(|other| other.under_way.is_some())
    }

    /// When the first of the others is mixed; the end of a batch where there are none.
    fn next(&self, i: usize) -> Time {
        let others = self.plan.batches.iter().enumerate().filter(|(at, _)| *at != i);
        let first = others.map(|(_, placed)| placed.start).reduce(Time::min);
        let own = self.plan.batches.get(i);
        let end = own.map_or_else(Time::default, |own| own.start + own.batch.timeline.done);
        first.unwrap_or(end)
    }

    /// Which bay, which crew and who mixes it, where there are several.
    fn who(&self, placed: &Placed) -> String {
        let number = |i: usize| (i + 1).to_string();
        let bay = match placed.place {
            Place::Flat { bay, .. } if self.of.bays.len() > 1 => Some((key::BATCH_BAY, bay)),
            _ => None,
        };
        let several = self.of.teams.len() > 1;
        let team = self.team(placed).filter(|_| several).map(|team| (key::BATCH_CREW, team));
        let mixer = placed.mixer.filter(|_| self.crew.mixers > 1);
        let mixer = mixer.map(|mixer| (key::BATCH_MIXER, mixer));
        let said = [bay, team, mixer].into_iter().flatten();
        said.map(|(text, i)| tr_with(text, &[("n", &number(i))])).collect::<Vec<_>>().join(", ")
    }

    /// The people of a batch, where its crew is one of several.
    fn people(&self, placed: &Placed) -> Option<TeamRecord> {
        let team = self.team(placed).filter(|_| self.of.teams.len() > 1)?;
        let Crew { rollers, flakers, mixers, .. } = self.of.teams.get(team)?.crew;
        let typed = self.typed;
        Some(TeamRecord { rollers, flakers, mixers, of: typed })
    }
}

/// Each batch in words.
pub(super) fn batches(clock: &Clock, desk: Desk, planned: Planned) -> impl IntoView + use<> {
    let Planned { plan, product, downs, flake, .. } = planned;
    let items = plan.batches.iter().take(WRITTEN).enumerate().map(|(i, placed)| {
        let next = planned.is_next(i);
        // What is under way before it comes down first.
        let down = next && planned.before(i).next().is_none();
        let down = down.then(|| down_button(clock, desk, placed, planned.next(i), planned.coat));
        let over = next.then(|| to_mix(desk, placed, planned));
        let over = over.map(IntoAny::into_any).or_else(|| placed.under_way.map(|_| on_clock()));
        let who = planned.who(placed);
        let said = batch(clock, product, placed, (downs + i + 1, next, who));
        let flake = flake.and_then(|flake| flake.line(clock.reader, i));
        let flake = flake.map(|text| view! { <p class="small batch-flake">{text}</p> });
        view! { <li class="batch">{said}{flake}{over}{down}</li> }
    });
    let more = plan.batches.len().saturating_sub(WRITTEN);
    let more = (more > 0).then(|| {
        view! { <p>{tr_with(key::MORE_BATCHES, &[("n", &more.to_string())])}</p> }
    });
    (!plan.batches.is_empty()).then(|| {
        view! { <div class="card"><ol class="batches">{items.collect_view()}</ol>{more}</div> }
    })
}

pub(super) fn batch(
    clock: &Clock,
    product: &ProductRecord,
    placed: &Placed,
    (number, next, who): (usize, bool, String),
) -> impl IntoView + use<> {
    let reader = clock.reader;
    let batch = &placed.batch;
    let start = clock.at(placed.start);
    let mixed = placed.under_way.and_then(|begun| begun.mixed);
    let volume = reader.volume(mixed.unwrap_or(batch.measured.volume));
    let place = place_said(reader, placed);
    let times = times_said(clock, product, placed);
    let limit = limit_said(clock, placed);
    let mark = clock.read_in.of(&batch.measured);
    let pours = batch.measured.pours.iter().map(|poured| {
        let name = product.name_of(poured.pour.what);
        format!("{name} {}", reader.shown_by(mark, poured.reading))
    });
    let pours = pours.collect::<Vec<_>>().join(", ");
    let number = number.to_string();
    let line = [("n", &*number), ("start", &*start), ("volume", &*volume)];
    // What would make the next one larger; of the others the floor decides.
    let moves = if next { placed.job.moves(Some(batch)) } else { Vec::new() };
    let moves = &moves[..moves.len().min(2)];
    let working: Vec<Step> = placed
        .job
        .explain_batch(batch)
        .into_iter()
        .chain(moves.iter().map(Move::explain))
        .collect();
    let moves = moves.iter().map(|m| {
        let adds = tr_with(key::HOLDS_ADDS, &[("area", &reader.area(m.adds))]);
        view! { <li><span>{say::change(reader, m.change)}</span><span class="moves-adds">{adds}</span></li> }
    });
    let over = say::left_over(reader, batch).map(|text| view! { <p class="caution">{text}</p> });
    let bound = match (placed.share, batch.bound) {
        _ if placed.under_way.is_some() => None,
        (Some(_), Bound::Floor) if !batch.finishes => Some(key::BATCH_SHARED),
        (_, bound) => Some(say::bound(bound)),
    };
    view! {
        <p class="batch-mix">{tr_with(key::BATCH_LINE, &line)}</p>
        <p class="batch-place">{place}</p>
        {(!who.is_empty()).then(|| view! { <p class="batch-who">{who}</p> })}
        <p class="small">{pours}</p>
        {over}
        <p class="small">{times}" "{limit}</p>
        {bound.map(|bound| view! { <p class="small">{live(bound)}</p> })}
        <ul class="moves">{moves.collect_view()}</ul>
        {how(reader, Some(product), &working)}
    }
}

/// Which part of the floor a batch covers, in words.
fn place_said(reader: Reader, placed: &Placed) -> String {
    let area = reader.area(placed.batch.area);
    match placed.place {
        Place::Verticals => tr_with(key::BATCH_VERTICALS, &[("area", &area)]),
        Place::Cracks { from, to } => {
            let (from, to) = (reader.distance(from), reader.distance(to));
            tr_with(key::BATCH_CRACKS, &[("from", &from), ("to", &to)])
        }
        Place::Flat { from, to, .. } => {
            let (from, to) = (reader.distance(from), reader.distance(to));
            tr_with(key::BATCH_FLAT, &[("from", &from), ("to", &to), ("area", &area)])
        }
    }
}

/// When a batch is poured, its pail empty, its floor rolled and all of it done, in words.
fn times_said(clock: &Clock, product: &ProductRecord, placed: &Placed) -> String {
    let timeline = &placed.batch.timeline;
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
    tr_with(times, &figures)
}

/// By when the pail of a batch must be poured out, and how warm it is then, in words.
fn limit_said(clock: &Clock, placed: &Placed) -> String {
    let reader = clock.reader;
    let pour_out = clock.at(placed.start + placed.batch.pour_out);
    let air = reader.temperature(clock.course.air(placed.start));
    let slab = reader.temperature_up(placed.job.conditions.slab);
    tr_with(key::BATCH_LIMIT, &[("pour_out", &pour_out), ("air", &air), ("slab", &slab)])
}

/// A batch that is under way: its clock says what to do when.
fn on_clock() -> AnyView {
    view! {
        <a class="button button-link" href=Screen::Clock.fragment()>{live(key::BATCH_ON_CLOCK)}</a>
    }
    .into_any()
}

/// Takes the next batch over to the Mix screen, for its split and its clock: what is written there
/// is as one would type it, what is counted with is the plan's own.
fn to_mix(desk: Desk, placed: &Placed, planned: Planned) -> impl IntoView + use<> {
    let Planned { plan, product, coat: shown, .. } = planned;
    let next = placed.batch.timeline.next_mix.get::<unit::minute>();
    // Whether another of the same crew comes after it.
    let same = |other: &&Placed| planned.team(other) == planned.team(placed);
    let next_after_min = (plan.batches.iter().filter(same).count() > 1).then_some(next);
    let (id, job) = (product.id.clone(), placed.job.clone());
    let end = end_of(placed.place);
    let bay = end.map_or(0, |(bay, _)| bay);
    let reckons = PlanInputsRecord {
        area_m2: placed.batch.area.get::<unit::square_meter>(),
        in_plan: placed.in_plan(plan.learnt),
        // On walls they brush with the others.
        cutters: if end.is_some() { job.crew.cutters } else { planned.crew.cutters },
        cut_m2_per_min: job.crew.cut.get::<unit::square_meter_per_second>() * 60.0,
        ends_at_joint: job.bare.ends_at_joint,
        soaks: plan.soaks,
        share_l: placed.share.map(|share| share.get::<unit::liter>()),
        team: planned.people(placed),
    };
    let to_m = end.map(|(_, to)| to.get::<unit::meter>());
    let left =
        if matches!(placed.place, Place::Cracks { .. }) { Ask::CrackLength } else { Ask::Area };
    let go = move |_| {
        let reader = desk.reader();
        let (floor, coat) =
            desk.floor.with_untracked(|form| (form.id, form.coats.get(shown).cloned()));
        desk.mix.update(|mix| {
            mix.product.clone_from(&id);
            let humidity = coat.as_ref().and_then(|coat| coat.entry(Single::Humidity).cloned());
            let humidity = humidity.unwrap_or_else(|| Single::Humidity.first(reader.units));
            mix.entries.insert(Ask::Humidity, humidity);
            let mut exact = BTreeMap::new();
            for (ask, value, typed) in written(reader, &job, left) {
                let (field, kind) = ask.field();
                // As it was typed for the coat, where it is still so warm.
                let own = coat.as_ref().and_then(|coat| match ask {
                    Ask::Slab => Some(&coat.slab),
                    Ask::Air => Some(&coat.air),
                    Ask::Material => Some(&coat.material),
                    _ => None,
                });
                let same = |own: &&Entry| {
                    own.value(kind, field).is_ok_and(|own| (own - value).abs() < 1e-6)
                };
                let entry = own.filter(same).cloned();
                let entry = entry.unwrap_or_else(|| Entry::as_typed(typed, reader.units));
                mix.entries.insert(ask, entry.clone());
                exact.insert(ask, (entry, value));
            }
            mix.from_floor = Some(FromFloorRecord {
                place: BandRecord { floor, coat: shown, bay, to_m, next_after_min },
                product: id.clone(),
                area: mix.entry(left),
                left,
                downs: coat.as_ref().map(|coat| coat.downs_of(bay)),
                exact,
                plan: Some(reckons),
            });
        });
    };
    view! {
        <a class="button button-link" href=Screen::Mix.fragment() on:click=go>{live(key::BATCH_TO_MIX)}</a>
    }
}

/// What of a planned job the Mix screen asks for: its value, and how one would type it.
fn written(reader: Reader, job: &Job, left: Ask) -> Vec<(Ask, f64, String)> {
    let (warm, bare) = (job.conditions, job.bare);
    let celsius = |at: ThermodynamicTemperature| at.get::<unit::degree_celsius>();
    let mut all = vec![
        (Ask::Slab, celsius(warm.slab), reader.typed_warmest(warm.slab)),
        (Ask::Air, celsius(warm.air), reader.typed_warmest(warm.air)),
        (Ask::Material, celsius(warm.material), reader.typed_warmest(warm.material)),
    ];
    if left == Ask::CrackLength {
        let millimeters = |length: Length| length.get::<unit::millimeter>();
        let small = |length| Entry::from_value(Kind::Small, millimeters(length), reader.units).text;
        let (length, depth) = (bare.area / bare.width, bare.coverage.wet());
        all.extend([
            (left, length.get::<unit::meter>(), reader.typed_distance(length)),
            (Ask::CrackWidth, millimeters(bare.width), small(bare.width)),
            (Ask::CrackDepth, millimeters(depth), small(depth)),
        ]);
    } else {
        let area = bare.area.get::<unit::square_meter>();
        all.extend([
            (left, area, reader.typed_area(bare.area)),
            (Ask::Width, bare.width.get::<unit::meter>(), reader.typed_distance(bare.width)),
        ]);
    }
    all
}
