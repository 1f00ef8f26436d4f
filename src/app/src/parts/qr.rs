//! A QR code (ISO/IEC 18004) to point a phone's camera at.

use std::fmt::Write as _;

use leptos::prelude::*;
use qrcodegen::{QrCode, QrCodeEcc};

/// Light modules around a code, by the standard.
const QUIET: i32 = 4;

/// The code of a text, dark on white in either theme; nothing when the text is too long for one.
pub(crate) fn qr(text: &str, title: String) -> Option<AnyView> {
    let code = QrCode::encode_text(text, QrCodeEcc::Low).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let start = x;
            while x < size && code.get_module(x, y) {
                x += 1;
            }
            if x > start {
                // Writing to a string does not fail.
                let _ = write!(path, "M{start} {y}h{}v1h-{}z", x - start, x - start);
            }
            x += 1;
        }
    }
    let side = size + 2 * QUIET;
    let view_box = format!("-{QUIET} -{QUIET} {side} {side}");
    Some(
        view! {
            <svg class="qr" viewBox=view_box role="img" aria-label=title>
                <rect x=-QUIET y=-QUIET width=side height=side fill="#fff" />
                <path d=path fill="#000" shape-rendering="crispEdges" />
            </svg>
        }
        .into_any(),
    )
}
