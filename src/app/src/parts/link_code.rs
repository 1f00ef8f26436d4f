//! A record as a link, and as a code to point a camera at.

use leptos::prelude::*;
use pailwise_kept::exchange::link;

use crate::files;
use crate::parts::qr::qr;
use crate::screen::LINK;
use crate::text::{key, live, tr, tr_with};

/// The code, the link under it, and copying that; or that the record is too long for a link.
pub(crate) fn link_code(name: &str, text: &str) -> AnyView {
    let copied = RwSignal::new(None);
    let Some(packed) = link::pack(text) else {
        return view! { <p>{live(key::SHARE_TOO_LONG)}</p> }.into_any();
    };
    let address = format!("{}{LINK}{packed}", files::own_address());
    let code = qr(&address, tr_with(key::SHARE_CODE_PICTURE, &[("name", name)]));
    let no_code = code.is_none();
    let to_copy = address.clone();
    view! {
        <p class="hint">{live(key::SHARE_LINK_HINT)}</p>
        {code.map(|code| view! { <div class="qr-frame">{code}</div> })}
        {no_code.then(|| view! { <p>{live(key::SHARE_NO_CODE)}</p> })}
        <label class="field-label" for="share-link">{live(key::SHARE_LINK)}</label>
        <textarea id="share-link" class="words words-lines" rows="3" readonly=true>
            {address}
        </textarea>
        <button
            class="button"
            type="button"
            on:click=move |_| files::copy(&to_copy, move |ok| copied.set(Some(ok)))
        >
            {live(key::SHARE_COPY)}
        </button>
        <p role="status">
            {move || copied.get().map(|ok| tr(if ok { key::COPIED } else { key::NOT_COPIED }))}
        </p>
    }
    .into_any()
}
