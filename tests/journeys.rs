//! Journeys through the built app in a real browser, at the size of a phone.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Area, Length, ThermodynamicTemperature, unit};
use pailwise_calc::record::{JobRecord, MeasureRecord};
use pailwise_tests::browser::{Outcome, Phone, Site};

/// The journey of a batch: choose, type, read the answer, reload.
#[tokio::test]
async fn the_next_batch_is_the_one_the_calculation_gives() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&site.address).await?;

    phone.tap(".question summary", "Product").await?;
    phone.tap(".chip", "Practice Base").await?;
    let before = phone.text("#mix-amount").await?;
    type_warm_garage(&phone).await?;
    let shown = phone.changed("#mix-amount", &before).await?;

    let batch = Job::try_from(&warm_garage())?.next_batch()?;
    let wanted = batch.measured.volume.get::<unit::quart_liquid>();
    assert!((quarts(&shown) - wanted).abs() < 1e-6, "{shown:?} is not {wanted} qt");
    let covers = phone.text("#mix-covers").await?;
    let area = batch.area.get::<unit::square_foot>().floor();
    assert!(covers.contains(&format!("{area} sq ft")), "{covers:?} is not {area} sq ft");
    for (id, time) in [
        ("#mix-emptied", batch.timeline.emptied),
        ("#mix-rolled", batch.timeline.rolled),
        ("#mix-flaked", batch.timeline.done),
    ] {
        let (said, exact) = (seconds(&phone.text(id).await?), time.get::<unit::second>());
        // Rounded down, by no more than the step of what is shown.
        let step = if exact < 600.0 { 5.0 } else { 60.0 };
        assert!(said <= exact && exact - said < step, "{id}: {said} s shown for {exact} s");
    }

    phone.reload().await?;
    assert_eq!(phone.text("#mix-amount").await?, shown);
    assert_eq!(phone.script("return document.getElementById('ask-width').value").await?, "18'6\"");
    phone.quit().await
}

/// Types the figures of a warm garage.
async fn type_warm_garage(phone: &Phone) -> Outcome {
    for (id, text) in [
        ("ask-slab", "80"),
        ("ask-air", "84"),
        ("ask-material", "82"),
        ("ask-area", "350"),
        ("ask-width", "18'6\""),
    ] {
        phone.type_into(id, text).await?;
    }
    Ok(())
}

/// That batch as the calculation is asked for it without the app: the figures typed above, the
/// rest as a fresh phone has it.
fn warm_garage() -> JobRecord {
    let mut job = demo::job();
    let c = |f: f64| {
        ThermodynamicTemperature::new::<unit::degree_fahrenheit>(f).get::<unit::degree_celsius>()
    };
    let m2 = |sq_ft: f64| Area::new::<unit::square_foot>(sq_ft).get::<unit::square_meter>();
    let m = |ft: f64| Length::new::<unit::foot>(ft).get::<unit::meter>();
    (job.conditions.slab_c, job.conditions.air_c, job.conditions.material_c) =
        (c(80.0), c(84.0), c(82.0));
    (job.bare.area_m2, job.bare.width_m) = (m2(350.0), m(18.5));
    job.crew.roll_m2_per_min = m2(12.0);
    job.crew.flake_m2_per_min = m2(30.0);
    job.crew.throw_m = m(8.0);
    job.gear.measure = MeasureRecord::Jug { jug_step_ml: 946.352_946 / 4.0 };
    job
}

/// Quarts in an amount such as `1 gal 2½ qt`.
fn quarts(text: &str) -> f64 {
    let mut quarts = 0.0;
    let mut number = 0.0;
    for word in text.split_whitespace() {
        match word {
            "gal" => quarts += 4.0 * number,
            "qt" => quarts += number,
            _ => {
                let whole: String = word.chars().filter(char::is_ascii_digit).collect();
                number = whole.parse().unwrap_or(0.0);
                number += match word.chars().last() {
                    Some('¼') => 0.25,
                    Some('½') => 0.5,
                    Some('¾') => 0.75,
                    _ => 0.0,
                };
            }
        }
    }
    quarts
}

/// Seconds in a time such as `4 min 55 s`.
fn seconds(text: &str) -> f64 {
    let words: Vec<&str> = text.split_whitespace().collect();
    let pairs = words.chunks_exact(2);
    pairs
        .map(|pair| {
            let number: f64 = pair[0].parse().expect("a number before each unit");
            number * if pair[1] == "min" { 60.0 } else { 1.0 }
        })
        .sum()
}

/// Wrong input: the field says so, keeps what was typed, and no stale number stands.
#[tokio::test]
async fn a_wrong_figure_takes_the_answer_away_and_says_why() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "es-US").await?;
    phone.open(&site.address).await?;
    assert_eq!(phone.overhang().await?, 0);
    let before = phone.text("#mix-amount").await?;

    phone.type_into("ask-slab", "caliente").await?;
    let said = phone.text(".no-answer").await?;
    assert!(said.contains("Losa: no es un número"), "{said}");
    assert_eq!(phone.script("return String(document.querySelector('#mix-amount'))").await?, "null");
    let field = phone.text("#ask-slab-problem").await?;
    assert!(field.contains("“caliente”") && field.contains("23 a 122"), "{field}");

    phone.reload().await?;
    assert_eq!(phone.script("return document.getElementById('ask-slab').value").await?, "caliente");
    phone.type_into("ask-slab", "74").await?;
    assert_eq!(phone.text("#mix-amount").await?, before);
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

/// The curves follow what is typed, and say for a screen reader what they show.
#[tokio::test]
async fn the_heat_of_the_pail_follows_the_figures() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&site.address).await?;
    let shown = "return [...document.querySelectorAll('.chart')].map(c => c.getAttribute('aria-label')).join('|')";
    let before = phone.script(shown).await?;
    type_warm_garage(&phone).await?;
    let job = Job::try_from(&warm_garage())?;
    let batch = job.next_batch()?;
    let (material, air) = (job.conditions.material, job.conditions.air);
    let pail = job.product.pail(batch.measured.mass, &job.gear.vessel, material, air)?;
    let hottest = pail.peak()?.temperature.get::<unit::degree_fahrenheit>().ceil();
    let said = phone.text("#mix-peak").await?;
    assert!(said.contains(&format!("{hottest} °F")), "{said:?} is not {hottest} °F");
    let after = phone.script(shown).await?;
    assert!(after != before && after.contains("82 °F") && after.contains(&said), "{after}");
    let minutes = batch.pour_out.get::<unit::minute>().floor();
    let latest = phone.text("#mix-latest").await?;
    assert!(latest.contains(&format!("past {minutes} min")), "{latest:?} is not {minutes} min");
    phone.quit().await
}

/// Settings and favourites stay; units switched there and back leave every figure as it was.
#[tokio::test]
async fn language_units_and_favourites_stay() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&site.address).await?;
    phone.type_into("ask-area", "333.3").await?;
    phone.tap(".choice-option", "m, L").await?;
    assert_eq!(phone.script("return document.getElementById('ask-area').value").await?, "30.96");
    assert!(phone.text("#mix-amount").await?.ends_with(" L"));

    phone.tap(".question summary", "Product").await?;
    phone.script("document.querySelectorAll('.star')[2].click(); return ''").await?;
    phone.tap(".button", "Español").await?;
    phone.reload().await?;
    assert_eq!(phone.text(".headline-word").await?, "Mezcle");
    let first = "return document.querySelector('.star').getAttribute('aria-pressed')";
    assert_eq!(phone.script(first).await?, "true");

    phone.tap(".choice-option", "gal").await?;
    assert_eq!(phone.script("return document.getElementById('ask-area').value").await?, "333.3");
    phone.quit().await
}
