//! Crews at work at the same time: which bays each lays, and when it wants its next batch.

use std::collections::VecDeque;
use std::ops::Range;

use super::{Coat, Floor, Team, UnderWay};
use crate::mixing::{away, longest_away, setting_up};
use crate::quantity::Time;

/// One crew at work: its share of everybody, and when it wants its next batch.
pub(super) struct Lane {
    /// Index of the crew in [`Coat::teams`], counted from 0.
    pub(super) team: usize,
    /// Which of those who mix do so for it.
    pub(super) mixers: Range<usize>,
    /// How much longer its next batch may wait for them, where they mix for others too.
    pub(super) wait: Time,
    /// When A is to meet B in its next batch, from when the coat begins.
    pub(super) wants: Time,
    /// What it has under way, before anything else.
    pub(super) begun: VecDeque<UnderWay>,
    /// It has no more to lay, or no way to.
    pub(super) ended: bool,
}

impl Lane {
    /// What it has under way comes when it was begun.
    pub(super) fn await_begun(&mut self) {
        self.wants = self.begun.front().map_or(self.wants, |begun| begun.begun);
    }

    /// The batch it lays next, where that is under way already.
    pub(super) fn begin(&mut self) -> Option<UnderWay> {
        self.begun.pop_front()
    }
}

/// The lane that wants its next batch first, of those that have not ended: what is under way before
/// what is only planned.
pub(super) fn first_to_want(lanes: &mut [Lane]) -> Option<&mut Lane> {
    let open = lanes.iter_mut().filter(|lane| !lane.ended);
    let order = |lane: &Lane| (lane.begun.is_empty(), lane.wants);
    open.reduce(|first, lane| if order(lane) < order(first) { lane } else { first })
}

impl Coat {
    /// Whether a bay is one of a crew's.
    pub(super) fn is_laid_by(&self, team: usize, bay: usize) -> bool {
        self.bays.get(bay).is_some_and(|bay| bay.team == team)
    }

    /// How much longer the next batch of a crew may wait for whoever mixes for others too.
    pub(super) fn waits(&self, team: &Team) -> Time {
        let others = f64::from(team.serves.saturating_sub(1));
        others * longest_away(&team.crew, &self.product, &self.gear, self.fullest())
    }
}

impl Floor {
    /// The crews of a coat whose floor can begin at a time.
    pub(super) fn lanes(&self, coat: &Coat, begins: Time) -> Vec<Lane> {
        let lane = |(i, team): (usize, &Team)| {
            let mut lane = Lane {
                team: i,
                mixers: team.mixers.clone(),
                wait: coat.waits(team),
                wants: begins.max(self.hands_free(coat, i)),
                begun: coat.begun_in(|bay| bay.is_some_and(|bay| coat.is_laid_by(i, bay))),
                ended: false,
            };
            lane.await_begun();
            lane
        };
        coat.teams.iter().enumerate().map(lane).collect()
    }

    /// When the hands of a crew that lay its last batch are free to mix the next, or to pour it where
    /// somebody else mixes; the beginning where nobody knows.
    pub(super) fn hands_free(&self, coat: &Coat, team: usize) -> Time {
        let mut last = coat.done.iter().zip(self.covered(coat)).rev();
        let Some((done, area)) = last.find(|(done, _)| coat.is_laid_by(team, done.bay)) else {
            return Time::default();
        };
        let hands = self.hands(coat, done.bay);
        // Of one crew the time of the next batch says it; of several it is that of any of them.
        let as_planned = (coat.teams.len() > 1).then(|| area / hands.all_rolling());
        let Some((begun, took)) = done.begun.zip(done.rolled_in.or(as_planned)) else {
            return Time::default();
        };
        let ready = coat.product.ready() + hands.carry;
        let rolled = begun + ready + took;
        let (product, gear) = (&coat.product, &coat.gear);
        match hands.mixers {
            0 => rolled + hands.carry + setting_up(&hands, product, gear, done.mixed),
            // Whoever mixes alone is back then.
            1 => (rolled - ready).max(begun + away(&hands, product, gear, done.mixed)),
            _ => rolled - ready,
        }
    }
}
