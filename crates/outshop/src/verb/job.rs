//! `job`, `prove`, `sign`: the plan, its steps, its proofs, its signatures, its close.

use clap::{Args, Subcommand};
use measure::Ton;
use serde::Deserialize;
use serde_json::json;
use shop::Refusal;
use shop::book::{
    Book, Job as Kept, JobId, JobPaper, JobPaperKept, OnPaper, QuarterHours, WindowFrom,
};
use shop::job::{chart, papers_wanted, window_card, window_sheet};
use shop::locomotive::{card, finding, job};

use super::{authority, date, name, not_stale, saved, wrap};
use crate::{Answer, Context, Failure, words};

/// Make, follow and close a job.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Job {
    /// Make the job of a decided finding.
    Make {
        /// The finding, such as F-001.
        finding: String,
        /// The day it is promised for.
        #[arg(long)]
        promised: Option<String>,
    },
    /// A job with all that is done and all that is missing.
    Show {
        /// Its number, such as J-001.
        job: String,
    },
    /// The sheets a job stands on, as printed when it was made.
    Sheets {
        /// Its number, such as J-001.
        job: String,
    },
    /// Say that an operation was done.
    Done(Done),
    /// Clear the hold point after an operation.
    Clear(Clear),
    /// Keep a paper of a job: zero-proven, lock-out, confined-space, hot-work, certificate, outside-report, weld, press-chart, purchase.
    Paper(Keep),
    /// Say what was found at a knock-on.
    KnockOn {
        /// The job, such as J-001.
        job: String,
        /// The knock-on, in the family's word.
        knock_on: String,
        /// What was found there.
        #[arg(long)]
        seen: String,
    },
    /// Close a job.
    Close {
        /// Its number, such as J-001.
        job: String,
        /// The newest entry of the job that you had seen; refused if it has changed since.
        #[arg(long)]
        seen_entry: Option<u64>,
    },
}

/// Say that an operation was done.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The job, such as J-001.
    pub job: String,
    /// The operation's number.
    pub operation: u32,
    /// How long it took, in hours, such as "2 1/2".
    #[arg(long)]
    pub hours: Option<String>,
    /// What there is to say.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub told: String,
}

/// Keep a paper of a job.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Keep {
    /// The job, such as J-001.
    pub job: String,
    /// What it is: zero-proven, lock-out, confined-space, hot-work, certificate, outside-report, weld, press-chart or purchase.
    pub kind: String,
    /// What it says; of zero-proven, how it was proven.
    #[arg(long)]
    pub told: String,
    /// The paper itself, by its name or number.
    #[arg(long)]
    #[serde(default)]
    pub document: Option<String>,
    /// Of leave: its last day.
    #[arg(long)]
    #[serde(default)]
    pub until: Option<String>,
    /// What it cost.
    #[arg(long)]
    #[serde(default)]
    pub cost: Option<String>,
    /// Of a press chart: travel and tons, point by point, such as "1/2in 4; 1in 8.5; 1-1/2in 13".
    #[arg(long)]
    #[serde(default)]
    pub points: Option<String>,
    /// Of a press chart: the least tons the fit's sheet allows at the end.
    #[arg(long, requires = "most")]
    #[serde(default)]
    pub least: Option<String>,
    /// Of a press chart: the most tons it allows.
    #[arg(long, requires = "least")]
    #[serde(default)]
    pub most: Option<String>,
    /// Of a press chart: which ton the press gauge reads, short (2000 lb) or long (2240 lb). The window then comes from the
    /// sheet that the job keeps, or from the card that is named.
    #[arg(long)]
    #[serde(default)]
    pub ton: Option<String>,
    /// Of a press chart: the card that keeps its sheet, such as C-001, where the job does not.
    #[arg(long, requires = "ton")]
    #[serde(default)]
    pub card: Option<String>,
}

/// A window of tons, and the kept sheet it is from or is held against.
type Window = (Option<(String, String)>, Option<WindowFrom>);

impl Keep {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let kind = JobPaper::ALL
            .into_iter()
            .find(|it| it.word() == self.kind.trim());
        let kind = kind.ok_or_else(|| {
            let all: Vec<_> = JobPaper::ALL.iter().map(|it| it.word()).collect();
            Failure::Input(words::job::no_paper(&self.kind, &all))
        })?;
        let until = self.until.as_deref().map(super::date).transpose()?;
        let mut points = Vec::new();
        for point in self.points.iter().flat_map(|all| all.split(['\n', ';'])) {
            let point = point.trim();
            if point.is_empty() {
                continue;
            }
            let (travel, tons) = point
                .rsplit_once(' ')
                .ok_or_else(|| Failure::Input(words::job::no_point(point)))?;
            points.push((travel.trim().to_string(), tons.trim().to_string()));
        }
        let window = match (&self.least, &self.most) {
            (Some(least), Some(most)) => Some((least.trim().into(), most.trim().into())),
            (None, None) => None,
            _ => return Err(Failure::Input(words::job::HALF_WINDOW.into())),
        };
        let filled = |it: &Option<String>| it.as_ref().map(|it| it.trim().to_string());
        let ton = self.ton.as_deref().map(ton).transpose()?;
        let receipt = context.save(|book, by, on| {
            let (id, standing) = job(book, &self.job)?;
            let (window, window_from) = self.window(book, standing, window.clone(), ton)?;
            let kept = JobPaperKept {
                job: id,
                kind,
                told: self.told.trim().into(),
                document: filled(&self.document),
                until,
                cost: filled(&self.cost),
                points: points.clone(),
                window,
                window_from,
            };
            shop::job::keep(book, kept, by, on)
        })?;
        let mut told = words::job::paper_kept(&self.job, kind);
        let (book, mut value) = (context.book()?, json!({}));
        let (_, standing) = job(&book, &self.job)?;
        if let Some(it) = standing.papers.last()
            && kind == JobPaper::PressChart
        {
            use words::job::papers as say;
            let read = chart(&it.kept)?;
            let mut lines = vec![say::pressed(read.pressed(), it.kept.window.as_ref())];
            lines.extend(say::window_told(&book, standing, &it.kept));
            value = json!({ "window": it.kept.window, "says": lines });
            told = format!("{told} {}", lines.join(" "));
        }
        Ok(saved(&receipt, told, value))
    }

    /// The window as typed; else as the kept sheet gives it.
    fn window(
        &self,
        book: &Book,
        standing: &Kept,
        typed: Option<(String, String)>,
        ton: Option<Ton>,
    ) -> Result<Window, Refusal> {
        let Some(ton) = ton else {
            return Ok((typed, None));
        };
        let named = match self.card.as_deref().map(str::trim) {
            Some(number) => Some(window_card(book, card(book, number)?.0)?),
            None => window_sheet(standing),
        };
        let sheet = named.ok_or_else(|| Refusal::input(words::job::no_window_sheet(&self.job)))?;
        let window = typed.unwrap_or_else(|| sheet.window(ton));
        Ok((Some(window), Some(sheet.from(ton))))
    }
}

/// Which ton is meant.
fn ton(text: &str) -> Result<Ton, Failure> {
    let found = Ton::ALL.into_iter().find(|it| it.word() == text.trim());
    found.ok_or_else(|| Failure::Input(words::job::no_ton(text)))
}

/// Clear a hold point.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clear {
    /// The job, such as J-001.
    pub job: String,
    /// The operation's number.
    pub operation: u32,
    /// What was seen.
    #[arg(long)]
    pub seen: String,
    /// Where it was cleared in person, on paper, and is entered now by the one who cleared it: which paper.
    #[arg(long, requires = "cleared_on")]
    #[serde(default)]
    pub paper: Option<String>,
    /// With --paper: the day it was cleared.
    #[arg(long, requires = "paper")]
    #[serde(default)]
    pub cleared_on: Option<String>,
    /// The newest entry of the job that you had seen; refused if it has changed since.
    #[arg(long)]
    pub seen_entry: Option<u64>,
}

impl Clear {
    /// The paper, where it was cleared on one.
    fn on_paper(&self) -> Result<Option<OnPaper>, Failure> {
        let day = self.cleared_on.as_deref().map(super::date).transpose()?;
        match (&self.paper, day) {
            (None, None) => Ok(None),
            (Some(document), Some(day)) => Ok(Some(OnPaper {
                day,
                document: document.clone(),
            })),
            _ => Err(Failure::Input(
                "A hold point that was cleared on paper needs both the paper and the day. Nothing was saved.".into(),
            )),
        }
    }
}

/// Record a proof of a job.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prove {
    /// The job, such as J-001.
    pub job: String,
    /// Which proof, such as steam-test.
    pub proof: String,
    /// What was seen: pressure, how long, where it wept or that it did not.
    #[arg(long)]
    pub told: String,
    /// It held.
    #[arg(long, conflicts_with = "failed")]
    #[serde(default)]
    pub passed: bool,
    /// It did not hold.
    #[arg(long)]
    #[serde(default)]
    pub failed: bool,
}

/// Sign a job.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sign {
    /// The job, such as J-001.
    pub job: String,
    /// In which capacity: inspector, repairer or approver.
    #[arg(long = "as")]
    #[serde(rename = "as")]
    pub capacity: String,
    /// The newest entry of the job that you had seen; refused if it has changed since.
    #[arg(long)]
    pub seen_entry: Option<u64>,
}

impl Job {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        match self {
            Job::Make {
                finding: number,
                promised,
            } => {
                let promised = promised.as_deref().map(date).transpose()?;
                let id = JobId(context.id()?);
                let receipt = context.save(|book, by, on| {
                    let (found, _) = finding(book, number)?;
                    let design = shop::design::propose(book, rules, found, on)?;
                    shop::job::make(book, id, &design, promised, by, on)
                })?;
                let book = context.book()?;
                let kept = book
                    .jobs
                    .get(&id)
                    .ok_or_else(|| Failure::Machine("The job is not in the book.".into()))?;
                let told = format!("J-{:03} is made: {}.", kept.number, kept.plan.title);
                Ok(saved(
                    &receipt,
                    told,
                    json!({ "job": format!("J-{:03}", kept.number) }),
                ))
            }
            Job::Show { job: number } => {
                let on = context.on()?;
                let house = context.house();
                let book = context.book()?;
                let (_, kept) = job(&book, number)?;
                let missing = if kept.closed.is_some() {
                    Vec::new()
                } else {
                    shop::record::unmet(&book, rules, kept, on, house)?
                };
                Ok(show(&book, kept, &missing, on))
            }
            Job::Sheets { job: number } => {
                let book = context.book()?;
                let (_, kept) = job(&book, number)?;
                let texts: Vec<_> = kept.plan.sheets.iter().map(|s| s.text.as_str()).collect();
                let list: Vec<_> = kept
                    .plan
                    .sheets
                    .iter()
                    .map(|s| json!({ "sheet": s.sheet, "text": s.text }))
                    .collect();
                Ok(Answer::done(texts.join("\n"), json!(list)))
            }
            Job::Done(it) => {
                let hours = it.hours.as_deref().map(quarters).transpose()?;
                let receipt = context.save(|book, by, on| {
                    let (id, _) = job(book, &it.job)?;
                    shop::job::done(book, id, it.operation, hours, &it.told, by, on)
                })?;
                let book = context.book()?;
                let (_, kept) = job(&book, &it.job)?;
                let at = usize::try_from(it.operation).unwrap_or(0).saturating_sub(1);
                let stop = kept.plan.operations.get(at).and_then(|o| o.hold.as_ref());
                let then = stop.map_or(String::new(), |h| {
                    format!(
                        " The job stops here until this is looked at ({}): {}.",
                        h.by.word(),
                        h.look
                    )
                });
                Ok(saved(
                    &receipt,
                    format!("{} operation {} is done.{then}", it.job, it.operation),
                    json!({}),
                ))
            }
            Job::Clear(it) => {
                let paper = it.on_paper()?;
                let receipt = context.save(|book, by, on| {
                    let (id, kept) = job(book, &it.job)?;
                    not_stale(&it.job, it.seen_entry, kept.last)?;
                    shop::job::clear(book, id, it.operation, &it.seen, paper.clone(), by, on)
                })?;
                Ok(saved(
                    &receipt,
                    format!(
                        "{}: the hold point after operation {} is cleared{}.",
                        it.job,
                        it.operation,
                        paper.as_ref().map_or(String::new(), words::job::on_paper)
                    ),
                    json!({}),
                ))
            }
            Job::Paper(it) => it.run(context),
            Job::KnockOn {
                job: number,
                knock_on,
                seen,
            } => {
                let receipt = context.save(|book, by, on| {
                    let (id, _) = job(book, number)?;
                    shop::record::knock_on(book, id, knock_on, seen, by, on)
                })?;
                Ok(saved(
                    &receipt,
                    format!("{number}: the knock-on {knock_on} was looked at."),
                    json!({}),
                ))
            }
            Job::Close {
                job: number,
                seen_entry,
            } => {
                let receipt = context.save(|book, by, on| {
                    let (id, kept) = job(book, number)?;
                    not_stale(number, *seen_entry, kept.last)?;
                    shop::record::close_job(book, rules, id, by, on)
                })?;
                let book = context.book()?;
                let (_, kept) = job(&book, number)?;
                let verdict = kept.closed.as_ref().map_or("", |(_, _, v)| v.as_str());
                Ok(saved(
                    &receipt,
                    format!("{number} is closed; as left it {verdict}."),
                    json!({ "verdict": verdict }),
                ))
            }
        }
    }
}

/// Hours as a shop writes them, in quarters.
fn quarters(text: &str) -> Result<QuarterHours, Failure> {
    let wrong = || {
        Failure::Input(format!(
            "`{text}` is not a time in hours: quarters were expected, such as \"2 1/2\"."
        ))
    };
    let read = measure::entered(text, measure::Dimension::Ratio, measure::House::Inch)
        .map_err(|_| wrong())?;
    let four = read
        .exact
        .map(|hours| hours * measure::Fraction::from_integer(4))
        .filter(|q| q.is_integer())
        .ok_or_else(wrong)?;
    u32::try_from(four.to_integer())
        .ok()
        .filter(|q| *q > 0 && *q <= 4_000)
        .map(QuarterHours)
        .ok_or_else(wrong)
}

fn show(book: &Book, kept: &Kept, missing: &[String], on: jiff::civil::Date) -> Answer {
    let her = book
        .locomotives
        .get(&kept.locomotive)
        .map_or("?", |e| e.number.as_str());
    let found = book
        .findings
        .get(&kept.plan.finding)
        .map_or(0, |f| f.number);
    let mut text = format!("J-{:03}: No. {her}, {}\n", kept.number, kept.plan.title);
    text.push_str(&format!(
        "Ordered {} by {} for F-{found:03}",
        words::day(kept.made_on),
        name(book, kept.made_by)
    ));
    text.push_str(&kept.plan.promised.map_or("\n".into(), |day| {
        format!("; promised for {}\n", words::day(day))
    }));
    let mut list = |head: &str, lines: &[String]| {
        if !lines.is_empty() {
            text.push_str(&format!("{head}\n"));
            for line in lines {
                text.push_str(&format!("  - {}\n", wrap(line, 4, 100)));
            }
        }
    };
    list("Cautions", &kept.plan.cautions);
    list("Worked to", &kept.plan.sizes);
    list("Make first", &kept.plan.tooling);
    list("Stop and ask", &kept.plan.stop_points);
    use words::job::papers as say;
    let mut papers: Vec<String> = Vec::new();
    for it in &kept.papers {
        let kind = words::sentence(say::kind(it.kept.kind));
        papers.push(format!("{kind}: {}", say::line(it, name(book, it.by))));
    }
    for it in papers_wanted(book, kept, on) {
        let kind = words::sentence(say::kind(it.kind));
        papers.push(format!("{kind}: {}", say::wanted_before(it.before)));
    }
    list(say::TITLE, &papers);
    text.push_str("Operations\n");
    for (at, (plan, state)) in kept
        .plan
        .operations
        .iter()
        .zip(&kept.operations)
        .enumerate()
    {
        let [low, likely, high] = plan.hours;
        let said = format!(
            "{} ({}; engine {}; {likely} likely, {low} to {high})",
            plan.what, plan.place, plan.engine
        );
        let mark = if state.done.is_some() {
            "done"
        } else {
            "to do"
        };
        text.push_str(&format!(
            "  {}  {mark:<6} {}\n",
            at + 1,
            wrap(&said, 12, 100)
        ));
        if let Some((day, by, hours, told)) = &state.done {
            let took = hours.map_or(String::new(), |h| format!(", {h}"));
            let told = if told.is_empty() {
                String::new()
            } else {
                format!(": {told}")
            };
            text.push_str(&format!(
                "            {}\n",
                wrap(
                    &format!("{} by {}{took}{told}", words::day(*day), name(book, *by)),
                    12,
                    100
                )
            ));
        }
        if let Some(hold) = &plan.hold {
            let said = match &state.cleared {
                Some((day, by, seen)) => format!(
                    "HOLD cleared {} by {}{}: {seen}",
                    words::day(*day),
                    name(book, *by),
                    state
                        .cleared_on_paper
                        .as_ref()
                        .map_or(String::new(), words::job::on_paper)
                ),
                None => format!("HOLD: {} ({})", hold.look, hold.by.word()),
            };
            text.push_str(&format!("     {}\n", wrap(&said, 12, 100)));
        }
    }
    text.push_str("Proofs\n");
    for proof in &kept.plan.proofs {
        let seen = |passed: bool, told: &str, by, day| {
            format!(
                "{}, {} by {}: {told}",
                if passed { "held" } else { "did not hold" },
                words::day(day),
                name(book, by)
            )
        };
        for trial in kept.earlier.iter().filter(|t| t.proof == *proof) {
            let said = seen(trial.passed, &trial.told, trial.by, trial.on);
            let said = format!("{}: {said}", words::job::EARLIER_TRIAL);
            text.push_str(&format!("  {proof:<16} {}\n", wrap(&said, 19, 100)));
        }
        let said = match kept.proofs.get(proof) {
            Some((passed, told, by, day)) => seen(*passed, told, *by, *day),
            None => "to be made".into(),
        };
        text.push_str(&format!("  {proof:<16} {}\n", wrap(&said, 19, 100)));
    }
    text.push_str("Knock-ons\n");
    for word in &kept.plan.knock_ons {
        let said = kept
            .knock_ons
            .get(word)
            .map_or("to be looked at".into(), |(seen, by, day)| {
                format!("{} by {}: {seen}", words::day(*day), name(book, *by))
            });
        text.push_str(&format!("  {word:<16} {}\n", wrap(&said, 19, 100)));
    }
    if !kept.left.is_empty() {
        text.push_str("As left\n");
        for reading in &kept.left {
            text.push_str(&format!(
                "  {:<18} {:<13} {}\n",
                reading.feature,
                reading.reading.position,
                reading.reading.written()
            ));
        }
    }
    let cost = shop::job::cost(kept);
    let cost = words::job::cost::lines(&cost, |person| name(book, person).to_owned());
    if !cost.is_empty() {
        text.push_str(&format!("{}\n", words::job::cost::TITLE));
    }
    for (what, said) in &cost {
        text.push_str(&format!("  {what:<21} {}\n", wrap(said, 24, 100)));
    }
    for signed in &kept.signatures {
        text.push_str(&format!(
            "Signed as {} by {} on {}\n",
            signed.capacity.signer(),
            name(book, signed.by),
            words::day(signed.on)
        ));
    }
    match &kept.closed {
        Some((day, by, verdict)) => text.push_str(&format!(
            "Closed {} by {}; as left it {verdict}.\n",
            words::day(*day),
            name(book, *by)
        )),
        None => {
            text.push_str(&format!(
                "{} before it can be closed:\n",
                words::count(missing.len(), "thing is missing", "things are missing")
            ));
            for line in missing {
                text.push_str(&format!("  - {}\n", wrap(line, 4, 100)));
            }
        }
    }
    text.push_str(&format!(
        "Newest entry {}. {}\n",
        kept.last,
        words::STANDING
    ));
    let operations: Vec<_> = kept
        .plan
        .operations
        .iter()
        .zip(&kept.operations)
        .map(|(plan, state)| json!({
            "what": plan.what, "place": plan.place, "engine": plan.engine, "done": state.done.is_some(),
            "hold": plan.hold.as_ref().map(|h| &h.look), "cleared": state.cleared.is_some(),
        }))
        .collect();
    let value = json!({
        "job": format!("J-{:03}", kept.number), "finding": format!("F-{found:03}"), "route": kept.plan.route, "title": kept.plan.title,
        "operations": operations, "missing": missing, "last": kept.last,
        "signatures": kept.signatures.iter().map(|s| json!({ "as": s.capacity.signer(), "by": name(book, s.by), "on": s.on.to_string() })).collect::<Vec<_>>(),
        "closed": kept.closed.as_ref().map(|(day, by, verdict)| json!({ "on": day.to_string(), "by": name(book, *by), "verdict": verdict })),
    });
    Answer::done(text, value)
}

impl Prove {
    /// Records it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.passed == self.failed {
            return Err(Failure::Input(
                "Say whether it held: --passed or --failed.".into(),
            ));
        }
        let receipt = context.save(|book, by, on| {
            let (id, _) = job(book, &self.job)?;
            shop::proof::prove(book, id, &self.proof, self.passed, &self.told, by, on)
        })?;
        let word = if self.passed { "held" } else { "did not hold" };
        Ok(saved(
            &receipt,
            format!("{}: the proof {} {word}.", self.job, self.proof),
            json!({}),
        ))
    }
}

impl Sign {
    /// Signs.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let capacity = authority(&self.capacity)?;
        let receipt = context.save(|book, by, on| {
            let (id, kept) = job(book, &self.job)?;
            not_stale(&self.job, self.seen_entry, kept.last)?;
            shop::record::sign(book, rules, id, capacity, by, on)
        })?;
        Ok(saved(
            &receipt,
            format!(
                "{} is signed by {} as {}.",
                self.job,
                context.by()?,
                capacity.signer()
            ),
            json!({}),
        ))
    }
}
