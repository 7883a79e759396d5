//! The bench: readings entered at the part, by keypad, with or without a signal.
//!
//! What the scripts say stands here too: a page carries the sentences in [`SAID`] with it, and in them `{n}` and the
//! like are filled in on the device.

use jiff::civil::DateTime;

/// The title of the page of places to measure, and the way there.
pub const TITLE: &str = "The bench";
/// What it is for.
pub const WHY: &str = "Measure here with the phone in one hand. A page that was opened once works without a signal; what is written then waits in \
this pocket and goes to the book by itself, once, under the name of whoever wrote it.";
/// On the first day.
pub const FIRST_DAY: &str = "On the first day: open the page of what is to be measured while there is still a signal, or take a whole engine along, \
then go to the pit.";
/// A list.
pub const ASKED: &str = "What open work asks for";
/// None.
pub const NOTHING_ASKED: &str = "No finding and no job is open.";
/// A list.
pub const ENGINES: &str = "By engine";
/// A button, for scripts.
pub const TAKE_ALONG: &str = "Take these pages along";
/// Nothing to measure.
pub const NO_PARTS: &str = "No part of hers is in the book yet.";
/// A way to the page of one feature.
pub const AT_BENCH: &str = "At the bench";
/// Under it.
pub const AT_BENCH_WHY: &str = "One place after the other, by keypad, with or without a signal.";
/// Heads a choice.
pub const STATE: &str = "These readings are";
/// A choice.
pub const AS_FOUND: &str = "As found";
/// A choice.
pub const AS_LEFT: &str = "As left";
/// A field.
pub const INSTRUMENT: &str = "Measured with";
/// A field.
pub const REGISTERED: &str = "One of the shop's";
/// A choice.
pub const INSTRUMENT_BELOW: &str = "not said, or written below";
/// A mark beside an instrument.
pub const FOUND_WRONG: &str = "(found wrong at its last check)";
/// A field.
pub const INSTRUMENT_WORDS: &str = "In words";
/// What it tells.
pub const INSTRUMENT_TELLS: &str = "micrometer, steel rule";
/// A fold.
pub const MORE: &str = "Temperature, and who measured";
/// A field.
pub const INSIST_TELLS: &str = "only where the book has asked";
/// A button.
pub const KEEP: &str = "Keep these readings";
/// Over the places.
pub const PLACES: &str = "Place by place";
/// In a picture.
pub const FRONT: &str = "front";
/// In a picture.
pub const FROM_BEHIND: &str = "seen from behind";
/// Nothing was left here.
pub const NEVER_LEFT: &str = "never left before";
/// Keys of the keypad: what they say, what is read out.
pub const AND: &str = "and";
/// A key.
pub const AND_READ: &str = "and, between whole inches and a fraction";
/// A key.
pub const THOU: &str = "thou";
/// A key.
pub const THOU_READ: &str = "thou, thousandths of an inch";
/// A key.
pub const BACK: &str = "\u{232b}";
/// A key.
pub const BACK_READ: &str = "take the last figure back";
/// A key.
pub const POINT_READ: &str = "point";
/// A key.
pub const DEGREES: &str = "d";
/// A key.
pub const DEGREES_READ: &str = "d, degrees before minutes";
/// A key.
pub const MINUTES: &str = "m";
/// A key.
pub const MINUTES_READ: &str = "m, minutes";
/// The keys together.
pub const KEYPAD: &str = "Keypad";
/// What waits and what came back.
pub const POCKET: &str = "In this pocket";

/// What the scripts say, by the word they ask for it with; of one and of several with a bar between.
pub const SAID: &[(&str, &str)] = &[
    ("of", "{n} of {all}"),
    ("empty", "nothing written yet"),
    ("enter", "Write it, next place"),
    ("skip", "Not read here, next place"),
    ("keep", "Keep this reading | Keep these {n} readings"),
    ("unfinished", "That is not finished: {value}"),
    (
        "improper",
        "{value} is more than a whole inch: write whole inches, then \"and\", then the fraction.",
    ),
    ("choose", "First say whether these are as found or as left."),
    ("nothing", "Nothing was read yet."),
    (
        "pocketed",
        "1 reading of the {what} is in this pocket. Nothing is lost. | {n} readings of the {what} are in this pocket. Nothing is lost.",
    ),
    (
        "landed",
        "1 reading of the {what} is in the book. | {n} readings of the {what} are in the book.",
    ),
    (
        "asked",
        "The book asks about them: see below. Nothing is lost.",
    ),
    (
        "in-book",
        "In the book today from this phone: 1 reading. | In the book today from this phone: {n} readings.",
    ),
    (
        "waiting",
        "In this pocket, not yet in the book: 1 reading. | In this pocket, not yet in the book: {n} readings.",
    ),
    ("none-waiting", "Nothing waits in this pocket."),
    (
        "no-signal",
        "The book does not answer. It last answered this phone at {when}. Nothing is lost; this page tries again by itself.",
    ),
    (
        "never-answered",
        "The book does not answer. Nothing is lost; this page tries again by itself.",
    ),
    (
        "kept",
        "{what}: 1 reading, entry {entry} | {what}: {n} readings, entry {entry}",
    ),
    (
        "waits",
        "{what}, {state}: 1 reading by {who}, written {when} | {what}, {state}: {n} readings by {who}, written {when}",
    ),
    (
        "whose",
        "The book does not know this phone as {who}'s any more: {who} signs in on it once, then it is sent.",
    ),
    ("back", "The book asks. Nothing of it is lost:"),
    (
        "back-head",
        "Came back: {what}, {state}, by {who}, written {when}",
    ),
    ("why", "Why it is right all the same"),
    ("insist", "Send it again with that"),
    ("change", "Change it"),
    ("give-up", "Take it out of the pocket"),
    ("sure", "Sure? It is then nowhere"),
    (
        "nobody",
        "Nobody is signed in on this phone, so nothing can be entered here. What waits in the pocket stays.",
    ),
    ("restored", "What was begun here before is still here."),
    ("taken", "{n} pages are on this phone now."),
    (
        "not-taken",
        "Not all pages came: is there a signal? {n} are on this phone now.",
    ),
    (
        "no-store",
        "This phone keeps nothing by itself here, so these readings go to the book at once or not at all.",
    ),
    ("as-found", "as found"),
    ("as-left", "as left"),
];

/// The title of a page.
pub fn title(feature: &str, part: &str, number: &str) -> String {
    format!("{feature}, {part}, No. {number}")
}

/// Whose part it is, under the name of the feature.
pub fn of(part: &str, number: &str) -> String {
    format!("{part}, No. {number}")
}

/// How old the page is.
pub fn age(made: DateTime) -> String {
    format!(
        "As this phone had it at {}, {}.",
        made.strftime("%H:%M"),
        super::day(made.date())
    )
}

/// A picture, for those who do not see it.
pub fn picture(place: &str) -> String {
    format!("Where to measure: {place}")
}

/// A denominator's key, as it is read out.
pub fn fraction(under: u32) -> String {
    format!("over {under}")
}

/// The clock of a device against the book's.
pub fn clock_off(minutes: i64) -> String {
    let way = if minutes < 0 { "behind" } else { "ahead of" };
    let minutes = minutes.abs();
    let told = match (minutes / 60, minutes % 60) {
        (0, m) => super::count(usize::try_from(m).unwrap_or(0), "minute", "minutes"),
        (h, m) => format!("{h} h {m} min"),
    };
    format!(
        "The clock of this phone is {told} {way} the book's. The days of the readings are reckoned by the book's clock, from how long ago they were \
         written; put the phone's clock right."
    )
}

/// Somebody else measured the same meanwhile.
pub fn also_measured(name: &str, entry: u64) -> String {
    format!(
        "{name} measured this part too since this phone had the page (entry {entry}). Both are in the book."
    )
}

/// Not a queue.
pub const UNREADABLE: &str =
    "What was sent does not read as readings of the bench. Nothing was saved.";

/// Too many at once.
pub fn too_many(most: usize) -> String {
    format!(
        "More than {most} sets were sent at once. Nothing was saved; send them in smaller parts."
    )
}

/// An id that is none.
pub fn no_id(id: &str) -> String {
    format!(
        "`{id}` is not the id of an entry: 32 hexadecimal figures were expected. Nothing was saved."
    )
}

/// In the place of places to read, where a finding has them all.
pub fn all_read(finding: &str) -> String {
    format!("{finding} has every place of this: what it was found at stands.")
}
