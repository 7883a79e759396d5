//! What a verb answers, and what it says when it could not.

use serde_json::Value;

/// An answer: text for people, a value for programs, and the exit code.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// For a terminal, ending in a line break.
    pub text: String,
    /// The same for a program.
    pub json: Value,
    /// 0 done; 1 the answer is no, or nobody can tell.
    pub code: u8,
}

impl Answer {
    /// Done.
    pub fn done(text: impl Into<String>, json: Value) -> Answer {
        Answer {
            text: text.into(),
            json,
            code: 0,
        }
    }

    /// The JSON as text, ending in a line break.
    pub fn json_text(&self) -> String {
        let mut text = serde_json::to_string_pretty(&self.json).unwrap_or_default();
        text.push('\n');
        text
    }
}

/// Why a verb was not done.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The shop or the book said no.
    #[error("{}", said(.0))]
    Store(#[from] store::StoreError),
    /// A sheet could not be worked.
    #[error("{0}\nNothing was saved.")]
    Sheet(#[from] physics::SheetError),
    /// A rule is not there.
    #[error("{0}\nNothing was saved.")]
    Rule(#[from] rules::RulebookError),
    /// What was typed does not read.
    #[error("{0}\nNothing was saved.")]
    Input(String),
    /// The machine said no.
    #[error("{0}\nNothing was saved.")]
    Machine(String),
    /// The machine said no after something was saved; the words say what.
    #[error("{0}")]
    Late(String),
}

fn said(error: &store::StoreError) -> String {
    match error {
        store::StoreError::Refused(_) => format!("{error}\nNothing was saved."),
        _ => error.to_string(),
    }
}

impl From<shop::Refusal> for Failure {
    fn from(refusal: shop::Refusal) -> Self {
        Failure::Store(store::StoreError::Refused(refusal))
    }
}

impl Failure {
    /// The exit code: 1 refused, 2 the input is wrong, 3 the book or the machine failed.
    pub fn code(&self) -> u8 {
        match self {
            Failure::Store(error) => match error.class() {
                store::Class::Refused => 1,
                store::Class::Input => 2,
                store::Class::Machine => 3,
            },
            Failure::Sheet(error) if error.is_ours() => 3,
            Failure::Sheet(_) | Failure::Rule(_) | Failure::Input(_) => 2,
            Failure::Machine(_) | Failure::Late(_) => 3,
        }
    }
}
