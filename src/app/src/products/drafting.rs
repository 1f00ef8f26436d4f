//! The draft being written, in the context of its form.

use leptos::prelude::*;
use pailwise_kept::records::draft::DraftRecord;

/// The draft being written, in the context of the form.
#[derive(Clone, Copy)]
pub(super) struct Draft {
    pub(super) record: RwSignal<DraftRecord>,
    /// Where it is kept.
    pub(super) key: StoredValue<String>,
}

/// The draft from the context.
pub(super) fn draft() -> Draft {
    use_context::<Draft>().unwrap_or_else(|| unreachable!("every field stands inside the form"))
}
