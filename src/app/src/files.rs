//! The phone's own ways in and out: files, the clipboard, sharing.

use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Array, Reflect};
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, HtmlInputElement, ShareData, Url};

/// What came of opening a file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Opened {
    /// None was opened yet.
    #[default]
    Nothing,
    /// It is no text.
    NoText,
    /// The file was read as text, and this is all of it.
    Text(String),
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

/// Whether the phone has a way to hand a text to another app (Web Share).
pub(crate) fn can_share() -> bool {
    let navigator = window().navigator();
    Reflect::has(&navigator, &"share".into()).unwrap_or(false)
}

/// Hands a text to another app; `false` where it will not take it, or the person thought better.
pub(crate) fn share(title: &str, text: &str, then: impl FnOnce(bool) + 'static) {
    let data = ShareData::new();
    data.set_title(title);
    data.set_text(text);
    let shared = window().navigator().share_with_data(&data);
    spawn_local(async move { then(JsFuture::from(shared).await.is_ok()) });
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
