//! Calendar entries (RFC 5545) as others read them: parsed by an independent library
//! (`icalendar`), and told by the time zone rules of the IANA data (`chrono-tz`).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use chrono_tz::America::New_York;
use icalendar::{Calendar, CalendarComponent, CalendarDateTime, Component, DatePerhapsTime};
use pailwise_kept::exchange::calendar::{Entry, calendar};
use pailwise_tests::checks::check;
use proptest::prelude::*;

fn ms(at: DateTime<Utc>) -> f64 {
    at.timestamp_millis() as f64
}

fn entry(starts: DateTime<Utc>, hours: i64, summary: &str, description: &str) -> Entry {
    Entry {
        uid: "light-1@pailwise.invalid".to_owned(),
        starts_ms: ms(starts),
        ends_ms: ms(starts + chrono::Duration::hours(hours)),
        summary: summary.to_owned(),
        description: description.to_owned(),
        reminds_min: Some(60),
    }
}

/// A moment that is given in UTC; anything else would be another moment elsewhere.
fn utc(at: Option<DatePerhapsTime>) -> DateTime<Utc> {
    match at {
        Some(DatePerhapsTime::DateTime(CalendarDateTime::Utc(at))) => at,
        other => panic!("not in UTC: {other:?}"),
    }
}

/// A day of 25 hours: clocks in New York went back on 1 November 2026 at 2 in the morning (IANA).
/// Twenty-four real hours after Saturday 6 pm are Sunday 5 pm there, and a calendar says so.
#[test]
fn a_clock_change_in_between_is_kept() {
    let saturday = NaiveDate::from_ymd_opt(2026, 10, 31).unwrap().and_hms_opt(18, 0, 0).unwrap();
    let down = New_York.from_local_datetime(&saturday).unwrap().with_timezone(&Utc);
    let text = calendar(&[entry(down + chrono::Duration::hours(24), 1, "Light use", "")], 0.0);
    let read: Calendar = text.parse().unwrap();
    let CalendarComponent::Event(event) = &read.components[0] else { panic!("no event") };
    let there = utc(event.get_start()).with_timezone(&New_York);
    let source = "RFC 5545 through icalendar; IANA time zones through chrono-tz";
    check("24 h after Saturday 6 pm, New York, clocks going back in between", source)
        .is(&"2026-11-01T17:00:00-05:00".to_owned(), &there.to_rfc3339());
}

proptest! {
    /// Whatever is written into it, another reads the same words and the same moments.
    #[test]
    fn another_reads_what_was_written(
        summary in "[ -~ñáé½“”\n]{1,120}",
        description in "[ -~ñáé½“”\n]{0,400}",
        minutes in 0..3_000_000_i64,
        hours in 0..200_i64,
    ) {
        let starts = Utc.with_ymd_and_hms(2026, 11, 25, 0, 0, 0).unwrap()
            + chrono::Duration::minutes(minutes);
        let wanted = entry(starts, hours, &summary, &description);
        let text = calendar(&[wanted.clone(), entry(starts, 1, "next", "")], 0.0);
        prop_assert!(text.split("\r\n").all(|line| line.len() <= 75));
        let read: Calendar = text.parse().map_err(TestCaseError::fail)?;
        prop_assert_eq!(read.components.len(), 2);
        let CalendarComponent::Event(event) = &read.components[0] else {
            return Err(TestCaseError::fail("no event"));
        };
        prop_assert_eq!(event.get_uid(), Some("light-1@pailwise.invalid"));
        prop_assert_eq!(utc(event.get_start()), starts);
        prop_assert_eq!(event.get_summary().unwrap_or_default(), summary.as_str());
        if !description.is_empty() {
            prop_assert_eq!(event.get_description().unwrap_or_default(), description.as_str());
        }
        prop_assert_eq!((utc(event.get_end()) - starts).num_hours(), hours);
    }
}
