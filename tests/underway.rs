//! A batch under way in a real browser: the phone's clock moved on, the page killed at each stage.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::fs;
use std::time::Duration;

use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Volume, minutes, unit};
use pailwise_calc::running::{Running, Stage};
use pailwise_tests::browser::{Outcome, Phone, Site, folder};
use pailwise_tests::fresh;

/// Makes the phone's clock movable: so many milliseconds on, kept beside the app's own records.
const MOVABLE: &str = "const real = Date.now.bind(Date); \
    Date.now = () => real() + Number(localStorage.getItem('test-clock') || 0);";

async fn phone(site: &Site) -> Outcome<Phone> {
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.before_every_page(MOVABLE).await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    Ok(phone)
}

/// Moves the phone's clock on, or back.
async fn move_on(phone: &Phone, ms: f64) -> Outcome {
    phone
        .script(&format!(
            "localStorage.setItem('test-clock', \
             Number(localStorage.getItem('test-clock') || 0) + {ms}); return ''"
        ))
        .await?;
    // The watch looks four times a second.
    tokio::time::sleep(Duration::from_millis(700)).await;
    Ok(())
}

/// The batch that a fresh phone plans, and its deadlines.
fn planned() -> (Volume, Running) {
    let job = Job::try_from(&fresh::job()).unwrap();
    let volume = job.next_batch().unwrap().measured.volume;
    (volume, job.running(volume, None).unwrap())
}

/// Seconds on a countdown such as `4:05` or `+0:12`.
fn seconds(text: &str) -> f64 {
    let (sign, text) = text.strip_prefix('+').map_or((1.0, text), |over| (-1.0, over));
    let (minutes, seconds) = text.split_once(':').expect("minutes and seconds");
    sign * (minutes.parse::<f64>().unwrap() * 60.0 + seconds.parse::<f64>().unwrap())
}

/// Waits until the countdown shows what is left until so many seconds after A met B, both read in
/// one step: how fast the machine is makes no difference.
async fn counts_to(phone: &Phone, by: f64) -> Outcome {
    const BOTH: &str = "const count = document.querySelector('.run-count'); \
        const run = Object.keys(localStorage).find(key => key.startsWith('pailwise/run/')); \
        if (!count || !run) return ''; \
        const met = JSON.parse(localStorage.getItem(run)).record.met_at_ms; \
        return `${count.textContent}|${(Date.now() - met) / 1000}`";
    let mut seen = String::new();
    for _ in 0..300 {
        seen = phone.script(BOTH).await?;
        if let Some((count, gone)) = seen.split_once('|') {
            let left = by - gone.parse::<f64>().unwrap();
            // A countdown is rounded down to the second, and looked at four times a second.
            if (-1.0..=1.0).contains(&(seconds(count) - left)) {
                return Ok(());
            }
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    Err(format!("counted and gone: {seen}; wanted {by} s").into())
}

/// From A meets B to the log: each stage's countdown is the calculation's, and a page that is
/// killed at any stage comes back as it was.
#[tokio::test]
async fn a_batch_runs_through_its_stages_and_outlives_the_page() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "A meets B now").await?;
    let mut gone = 0.0;
    for due in &running.stages {
        let by = due.by.get::<unit::second>();
        // To a minute before it is due; two stages of the pail may end within one.
        let ahead = (by - 60.0 - gone).max(0.0);
        move_on(&phone, ahead * 1000.0).await?;
        gone += ahead;
        counts_to(&phone, by).await?;
        phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
        counts_to(&phone, by).await?;
        phone.tap(".stage-next .stage-tap", "Done").await?;
        phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
        let done = phone.script("return String(document.querySelectorAll('.stage-done').length)");
        let at = running.stages.iter().position(|d| d.stage == due.stage).unwrap();
        assert_eq!(done.await?, (at + 1).to_string(), "{:?}", due.stage);
    }
    assert_eq!(phone.overhang().await?, 0);
    phone.tap(".run .button", "into the log").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("Practice Base 2:1") && line.contains("145 sq ft"), "{line}");
    phone.tap("#undo", "Undo").await?;
    phone.element(".run").await?;
    phone.quit().await
}

/// Late, to be poured out, lost: said louder each time, over everything, wherever one is.
#[tokio::test]
async fn what_stays_in_the_pail_fills_the_screen() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    let ms = |time: pailwise_calc::quantity::Time| time.get::<unit::millisecond>();
    move_on(&phone, ms(running.stages[0].by)).await?;
    phone.element(".run-late").await?;
    // The big figure is now the time left in the pail.
    let left = seconds(&phone.text(".run-count").await?);
    let limit = (running.pour_out - running.stages[0].by).get::<unit::second>();
    assert!(left <= limit && limit - left < 20.0, "{left} s of {limit} s");
    phone.tap(".place", "Products").await?;
    move_on(&phone, ms(running.pour_out - running.stages[0].by)).await?;
    let said = phone.text(".alarm").await?;
    assert!(said.contains("Pour it out now") && said.contains("No lid, no water"), "{said}");
    phone.reload().await?;
    phone.element(".alarm").await?;
    // Looked at and left, it comes back when the next limit is passed.
    phone.tap(".alarm-quiet", "").await?;
    until_gone(&phone).await?;
    move_on(&phone, ms(running.pot_life - running.pour_out)).await?;
    let said = phone.text(".alarm h2").await?;
    assert_eq!(said, "Past its pot life");
    let which = phone.text(".alarm-which").await?;
    assert!(which.contains("Practice Base 2:1, 1 gal 2 qt"), "{which}");
    // A clock set back gives nothing back, and is said.
    move_on(&phone, -ms(minutes(120.0))).await?;
    assert_eq!(phone.text(".alarm h2").await?, "Past its pot life");
    let notices = "return [...document.querySelectorAll('.notice')].map(n => n.textContent).join()";
    assert!(phone.script(notices).await?.contains("was set back"));
    // Past its pot life it is not laid any more: out of the pail, and into the log as that.
    phone.tap("#alarm-empty", "thrown away").await?;
    phone.tap(".place", "Clock").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("thrown away"), "{line}");
    phone.quit().await
}

/// Out of the pail in time and then left lying: what counts is the film, and once it has closed
/// nobody is sent into it.
#[tokio::test]
async fn a_film_that_closes_unflaked_is_said() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    for _ in [Stage::Mix, Stage::Empty, Stage::Roll] {
        phone.tap(".stage-next .stage-tap", "Done").await?;
    }
    let said = phone.text(".run").await?;
    assert!(said.contains("It closes at"), "{said}");
    let ms = |time: pailwise_calc::quantity::Time| time.get::<unit::millisecond>();
    // Emptied at once: the limit is that of the plan.
    move_on(&phone, ms(running.finish_by - minutes(2.0))).await?;
    assert_eq!(phone.text(".run-of").await?, "until all of it must be done");
    move_on(&phone, ms(running.closes - running.finish_by)).await?;
    assert_eq!(phone.text(".run-of").await?, "until the film closes");
    assert!(phone.text(".run-words").await?.contains("throw the flake"));
    move_on(&phone, ms(minutes(2.0))).await?;
    phone.element(".run-closed").await?;
    let said = phone.text(".run-words").await?;
    assert!(said.contains("Do not roll or flake into it"), "{said}");
    // Done all the same: it stays said, here and in the log.
    phone.tap(".stage-next .stage-tap", "Done").await?;
    phone.element("#film-was-closed").await?;
    phone.tap(".run .button", "into the log").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("Its film closed before it was finished"), "{line}");
    phone.quit().await
}

async fn until_gone(phone: &Phone) -> Outcome {
    for _ in 0..60 {
        if phone.script("return String(document.querySelectorAll('.alarm').length)").await? == "0" {
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    Err("the alarm stays".into())
}

/// Warmer than typed: the deadlines come closer; two batches run beside each other, in two tabs.
#[tokio::test]
async fn corrected_temperatures_two_batches_and_two_tabs() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    phone.tap("#start", "").await?;
    let before = phone.text(".run .small:nth-of-type(2)").await.unwrap_or_default();
    let limit =
        "return [...document.querySelectorAll('.run .small')].map(e => e.textContent).join('|')";
    let cool = phone.script(limit).await?;
    phone.tap(".run .button", "temperatures were different").await?;
    for id in ["correct-ask-air", "correct-ask-material"] {
        phone.type_into(id, "95").await?;
    }
    phone.tap(".run .button", "Count with these").await?;
    let warm = phone.script(limit).await?;
    assert!(cool != warm && cool.contains("Never in the pail past"), "{before}{cool} / {warm}");
    phone.tap(".place", "Mix").await?;
    phone.tap("#start", "").await?;
    let count = "return String(document.querySelectorAll('.run').length)";
    assert_eq!(phone.script(count).await?, "2");
    phone.open_second_tab(&format!("{}#clock", site.address)).await?;
    assert_eq!(phone.script(count).await?, "2");
    phone.tap(".stage-next .stage-tap", "Done").await?;
    phone.first_tab().await?;
    phone.element(".stage-done").await?;
    phone.quit().await
}

/// What is written about a batch is kept with what stood there before; the table is one that
/// another program reads; the floor goes on from where the batch ended.
#[tokio::test]
async fn the_log_is_written_searched_and_taken_away() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.tap(".batch .button", "Split and times").await?;
    phone.type_into("ask-humidity", "45").await?;
    phone.tap("#start", "").await?;
    // More batches follow on this floor, and the plan says when.
    let next = phone.text(".next-mix").await?;
    assert!(next.contains("Start the next mix in"), "{next}");
    let (_, running) = planned();
    for stage in [Stage::Mix, Stage::Empty, Stage::Roll, Stage::Flake] {
        assert!(running.stages.iter().any(|due| due.stage == stage));
        move_on(&phone, 5.0 * 60_000.0).await?;
        phone.tap(".stage-next .stage-tap", "Done").await?;
    }
    phone.tap(".run .button", "into the log").await?;
    phone.tap(".log-row summary", "").await?;
    let id = phone
        .script(
            "return Object.keys(localStorage).find(k => k.startsWith('pailwise/log/')).slice(13)",
        )
        .await?;
    phone.type_into(&format!("log-lots-{id}"), "A 4471, B \"12\"").await?;
    phone.type_into(&format!("log-floor-{id}"), "Practice garage, north").await?;
    phone.type_into(&format!("log-area-{id}"), "130").await?;
    let said = phone.text(".log-row").await?;
    assert!(said.contains("One person rolled"), "{said}");
    phone.type_into("log-search", "north").await?;
    let rows = "return String(document.querySelectorAll('.log-row').length)";
    assert_eq!(phone.script(rows).await?, "1");
    phone.type_into("log-search", "nowhere").await?;
    assert_eq!(phone.script(rows).await?, "0");
    phone.type_into("log-search", "").await?;

    let folder = folder(env!("CARGO_TARGET_TMPDIR"), "log")?;
    phone.download_into(&folder).await?;
    phone.tap("#log-csv", "").await?;
    let mut text = String::new();
    for _ in 0..100 {
        let file =
            fs::read_dir(&folder)?.flatten().find(|f| f.path().extension() == Some("csv".as_ref()));
        text = file.and_then(|file| fs::read_to_string(file.path()).ok()).unwrap_or_default();
        if !text.is_empty() {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    let mut table = csv::Reader::from_reader(text.as_bytes());
    let head = table.headers()?.clone();
    let row = table.records().next().ok_or("no row")??;
    let cell = |name: &str| &row[head.iter().position(|h| h == name).unwrap()];
    assert_eq!(cell("lots"), "A 4471, B \"12\"");
    assert_eq!((cell("floor"), cell("humidity")), ("Practice garage, north", "45"));
    // 130 sq ft (NIST SP 811, appendix B).
    assert_eq!(cell("covered_m2"), "12.08");
    assert!(!cell("mixed_at").is_empty() && cell("ended") == "laid");

    phone.tap(".place", "Floor").await?;
    let down = phone.script("return document.getElementById('down-ended-0')?.value || ''").await?;
    assert!(!down.is_empty(), "the floor does not know that the batch is down");
    // Where it really ended goes into the log: 6 ft of a floor 20 ft wide are 11.148 m².
    phone.type_into("down-ended-0", "6 ft").await?;
    let page = format!("return localStorage.getItem('pailwise/log/{id}')");
    let page = phone.script(&page).await?;
    assert!(page.contains("11.148"), "{page}");
    // Mix does not offer it again.
    phone.tap(".place", "Mix").await?;
    phone.element("#mix-is-down").await?;
    assert!(phone.none("#start.button-deed").await?);

    // The next one stands too long and is thrown away: the floor knows that it is gone.
    phone.tap(".place", "Floor").await?;
    phone.tap(".batch .button", "Split and times").await?;
    phone.tap("#start", "").await?;
    phone.element(".run").await?;
    move_on(&phone, 3.0 * 3_600_000.0).await?;
    phone.tap("#alarm-empty", "thrown away").await?;
    phone.tap(".place", "Floor").await?;
    let down = phone.text(".down").await?;
    assert!(down.contains("Thrown away: "), "{down}");
    phone.quit().await
}

/// A cup set aside from a batch outlives it, tells that its lot is fast, and the next batch has less
/// time; forgotten, or another lot in hand, the sheet counts again.
#[tokio::test]
async fn a_cup_set_aside_tells_how_its_lot_runs() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let latest = phone.text("#mix-latest").await?;
    phone.tap("#start", "").await?;
    phone.tap(".set-cup .button", "").await?;
    phone.element(".cup").await?;
    assert!(phone.none(".set-cup .button").await?, "a batch has one cup");
    phone.tap(".run .button", "thrown away").await?;
    phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
    move_on(&phone, 12.0 * 60_000.0).await?;
    phone.tap(".cup .button-deed", "").await?;
    // What was seen stands on the page of the lot.
    let seen = phone.text("#lot-seen").await?;
    assert!(seen.contains("gone after 12 min"), "{seen}");
    let runs = phone.text("#lot-runs").await?;
    assert!(runs.contains("times as fast as its sheet"), "{runs}");
    assert!(phone.none(".cup").await?);
    phone.tap("#lot .button", "Mix").await?;
    phone.element("#mix-lot").await?;
    let fast = phone.text("#mix-latest").await?;
    assert_ne!(fast, latest);
    phone.tap("#mix-lot a", "").await?;
    phone.type_into("lot-number", "4471 B").await?;
    assert!(phone.text("#lot-runs").await?.contains("Nothing seen"));
    phone.type_into("lot-number", "").await?;
    assert_eq!(phone.text("#lot-runs").await?, runs);
    phone.tap("#lot-seen .button", "Forget").await?;
    assert!(phone.text("#lot-runs").await?.contains("Nothing seen"));
    phone.tap("#undo", "").await?;
    assert_eq!(phone.text("#lot-runs").await?, runs);
    phone.tap("#lot-seen .button", "Forget").await?;
    phone.tap("#lot .button", "Mix").await?;
    assert_eq!(phone.text("#mix-latest").await?, latest);
    phone.quit().await
}

/// A phone that is put away is notified by the worker, in words.
#[tokio::test]
async fn a_phone_put_away_is_notified() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.allow_notifications(&site.address).await?;
    phone.before_every_page(MOVABLE).await?;
    let away = "Object.defineProperty(document, 'hidden', { get: () => window.isAway === true })";
    phone.before_every_page(away).await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.element("#kept-here").await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    phone.element(".run").await?;
    let notified = "const [done] = arguments; navigator.serviceWorker.ready \
                    .then(worker => worker.getNotifications()) \
                    .then(all => done(all.map(one => one.title).join(' | ')))";
    assert_eq!(phone.later(notified).await?, "");
    phone.script("window.isAway = true; return ''").await?;
    move_on(&phone, running.pour_out.get::<unit::millisecond>()).await?;
    let mut said = String::new();
    for _ in 0..40 {
        said = phone.later(notified).await?;
        if !said.is_empty() {
            break;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    assert_eq!(said, "Practice Base 2:1: pour it out now");
    phone.quit().await
}
