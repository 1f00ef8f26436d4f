//! Each person's progress, as it is kept: a box for every skill, after the published schedule of
//! S. Leitner (So lernt man lernen, 1972; from memory). A right answer moves a skill one box up, a
//! wrong one back into the first; the first box comes up every round, each next one half as often.

use std::collections::BTreeMap;

use pailwise_calc::practice::Skill;
use pailwise_calc::record::VERSION;
use serde::{Deserialize, Serialize};

use super::Record as _;

/// The number of the last box, where well-learnt skills stay.
pub const BOXES: u8 = 5;
/// Of so many rounds one is about something new, while there is.
const NEW_EVERY: u32 = 4;
/// From this box on a person is ready for it.
pub const READY: u8 = 4;

/// How a person does with one skill.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SkillRecord {
    /// Its box, from 1.
    pub in_box: u8,
    /// The round from which on it is asked again.
    pub due: u32,
    /// How often it was asked.
    pub asked: u32,
    /// How often the answer was right.
    pub right: u32,
}

/// A question that waits for its answer: the same seed makes it again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AskedRecord {
    /// The skill that the question practises.
    pub skill: Skill,
    /// The product it is about.
    pub product: String,
    /// What it was made from.
    pub seed: u64,
}

/// How far one person has come with the skills that are practised.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PersonRecord {
    /// What they are called; empty for whoever holds the phone.
    pub name: String,
    /// How many rounds they have had.
    pub rounds: u32,
    /// How many of the last ones were right, one after the other.
    pub in_a_row: u32,
    /// The skills that were asked.
    pub skills: BTreeMap<Skill, SkillRecord>,
    /// What waits for an answer; a question is not got rid of by going away.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<AskedRecord>,
}

/// Everybody's progress on this phone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PracticeRecord {
    /// Names the kind of record, here practice progress; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// Who practises, by place.
    pub who: usize,
    /// Everybody who practises on this phone, each with their own progress.
    pub people: Vec<PersonRecord>,
}

impl PersonRecord {
    /// Returns a person of this name who has not practised yet.
    pub fn new(name: &str) -> Self {
        Self { name: name.to_owned(), ..Self::default() }
    }

    /// The skill to ask next, of those that can be asked: what is due, the weakest first; else one
    /// that is new, in the order one learns them in; else what is due soonest. Every fourth round
    /// is a new one, so that nobody stays with what does not go yet.
    pub fn next(&self, can: impl Fn(Skill) -> bool) -> Option<Skill> {
        let all = || Skill::ALL.into_iter().filter(|skill| can(*skill));
        let kept = |skill: Skill| self.skills.get(&skill);
        let due = all().filter(|skill| kept(*skill).is_some_and(|kept| kept.due <= self.rounds));
        // Of equally weak ones that which has waited longest.
        let weakest =
            due.min_by_key(|skill| kept(*skill).map_or((0, 0), |kept| (kept.in_box, kept.due)));
        let new = || all().find(|skill| kept(*skill).is_none());
        let soonest = || all().min_by_key(|skill| kept(*skill).map_or(0, |kept| kept.due));
        let fresh = new().filter(|_| self.rounds % NEW_EVERY == NEW_EVERY - 1);
        fresh.or(weakest).or_else(new).or_else(soonest)
    }

    /// Takes down how a round went.
    pub fn answered(&mut self, skill: Skill, right: bool) {
        self.asked = None;
        self.rounds += 1;
        self.in_a_row = if right { self.in_a_row + 1 } else { 0 };
        let first = SkillRecord { in_box: 0, due: 0, asked: 0, right: 0 };
        let kept = self.skills.entry(skill).or_insert(first);
        kept.asked += 1;
        kept.right += u32::from(right);
        kept.in_box = if right { (kept.in_box + 1).min(BOXES) } else { 1 };
        kept.due = self.rounds + (1 << (kept.in_box.clamp(1, BOXES) - 1));
    }
}

impl PracticeRecord {
    /// Nobody has practised yet.
    pub fn first() -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            who: 0,
            people: vec![PersonRecord::default()],
        }
    }

    /// Returns the progress of the person who practises at present.
    pub fn person(&self) -> PersonRecord {
        self.people.get(self.who).cloned().unwrap_or_default()
    }

    /// Their name, or what stands for one.
    pub fn name(&self, somebody: &str) -> String {
        let name = self.person().name;
        if name.is_empty() { somebody.to_owned() } else { name }
    }

    /// Adds somebody and has them practise; a name that is there already is that person.
    pub fn add(&mut self, name: &str) {
        let same = |person: &PersonRecord| person.name.to_lowercase() == name.to_lowercase();
        self.who = self.people.iter().position(same).unwrap_or_else(|| {
            self.people.push(PersonRecord::new(name));
            self.people.len() - 1
        });
    }

    /// Takes whoever practises off the list; the one before them goes on.
    pub fn remove(&mut self) {
        if self.who < self.people.len() {
            self.people.remove(self.who);
            self.who = self.who.saturating_sub(1);
        }
    }

    /// Takes down what waits for their answer.
    pub fn asks(&mut self, asked: AskedRecord) {
        if let Some(person) = self.people.get_mut(self.who) {
            person.asked = Some(asked);
        }
    }

    /// Takes down how a round of theirs went.
    pub fn answered(&mut self, skill: Skill, right: bool) {
        if self.people.is_empty() {
            self.people.push(PersonRecord::default());
        }
        self.who = self.who.min(self.people.len() - 1);
        if let Some(person) = self.people.get_mut(self.who) {
            person.answered(skill, right);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_right_answer_comes_back_half_as_soon_a_wrong_one_at_once() {
        let mut person = PersonRecord::new("x");
        let skill = Skill::SplitByVolume;
        for (in_box, after) in [(1, 1), (2, 2), (3, 4), (4, 8), (5, 16), (5, 16)] {
            person.answered(skill, true);
            let kept = person.skills[&skill];
            assert_eq!((kept.in_box, kept.due - person.rounds), (in_box, after));
        }
        assert_eq!(person.in_a_row, 6);
        person.answered(skill, false);
        let kept = person.skills[&skill];
        assert_eq!((kept.in_box, kept.due - person.rounds, person.in_a_row), (1, 1, 0));
        assert_eq!((kept.asked, kept.right), (7, 6));
    }

    #[test]
    fn what_is_weak_comes_first_and_new_skills_come_one_by_one() {
        let mut person = PersonRecord::default();
        assert_eq!(person.next(|_| true), Some(Skill::ALL[0]));
        person.answered(Skill::ALL[0], false);
        // Not due before the next round is over, so a new one comes up.
        assert_eq!(person.next(|_| true), Some(Skill::ALL[1]));
        person.answered(Skill::ALL[1], true);
        assert_eq!(person.next(|_| true), Some(Skill::ALL[0]));
        assert_eq!(person.next(|skill| skill == Skill::NextMix), Some(Skill::NextMix));
        assert_eq!(person.next(|_| false), None);
    }

    /// Fifty rounds of somebody who never gets one skill right: it takes up much of them.
    #[test]
    fn a_weak_skill_takes_up_much_of_the_rounds() {
        let mut person = PersonRecord::default();
        let mut weak = 0;
        for _ in 0..50 {
            let skill = person.next(|_| true).unwrap();
            weak += u32::from(skill == Skill::SplitByMass);
            person.answered(skill, skill != Skill::SplitByMass);
        }
        assert!(weak >= 10, "{weak} of 50");
        assert!(person.skills.len() == Skill::ALL.len());
    }

    #[test]
    fn people_come_once_and_go() {
        let mut record = PracticeRecord::first();
        record.add("One");
        record.answered(Skill::NextMix, true);
        record.add("Two");
        record.add("ONE");
        assert_eq!((record.people.len(), record.who), (3, 1));
        assert_eq!(record.person().rounds, 1);
        record.remove();
        assert_eq!((record.people.len(), record.who), (2, 0));
        record.who = 1;
        assert_eq!(record.person().name, "Two");
    }

    #[test]
    fn a_question_waits_until_it_is_answered() {
        let mut record = PracticeRecord::first();
        let asked = AskedRecord { skill: Skill::NextMix, product: "x".to_owned(), seed: 7 };
        record.asks(asked.clone());
        assert_eq!(record.person().asked, Some(asked));
        record.answered(Skill::NextMix, false);
        assert_eq!(record.person().asked, None);
    }

    #[test]
    fn it_is_kept_and_read_back() {
        let mut record = PracticeRecord::first();
        record.answered(Skill::StickMark, true);
        let text = serde_json::to_string(&record).unwrap();
        let back: PracticeRecord =
            pailwise_calc::record::read(&text, PracticeRecord::FORMAT).unwrap();
        assert_eq!(back, record);
    }
}
