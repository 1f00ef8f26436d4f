//! Floors kept on a shelf, in a real browser: begun, named, opened again, and a batch that ends on the
//! floor it was begun on.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_tests::browser::{Outcome, Phone, Site};

const NAME: &str = "return document.querySelector('#floor-name').textContent";

/// A floor is named, another begun, the first found again with its rooms and its crew; undo goes back.
#[tokio::test]
async fn floors_are_kept_on_a_shelf() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/floors", site.address)).await?;
    phone.until(NAME, "Floor without a name").await?;
    phone.type_into("floor-label", "Elm Street 4").await?;
    phone.type_into("floor-address", "12 Elm Street").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.type_into("thing-0-0", "31").await?;
    phone.until(NAME, "Elm Street 4").await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.type_into("ask-rollers", "3").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.tap("#new-floor", "").await?;
    phone.until(NAME, "Floor without a name").await?;
    phone.until("return document.querySelector('#thing-0-0').value", "20").await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.type_into("ask-rollers", "1").await?;
    // It is there after the page was closed, and found by its address.
    phone.open(&format!("{}#floor/floors", site.address)).await?;
    let card = phone.text("#floors .cards").await?;
    assert!(card.contains("Elm Street 4") && card.contains("12 Elm Street"), "{card}");
    phone.tap("#floors .card-deeds .button", "Open").await?;
    phone.until(NAME, "Elm Street 4").await?;
    phone.until("return document.querySelector('#thing-0-0').value", "31").await?;
    let rollers = "return document.querySelector('#ask-rollers').value";
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.until(rollers, "3").await?;
    // Back to the one begun last, which one roller lays, and back again by undo.
    phone.open(&format!("{}#floor/floors", site.address)).await?;
    phone.tap("#floors .card-deeds .button", "Open").await?;
    phone.until(NAME, "Floor without a name").await?;
    phone.tap("#undo", "").await?;
    phone.until(NAME, "Elm Street 4").await?;
    phone.quit().await
}

/// A batch is begun on one floor and ends while another is in hand: it is down on its own.
#[tokio::test]
async fn a_batch_ends_on_the_floor_it_was_begun_on() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/floors", site.address)).await?;
    phone.type_into("floor-label", "Elm Street 4").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.tap(".batch:nth-child(1) .button-link", "Split and times").await?;
    phone.until_holds("#mix-amount", "gal").await?;
    phone.tap("#start", "").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.until_holds(".batch:nth-child(1) .button-link", "On the clock").await?;
    phone.tap("#new-floor", "").await?;
    // The other floor knows nothing of it.
    phone.until_holds(".batch:nth-child(1) .button-link", "Split and times").await?;
    phone.open(&format!("{}#clock", site.address)).await?;
    for _ in ["mixed", "emptied", "rolled", "flaked"] {
        phone.tap(".stage-next .stage-tap", "Done").await?;
    }
    phone.tap(".run .button", "into the log").await?;
    phone.until_holds("#log", "Practice").await?;
    let page = "const key = Object.keys(localStorage).find(key => key.startsWith('pailwise/log/')); \
                return localStorage.getItem(key)";
    let page = phone.script(page).await?;
    assert!(page.contains("Elm Street 4"), "{page}");
    phone.open(&format!("{}#floor", site.address)).await?;
    assert!(phone.none("#down-ended-0").await?, "nothing is down on the new floor");
    phone.open(&format!("{}#floor/floors", site.address)).await?;
    phone.tap("#floors .card-deeds .button", "Open").await?;
    phone.until_holds("#floor-name", "Elm Street 4").await?;
    phone.until("return String(document.querySelector('#down-ended-0') != null)", "true").await?;
    phone.quit().await
}
