//! The floor as it is handed on, and one that was handed on taken in.

use leptos::prelude::*;
use pailwise_calc::floor::Floor;
use pailwise_calc::measure::steps::Mark;
use pailwise_calc::record::{
    CoatRecord, CourseRecord, CrewRecord, FloorRecord, GearRecord, HourRecord, MeasureRecord,
    RectangleRecord, VesselRecord,
};
use pailwise_kept::answers::floor as find;
use pailwise_kept::day::time_of_day;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::floor::{
    CoatFormRecord, DayPick, DownRecord, FloorFormRecord, HourFormRecord, Single, Thing,
    ThingRecord, down_measures, tape_line,
};
use pailwise_kept::records::mix::{Ask, Finer, MixRecord, PailPick, Way};
use pailwise_kept::show::Reader;
use pailwise_kept::units::Units;

use crate::desk::Desk;
use crate::text::{key, tr_with};

/// The floor as it stands on the screen, to be handed on; `None` while something in it is invalid.
pub(crate) fn record(desk: Desk) -> Option<FloorRecord> {
    let (units, shelf) = (desk.settings.with(|s| s.units), desk.shelf.get());
    let record =
        desk.floor.with(|form| desk.mix.with(|mix| find::record(form, mix, &shelf, (units, &[]))));
    record.ok().flatten().filter(|record| Floor::try_from(record).is_ok())
}

/// What a floor is, in a line.
pub(crate) fn describe(reader: Reader, floor: &FloorRecord) -> String {
    let coats: Vec<&str> = floor.coats.iter().map(|coat| coat.product.name.as_str()).collect();
    let coats = coats.join(", ");
    // Rooms that overlap count once. Of what cannot be planned the coats are all that is known.
    Floor::try_from(floor).map_or(coats.clone(), |checked| {
        let area = reader.area(checked.shape.area());
        tr_with(key::FLOOR_SAID, &[("area", &area), ("coats", &coats)])
    })
}

/// Takes a floor in, in place of the one on the screen; `crew` says whether people, pail and way
/// of measuring come with it, `product` which product here stands for one of its own.
pub(crate) fn take(
    desk: Desk,
    floor: &FloorRecord,
    crew: bool,
    product: impl Fn(&str) -> Option<String>,
) {
    let units = desk.settings.with_untracked(|s| s.units);
    // The floor in hand goes to the shelf; where storage will not take it, that is told.
    let _ = desk.shelve();
    let mut taken = form(floor, units, product);
    taken.id = desk.free_floor_id();
    taken.label.name.clone_from(&floor.name);
    desk.floor.set(taken);
    desk.mix.update(|mix| {
        let mut set = |ask: Ask, value: f64| {
            mix.entries.insert(ask, Entry::as_printed(ask.field().1, value, units));
        };
        set(Ask::TakeUp, floor.take_up_percent);
        set(Ask::Loss, floor.loss_percent);
        if crew {
            take_crew(mix, &floor.crew, units);
            take_gear(mix, &floor.gear, units);
        }
    });
}

/// The form of a floor.
fn form(
    floor: &FloorRecord,
    units: Units,
    product: impl Fn(&str) -> Option<String>,
) -> FloorFormRecord {
    let thing = |thing: Thing, values: &[f64]| {
        let entries = thing.measures().iter().zip(values);
        let entries =
            entries.map(|(measure, value)| Entry::as_printed(measure.kind, *value, units));
        ThingRecord { thing, entries: entries.collect() }
    };
    let rectangle =
        |kind: Thing, r: &RectangleRecord| thing(kind, &[r.width_m, r.depth_m, r.left_m, r.back_m]);
    let mut things = Vec::new();
    things.extend(floor.flat.iter().map(|r| rectangle(Thing::Room, r)));
    things.extend(floor.cut_out.iter().map(|r| rectangle(Thing::Hole, r)));
    things.extend(floor.stem_walls.iter().map(|w| thing(Thing::Wall, &[w.length_m, w.height_m])));
    things.extend(floor.steps.iter().map(|s| {
        let (count, sides) = (f64::from(s.count), f64::from(s.open_sides));
        thing(Thing::Steps, &[count, s.width_m, s.tread_m, s.riser_m, sides])
    }));
    things.extend(
        floor.cracks.iter().map(|c| thing(Thing::Crack, &[c.length_m, c.width_mm, c.depth_mm])),
    );
    let entry = |single: Single, value| Entry::as_printed(single.measure().kind, value, units);
    let coats = floor
        .coats
        .iter()
        .filter_map(|coat| Some(coat_form(coat, &product(&coat.product.id)?, units)));
    let surface = &floor.surface;
    let more = [
        (Single::SlabHumidity, surface.slab_humidity_percent),
        (Single::VaporEmission, surface.vapor_emission_g_per_m2_day),
        (Single::SurfacePh, surface.surface_ph),
        (Single::Profile, surface.profile_csp.map(f64::from)),
        (Single::Dried, surface.dried_h),
    ];
    let more = more.into_iter().filter_map(|(single, value)| Some((single, entry(single, value?))));
    FloorFormRecord {
        things,
        cut_in: entry(Single::CutIn, floor.cut_in_m * 1000.0),
        cutters: entry(Single::Cutters, f64::from(floor.crew.cutters)),
        cut_pace: entry(Single::CutPace, floor.crew.cut_m2_per_min),
        ends_at_joint: floor.ends_at_joint,
        coats: coats.collect(),
        more: more.collect(),
        first_day: floor.first_day.clone().unwrap_or_default(),
        plastic_sheet_dry: surface.plastic_sheet_dry,
        ..FloorFormRecord::first(&[], units)
    }
}

fn coat_form(coat: &CoatRecord, product: &str, units: Units) -> CoatFormRecord {
    let mut form = CoatFormRecord::first(product, coat.day, units);
    let entry = |single: Single, value| Entry::as_printed(single.measure().kind, value, units);
    form.starts = time_of_day(coat.start_min);
    form.slab = entry(Single::Slab, coat.conditions.slab_c);
    form.air = entry(Single::Air, coat.conditions.air_c);
    form.material = entry(Single::Material, coat.conditions.material_c);
    form.read_after_mixing = coat.conditions.read_after_mixing;
    take_course(&mut form, coat, entry);
    for (single, value) in [
        (Single::Humidity, coat.conditions.humidity_percent),
        (Single::TonightSlab, coat.tonight.slab_c),
        (Single::TonightHumidity, coat.tonight.humidity_percent),
    ] {
        if let Some(value) = value {
            form.more.insert(single, entry(single, value));
        }
    }
    if let Some(liters) = coat.on_hand_l {
        form.on_hand = entry(Single::OnHand, liters);
    }
    form.verticals_done = coat.verticals_done;
    form.brushed.clone_from(&coat.brushed);
    form.discarded_l = coat.discarded_l.unwrap_or_default();
    form.resumes = coat.resumes_min.map(time_of_day);
    let (ended, took) = down_measures();
    let down = coat.done.iter().map(|done| DownRecord {
        ended_at: Entry::as_printed(ended.kind, done.ended_at_m, units),
        rolled_in: done.rolled_in_min.map_or_else(
            || Entry::as_typed("", units),
            |minutes| Entry::as_printed(took.kind, minutes, units),
        ),
        mixed_l: done.mixed_l,
        bay: done.bay,
        begun_min: done.begun_min,
        film_closed: done.film_closed,
        batch: String::new(),
    });
    form.down = down.collect();
    let lines = coat.tape_lines_m.iter();
    form.tapes = lines.map(|line| Entry::as_printed(tape_line().kind, *line, units)).collect();
    form.crews = coat.crews;
    form
}

/// Takes the course of a coat into its form.
fn take_course(form: &mut CoatFormRecord, coat: &CoatRecord, entry: impl Fn(Single, f64) -> Entry) {
    match &coat.course {
        CourseRecord::Steady => {}
        CourseRecord::DriftKPerHour(rate) => {
            form.pick = DayPick::Drift;
            form.drift = entry(Single::Drift, *rate);
        }
        CourseRecord::LowAndHigh { low, high } => {
            form.pick = DayPick::LowAndHigh;
            (form.low, form.low_at) = (entry(Single::Low, low.air_c), time_of_day(low.at_min));
            (form.high, form.high_at) = (entry(Single::High, high.air_c), time_of_day(high.at_min));
        }
        CourseRecord::Hours(hours) => {
            form.pick = DayPick::Hours;
            // What was before the coat begins is not asked for on the form.
            let begins = f64::from(coat.day) * 1440.0 + coat.start_min;
            let hours = hours.iter().filter(|hour| hour.at_min >= begins);
            let hour = |hour: &HourRecord| HourFormRecord {
                at: time_of_day(hour.at_min),
                air: entry(Single::Air, hour.air_c),
            };
            form.hours = hours.map(hour).collect();
        }
    }
}

fn take_crew(mix: &mut MixRecord, crew: &CrewRecord, units: Units) {
    for (ask, value) in [
        (Ask::Rollers, f64::from(crew.rollers)),
        (Ask::Flakers, f64::from(crew.flakers)),
        (Ask::RollPace, crew.roll_m2_per_min),
        (Ask::FlakePace, crew.flake_m2_per_min),
        (Ask::CrackPace, crew.crack_m_per_min),
        (Ask::Throw, crew.throw_m),
        (Ask::Carry, crew.carry_min),
        (Ask::Reading, crew.reading_min),
        (Ask::CleanPail, crew.clean_pail_min),
        (Ask::Settle, crew.settle_min),
        (Ask::Usable, crew.reserve_percent),
    ] {
        mix.entries.insert(ask, Entry::as_printed(ask.field().1, value, units));
    }
    (mix.mixers, mix.ribbon) = (crew.mixers, crew.ribbon);
    (mix.spikes, mix.same_wall) = (crew.spikes, crew.same_wall);
    mix.measured_ahead = crew.measured_ahead;
}

fn take_gear(mix: &mut MixRecord, gear: &GearRecord, units: Units) {
    match &gear.vessel {
        VesselRecord::Generic(generic) => {
            let pick = PailPick::ALL.into_iter().find(|pick| pick.generic() == Some(*generic));
            mix.vessel = pick.unwrap_or(mix.vessel);
        }
        VesselRecord::Own(own) => {
            mix.vessel = PailPick::Own;
            for (ask, value) in [
                (Ask::OwnBottom, own.bottom_diameter_mm),
                (Ask::OwnTop, own.top_diameter_mm),
                (Ask::OwnHeight, own.height_mm),
            ] {
                mix.entries.insert(ask, Entry::as_printed(Kind::Small, value, units));
            }
        }
    }
    mix.finer = match gear.finer {
        None => Finer::Nothing,
        Some(MeasureRecord::Jug { .. } | MeasureRecord::Stick { .. }) => Finer::Cup,
        Some(MeasureRecord::Scale { .. }) => Finer::SmallScale,
    };
    mix.way = match gear.measure {
        MeasureRecord::Jug { .. } => Way::Jug,
        MeasureRecord::Stick { .. } => Way::Stick,
        MeasureRecord::Scale { .. } => Way::Scale,
    };
    // A step that no measure here has is left as it is here.
    if let Some(mark) = Mark::of(&gear.measure) {
        mix.marks.choose(mark);
    }
    mix.kits = gear.kits;
    let largest = gear
        .largest_mass_kg
        .map_or_else(|| Entry::as_typed("", units), |kg| Entry::as_printed(Kind::Mass, kg, units));
    mix.entries.insert(Ask::LargestMass, largest);
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;
    use pailwise_calc::record::{DoneRecord, StemWallRecord, SurfaceRecord, TonightRecord};

    /// What is handed on and taken in, and handed on again, is the same floor.
    #[test]
    fn a_floor_that_comes_in_goes_out_as_it_came() {
        let shelf = demo::records();
        let mut floor = demo::floor();
        (floor.id, floor.name) = ("floor".to_owned(), String::new());
        floor.stem_walls.push(StemWallRecord { length_m: 6.096, height_m: 0.1524 });
        floor.cut_in_m = 0.0762;
        floor.coats[0].course = CourseRecord::LowAndHigh {
            low: HourRecord { at_min: 300.0, air_c: 15.0 },
            high: HourRecord { at_min: 900.0, air_c: 31.0 },
        };
        floor.coats[0].tonight = TonightRecord { slab_c: Some(18.0), humidity_percent: Some(85.0) };
        floor.coats[0].conditions.humidity_percent = Some(55.0);
        let mut night = floor.coats[0].clone();
        (night.day, night.start_min) = (1, 600.0);
        let hour = |at_min, air_c| HourRecord { at_min, air_c };
        night.course = CourseRecord::Hours(vec![
            hour(1440.0 + 600.0, 20.0),
            hour(1440.0 + 1320.0, 15.5),
            hour(2880.0 + 360.0, 9.0),
        ]);
        floor.coats.push(night);
        floor.first_day = Some("2026-11-25".to_owned());
        floor.surface = SurfaceRecord {
            slab_humidity_percent: Some(78.0),
            vapor_emission_g_per_m2_day: Some(12.5),
            plastic_sheet_dry: Some(true),
            surface_ph: Some(9.0),
            profile_csp: Some(2),
            dried_h: Some(30.0),
        };
        floor.coats[0].resumes_min = Some(570.0);
        floor.coats[0].done = vec![DoneRecord {
            bay: 0,
            ended_at_m: 1.2192,
            mixed_l: 3.0,
            rolled_in_min: None,
            begun_min: None,
            film_closed: true,
        }];
        floor.coats[0].tape_lines_m = vec![3.048];
        floor.coats[0].crews = 2;
        floor.crew.rollers = 2;
        for units in Units::ALL {
            let form = form(&floor, units, |id| Some(id.to_owned()));
            let mut mix = MixRecord::first("invented-base", units);
            take_crew(&mut mix, &floor.crew, units);
            take_gear(&mut mix, &floor.gear, units);
            let again = find::record(&form, &mix, &shelf, (units, &[])).unwrap().unwrap();
            assert_eq!(again.coats, floor.coats, "{units:?}");
            assert_eq!(again.crew, floor.crew);
            assert_eq!(Mark::of(&again.gear.measure), Mark::of(&floor.gear.measure));
            assert_eq!((&again.first_day, again.surface), (&floor.first_day, floor.surface));
            assert_eq!((&again.flat, &again.stem_walls), (&floor.flat, &floor.stem_walls));
        }
    }

    /// Two rooms that overlap by 2 × 1 m: 24 + 10 − 2 m².
    #[test]
    fn rooms_that_overlap_count_once() {
        let mut floor = demo::floor();
        let room =
            |width_m, depth_m, back_m| RectangleRecord { left_m: 0.0, back_m, width_m, depth_m };
        floor.flat = vec![room(6.0, 4.0, 0.0), room(2.0, 5.0, 3.0)];
        let reader = Reader { language: crate::text::Language::En, units: Units::Metric };
        let said = describe(reader, &floor);
        assert!(said.starts_with("32\u{a0}m²"), "{said}");
    }
}
