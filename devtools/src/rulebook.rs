//! `rulebook`: what the rulebook holds, how each rule is known, which rules no page speaks of, and whether the rows of
//! the law's figures are all met.

use std::path::Path;

use jiff::civil::{Date, date};
use rules::{Rulebook, coverage, lint, read_rows};
use shop::book::{Family, family_faults};
use shop::route::known_to_families;

use crate::Stop;

/// The day whose rules the rows are held against: the last of the calendar, so that every open version answers.
const LAST_DAY: Date = date(9999, 12, 31);

/// The lint of the built-in rulebook against the pages of the casebook, and every table of rows against its rules.
///
/// # Errors
/// A fault where the rulebook does not read or a row is not met; the machine's where a page does not read.
pub fn report(root: &Path) -> Result<String, Stop> {
    let rulebook = Rulebook::built_in().map_err(Stop::fault)?;
    let mut pages = Vec::new();
    read_pages(&root.join("casebook"), "md", &mut pages)?;
    let casebook = pages.len();
    read_pages(&root.join("rulebook"), "csv", &mut pages)?;
    let named: Vec<(&str, &str)> = pages
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    let mut told = lint(rulebook, &named).to_string();
    for (name, text) in named
        .iter()
        .filter(|(name, _)| name.ends_with("limits.csv"))
    {
        let rows = read_rows(name, text).map_err(Stop::fault)?;
        let found = coverage(rulebook, &rows, LAST_DAY);
        if !found.wrong.is_empty() {
            return Err(Stop::fault(format!("{told}{found}")));
        }
        told.push_str(&found.to_string());
    }
    told.push_str(&families(root, rulebook)?);
    Ok(format!("{told}Pages of the casebook read: {casebook}\n"))
}

/// The families of parts, each looked over with its lines: sheets, rules and neighbors exist, and there are ways to choose.
fn families(root: &Path, rulebook: &Rulebook) -> Result<String, Stop> {
    let mut files = Vec::new();
    read_pages(&root.join("tables/family"), "toml", &mut files)?;
    files.sort();
    let read = files.iter().filter_map(|(_, text)| Family::read(text).ok());
    let known = known_to_families(rulebook, read);
    let mut faults = Vec::new();
    let (mut routes, mut sheets) = (0, 0);
    for (name, text) in &files {
        let name = Path::new(name)
            .strip_prefix(root)
            .unwrap_or(Path::new(name));
        match family_faults(text, &known) {
            Ok(family) => {
                routes += family.routes.len();
                sheets += family
                    .calculations
                    .iter()
                    .map(|it| it.sheets.len())
                    .sum::<usize>();
                if !Family::BUILT_IN.contains(&text.as_str()) {
                    faults.push(format!(
                        "{}:1: it is not among the built-in families",
                        name.display()
                    ));
                }
            }
            Err(found) => {
                let name = name.display().to_string();
                faults.extend(found.iter().map(|fault| fault.at(&name)));
            }
        }
    }
    if !faults.is_empty() {
        return Err(Stop::fault(faults.join("\n")));
    }
    Ok(format!(
        "Families of parts: {}, with {routes} routes, {sheets} times a sheet named; no fault.\n",
        files.len()
    ))
}

/// Every file of one ending under a folder, with its name.
fn read_pages(folder: &Path, ending: &str, pages: &mut Vec<(String, String)>) -> Result<(), Stop> {
    let failed = |why: std::io::Error| Stop::machine(format!("{}: {why}.", folder.display()));
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if path.is_dir() {
            read_pages(&path, ending, pages)?;
        } else if path.extension().is_some_and(|end| end == ending) {
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
        assert!(told.contains("Rows of the law's figures: 287 = "), "{told}");
        assert!(!told.contains("WRONG"), "{told}");
        assert!(told.contains("Families of parts: 34, "), "{told}");
    }

    #[test]
    fn a_house_without_a_casebook_is_the_machines_failure() {
        let nowhere = std::path::Path::new("/no/such/house");
        assert_eq!(super::report(nowhere).map_err(|stop| stop.code), Err(3));
    }
}
