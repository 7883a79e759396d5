//! The words over the columns, in any order, and what a line under them says.

use jiff::civil::{Date, DateTime};
use shop::book::Stood;
use shop::clock::{LogLine, Unread};

use super::{Cell, Row, Told, moment};

/// What is said where no heading is understood.
pub const SUCH_AS: &str = "engine, date, fire lit, pressure up, fire out, pressure gone, miles, offered for use, service day";

/// What a column may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Column {
    Engine,
    Day,
    Lit,
    Up,
    Out,
    Gone,
    LitDay,
    UpDay,
    OutDay,
    GoneDay,
    Miles,
    Offered,
    ServiceDay,
}

/// The words that may stand over each.
const WORDS: &[(Column, &[&str])] = &[
    (
        Column::Engine,
        &[
            "engine",
            "locomotive",
            "engine number",
            "locomotive number",
            "engine no",
            "locomotive no",
        ],
    ),
    (Column::Day, &["day", "date"]),
    (Column::Lit, &["fire lit", "lit"]),
    (Column::Up, &["pressure up", "up"]),
    (Column::Out, &["fire out", "out"]),
    (Column::Gone, &["pressure gone", "gone"]),
    (Column::LitDay, &["fire lit date", "fire lit day"]),
    (Column::UpDay, &["pressure up date", "pressure up day"]),
    (Column::OutDay, &["fire out date", "fire out day"]),
    (
        Column::GoneDay,
        &["pressure gone date", "pressure gone day"],
    ),
    (Column::Miles, &["miles", "miles run"]),
    (Column::Offered, &["offered for use", "offered"]),
    (Column::ServiceDay, &["service day"]),
];

/// A heading without its small differences: `Fire-lit` is `fire lit`.
pub(crate) fn plain(word: &str) -> String {
    let spaced: String = word
        .chars()
        .map(|c| {
            if c.is_alphanumeric() {
                c.to_ascii_lowercase()
            } else {
                ' '
            }
        })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn known(word: &str) -> Option<Column> {
    let word = plain(word);
    WORDS
        .iter()
        .find(|(_, words)| words.contains(&word.as_str()))
        .map(|(column, _)| *column)
}

/// Whether a word may stand over a column.
pub fn is_known(word: &str) -> bool {
    known(word).is_some()
}

/// Which columns stand where.
pub struct Columns {
    heading: Vec<String>,
    at: Vec<Option<Column>>,
}

impl Columns {
    /// The heading, if a row is one: it names a day or the beginning of a fire.
    ///
    /// # Errors
    /// Two columns have the same meaning.
    pub fn of(row: &Row) -> Result<Option<Columns>, String> {
        let heading: Vec<String> = row
            .cells
            .iter()
            .map(|cell| match cell {
                Cell::Text(text) => text.trim().to_string(),
                _ => String::new(),
            })
            .collect();
        let at: Vec<Option<Column>> = heading.iter().map(|word| known(word)).collect();
        let begins = [Column::Day, Column::Lit, Column::Up];
        if !at.iter().flatten().any(|column| begins.contains(column)) {
            return Ok(None);
        }
        for (later, column) in at.iter().enumerate() {
            let Some(earlier) = at
                .iter()
                .take(later)
                .position(|c| c.is_some() && c == column)
            else {
                continue;
            };
            return Err(format!(
                "has two columns of one meaning, `{}` and `{}`: one of them was expected.",
                heading.get(earlier).map_or("", String::as_str),
                heading.get(later).map_or("", String::as_str)
            ));
        }
        Ok(Some(Columns { heading, at }))
    }

    /// # Errors
    /// The columns cannot say whether a day was one.
    pub fn enough(&self) -> Result<(), String> {
        let has = |wanted: &[Column]| self.at.iter().flatten().any(|c| wanted.contains(c));
        if has(&[Column::Lit, Column::Up, Column::ServiceDay]) {
            return Ok(());
        }
        Err("has no column that says what happened: `fire lit` or `pressure up` was expected, or for days without times \
             `service day` with yes, no or cannot tell."
            .into())
    }

    /// Headings that are not read.
    pub fn not_read(&self) -> Vec<String> {
        let named = self.heading.iter().zip(&self.at);
        named
            .filter(|(word, column)| column.is_none() && !word.is_empty())
            .map(|(word, _)| word.clone())
            .collect()
    }

    /// Whether a row is the heading again, as at the top of each printed page.
    pub fn repeated(&self, row: &Row) -> bool {
        let mut words = row.cells.iter().zip(&self.heading);
        words.all(|(cell, word)| match cell {
            Cell::Empty => word.is_empty(),
            Cell::Text(text) => text.trim() == word,
            _ => false,
        })
    }

    fn cell<'r>(&self, row: &'r Row, column: Column) -> &'r Cell {
        let at = self.at.iter().position(|c| *c == Some(column));
        at.and_then(|at| row.cells.get(at)).unwrap_or(&Cell::Empty)
    }

    fn name(&self, column: Column) -> &str {
        let at = self.at.iter().position(|c| *c == Some(column));
        at.and_then(|at| self.heading.get(at))
            .map_or("", String::as_str)
    }

    /// What a line says.
    pub fn line(&self, file: &str, row: &Row, told: &Told) -> Result<LogLine, Unread> {
        let engine = self.engine(row, told);
        let unread = |why: String| Unread {
            place: row.place,
            engine: engine.clone().unwrap_or_default(),
            why,
        };
        if let Some(why) = &row.wrong {
            return Err(unread(why.clone()));
        }
        let of = |column: Column, why: String| unread(format!("`{}` {why}.", self.name(column)));
        let named = engine.clone().map_err(&unread)?;
        let day = |column: Column| -> Result<Option<Date>, Unread> {
            moment::day(self.cell(row, column), told.order).map_err(|why| of(column, why))
        };
        let at = |column: Column,
                  own: Column,
                  of_line: Option<Date>|
         -> Result<Option<DateTime>, Unread> {
            let own = day(own)?.or(of_line);
            moment::moment(self.cell(row, column), told.order, own).map_err(|why| of(column, why))
        };
        let of_line = day(Column::Day)?;
        let mut line = LogLine {
            place: row.place,
            engine: named,
            day: of_line,
            lit: at(Column::Lit, Column::LitDay, of_line)?,
            up: at(Column::Up, Column::UpDay, of_line)?,
            out: at(Column::Out, Column::OutDay, of_line)?,
            gone: at(Column::Gone, Column::GoneDay, of_line)?,
            miles: miles(self.cell(row, Column::Miles)).map_err(|why| of(Column::Miles, why))?,
            offered: yes_no(self.cell(row, Column::Offered))
                .map_err(|why| of(Column::Offered, why))?,
            stood: stood(self.cell(row, Column::ServiceDay))
                .map_err(|why| of(Column::ServiceDay, why))?,
            told: format!("{file}, line {}", row.place),
        };
        if line.day.is_none() {
            line.day = day(Column::LitDay)?.or(day(Column::UpDay)?);
        }
        self.in_order(row, &line).map_err(unread)?;
        Ok(line)
    }

    /// # Errors
    /// An hour without a day of its own lies before the beginning it belongs to: it may be of the day after.
    fn in_order(&self, row: &Row, line: &LogLine) -> Result<(), String> {
        let begins = [(Column::Lit, line.lit), (Column::Up, line.up)];
        let ends = [
            (Column::Up, Column::UpDay, line.up),
            (Column::Out, Column::OutDay, line.out),
            (Column::Gone, Column::GoneDay, line.gone),
        ];
        let own_day = |column: Column| *self.cell(row, column) != Cell::Empty;
        for (end, own, at) in ends {
            for (begin, begun) in begins {
                if let (Some(at), Some(begun)) = (at, begun)
                    && at < begun
                    && at.date() == begun.date()
                    && (begin, end) != (Column::Up, Column::Out)
                    && begin != end
                    && !own_day(own)
                {
                    return Err(format!(
                        "`{}` {} lies before `{}` {} of {}: if it was the day after, write `{} next day` or its own day.",
                        self.name(end),
                        at.strftime("%H:%M"),
                        self.name(begin),
                        begun.strftime("%H:%M"),
                        begun.date(),
                        at.strftime("%H:%M")
                    ));
                }
            }
        }
        Ok(())
    }

    fn engine(&self, row: &Row, told: &Told) -> Result<String, String> {
        let written = match self.cell(row, Column::Engine) {
            Cell::Empty => String::new(),
            Cell::Text(text) => text.trim().to_string(),
            // A workbook keeps 14 as 14.0; a number on a cab is whole.
            Cell::Number(number) if number.fract() == 0.0 && (0.0..1e9).contains(number) => {
                format!("{number:.0}")
            }
            Cell::Wrong(why) => return Err(format!("`{}` {why}.", self.name(Column::Engine))),
            _ => {
                return Err(format!(
                    "`{}` holds no number of an engine.",
                    self.name(Column::Engine)
                ));
            }
        };
        match (written.is_empty(), &told.engine) {
            (false, _) => Ok(written),
            (true, Some(engine)) => Ok(engine.trim().to_string()),
            (true, None) => {
                Err("The line names no engine, and none was named for the file.".into())
            }
        }
    }
}

fn miles(cell: &Cell) -> Result<Option<u32>, String> {
    let none = |what: &str| format!("holds {what}, and whole miles were expected");
    match cell {
        Cell::Empty => Ok(None),
        Cell::Text(text) => text
            .trim()
            .parse()
            .map(Some)
            .map_err(|_| none(&format!("`{}`", text.trim()))),
        Cell::Number(number) if number.fract() == 0.0 && (0.0..1e6).contains(number) => {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "bounded and whole"
            )]
            let whole = *number as u32;
            Ok(Some(whole))
        }
        Cell::Number(number) => Err(none(&number.to_string())),
        Cell::Wrong(why) => Err(why.clone()),
        _ => Err(none("something else")),
    }
}

fn yes_no(cell: &Cell) -> Result<Option<bool>, String> {
    match cell {
        Cell::Empty => Ok(None),
        Cell::YesNo(yes) => Ok(Some(*yes)),
        Cell::Text(text) => match plain(text).as_str() {
            "yes" | "y" | "x" => Ok(Some(true)),
            "no" | "n" => Ok(Some(false)),
            _ => Err(format!("holds `{}`: yes or no was expected", text.trim())),
        },
        Cell::Wrong(why) => Err(why.clone()),
        _ => Err("holds a number: yes or no was expected".into()),
    }
}

fn stood(cell: &Cell) -> Result<Option<Stood>, String> {
    if let Cell::Text(text) = cell
        && (text.trim() == "?" || plain(text) == "cannot tell")
    {
        return Ok(Some(Stood::CannotTell));
    }
    let yes =
        yes_no(cell).map_err(|why| why.replace("yes or no was", "yes, no or cannot tell was"))?;
    Ok(yes.map(|yes| {
        if yes {
            Stood::ServiceDay
        } else {
            Stood::NoServiceDay
        }
    }))
}
