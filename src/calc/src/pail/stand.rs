//! A pail over its pot life, to be asked about any moment of it.

use super::walk::{Node, cubic};
use crate::quantity::{ThermodynamicTemperature, Time, unit};

/// A pail over its pot life.
#[derive(Clone, Debug)]
pub struct Stand {
    pub(super) nodes: Vec<Node>,
    /// How much warmer it was taken to begin than it does.
    pub(super) begins_warmer: f64,
}

impl Stand {
    /// How long it stays usable.
    pub fn pot_life(&self) -> Time {
        Time::new::<unit::second>(self.nodes.last().map_or(0.0, |end| end.state[0]))
    }

    /// How warm it is after a time; past the pot life, as warm as at its end or warmer.
    pub fn temperature_at(&self, time: Time) -> ThermodynamicTemperature {
        let t = time.value.max(0.0);
        let kelvin =
            |taken: f64| ThermodynamicTemperature::new::<unit::kelvin>(taken - self.begins_warmer);
        let after = self.nodes.partition_point(|node| node.state[0] <= t);
        let (Some(before), Some(next)) =
            (self.nodes.get(after.wrapping_sub(1)), self.nodes.get(after))
        else {
            // Beyond its end it goes on as steeply as it came: a number to compare by, not to show.
            let Some(end) = self.nodes.last() else { return kelvin(0.0) };
            let beyond = (t - end.state[0]) * (end.slope[1] / end.slope[0]).max(0.0);
            return kelvin(end.state[1] + beyond);
        };
        kelvin(cubic(before, next, share_at(before, next, t))[1])
    }

    /// The conversion after a time; past the pot life, that at its end.
    pub fn conversion_at(&self, time: Time) -> f64 {
        let t = time.value.max(0.0);
        let after = self.nodes.partition_point(|node| node.state[0] <= t);
        let (Some(before), Some(next)) =
            (self.nodes.get(after.wrapping_sub(1)), self.nodes.get(after))
        else {
            return self.nodes.last().map_or(0.0, |end| end.conversion);
        };
        before.conversion + share_at(before, next, t) * (next.conversion - before.conversion)
    }
}

/// The share of the way between two nodes at which a time has come; its later end, so that a pail is
/// never taken to be fresher than it is.
fn share_at(before: &Node, next: &Node, t: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..30 {
        let mid = 0.5 * (low + high);
        if cubic(before, next, mid)[0] > t { high = mid } else { low = mid }
    }
    high
}
