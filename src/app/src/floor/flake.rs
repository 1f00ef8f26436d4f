//! Flake of the floor: how thickly it is thrown, in boxes, and band by band what is left of it.

use leptos::prelude::*;
use pailwise_calc::flake::{Band, Cover, bands, boxes, flake, runs_short_after};
use pailwise_calc::order::surface;
use pailwise_calc::quantity::{Area, Figure, Mass, unit};
use pailwise_calc::working::Sentence;
use pailwise_kept::answers::floor::Good;
use pailwise_kept::records::floor::Single;
use pailwise_kept::records::load::CoverPick;
use pailwise_kept::show::Reader;

use crate::desk::Desk;
use crate::parts::working::{figure, how};
use crate::text::{key, live, tr, tr_with};

/// How the flake of a floor is thrown.
#[derive(Clone, Copy)]
struct Thrown {
    kg_per_m2: f64,
    /// Where that comes from.
    source: &'static str,
    /// Weight of the flake in one full box.
    each: Mass,
    /// What is here of it, where it was weighed.
    here: Option<Mass>,
}

/// How it is thrown; the text that says why that is not known; nothing where no coat takes any.
fn thrown(reader: Reader, desk: Desk, good: &Good) -> Option<Result<Thrown, &'static str>> {
    let first = good.products.iter().find(|product| product.flaked)?;
    // What is typed and cannot be is told at its field, and nothing stands in for it.
    let (pick, typed, each, here) = desk.floor.with(|form| {
        let value = |single: Single| form.value(single, reader.units);
        let here = value(Single::FlakeHere);
        (form.load.cover, value(Single::FlakeCover), value(Single::FlakeBox), here)
    });
    let typed = if pick == CoverPick::Sheet { typed } else { Ok(None) };
    let (Ok(typed), Ok(Some(each)), Ok(here)) = (typed, each, here) else {
        return Some(Err(key::FLAKE_UNFIT));
    };
    let usual = pick.usual();
    let cover = usual.map(Cover::kg_per_m2).or(typed).or(first.flake_kg_per_m2);
    let source = match (usual, typed) {
        (Some(_), _) => key::FLAKE_USUAL,
        (None, Some(_)) => key::FLAKE_TYPED,
        (None, None) => key::FLAKE_SHEET,
    };
    let Some(kg_per_m2) = cover else { return Some(Err(key::FLAKE_UNSAID)) };
    let kg = Mass::new::<unit::kilogram>;
    Some(Ok(Thrown { kg_per_m2, source, each: kg(each), here: here.map(kg) }))
}

/// What all coats that take flake need of it, in boxes.
pub(super) fn card(reader: Reader, desk: Desk, good: &Good) -> Option<AnyView> {
    let inside = match thrown(reader, desk, good)? {
        Err(why) => view! { <p class="no-answer">{live(why)}</p> }.into_any(),
        Ok(thrown) => {
            let plans = good.products.iter().zip(&good.plans);
            let plans = plans.filter(|(product, _)| product.flaked);
            let area = plans.map(|(_, plan)| surface(&good.floor, plan)).sum();
            let flake = flake(area, thrown.kg_per_m2, thrown.each);
            let n = flake.boxes.to_string();
            let size = reader.mass_up(thrown.each);
            let boxes = tr_with(key::FLAKE_BOXES, &[("n", &n), ("size", &size)]);
            let needs = figure(reader.mass_up(flake.mass), Sentence::FlakeNeeds);
            view! {
                <p>{live(key::FLAKE_NEEDS)}" "{needs}</p>
                <p class="load-buy">
                    <strong>{figure(boxes, Sentence::FlakeBoxes)}</strong>
                </p>
                <p class="small">{tr(thrown.source)}</p>
                {how(reader, None, &flake.working)}
            }
            .into_any()
        }
    };
    Some(
        view! {
            <section class="card load" id="load-flake">
                <h2>{live(key::QUESTION_FLAKE)}</h2>
                {inside}
            </section>
        }
        .into_any(),
    )
}

/// The flake of each batch of a coat that is still to come.
pub(super) struct InBands {
    thrown: Thrown,
    bands: Vec<Band>,
    /// What is here when the first of them begins.
    here: Mass,
    area: Area,
    /// It was weighed, or some of it has been thrown: what is left is worth saying.
    counted: bool,
}

/// The bands of the coat shown, where it takes flake and is known to take how much.
pub(super) fn in_bands(reader: Reader, desk: Desk, good: &Good, shown: usize) -> Option<InBands> {
    let (coat, plan) = (good.floor.coats.get(shown)?, good.plans.get(shown)?);
    if !coat.product.flaked() {
        return None;
    }
    let thrown = thrown(reader, desk, good)?.ok()?;
    let areas: Vec<Area> = plan.batches.iter().map(|placed| placed.batch.area).collect();
    let area: Area = areas.iter().copied().sum();
    // Where nobody weighed it: the boxes of the whole coat, less what has been thrown.
    let down: Area = good.floor.covered(coat).into_iter().sum();
    let bought = flake(area + down, thrown.kg_per_m2, thrown.each).boxes;
    let used = flake(down, thrown.kg_per_m2, thrown.each).mass;
    let bought = thrown.each * f64::from(bought) - used;
    let here = thrown.here.unwrap_or(bought);
    let counted = thrown.here.is_some() || down > Area::default();
    let bands = bands(&areas, thrown.kg_per_m2, here);
    Some(InBands { thrown, bands, here, area, counted })
}

impl InBands {
    /// What a batch takes, and what is left after it.
    pub(super) fn line(&self, reader: Reader, at: usize) -> Option<String> {
        let band = self.bands.get(at)?;
        let mut line = tr_with(key::BATCH_FLAKE, &[("mass", &reader.mass_up(band.mass))]);
        if let (true, Some(rest)) = (self.counted, band.for_rest) {
            let left = reader.mass_down(band.left);
            let figures = [("left", &*left), ("rest", &*reader.cover_at_most(rest))];
            line.push(' ');
            line.push_str(&tr_with(key::BATCH_FLAKE_LEFT, &figures));
        }
        Some(line)
    }

    /// Said as soon as what is here will not do.
    pub(super) fn warning(&self, reader: Reader) -> Option<String> {
        runs_short_after(&self.bands, self.thrown.kg_per_m2)?;
        let needs = flake(self.area, self.thrown.kg_per_m2, self.thrown.each).mass;
        let missing = boxes((needs - self.here).max(Mass::default()), self.thrown.each);
        let even = self.here.get::<unit::kilogram>() / self.area.get::<unit::square_meter>();
        let figures = [
            ("even", &*reader.cover_at_most(even)),
            ("asked", &*reader.figure(Figure::Cover(self.thrown.kg_per_m2))),
            ("n", &*missing.to_string()),
            ("size", &*reader.mass_up(self.thrown.each)),
        ];
        Some(tr_with(key::FLAKE_SHORT, &figures))
    }
}
