//! `demo`: makes the demonstration book through the verbs, and tells what is in it.

use clap::Args;
use serde::Deserialize;

use crate::{Answer, Context, Failure};

/// Make the demonstration book and tell what is in it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Demo {
    /// Stop after making it. (Serving it is not in this build yet.)
    #[arg(long)]
    #[serde(default)]
    pub no_serve: bool,
}

impl Demo {
    /// Makes it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, _context: &mut Context) -> Result<Answer, Failure> {
        Err(Failure::Input("not yet".into()))
    }
}
