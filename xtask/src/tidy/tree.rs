//! The files of the repository, read once. Paths are written with `/` on every machine.

use std::fs;
use std::path::Path;

/// One file: its path from the root, and its text unless it is not text.
pub struct File {
    pub path: String,
    pub text: Option<String>,
}

/// All files, in the order of their paths.
pub struct Tree {
    files: Vec<File>,
}

impl Tree {
    /// Reads everything under `root` except what git keeps and what cargo builds.
    pub fn read(root: &Path) -> Result<Tree, String> {
        let mut files = Vec::new();
        walk(root, "", &mut files)?;
        files.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(Tree { files })
    }

    /// A tree made up for a test.
    #[cfg(test)]
    pub fn of(files: &[(&str, &str)]) -> Tree {
        let files = files
            .iter()
            .map(|(path, text)| File {
                path: (*path).into(),
                text: Some((*text).into()),
            })
            .collect();
        Tree { files }
    }

    /// All files.
    pub fn files(&self) -> &[File] {
        &self.files
    }

    /// Files that are text, as path and text.
    pub fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files
            .iter()
            .filter_map(|file| Some((file.path.as_str(), file.text.as_deref()?)))
    }

    /// Rust source files, as path and text.
    pub fn rust(&self) -> impl Iterator<Item = (&str, &str)> {
        self.texts().filter(|(path, _)| path.ends_with(".rs"))
    }

    /// The text of one file, if it is there.
    pub fn text(&self, path: &str) -> Option<&str> {
        self.texts()
            .find(|(at, _)| *at == path)
            .map(|(_, text)| text)
    }

    /// Whether a path names a file, or a folder with a file in it. (Git keeps no empty folders, so one
    /// that is empty here is missing in the next clone.)
    pub fn has(&self, path: &str) -> bool {
        let path = path.trim_end_matches('/');
        self.files.iter().any(|file| {
            file.path
                .strip_prefix(path)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        })
    }

    /// The names of the crates: the folders in `crates/`, then `xtask` and `devtools`.
    pub fn crates(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self
            .files
            .iter()
            .filter_map(|file| file.path.strip_suffix("/Cargo.toml"))
            .map(|folder| folder.strip_prefix("crates/").unwrap_or(folder))
            .filter(|name| !name.contains('/'))
            .collect();
        names.dedup();
        names
    }
}

/// Adds every file under `folder` (whose path from the root is `at`, empty for the root itself).
fn walk(folder: &Path, at: &str, files: &mut Vec<File>) -> Result<(), String> {
    let failed =
        |path: &Path, why: std::io::Error| format!("{} could not be read: {why}.", path.display());
    for entry in fs::read_dir(folder).map_err(|why| failed(folder, why))? {
        let entry = entry.map_err(|why| failed(folder, why))?;
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        let from_root = if at.is_empty() {
            name.clone()
        } else {
            format!("{at}/{name}")
        };
        // In a linked working tree `.git` is a file.
        if name == ".git" {
            continue;
        }
        let kind = entry.file_type().map_err(|why| failed(&path, why))?;
        if kind.is_dir() {
            if from_root != "target" {
                walk(&path, &from_root, files)?;
            }
        } else if kind.is_file() {
            let bytes = fs::read(&path).map_err(|why| failed(&path, why))?;
            files.push(File {
                path: from_root,
                text: String::from_utf8(bytes).ok(),
            });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_exists_as_a_file_or_as_a_folder_with_something_in_it() {
        let tree = Tree::of(&[
            ("docs/style.md", ""),
            ("crates/measure/Cargo.toml", ""),
            ("xtask/Cargo.toml", ""),
        ]);
        assert!(tree.has("docs/style.md"));
        assert!(tree.has("docs/") && tree.has("docs"));
        assert!(!tree.has("doc") && !tree.has("docs/style"));
        assert_eq!(tree.crates(), ["measure", "xtask"]);
    }
}
