//! The built site on a phone: without signal, below a path, in a newer build, and never half.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::fs;
use std::net::TcpStream;
use std::path::{Path, PathBuf};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use pailwise_tests::browser::{Outcome, PLACES, Phone, Site, built, folder};
use sha2::{Digest, Sha256};

/// The build of the page on the screen.
const BUILD: &str = "return document.querySelector('meta[name=build]').content";
/// Notes what the policy of the page forbids, and what a page asks of any other place.
const WATCHED: &str = "window.forbidden = []; \
    document.addEventListener('securitypolicyviolation', e => \
        window.forbidden.push(e.violatedDirective + ' ' + e.blockedURI)); \
    new PerformanceObserver(list => list.getEntries().forEach(entry => { \
        if (!entry.name.startsWith(location.origin)) window.forbidden.push(entry.name); \
    })).observe({ type: 'resource', buffered: true });";

/// A copy of the built site in a folder of a test's own, below a path.
fn copied(name: &str) -> Outcome<(PathBuf, PathBuf)> {
    let root = folder(env!("CARGO_TARGET_TMPDIR"), name)?;
    let site = root.join("crew/tools");
    fs::create_dir_all(&site)?;
    copy_site(&built()?, &site)?;
    Ok((root, site))
}

/// Copies the files of a site over another.
fn copy_site(from: &Path, to: &Path) -> Outcome {
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            fs::copy(entry.path(), to.join(entry.file_name()))?;
        }
    }
    Ok(())
}

fn checksum(text: &str) -> String {
    STANDARD.encode(Sha256::digest(text))
}

fn build_of(site: &Path) -> Outcome<String> {
    let worker = fs::read_to_string(site.join("worker.js"))?;
    let (_, rest) = worker.split_once("const BUILD = \"").ok_or("the worker names no build")?;
    Ok(rest.split('"').next().unwrap_or_default().to_owned())
}

/// Makes an older build of a site: the same app under another name, whole in itself.
fn make_older(site: &Path) -> Outcome<String> {
    let (new, old) = (build_of(site)?, "0123456789abcdef".to_owned());
    let page = fs::read_to_string(site.join("index.html"))?;
    let older = page.replace(&new, &old);
    fs::write(site.join("index.html"), &older)?;
    let worker = fs::read_to_string(site.join("worker.js"))?;
    assert!(worker.contains(&checksum(&page)), "the worker lists the page");
    let worker = worker.replace(&checksum(&page), &checksum(&older)).replace(&new, &old);
    fs::write(site.join("worker.js"), worker)?;
    Ok(old)
}

async fn opened(address: &str) -> Outcome<Phone> {
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.before_every_page(WATCHED).await?;
    phone.open(address).await?;
    phone.element("#kept-here").await?;
    Ok(phone)
}

/// After one visit the server is gone: every place of the app still opens, and a batch is planned.
#[tokio::test]
async fn after_one_visit_it_needs_no_signal() -> Outcome {
    let (root, _) = copied("site-offline")?;
    let site = Site::serve_folder(&root).await?;
    let address = format!("{}crew/tools/", site.address);
    let phone = opened(&address).await?;
    let amount = phone.text("#mix-amount").await?;
    drop(site);
    let gone = address.trim_start_matches("http://").split('/').next().unwrap();
    let mut looks = 0;
    while TcpStream::connect(gone).is_ok() {
        looks += 1;
        assert!(looks < 100, "the server still answers");
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }

    phone.reload().await?;
    assert_eq!(phone.text("#mix-amount").await?, amount);
    let places =
        [("floor", "#plan-sum"), ("clock", "#log"), ("products", ".cards"), ("practice", "h2")];
    for (place, shows) in places {
        phone.open(&format!("{address}index.html#{place}")).await?;
        phone.element(shows).await?;
        phone.reload().await?;
        phone.element(shows).await?;
    }
    phone.quit().await
}

/// Nothing that a person can open is forbidden by the page's own policy, and nothing is asked of
/// anybody else.
#[tokio::test]
async fn it_asks_nothing_of_anybody() -> Outcome {
    let site = Site::serve().await?;
    let phone = opened(&site.address).await?;
    for place in PLACES {
        phone.open(&format!("{}#{place}", site.address)).await?;
        phone
            .script("document.querySelectorAll('details').forEach(d => d.open = true); return ''")
            .await?;
        // What was opened is written out a moment later.
        tokio::time::sleep(std::time::Duration::from_millis(300)).await;
        let forbidden = phone.script("return window.forbidden.join('; ')").await?;
        assert_eq!(forbidden, "", "{place}");
    }
    // The watch does see what is forbidden.
    phone.script("document.body.setAttribute('style', 'color: red'); return ''").await?;
    phone.until("return String(window.forbidden.length > 0)", "true").await?;
    phone.quit().await
}

/// A newer build comes in while a batch is under way: it waits, over a reload too, is put to use
/// with one tap when the batch is done, and then is the whole of what the phone has.
#[tokio::test]
async fn a_newer_build_waits_for_the_word_and_for_the_batch() -> Outcome {
    let (root, folder) = copied("site-update")?;
    let old = make_older(&folder)?;
    let site = Site::serve_folder(&root).await?;
    let address = format!("{}crew/tools/", site.address);
    let phone = opened(&address).await?;
    assert_eq!(phone.script(BUILD).await?, old);
    phone.tap("#start", "A meets B now").await?;
    phone.element(".run-count").await?;

    copy_site(&built()?, &folder)?;
    let new = build_of(&folder)?;
    phone.reload().await?;
    let said = phone.text("#newer").await?;
    assert!(said.contains("when no batch is under way"), "{said}");
    phone.reload().await?;
    phone.element("#newer").await?;
    assert_eq!(phone.script(BUILD).await?, old, "nobody has said so");

    phone.open(&format!("{address}#clock")).await?;
    phone.tap("button", "Throw this batch away").await?;
    phone.tap("#newer button", "Use it now").await?;
    phone.until(BUILD, &new).await?;
    phone.element("#kept-here").await?;
    assert!(phone.none("#newer").await?);
    drop(site);
    phone.reload().await?;
    assert_eq!(phone.script(BUILD).await?, new);
    phone.element("#log").await?;
    phone.quit().await
}

/// A build of which a file is missing, or is of another build, is not taken in at all.
#[tokio::test]
async fn half_a_build_is_no_build() -> Outcome {
    let (root, folder) = copied("site-half")?;
    let old = make_older(&folder)?;
    let site = Site::serve_folder(&root).await?;
    let phone = opened(&format!("{}crew/tools/", site.address)).await?;

    // The newer worker is there already, the newer page not yet.
    fs::copy(built()?.join("worker.js"), folder.join("worker.js"))?;
    let looked = "const done = arguments[0]; const r = await navigator.serviceWorker.ready; \
        try { await r.update(); } catch { } \
        const worker = r.installing; if (!worker) return done('none'); \
        worker.onstatechange = () => done(worker.state);";
    let script = format!("(async () => {{ {looked} }})()");
    assert_eq!(phone.later(&script).await?, "redundant");
    phone.reload().await?;
    phone.element("#kept-here").await?;
    assert_eq!(phone.script(BUILD).await?, old);
    assert!(phone.none("#newer").await?);
    phone.quit().await
}
