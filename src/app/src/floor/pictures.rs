//! The plan in pictures: the floor from above with its bands, the day row by row.

use leptos::prelude::*;
use pailwise_calc::conditions::Course;
use pailwise_calc::floor::{CoatPlan, Place};

use pailwise_calc::quantity::{Length, Time, minutes, unit};
use pailwise_calc::record::Role;
use pailwise_kept::answers::floor::Good;
use pailwise_kept::records::mix::ReadIn;
use pailwise_kept::show::Reader;

use crate::parts::bands_picture::{Band, plan};
use crate::parts::day::{Row, day};
use crate::text::{key, live, tr, tr_with};

/// As many batches are written out; the rest are like the last of them.
pub(super) const WRITTEN: usize = 40;

/// Times of day of one coat, how warm it is then, and how its crew measures.
#[derive(Clone)]
pub(super) struct Clock {
    pub(super) reader: Reader,
    pub(super) begins: Time,
    pub(super) course: Course,
    pub(super) read_in: ReadIn,
}

impl Clock {
    pub(super) fn minutes(&self, since: Time) -> f64 {
        (self.begins + since).get::<unit::minute>()
    }

    pub(super) fn at(&self, since: Time) -> String {
        self.reader.clock(self.minutes(since))
    }
}

/// The floor from above.
pub(super) fn picture(
    reader: Reader,
    good: &Good,
    shown: usize,
    downs: usize,
) -> impl IntoView + use<> {
    let (plan_of, coat) = (&good.plans[shown], &good.floor.coats[shown]);
    let shape = &good.floor.shape;
    let tape = |to| reader.distance(to);
    let mut bands: Vec<Band> = Vec::new();
    let band = |bay: usize, (from, to): (Length, Length), number: Option<usize>| {
        let shape = &coat.bays.get(bay)?.shape;
        let to = to.min(shape.front());
        let boxes = shape.boxes(from, to);
        let down = number.is_none();
        let number = number.map_or_else(|| "✓".to_owned(), |number| number.to_string());
        Some(Band { bay, boxes, from, to, number, tape: tape(to), down })
    };
    let cracks = good.products[shown].role == Role::Filler;
    if !cracks {
        let mut begins: Vec<Length> = coat.bays.iter().map(|bay| bay.shape.back()).collect();
        for done in &coat.done {
            let Some(from) = begins.get_mut(done.bay) else { continue };
            bands.extend(band(done.bay, (*from, done.ended_at), None));
            *from = done.ended_at;
        }
    }
    for (i, placed) in plan_of.batches.iter().enumerate() {
        let Place::Flat { bay, from, to } = placed.place else { continue };
        bands.extend(band(bay, (from, to), Some(downs + i + 1)));
    }
    let several = coat.bays.len() > 1;
    let said: Vec<String> = bands
        .iter()
        .take(WRITTEN)
        .map(|band| {
            let tape = tr_with(key::PLAN_TAPE, &[("distance", &band.tape)]);
            let bay = tr_with(key::BATCH_BAY, &[("n", &(band.bay + 1).to_string())]);
            if several {
                format!("{} {bay} {tape}", band.number)
            } else {
                format!("{} {tape}", band.number)
            }
        })
        .collect();
    // The lines between the bays, each on the left of one.
    let lines = coat.bays.iter().skip(1).map(|bay| bay.shape.sides().0);
    let lines: Vec<String> = lines.map(tape).collect();
    let lines = (!lines.is_empty()).then(|| {
        let text = tr_with(key::PLAN_LINES, &[("lines", &lines.join(", "))]);
        view! { <p class="small" id="plan-lines">{text}</p> }
    });
    let title = format!("{} {}", tr(key::PLAN_PICTURE), said.join(", "));
    let sides = (tr(key::PLAN_BACK), tr(key::PLAN_FRONT));
    let floor = shape.boxes(shape.back(), shape.front());
    let walls = plan_of.batches.iter().filter(|placed| placed.place == Place::Verticals).count();
    let walls = (walls > 0).then(|| tr_with(key::PLAN_WALLS, &[("n", &walls.to_string())]));
    view! {
        <div class="card">
            {plan(&floor, &bands, (&sides.0, &sides.1), walls, title)}
            {lines}
        </div>
    }
}

/// A row a batch through the day.
pub(super) fn rows(clock: &Clock, plan: &CoatPlan, downs: usize) -> impl IntoView + use<> {
    let rows: Vec<Row> = plan
        .batches
        .iter()
        .take(WRITTEN)
        .enumerate()
        .map(|(i, placed)| {
            let timeline = &placed.batch.timeline;
            let at = |time: Time| clock.minutes(placed.start + time);
            Row {
                number: (downs + i + 1).to_string(),
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
