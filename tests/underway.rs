//! A batch under way in a real browser: the phone's clock moved on, the page killed at each stage.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::fs;
use std::time::Duration;

use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Volume, minutes, unit};
use pailwise_calc::record::read;
use pailwise_calc::running::{Limit, Poured, Running, Stage};
use pailwise_kept::envelope;
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::show::Reader;
use pailwise_kept::text::Language;
use pailwise_kept::units::Units;
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
    (volume, job.running(volume, &Poured::default()).unwrap())
}

/// What the screen says of that batch: its amount, and the area it is for.
fn on_screen() -> (String, String) {
    let (volume, running) = planned();
    let reader = Reader { language: Language::En, units: Units::Us };
    let plain = |text: String| text.replace('\u{a0}', " ");
    (plain(reader.volume(volume)), plain(reader.area(running.area)))
}

/// Seconds on a countdown such as `4 min 05 s`, `45 s`, `1 h 02 min` or `+12 s`.
fn seconds(text: &str) -> f64 {
    let (sign, text) = text.strip_prefix('+').map_or((1.0, text), |over| (-1.0, over));
    let words: Vec<&str> = text.split_whitespace().collect();
    let of = |pair: &[&str]| {
        let unit = match pair[1] {
            "h" => 3600.0,
            "min" => 60.0,
            unit => {
                assert_eq!(unit, "s", "{text}");
                1.0
            }
        };
        pair[0].parse::<f64>().unwrap() * unit
    };
    sign * words.chunks(2).map(of).sum::<f64>()
}

/// The batch under way as the phone keeps it.
async fn run_of(phone: &Phone) -> Outcome<RunRecord> {
    let kept = "const key = Object.keys(localStorage).find(key => key.startsWith('pailwise/run/')); \
                return localStorage.getItem(key) || ''";
    let text = phone.script(kept).await?;
    Ok(read(envelope::unwrap(&text).map_err(|why| format!("{why:?}"))?, "pailwise-run")
        .map_err(|why| format!("{why:?}"))?)
}

/// Waits until the countdown shows what is left of the limit that counts, both read in one step:
/// how fast the machine is makes no difference.
async fn counts_down(phone: &Phone) -> Outcome<Limit> {
    const BOTH: &str = "const count = document.querySelector('.run-count'); \
        return count ? `${count.textContent}|${Date.now()}` : ''";
    let mut seen = String::new();
    for _ in 0..300 {
        let run = run_of(phone).await?;
        let running = run.running()?;
        let (limit, by) = running.limit(|stage| run.is_done(stage)).ok_or("all done")?;
        seen = phone.script(BOTH).await?;
        if let Some((count, now)) = seen.split_once('|') {
            let left = (by - run.since(now.parse()?)).get::<unit::second>();
            // A countdown is rounded down to the second, and looked at four times a second.
            if (-2.0..=1.0).contains(&(seconds(count) - left)) {
                return Ok(limit);
            }
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    Err(format!("counted, at: {seen}").into())
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
        let limit = counts_down(&phone).await?;
        let in_pail = due.stage <= Stage::Empty;
        assert_eq!(limit, if in_pail { Limit::LastPour } else { Limit::Film }, "{:?}", due.stage);
        phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
        counts_down(&phone).await?;
        phone.tap(".stage-next .stage-tap", "Done").await?;
        phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
        let done = phone.script("return String(document.querySelectorAll('.stage-done').length)");
        let at = running.stages.iter().position(|d| d.stage == due.stage).unwrap();
        assert_eq!(done.await?, (at + 1).to_string(), "{:?}", due.stage);
    }
    assert_eq!(phone.overhang().await?, 0);
    phone.tap(".run .button", "into the log").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("Practice Base 2:1") && line.contains(&on_screen().1), "{line}");
    phone.tap("#undo", "Undo").await?;
    phone.element(".run").await?;
    phone.quit().await
}

/// Late, in part, not at all, lost: said louder each time, over everything, wherever one is.
#[tokio::test]
async fn what_stays_in_the_pail_fills_the_screen() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    let ms = |time: pailwise_calc::quantity::Time| time.get::<unit::millisecond>();
    move_on(&phone, ms(running.stages[0].by)).await?;
    phone.element(".run-late").await?;
    // However late the stage is, the figure goes on down to the last pour.
    assert_eq!(counts_down(&phone).await?, Limit::LastPour);
    phone.tap(".place", "Products").await?;
    let strip = phone.text(".under-way-line").await?;
    assert!(strip.contains("until the last pour"), "{strip}");
    let (all, none) = (running.pours[0].by, running.pours.last().unwrap().by);
    move_on(&phone, ms(all - running.stages[0].by)).await?;
    let said = phone.text(".alarm").await?;
    assert!(said.contains("Not all of it fits") && said.contains("no more than"), "{said}");
    assert!(said.contains("No lid, no water"), "{said}");
    phone.reload().await?;
    phone.element(".alarm").await?;
    // Looked at and left, it comes back when the next limit is passed: nothing of it onto the floor.
    phone.tap(".alarm-quiet", "To the clock").await?;
    until_gone(&phone).await?;
    move_on(&phone, ms(none - all)).await?;
    let said = phone.text(".alarm").await?;
    assert!(
        said.contains("Not on this floor any more") && !said.contains("nto the floor"),
        "{said}"
    );
    phone.tap(".alarm-quiet", "To the clock").await?;
    until_gone(&phone).await?;
    move_on(&phone, ms(running.pot_life - none)).await?;
    assert_eq!(phone.text(".alarm h2").await?, "Past its pot life");
    let which = phone.text(".alarm-which").await?;
    assert!(which.contains(&format!("Practice Base 2:1, {}", on_screen().0)), "{which}");
    // A clock set back gives nothing back, and is said; opened again, likewise.
    phone.reload().await?;
    for _ in 0..2 {
        move_on(&phone, -ms(minutes(120.0))).await?;
        assert_eq!(phone.text(".alarm h2").await?, "Past its pot life");
        let notices =
            "return [...document.querySelectorAll('.notice')].map(n => n.textContent).join()";
        assert!(phone.script(notices).await?.contains("was set back"));
        phone.reload().await?;
    }
    assert_eq!(phone.text(".alarm h2").await?, "Past its pot life");
    // Past its pot life it is not laid any more: out of the pail, and into the log as that.
    phone.tap("#alarm-empty", "thrown away").await?;
    phone.tap(".place", "Clock").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("thrown away"), "{line}");
    phone.quit().await
}

/// A clock that is wrong for a moment, while the page is open, leaves nothing behind.
#[tokio::test]
async fn a_clock_wrong_for_a_moment_spoils_no_batch() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    phone.tap("#start", "").await?;
    let met = run_of(&phone).await?.met_at_ms;
    for wrong in [-3_600_000.0, 3.2e11] {
        move_on(&phone, wrong).await?;
        move_on(&phone, -wrong).await?;
        assert_eq!(run_of(&phone).await?.met_at_ms, met);
        assert_eq!(counts_down(&phone).await?, Limit::LastPour);
        assert!(phone.none(".alarm").await?);
    }
    // Set back for good, what the page has counted since then is not lost when it is opened again.
    move_on(&phone, -3_600_000.0).await?;
    tokio::time::sleep(Duration::from_secs(15)).await;
    phone.reload().await?;
    counts_down(&phone).await?;
    let met = run_of(&phone).await?.met_at_ms;
    let now: f64 = phone.script("return String(Date.now())").await?.parse()?;
    // It is written down every five seconds.
    assert!(now - met >= 9_000.0, "{} s after A met B", (now - met) / 1000.0);
    // What the clock has shown is kept with a checksum: damaged, it moves nothing.
    for damaged in ["inf", "1e300", "9999999999999", "99999999999999999", ""] {
        let put = format!("localStorage.setItem('pailwise/latest', '{damaged}'); return ''");
        phone.script(&put).await?;
        phone.reload().await?;
        assert_eq!(run_of(&phone).await?.met_at_ms, met, "{damaged}");
        assert_eq!(counts_down(&phone).await?, Limit::LastPour);
    }
    phone.quit().await
}

/// Out of the pail in time and then left lying: what counts is the film, and once it has closed
/// nobody is sent into it.
#[tokio::test]
async fn a_film_that_closes_unflaked_is_said() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    phone.tap("#start", "").await?;
    for _ in [Stage::Mix, Stage::Empty, Stage::Roll] {
        phone.tap(".stage-next .stage-tap", "Done").await?;
    }
    let said = phone.text(".run").await?;
    assert!(said.contains("It closes at"), "{said}");
    let ms = |time: pailwise_calc::quantity::Time| time.get::<unit::millisecond>();
    let closes = run_of(&phone).await?.running()?.closes;
    move_on(&phone, ms(closes - minutes(2.0))).await?;
    assert_eq!(phone.text(".run-of").await?, "until the film closes");
    assert!(phone.text(".run-words").await?.contains("throw the flake"));
    move_on(&phone, ms(minutes(2.0))).await?;
    phone.element(".run-closed").await?;
    let said = phone.text(".run-words").await?;
    assert!(said.contains("Do not roll or flake into it"), "{said}");
    assert_eq!(phone.text(".run-of").await?, "since the film closed");
    // Done all the same: it stays said, here and in the log.
    phone.tap(".stage-next .stage-tap", "Done").await?;
    phone.element("#film-was-closed").await?;
    phone.tap(".run .button", "into the log").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(line.contains("Its film closed before it was finished"), "{line}");
    phone.quit().await
}

/// A tap that was forgotten with resin on the gloves is told afterwards: on the clock, past the pot
/// life, and in the log.
#[tokio::test]
async fn what_was_forgotten_is_told_afterwards() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    move_on(&phone, (running.pot_life + minutes(1.0)).get::<unit::millisecond>()).await?;
    phone.tap(".alarm-quiet", "To the clock").await?;
    until_gone(&phone).await?;
    phone.tap(".tell", "").await?;
    let at = |after: f64| {
        format!(
            "const key = Object.keys(localStorage).find(key => key.startsWith('pailwise/run/')); \
             const met = JSON.parse(localStorage.getItem(key)).record.met_at_ms; \
             const at = new Date(met + {after} * 60000); \
             const two = n => String(n).padStart(2, '0'); \
             return `${{two(at.getHours())}}:${{two(at.getMinutes())}}`"
        )
    };
    // Before A met B nothing was poured.
    let before = phone.script(&at(-5.0)).await?;
    phone.set("tell-time", &before).await?;
    phone.tap("#tell-accept", "").await?;
    assert!(phone.text(".tell-body .field-problem").await?.contains("A met B at"));
    let poured = phone.script(&at(6.0)).await?;
    phone.set("tell-time", &poured).await?;
    phone.tap("#tell-accept", "").await?;
    let stages = phone.text(".stages").await?;
    assert!(stages.contains("Pail empty at"), "{stages}");
    let run = run_of(&phone).await?;
    assert!(run.told.len() == 1 && run.told[0].before_ms.is_none(), "{:?}", run.told);
    assert_eq!(counts_down(&phone).await?, Limit::Film);

    // Thrown away by a slip of the thumb: the log is put right, and keeps how it stood.
    phone.tap(".run .button", "Throw this batch away").await?;
    phone.tap(".log-row summary", "thrown away").await?;
    phone.tap(".log-turn", "It was laid after all").await?;
    let line = phone.text(".log-row summary").await?;
    assert!(!line.contains("thrown away") && line.contains(&on_screen().1), "{line}");
    let page = phone.text(".log-row").await?;
    assert!(page.contains("was “discarded”"), "{page}");
    phone.quit().await
}

/// A second phone takes a batch by its link and rings too; the lid says it in figures.
#[tokio::test]
async fn a_second_phone_counts_the_same_batch() -> Outcome {
    let site = Site::serve().await?;
    let phone = phone(&site).await?;
    let (_, running) = planned();
    phone.tap("#start", "").await?;
    phone.tap(".run .button-link", "Lid slip").await?;
    let lid = phone.text("#lid").await?;
    assert!(lid.contains("A met B") && lid.contains("Last pour"), "{lid}");
    phone.element("#second-phone svg").await?;
    assert_eq!(phone.overhang().await?, 0);
    let link = phone.script("return document.getElementById('share-link').value").await?;
    let other = Phone::start(390, 844, "en-US").await?;
    other.before_every_page(MOVABLE).await?;
    other.open(&link).await?;
    let shown = other.text("#take-run").await?;
    assert!(shown.contains(&format!("Practice Base 2:1, {}", on_screen().0)), "{shown}");
    other.tap("#take-accept", "").await?;
    other.element(".run").await?;
    assert_eq!(counts_down(&other).await?, Limit::LastPour);
    assert_eq!(run_of(&other).await?.met_at_ms, run_of(&phone).await?.met_at_ms);
    move_on(&other, running.pours[0].by.get::<unit::millisecond>()).await?;
    other.element(".alarm").await?;
    other.quit().await?;
    phone.quit().await
}

/// A browser that is killed, as by a dead battery, so long after the tap has its batch when it is
/// started again. `PAILWISE_KILLS` says how often each is tried.
#[tokio::test]
async fn a_dead_battery_loses_no_batch() -> Outcome {
    let times: u32 = std::env::var("PAILWISE_KILLS").map_or(Ok(1), |times| times.parse())?;
    let site = Site::serve().await?;
    let mut lost = Vec::new();
    for after_ms in [0, 500, 1_000, 2_000, 5_000, 20_000] {
        for n in 0..times {
            let profile = folder(env!("CARGO_TARGET_TMPDIR"), &format!("battery-{after_ms}-{n}"))?;
            let phone = Phone::with_profile(390, 844, "en-US", Some(&profile)).await?;
            phone.open(&format!("{}#mix", site.address)).await?;
            phone.tap("#start", "").await?;
            phone.element(".run").await?;
            tokio::time::sleep(Duration::from_millis(after_ms)).await;
            phone.kill();
            let phone = Phone::with_profile(390, 844, "en-US", Some(&profile)).await?;
            phone.open(&format!("{}#clock", site.address)).await?;
            if phone.element(".run").await.is_err() {
                lost.push(after_ms);
            }
            phone.quit().await?;
            fs::remove_dir_all(&profile)?;
        }
    }
    println!("six moments, {times} times each: lost {lost:?}");
    assert!(lost.is_empty(), "lost, so many milliseconds after the tap: {lost:?}");
    Ok(())
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
#[expect(clippy::too_many_lines, reason = "one story, told in one go")]
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
    phone.tap(".run .button", "Throw this batch away").await?;
    phone.crash(&format!("{}#clock", site.address), MOVABLE).await?;
    move_on(&phone, 25.0 * 60_000.0).await?;
    phone.tap(".cup .button-deed", "").await?;
    // What was seen stands on the page of the lot.
    let seen = phone.text("#lot-seen").await?;
    assert!(seen.contains("gone after 25 min"), "{seen}");
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
    assert!(said.starts_with("Practice Base 2:1: not on this floor any more"), "{said}");
    phone.quit().await
}
