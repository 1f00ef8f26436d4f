//! The unit names used with `new` and `get`: `uom`'s, and exact US customary ones.

pub use customary_mass::{ounce, pound};
pub use customary_volume::{fluid_ounce, gallon, quart_liquid};
pub use uom::si::area::{square_foot, square_meter};
pub use uom::si::available_energy::{joule_per_gram, joule_per_kilogram};
pub use uom::si::diffusion_coefficient::square_meter_per_second;
pub use uom::si::frequency::hertz;
pub use uom::si::heat_transfer::watt_per_square_meter_kelvin;
pub use uom::si::length::{centimeter, foot, inch, meter, micrometer, mil, millimeter};
pub use uom::si::mass::{gram, kilogram};
pub use uom::si::mass_density::kilogram_per_cubic_meter;
pub use uom::si::molar_energy::{joule_per_mole, kilojoule_per_mole};
pub use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
pub use uom::si::temperature_interval::{
    degree_celsius as celsius_change, degree_fahrenheit as fahrenheit_change,
    kelvin as kelvin_change,
};
pub use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};
pub use uom::si::time::{hour, millisecond, minute, second};
pub use uom::si::velocity::meter_per_second;
pub use uom::si::volume::{cubic_meter, liter, milliliter};
pub use uom::si::volume_rate::{cubic_meter_per_second, liter_per_minute};

// `uom` rounds these to seven digits, so that four quarts would not make a gallon. Exact values:
// NIST Handbook 44, appendix C.
mod customary_volume {
    unit! {
        system: uom::si;
        quantity: uom::si::volume;

        @gallon: 3.785_411_784_E-3; "gal", "US gallon", "US gallons";
        @quart_liquid: 9.463_529_46_E-4; "qt", "US quart", "US quarts";
        @fluid_ounce: 2.957_352_956_25_E-5; "fl oz", "US fluid ounce", "US fluid ounces";
    }
}
mod customary_mass {
    unit! {
        system: uom::si;
        quantity: uom::si::mass;

        @pound: 4.535_923_7_E-1; "lb", "pound", "pounds";
        @ounce: 2.834_952_312_5_E-2; "oz", "ounce", "ounces";
    }
}
