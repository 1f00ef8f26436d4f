//! What a first visit downloads, as a server that compresses sends it.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};

/// The most that all of it together may be, in bytes: what it comes to and a twentieth, for other
/// versions of the compiler. The aim is 200 000; nothing that is added may cost more than this
/// without somebody raising the number on purpose.
const MOST: usize = 720_000;
/// As servers compress what they keep (RFC 7932).
const QUALITY: i32 = 11;
const WINDOW: i32 = 22;

/// Weighs the finished site: says what each part comes to, and fails when it is too much, or when
/// something is only found out about once something else has come.
pub(crate) fn weigh(dist: &Path) -> Result<()> {
    let page = fs::read_to_string(dist.join("index.html"))?;
    let mut all = 0;
    for name in super::of_the_app(dist)? {
        let kind = |kind: &str| Path::new(&name).extension().is_some_and(|found| found == kind);
        let (bytes, sent) = weight(&dist.join(&name))?;
        println!("  {name}: {bytes} bytes, {sent} compressed");
        all += sent;
        let early = !(kind("wasm") || kind("css")) || page.contains(&name);
        ensure!(early, "the page does not name {name}, so it is asked for late");
    }
    println!("  first visit: {all} bytes of at most {MOST}");
    ensure!(
        all <= MOST,
        "a first visit downloads {all} bytes, more than {MOST}.\n  what to do: see what has grown"
    );
    Ok(())
}

/// The bytes of a file, and of it compressed.
fn weight(file: &Path) -> Result<(usize, usize)> {
    let bytes = fs::read(file).with_context(|| format!("cannot read {}", file.display()))?;
    let params = brotli::enc::BrotliEncoderParams {
        quality: QUALITY,
        lgwin: WINDOW,
        size_hint: bytes.len(),
        ..Default::default()
    };
    let mut sent = Vec::new();
    brotli::BrotliCompress(&mut bytes.as_slice(), &mut sent, &params)?;
    Ok((bytes.len(), sent.len()))
}
