//! Times as they are said: spans, times of day, hours of a sheet.

use pailwise_calc::quantity::{Time, unit};

use super::Reader;
use super::number::{NOISE, Rounding, decimal};
use crate::text::key;

impl Reader {
    /// A span of time, rounded down: to five seconds below ten minutes, else to the minute.
    pub fn time(self, time: Time) -> String {
        let seconds = time.get::<unit::second>().max(0.0) + NOISE;
        let step = if seconds < 600.0 { 5.0 } else { 60.0 };
        let seconds = (seconds / step).floor() * step;
        let (minutes, seconds) = ((seconds / 60.0).floor(), seconds.rem_euclid(60.0));
        // Past two hours nobody counts in minutes alone.
        let (hours, minutes) = if minutes < 120.0 {
            (0.0, minutes)
        } else {
            ((minutes / 60.0).floor(), minutes.rem_euclid(60.0))
        };
        let parts = [(hours, key::UNIT_H), (minutes, key::UNIT_MIN), (seconds, key::UNIT_S)];
        let said: Vec<String> = parts
            .iter()
            .filter(|(n, _)| *n > 0.0)
            .map(|(n, unit)| self.with(unit, &decimal(*n, 0, Rounding::Nearest)))
            .collect();
        if said.is_empty() { self.with(key::UNIT_MIN, "0") } else { said.join(" ") }
    }

    /// A time of day without its half, for an axis.
    pub fn clock_short(self, minutes: f64) -> String {
        let said = self.clock(minutes);
        said.split(' ').next().unwrap_or_default().to_owned()
    }

    /// A time of day, from minutes after midnight of the first day: to the minute, rounded down.
    pub fn clock(self, minutes: f64) -> String {
        let whole = (minutes + NOISE).floor().max(0.0);
        let (hour, minute) = ((whole / 60.0).floor().rem_euclid(24.0), whole.rem_euclid(60.0));
        let noon = if hour < 12.0 { key::CLOCK_MORNING } else { key::CLOCK_AFTERNOON };
        let twelve = if hour.rem_euclid(12.0) == 0.0 { 12.0 } else { hour.rem_euclid(12.0) };
        let figures = [("twelve", format!("{twelve:.0}")), ("m", format!("{minute:02.0}"))];
        let figures: Vec<_> = figures.iter().map(|(name, text)| (*name, text.as_str())).collect();
        self.language.say(noon, &figures)
    }

    /// A span of time that something takes, rounded up as [`Reader::time`] rounds down.
    pub fn time_up(self, time: Time) -> String {
        let step = if time.get::<unit::second>() < 600.0 { 5.0 } else { 60.0 };
        let steps = (time.get::<unit::second>() / step - NOISE).ceil();
        self.time(Time::new::<unit::second>(steps * step))
    }

    /// Hours, as a data sheet counts them: whole ones, rounded down.
    pub fn hours(self, time: Time) -> String {
        self.with(key::UNIT_H, &decimal(time.get::<unit::hour>(), 0, Rounding::Down))
    }

    /// Hours that something takes: whole ones, rounded up.
    pub fn hours_up(self, time: Time) -> String {
        let hours = (time.get::<unit::hour>() - NOISE).ceil();
        self.with(key::UNIT_H, &decimal(hours, 0, Rounding::Nearest))
    }
}
