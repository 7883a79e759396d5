//! `photo`: photographs and scans, kept in the book under their own hash.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::json;
use shop::book::{Book, LetterId, LocomotiveId, PhotoAdded, PhotoId, PhotoOf};
use shop::locomotive::{engine, finding, job, letter, media_of, part};
use store::MOST_SCAN;

use super::{name, saved};
use crate::{Answer, Context, Failure, words};

/// Photographs and scans.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Photo {
    /// Put a photograph or a scan in the book: of a part, a set of readings, a finding, a proof or a letter.
    Add(Add),
    /// The photographs of an engine.
    List {
        /// The engine's number.
        engine: String,
    },
    /// Write a photograph out of the book into a file.
    Get {
        /// Its number, such as P-001.
        number: String,
        /// The file to be made.
        to: PathBuf,
    },
}

/// Put a photograph in the book.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// The file: JPEG, PNG, WebP or PDF.
    pub file: PathBuf,
    /// What it shows.
    #[command(flatten)]
    #[serde(flatten)]
    pub of: Of,
}

/// What a photograph shows.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
pub struct Of {
    /// What is seen on it.
    #[arg(long)]
    pub told: String,
    /// The engine whose part it shows.
    #[arg(long, requires = "part")]
    #[serde(default)]
    pub engine: Option<String>,
    /// The part it shows.
    #[arg(long, requires = "engine")]
    #[serde(default)]
    pub part: Option<String>,
    /// The entry of the set of readings it belongs to.
    #[arg(long, requires = "part")]
    #[serde(default)]
    pub entry: Option<u64>,
    /// The finding it shows, such as F-001.
    #[arg(long, conflicts_with_all = ["part", "job"])]
    #[serde(default)]
    pub finding: Option<String>,
    /// The job whose proof it shows, such as J-001.
    #[arg(long, requires = "proof", conflicts_with = "part")]
    #[serde(default)]
    pub job: Option<String>,
    /// The proof it shows.
    #[arg(long, requires = "job")]
    #[serde(default)]
    pub proof: Option<String>,
    /// The letter it is a scan of, such as L-001.
    #[arg(long, conflicts_with_all = ["part", "job", "finding"])]
    #[serde(default)]
    pub letter: Option<String>,
}

/// What a photograph shows, as the book names it.
struct Shown {
    engine: Option<LocomotiveId>,
    of: PhotoOf,
    letter: Option<LetterId>,
}

impl Of {
    /// What is shown, and whose engine it is.
    fn named(&self, book: &Book) -> Result<Shown, shop::Refusal> {
        let shown = |engine, of| Shown {
            engine: Some(engine),
            of,
            letter: None,
        };
        if let (Some(number), Some(wanted)) = (&self.engine, &self.part) {
            let (locomotive, _) = engine(book, number)?;
            let (part, _) = part(book, locomotive, wanted)?;
            let of = match self.entry {
                Some(entry) => PhotoOf::Readings { part, entry },
                None => PhotoOf::Part { part },
            };
            return Ok(shown(locomotive, of));
        }
        if let Some(number) = &self.finding {
            let (finding, kept) = finding(book, number)?;
            return Ok(shown(kept.locomotive, PhotoOf::Finding { finding }));
        }
        if let (Some(number), Some(proof)) = (&self.job, &self.proof) {
            let (job, kept) = job(book, number)?;
            let proof = proof.trim().to_string();
            return Ok(shown(kept.locomotive, PhotoOf::Proof { job, proof }));
        }
        if let Some(number) = &self.letter {
            let (id, _) = letter(book, number)?;
            return Ok(Shown {
                engine: None,
                of: PhotoOf::Letter,
                letter: Some(id),
            });
        }
        Err(shop::Refusal::input(
            "Say what it shows: --engine and --part, --finding, --job and --proof, or --letter were expected.",
        ))
    }

    /// Puts these bytes in the book.
    ///
    /// # Errors
    /// Input: no file the book takes, too large, or nothing it shows.
    pub fn save(&self, context: &mut Context, file: &str, bytes: &[u8]) -> Result<Answer, Failure> {
        if bytes.len() > MOST_SCAN {
            return Err(Failure::Input(format!(
                "{file} is too large: {} bytes, and {MOST_SCAN} are the most.",
                bytes.len()
            )));
        }
        let media = media_of(bytes).ok_or_else(|| {
            Failure::Input(format!(
                "{file} is no photograph or scan the book takes: JPEG, PNG, WebP or PDF was expected."
            ))
        })?;
        let id = PhotoId(context.id()?);
        let asked = match &self.engine {
            Some(number) => context.book_of(number)?,
            None => context.book()?,
        };
        let locomotive = self.named(&asked)?.engine;
        let shown_part = match (&self.engine, &self.part) {
            (Some(_), Some(part)) => Some(part.as_str()),
            _ => None,
        };
        let act = context.own_act()?;
        let sha256 = store::name_of(bytes);
        let receipt =
            context
                .store()?
                .write_with_scan(&act, locomotive, shown_part, bytes, |book, _| {
                    let shown = self.named(book)?;
                    shop::locomotive::add_photo(
                        book,
                        PhotoAdded {
                            id,
                            sha256: sha256.clone(),
                            bytes: bytes.len() as u64,
                            media: media.into(),
                            name: file.into(),
                            of: shown.of,
                            told: self.told.clone(),
                            letter: shown.letter,
                        },
                    )
                })?;
        let book = match locomotive {
            Some(engine) => context.store()?.book_of(engine)?,
            None => context.book()?,
        };
        let kept = book
            .photos
            .values()
            .find(|it| it.added.sha256 == sha256 && it.added.id == id);
        let number = kept.map_or(0, |it| it.number);
        Ok(saved(
            &receipt,
            format!("P-{number:03} {file}: {}.", self.told.trim()),
            json!({ "photo": format!("P-{number:03}"), "sha256": sha256 }),
        ))
    }
}

impl Photo {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Photo::Add(it) => {
                let (file, bytes) = super::import::read(&it.file, MOST_SCAN)?;
                it.of.save(context, &file, &bytes)
            }
            Photo::List { engine: number } => {
                let book = context.book_of(number)?;
                let (id, _) = engine(&book, number)?;
                let mut all: Vec<_> = book
                    .photos
                    .values()
                    .filter(|it| it.locomotive == Some(id))
                    .collect();
                all.sort_by_key(|it| it.number);
                let mut text = String::new();
                let mut list = Vec::new();
                for it in all {
                    let part = it.part.and_then(|part| book.parts.get(&part));
                    let part = part.map_or(words::letter::A_LETTER, |part| part.name.as_str());
                    text.push_str(&format!(
                        "P-{:03}  {}  {part}: {} ({}, {} kB, by {})\n",
                        it.number,
                        words::day(it.on),
                        it.added.told,
                        it.added.name,
                        it.added.bytes.div_ceil(1024),
                        name(&book, it.by)
                    ));
                    list.push(json!({
                        "photo": format!("P-{:03}", it.number), "on": it.on.to_string(), "part": part, "of": it.added.of,
                        "told": it.added.told, "name": it.added.name, "media": it.added.media, "bytes": it.added.bytes,
                        "sha256": it.added.sha256,
                    }));
                }
                if text.is_empty() {
                    text.push_str("No photograph of her is in this book.\n");
                }
                Ok(Answer::done(text, json!(list)))
            }
            Photo::Get { number, to } => {
                let book = context.book()?;
                let (_, kept) = shop::locomotive::photo(&book, number)?;
                let bytes = context.store()?.scan_of(&kept.added.sha256)?;
                let bytes = bytes.ok_or_else(|| {
                    Failure::Machine(format!("What {number} shows is gone from the book."))
                })?;
                if to.exists() {
                    return Err(Failure::Input(format!(
                        "{} is there already, and nothing was written over it.",
                        to.display()
                    )));
                }
                std::fs::write(to, &bytes)
                    .map_err(|why| Failure::Machine(format!("{}: {why}.", to.display())))?;
                Ok(Answer::done(
                    format!("P-{:03} is in {}.\n", kept.number, to.display()),
                    json!({ "photo": format!("P-{:03}", kept.number), "bytes": bytes.len() }),
                ))
            }
        }
    }
}
