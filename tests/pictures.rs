//! Pictures of every screen, for looking at: both languages, both themes, a small phone, a phone
//! and a desk; and a floor of two days as the README shows it. `cargo xtask pictures` builds the
//! site and runs this.

use std::fs;
use std::path::{Path, PathBuf};

use pailwise_tests::browser::{Outcome, PLACES, Phone, Site};

const SIZES: [(u32, u32); 3] = [(360, 740), (390, 844), (1280, 800)];

#[tokio::main(flavor = "current_thread")]
async fn main() -> Outcome {
    let to = PathBuf::from(std::env::args().nth(1).ok_or("say where the pictures go")?);
    let site = Site::serve().await?;
    let mut count = 0;
    for language in ["en-US", "es-MX"] {
        let phone = Phone::start(390, 844, language).await?;
        for theme in ["light", "dark"] {
            phone.in_theme(theme).await?;
            for (width, height) in SIZES {
                phone.resize(width, height).await?;
                let folder = to.join(format!("{language}-{theme}-{width}"));
                fs::create_dir_all(&folder)?;
                for place in PLACES {
                    phone.open(&format!("{}#{place}", site.address)).await?;
                    let file = folder.join(format!("{}.png", place.replace('/', "-")));
                    fs::write(file, phone.whole_page().await?)?;
                    count += 1;
                }
            }
        }
        phone.quit().await?;
    }
    count += two_days(&site, &to.join("two-days")).await?;
    println!("{count} pictures in {}", to.display());
    Ok(())
}

/// A phone whose clock stands where a test's key in storage moves it, from one morning on, so that
/// the pictures do not change with the day they are taken.
const MORNING: &str = "const moved = () => Number(localStorage.getItem('test-clock') || 0); \
    const RealDate = Date; const start = RealDate.now(); \
    const morning = new RealDate(2026, 4, 12, 7, 40).getTime(); \
    const now = () => morning + RealDate.now() - start + moved(); \
    Date = class extends RealDate { \
        constructor(...given) { if (given.length) super(...given); else super(now()); } \
        static now() { return now(); } };";

/// The floor of the README: the owner's data sheet, the plan, what to load; ready or not, the next
/// batch, the clock, a pail that went wrong; the day after and what the client gets; a round.
async fn two_days(site: &Site, to: &Path) -> Outcome<usize> {
    fs::create_dir_all(to)?;
    let phone = Phone::start(390, 844, "en-US").await?;
    phone.before_every_page(MORNING).await?;
    let mut count = 0;
    let mut take = async |name: &str, at: &str| -> Outcome {
        count += 1;
        fs::write(to.join(format!("{name}.png")), phone.screen_at(at).await?)?;
        Ok(())
    };
    let open = async |place: &str| phone.open(&format!("{}#{place}", site.address)).await;

    open("products/edit/invented-base").await?;
    phone.tap(".question summary", "Mixing and working times").await?;
    take("sheet", ".question[open]:nth-of-type(4)").await?;
    open("floor").await?;
    take("plan", ".plan-heading").await?;
    open("floor/load").await?;
    phone.type_into("ask-on-hand-0", "3 gal").await?;
    take("load", ".load").await?;
    open("floor/ready").await?;
    phone.type_into("ask-humidity-0", "62").await?;
    phone.tap(".choice-option", "Low and high").await?;
    phone.type_into("ask-low-0", "52").await?;
    take("ready", "#floor-verdict").await?;

    open("mix").await?;
    take("mix", ".bar").await?;
    phone.tap("#rescue summary", "").await?;
    phone.type_into("rescue-1", "3").await?;
    take("rescue", "#rescue").await?;
    phone.tap("#start", "").await?;
    phone.element(".run").await?;
    phone.script("localStorage.setItem('test-clock', 130000); return ''").await?;
    phone.reload().await?;
    take("clock", ".bar").await?;

    open("floor/after").await?;
    take("after", "main h2").await?;
    open("floor/hand-over").await?;
    phone.tap(".button", "Today").await?;
    take("hand-over", ".bar").await?;
    open("practice").await?;
    take("practice", ".round").await?;
    phone.quit().await?;
    Ok(count)
}
