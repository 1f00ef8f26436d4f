//! Batches that are mixed and not yet down: facts that a plan goes on from.

use std::collections::VecDeque;

use super::{Coat, since};
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Length, Time, Volume, minutes, unit};
use crate::record::UnderWayRecord;
use crate::sorted::sorted_by;

/// A batch that is mixed and not yet down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnderWay {
    /// In which bay; nothing for one on walls and steps.
    pub bay: Option<usize>,
    /// When A met B, from when the coat begins.
    pub begun: Time,
    /// How much of it there is, where that is known.
    pub mixed: Option<Volume>,
    /// Where it is to end, where that is known.
    pub to: Option<Length>,
}

impl UnderWay {
    /// Of a record, for a coat that begins at a time of day and has such bays.
    pub(super) fn new(
        record: &UnderWayRecord,
        starts: Time,
        bay: impl Fn(u32) -> Result<usize, Error>,
    ) -> Result<Self, Error> {
        let mixed = record.mixed_l.map(Volume::new::<unit::liter>);
        let to = record.to_m.map(Length::new::<unit::meter>);
        let begun = since(starts, Field::StartsAt.check(minutes(record.begun_min))?);
        Ok(Self {
            bay: if record.on_walls { None } else { Some(bay(record.bay)?) },
            begun: begun.max(Time::default()),
            mixed: mixed.map(|mixed| Field::OnHand.check(mixed)).transpose()?,
            to: to.map(|to| Field::EndedAt.check(to)).transpose()?,
        })
    }
}

impl Coat {
    /// Those in some of its bays, or on its walls, in the order in which they were begun.
    pub(super) fn begun_in(&self, is: impl Fn(Option<usize>) -> bool) -> VecDeque<UnderWay> {
        let all = self.under_way.iter().filter(|one| is(one.bay)).copied();
        sorted_by(all.collect(), |one| one.begun.value).into()
    }
}
