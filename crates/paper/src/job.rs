//! The job card: everything a person needs at the bench, and everything that was written down about the job.
//!
//! All of it is words, made elsewhere: a card knows where things stand on a page, never what they mean.

use serde::Serialize;

use crate::about::{About, Picture};
use crate::press::{Printed, set};
use crate::worked::Copied;
use crate::{PaperError, barcode};

/// A job on paper.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JobCard {
    /// What stands on every page.
    pub about: About,
    /// What is done, in one line.
    pub title: String,
    /// Facts in two columns: engine, part, ordered, promised.
    pub facts: Vec<Fact>,
    /// What was found, in the finder's words, and what it hangs on.
    pub found: Vec<Fact>,
    /// What the limits say.
    pub verdict: Option<Verdict>,
    /// What was decided, by whom, why.
    pub decision: Vec<Fact>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// When to stop and ask.
    pub stop_points: Vec<String>,
    /// The sizes worked to.
    pub sizes: Vec<String>,
    /// What is made first.
    pub make_first: Vec<String>,
    /// What lies on the shelf for this part.
    pub shelf: Vec<Shelved>,
    /// What is measured, as found and as left.
    pub features: Vec<Feature>,
    /// Its papers, as kept and as wanted.
    pub papers: Vec<JobPaper>,
    /// The steps.
    pub operations: Vec<Operation>,
    /// Blue checks of its faces, in the order made.
    pub blues: Vec<Ring>,
    /// Evidence asked for.
    pub proofs: Vec<Answered>,
    /// What must be looked at because a size changed.
    pub knock_ons: Vec<Answered>,
    /// What it cost: hours and money.
    pub cost: Vec<Fact>,
    /// The three signatures.
    pub signatures: Vec<Signature>,
    /// What stands between this job and its close, or that it is closed.
    pub standing: Vec<String>,
    /// Worked sheets, as they were printed when the job was made.
    pub sheets: Vec<Copied>,
    /// Drawings.
    pub pictures: Vec<Picture>,
}

/// A word and what there is to say of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// The word.
    pub word: String,
    /// What is said.
    pub said: String,
}

impl Fact {
    /// A fact.
    pub fn of(word: impl Into<String>, said: impl Into<String>) -> Fact {
        Fact {
            word: word.into(),
            said: said.into(),
        }
    }
}

/// Which of the three verdicts; each has a shape of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// *complies*
    Complies,
    /// *fails*
    Fails,
    /// *cannot tell*
    CannotTell,
}

/// A verdict as it was worded when the decision was signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// Which of the three.
    pub mark: Mark,
    /// All of it, as worded.
    pub said: String,
    /// The rules it stands on.
    pub rulings: Vec<Ruling>,
}

/// A rule behind a verdict.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ruling {
    /// Its title.
    pub title: String,
    /// What it comes to.
    pub says: String,
    /// Id and version.
    pub rule: String,
    /// Section and edition.
    pub section: String,
    /// How well we know it.
    pub mark: String,
}

/// A piece of tooling with its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Shelved {
    /// T-001.
    pub number: String,
    /// What it is.
    pub what: String,
    /// Where it lies.
    pub shelf: String,
}

/// Something measured.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Feature {
    /// What it is.
    pub title: String,
    /// How it is taken.
    pub how: String,
    /// With what and by whom it was taken, before and after.
    pub taken: Vec<String>,
    /// Place by place.
    pub places: Vec<Place>,
}

/// A reading before and after.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Where on the part.
    pub place: String,
    /// As found, as written.
    pub found: Option<String>,
    /// As left, as written; a line to write on where there is none.
    pub left: Option<String>,
}

/// A paper of a job, or that one is wanted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct JobPaper {
    /// What it is.
    pub kind: String,
    /// What it says; nothing where it is wanted.
    pub told: Option<String>,
    /// By whom and when; where it is wanted, before what.
    pub by: String,
    /// What else is to be known of it.
    pub notes: Vec<String>,
    /// Its chart.
    pub chart: Option<Sketch>,
}

/// A small picture in a line of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Sketch {
    /// The picture.
    pub svg: String,
    /// What it shows, for one who does not see it.
    pub told: String,
}

/// A face as it was blued.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ring {
    /// Which face, after which grit.
    pub what: String,
    /// Where it touches and how wide.
    pub told: String,
    /// By whom and when.
    pub by: String,
    /// The ring.
    pub sketch: Sketch,
}

/// A step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Operation {
    /// What is done.
    pub what: String,
    /// Where.
    pub place: String,
    /// The state the engine must be in.
    pub engine: String,
    /// Likely hours.
    pub likely: String,
    /// The least and the most.
    pub range: String,
    /// When, by whom, how long, what was said.
    pub done: Option<Done>,
    /// A stop after it.
    pub hold: Option<Hold>,
}

/// A step that was done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Done {
    /// By whom.
    pub by: String,
    /// The day.
    pub on: String,
    /// How long, if anybody kept it.
    pub hours: Option<String>,
    /// What there was to say.
    pub told: String,
}

/// A hold point.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Hold {
    /// What is looked at.
    pub look: String,
    /// Who may clear it.
    pub who: String,
    /// Cleared: by whom, when, what was seen.
    pub cleared: Option<Seen>,
}

/// Something looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Seen {
    /// By whom.
    pub by: String,
    /// The day.
    pub on: String,
    /// What was seen.
    pub told: String,
}

/// A proof or a knock-on, with its answer if there is one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Answered {
    /// What it is called.
    pub word: String,
    /// What it asks.
    pub asks: String,
    /// The answer in a word: held, did not hold; empty where there is none.
    pub answer: String,
    /// By whom, when, what was seen.
    pub seen: Option<Seen>,
}

/// A signature, or the line for one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Signature {
    /// In which capacity.
    pub capacity: String,
    /// The name.
    pub name: Option<String>,
    /// The day.
    pub on: Option<String>,
}

#[derive(Serialize)]
struct Page<'c> {
    #[serde(flatten)]
    card: &'c JobCard,
    barcode: String,
    /// It is set close: a card that is carried about is not to be thick.
    close: bool,
}

impl JobCard {
    /// Sets the card.
    ///
    /// # Errors
    /// [`PaperError`].
    pub fn print(&self) -> Result<Printed, PaperError> {
        let barcode = barcode::svg(&self.about.bars)?;
        set(
            "job.typ",
            &Page {
                card: self,
                barcode,
                close: true,
            },
            self.about.as_of,
        )
    }
}
