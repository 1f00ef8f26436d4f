//! Results against sources outside the project, each named beside its check.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use approx::assert_relative_eq;
use pailwise_calc::after::SheetTimes;
use pailwise_calc::coverage::Coverage;
use pailwise_calc::cure::{GAS_CONSTANT, arrhenius};
use pailwise_calc::demo;
use pailwise_calc::dew::dew_point;
use pailwise_calc::field::Field;
use pailwise_calc::job::Job;
use pailwise_calc::limits::Limits;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{
    Area, Length, Mass, MolarEnergy, ThermodynamicTemperature, Volume, celsius, unit,
};
use pailwise_calc::ratio::Ingredient;
use pailwise_calc::record::AfterRecord;
use pailwise_calc::stoichiometry::{EquivalentWeights, gel};
use pailwise_calc::vessel::{Generic, Vessel};

/// NIST SP 811, appendix B; NIST Handbook 44, appendix C. Exact by definition.
#[test]
fn units() {
    let exact = |got: f64, wanted: f64| assert_relative_eq!(got, wanted, max_relative = 1e-14);
    exact(Volume::new::<unit::gallon>(1.0).get::<unit::liter>(), 3.785_411_784);
    exact(Volume::new::<unit::gallon>(1.0).get::<unit::cubic_meter>(), 231.0 * 0.0254_f64.powi(3));
    exact(Volume::new::<unit::quart_liquid>(4.0).value, Volume::new::<unit::gallon>(1.0).value);
    exact(Volume::new::<unit::fluid_ounce>(1.0).get::<unit::milliliter>(), 29.573_529_562_5);
    exact(Mass::new::<unit::pound>(1.0).get::<unit::kilogram>(), 0.453_592_37);
    exact(Mass::new::<unit::ounce>(16.0).value, Mass::new::<unit::pound>(1.0).value);
    exact(Length::new::<unit::mil>(1.0).get::<unit::micrometer>(), 25.4);
    exact(Length::new::<unit::foot>(1.0).get::<unit::meter>(), 0.3048);
    exact(Area::new::<unit::square_foot>(1.0).get::<unit::square_meter>(), 0.092_903_04);
    let boiling = ThermodynamicTemperature::new::<unit::degree_fahrenheit>(212.0);
    exact(boiling.get::<unit::kelvin>(), 373.15);
}

/// Arithmetic of the units above: 231 in³ spread 1 mil thin is 231 000 in² = 1604.1667 ft².
#[test]
fn a_gallon_covers_1604_square_feet_at_a_mil() {
    let film = Coverage::new(Length::new::<unit::mil>(1.0), 0.0, 0.0).unwrap();
    let covered = film.area_from(Volume::new::<unit::gallon>(1.0));
    assert_relative_eq!(
        covered.get::<unit::square_foot>(),
        231_000.0 / 144.0,
        max_relative = 1e-12
    );
}

/// CODATA 2018 / SI Brochure, 9th edition: R is the product of two exact constants.
#[test]
fn gas_constant() {
    assert_relative_eq!(GAS_CONSTANT, 1.380_649e-23 * 6.022_140_76e23, max_relative = 1e-14);
}

/// WMO-No. 8, Annex 4.B, and the ASHRAE psychrometric chart (from memory; `psychrolib` in
/// `tests/reference.rs` agrees): dew points to the tenth of a degree.
#[test]
fn dew_points() {
    for (air, percent, wanted) in [(20.0, 60.0, 12.0), (25.0, 50.0, 13.9), (30.0, 70.0, 23.9)] {
        let dew = dew_point(celsius(air), percent / 100.0).unwrap();
        let got = dew.get::<unit::degree_celsius>();
        assert!((got - wanted).abs() < 0.05, "{got} for {air} °C and {percent} %");
    }
}

/// ISO 8502-4: the surface at least 3 °C above the dew point, where a sheet does not say.
#[test]
fn the_usual_margin_above_the_dew_point() {
    let margin = Limits::default().spread();
    assert_relative_eq!(margin.get::<unit::celsius_change>(), 3.0, max_relative = 1e-12);
}

/// ASTM C1074, the Arrhenius form of equivalent age: an hour at `T` counts as `exp(−Q (1/T −
/// 1/Ts))` hours at `Ts`, here with its example constant `Q` = 5000 K, 23 °C against 10 °C:
/// exp(−5000 × (1/283.15 − 1/296.15)) = 0.4606.
#[test]
fn equivalent_age() {
    let energy = MolarEnergy::new::<unit::joule_per_mole>(5000.0 * GAS_CONSTANT);
    let sheet = [AfterRecord { time_h: 24.0, temperature_c: 23.0 }];
    let times = SheetTimes::new(Field::LightUse, &sheet).unwrap().unwrap();
    let factor = (-5000.0_f64 * (1.0 / 283.15 - 1.0 / 296.15)).exp();
    assert_relative_eq!(factor, 0.460_6, max_relative = 1e-3);
    let hours = times.ready(celsius(10.0), energy).get::<unit::hour>();
    assert_relative_eq!(hours * factor, 24.0, max_relative = 1e-12);
}

/// The rule of thumb "half the time for each 10 °C" as an Arrhenius energy between 25 and 35 °C:
/// `Ea = R ln 2 / (1/298.15 − 1/308.15)` = 52.95 kJ/mol.
#[test]
fn halving_rule() {
    let energy = GAS_CONSTANT * 2_f64.ln() / (1.0 / 298.15 - 1.0 / 308.15);
    assert_relative_eq!(energy, 52_950.0, max_relative = 1e-4);
    let ea = MolarEnergy::new::<unit::joule_per_mole>(energy);
    assert_relative_eq!(arrhenius(ea, celsius(35.0), celsius(25.0)), 2.0, max_relative = 1e-12);
}

/// A product with pot life at one temperature follows that rule within the spread of published
/// activation energies for amine–epoxy cure, 44 to 60 kJ/mol (Barral et al., J. Appl. Polym. Sci.
/// 56 (1995) 1029; Sbirrazzuoli et al., Thermochim. Acta 447 (2006) 167).
#[test]
fn one_data_sheet_point_halves_about_every_ten_degrees() {
    let paste = Product::try_from(&demo::record_filler()).unwrap();
    let life = |c: f64| {
        let mass = Mass::new::<unit::kilogram>(0.15);
        let pail = paste.pail(mass, &Generic::FiveQuart.vessel(), celsius(c), celsius(c)).unwrap();
        pail.pot_life().unwrap().value
    };
    let factor = |kj: f64| (kj * 1000.0 / GAS_CONSTANT * (1.0 / 298.15 - 1.0 / 308.15)).exp();
    let got = life(25.0) / life(35.0);
    assert!((factor(44.0)..factor(60.0)).contains(&got), "{got}");
}

/// Flory (1953), Stockmayer (1943): f = 2, g = 4, in balance, gels at 1/√3; with more than three
/// or fewer than a third hydrogens an epoxide it never gels.
#[test]
fn gel_point() {
    let epoxy = (2.0, 4.0);
    assert_relative_eq!(gel(1.0, epoxy).unwrap(), 1.0 / 3_f64.sqrt(), max_relative = 1e-12);
    for (balance, gels) in [(0.334, true), (0.333, false), (2.99, true), (3.01, false)] {
        assert_eq!(gel(balance, epoxy).is_some(), gels, "{balance}");
    }
}

/// Lee & Neville, *Handbook of Epoxy Resins*, 1967 (from memory), liquid resin of EEW 190: parts
/// of hardener by weight for 100. The amines' hydrogen equivalents from their molar masses
/// (IUPAC atomic weights): DETA C4H13N3 with five hydrogens, TETA C6H18N4 with six, m-PDA C6H8N2
/// with four. A published study of TETA finds 13 phr.
#[test]
fn hardener_for_a_hundred_of_resin() {
    let (c, h, n) = (12.011, 1.008, 14.007);
    for (molar, hydrogens, phr) in [
        (4.0 * c + 13.0 * h + 3.0 * n, 5.0, 10.8),
        (6.0 * c + 18.0 * h + 4.0 * n, 6.0, 12.8),
        (6.0 * c + 8.0 * h + 2.0 * n, 4.0, 14.2),
    ] {
        let weights = EquivalentWeights::new(190.0, molar / hydrogens).unwrap();
        // Handbook figures are rounded to a tenth.
        assert!((weights.phr() - phr).abs() < 0.1, "{} for {phr}", weights.phr());
    }
}

/// A frustum against the integral of its cross-sections, by the midpoint rule in 20 000 slices:
/// a tall pail, a squat one, a steep one. The marks of a stick come back within 0.1 mm.
#[test]
fn marks_stand_where_the_integral_says() {
    let cm = Length::new::<unit::centimeter>;
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
                let wanted = 10.0 * slice * f64::from(i + 1);
                assert!((mark - wanted).abs() < 0.1, "{mark} mm is not {wanted} mm");
            }
        }
    }
}

/// Crack paste 2 A : 1 B by volume (common practice, no source): three quarts are two and one.
#[test]
fn two_to_one_paste() {
    let paste = Product::try_from(&demo::record_filler()).unwrap();
    let pours = paste.ratio().split(Volume::new::<unit::quart_liquid>(3.0));
    let quarts: Vec<_> =
        pours.iter().map(|p| (p.what, p.volume.get::<unit::quart_liquid>())).collect();
    assert_eq!(quarts.len(), 2);
    assert_eq!(quarts[0].0, Ingredient::Component(0));
    assert_relative_eq!(quarts[0].1, 2.0, max_relative = 1e-12);
    assert_relative_eq!(quarts[1].1, 1.0, max_relative = 1e-12);
}

/// ISO 9514 and ASTM D2471: pot life falls with the amount mixed, and with temperature.
#[test]
fn more_and_warmer_is_shorter() {
    let base = demo::base().unwrap();
    let life = |kg: f64, c: f64| {
        let mass = Mass::new::<unit::kilogram>(kg);
        let pail = base.pail(mass, &Generic::FiveGallon.vessel(), celsius(c), celsius(c)).unwrap();
        pail.pot_life().unwrap()
    };
    assert!(life(10.0, 25.0) < life(2.0, 25.0));
    assert!(life(2.0, 30.0) < life(2.0, 25.0));
}

/// High-build base coat spreads 90 to 120 sq ft a gallon (common practice, no source); the
/// invented base coat is of that kind, so a gallon in the pail covers a little less than that.
#[test]
fn the_invented_base_coat_spreads_like_a_base_coat() {
    let job = Job::try_from(&demo::job()).unwrap();
    let covered = job.bare.coverage.area_from(Volume::new::<unit::gallon>(1.0));
    assert!((85.0..120.0).contains(&covered.get::<unit::square_foot>()));
}
