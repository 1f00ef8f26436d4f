//! A line that leads to the field it is about.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// A link to a field: it opens the question around it and puts the caret there.
pub(crate) fn jump(id: &str, text: String) -> AnyView {
    let to = id.to_owned();
    let go = move |event: web_sys::MouseEvent| {
        event.prevent_default();
        let Some(target) = document().get_element_by_id(&to) else { return };
        if let Ok(Some(question)) = target.closest("details") {
            // Setting an attribute of an element that is there cannot fail.
            let _ = question.set_attribute("open", "");
        }
        target.scroll_into_view();
        if let Ok(input) = target.dyn_into::<web_sys::HtmlElement>() {
            // Without focus the field is still open and in view.
            let _ = input.focus();
        }
    };
    view! { <a href=format!("#{id}") on:click=go>{text}</a> }.into_any()
}
