//! A batch under way with its deadlines, and what is said of its stages.

use pailwise_calc::quantity::Time;
use pailwise_calc::record::Role;
use pailwise_calc::running::{Running, Stage, Status};
use pailwise_kept::records::run::RunRecord;

use crate::text::key;

/// A batch with its deadlines; those of one that the calculation refuses are missing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Watched {
    pub(crate) run: RunRecord,
    pub(crate) running: Option<Running>,
}

impl Watched {
    /// How it stands. What cannot be worked out stands as the worst.
    pub(crate) fn status(&self, now_ms: f64) -> Status {
        self.running
            .as_ref()
            .map_or(Status::PastPotLife, |running| self.run.status(running, now_ms))
    }
}

/// When the next batch is to be mixed, counted from A meets B, as long as nobody has said that it
/// is being mixed.
pub(crate) fn next_mix(watched: &Watched) -> Option<Time> {
    let running = watched.running.as_ref()?;
    watched.run.next_mix(running).filter(|_| watched.run.next_called_ms.is_none())
}

/// Whether the next batch is to be mixed now, and nobody has said that it is.
pub(crate) fn next_mix_due(watched: &Watched, now: f64) -> bool {
    next_mix(watched).is_some_and(|at| watched.run.since(now) >= at)
}

/// What to do in a stage.
pub(crate) fn words(stage: Stage, role: Role) -> &'static str {
    match stage {
        Stage::Mix => key::CALL_MIX,
        Stage::Induction => key::CALL_STAND,
        Stage::Pour => key::CALL_BEGIN,
        Stage::Empty => key::CALL_EMPTY,
        Stage::Roll if role == Role::Filler => key::CALL_FILL,
        Stage::Roll => key::CALL_ROLL,
        Stage::Flake => key::CALL_FLAKE,
    }
}

/// What to do once the film has closed.
pub(crate) fn closed(role: Role) -> &'static str {
    if role == Role::Filler { key::CALL_CLOSED_FILL } else { key::CALL_CLOSED }
}

/// What a stage is called once it is over.
pub(crate) fn stage_name(stage: Stage, role: Role) -> &'static str {
    match stage {
        Stage::Mix => key::STAGE_MIX,
        Stage::Induction => key::STAGE_STAND,
        Stage::Pour => key::STAGE_POUR,
        Stage::Empty => key::STAGE_EMPTY,
        Stage::Roll if role == Role::Filler => key::STAGE_FILL,
        Stage::Roll => key::STAGE_ROLL,
        Stage::Flake => key::STAGE_FLAKE,
    }
}
