//! Shared by the tests: random jobs and floors for the properties, and a browser for the journeys.

#[cfg(feature = "browser")]
pub mod browser;
pub mod floors;
pub mod fresh;
pub mod jobs;
