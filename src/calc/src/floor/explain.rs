//! The working of a plan: what its batches come to, and what it learnt.

use super::{Coat, CoatPlan, Floor};
use crate::quantity::Figure;
use crate::working::{Sentence, Source, Step};

impl Floor {
    /// The steps to the sum of a coat's plan, to what was learnt on it and to what is short.
    ///
    /// ```
    /// use pailwise_calc::{demo, floor::Floor, working::Sentence};
    /// let floor = Floor::try_from(&demo::floor()).unwrap();
    /// let plan = floor.plan(&floor.coats[0]);
    /// let steps = floor.explain_plan(&floor.coats[0], &plan);
    /// let sum: f64 = plan.batches.iter().map(|placed| placed.batch.measured.volume.value).sum();
    /// assert_eq!(steps[0].sentence, Sentence::PlanSum);
    /// assert!((steps[0].figures[1].si() - sum).abs() < 1e-12);
    /// ```
    pub fn explain_plan(&self, coat: &Coat, plan: &CoatPlan) -> Vec<Step> {
        let mut steps = Vec::new();
        let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
        if let Some(learnt) = plan.learnt {
            let (mixed, share) = (learnt.mixed.into(), Figure::Share(learnt.yield_ratio));
            let figures = vec![mixed, learnt.meant_area.into(), learnt.laid.into(), share];
            say(Sentence::LearntSpread, Source::Entered, figures);
            if let Some(pace) = learnt.pace {
                let (area, time) = learnt.timed;
                let entered = learnt.expected.into();
                let figures = vec![area.into(), time.into(), entered, Figure::Share(pace)];
                say(Sentence::LearntPace, Source::Entered, figures);
            }
            let (went, pace) = learnt.planned();
            let figures = vec![Figure::Share(went), Figure::Share(pace)];
            say(Sentence::PlannedWith, Source::Practice, figures);
        }
        let planned = plan.planned();
        let figures = vec![Figure::Count(plan.batches.len() as u32), planned.into()];
        say(Sentence::PlanSum, Source::Arithmetic, figures);
        if plan.needed > planned {
            let figures = vec![(plan.needed - planned).into(), plan.needed.into()];
            say(Sentence::PlanLeft, Source::Arithmetic, figures);
        }
        if let (Some(here), Some(left), Some(short)) = (coat.on_hand, plan.left, plan.short) {
            // Rolled, brushed or thrown away: it is not here any more.
            let used = here - left;
            let figures = vec![here.into(), used.into(), plan.needed.into(), short.into()];
            say(Sentence::PlanShort, Source::Entered, figures);
        }
        steps
    }
}
