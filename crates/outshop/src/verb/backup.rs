//! `backup` and `restore`: a proved copy of the book with its keys, and the book made again from one.

use std::path::{Path, PathBuf};

use clap::Args;
use jiff::tz::TimeZone;
use serde::Deserialize;
use serde_json::json;
use store::{Copied, Keep, Keys, LastCopy, Relation, Store};

use super::check::told;
use crate::words::{self, backup as say};
use crate::{Answer, Context, Failure};

/// Copies kept in a folder where nobody said otherwise: the ten newest, and the newest of each of the last twelve months.
pub const KEEP: Keep = Keep {
    newest: 10,
    months: 12,
};
/// Days without a copy after which the pages say so, where nobody said otherwise: a shop that works at weekends.
pub const EVERY: u32 = 7;

const FOLDER: &str = "backup-folder";
const DAYS: &str = "backup-every";
const NEWEST: &str = "backup-newest";
const MONTHS: &str = "backup-months";

/// Copy the book and its keys while it is in use, and prove the copy.
///
/// The copy is opened, checked from entry 1 and held against the book before it gets its name. Into a folder it goes
/// under a dated name, and older copies of this book there are taken away by a rule: the newest so many stay, and the
/// newest of each month for so many months. A folder that was named once is remembered.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Backup {
    /// A folder for dated copies, or the name of one copy, where nothing may stand. The last folder if left out.
    #[serde(default)]
    pub to: Option<PathBuf>,
    /// Say on the pages when there was no copy for so many days; remembered.
    #[arg(long, value_name = "DAYS")]
    #[serde(default)]
    pub every: Option<u32>,
    /// Keep so many of the newest copies in the folder; remembered.
    #[arg(long, value_name = "COPIES")]
    #[serde(default)]
    pub newest: Option<u32>,
    /// Keep the newest of each month besides, for so many months; remembered.
    #[arg(long, value_name = "MONTHS")]
    #[serde(default)]
    pub months: Option<u32>,
}

impl Backup {
    /// Copies.
    ///
    /// # Errors
    /// If a file stands there, the disk says no or is full, or no folder is named or remembered.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.every == Some(0) {
            return Err(Failure::Input(say::NO_DAYS.into()));
        }
        let path = context.path()?;
        // Opened first: without a book there is nothing to keep keys for.
        context.store()?;
        let keys = Keys::beside(&path)?;
        let to = match &self.to {
            Some(to) => to.clone(),
            None => PathBuf::from(
                keys.setting(FOLDER)?
                    .ok_or_else(|| Failure::Input(say::NO_FOLDER.into()))?,
            ),
        };
        for (name, figure) in [
            (DAYS, self.every),
            (NEWEST, self.newest),
            (MONTHS, self.months),
        ] {
            if let Some(figure) = figure {
                keys.set(name, &figure.to_string())?;
            }
        }
        let now = context.now()?;
        let zone = TimeZone::get(&context.zone()?).unwrap_or(TimeZone::UTC);
        let at = now.to_zoned_datetime(zone).datetime();
        let store = context.store()?;
        let (copied, gone) = if to.is_dir() {
            let copied = store.copy_whole(&to.join(store::dated_name(&path, at)))?;
            let folder = std::fs::canonicalize(&to).unwrap_or(to);
            keys.set(FOLDER, &folder.display().to_string())?;
            let gone = store::rotate(&store::copies(store, &folder)?, keep(&keys)?)?;
            (copied, Some(gone))
        } else if self.to.is_none() {
            return Err(Failure::Machine(say::folder_gone(&to)));
        } else {
            (store.copy_whole(&to)?, None)
        };
        keys.copied(&LastCopy {
            at: now.as_second(),
            place: copied.book.display().to_string(),
            entry: copied.checked.head.0,
            same_disk: copied.same_disk,
        })?;
        let kept = keep(&keys)?;
        let rotated = gone.as_ref().map(|gone| say::rotated(kept, gone.len()));
        Ok(answer(&copied, rotated.as_deref()))
    }
}

fn answer(copied: &Copied, rotated: Option<&str>) -> Answer {
    let mut answer = told(&copied.checked);
    let same = if copied.same_disk { say::SAME_DISK } else { "" };
    answer.text = format!(
        "{}\n{same}{}{}",
        say::copied(&copied.book, &copied.keys),
        rotated.map_or(String::new(), |told| format!("{told}\n")),
        answer.text
    );
    if let Some(map) = answer.json.as_object_mut() {
        map.insert("copy".into(), json!(copied.book.display().to_string()));
        map.insert("same_disk".into(), json!(copied.same_disk));
    }
    answer
}

fn figure(keys: &Keys, name: &str) -> Result<Option<u32>, Failure> {
    Ok(keys.setting(name)?.and_then(|text| text.parse().ok()))
}

/// How many copies are kept beside one another.
///
/// # Errors
/// If the keys cannot be read.
pub fn keep(keys: &Keys) -> Result<Keep, Failure> {
    let of = |figure: Option<u32>, otherwise: usize| {
        figure.map_or(otherwise, |n| usize::try_from(n).unwrap_or(otherwise))
    };
    Ok(Keep {
        newest: of(figure(keys, NEWEST)?, KEEP.newest),
        months: of(figure(keys, MONTHS)?, KEEP.months),
    })
}

/// How a book stands to its copies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Backed {
    /// The last copies, newest first.
    pub copies: Vec<LastCopy>,
    /// After how many days without one it is said.
    pub every: u32,
    /// Whole days since the last; none if there was none.
    pub days: Option<i64>,
    /// The folder where copies go.
    pub folder: Option<String>,
    /// The rule by which they are kept.
    pub keep: Keep,
}

impl Backed {
    /// How the book at this path stands at `now` (seconds since 1970).
    ///
    /// # Errors
    /// If the keys cannot be read.
    pub fn of(book: &Path, now: i64) -> Result<Backed, Failure> {
        let keys = Keys::beside(book)?;
        let copies = keys.copies(12)?;
        let days = copies.first().map(|last| (now - last.at).max(0) / 86_400);
        Ok(Backed {
            days,
            copies,
            every: figure(&keys, DAYS)?.unwrap_or(EVERY),
            folder: keys.setting(FOLDER)?,
            keep: keep(&keys)?,
        })
    }

    /// What stands on the first page, if anything must: no copy, or none for too long.
    pub fn wanting(&self) -> Option<String> {
        match self.days {
            None => Some(say::NEVER.into()),
            Some(days) if days >= i64::from(self.every) => Some(say::too_long(days, self.every)),
            Some(_) => None,
        }
    }
}

/// Make the book again from a copy, or prove that it could be.
///
/// The copy is read, never changed. What is made of it is checked from entry 1 and held against the copy before it
/// gets its name; nothing is overwritten.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Restore {
    /// The copy.
    pub copy: PathBuf,
    /// Only prove it: make the book in a folder of its own, check it, hold it against the copy and the present book, and
    /// take it away again.
    #[arg(long)]
    #[serde(default)]
    pub drill: bool,
}

impl Restore {
    /// Restores to the book that was named, or drills.
    ///
    /// # Errors
    /// If a file stands there, the copy is not whole, or the disk says no.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.drill {
            return self.drill(context);
        }
        let to = context.path()?;
        let (checked, with_keys) = store::restore(&self.copy, &to)?;
        let mut answer = told(&checked);
        let keys = if with_keys {
            say::WITH_KEYS
        } else {
            say::NO_KEYS
        };
        answer.text = format!(
            "{}\n{keys}\n{}",
            say::restored(&self.copy, &to),
            answer.text
        );
        Ok(answer)
    }

    fn drill(&self, context: &mut Context) -> Result<Answer, Failure> {
        let folder = Drill::new()?;
        let to = folder.0.join("drill.book");
        let (checked, with_keys) = store::restore(&self.copy, &to)?;
        let mut answer = told(&checked);
        let against = match context.path() {
            Ok(path) if path.is_file() => {
                let copy = Store::look_at(&self.copy)?;
                let relation = context.store()?.relation(&copy)?;
                if let Relation::Parts(_) = relation {
                    answer.code = 1;
                }
                say::against(relation)
            }
            _ => say::NO_BOOK_BESIDE.into(),
        };
        let keys = if with_keys {
            say::WITH_KEYS
        } else {
            say::NO_KEYS
        };
        answer.text = format!(
            "{}\n{keys}\n{against}\n{}",
            say::drilled(&self.copy),
            answer.text
        );
        if let Some(map) = answer.json.as_object_mut() {
            map.insert("against_the_book".into(), json!(against));
            map.insert("keys".into(), json!(with_keys));
        }
        Ok(answer)
    }
}

/// A folder of its own for a drill, taken away at the end whatever happens.
struct Drill(PathBuf);

impl Drill {
    fn new() -> Result<Drill, Failure> {
        let name = format!("outshop-drill-{:016x}", crate::Ids::Random.draw()? as u64);
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir(&folder)
            .map_err(|why| Failure::Machine(format!("{}: {why}.", folder.display())))?;
        // The keys lie there for a moment too: nobody else has any business with them.
        use std::os::unix::fs::PermissionsExt;
        let _ = std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o700));
        Ok(Drill(folder))
    }
}

impl Drop for Drill {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A day of a copy, as people read it.
pub fn day_of(copy: &LastCopy, zone: &str) -> String {
    let zone = TimeZone::get(zone).unwrap_or(TimeZone::UTC);
    match jiff::Timestamp::from_second(copy.at) {
        Ok(at) => words::moment(Some(at.to_zoned_datetime(zone).datetime())),
        Err(_) => words::NOT_WRITTEN.into(),
    }
}
