//! The folder that installed tools are kept in.

use std::env;
use std::ffi::OsString;
use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::run;

/// The folder of installed tools.
pub(super) struct Tools {
    pub(super) root: PathBuf,
}

impl Tools {
    /// `PAILWISE_TOOLS`, or else the user's cache folder.
    pub(super) fn open() -> Result<Self> {
        let root = tool_root(
            env::var_os("PAILWISE_TOOLS"),
            env::var_os("XDG_CACHE_HOME"),
            env::home_dir(),
        )
        .context(
            "there is no home folder to keep tools in: set PAILWISE_TOOLS to a folder for them",
        )?;
        fs::create_dir_all(&root).with_context(|| {
            format!(
                "cannot make the tools' folder {}: set PAILWISE_TOOLS to one that can be made",
                root.display()
            )
        })?;
        Ok(Self { root })
    }

    /// The file that keeps what a step's command printed.
    pub(super) fn log(&self, name: &str) -> PathBuf {
        self.root.join("logs").join(format!("{name}.log"))
    }

    /// Where work is done whose result is then moved to its place.
    pub(super) fn scratch(&self) -> PathBuf {
        self.root.join("scratch")
    }

    /// The folder `name`, made by `make` if the files in `proof` are not in it yet.
    ///
    /// `make` fills another folder, which takes this name only once it is whole: a set-up that was
    /// broken off leaves nothing that looks finished.
    pub(super) fn once(
        &self,
        name: &str,
        proof: &[&str],
        make: impl FnOnce(&Path) -> Result<()>,
    ) -> Result<PathBuf> {
        let home = self.root.join(name);
        let whole = |folder: &Path| proof.iter().all(|file| folder.join(file).exists());
        if whole(&home) {
            return Ok(home);
        }
        let _lock = self.lock()?;
        // Another set-up may have made it while this one waited.
        if whole(&home) {
            return Ok(home);
        }
        let half = self.scratch().join(name);
        clear(&half)?;
        fs::create_dir_all(&half)?;
        make(&half)?;
        if !whole(&half) {
            bail!(
                "{} was made, but not all of {} is in it; see the logs in {}",
                half.display(),
                proof.join(", "),
                self.root.join("logs").display()
            );
        }
        clear(&home)?;
        fs::rename(&half, &home)?;
        Ok(home)
    }

    /// Throws away what building the tools left over.
    pub(super) fn tidy(&self) -> Result<()> {
        if self.scratch().exists() {
            let _lock = self.lock()?;
            clear(&self.scratch())?;
        }
        Ok(())
    }

    /// Keeps two set-ups on one machine from writing the same folder. Freed when dropped.
    fn lock(&self) -> Result<File> {
        let file = File::create(self.root.join("lock"))?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                run::note("another set-up on this machine is at work; waiting for it ...");
                file.lock()?;
            }
            Err(TryLockError::Error(error)) => return Err(error.into()),
        }
        Ok(file)
    }
}

fn tool_root(
    own: Option<OsString>,
    cache: Option<OsString>,
    home: Option<PathBuf>,
) -> Option<PathBuf> {
    let given = |folder: Option<OsString>| folder.filter(|folder| !folder.is_empty());
    if let Some(own) = given(own) {
        // Tools run in several folders, so a relative one would lead to several places.
        return std::path::absolute(own).ok();
    }
    // The XDG rules have a relative folder ignored.
    let cache = given(cache).map(PathBuf::from).filter(|p| p.is_absolute());
    let home = home.filter(|home| home.is_absolute());
    let cache = cache.or_else(|| home.map(|home| home.join(".cache")));
    cache.map(|cache| cache.join("pailwise"))
}

/// Removes a folder, if it is there.
pub(super) fn clear(folder: &Path) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder)
            .with_context(|| format!("cannot remove {}", folder.display()))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn root(own: &str, cache: &str, home: &str) -> Option<PathBuf> {
        let given = |text: &str| (!text.is_empty()).then(|| OsString::from(text));
        tool_root(given(own), given(cache), given(home).map(PathBuf::from))
    }

    #[cfg(unix)]
    #[test]
    fn the_tools_folder_is_the_nearest_one_named() {
        let is = |path: &str| Some(PathBuf::from(path));
        assert_eq!(root("/own", "/cache", "/me"), is("/own"));
        assert_eq!(root("", "/cache", "/me"), is("/cache/pailwise"));
        assert_eq!(root("", "", "/me"), is("/me/.cache/pailwise"));
        assert_eq!(root("", "relative", "/me"), is("/me/.cache/pailwise"));
        assert_eq!(root("", "", ""), None);
    }

    /// A tools folder of its own for one test.
    fn scratch(name: &str) -> Result<Tools> {
        let name = format!("pailwise-tools-{name}-{}", std::process::id());
        let root = env::temp_dir().join(name);
        clear(&root)?;
        fs::create_dir_all(&root)?;
        Ok(Tools { root })
    }

    #[test]
    fn a_tool_is_made_once() -> Result<()> {
        let tools = scratch("once")?;
        let mut made = 0;
        for _ in 0..2 {
            let home = tools.once("a-1.0", &["a"], |half| {
                made += 1;
                Ok(fs::write(half.join("a"), "")?)
            })?;
            assert!(home.join("a").exists());
        }
        assert_eq!(made, 1);
        tools.tidy()?;
        assert!(!tools.scratch().exists());
        clear(&tools.root)
    }

    #[test]
    fn a_tool_half_made_is_not_taken_for_whole() -> Result<()> {
        let tools = scratch("half")?;
        let result = tools.once("a-1.0", &["a", "b"], |half| Ok(fs::write(half.join("a"), "")?));
        assert!(result.is_err());
        assert!(!tools.root.join("a-1.0").exists());
        clear(&tools.root)
    }
}
