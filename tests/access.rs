//! Nothing on any screen keeps people out: every place of the app, with all of it opened, in both
//! languages and both themes, looked through by axe-core (its rules for WCAG 2.2 A and AA and its
//! best practices), and none of it wider than the smallest phone.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::fs;

use pailwise_tests::browser::{Outcome, PLACES, Phone, Site};

/// What axe-core finds, a line each; empty for nothing.
const LOOK: &str = "const done = arguments[0]; axe.run(document, { resultTypes: ['violations'] }) \
    .then(found => done(found.violations.map(v => v.id + ': ' + \
        v.nodes.slice(0, 3).map(node => node.html.slice(0, 200)).join(' | ')).join('\\n')))";
/// Opens everything that is folded away.
const OPEN: &str = "document.querySelectorAll('details').forEach(d => d.open = true); return ''";

/// Opens every fold, also those inside folds, and looks.
async fn look(phone: &Phone, axe: &str, screen: &str) -> Outcome {
    for _ in 0..2 {
        phone.script(OPEN).await?;
        tokio::time::sleep(std::time::Duration::from_millis(150)).await;
    }
    phone.script(&format!("{axe}; return ''")).await?;
    let found = phone.later(LOOK).await?;
    assert_eq!(found, "", "{screen}");
    // On the smallest phone, which is also a desk at 400 % (WCAG 2.2, 1.4.10), nothing is cut off.
    phone.resize(320, 640).await?;
    assert_eq!(phone.overhang().await?, 0, "{screen} at 320");
    phone.resize(390, 844).await
}

async fn every_screen(language: &str, theme: &str) -> Outcome {
    let axe = fs::read_to_string(
        std::env::var("PAILWISE_AXE")
            .map_err(|_| "PAILWISE_AXE is not set: run the journeys with `cargo xtask test`")?,
    )?;
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, language).await?;
    phone.in_theme(theme).await?;
    let to = async |place: &str| phone.open(&format!("{}#{place}", site.address)).await;
    for place in PLACES {
        to(place).await?;
        look(&phone, &axe, &format!("{place}, {language}, {theme}")).await?;
    }
    // With wrong input, with a batch under way, with one in the log, and an answer given.
    to("mix").await?;
    phone.type_into("ask-area", "x").await?;
    look(&phone, &axe, "mix with wrong input").await?;
    phone.type_into("ask-area", "400").await?;
    phone.element("#start").await?;
    phone.tap("#start", "").await?;
    phone.element(".run-count").await?;
    look(&phone, &axe, "a batch under way").await?;
    to("practice").await?;
    phone.type_into("round-answer", "1").await?;
    phone.tap("#round-check", "").await?;
    look(&phone, &axe, "a round answered").await?;
    phone.quit().await
}

#[tokio::test]
async fn english_and_light() -> Outcome {
    every_screen("en-US", "light").await
}

#[tokio::test]
async fn english_and_dark() -> Outcome {
    every_screen("en-US", "dark").await
}

#[tokio::test]
async fn spanish_and_light() -> Outcome {
    every_screen("es-MX", "light").await
}

#[tokio::test]
async fn spanish_and_dark() -> Outcome {
    every_screen("es-MX", "dark").await
}
