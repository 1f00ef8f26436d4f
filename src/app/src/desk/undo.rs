//! Undoing: a step remembers what stood under the keys it writes before it and after it, and takes
//! back its own change. What was typed since stays.

use leptos::prelude::*;
use leptos::task::{spawn_local, tick};

use super::Desk;
use super::revert::reverted;
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
    /// What it did under each key.
    changes: Vec<Change>,
}

/// What stands under a key after a step.
#[derive(Clone, Debug, PartialEq)]
enum After {
    /// Not known before the screen's own state has been written.
    Unwritten,
    /// The text under the key after the step; `None` where the key is gone.
    Written(Option<String>),
}

/// What a step did under a key.
#[derive(Clone, Debug, PartialEq)]
struct Change {
    key: String,
    before: Option<String>,
    after: After,
}

impl Change {
    /// What stands under the key once this is taken back.
    fn reverted(&self) -> (String, Option<String>) {
        let now = store::raw(&self.key);
        let after = match &self.after {
            After::Written(after) => after.clone(),
            After::Unwritten => now.clone(),
        };
        let text = reverted(self.before.as_deref(), after.as_deref(), now.as_deref());
        (self.key.clone(), text)
    }
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
        let change = |key: &String| Change {
            key: key.clone(),
            before: store::raw(key),
            after: After::Unwritten,
        };
        let changes = keys.iter().map(change).collect();
        act()?;
        self.steps.update(|steps| {
            if steps.len() == STEPS {
                steps.remove(0);
            }
            steps.push(Step { what, at_ms: now_ms(), changes });
        });
        // What the screens hold is written by effects, which run before anybody types again.
        spawn_local(async move {
            tick().await;
            self.steps.update_untracked(|steps| {
                let written = steps.iter_mut().flat_map(|step| &mut step.changes);
                for change in written.filter(|change| change.after == After::Unwritten) {
                    change.after = After::Written(store::raw(&change.key));
                }
            });
        });
        Ok(())
    }

    /// Undoes the last step.
    ///
    /// # Errors
    /// [`NotKept`] when storage would not take back what was there; nothing has then changed.
    pub fn undo(self) -> Result<(), NotKept> {
        let Some(step) = self.steps.with_untracked(|steps| steps.last().cloned()) else {
            return Ok(());
        };
        let texts: Vec<_> = step.changes.iter().map(Change::reverted).collect();
        self.write_all(&texts)?;
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
