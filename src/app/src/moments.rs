//! Moments by the phone's own clock and zone, read and written as people of a language write them.

use std::cell::OnceCell;

use leptos::wasm_bindgen::JsValue;
use pailwise_calc::quantity::{Time, unit};
use pailwise_kept::show::Reader;
use web_sys::js_sys::Intl::DateTimeFormat;
use web_sys::js_sys::{Array, Date, Function, Object, Reflect};

use crate::text::Language;

/// Now: RFC 3339, in UTC, to the second.
pub(crate) fn now() -> String {
    let exact: String = Date::new_0().to_iso_string().into();
    exact.split('.').next().map_or_else(String::new, |seconds| format!("{seconds}Z"))
}

/// A moment in the phone's own time, as people of a language write it; what is none, as it is.
pub(crate) fn local(moment: &str, language: Language) -> String {
    let at_ms = Date::new(&JsValue::from_str(moment)).get_time();
    if at_ms.is_nan() {
        return moment.chars().filter(|sign| !sign.is_control()).take(40).collect();
    }
    local_ms(at_ms, language)
}

thread_local! {
    /// How moments are written in each language: making one takes a phone longer than a hundred
    /// uses of it.
    static WRITTEN: [[OnceCell<Function>; Language::ALL.len()]; 5] =
        const { [const { [const { OnceCell::new() }; Language::ALL.len()] }; 5] };
}

/// How a moment is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Style {
    /// The day with its year, and the minute.
    Full,
    /// The day of the week, the day and the minute.
    Weekday,
    /// The day of the week, and the day.
    Day,
    /// The day of the week.
    Name,
    /// The day of the week, and the day with its year.
    Date,
}

impl Style {
    /// As `Intl.DateTimeFormat` has it (ECMA-402).
    fn options(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::Full => &[("dateStyle", "medium"), ("timeStyle", "short")],
            Self::Weekday => &[
                ("weekday", "short"),
                ("month", "short"),
                ("day", "numeric"),
                ("hour", "numeric"),
                ("minute", "2-digit"),
                ("hourCycle", "h12"),
            ],
            Self::Day => &[("weekday", "short"), ("month", "short"), ("day", "numeric")],
            Self::Name => &[("weekday", "short")],
            Self::Date => {
                &[("weekday", "long"), ("year", "numeric"), ("month", "long"), ("day", "numeric")]
            }
        }
    }
}

/// As [`local`], of milliseconds since 1970: the day and the minute.
pub(crate) fn local_ms(at_ms: f64, language: Language) -> String {
    written(at_ms, language, Style::Full)
}

/// A moment in milliseconds since 1970, in the phone's own time.
pub(crate) fn written(at_ms: f64, language: Language, style: Style) -> String {
    let written = |write: &Function| write.call1(&JsValue::UNDEFINED, &at_ms.into()).ok();
    WRITTEN.with(|writers| {
        let writer = writers[style as usize][language as usize].get_or_init(|| {
            let options = Object::new();
            for (name, style) in style.options() {
                // Setting a key of an object of one's own cannot fail.
                let _ = Reflect::set(&options, &(*name).into(), &(*style).into());
            }
            let languages = Array::of1(&JsValue::from_str(language.tag()));
            DateTimeFormat::new(&languages, &options).format()
        });
        let text = written(writer).and_then(|text| text.as_string()).unwrap_or_default();
        // As everywhere else in the app.
        text.replace("AM", "am").replace("PM", "pm").replace("a. m.", "am").replace("p. m.", "pm")
    })
}

/// The minutes after midnight, by the phone's own clock, of a moment in milliseconds since 1970.
pub(crate) fn minute_of_day(at_ms: f64) -> f64 {
    let at = Date::new(&JsValue::from_f64(at_ms));
    f64::from(at.get_hours() * 60 + at.get_minutes())
}

/// How far the phone's time was ahead of UTC at a moment, in minutes.
pub(crate) fn minutes_ahead(at_ms: f64) -> f64 {
    -Date::new(&JsValue::from_f64(at_ms)).get_timezone_offset()
}

/// The moment of a day (year, month, day) and of minutes after its midnight, by the phone's own
/// clock, in milliseconds since 1970; days and minutes may run over.
pub(crate) fn moment((year, month, day): (u32, u32, u32), minutes: f64) -> f64 {
    let number = |n: u32| i32::try_from(n).unwrap_or_default();
    let midnight = Date::new_with_year_month_day(year, number(month) - 1, number(day));
    midnight.set_minutes(minutes.floor() as u32);
    midnight.get_time()
}

/// The moment of the last time that it was so many minutes after midnight by the phone's clock, no
/// later than another.
pub(crate) fn last_time(minute: f64, no_later_ms: f64) -> f64 {
    const MINUTE: f64 = 60_000.0;
    let ago = (minute_of_day(no_later_ms) - minute).rem_euclid(24.0 * 60.0);
    ((no_later_ms / MINUTE).floor() - ago) * MINUTE
}
/// A time of day on the phone's clock, so long after a stamp.
pub(crate) fn clock(reader: Reader, stamp_ms: f64, after: Time) -> String {
    reader.clock(minute_of_day(stamp_ms + after.get::<unit::millisecond>()))
}
