//! Rates, gel and balance.

use pailwise_calc::after::SheetTimes;
use pailwise_calc::cure::{GAS_CONSTANT, Kinetics, Rate, arrhenius};
use pailwise_calc::demo;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Frequency, Mass, MolarEnergy, celsius, unit};
use pailwise_calc::record::AfterRecord;
use pailwise_calc::stoichiometry::{EquivalentWeights, gel};
use pailwise_calc::vessel::Generic;
use pailwise_tests::checks::check;
use serde::Deserialize;

use crate::data::cases;

/// A cure with some constants.
pub(crate) fn cure(k_ref_hz: f64, ea: f64, kappa: f64, balance: f64) -> Kinetics {
    let energy = MolarEnergy::new::<unit::joule_per_mole>(ea);
    let rate = Rate::single(Frequency::new::<unit::hertz>(k_ref_hz), energy);
    Kinetics { rate, kappa, balance, end: 0.55 }
}

/// An hour at `T` counts as `exp(−Q (1/T − 1/Ts))` hours at `Ts`. The standard's own example has
/// `Q` = 5000 K, at 10 °C against 23 °C 0.4606; a coat is taken to have no less than 60 kJ/mol, which
/// is a `Q` of 7216.3 K and 0.4606 to the power of 1.443 27.
#[test]
fn equivalent_age() {
    let power = 60_000.0 / GAS_CONSTANT / 5000.0;
    let sheet = [AfterRecord { time_h: 24.0, temperature_c: 23.0 }];
    let times = SheetTimes::new(&sheet).unwrap().unwrap();
    let hours = times.ready(celsius(10.0)).get::<unit::hour>();
    check("24 h at 23 °C, on a slab at 10 °C, h", "ASTM C1074, the Arrhenius form").within(
        2e-2,
        24.0 / 0.460_6_f64.powf(power),
        hours,
    );
}

/// `Ea = R ln 2 / (1/298.15 − 1/308.15)`.
#[test]
fn halving_rule() {
    let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(52.95);
    let source = "the rule of half the time for each 10 °C, as an Arrhenius energy";
    check("25 °C against 35 °C at 52.95 kJ/mol, times", source).within(
        1e-4,
        2.0,
        arrhenius(energy, celsius(35.0), celsius(25.0)),
    );
}

/// A product with pot life at one temperature follows that rule within the spread of published
/// activation energies for amine–epoxy cure, 44 to 60 kJ/mol.
#[test]
fn one_data_sheet_point_halves_about_every_ten_degrees() {
    let paste = Product::try_from(&demo::record_filler()).unwrap();
    let life = |c: f64| {
        let mass = Mass::new::<unit::kilogram>(0.15);
        let pail = paste.pail(mass, &Generic::FiveQuart.vessel(), celsius(c), celsius(c)).unwrap();
        pail.pot_life().unwrap().value
    };
    let factor = |kj: f64| (kj * 1000.0 / GAS_CONSTANT * (1.0 / 298.15 - 1.0 / 308.15)).exp();
    let source = "44 to 60 kJ/mol: Barral et al., J. Appl. Polym. Sci. 56 (1995) 1029; \
                  Sbirrazzuoli et al., Thermochim. Acta 447 (2006) 167";
    check("pot life at 25 °C over that at 35 °C, from one point of a sheet", source).between(
        factor(44.0),
        factor(60.0),
        life(25.0) / life(35.0),
    );
}

/// f = 2, g = 4: in balance at 1/√3; with more than three or fewer than a third hydrogens an
/// epoxide never.
#[test]
fn gel_point() {
    const SOURCE: &str = "Flory (1953); Stockmayer (1943)";
    let epoxy = (2.0, 4.0);
    check("conversion at gel, two and four functions in balance", SOURCE).within(
        1e-12,
        1.0 / 3_f64.sqrt(),
        gel(1.0, epoxy).unwrap(),
    );
    for (balance, gels) in [(0.334, true), (0.333, false), (2.99, true), (3.01, false)] {
        let what = format!("it gels with {balance} hydrogens an epoxide");
        check(what, SOURCE).is(&gels, &gel(balance, epoxy).is_some());
    }
}

/// The amines' hydrogen equivalents from their molar masses (IUPAC atomic weights): DETA C4H13N3
/// with five hydrogens, TETA C6H18N4 with six, m-PDA C6H8N2 with four.
#[test]
fn hardener_for_a_hundred_of_resin() {
    const HANDBOOK: &str = "Lee & Neville, Handbook of Epoxy Resins, 1967 (from memory)";
    let (c, h, n) = (12.011, 1.008, 14.007);
    let teta = 6.0 * c + 18.0 * h + 4.0 * n;
    for (name, molar, hydrogens, phr, within, source) in [
        // Handbook figures are rounded to a tenth.
        ("DETA", 4.0 * c + 13.0 * h + 3.0 * n, 5.0, 10.8, 0.1, HANDBOOK),
        ("TETA", teta, 6.0, 12.8, 0.1, HANDBOOK),
        ("m-PDA", 6.0 * c + 8.0 * h + 2.0 * n, 4.0, 14.2, 0.1, HANDBOOK),
        ("TETA", teta, 6.0, 13.0, 0.5, "a published study of TETA, to the whole part"),
    ] {
        let weights = EquivalentWeights::new(190.0, molar / hydrogens).unwrap();
        let what = format!("{name} for 100 of resin of EEW 190, by weight");
        check(what, source).near(within, phr, weights.phr());
    }
}

#[test]
fn the_closed_form_is_the_integral() {
    #[derive(Deserialize)]
    struct Case {
        kappa: f64,
        balance: f64,
        conversion: f64,
        progress: f64,
    }
    let off = cases::<Case>("progress.json").into_iter().map(|case| {
        let cure = cure(1e-4, 53_000.0, case.kappa, case.balance);
        let got = cure.progress(case.conversion);
        if case.progress == 0.0 { got } else { got / case.progress - 1.0 }
    });
    check("the closed form of the cure's integral, share", "scipy.integrate.quad at 1e-12")
        .furthest(1e-10, &off.collect::<Vec<_>>());
}
