//! A product that came in beside the one that is here: what differs, and who changed it.

use pailwise_calc::record::{Aspect, ProductRecord};

/// How a product that came in stands to those that are here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Case {
    /// No product on this phone has its id or its name.
    New,
    /// Here, and no different.
    Same,
    /// Another product here has its name.
    SameName,
    /// Changed there since; not changed here.
    Newer,
    /// The one here was changed later.
    Older,
    /// Changed here since it last came in or was handed on, and there as well.
    ChangedOnBoth,
    /// Different, and nothing says which is the newer one.
    Different,
}

/// One thing that differs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// The aspect of the product in which the two versions differ.
    pub aspect: Aspect,
    /// It was changed here since it last came in or was handed on.
    pub changed_here: bool,
    /// It was changed there since.
    pub changed_there: bool,
    /// Whether it is taken over.
    pub take: bool,
}

/// A product that came in, beside the one that is here.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// The one that came in.
    pub theirs: ProductRecord,
    /// The one that is here.
    pub mine: Option<ProductRecord>,
    /// How they stand to each other.
    pub case: Case,
    /// What they differ in, with what is sensible to take over.
    pub lines: Vec<Line>,
}

/// Compares a product that came in with the shelf; `last` is what it was when it last came in or
/// was handed on.
pub fn compare(
    theirs: ProductRecord,
    shelf: &[ProductRecord],
    last: Option<&ProductRecord>,
) -> Compared {
    let by_id = shelf.iter().find(|product| product.id == theirs.id);
    let named = || shelf.iter().find(|p| p.name.to_lowercase() == theirs.name.to_lowercase());
    let Some(mine) = by_id.or_else(named) else {
        return Compared { theirs, mine: None, case: Case::New, lines: Vec::new() };
    };
    let differ = Aspect::differences(mine, &theirs);
    let last = last.filter(|_| by_id.is_some());
    let changed =
        |aspect: Aspect, now: &ProductRecord| last.is_some_and(|last| !aspect.same(last, now));
    let later = match (&theirs.revised, &mine.revised) {
        (Some(theirs), Some(mine)) => Some(theirs > mine),
        (Some(_), None) => Some(true),
        (None, Some(_)) => Some(false),
        (None, None) => None,
    };
    let lines: Vec<Line> = differ
        .iter()
        .map(|&aspect| {
            let (here, there) = (changed(aspect, mine), changed(aspect, &theirs));
            let take = if last.is_some() { there && !here } else { later == Some(true) };
            Line { aspect, changed_here: here, changed_there: there, take }
        })
        .collect();
    let here = lines.iter().any(|line| line.changed_here);
    let there = lines.iter().any(|line| line.changed_there);
    let case = if by_id.is_none() {
        Case::SameName
    } else if lines.is_empty() {
        Case::Same
    } else if last.is_some() && here && there {
        Case::ChangedOnBoth
    } else if last.is_some() && here {
        Case::Older
    } else if last.is_some() || later == Some(true) {
        Case::Newer
    } else if later == Some(false) {
        Case::Older
    } else {
        Case::Different
    };
    Compared { mine: Some(mine.clone()), theirs, case, lines }
}

impl Compared {
    /// The product that comes of what is taken over; `now` says when, where it is a new one of
    /// its own.
    pub fn merged(&self, now: &str) -> ProductRecord {
        let Some(mine) = &self.mine else { return self.theirs.clone() };
        let mut merged = mine.clone();
        for line in self.lines.iter().filter(|line| line.take) {
            line.aspect.take(&self.theirs, &mut merged);
        }
        let as_theirs = Aspect::differences(&merged, &self.theirs).is_empty();
        if as_theirs && mine.id == self.theirs.id {
            return self.theirs.clone();
        }
        if merged != *mine {
            merged.revised = Some(now.to_owned());
            merged.invented = mine.invented && self.theirs.invented;
        }
        merged
    }

    /// The product that came in as another one beside those here, with an id and a name of its
    /// own.
    pub fn beside(&self, shelf: &[ProductRecord]) -> ProductRecord {
        let free_id = |id: &String| shelf.iter().all(|product| product.id != *id);
        let free_name = |name: &String| shelf.iter().all(|product| product.name != *name);
        let ids = (2..).map(|n| format!("{}-{n}", shortened(&self.theirs.id, 56)));
        let names = (2..).map(|n| format!("{} ({n})", shortened(&self.theirs.name, 72)));
        let mut ids = std::iter::once(self.theirs.id.clone()).chain(ids);
        let mut names = std::iter::once(self.theirs.name.clone()).chain(names);
        ProductRecord {
            id: ids.find(free_id).unwrap_or_default(),
            name: names.find(free_name).unwrap_or_default(),
            ..self.theirs.clone()
        }
    }
}

fn shortened(text: &str, most: usize) -> String {
    text.chars().take(most).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    const NOW: &str = "2026-11-25T12:00:00Z";

    fn at(revised: &str, change: impl FnOnce(&mut ProductRecord)) -> ProductRecord {
        let mut product = demo::record_base();
        product.revised = Some(revised.to_owned());
        change(&mut product);
        product
    }

    #[test]
    fn each_case_is_told_apart() {
        let old = at("2026-01-01T00:00:00Z", |_| {});
        let new = at("2026-02-01T00:00:00Z", |p| p.mixing_min = 4.0);
        let case = |theirs: &ProductRecord, mine: &ProductRecord, last: Option<&ProductRecord>| {
            compare(theirs.clone(), std::slice::from_ref(mine), last).case
        };
        assert_eq!(case(&old, &demo::record_topcoat(), None), Case::New);
        assert_eq!(case(&old, &old, None), Case::Same);
        assert_eq!(case(&new, &old, None), Case::Newer);
        assert_eq!(case(&old, &new, None), Case::Older);
        assert_eq!(case(&new, &old, Some(&old)), Case::Newer);
        // A phone whose clock is off: what both had last decides, not the clock.
        let mut early = new.clone();
        early.revised = Some("2020-01-01T00:00:00Z".to_owned());
        assert_eq!(case(&early, &old, Some(&old)), Case::Newer);
        assert_eq!(case(&old, &new, Some(&old)), Case::Older);
        let other = at("2026-03-01T00:00:00Z", |p| p.notes = "ours".to_owned());
        assert_eq!(case(&new, &other, Some(&old)), Case::ChangedOnBoth);
        let mut renamed = old.clone();
        renamed.id = "else".to_owned();
        assert_eq!(case(&renamed, &old, None), Case::SameName);
        let (mut one, mut two) = (old.clone(), new.clone());
        (one.revised, two.revised) = (None, None);
        assert_eq!(case(&one, &two, None), Case::Different);
    }

    #[test]
    fn what_each_side_changed_alone_is_merged_and_what_both_did_stays() {
        let last = at("2026-01-01T00:00:00Z", |_| {});
        let mine = at("2026-02-01T00:00:00Z", |p| {
            p.notes = "ours".to_owned();
            p.mixing_min = 4.0;
        });
        let theirs = at("2026-03-01T00:00:00Z", |p| {
            p.mixing_min = 5.0;
            p.pot_life[0].time_min = 40.0;
        });
        let compared = compare(theirs.clone(), std::slice::from_ref(&mine), Some(&last));
        let merged = compared.merged(NOW);
        assert_eq!((merged.notes.as_str(), merged.mixing_min), ("ours", 4.0));
        assert_eq!(merged.pot_life, theirs.pot_life);
        assert_eq!(merged.revised.as_deref(), Some(NOW));
        let mixing = compared.lines.iter().find(|line| line.aspect == Aspect::Mixing).unwrap();
        assert!(mixing.changed_here && mixing.changed_there && !mixing.take);
    }

    #[test]
    fn taken_whole_it_is_theirs_and_nothing_taken_it_is_mine() {
        let mine = at("2026-01-01T00:00:00Z", |p| p.notes = "ours".to_owned());
        let theirs = at("2026-03-01T00:00:00Z", |p| p.mixing_min = 5.0);
        let mut compared = compare(theirs.clone(), std::slice::from_ref(&mine), None);
        compared.lines.iter_mut().for_each(|line| line.take = true);
        assert_eq!(compared.merged(NOW), theirs);
        compared.lines.iter_mut().for_each(|line| line.take = false);
        assert_eq!(compared.merged(NOW), mine);
    }

    #[test]
    fn kept_beside_it_has_an_id_and_a_name_of_its_own() {
        let mine = demo::record_base();
        let compared = compare(mine.clone(), std::slice::from_ref(&mine), None);
        let beside = compared.beside(std::slice::from_ref(&mine));
        assert_eq!(beside.id, "invented-base-2");
        assert_eq!(beside.name, "Practice Base 2:1 (2)");
        assert!(beside.check_words().is_ok());
    }
}
