//! Undoing: a step remembers what stood under the keys it writes, and writes that back.

use leptos::prelude::*;

use super::Desk;
use crate::steady::now_ms;
use crate::store::{self, NotKept};

/// How many steps can be undone.
const STEPS: usize = 50;

/// A step that can be undone, until the page closes.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What was done, for the person.
    pub what: String,
    /// When, in milliseconds since 1970, UTC.
    pub at_ms: f64,
    /// What stood under each key before.
    before: Vec<(String, Option<String>)>,
}

impl Desk {
    /// Does something that writes some keys, so that it can be undone.
    ///
    /// # Errors
    /// As it does it; there is then no step to undo.
    pub fn step<E>(
        self,
        what: String,
        keys: &[String],
        act: impl FnOnce() -> Result<(), E>,
    ) -> Result<(), E> {
        let before = keys.iter().map(|key| (key.clone(), store::raw(key))).collect();
        self.stepped.set_value(true);
        act()?;
        self.steps.update(|steps| {
            if steps.len() == STEPS {
                steps.remove(0);
            }
            steps.push(Step { what, at_ms: now_ms(), before });
        });
        Ok(())
    }

    /// Forgets the steps before the last one that wrote a key: what stands there has gone on since.
    pub fn forget_steps_of(self, key: &str) {
        if self.stepped.try_update_value(std::mem::take).unwrap_or_default() {
            // It was a step itself that changed it.
            return;
        }
        let wrote = |step: &Step| step.before.iter().any(|(other, _)| other == key);
        if self.steps.with_untracked(|steps| steps.iter().any(wrote)) {
            self.steps.update(|steps| steps.retain(|step| !wrote(step)));
        }
    }

    /// Undoes the last step.
    ///
    /// # Errors
    /// [`NotKept`] when storage would not take back what was there; nothing has then changed.
    pub fn undo(self) -> Result<(), NotKept> {
        let Some(step) = self.steps.with_untracked(|steps| steps.last().cloned()) else {
            return Ok(());
        };
        self.write_all(&step.before)?;
        self.stepped.set_value(true);
        self.steps.update(|steps| drop(steps.pop()));
        self.reread();
        Ok(())
    }

    /// Writes texts under keys, or takes the keys away: all of them, or, where storage will not
    /// take one, none.
    ///
    /// # Errors
    /// [`NotKept`] in the second case.
    pub fn write_all(self, texts: &[(String, Option<String>)]) -> Result<(), NotKept> {
        let before: Vec<(String, Option<String>)> =
            texts.iter().map(|(key, _)| (key.clone(), store::raw(key))).collect();
        // What is taken away first makes room for the rest.
        let (gone, here): (Vec<_>, Vec<_>) = texts.iter().partition(|(_, text)| text.is_none());
        for (key, _) in gone {
            store::remove(key);
        }
        for (key, text) in here {
            let Some(text) = text else { continue };
            if let Err(not_kept) = self.wrote(store::put(key, text)) {
                for (key, text) in &before {
                    store::remove(key);
                    if let Some(text) = text {
                        // It stood there a moment ago, so there is room for it.
                        let _ = store::put(key, text);
                    }
                }
                return Err(not_kept);
            }
        }
        Ok(())
    }
}
