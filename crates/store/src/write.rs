//! The one way in: check for a repeat, load, ask the pure verb, append, project, commit, then answer.

use jiff::civil::Date;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};
use sha2::{Digest, Sha256};
use shop::Refusal;
use shop::book::{
    BatchId, BatchWithdrawn, Book, Correction, EntryId, Fires, LocomotiveId, Meta, PersonId,
    Readings, Row, RowKind, Statement,
};

use crate::entry::{Entry, Hash};
use crate::error::StoreError;
use crate::file::Store;
use crate::history::{self, Read};
use crate::{header, read, scans, schema, seek};

/// Who states something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum By {
    /// By name; the book must know them.
    Name(String),
    /// By id; only for the first entries of a book.
    Id(PersonId),
}

/// What an entry says beside its statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Act {
    /// Made by the device. The same id with the same statements gives the first answer again.
    pub id: EntryId,
    /// The batch, if it is part of one.
    pub batch: Option<BatchId>,
    /// The device.
    pub device: String,
    /// Who states it.
    pub by: By,
    /// The day the work was done.
    pub done_on: Date,
    /// The instant it is entered, as text.
    pub recorded_at: String,
}

/// What was saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Receipt {
    /// The numbers of the entries, first and last.
    pub entries: (u64, u64),
    /// The hash of the last.
    pub head: Hash,
    /// Whether they had been saved before.
    pub repeated: bool,
}

/// What of the book a verb is shown.
#[derive(Debug, Clone, Copy)]
enum Shown<'a> {
    /// All of it, but fires and readings one by one.
    Book,
    /// One engine's, and what is no engine's.
    Engine(LocomotiveId),
    /// The same with the readings of one of her parts.
    Part(LocomotiveId, &'a str),
}

impl Store {
    /// Asks a verb what to state and appends it, all in one transaction.
    ///
    /// The verb sees the book and the person who states, and may be asked again when the same id comes
    /// twice: it must be pure.
    ///
    /// # Errors
    /// What the verb says, or a failure of the book. Nothing was saved then.
    pub fn write(
        &mut self,
        act: &Act,
        verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, StoreError> {
        self.write_knowing(act, Shown::Book, None, verb)
    }

    /// As [`Store::write`] for a verb that speaks of one engine and asks of no other: it is shown her rows and those
    /// that are no engine's, which in a roundhouse is the smaller part of the book.
    ///
    /// # Errors
    /// As [`Store::write`].
    pub fn write_of(
        &mut self,
        act: &Act,
        engine: LocomotiveId,
        verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, StoreError> {
        self.write_knowing(act, Shown::Engine(engine), None, verb)
    }

    /// As [`Store::write_of`] for a verb that asks what one of her parts, by its name, was read at before: it is shown
    /// the readings of that part too.
    ///
    /// # Errors
    /// As [`Store::write`].
    pub fn write_of_part(
        &mut self,
        act: &Act,
        engine: LocomotiveId,
        part: &str,
        verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, StoreError> {
        self.write_knowing(act, Shown::Part(engine, part), None, verb)
    }

    /// As [`Store::write_of`], or [`Store::write_of_part`] where a part is named, or [`Store::write`] where it is no
    /// engine's, for a verb that states a photograph: what it shows enters the book with it, or nothing does.
    ///
    /// # Errors
    /// As [`Store::write`].
    pub fn write_with_scan(
        &mut self,
        act: &Act,
        engine: Option<LocomotiveId>,
        part: Option<&str>,
        scan: &[u8],
        verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, StoreError> {
        let shown = match (engine, part) {
            (Some(engine), Some(part)) => Shown::Part(engine, part),
            (Some(engine), None) => Shown::Engine(engine),
            (None, _) => Shown::Book,
        };
        self.write_knowing(act, shown, Some(scan), verb)
    }

    fn write_knowing(
        &mut self,
        act: &Act,
        shown: Shown<'_>,
        scan: Option<&[u8]>,
        verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
    ) -> Result<Receipt, StoreError> {
        let path = self.path.clone();
        let sql = StoreError::of(&path);
        let change = begin(&mut self.connection, &path)?;
        if let Some(first) = number_of(&change, act.id).map_err(&sql)? {
            return again(&change, &path, act, first, shown, verb);
        }
        let read = match shown {
            Shown::Book => read::load(&change),
            Shown::Engine(engine) => read::load_of(&change, engine),
            Shown::Part(engine, name) => read::load_of_part(&change, engine, name),
        };
        let mut book = read.map_err(|e| e.into_store(&path))?;
        let person = person(&book, &act.by)?;
        let statements = verb(&book, person)?;
        if statements.is_empty() {
            return Err(Refusal::input("There is nothing to save.").into());
        }
        if statements.iter().any(about_the_ledger) {
            return Err(Refusal::input(
                "A correction or a withdrawal is not entered like work: name the entry or the batch it is about.",
            )
            .into());
        }
        still_open(&change, act.batch).map_err(|e| e.into_store(&path))??;
        let (mut seq, mut prev) = read::head(&change).map_err(&sql)?;
        let first = seq + 1;
        let mut touched: Vec<Row> = Vec::new();
        for (at, statement) in statements.iter().enumerate() {
            seq += 1;
            let meta = Meta {
                seq,
                id: id_of(act.id, at),
                batch: act.batch,
                person,
                done_on: act.done_on,
            };
            prev = append(&change, act, &meta, statement, None, prev)
                .map_err(|e| e.into_store(&path))?;
            let rows = book
                .apply(meta, statement)
                .map_err(|e| Refusal::refused(format!("The book cannot take this: {e}.")))?;
            touched.extend(rows);
        }
        if let Some(scan) = scan {
            scans::keep(&change, scan).map_err(&sql)?;
        }
        if let Some(photo) = scans::lacking(&change, &statements).map_err(&sql)? {
            return Err(Refusal::input(format!(
                "What the photograph `{}` shows is not in the book: the file itself was expected with it.",
                photo.name
            ))
            .into());
        }
        touched.sort();
        touched.dedup();
        // The fires that stand already were not read, so the fold could not miss a repeat among them.
        if repeats_a_fire(&change, &touched).map_err(&sql)? {
            return Err(Refusal::refused(
                "The book cannot take this: a fire of that id stands already.",
            )
            .into());
        }
        project(&change, &book, &touched).map_err(&sql)?;
        mark_head(&change, seq, prev).map_err(&sql)?;
        change.commit().map_err(&sql)?;
        Ok(Receipt {
            entries: (first, seq),
            head: prev,
            repeated: false,
        })
    }

    /// Puts an earlier entry right: the same kind of statement stands in its place from now on. The
    /// earlier entry stays where it is, readable for ever.
    ///
    /// # Errors
    /// Refused: there is no such entry, it has been put right already, it is another kind of
    /// statement, no reason is given, or a later entry builds on what it said.
    pub fn correct(
        &mut self,
        act: &Act,
        target: u64,
        because: &str,
        instead: &Statement,
    ) -> Result<Receipt, StoreError> {
        if because.trim().is_empty() {
            return Err(Refusal::input("A correction needs its reason.").into());
        }
        let rules = rules::Rulebook::built_in().map_err(Refusal::from)?;
        self.amend(act, |past, book, by| {
            let found = past.iter().find(|r| r.meta.seq == target).ok_or_else(|| {
                Refusal::input(format!("There is no entry {target} in this book."))
            })?;
            let withdrawn = history::withdrawn(past);
            let gone = |read: &Read| read.meta.batch.is_some_and(|b| withdrawn.contains(&b));
            if gone(found) {
                return Err(Refusal::refused(format!(
                    "Entry {target} was taken back with its batch and counts no more."
                ))
                .todo("enter what is true"));
            }
            let later = past
                .iter()
                .find(|r| r.supersedes == Some(found.meta.id) && !gone(r));
            if let Some(later) = later {
                return Err(Refusal::refused(format!(
                    "Entry {target} has been put right by entry {}.",
                    later.meta.seq
                ))
                .todo("put that one right instead"));
            }
            let kind = match &found.statement {
                Statement::Correction(earlier) => earlier.kind.clone(),
                Statement::BatchWithdrawn(_) => {
                    return Err(Refusal::refused(
                        "A withdrawal cannot be put right; enter what is true.",
                    ));
                }
                other => other.kind().to_string(),
            };
            if kind != instead.kind() {
                return Err(Refusal::refused(format!(
                    "Entry {target} is a `{kind}`; a `{}` cannot stand in its place.",
                    instead.kind()
                )));
            }
            let inner;
            let was = match &found.statement {
                Statement::Correction(earlier) => {
                    inner = earlier
                        .statement()
                        .map_err(|e| Refusal::input(e.to_string()))?;
                    &inner
                }
                other => other,
            };
            let mend = shop::record::Mend {
                was,
                stated_by: first_of(past, found).meta.person,
                instead,
                by,
                on: act.done_on,
            };
            shop::record::put_right(book, rules, mend)?;
            let body = instead.body().map_err(|e| Refusal::input(e.to_string()))?;
            let correction = Correction {
                because: because.trim().into(),
                kind,
                form: instead.form(),
                body,
            };
            Ok((Statement::Correction(correction), Some(found.meta.id)))
        })
    }

    /// Takes a whole batch back: an import, an offline day. Its entries stay readable and count no more.
    ///
    /// # Errors
    /// Refused: there is no such batch, no reason is given, or a later entry builds on it.
    pub fn withdraw(
        &mut self,
        act: &Act,
        batch: BatchId,
        because: &str,
    ) -> Result<Receipt, StoreError> {
        if because.trim().is_empty() {
            return Err(Refusal::input("Withdrawing a batch needs its reason.").into());
        }
        if act.batch.is_some() {
            return Err(Refusal::input(
                "A withdrawal stands alone: it cannot be part of a batch that might be withdrawn itself.",
            )
            .into());
        }
        self.amend(act, |past, _, _| {
            if !past.iter().any(|r| r.meta.batch == Some(batch)) {
                return Err(Refusal::input("There is no such batch in this book."));
            }
            if history::withdrawn(past).contains(&batch) {
                return Err(Refusal::refused("That batch has been withdrawn already."));
            }
            Ok((
                Statement::BatchWithdrawn(BatchWithdrawn {
                    batch,
                    because: because.trim().into(),
                }),
                None,
            ))
        })
    }

    /// Appends a statement about the ledger itself and folds anew.
    fn amend(
        &mut self,
        act: &Act,
        what: impl Fn(&[Read], &Book, PersonId) -> Result<(Statement, Option<EntryId>), Refusal>,
    ) -> Result<Receipt, StoreError> {
        let path = self.path.clone();
        let sql = StoreError::of(&path);
        let change = begin(&mut self.connection, &path)?;
        let before = read::whole(&change).map_err(|e| e.into_store(&path))?;
        let person = person(&before, &act.by)?;
        let mut past = read_all(&change, &path)?;
        let repeat = past.iter().position(|r| r.meta.id == act.id);
        let then = past.get(..repeat.unwrap_or(past.len())).unwrap_or_default();
        let (statement, supersedes) = match repeat {
            None => what(then, &before, person)?,
            // Asked as of then. If it could not have been said then, it is not what was said.
            Some(at) => {
                let book = history::fold(then).map_err(|why| StoreError::Damaged {
                    path: path.clone(),
                    why,
                })?;
                let seq = past.get(at).map_or(0, |r| r.meta.seq);
                what(then, &book, person).map_err(|_| StoreError::OtherBody { seq })?
            }
        };
        if let Some(earlier) = repeat.and_then(|at| past.get(at)) {
            let seq = earlier.meta.seq;
            let same = earlier.statement == statement
                && earlier.supersedes == supersedes
                && earlier.meta.person == person
                && earlier.meta.batch == act.batch
                && earlier.meta.done_on == act.done_on;
            let head = hash_of(&change, seq).map_err(&sql)?;
            return if same {
                Ok(Receipt {
                    entries: (seq, seq),
                    head,
                    repeated: true,
                })
            } else {
                Err(StoreError::OtherBody { seq })
            };
        }
        still_open(&change, act.batch).map_err(|e| e.into_store(&path))??;
        let (seq, prev) = read::head(&change).map_err(&sql)?;
        let meta = Meta {
            seq: seq + 1,
            id: act.id,
            batch: act.batch,
            person,
            done_on: act.done_on,
        };
        let head = append(&change, act, &meta, &statement, supersedes, prev)
            .map_err(|e| e.into_store(&path))?;
        past.push(Read {
            meta,
            statement,
            supersedes,
        });
        let after = history::fold(&past).map_err(|why| {
            Refusal::refused(format!(
                "That cannot be taken back, because a later entry builds on it: {why}."
            ))
        })?;
        let mut rows = before.rows();
        rows.extend(after.rows());
        rows.sort();
        rows.dedup();
        rows.retain(|row| before.row_text(row) != after.row_text(row));
        project(&change, &after, &rows).map_err(&sql)?;
        mark_head(&change, meta.seq, head).map_err(&sql)?;
        change.commit().map_err(&sql)?;
        Ok(Receipt {
            entries: (meta.seq, meta.seq),
            head,
            repeated: false,
        })
    }

    /// Drops the derived rows and folds them anew from the entries, in the layout of this build.
    ///
    /// # Errors
    /// If an entry does not read, or the database fails; the rows are then as before.
    pub fn rebuild(&mut self) -> Result<u64, StoreError> {
        let path = self.path.clone();
        let sql = StoreError::of(&path);
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&sql)?;
        // A book of an older layout lacks what has come to it since.
        let layout: i64 = change
            .pragma_query_value(None, "user_version", |row| row.get(0))
            .map_err(&sql)?;
        if layout < schema::LAYOUT {
            lay_out(&change).map_err(&sql)?;
        }
        let past = read_all(&change, &path)?;
        let book = history::fold(&past).map_err(|why| StoreError::Damaged {
            path: path.clone(),
            why,
        })?;
        put_rows_right(&change, &book).map_err(&sql)?;
        seek::put_right(&change, &book).map_err(&sql)?;
        change
            .pragma_update(None, "user_version", schema::LAYOUT)
            .map_err(&sql)?;
        change.commit().map_err(&sql)?;
        Ok(past.len() as u64)
    }
}

/// Makes every object of the layout that is not there.
fn lay_out(connection: &Connection) -> rusqlite::Result<()> {
    let mut found = connection.prepare_cached("SELECT 1 FROM sqlite_schema WHERE name = ?1")?;
    for (name, sql) in schema::OBJECTS {
        if !found.exists([name])? {
            connection.execute_batch(sql)?;
        }
    }
    connection.execute_batch(schema::SEEK_FORGETS)
}

/// The entry at the beginning of a chain of corrections.
fn first_of<'r>(past: &'r [Read], found: &'r Read) -> &'r Read {
    let mut first = found;
    while let Some(earlier) = first
        .supersedes
        .and_then(|id| past.iter().find(|r| r.meta.id == id))
    {
        first = earlier;
    }
    first
}

/// Begins the one change that may be under way, in a book that is still in the layout of this build: a
/// newer program may have raised it since it was opened.
fn begin<'c>(
    connection: &'c mut Connection,
    path: &std::path::Path,
) -> Result<Transaction<'c>, StoreError> {
    let sql = StoreError::of(path);
    let change = connection
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .map_err(&sql)?;
    let layout: i64 = change
        .pragma_query_value(None, "user_version", |row| row.get(0))
        .map_err(&sql)?;
    header::newer(path, layout)?;
    Ok(change)
}

fn read_all(connection: &Connection, path: &std::path::Path) -> Result<Vec<Read>, StoreError> {
    let sql = StoreError::of(path);
    let mut all = connection.prepare_cached(history::COLUMNS).map_err(&sql)?;
    let mut rows = all.query([]).map_err(&sql)?;
    let mut past = Vec::new();
    while let Some(row) = rows.next().map_err(&sql)? {
        let read = history::read_row(row).map_err(|why| StoreError::Damaged {
            path: path.into(),
            why,
        })?;
        past.push(read);
    }
    Ok(past)
}

/// Whether a statement is about the ledger and not about the shop.
fn about_the_ledger(statement: &Statement) -> bool {
    matches!(
        statement,
        Statement::Correction(_) | Statement::BatchWithdrawn(_)
    )
}

/// Refuses a batch that has been withdrawn: what is entered into it would never count.
fn still_open(
    connection: &Connection,
    batch: Option<BatchId>,
) -> Result<Result<(), Refusal>, read::LoadError> {
    let Some(batch) = batch else {
        return Ok(Ok(()));
    };
    let mut all =
        connection.prepare_cached("SELECT form, body FROM entry WHERE kind = 'batch-withdrawn'")?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        let (form, body): (u32, String) = (row.get(0)?, row.get(1)?);
        let read = Statement::read("batch-withdrawn", form, &body)
            .map_err(|e| read::LoadError::Row(e.to_string()))?;
        if matches!(read, Statement::BatchWithdrawn(it) if it.batch == batch) {
            return Ok(Err(Refusal::refused(
                "This batch has been withdrawn: what is entered into it would not count.",
            )
            .todo("enter it in a batch of its own")));
        }
    }
    Ok(Ok(()))
}

fn person(book: &Book, by: &By) -> Result<PersonId, Refusal> {
    match by {
        By::Name(name) => shop::locomotive::person(book, name).map(|(id, _)| id),
        By::Id(id) => Ok(*id),
    }
}

/// The id of the n-th statement of an act: the act's own for the first, then ids that follow from it.
fn id_of(act: EntryId, at: usize) -> EntryId {
    if at == 0 {
        return act;
    }
    let digest = Sha256::new()
        .chain_update(act.0.to_be_bytes())
        .chain_update((at as u64).to_be_bytes())
        .finalize();
    EntryId(
        digest
            .iter()
            .take(16)
            .fold(0, |id, byte| (id << 8) | u128::from(*byte)),
    )
}

fn number_of(connection: &Connection, id: EntryId) -> rusqlite::Result<Option<u64>> {
    let mut found = connection.prepare_cached("SELECT seq FROM entry WHERE id = ?1")?;
    let mut rows = found.query([id.to_string()])?;
    Ok(match rows.next()? {
        Some(row) => u64::try_from(row.get::<_, i64>(0)?).ok(),
        None => None,
    })
}

/// Answers an act that came before: the verb is asked again with the book as it stood then, and must
/// state the same.
fn again(
    connection: &Connection,
    path: &std::path::Path,
    act: &Act,
    first: u64,
    shown: Shown<'_>,
    verb: impl Fn(&Book, PersonId) -> Result<Vec<Statement>, Refusal>,
) -> Result<Receipt, StoreError> {
    let all = read_all(connection, path)?;
    let before: Vec<Read> = all.iter().filter(|r| r.meta.seq < first).cloned().collect();
    let mut then = history::fold(&before).map_err(|why| StoreError::Damaged {
        path: path.into(),
        why,
    })?;
    // The verb is shown what it was shown then: a book without the fires one by one, and of readings one part's.
    then.fires = Fires::none_asked();
    then.readings = match shown {
        Shown::Part(engine, name) => shop::locomotive::part(&then, engine, name).map_or_else(
            |_| Readings::none_asked(),
            |(part, _)| then.readings.only(part),
        ),
        Shown::Book | Shown::Engine(_) => Readings::none_asked(),
    };
    let other = || StoreError::OtherBody { seq: first };
    let person = person(&then, &act.by).map_err(|_| other())?;
    let statements = verb(&then, person).map_err(|_| other())?;
    let last = first + statements.len() as u64 - u64::from(!statements.is_empty());
    for (at, statement) in statements.iter().enumerate() {
        let stands = all.iter().find(|r| r.meta.seq == first + at as u64);
        let same = stands.is_some_and(|r| {
            r.meta.id == id_of(act.id, at)
                && r.statement == *statement
                && r.meta.person == person
                && r.meta.batch == act.batch
                && r.meta.done_on == act.done_on
        });
        if !same {
            return Err(other());
        }
    }
    // The first act may have stated more than this one does.
    let more = id_of(act.id, statements.len());
    if statements.is_empty() || all.iter().any(|r| r.meta.id == more) {
        return Err(other());
    }
    let head = hash_of(connection, last).map_err(StoreError::of(path))?;
    Ok(Receipt {
        entries: (first, last),
        head,
        repeated: true,
    })
}

fn hash_of(connection: &Connection, seq: u64) -> rusqlite::Result<Hash> {
    let bytes: Vec<u8> = connection.query_row(
        "SELECT hash FROM entry WHERE seq = ?1",
        [seq as i64],
        |row| row.get(0),
    )?;
    Ok(<[u8; 32]>::try_from(bytes.as_slice()).map_or(Hash::NONE, Hash))
}

fn append(
    connection: &Connection,
    act: &Act,
    meta: &Meta,
    statement: &Statement,
    supersedes: Option<EntryId>,
    prev: Hash,
) -> Result<Hash, read::LoadError> {
    let body = statement
        .body()
        .map_err(|e| read::LoadError::Row(e.to_string()))?;
    let mut entry = Entry {
        seq: i64::try_from(meta.seq)
            .map_err(|_| read::LoadError::Row("the book is full".into()))?,
        id: meta.id.to_string().into_bytes(),
        batch: meta.batch.map(|b| b.to_string().into_bytes()),
        device: act.device.clone().into_bytes(),
        person: meta.person.to_string().into_bytes(),
        done_on: meta.done_on.to_string().into_bytes(),
        recorded_at: act.recorded_at.clone().into_bytes(),
        kind: statement.kind().as_bytes().to_vec(),
        form: i64::from(statement.form()),
        body: body.into_bytes(),
        supersedes: supersedes.map(|s| s.to_string().into_bytes()),
        prev: prev.0.to_vec(),
        hash: Vec::new(),
    };
    let hash = entry.digest();
    entry.hash = hash.0.to_vec();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let sql = format!(
        "INSERT INTO entry ({}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
        read::COLUMNS
    );
    connection.prepare_cached(&sql)?.execute(params![
        entry.seq,
        text(&entry.id),
        entry.batch.as_deref().map(text),
        text(&entry.device),
        text(&entry.person),
        text(&entry.done_on),
        text(&entry.recorded_at),
        text(&entry.kind),
        entry.form,
        text(&entry.body),
        entry.supersedes.as_deref().map(text),
        entry.prev,
        entry.hash,
    ])?;
    Ok(hash)
}

/// Makes the rows those of a freshly folded book: the same as dropping all and writing all, but a row
/// that is right already is not written again.
fn put_rows_right(connection: &Connection, book: &Book) -> rusqlite::Result<()> {
    fn name(row: &Row) -> (&str, &str) {
        (row.kind.word(), row.key.as_str())
    }
    let mut rows = book.rows();
    rows.sort_by(|one, other| name(one).cmp(&name(other)));
    let mut wanted = rows.into_iter().peekable();
    let mut wrong: Vec<Row> = Vec::new();
    let mut strays = false;
    // Both lie in order, so one walk along both finds every difference.
    let mut all = connection
        .prepare_cached("SELECT kind, key, engine, body FROM state ORDER BY kind, key")?;
    let mut found = all.query([])?;
    while let Some(kept) = found.next()? {
        let text = |at| -> rusqlite::Result<Option<&str>> { Ok(kept.get_ref(at)?.as_str().ok()) };
        let (Some(kind), Some(key)) = (text(0)?, text(1)?) else {
            strays = true;
            continue;
        };
        while let Some(missing) = wanted.next_if(|row| name(row) < (kind, key)) {
            wrong.push(missing);
        }
        let Some(row) = wanted.next_if(|row| name(row) == (kind, key)) else {
            strays = true;
            continue;
        };
        let engine = book.row_engine(&row).map(|engine| engine.to_string());
        let same = text(2)? == engine.as_deref() && text(3)? == book.row_text(&row).as_deref();
        if !same {
            wrong.push(row);
        }
    }
    wrong.extend(wanted);
    drop(found);
    if strays {
        // A row that comes from no entry, or whose name is not text: write the table whole.
        connection.execute("DELETE FROM state", [])?;
        return project(connection, book, &book.rows());
    }
    project(connection, book, &wrong)
}

/// Whether one of these rows is a fire that stands in the book.
fn repeats_a_fire(connection: &Connection, rows: &[Row]) -> rusqlite::Result<bool> {
    let mut found =
        connection.prepare_cached("SELECT 1 FROM state WHERE kind = ?1 AND key = ?2")?;
    for row in rows.iter().filter(|row| row.kind == RowKind::Fire) {
        if found.exists([row.kind.word(), &row.key])? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Writes one row, new or not.
const PUT_ROW: &str = "INSERT INTO state (kind, key, engine, body) VALUES (?1, ?2, ?3, ?4) \
    ON CONFLICT (kind, key) DO UPDATE SET engine = excluded.engine, body = excluded.body";

fn project(connection: &Connection, book: &Book, rows: &[Row]) -> rusqlite::Result<()> {
    let mut put = connection.prepare_cached(PUT_ROW)?;
    let mut drop = connection.prepare_cached("DELETE FROM state WHERE kind = ?1 AND key = ?2")?;
    for row in rows {
        let text = book.row_text(row);
        seek::put(connection, row, text.as_deref())?;
        match text {
            Some(text) => {
                let engine = book.row_engine(row).map(|e| e.to_string());
                put.execute(params![row.kind.word(), row.key, engine, text])?;
            }
            None => {
                drop.execute(params![row.kind.word(), row.key])?;
            }
        }
    }
    Ok(())
}

fn mark_head(connection: &Connection, seq: u64, hash: Hash) -> rusqlite::Result<()> {
    let mut put = connection
        .prepare_cached("INSERT INTO head (one, seq, hash) VALUES (1, ?1, ?2) ON CONFLICT (one) DO UPDATE SET seq = excluded.seq, hash = excluded.hash")?;
    put.execute(params![
        i64::try_from(seq).unwrap_or(i64::MAX),
        hash.0.to_vec()
    ])?;
    Ok(())
}
