//! What a first visit downloads, as a server that compresses sends it.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};

/// The most that all of it together may be, in bytes: what it comes to and a fiftieth, for other
/// versions of the compiler. Bays, several crews and an undo that keeps what was typed since cost
/// 25 000 of it, floors on a shelf 11 500. The aim is 200 000; nothing that is added may cost more than this
/// without somebody raising the number on purpose.
const MOST: usize = 855_000;
/// As servers compress what they keep (RFC 7932).
const QUALITY: i32 = 11;
const WINDOW: i32 = 22;

/// A file of the site.
pub(crate) struct Weight {
    /// The ending of its name.
    pub(crate) kind: String,
    /// Its bytes as it lies there, and as it is sent.
    pub(crate) bytes: usize,
    pub(crate) sent: usize,
}

/// Compresses every file that a first visit downloads, and does something with each.
pub(crate) fn weigh(
    dist: &Path,
    mut with: impl FnMut(&str, &[u8]) -> Result<()>,
) -> Result<Vec<Weight>> {
    let mut all = Vec::new();
    for name in super::of_the_app(dist)? {
        let file = dist.join(&name);
        let bytes = fs::read(&file).with_context(|| format!("cannot read {}", file.display()))?;
        let sent = compressed(&bytes)?;
        with(&name, &sent)?;
        let kind = name.rsplit('.').next().unwrap_or_default().to_owned();
        all.push(Weight { kind, bytes: bytes.len(), sent: sent.len() });
    }
    all.sort_by_key(|weight| std::cmp::Reverse(weight.sent));
    Ok(all)
}

/// Weighs the finished site: says what each part comes to, and fails when it is too much, or when
/// something is only found out about once something else has come.
pub(crate) fn check(dist: &Path) -> Result<()> {
    let page = fs::read_to_string(dist.join("index.html"))?;
    let files = weigh(dist, |name, sent| {
        println!("  {name}: {} compressed", sent.len());
        let kind = |kind: &str| Path::new(name).extension().is_some_and(|found| found == kind);
        let early = !(kind("wasm") || kind("css")) || page.contains(name);
        ensure!(early, "the page does not name {name}, so it is asked for late");
        Ok(())
    })?;
    let all: usize = files.iter().map(|file| file.sent).sum();
    println!("  first visit: {all} bytes of at most {MOST}");
    ensure!(
        all <= MOST,
        "a first visit downloads {all} bytes, more than {MOST}.\n  what to do: see what has grown"
    );
    Ok(())
}

fn compressed(mut bytes: &[u8]) -> Result<Vec<u8>> {
    let params = brotli::enc::BrotliEncoderParams {
        quality: QUALITY,
        lgwin: WINDOW,
        size_hint: bytes.len(),
        ..Default::default()
    };
    let mut sent = Vec::new();
    brotli::BrotliCompress(&mut bytes, &mut sent, &params)?;
    Ok(sent)
}
