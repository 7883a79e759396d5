//! A worked sheet turned into the settings of one lathe: what is known of the lathe gives them, and what is not known
//! is said as that. Nothing is taken for granted in its place.

mod card;
mod fills;
mod taper;
mod turning;

pub use card::{changed, keep_card, revised};
pub use fills::{FILLED, fills};
pub use taper::{Between, SetOver, Swivel, TAPER, Taper, taper};
pub use turning::{TURNING, Turning, TurningSpeed, turning};

use measure::{Angle, Dimension, Fraction, Length, Size, Unit, entered, fraction};
use physics::{Given, Sheet, Shown};

use crate::Refusal;
use crate::book::{DialReads, LatheKnown, ThreadDial};

/// The sheet whose settings are worked here.
pub const THREAD: &str = "thread.cutting";

/// Sheets that are turned into settings.
pub const SET: [&str; 3] = [THREAD, TURNING, TAPER];

/// What of a lathe must be stated before a setting can be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// The pitch of the leadscrew.
    Leadscrew,
    /// The change wheels.
    Wheels,
    /// Turns of the first driver to one of the spindle.
    SpindleRatio,
    /// The thread dial, or that it has none.
    ThreadDial,
    /// Spindle speeds.
    Speeds,
    /// What the cross-slide's dial reads.
    CrossReads,
    /// Its graduation.
    CrossGraduation,
    /// The compound's graduation.
    CompoundGraduation,
    /// Swing over the cross-slide.
    SwingSlide,
    /// One graduation of the compound's swivel.
    SwivelGraduation,
    /// From where the swivel's scale counts.
    SwivelZero,
    /// How far the tailstock goes over.
    SetOver,
    /// The length between centers.
    Centers,
}

/// A setting, or what must be stated first.
pub type Told<T> = Result<T, Vec<Missing>>;

/// The settings of one lathe for one thread.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// The change wheels.
    pub wheels: Told<Wheels>,
    /// The half nuts.
    pub half_nuts: Told<HalfNuts>,
    /// Full depth by the compound; nothing where the tool is fed straight in.
    pub compound: Option<Told<Infeed>>,
    /// Full depth straight in by the cross-slide, and what its dial reads.
    pub cross: Told<(Infeed, DialReads)>,
    /// The spindle.
    pub speed: Told<Speed>,
    /// Over the cross-slide.
    pub swing: Swing,
}

/// The change wheels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wheels {
    /// The best train that its wheels make.
    Train {
        /// Spindle to leadscrew, with its error, as the sheet tells it.
        best: String,
        /// Whether it cuts the pitch exactly.
        exact: bool,
        /// Whether the room at the studs was stated.
        stud_known: bool,
        /// Whether the span of the arm was stated.
        span_known: bool,
    },
    /// No train can be set up; why.
    None(String),
}

/// The half nuts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HalfNuts {
    /// There is no dial: they stay shut, and the lathe is run back.
    NoDial,
    /// The train is not exact, so no line comes round right: they stay shut.
    NotExact,
    /// Where they may be closed, as the sheet of the dial tells it.
    Dial {
        /// In words.
        engage: String,
        /// Lines at which they may be; none where they stay shut.
        usable: u32,
        /// Whether the change wheels were looked at: it holds for a train that is exact.
        train_known: bool,
    },
    /// The dial's sheet does not take this; why.
    CannotTell(String),
}

/// An infeed in graduations of a dial, counted from the zero at which the tool touches.
#[derive(Debug, Clone, PartialEq)]
pub struct Infeed {
    /// One graduation.
    pub graduation: Size,
    /// Graduations to each pass of the sheet's table, spring passes left out; the last is full depth.
    pub passes: Vec<f64>,
}

impl Infeed {
    /// Graduations to full depth.
    pub fn full(&self) -> f64 {
        self.passes.last().copied().unwrap_or(0.0)
    }
}

/// The spindle's speed, turns a minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Speed {
    /// What the sheet allows.
    pub most: u32,
    /// The highest it has that is no more; nothing where its slowest is faster.
    pub set: Option<u32>,
    /// The slowest it has.
    pub slowest: u32,
    /// Whether the sheet was told run-out and reaction time, so that a person can stop in time.
    pub by_runout: bool,
}

/// Whether the work swings over the cross-slide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Swing {
    /// Its thread does, so much diameter under so much swing.
    Clears(Size, Size),
    /// It does not.
    Fouls(Size, Size),
    /// An inside thread: the outside of the piece is not told.
    Outside,
    /// The swing was not stated.
    NotKnown,
}

/// Turns a worked thread into the settings of a lathe.
///
/// # Errors
/// Input: the sheet is not [`THREAD`], or does not read back.
pub fn settings(known: &LatheKnown, sheet: &Sheet) -> Result<Settings, Refusal> {
    if sheet.card.id != THREAD {
        return Err(Refusal::input(format!(
            "The settings of a lathe are worked for {THREAD}, not for {}.",
            sheet.card.id
        )));
    }
    let thread = Thread::of(sheet).ok_or_else(|| {
        Refusal::input(format!(
            "The sheet {THREAD} does not read back as a thread."
        ))
    })?;
    let wheels = wheels(known, &thread);
    let compound = thread.travel.as_ref().map(|travel| {
        let graduation = known.compound_graduation;
        let graduation = graduation.ok_or_else(|| vec![Missing::CompoundGraduation])?;
        Ok(infeed(graduation, 1.0, travel))
    });
    Ok(Settings {
        half_nuts: half_nuts(known, &thread, wheels.as_ref().ok()),
        wheels,
        compound,
        cross: cross(known, &thread),
        speed: speed(known, &thread),
        swing: swing(known, &thread),
    })
}

/// What of a worked thread the settings hang on, as the sheet prints it.
struct Thread<'s> {
    sheet: &'s Sheet,
    /// The lead as threads in the inch, exact, as a sheet reads it.
    lead: String,
    /// The diameter, where the thread is outside.
    outside: Option<Size>,
    /// Depth of each pass, square to the axis, inches.
    depth: Vec<f64>,
    /// The same along the compound; nothing where the tool is fed straight in.
    travel: Option<Vec<f64>>,
}

impl<'s> Thread<'s> {
    fn of(sheet: &'s Sheet) -> Option<Thread<'s>> {
        let input = |name: &str| sheet.inputs.iter().find(|input| input.name == name);
        let value = |name: &str| match &input(name)?.value {
            Shown::Quantity { value, .. } => Some(*value),
            _ => None,
        };
        let tpi = entered(&input("tpi")?.entered, Dimension::PerInch, sheet.house).ok()?;
        let tpi = tpi.exact.filter(|_| tpi.unit == Unit::PerInch)?;
        // A count is read as a whole number; the cast only drops the nought behind the point.
        let starts = Fraction::from_integer(value("starts")? as i128);
        let lead = format!("{} TPI", fraction::mixed(tpi / starts));
        let outside = match input("side")?.entered.trim() {
            "external" => Some(Size::parse_in(&input("diameter")?.entered, sheet.house).ok()?),
            _ => None,
        };
        let is_straight = value("infeed_angle")? == 0.0;
        Some(Thread {
            sheet,
            lead,
            outside,
            depth: column(sheet, 2)?,
            travel: if is_straight {
                None
            } else {
                Some(column(sheet, 3)?)
            },
        })
    }

    fn turns(&self, name: &str) -> Option<u32> {
        number(self.sheet, name).map(|turns| turns as u32)
    }
}

/// A column of the sheet's table of passes, spring passes left out.
fn column(sheet: &Sheet, at: usize) -> Option<Vec<f64>> {
    let Some(Shown::Table { rows, .. }) = sheet.result("pass_table") else {
        return None;
    };
    let passes = rows.iter().filter(|row| {
        let pass = row.first().map(String::as_str);
        pass.is_some_and(|pass| pass.parse::<u32>().is_ok())
    });
    passes.map(|row| row.get(at)?.parse().ok()).collect()
}

/// What `read` finds in a sheet of this id.
fn reread<T>(id: &str, sheet: &Sheet, read: impl FnOnce() -> Option<T>) -> Result<T, Refusal> {
    let found = (sheet.card.id == id).then(read).flatten();
    found.ok_or_else(|| {
        Refusal::input(format!(
            "The settings of a lathe were wanted for {id}; {} does not read back as that.",
            sheet.card.id
        ))
    })
}

/// An argument that is a length, inches.
fn inches(sheet: &Sheet, name: &str) -> Option<f64> {
    let input = sheet.inputs.iter().find(|input| input.name == name)?;
    match input.value {
        Shown::Quantity { si: Some(si), .. } => Some(Length::m(si).to_inches()),
        _ => None,
    }
}

/// A result that is a length, inches.
fn result_inches(sheet: &Sheet, name: &str) -> Option<f64> {
    match sheet.result(name)? {
        Shown::Quantity { si: Some(si), .. } => Some(Length::m(*si).to_inches()),
        _ => None,
    }
}

/// A result that is an angle, degrees.
fn degrees(sheet: &Sheet, name: &str) -> Option<f64> {
    match sheet.result(name)? {
        Shown::Quantity { si: Some(si), .. } => Some(Angle::radians(*si).to_degrees()),
        _ => None,
    }
}

fn number(sheet: &Sheet, name: &str) -> Option<f64> {
    match sheet.result(name) {
        Some(Shown::Quantity { value, .. }) => Some(*value),
        _ => None,
    }
}

fn words(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Text(said)) => said.clone(),
        _ => String::new(),
    }
}

/// Trains of two wheels first, then of four; of six none, since few quadrants take three pairs and nobody states it.
fn wheels(known: &LatheKnown, thread: &Thread<'_>) -> Told<Wheels> {
    let (Some(leadscrew), Some(owned), Some(spindle)) =
        (&known.leadscrew, &known.wheels, &known.spindle_ratio)
    else {
        let wanting = [
            (known.leadscrew.is_none(), Missing::Leadscrew),
            (known.wheels.is_none(), Missing::Wheels),
            (known.spindle_ratio.is_none(), Missing::SpindleRatio),
        ];
        return Err(lacks(wanting));
    };
    let gears: Vec<String> = owned.iter().map(u32::to_string).collect();
    let mut given = vec![
        Given::typed("leadscrew", leadscrew),
        Given::typed("wanted", &thread.lead),
        Given::typed("gears", &gears.join(",")),
        Given::typed("spindle_ratio", spindle),
    ];
    let counts = [("stud", known.stud), ("span", known.span)];
    for (name, told) in counts {
        given.extend(told.map(|told| Given::typed(name, &told.to_string())));
    }
    let mut best: Option<(f64, String)> = None;
    let mut why = String::new();
    for count in ["2", "4"] {
        let asked = [&given[..], &[Given::typed("wheels", count)]].concat();
        match physics::run("lathe.change_gears", &asked, thread.sheet.house) {
            Ok(sheet) => {
                let error = number(&sheet, "best_error_ppm")
                    .unwrap_or(f64::INFINITY)
                    .abs();
                // The simpler train stands where the other is no nearer.
                if best.as_ref().is_none_or(|(known, _)| error < *known) {
                    best = Some((error, words(&sheet, "best")));
                }
            }
            Err(error) => why = error.to_string(),
        }
    }
    Ok(best.map_or(Wheels::None(why), |(_, best)| Wheels::Train {
        exact: best.ends_with("exact"),
        best,
        stud_known: known.stud.is_some(),
        span_known: known.span.is_some(),
    }))
}

fn half_nuts(known: &LatheKnown, thread: &Thread<'_>, wheels: Option<&Wheels>) -> Told<HalfNuts> {
    let (teeth, lines) = match known.thread_dial {
        None => return Err(vec![Missing::ThreadDial]),
        Some(ThreadDial::None) => return Ok(HalfNuts::NoDial),
        Some(ThreadDial::Wheel { teeth, lines }) => (teeth, lines),
    };
    if let Some(Wheels::Train { exact: false, .. }) = wheels {
        return Ok(HalfNuts::NotExact);
    }
    let leadscrew = known.leadscrew.as_deref();
    let leadscrew = leadscrew.ok_or_else(|| vec![Missing::Leadscrew])?;
    let given = [
        Given::typed("leadscrew", leadscrew),
        Given::typed("wanted", &thread.lead),
        Given::typed("wheel", &teeth.to_string()),
        Given::typed("lines", &lines.to_string()),
    ];
    let worked = physics::run("lathe.thread_dial", &given, thread.sheet.house);
    Ok(worked.map_or_else(
        |error| HalfNuts::CannotTell(error.to_string()),
        |sheet| HalfNuts::Dial {
            engage: words(&sheet, "engage"),
            usable: number(&sheet, "usable").map_or(0, |lines| lines as u32),
            train_known: matches!(wheels, Some(Wheels::Train { .. })),
        },
    ))
}

/// What is missing, of what may be.
fn lacks(all: impl IntoIterator<Item = (bool, Missing)>) -> Vec<Missing> {
    let missing = all.into_iter().filter(|(is_missing, _)| *is_missing);
    missing.map(|(_, what)| what).collect()
}

/// Graduations to each way in inches; `times` is what the dial tells of an inch of it.
fn infeed(graduation: Size, times: f64, ways: &[f64]) -> Infeed {
    let one = fraction::to_f64(graduation.inches());
    Infeed {
        graduation,
        passes: ways.iter().map(|way| way * times / one).collect(),
    }
}

fn cross(known: &LatheKnown, thread: &Thread<'_>) -> Told<(Infeed, DialReads)> {
    cross_infeed(known, &thread.depth)
}

/// Ways square to the axis, inches, in graduations of the cross-slide's dial.
fn cross_infeed(known: &LatheKnown, ways: &[f64]) -> Told<(Infeed, DialReads)> {
    let (Some(reads), Some(graduation)) = (known.cross_reads, known.cross_graduation) else {
        let wanting = [
            (known.cross_reads.is_none(), Missing::CrossReads),
            (known.cross_graduation.is_none(), Missing::CrossGraduation),
        ];
        return Err(lacks(wanting));
    };
    let times = match reads {
        DialReads::Radius => 1.0,
        DialReads::Diameter => 2.0,
    };
    Ok((infeed(graduation, times, ways), reads))
}

fn speed(known: &LatheKnown, thread: &Thread<'_>) -> Told<Speed> {
    let by_metal = thread.turns("rpm_by_speed").unwrap_or(0);
    let by_runout = thread.turns("rpm_limit");
    let most = by_runout.map_or(by_metal, |limit| limit.min(by_metal));
    let speeds = known.speeds.as_deref().unwrap_or_default();
    let slowest = speeds.iter().min().copied();
    let slowest = slowest.ok_or_else(|| vec![Missing::Speeds])?;
    Ok(Speed {
        most,
        set: speeds.iter().filter(|it| **it <= most).max().copied(),
        slowest,
        by_runout: by_runout.is_some(),
    })
}

fn swing(known: &LatheKnown, thread: &Thread<'_>) -> Swing {
    thread
        .outside
        .map_or(Swing::Outside, |work| swings(known, work))
}

/// Whether a diameter, inches, swings over the cross-slide.
fn over_slide(known: &LatheKnown, diameter: f64) -> Swing {
    swings(
        known,
        Size::nearest_to(Length::inches(diameter)).unwrap_or(Size::from_ticks(i64::MAX)),
    )
}

fn swings(known: &LatheKnown, work: Size) -> Swing {
    match known.swing_slide {
        None => Swing::NotKnown,
        Some(swing) if work < swing => Swing::Clears(work, swing),
        Some(swing) => Swing::Fouls(work, swing),
    }
}
