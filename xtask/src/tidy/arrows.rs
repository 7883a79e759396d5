//! Which crate may use which. The manifest of each crate is read; a dependency of any kind counts,
//! test-only ones too, because a promise kept only outside the tests is not kept.

use super::Problem;
use super::tree::Tree;

/// Each crate with those of ours it may use. A crate without a row is a problem: a new crate says first
/// where it stands.
const MAY_USE: &[(&str, &[&str])] = &[
    ("measure", &[]),
    ("physics", &["measure"]),
    ("rules", &["measure"]),
    ("drawing", &["measure"]),
    ("paper", &["measure", "physics"]),
    ("shop", &["measure", "physics", "rules"]),
    ("store", &["measure", "physics", "rules", "shop"]),
    (
        "outshop",
        &[
            "measure", "physics", "rules", "drawing", "paper", "shop", "store",
        ],
    ),
    (
        "devtools",
        &[
            "measure", "physics", "rules", "drawing", "paper", "shop", "store", "outshop",
        ],
    ),
    ("browser", &[]),
    ("xtask", &[]),
];

/// Every arrow from one of our crates to another stands in the table.
pub fn check(tree: &Tree) -> Vec<Problem> {
    let ours = tree.crates();
    let mut problems = Vec::new();
    for name in &ours {
        let inside = format!("crates/{name}/Cargo.toml");
        let path = if tree.has(&inside) {
            inside
        } else {
            format!("{name}/Cargo.toml")
        };
        let Some(text) = tree.text(&path) else {
            continue;
        };
        let Some((_, may_use)) = MAY_USE.iter().find(|(of, _)| of == name) else {
            problems.push(Problem::new(
                &path,
                1,
                format!("the crate `{name}` has no row in the table of arrows; say in xtask/src/tidy/arrows.rs which crates it may use"),
            ));
            continue;
        };
        for (line, used) in dependencies(text) {
            if ours.contains(&used.as_str()) && !may_use.contains(&used.as_str()) {
                let allowed = if may_use.is_empty() {
                    "none of our crates".to_owned()
                } else {
                    format!("only {}", may_use.join(", "))
                };
                problems.push(Problem::new(
                    &path,
                    line,
                    format!("`{name}` may not use `{used}`; it may use {allowed}"),
                ));
            }
        }
    }
    problems
}

/// The dependencies a manifest names, with their lines. Understands the forms cargo users write:
/// `name = ...`, `name.workspace = true`, `[dependencies.name]`, and `package = "name"` under another name.
pub fn dependencies(manifest: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut inside = false;
    for (number, line) in (1..).zip(manifest.lines()) {
        let line = line.split('#').next().unwrap_or_default().trim();
        if let Some(section) = line
            .strip_prefix('[')
            .and_then(|rest| rest.strip_suffix(']'))
        {
            let named = section.rsplit_once("dependencies").map(|(_, rest)| rest);
            inside = named.is_some();
            if let Some(name) = named.and_then(|rest| rest.strip_prefix('.')) {
                found.push((number, bare(name)));
            }
        } else if inside && let Some((key, value)) = line.split_once('=') {
            found.push((number, bare(key.split('.').next().unwrap_or_default())));
            let renamed = if bare(key) == "package" {
                Some(value)
            } else {
                value
                    .split_once("package")
                    .and_then(|(_, rest)| rest.split_once('='))
                    .map(|(_, rest)| rest)
            };
            if let Some(package) = renamed.and_then(|rest| rest.split('"').nth(1)) {
                found.push((number, package.to_owned()));
            }
        }
    }
    found
}

/// A key without its blanks and quotes.
fn bare(key: &str) -> String {
    key.trim().trim_matches('"').to_owned()
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    const MEASURE: (&str, &str) = (
        "crates/measure/Cargo.toml",
        "[package]\nname = \"measure\"\n",
    );
    const RULES: (&str, &str) = (
        "crates/rules/Cargo.toml",
        "[dependencies]\nmeasure.workspace = true\n",
    );

    #[test]
    fn arrows_of_the_house_are_in_order() {
        let physics = (
            "crates/physics/Cargo.toml",
            "[dependencies]\nmeasure = { path = \"../measure\" }\nlibm = \"0.2\"\n",
        );
        assert!(says(check, &[MEASURE, physics, RULES]).is_empty());
    }

    #[test]
    fn physics_may_not_know_the_law_in_any_spelling() {
        for manifest in [
            "[dependencies]\nrules.workspace = true\n",
            "[dev-dependencies]\nrules = { path = \"../rules\" }\n",
            "[target.'cfg(unix)'.dependencies]\n\nlaw = { workspace = true, package = \"rules\" }\n",
            "[dependencies.rules]\nworkspace = true\n",
        ] {
            let found = says(
                check,
                &[MEASURE, ("crates/physics/Cargo.toml", manifest), RULES],
            );
            assert_eq!(found.len(), 1, "{manifest}");
            assert!(
                found[0].ends_with("`physics` may not use `rules`; it may use only measure"),
                "{}",
                found[0]
            );
        }
    }

    #[test]
    fn the_line_named_is_the_line_at_fault() {
        let found = says(
            check,
            &[
                MEASURE,
                (
                    "xtask/Cargo.toml",
                    "[package]\nname = \"xtask\"\n\n[dependencies]\nmeasure.workspace = true\n",
                ),
            ],
        );
        assert_eq!(
            found,
            ["xtask/Cargo.toml:5: `xtask` may not use `measure`; it may use none of our crates"]
        );
    }

    #[test]
    fn a_crate_says_where_it_stands() {
        let found = says(check, &[("crates/lagging/Cargo.toml", "")]);
        assert!(found[0].contains("`lagging` has no row"));
    }

    #[test]
    fn a_name_outside_the_dependency_tables_is_no_dependency() {
        assert!(
            dependencies("[package]\nname = \"rules\"\n[lints]\nworkspace = true\n").is_empty()
        );
    }
}
