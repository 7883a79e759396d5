//! The law on welding and riveting a boiler: what must be approved first, to what standard, which tests follow, which
//! report.
//!
//! Only `us-steam` (49 CFR 230.20, 230.33, 230.34, 230.36, 230.37, 230.40) is on file. Every duty is worked in three values: it
//! holds, it does not, or it hangs on a question nobody answered. A duty that hangs on a question is told with it, so an
//! answer left out never takes a duty away. No figure of law stands here: carbon, area, depth and what must be left come out
//! of the rulebook by the day.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use measure::{Fraction, House, Size};
use num_traits::{CheckedDiv as _, CheckedMul as _};
use rules::{Body, Outcome, Rulebook, Ruling};

use crate::Refusal;
use crate::book::{Area, BoilerWork, Change, Joining};
use crate::verdict::measured;

/// The rulebook that is asked.
pub const RULES: &str = "us-steam";

/// What a plate is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Steel {
    /// Carbon steel.
    Carbon,
    /// Alloy steel.
    Alloy,
    /// Wrought iron or another metal, of which the section says nothing: nobody can tell.
    Other,
}

/// What is told of the work. Every answer may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Told {
    /// Welded or riveted.
    pub joining: Option<Joining>,
    /// Stayed or unstayed.
    pub area: Option<Area>,
    /// Repair or alteration.
    pub change: Option<Change>,
    /// The plate.
    pub steel: Option<Steel>,
    /// Carbon of the plate, in percent.
    pub carbon: Option<Fraction>,
    /// Whether a flush patch is let in; its size does not matter to the law.
    pub flush_patch: Option<bool>,
    /// Whether wastage is built up by weld.
    pub build_up: Option<bool>,
    /// Wastage built up, all places added, in square inches.
    pub wasted: Option<Fraction>,
    /// The deeper of wastage and build-up, at the deepest place.
    pub depth: Option<Size>,
    /// The least wall required there.
    pub required: Option<Size>,
    /// The wall left at the thinnest place.
    pub left: Option<Size>,
}

impl Told {
    /// What a family says of a route, before anything of the part is known.
    pub fn of_route(work: &BoilerWork) -> Told {
        Told {
            joining: work.joining,
            area: work.area,
            change: work.change,
            build_up: work.build_up,
            flush_patch: work.flush_patch,
            ..Told::default()
        }
    }

    /// What is known of a part by its facts, beside what its family says of the route: `stayed`, `steel`, `carbon`,
    /// `required-wall`. A fact that does not read answers nothing; `house` is the unit of a bare length.
    pub fn and_part(mut self, facts: &BTreeMap<String, String>, house: House) -> Told {
        for (fact, question) in [
            ("stayed", Question::Area),
            ("steel", Question::Steel),
            ("carbon", Question::Carbon),
            ("required-wall", Question::Required),
        ] {
            if let Some(text) = facts.get(fact) {
                let _ = self.answer(question.word(), text, house);
            }
        }
        self
    }

    /// Takes an answer as typed.
    ///
    /// # Arguments
    /// `word`: as [`Question::word`]. `text`: `weld`, `stayed`, `repair`, `carbon`, `0.22 %`, `40 sq in`, `3/16 in`, `yes`; of a
    /// flush patch its size serves as a yes. `house`: the unit of a bare length.
    ///
    /// # Errors
    /// Input: what was wrong and what was expected.
    pub fn answer(&mut self, word: &str, text: &str, house: House) -> Result<(), Refusal> {
        let text = text.trim();
        let wrong = |expected: &str| {
            Refusal::input(format!(
                "`{text}` is no answer to `{word}`: {expected} was expected."
            ))
        };
        let yes_no = || match text {
            "yes" => Ok(Some(true)),
            "no" => Ok(Some(false)),
            _ => Err(wrong("`yes` or `no`")),
        };
        let size = || {
            let read = Size::parse_in(text, house).ok();
            let above = read.filter(|size| *size > Size::ZERO);
            above
                .map(Some)
                .ok_or_else(|| wrong("a length, such as `3/16 in`,"))
        };
        match word {
            "work" => {
                self.joining = Some(match text {
                    "weld" => Joining::Weld,
                    "rivet" => Joining::Rivet,
                    _ => return Err(wrong("`weld` or `rivet`")),
                });
            }
            "area" => {
                self.area = Some(match text {
                    "stayed" => Area::Stayed,
                    "unstayed" => Area::Unstayed,
                    _ => return Err(wrong("`stayed` or `unstayed`")),
                });
            }
            "change" => {
                self.change = Some(match text {
                    "repair" => Change::Repair,
                    "alteration" => Change::Alteration,
                    _ => return Err(wrong("`repair` or `alteration`")),
                });
            }
            "steel" => {
                self.steel = Some(match text {
                    "carbon" => Steel::Carbon,
                    "alloy" => Steel::Alloy,
                    "other" => Steel::Other,
                    _ => return Err(wrong("`carbon`, `alloy` or `other`")),
                });
            }
            "carbon" => {
                let bare = text.ends_with(|c: char| c.is_ascii_digit());
                let said = if bare {
                    format!("{text} %")
                } else {
                    text.to_string()
                };
                let read = measured(&said, "percent carbon", house).ok();
                let share = read.filter(|it| *it >= Fraction::from_integer(0));
                self.carbon =
                    Some(share.ok_or_else(|| wrong("a share in percent, such as `0.22 %`,"))?);
            }
            "wasted" => {
                let read = measured(text, "sq in", house).ok();
                let area = read.filter(|it| *it > Fraction::from_integer(0));
                self.wasted = Some(area.ok_or_else(|| wrong("an area, such as `40 sq in`,"))?);
            }
            "flush-patch" => {
                let sized = || {
                    let sides: Vec<&str> = text.split(" x ").collect();
                    let read = sides.iter().all(|side| Size::parse_in(side, house).is_ok());
                    read.then_some(Some(true))
                        .ok_or_else(|| wrong("`no`, `yes` or its size, such as `10 in x 8 in`,"))
                };
                self.flush_patch = yes_no().or_else(|_| sized())?;
            }
            "build-up" => self.build_up = yes_no()?,
            "depth" => self.depth = size()?,
            "required" => self.required = size()?,
            "left" => self.left = size()?,
            _ => {
                let words: Vec<&str> = Question::ALL.iter().map(|it| it.word()).collect();
                return Err(Refusal::input(format!(
                    "`{word}` is no question of work on a boiler: {} were expected.",
                    words.join(", ")
                )));
            }
        }
        Ok(())
    }
}

/// A question that decides a duty.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Welding or riveting.
    Joining,
    /// Stayed or unstayed.
    Area,
    /// Repair or alteration.
    Change,
    /// Which steel.
    Steel,
    /// Carbon.
    Carbon,
    /// Flush patch.
    FlushPatch,
    /// Build-up.
    BuildUp,
    /// Area built up.
    Wasted,
    /// Depth.
    Depth,
    /// Wall required.
    Required,
    /// Wall left.
    Left,
}

impl Question {
    /// All, in the order they are asked.
    pub const ALL: [Question; 11] = [
        Question::Joining,
        Question::Area,
        Question::Change,
        Question::Steel,
        Question::Carbon,
        Question::FlushPatch,
        Question::BuildUp,
        Question::Wasted,
        Question::Depth,
        Question::Required,
        Question::Left,
    ];

    /// Its word, as it is answered by.
    pub fn word(self) -> &'static str {
        match self {
            Question::Joining => "work",
            Question::Area => "area",
            Question::Change => "change",
            Question::Steel => "steel",
            Question::Carbon => "carbon",
            Question::FlushPatch => "flush-patch",
            Question::BuildUp => "build-up",
            Question::Wasted => "wasted",
            Question::Depth => "depth",
            Question::Required => "required",
            Question::Left => "left",
        }
    }

    /// The words it is answered by; none where it is a figure. A size of a flush patch serves as its yes, and need not be told.
    pub fn choices(self) -> &'static [&'static str] {
        match self {
            Question::Joining => &["weld", "rivet"],
            Question::Area => &["stayed", "unstayed"],
            Question::Change => &["repair", "alteration"],
            Question::Steel => &["carbon", "alloy", "other"],
            Question::BuildUp | Question::FlushPatch => &["yes", "no"],
            _ => &[],
        }
    }

    /// What must be told.
    pub fn asks(self) -> &'static str {
        match self {
            Question::Joining => "whether it is welded or riveted",
            Question::Area => "whether the area is stayed or unstayed",
            Question::Change => "whether it is a repair or an alteration",
            Question::Steel => {
                "whether the plate is carbon steel or alloy steel, by its papers or an analysis; of other metals the section does not speak"
            }
            Question::Carbon => "carbon of the plate in percent, by its papers or an analysis",
            Question::FlushPatch => "whether a flush patch is let in, of whatever size",
            Question::BuildUp => "whether wastage is built up by weld",
            Question::Wasted => "area of the wastage built up, all places added",
            Question::Depth => "depth at the deepest place, the deeper of wastage and build-up",
            Question::Required => "least wall required there, by the boiler's calculation",
            Question::Left => "wall left at the thinnest place",
        }
    }
}

/// When a duty falls due.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// The work is not done at all.
    Never,
    /// Approved before anything is struck.
    Approval,
    /// While it is done.
    Standard,
    /// Tested before she goes back.
    Test,
    /// Reported.
    Report,
    /// Kept.
    Keep,
}

/// One duty, with the rule it stands in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Duty {
    /// When.
    pub stage: Stage,
    /// The rule.
    pub ruling: Ruling,
    /// The questions it hangs on; none where it holds.
    pub open: Vec<Question>,
}

impl Duty {
    /// What it asks: of an item of work what to do, else how the rule is read.
    pub fn says(&self) -> &str {
        match &self.ruling.body {
            Body::Item(item) => &item.text,
            _ => &self.ruling.reading,
        }
    }
}

/// What the law asks of the work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// The duties that hold or may hold, in the order of the work.
    pub duties: Vec<Duty>,
}

/// What comes before the work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Before {
    /// It is not done at all.
    Forbidden,
    /// It is approved first.
    Approval,
    /// No approval is asked by the rules on file.
    NoApproval,
    /// Nobody can tell.
    CannotTell(Vec<Question>),
}

impl Answer {
    /// Every question that is open and decides a duty, once.
    pub fn open(&self) -> Vec<Question> {
        self.open_until(Stage::Keep)
    }

    /// The same of the duties up to a stage.
    fn open_until(&self, last: Stage) -> Vec<Question> {
        let duties = self.duties.iter().filter(|duty| duty.stage <= last);
        let open: BTreeSet<Question> = duties.flat_map(|duty| duty.open.iter().copied()).collect();
        open.into_iter().collect()
    }

    /// What comes before the work. A missing answer is never read as one that helps.
    pub fn before(&self) -> Before {
        let sure = |stage| {
            let mut of_it = self.duties.iter().filter(|duty| duty.stage == stage);
            of_it.any(|duty| duty.open.is_empty())
        };
        if sure(Stage::Never) {
            return Before::Forbidden;
        }
        let may_be_forbidden = self.duties.iter().any(|duty| duty.stage == Stage::Never);
        if sure(Stage::Approval) && !may_be_forbidden {
            return Before::Approval;
        }
        match self.open_until(Stage::Approval) {
            open if open.is_empty() => Before::NoApproval,
            open => Before::CannotTell(open),
        }
    }

    /// The answer as stop points of a route: one line each, with its section.
    pub fn stop_points(&self) -> Vec<String> {
        let mut lines: Vec<String> = self
            .duties
            .iter()
            .filter(|duty| duty.stage != Stage::Keep)
            .map(|duty| {
                let told = format!("{} ({})", duty.says(), duty.ruling.cite);
                let lead = match duty.stage {
                    Stage::Never => "not at all",
                    Stage::Approval => "approval first",
                    Stage::Standard => "standard",
                    Stage::Test => "test afterwards",
                    Stage::Report | Stage::Keep => "report",
                };
                if duty.open.is_empty() {
                    format!("{lead}: {told}")
                } else {
                    let open: Vec<&str> = duty.open.iter().map(|it| it.asks()).collect();
                    format!("{lead}, cannot tell without {}: {told}", open.join(" and "))
                }
            })
            .collect();
        if matches!(self.before(), Before::CannotTell(_)) {
            lines.insert(
                0,
                "stop: nothing is struck before the law's questions are answered".into(),
            );
        }
        lines
    }
}

/// Three values: it holds, it does not, it hangs on questions.
#[derive(Debug, Clone, PartialEq, Eq)]
enum So {
    Yes,
    No,
    Open(BTreeSet<Question>),
}

impl So {
    fn of<T: PartialEq>(answer: Option<T>, is: T, question: Question) -> So {
        match answer {
            Some(told) if told == is => So::Yes,
            Some(_) => So::No,
            None => So::open(question),
        }
    }

    fn open(question: Question) -> So {
        So::Open(BTreeSet::from([question]))
    }

    /// Where anything fails, nothing else need be asked.
    fn all(parts: &[&So]) -> So {
        So::join(parts, &So::No, So::Yes)
    }

    /// Where anything holds, nothing else need be asked.
    fn any(parts: &[&So]) -> So {
        So::join(parts, &So::Yes, So::No)
    }

    fn join(parts: &[&So], decides: &So, else_is: So) -> So {
        if parts.contains(&decides) {
            return decides.clone();
        }
        let mut open = BTreeSet::new();
        for part in parts {
            if let So::Open(questions) = part {
                open.extend(questions.iter().copied());
            }
        }
        if open.is_empty() {
            else_is
        } else {
            So::Open(open)
        }
    }
}

/// What the law asks of welding or riveting on a boiler, as it stood on a day.
///
/// # Errors
/// Input: the day lies before the rulebook's coverage.
pub fn ask(rules: &Rulebook, told: &Told, on: Date) -> Result<Answer, Refusal> {
    let law = Law { rules, on };
    let unstayed = So::of(told.area, Area::Unstayed, Question::Area);
    let stayed = So::of(told.area, Area::Stayed, Question::Area);
    let weld = So::of(told.joining, Joining::Weld, Question::Joining);
    let rivet = So::of(told.joining, Joining::Rivet, Question::Joining);
    let alteration = So::of(told.change, Change::Alteration, Question::Change);
    let repair = So::of(told.change, Change::Repair, Question::Change);
    let patch = So::of(told.flush_patch, true, Question::FlushPatch);
    let build_up = So::of(told.build_up, true, Question::BuildUp);
    let welded_unstayed = So::all(&[&unstayed, &weld]);
    let built_up = So::all(&[&welded_unstayed, &build_up]);
    let over = So::any(&[&law.wide(told)?, &law.deep(told)?]);
    let hydro = So::any(&[
        &alteration,
        &So::all(&[&unstayed, &So::any(&[&patch, &rivet])]),
    ]);
    let always = So::Yes;
    let table: [(Stage, &str, So); 17] = [
        (
            Stage::Never,
            "repair.buildup-remaining",
            So::all(&[&built_up, &law.thin(told)?]),
        ),
        (
            Stage::Approval,
            "approval.unstayed-weld",
            So::all(&[&welded_unstayed, &law.hard(told)?]),
        ),
        (
            Stage::Approval,
            "approval.weld-buildup",
            So::all(&[&built_up, &over]),
        ),
        (
            Stage::Approval,
            "approval.flush-patch",
            So::all(&[&unstayed, &patch]),
        ),
        (
            Stage::Approval,
            "approval.unstayed-rivet-alteration",
            So::all(&[&unstayed, &rivet, &alteration]),
        ),
        (
            Stage::Standard,
            "boiler-work.unstayed-weld-standard",
            welded_unstayed.clone(),
        ),
        (
            Stage::Standard,
            "boiler-work.stayed-weld-standard",
            So::all(&[&stayed, &weld]),
        ),
        (Stage::Standard, "boiler-work.rivet-standard", rivet.clone()),
        (Stage::Test, "boiler-work.hydrostatic", hydro.clone()),
        (Stage::Test, "hydrostatic.exterior", hydro.clone()),
        (Stage::Test, "hydrostatic.hammer-test", hydro.clone()),
        (Stage::Test, "hydrostatic.interior", hydro),
        (Stage::Test, "after-repair.steam-test", always.clone()),
        (Stage::Report, "form-19.alteration", alteration),
        (
            Stage::Report,
            "form-19.unstayed-repair",
            So::all(&[&repair, &unstayed]),
        ),
        (
            Stage::Report,
            "form-19.stayed-repair",
            So::all(&[&repair, &stayed]),
        ),
        (Stage::Keep, "keep.form-19", always),
    ];
    let mut duties = Vec::new();
    for (stage, rule, so) in table {
        let open = match so {
            So::No => continue,
            So::Yes => Vec::new(),
            So::Open(questions) => questions.into_iter().collect(),
        };
        duties.push(Duty {
            stage,
            ruling: law.ruling(rule)?,
            open,
        });
    }
    Ok(Answer { duties })
}

/// The figures of the rulebook on a day.
struct Law<'a> {
    rules: &'a Rulebook,
    on: Date,
}

impl Law<'_> {
    fn ruling(&self, rule: &str) -> Result<Ruling, Refusal> {
        Ok(self.rules.ruling(&format!("{RULES}.{rule}"), self.on)?)
    }

    fn body(&self, rule: &str) -> Result<Body, Refusal> {
        Ok(self.ruling(rule)?.body)
    }

    /// A number against a limit: whether it is past it.
    fn past(
        &self,
        rule: &str,
        number: Option<Fraction>,
        question: Question,
    ) -> Result<So, Refusal> {
        let (Body::Limit(limit), Some(number)) = (self.body(rule)?, number) else {
            return Ok(So::open(question));
        };
        Ok(match limit.judge_number(number) {
            Outcome::Passes => So::No,
            Outcome::Fails { .. } => So::Yes,
            Outcome::CannotTell { .. } => So::open(question),
        })
    }

    /// Alloy, or carbon steel over the figure.
    fn hard(&self, told: &Told) -> Result<So, Refusal> {
        Ok(match told.steel {
            Some(Steel::Alloy) => So::Yes,
            Some(Steel::Carbon) => {
                self.past("repair.weld-carbon", told.carbon, Question::Carbon)?
            }
            Some(Steel::Other) => So::open(Question::Steel),
            None => So::Open(BTreeSet::from([Question::Steel, Question::Carbon])),
        })
    }

    /// Built up over more than the area.
    fn wide(&self, told: &Told) -> Result<So, Refusal> {
        self.past("repair.buildup-area", told.wasted, Question::Wasted)
    }

    /// Deeper than the formula gives for the wall required.
    fn deep(&self, told: &Told) -> Result<So, Refusal> {
        let mut open = BTreeSet::new();
        if told.depth.is_none() {
            open.insert(Question::Depth);
        }
        let formula = self.body("repair.buildup-depth")?;
        let (Some(depth), Some(required), Body::LimitFormula(formula)) =
            (told.depth, told.required, formula)
        else {
            if told.required.is_none() {
                open.insert(Question::Required);
            }
            return Ok(So::Open(open));
        };
        let limit = formula.limit_for(&[("required_wall", required.inches())]);
        Ok(match limit.map(|limit| limit.judge(depth)) {
            Ok(Outcome::Passes) => So::No,
            Ok(Outcome::Fails { .. }) => So::Yes,
            Ok(Outcome::CannotTell { .. }) | Err(_) => So::open(Question::Required),
        })
    }

    /// Less left than the share of the wall required.
    fn thin(&self, told: &Told) -> Result<So, Refusal> {
        let mut open = BTreeSet::new();
        if told.left.is_none() {
            open.insert(Question::Left);
        }
        if told.required.is_none() {
            open.insert(Question::Required);
        }
        let (Some(left), Some(required)) = (told.left, told.required) else {
            return Ok(So::Open(open));
        };
        let hundred = Fraction::from_integer(100);
        let share = left.inches().checked_mul(&hundred);
        match share.and_then(|share| share.checked_div(&required.inches())) {
            Some(share) => self.past("repair.buildup-remaining", Some(share), Question::Left),
            None => Ok(So::open(Question::Required)),
        }
    }
}

/// The pressure of the water test for a boiler, as the rule gives it.
///
/// # Arguments
/// `mawp`: allowed working pressure in psi, gauge.
///
/// # Errors
/// Input: the day lies before the rulebook's coverage.
pub fn water_pressure(rules: &Rulebook, mawp: u32, on: Date) -> Result<Option<String>, Refusal> {
    let law = Law { rules, on };
    let Body::LimitFormula(formula) = law.body("hydrostatic.pressure")? else {
        return Ok(None);
    };
    let mawp = Fraction::from_integer(i128::from(mawp));
    let limit = formula.limit_for(&[("working_pressure", mawp)]);
    Ok(limit.ok().map(|limit| limit.words()))
}
