//! Walking a pail along conversion, step by step.

use super::Pail;
use crate::error::Error;
use crate::solve::step;

/// A point on the way: conversion, time, temperature, and the slopes of both along conversion.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub(super) conversion: f64,
    /// Time, s, and temperature, K.
    pub(super) state: [f64; 2],
    pub(super) slope: [f64; 2],
}

impl Pail {
    /// Walks from fresh to a conversion; `see` is shown both ends of every step and stops the
    /// walk with `true`. Steps are sized so that time is right to 1e-7 of itself a step and
    /// temperature to 1e-5 K.
    pub(super) fn walk(
        &self,
        to: f64,
        mut see: impl FnMut(&Node, &Node) -> bool,
    ) -> Result<Node, Error> {
        const TIME_TOLERANCE: f64 = 1e-7;
        const TEMPERATURE_TOLERANCE: f64 = 1e-5;
        let rate = self.kinetics.rate;
        let (rise, air) = (self.rise.value, self.air.value);
        let (cooling, warming) = (self.cooling.value, self.warming.value);
        let slope = |conversion: f64, [_, temperature]: [f64; 2]| {
            let dt = 1.0 / (rate.per_second(temperature) * self.kinetics.shape(conversion));
            let over = temperature - air;
            let loss = if over > 0.0 { cooling * over } else { warming * over };
            [dt, rise - loss * dt]
        };
        let start = [0.0, self.material.value];
        let mut here = Node { conversion: 0.0, state: start, slope: slope(0.0, start) };
        // No step so long that the cubic between its ends would show.
        let longest = 0.1 * to;
        let mut h = 0.05 * to;
        let mut landing = false;
        for _ in 0..400_000 {
            if here.conversion >= to {
                return Ok(here);
            }
            let last = here.conversion + h >= to * (1.0 - 1e-12);
            let h_now = if last { to - here.conversion } else { h };
            let (state, new_slope, off) =
                step(here.conversion, here.state, here.slope, h_now, slope);
            let error = (off[0].abs() / (TIME_TOLERANCE * state[0].abs()))
                .max(off[1].abs() / TEMPERATURE_TOLERANCE);
            if error <= 1.0 && state[1] > 0.0 && new_slope[0] > 0.0 {
                let conversion = if last { to } else { here.conversion + h_now };
                let next = Node { conversion, state, slope: new_slope };
                // The loss changes its rate at the air's temperature, the cure its slope at those of
                // the sheet: end a step near there, unless so little of it lies on one side that
                // it does not show.
                let shows = |level: &f64| {
                    (here.state[1] - level).abs().min((state[1] - level).abs()) > 1e-3
                };
                let crossed = |level: f64| (here.state[1] - level) * (state[1] - level) < 0.0;
                let at_air = Some(air).filter(|air| crossed(*air));
                let bend = rate.bend_between(here.state[1], state[1]);
                let nearest = [at_air, bend].into_iter().flatten().filter(shows).reduce(|a, b| {
                    if (a - here.state[1]).abs() < (b - here.state[1]).abs() { a } else { b }
                });
                if let Some(at) = nearest.filter(|_| !landing) {
                    h = h_now * level(&here, &next, at);
                    landing = true;
                    continue;
                }
                landing = false;
                let stop = see(&here, &next);
                here = next;
                if stop {
                    return Ok(here);
                }
            }
            // A fifth root; a power would be worked out to a precision that nobody needs here.
            let root = || (-0.2 * error.max(1e-10).ln()).exp();
            let scale = if error.is_finite() { 0.9 * root() } else { 0.2 };
            h = (h_now * scale.clamp(0.2, 5.0)).min(longest);
            if h < 1e-13 {
                break;
            }
        }
        Err(Error::NoSolution)
    }
}

/// Where temperature is highest between two nodes, on the cubic through both ends and slopes.
pub(super) fn between(before: &Node, after: &Node) -> [f64; 2] {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let mid = 0.5 * (low + high);
        if cubic(before, after, mid + 1e-7)[1] > cubic(before, after, mid)[1] {
            low = mid;
        } else {
            high = mid;
        }
    }
    cubic(before, after, low)
}

/// The share of the way between two nodes at which the temperature crosses a level that lies
/// between theirs.
fn level(before: &Node, after: &Node, level: f64) -> f64 {
    let rising = after.state[1] > before.state[1];
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let mid = 0.5 * (low + high);
        if (cubic(before, after, mid)[1] < level) == rising { low = mid } else { high = mid }
    }
    high
}

/// The cubic through two nodes and their slopes, at a share of the way (Hermite).
pub(super) fn cubic(before: &Node, after: &Node, share: f64) -> [f64; 2] {
    let (s, h) = (share, after.conversion - before.conversion);
    let (s2, s3) = (s * s, s * s * s);
    [0, 1].map(|i| {
        (2.0 * s3 - 3.0 * s2 + 1.0) * before.state[i]
            + (s3 - 2.0 * s2 + s) * h * before.slope[i]
            + (3.0 * s2 - 2.0 * s3) * after.state[i]
            + (s3 - s2) * h * after.slope[i]
    })
}
