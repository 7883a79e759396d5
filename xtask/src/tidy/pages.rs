//! The pages a stranger reads first tell the truth: ARCHITECTURE.md names what is there and all of it,
//! README.md has the two commands that matter, and the casebook is not empty.

use super::Problem;
use super::tree::Tree;

/// How a person runs the tests; the README says it in these words and the build server runs it in these words.
const TEST_COMMAND: &str = "cargo xtask test";

/// Every path that ARCHITECTURE.md names in backticks exists, and every crate is named there.
pub fn architecture(tree: &Tree) -> Vec<Problem> {
    const PAGE: &str = "ARCHITECTURE.md";
    let Some(text) = tree.text(PAGE) else {
        return vec![Problem::new(
            PAGE,
            1,
            "the page is missing; it is the map of the house",
        )];
    };
    let mut problems: Vec<Problem> = paths_named(text)
        .filter(|(_, path)| !tree.has(path))
        .map(|(line, path)| {
            Problem::new(PAGE, line, format!("names `{path}`, which does not exist"))
        })
        .collect();
    for name in tree.crates() {
        if !text.contains(&format!("`{name}`")) && !text.contains(&format!("{name}/")) {
            problems.push(Problem::new(
                PAGE,
                1,
                format!("does not name the crate `{name}`"),
            ));
        }
    }
    problems
}

/// The paths a page names in backticks, outside its blocks of code. A path has a `/` that is not its first
/// character (those are addresses of pages), or ends like a file of ours; it has no blanks and no `::`.
fn paths_named(page: &str) -> impl Iterator<Item = (usize, &str)> {
    const ENDINGS: &[&str] = &[".md", ".rs", ".toml", ".csv", ".sql"];
    let mut in_block = false;
    (1..)
        .zip(page.lines())
        .flat_map(move |(number, line)| {
            let fence = line.trim_start().starts_with("```");
            in_block ^= fence;
            let line = if fence || in_block { "" } else { line };
            line.split('`')
                .skip(1)
                .step_by(2)
                .map(move |word| (number, word))
        })
        .filter(|(_, word)| {
            let is_name = !word.contains([' ', '<', '*', '{'])
                && !word.contains("::")
                && !word.starts_with('/');
            is_name && (word.contains('/') || ENDINGS.iter().any(|ending| word.ends_with(ending)))
        })
}

/// The first section of README.md has exactly two commands in its blocks of code, one of them the tests.
pub fn readme(tree: &Tree) -> Vec<Problem> {
    const PAGE: &str = "README.md";
    let Some(text) = tree.text(PAGE) else {
        return vec![Problem::new(
            PAGE,
            1,
            "the page is missing; it says what this is and how to start it",
        )];
    };
    let commands = first_commands(text);
    let mut problems = Vec::new();
    if commands.len() != 2 {
        let line = commands
            .get(2)
            .or(commands.last())
            .map_or(1, |(line, _)| *line);
        let sentence = format!(
            "the first section has {} commands; a newcomer needs exactly two, one to start and one to test",
            commands.len()
        );
        problems.push(Problem::new(PAGE, line, sentence));
    }
    if !commands.iter().any(|(_, command)| *command == TEST_COMMAND) {
        problems.push(Problem::new(
            PAGE,
            1,
            format!("the first section does not have the command `{TEST_COMMAND}`"),
        ));
    }
    problems
}

/// The commands in the blocks of code before the page's second `##` heading. A comment is no command.
fn first_commands(page: &str) -> Vec<(usize, &str)> {
    let mut commands = Vec::new();
    let mut in_block = false;
    let mut headings = 0;
    for (number, line) in (1..).zip(page.lines()) {
        if line.starts_with("```") {
            in_block = !in_block;
        } else if in_block {
            let command = line.trim().trim_start_matches("$ ");
            if !command.is_empty() && !command.starts_with('#') {
                commands.push((number, command));
            }
        } else if line.starts_with("## ") {
            headings += 1;
            if headings == 2 {
                break;
            }
        }
    }
    commands
}

/// The casebook has at least one case; each case is run by the tests of `outshop`.
pub fn casebook(tree: &Tree) -> Vec<Problem> {
    let is_case = |path: &str| {
        path.starts_with("casebook/") && path.ends_with(".md") && !path.ends_with("README.md")
    };
    if tree.texts().any(|(path, _)| is_case(path)) {
        return Vec::new();
    }
    vec![Problem::new(
        "casebook",
        1,
        "has no case in it; the tests would run none and call it well",
    )]
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    const CRATE: (&str, &str) = ("crates/measure/Cargo.toml", "");

    #[test]
    fn the_map_names_what_is_there_and_all_of_it() {
        let page = |text: &'static str| {
            says(
                architecture,
                &[("ARCHITECTURE.md", text), CRATE, ("docs/style.md", "")],
            )
        };
        assert!(page("`crates/measure/` reads sizes. See `docs/style.md`, `/due`, `cargo xtask test`, `rules::Ruling`.").is_empty());
        assert_eq!(
            page("`measure`\n\n`docs/stile.md`"),
            ["ARCHITECTURE.md:3: names `docs/stile.md`, which does not exist"]
        );
        assert_eq!(
            page("We measure `docs/`."),
            ["ARCHITECTURE.md:1: does not name the crate `measure`"]
        );
        assert!(page("```text\nmeasure/  `old/path`\n```\n").is_empty());
        assert_eq!(page("```text\nmeasure/\n```\n`old/path`").len(), 1);
        assert_eq!(
            says(architecture, &[]),
            ["ARCHITECTURE.md:1: the page is missing; it is the map of the house"]
        );
    }

    #[test]
    fn a_newcomer_finds_two_commands() {
        let page = |text: &str| says(readme, &[("README.md", text)]);
        let good = "# Outshop\n```sh\n# start\ncargo run --release -- demo\n```\n## Test\n```sh\n$ cargo xtask test\n```\n## More\n```sh\ncargo doc\n```\n";
        assert!(page(good).is_empty());
        assert_eq!(
            page(&good.replace("## More\n", "")),
            [
                "README.md:11: the first section has 3 commands; a newcomer needs exactly two, one to start and one to test"
            ]
        );
        assert_eq!(
            page("```sh\ncargo test\ncargo run\n```\n"),
            ["README.md:1: the first section does not have the command `cargo xtask test`"]
        );
        assert_eq!(page("nothing").len(), 2);
        assert_eq!(says(readme, &[]).len(), 1);
    }

    #[test]
    fn an_empty_casebook_is_not_called_well() {
        assert!(says(casebook, &[("casebook/2-clock/annual.md", "")]).is_empty());
        assert_eq!(
            says(casebook, &[("casebook/README.md", ""), ("docs/a.md", "")]).len(),
            1
        );
    }
}
