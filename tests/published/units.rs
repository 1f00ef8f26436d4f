//! Units and what follows from them.

use pailwise_calc::coverage::Coverage;
use pailwise_calc::cure::GAS_CONSTANT;
use pailwise_calc::quantity::{
    Area, Length, Mass, TemperatureInterval, ThermodynamicTemperature, Volume, unit,
};
use pailwise_tests::checks::check;
use serde::Deserialize;

use crate::data::cases;

/// Conversions that the definitions of the units make exact.
#[test]
fn units() {
    const SOURCE: &str = "NIST SP 811, appendix B; NIST Handbook 44, appendix C";
    let exact = |what: &str, expected, got| check(what, SOURCE).within(1e-14, expected, got);
    exact("a US gallon, L", 3.785_411_784, Volume::new::<unit::gallon>(1.0).get::<unit::liter>());
    exact(
        "a US gallon, 231 cubic inches in m³",
        231.0 * 0.0254_f64.powi(3),
        Volume::new::<unit::gallon>(1.0).get::<unit::cubic_meter>(),
    );
    exact("quarts in a gallon", 4.0, Volume::new::<unit::gallon>(1.0).get::<unit::quart_liquid>());
    exact(
        "a US fluid ounce, mL",
        29.573_529_562_5,
        Volume::new::<unit::fluid_ounce>(1.0).get::<unit::milliliter>(),
    );
    exact("a pound, kg", 0.453_592_37, Mass::new::<unit::pound>(1.0).get::<unit::kilogram>());
    exact("ounces in a pound", 16.0, Mass::new::<unit::pound>(1.0).get::<unit::ounce>());
    exact("a mil, µm", 25.4, Length::new::<unit::mil>(1.0).get::<unit::micrometer>());
    exact("a foot, m", 0.3048, Length::new::<unit::foot>(1.0).get::<unit::meter>());
    exact(
        "a square foot, m²",
        0.092_903_04,
        Area::new::<unit::square_foot>(1.0).get::<unit::square_meter>(),
    );
    exact(
        "212 °F, K",
        373.15,
        ThermodynamicTemperature::new::<unit::degree_fahrenheit>(212.0).get::<unit::kelvin>(),
    );
}

/// Every unit that people type or read, from a registry of units of another language.
#[test]
fn units_are_those_of_another_library() {
    #[derive(Deserialize)]
    struct Case {
        unit: String,
        amount: f64,
        si: f64,
    }
    for Case { unit, amount, si } in cases::<Case>("units.json") {
        let got = match unit.as_str() {
            "US_liquid_gallon" => Volume::new::<unit::gallon>(amount).value,
            "US_liquid_quart" => Volume::new::<unit::quart_liquid>(amount).value,
            "US_fluid_ounce" => Volume::new::<unit::fluid_ounce>(amount).value,
            "liter" => Volume::new::<unit::liter>(amount).value,
            "milliliter" => Volume::new::<unit::milliliter>(amount).value,
            "pound" => Mass::new::<unit::pound>(amount).value,
            "ounce" => Mass::new::<unit::ounce>(amount).value,
            "gram" => Mass::new::<unit::gram>(amount).value,
            "foot" => Length::new::<unit::foot>(amount).value,
            "inch" => Length::new::<unit::inch>(amount).value,
            "thou" => Length::new::<unit::mil>(amount).value,
            "micrometer" => Length::new::<unit::micrometer>(amount).value,
            "square_foot" => Area::new::<unit::square_foot>(amount).value,
            "degree_Fahrenheit" => {
                ThermodynamicTemperature::new::<unit::degree_fahrenheit>(amount).value
            }
            "degree_Celsius" => ThermodynamicTemperature::new::<unit::degree_celsius>(amount).value,
            "delta_degree_Fahrenheit" => {
                TemperatureInterval::new::<unit::celsius_change>(amount / 1.8).value
            }
            other => panic!("{other} is no unit of ours"),
        };
        check(format!("{amount} {unit} in SI units"), "pint").within(1e-12, si, got);
    }
}

#[test]
fn a_gallon_covers_1604_square_feet_at_a_mil() {
    let film = Coverage::new(Length::new::<unit::mil>(1.0), 0.0, 0.0).unwrap();
    let covered = film.area_from(Volume::new::<unit::gallon>(1.0));
    let source = "arithmetic of the units: 231 in³ spread 1 mil thin are 231 000 in²";
    check("a gallon at a mil covers, sq ft", source).within(
        1e-12,
        231_000.0 / 144.0,
        covered.get::<unit::square_foot>(),
    );
}

#[test]
fn gas_constant() {
    let source = "SI Brochure, 9th edition; CODATA 2018: the product of two exact constants";
    let expected = 1.380_649e-23 * 6.022_140_76e23;
    check("the gas constant, J/(mol·K)", source).within(1e-14, expected, GAS_CONSTANT);
}
