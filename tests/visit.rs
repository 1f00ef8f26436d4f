//! What a visit is like on a slow phone, beside that of an empty counter served the same way in
//! the same run, and how soon a key press is answered. `cargo xtask bench` builds both and reads
//! what is printed; nothing is asserted.

use std::path::{Path, PathBuf};
use std::process::Command;

use pailwise_tests::browser::{Outcome, Phone, Site};
use serde_json::Value;

/// How many times as long work takes as on this machine.
const SLOWER: u32 = 4;
const ROUNDS: usize = 5;
/// What is on the screen once there is an answer.
const OURS: &str = "#mix-amount";
const COUNTER: &str = "button";

#[tokio::main(flavor = "current_thread")]
async fn main() -> Outcome {
    let mut args = std::env::args().skip(1).map(PathBuf::from);
    let mut next = |what: &str| args.next().ok_or_else(|| format!("say {what}"));
    let ours = Site::serve_folder(&next("where the site is")?).await?;
    let counter = Site::serve_folder(&next("where the counter is")?).await?;
    let lighthouse = next("where Lighthouse is")?;

    let (mut first, mut again, mut least) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        let phone = fresh(COUNTER).await?;
        least.push(visit(&phone, &counter.address).await?);
        phone.quit().await?;
        let phone = fresh(OURS).await?;
        first.push(visit(&phone, &ours.address).await?);
        // From here on the worker has all of it.
        phone.element("#kept-here").await?;
        phone.go("about:blank").await?;
        again.push(visit(&phone, &ours.address).await?);
        phone.quit().await?;
    }
    println!("counter_ms={:.0}", middle(&mut least));
    println!("first_ms={:.0}", middle(&mut first));
    println!("again_ms={:.0}", middle(&mut again));
    key_presses(&ours.address).await?;
    for throttling in ["devtools", "simulate"] {
        marks(&lighthouse, &ours.address, throttling)?;
    }
    Ok(())
}

/// A slow phone with nothing stored, which notes when a frame with an element has been drawn.
async fn fresh(element: &str) -> Outcome<Phone> {
    let phone = Phone::start(390, 844, "en-US").await?;
    phone
        .before_every_page(&format!(
            "new MutationObserver((_, seen) => {{ if (document.querySelector('{element}')) {{ \
             seen.disconnect(); requestAnimationFrame(() => setTimeout(() => {{ \
             window.drawnAt = performance.now(); }})); }} }}) \
             .observe(document, {{ childList: true, subtree: true }})"
        ))
        .await?;
    phone.slow(SLOWER).await?;
    Ok(phone)
}

/// Milliseconds from opening an address to the element in a frame.
async fn visit(phone: &Phone, address: &str) -> Outcome<f64> {
    phone.go(address).await?;
    let noted = "const [done] = arguments; (function look() { window.drawnAt === undefined \
                 ? setTimeout(look, 20) : done(String(window.drawnAt)); })()";
    Ok(phone.later(noted).await?.parse()?)
}

/// Types areas and takes the time of the work until the amount has changed and is laid out, and
/// of all until the frame with it has been drawn, waiting for the frame included.
async fn key_presses(address: &str) -> Outcome {
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{address}#mix")).await?;
    phone.type_into("ask-area", "300").await?;
    phone.slow(SLOWER).await?;
    let said = phone
        .later(
            "const [done] = arguments; (async () => { \
             const field = document.getElementById('ask-area'), work = [], drawn = []; \
             for (let i = 0; i < 60; i++) { \
                 field.value = String(300 + 7 * i); \
                 const start = performance.now(); \
                 field.dispatchEvent(new Event('input', { bubbles: true })); \
                 for (let turn = 0; turn < 30; turn++) await Promise.resolve(); \
                 document.body.offsetHeight; \
                 work.push(performance.now() - start); \
                 await new Promise(then => requestAnimationFrame(() => { \
                     const after = new MessageChannel(); \
                     after.port1.onmessage = then; after.port2.postMessage(0); })); \
                 drawn.push(performance.now() - start); \
                 await new Promise(then => setTimeout(then, 150)); } \
             done([work, drawn].map(times => times.join()).join(' ')); })()",
        )
        .await?;
    phone.quit().await?;
    let mut kinds = said.split(' ');
    for name in ["key_work", "key_drawn"] {
        let times = kinds.next().ok_or("the page noted no times")?.split(',').map(str::parse);
        let mut times = times.collect::<Result<Vec<f64>, _>>()?;
        times.sort_by(f64::total_cmp);
        for share in [50, 95] {
            println!("{name}_{share}_ms={:.1}", times[(times.len() - 1) * share / 100]);
        }
    }
    Ok(())
}

/// Prints what Lighthouse thinks of a site, with its own slow line and phone: made slow by the
/// browser, or worked out from a fast visit.
fn marks(lighthouse: &Path, address: &str, throttling: &str) -> Outcome {
    let output = Command::new("node")
        .arg(lighthouse)
        .args([address, "--quiet", "--output=json"])
        .args(["--only-categories=performance,accessibility,best-practices"])
        .arg(format!("--throttling-method={throttling}"))
        .arg("--chrome-flags=--headless=new --no-sandbox")
        .output()?;
    let found: Value = serde_json::from_slice(&output.stdout).map_err(|error| {
        format!("Lighthouse: {error}\n{}", String::from_utf8_lossy(&output.stderr))
    })?;
    for kind in ["performance", "accessibility", "best-practices"] {
        let score = found["categories"][kind]["score"].as_f64();
        let score = score.ok_or_else(|| format!("Lighthouse gave no mark for {kind}"))?;
        println!("{throttling}_{kind}={:.0}", 100.0 * score);
    }
    for audit in ["first-contentful-paint", "largest-contentful-paint", "total-blocking-time"] {
        if let Some(value) = found["audits"][audit]["numericValue"].as_f64() {
            println!("{throttling}_{audit}={value:.0}");
        }
    }
    Ok(())
}

fn middle(times: &mut [f64]) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}
