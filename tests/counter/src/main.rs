//! A button that counts, and nothing else: what `cargo xtask bench` measures a first visit beside.

use leptos::prelude::*;

fn main() {
    mount_to_body(|| {
        let count = RwSignal::new(0);
        view! { <button on:click=move |_| *count.write() += 1>{count}</button> }
    });
}
