//! What was mixed, as it is remembered: one record a batch, the product's own version beside.

mod table;

use std::collections::BTreeMap;

use pailwise_calc::field::Field;
use pailwise_calc::quantity::{Area, Volume, unit};
use pailwise_calc::record::{ConditionsRecord, VERSION};
use pailwise_calc::running::Stage;
use pailwise_calc::tally::Tally;
use serde::{Deserialize, Serialize};
use time::{OffsetDateTime, UtcOffset};

use super::Record as _;
use super::run::{BandRecord, PourRecord, RunRecord};
use crate::entry::{Entry, Kind};
use crate::units::Units;

pub use table::csv;

/// What is typed within so many milliseconds is one change, not one a key.
const ONE_CHANGE: f64 = 60_000.0;

/// How a batch ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ended {
    /// The batch was laid on the floor, not thrown away.
    Laid,
    /// It was thrown away.
    Discarded,
}

/// What somebody may write about a batch afterwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is what its name says in the trade")]
pub enum Said {
    Floor,
    Crew,
    Humidity,
    Area,
    Measured,
    Lots,
    Notes,
    /// Whether it was laid or thrown away.
    Ended,
    /// When it was mixed, poured out, rolled, flaked.
    Mixed,
    Emptied,
    Rolled,
    Flaked,
}

/// The moments of a batch that can be told afterwards, and how the log calls them.
pub const MOMENTS: [(Stage, Said); 4] = [
    (Stage::Mix, Said::Mixed),
    (Stage::Empty, Said::Emptied),
    (Stage::Roll, Said::Rolled),
    (Stage::Flake, Said::Flaked),
];

impl Said {
    /// Those that are written in words.
    pub const ALL: [Self; 7] = [
        Self::Floor,
        Self::Crew,
        Self::Area,
        Self::Measured,
        Self::Humidity,
        Self::Lots,
        Self::Notes,
    ];
}

/// A change of what was written about a batch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ChangeRecord {
    /// When, in milliseconds since 1970, UTC.
    pub at_ms: f64,
    /// Which of the things written about the batch was changed.
    pub what: Said,
    /// What stood there before.
    pub before: String,
}

/// A batch as it is remembered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LogRecord {
    /// Names the kind of record, here a batch of the log; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// Its name among the batches.
    pub id: String,
    /// When A met B, in milliseconds since 1970, UTC.
    pub met_at_ms: f64,
    /// How far the phone's time was ahead of UTC then, in minutes.
    pub ahead_min: f64,
    /// The product, by id.
    pub product: String,
    /// What it was called.
    pub name: String,
    /// Which version of its profile: the checksum of the record.
    pub product_crc32: u32,
    /// Whether the batch was laid or thrown away.
    pub ended: Ended,
    /// When it ended, in milliseconds since 1970, UTC.
    pub ended_at_ms: f64,
    /// How much was mixed.
    pub mixed_l: f64,
    /// What it was mixed of.
    pub pours: Vec<PourRecord>,
    /// How warm it was.
    pub conditions: ConditionsRecord,
    /// The area it was planned for.
    pub planned_m2: f64,
    /// How many people rolled.
    pub rollers: u32,
    /// From the mixing place to the floor, in minutes.
    pub carry_min: f64,
    /// When each stage was done.
    pub done: BTreeMap<Stage, f64>,
    /// Its film closed before it was rolled and flaked.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub film_closed: bool,
    /// Where in the floor's plan it belongs, if it came from there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<BandRecord>,
    /// What was written about it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub said: BTreeMap<Said, String>,
    /// The area it really covered, read from what was written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area_m2: Option<f64>,
    /// The units in which that was written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area_in: Option<Units>,
    /// What was changed since.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<ChangeRecord>,
}

/// What was read of the humidity, as it is written about a batch.
fn humidity(percent: f64) -> (Said, String) {
    (Said::Humidity, ((percent * 10.0).round() / 10.0).to_string())
}

impl LogRecord {
    /// A batch that has ended.
    pub fn of(
        run: &RunRecord,
        product_crc32: u32,
        (ended, now_ms): (Ended, f64),
        ahead_min: f64,
        planned_m2: f64,
    ) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            id: run.id.clone(),
            met_at_ms: run.met_at_ms,
            ahead_min,
            product: run.job.product.id.clone(),
            name: run.job.product.name.clone(),
            product_crc32,
            ended,
            ended_at_ms: now_ms,
            mixed_l: run.mixed_l,
            pours: run.pours.clone(),
            conditions: run.job.conditions,
            planned_m2,
            rollers: run.job.crew.rollers,
            carry_min: run.job.crew.carry_min,
            done: run.done.clone(),
            film_closed: run.running().is_ok_and(|running| run.film_closed(&running)),
            place: run.place,
            said: run.job.conditions.humidity_percent.map(humidity).into_iter().collect(),
            area_m2: None,
            area_in: None,
            changes: Vec::new(),
        }
    }

    /// The day it was mixed on, where it was: `2026-11-25`.
    pub fn day(&self) -> String {
        local(self.met_at_ms, self.ahead_min).chars().take(10).collect()
    }

    /// What was written about something.
    pub fn said(&self, what: Said) -> &str {
        self.said.get(&what).map_or("", String::as_str)
    }

    /// The same with something written about it, and what stood there before remembered.
    #[must_use]
    pub fn with(mut self, what: Said, text: &str, now_ms: f64) -> Self {
        let before = self.said(what).to_owned();
        if before == text {
            return self;
        }
        let goes_on = self
            .changes
            .last()
            .is_some_and(|last| last.what == what && now_ms - last.at_ms < ONE_CHANGE);
        if !goes_on && !before.is_empty() {
            self.changes.push(ChangeRecord { at_ms: now_ms, what, before });
        }
        if text.is_empty() {
            self.said.remove(&what);
        } else {
            self.said.insert(what, text.to_owned());
        }
        self
    }

    /// The area it really covered, as somebody with some units reads and types it over.
    pub fn area_said(&self, units: Units) -> String {
        let text = self.said(Said::Area);
        match (self.area_in, self.area_m2) {
            (Some(own), _) => Entry::as_typed(text, own).text_in(Kind::Area, units),
            // Written before units were: the area that was read from it is known.
            (None, Some(m2)) => Entry::from_value(Kind::Area, m2, units).text,
            (None, None) => text.to_owned(),
        }
    }

    /// The same with the area it really covered, as it was written by somebody with some units.
    #[must_use]
    pub fn with_area(self, text: &str, units: Units, now_ms: f64) -> Self {
        let entry = Entry::as_typed(text, units);
        let area_m2 = entry.value(Kind::Area, Field::AreaLeft).ok();
        Self { area_m2, area_in: Some(units), ..self.with(Said::Area, text, now_ms) }
    }

    /// The same, ended in the other way than it was told, and how it was told kept.
    #[must_use]
    pub fn ended_as(mut self, ended: Ended, now_ms: f64) -> Self {
        if self.ended != ended {
            let before = match self.ended {
                Ended::Laid => "laid",
                Ended::Discarded => "discarded",
            };
            let before = before.to_owned();
            self.changes.push(ChangeRecord { at_ms: now_ms, what: Said::Ended, before });
            self.ended = ended;
        }
        self
    }

    /// The same with a moment told afterwards, and what stood there before kept.
    #[must_use]
    pub fn told(mut self, (stage, what): (Stage, Said), at_ms: f64, now_ms: f64) -> Self {
        let before =
            self.done.insert(stage, at_ms.clamp(self.met_at_ms, now_ms.max(self.met_at_ms)));
        let before = before.map_or_else(String::new, |at| local(at, self.ahead_min));
        self.changes.push(ChangeRecord { at_ms: now_ms, what, before });
        self
    }

    /// What a search looks through, in lower case.
    pub fn words(&self) -> String {
        let said = self.said.values().map(String::as_str);
        let all: Vec<&str> = std::iter::once(self.name.as_str()).chain(said).collect();
        format!("{} {}", all.join(" ").to_lowercase(), self.day())
    }

    /// How fast one person rolled, in square metres a minute, where the moments show it: from when
    /// it was mixed and carried to when it was rolled.
    pub fn pace_m2_per_min(&self) -> Option<f64> {
        let ready = self.done.get(&Stage::Induction).or(self.done.get(&Stage::Mix))?;
        let minutes = (self.done.get(&Stage::Roll)? - ready) / 60_000.0 - self.carry_min;
        // Stages tapped together say nothing.
        (minutes > 0.5 && self.ended == Ended::Laid)
            .then(|| self.covered_m2() / minutes / f64::from(self.rollers.max(1)))
    }

    /// How long rolling took, in minutes, likewise.
    pub fn rolled_in_min(&self) -> Option<f64> {
        let pace = self.pace_m2_per_min()? * f64::from(self.rollers.max(1));
        Some(self.covered_m2() / pace)
    }

    /// The area it covered: as written, else as planned, and nothing when it was thrown away.
    pub fn covered_m2(&self) -> f64 {
        match self.ended {
            Ended::Discarded => 0.0,
            Ended::Laid => self.area_m2.unwrap_or(self.planned_m2),
        }
    }
}

/// A moment where the phone was then: RFC 3339 with its offset, to the second; empty for one that
/// no calendar has.
pub fn local(at_ms: f64, ahead_min: f64) -> String {
    let written = || {
        let ahead = UtcOffset::from_whole_seconds((ahead_min * 60.0) as i32).ok()?;
        let utc = OffsetDateTime::from_unix_timestamp((at_ms / 1000.0).floor() as i64).ok()?;
        let at = utc.checked_to_offset(ahead)?;
        let (hours, minutes, _) = ahead.as_hms();
        let sign = if ahead.is_negative() { '-' } else { '+' };
        Some(format!(
            "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{sign}{:02}:{:02}",
            at.year(),
            u8::from(at.month()),
            at.day(),
            at.hour(),
            at.minute(),
            at.second(),
            hours.abs(),
            minutes.abs(),
        ))
    };
    written().unwrap_or_default()
}

/// What a floor took, of one product.
#[derive(Clone, Debug, PartialEq)]
pub struct Sum {
    /// The product, as the log calls it.
    pub name: String,
    /// Its batches summed up.
    pub tally: Tally,
    /// How many were thrown away.
    pub discarded: usize,
    /// The area they were planned for.
    pub planned: Area,
}

/// What some batches took, product by product.
pub fn sums<'a>(log: impl IntoIterator<Item = &'a LogRecord>) -> Vec<Sum> {
    let mut sums: BTreeMap<&str, Sum> = BTreeMap::new();
    let area = Area::new::<unit::square_meter>;
    for batch in log {
        let sum = sums.entry(batch.product.as_str()).or_insert_with(|| Sum {
            name: batch.name.clone(),
            tally: Tally::default(),
            discarded: 0,
            planned: Area::default(),
        });
        sum.tally.add(Volume::new::<unit::liter>(batch.mixed_l), area(batch.covered_m2()));
        sum.discarded += usize::from(batch.ended == Ended::Discarded);
        sum.planned += area(batch.planned_m2);
    }
    sums.into_values().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    fn batch(id: &str) -> LogRecord {
        let pour =
            PourRecord { what: "A".to_owned(), volume_l: 3.0, mass_kg: 4.14, lot: String::new() };
        let run = RunRecord::start(1_764_088_200_000.0, demo::job(), 4.5, vec![pour], None);
        let log = LogRecord::of(&run, 7, (Ended::Laid, 1_764_090_000_000.0), -360.0, 11.0);
        LogRecord { id: id.to_owned(), ..log }
    }

    /// Against times worked out by GNU date: `TZ=… date -d @N --iso-8601=seconds`.
    #[test]
    fn a_moment_is_written_as_it_was_where_the_phone_was() {
        let at = |s: f64, ahead| local(s * 1000.0, ahead);
        assert_eq!(at(1_764_088_200.0, -360.0), "2025-11-25T10:30:00-06:00");
        assert_eq!(at(951_782_400.0, 0.0), "2000-02-29T00:00:00+00:00");
        assert_eq!(at(1_767_225_599.0, 330.0), "2026-01-01T05:29:59+05:30");
        assert_eq!(at(4_107_542_400.0, 0.0), "2100-03-01T00:00:00+00:00");
        assert_eq!(batch("1").day(), "2025-11-25");
    }

    #[test]
    fn what_is_written_is_kept_with_what_stood_there_before() {
        let batch = batch("1").with(Said::Notes, "warm", 1000.0);
        assert!(batch.changes.is_empty(), "there was nothing before");
        let typed = batch.with(Said::Notes, "warm slab", 200_000.0);
        let typed = typed.with(Said::Notes, "warm slab, north", 201_000.0);
        assert_eq!(typed.said(Said::Notes), "warm slab, north");
        let before: Vec<&str> = typed.changes.iter().map(|c| c.before.as_str()).collect();
        assert_eq!(before, ["warm"]);
        // What was read of the humidity stands there from the first.
        assert_eq!(typed.words(), "practice base 2:1 45 warm slab, north 2025-11-25");
    }

    #[test]
    fn a_table_quotes_what_must_be_and_takes_the_sting_out_of_formulas() {
        let mut batch = batch("1");
        batch.said.insert(Said::Notes, "=1+1, \"quoted\"\nsecond line".to_owned());
        let text = csv([&batch]).unwrap();
        let lines: Vec<&str> = text.split("\r\n").collect();
        assert!(lines[0].starts_with("met_at,product,"));
        assert!(lines[1].starts_with("2025-11-25T10:30:00-06:00,Practice Base 2:1,"));
        assert!(lines[1].ends_with("\" =1+1, \"\"quoted\"\"\nsecond line\""), "{}", lines[1]);
        assert_eq!(lines.len(), 3);
    }

    /// 130 typed as square feet are 130 sq ft, whoever looks; typed over as square metres they are
    /// those.
    #[test]
    fn an_area_keeps_its_units() {
        let batch = batch("1").with_area("130", Units::Us, 1000.0);
        assert!((batch.area_m2.unwrap() - 130.0 * 0.3048 * 0.3048).abs() < 1e-9);
        assert_eq!(batch.area_said(Units::Us), "130");
        assert_eq!(batch.area_said(Units::Metric), "12.08");
        let again = batch.with_area("13", Units::Metric, 2000.0);
        assert_eq!((again.area_m2, &*again.area_said(Units::Metric)), (Some(13.0), "13"));
        // Written before the units were kept.
        let old = LogRecord { area_in: None, ..again };
        assert_eq!(old.area_said(Units::Us), "139.93");
    }

    #[test]
    fn the_pace_is_that_of_one_person_and_only_of_stages_tapped_apart() {
        let mut batch = batch("1");
        assert_eq!(batch.pace_m2_per_min(), None);
        batch.done.insert(Stage::Mix, batch.met_at_ms + 240_000.0);
        batch.done.insert(Stage::Roll, batch.met_at_ms + 240_000.0);
        assert_eq!(batch.pace_m2_per_min(), None);
        // A minute to carry, ten to roll 11 m² by one person.
        batch.done.insert(Stage::Roll, batch.met_at_ms + 15.0 * 60_000.0);
        assert!((batch.pace_m2_per_min().unwrap() - 1.1).abs() < 1e-12);
        assert!((batch.rolled_in_min().unwrap() - 10.0).abs() < 1e-12);
    }

    #[test]
    fn batches_add_up_by_product() {
        let discarded = LogRecord { ended: Ended::Discarded, ..batch("2") };
        let short = LogRecord { area_m2: Some(9.0), ..batch("3") };
        let [sum] = &sums([&batch("1"), &discarded, &short])[..] else { panic!() };
        assert_eq!((sum.tally.batches(), sum.discarded), (3, 1));
        let (liters, square) = (Volume::new::<unit::liter>, Area::new::<unit::square_meter>);
        assert!((sum.tally.mixed() - liters(13.5)).abs() < liters(1e-9));
        assert_eq!((sum.tally.laid(), sum.planned), (square(20.0), square(33.0)));
    }
}
