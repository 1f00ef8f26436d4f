//! Whether there is still time to lay a pail that was poured wrongly.

use super::{FilledPail, Lost, together};
use crate::batch::Salvage;
use crate::error::Error;
use crate::job::Job;
use crate::measure::InPail;
use crate::quantity::{Mass, Time, Volume, minutes, unit};
use crate::ratio::{Ingredient, Portion, Pour};
use crate::vessel::Vessel;

impl Job {
    /// What can still be laid of a pail once it was filled up, or why it is lost.
    pub(super) fn salvage_in_time(
        &self,
        poured: &[Pour],
        filled: &FilledPail,
        met: Option<Time>,
    ) -> Result<Result<Salvage, Lost>, Error> {
        let rate_factor = met.map_or(1.0, |_| self.rate_factor(poured));
        let salvage = self.salvage_of(filled, rate_factor, met)?;
        let past = match met {
            Some(since) => since >= self.pot_life_as_is(&together(poured), rate_factor)?,
            None => false,
        };
        Ok(match salvage {
            _ if past => Err(Lost::PastPotLife),
            _ if filled.vessel.is_none() => Err(Lost::TooMuch),
            None => Err(Lost::NoTime),
            Some(salvage) => Ok(salvage),
        })
    }

    /// What can still be laid of a pail once it was filled up; `None` where no pail holds it, or
    /// where there is no time.
    fn salvage_of(
        &self,
        filled: &FilledPail,
        rate_factor: f64,
        met: Option<Time>,
    ) -> Result<Option<Salvage>, Error> {
        let Some((vessel, _)) = filled.vessel else { return Ok(None) };
        // A minute to measure what is added (common practice, no source).
        let ready = match met {
            Some(since) if !filled.adds.is_empty() => Some(since + minutes(1.0)),
            other => other,
        };
        let mass = filled.volume * self.product.ratio().density();
        let stand = self.curing_pail(mass, &vessel, rate_factor)?;
        Ok(self.salvage(filled.volume, &stand, ready))
    }

    /// How many times quicker than on ratio these pours may react: the part that is over is so much
    /// denser in the pail, `max (v_i/Σv) / φ_i`, and the rate is of first order in each part.
    fn rate_factor(&self, poured: &[Pour]) -> f64 {
        let all: Volume = poured.iter().map(|pour| pour.volume).sum();
        let crowded = |portion: &Portion| {
            let of = poured.iter().filter(|pour| pour.what == portion.what);
            (of.map(|pour| pour.volume).sum::<Volume>() / all).value / portion.share
        };
        let parts = self.product.ratio().order().iter();
        let parts = parts.filter(|portion| matches!(portion.what, Ingredient::Component(_)));
        parts.map(crowded).fold(1.0, f64::max)
    }

    /// The pot life of what stands there now.
    fn pot_life_as_is(&self, standing: &InPail, rate_factor: f64) -> Result<Time, Error> {
        let mass = standing.mass.max(Mass::new::<unit::kilogram>(0.01));
        // Off ratio its density is not the mix's; the pail is asked about by weight.
        let volume = mass / self.product.ratio().density();
        let own = self.gear.vessel;
        let vessel = if own.capacity() < volume { Vessel::compact(volume * 1.001) } else { own };
        Ok(self.curing_pail(mass, &vessel, rate_factor)?.pot_life())
    }
}
