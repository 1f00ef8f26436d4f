//! Pictures of every screen, for looking at: both languages, both themes, a small phone, a phone
//! and a desk. `cargo xtask pictures` builds the site and runs this.

use std::fs;
use std::path::PathBuf;

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
    println!("{count} pictures in {}", to.display());
    Ok(())
}
