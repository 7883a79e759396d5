//! Who held a rule against the official text, and what that makes of it.
//!
//! A version of a rule is *checked by this shop* once two people who may inspect have held it, as this program has
//! it today, against the official text and found that it agrees. One who finds that it differs undoes that until
//! they find otherwise, or until two others have looked after them. (`docs/decisions/0020-two-people-hold-a-rule.md`)

use jiff::civil::Date;
use rules::{Origin, Rule, Rulebook, Version};

use super::{rule, with_authority};
use crate::Refusal;
use crate::book::{Authority, Book, Holding, PersonId, RuleHeld, Statement};

/// How many people it takes.
const PEOPLE: usize = 2;

/// What this shop's people make of one version of a rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Checking<'b> {
    /// Two people or more found that it agrees: who, in the order they did.
    Checked(Vec<&'b Holding>),
    /// Fewer did: nobody, or one.
    Not(Option<&'b Holding>),
    /// Somebody found that it differs, and nobody has settled that.
    Differs(Vec<&'b Holding>),
}

impl Checking<'_> {
    /// Whether two people stand behind it.
    pub fn is_checked(&self) -> bool {
        matches!(self, Checking::Checked(_))
    }
}

/// A rule to be held against the official text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NewHolding<'a> {
    /// The rule.
    pub rule: &'a str,
    /// Its version; that in force on the day of the entry, if not told.
    pub version: Option<u32>,
    /// The text it was held against, with its edition or its day.
    pub against: &'a str,
    /// Whether the text says the same.
    pub agrees: bool,
    /// What was read there; where it does not agree, what differs.
    pub seen: &'a str,
}

/// Records that somebody held a rule against the official text.
///
/// # Errors
/// Refused: the person may not inspect; they took the rule into the book themselves; or what they said of it stands
/// already. Input: no such rule or version, no text with a year or a day, or nothing said of what was read.
pub fn hold_rule(
    book: &Book,
    rules: &Rulebook,
    new: NewHolding<'_>,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let known = rule(book, rules, new.rule.trim())?;
    let version = match new.version {
        None => known.on(on)?,
        Some(number) => version(known, number).ok_or_else(|| {
            let numbers: Vec<_> = known
                .versions
                .iter()
                .map(|v| v.number.to_string())
                .collect();
            Refusal::input(format!(
                "`{}` has no version {number}: {} was expected.",
                known.id,
                numbers.join(" or ")
            ))
        })?,
    };
    with_authority(
        book,
        by,
        Authority::Inspect,
        "hold a rule against the official text",
        on,
    )?;
    let against = new.against.trim();
    edition(against, on)?;
    let seen = new.seen.trim();
    if seen.is_empty() {
        return Err(Refusal::input(match new.agrees {
            true => {
                "Say what you read in the official text: its section and its figure were expected."
            }
            false => {
                "Say what differs: the words or the figure of the official text were expected."
            }
        }));
    }
    let name = |id| book.persons.get(&id).map_or("?", |p| p.name.as_str());
    if typed_by(book, rules, known, version) == Some(by) {
        return Err(Refusal::refused(format!(
            "{} took {}, version {}, into this book; a slip of one's own is easily read over.",
            name(by),
            known.id,
            version.number
        ))
        .todo("two others hold it against its text"));
    }
    let as_told = version.as_told();
    let all = holdings(book, &known.id, version);
    if let Some(last) = all.iter().rfind(|held| held.by == by) {
        let same = last.told.agrees == new.agrees && last.told.against == against;
        let doubted = all
            .iter()
            .any(|held| held.by != by && held.entry > last.entry && !held.told.agrees);
        if same && !doubted {
            return Err(Refusal::refused(format!(
                "{} has held {}, version {}, against {against} on {}: it stands (entry {}).",
                name(by),
                known.id,
                version.number,
                last.on,
                last.entry
            ))
            .todo("the second look is another person's"));
        }
    }
    Ok(vec![Statement::RuleHeld(RuleHeld {
        rule: known.id.clone(),
        version: version.number,
        as_told,
        against: against.into(),
        agrees: new.agrees,
        seen: seen.into(),
    })])
}

/// Refuses a text without its edition or day: a rule is held against one print of the law, not against the law.
fn edition(against: &str, on: Date) -> Result<(), Refusal> {
    let words = || against.split(|c: char| !(c.is_ascii_digit() || c == '-'));
    let year = |word: &str| {
        word.split('-')
            .any(|part| part.len() == 4 && (part.starts_with('1') || part.starts_with('2')))
    };
    if !words().any(year) {
        return Err(Refusal::input(format!(
            "`{against}` does not say which text: one with its edition or its day was expected, such as `eCFR of {on}`."
        )));
    }
    let ahead = words()
        .filter_map(|word| word.parse::<Date>().ok())
        .find(|day| *day > on);
    match ahead {
        Some(day) => Err(Refusal::input(format!(
            "The text of {day} has not been published on {on}: one of that day or before was expected."
        ))),
        None => Ok(()),
    }
}

fn version(rule: &Rule, number: u32) -> Option<&Version> {
    rule.versions.iter().find(|v| v.number == number)
}

/// Who took a version into the book, where the shop wrote it: the one who entered the first text that holds it.
fn typed_by(book: &Book, rules: &Rulebook, rule: &Rule, wanted: &Version) -> Option<PersonId> {
    if rule.origin == Origin::Law {
        return None;
    }
    let kept = book.rule_sets.get(&rule.jurisdiction)?;
    let holds = |edition: &&crate::book::Edition| {
        let read = edition.rules(rules).ok();
        let of_it = read.and_then(|set| set.rules.rule(&rule.id).ok());
        of_it.is_some_and(|known| version(known, wanted.number).is_some())
    };
    kept.editions.iter().find(holds).map(|edition| edition.by)
}

/// Everybody's word on a version as it is told today, in the order entered. What was said of an earlier wording is
/// not among them.
pub fn holdings<'b>(book: &'b Book, rule: &str, version: &Version) -> Vec<&'b Holding> {
    of_version(book, rule, version, true)
}

/// Everybody's word on a version as it was told once and is told no more, in the order entered.
pub fn held_before_it_changed<'b>(
    book: &'b Book,
    rule: &str,
    version: &Version,
) -> Vec<&'b Holding> {
    of_version(book, rule, version, false)
}

/// Everybody's word on a version, as it is told today or as it no longer is. Most rules were held by nobody, and what
/// they say is not told for that.
fn of_version<'b>(book: &'b Book, rule: &str, version: &Version, today: bool) -> Vec<&'b Holding> {
    let Some(all) = book.rules_held.get(rule) else {
        return Vec::new();
    };
    let told = version.as_told();
    let of_it = |held: &&Holding| held.told.version == version.number;
    all.iter()
        .filter(of_it)
        .filter(|held| (held.told.as_told == told) == today)
        .collect()
}

/// What this shop's people make of a version. Each person's last word stands for them.
pub fn checking<'b>(book: &'b Book, rule: &str, version: &Version) -> Checking<'b> {
    let all = holdings(book, rule, version);
    let last = |held: &&Holding| {
        all.iter().rfind(|it| it.by == held.by).map(|it| it.entry) == Some(held.entry)
    };
    let (agree, differ): (Vec<_>, Vec<_>) = all
        .iter()
        .copied()
        .filter(last)
        .partition(|held| held.told.agrees);
    let settled = |held: &&Holding| {
        let after = agree.iter().filter(|it| it.entry > held.entry);
        after.count() >= PEOPLE
    };
    let open: Vec<_> = differ.into_iter().filter(|held| !settled(held)).collect();
    if !open.is_empty() {
        return Checking::Differs(open);
    }
    if agree.len() >= PEOPLE {
        return Checking::Checked(agree);
    }
    Checking::Not(agree.first().copied())
}

/// As [`checking`], of a version by its rule's id and its number. A version that is not on file was held by nobody.
pub fn checking_of<'b>(book: &'b Book, rules: &Rulebook, id: &str, number: u32) -> Checking<'b> {
    let known = rule(book, rules, id).ok();
    match known.and_then(|known| version(known, number)) {
        Some(version) => checking(book, id, version),
        None => Checking::Not(None),
    }
}
