//! The day around the pail in a real browser: ready to coat, what to load, what comes after,
//! handing over.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use chrono::{DateTime, NaiveDate, TimeZone, Timelike, Utc};
use chrono_tz::America::New_York;
use icalendar::{Calendar, CalendarComponent, CalendarDateTime, Component, DatePerhapsTime, Event};
use pailwise_calc::dew::dew_point;
use pailwise_calc::floor::Floor;
use pailwise_calc::order::{Line, Rule};
use pailwise_calc::quantity::{Time, Volume, celsius, minutes, unit};
use pailwise_tests::browser::{Outcome, Phone, Site, folder, saved};
use pailwise_tests::fresh;

/// Go, a night that forbids, humidity not read, humidity that cannot be; in both languages.
#[tokio::test]
async fn the_readings_say_go_or_not() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/ready", site.address)).await?;
    let verdict = phone.text("#floor-verdict").await?;
    assert!(verdict.contains("Read the air's humidity first"), "{verdict}");

    phone.type_into("ask-humidity-0", "45").await?;
    let verdict = phone.changed("#floor-verdict", &verdict).await?;
    assert!(verdict.contains("Go: ready to coat"), "{verdict}");
    let dew = dew_point(celsius(fresh::c(74.0)), 0.45)?.get::<unit::degree_fahrenheit>();
    let dew = (dew * 10.0).ceil() / 10.0;
    assert!(verdict.contains(&format!("Dew point now: {dew} °F")), "{verdict}");
    assert!(phone.text("#no-night").await?.contains("knows nothing of the night"));

    // The night brings the slab to the dew point.
    phone.tap(".choice-option", "Low and high").await?;
    phone.type_into("ask-low-0", "45").await?;
    phone.type_into("ask-humidity-0", "70").await?;
    let verdict = phone.changed("#floor-verdict", &verdict).await?;
    assert!(verdict.contains("Do not coat now"), "{verdict}");
    assert!(verdict.contains("dew point") && verdict.contains("(from day 1, "), "{verdict}");
    let rows = phone.text(".readings").await?;
    assert!(rows.contains("5.4 °F or more"), "{rows}");

    // A slab said to stay warmer tonight, and drier air, and it goes.
    phone.type_into("ask-tonight-slab-0", "70").await?;
    phone.type_into("ask-tonight-humidity-0", "60").await?;
    let verdict = phone.changed("#floor-verdict", &verdict).await?;
    assert!(verdict.contains("Go: ready to coat"), "{verdict}");

    phone.type_into("ask-humidity-0", "140").await?;
    let said = phone.text(".no-answer").await?;
    assert!(said.contains("Air humidity"), "{said}");
    let field = phone.text("#ask-humidity-0-problem").await?;
    assert!(field.contains("140") && field.contains("1 to 100"), "{field}");
    assert_eq!(
        phone.script("return String(document.querySelector('#floor-verdict'))").await?,
        "null"
    );

    phone.tap(".choice-option", "Stays so").await?;
    phone.type_into("ask-humidity-0", "95").await?;
    phone.tap(".bar .button", "Español").await?;
    let verdict = phone.text("#floor-verdict").await?;
    assert!(
        verdict.contains("No aplique ahora") && verdict.contains("punto de rocío"),
        "{verdict}"
    );
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

/// A cold slab on the Mix screen forbids at once; the plan of the floor says so too.
#[tokio::test]
async fn what_forbids_stands_before_the_split() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&site.address).await?;
    phone.type_into("ask-slab", "44").await?;
    let said = phone.text("#mix-verdict").await?;
    assert!(said.contains("Do not coat now") && said.contains("44 °F"), "{said}");
    let first = "const [verdict, split] = ['#mix-verdict', '.split'].map(s => \
                 document.querySelector(s).getBoundingClientRect().top); \
                 return String(verdict < split)";
    assert_eq!(phone.script(first).await?, "true");
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.type_into("ask-slab-0", "44").await?;
    let plan = phone.text("#plan-ready").await?;
    assert!(plan.contains("Do not coat now") && plan.contains("50 °F or warmer"), "{plan}");
    phone.quit().await
}

/// The surface: damp under the sheet, and what to do; a caution put away until the next floor.
#[tokio::test]
async fn the_surface_is_judged_and_cautions_come_back() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&format!("{}#floor/ready", site.address)).await?;
    phone.tap(".question summary", "The surface").await?;
    phone.tap(".choice-option", "Damp").await?;
    let said = phone.text("#surface").await?;
    assert!(said.contains("do not coat") && said.contains("ASTM F2170"), "{said}");
    // No reading of the room makes up for it.
    phone.type_into("ask-humidity-0", "40").await?;
    assert!(phone.text("#floor-verdict").await?.contains("The surface is not ready"));
    phone.type_into("test-ph-0", "9").await?;
    let said = phone.changed("#surface", &said).await?;
    assert!(said.contains("the sheet sets no limit"), "{said}");

    let cautions = "return String(document.querySelectorAll('.caution-away').length)";
    assert_eq!(phone.script(cautions).await?, "2");
    phone.tap(".caution-read", "Got it").await?;
    assert_eq!(phone.script(cautions).await?, "1");
    phone.reload().await?;
    assert_eq!(phone.script(cautions).await?, "1");
    phone.tap(".side", "Plan").await?;
    phone.tap("#new-floor", "").await?;
    phone.tap(".side", "Ready?").await?;
    phone.until(cautions, "2").await?;
    assert!(phone.text("#surface").await?.contains("asks for none of these"));
    phone.tap("#undo", "").await?;
    phone.until(cautions, "1").await?;
    assert!(phone.text("#surface").await?.contains("do not coat"));
    phone.quit().await
}

/// Short by half a kit: said in large letters, in the bar, in both languages; a tap brings it.
#[tokio::test]
async fn half_a_kit_short_cannot_be_missed() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/load", site.address)).await?;
    let floor = Floor::try_from(&fresh::floor())?;
    let coat = &floor.coats[0];
    let kit = Volume::new::<unit::gallon>(3.0);
    let needed = floor.plan(coat).needed;
    let rule = Rule { spare: 0.0, step: Volume::new::<unit::gallon>(0.1) };
    let line = Line::new(&coat.product, needed, None, &rule);
    let kits = line.kits.clone().unwrap().counts[0];
    let card = phone.text(".load[data-product='invented-base']").await?;
    assert!(card.contains(&format!("{kits} × kit of 3 gal")), "{card}");

    // One kit is here; by the calculation some halves are missing.
    phone.type_into("ask-on-hand-0", "3 gal").await?;
    let here = Line::new(&coat.product, needed, Some(kit), &rule);
    assert_eq!(here.half_kits_short(&coat.product, kit), 1);
    let short = phone.text(".load-short").await?;
    assert!(short.contains("Short by ½ × kit of 3 gal"), "{short}");
    assert_eq!(phone.text(".side-alarm").await?, "short");
    let size = "return getComputedStyle(document.querySelector('.load-short')).fontSize";
    assert!(phone.script(size).await?.trim_end_matches("px").parse::<f64>()? >= 20.0);

    phone.tap(".here .button", "+ ½ kit").await?;
    phone.until("return String(document.querySelector('.load-short'))", "null").await?;
    assert!(phone.text(".load[data-product='invented-base']").await?.contains("is enough"));
    phone.tap(".here .button", "− ½ kit").await?;
    phone.tap(".bar .button", "Español").await?;
    assert!(phone.text(".load-short").await?.contains("Falta: ½ × kit"));
    phone.quit().await
}

/// The list: ticked, added to, taken from, undone, and there after a reload.
#[tokio::test]
async fn the_list_to_load_is_the_crew_s_own() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/load", site.address)).await?;
    let count = "return String(document.querySelectorAll('.check').length)";
    let all: usize =
        phone.text("#checklist").await.map(|_| ()).and(phone.script(count).await)?.parse()?;
    phone.type_into("list-add", "The blue broom").await?;
    phone.tap(".checklist-add .button", "Add").await?;
    phone.until(count, &(all + 1).to_string()).await?;
    phone.tap(".check .toggle", "The blue broom").await?;
    phone.tap(".check .toggle", "eye wash").await?;
    phone.tap(".check-remove", "").await?;
    phone.until(count, &all.to_string()).await?;
    phone.tap("#undo", "").await?;
    phone.until(count, &(all + 1).to_string()).await?;
    phone.reload().await?;
    let ticked = "return String(document.querySelectorAll('.check input:checked').length)";
    phone.until(ticked, "2").await?;
    phone.quit().await
}

/// A moment of an event, which must be given in UTC.
fn utc(at: Option<DatePerhapsTime>) -> DateTime<Utc> {
    match at {
        Some(DatePerhapsTime::DateTime(CalendarDateTime::Utc(at))) => at,
        other => panic!("not in UTC: {other:?}"),
    }
}

/// So long after eight in the morning of 31 October 2026 in New York, or of the day after.
fn moment(day: u32, since: Time) -> DateTime<Utc> {
    let date = NaiveDate::from_ymd_opt(2026, 10, 31).unwrap() + chrono::Days::new(day.into());
    let eight = New_York.from_local_datetime(&date.and_hms_opt(8, 0, 0).unwrap()).unwrap();
    eight.with_timezone(&Utc) + chrono::Duration::seconds(since.get::<unit::second>() as i64)
}

/// Whether a moment is the calculated one, or later to the next five minutes of the clock there.
#[track_caller]
fn is_later(given: DateTime<Utc>, exact: DateTime<Utc>) {
    let late = (given - exact).num_seconds();
    assert!((-1..=300).contains(&late), "{given} for {exact}");
    assert_eq!(given.with_timezone(&New_York).minute() % 5, 0);
}

/// A floor over the night in which the clocks go back (New York, 1 November 2026): the times on
/// the screen, the sheet and the calendar are the calculation's, on the clock people will read.
#[tokio::test]
#[expect(clippy::too_many_lines, reason = "one story, told in one go")]
async fn a_floor_is_handed_over_across_a_clock_change() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.in_zone("America/New_York").await?;
    phone
        .before_every_page(
            "navigator.share = (data) => { window.shared = data; return Promise.resolve() }",
        )
        .await?;
    phone.open(&format!("{}#floor/hand-over", site.address)).await?;
    assert!(phone.text("#no-date").await?.contains("Give the date"));
    phone.set("first-day", "2026-10-31").await?;
    phone.type_into("sheet-client", "Bay 4 <b>& Co</b>").await?;
    phone.set("sheet-visit", "2026-12-01").await?;

    let floor = Floor::try_from(&fresh::floor())?;
    let ahead = |i: usize| {
        let (coat, plan) = (&floor.coats[i], floor.plan(&floor.coats[i]));
        let last = plan.batches.last().unwrap();
        let down = last.start + last.batch.timeline.done;
        let damp = coat.product.film().damp();
        coat.product.after().ahead(&coat.course, (minutes(0.0), down), damp)
    };
    let (base, top) = (ahead(0), ahead(1));

    let files = folder(env!("CARGO_TARGET_TMPDIR"), "hand-over")?;
    phone.download_into(&files).await?;
    phone.tap("#calendar-save", "").await?;
    let calendar: Calendar = saved(&files.join("floor.ics")).await?.parse()?;
    let events: Vec<&Event> = calendar
        .components
        .iter()
        .filter_map(
            |one| if let CalendarComponent::Event(event) = one { Some(event) } else { None },
        )
        .collect();
    let event = |word: &str| {
        let has = |event: &&&Event| event.get_summary().unwrap_or_default().contains(word);
        *events.iter().find(has).unwrap_or_else(|| panic!("no {word}"))
    };
    assert_eq!(events.len(), 5);
    // The base coat goes down at eight before the change, the topcoat at eight after it.
    let window = base.recoat.unwrap();
    is_later(utc(event("Recoat").get_start()), moment(0, window.opens));
    let closes = utc(event("Recoat").get_end());
    let exact = moment(0, window.closes.unwrap());
    assert!((0..=300).contains(&(exact - closes).num_seconds()), "{closes} for {exact}");
    is_later(utc(event("light use").get_start()), moment(1, top.light_use.unwrap()));
    is_later(utc(event("vehicles").get_start()), moment(1, top.vehicles.unwrap()));
    is_later(utc(event("cured").get_start()), moment(1, top.full_cure.unwrap()));
    let visit = utc(event("visit").get_start()).with_timezone(&New_York);
    assert_eq!(visit.to_rfc3339(), "2026-12-01T10:00:00-05:00");
    let uids: std::collections::BTreeSet<_> = events.iter().filter_map(|e| e.get_uid()).collect();
    assert_eq!(uids.len(), 5);

    // The sheet says the same moment as people there read it.
    let light = utc(event("light use").get_start()).with_timezone(&New_York);
    let said = light.format("%a, %b %-d, %-I:%M").to_string();
    let sheet = phone.text(".sheet").await?;
    assert!(sheet.contains(&said), "{said} is not in {sheet}");
    assert!(sheet.contains("practice products"), "{sheet}");
    assert!(sheet.contains("Saturday, October 31, 2026"), "{sheet}");
    // No night was said, and the sheet does not claim one.
    assert!(sheet.contains("Counted as warm as on the day"), "{sheet}");
    phone.tap("#sheet-share", "").await?;
    phone.until("return String(window.shared?.text.includes('Care'))", "true").await?;
    assert!(phone.script("return window.shared.text").await?.contains(&said));

    // In Spanish for the client, while the crew's own screen stays as it is.
    phone
        .script("document.querySelectorAll('details').forEach(d => d.open = true); return ''")
        .await?;
    phone.tap(".choice-option", "Español").await?;
    phone.until("return document.querySelector('.sheet').lang", "es").await?;
    assert_eq!(phone.script("return document.documentElement.lang").await?, "en");
    phone.tap("#sheet-save", "").await?;
    let page = saved(&files.join("floor.html")).await?;
    assert!(page.contains("lang=\"es\"") && page.contains("Bay 4 &lt;b&gt;&amp; Co&lt;/b&gt;"));
    let paper = phone.printed(&files.join("sheet.pdf")).await?;
    assert_eq!(paper, 1, "the sheet takes more than a page");
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

/// The next coat too late for the window: said, with what then; in time again, and it is gone.
#[tokio::test]
async fn an_arrival_that_misses_the_window_is_warned_of() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.set("coat-starts-1", "21:00").await?;
    phone.tap(".side", "After").await?;
    let said = phone.text("#after-0 [data-meets='TooLate']").await?;
    assert!(said.contains("Practice Clear 1:1 is planned for day 2, 9:00 pm"), "{said}");
    assert!(said.contains("sand to an even dull surface"), "{said}");
    assert!(phone.text("#after-0 .no-night").await?.contains("Nights are colder"));

    // The sheet is not to be handed out, and the plan says so too.
    phone.set("first-day", "2026-12-01").await?;
    phone.tap(".side", "Hand over").await?;
    assert!(phone.text("#sheet-missed").await?.contains("misses its recoat window"));
    phone.tap(".side", "Plan").await?;
    assert!(phone.text(".plan-missed").await?.contains("misses its recoat window"));
    phone.tap(".side", "After").await?;

    // A cold night: the next coat may go on later than after a warm one.
    let light = "return [...document.querySelectorAll('#after-0 .row')] \
                 .find(r => r.textContent.includes('not before')).textContent";
    let warm = phone.script(light).await?;
    phone.tap(".question summary", "The nights").await?;
    phone.tap(".choice-option", "Low and high").await?;
    phone.type_into("ask-low-0", "42").await?;
    phone.until("return String(document.querySelector('#after-0 .no-night'))", "null").await?;
    let cold = phone.script(light).await?;
    assert_ne!(warm, cold);

    phone.tap(".side", "Plan").await?;
    phone.set("coat-starts-1", "10:00").await?;
    phone.tap(".side", "After").await?;
    phone.element("#after-0 [data-meets='InTime']").await?;
    let strip =
        phone.script("return document.querySelector('.strip').getAttribute('aria-label')").await?;
    assert!(strip.contains("Practice Base 2:1: Recoat, not before: "), "{strip}");
    phone.quit().await
}
