//! Shared by the tests: random jobs for the properties, and a browser for the journeys.

#[cfg(feature = "browser")]
pub mod browser;
pub mod jobs;
