//! The pail in limits that thermal-explosion theory solves, and its insensitivity to constants
//! that no data sheet gives.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::cure::{Chemistry, GAS_CONSTANT, Kinetics};
use pailwise_calc::pail::{Pail, Thermal, still_air};
use pailwise_calc::quantity::{
    Frequency, Mass, MassDensity, MolarEnergy, TemperatureInterval, ThermodynamicTemperature,
    celsius, unit,
};
use pailwise_calc::vessel::{Generic, Vessel};

/// Ambient, K: that at which `k_ref` is stated, so that it is the rate constant at the start.
const T0: f64 = 298.15;

/// A vessel with so high an activation energy (`energy` = E/(R T0)) and so much heat that hardly
/// anything reacts before it is decided, as the theory assumes.
fn explosive(energy: f64, heating_per_s: f64, cooling_per_s: f64) -> Pail {
    const RISE: f64 = 1e5;
    let kappa = 1000.0;
    Pail {
        kinetics: Kinetics {
            // Heating at the start is rise · k · κ · B.
            k_ref: Frequency::new::<unit::hertz>(heating_per_s / RISE / kappa),
            activation_energy: MolarEnergy::new::<unit::joule_per_mole>(energy * GAS_CONSTANT * T0),
            kappa,
            balance: 1.0,
        },
        rise: TemperatureInterval::new::<unit::kelvin_change>(RISE),
        cooling: Frequency::new::<unit::hertz>(cooling_per_s),
        warming: Frequency::new::<unit::hertz>(cooling_per_s),
        material: ThermodynamicTemperature::new::<unit::kelvin>(T0),
        air: ThermodynamicTemperature::new::<unit::kelvin>(T0),
    }
}

/// N. N. Semenov (1928): a well-stirred vessel is on the edge at ψ = 1/e, where
/// `ψ = heating · E / (R T0² · cooling)`; below it settles less than about `R T0²/E` warm
/// (e R T0²/E · ψ at most), above it runs away.
#[test]
fn a_stirred_vessel_is_critical_at_one_over_e() {
    let energy = 80.0;
    let scale = T0 / energy;
    let warmest = |psi: f64| {
        let cooling = 1e-3;
        let pail = explosive(energy, psi * cooling * scale, cooling);
        (pail.peak().unwrap().temperature.value - T0) / scale
    };
    let edge = (-1.0_f64).exp();
    assert!(warmest(0.95 * edge) < 1.3, "{}", warmest(0.95 * edge));
    assert!(warmest(1.06 * edge) > 50.0, "{}", warmest(1.06 * edge));
}

/// Townsend & Tou, Thermochim. Acta 37 (1980) 1: without loss the time to runaway is
/// `cp R T0² / (q0 E)` to leading order in `R T0/E`.
#[test]
fn without_loss_it_runs_away_after_the_induction_time() {
    let off = |energy: f64| {
        let heating = 1e-4;
        let pail = explosive(energy, heating, 0.0);
        let induction = T0 / energy / heating;
        pail.time_to(0.5).unwrap().value / induction - 1.0
    };
    let (near, nearer) = (off(100.0), off(200.0));
    assert!(near.abs() < 0.03, "{near}");
    // The next term is of first order: half as far off at twice the energy.
    assert!((nearer / near - 0.5).abs() < 0.1, "{near} then {nearer}");
}

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
