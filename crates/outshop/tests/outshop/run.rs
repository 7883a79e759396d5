//! A folder of its own for a test, and the built program run in it.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::atomic::{AtomicUsize, Ordering};

/// A new folder, taken away at the end.
pub struct Folder(pub PathBuf);

impl Folder {
    pub fn new(name: &str) -> Folder {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let path =
            std::env::temp_dir().join(format!("outshop-{name}-{}-{count}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// The program with a stated time and speaker, on `shop.book`.
    pub fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_outshop"));
        command
            .args(words)
            .current_dir(&self.0)
            .env_clear()
            .env("OUTSHOP_BOOK", "shop.book")
            .env("OUTSHOP_BY", "Ada Quill")
            .env("OUTSHOP_NOW", "2026-05-03T09:00");
        command
    }

    pub fn run(&self, words: &[&str]) -> Output {
        self.command(words).output().unwrap()
    }

    /// Runs and expects exit code 0; gives what was printed.
    pub fn done(&self, words: &[&str]) -> String {
        let output = self.run(words);
        let text = String::from_utf8(output.stdout).unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(0), "{words:?}: {text}{said}");
        text
    }

    /// Runs with `--json` and reads the answer, whatever the exit code.
    pub fn json(&self, words: &[&str]) -> serde_json::Value {
        let mut all = words.to_vec();
        all.push("--json");
        let output = self.run(&all);
        serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|e| panic!("{words:?}: {e}: {output:?}"))
    }

    /// Makes a book with one engine and one part.
    pub fn shop(name: &str) -> Folder {
        let folder = Folder::new(name);
        let zone = ["--zone", "America/Denver", "--officer", "Ada Quill"];
        folder.done(
            &[
                &["new", "--shop", "Juniper Fork Railroad Museum"],
                &zone[..],
            ]
            .concat(),
        );
        let engine = [
            "--wheels",
            "2-8-0",
            "--gauge",
            "56 1/2 in",
            "--rules",
            "us-steam",
        ];
        folder.done(&[&["locomotive", "add", "14"], &engine[..]].concat());
        folder.done(&[
            "part",
            "add",
            "14",
            "right feed check",
            "--family",
            "check-valve",
        ]);
        folder
    }

    /// The hash of the last entry.
    pub fn head(&self) -> String {
        self.json(&["check"])["head"]["hash"]
            .as_str()
            .unwrap()
            .to_string()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}
