//! Rounds about time and temperature: pot life, open time, the next mix, dew point, recoat.

use fastrand::Rng;

use super::choose;
use super::{Answer, Counting, Mistake, Question, Skill, Within, asks, slip};
use crate::dew;
use crate::product::{Gap, Product};
use crate::quantity::{
    Figure, Mass, TemperatureInterval, ThermodynamicTemperature, Time, above, minutes, unit,
};
use crate::vessel::Generic;
use crate::working::{Sentence, Source, Step};

/// A pail's pot life in a five-gallon pail, material and air alike.
fn pot_life(product: &Product, mass: Mass, at: ThermodynamicTemperature) -> Option<Time> {
    product.pail(mass, &Generic::FiveGallon.vessel(), at, at).ok()?.pot_life().ok()
}

/// Times that nobody works with are not asked about.
fn usual(time: Time) -> bool {
    time > minutes(4.0) && time < minutes(240.0)
}

pub(super) fn pot_life_elsewhere(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let mass = choose::weight(counting, rng);
    let (here, there) = (choose::temperature(counting, rng), choose::temperature(counting, rng));
    (above(there, here).abs().value > 4.0).then_some(())?;
    let (known, right) = (pot_life(product, mass, here)?, pot_life(product, mass, there)?);
    (usual(known) && usual(right)).then_some(())?;
    let slips = vec![
        slip(Mistake::TemperatureIgnored, known),
        // As much longer as it is shorter.
        slip(Mistake::WrongWay, known * (known / right).value),
    ];
    let mut working = product.explain_pot_life();
    working.push(Step::pot_life(mass, here, here, known));
    working.push(Step::pot_life(mass, there, there, right));
    Some(Question {
        skill: Skill::PotLifeElsewhere,
        asks: asks(
            Sentence::AskPotLife,
            vec![mass.into(), known.into(), here.into(), there.into()],
        ),
        right: Answer::Figure(right.into()),
        // As near as a rule of thumb comes within ten kelvin.
        within: Within::Share(0.15),
        slips,
        working,
    })
}

pub(super) fn first_to_go(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let mut pail = || (choose::weight(counting, rng), choose::temperature(counting, rng));
    let ((one, one_at), (two, two_at)) = (pail(), pail());
    let (first, second) = (pot_life(product, one, one_at)?, pot_life(product, two, two_at)?);
    let clear = (first / second).value;
    let clear = !(0.8..=1.25).contains(&clear) && usual(first) && usual(second);
    clear.then_some(())?;
    let mut working = product.explain_pot_life();
    let (one_step, two_step) =
        (Step::pot_life(one, one_at, one_at, first), Step::pot_life(two, two_at, two_at, second));
    // The one that goes first stands last.
    let steps = if second < first { [one_step, two_step] } else { [two_step, one_step] };
    working.extend(steps);
    Some(Question {
        skill: Skill::FirstToGo,
        asks: asks(Sentence::AskFirst, vec![one.into(), one_at.into(), two.into(), two_at.into()]),
        right: Answer::Second(second < first),
        within: Within::Share(0.0),
        slips: Vec::new(),
        working,
    })
}

/// So much of the open time may be planned (common practice, no source).
const USABLE: f64 = 0.8;

pub(super) fn flaked_in_time(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    // What is not flaked, or does not say how long it takes flake, is not asked about.
    (product.flaked() && !product.gaps().contains(&Gap::OpenTime)).then_some(())?;
    let slab = choose::temperature(counting, rng);
    let open = product.film().left(0.0, slab);
    usual(open).then_some(())?;
    let usable = open * USABLE;
    let lain = choose::whole_minutes(rng, 3, 90);
    let left = usable - lain;
    // Clearly in time, or clearly not.
    (left.abs() > usable * 0.15).then_some(())?;
    let figures = vec![slab.into(), open.into(), Figure::Share(USABLE), usable.into()];
    let working = vec![
        Step::new(Sentence::OpenLeft, Source::Published, figures),
        Step::new(
            Sentence::OpenStill,
            Source::Arithmetic,
            vec![usable.into(), lain.into(), left.into()],
        ),
    ];
    Some(Question {
        skill: Skill::FlakedInTime,
        asks: asks(Sentence::AskFlaked, vec![slab.into(), lain.into(), Figure::Share(USABLE)]),
        right: Answer::Yes(left > Time::default()),
        within: Within::Share(0.0),
        slips: Vec::new(),
        working,
    })
}

pub(super) fn next_mix(product: &Product, rng: &mut Rng) -> Option<Question> {
    let carry = choose::whole_minutes(rng, 0, 3);
    let ready = product.ready() + carry;
    let free = choose::whole_minutes(rng, 8, 40);
    let right = free - ready;
    (right > minutes(1.0)).then_some(())?;
    let slips = vec![slip(Mistake::ReadyIgnored, free), slip(Mistake::ReadyAdded, free + ready)];
    let figures = vec![free.into(), ready.into(), right.into()];
    Some(Question {
        skill: Skill::NextMix,
        asks: asks(Sentence::AskNextMix, vec![free.into(), ready.into()]),
        right: Answer::Figure(right.into()),
        within: Within::Of(minutes(0.5).into()),
        slips,
        working: vec![Step::new(Sentence::NextMix, Source::Arithmetic, figures)],
    })
}

pub(super) fn dew_point_go(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let air = choose::temperature(counting, rng);
    let below = match counting {
        Counting::Us => {
            TemperatureInterval::new::<unit::fahrenheit_change>(f64::from(rng.u32(0..14)))
        }
        Counting::Metric => {
            TemperatureInterval::new::<unit::celsius_change>(f64::from(rng.u32(0..8)))
        }
    };
    let slab = air - below;
    let humidity = choose::humidity(rng);
    // Dew is not the only reason to wait: the others are kept out of it.
    let limits = product.limits();
    let fits = limits.slab.holds(slab)
        && limits.air.holds(air)
        && limits.humidity.is_none_or(|most| humidity <= most);
    fits.then_some(())?;
    let dew = dew::of(air, humidity);
    let (spread, asked) = (above(slab, dew), product.limits().spread());
    // Clear enough to be read off a chart.
    ((spread - asked).abs().value > 0.7).then_some(())?;
    let limit = if product.limits().spread.is_some() {
        Step::new(Sentence::SpreadAsked, Source::DataSheet, vec![asked.into()])
    } else {
        Step::new(Sentence::SpreadUsual, Source::Published, vec![asked.into()])
    };
    let figures = vec![air.into(), Figure::Share(humidity), dew.into()];
    let working = vec![
        Step::new(Sentence::DewPoint, Source::Published, figures),
        limit,
        Step::new(
            Sentence::DewPointSpread,
            Source::Arithmetic,
            vec![slab.into(), dew.into(), spread.into()],
        ),
    ];
    Some(Question {
        skill: Skill::DewPointGo,
        asks: asks(
            Sentence::AskDewPoint,
            vec![slab.into(), air.into(), Figure::Share(humidity), asked.into()],
        ),
        right: Answer::Yes(spread >= asked),
        within: Within::Share(0.0),
        slips: Vec::new(),
        working,
    })
}

pub(super) fn recoat_window(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let opens = product.after().recoat_opens.as_ref()?;
    let sheet = *opens.times().first()?;
    let there = choose::temperature(counting, rng);
    // On a floor colder than the coldest the sheet speaks of.
    (above(sheet.temperature, there).value > 4.0).then_some(())?;
    let right = opens.ready(there);
    let slips = vec![
        slip(Mistake::TemperatureIgnored, sheet.time),
        slip(Mistake::WrongWay, sheet.time * (sheet.time / right).value),
    ];
    let figures = vec![sheet.time.into(), sheet.temperature.into()];
    let working = vec![
        Step::new(Sentence::SheetAfter, Source::DataSheet, figures),
        Step::new(Sentence::SlabBetween, Source::Entered, vec![there.into(), there.into()]),
        Step::new(Sentence::AfterReady, Source::Published, vec![right.into()]),
    ];
    Some(Question {
        skill: Skill::RecoatWindow,
        asks: asks(
            Sentence::AskRecoat,
            vec![sheet.time.into(), sheet.temperature.into(), there.into()],
        ),
        right: Answer::Figure(right.into()),
        within: Within::Share(0.15),
        slips,
        working,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::practice::{Worth, ask};
    use crate::quantity::celsius;

    #[test]
    fn the_halving_rule_of_thumb_is_near_enough_and_the_usual_mistakes_are_named() {
        let base = demo::base().unwrap();
        let (mut named, mut within) = ([false, false], 0);
        for seed in 0..60 {
            let question = ask(Skill::PotLifeElsewhere, &base, Counting::Metric, seed).unwrap();
            let figures = &question.asks.figures;
            let (Figure::Time(known), Figure::Temperature(here), Figure::Temperature(there)) =
                (figures[1], figures[2], figures[3])
            else {
                panic!("{question:?}")
            };
            let kelvin = above(there, here).get::<unit::celsius_change>();
            // Between the two temperatures of its sheet, 45 min at 20 °C and 24 at 30.
            if [here, there].iter().all(|at| (celsius(20.0)..=celsius(30.0)).contains(at)) {
                within += 1;
                let by_hand = known * (-kelvin / 10.0 * (45.0_f64 / 24.0).ln()).exp();
                assert_eq!(
                    question.worth(Answer::Figure(by_hand.into())),
                    Worth::Right,
                    "{kelvin}"
                );
            }
            for (i, mistake) in [Mistake::TemperatureIgnored, Mistake::WrongWay].iter().enumerate()
            {
                named[i] |= question.slips.iter().any(|slip| slip.mistake == *mistake);
            }
        }
        assert!(within >= 4, "{within}");
        assert_eq!(named, [true, true]);
    }

    #[test]
    fn a_product_without_a_window_is_not_asked_for_it() {
        let mut record = demo::record_filler();
        record.recoat_opens.clear();
        let filler = Product::try_from(&record).unwrap();
        assert_eq!(ask(Skill::RecoatWindow, &filler, Counting::Us, 3), None);
    }
}
