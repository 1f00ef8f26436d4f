//! Reading what was typed: each field once, with every fault on the way.

use pailwise_calc::field::Field;

use crate::entry::{Entry, Invalid, Kind};

/// A field that keeps an answer from being there.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault<P> {
    /// Which field the fault is in.
    pub place: P,
    /// What is the matter with it; one that is empty is missing.
    pub invalid: Invalid,
}

/// Reads field after field. Whatever is built of the values is built after all of them were read, so
/// that every fault is named and not only the first.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading<P> {
    faults: Vec<Fault<P>>,
}

impl<P> Default for Reading<P> {
    fn default() -> Self {
        Self { faults: Vec::new() }
    }
}

impl<P> Reading<P> {
    /// The value of an entry in the record's units; nothing, and a fault, where it is invalid.
    ///
    /// ```
    /// use pailwise_calc::field::Field;
    /// use pailwise_kept::answers::reading::Reading;
    /// use pailwise_kept::{entry::{Entry, Kind}, units::Units};
    /// let mut reading = Reading::default();
    /// let how = (Kind::Count, Field::Rollers);
    /// let two = reading.value(&Entry::as_typed("2", Units::Us), how, "rolling");
    /// let none = reading.value(&Entry::as_typed("two", Units::Us), how, "flaking");
    /// assert_eq!((two, none), (Some(2.0), None));
    /// assert_eq!(reading.done(two.zip(none)).unwrap_err()[0].place, "flaking");
    /// ```
    pub fn value(&mut self, entry: &Entry, (kind, field): (Kind, Field), place: P) -> Option<f64> {
        match entry.value(kind, field) {
            Ok(value) => Some(value),
            Err(invalid) => {
                self.faults.push(Fault { place, invalid });
                None
            }
        }
    }

    /// As [`Reading::value`] of one that may be left empty: there is a value that is nothing.
    pub fn optional(&mut self, entry: &Entry, how: (Kind, Field), place: P) -> Option<Option<f64>> {
        if entry.text.trim().is_empty() {
            return Some(None);
        }
        self.value(entry, how, place).map(Some)
    }

    /// Something that must be there is not.
    pub fn missing(&mut self, place: P) {
        self.faults.push(Fault { place, invalid: Invalid::Empty });
    }

    /// Faults that somebody else has found.
    pub fn extend(&mut self, faults: impl IntoIterator<Item = Fault<P>>) {
        self.faults.extend(faults);
    }

    /// What was built of the values, once nothing was invalid.
    ///
    /// # Errors
    /// All faults.
    pub fn done<T>(self, built: Option<T>) -> Result<T, Vec<Fault<P>>> {
        match built {
            Some(built) if self.faults.is_empty() => Ok(built),
            _ => Err(self.faults),
        }
    }
}
