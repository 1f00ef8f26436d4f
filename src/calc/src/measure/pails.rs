//! The pails that one batch is measured in: the one it is mixed in, and one beside it.

use crate::quantity::{Mass, Volume};
use crate::ratio::{Ingredient, Portion, Pour};

/// What stands in a pail so far, as the measure sees it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct InPail {
    pub(crate) volume: Volume,
    pub(crate) mass: Mass,
}

/// The pail a batch is mixed in, and the one for a part that takes its additive first.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pails {
    main: InPail,
    apart: InPail,
}

impl Pails {
    /// Where the next thing goes: a part measured apart goes into an empty pail, what is stirred
    /// into it follows.
    pub(super) fn next(&mut self, portion: &Portion) -> &mut InPail {
        if !portion.apart {
            return &mut self.main;
        }
        if matches!(portion.what, Ingredient::Component(_)) {
            self.apart = InPail::default();
        }
        &mut self.apart
    }

    /// What was poured apart comes to the rest.
    pub(super) fn joined(&mut self, pour: &Pour) {
        if pour.apart {
            self.main.volume += pour.volume;
            self.main.mass += pour.mass;
        }
    }
}
