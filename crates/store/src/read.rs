//! Reading a book: its state from the derived rows, its entries from the ledger.

use jiff::civil::Date;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Row as SqlRow, params_from_iter};
use shop::book::{
    BatchId, Book, EntryId, Fires, LocomotiveId, PartId, PersonId, Photo, Readings, Row, RowKind,
    Shop, Statement,
};

use crate::entry::{Entry, Hash};
use crate::error::StoreError;
use crate::file::Store;

pub(crate) const COLUMNS: &str = "seq, id, batch, device, person, done_on, recorded_at, kind, form, body, supersedes, prev, hash";

impl Store {
    /// The state of the book, from its derived rows, without the fires one by one: what they add up to is there.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book(&self) -> Result<Book, StoreError> {
        load(&self.connection).map_err(|e| e.into_store(&self.path))
    }

    /// The same with the fires of one engine.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book_with_fires_of(&self, engine: LocomotiveId) -> Result<Book, StoreError> {
        let read = || {
            let mut book = load(&self.connection)?;
            fires_of(&self.connection, &mut book, engine)?;
            Ok(book)
        };
        read().map_err(|e: LoadError| e.into_store(&self.path))
    }

    /// The same with the fires of several engines.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book_with_fires_of_each(&self, engines: &[LocomotiveId]) -> Result<Book, StoreError> {
        let read = || {
            let mut book = load(&self.connection)?;
            for engine in engines {
                fires_of(&self.connection, &mut book, *engine)?;
            }
            Ok(book)
        };
        read().map_err(|e: LoadError| e.into_store(&self.path))
    }

    /// What came in together, oldest first: imports, lists, days away from the book.
    ///
    /// # Errors
    /// If an entry does not read, or the database fails.
    pub fn batches(&self) -> Result<Vec<Batch>, StoreError> {
        batches(&self.connection).map_err(|e| e.into_store(&self.path))
    }

    /// All of the book, every fire of every engine included.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn whole_book(&self) -> Result<Book, StoreError> {
        whole(&self.connection).map_err(|e| e.into_store(&self.path))
    }

    /// The book with one engine's rows alone, beside those that are no engine's: what her own clocks need.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book_of(&self, engine: LocomotiveId) -> Result<Book, StoreError> {
        load_of(&self.connection, engine).map_err(|e| e.into_store(&self.path))
    }

    /// The same with the readings of one of her parts, by its name, if she has one of that name, and of its mirror.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book_of_part(&self, engine: LocomotiveId, name: &str) -> Result<Book, StoreError> {
        load_of_part(&self.connection, engine, name).map_err(|e| e.into_store(&self.path))
    }

    /// Reads the fires of one engine into a book.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn add_fires(&self, book: &mut Book, engine: LocomotiveId) -> Result<(), StoreError> {
        fires_of(&self.connection, book, engine).map_err(|e| e.into_store(&self.path))
    }

    /// Reads the readings of one part into a book.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn add_readings(&self, book: &mut Book, part: PartId) -> Result<(), StoreError> {
        readings_of(&self.connection, book, part).map_err(|e| e.into_store(&self.path))
    }

    /// The book without any engine's rows: the shop, its people, families, rules and instruments.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn book_of_shop(&self) -> Result<Book, StoreError> {
        load_of_shop(&self.connection).map_err(|e| e.into_store(&self.path))
    }

    /// Every part with every set of readings in which a word stands, such as the number of an instrument: the book of
    /// the parts with those sets alone, which is slow to find in a large book and seldom asked.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn readings_that_say(&self, word: &str) -> Result<Book, StoreError> {
        let read = || {
            let mut book = load(&self.connection)?;
            const SQL: &str = "SELECT kind, key, body FROM state WHERE kind = ?1 AND instr(lower(body), lower(?2)) > 0";
            take(
                &self.connection,
                &mut book,
                SQL,
                &[RowKind::Readings.word(), word],
            )?;
            Ok(book)
        };
        read().map_err(|e: LoadError| e.into_store(&self.path))
    }

    /// The photograph of a number, `P-001`, found without reading the book; nothing if there is none of it.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn photo_of(&self, number: &str) -> Result<Option<Photo>, StoreError> {
        photo_of(&self.connection, number).map_err(|e| e.into_store(&self.path))
    }

    /// The day of an entry, by the id that its device gave it; nothing if no such entry stands.
    ///
    /// # Errors
    /// If the row does not read, or the database fails.
    pub fn day_of(&self, id: EntryId) -> Result<Option<Date>, StoreError> {
        day_of(&self.connection, id).map_err(|e| e.into_store(&self.path))
    }

    /// The engine of a number, found without reading the book; nothing if there is none of it.
    ///
    /// # Errors
    /// If the database fails, or a row's key is none.
    pub fn engine_of(&self, number: &str) -> Result<Option<LocomotiveId>, StoreError> {
        engine_of(&self.connection, number).map_err(|e| e.into_store(&self.path))
    }

    /// Reads every entry's bytes and keeps none: how many there are, and how many bytes. It is what a bench holds
    /// a fold against.
    ///
    /// # Errors
    /// If the database fails.
    pub fn scan(&self) -> Result<(u64, u64), StoreError> {
        scan(&self.connection).map_err(StoreError::of(&self.path))
    }

    /// The shop alone, from its one row: what most questions need before they need the book.
    ///
    /// # Errors
    /// If the row does not read, or the database fails.
    pub fn shop(&self) -> Result<Option<Shop>, StoreError> {
        shop(&self.connection).map_err(|e| e.into_store(&self.path))
    }

    /// Every entry, as stored, in order.
    ///
    /// # Errors
    /// If the database fails.
    pub fn entries(&self) -> Result<Vec<Entry>, StoreError> {
        entries(&self.connection).map_err(StoreError::of(&self.path))
    }

    /// The entries of one kind, as stored, in order; the others are passed over and not read.
    ///
    /// # Errors
    /// If the database fails.
    pub fn entries_of(&self, kind: &str) -> Result<Vec<Entry>, StoreError> {
        entries_of(&self.connection, kind).map_err(StoreError::of(&self.path))
    }

    /// The number and hash of the last entry, as the head mark says.
    ///
    /// # Errors
    /// If the database fails.
    pub fn head(&self) -> Result<(u64, Hash), StoreError> {
        head(&self.connection).map_err(StoreError::of(&self.path))
    }
}

/// Entries that came in together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    /// Its id.
    pub id: BatchId,
    /// How many entries.
    pub entries: u64,
    /// The number of the first.
    pub first: u64,
    /// The number of the last.
    pub last: u64,
    /// Who entered the first.
    pub by: PersonId,
    /// When the first was entered, as text.
    pub recorded_at: String,
    /// Whether it was taken back.
    pub withdrawn: bool,
}

fn batches(connection: &Connection) -> Result<Vec<Batch>, LoadError> {
    const SQL: &str = "SELECT b.batch, b.entries, b.first, b.last, e.person, e.recorded_at FROM \
        (SELECT batch, count(*) AS entries, min(seq) AS first, max(seq) AS last FROM entry \
        WHERE batch IS NOT NULL GROUP BY batch) AS b JOIN entry AS e ON e.seq = b.first ORDER BY b.first";
    const TAKEN_BACK: &str = "SELECT form, body FROM entry WHERE kind = 'batch-withdrawn'";
    let mut taken_back = Vec::new();
    let mut all = connection.prepare_cached(TAKEN_BACK)?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        let (form, body): (u32, String) = (row.get(0)?, row.get(1)?);
        if let Statement::BatchWithdrawn(it) = Statement::read("batch-withdrawn", form, &body)
            .map_err(|e| LoadError::Row(e.to_string()))?
        {
            taken_back.push(it.batch);
        }
    }
    let mut all = connection.prepare_cached(SQL)?;
    let mut rows = all.query([])?;
    let mut batches = Vec::new();
    let number = |row: &SqlRow<'_>, at| -> rusqlite::Result<u64> {
        Ok(u64::try_from(row.get::<_, i64>(at)?).unwrap_or(0))
    };
    while let Some(row) = rows.next()? {
        let unread = |e: shop::book::IdError| LoadError::Row(e.to_string());
        let id: BatchId = row.get::<_, String>(0)?.parse().map_err(unread)?;
        batches.push(Batch {
            id,
            entries: number(row, 1)?,
            first: number(row, 2)?,
            last: number(row, 3)?,
            by: row.get::<_, String>(4)?.parse().map_err(unread)?,
            recorded_at: row.get(5)?,
            withdrawn: taken_back.contains(&id),
        });
    }
    Ok(batches)
}

/// A failure to load: the database's, or a row that does not read.
pub(crate) enum LoadError {
    Sql(rusqlite::Error),
    Row(String),
}

impl From<rusqlite::Error> for LoadError {
    fn from(error: rusqlite::Error) -> Self {
        LoadError::Sql(error)
    }
}

impl LoadError {
    pub(crate) fn into_store(self, path: &std::path::Path) -> StoreError {
        match self {
            LoadError::Sql(error) => StoreError::of(path)(error),
            LoadError::Row(why) => StoreError::Damaged {
                path: path.into(),
                why,
            },
        }
    }
}

/// A book that holds no fire and no reading yet.
fn bare() -> Book {
    Book {
        fires: Fires::none_asked(),
        readings: Readings::none_asked(),
        ..Book::default()
    }
}

/// Every row but the fires and the readings. The rows lie sorted by kind, so that the many are passed over unread.
pub(crate) fn load(connection: &Connection) -> Result<Book, LoadError> {
    const SQL: &str = "SELECT kind, key, body FROM state WHERE kind < ?1 \
        UNION ALL SELECT kind, key, body FROM state WHERE kind > ?1 AND kind < ?2 \
        UNION ALL SELECT kind, key, body FROM state WHERE kind > ?2";
    let mut book = bare();
    let passed_over = [RowKind::Fire.word(), RowKind::Readings.word()];
    take(connection, &mut book, SQL, &passed_over)?;
    Ok(book)
}

/// The rows of one engine and of none, but the fires and the readings. The index `state_of_engine` holds these alone,
/// and is used where its own words are said.
pub(crate) fn load_of(connection: &Connection, engine: LocomotiveId) -> Result<Book, LoadError> {
    const SQL: &str =
        "SELECT kind, key, body FROM state WHERE kind NOT IN ('fire', 'readings') AND engine = ?1";
    let mut book = load_of_shop(connection)?;
    take(connection, &mut book, SQL, &[&engine.to_string()])?;
    Ok(book)
}

/// The same with the readings of one of her parts, and of its mirror.
pub(crate) fn load_of_part(
    connection: &Connection,
    engine: LocomotiveId,
    name: &str,
) -> Result<Book, LoadError> {
    let mut book = load_of(connection, engine)?;
    if let Ok((part, _)) = shop::locomotive::part(&book, engine, name) {
        readings_of(connection, &mut book, part)?;
        if let Some((other, _)) = shop::locomotive::mirror(&book, part) {
            readings_of(connection, &mut book, other)?;
        }
    }
    Ok(book)
}

/// The rows that are no engine's.
pub(crate) fn load_of_shop(connection: &Connection) -> Result<Book, LoadError> {
    const SQL: &str = "SELECT kind, key, body FROM state WHERE kind NOT IN ('fire', 'readings') AND engine IS NULL";
    let mut book = bare();
    take(connection, &mut book, SQL, &[])?;
    Ok(book)
}

fn photo_of(connection: &Connection, number: &str) -> Result<Option<Photo>, LoadError> {
    const SQL: &str = "SELECT kind, key, body FROM state WHERE kind = ?1 AND json_extract(body, '$.number') = CAST(?2 AS INTEGER)";
    let plain = number.trim().trim_start_matches(['P', 'p']);
    let plain = plain.trim_start_matches('-');
    if plain.parse::<u32>().is_err() {
        return Ok(None);
    }
    let mut book = bare();
    take(connection, &mut book, SQL, &[RowKind::Photo.word(), plain])?;
    Ok(book.photos.into_values().next())
}

fn day_of(connection: &Connection, id: EntryId) -> Result<Option<Date>, LoadError> {
    let mut found = connection.prepare_cached("SELECT done_on FROM entry WHERE id = ?1")?;
    let mut rows = found.query([id.to_string()])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let day: String = row.get(0)?;
    day.parse()
        .map(Some)
        .map_err(|_| LoadError::Row(format!("`{day}` is no day")))
}

fn engine_of(connection: &Connection, number: &str) -> Result<Option<LocomotiveId>, LoadError> {
    const SQL: &str =
        "SELECT key FROM state WHERE kind = ?1 AND json_extract(body, '$.number') = ?2";
    let mut found = connection.prepare_cached(SQL)?;
    let mut rows = found.query([RowKind::Locomotive.word(), number])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let key: String = row.get(0)?;
    key.parse()
        .map(Some)
        .map_err(|e: shop::book::IdError| LoadError::Row(e.to_string()))
}

fn scan(connection: &Connection) -> rusqlite::Result<(u64, u64)> {
    let mut all =
        connection.prepare_cached(&format!("SELECT {COLUMNS} FROM entry ORDER BY seq"))?;
    let columns = all.column_count();
    let mut rows = all.query([])?;
    let (mut entries, mut bytes) = (0, 0);
    while let Some(row) = rows.next()? {
        entries += 1;
        for at in 0..columns {
            bytes += match row.get_ref(at)? {
                ValueRef::Text(it) | ValueRef::Blob(it) => it.len() as u64,
                ValueRef::Null => 0,
                ValueRef::Integer(_) | ValueRef::Real(_) => 8,
            };
        }
    }
    Ok((entries, bytes))
}

/// Every row.
pub(crate) fn whole(connection: &Connection) -> Result<Book, LoadError> {
    let mut book = Book::default();
    take(
        connection,
        &mut book,
        "SELECT kind, key, body FROM state",
        &[],
    )?;
    Ok(book)
}

/// The readings of one part into a book; their keys begin with its own.
fn readings_of(connection: &Connection, book: &mut Book, part: PartId) -> Result<(), LoadError> {
    const SQL: &str = "SELECT kind, key, body FROM state WHERE kind = ?1 AND key > ?2 AND key < ?3";
    let (from, before) = (format!("{part}/"), format!("{part}0"));
    book.readings.asked(part);
    let which = [RowKind::Readings.word(), &from, &before];
    take(connection, book, SQL, &which)
}

/// The fires of one engine into a book; their keys begin with hers.
fn fires_of(
    connection: &Connection,
    book: &mut Book,
    engine: LocomotiveId,
) -> Result<(), LoadError> {
    const SQL: &str = "SELECT kind, key, body FROM state WHERE kind = ?1 AND key > ?2 AND key < ?3";
    let (from, before) = (format!("{engine}/"), format!("{engine}0"));
    book.fires.asked(engine);
    take(
        connection,
        book,
        SQL,
        &[RowKind::Fire.word(), &from, &before],
    )
}

pub(crate) fn take(
    connection: &Connection,
    book: &mut Book,
    sql: &str,
    which: &[&str],
) -> Result<(), LoadError> {
    let mut rows = connection.prepare_cached(sql)?;
    let mut rows = rows.query(params_from_iter(which))?;
    while let Some(row) = rows.next()? {
        let (kind, key, body): (String, String, String) = (row.get(0)?, row.get(1)?, row.get(2)?);
        let unread = |why: String| {
            LoadError::Row(format!("the derived row {kind} {key} does not read: {why}"))
        };
        let kind_of = RowKind::from_word(&kind).ok_or_else(|| unread("no such kind".into()))?;
        book.take_row(
            &Row {
                kind: kind_of,
                key: key.clone(),
            },
            &body,
        )
        .map_err(unread)?;
    }
    Ok(())
}

fn shop(connection: &Connection) -> Result<Option<Shop>, LoadError> {
    let mut found = connection.prepare_cached("SELECT key, body FROM state WHERE kind = ?1")?;
    let mut rows = found.query([RowKind::Shop.word()])?;
    let mut book = Book::default();
    if let Some(row) = rows.next()? {
        let key: String = row.get(0)?;
        let body: String = row.get(1)?;
        let kind = RowKind::Shop;
        book.take_row(&Row { kind, key }, &body).map_err(|why| {
            LoadError::Row(format!("the derived row of the shop does not read: {why}"))
        })?;
    }
    Ok(book.shop)
}

pub(crate) fn entries(connection: &Connection) -> rusqlite::Result<Vec<Entry>> {
    let mut all =
        connection.prepare_cached(&format!("SELECT {COLUMNS} FROM entry ORDER BY seq"))?;
    let found = all.query_map([], entry_of)?;
    found.collect()
}

fn entries_of(connection: &Connection, kind: &str) -> rusqlite::Result<Vec<Entry>> {
    let mut all = connection.prepare_cached(&format!(
        "SELECT {COLUMNS} FROM entry WHERE kind = ?1 ORDER BY seq"
    ))?;
    let found = all.query_map([kind], entry_of)?;
    found.collect()
}

pub(crate) fn head(connection: &Connection) -> rusqlite::Result<(u64, Hash)> {
    let mut found = connection.prepare_cached("SELECT seq, hash FROM head")?;
    let mut rows = found.query([])?;
    match rows.next()? {
        None => Ok((0, Hash::NONE)),
        Some(row) => {
            let seq: i64 = row.get(0)?;
            let bytes: Vec<u8> = row.get(1)?;
            let hash = <[u8; 32]>::try_from(bytes.as_slice()).map_or(Hash::NONE, Hash);
            Ok((u64::try_from(seq).unwrap_or(0), hash))
        }
    }
}

/// Reads a row as bytes, whatever was done to it.
pub(crate) fn entry_of(row: &SqlRow<'_>) -> rusqlite::Result<Entry> {
    let bytes = |at: usize| -> rusqlite::Result<Option<Vec<u8>>> {
        Ok(match row.get_ref(at)? {
            ValueRef::Null => None,
            ValueRef::Text(bytes) | ValueRef::Blob(bytes) => Some(bytes.to_vec()),
            ValueRef::Integer(number) => Some(number.to_string().into_bytes()),
            ValueRef::Real(number) => Some(number.to_string().into_bytes()),
        })
    };
    let need = |at: usize| bytes(at).map(Option::unwrap_or_default);
    Ok(Entry {
        seq: row.get(0)?,
        id: need(1)?,
        batch: bytes(2)?,
        device: need(3)?,
        person: need(4)?,
        done_on: need(5)?,
        recorded_at: need(6)?,
        kind: need(7)?,
        form: row.get(8)?,
        body: need(9)?,
        supersedes: bytes(10)?,
        prev: need(11)?,
        hash: need(12)?,
    })
}
