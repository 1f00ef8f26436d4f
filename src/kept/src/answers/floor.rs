//! From what the Floor screen was told to the plan of each coat.

use pailwise_calc::error::Error;
use pailwise_calc::field::Field;
use pailwise_calc::floor::{CoatPlan, Floor};
use pailwise_calc::product::Product;
use pailwise_calc::record::{
    CoatRecord, ConditionsRecord, CourseRecord, CrackRecord, DoneRecord, FloorRecord, HourRecord,
    ProductRecord, RectangleRecord, Role, StemWallRecord, StepsRecord, SurfaceRecord,
    TonightRecord, UnderWayRecord, VERSION,
};

use crate::answers::ask as batch;
use crate::day::minutes_of_day;
use crate::entry::{Entry, Invalid};
use crate::records::floor::{
    CoatFormRecord, DayPick, DownRecord, FloorFormRecord, HourFormRecord, Measure, Single, Thing,
    ThingRecord, down_measures, tape_line,
};
use crate::records::mix::{Ask, MixRecord};
use crate::units::Units;

/// Where a field of the floor is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Typed {
    /// With the crew and the pail, on the Mix screen.
    Mix,
    /// With the floor and its coats.
    Plan,
    /// With what was read of the surface.
    Ready,
    /// With what is to be loaded.
    Load,
}

/// Something that keeps the plan from being there: the label of what it is about.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The label of the field, as a text key.
    pub label: &'static str,
    /// Why it cannot be used.
    pub unfit: Invalid,
    /// Where it is typed.
    pub typed: Typed,
}

/// A floor with the plan of each coat.
#[derive(Clone, Debug, PartialEq)]
pub struct Good {
    /// The floor as it was checked.
    pub floor: Floor,
    /// The product of each coat.
    pub products: Vec<ProductRecord>,
    /// The plan of each coat.
    pub plans: Vec<CoatPlan>,
}

/// What the screen has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// No coat is on the list.
    NoCoat,
    /// The product of a coat is not on the phone.
    CoatGone,
    /// Fields that are unfit, here or on the Mix screen.
    Faults(Vec<Fault>),
    /// The calculation refused an input.
    Wrong(Error),
    /// The plans.
    Plans(Box<Good>),
}

/// A batch that is under way: of which coat, and what its plan knows of it.
#[derive(Clone, Debug, PartialEq)]
pub struct UnderWay {
    /// Which coat, counted from 0.
    pub coat: usize,
    /// The product, by id: a coat that was put in its place since is another.
    pub product: String,
    /// Where it is laid, and when A met B.
    pub batch: UnderWayRecord,
}

/// What was typed about a floor, read.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// No coat is on the list.
    NoCoat,
    /// The product of a coat is not on the phone.
    CoatGone,
    /// Fields that are unfit, here or on the Mix screen.
    Faults(Vec<Fault>),
    /// The floor, as the calculation reads it.
    Floor(Box<FloorRecord>),
}

/// What was typed, with batches that are under way.
pub fn ask(
    form: &FloorFormRecord,
    mix: &MixRecord,
    shelf: &[ProductRecord],
    (units, under_way): (Units, &[UnderWay]),
) -> Asked {
    let gone = |id: &str| shelf.iter().all(|product| product.id != id);
    if form.coats.iter().any(|coat| gone(&coat.product)) {
        return Asked::CoatGone;
    }
    match record(form, mix, shelf, (units, under_way)) {
        Ok(Some(record)) => Asked::Floor(Box::new(record)),
        Ok(None) => Asked::NoCoat,
        Err(faults) => Asked::Faults(faults),
    }
}

/// Products of coats that were checked before: to check one takes longer than to plan a garage.
#[derive(Clone, Debug, Default)]
pub struct Checked(Vec<(ProductRecord, Product)>);

impl Checked {
    /// A product, checked now if it was not before.
    fn product(&mut self, record: &ProductRecord) -> Result<Product, Error> {
        if let Some((_, product)) = self.0.iter().find(|(known, _)| known == record) {
            return Ok(product.clone());
        }
        let product = Product::try_from(record)?;
        self.0.retain(|(known, _)| known.id != record.id);
        self.0.push((record.clone(), product.clone()));
        Ok(product)
    }
}

/// The plan of each coat of a floor.
pub fn plan(asked: &Asked, checked: &mut Checked) -> Found {
    let record = match asked {
        Asked::NoCoat => return Found::NoCoat,
        Asked::CoatGone => return Found::CoatGone,
        Asked::Faults(faults) => return Found::Faults(faults.clone()),
        Asked::Floor(record) => record,
    };
    match Floor::of(record, |product| checked.product(product)) {
        Ok(floor) => {
            let plans = floor.coats.iter().map(|coat| floor.plan(coat)).collect();
            let products = record.coats.iter().map(|coat| coat.product.clone()).collect();
            Found::Plans(Box::new(Good { floor, products, plans }))
        }
        Err(error) => Found::Wrong(error),
    }
}

/// The values that were typed, and the faults among them.
#[derive(Default)]
struct Reading {
    faults: Vec<Fault>,
}

impl Reading {
    /// A value in the record's units; 0 and a fault where it is unfit.
    fn value(&mut self, entry: &Entry, measure: Measure) -> f64 {
        match entry.value(measure.kind, measure.field) {
            Ok(value) => value,
            Err(unfit) => {
                let typed = match measure.field {
                    Field::OnHand => Typed::Load,
                    Field::Humidity
                    | Field::TonightSlab
                    | Field::SlabHumidity
                    | Field::VaporEmission
                    | Field::SurfacePh
                    | Field::Profile
                    | Field::Dried => Typed::Ready,
                    _ => Typed::Plan,
                };
                self.faults.push(Fault { label: measure.label, unfit, typed });
                0.0
            }
        }
    }

    /// As [`Reading::value`], with nothing where the entry is empty.
    fn optional(&mut self, entry: &Entry, measure: Measure) -> Option<f64> {
        (!entry.text.trim().is_empty()).then(|| self.value(entry, measure))
    }

    /// A measure of the floor that may be missing.
    fn of_floor(&mut self, form: &FloorFormRecord, single: Single) -> Option<f64> {
        self.optional(form.entry(0, single)?, single.measure())
    }

    /// A measure of a coat that may be missing.
    fn of_coat(&mut self, form: &CoatFormRecord, single: Single) -> Option<f64> {
        self.optional(form.entry(single)?, single.measure())
    }

    fn surface(&mut self, form: &FloorFormRecord) -> SurfaceRecord {
        SurfaceRecord {
            slab_humidity_percent: self.of_floor(form, Single::SlabHumidity),
            vapor_emission_g_per_m2_day: self.of_floor(form, Single::VaporEmission),
            plastic_sheet_dry: form.plastic_sheet_dry,
            surface_ph: self.of_floor(form, Single::SurfacePh),
            profile_csp: self.of_floor(form, Single::Profile).map(|csp| csp as u32),
            dried_h: self.of_floor(form, Single::Dried),
        }
    }

    fn thing(&mut self, thing: &ThingRecord) -> Vec<f64> {
        let measures = thing.thing.measures().iter().zip(&thing.entries);
        measures.map(|(measure, entry)| self.value(entry, *measure)).collect()
    }
}

/// What the Mix screen says of people, pail and measuring: what is asked there about the batch
/// alone is not asked of the floor.
fn crew_alone(mix: &MixRecord) -> MixRecord {
    let mut crew = mix.clone();
    for ask in [
        Ask::Slab,
        Ask::Air,
        Ask::Material,
        Ask::Humidity,
        Ask::Area,
        Ask::Width,
        Ask::CrackLength,
        Ask::CrackWidth,
        Ask::CrackDepth,
    ] {
        crew.entries.remove(&ask);
    }
    crew
}

/// The floor as the calculation reads it; `None` without any coat.
pub fn record(
    form: &FloorFormRecord,
    mix: &MixRecord,
    shelf: &[ProductRecord],
    (units, under_way): (Units, &[UnderWay]),
) -> Result<Option<FloorRecord>, Vec<Fault>> {
    let product = |id: &str| shelf.iter().find(|product| product.id == id);
    let products = || form.coats.iter().filter_map(|coat| product(&coat.product));
    // The Mix screen asks different things for different products: take the one it asks most for.
    let asks_most = products()
        .find(|product| product.flaked)
        .or_else(|| products().find(|product| product.role != Role::Filler))
        .or_else(|| products().next());
    let Some(asked_for) = asks_most else { return Ok(None) };
    let mut reading = Reading::default();
    // People, pail and measuring: the Mix screen's, which names what is unfit there.
    let crew = crew_alone(mix);
    let job = match batch::job(&crew, asked_for, units) {
        Ok(job) => Some(job),
        Err(faults) => {
            let faults = faults.into_iter();
            reading.faults.extend(faults.map(|f| Fault {
                label: f.ask.label(),
                unfit: f.unfit,
                typed: Typed::Mix,
            }));
            None
        }
    };
    let (mut flat, mut cut_out) = (Vec::new(), Vec::new());
    let (mut stem_walls, mut steps, mut cracks) = (Vec::new(), Vec::new(), Vec::new());
    for thing in &form.things {
        let values = reading.thing(thing);
        let value = |i: usize| values.get(i).copied().unwrap_or(0.0);
        let rectangle = RectangleRecord {
            width_m: value(0),
            depth_m: value(1),
            left_m: value(2),
            back_m: value(3),
        };
        match thing.thing {
            Thing::Room => flat.push(rectangle),
            Thing::Hole => cut_out.push(rectangle),
            Thing::Wall => {
                stem_walls.push(StemWallRecord { length_m: value(0), height_m: value(1) });
            }
            Thing::Steps => steps.push(StepsRecord {
                count: value(0) as u32,
                width_m: value(1),
                tread_m: value(2),
                riser_m: value(3),
                open_sides: value(4) as u32,
            }),
            Thing::Crack => cracks.push(CrackRecord {
                length_m: value(0),
                width_mm: value(1),
                depth_mm: value(2),
            }),
        }
    }
    let cut_in_mm = reading.value(&form.cut_in, Single::CutIn.measure());
    let cutters = reading.value(&form.cutters, Single::Cutters.measure()) as u32;
    let cut_pace = reading.value(&form.cut_pace, Single::CutPace.measure());
    let coats: Vec<CoatRecord> = form
        .coats
        .iter()
        .enumerate()
        .filter_map(|(at, coat)| Some((at, coat, product(&coat.product)?)))
        .map(|(at, form, product)| {
            let mut coat = coat(&mut reading, form, product);
            let ours = under_way.iter().filter(|one| one.coat == at && one.product == product.id);
            let ours = ours.map(|one| one.batch);
            // Of a bay that is not there any more nothing is planned.
            let bays = coat.tape_lines_m.len();
            coat.under_way = ours.filter(|batch| batch.bay as usize <= bays).collect();
            coat
        })
        .collect();
    let surface = reading.surface(form);
    let (Some(job), true) = (job, reading.faults.is_empty()) else { return Err(reading.faults) };
    let mut crew = job.crew;
    (crew.cutters, crew.cut_m2_per_min) = (cutters, cut_pace);
    Ok(Some(FloorRecord {
        format: FloorRecord::FORMAT.to_owned(),
        version: VERSION,
        id: "floor".to_owned(),
        name: String::new(),
        first_day: (!form.first_day.is_empty()).then(|| form.first_day.clone()),
        surface,
        flat,
        cut_out,
        stem_walls,
        steps,
        cracks,
        cut_in_m: cut_in_mm / 1000.0,
        take_up_percent: job.bare.take_up_percent,
        loss_percent: job.bare.loss_percent,
        ends_at_joint: form.ends_at_joint,
        crew,
        gear: job.gear,
        coats,
    }))
}

fn coat(reading: &mut Reading, form: &CoatFormRecord, product: &ProductRecord) -> CoatRecord {
    let mut single = |single: Single| {
        form.entry(single).map_or(0.0, |entry| reading.value(entry, single.measure()))
    };
    let conditions = ConditionsRecord {
        slab_c: single(Single::Slab),
        air_c: single(Single::Air),
        material_c: single(Single::Material),
        read_after_mixing: form.read_after_mixing,
        humidity_percent: None,
    };
    let course = match form.pick {
        DayPick::Steady => CourseRecord::Steady,
        DayPick::Drift => CourseRecord::DriftKPerHour(single(Single::Drift)),
        DayPick::LowAndHigh => CourseRecord::LowAndHigh {
            low: HourRecord { at_min: clock(&form.low_at), air_c: single(Single::Low) },
            high: HourRecord { at_min: clock(&form.high_at), air_c: single(Single::High) },
        },
        DayPick::Hours => hours(reading, form),
    };
    let conditions = ConditionsRecord {
        humidity_percent: reading.of_coat(form, Single::Humidity),
        ..conditions
    };
    // Tonight is asked for where the day is known.
    let tonight = match form.pick {
        DayPick::Steady | DayPick::Drift => TonightRecord::default(),
        DayPick::LowAndHigh | DayPick::Hours => TonightRecord {
            slab_c: reading.of_coat(form, Single::TonightSlab),
            humidity_percent: reading.of_coat(form, Single::TonightHumidity),
        },
    };
    let on_hand_l = reading.optional(&form.on_hand, Single::OnHand.measure());
    CoatRecord {
        product: product.clone(),
        conditions,
        course,
        tonight,
        start_min: clock(&form.starts),
        day: form.day,
        on_hand_l,
        verticals_done: form.verticals_done,
        brushed: form.brushed.clone(),
        discarded_l: (form.discarded_l > 0.0).then_some(form.discarded_l),
        resumes_min: form.resumes.as_deref().map(clock),
        tape_lines_m: form.tapes.iter().map(|line| reading.value(line, tape_line())).collect(),
        crews: form.crews,
        done: form.down.iter().map(|down| done(reading, down)).collect(),
        under_way: Vec::new(),
    }
}

/// The air hour by hour; an hour that is not after the one before is on the next day.
fn hours(reading: &mut Reading, form: &CoatFormRecord) -> CourseRecord {
    const DAY: f64 = 24.0 * 60.0;
    let mut last = f64::from(form.day) * DAY + clock(&form.starts);
    let hour = |row: &HourFormRecord| {
        let mut at_min = f64::from(form.day) * DAY + clock(&row.at);
        while at_min < last {
            at_min += DAY;
        }
        last = at_min + 1.0;
        HourRecord { at_min, air_c: reading.value(&row.air, Single::Air.measure()) }
    };
    match form.hours.iter().map(hour).collect::<Vec<_>>() {
        hours if hours.is_empty() => CourseRecord::Steady,
        hours => CourseRecord::Hours(hours),
    }
}

fn done(reading: &mut Reading, down: &DownRecord) -> DoneRecord {
    let (ended, took) = down_measures();
    DoneRecord {
        ended_at_m: reading.value(&down.ended_at, ended),
        mixed_l: down.mixed_l,
        bay: down.bay,
        begun_min: down.begun_min,
        film_closed: down.film_closed,
        rolled_in_min: reading.optional(&down.rolled_in, took),
    }
}

/// Minutes after midnight of a time such as "08:30"; of none, midnight.
pub fn clock(text: &str) -> f64 {
    minutes_of_day(text).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    #[test]
    fn the_first_figures_give_a_plan_in_both_units() {
        let shelf = demo::records();
        for units in Units::ALL {
            let form = FloorFormRecord::first(&shelf, units);
            let mix = MixRecord::first(&shelf[0].id, units);
            let found = plan(&ask(&form, &mix, &shelf, (units, &[])), &mut Checked::default());
            let Found::Plans(good) = found else { panic!("{units:?}: {found:?}") };
            assert!(good.plans.iter().all(|plan| plan.stopped.is_none()), "{units:?}");
        }
    }

    #[test]
    fn unfit_measures_are_named_wherever_they_stand() {
        let shelf = demo::records();
        let mut form = FloorFormRecord::first(&shelf, Units::Us);
        form.things[0].entries[1] = Entry::as_typed("deep", Units::Us);
        form.coats[1].slab = Entry::as_typed("400", Units::Us);
        let mix = MixRecord::first(&shelf[0].id, Units::Us);
        let found = plan(&ask(&form, &mix, &shelf, (Units::Us, &[])), &mut Checked::default());
        let Found::Faults(faults) = found else { panic!("{found:?}") };
        assert_eq!(faults.len(), 2);
        assert_eq!(faults[0].unfit, Invalid::Unreadable);
        assert!(matches!(faults[1].unfit, Invalid::OutOfRange { .. }));
    }

    /// What the client's sheet says is no part of the floor: its plan is not made anew for it.
    #[test]
    fn a_letter_of_the_client_s_name_asks_nothing_new() {
        let shelf = demo::records();
        let mut form = FloorFormRecord::first(&shelf, Units::Us);
        let mix = MixRecord::first(&shelf[0].id, Units::Us);
        let asked = |form: &FloorFormRecord| ask(form, &mix, &shelf, (Units::Us, &[]));
        let before = asked(&form);
        form.hand_over.client = "Somebody".to_owned();
        form.shown = 1;
        assert_eq!(asked(&form), before);
        form.cutters = Entry::as_typed("1", Units::Us);
        assert_ne!(asked(&form), before);
    }

    /// A product that was checked is checked no more, and one that was changed is.
    #[test]
    fn a_changed_product_is_checked_anew() {
        let mut checked = Checked::default();
        let mut record = demo::record_base();
        let before = checked.product(&record).unwrap();
        assert_eq!(checked.product(&record), Ok(before.clone()));
        record.mixing_min += 1.0;
        let after = checked.product(&record).unwrap();
        assert_eq!(Ok(&after), Product::try_from(&record).as_ref());
        assert_ne!(after, before);
        assert_eq!(checked.0.len(), 1);
    }

    #[test]
    fn a_time_of_day_is_minutes_after_midnight() {
        assert_eq!((clock("08:30"), clock("00:00"), clock("23:59")), (510.0, 0.0, 1439.0));
        assert_eq!(clock(""), 0.0);
    }
}
