//! What calls for attention, tried with stand-ins that write down what is asked of them: sound,
//! voice, vibration and the screen kept on, in every stage and language.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::time::Duration;

use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Time, minutes, unit};
use pailwise_calc::running::{Poured, Running, Stage};
use pailwise_kept::text::{Language, key};
use pailwise_tests::browser::{Outcome, Phone, Site};
use pailwise_tests::fresh;

/// A movable clock, and stand-ins in the place of what a phone sounds, speaks and shakes with.
const STAND_INS: &str = "const real = Date.now.bind(Date); \
    Date.now = () => real() + Number(localStorage.getItem('test-clock') || 0); \
    window.calls = []; \
    const put = (of, name, value) => \
        Object.defineProperty(of, name, { configurable: true, get: () => value }); \
    const node = () => ({ connect() {}, frequency: {}, gain: {}, start() {}, stop() {} }); \
    window.AudioContext = class { \
        currentTime = 0; \
        destination = {}; \
        resume() { return Promise.resolve(); } \
        createOscillator() { window.calls.push('beep'); return node(); } \
        createGain() { return node(); } \
    }; \
    put(window, 'speechSynthesis', \
        { speak: said => window.calls.push(`say ${said.lang}: ${said.text}`) }); \
    put(navigator, 'vibrate', length => { window.calls.push(`shake ${length}`); return true; }); \
    put(navigator, 'wakeLock', { request: what => { \
        window.calls.push(`awake ${what}`); \
        return Promise.resolve({ release() { window.calls.push('sleep'); } }); \
    } });";

/// What was asked of the stand-ins since the last look, once something that was said contains a
/// text.
async fn called(phone: &Phone, text: &str) -> Outcome<Vec<String>> {
    let mut calls = String::new();
    for _ in 0..300 {
        calls = phone.script("return window.calls.join('|')").await?.replace('\u{a0}', " ");
        if calls.contains(text) {
            phone.script("window.calls = []; return ''").await?;
            return Ok(calls.split('|').map(str::to_owned).collect());
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    Err(format!("{text:?} is not among {calls:?}").into())
}

async fn move_to(phone: &Phone, at: &mut Time, to: Time) -> Outcome {
    let ms = (to - *at).get::<unit::millisecond>().max(0.0);
    *at = to.max(*at);
    let on = "localStorage.setItem('test-clock', Number(localStorage.getItem('test-clock') || 0)";
    phone.script(&format!("{on} + {ms}); return ''")).await?;
    Ok(())
}

fn count(calls: &[String], what: &str) -> usize {
    calls.iter().filter(|call| call.starts_with(what)).count()
}

/// A batch left in its pail: each stage, what is late, the last minutes, and each alarm is sounded,
/// said in the language of the phone, and shaken.
async fn a_batch_left_standing(language: Language, tag: &str) -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, tag).await?;
    phone.before_every_page(STAND_INS).await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    let job = Job::try_from(&fresh::job())?;
    let volume = job.next_batch()?.measured.volume;
    let running: Running = job.running(volume, &Poured::default())?;
    phone.tap("#start", "").await?;
    called(&phone, "awake screen").await?;
    let (mut at, mut name) = (Time::default(), phone.text(".run-head").await?);
    name.truncate(name.find(" ·").ok_or("no name")?);
    let say = |text: &'static str, minutes: &str| {
        let figures = [("name", name.as_str()), ("minutes", minutes)];
        format!("say {}: {}", language.tag(), language.say(text, &figures))
    };
    // Nothing is startled by what was on the screen already; each next stage is said once.
    phone.tap(".stage-next .stage-tap", "").await?;
    let calls = called(&phone, &say(key::CALL_EMPTY, "")).await?;
    assert_eq!((count(&calls, "beep"), count(&calls, "shake 200")), (1, 1), "{calls:?}");
    let last_pour = running.pours[0].by;
    move_to(&phone, &mut at, last_pour - minutes(4.5)).await?;
    let calls = called(&phone, &say(key::CALL_SOON, "5")).await?;
    assert_eq!((count(&calls, "beep"), count(&calls, "shake 500")), (2, 1), "{calls:?}");
    move_to(&phone, &mut at, last_pour - minutes(1.5)).await?;
    called(&phone, &say(key::CALL_SOON, "2")).await?;
    move_to(&phone, &mut at, last_pour).await?;
    let part = language.say(key::CALL_PART, &[("name", &name), ("volume", "?")]);
    let part = part.split('?').next().unwrap_or_default().to_owned();
    let calls = called(&phone, &part).await?;
    assert_eq!((count(&calls, "beep"), count(&calls, "shake 1500")), (6, 1), "{calls:?}");
    move_to(&phone, &mut at, running.pours.last().unwrap().by).await?;
    called(&phone, &say(key::CALL_POUR_OUT, "")).await?;
    // Again and again, until it is out.
    called(&phone, &say(key::CALL_POUR_OUT, "")).await?;
    move_to(&phone, &mut at, running.pot_life).await?;
    called(&phone, &say(key::CALL_PAST, "")).await?;
    phone.tap("#alarm-empty", "").await?;
    called(&phone, "sleep").await?;

    // Another, poured in time and left to close.
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.tap("#start", "").await?;
    for (stage, said) in [(Stage::Empty, key::CALL_EMPTY), (Stage::Roll, key::CALL_ROLL)] {
        phone.tap(".stage-next .stage-tap", "").await?;
        called(&phone, &say(said, "")).await.map_err(|why| format!("{stage:?}: {why}"))?;
    }
    phone.tap(".stage-next .stage-tap", "").await?;
    called(&phone, &say(key::CALL_FLAKE, "")).await?;
    move_to(&phone, &mut Time::default(), running.next_mix).await?;
    called(&phone, &say(key::CALL_NEXT_MIX, "")).await?;
    move_to(&phone, &mut Time::default(), minutes(120.0)).await?;
    let calls = called(&phone, &say(key::CALL_CLOSED, "")).await?;
    assert_eq!((count(&calls, "beep"), count(&calls, "shake 500")), (2, 1), "{calls:?}");
    phone.quit().await
}

#[tokio::test]
async fn it_is_called_out_in_english() -> Outcome {
    a_batch_left_standing(Language::En, "en-US").await
}

#[tokio::test]
async fn it_is_called_out_in_spanish() -> Outcome {
    a_batch_left_standing(Language::Es, "es-US").await
}
