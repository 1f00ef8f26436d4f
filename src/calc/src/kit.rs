//! Whole kits and half kits: for crews that do not split a kit further.
//!
//! A kit is named for its parts; what is stirred in comes on top. Of several sizes the one that
//! comes closest to what is wanted is taken, and all kits of a batch are of one size.

use serde::{Deserialize, Serialize};

use crate::quantity::Volume;
use crate::ratio::Ratio;

/// How far a crew splits its kits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Portions {
    /// Kits are only mixed whole, never divided.
    Whole,
    /// Whole kits and half ones.
    Half,
}

impl Portions {
    /// The smallest portion, in halves of a kit.
    pub(crate) fn step(self) -> u32 {
        match self {
            Self::Whole => 2,
            Self::Half => 1,
        }
    }
}

/// Kits that make up a batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kits {
    /// The parts of one kit together.
    pub each: Volume,
    /// How many halves of such a kit.
    pub halves: u32,
}

impl Kits {
    /// The mixed volume, with what is stirred in.
    pub fn mixed(&self, ratio: &Ratio) -> Volume {
        self.each * (f64::from(self.halves) / 2.0) / ratio.parts_share()
    }

    /// Whether no kit is split.
    pub fn whole(&self) -> bool {
        self.halves.is_multiple_of(2)
    }
}

/// The kits there are and how far they are split.
#[derive(Clone, Debug, PartialEq)]
pub struct KitRule {
    sizes: Vec<Volume>,
    portions: Portions,
}

impl KitRule {
    /// Kits of these sizes, split so far. `None` without any size.
    pub fn new(sizes: &[Volume], portions: Portions) -> Option<Self> {
        (!sizes.is_empty()).then(|| Self { sizes: sizes.to_vec(), portions })
    }

    /// How far they are split.
    pub fn portions(&self) -> Portions {
        self.portions
    }

    /// The most kits that mix to no more than a volume; `None` when not even one portion does.
    ///
    /// ```
    /// use pailwise_calc::{demo, kit::{KitRule, Portions}, quantity::{Volume, unit}};
    /// let base = demo::base().unwrap();
    /// let gal = Volume::new::<unit::gallon>;
    /// let rule = KitRule::new(&[gal(3.0)], Portions::Half).unwrap();
    /// assert_eq!(rule.at_most(base.ratio(), gal(5.0)).unwrap().halves, 3);
    /// assert_eq!(rule.at_most(base.ratio(), gal(1.4)), None);
    /// ```
    pub fn at_most(&self, ratio: &Ratio, most: Volume) -> Option<Kits> {
        self.counted(ratio, |portions| (portions * (1.0 + 1e-9)).floor(), most)
            .filter(|kits| kits.halves > 0)
            .max_by(|a, b| a.mixed(ratio).value.total_cmp(&b.mixed(ratio).value))
    }

    /// The fewest kits that mix to at least a volume.
    pub fn at_least(&self, ratio: &Ratio, least: Volume) -> Option<Kits> {
        self.counted(ratio, |portions| (portions * (1.0 - 1e-9)).ceil().max(1.0), least)
            .min_by(|a, b| a.mixed(ratio).value.total_cmp(&b.mixed(ratio).value))
    }

    /// The smallest portion there is.
    pub fn smallest(&self, ratio: &Ratio) -> Option<Kits> {
        self.at_least(ratio, Volume::default())
    }

    fn counted<'a>(
        &'a self,
        ratio: &'a Ratio,
        round: impl Fn(f64) -> f64 + 'a,
        volume: Volume,
    ) -> impl Iterator<Item = Kits> + 'a {
        self.sizes.iter().map(move |&each| {
            let step = self.portions.step();
            let portion = Kits { each, halves: step }.mixed(ratio);
            let portions = round((volume / portion).value).clamp(0.0, 1e6) as u32;
            Kits { each, halves: portions * step }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::product::Product;
    use crate::quantity::unit;

    fn liter(x: f64) -> Volume {
        Volume::new::<unit::liter>(x)
    }

    #[test]
    fn the_size_that_comes_closest_is_taken() {
        let base = demo::base().unwrap();
        let rule = KitRule::new(&[liter(5.0), liter(12.0)], Portions::Whole).unwrap();
        let at_most = |l| rule.at_most(base.ratio(), liter(l)).map(|k| (k.each, k.halves));
        assert_eq!(at_most(11.0), Some((liter(5.0), 4)));
        assert_eq!(at_most(14.0), Some((liter(12.0), 2)));
        assert_eq!(at_most(4.9), None);
        let least = rule.at_least(base.ratio(), liter(11.0)).unwrap();
        assert_eq!((least.each, least.halves), (liter(12.0), 2));
        assert_eq!(rule.smallest(base.ratio()).unwrap().each, liter(5.0));
    }

    #[test]
    fn what_is_stirred_in_comes_on_top() {
        let topcoat = Product::try_from(&demo::record_topcoat()).unwrap();
        let kits = Kits { each: liter(2.0), halves: 2 };
        // One litre of A takes 2 % by volume.
        assert!((kits.mixed(topcoat.ratio()) - liter(2.02)).value.abs() < 1e-12);
    }
}
