//! Rounds to learn from: questions with one right answer, made anew each time from a product's own
//! figures, with the answers that usual mistakes give and the working that reaches the right one.
//!
//! A question is figures and sentences, as a working is ([`crate::working`]); the app says them in
//! the reader's language and units. The same seed gives the same question.

mod choose;
mod pours;
mod times;

use fastrand::Rng;
use serde::{Deserialize, Serialize};

use crate::product::Product;
use crate::quantity::Figure;
use crate::working::{Sentence, Source, Step};

/// What a round teaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Skill {
    /// How much of a part is in so much mix, by volume.
    SplitByVolume,
    /// The same by weight.
    SplitByMass,
    /// How much of one part goes to so much of the other.
    OneFromOther,
    /// What a scale that is not set back reads after the second part.
    ScaleReading,
    /// Where the mark for the first part is on a stick in a tapered pail.
    StickMark,
    /// Whether what was poured is on ratio.
    OnRatio,
    /// What brings a pail back that has too much of one part.
    BringBack,
    /// Pot life at another temperature.
    PotLifeElsewhere,
    /// Which of two pails goes off first.
    FirstToGo,
    /// Whether a strip can still be flaked.
    FlakedInTime,
    /// When to start the next mix.
    NextMix,
    /// Whether the slab may be coated, by its dew point.
    DewPointGo,
    /// When the recoat window opens on a colder floor.
    RecoatWindow,
}

impl Skill {
    /// All of them, in the order one learns them in.
    pub const ALL: [Self; 13] = [
        Self::SplitByVolume,
        Self::OneFromOther,
        Self::SplitByMass,
        Self::ScaleReading,
        Self::StickMark,
        Self::OnRatio,
        Self::BringBack,
        Self::PotLifeElsewhere,
        Self::FirstToGo,
        Self::FlakedInTime,
        Self::NextMix,
        Self::DewPointGo,
        Self::RecoatWindow,
    ];
}

/// The units a person is asked in, so that the numbers are ones a jug or a scale can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counting {
    /// Asked in US units: quarts, pounds, °F.
    Us,
    /// Asked in metric units: litres, kilograms, °C.
    Metric,
}

/// An answer to a practice question: a number, yes or no, or a choice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Answer {
    /// A number with its unit, such as a volume or a time.
    Figure(Figure),
    /// Yes (`true`) or no (`false`) to what the question asks.
    Yes(bool),
    /// The first or the second of two.
    Second(bool),
}

/// How far from the right answer is still right: the trade's tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Within {
    /// So large a share of it.
    Share(f64),
    /// So much to either side.
    Of(Figure),
}

/// A mistake people often make, so that the app can name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mistake {
    /// The parts read as a fraction of the whole: one part in two taken for a half.
    PartsAsFraction,
    /// The parts of A taken for those of B.
    PartsSwapped,
    /// A ratio by volume used on the scale.
    VolumeOnScale,
    /// The scale set back in the head: the second part alone.
    ScaleSetBack,
    /// The taper of the pail left out.
    Straight,
    /// The mark for all of the mix.
    WholeMark,
    /// As much added as there is too much.
    SameAgain,
    /// All that is needed added, what is in the pail already left out.
    AllOfIt,
    /// The temperature left out.
    TemperatureIgnored,
    /// Longer where it is warmer, or shorter where it is colder.
    WrongWay,
    /// The time a mix takes to be ready left out.
    ReadyIgnored,
    /// The time a mix takes to be ready added instead of taken off.
    ReadyAdded,
    /// The right number in the next unit: gallons for quarts, centimetres for millimetres.
    OtherUnit,
}

/// The answer that a mistake gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// The mistake that leads to this answer.
    pub mistake: Mistake,
    /// What it comes to.
    pub gives: Answer,
}

/// A practice question with its right answer and how to work it out.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The skill that this question trains.
    pub skill: Skill,
    /// What is asked, as a sentence with its figures.
    pub asks: Step,
    /// The correct answer, which given ones are compared with.
    pub right: Answer,
    /// How near is right.
    pub within: Within,
    /// What usual mistakes give, none of it right.
    pub slips: Vec<Slip>,
    /// How one gets there; the right answer is among the figures of the last step.
    pub working: Vec<Step>,
}

/// What an answer is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worth {
    /// The answer is correct, within the tolerance.
    Right,
    /// Wrong, as this mistake makes it.
    Usual(Mistake),
    /// The answer is wrong, and matches no known mistake.
    Wrong,
}

impl Question {
    /// What an answer is worth.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// use pailwise_calc::practice::{ask, Counting, Worth, Skill};
    /// let question = ask(Skill::SplitByMass, &demo::base().unwrap(), Counting::Us, 7).unwrap();
    /// assert_eq!(question.worth(question.right), Worth::Right);
    /// for slip in &question.slips {
    ///     assert_eq!(question.worth(slip.gives), Worth::Usual(slip.mistake));
    /// }
    /// ```
    pub fn worth(&self, answer: Answer) -> Worth {
        if self.near(answer, self.right, 1.0) {
            return Worth::Right;
        }
        // A mistake is worked out as the right answer is: what is only somewhere near is none.
        let usual = self.slips.iter().find(|slip| self.near(answer, slip.gives, 0.5));
        usual.map_or(Worth::Wrong, |slip| Worth::Usual(slip.mistake))
    }

    /// Whether an answer is within so many times the tolerance of another.
    fn near(&self, answer: Answer, to: Answer, times: f64) -> bool {
        match (answer, to) {
            (Answer::Figure(given), Answer::Figure(to)) => {
                // Of another number than the right one no more is near than of that.
                let scale = match self.right {
                    Answer::Figure(right) if right.si() != 0.0 => (to.si() / right.si()).abs(),
                    _ => 1.0,
                };
                let room = match self.within {
                    Within::Share(share) => share * to.si().abs(),
                    Within::Of(figure) => figure.si() * scale.min(1.0),
                };
                (given.si() - to.si()).abs() <= times * room * (1.0 + 1e-9)
            }
            (given, to) => given == to,
        }
    }

    /// The same with the mistake that every amount invites: the right number in another unit than
    /// the one that is asked in.
    fn with_other_unit(mut self, counting: Counting) -> Self {
        let gives = match (self.right, counting) {
            (Answer::Figure(Figure::Volume(q)), Counting::Us) => Figure::Volume(q / 4.0),
            (Answer::Figure(Figure::Small(q)), Counting::Metric) => Figure::Small(q / 10.0),
            _ => return self,
        };
        self.slips.push(Slip { mistake: Mistake::OtherUnit, gives: Answer::Figure(gives) });
        self
    }

    /// The same without mistakes that a right answer could be taken for, or that two share.
    fn told_apart(mut self) -> Self {
        let all = std::mem::take(&mut self.slips);
        for slip in all {
            let apart = |other: Answer| {
                !self.near(slip.gives, other, 1.0) && !self.near(other, slip.gives, 1.0)
            };
            if apart(self.right) && self.slips.iter().all(|other| apart(other.gives)) {
                self.slips.push(slip);
            }
        }
        self
    }
}

/// What is asked, as a step of its figures.
fn asks(sentence: Sentence, figures: Vec<Figure>) -> Step {
    Step::new(sentence, Source::Entered, figures)
}

/// A usual mistake, and what it gives.
fn slip(mistake: Mistake, gives: impl Into<Figure>) -> Slip {
    Slip { mistake, gives: Answer::Figure(gives.into()) }
}

/// A question about a product; `None` where the product does not have what the skill needs.
///
/// ```
/// use pailwise_calc::{demo, practice::{ask, Counting, Skill}};
/// let base = demo::base().unwrap();
/// assert!(Skill::ALL.iter().all(|skill| ask(*skill, &base, Counting::Us, 1).is_some()));
/// assert_eq!(
///     ask(Skill::NextMix, &base, Counting::Us, 1),
///     ask(Skill::NextMix, &base, Counting::Us, 1),
/// );
/// ```
pub fn ask(skill: Skill, product: &Product, counting: Counting, seed: u64) -> Option<Question> {
    let mut rng = Rng::with_seed(seed);
    // A pick of numbers may come out too close to tell right from wrong; then others are picked.
    let question = (0..40).find_map(|_| one(skill, product, counting, &mut rng))?;
    Some(question.with_other_unit(counting).told_apart())
}

fn one(skill: Skill, product: &Product, counting: Counting, rng: &mut Rng) -> Option<Question> {
    match skill {
        Skill::SplitByVolume => pours::split_by_volume(product, counting, rng),
        Skill::SplitByMass => pours::split_by_mass(product, counting, rng),
        Skill::OneFromOther => pours::one_from_other(product, counting, rng),
        Skill::ScaleReading => pours::scale_reading(product, counting, rng),
        Skill::StickMark => pours::stick_mark(product, counting, rng),
        Skill::OnRatio => pours::on_ratio(product, counting, rng),
        Skill::BringBack => pours::bring_back(product, counting, rng),
        Skill::PotLifeElsewhere => times::pot_life_elsewhere(product, counting, rng),
        Skill::FirstToGo => times::first_to_go(product, counting, rng),
        Skill::FlakedInTime => times::flaked_in_time(product, counting, rng),
        Skill::NextMix => times::next_mix(product, rng),
        Skill::DewPointGo => times::dew_point_go(product, counting, rng),
        Skill::RecoatWindow => times::recoat_window(product, counting, rng),
    }
}
