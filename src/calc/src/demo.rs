//! Invented products and a crew to try the tool with. No product of that name exists; the figures
//! are of the usual size (common practice, no source).

use crate::crew;
use crate::cure::Chemistry;
use crate::error::Error;
use crate::product::Product;
use crate::ratio::Basis;
use crate::record::{
    AdditiveRecord, AfterRecord, BareRecord, CoatRecord, ComponentRecord, ConditionsRecord,
    CourseRecord, CrewRecord, EquivalentWeightsRecord, FloorRecord, GearRecord, JobRecord,
    KitRecord, LimitsRecord, MeasureRecord, OpenTimeRecord, PotLifeRecord, ProductRecord,
    RectangleRecord, Role, SurfaceRecord, TonightRecord, VERSION, VesselRecord,
};
use crate::vessel::Generic;

/// A US gallon in litres (NIST Handbook 44, appendix C).
const GALLON_L: f64 = 3.785_411_784;

/// A two-to-one pigmented epoxy base coat, ready for calculation.
///
/// # Errors
/// None that the tests have not ruled out: the record is a constant of this file.
pub fn base() -> Result<Product, Error> {
    Product::try_from(&record_base())
}

/// All invented products as records.
pub fn records() -> [ProductRecord; 3] {
    [record_base(), record_topcoat(), record_filler()]
}

/// The record of [`base`].
pub fn record_base() -> ProductRecord {
    ProductRecord {
        components: vec![component("A", 2.0, 1.38), component("B", 1.0, 1.02)],
        pot_life: vec![
            PotLifeRecord {
                time_min: 45.0,
                temperature_c: 20.0,
                mass_kg: Some(0.45),
                ..PotLifeRecord::default()
            },
            PotLifeRecord {
                time_min: 24.0,
                temperature_c: 30.0,
                mass_kg: Some(0.45),
                ..PotLifeRecord::default()
            },
        ],
        open_time: vec![OpenTimeRecord {
            time_min: 40.0,
            temperature_c: 25.0,
            humidity_percent: None,
        }],
        kits: vec![KitRecord { volume_l: Some(3.0 * GALLON_L), ..KitRecord::default() }],
        equivalent_weights: Some(EquivalentWeightsRecord {
            a_g_per_mol: 290.0,
            b_g_per_mol: 107.0,
        }),
        wet_film_um: Some(380.0),
        flaked: true,
        flake_kg_per_m2: Some(0.7),
        recoat_opens: after(12.0, 25.0),
        recoat_closes: after(36.0, 25.0),
        light_use: after(24.0, 25.0),
        vehicles: after(72.0, 25.0),
        limits: limits(),
        ..blank("invented-base", "Practice Base 2:1", Role::Base, Chemistry::AmineEpoxy)
    }
}

/// A one-to-one aspartic topcoat with a UV absorber stirred into A.
pub fn record_topcoat() -> ProductRecord {
    ProductRecord {
        components: vec![component("A", 1.0, 1.06), component("B", 1.0, 1.12)],
        additives: vec![AdditiveRecord {
            name: "UV absorber".to_owned(),
            onto: "A".to_owned(),
            dose_percent: Some(2.0),
            dose_by: Basis::Volume,
            dose_ml_per_kit: None,
            dose_g_per_kit: None,
            density_kg_per_l: 1.0,
        }],
        pot_life: vec![PotLifeRecord {
            time_min: 25.0,
            temperature_c: 25.0,
            mass_kg: Some(0.2),
            ..PotLifeRecord::default()
        }],
        open_time: vec![OpenTimeRecord {
            time_min: 40.0,
            temperature_c: 25.0,
            humidity_percent: None,
        }],
        mixing_min: 2.0,
        kits: vec![KitRecord { volume_l: Some(2.0 * GALLON_L), ..KitRecord::default() }],
        spread_m2_per_l: Some(3.2),
        recoat_opens: after(4.0, 25.0),
        recoat_closes: after(24.0, 25.0),
        light_use: after(24.0, 25.0),
        vehicles: after(72.0, 25.0),
        full_cure: after(168.0, 25.0),
        limits: limits(),
        ..blank("invented-topcoat", "Practice Clear 1:1", Role::Topcoat, Chemistry::Aspartic)
    }
}

/// A two-to-one crack paste.
pub fn record_filler() -> ProductRecord {
    ProductRecord {
        components: vec![component("A", 2.0, 1.55), component("B", 1.0, 1.45)],
        pot_life: vec![PotLifeRecord {
            time_min: 20.0,
            temperature_c: 25.0,
            mass_kg: Some(0.15),
            ..PotLifeRecord::default()
        }],
        mixing_min: 2.0,
        ..blank("invented-filler", "Practice Paste 2:1", Role::Filler, Chemistry::AmineEpoxy)
    }
}

fn blank(id: &str, name: &str, role: Role, chemistry: Chemistry) -> ProductRecord {
    let (name, invented) = (name.to_owned(), true);
    ProductRecord { name, invented, ..ProductRecord::blank(id, role, chemistry) }
}

fn after(time_h: f64, temperature_c: f64) -> Vec<AfterRecord> {
    vec![AfterRecord { time_h, temperature_c }]
}

/// Usual limits (common practice, no source).
fn limits() -> LimitsRecord {
    LimitsRecord {
        slab_min_c: Some(10.0),
        slab_max_c: Some(35.0),
        air_min_c: Some(10.0),
        air_max_c: Some(38.0),
        humidity_max_percent: Some(85.0),
        dew_point_spread_k: Some(3.0),
        ..LimitsRecord::default()
    }
}

fn component(label: &str, parts: f64, density_kg_per_l: f64) -> ComponentRecord {
    ComponentRecord { label: label.to_owned(), parts, density_kg_per_l }
}

/// Room temperature all round.
pub fn conditions() -> ConditionsRecord {
    ConditionsRecord {
        slab_c: 23.0,
        air_c: 24.0,
        material_c: 23.0,
        read_after_mixing: false,
        humidity_percent: Some(45.0),
    }
}

/// One person rolling, one flaking, usual paces (common practice, no source).
pub fn crew() -> CrewRecord {
    CrewRecord {
        rollers: 1,
        flakers: 1,
        mixers: 0,
        cutters: 0,
        cut_m2_per_min: crew::USUAL_CUT,
        crack_m_per_min: crew::USUAL_CRACK,
        roll_m2_per_min: 1.2,
        flake_m2_per_min: 3.0,
        throw_m: 2.4,
        spikes: false,
        same_wall: false,
        carry_min: 1.0,
        reading_min: crew::USUAL_READING,
        clean_pail_min: crew::USUAL_CLEAN_PAIL,
        measured_ahead: false,
        settle_min: 0.0,
        ribbon: true,
        pour_l_per_min: crew::USUAL_POUR,
        reserve_percent: 80.0,
    }
}

/// Gives the floor of an invented two-car garage, not coated yet.
pub fn bare() -> BareRecord {
    BareRecord {
        area_m2: 37.2,
        width_m: 6.1,
        crack_depth_mm: None,
        take_up_percent: 5.0,
        loss_percent: 5.0,
        ends_at_joint: false,
        in_plan: None,
    }
}

/// A five-gallon pail and a jug marked in quarter quarts.
pub fn gear() -> GearRecord {
    GearRecord {
        vessel: VesselRecord::Generic(Generic::FiveGallon),
        measure: MeasureRecord::Jug { jug_step_ml: 236.588_236_5 },
        finer: None,
        kits: None,
        largest_mass_kg: None,
    }
}

/// The base coat for that garage.
pub fn job() -> JobRecord {
    JobRecord {
        format: JobRecord::FORMAT.to_owned(),
        version: VERSION,
        product: record_base(),
        conditions: conditions(),
        crew: crew(),
        bare: bare(),
        gear: gear(),
    }
}

/// That garage as a whole floor, with the base coat.
pub fn floor() -> FloorRecord {
    FloorRecord {
        format: FloorRecord::FORMAT.to_owned(),
        version: VERSION,
        id: "invented-garage".to_owned(),
        name: "Practice garage".to_owned(),
        first_day: None,
        surface: SurfaceRecord::default(),
        flat: vec![RectangleRecord { left_m: 0.0, back_m: 0.0, width_m: 6.1, depth_m: 6.1 }],
        cut_out: Vec::new(),
        stem_walls: Vec::new(),
        steps: Vec::new(),
        cracks: Vec::new(),
        cut_in_m: 0.08,
        take_up_percent: 5.0,
        loss_percent: 5.0,
        ends_at_joint: false,
        crew: crew(),
        gear: gear(),
        coats: vec![CoatRecord {
            product: record_base(),
            conditions: conditions(),
            course: CourseRecord::Steady,
            tonight: TonightRecord::default(),
            start_min: 8.0 * 60.0,
            day: 0,
            tape_lines_m: Vec::new(),
            crews: 1,
            on_hand_l: None,
            verticals_done: false,
            brushed: Vec::new(),
            discarded_l: None,
            resumes_min: None,
            done: Vec::new(),
            under_way: Vec::new(),
        }],
    }
}
