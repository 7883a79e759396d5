//! Why a verb did not do what was asked: one sentence, and what kind of no it is.

/// What kind of no a [`Refusal`] is; the shell turns it into an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// The book's rules say no: an open item, a signature without authority. Exit code 1.
    Refused,
    /// What was entered is wrong: an unknown engine, a bad date. Exit code 2.
    Input,
}

/// A verb that was not carried out.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what}{}", hint(.todo))]
pub struct Refusal {
    /// What kind of no.
    pub class: Class,
    /// What was wrong, as a sentence.
    pub what: String,
    /// What is missing or what to do, one line each.
    pub todo: Vec<String>,
}

fn hint(todo: &[String]) -> String {
    todo.iter().map(|line| format!("\n  - {line}")).collect()
}

impl Refusal {
    /// The book's rules say no.
    pub fn refused(what: impl Into<String>) -> Self {
        Refusal {
            class: Class::Refused,
            what: what.into(),
            todo: Vec::new(),
        }
    }

    /// What was entered is wrong.
    pub fn input(what: impl Into<String>) -> Self {
        Refusal {
            class: Class::Input,
            what: what.into(),
            todo: Vec::new(),
        }
    }

    /// Adds a line that says what is missing or what to do.
    #[must_use]
    pub fn todo(mut self, line: impl Into<String>) -> Self {
        self.todo.push(line.into());
        self
    }

    /// Adds several such lines.
    #[must_use]
    pub fn todos(mut self, lines: impl IntoIterator<Item = String>) -> Self {
        self.todo.extend(lines);
        self
    }
}

impl From<rules::RulebookError> for Refusal {
    fn from(error: rules::RulebookError) -> Self {
        Refusal::input(error.to_string())
    }
}
