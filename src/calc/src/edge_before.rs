//! The wet edge that the batch before left, which the next one has to meet. How long the edge of a
//! batch itself may wait is worked out in `batch/wet_edge.rs`.

use crate::batch::Batch;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Time, minutes, unit};
use crate::record::EdgeBeforeRecord;
use crate::timeline::Meeting;

/// The edge of the batch before, as it was promised to it. Times count from when A meets B in the
/// batch that is to meet it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeBefore {
    /// The first drop is to meet it by then, where the rest goes as it was counted on.
    pub until: Time,
    /// So long was counted for brushing sides across before anything is rolled.
    pub brushing: Time,
    /// So long was counted for rolling the first strip along it.
    pub first_strip: Time,
}

impl EdgeBefore {
    /// The edge of a batch, met by one in which A meets B so long after it did in that.
    pub(crate) fn of(batch: &Batch, after: Time) -> Self {
        let Meeting { brushing, first_strip } = batch.timeline.meeting;
        Self { until: batch.edge_until - after, brushing, first_strip }
    }

    /// As it is kept.
    pub(crate) fn record(&self) -> EdgeBeforeRecord {
        let min = |time: Time| time.get::<unit::minute>();
        EdgeBeforeRecord {
            until_min: min(self.until),
            brushing_min: min(self.brushing),
            first_strip_min: min(self.first_strip),
        }
    }

    /// When the first drop would have to be there for a batch that begins to roll at a time, and takes
    /// so long for its first strip, to be at every point of the edge no later; a quicker strip is no
    /// reason to come later.
    pub(crate) fn needs(&self, begins: Time, first_strip: Time) -> Time {
        begins - self.brushing + (first_strip - self.first_strip).max(Time::default())
    }
}

impl TryFrom<&EdgeBeforeRecord> for EdgeBefore {
    type Error = Error;

    /// Checks a record field by field.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    fn try_from(record: &EdgeBeforeRecord) -> Result<Self, Error> {
        let check = |value: f64| Field::EdgeBefore.check(minutes(value));
        Ok(Self {
            until: check(record.until_min)?,
            brushing: check(record.brushing_min)?,
            first_strip: check(record.first_strip_min)?,
        })
    }
}
