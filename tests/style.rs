//! The colours of `style/tokens.css` against the contrast that WCAG 2.2 asks of text (1.4.6, AAA:
//! 7:1), and of what is drawn (1.4.11: 3:1), by a library's relative contrast.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::collections::BTreeMap;

use pailwise_tests::checks::check;
use palette::Srgb;
use palette::color_difference::Wcag21RelativeContrast;

/// Texts, each on the grounds it stands on.
const TEXTS: [(&str, &[&str]); 5] = [
    ("ink", &["ground", "card", "warn-ground", "wrong-ground", "fill", "room"]),
    ("ink-soft", &["ground", "card"]),
    ("on-deed", &["deed"]),
    ("wrong", &["card", "wrong-ground"]),
    ("deed", &["ground", "card"]),
];
/// Lines and fills, each on the grounds it must be told from.
const DRAWN: [(&str, &[&str]); 4] = [
    ("line", &["ground", "card"]),
    ("deed", &["ground", "card"]),
    ("warn-line", &["warn-ground", "card"]),
    ("work", &["room", "card"]),
];

/// The colours by name, in light and in dark.
fn tokens() -> BTreeMap<&'static str, [Srgb<f32>; 2]> {
    let css = include_str!("../style/tokens.css");
    let pairs = css.lines().filter_map(|line| {
        let (name, value) = line.trim().strip_prefix("--")?.split_once(':')?;
        let (light, dark) =
            value.trim().strip_prefix("light-dark(")?.strip_suffix(");")?.split_once(", ")?;
        let color = |hex: &str| hex.parse::<Srgb<u8>>().unwrap().into_format();
        Some((name, [color(light), color(dark)]))
    });
    pairs.collect()
}

fn hold(pairs: &[(&str, &[&str])], criterion: &'static str, least: f64) {
    let tokens = tokens();
    for (over, grounds) in pairs {
        for ground in *grounds {
            for (theme, i) in [("light", 0), ("dark", 1)] {
                let contrast = tokens[over][i].relative_contrast(tokens[ground][i]);
                let contrast = (f64::from(contrast) * 100.0).floor() / 100.0;
                check(format!("{over} on {ground}, {theme}"), criterion)
                    .between(least, 21.0, contrast);
            }
        }
    }
}

#[test]
fn texts_are_read_in_the_sun() {
    hold(&TEXTS, "WCAG 2.2, 1.4.6, through palette", 7.0);
}

#[test]
fn what_is_drawn_is_told_from_its_ground() {
    hold(&DRAWN, "WCAG 2.2, 1.4.11, through palette", 3.0);
}
