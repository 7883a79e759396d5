//! `part import`: a list of parts in a CSV or XLSX file, shown line by line first and saved when told to.
//!
//! What the columns mean is told in `docs/part-files.md`, whose examples a test reads. A line adds a part that the
//! engine does not have by that name, or says more of one she has.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;
use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{
    BatchId, Book, EntryId, FeatureTold, Meta, PartId, PartKnown, PartTold, PersonId, Statement,
};
use shop::locomotive::{NewPart, add_part, engine, part, tell_part};
use store::Receipt;

use super::import::{Seen, mark, read};
use super::saved;
use crate::logfile::{self, Cell, HEADING_WITHIN, MOST_LINES, Row, blank, plain};
use crate::words::part_list as say;
use crate::{Answer, Context, Failure, words};

/// Show what a list of parts would add, line by line; with --write, add it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Import {
    /// The file. Its columns are named by words such as engine, part, family, side, axle, within, feature, as built, in
    /// any order.
    pub file: PathBuf,
    /// The engine of lines that name none.
    #[arg(long)]
    pub engine: Option<String>,
    /// The sheet of a workbook that has several.
    #[arg(long)]
    pub sheet: Option<String>,
    /// Save it. Without this nothing is changed.
    #[arg(long)]
    #[serde(default)]
    pub write: bool,
    /// Save the other lines where some are refused; else a single one holds back all.
    #[arg(long, requires = "write")]
    #[serde(default)]
    pub leave_out: bool,
}

/// What a column may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    Engine,
    Part,
    Family,
    Side,
    Axle,
    At,
    Within,
    Material,
    Drawing,
    Reach,
    Mates,
    Also,
    Fitted,
    Removed,
    Donor,
    Facts,
    Feature,
    Drawn,
    AsBuilt,
    ShopLimit,
    Step,
    Steps,
}

/// The words that may stand over each.
pub const WORDS: &[(Column, &[&str])] = &[
    (Column::Engine, &["engine", "locomotive"]),
    (Column::Part, &["part", "part name"]),
    (Column::Family, &["family", "kind"]),
    (Column::Side, &["side"]),
    (Column::Axle, &["axle"]),
    (Column::At, &["at", "place"]),
    (Column::Within, &["within", "assembly"]),
    (Column::Material, &["material"]),
    (Column::Drawing, &["drawing", "drawing number"]),
    (Column::Reach, &["to reach it", "comes off first"]),
    (Column::Mates, &["mates", "mates with"]),
    (Column::Also, &["also", "old number"]),
    (Column::Fitted, &["fitted"]),
    (Column::Removed, &["removed", "taken off"]),
    (Column::Donor, &["donor", "from engine"]),
    (Column::Facts, &["facts"]),
    (Column::Feature, &["feature"]),
    (Column::Drawn, &["drawn", "drawing size"]),
    (Column::AsBuilt, &["as built"]),
    (Column::ShopLimit, &["shop limit"]),
    (Column::Step, &["step", "re cut"]),
    (Column::Steps, &["step sizes"]),
];

/// What becomes of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fate {
    /// It adds a part.
    Adds,
    /// It says more of a part.
    Tells(Vec<String>),
    /// The book says all of it already.
    Again,
    /// It is refused.
    Refused(String),
}

/// A line with its fate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its line in the file, from 1.
    pub place: u32,
    /// The engine, as written.
    pub engine: String,
    /// The part, as written.
    pub part: String,
    /// What becomes of it.
    pub fate: Fate,
}

/// A file weighed against the book as it stood.
pub struct Plan {
    /// Its lines.
    pub lines: Vec<Line>,
    /// Words over columns that are not read.
    pub not_read: Vec<String>,
    statements: Vec<Statement>,
    seen: Seen,
}

impl Plan {
    /// How many lines have which fate: added, told, again, refused.
    pub fn counts(&self) -> [usize; 4] {
        let count = |is: fn(&Fate) -> bool| self.lines.iter().filter(|l| is(&l.fate)).count();
        [
            count(|f| matches!(f, Fate::Adds)),
            count(|f| matches!(f, Fate::Tells(_))),
            count(|f| matches!(f, Fate::Again)),
            count(|f| matches!(f, Fate::Refused(_))),
        ]
    }
}

/// Weighs a file: each line against the book and the lines before it.
///
/// # Errors
/// Input: it does not read as a table, or no words of the trade stand over its columns.
pub fn weigh(
    book: &Book,
    by: PersonId,
    on: Date,
    first: PartId,
    (name, bytes): (&str, &[u8]),
    (of, sheet): (Option<&str>, Option<&str>),
) -> Result<Plan, Failure> {
    let no = |why: String| Failure::Input(format!("{name} {why}"));
    let rows = logfile::rows(name, bytes, sheet)?;
    if rows.len() > MOST_LINES {
        return Err(no(format!(
            "has {} lines, and {MOST_LINES} are the most.",
            rows.len()
        )));
    }
    let mut rows = rows.iter().filter(|row| !blank(row));
    let mut heading = rows.by_ref().take(HEADING_WITHIN).filter_map(columns);
    let columns = heading.next().ok_or_else(|| {
        no("has no heading that is understood: words such as engine, part, family, side, axle, feature, as built were expected.".into())
    })?;
    for (at, column) in columns.known.iter().enumerate() {
        let earlier = columns.known.iter().take(at);
        if column.is_some() && earlier.clone().any(|known| known == column) {
            return Err(no(format!(
                "has two columns that mean the same: `{}` is one of them.",
                columns.heading.get(at).map_or("", String::as_str)
            )));
        }
    }
    let mut weighing = Weighing {
        book: book.clone(),
        by,
        on,
        next: first,
        statements: Vec::new(),
    };
    let mut lines = Vec::new();
    let mut seen = Seen::default();
    for row in rows {
        let cells = columns.cells(row);
        let text = |column| cells.get(&column).cloned().unwrap_or_default();
        let number = match text(Column::Engine) {
            written if written.is_empty() => of.unwrap_or_default().trim().to_string(),
            written => written,
        };
        let fate = match (&row.wrong, weighing.line(&number, &cells, name, row.place)) {
            (Some(why), _) => Fate::Refused(why.clone()),
            (None, Ok(fate)) => fate,
            (None, Err(why)) => Fate::Refused(why.to_string()),
        };
        seen.note(book, &number);
        lines.push(Line {
            place: row.place,
            engine: number,
            part: text(Column::Part),
            fate,
        });
    }
    if lines.is_empty() {
        return Err(no("has a heading and no line under it.".into()));
    }
    Ok(Plan {
        lines,
        not_read: columns.not_read(),
        statements: weighing.statements,
        seen,
    })
}

struct Columns {
    heading: Vec<String>,
    known: Vec<Option<Column>>,
}

/// The heading, if a row is one: it names a part.
fn columns(row: &Row) -> Option<Columns> {
    let heading: Vec<String> = row.cells.iter().map(Cell::written).collect();
    let known: Vec<_> = heading
        .iter()
        .map(|word| {
            let word = plain(word);
            let found = WORDS
                .iter()
                .find(|(_, words)| words.contains(&word.as_str()));
            found.map(|(column, _)| *column)
        })
        .collect();
    known
        .contains(&Some(Column::Part))
        .then_some(Columns { heading, known })
}

impl Columns {
    fn cells(&self, row: &Row) -> BTreeMap<Column, String> {
        let cells = self.known.iter().zip(&row.cells);
        cells
            .filter_map(|(column, cell)| Some(((*column)?, cell.written())))
            .filter(|(_, text)| !text.is_empty())
            .collect()
    }

    fn not_read(&self) -> Vec<String> {
        let named = self.heading.iter().zip(&self.known);
        named
            .filter(|(word, column)| column.is_none() && !word.is_empty())
            .map(|(word, _)| word.clone())
            .collect()
    }
}

/// A book that the lines before were already entered into.
struct Weighing {
    book: Book,
    by: PersonId,
    on: Date,
    next: PartId,
    statements: Vec<Statement>,
}

impl Weighing {
    fn line(
        &mut self,
        number: &str,
        cells: &BTreeMap<Column, String>,
        file: &str,
        place: u32,
    ) -> Result<Fate, shop::Refusal> {
        let text = |column| cells.get(&column).cloned();
        let list = |column| {
            let text = text(column).unwrap_or_default();
            let parts = text.split(';').map(|one| one.trim().to_string());
            parts.filter(|one| !one.is_empty()).collect::<Vec<_>>()
        };
        if number.is_empty() {
            return Err(shop::Refusal::input(
                "The line names no engine, and none was named for the file.",
            ));
        }
        let (locomotive, _) = engine(&self.book, number)?;
        let name =
            text(Column::Part).ok_or_else(|| shop::Refusal::input("The line names no part."))?;
        let named = |name: &String| part(&self.book, locomotive, name).map(|(id, _)| id);
        let side = text(Column::Side).map(|word| {
            super::part_tree::side(&word.to_lowercase())
                .map_err(|why| shop::Refusal::input(why.to_string()))
        });
        let axle = text(Column::Axle).map(|word| {
            word.parse::<u32>().map_err(|_| {
                shop::Refusal::input(format!(
                    "`{word}` is no axle: a number counted from the front was expected."
                ))
            })
        });
        let known = PartKnown {
            side: side.transpose()?,
            axle: axle.transpose()?,
            at: text(Column::At),
            within: text(Column::Within).as_ref().map(named).transpose()?,
            material: text(Column::Material),
            drawing: text(Column::Drawing),
            reach: list(Column::Reach),
            mates: list(Column::Mates)
                .iter()
                .map(named)
                .collect::<Result<_, _>>()?,
            also: list(Column::Also),
            fitted: text(Column::Fitted),
            removed: text(Column::Removed),
            donor: text(Column::Donor),
        };
        let mut facts = BTreeMap::new();
        for one in list(Column::Facts) {
            let (name, value) = one.split_once('=').ok_or_else(|| {
                shop::Refusal::input(format!("`{one}` is not a fact: name=value was expected."))
            })?;
            facts.insert(name.trim().to_string(), value.trim().to_string());
        }
        let told = FeatureTold {
            drawn: text(Column::Drawn),
            as_built: text(Column::AsBuilt),
            shop_limit: text(Column::ShopLimit),
            step: text(Column::Step),
            steps: list(Column::Steps),
        };
        let feature = text(Column::Feature);
        if feature.is_none() && told != FeatureTold::default() {
            return Err(shop::Refusal::input(
                "The line holds a size and names no feature that it is of.",
            ));
        }
        let features: BTreeMap<_, _> = feature.map(|name| (name, told)).into_iter().collect();
        let standing = part(&self.book, locomotive, &name).ok();
        let standing = standing.map(|(id, kept)| (id, kept.clone()));
        let (id, fresh) = match &standing {
            Some((id, kept)) => {
                let family = text(Column::Family);
                if let Some(family) = family.filter(|word| *word != kept.family) {
                    return Err(shop::Refusal::input(format!(
                        "`{name}` is a {} in the book and a {family} here: a part does not change its family.",
                        kept.family
                    )));
                }
                (*id, false)
            }
            None => (self.next, true),
        };
        let mut made = Vec::new();
        if fresh {
            let family = text(Column::Family).ok_or_else(|| {
                shop::Refusal::input(format!(
                    "`{name}` is not in the book, and the line names no family for it."
                ))
            })?;
            let new = NewPart {
                id,
                locomotive,
                family,
                name: name.clone(),
                facts: facts.clone(),
                features: BTreeMap::new(),
                known: PartKnown {
                    side: known.side,
                    axle: known.axle,
                    at: known.at.clone(),
                    within: known.within,
                    ..PartKnown::default()
                },
            };
            made.extend(add_part(&self.book, new)?);
        }
        // A part is added where it is; everything else is told of it, with the file as the paper that says so.
        let mut tells = PartTold {
            part: id,
            known,
            facts,
            features,
            document: Some(format!("{file}, line {place}")),
        };
        let entered = self.enter(&made).and_then(|()| {
            let kept = self.book.parts.get(&id).cloned();
            if let Some(kept) = kept {
                leave_known(&mut tells, &kept);
            }
            if tells.speaks_of().is_empty() {
                return Ok(Vec::new());
            }
            let more = tell_part(&self.book, tells.clone(), self.on)?;
            self.enter(&more)?;
            Ok(more)
        });
        let more = match entered {
            Ok(more) => more,
            Err(why) => {
                // As if the line had never been looked at.
                match standing {
                    Some((_, kept)) => drop(self.book.parts.insert(id, kept)),
                    None => drop(self.book.parts.remove(&id)),
                }
                return Err(why);
            }
        };
        made.extend(more);
        let fate = match (fresh, tells.speaks_of()) {
            (true, _) => Fate::Adds,
            (false, told) if told.is_empty() => Fate::Again,
            (false, told) => Fate::Tells(told),
        };
        if fresh {
            self.next = PartId(self.next.0.wrapping_add(1));
        }
        self.statements.extend(made);
        Ok(fate)
    }

    /// Enters statements into the book of this weighing, so that later lines see them.
    fn enter(&mut self, made: &[Statement]) -> Result<(), shop::Refusal> {
        for statement in made {
            let meta = Meta {
                seq: 0,
                id: EntryId(0),
                batch: None,
                person: self.by,
                done_on: self.on,
            };
            self.book.apply(meta, statement).map_err(|why| {
                shop::Refusal::refused(format!("The book cannot take this: {why}."))
            })?;
        }
        Ok(())
    }
}

/// Leaves out of what is told what the book says already.
fn leave_known(told: &mut PartTold, kept: &shop::book::Part) {
    fn leave<T: PartialEq>(told: &mut Option<T>, known: &Option<T>) {
        if told == known {
            *told = None;
        }
    }
    fn leave_list<T: PartialEq>(told: &mut Vec<T>, known: &[T]) {
        if told.as_slice() == known {
            told.clear();
        }
    }
    let (new, known) = (&mut told.known, &kept.known);
    leave(&mut new.side, &known.side);
    leave(&mut new.axle, &known.axle);
    leave(&mut new.at, &known.at);
    leave(&mut new.within, &known.within);
    leave(&mut new.material, &known.material);
    leave(&mut new.drawing, &known.drawing);
    leave(&mut new.fitted, &known.fitted);
    leave(&mut new.removed, &known.removed);
    leave(&mut new.donor, &known.donor);
    leave_list(&mut new.reach, &known.reach);
    new.mates.retain(|id| !known.mates.contains(id));
    new.also.retain(|name| !known.also.contains(name));
    told.facts
        .retain(|name, value| kept.facts.get(name) != Some(value));
    for (name, feature) in &mut told.features {
        let Some(known) = kept.features.get(name) else {
            continue;
        };
        leave(&mut feature.drawn, &known.drawn);
        leave(&mut feature.as_built, &known.as_built);
        leave(&mut feature.shop_limit, &known.shop_limit);
        leave(&mut feature.step, &known.step);
        leave_list(&mut feature.steps, &known.steps);
    }
    told.features
        .retain(|_, feature| *feature != FeatureTold::default());
}

impl Line {
    /// What becomes of it, in words.
    pub fn told(&self) -> String {
        match &self.fate {
            Fate::Adds => say::ADDS.into(),
            Fate::Tells(what) => say::tells(what),
            Fate::Again => say::AGAIN.into(),
            Fate::Refused(why) => say::refused(why),
        }
    }
}

impl Plan {
    /// Weighs a file against the book of a context. Nobody need speak yet: what is weighed is nobody's.
    ///
    /// # Errors
    /// As [`weigh`].
    pub fn of_file(
        context: &mut Context,
        name: &str,
        bytes: &[u8],
        of: Option<&str>,
        sheet: Option<&str>,
    ) -> Result<Plan, Failure> {
        let on = context.on()?;
        let first = PartId(context.id()?);
        let book = context.book()?;
        let by = match context.by() {
            Ok(name) => shop::locomotive::person(&book, name)?.0,
            Err(_) => PersonId(0),
        };
        weigh(&book, by, on, first, (name, bytes), (of, sheet))
    }

    /// A mark of every line's fate, the same whenever they are the same: what somebody was shown.
    pub fn mark(&self) -> String {
        mark(self.lines.iter().map(|line| (line.place, line.told())))
    }

    /// Saves what its lines add and tell, as one batch; nothing where there is nothing new.
    ///
    /// # Errors
    /// Input: lines are refused and are not to be left out. Refused: one of these engines was written of since it was
    /// weighed. Nothing is saved then.
    pub fn save(
        &self,
        context: &mut Context,
        leave_out: bool,
    ) -> Result<Option<(Receipt, BatchId)>, Failure> {
        let [_, _, _, refused] = self.counts();
        if refused > 0 && !leave_out {
            return Err(Failure::Input(say::held_back(refused)));
        }
        self.seen.save(context, &self.statements)
    }
}

impl Import {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (name, bytes) = read(&self.file, logfile::MOST_BYTES)?;
        let (of, sheet) = (self.engine.as_deref(), self.sheet.as_deref());
        let plan = Plan::of_file(context, &name, &bytes, of, sheet)?;
        let [adds, tells, again, refused] = plan.counts();
        let mut text = format!("{name}\n");
        for line in &plan.lines {
            let told = match &line.fate {
                Fate::Refused(why) => format!("{name}:{}: REFUSED: {why}", line.place),
                _ => line.told(),
            };
            let head = format!("  {:>5}  {:<6} {:<36} ", line.place, line.engine, line.part);
            let told = super::wrap(&told, head.chars().count(), 118);
            text.push_str(&format!("{head}{told}\n"));
        }
        text.push_str(&format!("  {}\n", say::sum(plan.counts())));
        if !plan.not_read.is_empty() {
            text.push_str(&format!("  {}\n", words::log::not_read(&plan.not_read)));
        }
        let mut value = json!({
            "file": name, "adds": adds, "tells": tells, "again": again, "refused": refused, "written": self.write,
            "columns_not_read": plan.not_read,
            "lines": plan.lines.iter().map(|line| {
                let (fate, why) = match &line.fate {
                    Fate::Adds => ("adds", None),
                    Fate::Tells(what) => ("tells", Some(what.join(", "))),
                    Fate::Again => ("again", None),
                    Fate::Refused(why) => ("refused", Some(why.clone())),
                };
                json!({ "line": line.place, "engine": line.engine, "part": line.part, "fate": fate, "why": why })
            }).collect::<Vec<_>>(),
        });
        if !self.write {
            text.push_str("Nothing is changed. With --write it is added, as one batch.\n");
            let code = if refused > 0 { 2 } else { 0 };
            return Ok(Answer {
                text,
                json: value,
                code,
            });
        }
        if refused > 0 && !self.leave_out {
            let why = say::held_back(refused);
            return Err(Failure::Input(format!("{text}{why} (--leave-out)")));
        }
        let Some((receipt, batch)) = plan.save(context, self.leave_out)? else {
            text.push_str("There is nothing new in it, and nothing was saved.\n");
            return Ok(Answer::done(text, value));
        };
        if let Value::Object(map) = &mut value {
            map.insert("batch".into(), json!(batch.to_string()));
        }
        text.push_str(&format!(
            "It came in as batch {batch}; `outshop entry withdraw` takes it back whole."
        ));
        Ok(saved(&receipt, text, value))
    }
}
