//! Starts the app in the page.

use leptos::mount::mount_to_body;
use pailwise_app::App;

fn main() {
    console_error_panic_hook::set_once();
    mount_to_body(App);
}
