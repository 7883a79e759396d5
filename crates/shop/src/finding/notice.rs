//! An inspector's special notice: who gave it, and that only the authority that gave it lifts it.
//!
//! Under 49 CFR 230.12(e) an engine under a special notice moves only as that notice allows. So a finding that hangs
//! on one stops her until the same office has lifted it, whatever the shop did about the finding itself.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{
    Authority, Book, Finding, FindingId, NoticeGiven, NoticeLifted, Occasion, PersonId, Statement,
};
use crate::locomotive::{finding_of, with_authority};

/// The lifting of a special notice, to be recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewLifting {
    /// The finding that hangs on the notice.
    pub finding: FindingId,
    /// Who lifted it.
    pub name: String,
    /// For which office.
    pub office: String,
    /// On which day.
    pub day: Date,
    /// The paper that says so.
    pub document: String,
}

/// Who gave a notice, where there is one to give.
pub(super) fn given(
    occasion: &Occasion,
    notice: Option<NoticeGiven>,
) -> Result<Option<NoticeGiven>, Refusal> {
    match (occasion, notice) {
        (Occasion::SpecialNotice, None) => Err(Refusal::input(
            "A special notice needs who gave it: the name, the office and the paper were expected.",
        )),
        (Occasion::SpecialNotice, Some(notice)) => {
            let notice = NoticeGiven {
                name: filled(&notice.name, "the name of who gave the notice")?,
                office: filled(&notice.office, "the office that gave the notice")?,
                document: filled(&notice.document, "the paper of the notice")?,
            };
            Ok(Some(notice))
        }
        (_, None) => Ok(None),
        (_, Some(_)) => Err(Refusal::input(
            "Only a special notice has somebody who gave it: the occasion special-notice was expected.",
        )),
    }
}

fn filled(text: &str, what: &str) -> Result<String, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Refusal::input(format!("Nothing is said of {what}.")));
    }
    Ok(text.to_string())
}

/// Records that a special notice was lifted. Who enters it answers for having the paper in hand.
///
/// # Errors
/// Refused: the finding hangs on no notice; it is lifted already; one of this shop's own people, or another office
/// than the one that gave it, is named as lifting it; the one who enters it may not approve. Input: name, office or
/// paper is missing, or the day lies before the notice or ahead.
pub fn lift(
    book: &Book,
    new: NewLifting,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let finding = finding_of(book, new.finding)?;
    with_authority(
        book,
        by,
        Authority::Approve,
        "enter the lifting of a special notice",
        on,
    )?;
    let tag = format!("F-{:03}", finding.number);
    if finding.occasion != Occasion::SpecialNotice {
        return Err(Refusal::refused(format!(
            "{tag} hangs on no special notice; there is nothing to lift."
        )));
    }
    if let Some(lifted) = &finding.lifted {
        return Err(Refusal::refused(format!(
            "The special notice of {tag} was lifted on {} by {}, {}.",
            lifted.day, lifted.name, lifted.office
        )));
    }
    let name = filled(&new.name, "who lifted the notice")?;
    let office = filled(&new.office, "the office for which it was lifted")?;
    let document = filled(&new.document, "the paper that lifts it")?;
    let same = |a: &str, b: &str| a.trim().eq_ignore_ascii_case(b.trim());
    if book
        .persons
        .values()
        .any(|person| same(&person.name, &name))
    {
        return Err(Refusal::refused(format!(
            "{name} is of this shop: the special notice of {tag} is lifted by the authority that gave it, not by us."
        )));
    }
    if let Some(given) = &finding.notice
        && !same(&given.office, &office)
    {
        return Err(Refusal::refused(format!(
            "{name} of {office} does not lift the special notice of {tag}: it was given by {}, {}.",
            given.name, given.office
        ))
        .todo(format!("the word of {} was expected", given.office)));
    }
    if new.day < finding.found_on || new.day > on {
        return Err(Refusal::input(format!(
            "A notice of {} is lifted on a day from then through {on}; {} was given.",
            finding.found_on, new.day
        )));
    }
    Ok(vec![Statement::NoticeLifted(NoticeLifted {
        finding: new.finding,
        name,
        office,
        day: new.day,
        document,
    })])
}

/// Who must lift the notice a finding hangs on, in words, if it still stands on a day.
pub fn unlifted(finding: &Finding, on: Date) -> Option<String> {
    let stands = finding.occasion == Occasion::SpecialNotice
        && finding.lifted.as_ref().is_none_or(|it| it.day > on);
    stands.then(|| match &finding.notice {
        Some(given) => format!(
            "the special notice of {}, {}, is not lifted",
            given.name, given.office
        ),
        None => "the special notice is not lifted by the authority that gave it".to_string(),
    })
}
