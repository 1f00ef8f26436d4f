//! A pail over its pot life, to be asked about any moment of it.

use super::walk::{Node, cubic};
use crate::quantity::{ThermodynamicTemperature, Time, unit};
use crate::solve::largest_feasible;

/// A pail over its pot life. Where it is held to another ([`super::Cold`]), the one that is further
/// on at a moment counts.
#[derive(Clone, Debug)]
pub struct CuringPail {
    pub(super) nodes: Vec<Node>,
    /// The pail it is held to.
    pub(super) held: Option<Vec<Node>>,
    /// How much warmer that one began.
    pub(super) begins_warmer: f64,
}

impl CuringPail {
    /// How long it stays usable.
    pub fn pot_life(&self) -> Time {
        let own = life(&self.nodes);
        let least = self.held.as_ref().map_or(own, |held| own.min(life(held)));
        Time::new::<unit::second>(least)
    }

    /// How warm it is after a time; past the pot life, as warm as at its end or warmer.
    pub fn temperature_at(&self, time: Time) -> ThermodynamicTemperature {
        let t = time.value.max(0.0);
        let own = temperature(&self.nodes, t);
        let held = self.held.as_ref().map(|held| temperature(held, t) - self.begins_warmer);
        ThermodynamicTemperature::new::<unit::kelvin>(held.map_or(own, |held| own.max(held)))
    }

    /// The conversion after a time; past the pot life, that at its end.
    pub fn conversion_at(&self, time: Time) -> f64 {
        let t = time.value.max(0.0);
        let own = conversion(&self.nodes, t);
        self.held.as_ref().map_or(own, |held| own.max(conversion(held, t)))
    }
}

fn life(nodes: &[Node]) -> f64 {
    nodes.last().map_or(0.0, |end| end.state[0])
}

/// The two nodes between which a time lies.
fn around(nodes: &[Node], t: f64) -> Option<(&Node, &Node)> {
    let after = nodes.partition_point(|node| node.state[0] <= t);
    Some((nodes.get(after.checked_sub(1)?)?, nodes.get(after)?))
}

fn temperature(nodes: &[Node], t: f64) -> f64 {
    if let Some((before, next)) = around(nodes, t) {
        return cubic(before, next, share_at(before, next, t))[1];
    }
    // Beyond its end it goes on as steeply as it came: a number to compare by, not to show.
    let Some(end) = nodes.last() else { return 0.0 };
    end.state[1] + (t - end.state[0]) * (end.slope[1] / end.slope[0]).max(0.0)
}

fn conversion(nodes: &[Node], t: f64) -> f64 {
    let Some((before, next)) = around(nodes, t) else {
        return nodes.last().map_or(0.0, |end| end.conversion);
    };
    before.conversion + share_at(before, next, t) * (next.conversion - before.conversion)
}

/// The share of the way between two nodes at which a time has come; its later end, so that a pail is
/// never taken to be fresher than it is.
fn share_at(before: &Node, next: &Node, t: f64) -> f64 {
    const HAIR: f64 = 1e-9;
    let left = |share: f64| t - cubic(before, next, share)[0];
    largest_feasible(0.0, 1.0, HAIR, left).map_or(1.0, |share| (share + HAIR).min(1.0))
}
