//! Shared by the tests: what is checked against outside sources, what anybody may hand in, random
//! jobs and floors for the properties, and a browser for the journeys.

#[cfg(feature = "browser")]
pub mod browser;
pub mod checks;
pub mod floors;
pub mod fresh;
pub mod hostile;
pub mod jobs;
pub mod simulated;
