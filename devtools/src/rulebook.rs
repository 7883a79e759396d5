//! `rulebook`: what the rulebook holds, how each rule is known, and which rules no page speaks of.

use std::path::Path;

use rules::{Rulebook, lint};

use crate::Stop;

/// The lint of the built-in rulebook against the pages of the casebook.
///
/// # Errors
/// A fault where the rulebook does not read; the machine's where a page does not.
pub fn report(root: &Path) -> Result<String, Stop> {
    let rulebook = Rulebook::built_in().map_err(Stop::fault)?;
    let mut pages = Vec::new();
    read_pages(&root.join("casebook"), &mut pages)?;
    let named: Vec<(&str, &str)> = pages
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    let found = lint(rulebook, &named);
    Ok(format!(
        "{found}Pages of the casebook read: {}\n",
        pages.len()
    ))
}

/// Every Markdown page under a folder, with its name.
fn read_pages(folder: &Path, pages: &mut Vec<(String, String)>) -> Result<(), Stop> {
    let failed = |why: std::io::Error| Stop::machine(format!("{}: {why}.", folder.display()));
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if path.is_dir() {
            read_pages(&path, pages)?;
        } else if path.extension().is_some_and(|end| end == "md") {
            pages.push((
                path.display().to_string(),
                std::fs::read_to_string(&path).map_err(failed)?,
            ));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_rulebook_of_this_house_is_reported() {
        let told = super::report(&crate::root())
            .map_err(|stop| stop.why)
            .unwrap();
        assert!(
            told.contains("rules, ") && told.contains("How they are known:"),
            "{told}"
        );
        assert!(!told.contains("casebook read: 0"), "{told}");
    }

    #[test]
    fn a_house_without_a_casebook_is_the_machines_failure() {
        let nowhere = std::path::Path::new("/no/such/house");
        assert_eq!(super::report(nowhere).map_err(|stop| stop.code), Err(3));
    }
}
