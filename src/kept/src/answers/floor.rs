//! From what the Floor screen was told to the plan of each coat.

use pailwise_calc::error::Error;
use pailwise_calc::field::Field;
use pailwise_calc::floor::{CoatPlan, Floor};
use pailwise_calc::product::Product;
use pailwise_calc::record::{
    CoatRecord, ConditionsRecord, CourseRecord, CrackRecord, CrewRecord, DoneRecord, FloorRecord,
    HourRecord, ProductRecord, RectangleRecord, StemWallRecord, StepsRecord, SurfaceRecord,
    TonightRecord, UnderWayRecord, VERSION,
};

use crate::answers::ask as batch;
use crate::answers::reading::{self, Reading};
use crate::day::minutes_of_day;
use crate::entry::Entry;
use crate::records::floor::{
    CoatFormRecord, DayPick, DownRecord, FloorFormRecord, HourFormRecord, Measure, Single, Thing,
    ThingRecord, down_measures, tape_line,
};
use crate::records::mix::MixRecord;
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

/// A field of the floor, by the key of its label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorField {
    /// The key of its label.
    pub label: &'static str,
    /// Where it is typed.
    pub typed: Typed,
}

/// A field that keeps the plan from being there.
pub type Fault = reading::Fault<FloorField>;

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
    /// Fields that are invalid, here or on the Mix screen.
    Faults(Vec<Fault>),
    /// The calculation refused an input.
    Wrong(Error),
    /// The plan of every coat, with the floor as it was checked.
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
    /// Fields that are invalid, here or on the Mix screen.
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

impl Measure {
    /// Where it is typed.
    fn place(self) -> FloorField {
        let typed = match self.field {
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
        FloorField { label: self.label, typed }
    }
}

impl Reading<FloorField> {
    fn measure(&mut self, entry: &Entry, measure: Measure) -> Option<f64> {
        self.value(entry, (measure.kind, measure.field), measure.place())
    }

    /// A measure that may be left empty.
    #[expect(clippy::option_option, reason = "read and empty, or not to be read")]
    fn measure_or_none(&mut self, entry: &Entry, measure: Measure) -> Option<Option<f64>> {
        self.optional(entry, (measure.kind, measure.field), measure.place())
    }

    /// A single measure that may be missing.
    #[expect(clippy::option_option, reason = "read and empty, or not to be read")]
    fn single(&mut self, entry: Option<&Entry>, single: Single) -> Option<Option<f64>> {
        entry.map_or(Some(None), |entry| self.measure_or_none(entry, single.measure()))
    }

    fn surface(&mut self, form: &FloorFormRecord) -> Option<SurfaceRecord> {
        let mut read = |single: Single| self.single(form.entry(0, single), single);
        let humidity = read(Single::SlabHumidity);
        let emission = read(Single::VaporEmission);
        let (ph, profile) = (read(Single::SurfacePh), read(Single::Profile));
        let dried = read(Single::Dried);
        Some(SurfaceRecord {
            slab_humidity_percent: humidity?,
            vapor_emission_g_per_m2_day: emission?,
            plastic_sheet_dry: form.plastic_sheet_dry,
            surface_ph: ph?,
            profile_csp: profile?.map(|csp| csp as u32),
            dried_h: dried?,
        })
    }
}

/// What a floor is made of, as it is typed.
#[derive(Default)]
struct Things {
    flat: Vec<RectangleRecord>,
    cut_out: Vec<RectangleRecord>,
    stem_walls: Vec<StemWallRecord>,
    steps: Vec<StepsRecord>,
    cracks: Vec<CrackRecord>,
}

impl Things {
    /// Takes a thing in; `None` where one of its measures is invalid.
    fn take(&mut self, reading: &mut Reading<FloorField>, thing: &ThingRecord) -> Option<()> {
        let measures = thing.thing.measures().iter().zip(&thing.entries);
        let read: Vec<Option<f64>> =
            measures.map(|(measure, entry)| reading.measure(entry, *measure)).collect();
        let value = |i: usize| read.get(i).copied().flatten();
        let rectangle = || {
            Some(RectangleRecord {
                width_m: value(0)?,
                depth_m: value(1)?,
                left_m: value(2)?,
                back_m: value(3)?,
            })
        };
        match thing.thing {
            Thing::Room => self.flat.push(rectangle()?),
            Thing::Hole => self.cut_out.push(rectangle()?),
            Thing::Wall => {
                self.stem_walls.push(StemWallRecord { length_m: value(0)?, height_m: value(1)? });
            }
            Thing::Steps => self.steps.push(StepsRecord {
                count: value(0)? as u32,
                width_m: value(1)?,
                tread_m: value(2)?,
                riser_m: value(3)?,
                open_sides: value(4)? as u32,
            }),
            Thing::Crack => self.cracks.push(CrackRecord {
                length_m: value(0)?,
                width_mm: value(1)?,
                depth_mm: value(2)?,
            }),
        }
        Some(())
    }
}

/// The floor as the calculation reads it; `None` without any coat.
///
/// # Errors
/// The fields that are invalid, all of them.
pub fn record(
    form: &FloorFormRecord,
    mix: &MixRecord,
    shelf: &[ProductRecord],
    (units, under_way): (Units, &[UnderWay]),
) -> Result<Option<FloorRecord>, Vec<Fault>> {
    let product = |id: &str| shelf.iter().find(|product| product.id == id);
    let products: Vec<&ProductRecord> =
        form.coats.iter().filter_map(|coat| product(&coat.product)).collect();
    if products.is_empty() {
        return Ok(None);
    }
    let mut reading = Reading::default();
    // People, pail and measuring: the Mix screen's, which names what is invalid there.
    let crew = batch::crew_alone(mix, &products, units).map_err(|faults| {
        let place = |label| FloorField { label, typed: Typed::Mix };
        reading.extend(faults.into_iter().map(|fault| reading::Fault {
            place: place(fault.place.label()),
            invalid: fault.invalid,
        }));
    });
    let mut things = Things::default();
    for thing in &form.things {
        // What is invalid is a fault by now.
        let _ = things.take(&mut reading, thing);
    }
    let cut_in = reading.measure(&form.cut_in, Single::CutIn.measure());
    let cutters = reading.measure(&form.cutters, Single::Cutters.measure());
    let cut_pace = reading.measure(&form.cut_pace, Single::CutPace.measure());
    let coats = form.coats.iter().enumerate();
    let coats = coats.filter_map(|(at, coat)| Some((at, coat, product(&coat.product)?)));
    let coats: Vec<Option<CoatRecord>> = coats
        .map(|(at, form, product)| {
            let ours = under_way.iter().filter(|one| one.coat == at && one.product == product.id);
            let ours: Vec<_> = ours.map(|one| one.batch).collect();
            coat(&mut reading, form, product, &ours)
        })
        .collect();
    let surface = reading.surface(form);
    let built = || {
        let crew = crew.ok()?;
        let Things { flat, cut_out, stem_walls, steps, cracks } = things;
        Some(FloorRecord {
            format: FloorRecord::FORMAT.to_owned(),
            version: VERSION,
            id: "floor".to_owned(),
            name: String::new(),
            first_day: (!form.first_day.is_empty()).then(|| form.first_day.clone()),
            surface: surface?,
            flat,
            cut_out,
            stem_walls,
            steps,
            cracks,
            cut_in_m: cut_in? / 1000.0,
            take_up_percent: crew.take_up_percent,
            loss_percent: crew.loss_percent,
            ends_at_joint: form.ends_at_joint,
            crew: CrewRecord { cutters: cutters? as u32, cut_m2_per_min: cut_pace?, ..crew.crew },
            gear: crew.gear,
            coats: coats.into_iter().collect::<Option<_>>()?,
        })
    };
    let built = built();
    reading.done(built).map(Some)
}

fn coat(
    reading: &mut Reading<FloorField>,
    form: &CoatFormRecord,
    product: &ProductRecord,
    under_way: &[UnderWayRecord],
) -> Option<CoatRecord> {
    let mut must = |single: Single| {
        let entry = form.entry(single)?;
        reading.measure(entry, single.measure())
    };
    let (slab, air, material) = (must(Single::Slab), must(Single::Air), must(Single::Material));
    let course = match form.pick {
        DayPick::Steady => Some(CourseRecord::Steady),
        DayPick::Drift => must(Single::Drift).map(CourseRecord::DriftKPerHour),
        DayPick::LowAndHigh => {
            let (low, high) = (must(Single::Low), must(Single::High));
            low.zip(high).map(|(low, high)| CourseRecord::LowAndHigh {
                low: HourRecord { at_min: clock(&form.low_at), air_c: low },
                high: HourRecord { at_min: clock(&form.high_at), air_c: high },
            })
        }
        DayPick::Hours => hours(reading, form),
    };
    let mut may = |single: Single| reading.single(form.entry(single), single);
    let humidity = may(Single::Humidity);
    // Tonight is asked for where the day is known.
    let tonight = match form.pick {
        DayPick::Steady | DayPick::Drift => Some(TonightRecord::default()),
        DayPick::LowAndHigh | DayPick::Hours => {
            let (slab, humidity) = (may(Single::TonightSlab), may(Single::TonightHumidity));
            slab.zip(humidity)
                .map(|(slab_c, humidity_percent)| TonightRecord { slab_c, humidity_percent })
        }
    };
    let on_hand = reading.measure_or_none(&form.on_hand, Single::OnHand.measure());
    let tapes: Vec<_> = form.tapes.iter().map(|line| reading.measure(line, tape_line())).collect();
    let down: Vec<_> = form.down.iter().map(|down| done(reading, down)).collect();
    // Of a bay that is not there any more nothing is planned.
    let under_way = under_way.iter().filter(|batch| batch.bay as usize <= form.tapes.len());
    Some(CoatRecord {
        product: product.clone(),
        conditions: ConditionsRecord {
            slab_c: slab?,
            air_c: air?,
            material_c: material?,
            read_after_mixing: form.read_after_mixing,
            humidity_percent: humidity?,
        },
        course: course?,
        tonight: tonight?,
        start_min: clock(&form.starts),
        day: form.day,
        on_hand_l: on_hand?,
        verticals_done: form.verticals_done,
        brushed: form.brushed.clone(),
        discarded_l: (form.discarded_l > 0.0).then_some(form.discarded_l),
        resumes_min: form.resumes.as_deref().map(clock),
        tape_lines_m: tapes.into_iter().collect::<Option<_>>()?,
        crews: form.crews,
        done: down.into_iter().collect::<Option<_>>()?,
        under_way: under_way.copied().collect(),
    })
}

/// The air hour by hour; an hour that is not after the one before is on the next day.
fn hours(reading: &mut Reading<FloorField>, form: &CoatFormRecord) -> Option<CourseRecord> {
    const DAY: f64 = 24.0 * 60.0;
    let mut last = f64::from(form.day) * DAY + clock(&form.starts);
    let hour = |row: &HourFormRecord| {
        let mut at_min = f64::from(form.day) * DAY + clock(&row.at);
        while at_min < last {
            at_min += DAY;
        }
        last = at_min + 1.0;
        let air_c = reading.measure(&row.air, Single::Air.measure());
        air_c.map(|air_c| HourRecord { at_min, air_c })
    };
    let hours: Vec<Option<HourRecord>> = form.hours.iter().map(hour).collect();
    let hours: Vec<HourRecord> = hours.into_iter().collect::<Option<_>>()?;
    Some(if hours.is_empty() { CourseRecord::Steady } else { CourseRecord::Hours(hours) })
}

fn done(reading: &mut Reading<FloorField>, down: &DownRecord) -> Option<DoneRecord> {
    let (ended, took) = down_measures();
    let ended_at = reading.measure(&down.ended_at, ended);
    let rolled_in = reading.measure_or_none(&down.rolled_in, took);
    Some(DoneRecord {
        ended_at_m: ended_at?,
        mixed_l: down.mixed_l,
        bay: down.bay,
        begun_min: down.begun_min,
        film_closed: down.film_closed,
        rolled_in_min: rolled_in?,
    })
}

/// Minutes after midnight of a time such as "08:30"; of none, midnight.
pub fn clock(text: &str) -> f64 {
    minutes_of_day(text).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::Invalid;
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
        assert_eq!(faults[0].invalid, Invalid::Unreadable);
        assert!(matches!(faults[1].invalid, Invalid::OutOfRange { .. }));
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
