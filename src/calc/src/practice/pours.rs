//! Rounds about ratio: split, scale, stick, on ratio or not, and the way back.

use fastrand::Rng;

use super::choose;
use super::{Answer, Counting, Mistake, Question, Skill, Within, asks, slip};
use crate::product::Product;
use crate::quantity::{Figure, Length, Volume, unit};
use crate::ratio::{Ingredient, Portion, Pour};
use crate::vessel::Generic;
use crate::working::{Sentence, Source, Step};

/// Parts A and B of a product, with nothing stirred into either: rounds are about the two.
struct Pair {
    a: Portion,
    b: Portion,
}

const A: Ingredient = Ingredient::Component(0);
const B: Ingredient = Ingredient::Component(1);

impl Pair {
    fn of(product: &Product) -> Option<Self> {
        let order = product.ratio().order();
        let find = |what| order.iter().find(|portion| portion.what == what).copied();
        (product.ratio().components().len() == 2).then_some(())?;
        let (mut a, mut b) = (find(A)?, find(B)?);
        let both = a.share + b.share;
        (a.share, b.share) = (a.share / both, b.share / both);
        Some(Self { a, b })
    }

    /// The step from so much of A to B, by what each shares.
    fn other_of(&self, a: Figure, (own, other): (f64, f64), b: Figure) -> Step {
        let figures = vec![a, Figure::Share(own), Figure::Share(other), b];
        Step::new(Sentence::OtherOf, Source::Arithmetic, figures).about(self.b.what)
    }

    /// The volume of B for so much of A.
    fn per_a(&self) -> f64 {
        self.b.share / self.a.share
    }

    /// What a part is of the two together, by weight.
    fn mass_share(&self, part: &Portion) -> f64 {
        let mass = |part: &Portion| part.density * part.share;
        (mass(part) / (mass(&self.a) + mass(&self.b))).value
    }

    /// What each is of the two together, by volume and by weight.
    fn shares(&self) -> Vec<Step> {
        [&self.a, &self.b].map(|part| part.explain(self.mass_share(part))).to_vec()
    }
}

/// The step from a whole to a part of it.
fn part_of(whole: Figure, share: f64, part: Figure) -> Step {
    let figures = vec![whole, Figure::Share(share), part];
    Step::new(Sentence::PartOf, Source::Arithmetic, figures)
}

/// How near an amount must be: the product's own tolerance of its ratio.
fn trade(product: &Product) -> Within {
    Within::Share(product.tolerance())
}

/// How near a weight must be. A scale shows it closer than the trade asks: so close that the ratio
/// by volume, which would be so far off, is not taken for right where it is another one.
fn on_a_scale(product: &Product, by_volume: f64) -> f64 {
    let tolerance = product.tolerance();
    (by_volume.abs() / 2.0).clamp(tolerance.min(0.01), tolerance)
}

pub(super) fn split_by_volume(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let pair = Pair::of(product)?;
    let whole = choose::mix(counting, rng);
    let (part, other) = if rng.bool() { (&pair.a, &pair.b) } else { (&pair.b, &pair.a) };
    let volume = whole * part.share;
    let mut slips = vec![slip(Mistake::PartsSwapped, whole * other.share)];
    // One part to two, read as one of two.
    if part.share < other.share {
        slips.push(slip(Mistake::PartsAsFraction, whole * (part.share / other.share)));
    }
    let mut working = pair.shares();
    working.push(part_of(whole.into(), part.share, volume.into()).about(part.what));
    Some(Question {
        skill: Skill::SplitByVolume,
        asks: asks(Sentence::AskSplit, vec![whole.into()]).about(part.what),
        right: Answer::Figure(volume.into()),
        within: trade(product),
        slips,
        working,
    })
}

pub(super) fn split_by_mass(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let pair = Pair::of(product)?;
    let whole = choose::weight(counting, rng);
    let (part, other) = if rng.bool() { (&pair.a, &pair.b) } else { (&pair.b, &pair.a) };
    let share = pair.mass_share(part);
    let (mass, by_volume) = (whole * share, whole * part.share);
    let slips = vec![
        slip(Mistake::VolumeOnScale, by_volume),
        slip(Mistake::PartsSwapped, whole * pair.mass_share(other)),
    ];
    let within = Within::Share(on_a_scale(product, ((by_volume - mass) / mass).value));
    let mut working = pair.shares();
    working.push(part_of(whole.into(), share, mass.into()).about(part.what));
    Some(Question {
        skill: Skill::SplitByMass,
        asks: asks(Sentence::AskSplit, vec![whole.into()]).about(part.what),
        right: Answer::Figure(mass.into()),
        within,
        slips,
        working,
    })
}

pub(super) fn one_from_other(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let pair = Pair::of(product)?;
    let a = choose::mix(counting, rng);
    let b = a * pair.per_a();
    let slips = vec![
        slip(Mistake::PartsSwapped, a / pair.per_a()),
        slip(Mistake::PartsAsFraction, a * pair.b.share),
    ];
    let mut working = pair.shares();
    working.push(pair.other_of(a.into(), (pair.a.share, pair.b.share), b.into()));
    Some(Question {
        skill: Skill::OneFromOther,
        asks: asks(Sentence::AskOther, vec![a.into()]).about(B),
        right: Answer::Figure(b.into()),
        within: trade(product),
        slips,
        working,
    })
}

pub(super) fn scale_reading(
    product: &Product,
    counting: Counting,
    rng: &mut Rng,
) -> Option<Question> {
    let pair = Pair::of(product)?;
    let a = choose::weight(counting, rng);
    let b = a * (pair.per_a() * (pair.b.density / pair.a.density).value);
    let total = a + b;
    // How far off B would be by the ratio by volume.
    let by_volume = (a * pair.per_a() / b).value - 1.0;
    let slips = vec![
        slip(Mistake::ScaleSetBack, b),
        slip(Mistake::VolumeOnScale, a * (1.0 + pair.per_a())),
    ];
    let mut working = pair.shares();
    let shares = (pair.mass_share(&pair.a), pair.mass_share(&pair.b));
    working.push(pair.other_of(a.into(), shares, b.into()));
    let figures = vec![a.into(), b.into(), total.into()];
    working.push(Step::new(Sentence::ScaleTotal, Source::Arithmetic, figures));
    Some(Question {
        skill: Skill::ScaleReading,
        asks: asks(Sentence::AskScale, vec![a.into()]).about(B),
        right: Answer::Figure(total.into()),
        // Of the part that is poured last: a hair of the whole is much of it.
        within: Within::Of((b * on_a_scale(product, by_volume)).into()),
        slips,
        working,
    })
}

pub(super) fn stick_mark(product: &Product, counting: Counting, rng: &mut Rng) -> Option<Question> {
    let pair = Pair::of(product)?;
    let whole = choose::mix(counting, rng);
    let vessel = Generic::FiveGallon.vessel();
    let first = whole * pair.a.share;
    let height = |volume| vessel.height_of(volume).ok();
    let (mark, full) = (height(first)?, height(whole)?);
    let slips = vec![
        slip(Mistake::Straight, Figure::Small(full * pair.a.share)),
        slip(Mistake::PartsSwapped, Figure::Small(height(whole * pair.b.share)?)),
        slip(Mistake::WholeMark, Figure::Small(full)),
    ];
    let mut working = pair.shares();
    working.push(part_of(whole.into(), pair.a.share, first.into()).about(A));
    let [bottom, top, rim] = [vessel.bottom(), vessel.top(), vessel.height()].map(Figure::Small);
    let figures = vec![first.into(), bottom, top, rim, Figure::Small(mark)];
    working.push(Step::new(Sentence::MarkAt, Source::Published, figures));
    Some(Question {
        skill: Skill::StickMark,
        asks: asks(Sentence::AskMark, vec![whole.into(), bottom, top, rim]).about(A),
        right: Answer::Figure(Figure::Small(mark)),
        within: Within::Of(Figure::Small(Length::new::<unit::inch>(0.125))),
        slips,
        working,
    })
}

/// A pail with so much of A and of B.
fn poured(pair: &Pair, a: Volume, b: Volume) -> [Pour; 2] {
    [pair.a.pour(a), pair.b.pour(b)]
}

pub(super) fn on_ratio(product: &Product, counting: Counting, rng: &mut Rng) -> Option<Question> {
    let pair = Pair::of(product)?;
    let a = choose::mix(counting, rng);
    // Clearly within what the product allows, or clearly beyond it.
    let tolerance = product.tolerance();
    let yes = rng.bool();
    let off = if yes { 0.5 * rng.f64() } else { 1.6 + 2.0 * rng.f64() };
    let off = tolerance * if rng.bool() { off } else { -off };
    let b = to_the_jug(a * pair.per_a() * (1.0 + off), counting);
    let pours = poured(&pair, a, b);
    let off_by = product.ratio().off_by(&pours)?;
    let clear =
        if yes { off_by.abs() <= 0.8 * tolerance } else { off_by.abs() >= 1.25 * tolerance };
    clear.then_some(())?;
    let mut working = pair.shares();
    for pour in pours {
        let figures = vec![pour.volume.into(), pour.mass.into()];
        working.push(Step::new(Sentence::AsPoured, Source::Entered, figures).about(pour.what));
    }
    let figures = vec![Figure::Share(off_by), Figure::Share(tolerance)];
    working.push(Step::new(Sentence::OffRatio, Source::Arithmetic, figures));
    Some(Question {
        skill: Skill::OnRatio,
        asks: asks(Sentence::AskOnRatio, vec![a.into(), b.into()]),
        right: Answer::Yes(yes),
        within: trade(product),
        slips: Vec::new(),
        working,
    })
}

pub(super) fn bring_back(product: &Product, counting: Counting, rng: &mut Rng) -> Option<Question> {
    let pair = Pair::of(product)?;
    let a = choose::mix(counting, rng);
    let b = to_the_jug(a * (pair.per_a() * (1.2 + 0.5 * rng.f64())), counting);
    let over = b - a * pair.per_a();
    let needed = b / pair.per_a();
    let add = needed - a;
    (over > a * pair.per_a() * 0.1).then_some(())?;
    let whole = b / pair.b.share;
    let mut working = pair.shares();
    let figures = vec![whole.into()];
    working.push(Step::new(Sentence::WholeBecomes, Source::Arithmetic, figures));
    let figures = vec![Figure::Share(pair.a.share), whole.into(), needed.into(), add.into()];
    working.push(Step::new(Sentence::BringUp, Source::Arithmetic, figures).about(A));
    Some(Question {
        skill: Skill::BringBack,
        asks: asks(Sentence::AskBringBack, vec![a.into(), b.into()]).about(A),
        right: Answer::Figure(add.into()),
        // The whole of A has to be right, not only what is added.
        within: Within::Of((needed * product.tolerance()).into()),
        slips: vec![slip(Mistake::SameAgain, over), slip(Mistake::AllOfIt, needed)],
        working,
    })
}

/// To the nearest eighth of a quart, or five hundredths of a litre.
fn to_the_jug(volume: Volume, counting: Counting) -> Volume {
    let step = match counting {
        Counting::Us => Volume::new::<unit::quart_liquid>(0.125),
        Counting::Metric => Volume::new::<unit::liter>(0.05),
    };
    step * (volume / step).value.round()
}
