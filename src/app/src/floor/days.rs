//! The days of a floor: moments as people say them, and as calendars count them.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, minutes, unit};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::show::Reader;

use super::fields::form;
use crate::desk::desk;
use crate::moments::{self, Style};
use crate::parts::question::Question;
use crate::text::{key, live, tr};

/// How the moments of a floor are said, with the date of its first day where it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Days {
    reader: Reader,
    first: Option<(u32, u32, u32)>,
}

/// Which way a moment is rounded to the clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Toward {
    /// Later: for what must wait.
    Later,
    /// Earlier: for what must be done by then.
    Earlier,
}

/// Moments are said to so many minutes.
const TO: f64 = 5.0;

impl Days {
    /// For a reader, from what was entered.
    pub(super) fn of(reader: Reader, form: &FloorFormRecord) -> Self {
        Self { reader, first: date(&form.first_day) }
    }

    /// Whether the date is known.
    pub(super) fn dated(self) -> bool {
        self.first.is_some()
    }

    /// A moment so long after a coat begins, which the clock on the wall tells; in milliseconds
    /// since 1970, where the date is known. What goes by in between is real time, whatever is done
    /// to the clocks in that night.
    pub(super) fn moment(self, begins: Time, since: Time, toward: Toward) -> Option<f64> {
        let begins_min = begins.get::<unit::minute>();
        let since = rounded(begins_min, since, toward);
        Some(moments::moment(self.first?, begins_min) + since * 60_000.0)
    }

    /// The real time from one time on the wall to another, both from midnight of the first day:
    /// an hour more or less where the clocks are changed in between.
    pub(super) fn between(self, from: Time, to: Time) -> Time {
        let moment =
            |at: Time| Some(moments::moment(self.first?, at.get::<unit::minute>()) / 60_000.0);
        match (moment(from), moment(to)) {
            (Some(from), Some(to)) => minutes(to - from),
            _ => to - from,
        }
    }

    /// That moment, with its day.
    pub(super) fn said(self, begins: Time, since: Time, toward: Toward) -> String {
        self.written(begins, since, toward, Style::Weekday)
    }

    /// The day of that moment.
    pub(super) fn day(self, begins: Time, since: Time, toward: Toward) -> String {
        self.written(begins, since, toward, Style::Day)
    }

    /// The date of a time on the wall, with its year.
    pub(super) fn date(self, begins: Time) -> String {
        self.written(begins, Time::default(), Toward::Earlier, Style::Date)
    }

    /// The name of the day of that moment.
    pub(super) fn name(self, begins: Time, since: Time) -> String {
        self.written(begins, since, Toward::Earlier, Style::Name)
    }

    fn written(self, begins: Time, since: Time, toward: Toward, style: Style) -> String {
        if let Some(at) = self.moment(begins, since, toward) {
            return moments::written(at, self.reader.language, style);
        }
        let begins_min = begins.get::<unit::minute>();
        let total = begins_min + rounded(begins_min, since, toward);
        let day = ((total / 1440.0).floor() + 1.0).to_string();
        let clock = self.reader.clock(total);
        let text = match style {
            Style::Day | Style::Name | Style::Date => key::DAY_NUMBER,
            Style::Full | Style::Weekday => key::DAY_AND_TIME,
        };
        self.reader.language.say(text, &[("day", &day), ("time", &clock)])
    }
}

/// Minutes since the coat began, so that they end on a round time of day.
fn rounded(begins_min: f64, since: Time, toward: Toward) -> f64 {
    let steps = (begins_min + since.get::<unit::minute>()) / TO;
    let steps = match toward {
        Toward::Later => (steps - 1e-6).ceil(),
        Toward::Earlier => (steps + 1e-6).floor(),
    };
    steps * TO - begins_min
}

/// Year, month and day of a text such as "2026-11-25".
fn date(text: &str) -> Option<(u32, u32, u32)> {
    let mut parts = text.split('-').map(|part| part.parse().ok());
    Some((parts.next()??, parts.next()??, parts.next()??))
}

/// Ten in the morning of a date, in milliseconds since 1970.
pub(super) fn morning(text: &str) -> Option<f64> {
    date(text).map(|date| moments::moment(date, 600.0))
}

/// Today, by the phone's clock.
pub(super) fn today() -> String {
    let now = web_sys::js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// Midnight of the first day a plan's times count from, as a time.
pub(super) fn midnight(after: Time) -> Time {
    minutes((after.get::<unit::minute>() / 1440.0).floor() * 1440.0)
}

/// The date of the first day, by the phone's own field for one; open while it is not said.
#[component]
pub(super) fn DateQuestion() -> impl IntoView {
    let form = form();
    let desk = desk();
    let set = move |date: String| form.update(|form| form.first_day = date);
    let open = form.with_untracked(|form| form.first_day.is_empty());
    let now = move || {
        let days = form.with(|form| Days::of(desk.reader(), form));
        let noon = minutes(720.0);
        if days.dated() { days.day(noon, minutes(0.0), Toward::Earlier) } else { tr(key::NOT_SAID) }
    };
    view! {
        <Question label=key::QUESTION_DATE now=Signal::derive(now) open=open>
        <div class="pick">
            <label class="field-label" for="first-day">{live(key::ASK_FIRST_DAY)}</label>
            <input
                id="first-day"
                class="pick-list"
                type="date"
                prop:value=move || form.with(|form| form.first_day.clone())
                on:change:target=move |event| set(event.target().value())
            />
        </div>
        <button id="first-day-today" class="button" type="button" on:click=move |_| set(today())>
            {live(key::FIRST_DAY_TODAY)}
        </button>
        </Question>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Language;
    use pailwise_kept::units::Units;

    #[test]
    fn without_a_date_days_are_counted_and_times_fall_to_the_safe_side() {
        let days =
            Days { reader: Reader { language: Language::En, units: Units::Us }, first: None };
        let (begins, since) = (minutes(480.0), minutes(24.0 * 60.0 + 2.0));
        assert_eq!(days.said(begins, since, Toward::Later), "day 2, 8:05 am");
        assert_eq!(days.said(begins, since, Toward::Earlier), "day 2, 8:00 am");
        assert_eq!(days.said(begins, minutes(0.0), Toward::Later), "day 1, 8:00 am");
        assert_eq!(days.moment(begins, since, Toward::Later), None);
    }

    #[test]
    fn a_date_is_read() {
        assert_eq!(date("2026-11-25"), Some((2026, 11, 25)));
        assert_eq!((date(""), date("2026-11")), (None, None));
    }
}
