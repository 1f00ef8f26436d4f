//! The phone's own ways in and out: files, the clipboard, the clock.

use std::cell::OnceCell;

use crate::text::Language;
use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::Intl::DateTimeFormat;
use web_sys::js_sys::{Array, Date, Function, Object, Reflect};
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, HtmlInputElement, Url};

/// What came of opening a file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Opened {
    /// None was opened yet.
    #[default]
    Nothing,
    /// It is no text.
    NoText,
    /// Its text.
    Text(String),
}

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
    static WRITTEN: [OnceCell<Function>; 2] = const { [OnceCell::new(), OnceCell::new()] };
}

/// As [`local`], of milliseconds since 1970: the day and the minute.
pub(crate) fn local_ms(at_ms: f64, language: Language) -> String {
    let written = |write: &Function| write.call1(&JsValue::UNDEFINED, &at_ms.into()).ok();
    WRITTEN.with(|writers| {
        let writer = writers[language as usize].get_or_init(|| {
            let options = Object::new();
            for (name, style) in [("dateStyle", "medium"), ("timeStyle", "short")] {
                // Setting a key of an object of one's own cannot fail.
                let _ = Reflect::set(&options, &name.into(), &style.into());
            }
            let languages = Array::of1(&JsValue::from_str(language.tag()));
            DateTimeFormat::new(&languages, &options).format()
        });
        written(writer).and_then(|text| text.as_string()).unwrap_or_default()
    })
}

/// How far the phone's time was ahead of UTC at a moment, in minutes.
pub(crate) fn minutes_ahead(at_ms: f64) -> f64 {
    -Date::new(&JsValue::from_f64(at_ms)).get_timezone_offset()
}

/// Hands the phone a JSON file to keep; `false` where it will not.
pub(crate) fn save(name: &str, text: &str) -> bool {
    save_as(name, text, "application/json")
}

/// Hands the phone a file of a type to keep; `false` where it will not.
pub(crate) fn save_as(name: &str, text: &str, type_: &str) -> bool {
    let offer = || -> Result<(), JsValue> {
        let kind = BlobPropertyBag::new();
        kind.set_type(type_);
        let parts = Array::of1(&JsValue::from_str(text));
        let blob = Blob::new_with_str_sequence_and_options(&parts, &kind)?;
        let url = Url::create_object_url_with_blob(&blob)?;
        let link: HtmlAnchorElement = document().create_element("a")?.dyn_into()?;
        link.set_href(&url);
        link.set_download(name);
        link.click();
        Url::revoke_object_url(&url)
    };
    offer().is_ok()
}

/// A name for a file that every phone takes.
pub(crate) fn file_name(of: &str) -> String {
    let plain = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = of.chars().map(plain).take(60).collect();
    format!("{}.json", name.trim_matches('-').to_lowercase())
}

/// Reads the file that was chosen in an input, and empties the input so that the same can be
/// chosen again.
pub(crate) fn read_chosen(input: &HtmlInputElement, then: impl FnOnce(Option<String>) + 'static) {
    let file: Option<File> = input.files().and_then(|files| files.get(0));
    let Some(file) = file else { return };
    let input = input.clone();
    spawn_local(async move {
        let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
        input.set_value("");
        then(text);
    });
}

/// Puts a text on the clipboard.
pub(crate) fn copy(text: &str, then: impl FnOnce(bool) + 'static) {
    let clipboard = window().navigator().clipboard();
    // Over plain http a page has none.
    if JsValue::from(&clipboard).is_undefined() {
        return then(false);
    }
    let copied = clipboard.write_text(text);
    spawn_local(async move { then(JsFuture::from(copied).await.is_ok()) });
}

/// Asks the phone to keep what is stored even when it runs short of space.
pub(crate) fn ask_to_persist(then: impl FnOnce(bool) + 'static) {
    let storage = window().navigator().storage();
    if JsValue::from(&storage).is_undefined() {
        return then(false);
    }
    let Ok(asked) = storage.persist() else { return then(false) };
    spawn_local(async move {
        let granted = JsFuture::from(asked).await.ok().and_then(|granted| granted.as_bool());
        then(granted == Some(true));
    });
}

/// The address of the app itself, without a fragment.
pub(crate) fn own_address() -> String {
    let href = window().location().href().unwrap_or_default();
    href.split('#').next().unwrap_or_default().to_owned()
}
