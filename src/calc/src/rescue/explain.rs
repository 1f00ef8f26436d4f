//! The working of a rescue.

use super::Rescue;
use crate::job::Job;
use crate::quantity::{Figure, Volume};
use crate::ratio::Ingredient;
use crate::working::{Sentence, Source, Step};

impl Job {
    /// The steps from what was poured to what to do.
    pub(super) fn explain_rescue(&self, rescue: &Rescue, whole: Volume) -> Vec<Step> {
        let mut steps = Vec::with_capacity(12);
        let about =
            |sentence, source, what, figures| Step::new(sentence, source, figures).about(what);
        for pour in &rescue.poured {
            let figures = vec![pour.volume.into(), pour.mass.into()];
            steps.push(about(Sentence::AsPoured, Source::Entered, pour.what, figures));
        }
        if let Some(off) = rescue.off_by {
            let figures = vec![Figure::Share(off), Figure::Share(self.product.tolerance())];
            steps.push(Step::new(Sentence::OffRatio, Source::Arithmetic, figures));
        }
        if let Some(c) = rescue.consequence {
            steps.push(Step::new(Sentence::Balance, Source::Published, vec![c.balance.into()]));
            if let Some(left) = c.unreacted {
                let what = Ingredient::Component(left.side as usize);
                let figures = vec![c.balance.into(), Figure::Share(left.share)];
                steps.push(about(Sentence::Unreacted, Source::Published, what, figures));
            }
            let (sentence, figures) = match c.gel {
                Some(gel) => (Sentence::GelsAt, vec![Figure::Share(gel)]),
                None => (Sentence::NeverGels, Vec::new()),
            };
            steps.push(Step::new(sentence, Source::Published, figures));
        }
        if rescue.adds.is_empty() {
            return steps;
        }
        steps.push(Step::new(Sentence::WholeBecomes, Source::Arithmetic, vec![whole.into()]));
        let share = |what| {
            let found = self.product.ratio().order().iter().find(|p| p.what == what);
            found.map_or(0.0, |portion| portion.share)
        };
        for add in &rescue.adds {
            let share = share(add.pour.what);
            let figures = vec![
                Figure::Share(share),
                whole.into(),
                (whole * share).into(),
                add.pour.volume.into(),
            ];
            steps.push(about(Sentence::BringUp, Source::Arithmetic, add.pour.what, figures));
        }
        steps.push(Step::new(
            Sentence::Measured,
            Source::Arithmetic,
            vec![rescue.volume.into(), rescue.mass.into(), Figure::Share(rescue.off_after)],
        ));
        if let Some(late) = &rescue.salvage {
            let figures = vec![rescue.mass.into(), late.pot_life.into(), late.pour_out.into()];
            steps.push(Step::new(Sentence::RescuedPotLife, Source::Published, figures));
        }
        steps
    }
}
