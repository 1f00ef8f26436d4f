//! Starts the app in the page.

use std::time::Duration;

use leptos::mount::mount_to_body;
use leptos::prelude::set_timeout;
use pailwise_app::{App, language_at_start};

/// In steps, so that none keeps the phone from answering for long.
fn main() {
    console_error_panic_hook::set_once();
    let mount = || mount_to_body(App);
    let read = move || {
        language_at_start::language_at_start().read();
        set_timeout(mount, Duration::ZERO);
    };
    set_timeout(read, Duration::ZERO);
}
