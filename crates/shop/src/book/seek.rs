//! By which words a thing is found: what a row of the book says, and what somebody asks for, cut into the same pieces.
//!
//! A shop writes `5/32in`, `10/64`, `.1560 in`, `14-B-203`, `side-rod`, `old No. 7`. Each is kept as it would be asked
//! for, however it was written: a fraction in its lowest terms and as its decimal, a decimal without the noughts that
//! say nothing, a code whole, run together and in pieces, a number with its sign.

use std::collections::BTreeSet;

use serde_json::Value;

use super::rows::RowKind;

/// Names of fields whose words say nothing that anybody would ask for. Of a part's newest set the set itself is found: a
/// part whose words changed with each reading would be taken out of the index and put in again every time, which costs
/// as much as there are parts with words like its own.
const PASSED_OVER: &[&str] = &[
    "state", "sha256", "media", "typed_by", "on_what", "counted", "read",
];

/// The letters before the number that people call a thing by.
fn letter(kind: RowKind) -> Option<&'static str> {
    match kind {
        RowKind::Inspection => Some("i"),
        RowKind::Finding => Some("f"),
        RowKind::Job => Some("j"),
        RowKind::Tooling => Some("t"),
        RowKind::Photo => Some("p"),
        RowKind::Spare => Some("s"),
        RowKind::Lathe => Some("la"),
        RowKind::Card => Some("c"),
        RowKind::Letter => Some("l"),
        RowKind::Report => Some("w"),
        _ => None,
    }
}

/// Whether things of a kind are found by their words. A fire has none, and what a shop adopted as text is asked for in
/// the rulebook and among the families.
pub fn is_found(kind: RowKind) -> bool {
    !matches!(
        kind,
        RowKind::Shop | RowKind::Family | RowKind::RuleSet | RowKind::Fire | RowKind::Log
    )
}

/// The words that a row is found by, each once, in order, with blanks between; nothing for a row that is not found.
///
/// They hang on the row's own text alone, so that a row that is right has the right words.
pub fn row_words(kind: RowKind, text: &str) -> Option<String> {
    if !is_found(kind) {
        return None;
    }
    let row: Value = serde_json::from_str(text).ok()?;
    let mut words = BTreeSet::new();
    each_leaf(&row, "", &mut |field, leaf| match leaf {
        Leaf::Text(text) => words.extend(pieces(text)),
        Leaf::Number(number) if field == "number" => {
            words.extend(letter(kind).map(|letter| format!("{letter}-{number}")));
        }
        Leaf::Number(_) => {}
    });
    // An engine is asked for by her number with its sign.
    if let (RowKind::Locomotive, Some(number)) = (kind, row.get("number").and_then(Value::as_str)) {
        words.insert(format!("#{}", number.to_lowercase()));
    }
    let words: Vec<String> = words.into_iter().collect();
    Some(words.join(" "))
}

enum Leaf<'v> {
    Text(&'v str),
    Number(u64),
}

/// Walks everything that a row says. Ids and hashes are names for programs.
fn each_leaf<'v>(value: &'v Value, field: &'v str, take: &mut impl FnMut(&'v str, Leaf<'v>)) {
    match value {
        Value::Object(map) => {
            for (name, value) in map {
                if PASSED_OVER.contains(&name.as_str()) {
                    continue;
                }
                // The names of facts and features are words; those of fields are seldom asked for.
                if matches!(
                    field,
                    "facts" | "features" | "proofs" | "knock_ons" | "answers"
                ) {
                    take(field, Leaf::Text(name));
                }
                each_leaf(value, name, take);
            }
        }
        Value::Array(all) => {
            for value in all {
                each_leaf(value, field, take);
            }
        }
        Value::String(text) if !is_id(text) => take(field, Leaf::Text(text)),
        Value::Number(number) => {
            if let Some(number) = number.as_u64() {
                take(field, Leaf::Number(number));
            }
        }
        _ => {}
    }
}

fn is_id(text: &str) -> bool {
    matches!(text.len(), 32 | 64) && text.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// Every piece by which a text is found.
fn pieces(text: &str) -> Vec<String> {
    let chunks = chunks(text);
    let mut all = Vec::new();
    for (at, chunk) in chunks.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| chunks.get(at));
        all.extend(pieces_of(chunk));
        all.extend(joined(before, chunk));
    }
    all
}

/// What a chunk makes with the one before it: `1 1/32` is one size, `No. 7` one number.
fn joined(before: Option<&String>, chunk: &str) -> Vec<String> {
    let Some(before) = before else {
        return Vec::new();
    };
    let number = bare(chunk);
    if matches!(before.as_str(), "no" | "nr" | "number" | "#") && begins_with_digit(number) {
        return vec![format!("#{number}")];
    }
    let whole = !before.is_empty() && before.bytes().all(|byte| byte.is_ascii_digit());
    match fraction(number) {
        Some(read) if whole && read.whole == 0 => {
            fraction(&format!("{before}-{number}")).map_or(Vec::new(), |read| read.words())
        }
        _ => Vec::new(),
    }
}

/// Words as they stand between blanks and marks, in small letters.
fn chunks(text: &str) -> Vec<String> {
    let stays = |c: char| c.is_alphanumeric() || matches!(c, '-' | '.' | '/' | '#');
    let lower = text.to_lowercase();
    let cut = lower.split(|c: char| !stays(c));
    let trimmed = cut.map(|chunk| {
        let chunk = chunk.trim_end_matches(['.', '-', '/']);
        let chunk = chunk.trim_start_matches(['-', '/']);
        let is_decimal = chunk.len() > 1 && begins_with_digit(chunk.trim_start_matches('.'));
        if is_decimal {
            chunk
        } else {
            chunk.trim_start_matches('.')
        }
    });
    trimmed
        .filter(|chunk| !chunk.is_empty())
        .map(String::from)
        .collect()
}

fn begins_with_digit(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit())
}

/// Units that are written against a figure, or after it.
const UNITS: &[&str] = &[
    "in", "mm", "ft", "lb", "lbs", "psi", "psig", "deg", "d", "f", "c", "h", "gal", "tons", "m",
    "cm",
];

/// A figure without the unit that was written against it: `5/32in` is `5/32`.
fn bare(chunk: &str) -> &str {
    let figure = chunk.trim_end_matches(|c: char| c.is_alphabetic());
    let unit = chunk.get(figure.len()..).unwrap_or_default();
    let is_figure = begins_with_digit(figure.trim_start_matches('.'))
        && figure.ends_with(|c: char| c.is_ascii_digit());
    if is_figure && UNITS.contains(&unit) {
        figure
    } else {
        chunk
    }
}

/// The pieces of one chunk, the one it is asked for by first.
fn pieces_of(chunk: &str) -> Vec<String> {
    let figure = bare(chunk);
    if let Some(read) = fraction(figure) {
        return read.words();
    }
    if let Some(read) = decimal(figure) {
        return vec![read];
    }
    if chunk.starts_with('#') {
        let number = chunk.trim_start_matches('#');
        let both = [format!("#{number}"), number.to_string()];
        return both.into_iter().filter(|_| !number.is_empty()).collect();
    }
    if let Some(tag) = tag(chunk) {
        return vec![tag];
    }
    let mut all = vec![chunk.to_string()];
    let is_day = chunk.len() >= 10
        && chunk
            .get(..10)
            .is_some_and(|day| day.parse::<jiff::civil::Date>().is_ok());
    if !is_day && chunk.contains(['-', '/', '.']) {
        let parts = chunk.split(['-', '/', '.']).filter(|part| !part.is_empty());
        all.extend(parts.map(String::from));
        all.push(chunk.replace(['-', '/', '.'], ""));
    }
    all
}

/// `F-001`, `f1`, `LA-001`: one letter, or a lathe's two, and a number, however many noughts stand before it.
fn tag(chunk: &str) -> Option<String> {
    let (letter, number) = match chunk.strip_prefix("la") {
        Some(number) => ("la", number),
        None => chunk.split_at_checked(1)?,
    };
    letter
        .bytes()
        .all(|byte| byte.is_ascii_lowercase())
        .then_some(())?;
    let number = number.strip_prefix('-').unwrap_or(number);
    let number: u32 = number.parse().ok().filter(|_| number.len() <= 6)?;
    Some(format!("{letter}-{number}"))
}

/// A decimal without noughts that say nothing: `0.4120` is `.412`, `012` is `12`.
fn decimal(text: &str) -> Option<String> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if !digits(whole) || !digits(part) || (whole.is_empty() && part.is_empty()) {
        return None;
    }
    let (whole, part) = (whole.trim_start_matches('0'), part.trim_end_matches('0'));
    Some(match (whole, part) {
        ("", "") => "0".to_string(),
        (whole, "") => whole.to_string(),
        (whole, part) => format!("{whole}.{part}"),
    })
}

/// A fraction of an inch as a shop writes one: its denominator is a power of two.
struct Fraction {
    whole: u64,
    over: u64,
    under: u64,
}

fn fraction(text: &str) -> Option<Fraction> {
    let (whole, rest) = text.rsplit_once('-').unwrap_or(("0", text));
    let (over, under) = rest.split_once('/')?;
    let read = |text: &str| text.parse::<u64>().ok().filter(|_| text.len() <= 6);
    let (whole, mut over, mut under) = (read(whole)?, read(over)?, read(under)?);
    if over == 0 || !under.is_power_of_two() || under > 1024 || under == 1 {
        return None;
    }
    while over % 2 == 0 && under > 1 {
        over /= 2;
        under /= 2;
    }
    Some(Fraction { whole, over, under })
}

impl Fraction {
    /// In lowest terms, and as its decimal, which ends.
    fn words(&self) -> Vec<String> {
        let Fraction { whole, over, under } = self;
        let lowest = match (whole, under) {
            (_, 1) => (whole + over).to_string(),
            (0, _) => format!("{over}/{under}"),
            _ => format!("{whole}-{over}/{under}"),
        };
        // Ten places hold every fraction down to 1/1024.
        let places = 10_000_000_000 / under * over;
        let (more, places) = (places / 10_000_000_000, places % 10_000_000_000);
        let decimal = decimal(&format!("{}.{places:010}", whole + more));
        std::iter::once(lowest).chain(decimal).collect()
    }
}

/// One word that is asked for: any of several ways of saying it, each of which may be more words than one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// The ways; each is words that must all be there.
    pub ways: Vec<Vec<Term>>,
}

/// A word, and whether it may go on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// The word.
    pub word: String,
    /// Whether a longer one that begins with it is meant too.
    pub begins: bool,
}

/// What somebody asks for, word by word; all of them are wanted.
pub fn wanted(asked: &str) -> Vec<Wanted> {
    let chunks = chunks(asked);
    let mut all: Vec<Wanted> = Vec::new();
    for (at, chunk) in chunks.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| chunks.get(at));
        if let Some(joined) = joined(before, chunk).into_iter().next() {
            // The word before is part of it.
            all.pop();
            all.push(Wanted::of(&[joined]));
            continue;
        }
        // `5/32 in` asks for the size: what was read may have its unit against it, or none.
        let is_figure = |it: &String| fraction(bare(it)).is_some() || decimal(bare(it)).is_some();
        if UNITS.contains(&chunk.as_str()) && before.is_some_and(is_figure) {
            continue;
        }
        let mut pieces = pieces_of(chunk);
        let first = if pieces.is_empty() {
            continue;
        } else {
            pieces.remove(0)
        };
        let is_code = first == *chunk && pieces.len() > 1;
        let mut wanted = Wanted::of(&[first]);
        // `b-203` reads like a number people call a thing by, and may be the end of a drawing's.
        if tag(chunk).is_some() && chunk.contains('-') {
            let parts: Vec<String> = chunk.split('-').map(String::from).collect();
            wanted.ways.push(terms(&parts));
        }
        if is_code {
            let together = pieces.pop().into_iter().collect::<Vec<_>>();
            wanted
                .ways
                .extend([together, pieces].iter().map(|way| terms(way)));
        }
        all.push(wanted);
    }
    all
}

fn terms(way: &[String]) -> Vec<Term> {
    let term = |word: &String| Term {
        word: word.clone(),
        begins: word.chars().count() > 2
            && word.chars().any(char::is_alphabetic)
            && tag(word).is_none(),
    };
    way.iter().map(term).collect()
}

impl Wanted {
    fn of(way: &[String]) -> Wanted {
        Wanted {
            ways: vec![terms(way)],
        }
    }

    /// Whether any of these words is it.
    fn is_in(&self, words: &[String]) -> bool {
        let fits = |term: &Term| {
            let fits =
                |word: &String| *word == term.word || (term.begins && word.starts_with(&term.word));
            words.iter().any(fits)
        };
        self.ways.iter().any(|way| way.iter().all(fits))
    }
}

/// Whether a text says all that is wanted.
pub fn says(text: &str, wanted: &[Wanted]) -> bool {
    let words = pieces(text);
    wanted.iter().all(|it| it.is_in(&words))
}

/// Where in a row what is wanted stands: the field and what it says there, of the field that says most of it.
pub fn stands_in(text: &str, wanted: &[Wanted]) -> Option<(String, String)> {
    let row: Value = serde_json::from_str(text).ok()?;
    let mut best: Option<(usize, String, String)> = None;
    each_leaf(&row, "", &mut |field, leaf| {
        let Leaf::Text(said) = leaf else { return };
        let words = pieces(said);
        let count = wanted.iter().filter(|it| it.is_in(&words)).count();
        if count > best.as_ref().map_or(0, |(count, ..)| *count) {
            best = Some((count, field.to_string(), said.to_string()));
        }
    });
    best.map(|(_, field, said)| (field, said))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn finds(asked: &str, said: &str) -> bool {
        let words = pieces(said);
        let wanted = wanted(asked);
        !wanted.is_empty() && wanted.iter().all(|it| it.is_in(&words))
    }

    #[test]
    fn what_a_person_means_is_found_however_it_was_written() {
        for (asked, said) in [
            ("5/32", "seat-land 5/32in by dividers"),
            ("10/64", "5/32 in"),
            ("5/32 in", "10/64"),
            (".15625", "5/32 in"),
            ("1-1/32", "tapped 1 1/32 in, 12 threads"),
            ("1 1/32 in", "tapped 1-1/32in"),
            ("1.03125", "1-1/32 in"),
            (".412", "seat-wall 0.4120in"),
            ("0.412", ".412in"),
            ("6.464", "6.4640in"),
            ("14-B-203", "drawing 14-b-203."),
            ("14b203", "14-B-203"),
            ("b-203", "14-B-203"),
            ("side rod", "right intermediate side-rod bushing"),
            ("side-rod", "side rod"),
            ("siderod", "side-rod"),
            ("bush", "bushing"),
            ("F-001", "see f-1"),
            ("f1", "F-001"),
            ("m-12", "depth micrometer M-12"),
            ("#7", "old No. 7 check"),
            ("No. 7", "old #7 check"),
            ("7", "old #7 check"),
            ("us-steam.daily.rods", "us-steam.daily.rods"),
            ("rods", "us-steam.daily.rods"),
            ("2026-04-11", "promised 2026-04-11"),
            ("glass", "(glass)"),
            ("Straße", "an der STRAßE"),
        ] {
            assert!(
                finds(asked, said),
                "{asked} in {said}: {:?} {:?}",
                wanted(asked),
                pieces(said)
            );
        }
    }

    #[test]
    fn what_is_not_meant_is_not_found() {
        for (asked, said) in [
            ("5/32", "5/64 in, 32 of them"),
            ("32", "5/32 in"),
            ("1/32", "1-1/32 in by gauge"),
            ("f1", "F-010"),
            ("#7", "7 bolts"),
            ("412", ".412in"),
            ("glass gasket", "glass"),
            ("", "anything"),
            ("...", "..."),
        ] {
            assert!(!finds(asked, said), "{asked} in {said}");
        }
    }

    #[test]
    fn no_text_breaks_it_and_no_word_holds_what_the_index_would_cut() {
        for text in [
            "",
            "/",
            "-/-",
            "1/0",
            "0/8",
            "99999999999999999999/8",
            "#",
            "##7",
            "\u{301}a",
            "a_b",
            "\"x\" OR y*",
            "1-2-3/4",
            "½ in",
        ] {
            for word in pieces(text).into_iter().chain(
                wanted(text)
                    .into_iter()
                    .flat_map(|it| it.ways)
                    .flatten()
                    .map(|it| it.word),
            ) {
                assert!(!word.is_empty(), "{text}");
                assert!(
                    word.chars()
                        .all(|c| !c.is_ascii() || c.is_ascii_alphanumeric() || "-./#".contains(c)),
                    "{text}: {word}"
                );
            }
        }
    }
}
