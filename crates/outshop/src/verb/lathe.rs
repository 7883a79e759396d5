//! `lathe`: the lathes that the shop cuts on, and what each is and has.

use clap::{Args, Subcommand};
use measure::{House, Size};
use serde::Deserialize;
use serde_json::{Map, Value, json};
use shop::Refusal;
use shop::book::{
    Book, DialReads, Lathe as Kept, LatheAdded, LatheId, LatheKnown, LatheTaper, LatheTold,
    SwivelZero, ThreadDial,
};
use shop::locomotive::lathe;

use super::saved;
use crate::words::{lathe as say, tag};
use crate::{Answer, Context, Failure};

/// Lathes.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lathe {
    /// Put a lathe in the book. What is not told of it is not known, and nothing is put in its place.
    Add {
        /// What the shop calls it.
        name: String,
        /// What is known of it.
        #[command(flatten)]
        #[serde(flatten)]
        known: Box<Known>,
    },
    /// Say more of it, or something else.
    Tell {
        /// Its number, such as LA-001.
        number: String,
        /// What is known of it.
        #[command(flatten)]
        #[serde(flatten)]
        known: Box<Known>,
    },
    /// All of them.
    List,
    /// One of them with all that is known of it, and all that is not.
    Show {
        /// Its number, such as LA-001.
        number: String,
    },
}

/// What is known of a lathe.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(default)]
pub struct Known {
    /// The pitch of its leadscrew with its unit, such as "4 TPI" or "6 mm".
    #[arg(long)]
    pub leadscrew: Option<String>,
    /// Teeth of each change wheel it has, two alike written twice, such as "24, 24, 30, 127".
    #[arg(long)]
    pub wheels: Option<String>,
    /// Teeth that must be left between a wheel's rim and the stud beside it.
    #[arg(long)]
    pub stud: Option<String>,
    /// How far the leadscrew is from the first driver's shaft, in teeth: twice the distance times the diametral pitch,
    /// or twice the distance over the module.
    #[arg(long)]
    pub span: Option<String>,
    /// Turns of the first driver to one of the spindle, such as 1 or 1/2.
    #[arg(long)]
    pub spindle_ratio: Option<String>,
    /// The teeth of the thread dial's worm wheel and the lines on its face, such as "16, 8"; or none.
    #[arg(long, value_name = "TEETH, LINES|none")]
    pub thread_dial: Option<String>,
    /// Spindle speeds, turns a minute, such as "30, 55, 90".
    #[arg(long)]
    pub speeds: Option<String>,
    /// What the cross-slide's dial reads.
    #[arg(long, value_name = "radius|diameter")]
    pub cross_reads: Option<String>,
    /// One graduation of that dial, of what it reads, such as ".001 in".
    #[arg(long)]
    pub cross_graduation: Option<String>,
    /// One graduation of the compound's dial, of the way the slide goes, such as ".001 in".
    #[arg(long)]
    pub compound_graduation: Option<String>,
    /// The largest diameter that turns over the bed, such as "16 in".
    #[arg(long)]
    pub swing_bed: Option<String>,
    /// The largest diameter that turns over the cross-slide.
    #[arg(long)]
    pub swing_slide: Option<String>,
    /// The longest piece between centers.
    #[arg(long)]
    pub centers: Option<String>,
    /// One graduation of the compound's swivel, such as "1 deg" or 0d30m.
    #[arg(long)]
    pub swivel_graduation: Option<String>,
    /// Where that scale reads nothing: with the slide along the bed, or along the cross-slide.
    #[arg(long, value_name = "bed|cross")]
    pub swivel_zero: Option<String>,
    /// How far the tailstock goes over, each way, such as "3/4 in".
    #[arg(long)]
    pub set_over: Option<String>,
}

impl Known {
    fn read(&self) -> Result<LatheKnown, Refusal> {
        Ok(LatheKnown {
            leadscrew: self.leadscrew.clone(),
            wheels: self.wheels.as_deref().map(numbers).transpose()?,
            stud: self.stud.as_deref().map(number).transpose()?,
            span: self.span.as_deref().map(number).transpose()?,
            spindle_ratio: self.spindle_ratio.clone(),
            thread_dial: self.thread_dial.as_deref().map(dial).transpose()?,
            speeds: self.speeds.as_deref().map(numbers).transpose()?,
            cross_reads: self.cross_reads.as_deref().map(reads).transpose()?,
            cross_graduation: size(&self.cross_graduation)?,
            compound_graduation: size(&self.compound_graduation)?,
            swing_bed: size(&self.swing_bed)?,
            swing_slide: size(&self.swing_slide)?,
            centers: size(&self.centers)?,
        })
    }

    /// What is known of tapers; none where nothing was said.
    fn read_taper(&self) -> Result<Option<LatheTaper>, Refusal> {
        let taper = LatheTaper {
            swivel_graduation: self.swivel_graduation.clone(),
            swivel_zero: self.swivel_zero.as_deref().map(zero).transpose()?,
            set_over: size(&self.set_over)?,
        };
        Ok((taper != LatheTaper::default()).then_some(taper))
    }
}

fn number(text: &str) -> Result<u32, Refusal> {
    let read = text.trim().parse();
    read.map_err(|_| Refusal::input(say::no_number(text)))
}

fn numbers(text: &str) -> Result<Vec<u32>, Refusal> {
    let all = text.split([',', ' ', ';']).filter(|one| !one.is_empty());
    let read: Result<Vec<u32>, _> = all.map(str::parse).collect();
    match read {
        Ok(all) if !all.is_empty() => Ok(all),
        _ => Err(Refusal::input(say::no_list(text))),
    }
}

fn dial(text: &str) -> Result<ThreadDial, Refusal> {
    if text.trim().eq_ignore_ascii_case("none") {
        return Ok(ThreadDial::None);
    }
    match numbers(text).as_deref() {
        Ok([teeth, lines]) => Ok(ThreadDial::Wheel {
            teeth: *teeth,
            lines: *lines,
        }),
        _ => Err(Refusal::input(say::no_dial(text))),
    }
}

fn reads(text: &str) -> Result<DialReads, Refusal> {
    let found = DialReads::ALL.into_iter();
    let found = found.into_iter().find(|it| it.word() == text.trim());
    found.ok_or_else(|| Refusal::input(say::no_reads(text)))
}

fn zero(text: &str) -> Result<SwivelZero, Refusal> {
    let found = SwivelZero::ALL.into_iter();
    let found = found.into_iter().find(|it| it.word() == text.trim());
    found.ok_or_else(|| Refusal::input(say::no_zero(text)))
}

fn size(text: &Option<String>) -> Result<Option<Size>, Refusal> {
    let read = |text: &String| {
        Size::parse(text).map_err(|why| Refusal::input(say::no_size(text, &why.to_string())))
    };
    text.as_ref().map(read).transpose()
}

impl Lathe {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Lathe::Add { name, known } => {
                let id = LatheId(context.id()?);
                let receipt = context.save(|book, _, _| {
                    let new = LatheAdded {
                        id,
                        name: name.clone(),
                        known: known.read()?,
                        taper: known.read_taper()?,
                    };
                    shop::locomotive::add_lathe(book, new)
                })?;
                let number = context.book()?.lathes.get(&id).map_or(0, |it| it.number);
                told_of(context, &receipt, &tag::lathe(number))
            }
            Lathe::Tell { number, known } => {
                let receipt = context.save(|book, _, _| {
                    let (lathe, _) = lathe(book, number)?;
                    let (known, taper) = (known.read()?, known.read_taper()?);
                    let told = LatheTold {
                        lathe,
                        known,
                        taper,
                    };
                    shop::locomotive::tell_lathe(book, told)
                })?;
                told_of(context, &receipt, number)
            }
            Lathe::List => {
                let (book, house) = (context.book()?, context.house());
                let all = by_number(&book);
                let lines = all.iter().map(|kept| format!("{}\n", line(kept, house)));
                let mut text: String = lines.collect();
                if all.is_empty() {
                    text = format!("{}\n", say::NONE);
                }
                let list: Vec<Value> = all.iter().map(|kept| value(kept, house)).collect();
                Ok(Answer::done(text, json!(list)))
            }
            Lathe::Show { number } => {
                let (book, house) = (context.book()?, context.house());
                let (_, kept) = lathe(&book, number)?;
                Ok(Answer::done(shown(kept, house), value(kept, house)))
            }
        }
    }
}

fn told_of(
    context: &mut Context,
    receipt: &store::Receipt,
    number: &str,
) -> Result<Answer, Failure> {
    let (book, house) = (context.book()?, context.house());
    let (_, kept) = lathe(&book, number)?;
    let named = json!({ "lathe": tag::lathe(kept.number), "name": kept.name });
    Ok(saved(receipt, line(kept, house), named))
}

/// All of them, by number.
pub(crate) fn by_number(book: &Book) -> Vec<&Kept> {
    let mut all: Vec<_> = book.lathes.values().collect();
    all.sort_by_key(|kept| kept.number);
    all
}

/// How much of it was stated.
pub(crate) fn stated(kept: &Kept, house: House) -> String {
    let known = say::known(kept, house);
    let told = known.iter().filter(|(_, told)| told.is_some()).count();
    say::stated(told, known.len())
}

fn line(kept: &Kept, house: House) -> String {
    let number = tag::lathe(kept.number);
    format!("{number}  {}; {}", kept.name, stated(kept, house))
}

fn shown(kept: &Kept, house: House) -> String {
    let mut text = format!("{}  {}\n", tag::lathe(kept.number), kept.name);
    for (what, told) in say::known(kept, house) {
        let told = told.as_deref().unwrap_or(say::NOT_KNOWN);
        text.push_str(&format!("  {what}: {told}\n"));
    }
    text
}

/// What is not known is null.
fn value(kept: &Kept, house: House) -> Value {
    let known = &kept.known;
    let size = |it: Option<Size>| it.map(|it| say::sized(it, house));
    let mut told = Map::new();
    let mut put = |name: &str, value: Value| drop(told.insert(name.into(), value));
    put("number", json!(tag::lathe(kept.number)));
    put("name", json!(kept.name));
    put("leadscrew", json!(known.leadscrew));
    put("wheels", json!(known.wheels));
    put("stud", json!(known.stud));
    put("span", json!(known.span));
    put("spindle_ratio", json!(known.spindle_ratio));
    put("thread_dial", json!(known.thread_dial.map(say::dial)));
    put("speeds", json!(known.speeds));
    put("cross_reads", json!(known.cross_reads.map(DialReads::word)));
    put("cross_graduation", json!(size(known.cross_graduation)));
    put(
        "compound_graduation",
        json!(size(known.compound_graduation)),
    );
    put("swing_bed", json!(size(known.swing_bed)));
    put("swing_slide", json!(size(known.swing_slide)));
    put("centers", json!(size(known.centers)));
    put("swivel_graduation", json!(kept.taper.swivel_graduation));
    put(
        "swivel_zero",
        json!(kept.taper.swivel_zero.map(SwivelZero::word)),
    );
    put("set_over", json!(size(kept.taper.set_over)));
    put("last", json!(kept.last));
    Value::Object(told)
}
