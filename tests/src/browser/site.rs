//! The built site on a port of this machine.

use std::path::{Path, PathBuf};

use axum::Router;
use tokio::net::TcpListener;
use tokio::runtime::{Builder, Runtime};
use tokio::sync::oneshot;
use tower_http::services::ServeDir;

use super::Outcome;

/// The built site, served on a free port of this machine until this is dropped.
pub struct Site {
    /// All of the server, its open connections included, so that nothing answers afterwards.
    server: Option<Runtime>,
    /// The URL of the served site, with a slash at its end.
    pub address: String,
}

impl Site {
    /// Starts serving.
    ///
    /// # Errors
    /// Without `PAILWISE_DIST`, or when no port can be had.
    pub async fn serve() -> Outcome<Self> {
        Self::serve_folder(&built()?).await
    }

    /// Starts serving a folder of a test's own.
    ///
    /// # Errors
    /// When no port can be had.
    pub async fn serve_folder(folder: &Path) -> Outcome<Self> {
        let server = Builder::new_multi_thread().worker_threads(1).enable_all().build()?;
        // A file is sent compressed where it lies compressed beside itself.
        let files = ServeDir::new(folder).precompressed_br();
        let files = Router::new().fallback_service(files);
        let (say, said) = oneshot::channel();
        server.spawn(async move {
            let listener = TcpListener::bind("127.0.0.1:0").await?;
            // Whoever asked may have gone; then nobody is served.
            let _ = say.send(listener.local_addr()?);
            axum::serve(listener, files).await
        });
        let address = format!("http://{}/", said.await?);
        Ok(Self { server: Some(server), address })
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        if let Some(server) = self.server.take() {
            server.shutdown_background();
        }
    }
}

/// The folder of the built site.
///
/// # Errors
/// Without `PAILWISE_DIST`.
pub fn built() -> Outcome<PathBuf> {
    let dist = std::env::var("PAILWISE_DIST")
        .map_err(|_| "PAILWISE_DIST is not set: run the journeys with `cargo xtask test`")?;
    Ok(PathBuf::from(dist))
}
