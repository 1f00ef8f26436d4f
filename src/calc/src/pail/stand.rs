//! A pail over its pot life, to be asked about any moment of it.

use super::walk::{Node, cubic};
use crate::quantity::{Time, unit};

/// A pail over its pot life.
#[derive(Clone, Debug)]
pub struct Stand {
    pub(super) nodes: Vec<Node>,
}

impl Stand {
    /// How long it stays usable.
    pub fn pot_life(&self) -> Time {
        Time::new::<unit::second>(self.nodes.last().map_or(0.0, |end| end.state[0]))
    }

    /// The conversion after a time; past the pot life, that at its end,
    /// [`crate::cure::END_OF_POT_LIFE`].
    pub fn conversion_at(&self, time: Time) -> f64 {
        let t = time.value.max(0.0);
        let after = self.nodes.partition_point(|node| node.state[0] <= t);
        let (Some(before), Some(next)) =
            (self.nodes.get(after.wrapping_sub(1)), self.nodes.get(after))
        else {
            return self.nodes.last().map_or(0.0, |end| end.conversion);
        };
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..30 {
            let mid = 0.5 * (low + high);
            if cubic(before, next, mid)[0] > t { high = mid } else { low = mid }
        }
        // The later end of the bracket: never fresher than it is.
        before.conversion + high * (next.conversion - before.conversion)
    }
}
