//! The pail in limits that the theory of thermal explosion solves.

use pailwise_calc::cure::{GAS_CONSTANT, Kinetics, Rate};
use pailwise_calc::pail::Pail;
use pailwise_calc::quantity::{
    Frequency, MolarEnergy, TemperatureInterval, ThermodynamicTemperature, unit,
};
use pailwise_tests::checks::check;

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
            rate: Rate::single(
                Frequency::new::<unit::hertz>(heating_per_s / RISE / kappa),
                MolarEnergy::new::<unit::joule_per_mole>(energy * GAS_CONSTANT * T0),
            ),
            kappa,
            balance: 1.0,
            end: 0.5,
        },
        rise: TemperatureInterval::new::<unit::kelvin_change>(RISE),
        cooling: Frequency::new::<unit::hertz>(cooling_per_s),
        warming: Frequency::new::<unit::hertz>(cooling_per_s),
        material: ThermodynamicTemperature::new::<unit::kelvin>(T0),
        air: ThermodynamicTemperature::new::<unit::kelvin>(T0),
        cold: None,
    }
}

/// A well-stirred vessel is on the edge at ψ = 1/e, where `ψ = heating · E / (R T0² · cooling)`:
/// below it settles less than about `R T0²/E` warm, above it runs away. The edge of the pail is
/// found by bisection.
#[test]
fn a_stirred_vessel_is_critical_at_one_over_e() {
    let energy = 80.0;
    let scale = T0 / energy;
    let runs_away = |psi: f64| {
        let cooling = 1e-3;
        let pail = explosive(energy, psi * cooling * scale, cooling);
        (pail.peak().unwrap().temperature.value - T0) / scale > 10.0
    };
    let (mut settles, mut runs) = (0.1, 1.0);
    assert!(!runs_away(settles) && runs_away(runs));
    for _ in 0..30 {
        let middle = 0.5 * (settles + runs);
        if runs_away(middle) { runs = middle } else { settles = middle }
    }
    check("heating over cooling at which a stirred vessel runs away, ψ", "N. N. Semenov (1928)")
        .within(0.06, (-1.0_f64).exp(), settles);
}

/// Without loss the time to runaway is `cp R T0² / (q0 E)` to leading order in `R T0/E`; the next
/// term is of first order, so that it is half as far off at twice the energy.
#[test]
fn without_loss_it_runs_away_after_the_induction_time() {
    let time = |energy: f64| {
        let heating = 1e-4;
        let pail = explosive(energy, heating, 0.0);
        pail.time_to(0.5).unwrap().value / (T0 / energy / heating)
    };
    let source = "Townsend & Tou, Thermochim. Acta 37 (1980) 1";
    let (near, nearer) = (time(100.0), time(200.0));
    check("adiabatic time to runaway, in induction times, E/RT = 100", source)
        .within(0.03, 1.0, near);
    check("what is left of the difference at twice the energy", source).near(
        0.1,
        0.5,
        (nearer - 1.0) / (near - 1.0),
    );
}
