//! Who is in the shop, and who is authorised for what, by whom and until when.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{
    Authority, AuthorityStated, Book, Person, PersonAdded, PersonId, Standing, Statement,
};

/// Adds a person.
///
/// # Errors
/// Input: no name, or one the book has. Refused: the one who adds is not an officer.
pub fn add_person(
    book: &Book,
    new: PersonAdded,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "say who may do what", on)?;
    let name = new.name.trim();
    if name.is_empty() {
        return Err(Refusal::input("A person needs the name they sign with."));
    }
    if book
        .persons
        .values()
        .any(|p| p.name.eq_ignore_ascii_case(name))
    {
        return Err(Refusal::input(format!("{name} is in this book already.")));
    }
    let mut may = new.may;
    may.sort_unstable();
    may.dedup();
    Ok(vec![Statement::PersonAdded(PersonAdded {
        id: new.id,
        name: name.into(),
        may,
        trade: new.trade.as_deref().and_then(said),
    })])
}

/// States that a person is given an authority for a time, or that it is taken back.
///
/// # Errors
/// Refused: the one who states it is not an officer, or nobody would be left who may approve without end.
/// Input: no such person, no document, a last day before the first, or something taken back that is not held.
pub fn state_authority(
    book: &Book,
    new: AuthorityStated,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "say who may do what", on)?;
    let person = book
        .persons
        .get(&new.person)
        .ok_or_else(|| Refusal::input("There is no such person in this book."))?;
    let word = new.authority.word();
    let Some(document) = said(&new.document) else {
        return Err(Refusal::input(if new.given {
            "Say which document gives the authority: a letter, a certificate, a minute of a meeting."
        } else {
            "Say why the authority is taken back, or which document says so."
        }));
    };
    if let Some(last) = new.through
        && last < new.from
    {
        return Err(Refusal::input(format!(
            "The last day, {last}, lies before the first, {}.",
            new.from
        )));
    }
    if !new.given && !person.holds(new.authority, new.from) {
        return Err(Refusal::input(format!(
            "{} does not hold the authority `{word}` on {}, so there is nothing to take back.",
            person.name, new.from
        )));
    }
    let without_end = |p: &Person| match p.standing(Authority::Approve, Date::MAX) {
        Standing::Added => true,
        Standing::Held(kept) => kept.through.is_none(),
        _ => false,
    };
    let ends = !new.given || new.through.is_some();
    let others = book
        .persons
        .iter()
        .any(|(id, p)| *id != new.person && without_end(p));
    if new.authority == Authority::Approve && ends && !others {
        return Err(Refusal::refused(format!(
            "{} is the only one who may approve without an end: after that nobody could say who may do what.",
            person.name
        ))
        .todo("give somebody else the authority `approve` without a last day first"));
    }
    Ok(vec![Statement::AuthorityStated(AuthorityStated {
        document,
        within: new.within.as_deref().and_then(said),
        ..new
    })])
}

/// What was said, if anything was.
pub(crate) fn said(text: &str) -> Option<String> {
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_string())
}

/// A person who must hold an authority on the day of an act.
///
/// # Errors
/// Refused if they do not, naming the reason and who does.
pub fn with_authority(
    book: &Book,
    id: PersonId,
    needed: Authority,
    act: &str,
    on: Date,
) -> Result<(), Refusal> {
    let kept = book.persons.get(&id);
    let standing = kept.map_or(Standing::Never, |p| p.standing(needed, on));
    if standing.holds() {
        return Ok(());
    }
    let name = kept.map_or("somebody unknown", |p| p.name.as_str());
    let word = needed.word();
    let by = |by: PersonId| book.persons.get(&by).map_or("?", |p| p.name.as_str());
    let why = match standing {
        Standing::Expired(was) => format!(
            "{name} has no authority to {act} on {on}: `{word}` ended on {} ({}).",
            was.through.unwrap_or(was.from),
            was.document
        ),
        Standing::Withdrawn(was) => format!(
            "{name} has no authority to {act} on {on}: `{word}` was taken back from {} by {} ({}).",
            was.from,
            by(was.by),
            was.document
        ),
        Standing::NotYet(was) => format!(
            "{name} has no authority to {act} on {on}: `{word}` begins on {}.",
            was.from
        ),
        _ => format!("{name} has no authority to {act}: it takes the authority `{word}`."),
    };
    let mut who: Vec<_> = book
        .persons
        .values()
        .filter(|p| p.holds(needed, on))
        .map(|p| p.name.as_str())
        .collect();
    who.sort_unstable();
    let who = if who.is_empty() {
        "nobody yet".to_string()
    } else {
        who.join(", ")
    };
    let refusal = Refusal::refused(why).todo(format!("in this book it is held by: {who}"));
    Err(match standing {
        Standing::Expired(_) | Standing::Withdrawn(_) => {
            refusal.todo("an officer who has seen the new document can state the authority anew")
        }
        _ => refusal,
    })
}
