//! The keys under which records stand in storage and in a backup.

/// What every key starts with.
pub const ALL: &str = "pailwise/";
/// Where settings are kept.
pub const SETTINGS: &str = "pailwise/settings";
/// Where the last inputs of the Mix screen are kept.
pub const MIX: &str = "pailwise/mix";
/// Where a pail that is being brought back is kept.
pub const SLIP: &str = "pailwise/slip";
/// Where the inputs of the Floor screen are kept.
pub const FLOOR: &str = "pailwise/floor";
/// What the keys of floors on the shelf start with: all but the one in hand.
pub const FLOORS: &str = "pailwise/floors/";
/// Where everybody's progress in practice is kept.
pub const PRACTICE: &str = "pailwise/practice";
/// What the keys of products start with.
pub const PRODUCTS: &str = "pailwise/product/";
/// What the keys of products as they were last received or handed on start with.
pub const RECEIVED: &str = "pailwise/received/";
/// What the keys of products being written start with.
pub const DRAFTS: &str = "pailwise/draft/";
/// What the keys of batches under way start with.
pub const RUNS: &str = "pailwise/run/";
/// What the keys of cups that stand aside start with.
pub const CUPS: &str = "pailwise/cup/";
/// What the keys of batches that have ended start with.
pub const LOG: &str = "pailwise/log/";
/// What the keys of products as they were when a batch was mixed start with.
pub const VERSIONS: &str = "pailwise/version/";
/// Where the latest time that the phone's clock has shown is kept.
pub const LATEST: &str = "pailwise/latest";
/// What the keys of records set aside start with.
pub const ASIDE: &str = "pailwise/aside/";
