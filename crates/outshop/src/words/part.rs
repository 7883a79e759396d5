//! A part's life.

use jiff::civil::Date;

/// Heads a form.
pub const MEASURE: &str = "Enter readings";
/// Asks.
pub const AS_WHAT: &str = "They are";
/// A section.
pub const FACTS: &str = "Facts";
/// A fact nobody stated.
pub const NOT_KNOWN: &str = "not known";
/// A section.
pub const FOUND_AND_LEFT: &str = "As found and as left";
/// No reading.
pub const NEVER_MEASURED: &str = "Never measured in this book.";
/// A section.
pub const TOOLING: &str = "Tooling that fits it";
/// None.
pub const NO_TOOLING: &str = "None on the shelves.";
/// A section.
pub const FINDINGS: &str = "Findings";
/// A field.
pub const SEEN: &str = "What was seen";
/// What it tells.
pub const SEEN_TELLS: &str = "where, hot or cold, at what pressure";
/// A field.
pub const FOUND_AT: &str = "Found at";
/// A choice: no inspection.
pub const NO_INSPECTION: &str = "no inspection";
/// A field.
pub const OCCASION: &str = "Otherwise it came of";
/// Its choices, by the words of the verb. A notice or a road failure is entered on a page of its own.
pub const OCCASIONS: &[(&str, &str)] = &[
    ("write-up", "a write-up"),
    ("planned-work", "planned work on it"),
];
/// Over the conditions.
pub const IT: &str = "It";
/// How readings are written.
pub const AS_WRITTEN: &str =
    "Readings as written, with their unit. A place left blank is not read, and says so.";
/// A form.
pub const RECORD: &str = "Record a finding";
/// Its button.
pub const RECORD_IT: &str = "Record it";

/// The head of the page, before the engine's number.
pub fn head(part: &str) -> String {
    format!("{part}, ")
}

/// The title of the page.
pub fn title(part: &str, engine: &str) -> String {
    format!("{part}, No. {engine}")
}

/// Over the column of metal.
pub fn metal_left(left: &str, re_cuts: Option<i64>) -> String {
    match re_cuts {
        Some(n) => format!("Metal left: {left}, {}", super::re_cuts(n)),
        None => format!("Metal left: {left}"),
    }
}

/// What the column stands on.
pub fn was(feature: &str, now: &str, state: measure::State, on: Date) -> String {
    format!(
        "The {feature} was {now} {} on {}.",
        super::state(state),
        super::day(on)
    )
}

/// The column, for those who do not see it.
pub fn column(left: &str) -> String {
    format!("{left} of metal left above the shop limit")
}

/// A mark beside the column.
pub fn as_built(size: &str) -> String {
    format!("as built {size}")
}

/// A mark beside the column.
pub fn now(size: &str) -> String {
    format!("now {size}")
}

/// A mark beside the column.
pub fn shop_limit(size: &str) -> String {
    format!("our shop limit {size}")
}

/// Under the column.
pub const HATCHED: &str = "hatched: not ours to spend";

/// Over a set of readings.
pub fn set(on: Date, state: measure::State) -> String {
    format!("{}, {}", super::day(on), super::state(state))
}

/// Who read, and which entry says so.
pub fn by(name: &str, entry: u64) -> String {
    format!("by {name}, entry {entry}")
}

/// What a tool is and where it lies.
pub fn tool(what: &str, shelf: &str) -> String {
    format!("{what}: {shelf}")
}

/// When it was found, and what.
pub fn found(on: Date, told: &str) -> String {
    format!("{}: {told}", super::day(on))
}

/// An open inspection as a choice.
pub fn inspection(kind: &str, tag: &str) -> String {
    format!("the {kind} inspection {tag}")
}

/// What was read here when it was last closed.
pub fn last_left(read: &str) -> String {
    format!("last left {read}")
}

/// How far a feature is from round and straight.
pub fn shape(shape: &shop::locomotive::Shape, house: measure::House) -> String {
    let told = |what: &str, it: &Option<(measure::Size, String)>, at: &str| {
        let (size, word) = it.as_ref()?;
        let size = measure::show::size(*size, house);
        Some(if word.is_empty() {
            format!("{what} {size}")
        } else {
            format!("{what} {size} {at} {word}")
        })
    };
    let all = [
        told("out of round", &shape.ovality, "at"),
        told("taper", &shape.taper, "along"),
    ];
    let all: Vec<_> = all.into_iter().flatten().collect();
    all.join("; ")
}

/// How a set of readings was taken, and what was questioned in it: a line each.
pub fn taken(set: &shop::book::ReadingSet) -> Vec<String> {
    let Some(taken) = &set.taken else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    lines.extend(taken.standing.map(|it| format!("engine {}", standing(it))));
    lines.extend(
        taken
            .supported
            .as_ref()
            .map(|it| format!("supported: {it}")),
    );
    for q in &taken.questioned {
        lines.push(format!(
            "questioned at {} {}: {}",
            q.feature, q.position, q.asked
        ));
    }
    lines.extend(
        taken
            .insisted
            .as_ref()
            .map(|why| format!("insisted on: {why}")),
    );
    lines
}

/// The state of an engine.
pub fn standing(it: shop::book::EngineState) -> &'static str {
    match it {
        shop::book::EngineState::ColdAndDrained => "cold and drained",
        shop::book::EngineState::ColdAndFull => "cold and full",
        shop::book::EngineState::Hot => "hot",
    }
}

/// A part that is on the engine no more.
pub fn taken_off(day: &str) -> String {
    format!("Taken off {day}; its life stays readable.")
}

/// A section.
pub const WHERE_IT_IS: &str = "Where it is";
/// A line.
pub const POSITION: &str = "position";
/// A line, and a field.
pub const WITHIN: &str = "within";
/// A line.
pub const HOLDS: &str = "holds";
/// A line, and a field.
pub const MATES: &str = "mates with";
/// A line.
pub const MIRROR: &str = "other side";
/// A line, and a field.
pub const REACH: &str = "comes off first";
/// A line, and a field.
pub const MATERIAL: &str = "material";
/// A line, and a field.
pub const DRAWING: &str = "drawing";
/// A line, and a field.
pub const ALSO: &str = "also called";
/// A line, and a field.
pub const FITTED: &str = "fitted";
/// A line, and a field.
pub const REMOVED: &str = "taken off";
/// A line, and a field.
pub const DONOR: &str = "from engine";
/// A line, and a field.
pub const LEAD_TIME: &str = "lead time";
/// What is expected in it.
pub const LEAD_TIME_TELLS: &str = "from the order to its standing here: days, or such as 6 weeks";

/// Side, axle and place in one line, if any was told.
pub fn position(side: Option<&str>, axle: Option<u32>, at: Option<&str>) -> Option<String> {
    let axle = axle.map(|axle| format!("axle {axle}"));
    let told: Vec<&str> = [side, axle.as_deref(), at].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join(", "))
}

/// A section.
pub const SIZES_AND_LIMITS: &str = "Sizes and limits";
/// No limit.
pub const NO_LIMIT: &str = "No limit on file, the law's or ours.";
/// A column.
pub const WHAT: &str = "What";
/// A column.
pub const NEWEST: &str = "Newest";
/// A column.
pub const LIMIT: &str = "Limit";
/// A column.
pub const HOW_IT_STANDS: &str = "How it stands";
/// Before a limit of the law.
pub const RULE_LIMIT: &str = "law";
/// Before a limit of our own, and a field.
pub const SHOP_LIMIT: &str = "our limit";
/// Not read.
pub const NOT_READ: &str = "not read";
/// Under the limits.
pub const OF_THE_NEWEST: &str = "Of the newest reading at each place, whenever it was taken: a verdict for a decision is worked in a finding.";

/// What a feature was drawn, built and cut to; nothing where nobody said.
pub fn sizes(told: &shop::book::FeatureTold) -> Option<String> {
    let one = |what: &str, it: &Option<String>| it.as_ref().map(|it| format!("{what} {it}"));
    let all = [
        one("drawn", &told.drawn),
        one("as built", &told.as_built),
        one("our limit", &told.shop_limit),
        one("one re-cut", &told.step),
        (!told.steps.is_empty()).then(|| format!("steps {}", told.steps.join(", "))),
    ];
    let all: Vec<_> = all.into_iter().flatten().collect();
    (!all.is_empty()).then(|| all.join("; "))
}

/// A section.
pub const WHAT_WEAR_TOOK: &str = "What wear took";
/// A column.
pub const WENT: &str = "Went";
/// Over the newest of both sides.
pub fn beside(other: &str) -> String {
    format!("Beside {other}")
}
/// This side.
pub const HERE: &str = "here";
/// The other side.
pub const THERE: &str = "there";
/// A section.
pub const INSTRUMENTS: &str = "Instruments";
/// A section.
pub const WHO_SAID_SO: &str = "Who said what of it";

/// One telling.
pub fn said(on: Date, of: &[String], by: &str, document: Option<&str>, entry: u64) -> String {
    let paper = document.map_or(String::new(), |paper| format!(", {paper}"));
    format!(
        "{}: {}, by {by}{paper} (entry {entry})",
        super::day(on),
        of.join(", ")
    )
}

/// What readings were taken with, where all say the same or each says its own; and who measured, where told.
pub fn with(readings: &[&shop::book::FeatureReading]) -> String {
    let mut told: Vec<String> = Vec::new();
    for read in readings {
        if let Some(with) = &read.reading.instrument
            && !told.contains(with)
        {
            told.push(with.clone());
        }
    }
    for read in readings {
        let by = format!("measured by {}", read.reading.measured_by);
        if read.reading.measured_by != read.reading.typed_by && !told.contains(&by) {
            told.push(by);
        }
        if let Some(warm) = &read.reading.part_temperature {
            let warm = format!("part at {warm}");
            if !told.contains(&warm) {
                told.push(warm);
            }
        }
    }
    told.join(", ")
}

/// Beside a field.
pub const IN_INCHES: &str = "A bare number here is inches.";
/// Beside a field.
pub const IN_MILLIMETERS: &str = "A bare number here is millimeters.";
/// Beside a field.
pub const IN_DEGREES: &str = "A bare number here is degrees.";
/// A fold.
pub const HOW_TAKEN: &str = "How they were taken";
/// A field.
pub const MEASURED_BY: &str = "Measured by";
/// What it tells.
pub const MEASURED_BY_TELLS: &str = "if not by you";
/// A field.
pub const TEMPERATURE: &str = "Temperature of the part";
/// What it tells.
pub const TEMPERATURE_TELLS: &str = "with its unit, such as 68 F";
/// A field.
pub const SUPPORTED: &str = "How it was supported";
/// What it tells.
pub const SUPPORTED_TELLS: &str = "on centers, hanging, weight on the springs";
/// A field.
pub const STANDING: &str = "The engine was";
/// A choice.
pub const NOT_SAID: &str = "not said";
/// A field.
pub const INSIST: &str = "If a reading is questioned and is right";
/// What it tells.
pub const INSIST_TELLS: &str = "say why; it is kept, and marked";
/// Its button.
pub const KEEP_READINGS: &str = "Keep them";
/// A form.
pub const TELL: &str = "Say more of it";
/// Its button.
pub const TELL_IT: &str = "Keep it";
/// Over the form.
pub const LEFT_AS_IT_WAS: &str = "What is left blank stays as it was.";
/// A choice.
pub const AS_IT_WAS: &str = "as it was";
/// A field.
pub const SIDE: &str = "side";
/// A field.
pub const AXLE: &str = "axle";
/// What it tells.
pub const AXLE_TELLS: &str = "coupled axles from the front";
/// A field.
pub const AT: &str = "where more exactly";
/// What a list takes.
pub const SEMICOLONS: &str = "several with ; between";
/// What a day takes.
pub const DAY_OR_YEAR: &str = "1998, 1998-04 or 1998-04-18";
/// A field.
pub const DRAWN: &str = "on the drawing";
/// A field.
pub const AS_BUILT: &str = "as built";
/// A field.
pub const STEP: &str = "one re-cut";
/// A field.
pub const DOCUMENT: &str = "Read from";
/// What it tells.
pub const DOCUMENT_TELLS: &str = "the paper, or who remembers it";

/// A section.
pub const PHOTOS: &str = "Photographs and scans";
/// None.
pub const NO_PHOTO: &str = "None in this book.";
/// A form.
pub const ADD_PHOTO: &str = "Add a photograph or a scan";
/// A field.
pub const FILE: &str = "File: JPEG, PNG, WebP or PDF, 16 MB at most";
/// A field.
pub const SHOWS: &str = "What it shows";
/// A choice.
pub const THE_PART: &str = "the part";
/// A field.
pub const SEEN_ON_IT: &str = "What is seen on it";
/// Its button.
pub const KEEP_IT: &str = "Keep it in the book";
/// Nothing came through.
pub const NOT_SENT: &str =
    "The file did not come through whole, or is larger than 16 MB. Nothing was saved.";
/// No file.
pub const NO_FILE: &str = "No file was chosen. Nothing was saved.";

/// A set of readings as a choice.
pub fn readings_of(on: Date, state: measure::State) -> String {
    format!("readings of {}", set(on, state))
}

/// Under a photograph.
pub fn photo(tag: &str, told: &str, on: Date, by: &str) -> String {
    format!("{tag} {told} ({}, by {by})", super::day(on))
}

/// A link under a photograph.
pub const READINGS_IT_SHOWS: &str = "the readings it shows";

/// A photograph whose bytes are not in the book.
pub fn gone(number: &str) -> String {
    format!("What {number} shows is gone from the book.")
}

/// Which proof of a job a photograph shows.
pub const PROOF_SHOWN: &str = "Which proof it shows";
