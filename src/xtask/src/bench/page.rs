//! The page of the benches: what was measured, side by side.

use std::collections::BTreeMap;

use anyhow::{Context, Result};

use super::visit::Weight;
use super::{Ours, Plan};

/// Everything that one run measured.
pub(super) struct Measured {
    pub(super) ours: Ours,
    pub(super) scipy: BTreeMap<String, f64>,
    pub(super) cvode: BTreeMap<String, f64>,
    pub(super) browser: BTreeMap<String, f64>,
    pub(super) visit: BTreeMap<String, f64>,
    pub(super) site: Vec<Weight>,
    pub(super) counter: Vec<Weight>,
    /// Code by library: its bytes, and its share of all.
    pub(super) libraries: Vec<(&'static str, usize, f64)>,
}

/// A figure that a program printed.
fn of(from: &BTreeMap<String, f64>, name: &str) -> Result<f64> {
    from.get(name).copied().with_context(|| format!("{name} was not measured"))
}

pub(super) fn write(of: &Measured) -> Result<String> {
    Ok([calculation(of)?, floors(of)?, site(of), visits(of)?].concat())
}

fn calculation(measured: &Measured) -> Result<String> {
    let Measured { ours, scipy, cvode, browser, .. } = measured;
    let row = |what: &str, time: f64, error: String| {
        format!("| {what} | {time:.2} µs | {:.1} | {error} |\n", time / ours.pot_life)
    };
    let mut page = String::from(
        "# Speed\n\nWritten by `cargo xtask bench`. All figures are of one run on one machine.\n\n\
         ## Pot life\n\nThe same cases for all (`tests/data/reference/pail.json`), each solver \
         asked for 1e-6. The error is the largest against the reference at 1e-10; ours is \
         asserted below 1e-6 by the tests. Criterion's median for ours, the best of several runs \
         for the others.\n\n\
         | pot life | time | times ours | largest error |\n| --- | --- | --- | --- |\n",
    );
    page += &row("ours", ours.pot_life, "< 1e-6".to_owned());
    for (what, from, name) in [
        ("scipy LSODA", scipy, "pot_life"),
        ("CVODE, BDF", cvode, "bdf_pot_life"),
        ("CVODE, Adams", cvode, "adams_pot_life"),
    ] {
        let error = of(from, &format!("{name}_error"))?;
        page += &row(what, of(from, &format!("{name}_us"))?, format!("{error:.0e}"));
    }
    page += "\n| calibration | time | scipy, brentq over LSODA | times ours |\n\
             | --- | --- | --- | --- |\n";
    for (what, own, name) in [
        ("from one point", ours.calibration, "calibration_us"),
        ("from a cup and a kit, the cup's loss fitted", ours.loss, "loss_us"),
    ] {
        let other = of(scipy, name)?;
        page.extend([format!("| {what} | {own:.1} µs | {other:.0} µs | {:.0} |\n", other / own)]);
    }
    page.extend([format!(
        "\n| grid of 40 × 40 temperatures and masses | time |\n| --- | --- |\n\
         | on this machine | {:.1} ms |\n| in Chromium | {:.1} ms |\n",
        ours.grid,
        of(browser, "grid_ms")?
    )]);
    Ok(page)
}

fn floors(measured: &Measured) -> Result<String> {
    let Measured { ours, browser, .. } = measured;
    let mut page = String::from(
        "\n## Floors\n\nFrom a garage to a warehouse the time grows as the number of batches \
         does.\n\n| plan of a floor (`tests/data/floors`) | all of it | batches | one batch \
         |\n| --- | --- | --- | --- |\n",
    );
    for (what, Plan { all, batches, batch }) in [
        ("two-car garage, three coats", &ours.garage),
        ("showroom, 1 000 m²", &ours.showroom),
        ("warehouse, 100 000 m²", &ours.warehouse),
    ] {
        page.extend([format!("| {what} | {all:.2} ms | {batches:.0} | {batch:.0} µs |\n")]);
    }
    page.extend([format!(
        "| the garage in Chromium | {:.2} ms | | |\n",
        of(browser, "garage_ms")?
    )]);
    Ok(page)
}

fn site(measured: &Measured) -> String {
    let mut page = String::from(
        "\n## Size\n\nWhat a first visit downloads, compressed with brotli at its closest.\n\n\
         | file | bytes | compressed |\n| --- | --- | --- |\n",
    );
    for (what, files) in
        [("all of the app", &measured.site), ("an empty counter", &measured.counter)]
    {
        let mut all = (0, 0);
        for Weight { kind, bytes, sent } in files {
            all = (all.0 + bytes, all.1 + sent);
            if what == "all of the app" {
                page.extend([format!("| {kind} | {bytes} | {sent} |\n")]);
            }
        }
        page.extend([format!("| **{what}** | {} | {} |\n", all.0, all.1)]);
    }
    page += "\nCode by library in the module as the compiler leaves it, before it is made small for the \
             page; what a library makes of the standard one is the library's.\n\n\
             | library | bytes of code | of all |\n| --- | --- | --- |\n";
    for (of, bytes, share) in &measured.libraries {
        page.extend([format!("| {of} | {bytes} | {:.1} % |\n", share * 100.0)]);
    }
    page
}

fn visits(measured: &Measured) -> Result<String> {
    let visit = |name: &str| of(&measured.visit, name);
    let counter = visit("counter_ms")?;
    let mut page = String::from(
        "\n## A visit\n\nChromium, its work made four times slower, 1.6 Mbit/s, 150 ms; from \
         opening the address until the frame with the first answer is drawn; the median of five \
         fresh browsers each. An empty counter of Leptos is served the same way in between.\n\n\
         | first answer | time | times the counter's |\n| --- | --- | --- |\n",
    );
    for (what, name) in [
        ("an empty counter", "counter_ms"),
        ("the app, first visit", "first_ms"),
        ("the app, from its worker", "again_ms"),
    ] {
        let time = visit(name)?;
        page.extend([format!("| {what} | {time:.0} ms | {:.2} |\n", time / counter)]);
    }
    page += "\n| a key press, four times slower | median | 95 in 100 |\n| --- | --- | --- |\n";
    for (what, name) in [
        ("work until the new amount is laid out", "key_work"),
        ("until its frame is drawn, waiting for the frame included", "key_drawn"),
    ] {
        let (median, most) = (visit(&format!("{name}_50_ms"))?, visit(&format!("{name}_95_ms"))?);
        page.extend([format!("| {what} | {median:.1} ms | {most:.1} ms |\n")]);
    }
    page += "\n| Lighthouse | made slow by the browser | worked out from a fast visit |\n\
             | --- | --- | --- |\n";
    for (what, name, unit) in [
        ("performance", "performance", ""),
        ("accessibility", "accessibility", ""),
        ("best practices", "best-practices", ""),
        ("first contentful paint", "first-contentful-paint", " ms"),
        ("largest contentful paint", "largest-contentful-paint", " ms"),
        ("total blocking time", "total-blocking-time", " ms"),
    ] {
        let slow = visit(&format!("devtools_{name}"))?;
        let worked_out = visit(&format!("simulate_{name}"))?;
        page.extend([format!("| {what} | {slow:.0}{unit} | {worked_out:.0}{unit} |\n")]);
    }
    Ok(page)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_names_what_was_not_measured() {
        let plan = || Plan { all: 1.0, batches: 20.0, batch: 50.0 };
        let measured = Measured {
            ours: Ours {
                pot_life: 5.0,
                calibration: 30.0,
                loss: 300.0,
                grid: 5.0,
                garage: plan(),
                showroom: plan(),
                warehouse: plan(),
            },
            scipy: BTreeMap::new(),
            cvode: BTreeMap::new(),
            browser: BTreeMap::new(),
            visit: BTreeMap::new(),
            site: Vec::new(),
            counter: Vec::new(),
            libraries: Vec::new(),
        };
        let error = write(&measured).map_err(|e| e.to_string());
        assert_eq!(error, Err("pot_life_error was not measured".to_owned()));
    }
}
