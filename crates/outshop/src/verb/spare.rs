//! `spare`: blanks, glasses, gaskets, bar: what lies there, what came, what was used on what, what is held for a job.

use clap::{Args, Subcommand};
use jiff::civil::Date;
use measure::House;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::Refusal;
use shop::book::{
    Amount, Book, Counted, MoveOf, Spare as Kept, SpareAdded, SpareCounted, SpareHeld, SpareId,
    SpareKnown, SpareReceived, SpareTold, SpareUsed, UsedOn,
};
use shop::locomotive::{engine, job, ledger, read_amount, spare};

use super::{name, saved};
use crate::words::{self, spare as say, tag};
use crate::{Answer, Context, Failure};

/// Spares.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Spare {
    /// Put a spare in the book; how many there are is entered with receive.
    Add(Add),
    /// Say more of it: material, size, drawing, shelf, the least to keep.
    Tell(Tell),
    /// Some came in.
    Receive(Receive),
    /// Some were used, on a job or on an engine.
    Use(Use),
    /// Hold so many in all for a job; 0 holds none any longer.
    Hold {
        /// Its number, such as S-001.
        number: String,
        /// How many in all: a whole number of pieces, or a length with its unit.
        many: String,
        /// The job.
        #[arg(long)]
        job: String,
    },
    /// They were counted. The ledger stays as it is; where the two differ, that is told.
    Count {
        /// Its number, such as S-001.
        number: String,
        /// How many lie there.
        many: String,
        /// What else there is to say.
        #[arg(long)]
        #[serde(default)]
        told: Option<String>,
    },
    /// Answer for the difference between the newest count and the ledger; it is written on or off.
    Settle {
        /// Its number, such as S-001.
        number: String,
        /// Why they differ.
        #[arg(long)]
        because: String,
    },
    /// All of them, those below the least to keep first.
    List(List),
    /// One of them with its ledger.
    Show {
        /// Its number, such as S-001.
        number: String,
    },
}

/// What is known of a spare.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
pub struct Known {
    /// What it is made of.
    #[arg(long)]
    #[serde(default)]
    pub material: Option<String>,
    /// Its size, in the words it is ordered by.
    #[arg(long)]
    #[serde(default)]
    pub size: Option<String>,
    /// The number of its drawing.
    #[arg(long)]
    #[serde(default)]
    pub drawing: Option<String>,
    /// Where it lies.
    #[arg(long)]
    #[serde(default)]
    pub shelf: Option<String>,
    /// The least to keep: a whole number of pieces, or a length with its unit.
    #[arg(long)]
    #[serde(default)]
    pub least: Option<String>,
}

impl Known {
    fn read(&self, counted: Counted) -> Result<SpareKnown, Refusal> {
        let least = self.least.as_deref();
        Ok(SpareKnown {
            material: self.material.clone(),
            size: self.size.clone(),
            drawing: self.drawing.clone(),
            shelf: self.shelf.clone(),
            least: least.map(|text| read_amount(counted, text)).transpose()?,
        })
    }
}

/// Put a spare in the book.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
pub struct Add {
    /// What it is, such as "water glass".
    pub what: String,
    /// How it is counted: pieces, or length as bar and packing are.
    #[arg(long, value_name = "pieces|length")]
    pub counted: String,
    /// What is known of it.
    #[command(flatten)]
    #[serde(flatten)]
    pub known: Known,
}

/// Say more of a spare.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
pub struct Tell {
    /// Its number, such as S-001.
    pub number: String,
    /// What is known of it.
    #[command(flatten)]
    #[serde(flatten)]
    pub known: Known,
}

/// Some came in.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Receive {
    /// Its number, such as S-001.
    pub number: String,
    /// How many: a whole number of pieces, or a length with its unit such as "7-1/2 in".
    pub many: String,
    /// From whom, or where they were found.
    #[arg(long)]
    pub from: String,
    /// The paper of the material that came with them.
    #[arg(long)]
    pub certificate: Option<String>,
    /// What else there is to say.
    #[arg(long)]
    pub told: Option<String>,
}

/// Some were used.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Use {
    /// Its number, such as S-001.
    pub number: String,
    /// How many: a whole number of pieces, or a length with its unit such as "7-1/2 in".
    pub many: String,
    /// The job they were used on.
    #[arg(long, conflicts_with = "engine")]
    pub job: Option<String>,
    /// The engine they were used on, outside any job.
    #[arg(long)]
    pub engine: Option<String>,
    /// What else there is to say.
    #[arg(long)]
    pub told: Option<String>,
}

/// What is listed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct List {
    /// Only those below the least to keep.
    #[arg(long)]
    #[serde(default)]
    pub short: bool,
}

impl Spare {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Spare::Add(it) => it.run(context),
            Spare::Tell(it) => {
                let receipt = context.save(|book, _, _| {
                    let (spare, kept) = spare(book, &it.number)?;
                    let known = it.known.read(kept.counted)?;
                    shop::locomotive::tell_spare(book, SpareTold { spare, known })
                })?;
                told_of(context, &receipt, &it.number)
            }
            Spare::Receive(it) => {
                let receipt = context.save(|book, _, _| {
                    let (spare, kept) = spare(book, &it.number)?;
                    let came = SpareReceived {
                        spare,
                        many: read_amount(kept.counted, &it.many)?,
                        from: it.from.clone(),
                        certificate: it.certificate.clone(),
                        told: it.told.clone(),
                    };
                    shop::locomotive::receive_spare(book, came)
                })?;
                told_of(context, &receipt, &it.number)
            }
            Spare::Use(it) => {
                let receipt = context.save(|book, _, _| {
                    let (spare, kept) = spare(book, &it.number)?;
                    let used = SpareUsed {
                        spare,
                        many: read_amount(kept.counted, &it.many)?,
                        on: it.on(book)?,
                        told: it.told.clone(),
                    };
                    shop::locomotive::use_spare(book, used)
                })?;
                told_of(context, &receipt, &it.number)
            }
            Spare::Hold {
                number,
                many,
                job: wanted,
            } => {
                let receipt = context.save(|book, _, _| {
                    let (spare, kept) = spare(book, number)?;
                    let held = SpareHeld {
                        spare,
                        job: job(book, wanted)?.0,
                        many: read_amount(kept.counted, many)?,
                    };
                    shop::locomotive::hold_spare(book, held)
                })?;
                told_of(context, &receipt, number)
            }
            Spare::Count { number, many, told } => {
                let receipt = context.save(|book, _, _| {
                    let (spare, kept) = spare(book, number)?;
                    let counted = SpareCounted {
                        spare,
                        many: read_amount(kept.counted, many)?,
                        told: told.clone(),
                    };
                    shop::locomotive::count_spare(book, counted)
                })?;
                told_of(context, &receipt, number)
            }
            Spare::Settle { number, because } => {
                let receipt = context.save(|book, _, on| {
                    let (id, _) = spare(book, number)?;
                    shop::locomotive::settle_spare(book, id, because, on)
                })?;
                told_of(context, &receipt, number)
            }
            Spare::List(it) => {
                let (book, on, house) = (context.book()?, context.on()?, context.house());
                let mut text = String::new();
                let mut list = Vec::new();
                for kept in by_need(&book, on) {
                    if it.short && ledger(&book, kept, on).short.is_none() {
                        continue;
                    }
                    text.push_str(&format!("{}\n", line(&book, kept, on, house)));
                    list.push(value(&book, kept, on, house));
                }
                if list.is_empty() {
                    let none = if it.short { say::NONE_SHORT } else { say::NONE };
                    text.push_str(&format!("{none}\n"));
                }
                Ok(Answer::done(text, json!(list)))
            }
            Spare::Show { number } => {
                let (book, on, house) = (context.book()?, context.on()?, context.house());
                let (_, kept) = spare(&book, number)?;
                let mut text = format!("{}\n", line(&book, kept, on, house));
                for told in say::known(kept, house) {
                    text.push_str(&format!("  {told}\n"));
                }
                for one in lines(&book, kept, house) {
                    text.push_str(&format!("  {one}\n"));
                }
                Ok(Answer::done(text, value(&book, kept, on, house)))
            }
        }
    }
}

impl Add {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let counted = Counted::ALL.into_iter();
        let counted = counted
            .into_iter()
            .find(|it| it.word() == self.counted.trim());
        let counted = counted.ok_or_else(|| Failure::Input(say::no_way(&self.counted)))?;
        let id = SpareId(context.id()?);
        let receipt = context.save(|book, _, _| {
            let new = SpareAdded {
                id,
                what: self.what.clone(),
                counted,
                known: self.known.read(counted)?,
            };
            shop::locomotive::add_spare(book, new)
        })?;
        let number = context.book()?.spares.get(&id).map_or(0, |it| it.number);
        told_of(context, &receipt, &tag::spare(number))
    }
}

impl Use {
    fn on(&self, book: &Book) -> Result<UsedOn, Refusal> {
        match (&self.job, &self.engine) {
            (Some(number), None) => Ok(UsedOn::Job {
                job: job(book, number)?.0,
            }),
            (None, Some(number)) => Ok(UsedOn::Engine {
                locomotive: engine(book, number)?.0,
            }),
            _ => Err(Refusal::input(say::ON_WHAT)),
        }
    }
}

/// What was saved, as the ledger then stands.
fn told_of(
    context: &mut Context,
    receipt: &store::Receipt,
    number: &str,
) -> Result<Answer, Failure> {
    let (book, on, house) = (context.book()?, context.on()?, context.house());
    let (_, kept) = spare(&book, number)?;
    let told = line(&book, kept, on, house);
    let shown = json!({ "spare": tag::spare(kept.number), "there": say::many(kept.counted, ledger(&book, kept, on).there, house) });
    Ok(saved(receipt, told, shown))
}

/// Those that need a person first: below the least, or counted otherwise; then by number.
pub(crate) fn by_need(book: &Book, on: Date) -> Vec<&Kept> {
    let mut all: Vec<_> = book.spares.values().collect();
    all.sort_by_key(|kept| {
        let ledger = ledger(book, kept, on);
        let needs = ledger.short.is_some() || ledger.differs.is_some() || ledger.there.0 < 0;
        (!needs, kept.number)
    });
    all
}

/// What a spare is and how many lie there, in one line.
pub(crate) fn line(book: &Book, kept: &Kept, on: Date, house: House) -> String {
    let mut told = vec![say::what(kept)];
    told.extend(standing(book, kept, on, house));
    told.extend(kept.known.shelf.clone());
    format!("{}  {}", tag::spare(kept.number), told.join("; "))
}

/// How many lie there, for what they are held, and what is wrong.
pub(crate) fn standing(book: &Book, kept: &Kept, on: Date, house: House) -> Vec<String> {
    let ledger = ledger(book, kept, on);
    let many = |amount: Amount| say::many(kept.counted, amount, house);
    let mut told = vec![say::there(&many(ledger.there))];
    for (id, left) in &ledger.held {
        let number = book.jobs.get(id).map_or(0, |job| job.number);
        told.push(say::held(&many(*left), &tag::job(number)));
    }
    told.extend(needs(book, kept, on, house));
    told
}

/// What of a spare needs a person.
pub(crate) fn needs(book: &Book, kept: &Kept, on: Date, house: House) -> Vec<String> {
    let ledger = ledger(book, kept, on);
    let many = |amount: Amount| say::many(kept.counted, amount, house);
    let mut told = Vec::new();
    if ledger.there.0 < 0 {
        told.push(say::BELOW_NOTHING.to_string());
    }
    if let (Some(short), Some(least)) = (ledger.short, kept.known.least) {
        told.push(say::short(&many(short), &many(least)));
    }
    if let Some(differs) = &ledger.differs {
        told.push(say::differs(
            &many(differs.count.many),
            differs.count.on,
            &many(differs.ledger),
        ));
    }
    told
}

/// The lines of a spare's ledger, newest first.
pub(crate) fn lines(book: &Book, kept: &Kept, house: House) -> Vec<String> {
    let mut moves: Vec<_> = kept.moves.iter().collect();
    moves.sort_by_key(|it| std::cmp::Reverse((it.on, it.entry)));
    let told = moves.into_iter().map(|it| {
        let of_job = |id| tag::job(book.jobs.get(id).map_or(0, |job| job.number));
        let on = match &it.of {
            MoveOf::Held { job } => of_job(job),
            MoveOf::Used {
                used: UsedOn::Job { job },
            } => of_job(job),
            MoveOf::Used {
                used: UsedOn::Engine { locomotive },
            } => {
                let engine = book.locomotives.get(locomotive);
                words::engine(engine.map_or("?", |it| it.number.as_str()))
            }
            _ => String::new(),
        };
        say::moved(
            it,
            &say::many(kept.counted, it.many, house),
            &on,
            name(book, it.by),
        )
    });
    told.collect()
}

fn value(book: &Book, kept: &Kept, on: Date, house: House) -> Value {
    let ledger = ledger(book, kept, on);
    let many = |amount: Amount| say::many(kept.counted, amount, house);
    json!({
        "spare": tag::spare(kept.number), "what": kept.what, "counted": kept.counted.word(), "material": kept.known.material,
        "size": kept.known.size, "drawing": kept.known.drawing, "shelf": kept.known.shelf, "least": kept.known.least.map(many),
        "there": many(ledger.there), "free": many(ledger.free), "short_by": ledger.short.map(many),
        "held": ledger.held.iter().map(|(id, left)| json!({
            "job": tag::job(book.jobs.get(id).map_or(0, |job| job.number)), "many": many(*left),
        })).collect::<Vec<_>>(),
        "differs": ledger.differs.as_ref().map(|it| json!({
            "counted": many(it.count.many), "on": it.count.on.to_string(), "ledger": many(it.ledger), "by": many(it.by),
        })),
        "ledger": lines(book, kept, house),
    })
}
