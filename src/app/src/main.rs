//! Starts the app in the page.

use leptos::mount::mount_to_body;
use leptos::prelude::document;
use pailwise_app::App;

fn main() {
    console_error_panic_hook::set_once();
    // What stood there until now.
    if let Some(waiting) = document().get_element_by_id("start") {
        waiting.remove();
    }
    mount_to_body(App);
}
