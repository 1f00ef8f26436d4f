//! What to buy and load for a floor: kits, what is left of them, additives.
//!
//! A kit is named for its parts; what is stirred in comes on top. Everything is rounded up: what is
//! short by half a kit is found out at the far end of the floor.

mod kits_to_buy;

use crate::floor::{CoatPlan, Floor};
use crate::product::Product;
use crate::quantity::{Area, Figure, Volume};
use crate::ratio::{Ingredient, Pour, Ratio};
use crate::working::{Sentence, Source, Step};
pub use kits_to_buy::{Pick, SIZES, Sold, enough};

/// What a floor takes of one product. All of it in whole steps, so that it adds up as it is shown,
/// but for what is here and what a kit holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What is still to be laid takes, mixed, with take-up and loss.
    pub needed: Volume,
    /// What is here, mixed, where it was said.
    pub here: Option<Volume>,
    /// What of the need is not here.
    pub short: Volume,
    /// What is to be bought: that with what is to be spare.
    pub missing: Volume,
    /// The kits that make up for it, where the product comes in kits.
    pub kits: Option<Pick>,
    /// What is left when all is laid.
    pub left: Volume,
    /// What is stirred into all of it: what is here of the parts holds none of it yet.
    pub additives: Vec<Pour>,
    /// The parts of what is missing, for a product without kits.
    pub parts: Vec<Pour>,
    /// How all of that came about.
    pub working: Vec<Step>,
}

/// How a floor is bought for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// What is bought beyond what is needed, as a share of it.
    pub spare: f64,
    /// What is needed is rounded up to whole steps of this.
    pub step: Volume,
}

impl Rule {
    fn up(&self, volume: Volume) -> Volume {
        self.step * ((volume / self.step).value * (1.0 - 1e-9)).ceil()
    }
}

impl Line {
    /// How many half kits of a size are missing, rounded up.
    ///
    /// ```
    /// use pailwise_calc::{demo, order::{Line, Rule}, quantity::{unit, Volume}};
    /// let base = demo::base().unwrap();
    /// let gal = Volume::new::<unit::gallon>;
    /// let rule = Rule { spare: 0.0, step: gal(0.1) };
    /// let line = Line::new(&base, gal(7.4), Some(gal(6.0)), &rule);
    /// assert_eq!(line.half_kits_short(&base, gal(3.0)), 1);
    /// ```
    pub fn half_kits_short(&self, product: &Product, each: Volume) -> u32 {
        let parts = self.short * product.ratio().parts_share();
        ((parts / (each * 0.5)).value * (1.0 - 1e-9)).ceil().clamp(0.0, 1e6) as u32
    }

    /// What is needed of a product, and what is here of it.
    pub fn new(product: &Product, needed: Volume, here: Option<Volume>, rule: &Rule) -> Self {
        let ratio = product.ratio();
        let needed = rule.up(needed);
        let wanted = rule.up(needed * (1.0 + rule.spare));
        let beyond = |much: Volume| (much - here.unwrap_or_default()).max(Volume::default());
        let (short, missing) = (beyond(needed), beyond(wanted));
        let kits = enough(product.sold(), missing * ratio.parts_share());
        let bought = match &kits {
            Some(pick) => pick.parts / ratio.parts_share(),
            None => missing,
        };
        let additive = |pour: &Pour| matches!(pour.what, Ingredient::Additive(_));
        let additives = ratio.split(needed).into_iter().filter(additive).collect();
        let parts = ratio.split(missing).into_iter().filter(|pour| !additive(pour)).collect();
        let left = (here.unwrap_or_default() + bought - needed).max(Volume::default());
        let mut line = Self {
            needed,
            here,
            short,
            missing,
            kits,
            left,
            additives,
            parts,
            working: Vec::new(),
        };
        line.working = line.explain(ratio, (rule.spare, wanted), bought);
        line
    }

    /// The steps from what is needed to what is bought and left.
    fn explain(&self, ratio: &Ratio, (spare, wanted): (f64, Volume), bought: Volume) -> Vec<Step> {
        let mut steps = Vec::new();
        let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
        let stock = Figure::Stock;
        say(Sentence::OrderNeeds, Source::Arithmetic, vec![stock(self.needed)]);
        if spare > 0.0 {
            let figures = vec![Figure::Share(spare), stock(wanted)];
            say(Sentence::OrderSpare, Source::Entered, figures);
        }
        if let Some(here) = self.here {
            say(Sentence::OrderHere, Source::Entered, vec![stock(here), stock(self.missing)]);
        }
        let share = ratio.parts_share();
        if let Some(pick) = &self.kits {
            let parts = self.missing * share;
            if share < 1.0 {
                let figures = vec![stock(self.missing), Figure::Share(share), stock(parts)];
                say(Sentence::OrderParts, Source::DataSheet, figures);
            }
            let figures = vec![stock(parts), stock(pick.parts)];
            say(Sentence::OrderKits, Source::DataSheet, figures);
            if share < 1.0 {
                let figures = vec![stock(pick.parts), stock(bought)];
                say(Sentence::OrderMixed, Source::DataSheet, figures);
            }
        }
        let figures = [bought, self.needed, self.left].map(stock);
        match self.here {
            None => say(Sentence::OrderLeft, Source::Arithmetic, figures.to_vec()),
            Some(here) => {
                let figures = [stock(here)].into_iter().chain(figures).collect();
                say(Sentence::OrderLeftHere, Source::Arithmetic, figures);
            }
        }
        steps
    }
}

/// The surface that a coat is still to go on, the flat with what stands up from it: for flake.
/// Where its plan does not go through, the whole of it.
pub fn surface(floor: &Floor, plan: &CoatPlan) -> Area {
    if plan.stopped.is_none() {
        return plan.batches.iter().map(|placed| placed.batch.area).sum();
    }
    floor.shape.area() + floor.verticals.map_or_else(Area::default, |up| up.area)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::quantity::unit;

    fn gal(x: f64) -> Volume {
        Volume::new::<unit::gallon>(x)
    }

    /// By the gallon to the tenth.
    fn rule(spare: f64) -> Rule {
        Rule { spare, step: gal(0.1) }
    }

    #[test]
    fn what_is_here_is_not_bought_again_and_what_is_left_is_said() {
        let base = demo::base().unwrap();
        let line = Line::new(&base, gal(7.4), None, &rule(0.0));
        assert_eq!(line.kits.as_ref().unwrap().counts, [3]);
        assert!((line.left - gal(1.6)).value.abs() < 1e-9);
        let here = Line::new(&base, gal(7.4), Some(gal(7.5)), &rule(0.0));
        assert_eq!(
            (here.kits.as_ref().unwrap().counts.as_slice(), here.missing),
            (&[0][..], gal(0.0))
        );
        assert!((here.left - gal(0.1)).value.abs() < 1e-9);
    }

    #[test]
    fn what_is_stirred_in_is_not_counted_as_kit() {
        let topcoat = Product::try_from(&demo::record_topcoat()).unwrap();
        // A two-gallon kit mixes to 2.02 gal with 2 % onto its gallon of A.
        let line = Line::new(&topcoat, gal(2.02), None, &Rule { spare: 0.0, step: gal(0.01) });
        assert_eq!(line.kits.unwrap().counts, [1]);
        assert!((line.additives[0].volume - gal(0.02)).value.abs() < 1e-9);
    }

    #[test]
    fn what_is_spare_is_bought_and_left() {
        let base = demo::base().unwrap();
        let line = Line::new(&base, gal(8.31), Some(gal(1.25)), &rule(0.1));
        // 8.4 needed, 9.3 with a tenth to spare, 8.05 of it bought.
        assert!((line.short - gal(7.15)).value.abs() < 1e-12, "{:?}", line.short);
        assert!((line.missing - gal(8.05)).value.abs() < 1e-12, "{:?}", line.missing);
        assert_eq!(line.kits.as_ref().unwrap().counts, [3]);
        assert!((line.left - gal(1.85)).value.abs() < 1e-12, "{:?}", line.left);
    }
}
