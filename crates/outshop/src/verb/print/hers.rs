//! A paper of one engine as she stands on a day: what its head and foot say is the same for each; the rest is told.

use paper::{Form, FormPart};
use shop::book::{Book, Locomotive};
use shop::locomotive::Law;

use super::about;
use super::held::Figures;
use super::worksheet::{code, facts, strings};
use crate::words::{self, paper as papers};
use crate::{Context, Failure};

/// What one paper has of its own.
pub(super) struct Hers<'a> {
    /// What it is, over its title.
    pub over: &'a str,
    /// Its title.
    pub title: String,
    /// What its number ends in, after hers.
    pub code: &'a str,
    /// What to beware of.
    pub cautions: &'a [&'a str],
    /// Its parts.
    pub parts: Vec<FormPart>,
    /// The figures of law it shows.
    pub figures: Figures<'a>,
}

impl Hers<'_> {
    /// The paper.
    pub(super) fn form(
        self,
        context: &mut Context,
        book: &Book,
        kept: &Locomotive,
    ) -> Result<Form, Failure> {
        let (on, rules) = (context.on()?, context.rules()?);
        let law = Law::of(book, rules, kept);
        let code = code(&format!("{}-{}", kept.number, self.code));
        let mut parts = self.parts;
        let governs = self.figures.governs();
        parts.extend(self.figures.part());
        Ok(Form {
            close: false,
            about: about(context, &code, self.title.clone())?,
            over: self.over.into(),
            title: self.title,
            under: Some(words::engine(&kept.number)),
            shout: None,
            facts: facts(&law, kept, None, &[], on)?,
            governs,
            careful: papers::CAUTIONS.into(),
            cautions: strings(self.cautions),
            parts,
        })
    }
}
