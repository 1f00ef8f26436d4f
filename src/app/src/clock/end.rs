//! A batch ends: it goes from the clock into the log, and the floor goes on from there.

use pailwise_kept::records::log::Ended;

use super::seen::{product_key, went_off};
use super::watched::Watched;
use crate::desk::Desk;
use crate::desk::laid;
use crate::moments;
use crate::steady::now_ms;
use crate::store::{LOG, NotKept, RUNS};
use crate::text::{key, tr_with};

/// How a batch ends, as it is tapped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// It is on the floor.
    Laid,
    /// It is thrown away.
    Discarded,
    /// It went off in its pail, and is thrown away.
    WentOff,
}

impl End {
    /// As it stands in the log.
    fn logged(self) -> Ended {
        match self {
            Self::Laid => Ended::Laid,
            Self::Discarded | Self::WentOff => Ended::Discarded,
        }
    }
}

/// Ends a batch: it goes from the clock into the log.
pub(super) fn end(desk: Desk, watched: &Watched, ended: End) {
    let run = &watched.run;
    let planned = watched.running.as_ref().map_or(0.0, |running| running.area.value);
    let keys = [
        format!("{RUNS}{}", run.id),
        format!("{LOG}{}", run.id),
        // The floor goes on from where this batch ended.
        desk.floor_key(run.place.map_or(0, |place| place.floor)),
        product_key(run),
    ];
    let name = [("name", run.job.product.name.as_str())];
    let what = match ended {
        End::Laid => tr_with(key::DID_LOG, &name),
        End::Discarded | End::WentOff => tr_with(key::DID_DISCARD_BATCH, &name),
    };
    let ahead = moments::minutes_ahead(run.met_at_ms);
    // Told of where it fails; the batch then stays on the clock.
    let _ = desk.step(what, &keys, || {
        if ended == End::WentOff {
            went_off(desk, run)?;
        }
        let ended = ended.logged();
        let batch = desk.log_run(run, (ended, now_ms()), ahead, planned)?;
        let now_min = moments::minute_of_day(now_ms());
        match (run.place, ended) {
            (Some(place), Ended::Laid) => {
                laid::batch_down(desk, place, &batch, batch.rolled_in_min(), now_min);
            }
            (Some(place), Ended::Discarded) => {
                laid::batch_discarded(desk, place, &batch, now_min);
            }
            (None, _) => {}
        }
        Ok::<(), NotKept>(())
    });
}
