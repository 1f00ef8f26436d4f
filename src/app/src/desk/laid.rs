//! A batch of the clock comes down on the floor, and what it really covered goes into its page of
//! the log.

use leptos::prelude::*;
use pailwise_calc::floor::Floor;
use pailwise_calc::quantity::{Length, unit};
use pailwise_calc::record::BrushedRecord;
use pailwise_kept::day;
use pailwise_kept::entry::Entry;
use pailwise_kept::records::floor::{CoatFormRecord, DownRecord, FloorFormRecord, down_measures};
use pailwise_kept::records::log::{Ended, LogRecord};
use pailwise_kept::records::run::BandRecord;
use web_sys::js_sys::Date;

use super::handed::record;
use crate::desk::Desk;
use crate::moments;
use crate::store::{self, Kept, LOG};

/// A batch of a coat is down: it ended where its band ends until that is typed over, and the plan
/// goes on from now.
pub(crate) fn batch_down(
    desk: Desk,
    place: BandRecord,
    batch: &LogRecord,
    rolled_in_min: Option<f64>,
    now_min: f64,
) {
    let reader = untrack(|| desk.reader());
    let (_, took) = down_measures();
    let rolled = |minutes| Entry::from_value(took.kind, minutes, reader.units);
    desk.on_floor(place.floor, |form| {
        let Some(coat) = coat_of(form, place, &batch.product) else { return };
        if let Some(to) = place.to_m.map(Length::new::<unit::meter>) {
            let planned = DownRecord::planned(reader, (place.bay, to), batch.mixed_l);
            coat.down.push(DownRecord {
                rolled_in: rolled_in_min.map_or_else(|| planned.rolled_in.clone(), rolled),
                film_closed: batch.film_closed,
                batch: batch.id.clone(),
                begun_min: Some(moments::minute_of_day(batch.met_at_ms)),
                ..planned
            });
        } else {
            let (area_m2, mixed_l) = (batch.planned_m2, batch.mixed_l);
            coat.brushed.push(BrushedRecord { area_m2, mixed_l });
        }
        coat.resumes = Some(day::time_of_day(now_min));
    });
}

/// A batch of a coat was thrown away: what it took is not here any more, and the plan goes on from
/// now.
pub(crate) fn batch_discarded(desk: Desk, place: BandRecord, batch: &LogRecord, now_min: f64) {
    desk.on_floor(place.floor, |form| {
        if let Some(coat) = coat_of(form, place, &batch.product) {
            coat.discarded_l += batch.mixed_l;
            coat.resumes = Some(day::time_of_day(now_min));
        }
    });
}

/// It is told afterwards how a batch ended: what the floor knew of it is put right.
pub(crate) fn batch_told(desk: Desk, batch: &LogRecord, now_min: f64) {
    let Some(place) = batch.place else { return };
    desk.on_floor(place.floor, |form| {
        let Some(coat) = coat_of(form, place, &batch.product) else { return };
        match batch.ended {
            Ended::Laid => coat.discarded_l = (coat.discarded_l - batch.mixed_l).max(0.0),
            Ended::Discarded => {
                coat.down.retain(|down| down.batch != batch.id);
                let brushed = coat.brushed.iter().rposition(|one| one.mixed_l == batch.mixed_l);
                if let Some(at) = brushed.filter(|_| place.to_m.is_none()) {
                    coat.brushed.remove(at);
                }
            }
        }
    });
    match batch.ended {
        Ended::Laid => batch_down(desk, place, batch, batch.rolled_in_min(), now_min),
        Ended::Discarded => batch_discarded(desk, place, batch, now_min),
    }
}

/// The coat a batch is of: the one at its place, or, where the coats were moved since, another of
/// its product; nothing where no coat is.
fn coat_of<'a>(
    form: &'a mut FloorFormRecord,
    place: BandRecord,
    product: &str,
) -> Option<&'a mut CoatFormRecord> {
    let is = |coat: &CoatFormRecord| coat.product == product;
    let at = if form.coats.get(place.coat).is_some_and(is) {
        place.coat
    } else {
        form.coats.iter().position(is)?
    };
    form.coats.get_mut(at)
}

/// Writes into the log what the batches of a coat from one on really covered, as far as each ended
/// somewhere else than the log says.
pub(crate) fn log_covered(desk: Desk, coat: usize, from: usize) {
    let covered = untrack(|| record(desk)).and_then(|record| {
        let floor = Floor::try_from(&record).ok()?;
        Some(floor.covered(floor.coats.get(coat)?))
    });
    let ids: Vec<String> = desk.floor.with_untracked(|form| {
        let downs = form.coats.get(coat).map(|coat| coat.down.as_slice()).unwrap_or_default();
        downs.iter().map(|down| down.batch.clone()).collect()
    });
    // The next of its bay begins where it ended.
    for (id, area) in ids.iter().zip(covered.unwrap_or_default()).skip(from) {
        let key = format!("{LOG}{id}");
        let Kept::Found(batch) = store::load::<LogRecord>(&key) else { continue };
        let area_m2 = area.get::<unit::square_meter>();
        if (batch.covered_m2() - area_m2).abs() > 1e-3 {
            let reader = untrack(|| desk.reader());
            let batch = batch.with_area(&reader.typed_area(area), reader.units, Date::now());
            // Told of where it fails.
            let _ = desk.wrote(store::save(&key, &LogRecord { area_m2: Some(area_m2), ..batch }));
        }
    }
}
