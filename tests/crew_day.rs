//! What a crew really works with, in a real browser: kits first, a measure that holds the ratio, flake
//! that runs short, the comb, a spare.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_tests::browser::{Outcome, Phone, Site};

/// Whether a whole kit goes down, and half of one; taken by a tap, and taken back.
#[tokio::test]
async fn kits_come_first() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    let kits = phone.text(".kits-first").await?;
    assert!(
        kits.contains("A whole kit of 3 gal") && kits.contains("Half a kit of 3 gal"),
        "{kits}"
    );
    let before = phone.text("#mix-amount").await?;
    phone.tap(".kits-first .button", "Mix half kits").await?;
    phone.until("return document.querySelector('#mix-amount').textContent", "1 gal 2 qt").await?;
    // Who mixes kits is not asked about them again.
    phone.until("return String(document.querySelector('.kits-first'))", "null").await?;
    phone.tap("#undo", "").await?;
    phone.until("return document.querySelector('#mix-amount').textContent", &before).await?;
    phone.quit().await
}

/// Too little for a jug in quarts is read in the finer marks that are here; with none the measure is
/// the reason, and a small scale is a tap away.
#[tokio::test]
async fn a_little_paste_is_measured_finely_or_not_at_all() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.tap(".question summary", "Product").await?;
    phone.tap(".chip", "Practice Paste").await?;
    let finer = phone.text("#split-finer").await?;
    assert!(finer.contains("1 fl oz"), "{finer}");
    phone.tap(".question summary", "Pail").await?;
    phone.tap(".choice-option", "Nothing finer").await?;
    let refused = phone.text(".no-answer").await?;
    assert!(refused.contains("No batch fits") && !refused.contains("ribbon"), "{refused}");
    for text in [phone.text("main").await?, phone.text("body").await?] {
        assert!(!text.contains("_kg") && !text.contains("_min"), "{text}");
    }
    phone.tap(".move-make", "small scale").await?;
    let finer = phone.text("#split-finer").await?;
    assert!(finer.contains("1 g"), "{finer}");
    phone.quit().await
}

/// Flake that was weighed and will not do is said while something can be done, in both languages; so
/// is a film that takes more than is here.
#[tokio::test]
async fn flake_and_film_are_watched() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/load", site.address)).await?;
    phone.type_into("ask-flake-here-0", "40").await?;
    phone.type_into("ask-on-hand-0", "4.5 gal").await?;
    phone.open(&format!("{}#floor/plan", site.address)).await?;
    let short = phone.text("#flake-short").await?;
    assert!(short.contains("bring 1 × box of 25 lb"), "{short}");
    let band = phone.text(".batch-flake").await?;
    assert!(band.contains("Flake for this band") && band.contains("is left"), "{band}");

    phone.type_into("comb-wet-1-0", "16").await?;
    phone.type_into("comb-dry-1-0", "18").await?;
    let film = phone.text("#comb-film").await?;
    assert!(film.contains("16 mil to 18 mil") && film.contains("thicker"), "{film}");
    let film = phone.text("#comb-short").await?;
    assert!(film.contains("Short by"), "{film}");
    // The next tooth below the wet one.
    phone.type_into("comb-dry-1-0", "12").await?;
    let wrong = phone.text("#comb-wrong").await?;
    assert!(wrong.contains("must be higher"), "{wrong}");
    phone.tap(".bar .button", "Español").await?;
    assert!(phone.text("#flake-short").await?.contains("traiga 1 × caja"));
    phone.quit().await
}

/// A spare is bought on top, and what is left says so.
#[tokio::test]
async fn a_spare_is_bought() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor/load", site.address)).await?;
    let card = ".load[data-product='invented-base']";
    let before = phone.text(card).await?;
    assert!(before.contains("Buy: 2 × kit of 3 gal"), "{before}");
    phone.type_into("ask-spare-0", "50").await?;
    let after = phone.changed(card, &before).await?;
    assert!(after.contains("Buy: 3 × kit of 3 gal"), "{after}");
    phone.type_into("ask-spare-0", "500").await?;
    let field = phone.text("#ask-spare-0-problem").await?;
    assert!(field.contains("500") && field.contains("0 to 100"), "{field}");
    phone.quit().await
}

/// Two bays side by side, a crew in each and one person who mixes for both: the plan says which bay,
/// which crew and where the tape line runs; each crew's next batch goes to Mix with its own people.
#[tokio::test]
async fn two_crews_lay_two_bays() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.tap(".question summary", "Who is here").await?;
    for more in ["More: Mixing and nothing else", "More: Mixing and nothing else"] {
        phone.tap(&format!("[aria-label='{more}']"), "+").await?;
    }
    phone.type_into("ask-rollers", "2").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    let one = phone.text(".batches").await?;
    assert!(one.contains("mixed by person 2") && !one.contains("bay"), "{one}");
    phone.tap(".question summary", "Coats").await?;
    phone.tap("[aria-label='More: Bays side by side']", "+").await?;
    phone.until("return document.querySelector('#tape-0-0').value", "10").await?;
    phone.tap("[aria-label='More: Crews at the same time']", "+").await?;
    phone.until_holds(".batches", "bay 2, crew 2").await?;
    let two = phone.text(".batches").await?;
    assert!(two.contains("bay 1, crew 1") && two.contains("mixed by person 2"), "{two}");
    let lines = phone.text("#plan-lines").await?;
    assert!(lines.contains("10 ft"), "{lines}");
    // Both crews' next batch can go down, and to Mix; there it is laid by that crew.
    let buttons = "return document.querySelectorAll('.batches .button-link').length + ''";
    phone.until(buttons, "2").await?;
    phone.tap(".batch:nth-child(2) .button-link", "").await?;
    phone.until_holds("#mix-amount", "gal").await?;
    let planned = two.lines().find(|line| line.contains("2. ")).unwrap_or_default().to_owned();
    let amount = phone.text("#mix-amount").await?;
    let volume = planned.split("mix ").nth(1).unwrap_or("nothing");
    assert!(amount.contains(volume.trim()), "{amount} is not {planned}");
    // A line off the floor is named.
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.type_into("tape-0-0", "30").await?;
    phone.until_holds(".no-answer", "Tape line").await?;
    phone.type_into("tape-0-0", "8").await?;
    phone.until_holds("#plan-lines", "8 ft").await?;
    // So is a crew without anybody to roll.
    phone.open(&format!("{}#mix", site.address)).await?;
    phone.type_into("ask-rollers", "1").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.until_holds(".no-answer", "2 crews need one person rolling in each").await?;
    phone.quit().await
}

/// What is on the clock stands in the plan as it was mixed; the next of that crew is what it mixes
/// now, and comes down after it.
#[tokio::test]
async fn the_plan_goes_on_from_what_is_on_the_clock() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.type_into("coat-starts-0", "00:00").await?;
    phone.until_holds(".batch:nth-child(2)", "2. ").await?;
    phone.tap(".batch:nth-child(1) .button-link", "Split and times").await?;
    phone.until_holds("#mix-amount", "gal").await?;
    let amount = phone.text("#mix-amount").await?;
    phone.tap("#start", "").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.until_holds(".batch:nth-child(1) .button-link", "On the clock").await?;
    let first = phone.text(".batch:nth-child(1)").await?;
    let volume = amount.split_once("Mix ").map_or(&*amount, |(_, volume)| volume);
    assert!(first.contains(volume.trim()), "{first} is not {amount}");
    assert!(phone.none(".batches .button:not(.button-link)").await?, "nothing more to lay down");
    phone.until_holds(".batch:nth-child(2) .button-link", "Split and times").await?;
    phone.tap(".batch:nth-child(2) .button-link", "Split and times").await?;
    phone.until_holds("#mix-amount", "gal").await?;
    phone.quit().await
}

/// A plan that stops says what would help, and bays are a tap away; undo takes them back.
#[tokio::test]
async fn a_plan_that_stops_is_laid_in_bays_by_a_tap() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#floor", site.address)).await?;
    phone.type_into("thing-0-0", "60").await?;
    for field in ["ask-slab-0", "ask-air-0", "ask-material-0"] {
        phone.type_into(field, "95").await?;
    }
    phone.until_holds("#plan-stopped", "tape lines between").await?;
    phone.tap("#plan-stopped .move-make", "bays").await?;
    phone.until_holds("#plan-lines", "ft").await?;
    phone.tap("#undo", "").await?;
    phone.until("return String(document.querySelector('#plan-lines'))", "null").await?;
    phone.quit().await
}
