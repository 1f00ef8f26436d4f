//! Journeys through the built app in a real browser, at the size of a phone.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::floor::{Floor, Place};
use pailwise_calc::job::Job;
use pailwise_calc::measure::poured;
use pailwise_calc::quantity::{Figure, Length, Mass, minutes, unit};
use pailwise_calc::record::{
    FloorRecord, JobRecord, MeasureRecord, OwnVesselRecord, StemWallRecord, VesselRecord,
};
use pailwise_calc::rescue::Remedy;
use pailwise_tests::browser::{Outcome, Phone, Site};
use pailwise_tests::fresh::{self, c, m, m2};

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
    let mut job = fresh::job();
    (job.conditions.slab_c, job.conditions.air_c, job.conditions.material_c) =
        (c(80.0), c(84.0), c(82.0));
    (job.bare.area_m2, job.bare.width_m) = (m2(350.0), m(18.5));
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

/// Too much B: what to add is what the calculation says, and it outlives a reload; then it gets
/// too late, and the pail is to be thrown away.
#[tokio::test]
async fn too_much_b_is_brought_back_or_thrown_away() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&site.address).await?;
    type_warm_garage(&phone).await?;
    phone.type_into("rescue-1", "2 gal").await?;
    // Until it is said that they have not met they are taken to have: nothing is to be taken off.
    let said = phone.text("#rescue").await?;
    assert!(!said.contains("Take off") && said.contains("Say when A and B met"), "{said}");
    // In two jugs what is over comes off, and not into a can that is still good.
    phone.tap("#rescue .choice-option", "Not yet").await?;
    assert_eq!(phone.changed(".rescue-deed", "Add").await?, "Take off");
    let said = phone.text(".rescue-add").await?;
    assert!(said.contains("of Part B") && said.contains("Not back into the can"), "{said}");
    phone.tap("#rescue .button", "Back to the plan").await?;

    phone.tap(".choice-option", "Scale").await?;

    let mut record = warm_garage();
    record.gear.measure = MeasureRecord::Scale { scale_step_g: 4.535_923_7 };
    let job = Job::try_from(&record)?;
    let planned = job.next_batch()?.measured;
    let pounds = |mass: Mass| (mass.get::<unit::pound>() * 100.0).round() / 100.0;
    let total = |i: usize| match planned.pours[i].reading {
        Figure::Mass(total) => pounds(total),
        _ => f64::NAN,
    };
    // Two pounds of B too many.
    let (a, b) = (total(0), total(1) + 2.0);
    phone.type_into("rescue-1", &format!("{b} lb")).await?;
    phone.tap("#rescue .choice-option", "Yes").await?;
    phone.type_into("rescue-ago", "3").await?;
    let shown = phone.text(".rescue-amount").await?;

    let pound = |x| Some(Figure::Mass(Mass::new::<unit::pound>(x)));
    let pours = poured(job.product.ratio(), &job.gear.vessel, &[pound(a), pound(b)])?;
    let rescue = job.rescue(pours, Some(minutes(3.0)))?;
    assert_eq!(rescue.remedy, Remedy::Add);
    assert!(rescue.off_by.is_some_and(|off| off > 0.2) && rescue.off_after.abs() < 0.01);
    let Figure::Mass(until) = rescue.adds[0].reading else { panic!("{:?}", rescue.adds) };
    assert_eq!(shown, format!("{} lb", pounds(rescue.adds[0].pour.mass)));
    let said = phone.text(".rescue-add").await?;
    assert!(said.contains(&format!("until the scale reads {} lb", pounds(until))), "{said}");
    let said = phone.text("#rescue-off").await?;
    assert!(said.contains("too much Part B for Part A"), "{said}");
    let drawn = "return document.querySelector('#rescue svg.pail').getAttribute('aria-label')";
    assert!(
        phone
            .script(drawn)
            .await?
            .starts_with("The pail now: A, B. The pail after that: A, B, A +")
    );

    phone.reload().await?;
    assert_eq!(phone.text(".rescue-amount").await?, shown);
    phone.type_into("rescue-ago", "300").await?;
    let said = phone.changed("#rescue [role=alert]", "").await?;
    assert!(said.contains("Throw it away") && said.contains("No lid, no water"), "{said}");

    phone.type_into("rescue-1", "far too much").await?;
    let said = phone.text("#rescue-1-problem").await?;
    assert!(said.contains("“far too much” cannot be read"), "{said}");
    phone.tap("#rescue .button", "Back to the plan").await?;
    let said = phone.text("#rescue").await?;
    assert!(said.contains("As planned"), "{said}");
    phone.quit().await
}

/// A pail of their own by two diameters and a height; a coarser stick; only whole kits.
#[tokio::test]
async fn own_pail_coarser_marks_and_whole_kits() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&site.address).await?;
    phone.type_into("ask-area", "2000").await?;
    phone.type_into("ask-largest-mass", "").await?;
    phone.tap(".choice-option", "Our own").await?;
    phone.type_into("ask-own-bottom", "8").await?;
    phone.type_into("ask-own-top", "7").await?;
    let said = phone.text(".no-answer").await?;
    assert!(said.contains("narrower than the bottom"), "{said}");
    phone.type_into("ask-own-top", "9").await?;
    phone.type_into("ask-own-height", "10").await?;

    phone.tap(".choice-option", "Stick").await?;
    let sixteenths = phone.text(".steps").await?;
    let mut record = fresh::job();
    record.bare.area_m2 = m2(2000.0);
    record.gear.vessel = VesselRecord::Own(OwnVesselRecord {
        bottom_diameter_mm: 8.0 * 25.4,
        top_diameter_mm: 9.0 * 25.4,
        height_mm: 254.0,
    });
    record.gear.measure = MeasureRecord::Stick { mark_step_mm: 25.4 / 16.0 };
    let batch = Job::try_from(&record)?.next_batch()?;
    let Figure::Small(mark) = batch.measured.pours[0].reading else { panic!("{batch:?}") };
    let first = phone.text(".step-figure").await?;
    assert_eq!(inches(&first), (mark.get::<unit::inch>() * 16.0).round() / 16.0, "{first}");

    // Marks of a quarter inch do not hold the ratio in such a pail: the cup does.
    phone
        .script(
            "const s = document.getElementById('step-size'); s.selectedIndex = 2; \
        s.dispatchEvent(new Event('change', { bubbles: true })); return ''",
        )
        .await?;
    phone.changed(".steps", &sixteenths).await?;
    assert!(phone.text("#split-finer").await?.contains("1 fl oz"));

    phone.tap(".choice-option", "Whole only").await?;
    let said = phone.text(".no-answer").await?;
    assert!(said.contains("The smallest portion of a kit is 3 gal"), "{said}");
    assert!(said.contains("Half kits as well") || said.contains("Split the kit"), "{said}");
    phone.quit().await
}

/// Inches in a mark such as `3 5/16 in` or `3⅝ in`.
fn inches(text: &str) -> f64 {
    let text = text.trim_end_matches(" in");
    let eighths = ["⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];
    if let Some((whole, part)) = text.split_once(' ') {
        let (over, under) = part.split_once('/').unwrap_or((part, "1"));
        let part = over.parse().unwrap_or(f64::NAN) / under.parse().unwrap_or(f64::NAN);
        return whole.parse().unwrap_or(f64::NAN) + part;
    }
    let sign = eighths.iter().position(|sign| text.ends_with(sign));
    let whole = sign.map_or(text, |i| text.trim_end_matches(eighths[i]));
    let whole = if whole.is_empty() { 0.0 } else { whole.parse().unwrap_or(f64::NAN) };
    whole + sign.map_or(0.0, |i| (i as f64 + 1.0) / 8.0)
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

/// Every figure that can be tapped opens its working at the step that gave it, in both languages.
#[tokio::test]
async fn every_figure_opens_to_its_working() -> Outcome {
    let site = Site::serve().await?;
    for language in ["en-US", "es-MX"] {
        let phone = Phone::start(390, 844, language).await?;
        for (place, least) in
            [("#mix", 8), ("#floor/ready", 1), ("#floor/load", 6), ("#floor/after", 7)]
        {
            phone.open(&format!("{}{place}", site.address)).await?;
            if place == "#floor/ready" {
                phone.type_into("ask-humidity-0", "50").await?;
            }
            phone.element(".figure").await?;
            let count: usize = phone
                .script("return String(document.querySelectorAll('.figure').length)")
                .await?
                .parse()?;
            assert!(count >= least, "{place} has {count} figures in {language}");
            for i in 0..count {
                let shown = format!(
                    "const figure = document.querySelectorAll('.figure')[{i}]; \
                     if (!window.tapped || window.tapped !== '{place}{i}') {{ \
                       document.activeElement.blur(); window.tapped = '{place}{i}'; figure.click(); }} \
                     const step = document.activeElement; \
                     const fold = step.closest('.how[open]'); \
                     return String(Boolean(fold && step.dataset.step && \
                       step.textContent.length > 20 && !step.textContent.includes('{{')))"
                );
                phone.until(&shown, "true").await?;
            }
            assert_eq!(phone.overhang().await?, 0, "{place}");
        }
        phone.quit().await?;
    }
    Ok(())
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
    let (material, air) = (job.conditions.mixed(), job.conditions.air);
    let pail = job.product.pail(batch.measured.mass, &job.gear.vessel, material, air)?;
    let can_pass = job.product.can_pass(&pail, batch.measured.mass)?;
    let hottest = can_pass.temperature.get::<unit::degree_fahrenheit>().ceil();
    let said = phone.text("#mix-peak").await?;
    assert!(said.contains(&format!("{hottest} °F")), "{said:?} is not {hottest} °F");
    // An attribute keeps the space that does not break a line.
    let after = phone.script(shown).await?.replace('\u{a0}', " ");
    // Warmed by the drill, which the reading of the cans has not in it.
    let mixed = format!("{:.0} °F", material.get::<unit::degree_fahrenheit>());
    assert!(after != before && after.contains(&mixed) && after.contains(&said), "{after}");
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

/// A floor of two rectangles with a wall: bands, tape and clock are the calculation's; a batch
/// that ended short changes the rest; the next one goes over to the Mix screen.
#[tokio::test]
#[expect(clippy::too_many_lines, reason = "one story, told in one go")]
async fn a_floor_is_planned_and_planned_again() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    assert_eq!(phone.overhang().await?, 0);
    phone.tap(".questions .button", "Add floor").await?;
    for (id, text) in [("thing-1-0", "12"), ("thing-1-1", "7'6\""), ("thing-1-3", "20")] {
        phone.type_into(id, text).await?;
    }
    phone.tap(".question summary", "Walls").await?;
    phone.tap(".questions .button", "Add a stem wall").await?;
    phone.element("#thing-2-0").await?;

    let plan = Floor::try_from(&l_shape())?;
    let coat = plan.plan(&plan.coats[0]);
    let drawn = "return document.querySelector('svg.plan').getAttribute('aria-label')";
    let said = phone.script(drawn).await?;
    for (i, placed) in coat.batches.iter().enumerate() {
        let Place::Flat { to, .. } = placed.place else { continue };
        let band = format!("{} to {}", i + 1, feet_and_inches(to));
        assert!(said.contains(&band), "{band:?} is not in {said:?}");
    }
    assert_eq!(coat.batches[0].place, Place::Verticals);
    let first = phone.text(".batch-mix").await?;
    assert!(first.starts_with("1. 8:00 am: mix "), "{first}");
    let list = phone.script("return String(document.querySelectorAll('.batch').length)").await?;
    assert_eq!(list, coat.batches.len().to_string());

    // The walls are a batch like any other: its split and times, brushed by the same people.
    let (_, planned) = first.split_once("mix ").ok_or("no amount")?;
    phone.tap(".batch .button", "Split and times").await?;
    assert_eq!(phone.text("#mix-amount").await?, planned);
    let where_to = phone.text("#mix-tape").await?;
    assert!(where_to.contains("walls and steps, by brush"), "{where_to}");
    phone.tap(".place", "Floor").await?;

    // Walls are down, then the first band: it ended a foot short of the tape.
    phone.tap(".batch .button", "This one is down").await?;
    let before = phone.changed(".batch-mix", &first).await?;
    assert!(before.starts_with("2. "), "{before}");
    phone.tap(".batch .button", "This one is down").await?;
    let after = phone.changed(".batch-mix", &before).await?;
    assert!(after.starts_with("3. "), "{after}");
    let Place::Flat { from, to, .. } = coat.batches[1].place else {
        panic!("{:?}", coat.batches[1])
    };
    let short = to - Length::new::<unit::foot>(1.0);
    phone.type_into("down-ended-0", &format!("{} in", short.get::<unit::inch>().floor())).await?;
    let said = phone.text(".caution").await?;
    let thicker = (to - from) / Length::new::<unit::foot>(1.0).max(short - from);
    assert!(said.contains("thicker than planned") && thicker.value > 1.0, "{said}");
    phone.reload().await?;
    let kept = phone.script("return document.getElementById('down-ended-0').value").await?;
    assert!(kept.ends_with(" in"), "{kept}");

    let planned = phone.text(".batch-mix").await?;
    let (_, planned) = planned.split_once("mix ").ok_or("no amount")?;
    phone.tap(".batch .button", "Split and times").await?;
    // Laid thicker than planned, with edges to cut in: the same batch, to the cup.
    assert_eq!(phone.text("#mix-amount").await?, planned);
    let tape = phone.text("#mix-tape").await?;
    assert!(tape.contains("from the back wall"), "{tape}");
    let slab = phone.script("return document.getElementById('ask-slab').value").await?;
    assert_eq!(slab, "74");

    // A crack of its own measures goes over as what it is.
    phone.tap(".place", "Floor").await?;
    phone.tap(".question summary", "Cracks").await?;
    phone.tap(".questions .button", "Add cracks").await?;
    let cracks = [("thing-3-0", "35"), ("thing-3-1", "3/8"), ("thing-3-2", "3/4")];
    for (id, text) in cracks {
        phone.type_into(id, text).await?;
    }
    phone.tap(".question summary", "Coats").await?;
    phone.set("coat-product-1", "0").await?;
    phone.set("coat-shown", "1").await?;
    let first = phone.changed(".batch-mix", &first).await?;
    let (_, planned) = first.split_once("mix ").ok_or("no amount")?;
    phone.tap(".batch .button", "Split and times").await?;
    assert_eq!(phone.text("#mix-amount").await?, planned);
    let tape = phone.text("#mix-tape").await?;
    assert!(tape.contains("to 35 ft along its cracks"), "{tape}");

    // What cannot be is said, and nothing typed is lost.
    phone.tap(".place", "Floor").await?;
    phone.type_into("thing-1-3", "21").await?;
    let said = phone.text(".answer .no-answer").await?;
    assert!(
        said.contains("21 ft from the back wall and 0 ft from the left does not touch"),
        "{said}"
    );
    phone.type_into("thing-1-3", "far").await?;
    let said = phone.text(".answer .no-answer").await?;
    assert!(said.contains("From the back wall: not a number"), "{said}");
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

/// That floor as the calculation is asked for it without the app.
fn l_shape() -> FloorRecord {
    let mut floor = fresh::floor();
    floor.flat = vec![fresh::rectangle(0.0, 20.0, 20.0), fresh::rectangle(20.0, 12.0, 7.5)];
    floor.stem_walls = vec![StemWallRecord { length_m: m(20.0), height_m: m(0.5) }];
    floor
}

/// A distance as the screen says it: whole inches, rounded down.
fn feet_and_inches(length: Length) -> String {
    let inches = (length.get::<unit::inch>() + 1e-5).floor();
    let (feet, inches) = ((inches / 12.0).floor(), inches.rem_euclid(12.0));
    if inches == 0.0 { format!("{feet} ft") } else { format!("{feet} ft {inches} in") }
}
