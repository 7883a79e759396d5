//! Rules of the shop's own work, stricter than the law: an officer states that one holds, and it binds from that day.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{Authority, Book, Job, PersonId, ShopRuleStated, Statement};
use crate::locomotive::with_authority;

/// Whoever did a repair does not certify it.
pub const ANOTHER_CERTIFIES: &str = "another-certifies";

/// The days ahead may be read without signing in.
pub const WALL_AHEAD: &str = "wall-ahead";
/// The days by which inspections are due may be read without signing in.
pub const WALL_DATES: &str = "wall-dates";

/// Every rule a shop can give itself, with its meaning. The law asks for none of them.
pub const SHOP_RULES: &[(&str, &str)] = &[
    (
        ANOTHER_CERTIFIES,
        "whoever did an operation of a job or signed it as repairer does not sign it as inspector or approver",
    ),
    (
        WALL_AHEAD,
        "anybody on the shop's network reads on /wall/ahead, without signing in, which engine is promised on which day and what kind \
         of thing stops her; no name, nothing anybody wrote, no form",
    ),
    (
        WALL_DATES,
        "anybody on the shop's network reads on /wall/dates, without signing in, by which day each inspection is due; no name, nothing \
         anybody wrote, no form",
    ),
];

/// States that a rule of the shop's own work holds from a day on, or holds no more.
///
/// # Errors
/// Refused: the person may not approve, or it is so already. Input: there is no such rule, or no reason is given.
pub fn state_shop_rule(
    book: &Book,
    word: &str,
    holds: bool,
    because: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "say how this shop works", on)?;
    let word = word.trim();
    if !SHOP_RULES.iter().any(|(known, _)| *known == word) {
        let known: Vec<_> = SHOP_RULES.iter().map(|(known, _)| *known).collect();
        return Err(Refusal::input(format!(
            "There is no shop rule `{word}`: {} was expected.",
            known.join(" or ")
        )));
    }
    let because = because.trim();
    if because.is_empty() {
        return Err(Refusal::input(
            "Say why, and which paper of the shop says so.",
        ));
    }
    let shop = book.shop.as_ref();
    let stands = shop.and_then(|shop| shop.rule(word, on));
    if stands.is_some() == holds {
        return Err(Refusal::refused(match stands {
            Some(rule) => format!(
                "`{word}` holds already, since {}: {}.",
                rule.on, rule.told.because
            ),
            None => format!("`{word}` does not hold in this shop; there is nothing to end."),
        }));
    }
    Ok(vec![Statement::ShopRuleStated(ShopRuleStated {
        word: word.into(),
        holds,
        because: because.into(),
    })])
}

/// Refuses a signature that would make one person the fixer and the certifier of a job, where the shop forbids that.
pub(super) fn another_certifies(
    book: &Book,
    job: &Job,
    capacity: Authority,
    by: PersonId,
    on: Date,
) -> Result<(), Refusal> {
    let shop = book.shop.as_ref();
    let Some(rule) = shop.and_then(|shop| shop.rule(ANOTHER_CERTIFIES, on)) else {
        return Ok(());
    };
    let did = job.operations.iter().position(|step| {
        let done = step.done.as_ref();
        done.is_some_and(|(_, person, ..)| *person == by)
    });
    let signed = |as_what: Authority| {
        let all = &job.signatures;
        all.iter().any(|s| s.by == by && s.capacity == as_what)
    };
    let why = match (capacity, did) {
        (Authority::Repair, _) => [Authority::Inspect, Authority::Approve]
            .into_iter()
            .find(|it| signed(*it))
            .map(|it| format!("signed as {}", it.signer())),
        (_, Some(at)) => Some(format!("did operation {}", at + 1)),
        (_, None) => signed(Authority::Repair).then(|| "signed as repairer".to_string()),
    };
    let Some(why) = why else { return Ok(()) };
    let name = book.persons.get(&by).map_or("?", |p| p.name.as_str());
    Err(Refusal::refused(format!(
        "{name} {why} in J-{:03} and does not sign it as {}: by this shop's rule `{ANOTHER_CERTIFIES}` of {} somebody else does.",
        job.number,
        capacity.signer(),
        rule.on
    ))
    .todo(format!("the rule says: {}", rule.told.because)))
}
