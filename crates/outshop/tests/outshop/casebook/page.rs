//! Reads a page of the casebook into its steps, and writes it again with other answers. Everything on the
//! page that is not an answer stays as it was, byte for byte.

use super::words;

/// The fence that opens a block of commands.
const FENCE: &str = "```";
const OPENING: &str = "```console";

/// A page: its lines, and the steps found in them.
pub struct Page {
    lines: Vec<String>,
    pub steps: Vec<Step>,
}

/// One line after a `$`.
#[derive(Debug, PartialEq)]
pub enum Step {
    /// Variables that hold for all later commands of the page.
    Export(Vec<(String, String)>),
    /// A command and its answer.
    Run(Run),
}

/// A command of the program as the page states it.
#[derive(Debug, PartialEq)]
pub struct Run {
    /// The line it starts on, counted from 1.
    pub line: usize,
    /// The command as written, without the `$`.
    pub text: String,
    /// Variables set for this command alone.
    pub variables: Vec<(String, String)>,
    /// The words after `outshop`.
    pub arguments: Vec<String>,
    /// The lines beneath it, `? N` included.
    pub answer: Vec<String>,
    /// Index of the first line of the answer.
    from: usize,
}

impl Page {
    /// Reads a page. An error is `line: sentence`.
    pub fn parse(text: &str) -> Result<Page, String> {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let mut steps: Vec<Step> = Vec::new();
        let mut open: Option<usize> = None;
        let mut other_block = false;
        let mut at = 0;
        while let Some(line) = lines.get(at) {
            let number = at + 1;
            at += 1;
            if open.is_none() {
                let is_opening = line.trim_start().starts_with(OPENING);
                if is_opening && !other_block {
                    if line != OPENING {
                        return Err(format!(
                            "{number}: a block of commands opens with {OPENING} at the edge of the page and nothing after it"
                        ));
                    }
                    open = Some(number);
                } else if line.starts_with(FENCE) {
                    other_block = !other_block;
                }
            } else if line == FENCE {
                open = None;
            } else if let Some(first) = line.strip_prefix("$ ") {
                let mut command = first.to_owned();
                while command.ends_with('\\') && at < lines.len() {
                    command.push('\n');
                    command.push_str(&lines[at]);
                    at += 1;
                }
                steps.push(
                    read_step(&command, number, at).map_err(|why| format!("{number}: {why}"))?,
                );
            } else {
                match steps.last_mut() {
                    Some(Step::Run(run)) if run.from + run.answer.len() == number - 1 => {
                        run.answer.push(line.clone())
                    }
                    _ => {
                        return Err(format!(
                            "{number}: this line answers no command; a block begins with `$ outshop ...`, and `export` answers nothing"
                        ));
                    }
                }
            }
        }
        if let Some(number) = open {
            return Err(format!("{number}: the block opened here is never closed"));
        }
        let page = Page { lines, steps };
        for run in page.commands() {
            let exit = run.answer.iter().position(|line| exit_code(line).is_some());
            if exit.is_some_and(|place| place + 1 != run.answer.len()) {
                return Err(format!("{}: `? N` is the last line of an answer", run.line));
            }
        }
        if page.commands().next().is_none() {
            return Err("1: the page has no command, so it shows nothing to be true".to_owned());
        }
        Ok(page)
    }

    /// The commands of the page, in order.
    pub fn commands(&self) -> impl Iterator<Item = &Run> {
        self.steps.iter().filter_map(|step| match step {
            Step::Run(run) => Some(run),
            Step::Export(_) => None,
        })
    }

    /// The page with other answers, one for each command.
    pub fn with_answers(&self, answers: &[Vec<String>]) -> Result<String, String> {
        let mut lines: Vec<&str> = Vec::new();
        let mut copied = 0;
        for (run, answer) in self.commands().zip(answers) {
            lines.extend(self.lines[copied..run.from].iter().map(String::as_str));
            let (last, body) = answer
                .split_last()
                .map_or((None, &answer[..]), |(last, body)| (Some(last), body));
            let misread = |line: &String| line.starts_with("$ ") || line == FENCE;
            if let Some(line) = answer
                .iter()
                .find(|line| misread(line))
                .or(body.iter().find(|line| exit_code(line).is_some()))
            {
                return Err(format!(
                    "{}: the answer has the line `{line}`, which a page would misread",
                    run.line
                ));
            }
            lines.extend(body.iter().chain(last).map(String::as_str));
            copied = run.from + run.answer.len();
        }
        lines.extend(self.lines[copied..].iter().map(String::as_str));
        Ok(lines.join("\n") + "\n")
    }
}

/// The exit code a line `? N` states.
fn exit_code(line: &str) -> Option<u8> {
    line.strip_prefix("? ")?.parse().ok()
}

/// Reads what stands after a `$ `. `next` is the index of the line beneath.
fn read_step(text: &str, line: usize, next: usize) -> Result<Step, String> {
    let mut rest = words::split(text)?.into_iter().peekable();
    let export = rest.next_if(|word| word == "export").is_some();
    let mut variables = Vec::new();
    while let Some((name, value)) = rest.peek().and_then(|word| words::variable(word)) {
        variables.push((name.to_owned(), value.to_owned()));
        rest.next();
    }
    match (export, rest.next()) {
        (true, None) if !variables.is_empty() => Ok(Step::Export(variables)),
        (true, _) => Err("`export` takes OUTSHOP_NAME=value and nothing else".to_owned()),
        (false, Some(program)) if program == "outshop" => Ok(Step::Run(Run {
            line,
            text: text.to_owned(),
            variables,
            arguments: rest.collect(),
            answer: Vec::new(),
            from: next,
        })),
        (false, other) => {
            let found = other.map_or_else(|| "nothing".to_owned(), |word| format!("`{word}`"));
            Err(format!(
                "{found} stands where `outshop` was expected; a page runs no other program"
            ))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "\
# A case

```sh
$ not run
```

```console
$ export OUTSHOP_NOW=2026-05-02T09:00
$ outshop new
made shop.book

$ outshop due \\
    'No. 14'
none
? 1
```

Then:

```console
$ OUTSHOP_NOW=2026-05-03T09:00 outshop check
```
";

    fn refusal(page: &str) -> String {
        Page::parse(page).err().unwrap_or_default()
    }

    #[test]
    fn a_page_is_read_into_its_steps() {
        let page = Page::parse(PAGE).unwrap();
        let now = |at: &str| vec![("OUTSHOP_NOW".to_owned(), at.to_owned())];
        assert_eq!(page.steps[0], Step::Export(now("2026-05-02T09:00")));
        let commands: Vec<&Run> = page.commands().collect();
        assert_eq!(
            commands.iter().map(|run| run.line).collect::<Vec<_>>(),
            [9, 12, 21]
        );
        assert_eq!(commands[0].answer, ["made shop.book", ""]);
        assert_eq!(commands[1].arguments, ["due", "No. 14"]);
        assert_eq!(commands[1].answer, ["none", "? 1"]);
        assert_eq!(commands[2].variables, now("2026-05-03T09:00"));
        assert!(commands[2].answer.is_empty());
    }

    #[test]
    fn the_same_answers_give_the_same_page() {
        let page = Page::parse(PAGE).unwrap();
        let answers: Vec<_> = page.commands().map(|run| run.answer.clone()).collect();
        assert_eq!(page.with_answers(&answers).unwrap(), PAGE);
    }

    #[test]
    fn other_answers_change_the_answers_alone() {
        let page = Page::parse(PAGE).unwrap();
        let answer = |lines: &[&str]| {
            lines
                .iter()
                .map(|line| (*line).to_owned())
                .collect::<Vec<_>>()
        };
        let rewritten = page
            .with_answers(&[
                answer(&[]),
                answer(&["one", "two"]),
                answer(&["broken", "? 3"]),
            ])
            .unwrap();
        let expected = PAGE
            .replace("made shop.book\n\n", "")
            .replace("none\n? 1\n", "one\ntwo\n")
            .replace("check\n", "check\nbroken\n? 3\n");
        assert_eq!(rewritten, expected);
        for bad in [answer(&["$ 5"]), answer(&["```"]), answer(&["? 2", "more"])] {
            assert!(
                page.with_answers(&[bad.clone(), bad.clone(), bad])
                    .unwrap_err()
                    .contains("misread")
            );
        }
    }

    #[test]
    fn a_page_that_shows_nothing_is_refused() {
        assert!(refusal("# Words\n").contains("has no command"));
        assert!(
            refusal("```console\n$ export OUTSHOP_NOW=2026-05-02T09:00\n```\n")
                .contains("has no command")
        );
    }

    #[test]
    fn a_page_that_cannot_be_read_says_where_and_why() {
        for (page, expected) in [
            (
                "x\n```console\n$ outshop due\n",
                "2: the block opened here is never closed",
            ),
            (
                "```console\nloose\n```\n",
                "2: this line answers no command",
            ),
            (
                "```console\n$ outshop due\n```\n```console\nlate\n```\n",
                "5: this line answers no command",
            ),
            (
                "```console\n$ export OUTSHOP_NOW=1\nloose\n```\n",
                "3: this line answers no command",
            ),
            (
                "- item\n  ```console\n  $ outshop due\n  ```\n",
                "2: a block of commands opens with",
            ),
            (
                "```console\n$ ls\n```\n",
                "2: `ls` stands where `outshop` was expected",
            ),
            (
                "```console\n$ OUTSHOP_NOW=1\n```\n",
                "2: nothing stands where `outshop` was expected",
            ),
            (
                "```console\n$ export PATH=/bin\n```\n",
                "2: `export` takes OUTSHOP_NAME=value",
            ),
            (
                "```console\n$ outshop due | sort\n```\n",
                "2: `|` means something to a shell",
            ),
            (
                "```console\n$ outshop due\n? 2\nmore\n```\n",
                "2: `? N` is the last line",
            ),
        ] {
            assert!(
                refusal(page).starts_with(expected),
                "{page}: {}",
                refusal(page)
            );
        }
    }
}
