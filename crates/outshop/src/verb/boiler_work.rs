//! `boiler-work`: what the law asks of welding or riveting on a boiler.

use clap::Args;
use jiff::civil::Date;
use measure::House;
use rules::{Body, Rulebook};
use serde::Deserialize;
use serde_json::json;
use shop::boiler_work::{Answer as Asked, Before, Duty, Question, Told, ask, water_pressure};
use shop::book::Book;
use shop::locomotive::{Law, engine};

use super::print::recipients_of;
use super::wrap;
use crate::words::{self, boiler_work as say};
use crate::{Answer, Context, Failure};

/// What the law asks before, while and after a boiler is welded or riveted; leave out what is not known.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BoilerWork {
    /// weld or rivet.
    #[arg(long)]
    pub work: Option<String>,
    /// stayed or unstayed.
    #[arg(long)]
    pub area: Option<String>,
    /// repair or alteration.
    #[arg(long)]
    pub change: Option<String>,
    /// The plate: carbon, alloy or other.
    #[arg(long)]
    pub steel: Option<String>,
    /// Carbon of the plate in percent, such as 0.22.
    #[arg(long)]
    pub carbon: Option<String>,
    /// no, yes, or its size, such as "10 in x 8 in".
    #[arg(long)]
    pub flush_patch: Option<String>,
    /// Whether wastage is built up by weld: yes or no.
    #[arg(long)]
    pub build_up: Option<String>,
    /// Area built up, all places added, such as "40 sq in".
    #[arg(long)]
    pub wasted: Option<String>,
    /// The deeper of wastage and build-up, such as 1/8in.
    #[arg(long)]
    pub depth: Option<String>,
    /// Least wall required there.
    #[arg(long)]
    pub required: Option<String>,
    /// Wall left at the thinnest place.
    #[arg(long)]
    pub left: Option<String>,
    /// The engine's number: her pressure gives that of the test.
    #[arg(long)]
    pub engine: Option<String>,
}

/// What was asked, worked.
pub struct Worked {
    /// The answer.
    pub asked: Asked,
    /// The pressure of the water test, where her own is known.
    pub pressure: Option<String>,
}

impl BoilerWork {
    /// Takes an answer by the word of its question, or the engine. A blank one is not said.
    pub fn put(&mut self, word: &str, text: &str) {
        let text = Some(text.trim().to_string()).filter(|text| !text.is_empty());
        if word == "engine" {
            self.engine = text;
        } else if let Some(question) = Question::ALL.into_iter().find(|it| it.word() == word) {
            *self.slot(question) = text;
        }
    }

    fn slot(&mut self, question: Question) -> &mut Option<String> {
        match question {
            Question::Joining => &mut self.work,
            Question::Area => &mut self.area,
            Question::Change => &mut self.change,
            Question::Steel => &mut self.steel,
            Question::Carbon => &mut self.carbon,
            Question::FlushPatch => &mut self.flush_patch,
            Question::BuildUp => &mut self.build_up,
            Question::Wasted => &mut self.wasted,
            Question::Depth => &mut self.depth,
            Question::Required => &mut self.required,
            Question::Left => &mut self.left,
        }
    }

    /// Asks the rulebook of a day.
    ///
    /// # Errors
    /// [`Failure`]: an answer that does not read, an engine the book has not, or one that is not under the rules asked.
    pub fn worked(
        &self,
        book: &Book,
        rules: &Rulebook,
        on: Date,
        house: House,
    ) -> Result<Worked, Failure> {
        let (mut told, mut said) = (Told::default(), self.clone());
        for question in Question::ALL {
            if let Some(text) = said.slot(question) {
                told.answer(question.word(), text, house)?;
            }
        }
        let mut pressure = None;
        if let Some(number) = &self.engine {
            let (_, kept) = engine(book, number)?;
            if !Law::of(book, rules, kept).is_under(shop::boiler_work::RULES, on)? {
                return Err(Failure::Input(say::not_her_law(number)));
            }
            if let Some(mawp) = kept.mawp_psig {
                let words = water_pressure(rules, mawp, on)?;
                pressure = words.map(|words| say::at_pressure(number, mawp, &words));
            }
        }
        let asked = ask(rules, &told, on)?;
        Ok(Worked { asked, pressure })
    }

    /// Does it.
    ///
    /// # Errors
    /// As [`BoilerWork::worked`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let there = context
            .globals()
            .book
            .as_ref()
            .is_some_and(|it| it.is_file());
        // A question of law needs no book; an engine does.
        let (on, book) = if there || self.engine.is_some() {
            (context.on()?, context.book()?)
        } else {
            (context.on_without_book()?, Book::default())
        };
        let (rules, house) = (context.rules()?, context.house());
        let worked = self.worked(&book, rules, on, house)?;
        let before = worked.asked.before();
        let mut text = format!("{}\n", wrap(&say::before(&before), 0, 100));
        let mut stage = None;
        for duty in &worked.asked.duties {
            if stage != Some(duty.stage) {
                text.push_str(&format!("{}\n", say::stage(duty.stage)));
                stage = Some(duty.stage);
            }
            text.push_str(&format!("  {}\n", wrap(&told(duty), 4, 100)));
        }
        if let Some(pressure) = &worked.pressure {
            text.push_str(&format!("{pressure}\n"));
        }
        text.push_str(&format!(
            "{}\n{}\n{}\n{}\n",
            say::WHOSE,
            say::SIGNER,
            wrap(say::CAUTION, 0, 100),
            words::STANDING
        ));
        let code = match before {
            Before::NoApproval | Before::Approval => 0,
            Before::Forbidden | Before::CannotTell(_) => 1,
        };
        let duties: Vec<_> = worked
            .asked
            .duties
            .iter()
            .map(|duty| {
                json!({
                    "stage": say::stage(duty.stage), "rule": duty.ruling.rule, "version": duty.ruling.version,
                    "section": duty.ruling.cite.section, "mark": duty.ruling.mark, "says": duty.says(),
                    "holds": duty.open.is_empty(), "hangs_on": duty.open.iter().map(|it| it.word()).collect::<Vec<_>>(),
                })
            })
            .collect();
        let open: Vec<_> = worked.asked.open().iter().map(|it| it.word()).collect();
        let json = json!({ "before": say::before(&before), "duties": duties, "open": open, "water_pressure": worked.pressure });
        Ok(Answer { text, json, code })
    }
}

/// A duty in a line: what is asked, where it stands, by when and to whom a paper goes, what it hangs on.
fn told(duty: &Duty) -> String {
    let mut line = format!(
        "{} ({}, {})",
        duty.says(),
        duty.ruling.rule,
        duty.ruling.cite
    );
    if let Some(goes) = goes(duty) {
        line.push_str(&format!("; {goes}"));
    }
    if !duty.open.is_empty() {
        line.push_str(&format!("; {}", say::hangs_on(&duty.open)));
    }
    line
}

/// By when a paper goes to whom.
pub fn goes(duty: &Duty) -> Option<String> {
    let Body::Filing(filing) = &duty.ruling.body else {
        return None;
    };
    let span = filing.when.span.map(|span| span.to_string());
    Some(say::goes(span, &recipients_of(&filing.to)))
}
