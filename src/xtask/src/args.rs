//! The words after a command's name.

use std::collections::VecDeque;

use anyhow::{Error, Result, anyhow};

/// A command's options, taken one after another.
pub(crate) struct Args {
    command: &'static str,
    words: VecDeque<String>,
}

impl Args {
    pub(crate) fn new(command: &'static str, words: impl Iterator<Item = String>) -> Self {
        Self { command, words: words.collect() }
    }

    /// Whether `--help` is among the words, wherever it stands.
    pub(crate) fn ask_for_help(&self) -> bool {
        self.words.iter().any(|word| word == "--help" || word == "-h")
    }

    /// The next option; `--name=value` counts as `--name` followed by `value`.
    pub(crate) fn next(&mut self) -> Option<String> {
        let word = self.words.pop_front()?;
        if word.starts_with("--")
            && let Some((name, value)) = word.split_once('=')
        {
            self.words.push_front(value.to_owned());
            return Some(name.to_owned());
        }
        Some(word)
    }

    /// The value that must follow `option`.
    pub(crate) fn value(&mut self, option: &str) -> Result<String> {
        self.words
            .pop_front()
            .ok_or_else(|| anyhow!("`{option}` needs a value. {}", self.pointer()))
    }

    /// The error for a word that means nothing to the command.
    pub(crate) fn unknown(&self, word: &str) -> Error {
        anyhow!("`cargo xtask {}` has no option `{word}`. {}", self.command, self.pointer())
    }

    /// Refuses any word at all, for commands without options.
    pub(crate) fn none(mut self) -> Result<()> {
        match self.next() {
            None => Ok(()),
            Some(word) => Err(self.unknown(&word)),
        }
    }

    fn pointer(&self) -> String {
        format!("See `cargo xtask {} --help`.", self.command)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn args(words: &[&str]) -> Args {
        Args::new("serve", words.iter().map(|word| (*word).to_owned()))
    }

    #[test]
    fn a_value_may_follow_a_space_or_an_equals_sign() -> Result<()> {
        for words in [&["--port", "81"][..], &["--port=81"][..]] {
            let mut args = args(words);
            assert_eq!(args.next().as_deref(), Some("--port"));
            assert_eq!(args.value("--port")?, "81");
            assert_eq!(args.next(), None);
        }
        Ok(())
    }

    #[test]
    fn a_missing_value_is_named() {
        let mut args = args(&["--port"]);
        args.next();
        let error = args.value("--port").map_err(|error| error.to_string());
        assert_eq!(
            error,
            Err("`--port` needs a value. See `cargo xtask serve --help`.".to_owned())
        );
    }

    #[test]
    fn help_is_found_anywhere() {
        assert!(args(&["--dev", "-h"]).ask_for_help());
        assert!(!args(&["--dev"]).ask_for_help());
    }

    #[test]
    fn a_command_without_options_refuses_any() {
        assert!(args(&[]).none().is_ok());
        assert!(args(&["--fast"]).none().is_err());
    }
}
