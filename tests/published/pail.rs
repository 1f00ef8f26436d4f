//! The pail: how long it lasts, how hot it gets, where its marks stand.

use pailwise_calc::calibrate::{Assumed, CupLoss, PotLifePoint, Sample, calibrate};
use pailwise_calc::cure::{Beyond, Chemistry, Kinetics, Rate};
use pailwise_calc::demo;
use pailwise_calc::pail::{Pail, Thermal, still_air};
use pailwise_calc::quantity::{
    Frequency, Length, Mass, MassDensity, MolarEnergy, ThermodynamicTemperature, Time, Volume,
    celsius, unit,
};
use pailwise_calc::stoichiometry::gel;
use pailwise_calc::vessel::{Generic, Vessel};
use pailwise_tests::checks::check;
use serde::Deserialize;

use crate::data::cases;

#[derive(Deserialize)]
struct Sheet {
    time: f64,
    temperature: f64,
    mass: f64,
    sample: Sample,
}

/// A rate law: rates at known temperatures, and the energies beyond them.
#[derive(Deserialize)]
struct Law {
    known: Vec<(f64, f64)>,
    cold: f64,
    warm: f64,
}

#[derive(Deserialize)]
struct PailCase {
    chemistry: Chemistry,
    density_kg_per_m3: f64,
    sheet: Vec<Sheet>,
    law: Law,
    loss: f64,
    vessel: Generic,
    mass_kg: f64,
    material_k: f64,
    air_k: f64,
    pot_life_s: f64,
    peak_k: f64,
    peak_s: f64,
}

fn kelvin(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<unit::kelvin>(value)
}

impl PailCase {
    fn thermal(&self) -> Thermal {
        let typical = self.chemistry.typical();
        Thermal {
            heat_of_reaction: typical.heat_of_reaction,
            heat_capacity: typical.heat_capacity,
            density: MassDensity::new::<unit::kilogram_per_cubic_meter>(self.density_kg_per_m3),
            heat_loss: still_air(),
        }
    }

    fn kinetics(&self) -> Kinetics {
        let energy = MolarEnergy::new::<unit::joule_per_mole>;
        let known =
            self.law.known.iter().map(|(t, k)| (kelvin(*t), Frequency::new::<unit::hertz>(*k)));
        let beyond = Beyond { cold: energy(self.law.cold), warm: energy(self.law.warm) };
        let typical = self.chemistry.typical();
        Kinetics {
            rate: Rate::through(known, beyond),
            kappa: typical.kappa,
            balance: 1.0,
            end: typical.end,
        }
    }

    fn pail(&self) -> Pail {
        let mass = Mass::new::<unit::kilogram>(self.mass_kg);
        let (material, air) = (kelvin(self.material_k), kelvin(self.air_k));
        let vessel = self.vessel.vessel();
        Pail::new(self.kinetics(), &self.thermal(), mass, &vessel, material, air).unwrap()
    }
}

/// From the equations alone and along time, where the crate walks along conversion. Two orders
/// better than the design asks; the benches compare at this accuracy.
#[test]
fn pot_life_and_peak_are_those_of_a_reference_integrator() {
    let (mut life, mut peak, mut after) = (Vec::new(), Vec::new(), Vec::new());
    for case in cases::<PailCase>("pail.json") {
        let pail = case.pail();
        life.push(pail.pot_life().unwrap().value / case.pot_life_s - 1.0);
        let summit = pail.peak().unwrap();
        peak.push(summit.temperature.value - case.peak_k);
        // Within a second where that is more than the share.
        after.push((summit.after.value - case.peak_s) / case.peak_s.max(100.0));
        assert!(pail.adiabatic_bound().value >= case.peak_k - 0.05 || case.air_k > case.material_k);
    }
    let source = "scipy.integrate.solve_ivp, LSODA at 1e-10";
    check("pot life, share", source).furthest(1e-6, &life);
    check("hottest, K", source).furthest(0.05, &peak);
    // A summit is flat: its time is far less certain than its height.
    check("time of the hottest, share", source).furthest(0.01, &after);
}

#[test]
fn calibration_finds_the_same_constants() {
    let (mut rate, mut loss) = (Vec::new(), Vec::new());
    for case in cases::<PailCase>("pail.json") {
        let typical = case.chemistry.typical();
        let points: Vec<_> = case
            .sheet
            .iter()
            .map(|p| PotLifePoint {
                time: Time::new::<unit::second>(p.time),
                temperature: kelvin(p.temperature),
                mass: Mass::new::<unit::kilogram>(p.mass),
                sample: Some(p.sample),
            })
            .collect();
        let assumed = Assumed {
            beyond: typical.beyond,
            kappa: typical.kappa,
            balance: 1.0,
            end: typical.end,
            gel: gel(1.0, typical.functionality).unwrap(),
        };
        let fit = calibrate(&points, assumed, &case.thermal()).unwrap();
        for (temperature, k) in &case.law.known {
            rate.push(fit.kinetics.k(kelvin(*temperature)).value / k - 1.0);
        }
        if let CupLoss::Fitted(found) = fit.loss {
            loss.push(found.get::<unit::watt_per_square_meter_kelvin>() / case.loss - 1.0);
        }
    }
    assert!(loss.len() >= 10, "{} sheets with a cup and a kit", loss.len());
    let source = "scipy.optimize: brentq, and least_squares for several points at once";
    check("rate constants from a sheet's pot lives, share", source).furthest(1e-4, &rate);
    check("heat loss of a cup, from a cup and a kit, share", source).furthest(1e-3, &loss);
}

/// The wall of a pail to still air, by natural convection and grey radiation. Less loss is the
/// safe side: the pail is taken to be hotter than it will be.
#[test]
fn heat_loss_is_on_the_low_side_of_a_wall_s() {
    #[derive(Deserialize)]
    struct Case {
        warmer_k: f64,
        convection: f64,
        radiation: f64,
    }
    let all = cases::<Case>("heat_loss.json");
    let ends = |of: fn(&Case) -> f64| {
        let values = all.iter().map(of);
        (values.clone().fold(f64::INFINITY, f64::min), values.fold(0.0, f64::max))
    };
    let source = "Churchill & Chu (1975) through ht, a wall of 0.2 m, and grey radiation";
    let (least, most) = ends(|case| case.convection + case.radiation);
    let ours = still_air().get::<unit::watt_per_square_meter_kelvin>();
    check("heat loss of a pail 5 to 40 K warmer than the air, W/(m²·K)", source).between(
        least,
        0.5 * (least + most),
        ours,
    );
    assert!(all.iter().any(|case| case.warmer_k <= 5.0) && all.iter().any(|c| c.warmer_k >= 40.0));
}

/// A frustum against the integral of its cross-sections, by the midpoint rule in 20 000 slices:
/// a tall pail, a squat one, a steep one.
#[test]
fn marks_stand_where_the_integral_says() {
    let cm = Length::new::<unit::centimeter>;
    let mut off = Vec::new();
    for (bottom, top, height) in [(20.0, 22.0, 60.0), (45.0, 46.0, 12.0), (12.0, 30.0, 25.0)] {
        let pail = Vessel::new(cm(bottom), cm(top), cm(height)).unwrap();
        let slice = height / 20_000.0;
        let mut held = 0.0;
        for i in 0..20_000_u32 {
            let z = (f64::from(i) + 0.5) * slice;
            let r = 0.5 * (bottom + (top - bottom) * z / height);
            held += std::f64::consts::PI * r * r * slice;
            if i % 500 == 499 {
                let volume = Volume::new::<unit::milliliter>(held);
                let mark = pail.height_of(volume).unwrap().get::<unit::millimeter>();
                off.push(mark - 10.0 * slice * f64::from(i + 1));
            }
        }
    }
    check("marks on a stick, mm", "the integral of the cross-sections, in 20 000 slices")
        .furthest(0.1, &off);
}

#[test]
fn more_and_warmer_is_shorter() {
    let base = demo::base().unwrap();
    let life = |kg: f64, c: f64| {
        let mass = Mass::new::<unit::kilogram>(kg);
        let pail = base.pail(mass, &Generic::FiveGallon.vessel(), celsius(c), celsius(c)).unwrap();
        pail.pot_life().unwrap()
    };
    let source = "ISO 9514; ASTM D2471";
    let less = life(10.0, 25.0) < life(2.0, 25.0);
    check("pot life is shorter with more in the pail", source).is(&true, &less);
    let less = life(2.0, 30.0) < life(2.0, 25.0);
    check("pot life is shorter where it is warmer", source).is(&true, &less);
}
