//! Calling for attention: sound, voice, vibration, a notification, the screen kept awake. What a
//! phone cannot do is told once; nothing depends on it.

use std::cell::RefCell;

use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Function, Promise, Reflect};
use web_sys::{
    AudioContext, Notification, NotificationPermission, OscillatorType, SpeechSynthesisUtterance,
};

use crate::site;
use crate::text::{Language, key};

thread_local! {
    static AUDIO: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
    static AWAKE: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// How urgent a call is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Urgency {
    /// The next stage or the next mix is due: one beep.
    Stage,
    /// A stage is late.
    Late,
    /// Out of the pail, now.
    Alarm,
}

/// Makes ready, from the tap that starts a batch: only then do phones allow sound.
pub(crate) fn make_ready() {
    AUDIO.with_borrow_mut(|audio| {
        if audio.is_none() {
            *audio = AudioContext::new().ok();
        }
        if let Some(audio) = audio {
            // Where it will not sound, the words are still there.
            let _ = audio.resume();
        }
    });
    if has("Notification") && Notification::permission() == NotificationPermission::Default {
        // The answer is looked at when there is something to tell.
        let _ = Notification::request_permission();
    }
    keep_awake();
}

/// Calls: sounds, shakes, speaks, and notifies where the page is not looked at.
pub(crate) fn call(urgency: Urgency, words: &str, language: Language) {
    sound(urgency);
    shake(urgency);
    speak(words, language);
    notify(words);
}

fn sound(urgency: Urgency) {
    let (times, pitch) = match urgency {
        Urgency::Stage => (1, 660.0),
        Urgency::Late => (2, 780.0),
        Urgency::Alarm => (6, 1040.0),
    };
    AUDIO.with_borrow(|audio| {
        let Some(audio) = audio else { return };
        for beep in 0..times {
            // A sound that fails is not worth a word: the others follow.
            let _ = beep_at(audio, audio.current_time() + f64::from(beep) * 0.35, pitch);
        }
    });
}

fn beep_at(audio: &AudioContext, at: f64, pitch: f32) -> Result<(), JsValue> {
    let (tone, volume) = (audio.create_oscillator()?, audio.create_gain()?);
    tone.set_type(OscillatorType::Square);
    tone.frequency().set_value(pitch);
    volume.gain().set_value(0.25);
    tone.connect_with_audio_node(&volume)?;
    volume.connect_with_audio_node(&audio.destination())?;
    tone.start_with_when(at)?;
    tone.stop_with_when(at + 0.22)
}

fn shake(urgency: Urgency) {
    if !can("vibrate") {
        return;
    }
    let length = match urgency {
        Urgency::Stage => 200,
        Urgency::Late => 500,
        Urgency::Alarm => 1500,
    };
    window().navigator().vibrate_with_duration(length);
}

fn speak(words: &str, language: Language) {
    let Ok(voice) = window().speech_synthesis() else { return };
    if let Ok(said) = SpeechSynthesisUtterance::new_with_text(words) {
        said.set_lang(language.tag());
        voice.speak(&said);
    }
}

fn notify(words: &str) {
    let hidden = document().hidden();
    if hidden
        && has("Notification")
        && Notification::permission() == NotificationPermission::Granted
    {
        // Where there is no worker, the page notifies itself; a phone may refuse that, and nothing
        // is lost.
        if !site::notify(words) {
            let _ = Notification::new(words);
        }
    }
}

/// Keeps the screen on, where the phone allows it; again after it was away.
pub(crate) fn keep_awake() {
    let lock = Reflect::get(&window().navigator(), &"wakeLock".into()).unwrap_or_default();
    let request = Reflect::get(&lock, &"request".into()).ok().and_then(|f| f.dyn_into().ok());
    let Some(request): Option<Function> = request else { return };
    let Ok(promise) = request.call1(&lock, &"screen".into()) else { return };
    let Ok(promise) = promise.dyn_into::<Promise>() else { return };
    spawn_local(async move {
        // A phone that is low on battery says no; that is its right.
        if let Ok(held) = JsFuture::from(promise).await {
            AWAKE.set(Some(held));
        }
    });
}

/// Lets the screen go dark again.
pub(crate) fn let_sleep() {
    let Some(held) = AWAKE.take() else { return };
    let release = Reflect::get(&held, &"release".into()).ok().and_then(|f| f.dyn_into().ok());
    if let Some(release) = release {
        let release: Function = release;
        // Released by the phone itself by now, perhaps.
        let _ = release.call0(&held);
    }
}

/// What this phone cannot do, by the text that says so.
pub(crate) fn lacking() -> Vec<&'static str> {
    let lacks = [
        (!has("AudioContext"), key::LACKS_SOUND),
        (!has("speechSynthesis"), key::LACKS_VOICE),
        (!can("vibrate"), key::LACKS_SHAKE),
        (!has("Notification"), key::LACKS_NOTICE),
        (!can("wakeLock"), key::LACKS_AWAKE),
    ];
    lacks.into_iter().filter_map(|(lacks, text)| lacks.then_some(text)).collect()
}

/// Whether the browser has something of a name.
fn has(name: &str) -> bool {
    Reflect::has(&window(), &name.into()).unwrap_or(false)
}

/// Whether the phone can do something of a name.
fn can(name: &str) -> bool {
    Reflect::has(&window().navigator(), &name.into()).unwrap_or(false)
}
