//! How little the constants show that no data sheet gives.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::cure::{Chemistry, Kinetics};
use pailwise_calc::pail::{Pail, Thermal, still_air};
use pailwise_calc::quantity::{Frequency, Mass, MassDensity, celsius, unit};
use pailwise_calc::vessel::{Generic, Vessel};

/// What no data sheet gives.
#[derive(Clone, Copy)]
struct Hidden {
    end: f64,
    kappa: f64,
    heat: f64,
    loss: f64,
}

/// 40 min for 0.45 kg at 25 °C, calibrated with some hidden constants, then a pail of some mass
/// and temperature with the same constants. Calibrated here by bisection on the pail itself, so
/// that the end of pot life can be moved too.
fn pot_life(hidden: Hidden, kg: f64, degrees: f64) -> f64 {
    let typical = Chemistry::AmineEpoxy.typical();
    let thermal = Thermal {
        heat_of_reaction: typical.heat_of_reaction * hidden.heat,
        heat_capacity: typical.heat_capacity,
        density: MassDensity::new::<unit::kilogram_per_cubic_meter>(1260.0),
        heat_loss: still_air() * hidden.loss,
    };
    let life = |log_k: f64, mass: Mass, vessel: &Vessel, degrees: f64| {
        let kinetics = Kinetics {
            k_ref: Frequency::new::<unit::hertz>(log_k.exp()),
            activation_energy: typical.activation_energy,
            kappa: typical.kappa * hidden.kappa,
            balance: 1.0,
        };
        let t = celsius(degrees);
        let pail = Pail::new(kinetics, &thermal, mass, vessel, t, t).unwrap();
        pail.time_to(0.20 * hidden.end).unwrap().value
    };
    let sample = Mass::new::<unit::kilogram>(0.45);
    let cup = Vessel::compact(sample / thermal.density);
    let (mut slow, mut fast) = (-20.0, 0.0);
    for _ in 0..60 {
        let mid = 0.5 * (slow + fast);
        if life(mid, sample, &cup, 25.0) > 2400.0 { slow = mid } else { fast = mid }
    }
    let mass = Mass::new::<unit::kilogram>(kg);
    life(fast, mass, &Generic::FiveGallon.vessel(), degrees)
}

/// The design's own demand: calibration absorbs the hidden constants. Halving or doubling the end
/// of pot life, κ or the heat of reaction moves a pail of 4 to 10 kg between 15 and 35 °C by less
/// than 3 %, the heat loss by less than 8 %.
#[test]
fn hidden_constants_hardly_show() {
    let usual = Hidden { end: 1.0, kappa: 1.0, heat: 1.0, loss: 1.0 };
    for kg in [4.0, 7.0, 10.0] {
        for degrees in [15.0, 25.0, 35.0] {
            let before = pot_life(usual, kg, degrees);
            for by in [0.5, 2.0] {
                for (hidden, most) in [
                    (Hidden { end: by, ..usual }, 0.03),
                    (Hidden { kappa: by, ..usual }, 0.03),
                    (Hidden { heat: by, ..usual }, 0.03),
                    (Hidden { loss: by, ..usual }, 0.08),
                ] {
                    let moved = pot_life(hidden, kg, degrees) / before - 1.0;
                    assert!(moved.abs() < most, "{moved:+.4} at {kg} kg, {degrees} °C");
                }
            }
        }
    }
}
