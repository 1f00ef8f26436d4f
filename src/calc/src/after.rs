//! After a coat is down: when the next may go on and until when, when the floor may be used.
//!
//! A data sheet gives a time at a temperature, sometimes at several. At another temperature the
//! film needs as long as its reaction does, which Arrhenius says: `t(T) = t_s · exp(E/R ·
//! (1/T − 1/T_s))`, the equivalent age of ASTM C1074, with `E` that of the sheet's own times or
//! 60 kJ/mol, whichever is more. What the sheet says is never bettered: warmer than the sheet's own
//! temperature a floor is not ready sooner, colder than it a recoat window does not stay open
//! longer. What cures by the water of the air too closes sooner in damp air. Through a night both run along the temperatures of the slab,
//! each in its safe direction.

mod times;

use crate::conditions::Course;
use crate::field::Field;
use crate::film::Damp;
use crate::quantity::{ThermodynamicTemperature, Time, unit};
use crate::working::{Sentence, Source, Step};

pub use times::{SheetTime, SheetTimes};

/// What a data sheet says about the time after a coat is down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct After {
    /// When the next coat may go on.
    pub recoat_opens: Option<SheetTimes>,
    /// Until when it may.
    pub recoat_closes: Option<SheetTimes>,
    /// When it may be walked on and light things stand on it.
    pub light_use: Option<SheetTimes>,
    /// From when vehicles may drive on it, as the sheet gives it.
    pub vehicles: Option<SheetTimes>,
    /// When it has cured.
    pub full_cure: Option<SheetTimes>,
}

/// The span of time in which the next coat may go on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// From then on the next coat may go on.
    pub opens: Time,
    /// Until then, where the sheet gives an end.
    pub closes: Option<Time>,
}

impl Window {
    /// Whether it is closed by the time it would open. At the edge of what a sheet covers, both
    /// ends taken to the safe side can leave nothing between them.
    pub fn shut(&self) -> bool {
        self.closes.is_some_and(|closes| closes <= self.opens)
    }

    /// How a coat that is laid from `begins` to `ends` meets this window, all from one start.
    ///
    /// ```
    /// use pailwise_calc::after::{Meets, Window};
    /// use pailwise_calc::quantity::{Time, unit};
    /// let hour = Time::new::<unit::hour>;
    /// let window = Window { opens: hour(12.0), closes: Some(hour(24.0)) };
    /// assert_eq!(window.meets(hour(11.0), hour(13.0)), Meets::TooEarly);
    /// assert_eq!(window.meets(hour(22.0), hour(23.5)), Meets::InTime);
    /// assert_eq!(window.meets(hour(22.0), hour(25.0)), Meets::EndsTooLate);
    /// assert_eq!(window.meets(hour(24.5), hour(25.0)), Meets::TooLate);
    /// ```
    pub fn meets(&self, begins: Time, ends: Time) -> Meets {
        let closed = |at: Time| self.closes.is_some_and(|closes| at > closes);
        if closed(begins) {
            Meets::TooLate
        } else if begins < self.opens {
            Meets::TooEarly
        } else if closed(ends) {
            Meets::EndsTooLate
        } else {
            Meets::InTime
        }
    }
}

impl After {
    /// The recoat window at a steady temperature; `None` where the sheet does not say when it opens.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::celsius};
    /// let base = demo::base().unwrap();
    /// let window = |c| base.after().recoat(celsius(c)).unwrap();
    /// assert!(!window(25.0).shut());
    /// // In the cold it opens late and closes no later.
    /// assert!(window(8.0).shut());
    /// ```
    pub fn recoat(&self, at: ThermodynamicTemperature) -> Option<Window> {
        let opens = self.recoat_opens.as_ref()?.ready(at);
        let closes = self.recoat_closes.as_ref().map(|times| times.over(at));
        Some(Window { opens, closes })
    }

    /// The times of a coat on its floor, through the nights to come: when each is surely ready,
    /// until when the window surely stays open.
    ///
    /// All from the start of the course. `first` is when the first patch is down, which the end
    /// of a window counts from; `last` when the last is, which all else does. `damp` is for what
    /// cures by the water of the air too: the air keeps what water it has at the start. The floor is as cold
    /// as it may be for what must wait, as warm as it may be for the end of the window.
    ///
    /// ```
    /// use pailwise_calc::conditions::{Conditions, Course};
    /// use pailwise_calc::{demo, quantity::{Time, unit}};
    /// let base = demo::base().unwrap();
    /// let now = Conditions::try_from(&demo::conditions()).unwrap();
    /// let hour = Time::new::<unit::hour>;
    /// let ahead = base.after().ahead(&Course::steady(now), (hour(0.2), hour(2.0)), None);
    /// // 24 h at 25 °C by the sheet; the slab has 23 °C.
    /// let light = ahead.light_use.unwrap();
    /// assert!(light > hour(2.0 + 24.0) && light < hour(2.0 + 30.0));
    /// let closes = ahead.recoat.unwrap().closes.unwrap();
    /// assert!((closes - hour(36.2)).abs() < Time::new::<unit::second>(1.0));
    /// ```
    pub fn ahead(&self, course: &Course, (first, last): (Time, Time), damp: Option<Damp>) -> Ahead {
        let now = course.start();
        let sooner = damp.map_or(1.0, |damp| damp.sooner(now.air, now.humidity));
        // From then on a course comes back every day, or stays as it is.
        let settled = |since: Time| (course.settled() - since).max(Time::default());
        let ready = |times: &SheetTimes| {
            let floor = |t: Time| course.slab_at_least(last + t);
            last + times.ready_through(floor, settled(last))
        };
        let over = |times: &SheetTimes| {
            let floor = |t: Time| course.slab_at_most(first + t);
            first + times.over_through(floor, settled(first), sooner)
        };
        let closes = self.recoat_closes.as_ref().map(over);
        let opens = self.recoat_opens.as_ref().map(ready);
        let [light_use, vehicles, full_cure] = [&self.light_use, &self.vehicles, &self.full_cure]
            .map(|times| times.as_ref().map(ready));
        let waits = [
            (Field::RecoatOpens, &self.recoat_opens, opens),
            (Field::LightUse, &self.light_use, light_use),
            (Field::Vehicles, &self.vehicles, vehicles),
            (Field::FullCure, &self.full_cure, full_cure),
        ];
        let waits = waits.into_iter().filter_map(|(field, times, at)| {
            Some((field, explain(times.as_ref()?, course, (last, at?), true)))
        });
        let ends = self.recoat_closes.as_ref().zip(closes);
        let ends = ends
            .map(|(times, at)| (Field::RecoatCloses, explain(times, course, (first, at), false)));
        Ahead {
            recoat: opens.map(|opens| Window { opens, closes }),
            light_use,
            vehicles,
            full_cure,
            working: waits.chain(ends).collect(),
        }
    }
}

/// The steps to one time: what the sheet says, the slab it was run through, and from when it
/// counts.
fn explain(
    times: &SheetTimes,
    course: &Course,
    (from, at): (Time, Time),
    waits: bool,
) -> Vec<Step> {
    let mut steps = times.explain_sheet();
    let slab = |t: Time| if waits { course.slab_at_least(t) } else { course.slab_at_most(t) };
    // Twice an hour is as often as a course bends; the third day comes back.
    let half_hours = ((at - from).value / 1800.0).ceil().clamp(1.0, 144.0) as u32;
    let along =
        (0..=half_hours).map(|i| slab(from + Time::new::<unit::minute>(30.0) * f64::from(i)));
    let (least, most) = along.fold((slab(from), slab(from)), |(least, most), t| {
        (if t < least { t } else { least }, if t > most { t } else { most })
    });
    let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
    say(Sentence::SlabBetween, Source::Entered, vec![least.into(), most.into()]);
    let time = vec![(at - from).into()];
    if waits {
        say(Sentence::AfterReady, Source::Published, time);
        let figures = vec![from.into(), (at - from).into(), at.into()];
        say(Sentence::FromLast, Source::Arithmetic, figures);
    } else {
        say(Sentence::AfterOver, Source::Published, time);
        say(Sentence::FromFirst, Source::Practice, vec![at.into()]);
    }
    steps
}

/// When a coat may be coated, walked on, driven on, and has cured, where its sheet says so.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ahead {
    /// When the next coat may go on, from the start of the course.
    pub recoat: Option<Window>,
    /// When it may be walked on and bear light loads, from the course's start.
    pub light_use: Option<Time>,
    /// When vehicles may drive on it, from the start of the course.
    pub vehicles: Option<Time>,
    /// When it has fully cured, from the start of the course.
    pub full_cure: Option<Time>,
    /// How each of them came about, by the sheet's name for it.
    pub working: Vec<(Field, Vec<Step>)>,
}

impl Ahead {
    /// How one of its times came about; nothing for one that the sheet does not give.
    pub fn working_of(&self, field: Field) -> &[Step] {
        let found = self.working.iter().find(|(of, _)| *of == field);
        found.map_or(&[], |(_, steps)| steps.as_slice())
    }
}

/// How a planned coat meets the window of the one below.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meets {
    /// Within it from the first patch to the last.
    InTime,
    /// It begins before the window opens.
    TooEarly,
    /// It begins in time and ends after the window closes.
    EndsTooLate,
    /// It begins after the window has closed.
    TooLate,
}
