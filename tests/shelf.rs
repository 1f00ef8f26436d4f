//! The owner's shelf in a real browser: written from a sheet, handed on, damaged, full, in two
//! tabs.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::fs;

use pailwise_calc::cure::Chemistry;
use pailwise_calc::demo;
use pailwise_calc::quantity::{MassDensity, celsius, unit};
use pailwise_calc::record::{ProductRecord, Role};
use pailwise_kept::envelope;
use pailwise_kept::exchange::{Received, from_file, from_link};
use pailwise_tests::browser::{Outcome, Phone, Site, folder, saved};

/// The product under a key of the phone's storage.
async fn stored(phone: &Phone, id: &str) -> Outcome<ProductRecord> {
    let script = format!("return localStorage.getItem('pailwise/product/{id}') || ''");
    let text = phone.script(&script).await?;
    Ok(ProductRecord::from_json(envelope::unwrap(&text)?)?)
}

/// The ids of the products on the phone.
async fn ids(phone: &Phone) -> Outcome<Vec<String>> {
    let script = "return Object.keys(localStorage).filter(k => k.startsWith('pailwise/product/')) \
                  .map(k => k.slice(17)).sort().join(' ')";
    Ok(phone.script(script).await?.split_whitespace().map(str::to_owned).collect())
}

/// Picks an option of a list by its text.
async fn pick(phone: &Phone, id: &str, text: &str) -> Outcome {
    let said = phone
        .script(&format!(
            "const s = document.getElementById('{id}'); \
             const at = [...s.options].findIndex(o => o.textContent.trim() === '{text}'); \
             s.selectedIndex = at; s.dispatchEvent(new Event('change', {{ bubbles: true }})); \
             return String(at)"
        ))
        .await?;
    assert_ne!(said, "-1", "{id} has no {text}");
    Ok(())
}

/// The owner types in an (invented) printed sheet, in the units it is printed in: what is missing
/// is named, what comes of it is shown, and what is kept is what was printed.
#[tokio::test]
#[expect(clippy::too_many_lines, reason = "one story, told in one go")]
async fn a_product_is_written_from_its_sheet() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#products", site.address)).await?;
    phone.tap(".button", "Add a product").await?;
    let missing = phone.text("#sheet-wrong").await?;
    assert!(missing.contains("Pot life 1, How long: missing"), "{missing}");
    assert!(missing.contains("Name: missing"), "{missing}");

    for (id, text) in [
        ("sheet-name", "Practice Grey 3:1"),
        ("sheet-source", "Practice Grey, data sheet"),
        ("row-part-0-0", "3"),
        ("row-part-0-1", "11.5"),
        ("row-part-1-0", "1"),
        ("row-part-1-1", "8.4"),
        ("row-pot-life-0-0", "30"),
        ("row-pot-life-0-1", "77"),
        ("sheet-spread-field", "100"),
    ] {
        phone.type_into(id, text).await?;
    }
    // Neither how parts are counted nor the chemistry is guessed.
    let missing = phone.text("#sheet-wrong").await?;
    assert!(missing.contains("The sheet counts parts: missing"), "{missing}");
    phone.tap(".choice-option", "by volume").await?;
    pick(&phone, "sheet-chemistry", "epoxy and amine").await?;
    // The sheet gives the sample in grams.
    pick(&phone, "row-pot-life-0-way", "by weight").await?;
    pick(&phone, "row-pot-life-0-2-unit", "kg").await?;
    phone.type_into("row-pot-life-0-2", "100 g").await?;
    let said = phone.text(".checks").await?;
    assert!(said.contains("pot life at one temperature"), "{said}");
    let split = phone.text("#preview-split").await?;
    // Three quarters and one quarter of 128 fl oz; at 11.5 lb/gal three quarters weigh 8.625 lb.
    assert!(split.contains("96.0 fl oz") && split.contains("32.0 fl oz"), "{split}");
    assert!(split.contains("8.63 lb") && split.contains("2.1 lb"), "{split}");
    assert_eq!(phone.overhang().await?, 0);

    // So is specific gravity typed for pounds a gallon.
    phone.type_into("row-part-1-1", "1.1").await?;
    let said = phone.text("#row-part-1-1-problem").await?;
    assert!(said.contains("Is it printed in kg/L?"), "{said}");
    phone.type_into("row-part-1-1", "8.4").await?;

    // A slip of the unit is doubted, and mended.
    phone.type_into("row-pot-life-0-2", "100").await?;
    let doubt = phone.text(".checks .caution").await?;
    assert!(doubt.contains("Of how much") && doubt.contains("220.46 lb"), "{doubt}");
    phone.type_into("row-pot-life-0-2", "100 g").await?;

    // It outlives a reload before it is saved.
    phone.reload().await?;
    assert_eq!(phone.script("return document.getElementById('row-part-0-1').value").await?, "11.5");
    phone.tap("#sheet-save", "").await?;
    phone.tap(".card-main", "Practice Grey 3:1").await?;
    let id = ids(&phone).await?.into_iter().find(|id| !id.starts_with("invented")).unwrap();
    let kept = stored(&phone, &id).await?;
    assert_eq!((kept.role, kept.chemistry), (Role::Base, Chemistry::AmineEpoxy));
    let density = MassDensity::new::<unit::kilogram_per_cubic_meter>(
        11.5 * 0.453_592_37 / 3.785_411_784 * 1000.0,
    );
    assert!((kept.components[0].density_kg_per_l - density.value / 1000.0).abs() < 1e-12);
    assert_eq!(kept.pot_life[0].mass_kg, Some(0.1));
    assert!((celsius(kept.pot_life[0].temperature_c).value - 298.15).abs() < 1e-9);
    assert!(kept.revised.is_some() && !kept.invented);
    // Opened again, it stands there as it was printed.
    assert_eq!(phone.script("return document.getElementById('row-part-0-1').value").await?, "11.5");
    assert_eq!(
        phone.script("return document.getElementById('row-part-0-1-unit').value").await?,
        "us"
    );
    // And it can be mixed.
    phone.tap(".place", "Mix").await?;
    phone.tap(".question summary", "Product").await?;
    phone.tap(".chip", "Practice Grey 3:1").await?;
    phone.element("#mix-amount").await?;

    // A change is undone by a tap, the draft comes back with it.
    phone.open(&format!("{}#products/edit/{id}", site.address)).await?;
    phone.type_into("row-part-0-0", "30").await?;
    phone.tap("#sheet-save", "").await?;
    phone.element("#undo").await?;
    assert_eq!(stored(&phone, &id).await?.components[0].parts, 30.0);
    phone.tap("#undo", "Undo").await?;
    phone.until("return location.hash", "#products").await?;
    assert_eq!(stored(&phone, &id).await?, kept);
    phone.quit().await
}

/// Put away, brought back, duplicated, deleted, and all of it undone; a search finds by name.
#[tokio::test]
async fn the_shelf_is_kept_in_order() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&format!("{}#products", site.address)).await?;
    let list = "return [...document.querySelectorAll('section.card > .cards .chip-name')] \
                .map(e => e.textContent).join('|')";
    let all = "Practice Paste 2:1|Practice Base 2:1|Practice Clear 1:1";
    phone.until(list, all).await?;
    phone.tap(".card-deeds .button", "Put away").await?;
    phone.until(list, "Practice Base 2:1|Practice Clear 1:1").await?;
    phone.tap(".fold summary", "Put away").await?;
    phone.tap(".fold .button", "Delete").await?;
    phone.until("return String(document.querySelectorAll('.fold .cards').length)", "0").await?;
    assert_eq!(ids(&phone).await?, ["invented-base", "invented-topcoat"]);
    phone.tap("#undo", "Undo").await?;
    phone.tap("#undo", "Undo").await?;
    phone.until(list, all).await?;
    for _ in 0..4 {
        phone.tap(".card-deeds .button", "Duplicate").await?;
    }
    let seven =
        "return String(document.querySelectorAll('section.card > .cards .chip-name').length)";
    phone.until(seven, "7").await?;
    phone.type_into("shelf-search", "copy").await?;
    phone.until(seven, "4").await?;
    phone.type_into("shelf-search", "zzz").await?;
    let said = phone.text(".products").await?;
    assert!(said.contains("No product has that in its name"), "{said}");
    assert_eq!(phone.overhang().await?, 0);
    phone.quit().await
}

/// The address in the code on the screen, read by a decoder that knows nothing of this tool
/// (`rqrr`), from a picture of the screen.
async fn address_in_code(phone: &Phone) -> Outcome<String> {
    let png = phone.picture(".qr").await?;
    let picture = image::load_from_memory(&png)?.to_luma8();
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| {
        picture.get_pixel(x as u32, y as u32).0[0]
    });
    let grids = prepared.detect_grids();
    let (_, text) = grids.first().ok_or("no code in the picture")?.decode()?;
    Ok(text)
}

/// From one phone to another by the code on the screen; a change there and a change here meet,
/// and are taken line by line.
#[tokio::test]
async fn a_product_goes_to_another_phone_and_comes_back() -> Outcome {
    let site = Site::serve().await?;
    let owner = Phone::start(390, 844, "en-US").await?;
    let helper = Phone::start(390, 844, "en-US").await?;
    helper.open(&site.address).await?;
    owner.open(&format!("{}#products/edit/invented-base", site.address)).await?;
    owner.type_into("sheet-notes", "Stir the pigment up first.").await?;
    owner.tap("#sheet-save", "").await?;
    owner.element(".card-main").await?;
    owner.open(&format!("{}#products/share/invented-base", site.address)).await?;
    let address = address_in_code(&owner).await?;
    assert_eq!(address, owner.script("return document.getElementById('share-link').value").await?);
    let packed = address.split_once("#take=").unwrap().1;
    let sent = stored(&owner, "invented-base").await?;
    assert_eq!(from_link(packed), Ok(Received::Products(vec![sent.clone()])));

    // Shown before it is taken: one line differs.
    helper.open(&address).await?;
    let said = helper.text(".take").await?;
    assert!(said.contains("A newer version of the one here"), "{said}");
    assert!(said.contains("Stir the pigment up first."), "{said}");
    assert_ne!(stored(&helper, "invented-base").await?, sent, "kept before it was taken");
    assert_eq!(helper.overhang().await?, 0);
    helper.tap("#take-accept", "Take in").await?;
    helper.element(".card-main").await?;
    assert_eq!(stored(&helper, "invented-base").await?, sent);

    // Both change it; what only the other changed is chosen, what both did is asked.
    helper.open(&format!("{}#products/edit/invented-base", site.address)).await?;
    helper.type_into("sheet-mixing-field", "4").await?;
    helper.type_into("sheet-tolerance-field", "4").await?;
    helper.tap("#sheet-save", "").await?;
    helper.element(".card-main").await?;
    helper.open(&format!("{}#products/share/invented-base", site.address)).await?;
    let back = address_in_code(&helper).await?;
    owner.open(&format!("{}#products/edit/invented-base", site.address)).await?;
    owner.type_into("sheet-mixing-field", "5").await?;
    owner.tap("#sheet-save", "").await?;
    owner.element(".card-main").await?;
    owner.open(&back).await?;
    let said = owner.text(".take").await?;
    assert!(said.contains("Changed here and there"), "{said}");
    owner.tap("#take-accept", "Take in").await?;
    owner.element(".card-main").await?;
    let merged = stored(&owner, "invented-base").await?;
    assert_eq!((merged.ratio_tolerance_percent, merged.mixing_min), (4.0, 5.0));
    assert_eq!(merged.notes, sent.notes);
    owner.tap("#undo", "Undo").await?;
    owner.until("return String(document.querySelectorAll('#undo').length)", "1").await?;
    assert_eq!(stored(&owner, "invented-base").await?.ratio_tolerance_percent, 5.0);

    // A link that was cut off is refused, and nothing changes.
    let before = owner.script("return JSON.stringify(localStorage)").await?;
    owner.open(&back[..back.len() - 9]).await?;
    let said = owner.text("#take-refused").await?;
    assert!(said.contains("cut off") && said.contains("Nothing of it was kept"), "{said}");
    assert_eq!(owner.script("return JSON.stringify(localStorage)").await?, before);
    helper.quit().await?;
    owner.quit().await
}

/// A floor goes over with its product; the crew stays the one that is here.
#[tokio::test]
async fn a_floor_goes_to_another_phone() -> Outcome {
    let site = Site::serve().await?;
    let one = Phone::start(390, 844, "en-US").await?;
    let other = Phone::start(390, 844, "es-MX").await?;
    one.open(&format!("{}#floor", site.address)).await?;
    one.type_into("thing-0-0", "23'6\"").await?;
    one.tap(".button", "Share this floor").await?;
    let address = address_in_code(&one).await?;
    other.open(&address).await?;
    let said = other.text(".products").await?;
    assert!(said.contains("Llegó un piso"), "{said}");
    other.tap("#take-accept", "Recibir").await?;
    let value = "return document.getElementById('thing-0-0')?.value || ''";
    // 23.5 ft are 7.1628 m (NIST SP 811, appendix B).
    other.until(value, "7.16").await?;
    // Typed in feet there, it is still 23.5 ft.
    other.tap(".choice-option", "gal").await?;
    other.until(value, "23.5").await?;
    one.quit().await?;
    other.quit().await
}

/// A record damaged in storage is set aside, said, and can be saved; the rest goes on.
#[tokio::test]
async fn a_damaged_record_is_set_aside_and_can_be_saved() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(360, 740, "en-US").await?;
    phone.open(&site.address).await?;
    // One digit of a figure: still JSON, still in range, but not what was kept.
    let damaged = phone
        .script(
            "const key = 'pailwise/product/invented-topcoat'; \
             const text = localStorage.getItem(key).replace('1.06', '1.96'); \
             localStorage.setItem(key, text); return text",
        )
        .await?;
    assert!(damaged.contains("1.96"));
    phone.reload().await?;
    let said = phone.text(".notice").await?;
    assert!(said.contains("pailwise/aside/product-invented-topcoat-1"), "{said}");
    assert_eq!(ids(&phone).await?, ["invented-base", "invented-filler"]);
    phone.open(&format!("{}#products/phone", site.address)).await?;
    let downloads = folder(env!("CARGO_TARGET_TMPDIR"), "aside")?;
    phone.download_into(&downloads).await?;
    phone.tap("#aside .button", "Save as a file").await?;
    let file = downloads.join("product-invented-topcoat-1.json");
    assert_eq!(saved(&file).await?, damaged);
    phone.tap("#aside .button", "Delete").await?;
    let gone = "return String(document.querySelectorAll('#aside').length)";
    phone.until(gone, "0").await?;
    phone.tap("#undo", "Undo").await?;
    phone.until(gone, "1").await?;
    phone.quit().await
}

/// Everything in a file, onto a phone that has none of it; a broken file changes nothing.
#[tokio::test]
async fn everything_is_saved_and_restored_on_another_phone() -> Outcome {
    let site = Site::serve().await?;
    let one = Phone::start(390, 844, "en-US").await?;
    one.open(&format!("{}#products", site.address)).await?;
    one.tap(".card-deeds .button", "Duplicate").await?;
    one.tap(".star", "").await?;
    one.open(&format!("{}#mix", site.address)).await?;
    one.type_into("ask-area", "333.3").await?;
    let downloads = folder(env!("CARGO_TARGET_TMPDIR"), "backup")?;
    one.download_into(&downloads).await?;
    one.open(&format!("{}#products/phone", site.address)).await?;
    one.tap("#backup-save", "").await?;
    let day = one.script("return new Date().toISOString().slice(0, 10)").await?;
    let file = downloads.join(format!("pailwise-{day}.json"));
    let text = saved(&file).await?;
    assert!(matches!(from_file(&text), Ok(Received::Backup(_))), "{:?}", from_file(&text).err());

    let other = Phone::start(390, 844, "es-MX").await?;
    other.open(&format!("{}#products", site.address)).await?;
    let before = other.script("return JSON.stringify(localStorage)").await?;
    let broken = downloads.join("broken.json");
    fs::write(&broken, text.replace("pailwise-settings", "pailwise-settingz"))?;
    other.choose_file("open-file", &broken).await?;
    let said = other.text("#take-refused").await?;
    assert!(said.contains("dañada en “pailwise/settings”"), "{said}");
    assert_eq!(other.script("return JSON.stringify(localStorage)").await?, before);

    other.open(&format!("{}#products", site.address)).await?;
    other.choose_file("open-file", &file).await?;
    other.element("#take-backup").await?;
    other.tap("#take-accept", "Restaurarla").await?;
    other.until("return document.documentElement.lang", "en").await?;
    assert_eq!(ids(&other).await?, ids(&one).await?);
    let mix = "return String(localStorage.getItem('pailwise/mix').includes('333.3'))";
    other.until(mix, "true").await?;
    // Undone where it was done: the bar does not follow to another screen.
    other.tap("#undo", "Undo").await?;
    other.until("return document.documentElement.lang", "es").await?;
    other.until(mix, "false").await?;
    one.quit().await?;
    other.quit().await
}

/// A phone that runs full says so while there is still room; when there is none, what stood there
/// stands, and what was typed stays on the screen.
#[tokio::test]
async fn a_full_phone_says_so_and_loses_nothing() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&format!("{}#products/edit/invented-base", site.address)).await?;
    let fill = "let n = 0; for (let size = 1 << 20; size > 0; size >>= 1) { \
                for (;;) { try { localStorage.setItem('other-' + n, 'x'.repeat(size)); n += 1; } \
                catch { break; } } } return String(n)";
    phone.script(fill).await?;
    // The reserve takes this.
    phone.type_into("sheet-notes", "Into the reserve").await?;
    let said = phone.text(".notice").await?;
    assert!(said.contains("hardly any room left"), "{said}");
    phone.tap("#sheet-save", "").await?;
    phone.element(".card-main").await?;
    let kept = stored(&phone, "invented-base").await?;
    assert_eq!(kept.notes, "Into the reserve");

    phone.script(fill).await?;
    phone.open(&format!("{}#products/edit/invented-base", site.address)).await?;
    phone.type_into("sheet-notes", "Longer than what there is room for, by far").await?;
    phone.tap("#sheet-save", "").await?;
    let all = "return [...document.querySelectorAll('.notice')].map(n => n.textContent).join('|')";
    let said = phone.script(all).await?;
    assert!(said.contains("will not store anything now"), "{said}");
    assert_eq!(stored(&phone, "invented-base").await?, kept);
    let typed = phone.script("return document.getElementById('sheet-notes').value").await?;
    assert!(typed.starts_with("Longer than"), "{typed}");
    // With room again it is saved.
    phone
        .script(
            "Object.keys(localStorage).filter(k => k.startsWith('other-')) \
             .forEach(k => localStorage.removeItem(k)); return ''",
        )
        .await?;
    phone.tap("#sheet-save", "").await?;
    phone.element(".card-main").await?;
    assert!(stored(&phone, "invented-base").await?.notes.starts_with("Longer than"));
    phone.quit().await
}

/// Two tabs show the same, whichever of them is typed in.
#[tokio::test]
async fn two_tabs_are_kept_in_step() -> Outcome {
    let site = Site::serve().await?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.open(&site.address).await?;
    let before = phone.text(".steps").await?;
    phone.open_second_tab(&format!("{}#products/edit/invented-base", site.address)).await?;
    phone.type_into("row-part-0-0", "1").await?;
    phone.type_into("row-part-1-0", "1").await?;
    phone.type_into("row-pot-life-0-0", "20").await?;
    phone.type_into("row-pot-life-1-0", "11").await?;
    phone.tap("#sheet-save", "").await?;
    phone.element(".card-main").await?;
    phone.first_tab().await?;
    let after = phone.changed(".steps", &before).await?;
    // Two to one by volume became one to one.
    let pours = |steps: &str| -> Vec<String> {
        let amount = |line: &&str| line.ends_with(" qt") || line.ends_with(" gal");
        steps.lines().map(str::trim).filter(amount).map(str::to_owned).collect()
    };
    let (two_to_one, one_to_one) = (pours(&before), pours(&after));
    assert!(two_to_one.len() >= 2 && two_to_one[0] != two_to_one[1], "{before}");
    assert!(one_to_one.len() >= 2 && one_to_one[0] == one_to_one[1], "{after}");
    phone.type_into("ask-area", "90").await?;
    phone.open_second_tab(&site.address).await?;
    let area = "return document.getElementById('ask-area')?.value || ''";
    phone.until(area, "90").await?;
    assert_eq!(demo::records().len(), ids(&phone).await?.len());
    phone.quit().await
}
